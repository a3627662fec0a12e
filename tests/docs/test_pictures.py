"""The pictures of the pages show what the package draws today."""

from __future__ import annotations

import re
from pathlib import Path

from pictures import FOLDER, PICTURES, TOLERANCE, difference, differences, draw


def test_committed_pictures_are_what_is_drawn(tmp_path: Path) -> None:
    draw(tmp_path)
    assert differences(tmp_path) == []


def test_every_committed_picture_is_drawn_by_the_script() -> None:
    # The picture of a trial is drawn by the command, as docs/trials.md says.
    assert sorted(path.name for path in FOLDER.iterdir()) == sorted([*PICTURES, "trial_rinds.svg"])


def test_a_moved_point_and_a_missing_element_are_seen() -> None:
    committed = (FOLDER / "reachable_kitchen.svg").read_text(encoding="utf-8")
    number = re.search(r"(?<=[ML] )\d+\.\d+", committed)
    assert number is not None

    def moved_by(points: float) -> str:
        other = f"{float(number.group()) + points:.6f}" if number else ""
        return committed.replace(number.group() if number else "", other, 1)

    assert difference(committed, moved_by(2 * TOLERANCE)) != ""
    assert difference(committed, moved_by(TOLERANCE / 2)) == ""
    assert difference(committed, committed.replace("<path", "<line", 1)) != ""
