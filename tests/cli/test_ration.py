"""feed ration, and the same answer of every verb, on invented bins."""

from __future__ import annotations

import json
import re
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from command import EXAMPLES, TODAY, answer, call, write

BED = {
    "container": "60 L tote",
    "worms": "500 g",
    "age": "1 year",
    "temperature": "20 C",
    "squeeze": "drops",
}
SCRAPS = ["200 g carrot", "100 g banana peel"]
CARD = "200 g shredded cardboard"


def bin_with(blend: list[str] | None = None, **bed: Any) -> dict[str, Any]:
    file: dict[str, Any] = {"bed": {**BED, **bed}}
    if blend is not None:
        file["blend"] = blend
    return file


def fed(days_ago: int, portions: list[str], blend: list[str] | None = None) -> dict[str, Any]:
    """A bin that was fed some days before its last look."""
    file = bin_with(blend, date="2026-03-01")
    last = TODAY - timedelta(days=days_ago)
    file["feedings"] = [{"date": last.isoformat(), "portions": portions}]
    file["observations"] = [{"date": TODAY.isoformat(), "squeeze": "drops"}]
    return file


# Twelve short invented cases: the bin, the first word, and what the first line must say.
CASES: dict[str, tuple[dict[str, Any], str, str]] = {
    "never fed": (bin_with([*SCRAPS, "300 g dog waste", CARD]), "feed", "Never feed dog waste"),
    "only what is never fed": (bin_with(["300 g bacon"]), "feed", "Never feed bacon"),
    "too wet": (bin_with([*SCRAPS, CARD], squeeze="streams"), "act_first", "Act first"),
    "too dry": (bin_with([*SCRAPS, CARD], squeeze="crumbly"), "act_first", "Act first"),
    "sour": (bin_with([*SCRAPS, CARD], ph=4.8), "act_first", "Act first"),
    "hot": (bin_with([*SCRAPS, CARD], temperature="37 C"), "act_first", "Act first"),
    "freezing": (bin_with([*SCRAPS, CARD], temperature="2 C"), "act_first", "Act first"),
    "food left": (fed(1, ["600 g carrot", CARD], [*SCRAPS, CARD]), "wait", "Wait."),
    "a cap": (bin_with(["1 kg onion", CARD]), "feed_less", "Feed less"),
    "all is well": (bin_with([*SCRAPS, CARD]), "feed", "Feed it"),
    "new bin": (bin_with([*SCRAPS, CARD], age="1 day"), "wait", "Wait."),
    "no bedding": (bin_with(SCRAPS), "feed", "Feed it"),
    "no scraps": (bin_with(), "feed", "Feed it"),
}


@pytest.mark.parametrize("name", CASES)
def test_the_first_line_says_what_to_do(name: str, feed_command: Path, tmp_path: Path) -> None:
    file, word, first = CASES[name]
    path = write(tmp_path, file)
    ours = answer(feed_command, "ration", path)
    assert ours["answer"] == word
    text = call(feed_command, "ration", path).stdout
    lines = text.splitlines()
    assert lines[0].startswith(first), text
    assert len(ours["text"]) <= 12
    assert all(len(line) <= 80 for line in lines), text
    assert len(ours["reasons"]) <= 2 and len(ours["weigh"]) <= 2
    fed_today = word in ("feed", "feed_less")
    assert (ours["scraps_kg"] > 0) == fed_today
    assert ("of scraps today" in text) == fed_today
    if word == "act_first":
        assert "feed nothing today" in lines[0] and "Look again" in text
    if word == "wait":
        assert "Feed nothing" in lines[0]
    barred = {one["feedstock"] for one in ours["take_out"]}
    assert not barred & {one["feedstock"] for one in ours["put_in"]}
    assert not barred & {one["feedstock"] for one in ours["rest"]}


def test_steps_fit_what_is_wrong(feed_command: Path, tmp_path: Path) -> None:
    def step(name: str) -> dict[str, float]:
        ours = answer(feed_command, "ration", write(tmp_path, CASES[name][0]))
        parts = {one["feedstock"]: one["wet_mass_kg"] for one in ours["put_in"]}
        return {**parts, "water": ours["water_kg"], "lime": ours["lime_kg"]}

    assert step("too wet")["cardboard-corrugated"] > 0 and step("too wet")["water"] == 0
    assert step("too dry")["water"] > 0
    assert step("sour")["lime"] > 0


