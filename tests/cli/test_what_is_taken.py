"""What an answer took for granted, and what becomes of the rest, said on the first screen."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from command import answer, call

BIN = ["--bin", "60 L tote", "--worms", "500 g"]


def screen(feed_command: Path, *words: str | Path) -> str:
    """The first screen on one line."""
    return " ".join(call(feed_command, *words).stdout.split())


@pytest.mark.parametrize("things", ["3 apples", "a cup of coffee grounds", "30 g lettuce"])
def test_worms_that_nobody_named_are_said(feed_command: Path, things: str) -> None:
    assert "No worms were named" in screen(feed_command, "ration", things)
    assert "No worms were named" not in screen(feed_command, "ration", *BIN, things)
    assert "No worms were named" in screen(feed_command, "check", things)


def test_the_size_of_a_bin_alone_tells_of_no_worms(feed_command: Path) -> None:
    assert "if it has " in screen(feed_command, "worms", "--bin", "60 L tote")
    with_worms = screen(feed_command, "worms", *BIN)
    assert "if it has" not in with_worms and "It has 500 g of worms" in with_worms


def test_dung_is_not_laid_into_a_freezer(feed_command: Path, tmp_path: Path) -> None:
    dung = screen(feed_command, "ration", *BIN, "a bag of horse manure")
    assert "Keep the other dung (" in dung and "reeze" not in dung
    both = screen(feed_command, "ration", *BIN, "2 kg horse manure, 3 kg apples")
    assert "Freeze the rest (" in both and "Keep the other dung (" in both
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, *BIN, "--date", "2026-03-01")
    call(feed_command, "note", path, "stock 2 kg horse manure", "--date", "2026-04-01")
    stock = screen(feed_command, "stock", path)
    assert "Outdoors, covered: 2 kg of horse manure." in stock and "reeze" not in stock
    week = screen(feed_command, "week", path, "--have", "9 kg rabbit manure")
    assert "reeze" not in week and "for next week" in week


def test_all_that_is_capped_is_named(feed_command: Path) -> None:
    things = "2 cups of rice, 5 avocados, a bag of leaves"
    ours = answer(feed_command, "ration", *BIN, things)
    capped = [one["label"] for one in ours["rest"] if one["capped"]]
    assert len(capped) == 2
    told = screen(feed_command, "ration", *BIN, things)
    assert f"No more {capped[0]} or {capped[1]} for a week." in told


@pytest.mark.parametrize("words", ["a bucket", "my tote", "an old bath", "3 trays", "the bath"])
def test_a_bin_is_said_as_people_say_it(feed_command: Path, words: str) -> None:
    code = 2 if "old" in words else 0
    call(feed_command, "ration", "--bin", words, "--worms", "500 g", "3 apples", code=code)


def test_trays_are_counted(feed_command: Path, tmp_path: Path) -> None:
    """Three trays have three times the surface of one."""
    weeks = {
        words: answer(feed_command, "ration", "--bin", words, "3 kg apples")["week_kg"]
        for words in ("tray", "3 trays")
    }
    assert weeks["3 trays"] == pytest.approx(3 * weeks["tray"], rel=0.02)
    file = tmp_path / "trays.yaml"
    file.write_text(
        "libfeed: 1\nbed: {container: 51 trays}\nblend: [3 kg apples]\n", encoding="utf-8"
    )
    assert "a whole number from 1 to 50" in call(feed_command, "ration", file, code=2).stderr


@pytest.mark.parametrize("what", ["dead cat", "2 dead dogs", "a dead hamster", "dead mole"])
def test_a_dead_animal_is_refused_by_its_name(feed_command: Path, what: str) -> None:
    assert screen(feed_command, "ration", *BIN, what).startswith(f"Never feed {what.lstrip('2a ')}")


@pytest.mark.parametrize("things", ["6 kiwi peels", "3 plum skins"])
def test_a_part_of_which_only_the_whole_is_known_is_said_by_weight(
    feed_command: Path, things: str
) -> None:
    """Six peels of kiwi were "7/8 piece": so much of a whole fruit weighs as they do."""
    told = call(
        feed_command, "ration", "--bin", "100 L tote", "--worms", "2 kg", things
    ).stdout.splitlines()
    assert re.fullmatch(r"  [a-z ]+, \d+ g\.", told[1]), told


def test_a_bag_from_the_garden_is_a_large_one(feed_command: Path) -> None:
    """A bag of leaves is 30 to 115 L (common practice), no bag from a shop."""
    leaves = answer(feed_command, "blend", "2 bags of leaves")["wet_mass_kg"]
    assert 8.0 < leaves < 16.0
    assert answer(feed_command, "blend", "a bag of carrots")["wet_mass_kg"] == pytest.approx(1.0)
