"""The tables of docs/forecast.md are those that the program writes."""

from __future__ import annotations

import subprocess
from pathlib import Path


def test_tables_are_fresh(source_dir: Path, build_dir: Path) -> None:
    """Renew with: study_forecast_sensitivity, between the two comments of the page."""
    program = build_dir / "tests" / "study" / "study_forecast_sensitivity"
    out = subprocess.run([program], check=True, capture_output=True, text=True)
    page = (source_dir / "docs" / "forecast.md").read_text(encoding="utf-8")
    written = page.split("<!-- forecast tables: begin -->\n")[1]
    assert written.split("<!-- forecast tables: end -->")[0] == out.stdout
