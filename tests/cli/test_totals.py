"""`feed totals`: what the diaries of some bins add up to, against sums made here."""

from __future__ import annotations

import json
import random
from collections import defaultdict
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from command import EXAMPLES, answer, call

BINS = sorted((EXAMPLES / "school").glob("*.yaml"))
SUMS = ("feedings", "scraps_kg", "bedding_kg", "lime_kg", "water_kg", "kept_kg", "castings_l")
# What each is to a feeding, and whether a site would else throw it away.
PARTS = {
    "carrot": ("scraps_kg", True),
    "coffee grounds": ("scraps_kg", True),
    "newspaper": ("bedding_kg", True),
    "dry leaves": ("bedding_kg", True),
    "coir": ("bedding_kg", False),
    "wheat straw": ("bedding_kg", False),
    "ground eggshell": ("lime_kg", False),
    "water": ("water_kg", False),
}
GROUPS = ("", "Foxes", "Owls")
PEOPLE = ("", "Ana", "Ben")


class Sums:
    """Sums by bin, group, month and week."""

    def __init__(self) -> None:
        self.of: dict[tuple[str, str], dict[str, float]] = defaultdict(lambda: defaultdict(float))

    def add(self, day: date, bin_name: str, group: str, what: str, amount: float) -> None:
        monday = day - timedelta(days=day.weekday())
        for key in (
            ("all", ""),
            ("bins", bin_name),
            ("groups", group),
            ("months", str(day.replace(day=1))),
            ("weeks", str(monday)),
        ):
            self.of[key][what] += amount


def diary(dice: random.Random, name: str, sums: Sums) -> dict[str, Any]:
    """A bin with a random diary; what is planned after day 0 does not count."""
    group = dice.choice(GROUPS)
    file: dict[str, Any] = {"libfeed": 1, "title": name, "bed": {"container": "60 L tote"}}
    file |= {"group": group} if group else {}
    first = date(2025, 11, 3)
    file["feedings"] = []
    file["observations"] = []
    fed = set()
    for _ in range(dice.randrange(12)):
        day = first + timedelta(days=dice.randrange(200))
        fed.add(day)
        by = dice.choice(PEOPLE)
        counted = day <= LAST
        portions = []
        for what in dice.sample(sorted(PARTS), dice.randrange(1, 5)):
            grams = dice.randrange(10, 900)
            portions.append(f"{grams} g {what}")
            part, waste = PARTS[what]
            if counted:
                sums.add(day, name, group or by, part, grams / 1000)
                sums.add(day, name, group or by, "kept_kg", grams / 1000 * waste)
        if counted:
            sums.add(day, name, group or by, "feedings", 1)
        file["feedings"].append({"date": str(day), "portions": portions, "by": by})
    for _ in range(dice.randrange(8)):
        day = first + timedelta(days=dice.randrange(200))
        by = dice.choice(PEOPLE)
        seen: dict[str, Any] = {"date": str(day), "by": by}
        who = group or by
        litres, grams, weight = dice.randrange(1, 9), dice.randrange(50, 900), dice.randrange(1, 9)
        if dice.random() < 0.4:
            seen["action"] = f"harvested {litres} L, added water {litres} L"
        if dice.random() < 0.4:
            seen["bedding"] = f"{grams} g newspaper"
        if dice.random() < 0.4:
            seen["weight_in"] = f"{weight} kg"
        file["observations"].append(seen)
        if day > LAST:
            continue
        if "action" in seen:
            sums.add(day, name, who, "castings_l", litres)
            sums.add(day, name, who, "water_kg", litres)
        if "bedding" in seen:
            sums.add(day, name, who, "bedding_kg", grams / 1000)
            sums.add(day, name, who, "kept_kg", grams / 1000)
        if "weight_in" in seen and day not in fed:
            sums.add(day, name, who, "scraps_kg", weight)
            sums.add(day, name, who, "kept_kg", weight)
            sums.add(day, name, who, "feedings", 1)
    return file


