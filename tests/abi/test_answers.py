"""What the functions on answers give is what the same library writes as JSON."""

from __future__ import annotations

import ctypes
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import c_library as library
import pytest

BED = b"""libfeed: 1
bed: {container: 40 L tote, worms: 2 kg, temperature: 20 C, age: 1 year, squeeze: many drops}
blend: [300 g bread, 200 g lemon]
"""
BALANCE = b"""libfeed: 1
balance:
  at_hand: [2 kg coffee grounds, 1 kg melon, 10 g newspaper]
  targets: {set: worm-bed}
"""
FEEDING = [(b"bread", 0.3), (b"lemon", 0.2)]
ANSWERS = ["act_first", "wait", "feed_less", "feed"]
COUNTED = ["take_out", "put_in", "rest", "reason", "weigh", "line"]
# An invented bin for each answer, named by it.
CASES = {
    "act_first": b"""libfeed: 1
bed: {container: 40 L tote, worms: 500 g, temperature: 20 C, age: 1 year, squeeze: pooling}
blend: [300 g carrot]
""",
    "wait": b"""libfeed: 1
bed: {container: 40 L tote, worms: 500 g, temperature: 20 C, age: 1 year, squeeze: drops}
feedings:
  - {date: 2026-03-01, portions: [3 kg carrot]}
observations:
  - {date: 2026-03-02, squeeze: drops}
""",
    "feed_less": b"""libfeed: 1
bed: {container: 40 L tote, worms: 500 g, temperature: 20 C, age: 1 year, squeeze: drops}
blend: [200 g bacon, 4 kg carrot, 1 kg onion, 500 g shredded cardboard]
""",
    "feed": b"""libfeed: 1
bed: {container: 40 L tote, worms: 500 g, temperature: 20 C, age: 1 year, squeeze: drops}
blend: [300 g carrot, 100 g shredded cardboard]
""",
}
NAN = float("nan")
HAZARDS = [
    "sour", "wet", "dry", "hot", "ammonia", "salty", "overfed", "underfed", "airless", "greasy",
    "cold",
]  # fmt: skip


class Asked:
    """The library, and its calls with the error struct filled in and the outputs read."""

    def __init__(self, build_dir: Path) -> None:
        self.lib = library.load(build_dir)
        self.error = library.Sized("feed_error")

    def call(self, name: str, *arguments: object) -> None:
        code = getattr(self.lib, name)(*arguments, self.error.pointer())
        assert code == 0, f"{name}: {self.error.text('message')}"

    def handle(self, name: str, *arguments: object) -> int:
        out = ctypes.c_void_p()
        self.call(name, *arguments, ctypes.byref(out))
        assert out.value is not None
        return out.value

    def count(self, name: str, handle: int) -> int:
        out = ctypes.c_size_t(99)
        self.call(name, handle, ctypes.byref(out))
        return out.value

    def sentence(self, name: str, handle: int, index: int, *more: object) -> str:
        out = ctypes.c_char_p()
        self.call(name, handle, index, ctypes.byref(out), *more)
        assert out.value is not None
        return out.value.decode()

    def json(self, verb: bytes, text: bytes) -> Any:
        handle = self.handle("feed_json", verb, text, b"text", None)
        out = ctypes.c_char_p()
        self.call("feed_text_get", handle, ctypes.byref(out), None)
        assert out.value is not None
        answer = json.loads(out.value)
        self.lib.feed_text_free(handle)
        return answer


@pytest.fixture(scope="module")
def asked(build_dir: Path) -> Asked:
    return Asked(build_dir)


def hazards_of(bits: int) -> list[str]:
    return [name for place, name in enumerate(HAZARDS) if bits >> place & 1]


def check_of(asked: Asked, portions: list[tuple[bytes, float]]) -> int:
    """A check of the bed with a feeding, handles left to the process."""
    diary = asked.handle("feed_diary_from_text", BED, b"bed", None)
    bed = asked.handle("feed_diary_bed", diary, None)
    given = (ctypes.c_double * (2 * len(portions)))()
    for place, (words, wet_kg) in enumerate(portions):
        feedstock = ctypes.c_void_p(asked.handle("feed_feedstock_look_up", words, None))
        ctypes.memmove(ctypes.addressof(given) + 16 * place, ctypes.byref(feedstock), 8)
        given[2 * place + 1] = wet_kg
    return asked.handle("feed_check", bed, ctypes.addressof(given), len(portions), None)


def ration_of(asked: Asked, result: int) -> library.Sized:
    ration = library.Sized("feed_ration")
    asked.call("feed_check_ration", result, ration.pointer())
    return ration


