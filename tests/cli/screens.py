"""What a keeper sees first: a broad set of answers, and what makes a screen short and plain.

The set is shared by tests/cli/test_screens.py and tests/docs/readability.py. All bins are invented.
"""

from __future__ import annotations

import itertools
import json
import re
import statistics
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path
from typing import Any

import textstat
import yaml
from command import EXAMPLES, TODAY, call
from published_cases import all_cases, blend_content

CASES = Path(__file__).resolve().parents[1] / "cases"
MOST_LINES, MOST_WORDS, LONGEST_SENTENCE, HIGHEST_GRADE = 12, 110, 20, 7.0
BED: dict[str, Any] = {
    "container": "60 L tote",
    "worms": "500 g",
    "age": "1 year",
    "temperature": "20 C",
    "squeeze": "drops",
    "date": str(TODAY),
}
CARD = "200 g shredded cardboard"
CADDIES: dict[str, list[str]] = {
    "mild": ["200 g carrot", "100 g banana peel", CARD],
    "seven things": ["3 apples", "2 banana peels", "a cup of coffee grounds", "200 g lettuce",
                     "1 onion", "2 slices bread", "150 g potato peel", CARD],
    "barred": ["300 g bacon", "200 g dog waste", "100 g plastic bags", "200 g carrot", CARD],
    "five barred": ["300 g bacon", "200 g dog waste", "100 g butter", "50 g bleach", "20 g bones"],
    "dusty": ["300 g carrot", "100 g shredded office paper", "5 g wood ash"],
    "manure": ["2 kg horse manure", "500 g straw"],
    "salty": ["200 g pickles", "300 g carrot", CARD],
    "citrus": ["3 lemons", "2 oranges", CARD],
    "bread": ["1 kg bread", "500 g cooked rice"],
    "a lot": ["10 kg grass clippings", "5 kg coffee grounds", "2 kg newspaper"],
    "crumbs": ["a slice of bread", "1 tea bag"],
    "nothing": [],
}  # fmt: skip
BEDS: dict[str, dict[str, Any]] = {
    "well": {},
    "soaked": {"squeeze": "streams"},
    "dry": {"squeeze": "crumbly"},
    "sour": {"ph": 4.8},
    "hot": {"temperature": "37 C"},
    "freezing": {"temperature": "2 C"},
    "new": {"age": "1 day"},
    "small": {"container": "20 L bucket", "worms": "100 g"},
    "unsaid": {"worms": None, "age": None, "temperature": None, "squeeze": None},
}
SEEN: dict[str, list[dict[str, Any]]] = {
    "sour smell": [{"smell": "sour"}],
    "half gone": [{"share_gone": "50 %"}],
    "gone": [{"gone": "yes", "squeeze": "drops"}],
    "not gone": [{"gone": "no", "squeeze": "drops"}],
}
SHOWN = ["lemon", "coffee grounds", "poultry manure", "horse manure", "hydrated lime", "bacon",
         "cardboard", "newspaper", "wood ash", "onion", "carrot", "banana peel", "eggshell",
         "dog waste", "grass clippings", "bread", "office paper", "pizza box", "lettuce", "salt",
         "cooked rice", "nut shells", "sawdust", "blood meal", "avocado"]  # fmt: skip
SIGNS = [["climbing"], ["sour smell"], ["flies"], ["heat"], ["ammonia smell"], ["mites"], ["mould"],
         ["worms balled", "heat"], ["sour smell", "flies"], ["food left"], ["streams"],
         ["springtails"], ["rotten smell", "streams"]]  # fmt: skip
NOTES = ["fed 3 apples and a cup of coffee grounds", "half gone, smell sour", "gone",
         "temperature 31 C", "bedding 1 kg card", "worms 1 lb", "wet", "harvested 5 L"]  # fmt: skip
WORK = [["bedding"], ["bedding", "--share", "half"], ["flush"], ["dry"], ["split"], ["move"],
        ["move", "--temperature", "38 C"], ["winter", "--temperature", "5 C"],
        ["winter", "--temperature", "-8 C"], ["away", "--away", "3 weeks"]]  # fmt: skip
