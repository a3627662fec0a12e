"""The npm package: built, packed, installed into an empty project, and held against the command."""

from __future__ import annotations

import json
import math
import os
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
import yaml
from npm_project import run
from usual_requests import REQUESTS

EXACT = {"blend", "balance", "show", "table", "version"}


def test_the_package_holds_what_it_says(project: Path) -> None:
    package = project / "node_modules/libfeed"
    assert sorted(path.name for path in package.iterdir()) == [
        "LICENSE", "README.md", "libfeed.d.ts", "libfeed.js", "libfeed.wasm",
        "package.json", "verbs.js", "yaml.d.ts", "yaml.js",
    ]  # fmt: skip
    for script in package.glob("*.js"):
        assert "eval(" not in script.read_text(encoding="utf-8")
        assert "new Function" not in script.read_text(encoding="utf-8")


def test_in_an_empty_project(project: Path) -> None:
    """In the Node that is here and, each night, in the oldest and the newest that are promised."""
    for node in ["node", *os.environ.get("FEED_NODES", "").split()]:
        out = run(node, "--test", "--test-reporter=tap", "package.test.mjs", cwd=project)
        assert "# fail 0" in out and "# pass 0" not in out, out


def test_the_example_of_its_page_runs(project: Path, source_dir: Path) -> None:
    page = (source_dir / "bindings/js/README.md").read_text(encoding="utf-8")
    (project / "page.mjs").write_text(page.split("```js\n")[1].split("```")[0], encoding="utf-8")
    shown = run("node", "page.mjs", cwd=project).splitlines()
    assert shown[0].startswith("Feed") and any("apple" in line for line in shown)


def requests(source_dir: Path) -> list[dict[str, Any]]:
    made: list[dict[str, Any]] = [{"verb": "version"}, {"verb": "table"}, {"verb": "schema"}]
    for name in ("coffee grounds", "banana peel", "bacon", "qqqq"):
        made.append({"verb": "show", "words": name})
    made.append({"verb": "signs", "signs": ["sour smell", "worms leaving"]})
    new_tote = {"verb": "start", "date": "2026-05-02", "size": "60 L"}
    made += [
        {**new_tote, "worms": "500 g", "bedding": what}
        for what in ("cardboard", "coir and 1 bucket dry leaves", "damp newspaper", "bacon")
    ]
    made += [
        {**new_tote, "title": 'my "bin": one', "age": "1 year", "squeeze": "damp"},
        {"verb": "worms", "people": 4, "coffee": 6},
        {"verb": "worms", "bin": "60 L tote", "census": "12, 30, 7, 18", "sample": "500 ml"},
        {"verb": "heap", "things": ["8 buckets grass", "20 buckets leaves", "2 kg bacon"]},
    ]
    tote = yaml.load(
        (source_dir / "examples/freezer_tote.yaml").read_text(encoding="utf-8"),
        Loader=yaml.BaseLoader,
    )
    day = {"file": tote, "date": "2026-05-04"}
    made += [{"verb": "harvest", **day}, {"verb": "stock", **day}]
    made += [{"verb": "refresh", "change": what, **day} for what in ("bedding", "split", "dry")]
    made += [
        {"verb": "week", "bins": [tote, tote], "have": ["2 kg carrot"], "date": "2026-05-04"},
        {"verb": "totals", "bins": [tote]},
    ]
    for path in sorted((source_dir / "examples").glob("*.yaml")):
        content = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        for verb in ("blend", "balance", "ration", "check", "forecast", "observe"):
            made.append({"verb": verb, "file": content})
    return made


def differences(one: Any, other: Any, exact: bool, at: str = "") -> list[str]:
    """Where two answers differ: numbers by more than 1e-12 of their size, words at all."""
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        return [d for key in one for d in differences(one[key], other[key], exact, f"{at}.{key}")]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return [
            d
            for i, both in enumerate(zip(one, other, strict=True))
            for d in differences(*both, exact, f"{at}[{i}]")
        ]
    numbers = all(type(number) in (int, float) for number in (one, other))
    if numbers and not exact:
        near = math.isclose(one, other, rel_tol=1e-12, abs_tol=1e-12)
        return [] if near else [f"{at}: {one!r} {other!r}"]
    return [] if one == other else [f"{at}: {one!r} {other!r}"]


