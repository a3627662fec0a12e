"""A week of 30 bins and 60 things, beside HiGHS on the same problem in the same run.

    week_highs.py BUILD [COUNT]     BUILD: a tree with oracle_week_cases, optimised

Prints the seconds of the shares and of the whole plan, and the shares as a ratio to HiGHS. The
problem that HiGHS gets is made from the facts of each bin (tests/oracle/week_reference.py).
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from oracle.week_reference import WeekReference

BINS, THINGS = 30, 60
MOST_RATIO = 5.0
MOST_PLAN_S = 2.0


def main(build: Path, count: int) -> int:
    program = build / "tests" / "oracle" / "oracle_week_cases"
    out = subprocess.run(
        [program, str(count), str(BINS), str(THINGS)], check=True, capture_output=True, text=True
    )
    worst_ratio = worst_plan = 0.0
    for line in out.stdout.splitlines():
        week = json.loads(line)
        reference = WeekReference(week)
        reached, seconds = reference.solve()
        assert all(
            abs(ours - theirs) <= 1e-6 * max(1.0, theirs)
            for ours, theirs in zip(week["most_kg"], reached, strict=True)
        )
        ratio = week["solver_s"] / seconds
        print(
            f"{len(reference.columns)} columns, {len(reference.rows)} rows: shares "
            f"{week['solver_s'] * 1000:.0f} ms, HiGHS {seconds * 1000:.0f} ms, ratio {ratio:.2f}; "
            f"whole plan {week['plan_s']:.2f} s"
        )
        worst_ratio = max(worst_ratio, ratio)
        worst_plan = max(worst_plan, week["plan_s"])
    print(f"largest ratio {worst_ratio:.2f} (at most {MOST_RATIO:g}),", end=" ")
    print(f"longest plan {worst_plan:.2f} s (at most {MOST_PLAN_S:g})")
    return 0 if worst_ratio <= MOST_RATIO and worst_plan <= MOST_PLAN_S else 1


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    sys.exit(main(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 5))
