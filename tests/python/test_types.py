"""The types: the stub is that of the compiled part, and the examples pass mypy --strict."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import libfeed

ROOT = Path(__file__).resolve().parents[2]


def run(*command: object) -> None:
    done = subprocess.run(
        [sys.executable, *map(str, command)], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_stub_is_up_to_date() -> None:
    run(ROOT / "bindings" / "python" / "stubs.py", "--check")


def test_examples_pass_the_strict_checker(tmp_path: Path) -> None:
    examples = sorted((ROOT / "examples" / "python").glob("*.py"))
    assert len(examples) >= 4
    run("-m", "mypy", "--strict", "--cache-dir", tmp_path, "--config-file", "", *examples)


def test_a_wrong_type_is_seen(tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.py"
    wrong.write_text("import libfeed\n\nlibfeed.Portion('cardboard', wet_kg='1 kg')\n")
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--cache-dir", tmp_path / "cache", wrong],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1
    assert "arg-type" in done.stdout


def test_the_package_says_it_is_typed() -> None:
    assert (Path(libfeed.__file__).parent / "py.typed").is_file()
