"""Learning against keepers whose bins are known: docs/diary.md keeps the table and its promises."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

# In every run a third of the keepers must keep the promises; the table is that of all of them.
ALL = "FEED_LONG_FORMS" in os.environ
KEEPERS_OF_A_KIND = 200 if ALL else 64


def test_what_is_left_is_in_the_interval(source_dir: Path, build_dir: Path) -> None:
    """The study exits with 1 where a kind of bin is covered too rarely or a range is too wide."""
    program = build_dir / "tests" / "study" / "study_own_course"
    done = subprocess.run(
        [program, str(KEEPERS_OF_A_KIND)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout
    rows = [line for line in done.stdout.splitlines() if line.startswith("|")]
    assert len(rows) == 9
    if not ALL:
        return
    page = (source_dir / "docs" / "diary.md").read_text(encoding="utf-8")
    missing = [row for row in rows if row not in page]
    assert not missing, "docs/diary.md lacks these rows of the study:\n" + "\n".join(missing)
