"""Every verb of the command gives the same answer through the one door, and nothing that comes
through it does harm."""

from __future__ import annotations

import ctypes
import json
import re
import subprocess
from datetime import date
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from c_header import ROOT
from command import call
from door import Door
from published_cases import all_cases, blend_content
from referencing import Registry, Resource

SCHEMA = json.loads((ROOT / "data/schema/request.schema.json").read_text(encoding="utf-8"))
FILE_SCHEMA = json.loads((ROOT / "data/schema/feed-file.schema.json").read_text(encoding="utf-8"))
VERBS: dict[str, dict[str, Any]] = {one["title"]: one for one in SCHEMA["oneOf"]}
EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))
TEXT = "libfeed: 1\nbed: {container: 60 L tote, worms: 1 lb, temperature: 20 C, date: 2026-03-14}\n"
BIN = {
    "libfeed": 1,
    "bed": {"container": "60 L tote", "worms": "500 g", "date": "2026-03-14"},
    "feedings": [{"date": "2026-03-15", "portions": ["300 g carrot"]}],
}


@pytest.fixture(scope="module")
def door(build_dir: Path) -> Door:
    return Door(build_dir)


def said(feed_command: Path, *words: str | Path) -> str:
    """What the command prints with --json, whatever its exit code. Long before any file: then it
    takes a file on the last day that it names, as the door does, which has no clock.
    """
    return call(feed_command, *words, "--json", code=None, today=date(2020, 1, 1)).stdout


FILE_VERBS = ["blend", "balance", "ration", "check", "forecast", "observe", "harvest", "worms"]
# Options of the command, and the members of a request that mean the same.
OPTIONS: dict[str, list[tuple[list[str], dict[str, Any]]]] = {
    "blend": [(["--units", "us"], {"units": "us"})],
    "balance": [(["--units", "us", "--date", "2026-04-02"], {"units": "us", "date": "2026-04-02"})],
    "ration": [
        (["--date", "2026-04-02"], {"date": "2026-04-02"}),
        (["--units", "us"], {"units": "us"}),
    ],
    "check": [
        (["--away", "3 weeks"], {"away": "3 weeks"}),
        (["--away", "1 year"], {"away": "1 year"}),
    ],
    "forecast": [
        (["--days", "9", "--units", "us"], {"days": 9, "units": "us"}),
        (["--date", "2026-04-02"], {"date": "2026-04-02"}),
    ],
    "observe": [],
    "worms": [(["--date", "2026-09-02"], {"date": "2026-09-02"})],
    "harvest": [
        (["--way", "half"], {"way": "half"}),
        (["--date", "2026-09-02", "--units", "us"], {"date": "2026-09-02", "units": "us"}),
    ],
}
OF_FILES = [
    (verb, path, words, members)
    for verb in FILE_VERBS
    for path in EXAMPLES
    for words, members in [([], {}), *OPTIONS[verb]]
]


def at_the_door(text: str) -> str:
    """An answer of the command with the door's names of options."""
    return re.sub(r'"field": "--(\w+)"', r'"field": "\1"', text)


@pytest.mark.parametrize(("verb", "path", "words", "members"), OF_FILES)
def test_a_file_gets_the_answer_of_the_command(
    verb: str, path: Path, words: list[str], members: dict[str, Any], door: Door, feed_command: Path
) -> None:
    text = path.read_text(encoding="utf-8")
    given = door.text(verb=verb, file=text, name=str(path), **members)
    assert given == at_the_door(said(feed_command, verb, path, *words))


YARD = sorted((ROOT / "examples" / "yard").glob("*.yaml"))
OF_HEAPS: list[tuple[list[str], dict[str, Any]]] = [
    ([], {}),
    (["--worms", "1 lb", "--units", "us"], {"worms": "1 lb", "units": "us"}),
    (["--date", "2026-06-02"], {"date": "2026-06-02"}),
    (["--worms", "many"], {"worms": "many"}),
]


