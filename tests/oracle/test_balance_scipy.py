"""Random balances from the table, checked against SciPy on independently stated problems."""

from __future__ import annotations

import json
import os
import subprocess
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from balance_reference import Outcome, Reference, Vector, is_water, part
from scipy.optimize import minimize

COUNT = int(os.environ.get("FEED_ORACLE_PROBLEMS", "2000"))


TARGETS = 10  # every property that a target can be of


@pytest.fixture(scope="module")
def problems(build_dir: Path) -> list[dict[str, Any]]:
    """Problems with the library's answers."""
    program = build_dir / "tests" / "oracle" / "oracle_balance_problems"
    out = subprocess.run([program, str(COUNT)], check=True, capture_output=True, text=True)
    return [json.loads(line) for line in out.stdout.splitlines()]


def linear_objective(reference: Reference) -> Vector:
    """What a linear objective minimises, for one wet kilogram of each entry."""
    match reference.problem["objective"]:
        case "cheapest":
            return np.array([e["cost"] for e in reference.entries])
        case _:
            return np.ones(len(reference.entries))


def held_inside(problem: dict[str, Any], target: dict[str, Any]) -> bool:
    """Whether the answer says that a target is met. Water is not held to the least where the usual
    recipe says what is poured, or where there is none to pour."""
    if target["property"] == "water_over_least" and (
        problem["objective"] == "closest_to_usual"
        or not any(is_water(e) for e in problem["entries"])
    ):
        return True

    # Nothing at all keeps every ratio, and has none to tell; nor have water and wood ash a
    # C:N, nor anything without scraps a share of bedding.
    def counts(entry: dict[str, Any]) -> bool:
        if target["property"] == "bedding_l_per_scraps_l":
            return part(entry) == "scraps"
        return target["property"] != "cn_ratio" or bool(entry["carbon"] or entry["nitrogen"])

    fed = [
        kg for kg, entry in zip(problem["wet_kg"], problem["entries"], strict=True) if counts(entry)
    ]
    return bool(target["inside"]) or not any(fed)


def usual_cost(reference: Reference) -> tuple[Vector, Vector]:
    """Weights and centres of the separable quadratic objective, in units of the scale."""
    entries = reference.entries
    fixed = [e for e in entries if e["usual"] and e["most"] == e["least"]]
    today = sum(e["least"] for e in fixed)
    usually = sum(e["usual"] for e in fixed)
    factor = today / usually if today > 0 and usually > 0 else 1.0
    centre = np.array([(e["usual"] or 0.0) * factor for e in entries]) / reference.scale
    smallest = centre[centre > 0].min()
    unit = np.where(centre > 0, centre, smallest)
    return 1.0 / unit**2, centre


def oracle_status(reference: Reference) -> str:
    """Can the targets be met at all?"""
    return reference.solve(np.zeros(len(reference.entries))).status


def check_answer(reference: Reference, problem: dict[str, Any]) -> None:
    """The answer keeps every amount and window and is as good as the oracle's."""
    x = np.array(problem["wet_kg"]) / reference.scale
    for value, (low, high) in zip(x, reference.bounds(), strict=True):
        assert value >= low - 1e-9 and (high is None or value <= high + 1e-9)
    rows = reference.windows()
    for row, limit in zip(rows.matrix, rows.limits, strict=True):
        assert row @ x - limit <= 2e-9 * (np.abs(row) @ np.abs(x) + abs(limit))
    rows, status = reference.held_priorities(rows)
    assert status == "solved"
    rows, status = reference.held_water(rows)
    assert status == "solved"
    for row, limit in zip(rows.matrix, rows.limits, strict=True):
        assert row @ x - limit <= 1e-7 * (np.abs(row) @ np.abs(x) + abs(limit) + 1e-2)
    match problem["objective"]:
        case "closest_to_aims":
            reached = max(reference.largest_deviation(x), 0.0)
            assert reached == pytest.approx(problem["largest_deviation"], abs=1e-7)
            # No blend does better by one part in a hundred thousand.
            better = reached - max(1e-5 * reached, 1e-6)
            assert better < 0 or not reference.can_deviate_by(better, rows)
            assert reference.can_deviate_by(reached + 1e-6 * max(1.0, reached), rows)
        case "closest_to_usual":
            check_usual(reference, x, rows)
        case "use_up_most":
            pass  # the last of what is held above
        case _:
            objective = linear_objective(reference)
            best = reference.solve(objective, rows)
            assert best.status == "solved"
            assert objective @ x == pytest.approx(best.objective, rel=1e-6, abs=1e-7)


