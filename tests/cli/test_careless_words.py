"""What a careless keeper types is asked back or refused, and never taken for something else."""

from __future__ import annotations

from pathlib import Path

import pytest
from command import answer, call

BIN = ["--worms", "500 g", "--bin", "60 L tote"]


@pytest.mark.parametrize(
    "words",
    [
        "500 g rhubarb with leaves", "2 rhubarb stalks with leaves", "200 g rhubarb greens",
        "200 g rhubarb stalks and leaves", "200 g Rhabarber und Blätter",
        "200 g walnut tree leaves", "2 carrier bags", "3 keurig pods",
        "200 g chicken curry and rice", "a steak and kidney pie", "200 g meat and potato pie",
        "200 g beef and onion stew", "200 g pork and beans", "200 g pasta con queso",
        "200 g Nudeln mit Käse", "200 g Gemüse mit Fleisch", "200 g Speck", "200 g Muscheln",
        "200 g vino", "200 g cerveza", "200 g lardons", "200 g crevettes", "200 g tocino",
        "200 g gambas", "200 g arroz con pollo", "un poco de carne", "200 g Laub mit Hundekot",
        "200 g Giersch", "200 g poultry", "4 frankfurters",
    ],
)  # fmt: skip
def test_what_is_never_fed_is_refused_in_every_kitchen(feed_command: Path, words: str) -> None:
    ours = answer(feed_command, "ration", *BIN, words)
    assert ours["take_out"] and ours["put_in"][0]["at_hand"] is False, ours["put_in"]


@pytest.mark.parametrize(
    ("words", "barred"),
    [
        ("apple peels and a bit of bacon", "bacon"),
        ("potato peelings and a bit of gravy", "gravy"),
        ("prawn heads and lettuce", "prawn heads"),
        ("2 scones with jam and cream", "cream"),
        ("pelures de pomme et un peu de lardons", "lardons"),
    ],
)
def test_what_is_never_fed_is_told_before_what_is_asked(
    feed_command: Path, words: str, barred: str
) -> None:
    said = call(feed_command, "ration", *BIN, words, code=2).stderr.splitlines()
    assert said[0].startswith("Never feed") and barred in said[0], said
    assert any("how much is" in line for line in said), said


@pytest.mark.parametrize(
    ("words", "low_g", "high_g"),
    [
        ("3 artichoke leaves", 6, 30), ("2 leek tops", 60, 300), ("10 asparagus ends", 30, 120),
        ("6 courgette ends", 25, 90), ("6 plum pits", 12, 36), ("a pomegranate skin", 70, 180),
        ("a kale stalk", 10, 45), ("4 outer cabbage leaves", 60, 360),
    ],
)  # fmt: skip
def test_parts_weigh_what_such_parts_weigh(
    feed_command: Path, words: str, low_g: float, high_g: float
) -> None:
    blend = answer(feed_command, "blend", words)
    assert low_g <= 1000 * blend["wet_mass_kg"] <= high_g


@pytest.mark.parametrize(
    ("words", "labels"),
    [
        ("leaves, 1 lb carrots", ["carrots", "leaves"]),
        ("carrots and 2 kg onions", None),
        ("2 lb, 3 oz apples", ["apples"]),
    ],
)
def test_an_amount_behind_a_comma_begins_another_thing(
    feed_command: Path, words: str, labels: list[str] | None
) -> None:
    if labels is None:
        said = call(feed_command, "ration", *BIN, words, code=2).stderr
        assert 'how much is "carrots"' in said
        return
    ours = answer(feed_command, "ration", *BIN, words)
    assert [one["label"] for one in ours["put_in"] if one["at_hand"]] == labels


def test_what_is_listed_twice_is_added_up(feed_command: Path) -> None:
    twice = answer(feed_command, "heap", "1 bucket kitchen scraps, 1 bucket leaves, 150 L leaves")
    once = answer(feed_command, "heap", "1 bucket kitchen scraps, 160 L leaves")
    assert twice["layers"] == once["layers"]


@pytest.mark.parametrize("words", ["50 % apples", "700 % apples", "500 g 50 % apples, 3 % bread"])
def test_a_share_is_no_amount(feed_command: Path, words: str) -> None:
    call(feed_command, "blend", words, code=2)


def test_scraps_of_a_day_are_seven_times_those_of_a_week(feed_command: Path) -> None:
    a_day = answer(feed_command, "worms", "2 kg apples a day")
    assert a_day == answer(feed_command, "worms", "14 kg apples a week")
    assert a_day != answer(feed_command, "worms", "2 kg apples a week")
    call(feed_command, "worms", "2 kg apples a day, 1 kg carrot a week", code=2)


