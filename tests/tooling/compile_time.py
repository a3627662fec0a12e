"""Seconds that g++ -O0 takes for a file that includes feed/feed.hpp: best of three, at most 3."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

LIMIT_SECONDS = 3.0
INCLUDE = Path(__file__).resolve().parents[2] / "libfeed" / "include"


def compile_seconds(source: Path) -> float:
    begin = time.perf_counter()
    subprocess.run(
        ["g++", "-std=c++20", "-O0", f"-I{INCLUDE}", "-c", str(source), "-o", "/dev/null"],
        check=True,
    )
    return time.perf_counter() - begin


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "everything.cpp"
        source.write_text('#include "feed/feed.hpp"\nint main() {}\n', encoding="utf-8")
        best = min(compile_seconds(source) for _ in range(3))
    print(f"feed/feed.hpp compiles in {best:.2f} seconds (at most {LIMIT_SECONDS})")
    return 0 if best <= LIMIT_SECONDS else 1


if __name__ == "__main__":
    sys.exit(main())