def check_usual(reference: Reference, x: Vector, rows: Any) -> None:
    """SLSQP, started at the answer and at its own feasible point, finds nothing better."""
    weight, centre = usual_cost(reference)

    def cost(z: Vector) -> float:
        return float(0.5 * weight @ (z - centre) ** 2)

    matrix = np.array(rows.matrix)
    limits = np.array(rows.limits)
    sizes = np.maximum(np.abs(matrix).max(axis=1), 1e-12)
    result = minimize(
        cost,
        x,
        jac=lambda z: weight * (z - centre),
        bounds=reference.bounds(),
        constraints=[
            {
                "type": "ineq",
                "fun": lambda z: (limits - matrix @ z) / sizes,
                "jac": lambda _: -matrix / sizes[:, None],
            }
        ],
        method="SLSQP",
        options={"ftol": 1e-14, "maxiter": 500},
    )
    if result.success:
        assert cost(x) <= result.fun * (1 + 1e-6) + 1e-9


def check_conflict(reference: Reference, problem: dict[str, Any]) -> None:
    """The named entries and targets cannot be met together; without any one of them they can."""
    named = set(problem["conflict"])
    assert named
    everything = {e["label"] for e in reference.entries} | {
        t["property"] for t in reference.targets
    }

    def status_without(skipped: set[str]) -> str:
        return reference.solve(
            np.zeros(len(reference.entries)),
            reference.windows(skipped),
            reference.bounds(skipped),
        ).status

    assert status_without(everything - named) == "infeasible"
    for one in named:
        assert status_without((everything - named) | {one}) == "solved"


def check_mend(reference: Reference, problem: dict[str, Any]) -> None:
    """Adding the mend lets all targets be met; a hundredth less does not."""
    mend = problem["mend"]
    if mend is None:
        return
    listed = [e for e in reference.entries if e["label"] == mend["label"]]
    if not listed:
        return
    more = dict(problem)
    extra = {**listed[0], "label": "extra", "least": 0.0, "most": None, "priority": 0}
    more["entries"] = [*problem["entries"], extra]
    with_extra = Reference(more)
    only_extra = np.zeros(len(more["entries"]))
    only_extra[-1] = 1.0
    least: Outcome = with_extra.solve(only_extra)
    assert least.status == "solved"
    assert least.objective * with_extra.scale == pytest.approx(
        mend["add_kg"], rel=1e-6, abs=1e-8 * with_extra.scale
    )


def test_balances_agree_with_scipy(problems: list[dict[str, Any]]) -> None:
    seen: Counter[tuple[str, str]] = Counter()
    met: Counter[str] = Counter()
    for number, problem in enumerate(problems):
        reference = Reference(problem)
        seen[problem["objective"], problem["status"]] += 1
        oracle = oracle_status(reference)
        try:
            assert problem["status"] != "failed"
            if problem["status"] == "infeasible":
                assert oracle == "infeasible"
                check_conflict(reference, problem)
                check_mend(reference, problem)
            elif problem["status"] == "solved":
                assert oracle == "solved"
                assert all(held_inside(problem, t) for t in problem["targets"])
                check_answer(reference, problem)
                met.update(t["property"] for t in problem["targets"])
            else:
                assert oracle == "solved"
                assert problem["unbounded_entry"]
        except AssertionError as error:
            raise AssertionError(f"problem {number}: {json.dumps(problem)}") from error
    # The random problems are worth nothing if a kind of answer never occurs.
    for objective in ("closest_to_aims", "closest_to_usual", "least_added", "cheapest"):
        assert seen[objective, "solved"] >= COUNT // 40
        assert seen[objective, "infeasible"] >= COUNT // 40
    assert len(met) == TARGETS
    assert min(met.values()) >= COUNT // 60
    assert sum(n for (_, status), n in seen.items() if status == "unbounded") >= COUNT // 400
