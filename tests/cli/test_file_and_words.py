"""The bin of a file and what there is for it in words: one answer with the file that says both."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
from command import answer, call

BIN = """libfeed: 1
title: Tote by the door (invented)
containers: {caddy: 3 L}
words: {bananas: banana peels}
feedstocks:
  till roll: {like: office paper, roles: [bedding]}
bed:
  date: 2026-11-01
  container: 60 L tote
  worms: 500 g
  temperature: 18 C
feedings:
  - {date: 2026-11-20, portions: [400 g apple core, 100 g shredded cardboard]}
"""
THINGS = ["3 apples", "half a caddy of coffee grounds", "2 bananas", "3 L till roll"]
DAY = date(2026, 11, 27)


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, Path]:
    """The bin with another plan of its own, and the bin with the things as its plan."""
    other = tmp_path / "tote.yaml"
    other.write_text(BIN + "blend: [1 kg melon rind]\n")
    whole = tmp_path / "whole.yaml"
    whole.write_text(BIN + "blend: [" + ", ".join(THINGS) + "]\n")
    return other, whole


@pytest.mark.parametrize("verb", ["ration", "check", "forecast", "blend"])
def test_words_stand_in_place_of_what_the_file_has(
    verb: str, files: tuple[Path, Path], feed_command: Path
) -> None:
    other, whole = files
    day = [] if verb == "blend" else ["--date", str(DAY)]
    said = answer(feed_command, verb, other, *THINGS, *day)
    written = answer(feed_command, verb, whole, *day)
    assert said == written
    assert "melon" not in json.dumps(said)


def test_what_is_there_is_there_today(files: tuple[Path, Path], feed_command: Path) -> None:
    other, whole = files
    said = answer(feed_command, "ration", other, *THINGS, today=DAY)
    assert said == answer(feed_command, "ration", whole, "--date", str(DAY))
    assert said["date"] == str(DAY)


def test_the_file_may_stand_behind_the_words(files: tuple[Path, Path], feed_command: Path) -> None:
    before = call(feed_command, "ration", files[0], "3", "apples", today=DAY).stdout
    behind = call(feed_command, "ration", "3", "apples", files[0], today=DAY).stdout
    assert before == behind
    assert "apples, 2 pieces" in before


def test_the_door_takes_both(files: tuple[Path, Path], feed_command: Path, tmp_path: Path) -> None:
    request = tmp_path / "request.json"
    file = {
        "libfeed": 1,
        "bed": {"date": "2026-11-01", "container": "60 L tote", "worms": "500 g"},
        "blend": ["1 kg melon rind"],
    }
    asked = {"verb": "ration", "file": file, "things": ["3 apples"], "date": "2026-11-27"}
    request.write_text(json.dumps(asked))
    both = call(feed_command, "call", request).stdout
    file["blend"] = ["3 apples"]
    del asked["things"]
    request.write_text(json.dumps(asked))
    assert both == call(feed_command, "call", request).stdout


def test_what_is_not_understood_names_the_words(
    files: tuple[Path, Path], feed_command: Path
) -> None:
    said = call(feed_command, "ration", files[0], "3 zorkmids", code=2).stderr
    assert "zorkmids" in said
    assert "tote.yaml" not in said, "the slip is not in the file"
    assert "one file is due here" in call(feed_command, "ration", *files, code=2).stderr


def test_the_file_of_a_heap_takes_no_scraps_for_worms(feed_command: Path, tmp_path: Path) -> None:
    heap = tmp_path / "heap.yaml"
    heap.write_text("libfeed: 1\nkind: heap\nbalance: {at_hand: [100 L dry leaves, 50 L grass]}\n")
    assert "heap" in call(feed_command, "ration", heap, "3 apples", code=2).stderr