WORMS = [["2 kg apples, 500 g coffee grounds a week"], ["--people", "4", "--coffee", "6"],
         ["--meals", "300"], ["300 g bacon"], ["1 kg lettuce", "--worms", "1 lb"],
         ["1 kg bacon, 200 g butter, 1 kg onion, 300 g orange peel, 2 kg bread"],
         ["1 kg carrot", "--temperature", "2 C"],
         ["--census", "12, 30, 7, 18", "--sample", "2 L of 40 L"],
         ["--census", "0 0 0", "--sample", "a handful of 40 L"]]  # fmt: skip
OF_BINS = [[], ["800 g carrot a week"], ["--people", "5", "--coffee", "4"],
           ["--census", "12, 30, 7, 18", "--sample", "500 ml"]]  # fmt: skip
RECIPES: dict[str, list[str]] = {
    "worms": ["1 kg coffee grounds", "any shredded cardboard", "any water"],
    "lettuce alone": ["3 kg lettuce", "50 g torn cardboard"],
    "barred": ["1 kg carrot", "200 g bacon", "any newspaper", "any water"],
    "seven": ["1 kg carrot", "1 kg lettuce", "500 g bread", "1 kg apple", "any newspaper",
              "any leaves", "any water"],
    "dry bread": ["500 g bread"],
}  # fmt: skip
STARTED = ["cardboard", "500 g newspaper, any straw and a bag of oak leaves", "200 g cardboard",
           "1 kg cardboard", "hay", "2 kg glossy paper", "coir",
           "wood chips, straw, card, newspaper"]  # fmt: skip

RINDS, FOUR = ["watermelon rind", "pumpkin"], ["watermelon rind", "pumpkin", "apple", "carrot"]
FROZEN = ["carrot", {"feedstock": "carrot", "preparation": "frozen and thawed"}]
PAPERS = ["shredded corrugated cardboard", "shredded newspaper", "shredded office paper"]
LONG_NAMES = ["the tote under the stairs", "the tray beside the green door", "c"]
TRIALS: dict[str, dict[str, Any]] = {
    "two": {"feeds": RINDS, "bins": 3},
    "two found": {"feeds": RINDS, "bins": LONG_NAMES, "question": "found", "looks": 4},
    "three": {"feeds": PAPERS, "bins": 2, "portion": "20 g"},
    "three, too much": {"feeds": PAPERS, "bins": 2, "portion": "2 kg", "question": "found"},
    "four": {"feeds": FOUR, "bins": 6, "portion": "2 kg", "portions": 1},
    "four in many": {"feeds": FOUR, "bins": 24, "portions": 1},
    "one bin": {"feeds": RINDS, "bins": 1},
    "prepared": {"feeds": FROZEN, "bins": 3, "portion": "2 kg", "blank": "yes"},
    "as written": {"feeds": ["200 g watermelon rind", "30 g pumpkin"], "bins": 6},
    "alone": {"feeds": RINDS, "bins": 4, "kind": "alone"},
    "alone, prepared": {"feeds": FROZEN, "bins": LONG_NAMES, "kind": "alone", "portion": "1 kg",
                        "question": "found"},
    "alone, four": {"feeds": FOUR, "bins": 24, "kind": "alone"},
}  # fmt: skip
# How a trial of two in six bins may have been watched: who looked, until which day, what else.
READINGS: dict[str, tuple[str, int, dict[str, Any]]] = {
    "to the end": ("Ada", 24, {}),
    "so far": ("Ada", 9, {}),
    "not yet": ("Ada", 3, {}),
    "not blind": ("Noor", 24, {}),
    "unequal": ("Ada", 24, {"feeds": ["200 g watermelon rind", "30 g pumpkin"]}),
    "of four": ("Ada", 24, {"feeds": FOUR}),
    "of four, not blind": ("Noor", 24, {"feeds": FOUR}),
    "alone": ("Ada", 24, {"kind": "alone", "start": ["2026-03-01", "2026-04-01"]}),
}

# Lists begin with the answer and are as long as they are; their sentences are held like all others.
LISTS = frozenset(["week"])
WEEKS = {
    "two bins": ["balcony_tote", "lunch_club_tote", "2 kg coffee grounds; Thu: 3 kg lettuce"],
    "with trays": ["cafe_trays", "balcony_tote", "Mon: 1 kg carrot; Fri: 500 g bread"],
    "barred": ["balcony_tote", "lunch_club_tote", "200 g bacon; Tue: 1 kg carrot"],
}


