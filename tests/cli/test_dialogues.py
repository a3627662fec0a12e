"""Every dialogue in dialogues/, to the last character."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from command import TODAY, environment
from dialogues import read_dialogue

FOLDER = Path(__file__).parent / "dialogues"


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.txt")), ids=lambda path: path.stem)
def test_dialogue(path: Path, feed_command: Path, tmp_path: Path) -> None:
    dialogue = read_dialogue(path)
    for name, content in dialogue.files.items():
        (tmp_path / name).write_bytes(content)
    for call in dialogue.calls:
        result = subprocess.run(
            [feed_command, *call.arguments],
            cwd=tmp_path,
            capture_output=True,
            check=False,
            env=environment(dialogue.today or TODAY),
        )
        assert result.stderr.decode("utf-8") == call.stderr
        assert result.stdout.decode("utf-8") == call.stdout
        assert result.returncode == call.code
        assert all(len(line) <= 80 for line in call.stderr.splitlines())
    left = {item.name for item in tmp_path.iterdir()}
    written = {**dialogue.files, **dialogue.left}
    assert left == set(written), "a refused call must write nothing"
    for name, content in written.items():
        assert (tmp_path / name).read_bytes() == content


def test_a_wrong_character_is_noticed(feed_command: Path, tmp_path: Path) -> None:
    """The comparison itself can fail."""
    path = tmp_path / "wrong.txt"
    path.write_text("--- feed version extra\n--- exit 2\n--- stderr\nsomething else\n", "utf-8")
    call = read_dialogue(path).calls[0]
    result = subprocess.run([feed_command, *call.arguments], capture_output=True, check=False)
    assert result.returncode == call.code
    assert result.stderr.decode("utf-8") != call.stderr
