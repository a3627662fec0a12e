"""What holds for the program as a process."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest
from command import EXAMPLES, call


def test_a_full_disk_is_no_success(feed_command: Path) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        result = subprocess.run(
            [feed_command, "table"], stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert result.returncode == 3
    assert "could not be written" in result.stderr


def test_a_hundred_megabytes_are_refused_unread(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "huge.yaml"
    path.write_text("libfeed: 1\n", encoding="utf-8")
    os.truncate(path, 100 * 1024 * 1024)
    result = call(feed_command, "blend", path.name, code=2, cwd=tmp_path)
    assert result.stderr == (
        "huge.yaml: this file is too large to be a feed file\n    allowed: at most 8 MB\n"
    )


def bomb() -> str:
    lines = ["libfeed: 1", "a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    for level in range(1, 30):
        below = ", ".join([f"*a{level - 1}"] * 10)
        lines.append(f"a{level}: &a{level} [{below}]")
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (bomb(), "aliases"),
        ("libfeed: 1\nblend: " + "[" * 5000 + "]" * 5000 + "\n", "nested too deeply"),
        ("libfeed: 1\nblend: " + "{a: " * 5000 + "\n", "nested too deeply"),
    ],
)
def test_hostile_files_stay_cheap(text: str, said: str, feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "hostile.yaml"
    path.write_text(text, encoding="utf-8")
    result = call(feed_command, "blend", path.name, code=2, cwd=tmp_path)
    assert said in result.stderr
    assert result.stderr.count("allowed:") == 1


def test_a_comma_locale_changes_nothing(feed_command: Path, tmp_path: Path) -> None:
    localedef = shutil.which("localedef")
    if localedef is None or not Path("/usr/share/i18n/locales/de_DE").is_file():
        pytest.skip("this machine cannot build a locale")
    subprocess.run(
        [localedef, "-i", "de_DE", "-f", "UTF-8", tmp_path / "de_DE.UTF-8"],
        check=False,
        capture_output=True,
    )
    assert (tmp_path / "de_DE.UTF-8").is_dir()
    words = [str(feed_command), "balance", str(EXAMPLES / "kitchen.yaml"), "--json"]
    texts = {
        subprocess.run(
            words, check=True, capture_output=True, text=True, env={**os.environ, **more}
        ).stdout
        for more in ({"LC_ALL": "C"}, {"LC_ALL": "de_DE.UTF-8", "LOCPATH": str(tmp_path)})
    }
    assert len(texts) == 1


def test_output_has_no_colour_when_it_is_no_terminal(feed_command: Path) -> None:
    for words in (["table"], ["show", "carrot"], ["balance", EXAMPLES / "kitchen.yaml"]):
        assert "\x1b" not in call(feed_command, *words).stdout
