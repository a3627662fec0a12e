"""Speed of the Python package as ratios within one run: python tests/bench/python_bench.py.

Every measure is the best of several repetitions in processor time of the whole process, so that a
busy machine does not decide; where threads count, wall time is given beside it. Needs SciPy.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import numpy as np
from scipy.optimize import minimize

import libfeed

AT_HAND = [
    "kitchen scraps",
    "coffee grounds",
    "banana peel",
    "cardboard",
    "newspaper",
    "dry leaves",
    "water",
    "eggshell",
]
BALANCES = 10_000
BALANCES_SCIPY = 200
BLENDS = 1_000_000
BLOCK_NUMPY = 2_000


def best(work: Callable[[], object], repetitions: int = 5) -> tuple[float, float]:
    """Least processor and least wall seconds of some repetitions."""
    processor, wall = [], []
    for _ in range(repetitions):
        began = time.process_time(), time.perf_counter()
        work()
        processor.append(time.process_time() - began[0])
        wall.append(time.perf_counter() - began[1])
    return min(processor), min(wall)


# Balances -------------------------------------------------------------------------------------


def problem() -> libfeed.Problem:
    """Eight feedstocks, two of them limited, worm-bed targets on C:N and moisture."""
    entries: list[libfeed.Entry | str] = [
        libfeed.Entry("kitchen scraps", "1.2 kg"),
        libfeed.Entry("coffee grounds", most="2 kg"),
        libfeed.Entry("banana peel", most="2 kg"),
        *AT_HAND[3:],
    ]
    targets = [
        libfeed.Target("cn_ratio", low=20, high=50, aim=30),
        libfeed.Target("moisture", low=0.70, high=0.85, aim=0.78),
    ]
    return libfeed.Problem(entries, targets=targets, target_set=None)


def amounts(rows: int) -> np.ndarray:
    numbers = np.random.default_rng(1)
    wet_kg = np.full((rows, len(AT_HAND)), np.nan)
    wet_kg[:, 0] = numbers.uniform(0.3, 3.0, rows)
    return wet_kg


class Slsqp:
    """The same balance for SciPy: the smallest largest deviation, in epigraph form.

    Deviations of ratios are not smooth as a maximum, so the largest one is a variable of its own
    and the windows are linear in the masses, as a good user of SLSQP would write it.
    """

    def __init__(self) -> None:
        feedstocks = [libfeed.feedstock(name) for name in AT_HAND]
        moisture = np.array([f["moisture"].value for f in feedstocks])
        carbon = np.array([v.value if (v := f.get("carbon")) else 0.0 for f in feedstocks])
        nitrogen = np.array([v.value if (v := f.get("nitrogen")) else 0.0 for f in feedstocks])
        self.water = moisture
        self.carbon = (1 - moisture) * carbon
        self.nitrogen = (1 - moisture) * nitrogen

    def ratios(self, masses: np.ndarray) -> tuple[float, float]:
        nitrogen = max(float(self.nitrogen @ masses), 1e-12)
        return float(self.carbon @ masses) / nitrogen, float(self.water @ masses / masses.sum())

    def limits(self, unknowns: np.ndarray) -> np.ndarray:
        masses, largest = unknowns[:-1], unknowns[-1]
        ratio, moisture = self.ratios(masses)
        return np.array(
            [
                ratio - 20,
                50 - ratio,
                moisture - 0.70,
                0.85 - moisture,
                largest - (ratio - 30) / 20,
                largest - (30 - ratio) / 10,
                largest - (moisture - 0.78) / 0.07,
                largest - (0.78 - moisture) / 0.08,
            ]
        )

    def solve(self, scraps_kg: float) -> Any:
        bounds = [(scraps_kg, scraps_kg), (0, 2), (0, 2), *[(0, None)] * 5, (0, None)]
        start = np.array([scraps_kg, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.01, 1.0])
        # The tie-break by mass has a small weight: SLSQP has no order of objectives.
        return minimize(
            lambda unknowns: unknowns[-1] + 1e-6 * unknowns[:-1].sum(),
            start,
            method="SLSQP",
            bounds=bounds,
            constraints={"type": "ineq", "fun": self.limits},
            options={"maxiter": 200},
        )


def bench_balances() -> None:
    kitchen = problem()
    kitchen.solve()

    def one_by_one() -> None:
        for _ in range(1000):
            kitchen.solve()

    one, _ = best(one_by_one)
    print(f"one balance of {len(AT_HAND)} feedstocks: {one * 1e3:.1f} us")

    wet_kg = amounts(BALANCES)
    answers = libfeed.balance_many(kitchen, wet_kg=wet_kg)
    single, _ = best(lambda: libfeed.balance_many(kitchen, wet_kg=wet_kg, threads=1), 3)
    _, two = best(lambda: libfeed.balance_many(kitchen, wet_kg=wet_kg, threads=2), 3)
    other = Slsqp()
    results: list[Any] = []

    def scipy_loop() -> None:
        results.clear()
        results.extend(other.solve(mass) for mass in wet_kg[:BALANCES_SCIPY, 0])

    scipy_seconds = best(scipy_loop, 2)[0] / BALANCES_SCIPY * BALANCES
    ours = answers.largest_deviation[:BALANCES_SCIPY]
    theirs = np.array([result.x[-1] if result.success else np.nan for result in results])
    failed = int(np.isnan(theirs).sum())
    worse = float(np.nanmax(ours - theirs))
    print(f"{BALANCES} balances, one thread: {single:.3f} s; two threads, wall: {two:.3f} s")
    print(f"the same by SciPy SLSQP one by one: {scipy_seconds:.1f} s ({failed} failed of")
    print(f"  {BALANCES_SCIPY} run); ours is at most {worse:.1e} farther from the aims")
    print(f"ratio, one thread: {scipy_seconds / single:.0f}")


# Blends ---------------------------------------------------------------------------------------


Columns = tuple[np.ndarray, np.ndarray, np.ndarray]  # typical, low, high


class NumpyBlends:
    """Moisture, C:N and their exact ranges, dry mass, C, N, salt and acid, all rows at once."""

    def __init__(self) -> None:
        feedstocks = [libfeed.feedstock(name) for name in AT_HAND]

        def column(key: str) -> Columns:
            values = [one.get(key) for one in feedstocks]
            return (
                np.array([value.value if value else 0.0 for value in values]),
                np.array([value.low if value else 0.0 for value in values]),
                np.array([value.high if value else 0.0 for value in values]),
            )

        self.moisture = column("moisture")
        self.carbon = column("carbon")
        self.nitrogen = column("nitrogen")
        self.sodium = column("sodium")
        self.acid = column("titratable_acidity")
        ratio = column("cn_ratio")
        with np.errstate(divide="ignore"):
            self.per_carbon = tuple(np.where(r > 0, 1 / r, 0.0) for r in ratio)

    def extreme(self, wet_kg: np.ndarray, start: np.ndarray, largest: bool) -> np.ndarray:
        """Dinkelbach's method on every row; done when no row moves."""
        per_carbon = self.per_carbon[2] if largest else self.per_carbon[1]
        ratio: np.ndarray = start.copy()
        for step in range(100):
            more = (1.0 - ratio[:, None] * per_carbon > 0.0) == largest
            dry = wet_kg * np.where(more, 1 - self.moisture[1], 1 - self.moisture[2])
            carbon = dry * np.where(more, self.carbon[2], self.carbon[1])
            following = carbon.sum(axis=1) / (carbon @ per_carbon)
            done = following <= ratio if largest else following >= ratio
            if step > 0 and done.all():
                break
            ratio = np.where(done & (step > 0), ratio, following)
        return ratio

    @staticmethod
    def sums(scaled: np.ndarray, column: Columns) -> Columns:
        return scaled @ column[0], scaled @ column[1], scaled @ column[2]

    def blend(self, wet_kg: np.ndarray) -> dict[str, Columns]:
        wet = wet_kg.sum(axis=1)
        water = tuple(wet_kg @ column for column in self.moisture)
        dry = tuple(wet_kg @ (1 - column) for column in self.moisture)
        least_dry, most_dry = 1 - self.moisture[2], 1 - self.moisture[1]
        typical_dry = 1 - self.moisture[0]
        carbon = wet_kg @ (typical_dry * self.carbon[0])
        nitrogen = wet_kg @ (typical_dry * self.nitrogen[0])
        ratio = carbon / nitrogen
        return {
            "dry_mass_kg": (dry[0], dry[2], dry[1]),
            "water_kg": (water[0], water[1], water[2]),
            "moisture": (water[0] / wet, water[1] / wet, water[2] / wet),
            "cn_ratio": (
                ratio,
                self.extreme(wet_kg, ratio, False),
                self.extreme(wet_kg, ratio, True),
            ),
            "carbon_kg": (
                carbon,
                wet_kg @ (least_dry * self.carbon[1]),
                wet_kg @ (most_dry * self.carbon[2]),
            ),
            "nitrogen_kg": (
                nitrogen,
                wet_kg @ (least_dry * self.carbon[1] * self.per_carbon[2]),
                wet_kg @ (most_dry * self.carbon[2] * self.per_carbon[1]),
            ),
            "salt_g": self.sums(2540.0 * wet_kg, self.sodium),
            "acid_g_citric": self.sums(1000.0 * wet_kg, self.acid),
        }

    def blend_in_blocks(self, wet_kg: np.ndarray) -> None:
        """Blocks that stay in the processor's cache; what they give is let go."""
        for first in range(0, len(wet_kg), BLOCK_NUMPY):
            self.blend(wet_kg[first : first + BLOCK_NUMPY])