@pytest.mark.parametrize("path", YARD, ids=lambda path: path.stem)
def test_a_heap_gets_the_answer_of_the_command(path: Path, door: Door, feed_command: Path) -> None:
    text = path.read_text(encoding="utf-8")
    content = yaml.load(text, Loader=yaml.BaseLoader)
    for words, members in OF_HEAPS:
        given = door.text(verb="heap", file=text, name=str(path), **members)
        assert given == at_the_door(said(feed_command, "heap", path, *words))
        if "errors" not in json.loads(given):
            assert json.loads(
                door.text(verb="heap", file=content, name=str(path), **members)
            ) == json.loads(given)
    things = ["40 buckets grass clippings", "60 buckets dry leaves", "wood chips"]
    assert door.text(verb="heap", things=things) == said(feed_command, "heap", *things)
    for verb in ("ration", "check", "forecast", "harvest", "observe"):
        given = door.text(verb=verb, file=text, name=str(path))
        assert given == said(feed_command, verb, path)
        assert "ask feed heap" in json.loads(given)["errors"][0]["message"]
    both = json.loads(door.text(verb="heap", file=text, things=things))
    assert both["errors"][0]["code"] == "contradiction"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_file_as_an_object_is_the_file(path: Path, door: Door) -> None:
    """Line and column differ; answers do not."""
    content = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    for verb in FILE_VERBS:
        as_text = json.loads(door.text(verb=verb, file=path.read_text(encoding="utf-8")))
        as_object = json.loads(door.text(verb=verb, file=content))
        if "errors" in as_text:
            assert as_object["errors"][0]["message"] == as_text["errors"][0]["message"]
        else:
            assert as_object == as_text, verb


def test_the_published_cases_get_the_answers_of_the_command(
    door: Door, feed_command: Path, tmp_path: Path
) -> None:
    cases = [one for one in all_cases(ROOT / "tests" / "cases") if one["call"] == "blend"]
    assert len(cases) > 5
    path = tmp_path / "case.json"
    for case in cases:
        path.write_text(json.dumps(blend_content(case)), encoding="utf-8")
        given = door.text(verb="blend", file=path.read_text(encoding="utf-8"), name=str(path))
        assert given == said(feed_command, "blend", path), case["id"]
    shown = {
        one["input"]["feedstock"]
        for one in all_cases(ROOT / "tests" / "cases")
        if one["call"] == "table_value"
    }
    for name in sorted(shown):
        assert door.text(verb="show", words=name) == said(feed_command, "show", name)


WORK = [
    (["bedding", "--share", "half"], {"change": "bedding", "share": "half"}),
    (["bedding", "--share", "all"], {"change": "bedding", "share": "all"}),
    (["flush"], {"change": "flush"}),
    (["dry"], {"change": "dry"}),
    (["split"], {"change": "split"}),
    (["move", "--temperature", "12 C"], {"change": "move", "temperature": "12 C"}),
    (["winter"], {"change": "winter"}),
    (["winter", "--temperature", "4 C"], {"change": "winter", "temperature": "4 C"}),
    (["away"], {"change": "away"}),
    (["away", "--away", "3 weeks"], {"change": "away", "away": "3 weeks"}),
]


@pytest.mark.parametrize(("words", "members"), WORK)
def test_work_on_a_bed_gets_the_answer_of_the_command(
    words: list[str], members: dict[str, Any], door: Door, feed_command: Path
) -> None:
    path = ROOT / "examples" / "balcony_tote.yaml"
    text = path.read_text(encoding="utf-8")
    given = door.text(verb="refresh", file=text, name=str(path), **members)
    assert given == at_the_door(said(feed_command, "refresh", path, "--change", *words))
    if words == ["away", "--away", "3 weeks"]:  # one advice on a time away
        assert given == said(feed_command, "check", path, "--away", "3 weeks")


WORMS = [
    (["2 kg apples, 500 g grounds a week"], {"scraps": "2 kg apples, 500 g grounds a week"}),
    (["--people", "4", "--coffee", "6"], {"people": 4, "coffee": 6}),
    (["--meals", "30", "--units", "us"], {"meals": 30, "units": "us"}),
    (["--people", "4", "--meals", "6"], {"people": 4, "meals": 6}),
    (
        ["--census", "12, 30, 7, 18", "--sample", "2 L of 40 L"],
        {"census": "12, 30, 7, 18", "sample": "2 L of 40 L"},
    ),
    (["--census", "12", "--sample", "2 L"], {"census": "12", "sample": "2 L"}),
    (
        ["1 kg carrot", "--worms", "1 lb", "--temperature", "12 C"],
        {"scraps": "1 kg carrot", "worms": "1 lb", "temperature": "12 C"},
    ),
    (["--bin", "60 L tote", "--worms", "lots"], {"bin": "60 L tote", "worms": "lots"}),
    ([], {}),
]  # fmt: skip


