"""Which branches of the library the tests take, by layer, from what gcov counted.

    branch_coverage.py BUILD_DIR [--list]

BUILD_DIR: built with the preset `coverage`, its tests run. A branch that only an exception takes is
left out. A header is compiled into many programs: a branch counts as taken if any of them took it.
At least 95 % of the core and 90 % of reading and writing (io) have to be taken; --list names the
lines that have a branch nobody took.
"""

from __future__ import annotations

import argparse
import gzip
import json
import subprocess
import sys
import tempfile
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
LEAST_CORE, LEAST_IO = 0.95, 0.90
NOT_COUNTED = ("generated",)

# file -> line -> the branches of each shape that was compiled there: how often each was taken
Branches = dict[str, dict[int, dict[int, list[int]]]]


def layer_of(name: str) -> str | None:
    """The layer of a file of the library, or None."""
    parts = Path(name).parts
    if any(part in NOT_COUNTED for part in parts):
        return None
    if parts[:2] == ("libfeed", "src"):
        return "io"
    if parts[:3] == ("libfeed", "include", "feed") and len(parts) > 4:
        return parts[3]
    return None


def add(found: Branches, record: dict[str, Any], root: Path) -> None:
    """Adds one program's counts. One line may be compiled in several shapes (templates, inlining);
    branches are joined with those of the same shape."""
    for file in record["files"]:
        path = Path(file["file"])
        full = path if path.is_absolute() else Path(record["current_working_directory"]) / path
        try:
            name = str(full.resolve().relative_to(root))
        except ValueError:
            continue
        if layer_of(name) is None:
            continue
        lines = found.setdefault(name, {})
        for line in file["lines"]:
            counts = [branch["count"] for branch in line["branches"] if not branch["throw"]]
            if not counts:
                continue
            shapes = lines.setdefault(line["line_number"], {})
            known = shapes.setdefault(len(counts), [0] * len(counts))
            shapes[len(counts)] = [a + b for a, b in zip(known, counts, strict=True)]


def counted(data: Path) -> list[dict[str, Any]]:
    """What gcov makes of one .gcda file."""
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(
            ["gcov", "--json-format", "--branch-probabilities", str(data)],
            cwd=folder,
            capture_output=True,
            check=False,
        )
        if done.returncode:
            raise RuntimeError(done.stderr.decode("utf-8", "replace"))
        return [
            json.loads(gzip.decompress(path.read_bytes()))
            for path in Path(folder).glob("*.gcov.json.gz")
        ]


def all_branches(data: Iterable[Path], root: Path) -> Branches:
    found: Branches = {}
    with ThreadPoolExecutor() as pool:
        for records in pool.map(counted, data):
            for record in records:
                add(found, record, root)
    return found


def shares(found: Branches) -> dict[str, tuple[int, int]]:
    """Branches taken and all branches, by layer. Of several shapes of a line the best counts."""
    layers: dict[str, tuple[int, int]] = {}
    for name, lines in found.items():
        layer = layer_of(name) or ""
        taken, whole = layers.get(layer, (0, 0))
        for shapes in lines.values():
            best = max(shapes.values(), key=lambda counts: sum(map(bool, counts)) / len(counts))
            taken += sum(map(bool, best))
            whole += len(best)
        layers[layer] = (taken, whole)
    return layers


def not_taken(found: Branches) -> list[str]:
    return [
        f"{name}:{line}"
        for name, lines in sorted(found.items())
        for line, shapes in sorted(lines.items())
        if not any(all(counts) for counts in shapes.values())
    ]


def main(words: list[str]) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("build_dir", type=Path)
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--root", type=Path, default=ROOT)
    wanted = parser.parse_args(words)
    root = wanted.root.resolve()
    found = all_branches(wanted.build_dir.resolve().rglob("*.gcda"), root)
    if wanted.list:
        print("\n".join(not_taken(found)))
    layers = shares(found)
    if not layers:
        print("no counts: run the tests of this build first")
        return 1
    print("| Layer | branches | taken | share |\n|---|---|---|---|")
    core = [0, 0]
    for layer, (taken, whole) in sorted(layers.items()):
        print(f"| {layer} | {whole} | {taken} | {100.0 * taken / whole:.1f} % |")
        if layer != "io":
            core = [core[0] + taken, core[1] + whole]
    io_taken, io_whole = layers.get("io", (0, 0))
    print(f"| core, all | {core[1]} | {core[0]} | {100.0 * core[0] / max(core[1], 1):.1f} % |")
    return 0 if core[0] >= LEAST_CORE * core[1] and io_taken >= LEAST_IO * io_whole else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
