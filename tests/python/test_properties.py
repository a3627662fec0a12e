"""What must hold for any portions, amounts and beds."""

from __future__ import annotations

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

import libfeed

IDS = [one.id for one in libfeed.feedstocks()]
masses = st.floats(1e-3, 1e3, allow_nan=False)
portions = st.lists(st.tuples(st.sampled_from(IDS), masses), min_size=1, max_size=8)
relaxed = settings(max_examples=60, deadline=None)


def made(parts: list[tuple[str, float]]) -> libfeed.Blend:
    return libfeed.blend([libfeed.Portion(name, wet_kg=wet_kg) for name, wet_kg in parts])


@relaxed
@given(portions)
def test_ranges_hold_their_values(parts: list[tuple[str, float]]) -> None:
    blend = made(parts)
    assert math.isclose(blend.wet_mass_kg, sum(wet_kg for _, wet_kg in parts), rel_tol=1e-12)
    for key in libfeed.blend_many([parts[0][0]], np.ones((1, 1))).quantities:
        estimate = blend[key]
        if estimate.is_known:
            assert estimate.value is not None
            assert estimate.low is not None
            assert estimate.high is not None
            assert estimate.low <= estimate.value <= estimate.high
        elif estimate.at_least is None:
            assert key in blend.unknown


@relaxed
@given(portions, st.floats(0.01, 100))
def test_ratios_do_not_depend_on_the_amount(parts: list[tuple[str, float]], factor: float) -> None:
    one = made(parts)
    other = made([(name, factor * wet_kg) for name, wet_kg in parts])
    for key in ("moisture", "cn_ratio", "bulk_density_kg_m3"):
        if one[key].is_known:
            assert math.isclose(float(one[key]), float(other[key]), rel_tol=1e-9, abs_tol=1e-12)


@relaxed
@given(portions)
def test_the_json_text_says_the_same(parts: list[tuple[str, float]]) -> None:
    blend = made(parts)
    told = blend.to_dict()
    assert told["wet_mass_kg"] == blend.wet_mass_kg
    if blend.moisture.is_known:
        assert told["moisture"]["value"] == blend.moisture.value
    assert told["unknown"] == blend.unknown


@relaxed
@given(st.sampled_from(IDS))
def test_every_feedstock_is_found_by_its_id_and_name(name: str) -> None:
    found = libfeed.feedstock(name)
    assert found.id == name
    assert found == libfeed.feedstock(name)
    assert libfeed.feedstock(found.name).id == name


@relaxed
@given(st.floats(0.05, 50), st.floats(0.05, 5))
def test_a_solved_balance_keeps_its_windows(scraps_kg: float, coffee_kg: float) -> None:
    answer = libfeed.balance(
        [
            libfeed.Entry("kitchen scraps", wet_kg=scraps_kg),
            libfeed.Entry("coffee grounds", most_wet_kg=coffee_kg),
            "cardboard",
            "water",
        ]
    )
    assert answer.status == "solved"
    assert answer.wet_kg["kitchen scraps"] == scraps_kg
    assert answer.wet_kg["coffee grounds"] <= coffee_kg
    for reached in answer.reached.values():
        assert reached.inside
        target, value = reached.target, reached.quantity.value
        if value is not None and target.key in ("moisture", "cn_ratio"):
            assert target.low is not None
            assert target.low * (1 - 1e-9) <= value
            assert target.high is None or value <= target.high * (1 + 1e-9)


@relaxed
@given(st.text(max_size=40))
def test_any_words_give_an_answer_or_a_named_error(words: str) -> None:
    for call in (libfeed.look_up, libfeed.portion, libfeed.read_feed_text):
        try:
            call(words)
        except libfeed.FeedError as error:
            assert error.errors[0].message


@relaxed
@given(portions, st.sampled_from(["tray", "tote", "flow-through"]))
def test_a_check_judges_every_hazard(parts: list[tuple[str, float]], container: str) -> None:
    feeding = [libfeed.Portion(name, wet_kg=wet_kg) for name, wet_kg in parts]
    result = libfeed.check(libfeed.Bed(container=container), feeding)
    assert len(result.hazards) == 11
    for finding in result.hazards.values():
        assert finding.level in ("none", "watch", "act", "unknown")
        assert finding.why
    put_in = {one.feedstock for one in result.ration.put_in}
    assert not put_in & {one.feedstock for one in result.ration.take_out}
