"""Default ranges against the difference between two independent national food tables.

For every food that stands in the table (USDA SR26) and in the Indian Food Composition Tables 2017
(tests/cases/ifct_foods.json), the default range of the group about our value alone, without what
the row knows of the second table, must hold the second table's value in eight of ten pairs.
"""

from __future__ import annotations

import sys
from decimal import Decimal
from pathlib import Path

import pytest
from data.test_ifct import FOODS, rebuild
from data.yaml_table import YamlTable

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "data" / "tools"))
from fill import FullValue, default_range, full_values  # noqa: E402
from model import Citation, Table, Value  # noqa: E402
from problems import Place, Problems  # noqa: E402
from table_loader import load_table  # noqa: E402

WANTED = 0.80
PLACE = Place("test", 1)


@pytest.fixture(scope="module")
def tools_table() -> Table:
    problems = Problems(ROOT)
    table = load_table(ROOT / "data", ROOT / "tests" / "cases", problems)
    assert not problems.found
    return table


def filled(table: Table, identifier: str) -> dict[str, FullValue]:
    row = table.find(identifier)
    assert row is not None
    return {value.key: value for value in full_values(row, table.rules)}


@pytest.mark.parametrize("key", ["moisture", "nitrogen", "cn_ratio"])
def test_eight_in_ten_pairs_lie_inside(tools_table: Table, key: str) -> None:
    held = 0
    for food in FOODS:
        row = tools_table.find(food["feedstock"])
        assert row is not None
        typical = row.values[key].value
        value = Value(key, typical, "A", Citation((), "read"), PLACE)
        low, high, _ = default_range(value, row.group, tools_table.rules)
        theirs = getattr(rebuild(food), key) * (1 if key == "cn_ratio" else 100)
        held += float(low) <= theirs <= float(high)
    assert held / len(FOODS) >= WANTED, f"{held} of {len(FOODS)}"
    # Not by ranges so wide that they say nothing: a tenth must still lie outside.
    assert held / len(FOODS) <= 0.90


def test_the_range_of_a_row_holds_the_default_and_its_records(tools_table: Table) -> None:
    """A span of two records is widened to the default; a sourced range is left as it is."""
    chayote = filled(tools_table, "chayote")
    # 94.2 % with 35 % of the 5.8 % of dry matter to either side.
    assert (chayote["moisture"].low, chayote["moisture"].high) == (Decimal("92.1"), Decimal("96.3"))
    leaves = filled(tools_table, "leaves-mixed")
    assert (leaves["carbon"].low, leaves["carbon"].high) == (Decimal("36.3"), Decimal("51.6"))


def test_nitrogen_follows_from_a_sourced_ratio(tools_table: Table) -> None:
    """Grass clippings: carbon 44.3 % over C:N 9 to 25 (on-farm composting table)."""
    grass = filled(tools_table, "grass-clippings")
    assert float(grass["nitrogen"].low) == pytest.approx(44.3 / 25, rel=0.005)
    assert float(grass["nitrogen"].high) == pytest.approx(44.3 / 9, rel=0.005)


def test_no_value_stands_at_the_end_of_its_range(tools_table: Table) -> None:
    """An end is a limit (0, 100 %, a definition, chemistry), never the largest of a few records."""
    for row in tools_table.feedstocks:
        for value in full_values(row, tools_table.rules):
            kind = tools_table.rules.kinds[value.key]
            if (
                value.low == value.high
                or value.value in kind.hard
                or value.key
                in (
                    "neutralising_value",
                    "labile_share",
                    "cellulosic_share",
                    "lignin_like_share",
                    "bulk_density_settled",
                )
            ):
                continue
            assert value.low < value.value < value.high, f"{row.id} {value.key}"


def test_every_table_row_is_read_alike() -> None:
    """The files read without the tools hold the same foods."""
    table = YamlTable()
    assert all(food["feedstock"] in table.rows for food in FOODS)
