"""A bin that is kept by notes: every answer is of today, what was done is not asked for again."""

from __future__ import annotations

import re
import shlex
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from command import EXAMPLES, TODAY, answer, call, write

LIVES = ["--bin", "60 L tote", "--worms", "2 lb", "--age", "4 months", "--squeeze"]
BY_LOOK = "Look first, and feed nothing before you did."


def started(feed_command: Path, folder: Path, squeeze: str = "drops") -> Path:
    path = folder / "bin.yaml"
    call(feed_command, "start", path, *LIVES, squeeze)
    return path


def on_one_line(feed_command: Path, *words: str | Path, today: date = TODAY) -> str:
    return " ".join(call(feed_command, *words, today=today).stdout.split())


@pytest.fixture
def kept(feed_command: Path, tmp_path: Path) -> Path:
    """A bin that was fed on the first of April."""
    path = started(feed_command, tmp_path)
    call(feed_command, "note", path, "fed 500 g apples")
    return path


@pytest.mark.parametrize("verb", ["ration", "check", "forecast", "worms", "harvest"])
def test_every_verb_is_of_today(feed_command: Path, kept: Path, verb: str) -> None:
    later = TODAY + timedelta(days=12)
    plain = call(feed_command, verb, kept, today=later).stdout
    assert plain == call(feed_command, verb, kept, "--date", "today", today=later).stdout
    assert plain != call(feed_command, verb, kept, "--date", "2026-04-01", today=later).stdout


def test_a_ration_with_words_and_one_without_are_of_one_day(feed_command: Path, kept: Path) -> None:
    later = TODAY + timedelta(days=1)
    alone = answer(feed_command, "ration", kept, today=later)
    beside = answer(feed_command, "ration", kept, "2 kg carrots", today=later)
    assert alone["date"] == beside["date"] == "2026-04-02"
    assert alone["answer"] == beside["answer"] == "wait"
    assert alone["next_feeding"] == beside["next_feeding"]


def test_a_file_that_was_left_alone_asks_for_a_look(feed_command: Path, kept: Path) -> None:
    for days, looks in ((60, False), (61, True)):
        said = on_one_line(feed_command, "ration", kept, today=TODAY + timedelta(days=days))
        assert said.startswith(BY_LOOK) == looks, said
        assert (f"Nothing was noted for {days} days" in said) == looks
    autumn = TODAY + timedelta(days=200)
    noted = on_one_line(feed_command, "note", kept, "all well, one or two drops", today=autumn)
    assert "Look first" not in noted
    assert "Feed it" in on_one_line(feed_command, "ration", kept, today=autumn)


def test_a_description_alone_is_answered_whenever_it_is_asked(feed_command: Path) -> None:
    """The first command of the README: only its days move."""
    tote = EXAMPLES / "balcony_tote.yaml"
    then, late = (
        answer(feed_command, "ration", tote, today=day)
        for day in (date(2026, 5, 2), date(2027, 11, 2))
    )
    assert then["answer"] == late["answer"] == "feed_less"
    assert then["put_in"] == late["put_in"]
    assert then["take_out"] == late["take_out"]


def what_to_note(told: str) -> list[str]:
    typed = re.search(r"Done\? Write: feed (note .*?)(?: To be surer| Take care|$)", told)
    assert typed, told
    return shlex.split(typed[1])


def steps(ration: dict[str, Any]) -> dict[str, float]:
    return {one["feedstock"]: one["wet_mass_kg"] for one in ration["put_in"]}


@pytest.mark.parametrize(
    "seen", ["smells sour", "dry", "too wet", "smells rotten", "pH 4.8", "smells of ammonia"]
)
def test_a_step_that_was_done_is_noted_as_told_and_not_asked_for_again(
    feed_command: Path, tmp_path: Path, seen: str
) -> None:
    path = started(feed_command, tmp_path)
    call(feed_command, "note", path, seen)
    asked = steps(answer(feed_command, "ration", path))
    if not asked:
        return
    call(feed_command, *what_to_note(on_one_line(feed_command, "ration", path)))
    water = asked.get("water", 0.0)
    again = steps(answer(feed_command, "ration", path)).get("water", 0.0)
    assert again < 0.5 * water or water == 0.0, (asked, again)


