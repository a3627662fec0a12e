"""Trials from Python: the plan, the reading, and what they show."""

from __future__ import annotations

import pytest

import libfeed

HEAD = "libfeed: 1\ntrial: {feeds: [watermelon rind, pumpkin], bins: 6, seed: 7"


def plan() -> libfeed.TrialPlan:
    return libfeed.plan_trial(libfeed.read_feed_text(HEAD + "}\n"))


def watched(until: int) -> libfeed.TrialReading:
    """Invented looks every third day: the rind is gone on day 9, the pumpkin on day 18."""
    key = {plot["plot"]: plot["feed"] for plot in plan().to_dict()["plots"]}
    text = HEAD + ", last_day: 24, start: 2026-09-01}\nobservations:\n"
    for day in range(3, until + 1, 3):
        text += f"  - date: 2026-09-{day + 1:02d}\n    plots:\n"
        for plot, feed in key.items():
            gone = day >= (9 if feed == "watermelon rind" else 18)
            text += f"      - plot {plot} {'gone' if gone else 'not gone'}\n"
    return libfeed.read_trial(libfeed.read_feed_text(text))


def test_a_plan_says_places_days_and_power() -> None:
    made = plan()
    assert made.seed == 7
    assert made.smallest_p == pytest.approx(2 / 64)  # of 2^6 arrangements
    said = made.to_dict()
    assert len(said["plots"]) == 12
    assert len(said["power"]) == 9
    assert said["look_days"] == made.look_days
    assert "With this you can" in made.text
    assert "the key" in made.sheet_html(paper="letter")
    again = libfeed.plan_trial(libfeed.read_feed_text(made.to_yaml()))
    assert again.to_dict()["plots"] == said["plots"]
    with pytest.raises(libfeed.FeedValueError):
        made.sheet_html(paper="a3")


def test_a_reading_is_clear_only_at_the_planned_end() -> None:
    early = watched(12)
    assert not early.ended
    assert early.to_dict()["pairs"][0]["verdict"] != "clear"
    whole = watched(24)
    assert whole.p == pytest.approx(2 / 64)
    assert whole.to_dict()["pairs"][0]["verdict"] == "clear"
    assert "Clear: watermelon rind is gone before pumpkin" in whole.text
    assert whole.to_svg().startswith("<svg")


def test_tables_and_notebooks() -> None:
    pytest.importorskip("pandas")
    table = libfeed.to_pandas(watched(24))
    assert list(table.index) == list(range(1, 13))
    assert set(table["gone_by_days"]) == {9.0, 18.0}
    assert len(libfeed.to_pandas(plan())) == 12
    assert "Clear" in watched(24)._repr_html_()
    assert "seed 7" in plan()._repr_html_()


def test_a_file_without_a_trial_or_its_seed_is_refused() -> None:
    bare = libfeed.read_feed_text("libfeed: 1\nblend: [100 g carrot]\n")
    with pytest.raises(libfeed.FeedError, match="trial"):
        libfeed.plan_trial(bare)
    unseeded = libfeed.read_feed_text("libfeed: 1\ntrial: {feeds: [pumpkin, carrot], bins: 3}\n")
    with pytest.raises(libfeed.FeedError, match="seed"):
        libfeed.read_trial(unseeded)
