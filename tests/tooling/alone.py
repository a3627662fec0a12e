"""Each source read by itself includes all it uses: joined with others a header may be lent.

alone.py BUILD_DIR [--share N] [--seed N]. BUILD_DIR is configured without FEED_JOIN_SOURCES and
FEED_PRECOMPILE_HEADERS; its compiler reads the sources and makes nothing. With --share one in N is
read, others with another seed.
"""

from __future__ import annotations

import argparse
import json
import os
import shlex
import subprocess
import sys
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path


def one_in(share: int, names: Iterable[str], seed: int) -> list[str]:
    """One in `share` of the names, in order: every seed of 0 to share - 1 takes others."""
    return sorted(names)[seed % share :: share]


def wanted(entries: list[dict[str, str]], share: int, seed: int) -> list[dict[str, str]]:
    """One in `share` of the sources."""
    by_file = {entry["file"]: entry for entry in entries}
    return [by_file[file] for file in one_in(share, by_file, seed)]


def problem(entry: dict[str, str]) -> str:
    """What the compiler says of a source read alone; empty where nothing."""
    words = shlex.split(entry["command"])
    if "ccache" in words[0]:
        words = words[1:]
    place = words.index("-o")
    command = [*words[:place], *words[place + 2 :], "-fsyntax-only"]
    done = subprocess.run(
        command, cwd=entry["directory"], capture_output=True, text=True, check=False
    )
    return f"{entry['file']}\n{done.stderr}" if done.returncode else ""


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("build_dir", type=Path)
    parser.add_argument("--share", type=int, default=1)
    parser.add_argument("--seed", type=int, default=0)
    given = parser.parse_args()
    entries = json.loads((given.build_dir / "compile_commands.json").read_text(encoding="utf-8"))
    some = wanted(entries, given.share, given.seed)
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        problems = [text for text in pool.map(problem, some) if text]
    print("\n".join(problems))
    print(f"{len(some)} of {len(entries)} sources read alone, {len(problems)} with problems")
    return 1 if problems or not some else 0


if __name__ == "__main__":
    sys.exit(main())
