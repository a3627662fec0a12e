"""OSQP on the problems that `bench_peers --problems FILE` wrote, by its own clock.

build/peers/venv/bin/python tests/bench/peers/osqp_clock.py FILE

OSQP is an operator-splitting method; it is driven from Python, so what is given is the time it
reports for solving (`solve_time`, without its set-up and without the call). Polishing is on. Three
tolerances are tried, since looser ones are quicker and fail more often.
"""

from __future__ import annotations

import json
import statistics
import sys
from pathlib import Path
from typing import Any

import numpy as np
import osqp  # type: ignore[import-not-found]
from scipy import sparse

CALLS = 7
ALLOWED_KG = 1e-9


def solve(problem: dict[str, Any], tolerance: float) -> tuple[bool, float, float]:
    """Solved to 1e-9 kg; kilograms off; median microseconds that OSQP reports."""
    n = len(problem["lower"])
    rows = np.reshape(problem["rows"], (-1, n))
    solver = osqp.OSQP()
    solver.setup(
        sparse.diags(problem["hessian"], format="csc"),
        np.array(problem["gradient"]),
        sparse.csc_matrix(np.vstack([np.eye(n), rows])),
        np.array(problem["lower"] + problem["row_lower"]),
        np.array(problem["upper"] + problem["row_upper"]),
        eps_abs=tolerance,
        eps_rel=tolerance,
        polishing=True,
        max_iter=100000,
        warm_starting=False,
        verbose=False,
    )
    times = []
    for _ in range(CALLS):
        answer = solver.solve()
        times.append(answer.info.solve_time + answer.info.polish_time)
    off = float(np.max(np.abs(answer.x - problem["exact"])))
    solved = answer.info.status == "solved" and off <= ALLOWED_KG
    return solved, off, statistics.median(times) * 1e6


def main() -> None:
    lines = Path(sys.argv[1]).read_text(encoding="utf-8").splitlines()
    problems = [json.loads(line) for line in lines]
    for tolerance in (1e-3, 1e-6, 1e-9):
        failures = 0
        worst = 0.0
        times: dict[int, list[float]] = {}
        for problem in problems:
            solved, off, microseconds = solve(problem, tolerance)
            failures += not solved
            worst = max(worst, off if solved else 0.0)
            times.setdefault(len(problem["lower"]), []).append(microseconds)
        print(
            f"OSQP {osqp.__version__}, tolerance {tolerance:g}: {failures} of {len(problems)}"
            f" failed, the others off by at most {worst:.1e} kg; median us:"
        )
        for size, of_size in times.items():
            print(f"  {size} feedstocks: {statistics.median(of_size):.3g}")


if __name__ == "__main__":
    main()
