"""feed balance: the answer is checked from outside, with the table's own numbers."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest
from command import EXAMPLES, answer, call, write

KITCHEN = EXAMPLES / "kitchen.yaml"
WITH_BALANCE = [
    path
    for path in sorted(EXAMPLES.glob("*.yaml"))
    if "\nbalance:" in path.read_text(encoding="utf-8")
]
DRY_LETTUCE = {"balance": {"at_hand": ["2 kg lettuce", "up to 100 g shredded office paper"]}}


def values(feed_command: Path, name: str) -> dict[str, float]:
    shown = answer(feed_command, "show", name)["values"]
    return {value["property"]: value["value"] for value in shown}


def test_kitchen_meets_its_targets(feed_command: Path) -> None:
    ours = answer(feed_command, "balance", KITCHEN)
    assert ours["status"] == "solved"
    assert all(one["inside"] for one in ours["reached"].values())
    wet = water = carbon = nitrogen = 0.0
    for portion in ours["portions"]:
        mass = portion["wet_mass_kg"]
        known = values(feed_command, portion["feedstock"])
        dry = mass * (1 - known["moisture"])
        wet += mass
        water += mass - dry
        carbon += dry * known.get("carbon", 0.0)
        nitrogen += dry * known.get("nitrogen", 0.0)
    assert ours["reached"]["moisture"]["value"] == pytest.approx(water / wet, rel=1e-9)
    assert ours["reached"]["cn_ratio"]["value"] == pytest.approx(carbon / nitrogen, rel=1e-9)
    by_id = {portion["feedstock"]: portion["wet_mass_kg"] for portion in ours["portions"]}
    assert by_id["coffee-grounds"] == pytest.approx(1.2, rel=1e-9)


@pytest.mark.parametrize("path", WITH_BALANCE, ids=lambda path: path.stem)
def test_every_example_with_a_balance_has_an_answer(path: Path, feed_command: Path) -> None:
    words = [str(feed_command), "balance", str(path), "--why"]
    result = subprocess.run(words, capture_output=True, text=True, check=False)
    met = result.returncode == 0
    assert result.returncode in (0, 1), result.stderr
    if "\nbed:" in path.read_text(encoding="utf-8"):
        # With a bed the balance is the ration.
        ration = call(feed_command, "ration", str(path)).stdout
        assert result.stdout.splitlines()[0] == ration.splitlines()[0]
        assert all(line in result.stdout for line in ration.splitlines())
    else:
        assert "carbon to nitrogen by mass" in result.stdout
        assert ("A recipe: mix together" if met else "cannot hold together") in result.stdout
    assert all(len(line) <= 80 for line in result.stdout.splitlines()), path


def test_infeasible_names_conflict_closest_and_mend(feed_command: Path, tmp_path: Path) -> None:
    path = write(tmp_path, DRY_LETTUCE)
    ours = answer(feed_command, "balance", path, code=1)
    assert ours["status"] == "infeasible"
    assert "lettuce" in ours["conflict"]
    assert ours["closest"]["portions"] and ours["portions"] == []
    assert [one for one in ours["advice"] if "bedding" in one]
    mend = ours["mend"]
    assert mend["add_kg"] > 0
    assert mend["label"]
    # What is said to mend it does mend it, with what is said to go with it.
    amounts = {part["feedstock"]: part["wet_mass_kg"] for part in mend["with"]}
    more = mend["add_kg"] * 1.000001
    amounts[mend["feedstock"]] = amounts.get(mend["feedstock"], 0.0) + more
    entries: list[Any] = [f"{kg} kg {name}" for name, kg in amounts.items() if kg > 0]
    mended = answer(
        feed_command, "balance", write(tmp_path, {"balance": {"at_hand": entries}}, "mended.json")
    )
    assert mended["status"] == "solved"
    text = call(feed_command, "balance", path, code=1).stdout
    assert "cannot hold together" in text and "To mend it, add " in text


def test_no_amount_fixed_is_refused(feed_command: Path, tmp_path: Path) -> None:
    path = write(tmp_path, {"balance": {"at_hand": ["any lettuce", "any shredded cardboard"]}})
    error = call(feed_command, "balance", path, code=2).stderr
    assert "amount" in error
    assert json.loads(call(feed_command, "balance", path, "--json", code=2).stdout)["errors"]


def test_unbounded_is_an_answer(feed_command: Path, tmp_path: Path) -> None:
    content = {
        "balance": {
            "at_hand": ["at least 1 kg carrot", "as much as possible shredded cardboard"],
            "targets": {"set": "none", "cn_ratio": "at least 20"},
            "objective": "use up most",
        }
    }
    path = write(tmp_path, content)
    assert answer(feed_command, "balance", path, code=1)["status"] == "unbounded"
    assert "Nothing limits" in call(feed_command, "balance", path, code=1).stdout


@pytest.mark.parametrize(
    ("entry", "low", "high"),
    [
        ("1 kg carrot", 1.0, 1.0),
        ("1 to 2 kg carrot", 1.0, 2.0),
        ("1 kg to 2 kg carrot", 1.0, 2.0),
        ({"feedstock": "carrot", "amount": "500 g to 1 kg"}, 0.5, 1.0),
        ("at least 1 kg carrot", 1.0, 1e9),
        ("up to 300 g carrot", 0.0, 0.3),
    ],
)
def test_entries_bound_their_amount(
    entry: Any, low: float, high: float, feed_command: Path, tmp_path: Path
) -> None:
    content = {
        "balance": {
            "at_hand": [entry, "1 kg coffee grounds", "any shredded cardboard", "any water"],
        }
    }
    ours = answer(feed_command, "balance", write(tmp_path, content))
    mass = ours["portions"][0]["wet_mass_kg"]
    assert low - 1e-9 <= mass <= high + 1e-9


def test_an_exact_target_is_met_exactly(feed_command: Path, tmp_path: Path) -> None:
    content = {
        "balance": {
            "at_hand": ["1 kg coffee grounds", "any shredded cardboard", "any water"],
            "targets": {"cn_ratio": "exactly 28", "total_mass": "1.3 kg"},
        }
    }
    ours = answer(feed_command, "balance", write(tmp_path, content))
    assert ours["reached"]["cn_ratio"]["value"] == pytest.approx(28, rel=1e-8)
    assert ours["reached"]["total_wet_kg"]["value"] == pytest.approx(1.3, rel=1e-8)


def test_same_input_same_bytes(feed_command: Path) -> None:
    texts = {call(feed_command, "balance", KITCHEN, "--json").stdout for _ in range(3)}
    assert len(texts) == 1


def test_words_of_a_recipe_are_read_as_those_of_a_ration(feed_command: Path) -> None:
    said = call(feed_command, "balance", "coffee grounds 1.2 kg, shredded cardboard, water").stdout
    assert said.startswith("A recipe")
    assert "coffee grounds, 1.2 kg." in said
    # The bedding that was named is taken, and nothing is left out that nobody named.
    said = call(feed_command, "balance", "3 apples, newspaper").stdout
    assert "newspaper" in said
    assert "cardboard" not in said
    assert "Leave out" not in said
    said = call(feed_command, "balance", "hydrated lime 100 g", code=1).stdout
    assert said.startswith("Never feed hydrated lime")
