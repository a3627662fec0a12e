"""Problems found in the table's files, each with the place it stands and the rule it breaks."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

# Every rule of the checker; each has a bad file in tests/data/bad.
RULES = {
    "missing-file": "a file of the table cannot be read",
    "encoding": "a file is not UTF-8",
    "syntax": "a file is not YAML, or empty",
    "anchor": "YAML anchors are not used in the table",
    "wrong-kind": "text, a list or a mapping stands where another is wanted",
    "duplicate-key": "a key or tag stands twice",
    "unknown-key": "a key the table does not know",
    "missing-key": "a key that must be there is missing or empty",
    "wrong-group": "a file names another group than its own",
    "bad-id": "an id is not words of a-z and 0-9 parted by hyphens",
    "duplicate-id": "an id stands twice",
    "unsorted-id": "ids are not in order",
    "duplicate-alias": "a name belongs to two feedstocks",
    "alias-is-id": "a name of one feedstock is the id of another",
    "bad-part": "ranks or parts of a word that names several parts do not fit together",
    "bad-sold-as": "what a soaked bedding is sold as is no drier bedding",
    "unknown-kind": "a kind that properties.yaml does not have",
    "unknown-role": "a role that does not exist",
    "unknown-caution": "a caution that does not exist",
    "unknown-stance": "a stance that does not exist",
    "unknown-reason": "a reason for a cap that properties.yaml does not have",
    "cap-over-budget": "a cap that brings more than the stated amount of something",
    "cap-against-reason": "a cap that its stated reason does not explain",
    "barred-without-words": "a barred row without a short why and instead, or words without bar",
    "unknown-decay-class": "a decay class that does not exist",
    "unknown-pool-rule": "a pool rule that properties.yaml does not have",
    "unknown-measure": "a household measure outside the fixed list",
    "unknown-unit": "a unit other than the one of the property",
    "wrong-basis": "a basis other than the one of the property",
    "bad-number": "not a plain decimal number",
    "bad-mass": "a mass that is zero or negative",
    "half-range": "only one end of a range",
    "low-above-high": "the low end is above the high end",
    "value-outside-range": "the value is not between its low and high",
    "percent-over-100": "a percentage above what a whole can hold",
    "outside-hard-range": "a number that cannot be true",
    "implausible": "a number no real material has",
    "cn-mismatch": "C:N differs from carbon over nitrogen by more than 5 %",
    "carbon-of-organic-matter": "carbon outside 0.40 to 0.56 of the organic matter without fat",
    "moisture-over-capacity": "more water than the form of the material can hold",
    "measures-disagree": "a measure that its density or another measure of the row contradicts",
    "parts-over-whole": "parts of one whole add up to more than it",
    "missing-moisture": "a feedstock without moisture",
    "missing-pools": "a material that decays without a pool rule",
    "missing-source": "a number without a source",
    "unknown-source": "a source that sources.yaml does not have",
    "unused-source": "a source that nothing cites",
    "duplicate-source": "a source stands twice",
    "unknown-status": "a source status that does not exist",
    "unknown-grade": "a grade other than A, B, C, D",
    "unknown-method": "a method that does not exist",
    "unknown-formula": "a formula that properties.yaml does not have",
    "grade-above-source": "grade A or B on a recalled source",
    "grade-against-method": "a grade that does not go with its method",
}


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
        assert rule in RULES, rule
        self.found.append(Problem(place, rule, message))
