"""Write the diaries of the two invented seasons: a school's term and a yard's quarter.

write.py           write school/*.yaml and yard/*.yaml beside this file
write.py --check   only say whether they are as this file writes them (exit 1 when not)

Everything in them is invented. The seed is fixed, so each run writes the same files.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path
from random import Random

HERE = Path(__file__).resolve().parent
SEED = 20260907


@dataclass
class Bin:
    """A worm bin and how its keepers feed it."""

    name: str
    title: str
    group: str
    container: str
    worms_g: int
    age: str
    days: tuple[int, ...]  # of the week, 0 is Monday
    by: tuple[str, ...]
    foods: tuple[str, ...]
    bedding: str
    celsius: float
    share: float  # of the worms' weight that goes in a week
    seen: dict[date, str] = field(default_factory=dict)
    stock: tuple[str, ...] = ()
    away: tuple[date, date] | None = None


def grams(number: float) -> int:
    """As a kitchen scale in a classroom is read: by 10 g."""
    return max(10, round(number / 10) * 10)


def diary(one: Bin, first: date, last: date, random: Random) -> str:
    """The file of a bin: every feeding of the season, and a look each fortnight."""
    lines = [
        "libfeed: 1",
        "# Invented; written by examples/seasons/write.py.",
        f"title: {one.title}",
        f"group: {one.group}",
        "bed:",
        f"  date: {first}",
        f"  container: {one.container}",
        f"  worms: {one.worms_g} g",
        "  squeeze: drops",
        f"  temperature: {one.celsius:g} C",
        f"  age: {one.age}",
        "feedings:",
    ]
    looks: list[str] = []
    for day in (first + timedelta(n) for n in range((last - first).days + 1)):
        closed = one.away is not None and one.away[0] <= day <= one.away[1]
        if day.weekday() in one.days and not closed:
            scraps = one.share * one.worms_g / len(one.days) * random.uniform(0.7, 1.15)
            foods = random.sample(one.foods, 2)
            part = random.uniform(0.4, 0.7)
            bedding = grams(scraps * random.uniform(0.14, 0.2))
            lines.append(f"  - date: {day}")
            lines.append(
                f"    portions: [{grams(scraps * part)} g {foods[0]}, "
                f"{grams(scraps * (1 - part))} g {foods[1]}, {bedding} g {one.bedding}]"
            )
            lines.append(f"    by: {random.choice(one.by)}")
        if day in one.seen:
            looks.append(f"  - {{date: {day}, {one.seen[day]}}}")
        elif (day - first).days % 14 == 7 and not closed:
            share = random.choice(("60 %", "75 %", "85 %"))
            looks.append(f"  - {{date: {day}, share_gone: {share}, smell: earthy, squeeze: drops}}")
    lines += ["observations:", *looks]
    if one.stock:
        lines += ["stock:", *(f"  - {entry}" for entry in one.stock)]
    return "\n".join(lines) + "\n"


def day(month: int, number: int) -> date:
    return date(2026, month, number)


SCHOOL_FIRST, SCHOOL_LAST = day(9, 7), day(12, 11)
HALF_TERM = (day(10, 26), day(10, 30))
LUNCH = ("carrot", "apple core", "lettuce", "cucumber", "banana peel")
SCHOOL = (
    Bin("beech", "Beech bin", "Beech", "60 L tote", 600, "1 year", (0, 3), ("Amin", "Zoe"), LUNCH,
        "shredded cardboard", 18, 0.62, {day(10, 20): "worm_weight: 650 g"}, (), HALF_TERM),
    Bin("rowan", "Rowan bin", "Rowan", "60 L tote", 500, "8 months", (1, 4), ("Ines", "Jo"), LUNCH,
        "shredded newspaper", 18, 0.6, {}, (), HALF_TERM),
    Bin("oak", "Oak box", "Oak", "120 L tote", 1200, "2 years", (0, 3), ("Kofi", "Lena", "Max"),
        LUNCH, "shredded cardboard", 17, 0.62,
        {day(11, 18): 'action: "harvested 12 L", worm_weight: 1.3 kg'}, (), HALF_TERM),
    Bin("staff", "Staff room bin", "Staff", "45 L tote", 400, "1 year", (2,), ("Ms Ode",),
        ("apple core", "banana peel", "pear"), "shredded office paper", 20, 0.5, {},
        (), HALF_TERM),
    Bin("kitchen", "Kitchen box", "Kitchen", "120 L tote", 1500, "3 years", (1, 4), ("Mr Brandt",),
        ("carrot", "lettuce", "cucumber", "pear"), "shredded cardboard", 18, 0.6, {},
        ("{date: 2026-12-09, portions: [3 kg frozen melon rind], container: kitchen freezer}",
         "{date: 2026-12-14, portions: [1.2 kg lettuce, 6 kg shredded cardboard]}"), HALF_TERM),
)  # fmt: skip

YARD_FIRST, YARD_LAST = day(4, 6), day(7, 3)
GREENS = ("lettuce", "carrot", "cucumber", "apple core", "cabbage")
YARD = (
    Bin("bed_one", "Bed one", "Monday crew", "120 L tote", 1500, "1 year", (0, 4),
        ("Rae", "Tom"), GREENS, "dry leaves", 18, 0.55, {day(6, 2): "worm_weight: 1.7 kg"},
        ("{date: 2026-07-01, portions: [4 kg dry leaves], container: leaf cage}",)),
    Bin("bed_two", "Bed two", "Monday crew", "120 L tote", 1400, "1 year", (0, 4),
        ("Rae", "Tom"), GREENS, "dry leaves", 18, 0.55),
    Bin("bed_three", "Bed three", "Cafe round", "120 L tote", 1600, "18 months", (2, 5),
        ("Uma",), GREENS, "shredded cardboard", 19, 0.55, {day(6, 20): "worm_weight: 1.6 kg"},
        ("{date: 2026-07-02, portions: [2 kg frozen melon rind], container: chest freezer}",
         "{date: 2026-07-03, portions: [1 kg cucumber, 3 kg shredded cardboard]}")),
    Bin("bed_four", "Bed four", "Cafe round", "60 L tote", 700, "6 months", (2,), ("Uma",),
        GREENS, "shredded cardboard", 19, 0.5),
)  # fmt: skip


@dataclass
class Heap:
    """A heap: what was built, and how its heat went."""

    name: str
    title: str
    at_hand: tuple[str, ...]
    built: date
    peak_c: float
    turned: tuple[date, ...]
    until: date


HEAPS = (
    Heap("heap_spring", "Spring heap", ("6 barrows grass clippings", "9 barrows shredded leaves",
         "2 barrows wood chips"), day(4, 7), 64, (day(4, 17), day(4, 29), day(5, 12)),
         day(7, 2)),
    Heap("heap_june", "June heap", ("5 barrows grass clippings", "8 barrows shredded leaves",
         "2 barrows wood chips"), day(6, 8), 62, (day(6, 17),), day(7, 3)),
    Heap("heap_new", "New heap", ("4 barrows grass clippings", "8 barrows shredded leaves",
         "1 barrow wood chips"), day(6, 29), 59, (), day(7, 3)),
)  # fmt: skip


def heap_file(heap: Heap, random: Random) -> str:
    """The file of a heap: its recipe, and a look twice a week. After each turning it heats less."""
    lines = [
        "libfeed: 1",
        "kind: heap",
        "# Invented; written by examples/seasons/write.py.",
        f"title: {heap.title}",
        "containers:",
        "  barrow: 80 L",
        "balance:",
        "  at_hand:",
        *(f"    - as much as possible up to {one}" for one in heap.at_hand),
        "    - any water",
        "observations:",
    ]
    air = 13.0
    since, peak = heap.built, heap.peak_c
    here = heap.built
    while here <= heap.until:
        if here in heap.turned:
            lines.append(f"  - {{date: {here}, action: turned}}")
            since, peak = here, max(air + 6.0, peak - 14.0)
        gone = (here - since).days
        rise = 1.0 - 0.35**gone
        fall = 0.955 ** max(0, gone - 4)
        middle = round(air + (peak - air) * rise * fall + random.uniform(-1, 1))
        if here.weekday() in (1, 4) and here not in heap.turned:
            edge = round(air + (middle - air) * 0.4)
            lines.append(
                f"  - {{date: {here}, temperature: {{middle: {middle} C, edge: {edge} C}}, "
                f"air_low: {round(air - 5)} C, air_high: {round(air + 5)} C}}"
            )
        air = min(19.0, air + 0.07)
        here += timedelta(1)
    return "\n".join(lines) + "\n"


def files() -> dict[Path, str]:
    """Every file of both seasons, by its path."""
    random = Random(SEED)
    written = {}
    for folder, bins, first, last in (
        ("school", SCHOOL, SCHOOL_FIRST, SCHOOL_LAST),
        ("yard", YARD, YARD_FIRST, YARD_LAST),
    ):
        for one in bins:
            written[HERE / folder / f"{one.name}.yaml"] = diary(one, first, last, random)
    for heap in HEAPS:
        written[HERE / "yard" / f"{heap.name}.yaml"] = heap_file(heap, random)
    return written


def main() -> int:
    made = files()
    if "--check" in sys.argv:
        old = [
            path
            for path, text in made.items()
            if not path.is_file() or path.read_text(encoding="utf-8") != text
        ]
        for path in old:
            print(f"{path.relative_to(HERE)} is not as write.py writes it")
        return 1 if old else 0
    for path, text in made.items():
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
