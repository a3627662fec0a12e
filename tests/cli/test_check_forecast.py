"""feed check and feed forecast on the invented bins."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ElementTree
from datetime import date
from pathlib import Path

import pytest
from command import EXAMPLES, answer, call, write

TOTE = EXAMPLES / "lunch_club_tote.yaml"
HAZARDS = [
    "sour", "wet", "dry", "hot", "ammonia", "salty", "overfed", "underfed", "airless", "greasy",
    "cold",
]  # fmt: skip
TOO_MUCH = {
    "bed": {"container": "60 L tote", "worms": "300 g", "squeeze": "drops"},
    "blend": ["3 kg lettuce", "2 kg carrot"],
}


def test_every_hazard_is_judged(feed_command: Path) -> None:
    ours = answer(feed_command, "check", TOTE)
    assert [one["hazard"] for one in ours["hazards"]] == HAZARDS
    for one in ours["hazards"]:
        assert one["level"] in ("none", "watch", "act", "unknown")
        assert one["why"]
        assert set(one) == {
            "hazard", "level", "value", "limit", "limit_act", "higher_is_worse", "unit",
            "source", "why",
        }  # fmt: skip


def test_cautions_of_every_bed_are_said_once(feed_command: Path) -> None:
    text = " ".join(call(feed_command, "check", TOTE, "--why").stdout.split())
    for part in ("kills no germs for certain", "Tetanus", "Local rules for food scraps"):
        assert text.count(part) == 1, part
    assert answer(feed_command, "check", TOTE)["always"] in text


def test_strict_turns_a_step_or_a_bar_into_an_exit_code(feed_command: Path, tmp_path: Path) -> None:
    wet = {"bed": {**TOO_MUCH["bed"], "squeeze": "streams"}, "blend": ["20 g carrot"]}  # type: ignore[dict-item]
    barred = {**TOO_MUCH, "blend": ["200 g carrot", "200 g bacon"]}
    for name, file in (("wet.json", wet), ("barred.json", barred)):
        path = write(tmp_path, file, name)
        for verb in ("ration", "check", "forecast"):
            call(feed_command, verb, path)
            call(feed_command, verb, path, "--strict", code=1)
    mild = write(tmp_path, {**TOO_MUCH, "blend": ["20 g carrot"]}, "mild.json")
    call(feed_command, "check", mild, "--strict")


def test_earlier_feedings_count(feed_command: Path, tmp_path: Path) -> None:
    bed = {**TOO_MUCH["bed"], "date": "2026-03-02"}  # type: ignore[dict-item]
    diary = [{"date": f"2026-03-{day:02}", "portions": ["400 g carrot"]} for day in (3, 5, 7)]
    planned = {"bed": bed, "blend": ["200 g carrot"]}
    lately = date(2026, 3, 8)
    alone = answer(feed_command, "check", write(tmp_path, planned), today=lately)
    fed = write(tmp_path, {**planned, "feedings": diary}, "diary.json")
    after = answer(feed_command, "check", fed, today=lately)

    def overfed(ours: dict[str, list[dict[str, dict[str, float]]]]) -> float:
        return ours["hazards"][HAZARDS.index("overfed")]["value"]["value"]

    assert overfed(after) > overfed(alone)


def test_what_is_at_hand_is_what_the_balance_lists(feed_command: Path, tmp_path: Path) -> None:
    """A file that lists things at hand gets the ration of one that plans them."""
    bed = {"container": "60 L tote", "worms": "500 g", "squeeze": "drops", "age": "1 year"}
    listed = {"bed": bed, "balance": {"at_hand": ["600 g kitchen scraps", "200 g cardboard"]}}
    planned = {"bed": bed, "blend": ["600 g kitchen scraps", "200 g cardboard"]}
    ours = answer(feed_command, "ration", write(tmp_path, listed))
    theirs = answer(feed_command, "ration", write(tmp_path, planned, "planned.json"))
    for key in ("answer", "scraps_kg", "water_kg", "next_feeding", "next_look"):
        assert ours[key] == theirs[key], key
    assert [one["wet_mass_kg"] for one in ours["put_in"]] == [
        one["wet_mass_kg"] for one in theirs["put_in"]
    ]


def test_the_ration_taken_as_printed_raises_nothing(feed_command: Path, tmp_path: Path) -> None:
    """Written into a second file as a keeper would, and checked again."""
    bed = {**TOO_MUCH["bed"], "worms": "900 g", "age": "1 year"}  # type: ignore[dict-item]
    path = write(tmp_path, {"bed": bed, "blend": ["3 kg lettuce", "2 kg carrot"]})
    before = answer(feed_command, "check", path)
    assert any(one["level"] == "act" for one in before["hazards"])
    ration = before["ration"]
    assert ration["answer"] == "feed_less"
    words = {"cardboard-corrugated": "cardboard", "water-tap": "tap water"}
    blend = [
        f"{one['wet_mass_kg']!r} kg {words.get(one['feedstock'], one['label'])}"
        for one in ration["put_in"]
    ]
    after = answer(
        feed_command, "check", write(tmp_path, {"bed": bed, "blend": blend}, "next.json")
    )
    levels = {one["hazard"]: one["level"] for one in after["hazards"]}
    assert all(levels[hazard] == "none" for hazard in HAZARDS if hazard != "underfed"), levels


def test_a_pinch_raises_nothing_and_hunger_is_told_of_the_bed(
    feed_command: Path, tmp_path: Path
) -> None:
    """Ten grams of grounds raise nothing; three weeks of next to nothing are told."""
    bed = {**TOO_MUCH["bed"], "squeeze": "drops"}  # type: ignore[dict-item]
    pinch = write(tmp_path, {"bed": bed, "blend": ["10 g coffee grounds"]}, "pinch.json")
    found = answer(feed_command, "check", pinch)
    assert {one["level"] for one in found["hazards"]} == {"none"}
    diary = [{"date": f"2026-03-{day:02}", "portions": ["20 g carrot"]} for day in (1, 12)]
    hungry = write(
        tmp_path,
        {
            "bed": {**bed, "date": "2026-03-01"},
            "feedings": diary,
            "blend": ["40 g carrot"],
        },
        "hungry.json",
    )
    text = " ".join(call(feed_command, "ration", hungry, "--date", "2026-03-25").stdout.split())
    assert "These worms had little for three weeks." in text


COLD_NEW = {
    "bed": {
        "container": "60 L tote",
        "worms": "500 g",
        "age": "10 days",
        "temperature": "8 C",
        "squeeze": "drops",
    },
    "blend": ["40 g carrot"],
}


@pytest.mark.parametrize("weeks", [1, 2, 3, 4, 5, 6])
def test_going_away_is_answered_with_the_check(
    weeks: int, feed_command: Path, tmp_path: Path
) -> None:
    """One amount of food and of water, both in the ration; the next look is on the return."""
    file = {"bed": {**COLD_NEW["bed"], "age": "1 year", "temperature": "20 C", "squeeze": "damp"}}  # type: ignore[dict-item]
    path = write(tmp_path, {**file, "blend": ["40 g carrot"]})
    found = answer(feed_command, "check", path, "--away", f"{weeks} weeks")
    away, ration = found["advice"]["away"], found["ration"]
    assert away["days"] == 7 * weeks
    assert set(away) == {
        "days", "cover", "moisture_at_return", "safe_days", "needs_a_helper", "text",
    }  # fmt: skip
    assert ration["scraps_kg"] == pytest.approx(0.04)
    assert ration["next_look"]["day"] == 7 * weeks
    assert ration["next_feeding"] is None or ration["next_feeding"]["day"] >= 7 * weeks
    stays = answer(feed_command, "check", path)["ration"]
    assert ration["water_kg"] >= stays["water_kg"]
    assert away["moisture_at_return"]["low"] <= away["moisture_at_return"]["value"]
    text = call(feed_command, "check", path, "--away", f"{weeks} weeks").stdout
    assert f"Gone for {7 * weeks} days:" in text
    assert text.count("of water") == (ration["water_kg"] > 0)
    assert "Gone" not in call(feed_command, "check", path).stdout


@pytest.mark.parametrize("away", ["0 days", "13 weeks", "3", "soon"])
def test_a_time_away_has_a_unit_and_a_range(away: str, feed_command: Path, tmp_path: Path) -> None:
    path = write(tmp_path, COLD_NEW)
    refused = call(feed_command, "check", path, f"--away={away}", code=2)
    assert "--away" in refused.stderr and "12 weeks" in refused.stderr


def test_a_cold_new_bed_gets_its_ration_and_its_ramp(feed_command: Path, tmp_path: Path) -> None:
    path = write(tmp_path, COLD_NEW)
    advice = answer(feed_command, "check", path)["advice"]
    # 8 C is 4 of the 11 degrees between the coldest borne, 4 C, and the coolest liked, 15 C.
    assert advice["temperature"]["ration_share"] == pytest.approx(4 / 11)
    weeks = [week["scraps_kg"] for week in advice["first_weeks"]]
    assert len(weeks) == 13 and weeks == sorted(weeks) and weeks[0] < 0.3 * weeks[-1]
    text = " ".join(call(feed_command, "check", path, "--why").stdout.split())
    assert "At 8 C Eisenia fetida or andrei takes about 36 % of a full ration" in text
    assert "New bin: nothing for three days" in text
    settled = {**COLD_NEW["bed"], "age": "1 year", "temperature": "20 C"}  # type: ignore[dict-item]
    calm = answer(feed_command, "check", write(tmp_path, {**COLD_NEW, "bed": settled}, "calm.json"))
    assert calm["advice"] == {"away": None, "temperature": None, "first_weeks": None}


def test_heat_names_the_most_at_a_time(feed_command: Path, tmp_path: Path) -> None:
    bed = {**COLD_NEW["bed"], "temperature": "22 C to 28 C"}  # type: ignore[dict-item]
    path = write(tmp_path, {"bed": bed, "blend": ["400 g bread"]})
    advice = answer(feed_command, "check", path)["advice"]["temperature"]
    assert advice["temperature_c"] == pytest.approx(28)
    assert 0 < advice["most_at_a_time_kg"] < 0.4


def test_nothing_at_hand_gets_a_ration_of_soft_mixed_scraps(
    feed_command: Path, tmp_path: Path
) -> None:
    bed = {**TOO_MUCH["bed"], "age": "1 year"}  # type: ignore[dict-item]
    path = write(tmp_path, {"bed": bed})
    ours = answer(feed_command, "check", path)["ration"]
    assert ours["scraps_kg"] > 0
    assert not ours["put_in"][0]["at_hand"]
    assert "No scraps were named" in " ".join(ours["reasons"])


@pytest.mark.parametrize("days", [2, 28, 366])
def test_forecast_arrays_have_the_length_of_days(days: int, feed_command: Path) -> None:
    ours = answer(feed_command, "forecast", TOTE, "--days", str(days))
    assert ours["days"] == days
    for key in (
        "moisture", "food_left_kg", "acid_g_citric", "temperature_c", "volume_l", "cn_ratio",
        "castings_kg",
    ):  # fmt: skip
        for low, typical, high in zip(
            ours[key + "_low"], ours[key], ours[key + "_high"], strict=True
        ):
            assert low <= typical <= high
        assert len(ours[key]) == len(ours[key + "_low"]) == len(ours[key + "_high"]) == days
    assert ours["ration"]["text"]


@pytest.mark.parametrize("days", ["0", "1", "367", "seven", "3.5"])
def test_forecast_refuses_other_days(days: str, feed_command: Path) -> None:
    assert "--days" in call(feed_command, "forecast", TOTE, "--days", days, code=2).stderr


def test_picture_is_svg_with_its_limits_in_words(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.svg"
    call(feed_command, "forecast", TOTE, "--svg", path)
    text = path.read_text(encoding="utf-8")
    root = ElementTree.fromstring(text)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    words = " ".join(node.text or "" for node in root.iter("{http://www.w3.org/2000/svg}text"))
    for part in ("How wet", "Food left", "Acid", "wetter than worms like", "sour: act", "calm"):
        assert part in words
    assert "nan" not in text and "inf" not in text
    assert [item.name for item in tmp_path.iterdir()] == ["tote.svg"]


def test_a_picture_that_cannot_be_written_is_refused(feed_command: Path, tmp_path: Path) -> None:
    result = call(feed_command, "forecast", TOTE, "--svg", tmp_path / "no" / "x.svg", code=2)
    assert "the folder it should go to does not exist" in " ".join(result.stderr.split())
    assert result.stdout == ""


@pytest.mark.parametrize("command", ["check", "forecast"])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_text_fits_the_screen(command: str, units: str, feed_command: Path) -> None:
    for name in ("lunch_club_tote", "allotment_bin"):
        text = call(feed_command, command, EXAMPLES / f"{name}.yaml", "--units", units).stdout
        assert all(len(line) <= 80 for line in text.splitlines()), text
        assert re.search(r"(Feed|Look) again ", text)


def test_errors_are_json_too(feed_command: Path, tmp_path: Path) -> None:
    path = write(tmp_path, {"bed": {"ph": 15}})
    errors = json.loads(call(feed_command, "check", path, "--json", code=2).stdout)["errors"]
    assert errors == [
        {
            "code": "out_of_range",
            "field": "bed: ph",
            "value": "15",
            "allowed": "0 to 14, without a unit",
            "message": "this is too large",
            "file": str(path),
            "line": 1,
            "column": 30,
        }
    ]


def test_the_sheet_beside_the_bin(feed_command: Path, tmp_path: Path) -> None:
    for name in ("sheet.txt", "sheet.html"):
        call(feed_command, "forecast", TOTE, "--sheet", tmp_path / name)
        page = (tmp_path / name).read_text(encoding="utf-8")
        assert "Lunch club tote" in page
        assert page.startswith("<!") == name.endswith(".html")
    undated = write(tmp_path, {"blend": ["1 kg carrot"]})
    result = call(feed_command, "forecast", undated, "--sheet", tmp_path / "no.txt", code=2)
    assert "which day it is" in result.stderr
    assert not (tmp_path / "no.txt").exists()
