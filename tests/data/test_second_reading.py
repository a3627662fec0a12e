"""Each value a second reading questioned was decided, and stands in the table as decided.

tests/cases/second_reading.json holds the decisions; docs/disagreements.md shows them.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from data.tools_table import filled, table, tool

ROOT = Path(__file__).resolve().parents[2]
READINGS: list[dict[str, Any]] = json.loads(
    (ROOT / "tests/cases/second_reading.json").read_text(encoding="utf-8")
)["readings"]
FACTORS = {"%": 0.01, "% CaCO3": 0.01, "g/100 g": 0.01, "g citric/kg": 0.001, "mg/100 g": 1e-5}


def test_every_row_is_decided() -> None:
    assert len(READINGS) == 105
    for reading in READINGS:
        assert reading["decision"] in ("taken", "taken otherwise", "range taken", "kept", "refused")
        if reading["decision"] in ("taken otherwise", "range taken", "refused"):
            assert len(reading["why"]) > 5, reading


@pytest.mark.parametrize("reading", READINGS, ids=lambda r: f"{r['feedstock']}-{r['property']}")
def test_the_table_is_as_decided(reading: dict[str, Any]) -> None:
    row = table().find(reading["feedstock"])
    key = reading["property"]
    if key == "stance":
        assert reading["ours"].startswith(row.stance)
        assert ("heap" in reading["ours"]) == (row.heap is not None)
        return
    if key == "cap":
        assert row.most is not None
        assert float(row.most.wet_grams) / 1000 == pytest.approx(reading["ours"])
        return
    if key in row.measures:
        low, high = tool("fill").measure_range(row, row.measures[key], table().rules)
        numbers, factor = (row.measures[key].wet_grams, low, high), 1.0
    else:
        value = filled(row.id)[key]
        numbers = (value.value, value.low, value.high)
        factor = FACTORS.get(table().rules.kinds[key].unit, 1.0)
    found = [float(number) * factor for number in numbers]
    assert found == pytest.approx([reading["ours"], reading["low"], reading["high"]], rel=1e-3)


def test_the_page_lists_them_all() -> None:
    page = (ROOT / "docs/disagreements.md").read_text(encoding="utf-8")
    section = page.split("## A second reading")[1]
    assert section.count("\n| ") - 2 >= len(READINGS)
