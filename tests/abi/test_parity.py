"""One list of functions: what is exported, what the header documents, what Python offers.

A function added to symbols.txt without an entry in counterparts.yaml or without its documentation
fails here by name.
"""

from __future__ import annotations

import functools
import re
from typing import Any

import c_header as header
import pytest
import yaml

import libfeed

COUNTERPARTS = header.ROOT / "tests/abi/counterparts.yaml"
TEXT = header.HEADER.read_text(encoding="utf-8")
NAMES = header.listed_symbols()
HANDLES = re.findall(r"typedef struct (feed_\w+) \1;", TEXT)
# Numbers whose name does not end in their unit, and the words that give it.
UNIT_IN_WORDS = {
    ("feed_bed_add_feeding", "day"): "day: days",
    ("feed_forecast_series", "value"): "FEED_SERIES_",
    ("feed_forecast_series", "low"): "FEED_SERIES_",
    ("feed_forecast_series", "high"): "FEED_SERIES_",
}


@functools.cache
def counterparts() -> dict[str, dict[str, Any]]:
    read = yaml.safe_load(COUNTERPARTS.read_text(encoding="utf-8"))
    assert isinstance(read, dict)
    return read


@functools.cache
def documented() -> dict[str, tuple[header.Function, str]]:
    """Each function with its comment as one line."""
    return {
        f.name: (f, " ".join(re.sub(r"\n \*", " ", f.comment).split())) for f in header.functions()
    }


def member(dotted: str) -> object:
    found: object = libfeed
    for part in dotted.removeprefix("libfeed.").split("."):
        found = getattr(found, part)
    return found


def complaints_of_documentation(function: header.Function, comment: str) -> list[str]:
    """What the comment of a function fails to say."""
    said = []
    if re.match(r"[A-Z]\w*[ .].*?\.( |$)", comment) is None:
        said.append("does not begin with a sentence")
    since = re.search(r"Since (\d+)\.(\d+)\.", comment)
    number = re.search(r"FEED_VERSION_MAJOR (\d+)\n#define FEED_VERSION_MINOR (\d+)", TEXT)
    assert number is not None
    if since is None:
        said.append("does not say since when")
    elif (int(since[1]), int(since[2])) > (int(number[1]), int(number[2])):
        said.append("is from a version to come")
    if (
        re.search(r"Threads: (any|read|changes the handle|the only user of the handle)\.", comment)
        is None
    ):
        said.append("does not say what threads may do")
    if function.name.endswith("_free"):
        return said
    if not errors_are_named(comment):
        said.append("does not name its errors")
    for parameter in function.parameters:
        if not is_explained(function, parameter, comment):
            said.append(f"does not explain {parameter.name}")
    return said


def errors_are_named(comment: str) -> bool:
    errors = re.search(r"Errors: (.*?)\. (?=[A-Z])", comment)
    if errors is None:
        return False
    codes = re.findall(r"FEED_[A-Z0-9_]+", errors[1])
    others = re.findall(r"feed_\w+", errors[1])
    known = all(re.search(rf"\b{code} =\s*\d+", TEXT) for code in codes)
    return known and set(others) <= set(NAMES) and bool(codes or others or "as above" in errors[1])


def is_explained(function: header.Function, parameter: header.Parameter, comment: str) -> bool:
    """`error` and `allocator` are explained once for all, a handle by its type."""
    kind = parameter.type.removeprefix("const ").removesuffix("*")
    if parameter.name in ("error", "allocator") or kind in HANDLES:
        return True
    if parameter.type == "size_t" and re.search(rf"\b{parameter.name} (of|numbers)", comment):
        return True  # "portions: count of them"
    if re.search(rf"\b{parameter.name}(, \w+)*: ", comment) is None:
        return False
    if parameter.type.replace("const ", "").rstrip("*") != "double":
        return kind not in [f"{handle}*" for handle in HANDLES] or "new handle" in comment
    words = UNIT_IN_WORDS.get((function.name, parameter.name))
    return parameter.name.endswith(("_kg", "_c")) if words is None else words in comment


def test_the_list_of_counterparts_is_the_list_of_symbols() -> None:
    assert list(counterparts()) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_every_function_has_a_counterpart_or_a_reason(name: str) -> None:
    entry = counterparts()[name]
    if "none" in entry:
        assert set(entry) == {"none"}
        assert re.fullmatch(r"[A-Z].{15,}\.", entry["none"])
        return
    assert set(entry) <= {"python", "with"}
    found = member(entry["python"])
    assert found.__doc__, f"{entry['python']} has no docstring"
    for part in entry.get("with", []):
        own = hasattr(found, part) or hasattr(libfeed, part)
        assert own or re.search(rf"\b{part}\b", found.__doc__), f"{entry['python']} has no {part}"


@pytest.mark.parametrize("name", NAMES)
def test_every_function_is_documented(name: str) -> None:
    function, comment = documented()[name]
    assert complaints_of_documentation(function, comment) == []


@pytest.mark.parametrize("handle", HANDLES)
def test_every_handle_says_how_it_is_freed(handle: str) -> None:
    assert f"{handle}_free" in NAMES
    comment = TEXT[: TEXT.index(f"typedef struct {handle} {handle};")].rpartition("/*")[2]
    assert f"Free with {handle}_free" in comment


def test_poor_documentation_is_seen() -> None:
    function = header.Function(
        "feed_blend",
        "feed_code",
        (header.Parameter("double", "share"), header.Parameter("feed_bed**", "out")),
        "",
    )
    poor = "blends things; share: how much. Errors: FEED_NOT_SUCH. Since 99.0."
    assert complaints_of_documentation(function, poor) == [
        "does not begin with a sentence",
        "is from a version to come",
        "does not say what threads may do",
        "does not name its errors",
        "does not explain share",
        "does not explain out",
    ]
