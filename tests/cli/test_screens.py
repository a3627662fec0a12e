"""Every first screen is short, plain and no finer than a keeper can measure; --why has the rest.

The set of answers is tests/cli/screens.py: all examples, the reference mixtures, and many bins,
caddies, signs and notes (invented), in both units.
"""

from __future__ import annotations

import re
import statistics
from pathlib import Path

import pytest
from command import call
from screens import (
    HIGHEST_GRADE,
    LISTS,
    LONGEST_SENTENCE,
    MOST_LINES,
    MOST_WORDS,
    Screen,
    all_screens,
    is_strip,
    run,
    sentences,
    words_of,
)


@pytest.fixture(scope="module")
def screens(feed_command: Path, tmp_path_factory: pytest.TempPathFactory) -> list[Screen]:
    asked = all_screens()
    printed = run(feed_command, asked, tmp_path_factory.mktemp("screens"))
    assert len(printed) == len(asked), [one.name for one in asked if not one.text]
    return printed


def told(screen: Screen) -> str:
    return f"feed {screen.verb}, {screen.name}:\n{screen.text}"


def test_sentences_are_parted_as_a_reader_parts_them() -> None:
    text = (
        "Feed it: 1.2 kg today.\n  carrot, 200 g.\nA long thought that goes on over\n  two lines.\n"
    )
    assert sentences(text) == [
        "Feed it: 1.2 kg today.",
        "carrot, 200 g.",
        "A long thought that goes on over two lines.",
    ]
    assert is_strip("       Sat  Sun  Mon  Tue  Wed  Thu  Fri")
    assert not is_strip("  banana peel, 3 pieces, about 200 g.")
    assert len(words_of("Cover it - with 2 cups.")) == 5


def test_a_first_screen_has_at_most_12_lines_and_110_words(screens: list[Screen]) -> None:
    for one in screens:
        assert one.verb in LISTS or one.lines <= MOST_LINES, told(one)
        assert one.verb in LISTS or one.count <= MOST_WORDS, told(one)
        assert all(len(line) <= 80 for line in one.text.splitlines()), told(one)


def test_a_sentence_has_at_most_20_words(screens: list[Screen]) -> None:
    for one in screens:
        for sentence in one.sentences:
            assert len(words_of(sentence)) <= LONGEST_SENTENCE, told(one)


def test_screens_are_read_in_the_seventh_year_of_school(screens: list[Screen]) -> None:
    for verb in {one.verb for one in screens}:
        assert statistics.mean(one.grade for one in screens if one.verb == verb) <= HIGHEST_GRADE


# What no kitchen scale, jug, hand or thermometer shows: decimals of a gram, a millilitre, a degree
# or a counted thing, three figures and more of anything.
TOO_FINE = re.compile(
    r"\d\.\d+ (g|ml|C|F|piece|pieces|handfuls?|slices?|handful)\b"
    r"|\d\.\d{2,} (kg|L|lb|qt|gal|cups?)\b"
    r"|\b\d*[1-9]\d\d\.\d|\d\.\d{2,} oz"
)


def test_no_figure_is_finer_than_a_keeper_can_measure(screens: list[Screen]) -> None:
    assert TOO_FINE.search("add 2.4 g") and TOO_FINE.search("0.54 piece")
    for one in screens:
        assert not TOO_FINE.search(one.text), told(one)


def test_no_words_of_the_workshop(screens: list[Screen]) -> None:
    for one in screens:
        for word in ("grade", "citric", "labile", "wet mass", "err one way", "leans on", "g/kg"):
            assert word not in one.text.lower(), told(one)


FIRST = re.compile(
    r"(Act first|Wait\.|Feed it|Feed less|Never feed|Your file feeds|Yes: |Most likely"
    r"|Feed \d+ of \d+ bins"
    r"|A recipe: mix|Put on the heap|These targets|Give |Nothing else|As written|Started"
    r"|Written down|Choice|Alone|Wait with the trial|By day"
    r"|Harvest (when|now|about)|Do not (harvest|change|flush|put)|Change |Flush it|Dry it out"
    r"|It is not too wet|Split it|Move it|It may stay|Bring it in"
    r"|Start with|This bin can take|Wait: |About \d+ worms live|No worm was found|Do not start"
    r"|Build |Too small to get hot|These do not make|Leave it alone|Turn it|Cool it today"
    r"|Do not open it|It has not got hot|Let it ripen|It has cooled for good|Water it and turn it)"
)


