"""Calling the command in a test."""

from __future__ import annotations

import json
import os
import subprocess
from datetime import date, datetime, timezone
from pathlib import Path
from typing import Any

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
TODAY = date(2026, 4, 1)  # the day on which the dialogues are held


def environment(today: date) -> dict[str, str]:
    """The environment of a call that takes this day for today."""
    noon = datetime(today.year, today.month, today.day, 12, tzinfo=timezone.utc)
    return {**os.environ, "SOURCE_DATE_EPOCH": str(int(noon.timestamp()))}


def call(
    feed_command: Path,
    *words: str | Path,
    code: int | None = 0,
    cwd: Path | None = None,
    today: date = TODAY,
    text_in: str = "",
) -> subprocess.CompletedProcess[str]:
    """Runs the command on a day and checks its exit code, unless any is right."""
    result = subprocess.run(
        [str(feed_command), *map(str, words)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        cwd=cwd,
        input=text_in,
        env=environment(today),
    )
    assert code is None or result.returncode == code, result.stdout + result.stderr
    return result


def answer(
    feed_command: Path,
    *words: str | Path,
    code: int = 0,
    cwd: Path | None = None,
    today: date = TODAY,
) -> dict[str, Any]:
    """The JSON answer; NaN and infinity are no JSON."""

    def refuse(word: str) -> None:
        raise AssertionError(f"{word} in JSON")

    text = call(feed_command, *words, "--json", code=code, cwd=cwd, today=today).stdout
    parsed: dict[str, Any] = json.loads(text, parse_constant=refuse)
    return parsed


def write(folder: Path, content: dict[str, Any], name: str = "file.json") -> Path:
    """A feed file with this content."""
    path = folder / name
    path.write_text(json.dumps({"libfeed": 1, **content}), encoding="utf-8")
    return path