@dataclass
class Screen:
    """One call, and what it printed."""

    name: str
    verb: str
    words: list[str]
    content: str | None = None  # of the file that stands where a word is FILE
    text: str = field(default="", compare=False)

    @property
    def lines(self) -> int:
        return len(self.text.splitlines())

    @property
    def count(self) -> int:
        return len(self.text.split())

    @property
    def sentences(self) -> list[str]:
        return sentences(self.text)

    @property
    def longest(self) -> int:
        return max((len(words_of(one)) for one in self.sentences), default=0)

    @property
    def grade(self) -> float:
        """Years of school by Flesch and Kincaid, over the sentences."""
        told = ". ".join(one.rstrip(".") for one in self.sentences) + "."
        return float(textstat.flesch_kincaid_grade(told))


def words_of(sentence: str) -> list[str]:
    return [word for word in sentence.split() if re.search(r"[A-Za-z0-9]", word)]


def is_strip(line: str) -> bool:
    """A row of the strip of days: no sentence."""
    day = r"(Mon|Tue|Wed|Thu|Fri|Sat|Sun|feed|look|rest|act|day|\.\.|\d+|[A-Z][a-z]{2})"
    return re.fullmatch(rf"\s+({day}\s+){{5,}}{day}", line) is not None


def sentences(text: str) -> list[str]:
    """The sentences of a screen: a line that is not indented begins one, as does a full stop."""
    joined: list[str] = []
    for line in text.splitlines():
        if not line.strip() or is_strip(line):
            continue
        # A line that goes on is indented further than the one it belongs to and no new thought.
        goes_on = line.startswith("  ") and joined and not joined[-1].endswith((".", "?", ":"))
        if goes_on:
            joined[-1] += " " + line.strip()
        else:
            joined.append(line.strip())
    parts = [re.split(r"(?<=[.?!])\s+", line) for line in joined]
    return [part for part in itertools.chain(*parts) if re.search("[A-Za-z]", part)]


def file_of(**sections: Any) -> str:
    return json.dumps({"libfeed": 1, **sections})


def bed_of(changes: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in {**BED, **changes}.items() if value is not None}


def bin_screens() -> list[Screen]:
    """Every bed with some caddies and every caddy with a bed that is well."""
    pairs = [("well", caddy) for caddy in CADDIES]
    pairs += [(bed, caddy) for bed in BEDS if bed != "well" for caddy in ("mild", "barred")]
    screens = []
    for bed, caddy in pairs:
        content = file_of(bed=bed_of(BEDS[bed]), **blend_of(CADDIES[caddy]))
        for verb in ("ration", "check", "forecast"):
            screens.append(Screen(f"{bed}, {caddy}", verb, ["FILE"], content))
        screens.append(
            Screen(f"{bed}, {caddy}, away", "check", ["FILE", "--away", "3 weeks"], content)
        )
    for bed in BEDS:
        content = file_of(bed=bed_of(BEDS[bed]))
        screens.append(Screen(bed, "harvest", ["FILE"], content))
        screens.append(Screen(f"{bed}, light", "harvest", ["FILE", "--way", "light"], content))
        for asked in OF_BINS:
            screens.append(Screen(f"{bed}, {asked}", "worms", ["FILE", *asked], content))
        for work in WORK:
            screens.append(
                Screen(f"{bed}, {work[0]}", "refresh", ["FILE", "--change", *work], content)
            )
    for name, looks in SEEN.items():
        earlier = str(TODAY - timedelta(days=5))
        content = file_of(
            bed=bed_of({"date": str(TODAY - timedelta(days=10))}),
            feedings=[{"date": earlier, "portions": ["400 g carrot", CARD]}],
            observations=[{"date": str(TODAY), **look} for look in looks],
            **blend_of(CADDIES["mild"]),
        )
        for verb in ("ration", "check", "forecast"):
            screens.append(Screen(f"seen {name}", verb, ["FILE"], content))
    return screens


