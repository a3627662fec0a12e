"""The solver against SciPy: HiGHS for linear problems, SLSQP for curved ones.

Both work with absolute tolerances, so each problem is first written in units in which its rows and
variables are near one. SciPy never sees the solver's point. Where SLSQP stops without claiming
success its point proves nothing, so only its successes are compared, and most must be successes.
"""

from __future__ import annotations

import json
import subprocess
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import linprog, minimize

Vector = NDArray[np.float64]


class Problem:
    """A generated problem with the library's answer."""

    def __init__(self, record: dict[str, Any]) -> None:
        self.name = f"{record['index']} ({record['kind']})"
        self.status: str = record["status"]
        self.objective: float = record["objective"]
        self.hessian = np.array(record["hessian"], dtype=np.float64)
        self.gradient = np.array(record["gradient"], dtype=np.float64)
        self.lower = np.array(record["lower"], dtype=np.float64)
        self.upper = np.array(record["upper"], dtype=np.float64)
        n = len(self.lower)
        self.row_lower = np.array(record["row_lower"], dtype=np.float64)
        self.row_upper = np.array(record["row_upper"], dtype=np.float64)
        self.rows = np.array(record["rows"], dtype=np.float64).reshape(len(self.row_lower), n)
        self.to_even_units()

    def to_even_units(self) -> None:
        """Rows, then variables, in units in which their largest coefficient is near one."""
        for i, row in enumerate(self.rows):
            unit = np.abs(row).max(initial=0.0) or 1.0
            self.rows[i] /= unit
            self.row_lower[i] /= unit
            self.row_upper[i] /= unit
        for j in range(len(self.lower)):
            unit = np.abs(self.rows[:, j]).max(initial=0.0) or 1.0
            self.rows[:, j] /= unit
            self.gradient[j] /= unit
            self.hessian[j] /= unit**2
            self.lower[j] *= unit
            self.upper[j] *= unit

    def size_at(self, x: Vector) -> float:
        """How large the terms of the objective are."""
        terms = np.abs(self.hessian * x * x / 2) + np.abs(self.gradient * x)
        return float(terms.sum())

    def value_at(self, x: Vector) -> float:
        """The objective."""
        return float((self.hessian * x * x / 2 + self.gradient * x).sum())


@pytest.fixture(scope="module")
def problems(build_dir: Path) -> list[Problem]:
    """All generated problems."""
    program = build_dir / "tests" / "oracle" / "solver" / "oracle_solver_trace"
    out = subprocess.run([program], check=True, capture_output=True, text=True)
    return [Problem(json.loads(line)) for line in out.stdout.splitlines()]


def highs(problem: Problem, gradient: Vector) -> Any:
    """HiGHS on the problem's limits."""
    above = np.isfinite(problem.row_upper)
    below = np.isfinite(problem.row_lower)
    return linprog(
        gradient,
        A_ub=np.vstack([problem.rows[above], -problem.rows[below]]),
        b_ub=np.concatenate([problem.row_upper[above], -problem.row_lower[below]]),
        bounds=list(zip(problem.lower, problem.upper, strict=True)),
        method="highs",
        options={"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10},
    )


def test_linear_problems_agree_with_highs(problems: list[Problem]) -> None:
    """Status and objective of every problem without curvature."""
    words = {0: "solved", 2: "infeasible", 3: "unbounded", 4: "infeasible or unbounded"}
    seen: Counter[str] = Counter()
    wrong = []
    for problem in problems:
        if problem.hessian.any():
            continue
        theirs = highs(problem, problem.gradient)
        word = words.get(theirs.status, "stopped")
        if word == "infeasible or unbounded":
            # Its presolve does not say which: ask whether there is a point at all.
            feasible = highs(problem, np.zeros_like(problem.gradient)).status == 0
            word = "unbounded" if feasible else "infeasible"
        seen[word] += 1
        if word != problem.status:
            wrong.append(f"{problem.name}: {problem.status}, HiGHS says {word}: {theirs.message}")
        elif word == "solved":
            slack = 1e-8 * (problem.size_at(theirs.x) + abs(problem.objective)) + 1e-9
            if abs(theirs.fun - problem.objective) > slack:
                wrong.append(f"{problem.name}: {problem.objective}, HiGHS says {theirs.fun}")
    assert not wrong, "\n".join(wrong)
    assert seen["solved"] > 600
    assert seen["infeasible"] > 150
    assert seen["unbounded"] > 100


def test_contradictions_of_curved_problems_agree_with_highs(problems: list[Problem]) -> None:
    """Whether a point exists does not depend on the objective."""
    wrong = []
    seen: Counter[bool] = Counter()
    for problem in problems:
        if not problem.hessian.any():
            continue
        feasible = highs(problem, np.zeros_like(problem.gradient)).status == 0
        seen[feasible] += 1
        if feasible == (problem.status == "infeasible"):
            wrong.append(f"{problem.name}: {problem.status}, HiGHS says feasible: {feasible}")
    assert not wrong, "\n".join(wrong)
    assert seen[True] > 600
    assert seen[False] > 150


def test_strictly_convex_problems_agree_with_slsqp(problems: list[Problem]) -> None:
    """No point of SLSQP is better than the solver's, and most of its answers are the same."""
    agreed = 0
    tried = 0
    wrong = []
    for problem in problems:
        if problem.status != "solved" or not problem.hessian.all():
            continue
        tried += 1
        equal = problem.row_lower == problem.row_upper
        above = np.isfinite(problem.row_upper) & ~equal
        below = np.isfinite(problem.row_lower) & ~equal
        rows = np.vstack([-problem.rows[above], problem.rows[below]])
        limits = np.concatenate([-problem.row_upper[above], problem.row_lower[below]])
        constraints: list[dict[str, Any]] = []
        if len(limits):
            constraints.append(
                {
                    "type": "ineq",
                    "fun": lambda x, a=rows, b=limits: a @ x - b,
                    "jac": lambda x, a=rows: a,
                }
            )
        if equal.any():
            constraints.append(
                {
                    "type": "eq",
                    "fun": lambda x, a=problem.rows[equal], b=problem.row_lower[equal]: a @ x - b,
                    "jac": lambda x, a=problem.rows[equal]: a,
                }
            )
        scale = 1.0 / max(float(np.abs(problem.hessian).max()), 1e-300)
        theirs = minimize(
            lambda x, p=problem, s=scale: s * p.value_at(x),
            np.clip(np.zeros_like(problem.lower), problem.lower, problem.upper),
            jac=lambda x, p=problem, s=scale: s * (p.hessian * x + p.gradient),
            bounds=list(zip(problem.lower, problem.upper, strict=True)),
            constraints=constraints,
            method="SLSQP",
            options={"maxiter": 500, "ftol": 1e-14},
        )
        if not theirs.success:
            continue
        missed = max(
            float(np.max(limits - rows @ theirs.x, initial=0.0)),
            float(
                np.max(
                    np.abs(problem.rows[equal] @ theirs.x - problem.row_lower[equal]), initial=0.0
                )
            ),
        )
        if missed > 1e-8:
            continue
        gap = theirs.fun / scale - problem.objective
        slack = 1e-5 * (problem.size_at(theirs.x) + abs(problem.objective)) + 1e-7
        if gap < -slack:
            wrong.append(f"{problem.name}: {problem.objective}, SLSQP has {theirs.fun / scale}")
        agreed += abs(gap) <= slack
    assert not wrong, "\n".join(wrong)
    assert tried > 500
    assert agreed > 0.9 * tried, f"SLSQP agrees on {agreed} of {tried}"
