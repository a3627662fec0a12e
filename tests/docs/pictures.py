"""The pictures of the pages that libfeed.plot draws, from the table and the examples.

    pictures.py            draws them into docs/pictures/
    pictures.py --check    draws them elsewhere and says where the committed ones differ

The same input gives the same file: no date, a fixed seed for the ids. Letters are drawn as shapes,
so that a page looks alike everywhere. Two pictures are alike when they have the same elements and
texts and no number is farther apart than `TOLERANCE`: another processor may round otherwise.
"""

from __future__ import annotations

import re
import sys
import tempfile
from pathlib import Path

import matplotlib
from matplotlib.figure import Figure

import libfeed
import libfeed.plot

ROOT = Path(__file__).resolve().parents[2]
FOLDER = ROOT / "docs" / "pictures"
TOLERANCE = 0.02  # of a point, 1/72 inch
PLACE = re.compile(r'\b(d|x|y)="([^"]*)"')
NUMBER = re.compile(r"-?\d+\.\d+(?:e-?\d+)?")
NAMED_ON_THE_MAP = (
    "banana-peel",
    "blood-meal",
    "cardboard-corrugated",
    "coffee-grounds",
    "coir-pith",
    "grass-clippings",
    "leaves-mixed",
    "sawdust-softwood",
    "straw-wheat",
    "urine-human",
    "wood-chips-green",
)


def example(name: str) -> libfeed.FeedFile:
    return libfeed.read_feed_file(str(ROOT / "examples" / name))


def feedstock_map() -> Figure:
    figure = libfeed.plot.feedstock_map(label=NAMED_ON_THE_MAP).get_figure(root=True)
    assert figure is not None
    return figure


def reachable_kitchen() -> Figure:
    problem = example("kitchen.yaml").problem
    assert problem is not None
    figure = libfeed.plot.reachable(problem).get_figure(root=True)
    assert figure is not None
    return figure


def forecast_tote() -> Figure:
    file = example("lunch_club_tote.yaml")
    assert file.bed is not None
    ahead = libfeed.forecast(file.bed, file.planned, days=28)
    return libfeed.plot.forecast(ahead, next_feeding_day=file.ration().next_feeding_day)


PICTURES = {
    "feedstock_map.svg": feedstock_map,
    "forecast_tote.svg": forecast_tote,
    "reachable_kitchen.svg": reachable_kitchen,
}


def shorter(text: str) -> str:
    """The same picture in fewer bytes: places to a hundredth of a point, no white space at ends."""

    def rounded(found: re.Match[str]) -> str:
        numbers = NUMBER.sub(lambda number: f"{float(number.group()):.2f}", found[2])
        return f'{found[1]}="{" ".join(numbers.split())}"'

    return re.sub(r"[ \t]+$", "", PLACE.sub(rounded, text), flags=re.MULTILINE)


def draw(folder: Path) -> None:
    """Draws every picture into a folder."""
    matplotlib.use("Agg")
    with matplotlib.rc_context():
        matplotlib.rcParams["svg.hashsalt"] = "libfeed"
        matplotlib.rcParams["svg.fonttype"] = "path"
        matplotlib.rcParams["font.family"] = "DejaVu Sans"
        for name, picture in PICTURES.items():
            metadata = {"Date": None, "Creator": None}
            picture().savefig(folder / name, metadata=metadata, facecolor="white")
    for name in PICTURES:
        text = (folder / name).read_text(encoding="utf-8")
        (folder / name).write_text(shorter(text), encoding="utf-8")


def difference(one: str, other: str) -> str:
    """What sets two pictures apart, or an empty text."""
    if NUMBER.sub("#", one) != NUMBER.sub("#", other):
        return "other elements or texts"
    pairs = zip(NUMBER.findall(one), NUMBER.findall(other), strict=True)
    farthest = max((abs(float(a) - float(b)) for a, b in pairs), default=0.0)
    return f"a number is {farthest:g} off" if farthest > TOLERANCE else ""


def differences(folder: Path) -> list[str]:
    """How the committed pictures differ from those that a folder holds."""
    found = []
    for name in PICTURES:
        texts = [(place / name).read_text(encoding="utf-8") for place in (FOLDER, folder)]
        if what := difference(*texts):
            found.append(f"docs/pictures/{name}: {what}")
    return found


def main() -> int:
    if sys.argv[1:] not in ([], ["--check"]):
        sys.exit(__doc__)
    if not sys.argv[1:]:
        draw(FOLDER)
        return 0
    with tempfile.TemporaryDirectory() as folder:
        draw(Path(folder))
        found = differences(Path(folder))
    print("\n".join(found))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