@pytest.mark.parametrize("words", ["", " ", ","])
def test_no_sign_is_asked_for(feed_command: Path, words: str) -> None:
    assert "which sign?" in call(feed_command, "signs", words, code=2).stderr


@pytest.mark.parametrize(
    ("words", "says", "never"),
    [
        ("not wet", "note not wet", 'is "wet"'),
        ("no flies", "note no flies", "meant"),
        ("no smell of ammonia", "note no smell of ammonia", "meant"),
        ("smell is better", "note smell is better", "meant"),
        ("its dripping from the bottom", "", "fed its dripping"),
        ("worms look fat", "note worms look fat", "fed worms"),
        ("few worms", "worms 500 g", "worms 1 g"),
        ("gave 200 g worms away", "worms 500 g", "oats"),
        ("harvested -5 L", "harvested 5 L", ""),
        ("harvested 5 kg apples", "harvested 5 L", ""),
        ("bedding -1 kg card", "bedding 1 kg cardboard", ""),
        ("bedding 1 kg apples", "fed 1 kg apples", ""),
        ("bedding 1 kg plastic", "is no bedding", ""),
        ("fed 50 % apples", "", ""),
        (",", "what was done or seen?", ""),
    ],
)
def test_a_note_is_never_turned_into_its_opposite(
    feed_command: Path, tmp_path: Path, words: str, says: str, never: str
) -> None:
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, *BIN)
    before = path.read_text(encoding="utf-8")
    said = " ".join(call(feed_command, "note", path, words, code=2).stderr.split())
    assert says in said and (not never or never not in said), said
    assert path.read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--temp", "20 C"], '"--temperature" meant?'),
        (["--days", "3"], "it belongs to feed forecast"),
        (["--away", "3 days"], "it belongs to feed check"),
        (["--worms", ""], "this option needs a value"),
        (["--worms", "1 lb", "--worms", "2 lb"], "this option is given twice"),
    ],
)
def test_an_option_is_understood_or_asked_about(
    feed_command: Path, options: list[str], says: str
) -> None:
    assert says in call(feed_command, "ration", *options, "3 apples", code=2).stderr


@pytest.mark.parametrize(
    "words",
    [
        "200 L barrel", "a 10 gallon tote", "120 L wooden box outdoors", "45 L tower", "tote",
        "60 x 30 x 30 cm box", "a bucket in the garage", "our 60 L tub", "half barrel", "3 trays",
    ],
)  # fmt: skip
def test_a_bin_is_said_as_it_is_said(feed_command: Path, tmp_path: Path, words: str) -> None:
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, "--bin", words, "--worms", "500 g")
    assert answer(feed_command, "ration", path, "3 apples")["date"]


def test_the_sides_of_a_box_are_its_size(feed_command: Path, tmp_path: Path) -> None:
    """60 x 30 x 30 cm are 54 L by hand."""
    for name, words in (("sides", "60 x 30 x 30 cm box"), ("litres", "54 L box")):
        call(feed_command, "start", tmp_path / f"{name}.yaml", "--bin", words, "--worms", "500 g")
    sides, by_litres = (
        answer(feed_command, "ration", tmp_path / f"{name}.yaml", "--date", "2026-05-01")
        for name in ("sides", "litres")
    )
    assert sides["week_kg"] == by_litres["week_kg"]
    said = call(feed_command, "ration", "--bin", "60 x 30 cm box", "3 apples", code=2).stderr
    assert said.startswith("--bin:")


@pytest.mark.parametrize(
    ("options", "field"),
    [
        (["--bin", "60 furlong tote"], "--bin"),
        (["--size", "sixty"], "--size"),
        (["--container", "zeppelin"], "--container"),
    ],
)
def test_a_wrong_bin_is_told_under_the_option_that_was_typed(
    feed_command: Path, tmp_path: Path, options: list[str], field: str
) -> None:
    said = call(feed_command, "start", tmp_path / "b.yaml", *options, "--worms", "1 lb", code=2)
    assert said.stderr.startswith(f"{field}:"), said.stderr


@pytest.mark.parametrize(
    ("words", "celsius"),
    [("it is 77F", 25), ("68 degrees F in there", 20), ("its 24 C", 24), ("24 C inside", 24)],
)
def test_warmth_is_noted_as_it_is_said(
    feed_command: Path, tmp_path: Path, words: str, celsius: int
) -> None:
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, *BIN, "--age", "1 year")
    call(feed_command, "note", path, words)
    assert f"temperature: {celsius} C" in path.read_text(encoding="utf-8")


