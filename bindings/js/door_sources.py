"""What is compiled where there is no operating system: all behind the door, with JSON alone."""

from __future__ import annotations

import os
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# What asks an operating system; the door needs none of it.
OUTSIDE_THE_DOOR = {
    "beside_file.cpp",
    "file_change.cpp",
    "output_files.cpp",
    "text_file.cpp",
    "yaml_tree.cpp",
}
# Its names clash with those of other files when they are joined (libfeed/CMakeLists.txt).
ALONE = {"trial_svg.cpp"}
SOURCES_JOINED = 24


def joined_sources(work: Path) -> list[Path]:
    """All behind the door, JSON alone, as a few files of two dozen sources each: the headers are
    read once for all of them."""
    sources = [
        source
        for source in sorted((ROOT / "libfeed/src").glob("*.cpp"))
        if source.name not in OUTSIDE_THE_DOOR
    ]
    apart = [source for source in sources if source.name in ALONE]
    together = [source for source in sources if source.name not in ALONE]
    made = []
    for start in range(0, len(together), SOURCES_JOINED):
        path = work / f"joined_{start // SOURCES_JOINED}.cpp"
        some = together[start : start + SOURCES_JOINED]
        path.write_text("".join(f'#include "{source}"\n' for source in some), encoding="utf-8")
        made.append(path)
    return [*made, *apart, ROOT / "bindings/js/src/json_only.cpp"]


def boost_headers(work: Path) -> Path:
    """A folder with nothing but Boost, so that no header of this machine's C library is found."""
    for place in (os.environ.get("BOOST_ROOT"), "/usr/include", "/usr/local/include"):
        if place and (Path(place) / "boost/units/quantity.hpp").is_file():
            folder = work / "headers"
            folder.mkdir(exist_ok=True)
            link = folder / "boost"
            if not link.is_symlink():
                link.symlink_to(Path(place) / "boost")
            return folder
    raise SystemExit("Boost's headers are not there: install libboost-dev, or set BOOST_ROOT")
