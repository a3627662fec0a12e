"""The forecast against SciPy's solve_ivp on the same equations (forecast_reference.py)."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest
from forecast_reference import WARM, Bed, flat


@pytest.fixture(scope="module")
def traces(build_dir: Path) -> list[dict[str, Any]]:
    """Scenarios with the library's answers."""
    program = build_dir / "tests" / "oracle" / "oracle_forecast_trace"
    out = subprocess.run([program], check=True, capture_output=True, text=True)
    return [json.loads(line) for line in out.stdout.splitlines()]


def test_every_scenario_agrees_with_solve_ivp(traces: list[dict[str, Any]]) -> None:
    """Every number of every day, to 1e-7 of the largest value it takes.

    Heat has no closed step: pocket and bed are held to half a degree and a quarter of the
    warming (a small pocket settles within one of our steps), and each day starts from ours.
    """
    assert len(traces) >= 9
    worst = 0.0
    for trace in traces:
        bed = Bed(trace)
        largest = {key: abs(value) for key, value in flat(trace["start"]).items()}
        for after in trace["after"]:
            for key, value in flat(after).items():
                largest[key] = max(largest[key], abs(value))
        for i, after in enumerate(trace["after"]):
            if i == trace["feed_on_step"]:
                bed.feed(trace["fed"])
            bed.step()
            theirs = flat(bed.now)
            for key in WARM:
                near = 0.05 * max(largest[key], 1e-9)
                if key.endswith("_c"):
                    near = 0.5 + 0.25 * abs(after[key] - trace["air_c"])
                assert abs(after[key] - theirs[key]) < near, (
                    f"{trace['name']}, step {i}, {key}: {after[key]} {theirs[key]}"
                )
                bed.now[key] = after[key]
            for key, ours in flat(after).items():
                if key in WARM:
                    continue
                # Lime is used up to nothing; there its start is the scale.
                error = abs(ours - theirs[key]) / max(largest[key], 1e-9)
                worst = max(worst, error)
                assert error < 1e-7, f"{trace['name']}, step {i}, {key}: {ours} {theirs[key]}"
    print(f"largest relative difference {worst:.1e}")
    assert worst > 0.0


def test_scenarios_reach_what_they_are_named_for(traces: list[dict[str, Any]]) -> None:
    """The branches under test are really taken."""
    by_name = {trace["name"]: trace for trace in traces}
    assert by_name["draining"]["after"][5]["drained"] > 1.0
    limed = by_name["limed"]
    assert limed["after"][-1]["lime"] < 0.5 * limed["start"]["lime"]
    assert by_name["warm_alkaline"]["after"][-1]["nitrogen_lost"] > 1e-4
    parched = by_name["parched"]
    assert parched["after"][-1]["bed_water"] < 0.3 * parched["start"]["bed_water"]
    eaten = by_name["few_worms"]["after"][2]["pools"][0]["organic"] / 0.5
    free = by_name["tote"]["after"][2]["pools"][0]["organic"] / 0.10
    assert eaten > 1.1 * free
