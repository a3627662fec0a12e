"""clang-tidy over libfeed/src, bindings and one file that includes every header.

clang_tidy.py BUILD_DIR. The checks are in .clang-tidy; any finding fails. Configured with
FEED_JOIN_SOURCES, a dozen sources are read as one: the core's headers are most of what is read.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def findings(arguments: list[str]) -> str:
    done = subprocess.run(
        # Joined sources are included by their names.
        [
            "clang-tidy-14",
            "--quiet",
            "--warnings-as-errors=*",
            "--checks=-bugprone-suspicious-include",
            *arguments,
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    return done.stdout + done.stderr if done.returncode else ""


def main(build_dir: Path) -> int:
    entries = json.loads((build_dir / "compile_commands.json").read_text(encoding="utf-8"))
    # Joined sources stand in the build's folder of the same name.
    folders = ("libfeed/src", "libfeed/CMakeFiles", "bindings")
    wanted = tuple(
        f"{base}/{folder}/" for base in (ROOT, build_dir.resolve()) for folder in folders
    )
    files = sorted({entry["file"] for entry in entries if entry["file"].startswith(wanted)})
    with tempfile.TemporaryDirectory() as folder:
        everything = Path(folder) / "everything.cpp"
        everything.write_text('#include "feed/feed.hpp"\n', encoding="utf-8")
        jobs = [["-p", str(build_dir), file] for file in files]
        jobs.append([str(everything), "--", "-std=c++20", f"-I{ROOT / 'libfeed' / 'include'}"])
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            texts = [text for text in pool.map(findings, jobs) if text]
    print("\n".join(texts))
    print(f"{len(jobs)} files read, {len(texts)} with findings")
    return 1 if texts else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
