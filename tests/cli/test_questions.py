"""Questions of keepers: the first twelve lines of each answer say what they must."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
import yaml
from command import TODAY, environment

LIST = yaml.safe_load((Path(__file__).parent / "questions.yaml").read_text(encoding="utf-8"))
MOST_LINES = 12


@pytest.mark.parametrize("question", LIST["questions"], ids=lambda one: one["ask"][:50])
def test_question(question: dict[str, Any], feed_command: Path, tmp_path: Path) -> None:
    for name, content in LIST["files"].items():
        (tmp_path / name).write_text(content, encoding="utf-8")
    result = subprocess.run(
        [feed_command, *question["feed"]],
        cwd=tmp_path,
        capture_output=True,
        check=False,
        encoding="utf-8",
        env=environment(TODAY),
    )
    said = result.stdout or result.stderr
    assert result.returncode == question.get("code", 0), said
    first = " ".join(" ".join(said.splitlines()[:MOST_LINES]).split())
    assert question.get("says") or question.get("asks"), "a question without an answer"
    for pattern in [*question.get("says", []), *([question["asks"]] if "asks" in question else [])]:
        assert re.search(pattern, first, re.IGNORECASE), f"{pattern!r} is not in: {said}"
    for pattern in question.get("never", []):
        assert not re.search(pattern, first, re.IGNORECASE), f"{pattern!r} is in: {said}"


def test_there_are_forty() -> None:
    assert len(LIST["questions"]) >= 40
