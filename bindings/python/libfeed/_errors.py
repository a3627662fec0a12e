"""The exceptions of libfeed: one class for each kind of trouble, all of them FeedError.

Each also is one of Python's own exceptions, so that ``except ValueError`` works as well.
"""

from __future__ import annotations

import enum
from dataclasses import dataclass


class ErrorCode(enum.IntEnum):
    """What kind of thing is wrong; the numbers are the codes of the C interface."""

    FAILED = 1
    BAD_ARGUMENT = 2
    OUT_OF_MEMORY = 3
    NOT_A_NUMBER = 4
    OUT_OF_RANGE = 5
    UNIT_MISSING = 6
    UNIT_UNKNOWN = 7
    PERCENT_SLIP = 8
    LOW_ABOVE_HIGH = 9
    UNKNOWN_FEEDSTOCK = 10
    AMBIGUOUS_FEEDSTOCK = 11
    UNKNOWN_PROPERTY = 12
    DUPLICATE_ENTRY = 13
    MISSING_VALUE = 14
    SYNTAX = 15
    UNKNOWN_KEY = 16
    WRONG_TYPE = 17
    WRONG_VERSION = 18
    TOO_LARGE = 19
    NOT_READABLE = 20
    NOT_WRITABLE = 21
    NOT_UTF8 = 22
    NO_AMOUNT_FIXED = 23
    CONTRADICTION = 24
    EMPTY = 25
    INTERNAL = 26
    AMBIGUOUS_AMOUNT = 27


@dataclass(frozen=True)
class ErrorDetail:
    """One thing that is wrong.

    Attributes
    ----------
    code : ErrorCode
        What kind of thing.
    field : str
        Which entry, in the words of the input.
    value : str
        What was given, with its unit.
    allowed : str
        What is allowed.
    message : str
        One sentence.
    file : str
        Name of the file, or empty.
    line, column : int
        Place in the file from 1; 0 where there is none.
    """

    code: ErrorCode
    field: str
    value: str
    allowed: str
    message: str
    file: str
    line: int
    column: int

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}:{self.column}: " if self.line > 0 else ""
        return f"{place}{self.message}"


class FeedError(Exception):
    """Something libfeed cannot do, with every problem of the input at once.

    Attributes
    ----------
    errors : tuple of ErrorDetail
        All problems, in the order of the input; never empty.
    code, field, value, allowed, file, line, column
        Those of the first problem.
    """

    def __init__(self, errors: tuple[ErrorDetail, ...]) -> None:
        super().__init__(errors)
        self.errors = errors

    def __str__(self) -> str:
        return "\n".join(str(problem) for problem in self.errors)

    @property
    def code(self) -> ErrorCode:
        """What kind of thing is wrong."""
        return self.errors[0].code

    @property
    def field(self) -> str:
        """Which entry, in the words of the input."""
        return self.errors[0].field

    @property
    def value(self) -> str:
        """What was given, with its unit."""
        return self.errors[0].value

    @property
    def allowed(self) -> str:
        """What is allowed."""
        return self.errors[0].allowed

    @property
    def file(self) -> str:
        """Name of the file, or empty."""
        return self.errors[0].file

    @property
    def line(self) -> int:
        """Line in the file from 1, or 0."""
        return self.errors[0].line

    @property
    def column(self) -> int:
        """Column in the file from 1, or 0."""
        return self.errors[0].column


class FeedValueError(FeedError, ValueError):
    """A number, an amount or a word that cannot be: out of range, without unit, contradictory."""


class FeedNameError(FeedError, KeyError):
    """A name that is not known: a feedstock, a property, a key of a file."""

    __str__ = FeedError.__str__


class FeedFormatError(FeedError, ValueError):
    """A text that is not well-formed, not UTF-8, too large or of another version."""


class FeedFileError(FeedError, OSError):
    """A file that cannot be read or written."""

    __str__ = FeedError.__str__


class FeedMemoryError(FeedError, MemoryError):
    """There was not enough memory."""


class FeedInternalError(FeedError, RuntimeError):
    """A fault of libfeed itself; please report it."""


_NAMES = {
    ErrorCode.UNKNOWN_FEEDSTOCK,
    ErrorCode.AMBIGUOUS_FEEDSTOCK,
    ErrorCode.UNKNOWN_PROPERTY,
    ErrorCode.UNKNOWN_KEY,
}
_FORMATS = {
    ErrorCode.SYNTAX,
    ErrorCode.WRONG_VERSION,
    ErrorCode.TOO_LARGE,
    ErrorCode.NOT_UTF8,
}
_FILES = {ErrorCode.NOT_READABLE, ErrorCode.NOT_WRITABLE}
_INTERNAL = {ErrorCode.FAILED, ErrorCode.INTERNAL}


def class_of(code: ErrorCode) -> type[FeedError]:
    """The exception class of a code."""
    if code in _NAMES:
        return FeedNameError
    if code in _FORMATS:
        return FeedFormatError
    if code in _FILES:
        return FeedFileError
    if code in _INTERNAL:
        return FeedInternalError
    if code is ErrorCode.OUT_OF_MEMORY:
        return FeedMemoryError
    return FeedValueError


def exception_of(problems: list[tuple[int, str, str, str, str, str, int, int]]) -> FeedError:
    """The exception for problems as the compiled part hands them over."""
    errors = tuple(ErrorDetail(ErrorCode(problem[0]), *problem[1:]) for problem in problems)
    return class_of(errors[0].code)(errors)