@pytest.mark.parametrize(("words", "members"), WORMS)
def test_worms_get_the_answer_of_the_command(
    words: list[str], members: dict[str, Any], door: Door, feed_command: Path
) -> None:
    assert door.text(verb="worms", **members) == at_the_door(said(feed_command, "worms", *words))
    path = ROOT / "examples" / "balcony_tote.yaml"
    text = path.read_text(encoding="utf-8")
    given = door.text(verb="worms", file=text, name=str(path), **members)
    assert given == at_the_door(said(feed_command, "worms", path, *words))


WORDS = [
    ("table", ["coffee"], {"words": "coffee"}),
    ("table", [], {}),
    ("table", ["qqqqq"], {"words": "qqqqq"}),
    ("show", ["banana", "peel"], {"words": "banana peel"}),
    ("show", ["plutonium"], {"words": "plutonium"}),
    ("blend", ["1.2 kg coffee grounds"], {"things": "1.2 kg coffee grounds"}),
    (
        "balance",
        ["3 apples", "a cup of coffee grounds"],
        {"things": ["3 apples", "a cup of coffee grounds"]},
    ),
    (
        "ration",
        ["--bin", "60 L tote", "--worms", "1 lb", "--squeeze", "damp", "3 apples"],
        {"bin": "60 L tote", "worms": "1 lb", "squeeze": "damp", "things": ["3 apples"]},
    ),
    (
        "ration",
        ["--worms", "1 furlong", "3 apples"],
        {"worms": "1 furlong", "things": ["3 apples"]},
    ),
    (
        "check",
        ["--temperature", "20 C", "500 g carrot"],
        {"temperature": "20 C", "things": ["500 g carrot"]},
    ),
    ("forecast", ["--days", "5", "500 g carrot"], {"days": 5, "things": ["500 g carrot"]}),
    ("signs", ["sour smell"], {"signs": ["sour smell"]}),
    ("signs", ["worms climbing, sour and flies"], {"signs": "worms climbing, sour and flies"}),
    ("signs", ["qwerty"], {"signs": ["qwerty"]}),
    ("version", [], {}),
]


@pytest.mark.parametrize(("verb", "words", "members"), WORDS)
def test_words_get_the_answer_of_the_command(
    verb: str, words: list[str], members: dict[str, Any], door: Door, feed_command: Path
) -> None:
    shown = said(feed_command, verb, *words)
    # A slip in a file's name is no food, and an option is written so: only the command says it.
    shown = shown.replace("; the name of a file ends in .yaml, .yml or .json", "")
    shown = re.sub(r'; write for instance --\w+ \\"[^"]*\\"', "", shown)
    shown = re.sub(r'"repairs": \[\s*"--\w+ [^\]]*\],\s*', "", shown)
    assert door.text(verb=verb, **members) == at_the_door(shown)


def test_the_bed_of_a_file_orders_the_causes_of_signs(door: Door, feed_command: Path) -> None:
    path = ROOT / "examples" / "balcony_tote.yaml"
    given = door.text(verb="signs", signs=["sour smell"], file=path.read_text(encoding="utf-8"))
    assert given == said(feed_command, "signs", "sour smell", "--bed", path)


