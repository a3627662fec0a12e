"""The library prints nothing, reads no locale, environment or clock and keeps no changing state.

The headers are compiled with every inline function kept, and the relocations of feed's own
functions are read: what they call is what they do.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

FORBIDDEN = re.compile(
    r"^(_ZSt4(cout|cerr|clog|cin)|_ZSt[57](wcout|wcerr)|_ZNSt8ios_base4InitC1Ev"
    r"|.*printf(_chk)?|puts|putchar|fputs|fwrite|perror"
    r"|setlocale|localeconv|newlocale|uselocale|strto(d|f|ld)|ato(f|i|l)|sscanf"
    r"|_ZNSt6localeC\dEv|_ZNSt7__cxx11(4stod|4stof|5stold)E.*|_ZNSt7__cxx119to_stringE[dfe]"
    r"|getenv|time|clock|gettimeofday|rand|srand|random|exit|_exit|abort|system)$"
)
RELOCATION = re.compile(r"^[0-9a-f]+\s+[0-9a-f]+\s+R_\S+\s+[0-9a-f]+\s+([^\s@]+)", re.MULTILINE)
SECTION = re.compile(r"^Relocation section '\.rela(\S+)'", re.MULTILINE)
OBJECT = re.compile(r"^[0-9a-f]+ .{7} (\S+)\s+[0-9a-f]+ (\S+)$", re.MULTILINE)
CHANGING = re.compile(r"^(\.data(?!\.rel\.ro)|\.bss|\.tdata|\.tbss|\*COM\*)")


def relocations(binary: Path) -> Iterator[tuple[str, str]]:
    """(section, symbol called from it) of an object or archive."""
    text = subprocess.run(
        ["readelf", "-rW", binary], capture_output=True, text=True, check=True
    ).stdout
    parts = SECTION.split(text)
    for section, body in zip(parts[1::2], parts[2::2], strict=False):
        for symbol in RELOCATION.findall(body):
            yield section, symbol


def forbidden_calls(binary: Path) -> list[str]:
    """Forbidden symbols that a function of namespace feed refers to."""
    return sorted(
        f"{section} uses {symbol}"
        for section, symbol in relocations(binary)
        if "N4feed" in section and FORBIDDEN.match(symbol)
    )


def changing_variables(binary: Path) -> list[str]:
    """Variables of namespace feed in sections that a program may write to."""
    text = subprocess.run(["objdump", "-t", binary], capture_output=True, text=True, check=True)
    return sorted(
        name
        for section, name in OBJECT.findall(text.stdout)
        if "N4feed" in name and CHANGING.match(section)
    )


def compiled(source: Path, root: Path) -> Path:
    """An object file of the source with every inline function in a section of its own."""
    if shutil.which("g++") is None:
        pytest.skip("g++ is not installed")
    target = source.with_suffix(".o")
    subprocess.run(
        ["g++", "-std=c++20", "-O0", "-fkeep-inline-functions", "-ffunction-sections",
         "-I", str(root), "-c", str(source), "-o", str(target)],
        check=True,
    )  # fmt: skip
    return target


@pytest.fixture(scope="module")
def core_object(source_dir: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    source = tmp_path_factory.mktemp("core") / "core.cpp"
    source.write_text('#include "feed/feed.hpp"\n', encoding="utf-8")
    return compiled(source, source_dir / "libfeed" / "include")


def test_the_core_calls_nothing_forbidden(core_object: Path) -> None:
    assert any("N4feed" in section for section, _ in relocations(core_object))
    assert forbidden_calls(core_object) == []


def test_the_core_keeps_no_changing_state(core_object: Path) -> None:
    assert changing_variables(core_object) == []


def test_the_io_layer_calls_nothing_forbidden(package_dir: Path) -> None:
    library = package_dir / "libfeed" / "libfeed_io.a"
    assert library.is_file()
    assert forbidden_calls(library) == []
    assert changing_variables(library) == []


@pytest.mark.parametrize(
    ("body", "symbol"),
    [
        ('inline void f() { std::printf("%d", 1); }', "printf"),
        ('inline void f() { std::puts("x"); }', "puts"),
        ("inline std::string f(double x) { return std::to_string(x); }", "to_string"),
        ("inline double f(const char* t) { return std::strtod(t, nullptr); }", "strtod"),
        ('inline const char* f() { return std::getenv("HOME"); }', "getenv"),
        ("inline void f() { std::cout << 1; }", "cout"),
    ],
)
def test_a_forbidden_call_is_seen(tmp_path: Path, body: str, symbol: str) -> None:
    source = tmp_path / "bad.cpp"
    source.write_text(
        "#include <cstdio>\n#include <cstdlib>\n#include <iostream>\n#include <string>\n"
        f"namespace feed {{ {body} }}\n",
        encoding="utf-8",
    )
    calls = forbidden_calls(compiled(source, tmp_path))
    assert any(symbol in call for call in calls), calls


def test_changing_state_is_seen(tmp_path: Path) -> None:
    source = tmp_path / "state.cpp"
    source.write_text("namespace feed { int counter = 0; }\n", encoding="utf-8")
    assert changing_variables(compiled(source, tmp_path)) == ["_ZN4feed7counterE"]
