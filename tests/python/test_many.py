"""Many at once: the same bits as one by one, by any number of threads, without the GIL."""

from __future__ import annotations

import sys
import threading
import time

import numpy as np
import pytest

import libfeed

AT_HAND = [
    "coffee grounds",
    "cardboard",
    "banana peel",
    "water",
    "newspaper",
    "kitchen scraps",
    "eggshell",
    "cardboard",
]


def masses(rows: int, seed: int = 7) -> np.ndarray:
    numbers = np.random.default_rng(seed)
    wet_kg = numbers.uniform(0.0, 2.0, (rows, len(AT_HAND)))
    wet_kg[numbers.random(wet_kg.shape) < 0.2] = 0.0
    return wet_kg


def scraps(rows: int, seed: int = 3) -> np.ndarray:
    amounts = np.full((rows, 4), np.nan)
    amounts[:, 0] = np.random.default_rng(seed).uniform(0.2, 4.0, rows)
    amounts[::7, 2] = 0.0
    amounts[::7, 3] = 0.0
    return amounts


@pytest.fixture(scope="module")
def problem() -> libfeed.Problem:
    grounds = libfeed.Entry("coffee grounds", most_wet_kg=1.0)
    return libfeed.Problem(["1 kg kitchen scraps", grounds, "cardboard", "water"])


# Rows side by side, and one by one where two columns are of one feedstock.
@pytest.mark.parametrize("at_hand", [AT_HAND, AT_HAND[:-1]], ids=["one twice", "all differ"])
@pytest.mark.parametrize("threads", [1, 2, 3])
def test_blends_have_the_bits_of_one_by_one(threads: int, at_hand: list[str]) -> None:
    wet_kg = masses(200)[:, : len(at_hand)]
    many = libfeed.blend_many(at_hand, wet_kg, threads=threads)
    for row in range(len(wet_kg)):
        portions = [libfeed.Portion(a, wet_kg=wet_kg[row, i]) for i, a in enumerate(at_hand)]
        one = libfeed.blend(portions)
        for key in many.quantities:
            got, estimate = many[key], one[key]
            numbers = (got.value[row], got.low[row], got.high[row])
            if estimate.is_known:
                assert numbers == (estimate.value, estimate.low, estimate.high), (row, key)
            elif estimate.at_least is not None:
                assert (numbers[0], got.known[row]) == (estimate.at_least, False), (row, key)
            else:
                assert np.isnan(numbers).all(), (row, key)


@pytest.mark.parametrize("threads", [1, 2, 3])
def test_balances_have_the_bits_of_one_by_one(problem: libfeed.Problem, threads: int) -> None:
    amounts = scraps(60)
    many = libfeed.balance_many(problem, wet_kg=amounts, threads=threads)
    assert set(many.status) == {"solved", "infeasible"}
    for row, wanted in enumerate(amounts):
        entries = [
            libfeed.Entry(
                entry.feedstock,
                wet_kg=None if np.isnan(wanted[i]) else wanted[i],
                most_wet_kg=1.0 if i == 1 and np.isnan(wanted[i]) else None,
            )
            for i, entry in enumerate(problem.entries)
        ]
        one = libfeed.balance(entries)
        assert one.status == many.status[row]
        assert [portion.wet_kg for portion in one.portions] == many.wet_kg[row].tolist()
        assert one.largest_deviation == many.largest_deviation[row]


def test_limits_are_taken_row_by_row(problem: libfeed.Problem) -> None:
    most = np.full((2, 4), np.nan)
    most[1, 2] = 0.001
    free, held = libfeed.balance_many(problem, most_wet_kg=most).wet_kg
    assert free[2] > 0.001
    assert held[2] <= 0.001


def test_only_what_is_asked_for() -> None:
    many = libfeed.blend_many(AT_HAND, masses(3), quantities=["moisture"])
    assert many.quantities == ["moisture"]
    with pytest.raises(libfeed.FeedNameError):
        many["cn_ratio"]


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -0.1])
def test_a_mass_that_cannot_be_is_named(bad: float) -> None:
    wet_kg = masses(5)
    wet_kg[3, 2] = bad
    with pytest.raises(libfeed.FeedValueError, match=r"wet_kg\[3, 2\]"):
        libfeed.blend_many(AT_HAND, wet_kg)


@pytest.mark.parametrize("shape", [(8,), (2, 7), (2, 8, 1)])
def test_a_shape_that_does_not_fit_is_refused(shape: tuple[int, ...]) -> None:
    with pytest.raises(libfeed.FeedValueError):
        libfeed.blend_many(AT_HAND, np.ones(shape))


def test_amounts_in_conflict_name_their_row(problem: libfeed.Problem) -> None:
    least = np.full((4, 4), np.nan)
    least[2, 2] = 2.0
    most = np.full((4, 4), np.nan)
    most[2, 2] = 1.0
    with pytest.raises(libfeed.FeedValueError) as caught:
        libfeed.balance_many(problem, least_wet_kg=least, most_wet_kg=most)
    assert caught.value.field.startswith("row 2")


def test_other_layouts_and_types_are_read_alike() -> None:
    wet_kg = masses(20)
    expected = libfeed.blend_many(AT_HAND, wet_kg)["moisture"].value
    fortran = libfeed.blend_many(AT_HAND, np.asfortranarray(wet_kg))["moisture"].value
    assert np.array_equal(expected, fortran)
    whole = libfeed.blend_many(AT_HAND, np.ones((2, 8), dtype=np.int32))["moisture"].value
    assert np.array_equal(whole, libfeed.blend_many(AT_HAND, np.ones((2, 8)))["moisture"].value)


def test_no_rows_give_no_answers() -> None:
    assert len(libfeed.blend_many(AT_HAND, np.empty((0, 8)))) == 0


def test_the_gil_is_released() -> None:
    """Another thread of Python goes on counting while blends are made."""
    wet_kg = masses(40_000)
    counted = 0
    done = threading.Event()

    def work() -> None:
        libfeed.blend_many(AT_HAND, wet_kg, threads=1)
        done.set()

    interval = sys.getswitchinterval()
    sys.setswitchinterval(60.0)  # a thread that holds the GIL would keep it to its end
    try:
        worker = threading.Thread(target=work)
        worker.start()
        while not done.is_set():
            counted += 1
            time.sleep(0.0005)
        worker.join()
    finally:
        sys.setswitchinterval(interval)
    assert counted > 3


def test_eight_threads_share_a_problem(problem: libfeed.Problem) -> None:
    expected = [portion.wet_kg for portion in problem.solve().portions]
    seen: list[list[float]] = []

    def work() -> None:
        for _ in range(20):
            seen.append([portion.wet_kg for portion in problem.solve().portions])

    workers = [threading.Thread(target=work) for _ in range(8)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert len(seen) == 160
    assert all(one == expected for one in seen)