def sentences(asked: Asked, result: int, name: str, count: int) -> list[str]:
    """The sentences of one list, and nothing past its end."""
    past = ctypes.c_char_p()
    code = getattr(asked.lib, name)(result, count, ctypes.byref(past), None)
    assert (code, past.value) == (5, None)  # FEED_OUT_OF_RANGE
    return [asked.sentence(name, result, index) for index in range(count)]


def structs(asked: Asked, result: int, name: str, struct: str, count: int) -> list[library.Sized]:
    """The members of one list, and nothing past its end."""
    found = []
    for index in range(count):
        one = library.Sized(struct)
        asked.call(name, result, index, one.pointer())
        found.append(one)
    past = library.Sized(struct)
    assert getattr(asked.lib, name)(result, count, past.pointer(), None) == 5
    assert past.text("label") == ""
    return found


@pytest.mark.parametrize("case", CASES, ids=list(CASES))
def test_the_ration_of_a_diary_is_the_one_in_json(asked: Asked, case: str) -> None:
    told = asked.json(b"ration", CASES[case])
    diary = asked.handle("feed_diary_from_text", CASES[case], b"bin", None)
    result = asked.handle("feed_diary_check", diary, None)
    ration = ration_of(asked, result)
    assert ANSWERS[ration.integer("answer")] == told["answer"] == case
    assert "ABCD"[ration.integer("grade")] == told["grade"]
    assert hazards_of(ration.integer("raised")) == told["raised"]
    assert ration.integer("next_look_day") == told["next_look"]["day"]
    for field, key in (
        ("next_feeding_day", "day"),
        ("next_feeding_earliest", "earliest_day"),
        ("next_feeding_latest", "latest_day"),
    ):
        expected = told["next_feeding"][key] if told["next_feeding"] else -1
        assert ration.integer(field) == expected, field
    for field, key in (
        ("scraps_wet_kg", "scraps_kg"),
        ("water_kg", "water_kg"),
        ("lime_wet_kg", "lime_kg"),
        ("week_wet_kg", "week_kg"),
        ("spread_m2", "spread_m2"),
    ):
        assert ration.double(field) == pytest.approx(told[key], rel=1e-12), field
    counts = {name: ration.count(f"{name}_count") for name in COUNTED}
    taken = structs(asked, result, "feed_check_take_out", "feed_take_out", counts["take_out"])
    keys = {"feedstock": "feedstock_id", "label": "label", "why": "why", "instead": "instead"}
    assert [{key: one.text(field) for key, field in keys.items()} for one in taken] == told[
        "take_out"
    ]
    put = structs(asked, result, "feed_check_put_in", "feed_ration_thing", counts["put_in"])
    assert [
        {
            "feedstock": one.text("feedstock_id"),
            "label": one.text("label"),
            "wet_mass_kg": pytest.approx(one.double("wet_kg"), rel=1e-12),
            "measure": one.text("measure"),
            "at_hand": bool(one.integer("at_hand")),
        }
        for one in put
    ] == told["put_in"]
    rest = structs(asked, result, "feed_check_rest", "feed_ration_thing", counts["rest"])
    assert [
        {
            "feedstock": one.text("feedstock_id"),
            "label": one.text("label"),
            "wet_mass_kg": pytest.approx(one.double("wet_kg"), rel=1e-12),
            "capped": bool(one.integer("capped")),
        }
        for one in rest
    ] == told["rest"]
    for name, function, key in (
        ("reason", "feed_check_reason", "reasons"),
        ("weigh", "feed_check_weigh", "weigh"),
        ("line", "feed_check_line", "text"),
    ):
        assert sentences(asked, result, function, counts[name]) == told[key], name


def test_the_ration_of_a_bed_and_a_feeding(asked: Asked) -> None:
    result = check_of(asked, FEEDING)
    ration = ration_of(asked, result)
    put = structs(
        asked, result, "feed_check_put_in", "feed_ration_thing", ration.count("put_in_count")
    )
    by_part = [one.integer("part") for one in put]
    assert by_part == sorted(by_part, key=[0, 1, 3, 2].index)
    scraps = sum(one.double("wet_kg") for one in put if one.integer("part") == 0)
    assert scraps == pytest.approx(ration.double("scraps_wet_kg"), rel=1e-12)
    assert scraps <= sum(wet_kg for _, wet_kg in FEEDING) + 1e-12


def test_a_bed_is_judged_without_a_feeding(asked: Asked) -> None:
    ration = ration_of(asked, check_of(asked, []))
    assert ration.integer("answer") in range(len(ANSWERS))
    assert ration.count("line_count") > 0


