"""A keeper finds no second answer beside the first: in what is told to type, counted, set aside."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from command import answer, call

BED = (
    "libfeed: 1\nbed:\n  date: 2026-03-01\n  container: 60 L tote\n"
    "  worms: 500 g\n  age: 8 months\n"
)


LIVES = ["--size", "60 L", "--worms", "1 lb", "--age", "4 months"]


def on_one_line(feed_command: Path, *words: str | Path) -> str:
    """The screen on one line."""
    return " ".join(call(feed_command, *words).stdout.split())


def test_start_notes_what_it_told_to_feed(feed_command: Path, tmp_path: Path) -> None:
    new = tmp_path / "new.yaml"
    told = on_one_line(
        feed_command, "start", new, "--size", "60 L", "--worms", "1 lb", "--date", "2026-03-01"
    )
    typed = re.search(r"Once fed, note it: feed note \S+ (fed (.*) of soft scraps)$", told)
    assert typed and f"about {typed[2]} of soft scraps" in told, told
    lives = tmp_path / "lives.yaml"
    told = on_one_line(feed_command, "start", lives, *LIVES, "--squeeze", "drops")
    typed = re.search(r"Once fed, note it: feed note \S+ (fed (.*) of soft scraps)$", told)
    assert typed and f"Feed it: {typed[2]} of scraps today." in told, told
    assert call(feed_command, "note", lives, typed[1]).stdout.startswith("Written down")


def test_start_tells_of_no_food_to_note_where_nothing_is_fed(
    feed_command: Path, tmp_path: Path
) -> None:
    wet = tmp_path / "wet.yaml"
    told = on_one_line(feed_command, "start", wet, *LIVES, "--squeeze", "pooling")
    assert (
        "feed nothing" in told.lower() and "note FILE fed" not in told and f"{wet} fed" not in told
    )


@pytest.mark.parametrize("worms", ["300 g", "500 g", "1 lb", "800 g", "1 kg"])
def test_a_first_ration_is_measured_in_whole_and_half_handfuls(
    feed_command: Path, tmp_path: Path, worms: str
) -> None:
    told = on_one_line(
        feed_command, "start", tmp_path / "b.yaml", "--size", "60 L", "--worms", worms
    )
    assert not re.search(r"\d/(?!2)\d+ handful", told), told


def test_a_harvest_that_waits_tells_of_no_change(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "drowned.yaml"
    path.write_text(BED + "  squeeze: pooling\n")
    said = answer(feed_command, "harvest", path, "--date", "2026-03-01")
    assert said["act_first"] is True
    assert (
        said["change"]["taken_l"] == 0
        and said["change"]["note"] == ""
        and said["change"]["bedding"] == []
    )


def test_a_harvest_of_a_bed_of_unknown_age_says_what_it_takes(
    feed_command: Path, tmp_path: Path
) -> None:
    path = tmp_path / "bin.yaml"
    path.write_text(BED)
    assert "Nobody said" not in on_one_line(feed_command, "harvest", path)
    path.write_text(BED.replace("  age: 8 months\n", ""))
    assert "Nobody said how old the bed is" in on_one_line(feed_command, "harvest", path)


def test_a_week_counts_no_amount_of_what_is_never_fed(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "bin.yaml"
    path.write_text(
        BED + "stock:\n  - {date: 2026-03-01, portions: [300 g bacon, 400 g carrots]}\n"
    )
    said = on_one_line(
        feed_command, "week", path, "--have", "1 kg bacon, 500 g carrots", "--date", "2026-03-02"
    )
    assert said.count("bacon") == 1 and said.startswith("Never feed bacon"), said
    assert "500 g of carrots, as said" in said, said


@pytest.mark.parametrize("verb", ["start", "stock", "worms"])
def test_many_barred_things_take_one_line(feed_command: Path, tmp_path: Path, verb: str) -> None:
    path = tmp_path / "bin.yaml"
    words: list[str | Path]
    if verb == "start":
        bedding = "cardboard, plastic bags, glossy paper, bleach, dryer lint"
        words = ["start", path, "--size", "60 L", "--bedding", bedding]
    elif verb == "stock":
        path.write_text(
            BED
            + "stock:\n  - {date: 2026-03-01, portions: [300 g bacon, 400 g cheese, 1 kg bones]}\n"
        )
        words = ["stock", path, "--date", "2026-03-01"]
    else:
        words = ["worms", "300 g bacon, 400 g cheese, 1 kg chicken bones, 5 kg carrots"]
    told = call(feed_command, *words).stdout
    assert told.count("Never feed") == 1, told
    assert len(told.splitlines()) <= 14, told


@pytest.mark.parametrize("thing", ["onion", "bread", "orange peel"])
def test_nobody_opens_a_bin_for_a_pinch(feed_command: Path, thing: str) -> None:
    """Twenty grams of worms may have a gram or two of these in a week."""
    said = answer(feed_command, "ration", "--bin", "20 L tote", "--worms", "20 g", f"500 g {thing}")
    assert said["answer"] == "wait" and said["scraps_kg"] == 0 and said["put_in"] == []
    assert f"of {thing}" in said["reasons"][0] and said["next_feeding"] is None
    enough = answer(
        feed_command, "ration", "--bin", "60 L tote", "--worms", "1 kg", f"500 g {thing}"
    )
    assert enough["answer"] == "feed_less" and enough["scraps_kg"] >= 0.03


@pytest.mark.parametrize(
    ("words", "never"),
    [("old pair of jeans", "Batteries"), ("200 g worms", "vegetable"), ("1 hamster", "Alfalfa")],
)
def test_what_is_offered_has_to_do_with_what_was_written(
    feed_command: Path, words: str, never: str
) -> None:
    said = call(feed_command, "ration", words, code=2)
    assert never not in said.stderr, said.stderr


def test_an_entry_of_a_stock_without_a_day_is_mended_as_told(
    feed_command: Path, tmp_path: Path
) -> None:
    path = tmp_path / "bin.yaml"
    text = "libfeed: 1\nbed:\n  date: 2026-03-01\n  container: 60 L tote\nstock:\n  - "
    path.write_text(text + "2 kg frozen melon rind\n")
    said = call(feed_command, "stock", path, code=2)
    typed = re.search(r'write for instance "([^"]*)"', " ".join(said.stderr.split()))
    assert typed
    path.write_text(text + typed[1] + "\n")
    assert "2 kg of frozen melon rind" in on_one_line(
        feed_command, "stock", path, "--date", "2026-03-02"
    )


def test_a_house_without_coffee_may_say_so(feed_command: Path) -> None:
    none = answer(feed_command, "worms", "--people", "2", "--coffee", "0")
    assert none == answer(feed_command, "worms", "--people", "2")


def test_a_change_that_is_missing_is_named_with_one_that_works(
    feed_command: Path, tmp_path: Path
) -> None:
    path = tmp_path / "bin.yaml"
    path.write_text(BED)
    said = call(feed_command, "refresh", path, code=2).stderr
    typed = re.search(r'write for instance "([^"]*)"', " ".join(said.split()))
    assert typed
    call(feed_command, "refresh", path, "--change", typed[1])
