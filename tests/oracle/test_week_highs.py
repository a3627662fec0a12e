"""Random weeks over several bins: the same use as HiGHS finds, and never a broken limit."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

from week_reference import WeekReference

COUNT = int(os.environ.get("FEED_ORACLE_WEEKS", "500"))


def test_a_week_uses_as_much_as_highs_and_breaks_no_limit(build_dir: Path) -> None:
    program = build_dir / "tests" / "oracle" / "oracle_week_cases"
    out = subprocess.run([program, str(COUNT)], check=True, capture_output=True, text=True)
    shared = full = scarce = 0
    for number, line in enumerate(out.stdout.splitlines()):
        week = json.loads(line)
        reference = WeekReference(week)
        assert week["verified"], number
        assert reference.worst_excess(reference.given()) < 1e-7, number
        if not reference.columns:
            continue
        reached, _ = reference.solve()
        assert len(reached) == len(week["most_kg"]), number
        for ours, theirs in zip(week["most_kg"], reached, strict=True):
            assert abs(ours - theirs) <= 1e-6 * max(1.0, theirs), (number, ours, theirs)
        there = sum(
            one["there_kg"] or 0.0 for one in week["things"] if one["material"]["part"] == "scraps"
        )
        shared += reached[-1] > 0 if reached else 0
        full += bool(reached) and reached[-1] >= there * (1 - 1e-9)
        scarce += bool(reached) and reached[-1] < 0.9 * there
    # The weeks are of all sorts: fed at all, more than fits, and all used up.
    assert shared > 0.5 * COUNT
    assert scarce > 0.2 * COUNT
    assert full > 0
