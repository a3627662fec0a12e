"""The description of answers and the answers agree: nothing is answered that is not described, and
nothing is described that is not answered."""

from __future__ import annotations

import importlib.util
import json
import re
import sys
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from types import ModuleType
from typing import Any

import answer_requests
import jsonschema
from c_header import ROOT
from door import Door


def tool() -> ModuleType:
    """libfeed/tools/answer_pages.py as a module."""
    path = ROOT / "libfeed" / "tools" / "answer_pages.py"
    spec = importlib.util.spec_from_file_location("answer_pages", path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["answer_pages"] = module
    spec.loader.exec_module(module)
    return module


pages = tool()
TABLES = pages.read()
SCHEMA = json.loads((ROOT / "data/schema/answers.schema.json").read_text(encoding="utf-8"))

# What is described and not seen here, with the reason.
RARE: dict[str, str] = {
    "balance_status: failed": "a solver that gave up would be a bug",
    "error_code: bad_argument": "of the command and of C: a request is JSON",
    "error_code: failed": "of C: what has no code of its own",
    "error_code: internal": "would be a bug",
    "error_code: not_readable": "of the command: the door reads no file",
    "error_code: not_utf8": "a request that is no text; test_door.py sends one",
    "error_code: not_writable": "of the command: the door writes no file",
    "error_code: out_of_memory": "cannot be asked for",
    "error_code: unknown_property": "of C and Python: properties by number or name",
}

Seen = Counter[str]
Answered = list[tuple[dict[str, Any], dict[str, Any]]]


def fits(name: str, answer: Any) -> bool:
    """Whether an object has the fields of a shape, and no others."""
    if "either" in TABLES.shapes[name]:
        return any(fits(one, answer) for one in TABLES.shapes[name]["either"])
    fields = TABLES.fields(name)
    needed = {key for key, field in fields.items() if "absent" not in field}
    return isinstance(answer, dict) and needed <= answer.keys() <= fields.keys()


def look(name: str, answer: Any, seen: Seen) -> None:
    """Counts fields, null and absent ones, and words."""
    for one in name.split(pages.OR):
        if one.startswith(pages.LIST) and isinstance(answer, list):
            for item in answer:
                look(one.removeprefix(pages.LIST), item, seen)
        elif one in TABLES.words:
            seen[f"{one}: {answer}"] += 1
        elif one in TABLES.shapes and isinstance(answer, dict):
            for kind in TABLES.shapes[one].get("either", []):
                if fits(kind, answer):
                    look(kind, answer, seen)
            if "either" not in TABLES.shapes[one]:
                look_at_fields(one, answer, seen)


def place_of(shape: str, key: str) -> str:
    """A field by the shape that it is written in: its own, or the one that it is like."""
    about = TABLES.shapes[shape]
    inherited = "like" in about and key in TABLES.fields(about["like"])
    return place_of(about["like"], key) if inherited else f"{shape}.{key}"


def look_at_fields(shape: str, answer: dict[str, Any], seen: Seen) -> None:
    for key, field in TABLES.fields(shape).items():
        place = place_of(shape, key)
        if key not in answer:
            seen[f"{place} absent"] += 1
        elif answer[key] is None:
            seen[f"{place} null"] += 1
        else:
            seen[place] += 1
            look(field["is"], answer[key], seen)


def described() -> set[str]:
    """What `look` counts when all of the description is answered."""
    all_of: set[str] = set()
    for shape, about in TABLES.shapes.items():
        if "either" in about:
            continue
        for key, field in TABLES.fields(shape).items():
            place = place_of(shape, key)
            all_of.add(place)
            all_of |= {f"{place} {when}" for when in ("null", "absent") if when in field}
    for name, words in TABLES.words.items():
        all_of |= {f"{name}: {word}" for word in words["of"]}
    return all_of


def answered(build_dir: Path, folder: Path) -> Answered:
    """Requests and their answers."""
    door = Door(build_dir)
    rows = door.answer(verb="table")["feedstocks"]
    requests = answer_requests.all_requests(folder, rows)
    with ThreadPoolExecutor(2) as pool:
        texts = list(pool.map(lambda one: door.text(**one), requests))
    return [(one, json.loads(text)) for one, text in zip(requests, texts, strict=True)]


def assert_as_described(all_of: Answered) -> None:
    checks = {
        name: jsonschema.Draft202012Validator({"$ref": f"#/$defs/{name}", "$defs": SCHEMA["$defs"]})
        for name in ["errors", *map(pages.answer_name, TABLES.verbs)]
    }
    for request, answer in all_of:
        name = "errors" if "errors" in answer else pages.answer_name(request["verb"])
        slip = jsonschema.exceptions.best_match(checks[name].iter_errors(answer))
        assert slip is None, f"{name} at {slip.json_path}: {slip.message[:300]}"


def assert_all_is_answered(all_of: Answered) -> None:
    seen: Seen = Counter()
    for request, answer in all_of:
        shapes = ["errors"] if "errors" in answer else TABLES.answer(request["verb"])
        for shape in shapes:
            if shape in pages.BASES or fits(shape, answer):
                look(shape, answer, seen)
    assert sorted(described() - seen.keys() - RARE.keys()) == []
    assert sorted(key for key in RARE if key in seen) == [], "no longer rare"
    assert sorted(RARE.keys() - described()) == [], "no longer described"


def test_answers_are_as_described_and_all_that_is_described_is_answered(
    build_dir: Path, tmp_path: Path
) -> None:
    """One test: what is asked takes the time, and workers would each ask it."""
    all_of = answered(build_dir, tmp_path)
    assert len(all_of) > 700
    assert_as_described(all_of)
    assert_all_is_answered(all_of)


def test_the_generated_files_are_those_of_the_description() -> None:
    for path, text in pages.pages().items():
        assert path.read_text(encoding="utf-8") == text, "run libfeed/tools/answer_pages.py"
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_what_is_asked_is_answered() -> None:
    requests = json.loads((ROOT / "data/schema/request.schema.json").read_text(encoding="utf-8"))
    assert [one["title"] for one in requests["oneOf"]] == list(TABLES.verbs)


# Ends of names that say a unit, the longest that fits; what stands in none of them is said by the
# page, or has no unit.
UNITS = {
    "_kg_per_kg_worms": "kg/kg worms",
    "_g_n_per_kg": "g N/kg",
    "_g_citric_per_wet_kg": "g citric acid/kg",
    "_l_per_scraps_l": "L/L",
    "_g_citric": "g citric acid",
    "_g_caco3": "g CaCO3",
    "_kg_m3": "kg/m3",
    "_kg": "kg",
    "_g": "g",
    "_l": "L",
    "_m": "m",
    "_m2": "m2",
    "_c": "deg C",
    "_day": "days from today",
    "_days": "days",
    "_handfuls": "handfuls",
    "_share": "share",
    "_fraction": "share",
    "_ratio": "kg/kg",
}
# Said by the name of what a field stands in, or by a word of the trade.
SAID_ELSEWHERE = {
    "observe.rates_per_day",
    "trial_plan.last_day",
    "trial_plan.look_days",
    "trial_read.last_day",
    "trial_pair.time_ratio",
}
MUST_BE_NAMED = {"kg", "g", "L", "m", "m2", "deg C", "kg/m3", "g citric acid", "g N/kg"}


def test_a_unit_in_a_name_is_the_unit() -> None:
    slips = []
    for shape in TABLES.shapes:
        for key, field in TABLES.fields(shape).items():
            unit = field.get("unit")
            bare = re.sub("_(low|high)$", "", key)
            ends = [end for end in UNITS if bare.endswith(end)]
            named = UNITS[max(ends, key=len)] if ends else None
            if place_of(shape, key) in SAID_ELSEWHERE or unit == "of the field":
                continue
            if (named is not None and unit != named) or (unit in MUST_BE_NAMED and named != unit):
                slips.append(f"{shape}.{key}: {named} in its name, {unit} as described")
    assert slips == []


def test_a_number_has_its_unit() -> None:
    bare = [
        f"{shape}.{key}"
        for shape in TABLES.shapes
        for key, field in TABLES.fields(shape).items()
        if re.search("^(list of )?(number|whole|pair|.*quantity)$", field["is"])
        and "unit" not in field
    ]
    assert bare == []
