"""With --units us every sentence of every verb is in US units."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from command import EXAMPLES, call, write

METRIC = re.compile(r"\d ?(mg|g|kg|t|ml|cl|L|C|mm|cm|m|m2|m3|kg/m3|L/L|g/L|g/kg)\b(?!/)")
# Concentrations in a citation stand as a laboratory printed them.
CITED = re.compile(r"\d g (N|NH4OH)/kg|\d g/kg in feed|mol of acid a kg")
# A portion stands in the measure that its keeper wrote, with the US weight beside it.
OWN_MEASURE = re.compile(r",\s+[\d.]+ L,\s+about [\d.]+ (oz|lb)\.")
VERBS = ("blend", "balance", "ration", "check", "forecast")
FILES = sorted(path.name for path in EXAMPLES.glob("*.yaml"))
SIGNS = [
    "climbing", "balled", "sour", "rotten", "ammonia", "vinegar", "swampy", "streams", "drops",
    "flies", "gnats", "mites", "springtails", "white", "mould", "heat", "left",
]  # fmt: skip
TROUBLE = {
    "bed": {
        "container": "60 L tote",
        "worms": "900 worms",
        "squeeze": "streams",
        "temperature": "27 C to 31 C",
        "ph": 5.4,
    },
    "blend": ["2 kg lemon", "1 kg bread", "1 kg pickle", "800 g bacon", "3 kg chicken manure"],
}
COLD = {
    "bed": {"container": "bath", "worms": "5 kg", "squeeze": "crumbly", "temperature": "8 C"},
    "blend": ["200 g lettuce"],
}


def metric_left(text: str) -> list[str]:
    joined = re.sub(r"\s*\n\s+", " ", OWN_MEASURE.sub("", text))
    return [found.group() for found in METRIC.finditer(CITED.sub("", joined))]


def test_the_search_finds_metric_units() -> None:
    assert metric_left("Add 250 ml of water at\n    20\n    C.") == ["0 ml", "0 C"]
    assert metric_left("Add 1.1 cups of water at 68 F; 0.18 g N/kg.") == []


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("verb", VERBS)
def test_answers_to_the_examples(verb: str, name: str, feed_command: Path) -> None:
    path = EXAMPLES / name
    why = ["--why"] if verb in ("ration", "check", "forecast") else []
    result = call(feed_command, verb, path, *why, "--units", "us", code=None)
    if result.returncode == 2:
        assert "the file has no section" in result.stderr
        return
    assert metric_left(result.stdout) == []
    assert re.search(r"\d (lb|oz)\b", result.stdout)


@pytest.mark.parametrize("verb", ["ration", "check", "forecast"])
@pytest.mark.parametrize("file", [TROUBLE, COLD], ids=["trouble", "cold"])
def test_every_hazard_in_us_units(
    file: dict[str, object], verb: str, feed_command: Path, tmp_path: Path
) -> None:
    path = write(tmp_path, file)
    assert metric_left(call(feed_command, verb, path, "--why", "--units", "us").stdout) == []
    assert metric_left(call(feed_command, verb, path, "--why").stdout) != []


@pytest.mark.parametrize("sign", SIGNS)
def test_every_sign_in_us_units(sign: str, feed_command: Path, tmp_path: Path) -> None:
    for bed in (None, TROUBLE, COLD):
        words: list[str | Path] = ["--bed", write(tmp_path, bed)] if bed else []
        assert metric_left(call(feed_command, "signs", sign, *words, "--units", "us").stdout) == []


def test_a_step_says_the_same_amount_in_both(feed_command: Path, tmp_path: Path) -> None:
    bed = {"container": "bath", "worms": "5 kg", "squeeze": "crumbly", "temperature": "20 C"}
    path = write(tmp_path, {"bed": bed, "blend": ["100 g lettuce"]})
    litres = re.search(r"Sprinkle ([\d.]+) L of water", call(feed_command, "ration", path).stdout)
    gallons = re.search(
        r"Sprinkle ([\d.]+) gal of water",
        call(feed_command, "ration", path, "--units", "us").stdout,
    )
    assert litres and gallons
    assert float(gallons[1]) * 3.785411784 == pytest.approx(float(litres[1]), rel=0.1)
