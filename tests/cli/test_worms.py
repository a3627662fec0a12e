"""`feed worms`: worms and bin for the scraps of a week, what a bin can take, and a census. Bins are
invented."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from command import EXAMPLES, answer, call

TOTE = EXAMPLES / "balcony_tote.yaml"


def lines(feed_command: Path, *words: str | Path) -> list[str]:
    return call(feed_command, "worms", *words).stdout.splitlines()


def test_scraps_in_words_are_those_of_a_week(feed_command: Path) -> None:
    said = "2 kg apples, 500 g coffee grounds a week"
    told = lines(feed_command, *said.split())
    assert told[0] == "Start with 1 kg of worms, about 2900, in one 60 L tote."
    need = answer(feed_command, "worms", *said.split())["need"]
    assert need["scraps_kg"] == pytest.approx(2.5)
    # One text, or one for each thing.
    assert answer(feed_command, "worms", said)["need"] == need
    parts = ["2 kg apples a week", "500 g coffee grounds each week"]
    assert answer(feed_command, "worms", *parts)["need"] == need


def test_what_is_never_fed_comes_first_and_does_not_count(feed_command: Path) -> None:
    told = lines(feed_command, "1 kg bacon", "1 kg carrot")
    assert told[0] == "Never feed bacon: it rots, stinks and draws flies and rats."
    given = answer(feed_command, "worms", "1 kg bacon", "1 kg carrot")["need"]
    assert given["scraps_kg"] == pytest.approx(1.0)
    assert call(feed_command, "worms", "1 kg bacon", "--strict", code=1).stdout.splitlines()[1] == (
        "Do not start: nothing is left that worms may have."
    )


def test_expected_scraps_have_their_kinds_ranges_and_sources(feed_command: Path) -> None:
    expected = answer(feed_command, "worms", "--people", "4", "--coffee", "6")["expected"]
    kinds = {one["kind"]: one for one in expected["kinds"]}
    assert kinds["coffee grounds"]["wet_mass_kg"]["value"] == pytest.approx(6 * 7 * 0.020)
    assert not kinds["meat, fish, dairy and cooked dishes"]["fed"]
    for one in kinds.values():
        assert one["source"]
        assert one["wet_mass_kg"]["low"] < one["wet_mass_kg"]["value"] < one["wet_mass_kg"]["high"]
    assert "10.1016/j.wasman.2021.08.039" in expected["source"]
    told = " ".join(lines(feed_command, "--people", "4"))
    assert "Keep out meat, fish, dairy and cooked dishes" in told
    assert "a start until you have weighed two weeks" in told


def test_a_bin_takes_what_its_ration_says(feed_command: Path) -> None:
    """No second answer: the number of the week is that of feed ration."""
    for path in sorted(EXAMPLES.glob("*.yaml")):
        given = answer(feed_command, "worms", path)["bin"]
        ration = answer(feed_command, "ration", path)
        assert given["ration"]["answer"] == ration["answer"], path
        assert given["week_kg"] == ration.get("week_kg", given["week_kg"])
    little = answer(feed_command, "worms", TOTE, "400 g carrot a week")["bin"]
    assert little["grown_day"] == 0
    more = answer(feed_command, "worms", TOTE, "800 g carrot a week")["bin"]
    assert 0 < more["grown_earliest_day"] < more["grown_day"]
    much = answer(feed_command, "worms", TOTE, "8 kg carrot a week")["bin"]
    assert much["grown_day"] is None
    assert "It will never take all 8 kg" in " ".join(lines(feed_command, TOTE, "8 kg carrot"))


def test_a_bed_that_needs_a_step_says_so_first(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "wet.yaml"
    path.write_text(
        "libfeed: 1\n"
        "bed: {date: 2026-03-14, container: 60 L tote, worms: 500 g, squeeze: pooling}\n",
        encoding="utf-8",
    )
    told = lines(feed_command, path, "1 kg carrot")
    ration = call(feed_command, "ration", path).stdout.splitlines()
    assert told[0] == ration[0]
    assert told[0].startswith("Act first")


def test_a_census_tells_number_weight_and_samples(feed_command: Path, tmp_path: Path) -> None:
    counted = ("--census", "12, 30, 7, 18", "--sample", "2 L of 40 L")
    given = answer(feed_command, "worms", *counted)["census"]
    # Worked by hand in tests/unit/ration/worm_census.cpp.
    assert given["worms"]["value"] == pytest.approx(337.5)
    assert given["worms"]["low"] == pytest.approx(185, abs=2)
    assert given["worms"]["high"] == pytest.approx(617, abs=4)
    assert given["worms_kg"]["low"] < given["worms_kg"]["value"] < given["worms_kg"]["high"]
    assert 8 <= given["samples_to_halve"] <= 16
    # With the file of a bin the bed is its own, and the note it asks for is understood.
    path = tmp_path / "tote.yaml"
    path.write_text(TOTE.read_text(encoding="utf-8"), encoding="utf-8")
    told = lines(feed_command, path, "--census", "12 30 7 18", "--sample", "500 ml")
    note = next(one for one in told if one.startswith("Write it down: feed "))
    words = " ".join(" ".join(told[told.index(note) :]).split()).removeprefix(
        "Write it down: feed note "
    )
    name, _, rest = words.partition(" worms ")
    assert Path(name) == path
    amount = " ".join(rest.split()[:2])
    call(feed_command, "note", path, "worms", *amount.split(), "--date", "2026-07-01", "--force")
    noted = answer(feed_command, "worms", path, "--date", "2026-07-01")["bin"]
    assert noted["weighed_days_ago"] == 0
    assert noted["learned_from"] == 1


REFUSED = [
    ([], "scraps"),
    (["--people", "0"], "--people"),
    (["--people", "2", "--meals", "6"], "--meals"),
    (["--census", "12", "--sample", "2 L of 40 L"], "--census"),
    (["--census", "12, many", "--sample", "2 L of 40 L"], "--census"),
    (["--census", "12, 30"], "--sample"),
    (["--census", "12, 30", "--sample", "2 L"], "--sample"),
    (["--census", "12, 30", "--sample", "2 kg of 40 L"], "--sample"),
    (["--census", "12, 30", "--sample", "30 L of 40 L"], "--sample"),
    (["--sample", "2 L of 40 L"], "--census"),
    ([str(TOTE), "--worms", "1 lb"], "file"),
    (["1 kg carrot", "--worms", "many"], "--worms"),
    (["1 kg nothing at all"], "entry 1"),
]


@pytest.mark.parametrize(("words", "field"), REFUSED)
def test_what_cannot_be_used_is_named(words: list[str], field: str, feed_command: Path) -> None:
    said = json.loads(call(feed_command, "worms", *words, "--json", code=2).stdout)["errors"]
    assert len(said) == 1
    assert said[0]["field"].startswith(field)
    assert said[0]["allowed"]


def test_a_repair_that_is_proposed_works(feed_command: Path) -> None:
    wrong = call(feed_command, "worms", "--census", "4, 9", "--sample", "2 L", code=2).stderr
    assert 'such as "2 L of 40 L"' in wrong
    call(feed_command, "worms", "--census", "4, 9", "--sample", "2 L of 40 L")


def test_why_names_each_source_and_what_was_not_read(feed_command: Path) -> None:
    why = " ".join(call(feed_command, "worms", "--people", "3", "--why").stdout.split())
    for source in ("AG-473-18", "Reeh 1992, abstract", "Neuhauser et al. 1980, abstract",
                   "the report was not read", "extension question column"):  # fmt: skip
        assert source in why
