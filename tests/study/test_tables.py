"""The tables of the documentation are the ones the study programs print."""

from __future__ import annotations

import subprocess
from pathlib import Path


def test_kitchen_caddies_in_docs(source_dir: Path, build_dir: Path) -> None:
    program = build_dir / "tests" / "study" / "study_kitchen_caddies"
    out = subprocess.run([program], check=True, capture_output=True, text=True).stdout
    page = (source_dir / "docs" / "balance.md").read_text(encoding="utf-8")
    rows = [line for line in out.splitlines() if line.startswith("|")]
    assert len(rows) == 16
    missing = [row for row in rows if row not in page]
    assert not missing, "docs/balance.md lacks these rows of the study:\n" + "\n".join(missing)
