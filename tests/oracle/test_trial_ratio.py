"""The ratio of two feeds against long chains (data augmentation) on the same looks and prior."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
from scipy.special import log_ndtr, ndtr, ndtri

# The long form has an error of its own of at most 0.0008; the short one is allowed twice its own.
LONG = os.environ.get("FEED_TRIAL_CHAINS") == "long"
CHAINS = 200 if LONG else 100
# In the short form: both kinds, two to four feeds, few portions and many, one that is skewed.
SHORT = (0, 2, 3, 4, 6, 9, 19)
BURNT = 400
KEPT = 3200


def between(rng: np.random.Generator, low: np.ndarray, high: np.ndarray) -> np.ndarray:
    """Standard normal numbers in (low, high], by inversion on the side that has digits."""
    turned = low + high > 0
    from_ = np.where(turned, -high, low)
    to = np.where(turned, -low, high)
    below = ndtr(from_)
    drawn = ndtri(below + rng.random(low.shape) * (ndtr(to) - below))
    drawn = np.clip(drawn, from_, to)
    return np.asarray(np.where(turned, -drawn, drawn))


def chain(case: dict[str, Any], rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Draws of the feeds' effects and of the spread."""
    ratio_sd, spread_median, spread_sd, level, level_sd, round_sd = case["prior"]
    alone = case["kind"] == "alone"
    feeds = case["feeds"]
    blocks = case["bins"] * (1 if alone else case["rounds"])
    rounds = case["rounds"] - 1 if alone else 0
    rows = []
    low = []
    high = []
    for bin_, round_, feed, after, by, score in case["plots"]:
        if feed < 0 or score is None:
            continue
        row = np.zeros(feeds + blocks + rounds)
        row[feed] = 1.0
        row[feeds + (bin_ if alone else round_ * case["bins"] + bin_)] = 1.0
        if alone and round_ > 0:
            row[feeds + blocks + round_ - 1] = 1.0
        rows.append(row)
        low.append(np.log(after) if after > 0 else -np.inf)
        high.append(np.log(by) if by is not None else np.inf)
    design = np.array(rows)
    edges = np.array(low), np.array(high)
    prior_mean = np.r_[np.zeros(feeds), np.full(blocks, np.log(level)), np.zeros(rounds)]
    prior_sd = np.r_[
        np.full(feeds, ratio_sd / np.sqrt(2.0)),
        np.full(blocks, level_sd),
        np.full(rounds, round_sd),
    ]
    effects = np.tile(prior_mean, (CHAINS, 1)) + 0.1 * rng.standard_normal((CHAINS, len(prior_sd)))
    log_spread = np.full(CHAINS, np.log(spread_median))
    # One eigen decomposition serves every spread: the prior is made round first.
    scaled = design * prior_sd
    values, vectors = np.linalg.eigh(scaled.T @ scaled)

    def likelihood(log_s: np.ndarray, mean: np.ndarray) -> np.ndarray:
        s = np.exp(log_s)[:, None]
        a, b = (edges[0] - mean) / s, (edges[1] - mean) / s
        turned = a + b > 0
        from_, to = np.where(turned, -b, a), np.where(turned, -a, b)
        top = log_ndtr(to)
        inside = top + np.log1p(-np.exp(np.minimum(log_ndtr(from_) - top, -1e-300)))
        prior = -0.5 * ((log_s - np.log(spread_median)) / spread_sd) ** 2
        return np.asarray(inside.sum(axis=1) + prior)

    kept_effects = np.empty((KEPT, CHAINS, feeds))
    kept_spread = np.empty((KEPT, CHAINS))
    for step in range(BURNT + KEPT):
        mean = effects @ design.T
        # The spread with the latent times integrated out mixes better than given them.
        for _ in range(2):
            tried = log_spread + 0.5 * rng.standard_normal(CHAINS)
            better = likelihood(tried, mean) - likelihood(log_spread, mean)
            log_spread = np.where(np.log(rng.random(CHAINS)) < better, tried, log_spread)
        s = np.exp(log_spread)[:, None]
        times = mean + s * between(rng, (edges[0] - mean) / s, (edges[1] - mean) / s)
        precision = 1.0 + values / s**2
        toward = ((times - design @ prior_mean) / s**2) @ scaled @ vectors
        drawn = toward / precision + rng.standard_normal(precision.shape) / np.sqrt(precision)
        effects = prior_mean + (drawn @ vectors.T) * prior_sd
        if step >= BURNT:
            kept_effects[step - BURNT] = effects[:, :feeds]
            kept_spread[step - BURNT] = log_spread
    return kept_effects, np.exp(kept_spread)


def test_ratios_against_chains(build_dir: Path) -> None:
    """Ends of the 90 % interval within 5 % of the ratio, surety within 0.01; of twenty trials."""
    program = build_dir / "tests" / "oracle" / "oracle_trial_cases"
    out = subprocess.run([program, "ratio", "20"], check=True, capture_output=True, text=True)
    cases = [json.loads(line) for line in out.stdout.splitlines()]
    assert len(cases) == 20
    worst_end = worst_surety = 0.0
    for number, case in enumerate(cases):
        if not LONG and number not in SHORT:
            continue
        effects, spread = chain(case, np.random.default_rng(number))
        for first, second, middle, low, high, surety, goes_first in case["ratios"]:
            difference = effects[:, :, first] - effects[:, :, second]
            theirs = np.quantile(difference, [0.5, 0.05, 0.95])
            off = np.abs(np.log([middle, low, high]) - theirs).max()
            their_surety = (difference < 0).mean()
            their_next = ndtr(-difference / (np.sqrt(2.0) * spread)).mean()
            off_surety = max(abs(surety - their_surety), abs(goes_first - their_next))
            own_error = (difference < 0).mean(axis=0).std(ddof=1) / np.sqrt(CHAINS)
            worst_end = max(worst_end, off)
            worst_surety = max(worst_surety, off_surety)
            said = f"trial {number}, feeds {first} and {second}"
            assert off < 0.05, f"{said}: {np.log([middle, low, high])} and {theirs}"
            allowed = 0.01 if LONG else 0.01 + 2.0 * own_error
            assert off_surety < allowed, f"{said}: {surety} and {their_surety}"
    print(f"ends off by at most {worst_end:.3f}, surety by {worst_surety:.4f}")