@pytest.mark.parametrize("squeeze", ["damp", "drops", "many drops"])
@pytest.mark.parametrize("things", ["", "3 apples, a cup of coffee grounds", "500 g bread"])
def test_what_was_fed_is_noted_as_told(
    feed_command: Path, tmp_path: Path, squeeze: str, things: str
) -> None:
    path = started(feed_command, tmp_path, squeeze)
    words = [path.name, *([things] if things else [])]
    asked = answer(feed_command, "ration", *words, cwd=tmp_path)
    told = " ".join(call(feed_command, "ration", *words, cwd=tmp_path).stdout.split())
    call(feed_command, *what_to_note(told), cwd=tmp_path)
    assert answer(feed_command, "totals", path)["all"]["scraps_kg"] == pytest.approx(
        asked["scraps_kg"], rel=0.1
    )
    again = answer(feed_command, "ration", path)
    assert again["answer"] == "wait"
    assert "water" not in steps(again)


def test_what_burns_worms_comes_before_food_until_its_ph_is_known(
    feed_command: Path, tmp_path: Path
) -> None:
    path = started(feed_command, tmp_path)
    for lime in ("1 kg quicklime", "500 g hydrated lime"):
        said = on_one_line(feed_command, "note", path, f"added {lime}")
        assert "Act first, and feed nothing today. Move the worms into fresh damp bedding" in said
    later = TODAY + timedelta(days=3)
    assert answer(feed_command, "ration", path, today=later)["answer"] == "act_first"
    call(feed_command, "note", path, "pH 7.5", today=later)
    assert answer(feed_command, "ration", path, today=later)["answer"] != "act_first"


@pytest.mark.parametrize(
    ("grave", "slight"), [("dead worms", "worms slow"), ("worms leaving", "worms on the lid")]
)
def test_a_slight_sign_does_not_end_a_grave_alarm(
    feed_command: Path, tmp_path: Path, grave: str, slight: str
) -> None:
    path = started(feed_command, tmp_path)
    call(feed_command, "note", path, grave)
    for today in (TODAY, TODAY + timedelta(days=1)):
        said = call(feed_command, "note", path, slight, today=today).stdout
        assert "Act first, and feed nothing today." in said
    well = call(feed_command, "note", path, "worms lively, worms in the bedding").stdout
    assert "Feed" in well.splitlines()[1]


def test_sour_and_dry_is_lifted_out_and_sprinkled(feed_command: Path, tmp_path: Path) -> None:
    path = started(feed_command, tmp_path)
    call(feed_command, "note", path, "smells sour")
    said = on_one_line(feed_command, "note", path, "dry")
    assert "Lift out the rotting food" in said and "Sprinkle" in said
    assert said.index("Lift out") < said.index("Sprinkle")


@pytest.mark.parametrize("words", ["not gone", "still there", "food left"])
def test_food_that_is_not_gone_is_waited_for(feed_command: Path, kept: Path, words: str) -> None:
    later = TODAY + timedelta(days=12)
    assert answer(feed_command, "ration", kept, today=later)["answer"] == "feed"
    call(feed_command, "note", kept, words, today=later)
    for days, expected in ((0, "wait"), (1, "wait"), (2, "feed")):
        today = later + timedelta(days=days)
        ours = answer(feed_command, "ration", kept, today=today)
        assert ours["answer"] == expected, days
        if expected == "wait":
            assert ours["next_feeding"]["day"] == 2 - days
    call(feed_command, "note", kept, "a third left", today=later + timedelta(days=2))
    assert answer(feed_command, "ration", kept, today=later + timedelta(days=2))["answer"] == "feed"


@pytest.mark.parametrize("degrees", ["4 C", "31 C"])
def test_nobody_digs_in_a_bed_too_cold_or_too_warm(
    feed_command: Path, tmp_path: Path, degrees: str
) -> None:
    path = tmp_path / "cold.yaml"
    call(feed_command, "start", path, *LIVES, "drops", "--temperature", degrees)
    first = call(feed_command, "ration", path).stdout.splitlines()[:2]
    for said in (
        call(feed_command, "harvest", path).stdout,
        call(feed_command, "refresh", path, "--change", "split").stdout,
    ):
        assert said.splitlines()[:2] == first, said
        assert "when the bed is well again." in said and "Divide" not in said


