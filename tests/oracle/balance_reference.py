"""The balance stated again from its definition, for SciPy; shares no code with the library.

Every target is a ratio of two sums over the wet masses; windows are linear rows. Kilograms, litres,
fractions 0 to 1.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.optimize import linprog

Vector = Any  # numpy array of floats


@dataclass(frozen=True)
class Sums:
    """Numerator and denominator of one property; `below` is None for a total."""

    above: Vector
    below: Vector | None


# Salt is counted as the sodium chloride that holds the sodium (58.44 over 22.99).
SALT_OF_SODIUM = 2.54
# docs/methods.md, "Volume" and "Free air space": densities of water, organic matter and ash in
# kg/m3; what has no settled density lies 1.35 (scraps) or 1.5 times (bedding) as dense as loose;
# gaps take at most 15 %.
WATER, ORGANIC, ASH = 1000.0, 1600.0, 2500.0
SETTLING = {"scraps": 1.35, "bedding": 1.5, "amendment": 1.15, "water": 1.0}
TIGHTEST = 0.85


def part(e: dict[str, Any]) -> str:
    """What a feedstock is to a feeding: one role decides alone; of several the group picks its own,
    else what may be fed is scraps."""
    if e["water"]:
        return "water"
    if e["bedding"] and e["group"] == "beddings":
        return "bedding"
    if e["amendment"] and not e["scraps"] and e["group"] == "amendments":
        return "amendment"
    if e["scraps"]:
        return "scraps"
    return "bedding" if e["bedding"] else "amendment"


def litres(entries: list[dict[str, Any]]) -> Vector:
    """Loose litres of a wet kilogram; water fills pores and adds none."""
    return np.array([0.0 if e["water"] else 1000.0 / e["density"] for e in entries])


def air_sums(entries: list[dict[str, Any]]) -> Sums:
    """Litres of air in the settled litres, packed as tightly as can be; nothing lies denser than
    it is without air."""
    settled, full = [], []
    for e in entries:
        dry = 1.0 - e["moisture"]
        ash = e["ash"] if dry > 0 else 0.0
        phases = 1000.0 * (e["moisture"] / WATER + dry * ((1.0 - ash) / ORGANIC + ash / ASH))
        density = min(e["settled"] or SETTLING[part(e)] * e["density"], 1000.0 / phases)
        settled.append(0.0 if e["water"] else 1000.0 * TIGHTEST / density)
        full.append(phases)
    return Sums(np.array(settled) - np.array(full), np.array(settled))


def column(entries: list[dict[str, Any]], key: str) -> Vector:
    """A value of each entry; 0 where plain water has none."""
    return np.array([0.0 if e[key] is None and is_water(e) else e[key] for e in entries])


def bedding_sums(entries: list[dict[str, Any]]) -> Sums:
    """Loose litres of bedding a loose litre of scraps."""
    parts = np.array([part(e) for e in entries])
    return Sums(litres(entries) * (parts == "bedding"), litres(entries) * (parts == "scraps"))


def dry_sums(entries: list[dict[str, Any]], above: str, below: str | None) -> Sums:
    """A share of the dry mass, over another one or over the wet mass."""
    dry = 1.0 - np.array([e["moisture"] for e in entries])
    under = np.ones(len(entries)) if below is None else dry * column(entries, below)
    return Sums(dry * column(entries, above), under)


def wet_sums(entries: list[dict[str, Any]], key: str, times: float = 1.0) -> Sums:
    """A share of the wet mass."""
    return Sums(times * np.array([e[key] for e in entries]), np.ones(len(entries)))


SUMS: dict[str, Callable[[list[dict[str, Any]]], Sums]] = {
    "cn_ratio": lambda entries: dry_sums(entries, "carbon", "nitrogen"),
    "moisture": lambda entries: wet_sums(entries, "moisture"),
    "acid_g_citric_per_wet_kg": lambda entries: wet_sums(entries, "acid", 1000.0),
    "salt_wet_fraction": lambda entries: wet_sums(entries, "sodium", SALT_OF_SODIUM),
    "fat_wet_fraction": lambda entries: dry_sums(entries, "fat", None),
    "free_air_space": air_sums,
    "total_wet_kg": lambda entries: Sums(np.ones(len(entries)), None),
    "total_volume_l": lambda entries: Sums(litres(entries), None),
    "bedding_l_per_scraps_l": bedding_sums,
    "water_over_least": lambda entries: Sums(np.array([1.0 * is_water(e) for e in entries]), None),
}


def sums_of(target: dict[str, Any], entries: list[dict[str, Any]]) -> Sums:
    """The two sums of a target, for one wet kilogram of each entry."""
    return SUMS[target["property"]](entries)


@dataclass
class Rows:
    """upper @ x <= limits."""

    matrix: list[Vector]
    limits: list[float]

    def at_most(self, row: Vector, limit: float) -> None:
        self.matrix.append(row)
        self.limits.append(limit)


def add_window(rows: Rows, target: dict[str, Any], sums: Sums) -> None:
    """low <= above / below <= high; no bedding is measured by scraps where none are at hand."""
    if target["property"] == "bedding_l_per_scraps_l" and not np.any(sums.below):
        return
    for edge, sign in (("low", -1.0), ("high", 1.0)):
        level = target[edge]
        if level is None:
            continue
        if sums.below is None:
            rows.at_most(sign * sums.above, sign * level)
        else:
            rows.at_most(sign * (sums.above - level * sums.below), 0.0)


@dataclass(frozen=True)
class Outcome:
    """What HiGHS says: 'solved', 'infeasible', 'unbounded' or 'unsure'."""

    status: str
    x: Vector | None = None
    objective: float = math.nan


def is_water(entry: dict[str, Any]) -> bool:
    return bool(entry["id"].startswith("water-"))


class Reference:
    """One problem, solved with HiGHS as often as asked."""

    def __init__(self, problem: dict[str, Any]) -> None:
        self.problem = problem
        self.entries = problem["entries"]
        self.targets = problem["targets"]
        self.sums = [sums_of(t, self.entries) for t in self.targets]
        masses = [v for e in self.entries for v in (e["least"], e["most"]) if v]
        # Of a volume, the mass at a fifth of the density of water.
        sizes = {"total_wet_kg": 1.0, "total_volume_l": 0.2}
        totals = [
            v * sizes[t["property"]]
            for t in self.targets
            if t["property"] in sizes
            for v in (t["low"], t["high"], t["aim"])
            if v
        ]
        usual = [e["usual"] for e in self.entries if e["usual"]]
        self.scale = max(masses + totals + usual)

    def windows(self, skip: set[str] | None = None) -> Rows:
        """The windows in units of the problem's own scale."""
        rows = Rows([], [])
        for target, sums in zip(self.targets, self.sums, strict=True):
            if target["property"] == "water_over_least" or (skip and target["property"] in skip):
                continue
            add_window(rows, target, sums)
        return Rows(rows.matrix, [limit / self.scale for limit in rows.limits])

    def bounds(self, skip: set[str] | None = None) -> list[tuple[float, float | None]]:
        """The amounts, in units of the scale."""
        return [
            (0.0, None)
            if skip and e["label"] in skip
            else (
                e["least"] / self.scale,
                None if e["most"] is None else e["most"] / self.scale,
            )
            for e in self.entries
        ]

    def solve(
        self,
        objective: Vector,
        rows: Rows | None = None,
        bounds: list[tuple[float, float | None]] | None = None,
    ) -> Outcome:
        """Minimise objective @ x (x in units of the scale)."""
        rows = rows or self.windows()
        scaled = []
        limits = []
        for row, limit in zip(rows.matrix, rows.limits, strict=True):
            size = np.abs(row).max() or 1.0
            scaled.append(row / size)
            limits.append(limit / size)
        result = linprog(
            objective,
            A_ub=np.array(scaled) if scaled else None,
            b_ub=np.array(limits) if limits else None,
            bounds=bounds if bounds is not None else self.bounds(),
            method="highs",
            options={
                "primal_feasibility_tolerance": 1e-10,
                "dual_feasibility_tolerance": 1e-10,
            },
        )
        status = {0: "solved", 2: "infeasible", 3: "unbounded"}.get(result.status, "unsure")
        if status != "solved":
            return Outcome(status)
        return Outcome(status, result.x, float(result.fun))

    def used_up(self) -> Vector:
        """What the objective "use up most" counts: what has an upper amount, or all but water."""
        limited = any(e["most"] is not None and not is_water(e) for e in self.entries)
        return np.array(
            [
                1.0 if not is_water(e) and (e["most"] is not None or not limited) else 0.0
                for e in self.entries
            ]
        )

    def held_priorities(self, rows: Rows) -> tuple[Rows, str]:
        """Rows with what is used up first held at its most, last what the objective wants used up;
        and the status of getting there."""
        levels = sorted({e["priority"] for e in self.entries if e["priority"] > 0})
        wanted = [
            np.array([1.0 if e["priority"] == level else 0.0 for e in self.entries])
            for level in levels
        ]
        if self.problem["objective"] == "use_up_most":
            wanted.append(self.used_up())
        for used in wanted:
            outcome = self.solve(-used, rows)
            if outcome.status != "solved":
                return rows, outcome.status
            rows.at_most(-used, outcome.objective * (1.0 - 1e-11) + 1e-13)
        return rows, "solved"

    def held_water(self, rows: Rows) -> tuple[Rows, str]:
        """Rows with the poured water held near the least that will do; the usual recipe says itself
        what is poured."""
        for target, sums in zip(self.targets, self.sums, strict=True):
            if target["property"] != "water_over_least" or not sums.above.any():
                continue
            if self.problem["objective"] == "closest_to_usual":
                continue
            outcome = self.solve(sums.above, rows)
            if outcome.status != "solved":
                return rows, outcome.status
            rows.at_most(sums.above, target["high"] * max(outcome.objective, 0.0) + 1e-12)
        return rows, "solved"

    def deviation_ratios(self) -> list[tuple[Vector, float, Vector, float]]:
        """numerator @ x + constant over denominator @ x + constant, for each side of each aim."""
        ratios = []
        for target, sums in zip(self.targets, self.sums, strict=True):
            aim = target["aim"]
            if aim is None or (sums.below is not None and not (sums.below > 0).any()):
                continue
            low, high = target["low"], target["high"]
            for sign, edge, other in ((1.0, high, low), (-1.0, low, high)):
                if edge == aim:
                    continue
                unit = next(abs(e - aim) for e in (edge, other, 0.0) if e is not None and e != aim)
                if sums.below is None:
                    ratios.append(
                        (
                            sign * sums.above / unit,
                            -sign * aim / unit / self.scale,
                            np.zeros(len(self.entries)),
                            1.0 / self.scale,
                        )
                    )
                else:
                    ratios.append(
                        (sign * (sums.above - aim * sums.below) / unit, 0.0, sums.below, 0.0)
                    )
        return ratios

    def largest_deviation(self, x: Vector) -> float:
        """The worst deviation of a point in units of the scale; 0 where there are no aims."""
        worst = 0.0
        for numerator, constant, denominator, below in self.deviation_ratios():
            size = denominator @ x + below
            # A blend without nitrogen has no C:N that could stray from its aim.
            if size > 0.0:
                worst = max(worst, (numerator @ x + constant) / size)
        return worst

    def can_deviate_by(self, deviation: float, rows: Rows) -> bool:
        """Is there a blend whose worst deviation is at most this?"""
        more = Rows(list(rows.matrix), list(rows.limits))
        for numerator, constant, denominator, below in self.deviation_ratios():
            more.at_most(numerator - deviation * denominator, deviation * below - constant)
        return self.solve(np.zeros(len(self.entries)), more).status == "solved"