LAST = date(2026, 4, 1)


@pytest.mark.parametrize("seed", range(25))
def test_totals_are_the_sums_of_the_diaries(feed_command: Path, tmp_path: Path, seed: int) -> None:
    dice = random.Random(seed)
    sums = Sums()
    paths = []
    for number in range(dice.randrange(1, 6)):
        name = f"Bin {number + 1}"
        path = tmp_path / f"{number}.json"
        path.write_text(json.dumps(diary(dice, name, sums)), encoding="utf-8")
        paths.append(path)
    said = answer(feed_command, "totals", *paths, "--date", str(LAST))
    for what in SUMS:
        assert said["all"][what] == pytest.approx(sums.of["all", ""][what], abs=1e-9)
    for key, name in (("bins", "bin"), ("groups", "group"), ("months", "from"), ("weeks", "from")):
        names = [one[name] for one in said[key]]
        assert len(set(names)) == len(names)
        if name == "from":
            assert names == sorted(names)
        for one in said[key]:
            for what in SUMS:
                expected = sums.of[key, one[name]][what]
                assert one[what] == pytest.approx(expected, abs=1e-9), (key, one[name], what)
        for what in SUMS:
            whole = sum(one[what] for one in said[key])
            assert whole == pytest.approx(said["all"][what], abs=1e-9)


def test_the_screen_has_the_sum_first(feed_command: Path) -> None:
    lines = call(feed_command, "totals", *BINS).stdout.splitlines()
    # 200 + 150 + 500 + 300 + 400 g of scraps, 60 + 50 + 120 + 80 + 80 g of cardboard
    assert lines[0] == "In all 1.6 kg of scraps and 390 g of bedding went in."
    assert lines[1] == "5 feedings, Sun 26 Apr to Fri 1 May."
    assert "Kept out of the rubbish: 1.9 kg." in lines
    assert "  Class 4: 500 g of scraps and 120 g of bedding." in lines
    assert len(lines) <= 12
    why = call(feed_command, "totals", *BINS, "--why").stdout
    assert "  Owls: 150 g of scraps and 50 g of bedding." in why.splitlines()
    assert "  2026-04-27: " in why


def test_a_share_of_the_bed_is_a_harvest_by_its_volume(feed_command: Path, tmp_path: Path) -> None:
    """A third of a bed that is 20 cm deep in a box of 50 by 40 cm: 13.3 L."""
    bed = {"container": {"inside": "50 x 40 x 40 cm"}, "depth_of_contents": "20 cm"}
    for words, litres in (("took out a third", 40 / 3), ("took out half with the worms", 0)):
        path = tmp_path / "bin.json"
        seen = {"date": "2026-03-20", "action": words}
        file = {
            "libfeed": 1,
            "bed": {"date": "2026-03-20", **bed},
            "observations": [seen],
        }
        path.write_text(json.dumps(file), encoding="utf-8")
        assert answer(feed_command, "totals", path)["all"]["castings_l"] == pytest.approx(litres)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--since", "soon"), "this is not a day"),
        (("--since", "2026-05-01", "--date", "2026-04-01"), "this day is after today"),
        (("--date", "soon"), "is no day"),
    ],
)
def test_a_slip_is_one_clear_error(feed_command: Path, words: tuple[str, ...], told: str) -> None:
    assert told in call(feed_command, "totals", *BINS, *words, code=2).stderr


def test_nothing_in_the_time_is_said(feed_command: Path) -> None:
    said = call(feed_command, "totals", *BINS, "--since", "2026-06-01").stdout
    assert said == "Nothing was fed, bedded or harvested in this time.\n"


def test_the_door_gives_the_same_sums(feed_command: Path) -> None:
    request = {"verb": "totals", "bins": [path.read_text(encoding="utf-8") for path in BINS]}
    said = json.loads(call(feed_command, "call", "-", text_in=json.dumps(request)).stdout)
    assert said == answer(feed_command, "totals", *BINS)
