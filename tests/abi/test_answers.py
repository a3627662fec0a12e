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
  at_hand: [2 kg coffee grounds, 1 kg melon]
  targets: {set: worm-bed}
"""
FEEDING = [(b"bread", 0.3), (b"lemon", 0.2)]
HAZARDS = [
    "sour", "wet", "dry", "hot", "ammonia", "salty", "overfed", "underfed", "airless", "greasy"
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


def test_steps_against_all_hazards_at_once(asked: Asked) -> None:
    told = asked.json(b"check", BED)
    together = told["together"]
    assert together is not None
    assert together["add"], "the case is to need something added"
    result = check_of(asked, FEEDING)
    steps = library.Sized("feed_joint_steps")
    asked.call("feed_check_joint_steps", result, steps.pointer())
    assert steps.integer("needed") == 1
    assert bool(steps.integer("found")) == together["found"]
    assert steps.text("text") == together["text"]
    assert steps.text("cut_down") == together["cut_down"]
    for field, key in (
        ("share_now", "share_now"),
        ("feed_now_wet_kg", "feed_now_kg"),
        ("feed_later_wet_kg", "feed_later_kg"),
        ("later_days", "later_days"),
        ("spread_m2", "spread_m2"),
        ("keep_wet_kg", "keep_kg"),
    ):
        assert steps.double(field) == pytest.approx(together[key], rel=1e-12), field
    for field in ("clears", "stays"):
        assert hazards_of(steps.integer(field)) == together[field]
    added = []
    for index in range(len(together["add"])):
        wet_kg = ctypes.c_double()
        name = asked.sentence("feed_check_joint_addition", result, index, ctypes.byref(wet_kg))
        added.append({"feedstock": name, "add_kg": pytest.approx(wet_kg.value, rel=1e-12)})
    assert together["add"] == added
    past = ctypes.c_char_p()
    number = ctypes.c_double()
    code = asked.lib.feed_check_joint_addition(
        result, len(added), ctypes.byref(past), ctypes.byref(number), None
    )
    assert (code, past.value) == (5, None)  # FEED_OUT_OF_RANGE


def test_nothing_is_joined_where_nothing_is_raised(asked: Asked) -> None:
    result = check_of(asked, [(b"shredded cardboard", 0.05)])
    steps = library.Sized("feed_joint_steps")
    asked.call("feed_check_joint_steps", result, steps.pointer())
    raised = [
        finding for finding in range(len(HAZARDS)) if level_of(asked, result, finding) in (1, 2)
    ]
    assert steps.integer("needed") == (1 if len(raised) > 1 else 0)


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
    for words, wet_kg in ((b"coffee grounds", 2.0), (b"melon", 1.0)):
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
