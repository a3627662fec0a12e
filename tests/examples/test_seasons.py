"""The two invented seasons: written by a script, summed by hand, told in docs/seasons.md."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

ROOT = Path(__file__).resolve().parents[2]
SEASONS = ROOT / "examples" / "seasons"
SCHOOL = sorted((SEASONS / "school").glob("*.yaml"))
BEDS = sorted((SEASONS / "yard").glob("bed_*.yaml"))
HEAPS = sorted((SEASONS / "yard").glob("heap_*.yaml"))
PAGE = (ROOT / "docs" / "seasons.md").read_text(encoding="utf-8")
BEDDINGS = ("cardboard", "newspaper", "paper", "leaves")


def run(feed_command: Path, *words: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [str(feed_command), *map(str, words)], capture_output=True, text=True, check=False
    )


def answer(feed_command: Path, *words: str | Path) -> dict[str, Any]:
    done = run(feed_command, *words, "--json")
    assert done.returncode == 0, done.stdout + done.stderr
    said: dict[str, Any] = json.loads(done.stdout)
    return said


def content(path: Path) -> dict[str, Any]:
    read: dict[str, Any] = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return read


def summed(path: Path) -> tuple[float, float, int]:
    """Scraps and bedding in kg and the feedings of a diary, by its text alone."""
    scraps = bedding = 0.0
    feedings = content(path)["feedings"]
    for feeding in feedings:
        for portion in feeding["portions"]:
            amount, unit, name = portion.split(" ", 2)
            assert unit == "g"
            if name.endswith(BEDDINGS):
                bedding += float(amount) / 1000
            else:
                scraps += float(amount) / 1000
    return scraps, bedding, len(feedings)


def two_figures(kg: float) -> str:
    """As a mass is said: two figures, grams below a kilogram."""
    if kg < 1:
        return f"{float(f'{kg * 1000:.2g}'):.0f} g"
    return f"{float(f'{kg:.2g}'):g} kg"


def test_the_files_are_those_that_the_script_writes() -> None:
    done = subprocess.run(
        [sys.executable, str(SEASONS / "write.py"), "--check"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout
    assert (len(SCHOOL), len(BEDS), len(HEAPS)) == (5, 4, 3)
    for path in (*SCHOOL, *BEDS, *HEAPS):
        assert "# Invented" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("bins", [SCHOOL, BEDS], ids=["school", "yard"])
def test_totals_are_the_sums_of_the_diaries(feed_command: Path, bins: list[Path]) -> None:
    totals = answer(feed_command, "totals", *bins)
    sums = [summed(path) for path in bins]
    for one, (scraps, bedding, feedings) in zip(totals["bins"], sums, strict=True):
        assert one["scraps_kg"] == pytest.approx(scraps)
        assert one["bedding_kg"] == pytest.approx(bedding)
        assert one["feedings"] == feedings
    assert totals["all"]["scraps_kg"] == pytest.approx(sum(one[0] for one in sums))
    for part in ("weeks", "months", "groups"):
        assert sum(one["scraps_kg"] for one in totals[part]) == pytest.approx(
            totals["all"]["scraps_kg"]
        )


@pytest.mark.parametrize(
    ("bins", "heading"), [(SCHOOL, "## A school's term"), (BEDS, "## A yard's quarter")]
)
def test_the_totals_on_the_page_are_those_sums(bins: list[Path], heading: str) -> None:
    story = PAGE.split(heading)[1].split("\n## ")[0]
    sums = {content(path)["title"]: summed(path) for path in bins}
    scraps = sum(one[0] for one in sums.values())
    bedding = sum(one[1] for one in sums.values())
    feedings = sum(one[2] for one in sums.values())
    assert f"In all {two_figures(scraps)} of scraps and {two_figures(bedding)} of bedding" in story
    assert f"{feedings} feedings, " in story
    for title, (kg, laid, _) in sums.items():
        assert re.search(
            rf"  {title}: {two_figures(kg)} of scraps(, | and ){two_figures(laid)} of bedding",
            story,
        ), title


def test_a_week_of_the_season_is_within_what_is_there(feed_command: Path) -> None:
    """Of the kitchen's freezer no more is taken than was put by, and every gram is fed."""
    plan = answer(
        feed_command,
        "week",
        *SCHOOL,
        "--date",
        "2026-12-14",
        "--have",
        "2 kg carrot, 1 kg cucumber",
    )
    assert plan["verified"] is True
    put: dict[str, float] = {}
    for one in plan["bins"]:
        for opening in one["openings"]:
            for thing in opening["ration"]["put_in"]:
                put[thing["label"]] = put.get(thing["label"], 0.0) + thing["wet_mass_kg"]
    there = {"frozen melon rind": 3.0, "lettuce": 1.2, "shredded cardboard": 6.0}
    assert plan["from_stock"]
    for one in plan["from_stock"]:
        assert one["bin"] == "Kitchen box"
        assert one["wet_mass_kg"] <= there[one["label"]] + 1e-9
        assert one["wet_mass_kg"] == pytest.approx(put[one["label"]], abs=1e-6)


def test_the_heaps_are_at_three_stages(feed_command: Path) -> None:
    days = {"heap_spring": "2026-06-30", "heap_june": "2026-07-03", "heap_new": "2026-07-03"}
    steps = {
        path.stem: answer(feed_command, "heap", path, "--date", days[path.stem])["log"]["step"]
        for path in HEAPS
    }
    assert steps == {"heap_spring": "cooled", "heap_june": "turn", "heap_new": "leave"}
    for path in HEAPS:
        refused = run(feed_command, "totals", *BEDS, path)
        assert refused.returncode == 2
        assert "ask feed heap" in " ".join(refused.stderr.split())


@pytest.mark.parametrize("path", [*SCHOOL, *BEDS], ids=lambda path: path.stem)
def test_a_harvest_of_today_is_one_number(feed_command: Path, path: Path) -> None:
    """What is to be expected, and what is to be noted."""
    said = " ".join(run(feed_command, "harvest", path).stdout.split())
    if "Harvest when it suits" not in said or "at most: more at once" in said:
        return
    expected = re.search(r"Expect about ([^ ]+ L) of castings", said)
    noted = re.search(r"harvested ([^ ,]+ L)", said)
    if noted is not None:
        assert expected is not None and expected.group(1) == noted.group(1), said
