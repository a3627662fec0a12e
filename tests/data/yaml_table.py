"""Reads data/*.yaml for the tests, apart from the tools that generate the header."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

DATA = Path(__file__).resolve().parents[2] / "data"
GROUPS = ("scraps", "beddings", "manures", "amendments", "water", "guarded")
# Factor from a unit of the files to the unit of the library.
FACTORS = {"%": 0.01, "% CaCO3": 0.01, "g/100 g": 0.01, "g citric/kg": 0.001, "mg/100 g": 1e-5}


@dataclass(frozen=True)
class Number:
    value: float
    low: float | None
    high: float | None
    grade: str


def _number(text: object) -> float:
    digits, _, unit = str(text).partition(" ")
    return float(digits) * FACTORS.get(unit, 1.0)


class YamlTable:
    """The values as they stand in the files, in the units of the library."""

    def __init__(self) -> None:
        self.rows: dict[str, dict[str, Any]] = {}
        for group in GROUPS:
            content = self._load(DATA / f"{group}.yaml")
            for row in content["feedstocks"]:
                self.rows[row["id"]] = row
        self.rules = self._load(DATA / "properties.yaml")

    @staticmethod
    def _load(path: Path) -> dict[str, Any]:
        loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
        content: dict[str, Any] = yaml.load(path.read_text(encoding="utf-8"), Loader=loader)
        return content

    def find(self, feedstock: str, key: str) -> Number | None:
        """The value in the files, else the estimate of its kind, else nothing."""
        row = self.rows[feedstock]
        value = row["values"].get(key)
        if value is not None:
            low, high = value.get("low"), value.get("high")
            return Number(
                _number(value["value"]),
                None if low is None else _number(low),
                None if high is None else _number(high),
                str(value["grade"]),
            )
        estimate = self.rules["estimates"].get(key, {}).get(row["kind"])
        if estimate is None:
            return None
        unit = self.rules["properties"][key]["unit"]
        typical, low, high = (float(number) * FACTORS.get(unit, 1.0) for number in estimate)
        return Number(typical, low, high, "D")