def blend_of(caddy: list[str]) -> dict[str, Any]:
    return {"blend": caddy} if caddy else {}


HEAPS: dict[str, list[str]] = {
    "small": ["3 buckets grass clippings", "6 buckets dry leaves", "wood chips"],
    "hot": ["40 buckets grass clippings", "60 buckets dry leaves", "15 buckets wood chips"],
    "barred": ["40 buckets grass clippings", "60 buckets dry leaves", "2 kg bacon"],
    "huge": ["300 buckets grass clippings", "500 buckets straw", "90 buckets wood chips"],
    "six": ["20 buckets grass clippings", "30 buckets straw", "20 kg lettuce",
            "5 buckets coffee grounds", "10 buckets wood chips", "3 kg onion"],
    "paper alone": ["20 kg newspaper"],
}  # fmt: skip
HEAP_LOGS: dict[str, list[tuple[int, str]]] = {
    "well": [(9, "14 C"), (5, "58 C")],
    "too hot": [(5, "67 C")],
    "far too hot": [(5, "74 C")],
    "burning": [(5, "84 C")],
    "cooling": [(12, "61 C"), (5, "41 C")],
    "never hot": [(14, "12 C"), (5, "22 C")],
    "ripe": [(60, "61 C"), (50, "turned"), (5, "14 C")],
    "turned": [(12, "61 C"), (5, "turned")],
}


def heap_screens() -> list[Screen]:
    screens = [Screen(name, "heap", words) for name, words in HEAPS.items()]
    at_hand = ["40 buckets grass clippings", "any dry leaves", "any water"]
    for name, log in HEAP_LOGS.items():
        looks = []
        for days, said in log:
            seen = {"action": "turned"} if said == "turned" else {"temperature": {"middle": said}}
            looks.append({"date": str(TODAY - timedelta(days=days)), **seen, "air_low": "12 C"})
        content = file_of(kind="heap", balance={"at_hand": at_hand}, observations=looks)
        screens.append(Screen(name, "heap", ["FILE", "--worms", "500 g"], content))
        screens.append(Screen(f"heap, {name}", "note", ["FILE", "55 C middle"], content))
    for path in sorted((EXAMPLES / "yard").glob("*.yaml")):
        screens.append(Screen(path.stem, "heap", ["FILE"], path.read_text(encoding="utf-8")))
    return screens


def example_screens() -> list[Screen]:
    screens = []
    for path in sorted(EXAMPLES.glob("*.yaml")):
        content = path.read_text(encoding="utf-8")
        sections = set(re.findall(r"^(\w+):", content, re.M))
        screens += [
            Screen(path.stem, verb, ["FILE"], content) for verb in ("ration", "check", "forecast")
        ]
        for verb in sections & {"blend", "balance"}:
            screens.append(Screen(path.stem, verb, ["FILE"], content))
        if "trial" in sections:
            seen = "observations" in sections
            screens.append(
                Screen(path.stem, "trial", ["read" if seen else "plan", "FILE"], content)
            )
    return screens


def trial_screens() -> list[Screen]:
    """Plans of two to four feeds in one to many bins that are well, wet, small or not described."""
    beds = {
        "well": bed_of({"worms": "900 g"}),
        "wet": bed_of({"squeeze": "pooling"}),
        "small": bed_of(BEDS["small"]),
        "unsaid": None,
    }
    screens = []
    for number, (name, trial) in enumerate(TRIALS.items()):
        for bed in beds if number == 0 else list(beds)[number % 2 * 3 :: 4]:
            described = beds[bed]
            sections = {"trial": trial} if described is None else {"trial": trial, "bed": described}
            screens.append(Screen(f"{name}, {bed}", "trial", ["plan", "FILE"], file_of(**sections)))
    for name, (by, until, more) in READINGS.items():
        trial = {"feeds": RINDS, "bins": 6, "portions": 1, "seed": 7, "last_day": 24,
                 "start": "2026-03-01", "laid_by": "Noor", **more}  # fmt: skip
        plots = 6 * (1 if "kind" in more else len(trial["feeds"]))
        looks = [
            {"date": f"2026-03-{day + 1:02d}", "by": by,
             "plots": [f"plot {plot} {'gone' if day > 6 + 2 * (plot % 5) else 'not gone'}"
                       for plot in range(1, plots + 1)]}
            for day in range(3, until + 1, 3)
        ]  # fmt: skip
        content = file_of(trial=trial, observations=looks)
        screens.append(Screen(name, "trial", ["read", "FILE"], content))
    return screens


