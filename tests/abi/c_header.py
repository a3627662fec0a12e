"""Reads the prototypes of the C header, for the parity, NULL-pointer and documentation tests."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
HEADER = ROOT / "bindings/c/include/feed/feed.h"
SYMBOLS = ROOT / "bindings/c/symbols.txt"


@dataclass(frozen=True)
class Parameter:
    """One parameter: its type as written, without its name, and its name."""

    type: str
    name: str

    @property
    def is_pointer(self) -> bool:
        return self.type.endswith("*")


@dataclass(frozen=True)
class Function:
    """One prototype with the comment that stands before it."""

    name: str
    returns: str
    parameters: tuple[Parameter, ...]
    comment: str


def _parameter(text: str) -> Parameter:
    match = re.fullmatch(r"(.*?[\s*])(\w+)", " ".join(text.split()))
    if match is None:
        raise ValueError(f"cannot read the parameter {text!r}")
    return Parameter(match[1].replace(" *", "*").strip(), match[2])


def functions() -> list[Function]:
    """Every function of the header, in its order."""
    pattern = re.compile(
        r"(?:/\*(?P<comment>(?:(?!\*/).)*)\*/\s*)?"
        r"FEED_API\s+(?P<returns>\w+)\s+(?P<name>feed_\w+)\((?P<parameters>[^)]*)\);",
        re.DOTALL,
    )
    found = []
    for match in pattern.finditer(HEADER.read_text(encoding="utf-8")):
        parameters = tuple(_parameter(part) for part in match["parameters"].split(","))
        found.append(Function(match["name"], match["returns"], parameters, match["comment"] or ""))
    return found


def listed_symbols() -> list[str]:
    """The functions of symbols.txt, in its order."""
    lines = SYMBOLS.read_text(encoding="utf-8").splitlines()
    return [line for line in lines if line.startswith("feed_")]
