"""Writes a copy of the core in which every place that can be changed is a switch.

    instrument.py SOURCE_INCLUDE TARGET_INCLUDE MUTANTS.json

The rules look at the source only, as libclang reads it; nothing is picked by hand:

- a comparison takes in or leaves out its end (< and <=), == turns into !=;
- + and -, * and / change places; the right operand of + - * / && || is dropped, so is a += or -=;
- a number grows by a tenth (0 becomes 1, a whole number grows by 1);
- std::min and std::max change places; std::clamp does nothing;
- a condition or truth value is turned round;
- an enumerator becomes the next of its enumeration, a member of a struct the next of the same type;
- two neighbouring rows of a table change places.

Constants and tables lose their `constexpr` in the copy, so that what is in them can change at run
time; whole numbers keep it, since they size arrays. What no longer compiles is put back and listed
with the compiler's words: `left_out` in MUTANTS.json.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import clang.cindex as clang
from mutant_rules import FileSites, Site

HEADER = Path(__file__).resolve().parent / "mutants" / "mutant.hpp"
# Read and written by io, or not code: not the core.
NOT_CORE = ("io", "generated", "text")


@dataclass
class Mutant:
    id: int
    layer: str
    file: str
    line: int
    change: str
    source: str  # the text that is changed
    key: str = ""  # stays the same when lines move


def rendered(text: bytes, sites: Iterable[Site]) -> bytes:
    """The text with the switches of these sites in it. Lines stay where they are."""
    pieces: list[tuple[int, int, int, int, int, str]] = []
    covered = []
    for site in sites:
        for start, end, new in site.replaces:
            covered.append((start, end))
            pieces.append((start, 2, 0, end, 0, new.replace("@0", str(site.first))))
        for place, opening, extent, new in site.inserts:
            # At one place what closes stands before what opens; an inner one closes first, an
            # outer one opens first.
            order = -extent if opening else extent
            pieces.append(
                (place, 1 if opening else 0, order, place, 0, new.replace("@0", str(site.first)))
            )
    pieces.sort()
    made: list[bytes] = []
    done = 0
    for place, _, _, end, _, new in pieces:
        if place < done:  # inside what was replaced as a whole
            continue
        kept = text[done:place]
        gap = text[place:end]
        made += [kept, new.encode(), b"\n" * gap.count(b"\n")]
        done = end
    made.append(text[done:])
    return b"".join(made)


def arguments() -> list[str]:
    """What libclang needs to find the headers of Clang 14 and the standard library."""
    found = subprocess.run(
        ["clang++-14", "-print-resource-dir"], capture_output=True, text=True, check=True
    )
    return ["-std=c++20", "-resource-dir", found.stdout.strip(), "-ferror-limit=0",
            "-Wno-everything", "-Wno-invalid-constexpr"]  # fmt: skip


def parse(include: Path, extra: list[str]) -> clang.TranslationUnit:
    everything = "everything.cpp"
    return clang.Index.create().parse(
        everything,
        args=[*arguments(), f"-I{include}", *extra],
        unsaved_files=[(everything, '#include "feed/feed.hpp"\n')],
    )


def layer_of(include: Path, path: Path) -> str | None:
    """The layer of a core header, or None."""
    parts = path.relative_to(include / "feed").parts
    if len(parts) < 2 or any(part in NOT_CORE for part in parts):
        return None
    return parts[1] if parts[0] == "detail" and len(parts) > 2 else parts[0]


def all_sites(include: Path) -> dict[Path, FileSites]:
    unit = parse(include, [])
    for problem in unit.diagnostics:
        if problem.severity >= clang.Diagnostic.Error:
            raise RuntimeError(f"the source does not compile: {problem}")
    files: dict[Path, FileSites] = {}
    for cursor in unit.cursor.get_children():
        if cursor.location.file is None:
            continue
        path = Path(cursor.location.file.name)
        if include not in path.parents or layer_of(include, path) is None:
            continue
        files.setdefault(path, FileSites(path)).walk(cursor, unit.cursor)
    return files


def numbered(files: dict[Path, FileSites]) -> int:
    count = 0
    for path in sorted(files):
        for site in sorted(files[path].sites, key=lambda site: site.line):
            site.first = count
            count += len(site.changes)
    return count


def write(include: Path, target: Path, files: dict[Path, FileSites]) -> None:
    for path, found in files.items():
        (target / path.relative_to(include)).write_bytes(rendered(found.text, found.sites))


def blamed(
    include: Path,
    target: Path,
    files: dict[Path, FileSites],
    places: Iterable[tuple[str, int, str]],
) -> list[tuple[Path, Site, str]]:
    """The sites on lines that a compiler complains of."""
    found = []
    for name, line, message in places:
        written = Path(name)
        if target not in written.parents:
            continue
        path = include / written.relative_to(target)
        if path in files:
            found += [(path, site, message) for site in files[path].sites if site.line == line]
    return found


def complaints(unit: clang.TranslationUnit) -> Iterator[tuple[str, int, str]]:
    """Places of errors and of the notes to them."""
    for problem in unit.diagnostics:
        if problem.severity < clang.Diagnostic.Error:
            continue
        for one in (problem, *problem.children):
            if one.location.file is not None:
                yield one.location.file.name, one.location.line, problem.spelling


def keyed(mutants: list[Mutant]) -> None:
    """Names that outlive moved lines: file, change, text, and which of several alike."""
    seen: dict[str, int] = {}
    for mutant in mutants:
        stem = f"{mutant.file} | {mutant.change} | {mutant.source}"
        seen[stem] = seen.get(stem, 0) + 1
        mutant.key = f"{stem} | {seen[stem]}"


def listed(include: Path, files: dict[Path, FileSites]) -> list[Mutant]:
    mutants = []
    for path in sorted(files):
        layer = layer_of(include, path) or ""
        name = str(path.relative_to(include / "feed"))
        for site in sorted(files[path].sites, key=lambda site: site.first):
            for number, change in enumerate(site.changes):
                mutants.append(
                    Mutant(site.first + number, layer, name, site.line, change, site.source)
                )
    keyed(mutants)
    return mutants


def drop(
    files: dict[Path, FileSites],
    wrong: Iterable[tuple[Path, Site, str]],
    left_out: list[dict[str, Any]],
) -> int:
    count = 0
    for path, site, message in wrong:
        if site in files[path].sites:
            files[path].sites.remove(site)
            count += 1
            if site.changes:
                left_out.append({"file": path.name, "line": site.line, "source": site.source,
                                 "mutants": len(site.changes), "why": message})  # fmt: skip
    return count


def instrument(
    include: Path, target: Path, record: Path, more: Iterable[tuple[str, int, str]] = ()
) -> list[Mutant]:
    """Copies the headers and writes the switches into the core; `more`: places that other
    compilations complained of. Returns the mutants, also written to `record`."""
    if target.exists():
        shutil.rmtree(target)
    shutil.copytree(include, target)
    shutil.copy(HEADER, target / "feed" / "mutant.hpp")
    files = all_sites(include)
    left_out: list[dict[str, Any]] = []
    drop(files, blamed(include, target, files, more), left_out)
    for _ in range(12):
        numbered(files)
        write(include, target, files)
        unit = parse(target, ["-include", str(target / "feed" / "mutant.hpp")])
        problems = list(complaints(unit))
        if not problems:
            break
        if not drop(files, blamed(include, target, files, problems), left_out):
            raise RuntimeError(f"cannot tell which switch is wrong: {problems[:3]}")
    else:
        raise RuntimeError(f"still does not compile: {problems[:3]}")
    mutants = listed(include, files)
    record.write_text(
        json.dumps({"mutants": [asdict(each) for each in mutants], "left_out": left_out}, indent=1),
        encoding="utf-8",
    )
    return mutants


def main(words: list[str]) -> int:
    include, target, record = (Path(word).resolve() for word in words)
    mutants = instrument(include, target, record)
    layers: dict[str, int] = {}
    for mutant in mutants:
        layers[mutant.layer] = layers.get(mutant.layer, 0) + 1
    print(f"{len(mutants)} mutants: " + ", ".join(f"{name} {n}" for name, n in layers.items()))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
