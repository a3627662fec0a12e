"""Whole fruit rows follow from flesh and peel by the refuse share (formula F23)."""

from __future__ import annotations

import pytest
from data.yaml_table import YamlTable

# Whole row: flesh and peel it is made of.
WHOLE = {
    "apple-whole": ("apple-flesh", "apple-pomace"),
    "avocado-whole": ("avocado-flesh", "avocado-skin-stone"),
    "banana-whole": ("banana-flesh", "banana-peel"),
    "cantaloupe-whole": ("cantaloupe-flesh", "melon-peel"),
    "lemon-whole": ("lemon-flesh", "lemon-peel"),
    "mango-whole": ("mango-flesh", "mango-peel"),
    "pineapple-whole": ("pineapple-flesh", "pineapple-peel"),
    "watermelon-whole": ("watermelon-flesh", "watermelon-rind"),
}
# Grams of flesh of the whole fruit where a keeper counts wedges: USDA SR26 09326, melon 15 inches
# long and 7 1/2 across.
WHOLE_FLESH = {("watermelon-whole", "piece"): 4518.0}


@pytest.fixture(scope="module")
def table() -> YamlTable:
    return YamlTable()


def known(table: YamlTable, feedstock: str, key: str) -> float:
    number = table.find(feedstock, key)
    assert number is not None, f"{feedstock} has no {key}"
    return number.value


def from_parts(table: YamlTable, flesh: str, peel: str, key: str) -> float:
    """F23 for a property on dry basis, or for moisture."""
    refuse = known(table, flesh, "refuse")
    dry_flesh = (1 - refuse) * (1 - known(table, flesh, "moisture"))
    dry_peel = refuse * (1 - known(table, peel, "moisture"))
    if key == "moisture":
        return 1 - dry_flesh - dry_peel
    total = dry_flesh * known(table, flesh, key) + dry_peel * known(table, peel, key)
    return total / (dry_flesh + dry_peel)


@pytest.mark.parametrize("key", ["moisture", "carbon", "nitrogen", "ash"])
@pytest.mark.parametrize("whole", WHOLE)
def test_a_whole_row_is_its_parts(table: YamlTable, whole: str, key: str) -> None:
    flesh, peel = WHOLE[whole]
    assert known(table, whole, key) == pytest.approx(from_parts(table, flesh, peel, key), rel=0.005)


@pytest.mark.parametrize("whole", WHOLE)
def test_a_whole_piece_weighs_flesh_over_what_is_eaten(table: YamlTable, whole: str) -> None:
    flesh, _ = WHOLE[whole]
    pieces = table.rows[flesh]["measures"]
    for size, measure in table.rows[whole]["measures"].items():
        if size == "bag":
            continue  # as it is sold, not one piece
        eaten = WHOLE_FLESH.get((whole, size)) or float(pieces[size]["wet"].split()[0])
        weighed = float(measure["wet"].split()[0])
        assert weighed == pytest.approx(eaten / (1 - known(table, flesh, "refuse")), rel=0.005)


def test_the_formula_gives_back_a_measured_whole_fruit(table: YamlTable) -> None:
    """USDA SR26 holds orange flesh (09200), peel (09216) and the whole orange (09205) apart."""
    for key, tolerance in (("moisture", 0.01), ("carbon", 0.03), ("nitrogen", 0.15)):
        made = from_parts(table, "orange-flesh", "orange-peel", key)
        assert made == pytest.approx(known(table, "orange-whole", key), rel=tolerance)
    made = from_parts(table, "orange-flesh", "orange-peel", "carbon") / from_parts(
        table, "orange-flesh", "orange-peel", "nitrogen"
    )
    assert made == pytest.approx(known(table, "orange-whole", "cn_ratio"), rel=0.15)
