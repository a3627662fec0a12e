"""A week over several bins as one linear problem, made from what stands in docs/week.md and
docs/bed.md, and solved by HiGHS (Huangfu and Hall, Mathematical Programming Computation 10, 2018,
through SciPy). The library solves it bin by bin; here it is one sparse problem.

Taken from the library are what a bin's bed is on a day and what a kilogram does to each hazard,
which has oracles of its own. Made here: who may have what on which day, the shares of earlier
feedings, worms, room, bedding, caps, what lets a bin be fed again, stock and aims.
"""

from __future__ import annotations

import math
import time
from typing import Any

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.optimize import linprog

LEAST_BEDDING, MOST_BEDDING = 0.5, 2.0  # litres a litre of scraps (docs/bed.md)
WATER_BY_VOLUME = 0.05  # kilograms a litre of bed, at one opening
LABILE_A_DAY = 0.22  # where the bin has no course of its own
USEFUL_SHARE = 0.25  # of a week's ration: what a bin is opened for
FEED_AGAIN_SHARE = 0.5  # of a week's ration: soft food that may still be there
WATER = "water"
Vector = NDArray[np.float64]


class WeekReference:
    """The problem of one week; the columns are (bin, opening, thing of the week or material)."""

    def __init__(self, week: dict[str, Any]) -> None:
        self.week = week
        self.columns: list[tuple[int, int, int | None, str]] = []
        self.upper: list[float] = []
        self.rows: list[dict[int, float]] = []
        self.most: list[float] = []
        for number, openings in enumerate(week["bins"]):
            self.first = len(self.columns)
            for opening in range(len(openings)):
                self.add_columns(number, openings, opening)
            for opening in range(len(openings)):
                self.add_rows(openings, opening)
        self.add_stock()

    def add_columns(self, number: int, openings: list[Any], at: int) -> None:
        opening = openings[at]
        known = {one["key"] for one in opening["materials"]}
        listed = set()
        for i, thing in enumerate(self.week["things"]):
            key = thing["material"]["key"]
            if thing["material"]["barred"] or key not in known:
                continue
            listed.add(key)
            if thing["from"] <= opening["day"] <= thing["until"]:
                self.columns.append((number, at, i, key))
                self.upper.append(math.inf)
        for one in opening["materials"]:
            if one["key"] not in listed and one["part"] == "bedding":
                self.columns.append((number, at, None, one["key"]))
                self.upper.append(math.inf)
        self.columns.append((number, at, None, WATER))
        self.upper.append(WATER_BY_VOLUME * 1000 * opening["contents_m3"])

    def add_row(self, row: dict[int, float], most: float | None) -> None:
        """sum of row * kg <= most; nothing binds nothing."""
        if most is not None and any(row.values()):
            self.rows.append(row)
            self.most.append(most)

    def of_bin(self, until: int) -> list[int]:
        return [c for c in range(self.first, len(self.columns)) if self.columns[c][1] <= until]

    @staticmethod
    def left(openings: list[Any], before: int, now: int) -> float:
        """Share of what was fed that is still there at a later opening."""
        days = openings[now]["day"] - openings[before]["day"]
        course = openings[before]["course"]
        if course:
            return float(course[min(days, len(course) - 1)])
        return math.exp(-LABILE_A_DAY * days)

    @staticmethod
    def in_week(openings: list[Any], before: int, now: int) -> float:
        """Share of what was fed that counts against the worms' ration at a later opening."""
        days = openings[now]["day"] - openings[before]["day"]
        late = openings[now]
        share = (late["rate_window_days"] - days) / late["horizon_days"]
        return float(min(1.0, max(0.0, share)))

    def add_rows(self, openings: list[Any], at: int) -> None:
        now = openings[at]
        place = {one["key"]: j for j, one in enumerate(now["materials"])}
        place[WATER] = len(place)
        part = {one["key"]: one["part"] for one in now["materials"]} | {WATER: WATER}
        upto = self.of_bin(at)

        def share(c: int) -> float:
            before = self.columns[c][1]
            return 1.0 if before == at else self.left(openings, before, at)

        def rate(c: int) -> float:
            before = self.columns[c][1]
            return 1.0 if before == at else self.in_week(openings, before, at)

        def key(c: int) -> str:
            return self.columns[c][3]

        for hazard in now["hazards"]:
            per_kg = hazard["per_kg"]
            self.add_row({c: share(c) * per_kg[place[key(c)]] for c in upto}, hazard["most"])
        scraps = [c for c in upto if part[key(c)] == "scraps"]
        self.add_row({c: rate(c) for c in scraps}, now["most_scraps_kg"])
        room = [c for c in upto if key(c) != WATER]
        settled = now["settled_m3_per_kg"]
        self.add_row({c: share(c) * settled[place[key(c)]] for c in room}, now["free_room_m3"])
        self.add_bedding([c for c in upto if self.columns[c][1] == at], part, now)
        self.add_caps(now, upto, part)
        if at > 0:
            before = [c for c in scraps if self.columns[c][1] < at]
            free = (1.0 - USEFUL_SHARE) * now["week_kg"] - now["recent_scraps_kg"]
            self.add_row({c: rate(c) for c in before}, max(0.0, free))
            soft = FEED_AGAIN_SHARE * now["week_kg"] - now["soft_kg"]
            self.add_row({c: share(c) for c in before}, max(0.0, soft))

    def add_bedding(self, today: list[int], part: dict[str, str], now: dict[str, Any]) -> None:
        """Least and most bedding by volume, of each opening alone."""
        litres = {one["key"]: 1000 / one["loose_kg_per_m3"] for one in now["materials"]}

        def key(c: int) -> str:
            return self.columns[c][3]

        for bound, sign in ((LEAST_BEDDING, -1.0), (MOST_BEDDING, 1.0)):
            row = {c: sign * litres[key(c)] for c in today if part[key(c)] == "bedding"}
            row |= {c: -sign * bound * litres[key(c)] for c in today if part[key(c)] == "scraps"}
            self.add_row(row, 0.0)

    def add_caps(self, now: dict[str, Any], upto: list[int], part: dict[str, str]) -> None:
        """Caps of a week count all openings of it; those of a kind add up."""
        caps = {}
        for j, one in enumerate(now["materials"]):
            cap = one["cap_kg_per_kg_worms"]
            if cap is not None:
                caps[one["key"]] = cap * now["worms_kg"]
            of_it = [c for c in upto if self.columns[c][3] == one["key"]]
            most = math.inf
            if one["key"] in caps:
                most = max(0.0, caps[one["key"]] - now["given_kg"][j])
            if part[one["key"]] == "amendment" and now["most_lime_kg"] is not None:
                most = min(most, now["most_lime_kg"])
            if math.isfinite(most):
                self.add_row(dict.fromkeys(of_it, 1.0), most)
        kinds = {one["key"]: one["kinds"] for one in now["materials"]}
        for kind, given in enumerate(now["given_of_kind"]):
            row = {}
            for c in upto:
                key = self.columns[c][3]
                if key in caps and kind in kinds[key]:
                    row[c] = 1 / caps[key] if caps[key] > 0 else 1e9
            self.add_row(row, max(0.0, 1.0 - given))

    def add_stock(self) -> None:
        for i, thing in enumerate(self.week["things"]):
            row = {c: 1.0 for c, column in enumerate(self.columns) if column[2] == i}
            self.add_row(row, thing["there_kg"])

    def aims(self) -> list[Vector]:
        """What is asked to go first, then what spoils, then all scraps; nothing twice."""
        things = self.week["things"]

        def food(thing: dict[str, Any]) -> bool:
            return thing["material"]["part"] == "scraps" and not thing["material"]["barred"]

        wanted = [
            [food(one) and one["first"] for one in things],
            [food(one) and (one["first"] or not one["keeps"]) for one in things],
            [food(one) for one in things],
        ]
        kept: list[list[bool]] = []
        for aim in wanted:
            if any(aim) and (not kept or kept[-1] != aim):
                kept.append(aim)
        return [
            np.array([float(i is not None and aim[i]) for _, _, i, _ in self.columns])
            for aim in kept
        ]

    def matrix(self) -> sp.csr_matrix:
        data = [(r, c, value) for r, row in enumerate(self.rows) for c, value in row.items()]
        if not data:
            return sp.csr_matrix((len(self.rows), len(self.columns)))
        r, c, value = zip(*data, strict=True)
        return sp.csr_matrix((value, (r, c)), shape=(len(self.rows), len(self.columns)))

    def solve(self) -> tuple[list[float], float]:
        """The most of each aim, the earlier ones held; and HiGHS' processor seconds."""
        rows, most = self.matrix(), list(self.most)
        bounds = [(0.0, None if math.isinf(upper) else upper) for upper in self.upper]
        reached: list[float] = []
        seconds = 0.0
        for aim in self.aims():
            start = time.process_time()
            found = linprog(-aim, A_ub=rows, b_ub=most, bounds=bounds, method="highs")
            seconds += time.process_time() - start
            assert found.status == 0, found.message
            reached.append(-found.fun)
            rows = sp.vstack([rows, sp.csr_matrix(-aim)], format="csr")
            most.append(-(1 - 1e-9) * reached[-1])
        return reached, seconds

    def given(self) -> Vector:
        """The library's answer, by the columns of this problem; others must be empty."""
        kg = np.zeros(len(self.columns))
        at = {column: c for c, column in enumerate(self.columns)}
        for number, columns in enumerate(self.week["given"]):
            for opening, material, thing, amount in columns:
                materials = self.week["bins"][number][opening]["materials"]
                key = materials[material]["key"] if material < len(materials) else WATER
                kg[at[number, opening, thing if thing >= 0 else None, key]] += amount
        return kg

    def worst_excess(self, kg: Vector) -> float:
        """How far the answer stands beyond any row, beside the size of what the row adds up."""
        if not self.rows:
            return 0.0
        rows, most = self.matrix(), np.array(self.most)
        size = abs(rows) @ np.abs(kg) + np.abs(most) + 1e-9
        over = float(np.max((rows @ kg - most) / size))
        beyond = np.max(kg - np.array(self.upper), initial=0.0)
        return max(over, float(beyond), float(np.max(-kg, initial=0.0)))
