"""Write the core as one header: amalgamate.py [OUTPUT], by default feed_single.hpp.

Puts in the place of each #include of a feed header its text, once. Standard and Boost includes
stay, each once, where they first stood. The result is made for a release and never committed.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
INCLUDE_ROOT = ROOT / "libfeed" / "include"
OWN = re.compile(r'^\s*#\s*include\s*"(feed/[^"]+)"\s*(?://.*)?$')
OTHER = re.compile(r"^\s*#\s*include\s*(<[^>]+>)\s*(?://.*)?$")


def amalgamated(first: str, include_root: Path = INCLUDE_ROOT) -> str:
    """The text of header `first`, given relative to include_root, with all that it includes."""
    own_done: set[str] = set()
    others_done: set[str] = set()
    lines: list[str] = []

    def add(name: str) -> None:
        if name in own_done:
            return
        own_done.add(name)
        for line in (include_root / name).read_text(encoding="utf-8").splitlines():
            own = OWN.match(line)
            other = OTHER.match(line)
            if own:
                add(own.group(1))
            elif other:
                if other.group(1) not in others_done:
                    others_done.add(other.group(1))
                    lines.append(line)
            elif line.strip() != "#pragma once":
                lines.append(line)

    add(first)
    text = "\n".join(lines)
    return re.sub(r"\n{3,}", "\n\n", text).strip() + "\n"


def main(arguments: list[str]) -> int:
    output = Path(arguments[0]) if arguments else Path("feed_single.hpp")
    licence = "".join(
        f"// {line}".rstrip() + "\n"
        for line in (ROOT / "LICENSE").read_text(encoding="utf-8").splitlines()
    )
    head = "#pragma once\n// libfeed in one header, written by libfeed/tools/amalgamate.py.\n//\n"
    output.write_text(head + licence + "\n" + amalgamated("feed/feed.hpp"), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
