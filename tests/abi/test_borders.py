"""What the C interface refuses at its border: structs of the wrong size, numbers that name nothing,
allocators that cannot be used; and what an error says."""

from __future__ import annotations

import ctypes
from collections.abc import Callable
from pathlib import Path

import c_header as header
import c_layout as layout
import c_library as library
import pytest
from c_world import World

BAD_ARGUMENT = 2
SIZED = [name for name, fields in layout.structs().items() if fields[0] == "struct_size"]
ALLOCATE = ctypes.CFUNCTYPE(ctypes.c_void_p, ctypes.c_void_p, ctypes.c_size_t, ctypes.c_size_t)
RELEASE = ctypes.CFUNCTYPE(None, ctypes.c_void_p, ctypes.c_void_p)


def struct_of(parameter: header.Parameter) -> str:
    return parameter.type.removeprefix("const ").removesuffix("*")


def parameters(wanted: Callable[[header.Parameter], bool]) -> list[tuple[str, int]]:
    """Functions and places of the parameters that are wanted."""
    return [
        (function.name, place)
        for function in header.functions()
        for place, parameter in enumerate(function.parameters)
        if wanted(parameter)
    ]


def called(world: World, name: str) -> tuple[header.Function, list[object], library.Sized]:
    """A function, arguments with which it may be called, and its error struct."""
    function = next(f for f in header.functions() if f.name == name)
    error = library.Sized("feed_error")
    arguments = [world.valid(function, parameter) for parameter in function.parameters]
    arguments[-1] = error.pointer()
    return function, arguments, error


@pytest.fixture(scope="module")
def world(build_dir: Path) -> World:
    return World(build_dir)


@pytest.mark.parametrize(
    ("name", "place"),
    parameters(lambda p: struct_of(p) in SIZED and p.name not in ("error", "allocator")),
)
def test_a_struct_that_is_too_small_is_refused(name: str, place: int, world: World) -> None:
    function, arguments, error = called(world, name)
    struct = library.Sized(struct_of(function.parameters[place]))
    struct.set("struct_size", ctypes.c_uint32(4))
    before = struct.bytes.raw
    arguments[place] = struct.pointer()
    assert getattr(world.lib, name)(*arguments) == BAD_ARGUMENT
    assert error.text("message")
    assert struct.bytes.raw == before, "written to beyond its size"


def test_an_error_struct_that_is_too_small_is_left_alone(world: World) -> None:
    error = library.Sized("feed_error")
    error.set("struct_size", ctypes.c_uint32(8))
    before = error.bytes.raw
    assert world.lib.feed_table_count(None, error.pointer()) == BAD_ARGUMENT
    assert error.bytes.raw == before


def test_a_struct_of_a_later_version_is_taken(world: World) -> None:
    """Callers compiled against a header with more fields pass a larger size."""
    info = ctypes.create_string_buffer(512)
    ctypes.memmove(info, ctypes.byref(ctypes.c_uint32(512)), 4)
    assert world.lib.feed_version(ctypes.addressof(info), None) == 0


@pytest.mark.parametrize(
    ("name", "place"),
    [
        (name, place)
        for name, place in parameters(lambda p: p.type == "int32_t")
        if name != "feed_code_name"
    ],
)
@pytest.mark.parametrize("number", [-7, 9999])
def test_a_number_that_names_nothing_is_refused(
    name: str, place: int, number: int, world: World
) -> None:
    _, arguments, error = called(world, name)
    arguments[place] = number
    code = getattr(world.lib, name)(*arguments)
    assert code != 0
    assert error.integer("code") == code
    assert error.text("field")
    assert error.text("allowed")


@pytest.mark.parametrize(("name", "place"), parameters(lambda p: p.type == "const feed_allocator*"))
def test_an_allocator_that_cannot_be_used_is_refused(name: str, place: int, world: World) -> None:
    _, arguments, error = called(world, name)
    allocator = library.Sized("feed_allocator")  # its functions are NULL
    for size in (len(allocator.bytes), 8):
        allocator.set("struct_size", ctypes.c_uint32(size))
        arguments[place] = allocator.pointer()
        assert getattr(world.lib, name)(*arguments) == BAD_ARGUMENT
        assert error.text("field").startswith("allocator")


