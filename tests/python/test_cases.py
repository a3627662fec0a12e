"""The shared reference cases, asked through Python."""

from __future__ import annotations

import json
import statistics
from pathlib import Path
from typing import Any

import pytest

import libfeed

CASES = Path(__file__).resolve().parents[1] / "cases"


def load(name: str) -> tuple[list[Any], dict[str, list[str]]]:
    content = json.loads((CASES / name).read_text(encoding="utf-8"))
    return content["cases"], content.get("groups", {})


def portion_of(described: dict[str, Any]) -> libfeed.Portion:
    """A portion of a feedstock of the table, or of a material as a laboratory describes it."""
    wet_kg = described["wet_mass_kg"]
    if "feedstock" in described:
        return libfeed.Portion(described["feedstock"], wet_kg=wet_kg)
    values = {"bulk_density": described["bulk_density"]} if "bulk_density" in described else {}
    made, _ = libfeed.feedstock_from_report(
        described["name"],
        moisture=described["moisture"],
        basis=described.get("basis", "dry").replace("_", " "),
        carbon=described.get("carbon"),
        nitrogen=described.get("nitrogen"),
        cn_ratio=described.get("cn_ratio"),
        values=values,
    )
    return libfeed.Portion(made, wet_kg=wet_kg)


def blend_answer(case: dict[str, Any], key: str) -> float:
    made = libfeed.blend([portion_of(one) for one in case["input"]["portions"]])
    return made.wet_mass_kg if key == "wet_mass_kg" else float(made[key])


def table_answer(case: dict[str, Any], key: str, groups: dict[str, list[str]]) -> float:
    asked = case["input"]
    if case["call"] == "table_group_median":
        members = [libfeed.feedstock(one).get(asked["property"]) for one in groups[asked["group"]]]
        return statistics.median(value.value for value in members if value is not None)
    return libfeed.feedstock(asked["feedstock"])[key].value


def judge(case: dict[str, Any], expected: dict[str, float], ours: float) -> None:
    """Inside the band; or, where the case says so, outside it on the side and by the size named."""
    low = expected.get("value", expected.get("low", -float("inf")))
    high = expected.get("value", expected.get("high", float("inf")))
    low -= expected.get("abs", 0.0) + expected.get("rel", 0.0) * abs(low)
    high += expected.get("abs", 0.0) + expected.get("rel", 0.0) * abs(high)
    known = case.get("known_disagreement")
    if known is None:
        assert low <= ours <= high
        return
    assert ours == pytest.approx(known["ours"], rel=0.01)
    assert ours > high if known["direction"] == "above" else ours < low


BLENDS = [case for case in load("blend.json")[0] if case["call"] == "blend"]
TABLE, GROUPS = load("table_values.json")
VALUES = [case for case in TABLE if case["call"] in ("table_value", "table_group_median")]


@pytest.mark.parametrize("case", BLENDS, ids=lambda case: case["id"])
def test_published_mix(case: dict[str, Any]) -> None:
    for key, expected in case["expected"].items():
        judge(case, expected, blend_answer(case, key))


@pytest.mark.parametrize("case", VALUES, ids=lambda case: case["id"])
def test_published_value(case: dict[str, Any]) -> None:
    for key, expected in case["expected"].items():
        judge(case, expected, table_answer(case, key, GROUPS))


def test_every_case_is_run() -> None:
    assert len(BLENDS) >= 10
    assert len(VALUES) >= 100
