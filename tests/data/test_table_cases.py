"""The files of the table against published figures (tests/cases/table_values.json)."""

from __future__ import annotations

import json
import re
from pathlib import Path
from statistics import median
from typing import Any

import pytest
from data.yaml_table import YamlTable

ROOT = Path(__file__).resolve().parents[2]
FILE = json.loads((ROOT / "tests/cases/table_values.json").read_text(encoding="utf-8"))
CASES: list[dict[str, Any]] = FILE["cases"]
HELD = [case for case in CASES if case["call"].startswith("table_")]


@pytest.fixture(scope="module")
def table() -> YamlTable:
    return YamlTable()


def ours(table: YamlTable, case: dict[str, Any]) -> float:
    key = case["input"]["property"]
    if case["call"] == "table_value":
        number = table.find(case["input"]["feedstock"], key)
        assert number is not None
        return number.value
    group = [table.find(feedstock, key) for feedstock in FILE["groups"][case["input"]["group"]]]
    return median(number.value for number in group if number is not None)


def band(expected: dict[str, float]) -> tuple[float, float]:
    low = expected.get("value", expected.get("low"))
    high = expected.get("value", expected.get("high"))
    assert low is not None and high is not None
    rel, margin = expected.get("rel", 0.0), expected.get("abs", 0.0)
    return low - rel * low - margin, high + rel * high + margin


def test_every_published_figure_is_here() -> None:
    assert len([case for case in HELD if case["id"].startswith("V")]) == 104
    assert len({case["id"] for case in CASES}) == len(CASES)


@pytest.mark.parametrize("case", HELD, ids=lambda case: str(case["id"]))
def test_the_table_agrees_or_differs_as_recorded(table: YamlTable, case: dict[str, Any]) -> None:
    value = ours(table, case)
    low, high = band(case["expected"][case["input"]["property"]])
    known = case.get("known_disagreement")
    if known is None:
        assert low <= value <= high
        return
    assert value == pytest.approx(known["ours"], rel=1e-9)
    assert value > high if known["direction"] == "above" else value < low


def test_the_trap_is_rejected() -> None:
    """Nitrogen 6.3 % with C:N 15 means 94 % carbon; the table's own rule refuses it."""
    (trap,) = [case for case in CASES if case["call"] == "plausible_carbon"]
    carbon = trap["input"]["nitrogen"] * trap["input"]["cn_ratio"]
    assert carbon == pytest.approx(0.945)
    assert trap["expected"] == {"plausible": False}
    rules = (ROOT / "data/tools/sum_rules.py").read_text(encoding="utf-8")
    limit = re.search(r'CARBON_OF_ORGANIC_MATTER = Decimal\("([\d.]+)"\)', rules)
    assert limit is not None
    assert carbon > float(limit.group(1))


def test_each_disagreement_is_explained_in_the_docs() -> None:
    page = (ROOT / "docs/disagreements.md").read_text(encoding="utf-8")
    for case in CASES:
        known = case.get("known_disagreement")
        if known is not None:
            assert f"| {case['id']} |" in page
            assert known["cause"] in page