def test_who_goes_away_is_told_whom_to_ask(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, *BIN, "--age", "1 year")
    said = call(feed_command, "note", path, "on holiday for two weeks", code=2).stderr
    assert "--away" in said
    call(feed_command, "check", path, "--away", "2 weeks")


def test_a_filter_of_coffee_is_told_from_one_of_a_cigarette(feed_command: Path) -> None:
    said = call(feed_command, "ration", *BIN, "5 kg coffee grounds, 20 filters", code=2).stderr
    assert '"filters" may be' in said and "write which one" in said


@pytest.mark.parametrize(
    "words",
    [
        "newspaper with fish guts", "paper towels with cat sick", "leaves raked up with dog poo",
        "kitchen roll with blood from the chicken, 50 g", "straw with chicken blood, 200 g",
        "rice with chicken 100 g", "sawdust with varnish, 200 g", "wood chips with creosote, 200 g",
        "300 g fruit salad, whipped cream on top", "200 g marg", "200 g kraft dinner",
        "200 g garlic bread", "200 g buttery mashed potatoes", "200 g used tissues", "200 g lino",
        "200 g perch", "200 g flounder", "200 g samosas", "200 g Kids tea leftovers with fish",
    ],
)  # fmt: skip
def test_what_is_soiled_or_dressed_is_refused_whole(feed_command: Path, words: str) -> None:
    ours = answer(feed_command, "ration", *BIN, words)
    assert ours["take_out"]
    assert not [one for one in ours["put_in"] if one["at_hand"]], ours["put_in"]


def test_two_that_are_weighed_apart_stay_two(feed_command: Path) -> None:
    ours = answer(feed_command, "ration", *BIN, "200 g rice with 100 g chicken")
    assert [one["label"] for one in ours["put_in"] if one["at_hand"]] == ["rice"]
    assert [one["label"] for one in ours["take_out"]] == ["chicken"]


@pytest.mark.parametrize(
    "words", ["2 kg garden lime", "3 kg wood ash", "1 kg garden lime, 500 g grit"]
)
def test_lime_that_is_not_wanted_is_told_in_the_first_line(feed_command: Path, words: str) -> None:
    said = call(feed_command, "ration", *BIN, f"{words}, 300 g apples").stdout
    assert said.startswith("Feed it without the ")
    assert all(word in said.splitlines()[0] for word in words.split()[2:3])
    assert "of scraps today." in " ".join(said.splitlines()[:2])


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        ("bedding 300 kg card", "bedding 300 g card"),
        ("fed 300 kg apples", "fed 300 g apples"),
        ("worms 500 kg", "worms 500 g"),
        ("harvested 500 L", None),
        ("added water 100 L", None),
    ],
)
def test_more_than_the_bin_holds_is_asked_back(
    feed_command: Path, tmp_path: Path, words: str, meant: str | None
) -> None:
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, *BIN, "--age", "1 year")
    before = path.read_text(encoding="utf-8")
    said = " ".join(call(feed_command, "note", path, words, code=2).stderr.split())
    assert "this bin holds 60 L" in said
    assert path.read_text(encoding="utf-8") == before
    if meant:
        assert meant in said
        call(feed_command, "note", path, meant)


def test_french_tea_is_tea(feed_command: Path) -> None:
    assert answer(feed_command, "ration", *BIN, "100 g thé")["put_in"][0]["label"] == "thé"


@pytest.mark.parametrize("smell", ["rotten", "ammonia", "sour", "earthy"])
def test_a_smell_beside_what_was_fed_is_no_food(
    feed_command: Path, tmp_path: Path, smell: str
) -> None:
    path = tmp_path / "bin.yaml"
    call(feed_command, "start", path, *BIN, "--age", "1 year")
    said = call(feed_command, "note", path, f"fed 3 apples, smell {smell}").stdout
    kept = path.read_text(encoding="utf-8")
    assert 'portions: ["3 apples"]' in kept and f"smell: {smell}" in kept
    assert "Dig out" not in said


@pytest.mark.parametrize(
    ("words", "low_g", "high_g"),
    [
        ("okra, handful", 20, 100), ("grass clippings, bucket", 800, 4000),
        ("frozen peas, cup", 90, 200), ("lettuce, head", 150, 700),
    ],
)  # fmt: skip
def test_a_measure_behind_a_comma_is_one_of_it(
    feed_command: Path, words: str, low_g: float, high_g: float
) -> None:
    blended = answer(feed_command, "blend", words)
    assert low_g <= 1000 * blended["wet_mass_kg"] <= high_g, words