def test_a_trial_is_planned_and_read(door: Door, feed_command: Path, tmp_path: Path) -> None:
    path = ROOT / "examples" / "rind_trial.yaml"
    text = path.read_text(encoding="utf-8")
    assert door.text(verb="trial plan", file=text, name=str(path)) == said(
        feed_command, "trial", "plan", path
    )
    seen = ROOT / "examples" / "rind_trial_seen.yaml"
    read = door.text(verb="trial read", file=seen.read_text(encoding="utf-8"), name=str(seen))
    assert read == said(feed_command, "trial", "read", seen)
    page = tmp_path / "page.html"
    call(feed_command, "trial", "plan", path, "--sheet", page, "--paper", "letter")
    planned = door.answer(verb="trial plan", file=text, sheet="html", paper="letter", yaml=True)
    assert planned["sheet"] == page.read_text(encoding="utf-8")
    assert planned["yaml"] == call(feed_command, "trial", "plan", path, "--yaml").stdout
    picture = tmp_path / "seen.svg"
    call(feed_command, "trial", "read", seen, "--svg", picture)
    shown = door.answer(verb="trial read", file=seen.read_text(encoding="utf-8"), svg=True)
    assert shown["svg"] == picture.read_text(encoding="utf-8")
    pages = door.answer(verb="trial plan", file=text, sheet="svg")["sheet"]
    assert len(pages) >= 2 and all(page.startswith("<svg") or "<svg" in page for page in pages)


def test_the_pages_of_a_forecast_come_as_texts(
    door: Door, feed_command: Path, tmp_path: Path
) -> None:
    path = ROOT / "examples" / "balcony_tote.yaml"
    text = path.read_text(encoding="utf-8")
    given = door.answer(verb="forecast", file=text, svg=True, sheet="html", days=14)
    files = [tmp_path / "bin.svg", tmp_path / "bin.html", tmp_path / "bin.txt"]
    plain = call(
        feed_command,
        "forecast",
        path,
        "--svg",
        files[0],
        "--sheet",
        files[1],
        "--days",
        "14",
        "--json",
    ).stdout
    assert given["svg"] == files[0].read_text(encoding="utf-8")
    assert given["sheet"] == files[1].read_text(encoding="utf-8")
    call(feed_command, "forecast", path, "--sheet", files[2])
    page = door.answer(verb="forecast", file=text, sheet="text")["sheet"]
    assert page == files[2].read_text(encoding="utf-8")
    for key in ("svg", "sheet"):
        del given[key]
    assert given == json.loads(plain)


@pytest.mark.parametrize(
    "words", ["fed 3 apples and a cup of coffee grounds", "half gone, smell sour", "qwerty"]
)
def test_a_note_gives_the_entry_to_add(
    words: str, door: Door, feed_command: Path, tmp_path: Path
) -> None:
    path = tmp_path / "bin.yaml"
    path.write_text(TEXT, encoding="utf-8")
    asked = {"verb": "note", "words": words, "date": "2026-03-20", "by": "Ada"}
    given = json.loads(door.text(file=TEXT, name=str(path), **asked))
    shown = json.loads(
        said(
            feed_command,
            "note",
            path,
            *words.split(),
            "--date",
            "2026-03-20",
            "--by",
            "Ada",
            "--force",
        )
    )
    if "errors" in shown:
        assert given == shown
        return
    assert given.pop("file_text") == path.read_text(encoding="utf-8")
    section, entry = given.pop("section"), given.pop("entry")
    assert given == shown
    written = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert written[section][-1] == entry
    # The same for a bin that an app keeps as an object: it adds the entry itself.
    content = yaml.load(TEXT, Loader=yaml.BaseLoader)
    as_object = door.answer(file=content, **asked)
    assert (as_object["section"], as_object["entry"]) == (section, entry)
    assert "file_text" not in as_object
    content.setdefault(section, []).append(entry)
    assert door.answer(verb="ration", file=content, date="2026-03-20") == door.answer(
        verb="ration", file=path.read_text(encoding="utf-8"), date="2026-03-20"
    )


