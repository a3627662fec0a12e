"""`feed week`: who gets what on which day, over the five bins of an invented school."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from command import EXAMPLES, answer, call

BINS = sorted((EXAMPLES / "school").glob("*.yaml"))
HAVE = (
    "1.5 kg coffee grounds, 12 apple cores, 800 g lettuce, 200 g orange peel, "
    "10 L shredded cardboard; Wed: 2 kg kitchen scraps"
)
MONDAY = ("--date", "2026-05-04")


def week(feed_command: Path, *words: str, have: str = HAVE) -> dict[str, Any]:
    return answer(feed_command, "week", *BINS, *MONDAY, "--have", have, *words)


def kg_of(opening: dict[str, Any], feedstock: str) -> float:
    return sum(
        float(one["wet_mass_kg"])
        for one in opening["ration"]["put_in"]
        if one["feedstock"].startswith(feedstock)
    )


def test_the_answer_comes_first_then_day_by_day(feed_command: Path) -> None:
    lines = call(feed_command, "week", *BINS, *MONDAY, "--have", HAVE).stdout.splitlines()
    assert lines[0].startswith("Feed 4 of 5 bins this week: ")
    assert lines[1] == "Mon 4 May:"
    assert any(line.startswith("Staff room: act first, no food.") for line in lines)
    assert not any("Staff room" in line for line in lines[: lines.index("Wed 6 May:")])


def test_what_comes_later_is_not_fed_before(feed_command: Path) -> None:
    plan = week(feed_command)
    assert plan["verified"] is True
    for one in plan["bins"]:
        assert len(one["openings"]) <= 2
        for opening in one["openings"]:
            if opening["day"] < 2:
                assert kg_of(opening, "kitchen") == 0
    by_name = {one["bin"]: one for one in plan["bins"]}
    assert by_name["Staff room"]["answer"] == "act_first"
    assert by_name["Staff room"]["openings"] == []


def test_a_bin_is_given_what_its_ration_gives(feed_command: Path) -> None:
    """On the same day with the same things, to the gram."""
    plan = week(feed_command, "--openings", "1")
    for path, one in zip(BINS, plan["bins"], strict=True):
        for opening in one["openings"]:
            if opening["day"] != 0:
                continue
            text = path.read_text(encoding="utf-8") + "blend:\n"
            for put in opening["ration"]["put_in"]:
                if put["feedstock"] != "water-tap":
                    text += f"  - {put['wet_mass_kg'] * 1000:.6f} g {put['label']}\n"
            said = call(
                feed_command, "ration", "-", "--date", "2026-05-04", "--json", text_in=text
            ).stdout
            assert '"answer": "feed"' in said, said


def test_what_is_never_fed_stays_out(feed_command: Path) -> None:
    plan = week(feed_command, have="bacon, 200 g carrot")
    assert [one["label"] for one in plan["take_out"]] == ["bacon"]
    assert all(kg_of(o, "bacon") == 0 for one in plan["bins"] for o in one["openings"])
    call(feed_command, "week", *BINS, *MONDAY, "--have", "bacon, 200 g carrot", "--strict", code=1)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--have", "Blah: 2 kg carrot"), '"Blah" is not a day'),
        (("--have", "2026-06-01: 2 kg carrot"), "from 2026-05-04 to 2026-05-10"),
        (("--have", "2 kg zzzz"), "zzzz"),
        ((), "--have: what is there to feed?"),
        (("--have", "2 kg carrot", "--openings", "9"), "1"),
    ],
)
def test_a_slip_is_one_clear_error(feed_command: Path, words: tuple[str, ...], told: str) -> None:
    assert told in call(feed_command, "week", *BINS, *MONDAY, *words, code=2).stderr
