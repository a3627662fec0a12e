"""Every function with every pointer NULL in turn: a code, never a crash; outputs cleared.

Runs in a process of its own for each function, so that a crash is a failure with a name.
"""

from __future__ import annotations

import ctypes
import subprocess
import sys
from pathlib import Path

import c_header as header
import c_library as library
import pytest
from c_world import World

# Pointers that the header says may be NULL. `error` may be NULL everywhere.
OPTIONAL = {
    ("feed_text_get", "length"),
    ("feed_feedstock_define", "like"),
    ("feed_answer_portion", "label"),
    ("feed_check_caution", "source"),
    ("feed_forecast_series", "low"),
    ("feed_forecast_series", "high"),
    ("feed_table_search", "rows"),
    ("feed_amount_to_wet_kg", "how"),
}


def is_cleared(parameter: header.Parameter, address: int) -> bool:
    """Whether an output is NULL, 0 or NaN after a failure; anything else is no plain output."""
    if parameter.type.endswith("**"):
        return ctypes.c_void_p.from_address(address).value is None
    if parameter.type == "double*":
        number = ctypes.c_double.from_address(address).value
        return number != number
    if parameter.type == "size_t*" and parameter.name != "rows":
        return ctypes.c_size_t.from_address(address).value == 0
    return True


def call_with_nulls(build_dir: Path, name: str) -> None:
    """Calls one function once for each pointer, that pointer NULL."""
    world = World(build_dir)
    function = next(f for f in header.functions() if f.name == name)
    entry = getattr(world.lib, name)
    if function.returns == "feed_code":
        error = library.Sized("feed_error")
        arguments = [world.valid(function, p) for p in function.parameters]
        arguments[-1] = error.pointer()
        assert entry(*arguments) == 0, f"{name} with nothing missing: {error.text('message')}"
    for missing, parameter in enumerate(function.parameters):
        if not parameter.is_pointer or parameter.type.startswith("const feed_allocator"):
            continue
        arguments = [world.valid(function, p) for p in function.parameters]
        error = library.Sized("feed_error")
        if function.parameters[-1].name == "error":
            arguments[-1] = error.pointer()
        arguments[missing] = None
        code = entry(*arguments)
        if function.returns != "feed_code" or parameter.name == "error":
            continue
        if (name, parameter.name) in OPTIONAL:
            continue
        assert code != 0, f"{name} takes {parameter.name} = NULL for granted"
        assert error.integer("code") == code
        assert error.text("message"), f"{name} says nothing of {parameter.name} = NULL"
        for other, argument in zip(function.parameters, arguments, strict=True):
            if isinstance(argument, int):
                assert is_cleared(other, argument), f"{name} leaves {other.name} as it was"


@pytest.mark.parametrize("name", [function.name for function in header.functions()])
def test_null_pointers(name: str, build_dir: Path) -> None:
    program = [sys.executable, __file__, str(build_dir), name]
    done = subprocess.run(program, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-2000:]


if __name__ == "__main__":
    call_with_nulls(Path(sys.argv[1]), sys.argv[2])
