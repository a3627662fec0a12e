"""Problems found in the table's files, each with the place it stands and the rule it breaks."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path


@dataclass(frozen=True, order=True)
class Place:
    """A line of a file."""

    file: str
    line: int


@dataclass(frozen=True, order=True)
class Problem:
    place: Place
    rule: str
    message: str

    def __str__(self) -> str:
        return f"{self.place.file}:{self.place.line}: {self.rule}: {self.message}"


@dataclass
class Problems:
    """Collects every problem; nothing is skipped and nothing is a mere warning."""

    root: Path
    found: list[Problem] = field(default_factory=list)

    def place(self, path: Path, line: int) -> Place:
        try:
            return Place(path.relative_to(self.root).as_posix(), line)
        except ValueError:
            return Place(path.as_posix(), line)

    def add(self, place: Place, rule: str, message: str) -> None:
        self.found.append(Problem(place, rule, message))
