"""feed table, feed show, feed version."""

from __future__ import annotations

import re
from pathlib import Path

from command import answer, call


def test_table_lists_everything_and_searches(feed_command: Path) -> None:
    whole = answer(feed_command, "table")["feedstocks"]
    text = call(feed_command, "version").stdout
    count = re.search(r"(\d+) feedstocks", text)
    assert count and int(count.group(1)) == len(whole) > 300
    coffee = {one["id"] for one in answer(feed_command, "table", "coffee")["feedstocks"]}
    assert {"coffee-grounds", "coffee-filter-paper"} <= coffee
    assert len(coffee) < 15


def test_every_feedstock_can_be_shown(feed_command: Path) -> None:
    for one in answer(feed_command, "table")["feedstocks"]:
        shown = answer(feed_command, "show", one["id"])
        assert shown["id"] == one["id"]
        for value in shown["values"]:
            assert value["low"] <= value["value"] <= value["high"], (one["id"], value)
            assert value["sources"], (one["id"], value)


def test_show_says_what_a_keeper_needs(feed_command: Path) -> None:
    text = call(feed_command, "show", "coffee grounds").stdout
    for part in ("may be fed", "At a time at most", "for 1 kg", "for 1 lb of worms", "Take care"):
        assert part in text
    assert "Sources" not in text and len(text.splitlines()) <= 12
    text = call(feed_command, "show", "coffee grounds", "--numbers").stdout
    assert "Sources" in text
    assert all(len(line) <= 80 for line in text.splitlines())
    for word in ("uranium ore", "zzz"):
        call(feed_command, "show", word, code=2)


def test_little_is_said_in_spoons(feed_command: Path) -> None:
    text = call(feed_command, "show", "ground eggshell", "--units", "us").stdout
    assert re.search(r"At a time at most \d teaspoons? for 1 lb of worms\.", text), text
    text = call(feed_command, "show", "ground eggshell").stdout
    assert re.search(r"At a time at most \d teaspoons \(\d+ g\) for 1 kg, \d", text), text


def test_a_word_for_several_parts_says_which_it_took(feed_command: Path) -> None:
    text = call(feed_command, "show", "apple").stdout
    assert '"apple" is taken as' in text


def test_version_is_the_one_of_the_build(feed_command: Path, source_dir: Path) -> None:
    lists = (source_dir / "CMakeLists.txt").read_text(encoding="utf-8")
    version = re.search(r"project\(libfeed VERSION ([\d.]+)", lists)
    assert version
    said = answer(feed_command, "version")
    assert said["version"] == version.group(1)
    assert re.fullmatch(r"[0-9a-f]{64}", said["table_sha256"])


def test_show_says_why_a_thing_is_never_fed_and_where_with_it(feed_command: Path) -> None:
    text = " ".join(call(feed_command, "show", "receipts").stdout.split())
    assert text.startswith("Never feed till receipts and thermal paper: its coating holds bisph")
    assert "Instead: household waste" in text
    raw = answer(feed_command, "show", "manure-poultry-layer")
    assert (raw["stance"], raw["heap_stance"]) == ("avoid", "feed little")
    assert "ammonia" in raw["why_barred"] and "compost" in raw["instead"]
    text = " ".join(call(feed_command, "show", "manure-poultry-layer").stdout.split())
    assert "Composted hot first, it may be fed, little at a time." in text
    text = " ".join(call(feed_command, "show", "manure-poultry-layer", "--numbers").stdout.split())
    assert "On a small heap it may be fed, little at a time." in text


def test_show_says_what_limits_a_portion(feed_command: Path) -> None:
    blood = answer(feed_command, "show", "blood meal")
    assert blood["most_reason"] == "nitrogen" and blood["why_barred"] == ""
    text = " ".join(call(feed_command, "show", "blood meal", "--numbers").stdout.split())
    assert "On a small heap it may be fed." in text
    assert "limited by nitrogen; " in text
