"""A file, C and Python refuse the same numbers of a bed, and take the ends themselves."""

from __future__ import annotations

import ctypes
import subprocess
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import c_library as library
import pytest
from c_world import World

import libfeed


@dataclass(frozen=True)
class Border:
    """A number of a bed: how each way in writes it, and its ends; what is true of a jar on a sill
    and of a windrow (judgement)."""

    file: str  # the section `bed`, with {} for the number
    c: str
    python: str
    low: float
    high: float
    c_times: float = 1.0  # of the number of the file


BORDERS = [
    Border("{{container: {{volume: {} L}}}}", "nominal_volume_l", "volume_l", 0.5, 1e5),
    Border("{{container: {{stacked: {:.0f}}}}}", "stacked", "stacked", 1, 50),
    Border("{{depth_of_contents: {} m}}", "depth_of_contents_m", "depth_of_contents_m", 0.01, 3),
    Border("{{worms: {{count: {}}}}}", "worms_count", "worms_count", 0, 1e8),
    Border("{{temperature: {} C}}", "temperature_low_c", "temperature_c", -40, 120),
    Border("{{moisture: {}}}", "moisture_wet", "moisture", 0, 1),
    Border("{{ph: {}}}", "ph", "ph", 0, 14),
    Border("{{lime: {} kg}}", "lime_g_caco3", "lime_kg", 0, 1000, 1000.0),
    Border("{{age: {} days}}", "age_days", "age_days", 0, 36525),
    Border(
        "{{own_feeding_rate: {} per day}}",
        "own_feeding_rate_wet_kg_per_kg_day",
        "own_feeding_rate_per_day",
        0,
        5,
    ),
]


@pytest.fixture(scope="module")
def world(build_dir: Path) -> World:
    return World(build_dir)


def file_takes(border: Border, number: float, feed: Path, folder: Path) -> bool:
    path = folder / "bin.yaml"
    path.write_text(
        "libfeed: 1\nblend: [100 g apple core]\nbed: " + border.file.format(number) + "\n"
    )
    ran = subprocess.run([feed, "ration", path, "--json"], capture_output=True, text=True)
    assert ran.returncode in (0, 1, 2), ran.stderr
    return ran.returncode != 2


def c_takes(border: Border, number: float, world: World) -> bool:
    description = library.Sized("feed_bed_description")
    error = library.Sized("feed_error")
    assert world.lib.feed_bed_description_init(description.pointer(), error.pointer()) == 0
    whole = border.c == "stacked"
    given = ctypes.c_int32(int(number)) if whole else ctypes.c_double(number * border.c_times)
    description.set(border.c, given)
    bed = ctypes.c_void_p()
    code = world.lib.feed_bed_create(
        description.pointer(), None, ctypes.addressof(bed), error.pointer()
    )
    if code == 0:
        world.lib.feed_bed_free(bed)
    else:
        assert error.text("field") == border.c
    return bool(code == 0)


def python_takes(border: Border, number: float) -> bool:
    given: dict[str, Any] = {border.python: int(number) if border.python == "stacked" else number}
    try:
        libfeed.Bed(**given)
    except libfeed.FeedError as error:
        assert border.python in str(error)
        return False
    return True


@pytest.mark.parametrize("border", BORDERS, ids=lambda border: border.c)
def test_the_three_ways_in_have_the_same_borders(
    border: Border, world: World, feed_command: Path, tmp_path: Path
) -> None:
    step = 1.0 if border.c == "stacked" else 1e-3 * (border.high - border.low)
    for number, fits in [
        (border.low, True),
        (border.high, True),
        (border.low - step, False),
        (border.high + step, False),
    ]:
        assert file_takes(border, number, feed_command, tmp_path) is fits, (border.file, number)
        assert c_takes(border, number, world) is fits, (border.c, number)
        assert python_takes(border, number) is fits, (border.python, number)
