"""--help, the manual page and the bash completion say the same, because they have one source."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest


def run(*words: str | Path) -> str:
    return subprocess.run(
        [str(word) for word in words], check=True, capture_output=True, text=True
    ).stdout


@pytest.mark.parametrize(("what", "name"), [("man", "feed.1"), ("bash", "feed.bash")])
def test_committed_page_is_a_fresh_run(
    build_dir: Path, source_dir: Path, what: str, name: str
) -> None:
    fresh = run(build_dir / "bindings" / "cli" / "feed_pages", what)
    committed = (source_dir / "bindings" / "cli" / name).read_text(encoding="utf-8")
    assert fresh == committed, "run: cmake --build BUILD --target feed_write_pages"


def commands(feed_command: Path) -> list[str]:
    lines = run(feed_command, "--help").splitlines()
    start = next(i for i, line in enumerate(lines) if line.startswith("Usage:")) + 2
    names = []
    for line in lines[start:]:
        if not line.strip():
            break
        names.append(line.split()[0])
    return names


def test_every_command_has_help_with_an_example(feed_command: Path) -> None:
    names = commands(feed_command)
    assert "balance" in names
    for name in names:
        text = run(feed_command, name, "--help")
        assert text.startswith(f"feed {name}")
        assert f"\nExample:\n  feed {name}" in text
        assert all(len(line) <= 80 for line in text.splitlines()), name


def test_manual_page_names_every_command_and_option(feed_command: Path, source_dir: Path) -> None:
    page = (source_dir / "bindings" / "cli" / "feed.1").read_text(encoding="utf-8")
    for name in commands(feed_command):
        assert f".SS {name}\n" in page
        for word in run(feed_command, name, "--help").split():
            if word.startswith("--"):
                assert word.strip("[]").replace("-", "\\-") in page


def complete(source_dir: Path, cwd: Path, *words: str) -> list[str]:
    script = (
        f'. "{source_dir}/bindings/cli/feed.bash"; shift 0; COMP_WORDS=("$@"); '
        'COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _feed; printf "%s\\n" "${COMPREPLY[@]}"'
    )
    result = subprocess.run(
        ["bash", "-c", script, "bash", *words],
        check=True,
        capture_output=True,
        text=True,
        cwd=cwd,
    )
    return result.stdout.split("\n")[:-1]


def test_completion_of_commands_options_values_and_files(source_dir: Path, tmp_path: Path) -> None:
    (tmp_path / "my kitchen.yaml").write_text("libfeed: 1\n", encoding="utf-8")
    assert complete(source_dir, tmp_path, "feed", "bl") == ["blend"]
    assert complete(source_dir, tmp_path, "feed", "blend", "--j") == ["--json"]
    assert complete(source_dir, tmp_path, "feed", "blend", "--units", "") == ["metric", "us"]
    assert complete(source_dir, tmp_path, "feed", "blend", "my") == ["my kitchen.yaml"]