def test_a_start_gives_the_text_of_the_file(door: Door, feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    shown = json.loads(
        said(
            feed_command,
            "start",
            path,
            "--container",
            "tote",
            "--size",
            "60 L",
            "--worms",
            "1 lb",
            "--date",
            "2026-03-14",
            "--force",
            "--title",
            "Balcony",
        )
    )
    given = door.answer(
        verb="start",
        container="tote",
        size="60 L",
        worms="1 lb",
        date="2026-03-14",
        title="Balcony",
    )
    assert shown.pop("started") == str(path)
    assert given == shown
    assert given["new_bin"]["rations"][0]["date"] > given["new_bin"]["worms_in"]["date"]
    lives = door.answer(verb="start", age="3 months", worms="1 lb", date="2026-03-14")
    assert lives["new_bin"] is None and "age: 3 months" in lives["text"]
    wrong = door.errors(b'{"verb": "start", "date": "2026-03-14", "worms": "1 furlong"}')
    assert wrong[0]["field"] == "worms"


# What only files, terminals and people have use for.
NOT_BEHIND_THE_DOOR = {"--json", "--help", "--why", "--numbers", "--strict", "--force"}
# The kinds of `feed table`: an app has each row's roles, stance and group to choose by.
NOT_BEHIND_THE_DOOR |= {"--fruit", "--scraps", "--manure", "--lime", "--little", "--never"}


def test_every_option_of_the_command_is_behind_the_door() -> None:
    listed = (ROOT / "bindings/cli/command_list.hpp").read_text(encoding="utf-8")
    table = (ROOT / "libfeed/include/feed/io/door_table.hpp").read_text(encoding="utf-8")
    options = set(re.findall(r'\{\s*"(--[\w-]+)"', listed))
    assert len(options) > 15
    behind = set(re.findall(r'"(--[\w-]+)"', table))
    assert options - behind == NOT_BEHIND_THE_DOOR
    assert behind <= options
    commands = set(re.findall(r'^    \{"(\w+)", "', listed, re.M))
    names = {verb.split()[0] for verb in VERBS}
    commands -= {"call"}  # the door itself
    assert commands <= names
    assert names - commands == {"schema"}


def test_the_schema_is_that_of_the_library(door: Door) -> None:
    """After a change: feed_pages door > data/schema/request.schema.json, and file_pages.py."""
    assert door.answer(verb="schema") == SCHEMA
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def example_of(verb: str, needed_only: bool = False) -> dict[str, Any]:
    form = VERBS[verb]
    members = {
        name: about["examples"][0]
        for name, about in form["properties"].items()
        if "examples" in about and (name in form["required"] or not needed_only)
    }
    if "file" in members:  # a file goes in place of what says the same without one
        for name in ("things", "bin", "worms", "temperature", "squeeze"):
            members.pop(name, None)
    members.pop("meals" if "people" in members else "", None)  # one in place of the other
    if verb.startswith("trial"):
        which = "rind_trial_seen" if verb == "trial read" else "rind_trial"
        members["file"] = (ROOT / "examples" / f"{which}.yaml").read_text(encoding="utf-8")
    return {"verb": verb, **members}


# The verbs that answer a file of a heap. Every other one that takes a file refuses it, a new one
# too: worms would get what belongs on a heap, or a keeper a zero for what nobody counted.
OF_A_HEAP = {"blend", "balance", "note", "heap"}
TAKES_FILES = [verb for verb, form in VERBS.items() if {"file", "bins"} & set(form["properties"])]
HEAP_SET = {"at_hand": ["9 kg grass clippings", "any dry leaves"], "targets": "hot-heap"}
HEAPS = [
    yaml.load(YARD[1].read_text(encoding="utf-8"), Loader=yaml.BaseLoader),
    {"libfeed": 1, "kind": "heap", "blend": ["9 kg grass clippings"]},
    {"libfeed": 1, "balance": HEAP_SET, "blend": ["9 kg grass clippings"]},
]


@pytest.mark.parametrize("verb", TAKES_FILES)
@pytest.mark.parametrize("heap", HEAPS, ids=["log", "kind", "targets"])
def test_every_verb_answers_a_heap_or_says_whom_to_ask(
    verb: str, heap: dict[str, Any], door: Door, feed_command: Path, tmp_path: Path
) -> None:
    """Also as the second of two files, and of the command."""
    request = example_of(verb)
    asked = [{**request, "file": heap}]
    if "bins" in request:
        asked = [{**request, "bins": bins} for bins in ([heap], [BIN, heap])]
    for one in asked:
        given = json.loads(door.raw(json.dumps(one).encode())[1])
        errors = " ".join(error["message"] for error in given.get("errors", []))
        assert ("ask feed heap" in errors) == (verb not in OF_A_HEAP), (verb, given)
    path = tmp_path / "pile.yaml"
    path.write_text(json.dumps(heap), encoding="utf-8")
    more = {
        "refresh": ["--change", "dry"],
        "week": ["--have", "1 kg carrot"],
        "note": ["55 C middle", "--date", "2026-05-20", "--force"],
    }
    words = ["signs", "sour", "--bed"] if verb == "signs" else verb.split()
    shown = said(feed_command, *words, path, *more.get(verb, []))
    assert ("ask feed heap" in shown) == (verb not in OF_A_HEAP), shown


@pytest.mark.parametrize("verb", ["week", "totals"])
def test_a_bin_that_is_there_twice_is_refused(verb: str, door: Door) -> None:
    """It would be fed, or counted, twice; two that are alike get titles that tell them apart."""

    def told(*bins: dict[str, Any] | str) -> list[str]:
        given = json.loads(
            door.raw(json.dumps({**example_of(verb), "bins": list(bins)}).encode())[1]
        )
        return [one["message"] for one in given.get("errors", [])]

    text = json.dumps(BIN)
    for bins in ((BIN, BIN), (text, text)):
        assert len(told(*bins)) == 1 and "there twice" in told(*bins)[0]
    one, two = {**BIN, "title": "Tote"}, {**BIN, "title": "Tote two"}
    assert told(one, two) == []
    assert "two bins are called" in told(one, {**one, "group": "Foxes"})[0]
    assert len(told(one, two, one, two)) == 2


def test_a_heap_keeps_no_stock(door: Door) -> None:
    stock = [{"date": "2026-05-01", "portions": ["2 kg frozen melon rind"]}]
    heap = {"libfeed": 1, "kind": "heap", "stock": stock}
    errors = door.errors(json.dumps({"verb": "heap", "file": heap}).encode())
    assert [one["field"] for one in errors] == ["stock"]


@pytest.mark.parametrize("verb", VERBS)
@pytest.mark.parametrize("needed_only", [False, True])
def test_the_examples_of_each_verb_are_answered(verb: str, needed_only: bool, door: Door) -> None:
    request = example_of(verb, needed_only)
    registry: Registry[Any] = Registry().with_resource(
        "feed-file.schema.json", Resource.from_contents(FILE_SCHEMA)
    )
    jsonschema.Draft202012Validator(SCHEMA, registry=registry).validate(request)
    takes_file = "file" in VERBS[verb]["properties"] and verb != "signs"
    if takes_file and "file" not in request:
        assert door.errors(json.dumps(request).encode())[0]["code"] == "missing_value"
        return
    if verb == "blend" and not needed_only:
        request["file"] = {"libfeed": 1, "blend": ["500 g carrot"]}
    if verb == "balance" and not needed_only:
        request["file"] = {"libfeed": 1, "balance": {"at_hand": ["500 g carrot", "any card"]}}
    if verb == "forecast" and not needed_only:
        request["date"] = "2026-03-14"
    door.answer(**request)


@pytest.mark.parametrize(
    ("verb", "member"),
    [(verb, name) for verb, form in VERBS.items() for name in form["properties"] if name != "verb"],
)
@pytest.mark.parametrize("wrong", [7, [[]], {"a": 1}, "", "zzz zzz"])
def test_a_member_of_the_wrong_kind_is_named(
    verb: str, member: str, wrong: Any, door: Door
) -> None:
    """Whatever stands there, the answer is JSON; what is no text, day, word ... is named."""
    request = {**example_of(verb), member: wrong}
    code, text = door.raw(json.dumps(request).encode())
    about = VERBS[verb]["properties"][member]
    kinds = json.dumps(about)
    takes = isinstance(wrong, str) and ('"string"' in kinds)
    takes = takes or (wrong == 7 and about.get("type") == "integer")
    takes = takes or (isinstance(wrong, dict) and "$ref" in kinds)
    if takes:
        return
    fields = [one["field"] for one in json.loads(text)["errors"]]
    assert code in (5, 17), text  # FEED_OUT_OF_RANGE, FEED_WRONG_TYPE
    assert member in fields, text


def test_every_problem_comes_at_once(door: Door) -> None:
    errors = door.errors(
        b'{"verb": "forecast",\n "untis": "us", "days": 400,\n "date": "today", "svg": "yes",\n'
        b' "file": {"libfeed": 1, "bed": {"worms": "1 furlong"}}}'
    )
    found = {one["field"]: one for one in errors}
    assert set(found) == {"request", "days", "date", "svg", "bed: worms"}
    assert '"units"' in found["request"]["message"]
    assert found["request"]["code"] == "unknown_key"
    assert (found["request"]["line"], found["days"]["line"]) == (2, 2)
    assert (found["date"]["line"], found["bed: worms"]["line"]) == (3, 4)
    assert found["days"]["allowed"] == "a whole number from 2 to 366"
    assert all(one["message"] for one in errors)


HOSTILE = [
    (b"", "empty"),
    (b"  \n", "empty"),
    (b"{", "syntax"),
    (b"[]", "wrong_type"),
    (b"7", "wrong_type"),
    (b'"ration"', "wrong_type"),
    (b"null", "wrong_type"),
    (b"{}", "missing_value"),
    (b'{"verb": 3}', "out_of_range"),
    (b'{"verb": ["ration"]}', "wrong_type"),
    (b'{"verb": "ratoin"}', "out_of_range"),
    (b'{"verb": "signs", "signs": []}', "empty"),
    (b'{"verb": "blend", "things": []}', "missing_value"),
    (b'{"verb": "ration", "things": []}', "missing_value"),
    (b'{"verb": "note", "words": "", "date": "2026-03-14", "file": {"libfeed": 1}}', "empty"),
    (b'{"verb": "show", "words": ""}', "empty"),
    (b'{"verb": "version"} x', "syntax"),
    (b'{"verb": "version",}', "syntax"),
    (b"{'verb': 'version'}", "syntax"),
    (b"verb: version\n", "syntax"),
    (b'{"verb": "version" /* why */}', "syntax"),
    (b'{"verb": "show", "words": "caf\xe9"}', "not_utf8"),
    (b'{"verb": "show", "words": "\xed\xa0\x80"}', "not_utf8"),
    (b'{"verb": "show", "words": "a\\u0000b"}', "not_utf8"),
    (b'{"verb": "show", "words": "\\ud83d"}', "syntax"),
    (b'{"verb": "show", "words": "\\ud83d\\u0041"}', "syntax"),
    (b'{"verb": "show", "words": "\\x41"}', "syntax"),
    (b'{"verb": "show", "words": "a\nb"}', "syntax"),
    (b'{"verb": "show", "words": "carrot', "syntax"),
    (b'{"verb": "show", "verb": "table", "words": "carrot"}', "duplicate_entry"),
    (
        b'{"verb": "blend", "file": {"libfeed": 1, "blend": ["1 kg carrot"], "blend": []}}',
        "duplicate_entry",
    ),
    (b'{"verb": "forecast", "days": 01, "things": "1 kg carrot"}', "syntax"),
    (b'{"verb": "forecast", "days": 1e400, "things": "1 kg carrot"}', "out_of_range"),
    (b'{"verb": "forecast", "days": NaN, "things": "1 kg carrot"}', "syntax"),
    (b"[" * 100000, "too_large"),
    (b'{"a":' * 100000, "too_large"),
    (b"[" + b"0," * 500000 + b"0]", "too_large"),
    (b'{"verb": "version", "x": "' + b"y" * 9_000_000 + b'"}', "too_large"),
    (b'{"verb": "blend", "things": [' + b'"1 kg carrot",' * 2000 + b'"1 kg carrot"]}', "too_large"),
]


@pytest.mark.parametrize(("request_", "code"), HOSTILE, ids=range(len(HOSTILE)))
def test_what_is_no_request_is_refused(request_: bytes, code: str, door: Door) -> None:
    errors = door.errors(request_)
    assert errors[0]["code"] == code, errors
    assert errors[0]["message"] and errors[0]["field"]


def test_the_nearest_verb_is_named(door: Door) -> None:
    assert '"ration"' in door.errors(b'{"verb": "ratoin"}')[0]["message"]


def test_escapes_are_read(door: Door) -> None:
    given = door.raw(b'{"\\u0076erb": "sh\\u006fw", "words": "car\\u0072ot"}')[1]
    assert given == door.text(verb="show", words="carrot")
    emoji = door.errors(b'{"verb": "show", "words": "\\ud83e\\udd55"}')
    assert emoji[0]["value"] == "\U0001f955"


def test_things_beside_a_file_are_fed_to_its_bin(door: Door) -> None:
    beside = door.answer(verb="ration", file=BIN, things="1 kg carrot")
    written = door.answer(verb="ration", file={**BIN, "blend": ["1 kg carrot"]})
    assert beside == written != door.answer(verb="ration", file=BIN)
    both = door.errors(json.dumps({"verb": "ration", "file": BIN, "worms": "1 lb"}).encode())
    assert both[0]["code"] == "contradiction"


def test_an_object_keeps_its_depth(door: Door) -> None:
    """What a file may hold by itself it may hold in a request."""
    deep: Any = "1 kg carrot"
    for _ in range(31):
        deep = [deep]
    alone = json.dumps({"libfeed": 1, "blend": deep[0] if isinstance(deep, list) else deep})
    as_text = json.loads(door.text(verb="blend", file=alone))
    as_object = json.loads(door.text(verb="blend", file=json.loads(alone)))
    assert [one["message"] for one in as_text["errors"]] == [
        one["message"] for one in as_object["errors"]
    ]


def test_the_older_door_is_the_same(door: Door) -> None:
    """feed_json is feed_call with a file or words, and nothing else."""
    for verb in ("blend", "ration", "check", "forecast"):
        text = (ROOT / "examples" / "balcony_tote.yaml").read_text(encoding="utf-8")
        out = ctypes.c_void_p()
        door.lib.feed_json(
            ctypes.cast(ctypes.c_char_p(verb.encode()), ctypes.c_void_p),
            ctypes.cast(ctypes.c_char_p(text.encode()), ctypes.c_void_p),
            ctypes.cast(ctypes.c_char_p(b"file"), ctypes.c_void_p),
            None,
            ctypes.byref(out),
            None,
        )
        data = ctypes.c_char_p()
        door.lib.feed_text_get(out, ctypes.byref(data), None, None)
        assert data.value is not None
        assert data.value.decode() == door.text(verb=verb, file=text)
        door.lib.feed_text_free(out)


# Verbs whose first word may be the name of a file.
READERS = ["blend", "balance", "ration", "check", "forecast", "observe"]


@pytest.mark.parametrize("verb", READERS)
def test_a_dash_is_standard_input(verb: str, feed_command: Path) -> None:
    path = ROOT / "examples" / "balcony_tote.yaml"
    text = path.read_text(encoding="utf-8")
    by_name = call(feed_command, verb, path, "--json", code=None)
    piped = call(feed_command, verb, "-", "--json", code=None, text_in=text)
    assert piped.returncode == by_name.returncode
    assert piped.stdout.replace("standard input", str(path)) == by_name.stdout


def test_a_dash_is_standard_input_for_trials_and_signs(feed_command: Path) -> None:
    for word, name in (("plan", "rind_trial"), ("read", "rind_trial_seen")):
        path = ROOT / "examples" / f"{name}.yaml"
        text = path.read_text(encoding="utf-8")
        piped = call(feed_command, "trial", word, "-", "--json", text_in=text).stdout
        assert piped == said(feed_command, "trial", word, path)
    path = ROOT / "examples" / "balcony_tote.yaml"
    piped = call(
        feed_command,
        "signs",
        "sour",
        "--bed",
        "-",
        "--json",
        text_in=path.read_text(encoding="utf-8"),
    ).stdout
    assert piped == said(feed_command, "signs", "sour smell", "--bed", path)


def test_a_note_to_standard_input_prints_the_new_file(feed_command: Path) -> None:
    done = subprocess.run(
        [str(feed_command), "note", "-", "fed", "3", "apples", "--date", "2026-03-20"],
        input=TEXT,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith(TEXT) and "3 apples" in done.stdout


def test_the_command_has_the_same_door(door: Door, feed_command: Path, tmp_path: Path) -> None:
    for request in ('{"verb": "show", "words": "carrot"}', '{"verb": "ratoin"}'):
        code, expected = door.raw(request.encode())
        done = call(feed_command, "call", "-", code=2 if code else 0, text_in=request)
        assert done.stdout == expected
        path = tmp_path / "request.json"
        path.write_text(request, encoding="utf-8")
        assert call(feed_command, "call", path, code=None).stdout == expected
