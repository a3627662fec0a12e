"""The code blocks of the project's Markdown pages: find them, run them, renew their output.

What becomes of a block depends on the word after its fence:

    console   lines that begin with "$ " are commands, the lines below each are its exact output
    sh        run with `sh -eu`; must succeed
    yaml      a whole file (it begins with `libfeed: 1`) must be understood by `feed`; a part of one
              must be YAML
    json      must be JSON
    cpp, c    compiled without a warning and run; without a main, the block is the body of one
    python    run
    cmake     configured as a project against the installed library
    text      shown only

A comment `<!-- not run: REASON -->` on the line before keeps a block from being run; any other
block without a word, or with another word, is an error. A comment `<!-- today: DATE -->` there
makes it that day; else all blocks are of one day. After `<!-- from: FILE -->` the block is
that whole file, word for word: pages quote the examples and never copy them by hand.

    blocks.py --update FEED    write the output that console blocks have now, and the files that
                               others quote, into the pages
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from datetime import date, datetime, time, timezone
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGES_DAY = date(2026, 5, 2)  # what "today" is in the pages
KINDS = {"console", "sh", "yaml", "json", "cpp", "c", "python", "cmake", "text"}
NOT_RUN = re.compile(r"^\s*<!-- not run: (\S.*) -->\s*$")
ON_DAY = re.compile(r"^\s*<!-- today: (\d{4}-\d\d-\d\d) -->\s*$")
QUOTED = re.compile(r"^\s*<!-- from: (\S+) -->\s*$")
FENCE = re.compile(r"^(```+)\s*(\S*)\s*$")


@dataclass(frozen=True)
class Block:
    """One fenced block: its page, the number of its first line, its word and its text; the file
    that it quotes, if any.
    """

    page: Path
    line: int
    kind: str
    text: str
    not_run: str
    quoted: str = ""
    today: date = PAGES_DAY

    @property
    def place(self) -> str:
        return f"{self.page.relative_to(ROOT)}:{self.line}"


@dataclass(frozen=True)
class Step:
    """A command of a console block and the output the page gives for it."""

    command: str
    output: str


def pages() -> list[Path]:
    """Every Markdown page of the project."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard", "*.md"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return [ROOT / name for name in listed.stdout.split() if (ROOT / name).is_file()]


def blocks_of(page: Path, text: str) -> list[Block]:
    """The blocks of a page in order. Raises ValueError for one that is not closed."""
    found: list[Block] = []
    before = ""
    lines = text.split("\n")
    at = 0
    while at < len(lines):
        opened = FENCE.match(lines[at])
        if opened:
            first = at + 1
            at = first
            while at < len(lines) and lines[at].rstrip() != opened.group(1):
                at += 1
            if at == len(lines):
                raise ValueError(f"{page}:{first}: the block is not closed")
            reason, quoted = NOT_RUN.match(before), QUOTED.match(before)
            body = "\n".join(lines[first:at]) + "\n"
            not_run = reason.group(1) if reason else ""
            file = quoted.group(1) if quoted else ""
            day = ON_DAY.match(before)
            today = date.fromisoformat(day.group(1)) if day else PAGES_DAY
            found.append(Block(page, first + 1, opened.group(2), body, not_run, file, today))
        if lines[at].strip():
            before = lines[at]
        at += 1
    return found


def steps_of(block: Block) -> list[Step]:
    """The commands of a console block, each with the output below it."""
    steps: list[Step] = []
    for line in block.text.splitlines():
        if line.startswith("$ "):
            steps.append(Step(line[2:], ""))
        elif steps:
            last = steps.pop()
            steps.append(Step(last.command, f"{last.output}{line}\n"))
        else:
            raise ValueError(f"{block.place}: a console block begins with a command")
    return steps


class Playground:
    """A folder with a copy of examples/, where commands run with `feed` on the path."""

    def __init__(self, folder: Path, feed: Path) -> None:
        self.folder = folder
        shutil.copytree(ROOT / "examples", folder / "examples", dirs_exist_ok=True)
        path = f"{feed.parent}{os.pathsep}{os.environ['PATH']}"
        self.environment = {**os.environ, "PATH": path, "LC_ALL": "C.UTF-8"}

    def run(self, command: str, today: date = PAGES_DAY) -> subprocess.CompletedProcess[str]:
        """Standard output and error together, as a person at a terminal sees them. On a day of its
        own, so that a page says the same whenever it is read.
        """
        noon = datetime.combine(today, time(12), timezone.utc)
        return subprocess.run(
            ["sh", "-eu", "-c", command],
            cwd=self.folder,
            env={**self.environment, "SOURCE_DATE_EPOCH": str(int(noon.timestamp()))},
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            check=False,
        )


def without_trailing_blanks(text: str) -> str:
    """Blanks at line ends and empty lines at the end do not show on a page."""
    return "\n".join(line.rstrip() for line in text.splitlines()).rstrip("\n") + "\n"


def renewed(block: Block, playground: Playground) -> str:
    """The text of a console block with the output that its commands have now."""
    text = ""
    for step in steps_of(block):
        output = playground.run(step.command, block.today).stdout
        text += f"$ {step.command}\n" + without_trailing_blanks(output).lstrip("\n")
    return text


def quoted(block: Block) -> str:
    """The file that a block quotes; blank lines at its end do not show."""
    return (ROOT / block.quoted).read_text(encoding="utf-8").rstrip("\n") + "\n"


def update(feed: Path) -> None:
    """Writes the present output into every page's console blocks."""
    for page in pages():
        text = page.read_text(encoding="utf-8")
        for block in blocks_of(page, text):
            if block.kind == "console" and not block.not_run:
                with tempfile.TemporaryDirectory() as folder:
                    new = renewed(block, Playground(Path(folder), feed))
                text = text.replace(f"```console\n{block.text}```", f"```console\n{new}```")
            elif block.quoted:
                comment = f"<!-- from: {block.quoted} -->\n```{block.kind}\n"
                text = text.replace(f"{comment}{block.text}```", f"{comment}{quoted(block)}```")
        page.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 3 or sys.argv[1] != "--update":
        sys.exit(__doc__)
    update(Path(sys.argv[2]).resolve())
