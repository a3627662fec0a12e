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
# What stands in every output before a call.
POISON = 0x5A
DIARY = b"libfeed: 1\nbed:\n  container: tote\n  worms: 500 g\n"
BLEND = b"libfeed: 1\nblend:\n  - 1 kg coffee grounds\n"


class World:
    """Valid handles and values for every parameter of the header."""

    def __init__(self, build_dir: Path) -> None:
        self.lib = library.load(build_dir)
        self.keep: list[object] = []
        self.feedstock = self.make("feed_feedstock_look_up", b"coffee grounds", None)
        self.portions = (ctypes.c_double * 2)()
        ctypes.memmove(self.portions, ctypes.byref(ctypes.c_void_p(self.feedstock)), 8)
        self.portions[1] = 1.0
        self.description = library.Sized("feed_bed_description")
        assert self.lib.feed_bed_description_init(self.description.pointer(), None) == 0
        self.bed = self.make("feed_bed_create", self.description.pointer(), None)
        self.problem = self.make("feed_problem_create", None)
        entry = library.Sized("feed_entry")
        entry.set("feedstock", ctypes.c_void_p(self.feedstock))
        entry.set("least_wet_kg", ctypes.c_double(1.0))
        entry.set("most_wet_kg", ctypes.c_double(1.0))
        entry.set("cost_per_wet_kg", ctypes.c_double(float("nan")))
        entry.set("usual_wet_kg", ctypes.c_double(float("nan")))
        self.entry = entry
        assert self.lib.feed_problem_add_entry(self.problem, entry.pointer(), None) == 0
        assert self.lib.feed_problem_use_target_set(self.problem, 0, None) == 0
        self.answer = self.make("feed_balance", self.problem, None)
        self.result = self.make("feed_check", self.bed, self.address(self.portions), 1, None)
        self.forecast = self.make("feed_forecast_bed", self.bed, 3, None)
        self.diary = self.make("feed_diary_from_text", DIARY, b"diary", None)
        self.text = self.make("feed_json", b"blend", BLEND, b"blend", None)

    @staticmethod
    def address(thing: ctypes.Array[ctypes.c_double]) -> int:
        return ctypes.addressof(thing)

    def make(self, name: str, *arguments: object) -> int:
        out = ctypes.c_void_p()
        error = library.Sized("feed_error")
        entry = getattr(self.lib, name)
        given = [
            ctypes.cast(ctypes.c_char_p(a), ctypes.c_void_p) if isinstance(a, bytes) else a
            for a in arguments
        ]
        code = entry(*given, ctypes.byref(out), error.pointer())
        assert code == 0, f"{name}: {error.text('message')}"
        assert out.value is not None
        return out.value

    def valid(self, function: header.Function, parameter: header.Parameter) -> object:
        """A value with which the call succeeds, or at least is well-formed."""
        kind = parameter.type.removeprefix("const ").removesuffix("*").strip()
        if kind == "char" and function.name == "feed_amount_to_wet_kg" and parameter.name == "how":
            buffer = ctypes.create_string_buffer(64)
            self.keep.append(buffer)
            return ctypes.addressof(buffer)
        texts = {
            "words": b"coffee grounds",
            "amount": b"1 kg",
            "verb": b"blend",
            "name": b"text",
            "text": DIARY if "diary" in function.name else BLEND,
        }
        if kind == "char" and parameter.name in texts and parameter.type.startswith("const"):
            held = ctypes.create_string_buffer(texts[parameter.name])
            self.keep.append(held)
            return ctypes.addressof(held)
        handles = {
            "feed_feedstock": self.feedstock,
            "feed_bed": self.bed,
            "feed_problem": self.problem,
            "feed_answer": self.answer,
            "feed_check_result": self.result,
            "feed_forecast": self.forecast,
            "feed_diary": self.diary,
            "feed_text": self.text,
            "feed_entry": self.entry.pointer(),
        }
        if parameter.type.endswith("**") or kind in ("size_t", "double", "char *", "char*"):
            space = (ctypes.c_double * 8)()
            ctypes.memset(space, POISON, ctypes.sizeof(space))
            self.keep.append(space)
            return self.address(space)
        if kind in handles:
            return handles[kind]
        if kind == "feed_portion":
            return self.address(self.portions)
        if kind == "feed_allocator":
            return None
        if kind.startswith("feed_") and parameter.is_pointer:
            struct = library.Sized(kind)
            self.keep.append(struct)
            return struct.pointer()
        return {"size_t": 1, "double": 1.0}.get(parameter.type, 0)


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
