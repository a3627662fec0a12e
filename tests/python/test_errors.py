"""What goes wrong says which entry, what was given and allowed, and is Python's own kind too."""

from __future__ import annotations

import pickle
import re
from collections.abc import Callable
from pathlib import Path

import pytest

import libfeed
from libfeed import ErrorCode

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize(
    ("call", "kind", "base", "code"),
    [
        (
            lambda: libfeed.feedstock("qwrtz peeel"),
            libfeed.FeedNameError,
            KeyError,
            ErrorCode.UNKNOWN_FEEDSTOCK,
        ),
        (
            lambda: libfeed.feedstock("cardboard").get("colour"),
            libfeed.FeedNameError,
            KeyError,
            ErrorCode.UNKNOWN_PROPERTY,
        ),
        (
            lambda: libfeed.Portion("cardboard", "3"),
            libfeed.FeedValueError,
            ValueError,
            ErrorCode.UNIT_MISSING,
        ),
        (
            lambda: libfeed.Portion("cardboard", wet_kg=float("nan")),
            libfeed.FeedValueError,
            ValueError,
            ErrorCode.NOT_A_NUMBER,
        ),
        (
            lambda: libfeed.Portion("cardboard", wet_kg=-1.0),
            libfeed.FeedValueError,
            ValueError,
            ErrorCode.OUT_OF_RANGE,
        ),
        (
            lambda: libfeed.Bed(moisture=78),
            libfeed.FeedValueError,
            ValueError,
            ErrorCode.PERCENT_SLIP,
        ),
        (
            lambda: libfeed.balance(["cardboard", "water"]),
            libfeed.FeedValueError,
            ValueError,
            ErrorCode.NO_AMOUNT_FIXED,
        ),
        (
            lambda: libfeed.read_feed_text("libfeed: [1\n"),
            libfeed.FeedFormatError,
            ValueError,
            ErrorCode.SYNTAX,
        ),
        (
            lambda: libfeed.read_feed_file("no/such/file.yaml"),
            libfeed.FeedFileError,
            OSError,
            ErrorCode.NOT_READABLE,
        ),
    ],
)
def test_class_and_code(
    call: Callable[[], object],
    kind: type[libfeed.FeedError],
    base: type[Exception],
    code: ErrorCode,
) -> None:
    with pytest.raises(base) as caught:
        call()
    error = caught.value
    assert type(error) is kind
    assert isinstance(error, libfeed.FeedError)
    assert error.code is code
    assert error.field
    assert error.allowed
    assert str(error.errors[0]) in str(error)


def test_file_error_has_line_and_column() -> None:
    text = "libfeed: 1\nblend:\n  - 1.2 kg coffee grounds\n  - 3 kg zorkmids\n"
    with pytest.raises(libfeed.FeedError) as caught:
        libfeed.read_feed_text(text, name="kitchen.yaml")
    error = caught.value
    assert (error.file, error.line) == ("kitchen.yaml", 4)
    assert error.column > 1
    assert str(error).startswith("kitchen.yaml:4:")


def test_all_problems_at_once() -> None:
    with pytest.raises(libfeed.FeedError) as caught:
        libfeed.blend(["3 kg moon dust", "2 zorps cardboard", "-1 kg newspaper"])
    codes = [problem.code for problem in caught.value.errors]
    assert codes[0] is ErrorCode.UNKNOWN_FEEDSTOCK
    assert ErrorCode.OUT_OF_RANGE in codes


def test_nearest_names_are_given() -> None:
    with pytest.raises(libfeed.FeedNameError) as caught:
        libfeed.feedstock("cofeee grundz")
    assert "Coffee grounds" in caught.value.allowed


def test_errors_survive_pickling() -> None:
    with pytest.raises(libfeed.FeedFileError) as caught:
        libfeed.read_feed_file("no/such/file.yaml")
    again = pickle.loads(pickle.dumps(caught.value))
    assert (type(again), again.code, str(again)) == (
        libfeed.FeedFileError,
        caught.value.code,
        str(caught.value),
    )


def test_codes_are_those_of_the_core() -> None:
    header = ROOT / "libfeed" / "include" / "feed" / "quantity" / "error.hpp"
    block = re.search(r"enum class ErrorCode[^{]*\{(.*?)\};", header.read_text(), re.DOTALL)
    assert block is not None
    core = {name.upper(): int(code) for name, code in re.findall(r"(\w+) = (\d+),", block[1])}
    assert core == {code.name: code.value for code in ErrorCode}


def test_every_code_has_a_class() -> None:
    from libfeed._errors import exception_of

    for code in ErrorCode:
        error = exception_of([(int(code), "field", "value", "allowed", "message", "", 0, 0)])
        assert error.code is code
        assert isinstance(error, (ValueError, KeyError, OSError, MemoryError, RuntimeError))


def test_unknown_is_never_zero() -> None:
    made = libfeed.blend(["1 kg water"])
    assert made.cn_ratio.value is None
    assert "cn_ratio" in made.unknown
    with pytest.raises(libfeed.FeedValueError):
        float(made.cn_ratio)
