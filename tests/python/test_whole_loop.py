"""Know, balance, check, forecast, observe: each step through Python, told the same as elsewhere."""

from __future__ import annotations

import datetime
import json
import subprocess
from pathlib import Path

import numpy as np
import pytest

import libfeed

DIARY = """\
libfeed: 1
title: An invented lunch-club tote
bed:
  date: 2026-03-01
  container: 60 L tote
  worms: 500 g
  temperature: 20 C
  squeeze: damp
feedings:
  - date: 2026-03-02
    portions: [400 g banana peel, 100 g shredded cardboard]
  - date: 2026-03-09
    portions: [400 g kitchen scraps, 100 g shredded cardboard]
observations:
  - date: 2026-03-05
    share_gone: 60 %
    temperature: 20 C
  - date: 2026-03-08
    share_gone: 90 %
  - date: 2026-03-13
    share_gone: 80 %
    smell: earthy
"""


@pytest.fixture(scope="module")
def file() -> libfeed.FeedFile:
    return libfeed.read_feed_text(DIARY, name="tote.yaml")


def test_file_sections(file: libfeed.FeedFile) -> None:
    assert file.title == "An invented lunch-club tote"
    assert file.blend is None
    assert file.problem is None
    assert file.bed is not None
    assert file.day_zero == datetime.date(2026, 3, 13)
    assert [feeding.day for feeding in file.bed.earlier] == [-11.0, -4.0]
    assert [date for date, _ in file.diary.feedings] == [
        datetime.date(2026, 3, 2),
        datetime.date(2026, 3, 9),
    ]
    assert [look.share_gone for look in file.diary.observations] == [0.6, 0.9, 0.8]
    assert file.diary.observations[2].smell == "earthy"


def test_calibration_moves_the_forecast(file: libfeed.FeedFile) -> None:
    learned = file.diary.calibrate()
    assert learned.used == 3
    labile = learned.rates[0]
    assert labile.parameter == "labile_rate_per_day"
    width_before = np.log(labile.before_high_per_day / labile.before_low_per_day)
    width_after = np.log(labile.after_high_per_day / labile.after_low_per_day)
    assert width_after < width_before
    assert file.bed is not None
    feeding = [libfeed.Feeding(0, ["400 g kitchen scraps"])]
    usual = libfeed.forecast(file.bed, feeding)
    own = libfeed.forecast(file.bed, feeding, calibration=learned)
    faster = labile.after_per_day > labile.before_per_day
    left_usual, left_own = usual.food_left_wet_kg.value[7], own.food_left_wet_kg.value[7]
    assert (left_own < left_usual) == faster


def test_slips_are_pointed_out() -> None:
    text = DIARY.replace(
        "2026-03-13\n    share_gone: 80 %", "2026-03-13\n    share_gone: 80 %\n    ph: 6.8"
    )
    assert libfeed.read_feed_text(text).diary.slips == []
    swapped = libfeed.read_feed_text(DIARY.replace("2026-03-08", "2026-03-03"))
    assert any("2026-03-05" in slip for slip in swapped.diary.slips)


