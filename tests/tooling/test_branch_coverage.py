"""A branch that no test took must be seen as such."""

from __future__ import annotations

import subprocess
from pathlib import Path

import branch_coverage
import pytest

HEADER = """\
#pragma once
inline int sign(int x) {
    if (x > 0) return 1;
    if (x < 0) return -1;
    return 0;
}
"""


def build(root: Path, calls: str) -> Path:
    """A tree with one header of the core and a program that makes these calls, run."""
    layer = root / "libfeed" / "include" / "feed" / "blend"
    layer.mkdir(parents=True)
    (layer / "sign.hpp").write_text(HEADER, encoding="utf-8")
    made = root / "build"
    made.mkdir()
    (root / "main.cpp").write_text(
        f'#include "feed/blend/sign.hpp"\nint main() {{ return {calls}; }}\n', encoding="utf-8"
    )
    words = [
        "g++",
        "--coverage",
        "-O0",
        f"-I{root}/libfeed/include",
        f"{root}/main.cpp",
        "-o",
        "main",
    ]
    subprocess.run(words, cwd=made, check=True)
    subprocess.run([made / "main"], cwd=made, check=False)
    return made


@pytest.mark.parametrize(
    ("calls", "taken", "code"),
    [("sign(2) + sign(-2) + sign(0)", 4, 0), ("sign(2) + sign(-2)", 3, 1), ("sign(2)", 1, 1)],
)
def test_taken_branches_are_counted(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], calls: str, taken: int, code: int
) -> None:
    made = build(tmp_path, calls)
    assert branch_coverage.main([str(made), "--root", str(tmp_path), "--list"]) == code
    out = capsys.readouterr().out
    assert f"| blend | 4 | {taken} |" in out
    assert ("sign.hpp:4" in out) is (taken < 4)


def test_a_branch_taken_by_any_program_is_taken() -> None:
    def record(counts: list[int]) -> dict[str, object]:
        branches = [{"count": count, "throw": False} for count in counts]
        branches.append({"count": 0, "throw": True})
        lines = [{"line_number": 7, "branches": branches}]
        return {
            "current_working_directory": "/r",
            "files": [{"file": "libfeed/include/feed/bed/a.hpp", "lines": lines}],
        }

    found: branch_coverage.Branches = {}
    for counts in ([3, 0], [0, 1], [0, 0, 0, 1]):
        branch_coverage.add(found, record(counts), Path("/r"))
    assert branch_coverage.shares(found) == {"bed": (2, 2)}
    assert branch_coverage.not_taken(found) == []


def test_what_is_not_the_library_is_left_out() -> None:
    assert branch_coverage.layer_of("tests/unit/a.cpp") is None
    assert branch_coverage.layer_of("libfeed/include/feed/feedstock/generated/table.hpp") is None
    assert branch_coverage.layer_of("libfeed/src/a.cpp") == "io"


def test_without_counts_it_fails(tmp_path: Path) -> None:
    assert branch_coverage.main([str(tmp_path)]) == 1
