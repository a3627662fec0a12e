"""Numbers a kitchen meets: capacities of beddings, pieces that are counted, what a cap brings."""

from __future__ import annotations

from decimal import Decimal

import pytest
from data.tools_table import filled, table, tool

# What is counted and does weigh more than a kilogram: whole large fruit.
HEAVY = {
    "cantaloupe-whole",
    "pineapple-whole",
    "pumpkin-whole",
    "watermelon-whole",
    "cabbage-red",
}


def test_every_bedding_holds_water_within_a_range_of_its_own() -> None:
    for row in table().feedstocks:
        if row.group not in ("beddings", "manures"):
            continue
        value = row.values.get("water_holding_capacity")
        assert value is not None, row.id
        assert value.low is not None and value.low < value.value < value.high, row.id
        assert not ("F16" in value.citation.method and value.grade == "A"), row.id


def test_what_a_keeper_counts_is_no_heavier_than_it_is() -> None:
    for row in table().feedstocks:
        for measure in row.measures.values():
            # A bag as it is sold may hold kilograms.
            if measure.wet_grams > 1000 and measure.measure != "bag":
                assert row.id in HEAVY, f"{row.id} {measure.measure} {measure.wet_grams} g"


@pytest.mark.parametrize(
    ("feedstock", "measure", "grams", "source"),
    [
        ("watermelon-rind", "piece", 286 * 48 / 52, "USDA SR26 09326: wedge 286 g, refuse 48 %"),
        ("melon-peel", "piece", 69 * 49 / 51, "USDA SR26 09181: wedge 69 g, refuse 49 %"),
        ("lettuce-leaf", "leaf", 24, "USDA SR26 11253: outer leaf"),
        ("celery", "stalk", 40, "USDA SR26 11143: medium stalk"),
    ],
)
def test_pieces_are_those_of_the_national_table(
    feedstock: str, measure: str, grams: float, source: str
) -> None:
    found = table().find(feedstock).measures[measure]
    assert float(found.wet_grams) == pytest.approx(grams, rel=0.01), source


def test_a_bin_of_newspaper_weighs_what_a_county_says() -> None:
    """2.5 lb of torn newspaper a cubic foot of bin (Grand Traverse County, Michigan)."""
    density = float(filled("newspaper")["bulk_density"].value)
    assert density == pytest.approx(2.5 * 0.45359237 / 0.028316847, rel=0.01)


def test_dry_leaves_lie_between_litter_and_a_municipal_heap() -> None:
    """Litter of hardwood sites, dry (Ottmar and Andreu 2007); leaves, loose and dry (NRAES-54).

    1.38 short tons an acre and inch; 100 lb a cubic yard. Between them the geometric mean; as it
    lies, 12 % of it is water.
    """
    row = filled("leaves-dry")["bulk_density"]
    litter = 1.38 * 907.18474 / 4046.8564 / 0.0254 / 0.88
    heap = 100 * 0.45359237 / 0.764554858
    assert float(row.low) == pytest.approx(litter, rel=0.01)
    assert float(row.high) == pytest.approx(heap, rel=0.01)
    assert float(row.value) == pytest.approx((litter * heap) ** 0.5, rel=0.01)
    shredded = filled("leaves-dry-shredded")["bulk_density"]
    assert float(row.value) < float(shredded.value) / 2


def test_no_cap_brings_a_tenth_of_the_ammonia_that_kills() -> None:
    """0.1 % ammonium acetate (nitrogen 14.007 of 77.08) in the bed killed all worms (Kaplan 1980).

    A kilogram of worms lives in some 28 kg of bed (a judgement: 1 kg in a 60 L tote, half full).
    """
    lethal = Decimal("0.001") * Decimal("14.007") / Decimal("77.08") * 28000
    budget = table().rules.cap_budgets["nitrogen"]
    assert budget <= lethal / 10
    capped = 0
    for row in table().feedstocks:
        brought = tool("stance_rules").brought_by_cap(row, table().rules)
        capped += bool(brought)
        for reason, limit in table().rules.cap_budgets.items():
            assert brought.get(reason, 0) <= limit, f"{row.id} {reason}"
    assert capped > 90


def test_raw_poultry_manure_is_barred_and_capped_after_composting() -> None:
    for name in ("layer", "broiler-litter", "turkey-litter"):
        identifier = f"manure-{name}" if "litter" in name else "manure-poultry-layer"
        row = table().find(identifier)
        assert row.stance == "avoid" and row.stance_pre_composted == "feed_little"
        assert row.most.wet_grams <= 30
        assert row.heap.stance == "feed_little"


def test_places_differ_where_lists_do() -> None:
    heap = {row.id: row.heap.stance for row in table().feedstocks if row.heap}
    for identifier in ("orange-peel", "onion", "grass-clippings", "coffee-grounds", "manure-cow"):
        assert heap[identifier] == "feed"
    for row in table().feedstocks:
        if {"meat_dairy", "pet_waste"} & set(row.cautions) and row.stance == "avoid":
            assert row.id not in heap, row.id
