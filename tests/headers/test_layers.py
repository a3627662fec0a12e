"""The layer rule: a header includes only its own layer and earlier ones, and the core stays light.

Each rule is also run on a small tree that breaks it, so a rule that stops working is noticed.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

# Earlier layers first. The solver comes before balance and knows nothing of the others.
CORE_LAYERS = [
    "quantity",
    "feedstock",
    "blend",
    "solver",
    "balance",
    "bed",
    "forecast",
    "diary",
    "ration",
    "trial",
]
LAYERS = [*CORE_LAYERS, "io"]
TOP_HEADERS = {"bin.hpp", "feed.hpp", "version.hpp"}
HEAVY_HEADERS = {
    "iostream",
    "regex",
    "filesystem",
    "format",
    "fstream",
    "locale",
    "clocale",
    "cstdio",
}
INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]', re.MULTILINE)
COMMENT_OR_TEXT = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"', re.DOTALL)


def broken_layer_rules(include_root: Path) -> list[str]:
    """One line for each broken rule under include_root, the folder that holds feed/."""
    problems = []
    for header in sorted((include_root / "feed").rglob("*.hpp")):
        name = header.relative_to(include_root / "feed").as_posix()
        layer = name.split("/")[0]
        text = header.read_text(encoding="utf-8")
        if not re.search(r"^#pragma once$", text, re.MULTILINE):
            problems.append(f"{name}: has no #pragma once")
        if name not in TOP_HEADERS and layer not in LAYERS:
            problems.append(f"{name}: {layer} is no layer")
            continue
        core = layer != "io"
        code = COMMENT_OR_TEXT.sub("", text)
        if core and re.search(r"\b(throw|try|catch)\b", code):
            problems.append(
                f"{name}: the core reports errors as values, it does not throw or catch"
            )
        for included in INCLUDE.findall(text):
            if core and included in HEAVY_HEADERS:
                problems.append(f"{name}: includes <{included}>, too heavy for the core")
            if included.startswith("boost/") and not included.startswith("boost/units/"):
                problems.append(f"{name}: includes {included}; only Boost.Units is allowed")
            if "yaml-cpp" in included:
                problems.append(f"{name}: includes {included}; yaml-cpp stays inside libfeed/src")
            if not included.startswith("feed/") or name in TOP_HEADERS:
                continue
            other = included.split("/")[1]
            if other in TOP_HEADERS:
                if other in ("bin.hpp", "feed.hpp") and core:
                    problems.append(f"{name}: includes feed/{other}, which includes everything")
            elif other not in LAYERS:
                problems.append(f"{name}: includes {included}; {other} is no layer")
            elif LAYERS.index(other) > LAYERS.index(layer):
                problems.append(f"{name}: includes {included}, a later layer")
            elif layer == "solver" and other != "solver":
                problems.append(f"{name}: includes {included}; the solver knows no other layer")
            if not (include_root / included).is_file():
                problems.append(f"{name}: includes {included}, which does not exist")
    return problems


def headers_missing_from(include_root: Path) -> list[str]:
    """Core headers that including feed/feed.hpp does not reach."""
    reached: set[str] = set()
    waiting = ["feed/feed.hpp"]
    while waiting:
        current = waiting.pop()
        if current in reached:
            continue
        reached.add(current)
        text = (include_root / current).read_text(encoding="utf-8")
        waiting += [name for name in INCLUDE.findall(text) if name.startswith("feed/")]
    present = {
        header.relative_to(include_root).as_posix()
        for layer in CORE_LAYERS
        for header in (include_root / "feed" / layer).rglob("*.hpp")
    }
    return sorted(present - reached)


def test_every_header_keeps_the_layer_rule(source_dir: Path) -> None:
    assert broken_layer_rules(source_dir / "libfeed" / "include") == []


def test_feed_hpp_reaches_every_core_header(source_dir: Path) -> None:
    assert headers_missing_from(source_dir / "libfeed" / "include") == []


@pytest.mark.parametrize(
    ("header", "text", "complaint"),
    [
        ("blend/a.hpp", '#include "feed/bed/b.hpp"', "a later layer"),
        ("solver/a.hpp", '#include "feed/quantity/b.hpp"', "knows no other layer"),
        ("blend/a.hpp", '#include "feed/mystery/b.hpp"', "mystery is no layer"),
        ("mystery/a.hpp", "", "mystery is no layer"),
        ("blend/a.hpp", '#include "feed/feed.hpp"', "includes everything"),
        ("blend/a.hpp", "#include <iostream>", "too heavy"),
        ("blend/a.hpp", "#include <boost/variant.hpp>", "only Boost.Units"),
        ("io/a.hpp", "#include <yaml-cpp/yaml.h>", "stays inside"),
        ("blend/a.hpp", "inline void f() { throw 1; }", "does not throw"),
        ("blend/a.hpp", '#include "feed/blend/gone.hpp"', "does not exist"),
    ],
)
def test_a_broken_rule_is_seen(tmp_path: Path, header: str, text: str, complaint: str) -> None:
    path = tmp_path / "feed" / header
    path.parent.mkdir(parents=True)
    path.write_text(f"#pragma once\n{text}\n", encoding="utf-8")
    assert any(complaint in problem for problem in broken_layer_rules(tmp_path))


def test_a_header_without_pragma_once_is_seen(tmp_path: Path) -> None:
    path = tmp_path / "feed" / "blend" / "a.hpp"
    path.parent.mkdir(parents=True)
    path.write_text("// no guard\n", encoding="utf-8")
    assert any("#pragma once" in problem for problem in broken_layer_rules(tmp_path))
