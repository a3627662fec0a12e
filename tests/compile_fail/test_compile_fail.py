"""Wrong use must not compile.

Each .cpp file here is compiled twice with each compiler: as it is it must compile, with FEED_BAD
defined it must not, and the compiler must complain of the line marked `// BAD`.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from clang_version import CLANG

HERE = Path(__file__).parent
INCLUDE = HERE.parents[1] / "libfeed" / "include"
FILES = sorted(HERE.glob("*.cpp"))


def compile_only(program: str, source: Path, *options: str) -> subprocess.CompletedProcess[str]:
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not installed")
    command = [program, "-std=c++20", "-fsyntax-only", f"-I{INCLUDE}", *options, str(source)]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def marked_line(source: Path) -> int:
    lines = source.read_text(encoding="utf-8").splitlines()
    marked = [number for number, line in enumerate(lines, 1) if line.endswith("// BAD")]
    assert len(marked) == 1, f"{source} needs one line that ends in // BAD"
    return marked[0]


def test_there_are_files() -> None:
    assert FILES


@pytest.mark.parametrize("program", ["g++", CLANG])
@pytest.mark.parametrize("source", FILES, ids=lambda path: path.stem)
def test_only_the_marked_line_is_wrong(program: str, source: Path) -> None:
    good = compile_only(program, source)
    assert good.returncode == 0, good.stderr
    bad = compile_only(program, source, "-DFEED_BAD")
    assert bad.returncode != 0, "it compiles"
    assert f"{source.name}:{marked_line(source)}:" in bad.stderr, bad.stderr
