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
    typed = re.search(r"Done\? Write: feed note \S+ (fed (.*) soft mixed scraps, .*)$", told)
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
    tiny = ["ration", "--bin", "20 L tote", "--worms", "20 g"]
    said = answer(feed_command, *tiny, f"500 g {thing}")
    assert said["scraps_kg"] == answer(feed_command, *tiny)["scraps_kg"]
    assert not any(one["label"] == thing for one in said["put_in"])
    assert f"of {thing}" in said["reasons"][0] and said["text"][0].startswith("Leave out the ")
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


def told_by_all(feed_command: Path, path: Path) -> dict[str, str]:
    """What each verb says of the next look, by verb."""
    calls: dict[str, list[str | Path]] = {
        "ration": ["ration", path],
        "check": ["check", path, "500 g onions"],
        "forecast": ["forecast", path],
        "harvest": ["harvest", path],
        "worms": ["worms", path],
    }
    told = {}
    for verb, words in calls.items():
        look = re.search(r"Look again (\w+ \d+ \w+|\w+ \w+ \d+)", on_one_line(feed_command, *words))
        told[verb] = look[1] if look else ""
    return told


def test_a_bin_that_begins_tomorrow_has_one_day_everywhere(
    feed_command: Path, tmp_path: Path
) -> None:
    """The worms go in tomorrow, and something is noted today: some verbs answered for tomorrow."""
    path = tmp_path / "new.yaml"
    call(feed_command, "start", path, "--size", "60 L", "--worms", "1 lb")
    assert "date: 2026-04-02" in path.read_text(encoding="utf-8")
    noted = on_one_line(feed_command, "note", path, "smell sour")
    assert "Look again Thu 2 Apr." in noted
    assert set(told_by_all(feed_command, path).values()) == {"Thu 2 Apr"}


def test_food_that_went_in_too_early_is_the_reason_to_wait(
    feed_command: Path, tmp_path: Path
) -> None:
    path = tmp_path / "new.yaml"
    path.write_text(
        "libfeed: 1\nbed:\n  date: 2026-04-01\n  container: 60 L tote\n"
        "  worms: 1 lb\n  age: 0 days\n",
        encoding="utf-8",
    )
    told = on_one_line(feed_command, "note", path, "fed 700 g apples")
    food, new = told.find("of soft food is still in the bed"), told.find("in a new bin get nothing")
    assert 0 < food < new, told


def test_signs_of_a_bed_that_needs_a_step_send_there_first(
    feed_command: Path, tmp_path: Path
) -> None:
    path = tmp_path / "tote.yaml"
    path.write_text(BED, encoding="utf-8")
    assert "ask feed ration" not in call(feed_command, "signs", path, "fruit flies").stdout
    call(feed_command, "note", path, "smell sour")
    first = call(feed_command, "signs", path, "fruit flies").stdout.splitlines()[0]
    assert first == "This bed needs a step first: ask feed ration."


