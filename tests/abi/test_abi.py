"""The C interface as a contract: header, symbols, layout, binary compatibility."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import c_header as header
import c_layout as layout
import pytest
from clang_version import CLANG, CLANG_C


def library(build_dir: Path) -> Path:
    return build_dir / "bindings" / "c" / "libfeed.so"


@pytest.mark.parametrize(
    ("compiler", "language", "standard"),
    [
        ("gcc", "c", "c99"),
        ("gcc", "c", "c11"),
        ("g++", "c++", "c++17"),
        (CLANG_C, "c", "c99"),
        (CLANG_C, "c", "c11"),
        (CLANG, "c++", "c++17"),
    ],
)
def test_the_header_is_clean(compiler: str, language: str, standard: str, tmp_path: Path) -> None:
    source = tmp_path / "includes.txt"
    source.write_text("#include <feed/feed.h>\n#include <feed/feed.h>\n", encoding="utf-8")
    flags = [f"-std={standard}", "-pedantic", "-Wall", "-Wextra", "-Werror", "-fsyntax-only"]
    include = f"-I{header.HEADER.parent.parent}"
    subprocess.run([compiler, *flags, include, "-x", language, str(source)], check=True)


def test_the_symbol_list_is_the_header() -> None:
    assert header.listed_symbols() == [function.name for function in header.functions()]


def test_the_library_exports_the_list_and_nothing_else(build_dir: Path) -> None:
    shown = subprocess.run(
        ["nm", "-D", "--defined-only", str(library(build_dir))],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    exported = {line.split()[-1].split("@")[0] for line in shown.splitlines()}
    assert exported - {"FEED_0"} == set(header.listed_symbols())


def test_the_shared_library_names_its_version(build_dir: Path) -> None:
    shown = subprocess.run(
        ["readelf", "-d", str(library(build_dir))], check=True, capture_output=True, text=True
    ).stdout
    assert "Library soname: [libfeed.so.0]" in shown


def test_the_library_neither_prints_nor_reads_the_locale(build_dir: Path) -> None:
    """yaml-cpp reads its own streams; no C function of ours asks for stdout or setlocale."""
    shown = subprocess.run(
        ["nm", "-D", "--undefined-only", str(library(build_dir))],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    wanted = {line.split()[-1].split("@")[0] for line in shown.splitlines()}
    assert not wanted & {"printf", "puts", "putchar", "setlocale", "stdout", "stderr"}


def test_the_library_keeps_no_state(build_dir: Path) -> None:
    """What may change at run time is the compiler's own; nothing is kept for each thread."""
    shown = subprocess.run(
        ["objdump", "-t", str(library(build_dir))], check=True, capture_output=True, text=True
    ).stdout
    variables = re.findall(
        r" O \.(?:data|bss|tdata|tbss)\s+\w+\s+(?:\.hidden )?(\S+)$", shown, re.M
    )
    assert "__dso_handle" in variables
    compilers = r"__dso_handle|__TMC_END__|completed\.\d+|DW\.ref\.\w+"
    assert [name for name in variables if not re.fullmatch(compilers, name)] == []


def test_the_stories_call_every_function() -> None:
    """The stories whose n-th allocation fails and which eight threads run are about all of it."""
    stories = (header.ROOT / "tests/support/c_scenarios.hpp").read_text(encoding="utf-8")
    called = set(re.findall(r"\b(feed_\w+)\(", stories))
    assert [name for name in header.listed_symbols() if name not in called] == []


def test_the_baseline_names_no_folder_of_its_maker() -> None:
    baseline = (header.ROOT / "bindings/c/baseline.abi").read_text(encoding="utf-8")
    assert re.findall(r"path='(/[^']*)'", baseline) == []


def test_the_structs_are_laid_out_as_recorded() -> None:
    """A difference breaks callers compiled before: append fields, then run c_layout.py --write."""
    assert layout.measured() == layout.LAYOUT.read_text(encoding="utf-8")


def test_the_layout_follows_the_list_of_structs() -> None:
    recorded = re.findall(r"^(\w+) ", layout.LAYOUT.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert recorded == list(layout.structs())


def test_the_enumerators_keep_their_numbers() -> None:
    """A caller compiled before has them in it: add new ones, then run c_layout.py --write."""
    recorded = layout.ENUMERATORS.read_text(encoding="utf-8")
    assert layout.numbered() == recorded
    assert "FEED_OK 0\n" in recorded


def test_no_enumerator_is_without_a_number() -> None:
    """A number that follows from its place would move when another is put before it."""
    for members in re.findall(r"enum \{(.*?)\};", layout.code(), flags=re.DOTALL):
        for member in members.split(","):
            assert re.fullmatch(r"\s*(FEED_\w+\s*=\s*\S.*)?\s*", member, re.DOTALL), member


def test_structs_that_may_grow_begin_with_their_size() -> None:
    never_grow = {"feed_estimate", "feed_portion", "feed_own_value"}
    for name, fields in layout.structs().items():
        assert (fields[0] == "struct_size") == (name not in never_grow), name


def test_every_function_is_documented_as_the_rules_say() -> None:
    for function in header.functions():
        if function.name.endswith("_free"):
            continue
        comment = re.sub(r"\s*\n \*\s*", " ", function.comment)
        for due in ("Errors:", "Threads:", "Since "):
            assert due in comment, f"{function.name} lacks {due!r} in its comment"
        assert function.returns == "feed_code", function.name
        assert function.parameters[-1].type == "feed_error*", function.name


def test_the_binary_interface_is_the_recorded_one(build_dir: Path) -> None:
    """abidiff's exit code has bit 2 (4) set for any difference and bit 3 (8) for a break."""
    abidiff = shutil.which("abidiff")
    assert abidiff is not None, "abidiff is not installed (package abigail-tools)"
    done = subprocess.run(
        [abidiff, str(header.ROOT / "bindings/c/baseline.abi"), str(library(build_dir))],
        capture_output=True,
        text=True,
    )
    assert done.returncode & 1 == 0, done.stderr
    assert done.returncode & 8 == 0, done.stdout
    assert "Removed function" not in done.stdout, done.stdout