@pytest.mark.parametrize("change", ["bedding", "flush", "dry", "split"])
@pytest.mark.parametrize(
    ("noted", "headline"),
    [("smells rotten", "Act first, and feed nothing today."), ("fed 2 kg kitchen scraps", "Wait.")],
)
def test_no_work_on_a_bed_says_to_feed_today_where_the_ration_does_not(
    feed_command: Path, tmp_path: Path, change: str, noted: str, headline: str
) -> None:
    path = started(feed_command, tmp_path)
    call(feed_command, "note", path, noted)
    later = TODAY + timedelta(days=1)
    assert call(feed_command, "ration", path, today=later).stdout.startswith(headline)
    said = on_one_line(feed_command, "refresh", path, "--change", change, today=later)
    assert "Feed as usual" not in said and "Feed again from today" not in said
    assert "Check before: nothing." not in said or headline == "Wait."
    harvest = on_one_line(feed_command, "harvest", path, today=later)
    assert "Feed as usual" not in harvest and "Feed again from today" not in harvest


def test_a_heap_keeps_no_notes_of_worms(feed_command: Path, tmp_path: Path) -> None:
    heap = tmp_path / "heap.yaml"
    before = "libfeed: 1\nkind: heap\nbalance:\n  at_hand: [20 buckets grass]\n"
    heap.write_text(before, encoding="utf-8")
    for words in ("fed 3 apples", "half gone", "worms 1 lb", "bedding 1 kg card"):
        said = call(feed_command, "note", heap, words, code=2).stderr
        assert "this file is of a heap" in said, words
        assert heap.read_text(encoding="utf-8") == before
    call(feed_command, "note", heap, "55 C middle, turned")


@pytest.mark.parametrize("verb", ["ration", "harvest", "check", "forecast", "stock", "worms"])
def test_a_file_of_a_trial_alone_is_asked_about_no_bed(
    feed_command: Path, tmp_path: Path, verb: str
) -> None:
    path = write(tmp_path, {"trial": {"feeds": ["watermelon rind", "pumpkin"], "bins": 3}})
    assert "this file is of a trial" in call(feed_command, verb, path, code=2).stderr


def test_worms_are_not_put_where_they_die(feed_command: Path, tmp_path: Path) -> None:
    new = ["--bin", "60 L tote", "--worms", "1 lb", "--temperature"]
    for degrees, fits in (("35 C", False), ("0 C", False), ("20 C", True)):
        path = tmp_path / f"{degrees[0]}.yaml"
        said = on_one_line(feed_command, "start", path, *new, degrees)
        assert ("Put the worms in on" in said) == fits, said
        assert ("Put no worms in yet" in said) != fits


def test_contents_are_no_deeper_than_their_container(feed_command: Path, tmp_path: Path) -> None:
    bed = {"container": "60 L tote", "worms": "500 g"}
    deep = write(tmp_path, {"bed": {**bed, "depth_of_contents": "3 m"}})
    said = call(feed_command, "ration", deep, code=2).stderr
    assert "the container is not that deep" in said and "at most 30 cm" in said
    call(feed_command, "ration", write(tmp_path, {"bed": {**bed, "depth_of_contents": "30 cm"}}))


def test_far_too_much_food_is_lifted_out(feed_command: Path, tmp_path: Path) -> None:
    path = started(feed_command, tmp_path)
    call(feed_command, "note", path, "fed 6 kg kitchen scraps")
    later = TODAY + timedelta(days=1)
    said = on_one_line(feed_command, "ration", path, today=later)
    told = re.search(r"Lift out about (\S+) kg of the food.*such as: (\S+ kg left)", said)
    if not said.startswith("Wait."):
        assert said.startswith("Act first"), said
        return
    assert told and 3.0 < float(told[1]) < 6.0, said
    noted = on_one_line(feed_command, "note", path, told[2], today=later)
    assert "Lift out" not in noted


