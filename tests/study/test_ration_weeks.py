"""Half a year of obeying the printed answers: docs/bed.md keeps the table and its promises."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

#: Bins of each kind; the first of many are the few, so the small form is a part of the whole one.
FEW, MANY = 1, 20


def rows_of(build_dir: Path, bins: int) -> tuple[list[str], int]:
    """What the study prints for so many bins of each kind, and how it ends."""
    program = build_dir / "tests" / "study" / "study_ration_weeks"
    done = subprocess.run([program, str(bins)], capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr
    return done.stdout.splitlines(), done.returncode


def written(source_dir: Path, name: str) -> list[str]:
    """The table of the page between the comments of that name."""
    page = (source_dir / "docs" / "bed.md").read_text(encoding="utf-8")
    text = page.split(f"<!-- {name}: begin -->\n")[1].split(f"<!-- {name}: end -->")[0]
    return text.splitlines()


def test_one_bin_of_each_kind(source_dir: Path, build_dir: Path) -> None:
    """Renew with: study_ration_weeks 1, between the comments of the page."""
    rows, code = rows_of(build_dir, FEW)
    assert rows == written(source_dir, "half a year, few")
    assert code == 0, "\n".join(rows)


@pytest.mark.skipif("FEED_RATION_WEEKS" not in os.environ, reason="FEED_RATION_WEEKS is not set")
def test_a_hundred_bins(source_dir: Path, build_dir: Path) -> None:
    """The study ends with 1 where a bin is harmed, underfed or left without an answer."""
    rows, code = rows_of(build_dir, MANY)
    assert rows == written(source_dir, "half a year")
    assert code == 0, "\n".join(rows)