def test_the_gravest_alarm_is_the_one_told(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    path.write_text(BED, encoding="utf-8")
    call(feed_command, "note", path, "temperature 36 C, worms leaving")
    assert "worms were dying" in on_one_line(feed_command, "note", path, "worms dying")


@pytest.mark.parametrize("asked", ["2 L wood ash", "1 cup garden lime", "1 L orange juice"])
def test_lime_that_is_not_wanted_is_answered(
    feed_command: Path, tmp_path: Path, asked: str
) -> None:
    """ "Feed it", without a word of the ash that was asked about, is read as "put the ash in"."""
    path = tmp_path / "tote.yaml"
    path.write_text(BED, encoding="utf-8")
    name = asked.split(" ", 2)[2]
    alone = call(feed_command, "ration", path, asked).stdout.splitlines()
    assert alone[0] == f"Leave out the {name}: the bed needs none today."
    assert alone[1].startswith("The bed may have ")
    beside = call(feed_command, "ration", path, f"300 g carrot, {asked}").stdout
    assert f"Leave out the {name}: the bed needs none today." in beside
    first, rest = beside.split("\n", 1)
    assert first.startswith(f"Feed it without the {name}: ")
    assert name not in rest.split("Cover with")[0]


def test_two_touchy_things_that_share_a_cap_are_fed_up_to_it(
    feed_command: Path, tmp_path: Path
) -> None:
    """Each was counted with the whole cap, and too little seemed to be left to open the bin."""
    path = tmp_path / "tote.yaml"
    path.write_text(BED, encoding="utf-8")
    alone = answer(feed_command, "ration", path, "200 g onion")["scraps_kg"]
    both = answer(feed_command, "ration", path, "200 g onion, 50 g garlic")
    assert both["answer"] == "feed_less"
    assert 0.8 * alone <= both["scraps_kg"] <= alone + 1e-9


def test_bedding_without_an_amount_is_at_hand(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    path.write_text(BED, encoding="utf-8")
    told = on_one_line(feed_command, "ration", path, "1 kg carrots, newspaper")
    assert re.search(r"Cover with .* of newspaper\.", told), told
    # Of food it is asked how much there is.
    assert "how much is" in call(feed_command, "ration", path, "carrots", code=2).stderr


def test_a_file_keeps_the_units_of_its_keeper(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    call(feed_command, "start", path, *LIVES, "--units", "us")
    assert "\nunits: us\n" in path.read_text(encoding="utf-8")
    calls: list[list[str | Path]] = [
        ["ration", path],
        ["note", path, "half gone"],
        ["worms", path],
        ["week", path, "--have", "1 kg apples"],
        ["harvest", path],
        ["signs", path, "wet"],
    ]
    for words in calls:
        told = call(feed_command, *words).stdout
        assert not re.search(r"\d (g|kg|L|ml|cm|C)\b", told), told
    assert re.search(r"\d k?g\b", call(feed_command, "ration", path, "--units", "metric").stdout)


def test_a_file_that_is_not_there_says_how_to_begin_one(feed_command: Path, tmp_path: Path) -> None:
    for words in (["ration"], ["trial", "plan"], ["harvest"]):
        told = call(feed_command, *words, "gone.yaml", code=2, cwd=tmp_path).stderr
        assert 'write "feed start gone.yaml"' in " ".join(told.split())
    call(feed_command, "start", "gone.yaml", *LIVES, cwd=tmp_path)
    call(feed_command, "ration", "gone.yaml", cwd=tmp_path)


@pytest.mark.parametrize("asked", ["wine corks", "10 L newspaper", "3 egg cartons", "2 L hay"])
def test_bedding_that_is_asked_about_alone_is_not_fed(
    feed_command: Path, tmp_path: Path, asked: str
) -> None:
    """ "Feed it: 500 g" of scraps that nobody named is read as 500 g of corks."""
    path = tmp_path / "tote.yaml"
    path.write_text(BED, encoding="utf-8")
    first = call(feed_command, "ration", path, asked).stdout.splitlines()[0]
    assert re.fullmatch(r"The bed may have .* of scraps today: soft ones\.", first)
    assert call(feed_command, "ration", path).stdout.startswith("Feed it: ")


@pytest.mark.parametrize(("asked", "name"), [("1 kg sugar", "sugar"), ("3 pickles", "pickles")])
def test_what_worms_bear_next_to_none_of_is_left_out(
    feed_command: Path, tmp_path: Path, asked: str, name: str
) -> None:
    """A well bed was told to wait, and bare, on the same day, to feed."""
    path = tmp_path / "tote.yaml"
    path.write_text(BED, encoding="utf-8")
    told = call(feed_command, "ration", path, asked).stdout.splitlines()
    assert told[0] == f"Leave out the {name}: these worms bear next to none."
    assert told[1].startswith("The bed may have ")
    ours = answer(feed_command, "ration", path, asked)
    bare = answer(feed_command, "ration", path, "--date", "today")
    assert ours["scraps_kg"] == bare["scraps_kg"]
    assert ours["next_feeding"] == bare["next_feeding"]
    assert not any(name in one["label"] for one in ours["put_in"])
    assert [one["label"] for one in ours["rest"]] == [name]