def test_the_first_line_says_what_to_do(screens: list[Screen]) -> None:
    for one in screens:
        assert FIRST.match(one.text), told(one)


def thoughts(text: str) -> set[str]:
    return {re.sub(r"\W+", " ", one).strip().lower() for one in sentences(text)}


def test_why_has_all_that_the_first_screen_has_no_room_for(
    screens: list[Screen], feed_command: Path, tmp_path: Path
) -> None:
    """What may go is behind --why: reasons, where with it, cautions, what is worth weighing."""
    asked = [one for one in screens if one.verb == "ration" and "us" not in one.name]
    short = {one.name: one for one in asked}
    longer = [Screen(one.name, one.verb, [*one.words, "--why"], one.content) for one in asked]
    more = 0
    for one in run(feed_command, longer, tmp_path):
        lost = thoughts(short[one.name].text) - thoughts(one.text)
        # A list that was drawn together stands there thing by thing.
        lost = {thought for thought in lost if not thought.startswith("never feed")}
        assert not lost, (one.name, lost, one.text)
        more += "Assumed" in one.text and "How sure: " in one.text
    assert more == len(asked)


def test_what_can_hurt_stays_on_the_screen(screens: list[Screen]) -> None:
    dusty = [one for one in screens if "dusty" in one.name and one.verb in ("ration", "forecast")]
    assert dusty
    for one in dusty:
        assert "do not breathe it" in " ".join(one.text.split()), told(one)
    for one in screens:
        if "five barred" not in one.name or one.verb == "show":
            continue
        for thing in ("bacon", "dog waste", "butter", "bleach", "bones"):
            assert re.search(rf"Never feed [^.]*{thing}", " ".join(one.text.split())), told(one)


def test_the_forecast_begins_with_a_strip_of_days(screens: list[Screen]) -> None:
    for one in screens:
        if one.verb != "forecast":
            continue
        strip = [line for line in one.text.splitlines() if is_strip(line)]
        assert 2 <= len(strip) <= 3, told(one)
        assert re.search(r"\b(feed|act|look)\b", strip[-1]), told(one)


@pytest.mark.parametrize(
    ("option", "has", "has_not"),
    [
        ("--bedding", "cardboard-corrugated", "carrot"),
        ("--fruit", "mango-peel", "carrot"),
        ("--never", "bacon-cooked", "carrot"),
        ("--little", "onion", "carrot"),
        ("--manure", "manure-horse", "carrot"),
        ("--lime", "limestone-ground", "carrot"),
        ("--scraps", "carrot", "bacon-cooked"),
    ],
)
def test_table_lists_by_kind(feed_command: Path, option: str, has: str, has_not: str) -> None:
    listed = [line.split()[0] for line in call(feed_command, "table", option).stdout.splitlines()]
    assert has in listed
    assert has_not not in listed
    assert len(listed) < len(call(feed_command, "table").stdout.splitlines())


def test_show_says_how_much_for_your_worms(feed_command: Path) -> None:
    text = call(feed_command, "show", "onion", "--worms", "500 g").stdout
    whole = call(feed_command, "show", "onion").stdout
    ours = re.search(r"at most (\d+) g for 500 g of worms", text)
    kilogram = re.search(r"at most (\d+) g for 1 kg", whole)
    assert ours and kilogram
    assert int(ours[1]) == pytest.approx(int(kilogram[1]) / 2, rel=0.03)
    call(feed_command, "show", "onion", "--worms", "many", code=2)


@pytest.mark.parametrize(
    ("name", "nonsense"),
    [
        ("hydrated lime", ("damp", "moisten", "pinch", "keep it off", "bedding")),
        ("salt", ("rinse",)),
        ("soy sauce", ("rinse", "little")),
        ("bacon", ("spoonful", "under plenty", "little")),
        ("wood ash", ("never with lime or ash",)),
    ],
)
def test_cautions_fit_the_thing(feed_command: Path, name: str, nonsense: tuple[str, ...]) -> None:
    text = call(feed_command, "show", name, "--numbers").stdout
    cautions = [line for line in text.splitlines() if line.startswith("Take care")]
    for word in nonsense:
        assert not [line for line in cautions if word in line], cautions


def test_cautions_name_things_as_the_keeper_wrote_them(feed_command: Path) -> None:
    words = ("--worms", "500 g", "300 g carrot, 100 g shredded office paper")
    text = call(feed_command, "ration", *words).stdout
    assert "Take care: shredded office paper:" in text
    for verb in ("ration", "check"):
        assert "Office paper, shredded:" not in call(feed_command, verb, *words, "--why").stdout
