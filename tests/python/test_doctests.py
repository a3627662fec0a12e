"""The examples in the docstrings, compiled part included, give what they say."""

from __future__ import annotations

import doctest
import inspect
import types
from collections.abc import Iterator

import numpy as np
import pytest

import libfeed
import libfeed._core
import libfeed.plot


def documented() -> Iterator[tuple[str, str]]:
    """Name and docstring of everything public, methods of classes included."""
    for module in (libfeed, libfeed.plot):
        yield module.__name__, module.__doc__ or ""
    for name in public():
        thing = getattr(libfeed, name)
        yield name, inspect.getdoc(thing) or ""
        if inspect.isclass(thing):
            for member, content in vars(thing).items():
                if not member.startswith("_"):
                    yield f"{name}.{member}", getattr(content, "__doc__", None) or ""


def public() -> list[str]:
    """Names that users may use."""
    return [
        name
        for name in dir(libfeed)
        if not name.startswith("_") and not isinstance(getattr(libfeed, name), types.ModuleType)
    ]


EXAMPLES = [(name, text) for name, text in documented() if ">>>" in text]


@pytest.mark.parametrize(("name", "text"), EXAMPLES, ids=[name for name, _ in EXAMPLES])
def test_docstring(name: str, text: str) -> None:
    names = {"libfeed": libfeed, "np": np}
    test = doctest.DocTestParser().get_doctest(text, names, name, None, 0)
    result = doctest.DocTestRunner().run(test)
    assert result.attempted > 0
    assert result.failed == 0


def test_there_are_examples() -> None:
    assert len(EXAMPLES) >= 20


def test_everything_public_has_a_docstring() -> None:
    bare = [name for name, text in documented() if not text.strip().split("->")[-1].strip("\n ")]
    assert bare == []


def test_functions_say_what_they_take_and_return() -> None:
    for name in public():
        thing = getattr(libfeed, name)
        if inspect.isbuiltin(thing) or inspect.isfunction(thing):
            text = inspect.getdoc(thing) or ""
            assert "Returns\n-------" in text, name
            if "()" not in text.split("\n")[0]:
                assert "Parameters\n----------" in text, name


def test_the_list_of_names_is_that_of_the_compiled_part() -> None:
    """Nothing of the compiled part is left out of the package."""
    left_out = [
        name
        for name in dir(libfeed._core)
        if not name.startswith("_") and not hasattr(libfeed, name)
    ]
    assert left_out == []
