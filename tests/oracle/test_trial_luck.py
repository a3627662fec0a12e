"""Chances by luck against counting every layout that the seed of a trial could have drawn."""

from __future__ import annotations

import itertools
import json
import math
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy import stats


@pytest.fixture(scope="module")
def cases(build_dir: Path) -> list[dict[str, Any]]:
    """Five hundred invented trials with the library's answers."""
    program = build_dir / "tests" / "oracle" / "oracle_trial_cases"
    out = subprocess.run([program, "luck", "500"], check=True, capture_output=True, text=True)
    return [json.loads(line) for line in out.stdout.splitlines()]


def distinct_orders(entries: list[int]) -> list[tuple[int, ...]]:
    return sorted(set(itertools.permutations(entries)))


def layouts_of(case: dict[str, Any]) -> np.ndarray:
    """Every layout the rules of the plan allow: a row each, the feed of every plot."""
    plots = case["plots"]
    if case["kind"] == "choice":
        blocks: dict[tuple[int, int], list[int]] = {}
        for at, plot in enumerate(plots):
            blocks.setdefault((plot[1], plot[0]), []).append(at)
        # The blank stays: it is no feed.
        parts = []
        for places in blocks.values():
            held = [at for at in places if plots[at][2] >= 0]
            parts.append((held, distinct_orders([plots[at][2] for at in held])))
        rows = []
        for choice in itertools.product(*(orders for _, orders in parts)):
            row = [-1] * len(plots)
            for (held, _), order in zip(parts, choice, strict=True):
                for at, feed in zip(held, order, strict=True):
                    row[at] = feed
            rows.append(row)
        return np.array(rows)
    orders = list(itertools.permutations(range(case["feeds"])))
    least, more = divmod(case["bins"], len(orders))
    rows = []
    for dealt in itertools.product(range(len(orders)), repeat=case["bins"]):
        counts = [dealt.count(card) for card in range(len(orders))]
        if min(counts) < least or max(counts) > least + (1 if more else 0):
            continue
        row = [0] * len(plots)
        for at, plot in enumerate(plots):
            row[at] = orders[dealt[plot[0]]][plot[1]]
        rows.append(row)
    return np.array(rows)


def freed_of_levels(case: dict[str, Any], chosen: list[int], scores: np.ndarray) -> np.ndarray:
    """Residuals of a least-squares fit of the level of each bin and round."""
    alone = case["kind"] == "alone"
    names: dict[Any, int] = {}
    rows = []
    for at in chosen:
        bin_, round_ = case["plots"][at][:2]
        keys = [("bin", bin_), ("round", round_)] if alone else [("block", bin_, round_)]
        rows.append([names.setdefault(key, len(names)) for key in keys])
    design = np.zeros((len(chosen), len(names)))
    for row, marks in enumerate(rows):
        design[row, marks] = 1.0
    fitted = design @ np.linalg.lstsq(design, scores[chosen], rcond=None)[0]
    return np.asarray(scores[chosen] - fitted)


def chance(case: dict[str, Any], layouts: np.ndarray, alike: tuple[int, ...]) -> float:
    """Share of the layouts, the feeds that have no twin staying, at least as far apart."""
    plots = case["plots"]
    drawn = np.array([plot[2] for plot in plots])
    group = np.array([*alike, -1])
    fits = (group[layouts] == group[drawn]).all(axis=1)
    scores = np.array([np.nan if plot[5] is None else plot[5] for plot in plots])
    freed = np.zeros(len(plots))
    twins = [feed for feed in range(case["feeds"]) if alike.count(alike[feed]) > 1]
    for number in {alike[feed] for feed in twins}:
        chosen = [
            at
            for at in range(len(plots))
            if drawn[at] >= 0 and alike[drawn[at]] == number and not math.isnan(scores[at])
        ]
        if chosen:
            freed[chosen] = freed_of_levels(case, chosen, scores)
    spread = np.zeros(fits.sum())
    seen = 0.0
    for feed in twins:
        spread += ((layouts[fits] == feed) @ freed) ** 2
        seen += float((drawn == feed) @ freed) ** 2
    return float((spread >= seen - 1e-9 * (seen + 1e-6)).mean())


def hypotheses(feeds: int) -> list[tuple[int, ...]]:
    """Partitions of the feeds but the one in which all stand alone, as restricted growth."""
    found = []
    for numbers in itertools.product(range(feeds), repeat=feeds):
        tops = [max((-1, *numbers[:i])) for i in range(feeds)]
        grows = all(number <= top + 1 for number, top in zip(numbers, tops, strict=True))
        if grows and len(set(numbers)) < feeds:
            found.append(numbers)
    return found


def test_luck_is_counted(cases: list[dict[str, Any]]) -> None:
    """Overall and by pairs, to 1e-12; ties, blanks and lost plots are among the cases."""
    assert len(cases) == 500
    ties = 0
    kinds = set()
    for case in cases:
        layouts = layouts_of(case)
        assert len(layouts) == case["arrangements"]
        kinds.add((case["kind"], case["feeds"]))
        known = [plot[5] for plot in case["plots"] if plot[5] is not None]
        ties += len(set(known)) < len(known)
        p = {alike: chance(case, layouts, alike) for alike in hypotheses(case["feeds"])}
        overall = p[(0,) * case["feeds"]]
        assert case["p"] == pytest.approx(overall, abs=1e-12)
        pairs = itertools.combinations(range(case["feeds"]), 2)
        for (first, second), ours in zip(pairs, case["pairs"], strict=True):
            closed = max(one for alike, one in p.items() if alike[first] == alike[second])
            assert ours == pytest.approx(closed, abs=1e-12)
        # Nothing is below what the plan said to be the smallest.
        assert overall >= case["smallest"] - 1e-12
    assert ties > 400
    assert {("alone", 2), ("alone", 3), ("choice", 2), ("choice", 3), ("choice", 4)} <= kinds


def test_two_feeds_are_as_in_scipy(cases: list[dict[str, Any]]) -> None:
    """Pairs and single bins, every way counted by scipy.stats.permutation_test."""

    def apart(a: np.ndarray, b: np.ndarray, axis: int = -1) -> np.ndarray:
        # Rounded, so that sums of the same addends in another order tie.
        return np.asarray(np.round(np.abs(a.mean(axis=axis) - b.mean(axis=axis)), 12))

    judged = set()
    for case in cases:
        known = [plot for plot in case["plots"] if plot[2] >= 0]
        if case["kind"] != "choice" or case["feeds"] != 2 or any(p[5] is None for p in known):
            continue
        blocks = {(plot[1], plot[0]) for plot in known}
        known.sort(key=lambda plot: (plot[1], plot[0]))
        sides = [[p[5] for p in known if p[2] == feed] for feed in (0, 1)]
        if len(sides[0]) < 2:
            continue
        if len(blocks) == len(sides[0]):
            kind = "samples"
        elif len(blocks) == 1:
            kind = "independent"
        else:
            continue
        theirs = stats.permutation_test(
            sides, apart, permutation_type=kind, n_resamples=np.inf,
            alternative="greater", vectorized=True,
        )  # fmt: skip
        assert case["p"] == pytest.approx(theirs.pvalue, abs=1e-12)
        judged.add(kind)
    assert judged == {"samples", "independent"}
