"""More worms than a bin has room for are told before anything else, in every verb.

Outside numbers: 1 lb of worms a square foot (4.9 kg/m2) is the usual stocking (common practice); a
pound in half a gallon is many times that.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from command import answer, call

SMALL = ["--bin", "0.5 gallon tote", "--worms", "1 lb"]


def first_line(feed_command: Path, *words: str | Path) -> str:
    """The first sentence of a screen."""
    return " ".join(call(feed_command, *words).stdout.split()).split(". ")[0]


@pytest.mark.parametrize("verb", ["ration", "check", "forecast"])
def test_it_comes_before_the_food(feed_command: Path, verb: str) -> None:
    told = first_line(feed_command, verb, *SMALL, "1 kg carrots")
    assert told.startswith("This bin has room for about ") and told.endswith("not 450 g"), told


def test_every_view_of_a_file_says_it(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "jar.yaml"
    started = call(feed_command, "start", path, "--size", "0.5 gallon", "--worms", "1 lb").stdout
    assert 0 < started.find("This bin has room for about ") < started.find("Take "), started
    # Of a bed that a look must come before, and of one that waits, it is told as well.
    views: list[list[str | Path]] = [
        ["ration", path, "1 kg carrots"],
        ["worms", path],
        ["note", path, "fed 100 g carrots"],
    ]
    for words in views:
        assert "This bin has room for about " in call(feed_command, *words).stdout, words


def test_what_is_said_to_do_mends_it(feed_command: Path) -> None:
    """The bins that it names have room."""
    for worms in ("1 lb", "1 kg", "2.5 kg"):
        told = call(
            feed_command, "ration", "--bin", "5 L bucket", "--worms", worms, "1 kg carrots"
        ).stdout
        assert "Move them into" in told
    assert "Move them into one 60 L tote" in " ".join(
        call(feed_command, "ration", *SMALL, "1 kg carrots").stdout.split()
    )
    assert (
        "room for"
        not in call(
            feed_command, "ration", "--bin", "60 L tote", "--worms", "1 lb", "1 kg carrots"
        ).stdout
    )


@pytest.mark.parametrize(
    ("bin_said", "worms", "crowded"),
    # The tote of 60 L is 0.21 m2 (its usual shape): 10 kg/m2 is 2.1 kg.
    [("60 L tote", "1 kg", False), ("60 L tote", "2 kg", False), ("60 L tote", "2.5 kg", True)],
)
def test_the_border_is_ten_kilograms_a_square_metre(
    feed_command: Path, bin_said: str, worms: str, crowded: bool
) -> None:
    said = answer(feed_command, "ration", "--bin", bin_said, "--worms", worms, "1 kg carrots")
    assert said["crowded"] is crowded


def test_worms_that_nobody_named_are_never_too_many(feed_command: Path) -> None:
    for size in ("1 L tote", "5 L bucket", "60 L tote"):
        assert answer(feed_command, "ration", "--bin", size, "1 kg carrots")["crowded"] is False
