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
    for verb in ("blend", "balance", "check", "forecast"):
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


def test_a_check_says_what_to_do_step_by_step_and_all_at_once() -> None:
    bed = libfeed.Bed(volume_l=60, worms_wet_kg=0.9, squeeze="crumbly")
    answer = libfeed.check(bed, ["1 kg lettuce", "1 kg carrot"])
    raised = {word for word, one in answer.hazards.items() if one.level in ("watch", "act")}
    assert {"dry", "overfed"} <= raised
    # The words of the steps are those of the command's JSON.
    by_json = {one["hazard"]: one["remedy_amounts"] for one in answer.to_dict()["hazards"]}
    for word in raised:
        remedy = answer.hazards[word].remedy
        assert remedy.kind == by_json[word]["kind"]
        assert remedy.raises == by_json[word]["raises"]
    assert answer.hazards["dry"].remedy.kind == "add water"
    assert answer.hazards["overfed"].remedy.kind == "feed less"
    together = answer.together
    assert together is not None and together.found
    assert set(together.clears) == raised and together.stays == []
    assert together.add_wet_kg["water-tap"] > 1 and 0 < together.share_now < 1
    assert libfeed.check(bed, ["50 g carrot", "12 L water"]).together is None


def test_an_infeasible_balance_says_why_and_what_helps() -> None:
    answer = libfeed.balance(["2 kg watermelon rind", libfeed.Entry("newspaper", most="50 g")])
    assert answer.status == "infeasible"
    assert answer.conflict == ["watermelon rind", "newspaper", "moisture"]
    assert not answer.reached["moisture"].inside
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