def test_a_day_of_next_year_has_its_year(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "new.yaml"
    call(feed_command, "start", path, "--bin", "60 L tote", "--worms", "300 g")
    said = on_one_line(feed_command, "harvest", path)
    days = re.findall(r"(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ (\w+)( 20\d\d)?", said)
    assert days, said
    for month, year in days:
        # From April on, January to March are of another year.
        assert (month in ("Jan", "Feb", "Mar")) == (year == " 2027"), said


def test_no_step_asks_for_less_water_than_anybody_measures(
    feed_command: Path, tmp_path: Path
) -> None:
    path = started(feed_command, tmp_path)
    for words in ("smells sour", "dry", "added water 1.9 L"):
        call(feed_command, "note", path, words)
        asked = steps(answer(feed_command, "ration", path)).get("water", 0.0)
        assert asked == 0.0 or asked >= 0.05


def test_nothing_at_hand_is_no_reason_to_wait(feed_command: Path, tmp_path: Path) -> None:
    for squeeze in ("damp", "drops", "many drops", "streams"):
        path = tmp_path / f"{squeeze}.yaml"
        call(feed_command, "start", path, *LIVES, squeeze)
        said = on_one_line(feed_command, "ration", path)
        assert not said.startswith("Wait.") or "No scraps were named" not in said, said


def helped(feed_command: Path, path: Path, seen: str, step: str) -> str:
    assert "Act first" in on_one_line(feed_command, "note", path, seen)
    return on_one_line(feed_command, "note", path, step)


@pytest.mark.parametrize(
    ("seen", "step"),
    [
        ("dry", "added water 1.4 L"),
        ("smell sour", "bedding 100 g cardboard"),
        ("dead worms", "lifted out rotting food"),
    ],
)
def test_a_step_that_was_done_is_not_asked_for_or_fed_upon_the_same_day(
    feed_command: Path, tmp_path: Path, seen: str, step: str
) -> None:
    path = started(feed_command, tmp_path, "damp")
    said = helped(feed_command, path, seen, step)
    assert "Wait. Feed nothing" in said and "You helped the bed today." in said
    assert "smell: rotten" not in path.read_text(encoding="utf-8")
    for words in ((), ("1 kg apples",)):
        assert answer(feed_command, "ration", path, *words)["answer"] == "wait"
    # What was mended by it is fed again; what was smelt is looked at first.
    goes_on = answer(feed_command, "ration", path)["next_feeding"]
    assert (goes_on is not None) == (seen == "dry")
    week = on_one_line(feed_command, "week", path, "--have", "1 kg apples")
    assert ("Feed no bin this week" in week) == (seen != "dry")
    # What is seen after it counts at once.
    assert "Act first" in on_one_line(feed_command, "note", path, "smell rotten")


@pytest.mark.parametrize("seen", ["smell sour", "smell rotten", "worms leaving", "dead worms"])
def test_no_water_goes_into_a_bed_that_stinks_or_is_fled(
    feed_command: Path, tmp_path: Path, seen: str
) -> None:
    path = started(feed_command, tmp_path, "damp")
    call(feed_command, "note", path, seen)
    assert answer(feed_command, "ration", path)["water_kg"] == 0


def test_a_hot_bed_with_a_glut_is_shaded_and_emptied(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, "--size", "60 L", "--worms", "1 lb", "--age", "3 months",
         "--squeeze", "dripping", "--temperature", "34 C",
         "--bedding", "3 kg shredded cardboard")  # fmt: skip
    said = on_one_line(feed_command, "note", path, "fed 3 kg melon")
    assert "Move it into the shade" in said and "Lift out the food" in said


def test_the_week_s_share_of_lemons_ends_lemons_and_not_feeding(
    feed_command: Path, tmp_path: Path
) -> None:
    path = started(feed_command, tmp_path, "damp")
    call(feed_command, "note", path, "fed 90 g lemons, added water 1 L")
    said = on_one_line(
        feed_command, "ration", path, "300 g lemons", today=TODAY + timedelta(days=2)
    )
    assert said.startswith("Leave out the lemons: the worms had their share of this week.")
    assert "of scraps today: other, soft ones." in said
