"""Requests whose answers show every field that is described in data/schema/answers.yaml."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml
from c_header import ROOT

sys.path.insert(0, str(ROOT / "tests" / "tooling"))
import random_files

Request = dict[str, Any]
EXAMPLES = ROOT / "examples"
CHANGES: list[Request] = [
    {"change": "bedding", "share": "half"},
    {"change": "flush"},
    {"change": "dry"},
    {"change": "split"},
    {"change": "move", "temperature": "38 C"},
    {"change": "away", "away": "3 weeks"},
    {"change": "winter"},
    {"change": "winter", "temperature": "-8 C"},
]
NOTES = [
    "fed 3 apples and a cup of coffee grounds",
    "half gone, smell sour",
    "stock 2 kg lettuce",
    "fed 2 bananas, smell sour",
]
BED = {"date": "2026-03-14", "container": "60 L tote", "worms": "500 g"}
SETTLED = {**BED, "age": "1 year", "squeeze": "damp"}


def fed(day: str, *portions: str) -> Request:
    return {"date": day, "portions": list(portions)}


def bin_file(bed: Request, **sections: Any) -> Request:
    return {"libfeed": 1, "bed": bed, **sections}


def heap_file(*looks: Request, **sections: Any) -> Request:
    return {"libfeed": 1, "kind": "heap", "observations": list(looks), **sections}


def warm(day: str, celsius: int, **more: str) -> Request:
    """A look at the middle of a heap."""
    return {"date": day, "temperature": {"middle": f"{celsius} C"}, **more}


# Invented beds that show what the examples do not.
SALTED = bin_file(
    {**SETTLED, "drainage": "none"},
    feedings=[fed("2026-03-15", "3 kg sauerkraut", "2 kg shredded cardboard")],
)
FULL = bin_file(
    SETTLED,
    feedings=[
        fed("2026-03-15", "2 kg carrot", "200 g shredded cardboard"),
        fed("2026-03-22", "2 kg carrot", "200 g shredded cardboard"),
    ],
)
COLD = bin_file(
    {**BED, "temperature": "8 C", "age": "1 year"},
    feedings=[fed("2026-03-15", "3 kg carrot"), fed("2026-03-26", "10 g carrot")],
    blend=["100 g carrot"],
)
HARVESTED = bin_file(
    {**BED, "age": "1 year"},
    feedings=[fed("2026-04-01", "500 g carrot")],
    observations=[{"date": "2026-05-01", "action": "harvested 5 L"}],
)
BEDS: list[Request] = [
    {"verb": "refresh", "change": "flush", "file": SALTED},
    {"verb": "signs", "signs": "worms climbing", "file": SALTED},
    {"verb": "refresh", "change": "bedding", "share": "half", "file": FULL},
    {"verb": "check", "file": COLD},
    {"verb": "harvest", "file": HARVESTED},
    {"verb": "harvest", "file": bin_file({**BED, "temperature": "1 C", "age": "2 weeks"})},
    {
        "verb": "stock",
        "file": bin_file(BED, stock=[fed("2026-03-14", "1 kg shredded cardboard")]),
    },
    {"verb": "stock", "file": bin_file(BED), "for": "26 weeks"},
    {"verb": "stock", "file": bin_file(BED, stock=[fed("2026-03-14", "1 kg bacon")])},
    {"verb": "stock", "file": bin_file(BED), "collect": "dry leaves, bacon, coffee grounds"},
]
HEAPS: list[Request] = [
    heap_file(warm("2026-05-02", 20)),
    heap_file(warm("2026-05-02", 84)),
    heap_file(warm("2026-05-02", 55, note="smoke from the top")),
    heap_file(warm("2026-05-02", 55, smell="ammonia")),
    heap_file(warm("2026-05-02", 55, smell="rotten")),
    heap_file(warm("2026-05-02", 72)),
    heap_file(warm("2026-05-02", 62), warm("2026-05-09", 40)),
    heap_file(warm("2026-05-02", 30), warm("2026-05-12", 28)),
    heap_file(warm("2026-06-02", 40, air_low="6 C", air_high="15 C")),
    heap_file({"date": "2026-06-02", "temperature": {"edge": "40 C"}}),
    heap_file({"date": "2026-06-02", "squeeze": "damp"}),
    heap_file(
        warm("2026-06-02", 61),
        warm("2026-06-09", 44, action="turned"),
        warm("2026-06-25", 24),
    ),
    heap_file(
        warm("2026-06-01", 61),
        warm("2026-06-05", 44, action="turned"),
        warm("2026-06-20", 30),
        warm("2026-07-20", 20, air_low="15 C", air_high="24 C"),
    ),
    heap_file(warm("2026-06-01", 61), warm("2026-06-09", 30, squeeze="crumbly")),
    {
        "libfeed": 1,
        "kind": "heap",
        "balance": {"at_hand": ["9 kg grass clippings", "any dry leaves", "500 g wood ash"]},
    },
    {
        "libfeed": 1,
        "kind": "heap",
        "balance": {
            "at_hand": ["9 kg dry leaves", "any water"],
            "targets": {"set": "none", "moisture": "50 % to 60 %"},
        },
    },
    heap_file(
        balance={
            "at_hand": [
                "as much as possible up to 50 L kitchen scraps",
                "as much as possible up to 10 L leaves",
            ],
            "targets": "hot-heap",
        }
    ),
]
SIGNS: list[Any] = [
    "sour smell",
    "worms climbing",
    "rats",
    "mites",
    "food left",
    "worms gone",
    ["balled worms", "hot"],
]
WORMS: list[Request] = [
    {"scraps": "1 kg apples, 1 kg bacon, 3 kg onion"},
    {"scraps": "20000 kg carrot"},
    {"scraps": "1 kg bacon"},
    {"people": 4, "coffee": 6},
    {"meals": 30, "units": "us"},
    {"census": "12, 30, 7, 18", "sample": "2 L of 40 L"},
    {"census": "12, 30, 7", "sample": "13 L of 40 L"},
    {"bin": "60 L tote", "worms": "1 lb"},
    {"bin": "60 L tote", "worms": "300 g", "scraps": "500 g carrot"},
    {"bin": "60 L tote", "worms": "100 g", "scraps": "1 kg carrot, 2 kg onion, 1 kg bacon"},
]
STARTS: list[Request] = [
    {"container": "tote", "size": "60 L", "worms": "1 lb", "bedding": "2 kg shredded cardboard"},
    {"container": "tote", "size": "60 L", "worms": "1 lb"},
    {"container": "tote", "size": "60 L", "worms": "1 lb", "bedding": "900 g shredded cardboard"},
    {"size": "60 L", "age": "2 years", "worms": "1 lb", "squeeze": "damp", "title": "B"},
]
BALANCES: list[Request] = [
    {"at_hand": ["1 kg tomato", "any cucumber"], "targets": {"cn_ratio": "25 to 40"}},
    {
        "at_hand": ["at least 1 kg carrot", "as much as possible shredded cardboard"],
        "targets": {"set": "none", "cn_ratio": "at least 20"},
    },
    {
        "at_hand": ["1 kg bread", "any shredded cardboard", "any water"],
        "targets": {"set": "none", "moisture": "50 % to 60 %", "water_over_least": "at most 1.5"},
    },
    {
        "at_hand": ["2 kg apple", "50 g own", "any shredded cardboard"],
        "targets": {"set": "none", "salt": "at most 1 %", "moisture": "60 % to 80 %"},
    },
    {
        "at_hand": ["1 kg coffee grounds", "any shredded cardboard", "any water"],
        "targets": {
            "set": "none",
            "acid": "at most 8 g/kg",
            "fat": "at most 5 %",
            "total_volume": "at most 30 L",
            "total_mass": "at most 6 kg",
            "free_air_space": "at least 20 %",
        },
    },
    {"at_hand": ["2 kg water"], "targets": {"set": "none", "cn_ratio": "25 to 40"}},
]
OWN = {"own": {"moisture": "80 %"}}
BLENDS: list[list[str]] = [
    ["1 kg own", "1 kg apple"],
    ["50 g own", "1 kg apple"],
    ["1 kg bacon", "1 kg coffee grounds"],
    ["1 kg water"],
    ["1 kg olive oil"],
    ["1 kg zeolite"],
]
WRONG: list[Request] = [
    {"verb": "blend", "things": "3 plutonium"},
    {"verb": "blend", "things": "1 kg lime"},
    {"verb": "blend", "things": "-1 kg apples"},
    {"verb": "blend"},
    {"verb": "week"},
    {"verb": "ration", "file": {"libfeed": 1}, "things": "3 apples"},
    {"verb": "ration", "file": {"libfeed": 2, "bed": BED}},
    {"verb": "ration", "file": "libfeed: 1\nbed: [\n"},
    {"verb": "ration", "file": {"libfeed": 1, "bedd": BED}},
    {"verb": "ration", "file": {"libfeed": 1, "bed": "tote"}},
    {"verb": "ration", "file": {"libfeed": 1, "bed": {**BED, "moisture": "x %"}}},
    {"verb": "ration", "file": {"libfeed": 1, "bed": {**BED, "worms": "1 furlong"}}},
    {"verb": "ration", "file": {"libfeed": 1, "bed": {**BED, "worms": "3"}}},
    {"verb": "blend", "file": {"libfeed": 1, "blend": []}},
    {"verb": "blend", "file": {"libfeed": 1, "feedstocks": {"a": {"moisture": 78}}}},
    {"verb": "blend", "file": {"libfeed": 1, "feedstocks": {"a": {"moisture": "80 % to 70 %"}}}},
    {
        "verb": "balance",
        "file": {"libfeed": 1, "balance": {"at_hand": ["any apples", "any straw"]}},
    },
    {
        "verb": "balance",
        "file": {
            "libfeed": 1,
            "balance": {
                "at_hand": [
                    "1 kg apple",
                    {"feedstock": "apple", "amount": "2 kg", "cost": "1 per kg"},
                ]
            },
        },
    },
    {
        "verb": "balance",
        "file": {"libfeed": 1, "balance": {"at_hand": ["1 kg apple"], "targets": {"sour": "1 %"}}},
    },
    {"verb": "blend", "things": ["x" * 5000] * 300},
    {"verb": "signs", "signs": []},
]


def trial_file(seen: bool = False, **members: Any) -> Request:
    """The trial of the examples, or what was seen of it, with other members."""
    path = EXAMPLES / ("rind_trial_seen.yaml" if seen else "rind_trial.yaml")
    file: Request = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    file["trial"].update(members)
    return file


def of_trials() -> Iterator[Request]:
    """Small trials: to say what one can tell takes the longest of all answers."""
    small: Request = {"bins": ["a", "b"], "portions": "1", "looks": "4", "last_day": "12"}
    chilled = [{"feedstock": "pumpkin", "preparation": "frozen and thawed"}, "pumpkin"]
    weighed = [{"feedstock": "pumpkin", "amount": "60 g"}, {"feedstock": "carrot", "amount": "1 g"}]
    written = trial_file(**small, feeds=weighed)
    yield {"verb": "trial plan", "file": trial_file(**small, feeds=weighed)}  # a portion, too
    del written["trial"]["portion"]
    found = trial_file(**small, question="found", blank="yes")
    alone = trial_file(**{**small, "kind": "alone", "rounds": "2"})
    yield {"verb": "trial plan", "file": trial_file(**small), "sheet": "html", "yaml": True}
    yield {"verb": "trial plan", "file": trial_file(**small, feeds=chilled), "sheet": "svg"}
    yield from ({"verb": "trial plan", "file": file} for file in (written, found, alone))
    seen = trial_file(seen=True)
    early = {**seen, "observations": seen["observations"][:3]}
    blank = trial_file(seen=True, question="found", blank="yes", portions="1")
    blank["observations"] = [{"date": "2026-09-06", "plots": ["plots 1-9 found"]}]
    yield {"verb": "trial read", "file": seen, "svg": True}
    yield from ({"verb": "trial read", "file": file} for file in (early, blank))
    for last in range(4, len(seen["observations"])):
        yield {"verb": "trial read", "file": {**seen, "observations": seen["observations"][:last]}}


def of_file(path: Path) -> Iterator[Request]:
    """What may be asked about the file of a bin: as an object, and as its text."""
    text = path.read_text(encoding="utf-8")
    file = yaml.load(text, Loader=yaml.BaseLoader)
    for verb in ("blend", "balance", "ration", "check", "observe", "stock", "worms"):
        yield {"verb": verb, "file": file}
    yield {"verb": "ration", "file": text, "units": "us"}
    yield {"verb": "check", "file": text, "away": "3 weeks", "units": "us"}
    yield {"verb": "harvest", "file": file, "date": "2026-10-01"}
    yield {"verb": "note", "file": text, "words": NOTES[0], "date": "2026-10-01"}
    for words in NOTES:
        yield {"verb": "note", "file": file, "words": words, "date": "2026-10-01", "by": "Ada"}
    yield {"verb": "totals", "bins": [file]}


def of_examples() -> Iterator[Request]:
    for path in sorted(EXAMPLES.glob("*.yaml")):
        yield from of_file(path)
    tote = (EXAMPLES / "balcony_tote.yaml").read_text(encoding="utf-8")
    for sheet in ("text", "html"):
        yield {"verb": "forecast", "file": tote, "days": 9, "svg": True, "sheet": sheet}
    for change in CHANGES:
        yield {"verb": "refresh", "file": tote, **change}
    for way in ("light", "trays", "half"):
        yield {"verb": "harvest", "file": tote, "way": way, "units": "us"}
    for path in sorted((EXAMPLES / "yard").glob("*.yaml")):
        yield {"verb": "heap", "file": path.read_text(encoding="utf-8"), "worms": "1 lb"}
        yield {"verb": "heap", "file": path.read_text(encoding="utf-8"), "units": "us"}
    bins = [one.read_text(encoding="utf-8") for one in sorted((EXAMPLES / "school").glob("*.yaml"))]
    have = ["20 kg coffee grounds", "Thu: 30 kg lettuce", "5 kg onion", "1 kg bacon"]
    yield {"verb": "week", "bins": bins, "have": have, "date": "2026-05-04", "sheet": "html"}
    have = ["2 kg coffee grounds"]
    yield {"verb": "week", "bins": bins[:1], "have": have, "date": "2026-05-04", "sheet": "svg"}
    yield {"verb": "week", "bins": bins[:1], "have": have, "date": "2026-05-04"}
    stock = [fed("2026-05-03", "3 kg frozen melon rind", "2 kg coffee grounds")]
    kept = {**bin_file(BED, stock=stock), "title": "kept"}
    yield {"verb": "week", "bins": [*bins, kept], "date": "2026-05-04"}
    yield {"verb": "week", "bins": [*bins, kept], "have": have, "date": "2026-05-04"}
    yield {"verb": "totals", "bins": bins}


def of_words() -> Iterator[Request]:
    """What needs no file of an example."""
    yield from ({"verb": verb} for verb in ("table", "schema", "version"))
    yield {"verb": "table", "words": "coffee"}
    yield from BEDS
    yield from ({"verb": "heap", "file": heap} for heap in HEAPS)
    yield {"verb": "heap", "file": HEAPS[0], "date": "2026-04-01"}
    yield {"verb": "heap", "things": "3 buckets grass, 6 buckets leaves, wood chips"}
    yield {"verb": "heap", "things": "300 buckets grass, 600 buckets leaves"}
    yield from ({"verb": "signs", "signs": signs} for signs in SIGNS)
    yield {"verb": "signs", "signs": "sour smell", "file": bin_file(BED)}
    yield from ({"verb": "worms", **members} for members in WORMS)
    yield from ({"verb": "start", "date": "2026-03-14", **members} for members in STARTS)
    for balance in BALANCES:
        yield {"verb": "balance", "file": {"libfeed": 1, "feedstocks": OWN, "balance": balance}}
    for blend in BLENDS:
        yield {"verb": "blend", "file": {"libfeed": 1, "feedstocks": OWN, "blend": blend}}
    for verb in ("check", "forecast"):
        yield {"verb": verb, "file": bin_file(BED, feedstocks=OWN, blend=BLENDS[0])}
    yield from WRONG


def of_random_files(folder: Path, rows: list[Any], count: int) -> Iterator[Request]:
    for path in random_files.write_files(folder, rows, count, 77):
        text = path.read_text(encoding="utf-8")
        verb = path.name.split("_")[0]
        yield {"verb": verb, "file": text}
        if verb == "check":
            yield {"verb": "refresh", "file": text, "change": "bedding"}
            yield {"verb": "harvest", "file": text}


def all_requests(folder: Path, rows: list[Any]) -> list[Request]:
    """All of them. @param rows  the rows of the table; each is shown."""
    return [
        *of_examples(),
        *of_trials(),
        *of_words(),
        *of_random_files(folder, rows, 44),
        *({"verb": "show", "words": row["id"]} for row in rows),
    ]
