"""Headers as they were before, or will be after, each struct grew: made from feed.h.

A struct that may grow begins with struct_size. The longer header appends one member to each of
them, the shorter one lacks the last member of each.
"""

from __future__ import annotations

import re
from pathlib import Path

from c_header import HEADER

LATER = "later_member"
STRUCT = re.compile(r"(typedef struct \w+ \{\n    uint32_t struct_size;.*?)(\n\} \w+;)", re.DOTALL)
INITIALISER = re.compile(
    r"(#define FEED_\w+_INIT\s*\\\n\s*\{\s*\\?\s*sizeof.*?)(\s*\\?\s*\}\n)", re.DOTALL
)


def longer() -> str:
    """feed.h with `double later_member;` at the end of each struct that may grow."""
    text = STRUCT.sub(rf"\1\n    double {LATER};\2", HEADER.read_text(encoding="utf-8"))
    return INITIALISER.sub(r"\1, 0\2", text)


def shorter() -> str:
    """feed.h without the last member of each struct that may grow, and of its initialiser."""

    def cut(match: re.Match[str]) -> str:
        without_remarks = re.sub(r"/\*.*?\*/", "", match[1], flags=re.DOTALL)
        members = without_remarks.rstrip().rstrip(";").split(";")
        return ";".join(members[:-1]) + ";" + match[2]

    text = STRUCT.sub(cut, HEADER.read_text(encoding="utf-8"))
    return INITIALISER.sub(lambda m: m[1].rpartition(",")[0] + m[2], text)


def write(folder: Path, text: str) -> Path:
    """Puts a header where `#include <feed/feed.h>` finds it; the folder to search."""
    header = folder / "feed" / "feed.h"
    header.parent.mkdir(parents=True)
    header.write_text(text, encoding="utf-8")
    return folder
