"""Learning against keepers whose bins are known: docs/diary.md keeps the table and its promises."""

from __future__ import annotations

import subprocess
from pathlib import Path


def test_what_is_left_is_in_the_interval(source_dir: Path, build_dir: Path) -> None:
    """The study exits with 1 where a kind of bin is covered too rarely or a range is too wide."""
    program = build_dir / "tests" / "study" / "study_own_course"
    done = subprocess.run([program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout
    rows = [line for line in done.stdout.splitlines() if line.startswith("|")]
    assert len(rows) == 9
    page = (source_dir / "docs" / "diary.md").read_text(encoding="utf-8")
    missing = [row for row in rows if row not in page]
    assert not missing, "docs/diary.md lacks these rows of the study:\n" + "\n".join(missing)
