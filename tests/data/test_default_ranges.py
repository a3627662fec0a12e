"""Default ranges against the difference between two independent national food tables.

For every food that stands in the table (USDA SR26) and in the Indian Food Composition Tables 2017
(tests/cases/ifct_foods.json), the default range of the group about our value alone, without what
the row knows of the second table, must hold the second table's value in eight of ten pairs.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from data.test_ifct import FOODS, rebuild
from data.tools_table import filled, table, tool

WANTED = 0.80
# Shares that follow from others, and a limit of chemistry.
BOUND = {
    "neutralising_value",
    "labile_share",
    "cellulosic_share",
    "lignin_like_share",
    "bulk_density_settled",
}


@pytest.mark.parametrize("key", ["moisture", "nitrogen", "cn_ratio"])
def test_eight_in_ten_pairs_lie_inside(key: str) -> None:
    held = 0
    for food in FOODS:
        row = table().find(food["feedstock"])
        low, high, _ = tool("fill").default_range(row.values[key], row.group, table().rules)
        theirs = getattr(rebuild(food), key) * (1 if key == "cn_ratio" else 100)
        held += float(low) <= theirs <= float(high)
    assert held / len(FOODS) >= WANTED, f"{held} of {len(FOODS)}"
    # Not by ranges so wide that they say nothing: a tenth must still lie outside.
    assert held / len(FOODS) <= 0.90


def test_the_range_of_a_row_holds_the_default_and_its_records() -> None:
    """A span of two records is widened to the default; a sourced range is left as it is."""
    # 94.2 % with 35 % of the 5.8 % of dry matter to either side.
    moisture = filled("chayote")["moisture"]
    assert (moisture.low, moisture.high) == (Decimal("92.1"), Decimal("96.3"))
    # 36.3 to 51.6 % in 100 samples (Heckman 1996).
    carbon = filled("leaves-mixed")["carbon"]
    assert (carbon.low, carbon.high) == (Decimal("36.3"), Decimal("51.6"))


def test_nitrogen_follows_from_a_sourced_ratio() -> None:
    """Grass clippings: carbon 44.3 % over C:N 9 to 25 (on-farm composting table)."""
    nitrogen = filled("grass-clippings")["nitrogen"]
    assert float(nitrogen.low) == pytest.approx(44.3 / 25, rel=0.01)
    assert float(nitrogen.high) == pytest.approx(44.3 / 9, rel=0.01)


def test_no_value_stands_at_the_end_of_its_range() -> None:
    """An end is a limit (0, 100 %, a definition), never the largest of a few records."""
    for row in table().feedstocks:
        for key, value in filled(row.id).items():
            kind = table().rules.kinds[key]
            if value.low == value.high or value.value in kind.hard or key in BOUND:
                continue
            assert value.low < value.value < value.high, f"{row.id} {key}"
