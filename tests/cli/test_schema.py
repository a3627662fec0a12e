"""The schema, the reader's keys, the page about files and the examples say the same."""

from __future__ import annotations

import importlib.util
import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = json.loads((ROOT / "data/schema/feed-file.schema.json").read_text(encoding="utf-8"))
DEFINITIONS: dict[str, Any] = SCHEMA["$defs"]
EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))


def load_tool() -> Any:
    """The tool that writes the pages."""
    path = ROOT / "libfeed" / "tools" / "file_pages.py"
    spec = importlib.util.spec_from_file_location("file_pages", path)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules["file_pages"] = module
    spec.loader.exec_module(module)
    return module


TOOL = load_tool()


def properties_of(name: str) -> dict[str, Any]:
    properties: dict[str, Any] = TOOL.properties_of(DEFINITIONS[name])[0]
    return properties


def reader_keys() -> dict[str, list[str]]:
    header = (ROOT / "libfeed/include/feed/io/file_keys.hpp").read_text(encoding="utf-8")
    found = re.findall(r"std::array<Key, \d+> (\w+)\{(.*?)\};", header, re.DOTALL)
    return {name: re.findall(r'"(\w+)"', body) for name, body in found}


def test_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_reader_and_schema_know_the_same_keys() -> None:
    keys = reader_keys()
    assert set(keys) == set(TOOL.ORDER)
    for name, known in keys.items():
        assert set(known) == set(properties_of(name)), name


def test_pages_are_a_fresh_run() -> None:
    for path, text in TOOL.pages().items():
        assert path.read_text(encoding="utf-8") == text, "run: python3 libfeed/tools/file_pages.py"


def test_every_error_code_has_its_line() -> None:
    header = TOOL.CODES.read_text(encoding="utf-8")
    codes = TOOL.codes_of(header)
    assert {name for name, _ in codes} == set(TOOL.MEANINGS)
    numbers = [number for _, number in codes]
    assert len(set(numbers)) == len(numbers)


class TextLoader(yaml.SafeLoader):
    """Dates stay texts, as in JSON."""


TextLoader.yaml_implicit_resolvers = {
    first: [(tag, regexp) for tag, regexp in resolvers if not tag.endswith(":timestamp")]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_example_fits_the_schema(path: Path) -> None:
    content = yaml.load(path.read_text(encoding="utf-8"), TextLoader)
    jsonschema.Draft202012Validator(SCHEMA).validate(content)
    assert "invented" in path.read_text(encoding="utf-8").lower()


@pytest.mark.parametrize(
    "content",
    [
        {"blend": ["1 kg carrot"]},
        {"libfeed": 2},
        {"libfeed": 1, "blends": []},
        {"libfeed": 1, "bed": {"lid": "open"}},
        {"libfeed": 1, "blend": [{"feedstock": "carrot"}]},
    ],
)
def test_schema_refuses(content: dict[str, Any]) -> None:
    assert not jsonschema.Draft202012Validator(SCHEMA).is_valid(content)


# How a mapping of each definition stands in a whole file.
PORTION = {"feedstock": "carrot", "amount": "6 piece"}
MATERIAL = {"moisture": "60 %", "nitrogen": "1 %"}


def in_a_file(name: str, mapping: dict[str, Any]) -> dict[str, Any]:
    wrap: dict[str, Any] = {
        "file": mapping,
        "feedstock": {"feedstocks": {"my own": mapping}},
        "value": {"feedstocks": {"my own": {**MATERIAL, "ash": mapping}}},
        "nutrition_label": {"feedstocks": {"my own": {"nutrition_label": mapping}}},
        "laboratory_report": {"feedstocks": {"my own": {"laboratory_report": mapping}}},
        "portion": {"blend": [mapping]},
        "balance": {"balance": mapping},
        "entry": {"balance": {"at_hand": [mapping]}},
        "targets": {"balance": {"at_hand": ["1 kg carrot"], "targets": mapping}},
        "window": {"balance": {"at_hand": ["1 kg carrot"], "targets": {"moisture": mapping}}},
        "bed": {"bed": mapping},
        "container": {"bed": {"container": mapping}},
        "worms": {"bed": {"worms": mapping}},
        "feeding": {"feedings": [mapping]},
        "stock": {"stock": [mapping]},
        "observation": {"observations": [mapping]},
        "trial": {"trial": mapping},
        "trial_bin": {"trial": {"feeds": ["carrot", "pumpkin"], "bins": ["tote", mapping]}},
    }
    return {"libfeed": 1, **wrap[name]}


# What a key needs beside it to make sense.
BESIDE: dict[tuple[str, str], dict[str, Any]] = {
    **{("stock", key): {"portions": ["500 g carrot"]} for key in ("date", "container", "by")},
    ("container", "diameter"): {"depth": "30 cm"},
    ("container", "depth"): {"diameter": "35 cm"},
    ("worms", "known"): {"weight": "500 g"},
    ("value", "low"): {"high": "8 %"},
    ("value", "high"): {"low": "5 %"},
    ("nutrition_label", "sugars"): {"carbohydrate": "15 g"},
    ("trial_bin", "feedings"): {"bed": {"container": "20 L tray"}},
    ("trial_bin", "observations"): {"bed": {"container": "20 L tray"}},
}
ALL_KEYS = [(name, key) for name in TOOL.ORDER for key in properties_of(name)]


@pytest.mark.parametrize(("name", "key"), ALL_KEYS, ids=lambda word: str(word))
def test_every_example_of_a_key_is_read(
    name: str, key: str, feed_command: Path, tmp_path: Path
) -> None:
    properties, needed = TOOL.properties_of(DEFINITIONS[name])
    for example in properties[key]["examples"]:
        mapping = {other: properties[other]["examples"][0] for other in needed}
        if name == "feedstock" and key not in ("like", "nutrition_label", "laboratory_report"):
            mapping.update(MATERIAL if key not in ("carbon", "cn_ratio") else {"moisture": "60 %"})
        mapping.update(BESIDE.get((name, key), {}))
        mapping[key] = example
        content = in_a_file(name, mapping)
        jsonschema.Draft202012Validator(SCHEMA).validate(content)
        content.setdefault("blend", ["100 g carrot"])
        path = tmp_path / "example.json"
        path.write_text(json.dumps(content), encoding="utf-8")
        result = subprocess.run(
            [feed_command, "blend", path], capture_output=True, text=True, check=False
        )
        assert result.returncode == 0, result.stderr
