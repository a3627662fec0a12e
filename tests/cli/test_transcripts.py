"""Every transcript in transcripts/, to the last character."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from transcripts import read_transcript

FOLDER = Path(__file__).parent / "transcripts"


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.txt")), ids=lambda path: path.stem)
def test_transcript(path: Path, feed_command: Path, tmp_path: Path) -> None:
    transcript = read_transcript(path)
    for name, content in transcript.files.items():
        (tmp_path / name).write_bytes(content)
    for call in transcript.calls:
        result = subprocess.run(
            [feed_command, *call.arguments], cwd=tmp_path, capture_output=True, check=False
        )
        assert result.stderr.decode("utf-8") == call.stderr
        assert result.stdout.decode("utf-8") == call.stdout
        assert result.returncode == call.code
        assert all(len(line) <= 80 for line in call.stderr.splitlines())
    left = {item.name for item in tmp_path.iterdir()}
    assert left == set(transcript.files), "a refused call must write nothing"


def test_a_wrong_character_is_noticed(feed_command: Path, tmp_path: Path) -> None:
    """The comparison itself can fail."""
    path = tmp_path / "wrong.txt"
    path.write_text("--- feed version extra\n--- exit 2\n--- stderr\nsomething else\n", "utf-8")
    call = read_transcript(path).calls[0]
    result = subprocess.run([feed_command, *call.arguments], capture_output=True, check=False)
    assert result.returncode == call.code
    assert result.stderr.decode("utf-8") != call.stderr