def test_every_hazard_has_its_level(asked: Asked) -> None:
    told = {one["hazard"]: one for one in asked.json(b"check", BED)["hazards"]}
    diary = asked.handle("feed_diary_from_text", BED, b"bin", None)
    result = asked.handle("feed_diary_check", diary, None)
    levels = ["none", "watch", "act", "unknown"]
    for place, name in enumerate(HAZARDS):
        assert levels[level_of(asked, result, place)] == told[name]["level"], name


def level_of(asked: Asked, result: int, hazard: int) -> int:
    finding = library.Sized("feed_hazard_finding")
    asked.call("feed_check_hazard", result, hazard, finding.pointer())
    return finding.integer("level")


def listed(count: str, sentence: str) -> Callable[[Asked, int], list[str]]:
    """A reader of one list of sentences."""
    return lambda asked, handle: [
        asked.sentence(sentence, handle, index) for index in range(asked.count(count, handle))
    ]


def test_what_a_check_took_for_granted(asked: Asked) -> None:
    told = asked.json(b"check", BED)["assumed"]
    result = check_of(asked, FEEDING)
    said = listed("feed_check_assumption_count", "feed_check_assumption")(asked, result)
    assert said
    assert [one for one in said if one not in told] == []


def test_advice_where_targets_cannot_be_met(asked: Asked) -> None:
    problem = asked.handle("feed_problem_create", None)
    for words, wet_kg in ((b"coffee grounds", 2.0), (b"melon", 1.0), (b"newspaper", 0.01)):
        entry = library.Sized("feed_entry")
        feedstock = asked.handle("feed_feedstock_look_up", words, None)
        entry.set("feedstock", ctypes.c_void_p(feedstock))
        for field, number in (
            ("least_wet_kg", wet_kg),
            ("most_wet_kg", wet_kg),
            ("cost_per_wet_kg", float("nan")),
            ("usual_wet_kg", float("nan")),
        ):
            entry.set(field, ctypes.c_double(number))
        asked.call("feed_problem_add_entry", problem, entry.pointer())
    asked.call("feed_problem_use_target_set", problem, 0)
    answer = asked.handle("feed_balance", problem, None)
    said = listed("feed_answer_advice_count", "feed_answer_advice")(asked, answer)
    told = asked.json(b"balance", BALANCE)
    assert told["status"] == "infeasible"
    assert said == told["advice"]
    assert said


def test_targets_are_those_of_a_worm_bed_until_others_are_said(asked: Asked) -> None:
    """The same in every language; a target of one's own goes in place of the set's."""
    feedstocks = [
        asked.handle("feed_feedstock_look_up", words, None)
        for words in (b"coffee grounds", b"shredded cardboard", b"water")
    ]

    def reached(target_set: int | None, own_high: float | None = None) -> list[tuple[int, float]]:
        problem = asked.handle("feed_problem_create", None)
        for feedstock, least, most in zip(
            feedstocks, (1.0, 0.0, 0.0), (1.0, NAN, NAN), strict=True
        ):
            entry = library.Sized("feed_entry")
            entry.set("feedstock", ctypes.c_void_p(feedstock))
            for field, number in (
                ("least_wet_kg", least),
                ("most_wet_kg", most),
                ("cost_per_wet_kg", NAN),
                ("usual_wet_kg", NAN),
            ):
                entry.set(field, ctypes.c_double(number))
            asked.call("feed_problem_add_entry", problem, entry.pointer())
        if target_set is not None:
            asked.call("feed_problem_use_target_set", problem, target_set)
        if own_high is not None:
            target = library.Sized("feed_target")  # of C:N
            for field, number in (("low", NAN), ("high", own_high), ("aim", NAN)):
                target.set(field, ctypes.c_double(number))
            asked.call("feed_problem_set_target", problem, target.pointer())
        answer = asked.handle("feed_balance", problem, None)
        summary = library.Sized("feed_answer_summary")
        asked.call("feed_answer_describe", answer, summary.pointer())
        found = []
        for index in range(summary.count("reached_count")):
            one = library.Sized("feed_reached")
            asked.call("feed_answer_reached", answer, index, one.pointer())
            found.append((one.integer("property"), one.double("high")))
        return found

    worm_bed = reached(0)
    assert len(worm_bed) > 2
    assert str(reached(None)) == str(worm_bed)
    assert str(reached(1)) != str(worm_bed)
    mine = dict(reached(None, 40.0))
    assert mine[0] == 40.0 and set(mine) == set(dict(worm_bed))
    assert reached(2, 40.0) == [(0, 40.0)]