def bench_blends() -> None:
    wet_kg = np.random.default_rng(2).uniform(0.1, 2.0, (BLENDS, len(AT_HAND)))
    other = NumpyBlends()
    theirs = other.blend(wet_kg)
    keys = list(theirs)
    ours = libfeed.blend_many(AT_HAND, wet_kg, quantities=keys)
    for key in keys:
        for mine, name in zip(theirs[key], ("value", "low", "high")):  # noqa: B905
            np.testing.assert_allclose(getattr(ours[key], name), mine, rtol=1e-9)
    single, _ = best(lambda: libfeed.blend_many(AT_HAND, wet_kg, quantities=keys, threads=1), 5)
    _, two = best(lambda: libfeed.blend_many(AT_HAND, wet_kg, quantities=keys, threads=2), 5)
    everything, _ = best(lambda: libfeed.blend_many(AT_HAND, wet_kg, threads=1), 3)
    print(f"{BLENDS} blends of {len(AT_HAND)} portions with intervals, {len(keys)} quantities:")
    print(f"  one thread: {single:.3f} s; two threads, wall: {two:.3f} s")
    print(f"  all {len(ours_of_all())} quantities, one thread: {everything:.3f} s")
    for name, work in (
        ("whole arrays", lambda: other.blend(wet_kg)),
        (f"blocks of {BLOCK_NUMPY} rows", lambda: other.blend_in_blocks(wet_kg)),
    ):
        processor, wall = best(work, 3)
        print(f"  NumPy, {name}: {processor:.3f} s; wall: {wall:.3f} s")
        print(f"    ratio in processor time, one thread: {processor / single:.1f}")
        print(f"    ratio in wall time, two threads against NumPy's one: {wall / two:.1f}")


def ours_of_all() -> list[str]:
    return libfeed.blend_many(AT_HAND[:1], np.ones((1, 1))).quantities


if __name__ == "__main__":
    bench_balances()
    bench_blends()