def test_json_answers_are_those_of_the_command(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "kitchen.yaml"
    path.write_text(
        "libfeed: 1\n"
        "blend: [1.2 kg coffee grounds, 4 L shredded cardboard]\n"
        "balance:\n  at_hand: [1.2 kg kitchen scraps, any cardboard, any water]\n"
        "  targets: {set: worm-bed}\n"
        "bed: {container: 60 L tote, worms: 500 g}\n"
    )
    file = libfeed.read_feed_file(str(path))
    for verb in ("blend", "balance", "ration", "check", "forecast"):
        command = [feed_command, verb, "--json", path]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        assert json.loads(libfeed.answer_json(verb, file)) == json.loads(done.stdout), verb


def test_file_and_call_agree() -> None:
    file = libfeed.read_feed_text(
        "libfeed: 1\nbalance:\n  at_hand: [1.2 kg kitchen scraps, any cardboard, any water]\n"
        "  targets: {set: worm-bed}\n"
    )
    assert file.problem is not None
    called = libfeed.balance(["1.2 kg kitchen scraps", "cardboard", "water"])
    assert file.problem.solve().wet_kg == called.wet_kg


def test_a_check_judges_the_plan_and_gives_the_ration() -> None:
    bed = libfeed.Bed(volume_l=60, worms_wet_kg=0.9, squeeze="drops", age_days=365)
    answer = libfeed.check(bed, ["4 kg lettuce", "3 kg carrot", "300 g shredded cardboard"])
    assert answer.hazards["overfed"].level == "act"
    assert not answer.as_planned
    ration = answer.ration
    assert ration.answer == "feed_less"
    assert 0 < ration.scraps_wet_kg <= ration.week_wet_kg
    scraps = sum(one.wet_kg for one in ration.put_in if one.part == "scraps")
    assert scraps == pytest.approx(ration.scraps_wet_kg, rel=1e-12)
    # What does not go in today is the rest of what was planned.
    kept = sum(one.wet_kg for one in ration.rest)
    assert scraps + kept == pytest.approx(7.0, rel=1e-9)
    # The words of the ration are those of the command's JSON.
    told = answer.to_dict()["ration"]
    assert told == ration.to_dict()
    assert told["text"] == ration.lines() and told["reasons"] == ration.reasons


def test_a_ration_from_a_bed_and_what_is_at_hand() -> None:
    bed = libfeed.Bed(
        volume_l=60, worms_wet_kg=0.5, squeeze="drops", age_days=365, temperature_c=20
    )
    today = libfeed.ration(
        bed,
        [
            "200 g bacon",
            libfeed.Entry("carrot", most="200 g", use_up_priority=1),
            libfeed.Portion("banana peel", "1 piece"),
            "shredded cardboard",
        ],
        date="2026-03-20",
    )
    assert [one.label for one in today.take_out] == ["bacon"]
    assert today.take_out[0].why and today.take_out[0].instead
    barred = {one.feedstock for one in today.take_out}
    assert not barred & {one.feedstock for one in today.put_in}
    by_id = {one.feedstock: one for one in today.put_in}
    assert by_id["carrot"].wet_kg == pytest.approx(0.2)
    bedding = [one for one in today.put_in if one.part == "bedding"]
    assert [one.at_hand for one in bedding] == [True]
    assert today.answer == "feed"
    assert str(today.date) == "2026-03-20"
    assert today.next_feeding_day is not None
    assert today.next_feeding_earliest_day is not None
    assert today.next_feeding_latest_day is not None
    assert (
        1
        <= today.next_feeding_earliest_day
        <= today.next_feeding_day
        <= today.next_feeding_latest_day
    )
    assert len(today.reasons) <= 2 and len(today.weigh) <= 2
    raised = ("watch", "act")
    assert not [
        word
        for word, level in today.after.items()
        if level in raised and today.before[word] not in raised and word != "underfed"
    ]
    assert today.lines()[0].startswith("Never feed bacon")
    assert "lb" in today.to_text("us") or "oz" in today.to_text("us")


def test_a_drowned_bed_is_acted_on_first() -> None:
    bed = libfeed.Bed(volume_l=60, worms_wet_kg=0.5, squeeze="pooling", age_days=365)
    today = libfeed.ration(bed, ["300 g carrot", "shredded cardboard"])
    assert today.answer == "act_first"
    assert "wet" in today.raised
    assert today.scraps_wet_kg == 0
    assert {one.part for one in today.put_in} <= {"bedding", "water", "amendment"}
    assert today.next_look_day == 1
    assert [one.feedstock for one in today.rest] == ["carrot"]


def test_a_file_gives_the_ration_of_the_command(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "bin.yaml"
    path.write_text(
        "libfeed: 1\nbed: {container: 60 L tote, worms: 500 g, squeeze: drops, age: 1 year}\n"
        "blend: [2 kg carrot, 200 g bacon]\n"
    )
    file = libfeed.read_feed_file(path)
    for units in ("metric", "us"):
        command = [str(feed_command), "ration", str(path), "--units", units]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        assert done.stdout.startswith(file.ration(units=units).to_text(units))
    assert file.check().ration.to_dict() == file.ration().to_dict()


def test_things_at_hand_are_refused_all_at_once() -> None:
    with pytest.raises(libfeed.FeedError) as caught:
        libfeed.ration(libfeed.Bed(), ["200 g no such stuff", "100 cubits carrot"])
    assert len(caught.value.errors) == 2


def test_an_infeasible_balance_says_why_and_what_helps() -> None:
    answer = libfeed.balance(["2 kg watermelon rind", libfeed.Entry("newspaper", most="50 g")])
    assert answer.status == "infeasible"
    assert answer.conflict == ["watermelon rind", "newspaper", "bedding for scraps"]
    assert not answer.reached["bedding_l_per_scraps_l"].inside
    assert answer.largest_deviation > 1.0
    assert answer.mend is not None
    mended = libfeed.balance(
        [
            "2 kg watermelon rind",
            libfeed.Entry("newspaper", most="50 g"),
            libfeed.Entry(answer.mend.feedstock, least_wet_kg=answer.mend.add_wet_kg * (1 + 1e-9)),
        ]
    )
    assert mended.status == "solved"
    assert answer.advice


def test_nothing_limits_what_is_used_up_most() -> None:
    answer = libfeed.balance(
        ["1 kg kitchen scraps", "cardboard", "water"],
        target_set=None,
        targets=[libfeed.Target("moisture", low=0.0, high=1.0)],
        objective="use up most",
    )
    assert answer.status in ("unbounded", "solved")


@pytest.mark.parametrize(
    "objective", ["closest to aims", "closest to usual", "least added", "cheapest", "use up most"]
)
def test_every_objective(objective: str) -> None:
    answer = libfeed.balance(
        [
            libfeed.Entry("kitchen scraps", most="2 kg", least="1 kg", usual="1.5 kg"),
            libfeed.Entry("cardboard", cost_per_wet_kg=1.0, usual="200 g"),
            libfeed.Entry("water", cost_per_wet_kg=0.1),
        ],
        objective=objective,
    )
    assert answer.status == "solved"
    if objective == "use up most":
        assert answer.wet_kg["kitchen scraps"] == 2.0
    if objective == "least added":
        assert answer.wet_kg["kitchen scraps"] == 1.0


def test_own_targets_replace_those_of_the_set() -> None:
    target = libfeed.Target("moisture", low=0.6, high=0.65, label="as I like it")
    problem = libfeed.Problem(["1 kg kitchen scraps", "cardboard", "water"], targets=[target])
    labels = {one.key: one.label for one in problem.targets}
    assert labels["moisture"] == "as I like it"
    assert "cn_ratio" in labels
    moisture = problem.solve().blend.moisture.value
    assert moisture is not None
    assert 0.6 - 1e-9 <= moisture <= 0.65 + 1e-9


def test_prepared_and_own_feedstocks() -> None:
    bread, said = libfeed.feedstock_from_label(
        "rye bread", protein=0.085, fat=0.033, carbohydrate=0.483, fibre=0.058, water=0.373
    )
    # Carbon from macronutrients over protein / 6.25, as the label gives them.
    assert bread["nitrogen"].value == pytest.approx(0.085 / 6.25 / (1 - 0.373), rel=1e-9)
    assert isinstance(said, list)
    soaked = libfeed.feedstock("cardboard").prepared("soaked")
    assert soaked["moisture"].value > 0.5
    assert soaked.prepared_as == "soaked"
    with pytest.raises(libfeed.FeedValueError):
        libfeed.feedstock("cardboard").prepared("cooked")


def test_containers_of_ones_own() -> None:
    bucket = [("bucket", 10.0)]
    half = libfeed.Portion("dry leaves", "1/2 bucket", containers=bucket)
    litres = libfeed.Portion("dry leaves", "5 L")
    assert half.wet_kg == pytest.approx(litres.wet_kg, rel=1e-12)


def test_versions() -> None:
    assert libfeed.TABLE_LAYOUT_VERSION >= 1
    assert len(libfeed.TABLE_CONTENT_SHA256) == 64
    assert libfeed.TABLE_VERSION.count(".") == 2