def case_screens() -> list[Screen]:
    """The mixtures of the reference cases, as blends."""
    mixtures = [case for case in all_cases(CASES) if case["call"] == "blend"]
    return [
        Screen(case["id"], "blend", ["FILE"], json.dumps(blend_content(case))) for case in mixtures
    ]


def other_screens() -> list[Screen]:
    screens = [Screen(name, "show", [name]) for name in SHOWN]
    screens += [Screen(", ".join(signs), "signs", signs) for signs in SIGNS]
    screens += [
        Screen(name, "balance", ["FILE"], file_of(balance={"at_hand": at_hand}))
        for name, at_hand in RECIPES.items()
    ]
    screens += [Screen(name, "blend", words) for name, words in CADDIES.items() if words]
    started = file_of(
        bed=bed_of({"date": str(TODAY - timedelta(days=9))}),
        feedings=[{"date": str(TODAY - timedelta(days=4)), "portions": ["300 g carrot", CARD]}],
    )
    screens += [Screen(words, "note", ["FILE", words], started) for words in NOTES]
    screens += [Screen(" ".join(asked), "worms", asked) for asked in WORMS]
    screens.append(Screen("tote", "start", ["new.yaml", "--container", "tote", "--size", "60 L"]))
    screens.append(Screen("worms", "start", ["new.yaml", "--worms", "1 lb as bought"]))
    screens += [
        Screen(f"new, {bedding}", "start", ["new.yaml", "--size", "60 L", "--bedding", bedding])
        for bedding in STARTED
    ]
    screens.append(Screen("lives", "start", ["new.yaml", "--age", "3 months", "--worms", "500 g"]))
    for name, (*bins, have) in WEEKS.items():
        files = [str(EXAMPLES / f"{one}.yaml") for one in bins]
        screens.append(Screen(name, "week", [*files, "--have", have]))
    screens.append(
        Screen("words", "ration", ["--worms", "1 lb", "3 apples, a cup of coffee grounds"])
    )
    return screens


def all_screens() -> list[Screen]:
    """The broad set, in metric units and in those of the US."""
    metric = [*example_screens(), *case_screens(), *bin_screens(), *other_screens()]
    metric += [*heap_screens(), *trial_screens()]
    us = [
        Screen(one.name + " (us)", one.verb, [*one.words, "--units", "us"], one.content)
        for one in metric
    ]
    return [*metric, *us]


def run(feed_command: Path, screens: list[Screen], folder: Path) -> list[Screen]:
    """Prints each screen; those that this command refuses are left out."""
    printed = []
    for i, screen in enumerate(screens):
        here = folder / str(i)
        here.mkdir(parents=True)
        if screen.content is not None:
            # A JSON file is YAML too; a diary that is noted in must be YAML.
            text = screen.content
            if screen.verb == "note":
                text = yaml_of(json.loads(text))
            (here / "bin.yaml").write_text(text, encoding="utf-8")
        words = ["bin.yaml" if word == "FILE" else word for word in screen.words]
        result = call(feed_command, screen.verb, *words, code=None, cwd=here)
        if result.returncode in (0, 1):
            screen.text = result.stdout
            printed.append(screen)
    return printed


def yaml_of(content: dict[str, Any]) -> str:
    return str(yaml.safe_dump(content, sort_keys=False))


def summary(screens: list[Screen]) -> dict[str, dict[str, float]]:
    """By verb: how many, lines, words, longest sentence and grade of the screens."""
    told: dict[str, dict[str, float]] = {}
    for verb in [*dict.fromkeys(one.verb for one in screens), "all"]:
        of = [one for one in screens if verb in (one.verb, "all")]
        told[verb] = {
            "screens": len(of),
            "most lines": max(one.lines for one in of),
            "most words": max(one.count for one in of),
            "longest sentence": max(one.longest for one in of),
            "mean grade": round(statistics.mean(one.grade for one in of), 1),
        }
    return told
