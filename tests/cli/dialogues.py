"""Dialogues: what is typed, and every character that comes back.

A dialogue is a text file of parts. `--- file NAME` gives the content of a file, `--- bytes NAME`
the same with Python's escapes; `--- today DATE` the day on which it is held; `--- left NAME` what
is in a file afterwards; `--- feed ARGUMENTS` is a call, followed by `--- exit CODE` and,
where there is any output, `--- stdout` and `--- stderr`. Lines before the first part are remarks.
"""

from __future__ import annotations

import shlex
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path


@dataclass
class Call:
    """One call and what must come back."""

    arguments: list[str]
    code: int = 0
    stdout: str = ""
    stderr: str = ""


@dataclass
class Dialogue:
    """Files and the calls made beside them."""

    files: dict[str, bytes] = field(default_factory=dict)
    calls: list[Call] = field(default_factory=list)
    left: dict[str, bytes] = field(default_factory=dict)
    today: date | None = None


def read_dialogue(path: Path) -> Dialogue:
    """Reads one dialogue; a part that is not known is an error."""
    dialogue = Dialogue()
    parts = ("\n" + path.read_text(encoding="utf-8")).split("\n--- ")[1:]
    for part in parts:
        head, _, body = part.partition("\n")
        kind, _, rest = head.partition(" ")
        # The line feed before the next "--- " was taken by the split.
        text = body if body.endswith("\n") or not body else body + "\n"
        if kind == "file":
            dialogue.files[rest] = text.encode("utf-8")
        elif kind == "bytes":
            dialogue.files[rest] = text.encode("utf-8").decode("unicode_escape").encode("latin-1")
        elif kind == "left":
            dialogue.left[rest] = text.encode("utf-8")
        elif kind == "today":
            dialogue.today = date.fromisoformat(rest)
        elif kind == "feed":
            dialogue.calls.append(Call(shlex.split(rest)))
        elif kind == "exit":
            dialogue.calls[-1].code = int(rest)
        elif kind in ("stdout", "stderr"):
            setattr(dialogue.calls[-1], kind, text)
        else:
            raise ValueError(f"{path}: no part is called {kind!r}")
    if not dialogue.calls:
        raise ValueError(f"{path}: no call")
    return dialogue
