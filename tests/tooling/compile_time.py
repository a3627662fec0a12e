"""How long the headers that include much take to compile, as ratios; at most MOST.

Against a file that includes the same headers of the standard library and of Boost and nothing of
libfeed: the two are compiled by turns, and the shortest processor time of each counts. Neither a
busy machine nor a slow one changes the ratio much.
"""

from __future__ import annotations

import re
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

# One bin, which is what most programs need, and everything. Table and names are more than a third
# of it; to fall when they are read only where needed.
MOST = {"feed/bin.hpp": 9.0, "feed/feed.hpp": 12.0}
ROUNDS = 5
INCLUDE = Path(__file__).resolve().parents[2] / "libfeed" / "include"
SYSTEM = re.compile(r"^#include (<[^>]+>)", re.MULTILINE)
OWN = re.compile(r'^#include "(feed/[^"]+)"', re.MULTILINE)


def processor_seconds() -> float:
    """Of all programs run from here that have ended."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def system_headers(header: str, include: Path = INCLUDE) -> list[str]:
    """All headers that are not libfeed's, in the order in which they are met."""
    met: dict[str, None] = {}
    seen: set[str] = set()

    def read(name: str) -> None:
        if name in seen:
            return
        seen.add(name)
        text = (include / name).read_text(encoding="utf-8")
        for own in OWN.findall(text):
            read(own)
        met.update(dict.fromkeys(SYSTEM.findall(text)))

    read(header)
    return list(met)


def compile_seconds(source: Path) -> float:
    begin = processor_seconds()
    subprocess.run(
        ["g++", "-std=c++20", "-O0", f"-I{INCLUDE}", "-c", str(source), "-o", "/dev/null"],
        check=True,
    )
    return processor_seconds() - begin


def ratio_holds(header: str, most: float) -> bool:
    """Prints how long a header takes; whether that is little enough."""
    with tempfile.TemporaryDirectory() as folder:
        ours, theirs = Path(folder) / "ours.cpp", Path(folder) / "theirs.cpp"
        ours.write_text(f'#include "{header}"\nint main() {{}}\n', encoding="utf-8")
        headers = system_headers(header)
        lines = [f"#include {header}\n" for header in headers]
        theirs.write_text("".join(lines) + "int main() {}\n", encoding="utf-8")
        seconds = [(compile_seconds(ours), compile_seconds(theirs)) for _ in range(ROUNDS)]
    one, other = (min(column) for column in zip(*seconds, strict=True))
    print(
        f"{header} compiles in {one:.2f} seconds, its {len(headers)} system headers alone in "
        f"{other:.2f}: {one / other:.2f} times (at most {most})"
    )
    return bool(one <= most * other)


def main() -> int:
    held = [ratio_holds(header, most) for header, most in MOST.items()]
    return 0 if all(held) else 1


if __name__ == "__main__":
    sys.exit(main())