def test_its_answers_are_those_of_the_command(
    project: Path, source_dir: Path, feed_command: Path
) -> None:
    asked = requests(source_dir)
    lines = "\n".join(json.dumps(one) for one in asked)
    given = run("node", "answer_lines.mjs", cwd=project, text=lines).splitlines()
    assert len(given) == len(asked)
    for request, answer in zip(asked, given, strict=True):
        done = subprocess.run(
            [feed_command, "call", "-"], input=json.dumps(request), capture_output=True, text=True
        )
        due = json.loads(done.stdout)
        # With a bed a balance is the ration, whose rates are exponentials.
        exact = request["verb"] in EXACT and "ration" not in due
        found = differences(due, json.loads(json.loads(answer)), exact)
        assert not found, (request["verb"], found[:5])


def test_its_types_are_those_of_the_schema(project: Path, source_dir: Path) -> None:
    """Each verb and member of the schema is declared, and each function stands in verbs.js."""
    types = (project / "node_modules/libfeed/libfeed.d.ts").read_text(encoding="utf-8")
    functions = (project / "node_modules/libfeed/verbs.js").read_text(encoding="utf-8")
    schema = json.loads(
        (source_dir / "data/schema/request.schema.json").read_text(encoding="utf-8")
    )
    for verb in schema["oneOf"]:
        assert f'verb: "{verb["title"]}"' in types and f'verb: "{verb["title"]}"' in functions
        for member in verb["properties"]:
            assert f"  {member}: " in types or f"  {member}?: " in types or member == "verb"


def test_its_answers_have_types(project: Path, source_dir: Path) -> None:
    """Each verb has the type of its answer, and each field of it is declared."""
    types = (project / "node_modules/libfeed/libfeed.d.ts").read_text(encoding="utf-8")
    schema = json.loads(
        (source_dir / "data/schema/answers.schema.json").read_text(encoding="utf-8")
    )
    for name, about in schema["$defs"].items():
        title = "".join(word.capitalize() for word in name.split("_"))
        if name == "errors":  # is thrown, and so the answer to no verb
            assert f"export interface {title} {{" not in types
        elif name.startswith("answer_"):
            assert f'  "{about["title"]}": ' in types
        elif "properties" in about:
            declared = types.split(f"export interface {title} {{\n")[1].split("\n}\n")[0]
            found = re.findall(r"^  (\w+)\??: ", declared, re.MULTILINE)
            assert found == list(about["properties"]), name
        else:
            assert f"export type {title} = " in types


def figures(source_dir: Path, column: int) -> dict[str, float]:
    """A column of the table of the npm package in docs/benchmarks.md, by the first."""
    page = (source_dir / "docs/benchmarks.md").read_text(encoding="utf-8")
    section = page.split("## The npm package\n")[1].split("\n## ")[0]
    rows = [row.strip("| ").split(" | ") for row in section.splitlines() if row.startswith("| ")]
    return {row[0]: float(row[column]) for row in rows[1:]}


def test_its_size_and_memory_are_as_the_page_says(project: Path, source_dir: Path) -> None:
    """Within a tenth of the figures shown; docs/decisions/0013 says what the size is made of."""
    asked = json.dumps(list(REQUESTS.values()))
    measured = json.loads(run("node", "measure.mjs", cwd=project, text=asked))
    shown = figures(source_dir, 1)
    assert measured["wire_bytes"] / 1000 == pytest.approx(
        shown.pop("module by brotli, kB"), rel=0.1
    )
    assert measured["bytes"] / 1000 == pytest.approx(shown.pop("module, kB"), rel=0.1)
    assert set(shown) == {f"{name}, MB" for name in REQUESTS}
    for name, one in zip(REQUESTS, measured["requests"], strict=True):
        memory = one["memory_bytes"] / 2**20
        assert memory == pytest.approx(shown[f"{name}, MB"], rel=0.1), name
        assert memory <= 4.5, name  # the goal is 4; the sheet of a plan takes a little more
    assert (project / "node_modules/libfeed/libfeed.js").stat().st_size < 8_000
