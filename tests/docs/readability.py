"""Writes docs/readability.md: length and reading level of the first screens, before and now.

readability.py BEFORE NOW, two builds of the command. The screens are those of the test
(tests/cli/screens.py). A screen that a command refuses is left out.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

SOURCE = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(SOURCE / "tests" / name) for name in ("cli", "tooling")]

from screens import (  # noqa: E402
    HIGHEST_GRADE,
    LONGEST_SENTENCE,
    MOST_LINES,
    MOST_WORDS,
    all_screens,
    run,
    summary,
)

PAGE = SOURCE / "docs" / "readability.md"
HEAD = f"""# How long and how plain the first screens are

Made by `tests/docs/readability.py` from the screens that `tests/cli/test_screens.py` reads: every
verb on all examples, the reference mixtures, and many bins, caddies, signs and notes (invented), in
metric and US units. A screen that a command refuses is left out. Allowed are {MOST_LINES} lines,
{MOST_WORDS} words, {LONGEST_SENTENCE} words a sentence, and on average a reading level of
{HIGHEST_GRADE:g} years of school (Flesch and Kincaid, by textstat). Amounts count as short words,
so the level of a screen of amounts is low; the longest sentence tells more. Words are what stands
between blanks; a strip of days counts as lines and words, not as a sentence. Lists (`week`,
`table`, the sheet) may be longer; the sentences of a week are held like all others.
"""
BEFORE = """
## Before

The command as of commit a3f969c, which knew no `ration`, `note` and `start`.

"""


def table(feed_command: Path) -> str:
    with tempfile.TemporaryDirectory() as folder:
        screens = run(feed_command, all_screens(), Path(folder))
    rows = summary(screens)
    keys = list(next(iter(rows.values())))
    lines = ["| verb | " + " | ".join(keys) + " |", "|---" * (len(keys) + 1) + "|"]
    for verb, row in rows.items():
        lines.append(f"| {verb} | " + " | ".join(f"{row[key]:g}" for key in keys) + " |")
    return "\n".join(lines) + "\n"


def main() -> None:
    before, now = (Path(name).resolve() for name in sys.argv[1:3])
    text = HEAD + BEFORE
    text += table(before)
    text += "\n## Now\n\n" + table(now)
    PAGE.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
