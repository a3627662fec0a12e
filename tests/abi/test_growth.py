"""Structs grow by appending: programs and libraries of different age understand each other."""

from __future__ import annotations

import ctypes
import re
import subprocess
from pathlib import Path

import c_growth as growth
import c_header as header
import c_layout as layout
import c_library as library
import pytest
from c_world import World
from clang_version import CLANG, CLANG_C
from test_borders import SIZED, called, struct_of
from test_null_pointers import is_cleared

CLIENT = Path(__file__).with_name("growth_client.c")
SOURCES = header.ROOT / "bindings/c/src"
BAD_ARGUMENT = 2
OUT_OF_RANGE = 5


@pytest.fixture(scope="module")
def headers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("headers")
    return {
        "present": header.HEADER.parent.parent,
        "longer": growth.write(folder / "longer", growth.longer()),
        "shorter": growth.write(folder / "shorter", growth.shorter()),
    }


@pytest.fixture(scope="module")
def clients(
    build_dir: Path, headers: dict[str, Path], tmp_path_factory: pytest.TempPathFactory
) -> dict[str, Path]:
    """The client against each header."""
    folder = tmp_path_factory.mktemp("clients")
    made = {}
    for name, flags in (("present", []), ("longer", ["-DLATER"]), ("shorter", ["-DSHORTER"])):
        made[name] = folder / name
        include = f"-I{headers[name]}"
        command = [CLANG_C, "-std=c99", "-Wall", "-Werror", include, *flags, str(CLIENT)]
        command += ["-o", str(made[name]), f"-L{present(build_dir)}", "-lfeed"]
        subprocess.run(command, check=True)
    return made


@pytest.fixture(scope="module")
def grown(
    build_dir: Path, headers: dict[str, Path], tmp_path_factory: pytest.TempPathFactory
) -> Path:
    """The folder of a later version of the library: each struct has one more member."""
    folder = tmp_path_factory.mktemp("grown")
    whole = folder / "whole.cpp"
    names = sorted(SOURCES.glob("*.cpp"))
    whole.write_text("".join(f'#include "{name}"\n' for name in names), encoding="utf-8")
    command = [CLANG, "-std=c++20", "-O0", "-fPIC", "-shared", "-fvisibility=hidden"]
    command += ["-Wl,-soname,libfeed.so.0", f"-Wl,--version-script={present(build_dir)}/feed.map"]
    command += [f"-I{headers['longer']}", f"-I{header.ROOT / 'libfeed/include'}", str(whole)]
    command += [str(build_dir / "libfeed/libfeed_io.a"), "-lyaml-cpp"]
    subprocess.run([*command, "-o", str(folder / "libfeed.so.0")], check=True)
    return folder


