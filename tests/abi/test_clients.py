"""A program that knows only feed.h gets from the shared library what the Python package gives."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import libfeed

CLIENT = Path(__file__).with_name("client_ctypes.py")


def run(build_dir: Path, *words: str) -> subprocess.CompletedProcess[str]:
    library = build_dir / "bindings" / "c" / "libfeed.so"
    program = [sys.executable, str(CLIENT), str(library), *words]
    return subprocess.run(program, capture_output=True, text=True)


def test_a_ctypes_client_balances(build_dir: Path) -> None:
    done = run(build_dir, "kitchen scraps", "1.2")
    assert done.returncode == 0, done.stderr
    answer = libfeed.balance(["1.2 kg kitchen scraps", "cardboard", "water"])
    said = [f"{portion.label}: {portion.wet_kg!r}" for portion in answer.portions]
    assert done.stdout.splitlines() == [answer.status, *said]


def test_a_ctypes_client_is_told_what_is_wrong(build_dir: Path) -> None:
    done = run(build_dir, "cofeee grundz", "1.2")
    assert done.returncode == 10  # FEED_UNKNOWN_FEEDSTOCK
    assert "coffee grounds" in done.stderr.lower()
    assert done.stdout == ""
