"""Each public header compiles alone, without a warning.

Both compilers read the same standard library here, so one of them, the quicker, tells what a header
forgot to include; the other reads them all together.
"""

from __future__ import annotations

import fcntl
import os
import re
import shutil
import subprocess
from functools import cache
from pathlib import Path

import pytest
from alone import one_in
from clang_version import CLANG, CLANG_C

ROOT = Path(__file__).resolve().parents[2]
CXX_ROOT = ROOT / "libfeed" / "include"
C_ROOT = ROOT / "bindings" / "c" / "include"
WARNINGS = ["-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Werror", "-fsyntax-only"]
CXX_HEADERS = sorted(path.relative_to(CXX_ROOT).as_posix() for path in CXX_ROOT.rglob("*.hpp"))
# Read once each, with all that they include: a header that includes one of them, by whatever way,
# is then read on top of it. It sees no more than it would alone, in a quarter of the time.
BASES = (
    "feed/quantity/units.hpp",
    "feed/feedstock/feedstock.hpp",
    "feed/feedstock/table.hpp",
    "feed/feedstock/amount_reader.hpp",
    "feed/ration/caps.hpp",
    "feed/diary/bed_change.hpp",
    "feed/ration/from_diary.hpp",
)
# A quarter of them with each commit where the whole is run: four commits read all. All each night
# and by hand.
SHARE = 4 if "FEED_SHARE_SEED" in os.environ else 1
SOME_HEADERS = one_in(SHARE, CXX_HEADERS, int(os.environ.get("FEED_SHARE_SEED", "0")))
C_HEADERS = sorted(path.relative_to(C_ROOT).as_posix() for path in C_ROOT.rglob("*.h"))


def compiler(name: str) -> str:
    """The program, or skip: a machine may have one compiler only."""
    found = shutil.which(name)
    if found is None:
        pytest.skip(f"{name} is not installed")
    return found


def complaints(command: list[str], source: Path, header: str) -> str:
    """What the compiler says of a file that includes the header twice and nothing else."""
    source.write_text(f'#include "{header}"\n#include "{header}"\n', encoding="utf-8")
    done = subprocess.run([*command, str(source)], capture_output=True, text=True, check=False)
    return done.stderr if done.returncode != 0 else ""


def test_there_are_headers() -> None:
    assert "feed/feed.hpp" in CXX_HEADERS
    assert set(BASES) <= set(CXX_HEADERS)


@cache
def all_that_it_includes(header: str) -> frozenset[str]:
    """The headers of libfeed that a header includes, by whatever way."""
    text = (CXX_ROOT / header).read_text(encoding="utf-8")
    direct = set(re.findall(r'^#include "([^"]+)"', text, re.MULTILINE)) & set(CXX_HEADERS)
    return frozenset(direct.union(*map(all_that_it_includes, direct)))


def base_of(header: str) -> str | None:
    """The one of BASES with the most in it among those that a header includes."""
    included = [base for base in BASES if base in all_that_it_includes(header)]
    return max(included, key=lambda base: len(all_that_it_includes(base)), default=None)


def precompiled(base: str, folder: Path) -> Path:
    """A base read by Clang, in a folder that all workers share."""
    made = folder / (base.replace("/", "_") + ".pch")
    with (folder / (made.name + ".lock")).open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not made.is_file():
            begun = made.with_suffix(".begun")
            subprocess.run(
                [CLANG, "-x", "c++-header", "-std=c++20", *WARNINGS[:-1], f"-I{CXX_ROOT}",
                 str(CXX_ROOT / base), "-o", str(begun)],
                check=True,
            )  # fmt: skip
            begun.rename(made)
    return made


@pytest.fixture(scope="session")
def shared(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """A folder of this run; with several workers the one above each worker's own."""
    own = tmp_path_factory.getbasetemp()
    folder = (own if worker_id == "master" else own.parent) / "precompiled"
    folder.mkdir(exist_ok=True)
    return folder


@pytest.mark.parametrize("header", SOME_HEADERS)
def test_cxx_header_alone(header: str, tmp_path: Path, shared: Path) -> None:
    command = [compiler(CLANG), "-std=c++20", *WARNINGS, f"-I{CXX_ROOT}"]
    base = base_of(header)
    if base is not None:
        command += ["-include-pch", str(precompiled(base, shared))]
    assert complaints(command, tmp_path / "alone.cpp", header) == ""


def test_what_a_header_on_a_base_forgets_is_seen(tmp_path: Path, shared: Path) -> None:
    """As the test above reads it: neither the base nor the order hides what is missing."""
    (tmp_path / "lonely.hpp").write_text(
        '#pragma once\n#include "feed/quantity/units.hpp"\n'
        "inline feed::Ration forgotten();\ninline std::regex too();\n",
        encoding="utf-8",
    )
    command = [compiler(CLANG), "-std=c++20", *WARNINGS, f"-I{CXX_ROOT}", f"-I{tmp_path}"]
    command += ["-include-pch", str(precompiled("feed/quantity/units.hpp", shared))]
    said = complaints(command, tmp_path / "alone.cpp", "lonely.hpp")
    assert "Ration" in said and "regex" in said


def test_all_cxx_headers_together(tmp_path: Path) -> None:
    source = tmp_path / "together.cpp"
    source.write_text("".join(f'#include "{name}"\n' for name in CXX_HEADERS), encoding="utf-8")
    command = [compiler("g++"), "-std=c++20", *WARNINGS, f"-I{CXX_ROOT}", str(source)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    ("program", "standard"),
    [("gcc", "c99"), (CLANG_C, "c11"), ("g++", "c++17"), (CLANG, "c++17")],
)
@pytest.mark.parametrize("header", C_HEADERS)
def test_c_header_alone(program: str, standard: str, header: str, tmp_path: Path) -> None:
    command = [compiler(program), f"-std={standard}", *WARNINGS, f"-I{C_ROOT}"]
    suffix = ".cpp" if "++" in program else ".c"
    assert complaints(command, tmp_path / f"alone{suffix}", header) == ""


def test_a_header_that_needs_another_is_seen(tmp_path: Path) -> None:
    (tmp_path / "lonely.hpp").write_text("#pragma once\nstd::size_t n();\n", encoding="utf-8")
    command = [compiler("g++"), "-std=c++20", *WARNINGS, f"-I{tmp_path}"]
    assert "std" in complaints(command, tmp_path / "alone.cpp", "lonely.hpp")


def test_two_files_that_include_everything_link(tmp_path: Path) -> None:
    """A function that is not inline, or a variable defined twice, fails at the link."""
    (tmp_path / "one.cpp").write_text(
        '#include "feed/feed.hpp"\n'
        "const char* from_one() { return feed::library_version.data(); }\n",
        encoding="utf-8",
    )
    (tmp_path / "two.cpp").write_text(
        '#include "feed/feed.hpp"\nconst char* from_one();\n'
        "int main() { return from_one() == feed::library_version.data() ? 0 : 1; }\n",
        encoding="utf-8",
    )
    program = tmp_path / "both"
    subprocess.run(
        [compiler("g++"), "-std=c++20", f"-I{CXX_ROOT}", "one.cpp", "two.cpp", "-o", str(program)],
        cwd=tmp_path,
        check=True,
    )
    assert subprocess.run([program], check=False).returncode == 0