def run(client: Path, folder: Path, *words: str) -> str:
    """What the client prints with the library of this folder."""
    done = subprocess.run(
        [str(client), *words],
        env={"LD_LIBRARY_PATH": str(folder)},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, (client.name, words, done.returncode, done.stderr)
    return done.stdout


def present(build_dir: Path) -> Path:
    """The folder of the library as it is."""
    return build_dir / "bindings/c"


def test_the_made_headers_differ_in_each_struct_that_may_grow() -> None:
    count = len(SIZED)
    assert growth.longer().count(growth.LATER) == count
    text = header.HEADER.read_text(encoding="utf-8")
    assert len(growth.STRUCT.findall(text)) == count
    initialised = {name.lower() for name in re.findall(r"#define (FEED_\w+)_INIT", text)}
    filled = {
        struct_of(p)
        for f in header.functions()
        for p in f.parameters
        if p.type.startswith("const ") and struct_of(p) in layout.structs()
    }
    never_grow = {"feed_portion", "feed_own_value"}
    assert filled | never_grow | {"feed_error"} <= initialised | {"feed_estimate"}


def test_programs_and_libraries_of_different_age_say_the_same(
    build_dir: Path, clients: dict[str, Path], grown: Path
) -> None:
    said = run(clients["present"], present(build_dir))
    assert len(said.splitlines()) >= 6 and "nan" not in said
    assert run(clients["longer"], present(build_dir), "older") == said
    assert run(clients["present"], grown) == said
    assert run(clients["longer"], grown) == said


def test_structs_shorter_than_their_first_version_are_refused(
    build_dir: Path, clients: dict[str, Path], grown: Path
) -> None:
    """With an error that is too short, every call is; nothing is touched beyond its end."""
    for folder in (present(build_dir), grown):
        assert run(clients["shorter"], folder, "refused") == ""


@pytest.fixture(scope="module")
def world(build_dir: Path) -> World:
    return World(build_dir)


FALLIBLE = [f.name for f in header.functions() if f.returns == "feed_code"]


@pytest.mark.parametrize("size", [0, 4, 8, 771])
@pytest.mark.parametrize("name", FALLIBLE)
def test_an_error_whose_size_was_not_set_is_seen(name: str, size: int, world: World) -> None:
    """The call fails, its outputs are cleared, and the error is left alone."""
    function, arguments, error = called(world, name)
    ctypes.memset(error.pointer(), 0x5A, len(error.bytes))
    error.set("struct_size", ctypes.c_uint32(size))
    before = error.bytes.raw
    assert getattr(world.lib, name)(*arguments) == BAD_ARGUMENT
    assert error.bytes.raw == before
    for parameter, argument in zip(function.parameters[:-1], arguments[:-1], strict=True):
        if isinstance(argument, int):
            assert is_cleared(parameter, argument), parameter.name


def test_no_struct_has_padding_at_its_end() -> None:
    """A member put there would be read from the padding of programs that do not know it."""
    size, end, name = 0, 0, ""
    for line in [*layout.LAYOUT.read_text(encoding="utf-8").splitlines(), "end 0"]:
        word, number, *rest = line.split()
        if line.startswith(" "):
            end = int(number) + int(rest[0])
            continue
        assert end == size, name
        name, size = word, int(number)


INITIALISERS = """#include <feed/feed.h>
static const feed_own_value value = FEED_OWN_VALUE_INIT;
int main(void) {
    feed_error error = FEED_ERROR_INIT;
    feed_allocator allocator = FEED_ALLOCATOR_INIT;
    feed_own_feedstock own = FEED_OWN_FEEDSTOCK_INIT;
    feed_nutrition_label label = FEED_NUTRITION_LABEL_INIT;
    feed_laboratory_report report = FEED_LABORATORY_REPORT_INIT;
    feed_portion portion = FEED_PORTION_INIT;
    feed_entry entry = FEED_ENTRY_INIT;
    feed_target target = FEED_TARGET_INIT;
    feed_bed_description bed = FEED_BED_DESCRIPTION_INIT;
    return error.struct_size == sizeof error && allocator.struct_size == sizeof allocator &&
           own.stance == FEED_NOT_GIVEN && own.value_count == 0 && label.water != label.water &&
           report.ash != report.ash && portion.wet_kg != portion.wet_kg &&
           entry.most_wet_kg != entry.most_wet_kg && target.property == FEED_NOT_GIVEN &&
           bed.squeeze == FEED_NOT_GIVEN && bed.ph != bed.ph && value.low != value.low
               ? 0 : 1;
}
"""


@pytest.mark.parametrize(
    ("compiler", "language", "standard"),
    [("gcc", "c", "c99"), (CLANG_C, "c", "c99"), ("g++", "c++", "c++11"), (CLANG, "c++", "c++20")],
)
def test_the_initialisers_compile_and_mean_not_given(
    compiler: str, language: str, standard: str, tmp_path: Path
) -> None:
    source = tmp_path / "initialisers.txt"
    source.write_text(INITIALISERS, encoding="utf-8")
    command = [compiler, f"-std={standard}", "-pedantic", "-Wall", "-Wextra", "-Wconversion"]
    command += ["-Werror", f"-I{header.HEADER.parent.parent}", "-x", language, str(source)]
    subprocess.run([*command, "-o", str(tmp_path / "program")], check=True)
    subprocess.run([str(tmp_path / "program")], check=True)


def test_an_initialised_bed_is_the_one_that_the_function_makes(world: World) -> None:
    made = library.Sized("feed_bed_description")
    assert world.lib.feed_bed_description_init(made.pointer(), None) == 0
    assert made.integer("container") == made.integer("squeeze") == -1
    for field, (_, size) in made.offsets.items():
        assert size == 4 or made.double(field) != made.double(field), field


# What a careless caller sets after zeroing: struct, function, fields, the field that is refused.
ZEROED = [
    ("feed_own_feedstock", "feed_feedstock_define", {"name": b"x"}, "own.roles"),
    ("feed_own_feedstock", "feed_feedstock_define", {"name": b"x", "roles": 1}, "own.stance"),
    (
        "feed_own_feedstock",
        "feed_feedstock_define",
        {"name": b"x", "roles": 1, "stance": 1, "cautions": 1},
        "own.decay_class",
    ),
    (
        "feed_own_feedstock",
        "feed_feedstock_define",
        {"name": b"x", "roles": 1, "stance": 1, "decay_class": 1},
        "own.cautions",
    ),
    ("feed_nutrition_label", "feed_feedstock_from_label", {}, ""),
    (
        "feed_nutrition_label",
        "feed_feedstock_from_label",
        {"protein": 0.03, "fat": 0.01, "carbohydrate": 0.09},
        "",
    ),
    ("feed_laboratory_report", "feed_feedstock_from_report", {}, ""),
    (
        "feed_laboratory_report",
        "feed_feedstock_from_report",
        {"moisture_wet": 0.35, "carbon": 0.42, "nitrogen": 0.012},
        "",
    ),
    ("feed_entry", "feed_problem_add_entry", {}, "entry.feedstock"),
    ("feed_entry", "feed_problem_add_entry", {"least_wet_kg": 1.0}, "entry.feedstock"),
    ("feed_target", "feed_problem_set_target", {}, "target.high"),
    ("feed_target", "feed_problem_set_target", {"low": 20.0, "high": 30.0}, "target.aim"),
    ("feed_target", "feed_problem_set_target", {"property": 1, "high": 0.8}, "target.aim"),
    ("feed_bed_description", "feed_bed_create", {}, "inside_length_m"),
    ("feed_bed_description", "feed_bed_create", {"stacked": 1}, "inside_length_m"),
]


@pytest.mark.parametrize(("struct", "name", "fields", "refused"), ZEROED)
def test_zeroed_memory_is_refused_where_it_would_look_harmless(
    struct: str, name: str, fields: dict[str, object], refused: str, world: World
) -> None:
    function, arguments, error = called(world, name)
    given = library.Sized(struct)  # zero but for its size
    for field, said in fields.items():
        if isinstance(said, bytes):
            held = ctypes.create_string_buffer(said)
            world.keep.append(held)
            given.set(field, ctypes.c_void_p(ctypes.addressof(held)))
        elif isinstance(said, float):
            given.set(field, ctypes.c_double(said))
        else:
            assert isinstance(said, int)
            given.set(field, ctypes.c_int32(said))
    place = next(i for i, p in enumerate(function.parameters) if struct_of(p) == struct)
    arguments[place] = given.pointer()
    if name == "feed_feedstock_define":  # of something that is never fed
        arguments[1] = world.make("feed_feedstock_look_up", b"bacon", None)
    assert getattr(world.lib, name)(*arguments) != 0
    assert error.text("message") and error.text("field").startswith(refused)


def test_a_zeroed_entry_adds_nothing_to_a_recipe(world: World) -> None:
    """With its feedstock set, a zeroed entry is exactly none of it."""
    problem = world.make("feed_problem_create", None)
    assert world.lib.feed_problem_use_target_set(problem, 0, None) == 0
    for words, kg in ((b"coffee grounds", 1.0), (b"bacon", 0.0)):
        entry = library.Sized("feed_entry")
        found = ctypes.c_void_p(world.make("feed_feedstock_look_up", words, None))
        entry.set("feedstock", found)
        entry.set("least_wet_kg", ctypes.c_double(kg))
        entry.set("most_wet_kg", ctypes.c_double(kg))
        assert world.lib.feed_problem_add_entry(problem, entry.pointer(), None) == 0
    answer = world.make("feed_balance", problem, None)
    wet_kg = ctypes.c_double(9.0)
    assert world.lib.feed_answer_portion(answer, 1, ctypes.byref(wet_kg), None, None) == 0
    assert wet_kg.value == 0.0
