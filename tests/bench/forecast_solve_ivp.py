"""Times SciPy's solve_ivp on one run of the forecast: python forecast_solve_ivp.py TRACE_PROGRAM.

TRACE_PROGRAM is the built oracle_forecast_trace. The forecast itself makes five such runs.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "oracle"))

from forecast_reference import Bed


def main() -> None:
    """Prints the time of 60 days at the solver's usual and at a tight tolerance."""
    out = subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True)
    trace = json.loads(out.stdout.splitlines()[0])
    for rtol in (1e-3, 1e-9):
        times = []
        for _ in range(5):
            bed = Bed(trace, rtol)
            begin = time.perf_counter()
            for _ in trace["after"]:
                bed.step()
            times.append(time.perf_counter() - begin)
        milliseconds = 1000 * sorted(times)[2]
        days = len(trace["after"])
        print(f"solve_ivp, one run of {days} days, rtol {rtol:g}: {milliseconds:.0f} ms")


if __name__ == "__main__":
    main()