@pytest.mark.parametrize(("name", "place"), parameters(lambda p: p.type == "const feed_allocator*"))
def test_an_allocator_serves_the_handle_and_gets_it_back(
    name: str, place: int, world: World
) -> None:
    function, arguments, error = called(world, name)
    given: dict[int, ctypes.Array[ctypes.c_char]] = {}

    def allocate(_user: int | None, size: int, alignment: int) -> int:
        assert alignment in (1, 2, 4, 8, 16)
        memory = ctypes.create_string_buffer(size + alignment)
        address = -(-ctypes.addressof(memory) // alignment) * alignment
        given[address] = memory
        return address

    def release(_user: int | None, memory: int) -> None:
        del given[memory]

    hooks = (ALLOCATE(allocate), RELEASE(release))
    allocator = library.Sized("feed_allocator")
    for field, hook in zip(("allocate", "release"), hooks, strict=True):
        allocator.set(field, ctypes.c_void_p(ctypes.cast(hook, ctypes.c_void_p).value))
    arguments[place] = allocator.pointer()
    code = getattr(world.lib, name)(*arguments)
    assert code == 0, error.text("message")
    out = next(
        (p, a)
        for p, a in zip(function.parameters, arguments, strict=True)
        if p.type.endswith("**") and isinstance(a, int)
    )
    assert given, "the allocator was not asked"
    handle = ctypes.c_void_p.from_address(out[1])
    getattr(world.lib, f"{out[0].type.removesuffix('**')}_free")(handle)
    assert given == {}


def test_an_error_says_where(world: World) -> None:
    text = ctypes.create_string_buffer(b"till roll:\n  like: newspaper\n  moisture: 180 %\n")
    out = ctypes.c_void_p()
    error = library.Sized("feed_error")
    code = world.lib.feed_feedstock_from_text(
        ctypes.addressof(text), None, ctypes.addressof(out), error.pointer()
    )
    assert code == error.integer("code") == 5  # FEED_OUT_OF_RANGE
    assert (error.integer("line"), error.integer("problem_count")) == (3, 1)
    assert error.integer("column") > 1
    assert "moisture" in error.text("field")
    assert "180" in error.text("value")
    assert error.text("allowed")
    assert error.text("message")


def set_mass(world: World, wet_kg: float) -> None:
    world.portions[1] = wet_kg


@pytest.mark.parametrize(
    "wet_kg", [1e308, 5e-324, 1e10, 1e-10, -1.0, 0.0, float("inf"), float("nan")]
)
@pytest.mark.parametrize(("name", "place"), parameters(lambda p: p.type == "const feed_portion*"))
def test_a_mass_that_nobody_weighs_is_refused(
    name: str, place: int, wet_kg: float, world: World
) -> None:
    """1e308 kg twice is infinity, and 5e-324 kg (denormal) loses its digits."""
    _, arguments, error = called(world, name)
    set_mass(world, wet_kg)
    try:
        arguments[place] = world.address(world.portions)
        arguments[place + 1] = 1
        assert getattr(world.lib, name)(*arguments) != 0
        assert "wet_kg" in error.text("field") and error.text("allowed")
    finally:
        set_mass(world, 1.0)


@pytest.mark.parametrize("field", ["least_wet_kg", "most_wet_kg", "usual_wet_kg"])
@pytest.mark.parametrize("wet_kg", [1e308, 5e-324])
def test_an_entry_that_nobody_weighs_is_refused(field: str, wet_kg: float, world: World) -> None:
    _, arguments, error = called(world, "feed_problem_add_entry")
    before = bytes(world.entry.bytes.raw)
    world.entry.set("least_wet_kg", ctypes.c_double(0.0))
    world.entry.set("most_wet_kg", ctypes.c_double(float("nan")))
    world.entry.set(field, ctypes.c_double(wet_kg))
    code = world.lib.feed_problem_add_entry(*arguments)
    ctypes.memmove(world.entry.bytes, before, len(before))
    assert code == 5  # FEED_OUT_OF_RANGE
    assert field in error.text("field")


@pytest.mark.parametrize(
    ("name", "struct", "field"),
    [
        ("feed_feedstock_from_label", "label", "carbohydrate_has_fibre"),
        ("feed_feedstock_from_report", "report", "as_received"),
    ],
)
@pytest.mark.parametrize("truth", [7, -1, 2])
def test_a_truth_value_is_0_or_1(
    name: str, struct: str, field: str, truth: int, world: World
) -> None:
    _, arguments, error = called(world, name)
    getattr(world, struct).set(field, ctypes.c_int32(truth))
    code = getattr(world.lib, name)(*arguments)
    getattr(world, struct).set(field, ctypes.c_int32(0))
    assert code == 5  # FEED_OUT_OF_RANGE
    assert error.text("field").endswith(field) and error.text("allowed") == "0 or 1"


TEXTS_IN = parameters(lambda p: p.type == "const char*")


@pytest.mark.parametrize(("name", "place"), TEXTS_IN)
@pytest.mark.parametrize("text", [b"caf\xe9", b"\xed\xa0\x80", b"\xc0\x80", b"\xf5\x80\x80\x80"])
def test_bytes_that_are_not_utf_8_are_refused(
    name: str, place: int, text: bytes, world: World
) -> None:
    _, arguments, error = called(world, name)
    held = ctypes.create_string_buffer(text)
    arguments[place] = ctypes.addressof(held)
    assert getattr(world.lib, name)(*arguments) == 22  # FEED_NOT_UTF8
    assert error.text("field")


def test_texts_in_structs_are_utf_8_too(world: World) -> None:
    held = ctypes.create_string_buffer(b"caf\xe9")
    _, arguments, error = called(world, "feed_problem_add_entry")
    world.entry.set("label", ctypes.c_void_p(ctypes.addressof(held)))
    code = world.lib.feed_problem_add_entry(*arguments)
    world.entry.set("label", ctypes.c_void_p(None))
    assert code == 22 and error.text("field") == "entry.label"
    _, arguments, error = called(world, "feed_feedstock_define")
    before = bytes(world.own.bytes.raw)
    world.own.set("name", ctypes.c_void_p(ctypes.addressof(held)))
    code = world.lib.feed_feedstock_define(*arguments)
    ctypes.memmove(world.own.bytes, before, len(before))
    assert code == 22 and error.text("field") == "own.name"


def test_a_text_with_nul_is_refused(world: World) -> None:
    """C ends its texts with NUL, but YAML and JSON can spell one."""
    _, arguments, error = called(world, "feed_diary_from_text")
    held = ctypes.create_string_buffer(b'{"libfeed": 1, "title": "a\\u0000b"}')
    arguments[0] = ctypes.addressof(held)
    assert world.lib.feed_diary_from_text(*arguments) == 22  # FEED_NOT_UTF8
    assert "NUL" in error.text("message")


def test_an_error_shows_what_steers_a_terminal(world: World) -> None:
    _, arguments, error = called(world, "feed_feedstock_look_up")
    held = ctypes.create_string_buffer("\x1b[2J\u202eqqqq".encode())
    arguments[0] = ctypes.addressof(held)
    assert world.lib.feed_feedstock_look_up(*arguments) != 0
    assert error.text("value") == "\\x1b[2J\\u202eqqqq"