def test_bedding_that_is_not_at_hand_is_offered_as_such(feed_command: Path, tmp_path: Path) -> None:
    path = write(tmp_path, CASES["no bedding"][0])
    bedding = [one for one in answer(feed_command, "ration", path)["put_in"] if not one["at_hand"]]
    assert [one["feedstock"] for one in bedding] == ["cardboard-corrugated"]
    assert "or any dry bedding" in " ".join(call(feed_command, "ration", path).stdout.split())


NUMBERS = ("answer", "scraps_kg", "water_kg", "lime_kg", "put_in", "rest", "take_out", "next_look",
           "next_feeding", "text", "week_kg")  # fmt: skip
FILES: dict[str, Path | dict[str, Any]] = {
    **{path.stem: path for path in sorted(EXAMPLES.glob("*.yaml"))},
    **{name: case[0] for name, case in CASES.items()},
}


@pytest.mark.parametrize("name", FILES)
def test_every_verb_gives_the_same_answer(name: str, feed_command: Path, tmp_path: Path) -> None:
    """How much, and when again: one answer in ration, check, forecast, balance and sheet."""
    file = FILES[name]
    path = file if isinstance(file, Path) else write(tmp_path, file)
    ration = answer(feed_command, "ration", path)
    told = {
        "check": answer(feed_command, "check", path)["ration"],
        "forecast": answer(feed_command, "forecast", path)["ration"],
    }
    source = json.loads(path.read_text()) if path.suffix == ".json" else None
    content = path.read_text(encoding="utf-8")
    has_bed = "bed" in source if source is not None else re.search(r"^bed:", content, re.M)
    has_balance = re.search(r"^balance:", content, re.M) if source is None else "balance" in source
    if has_bed and has_balance:
        told["balance"] = answer(feed_command, "balance", path)["ration"]
    for verb, theirs in told.items():
        for key in NUMBERS:
            assert theirs[key] == ration[key], (verb, key)
    ahead = answer(feed_command, "forecast", path)
    assert ahead["next_feeding"] == ration["next_feeding"]
    first = call(feed_command, "ration", path).stdout.splitlines()[0]
    for verb in ("check", "forecast", *(("balance",) if "balance" in told else ())):
        assert call(feed_command, verb, path).stdout.splitlines()[0] == first, verb
    if ration["date"] is None:  # a sheet names days
        return
    sheet = tmp_path / "sheet.txt"
    call(feed_command, "forecast", path, "--sheet", sheet)
    page = " ".join(sheet.read_text(encoding="utf-8").split())
    for line in ration["text"]:
        assert " ".join(line.split()) in page, line


def test_a_capped_thing_alone_goes_in_up_to_its_cap(feed_command: Path, tmp_path: Path) -> None:
    """Half a kilogram of worms may have 15 g of onion a week: no answer that only says wait."""
    ours = answer(feed_command, "ration", write(tmp_path, CASES["a cap"][0]))
    assert 0 < ours["scraps_kg"] < 0.05
    assert ours["rest"][0]["capped"]
    assert "at most" in " ".join(ours["reasons"])


def test_the_day_stays_put_when_looks_without_news_are_added(
    feed_command: Path, tmp_path: Path
) -> None:
    file = fed(3, ["300 g carrot", CARD])
    before = answer(feed_command, "ration", write(tmp_path, file), "--date", "2026-03-10")
    file["observations"].insert(0, {"date": "2026-03-09", "squeeze": "drops"})
    file["observations"].insert(0, {"date": "2026-03-08", "squeeze": "drops"})
    after = answer(
        feed_command, "ration", write(tmp_path, file, "more.json"), "--date", "2026-03-10"
    )
    assert after["next_feeding"] == before["next_feeding"]
    assert after["answer"] == before["answer"]


def test_a_bed_too_alkaline_for_worms_gets_the_step_that_fits(
    feed_command: Path, tmp_path: Path
) -> None:
    for ph in ("9", "10.5", "12"):
        path = write(
            tmp_path, {"bed": {"worms": "500 g", "ph": float(ph)}, "blend": ["1 kg carrot"]}
        )
        said = call(feed_command, "ration", path).stdout
        assert said.startswith("Act first, and feed nothing today.\nMove the worms into fresh")
        assert "ammonia" not in said and "smelly" not in said
