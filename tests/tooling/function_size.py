"""No function over 80 lines or a cyclomatic complexity of 20, counted by lizard.

    function_size.py [--update]

Those that are larger today stand in large_functions.yaml with their size. The list can only shrink:
a larger one, a new one and an entry that is no longer needed are errors. --update takes entries out
and lowers sizes; it adds nothing.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

import lizard
import yaml

ROOT = Path(__file__).resolve().parents[2]
LIST = Path(__file__).resolve().parent / "large_functions.yaml"
MOST_LINES, MOST_COMPLEXITY = 80, 20
PATTERNS = ("*.hpp", "*.cpp", "*.h", "*.c", "*.py", "*.mjs")
# Written by a generator, which is what has to be read.
NOT_WRITTEN_BY_HAND = ("/generated/", "_core.pyi")


@dataclass(frozen=True)
class Size:
    lines: int
    complexity: int

    def too_large(self) -> bool:
        return self.lines > MOST_LINES or self.complexity > MOST_COMPLEXITY

    def fits(self, allowed: Size) -> bool:
        return self.lines <= max(allowed.lines, MOST_LINES) and self.complexity <= max(
            allowed.complexity, MOST_COMPLEXITY
        )


Sizes = dict[str, Size]  # by "file: function"


def measured(root: Path, names: Iterable[str]) -> Sizes:
    """All functions that are too large. Of several with one name in a file, the largest of each."""
    sizes: Sizes = {}
    for name in names:
        for function in lizard.analyze_file(str(root / name)).function_list:
            size = Size(function.length, function.cyclomatic_complexity)
            if not size.too_large():
                continue
            key = f"{name}: {function.name}"
            other = sizes.get(key, size)
            sizes[key] = Size(max(size.lines, other.lines), max(size.complexity, other.complexity))
    return sizes


def problems(sizes: Mapping[str, Size], allowed: Mapping[str, Size]) -> list[str]:
    found = []
    for key, size in sorted(sizes.items()):
        said = f"{size.lines} lines, complexity {size.complexity}"
        if key not in allowed:
            found.append(f"{key}: {said} (at most {MOST_LINES} and {MOST_COMPLEXITY})")
        elif not size.fits(allowed[key]):
            known = allowed[key]
            found.append(f"{key}: {said}, was {known.lines} and {known.complexity}")
    found += [
        f"{key}: no longer too large; take it off the list (--update)"
        for key in sorted(set(allowed) - set(sizes))
    ]
    return found


def read_list(path: Path) -> Sizes:
    content = yaml.safe_load(path.read_text(encoding="utf-8")) or {}
    return {key: Size(int(pair[0]), int(pair[1])) for key, pair in content.items()}


HEADING = """\
# Functions over 80 lines or a cyclomatic complexity of 20: [lines, complexity]. This list can only
# shrink; function_size.py says how it is kept.
"""


def written(sizes: Mapping[str, Size]) -> str:
    return HEADING + "".join(
        f'"{key}": [{size.lines}, {size.complexity}]\n' for key, size in sorted(sizes.items())
    )


def main(words: list[str]) -> int:
    done = subprocess.run(
        ["git", "ls-files", "-z", *PATTERNS], cwd=ROOT, capture_output=True, text=True, check=True
    )
    names = [
        name
        for name in done.stdout.split("\0")
        if name and not any(part in f"/{name}" for part in NOT_WRITTEN_BY_HAND)
    ]
    sizes, allowed = measured(ROOT, names), read_list(LIST)
    if words == ["--update"]:
        kept = {
            key: Size(min(size.lines, allowed[key].lines),
                      min(size.complexity, allowed[key].complexity))
            for key, size in sizes.items()
            if key in allowed
        }  # fmt: skip
        LIST.write_text(written(kept), encoding="utf-8")
        allowed = kept
    found = problems(sizes, allowed)
    print("\n".join(found))
    print(f"{len(names)} files read, {len(sizes)} large functions, {len(found)} problems")
    return 1 if found or not names else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
