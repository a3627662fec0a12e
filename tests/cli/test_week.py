"""`feed week`: who gets what on which day, over the five bins of an invented school."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from command import EXAMPLES, answer, call

BINS = sorted((EXAMPLES / "school").glob("*.yaml"))
HAVE = (
    "1.5 kg coffee grounds, 12 apple cores, 800 g lettuce, 200 g orange peel, "
    "10 L shredded cardboard; Wed: 2 kg kitchen scraps"
)
MONDAY = ("--date", "2026-05-04")
SVG = "{http://www.w3.org/2000/svg}"


def week(feed_command: Path, *words: str, have: str = HAVE) -> dict[str, Any]:
    return answer(feed_command, "week", *BINS, *MONDAY, "--have", have, *words)


def kg_of(opening: dict[str, Any], feedstock: str) -> float:
    return sum(
        float(one["wet_mass_kg"])
        for one in opening["ration"]["put_in"]
        if one["feedstock"].startswith(feedstock)
    )


def test_the_answer_comes_first_then_day_by_day(feed_command: Path) -> None:
    lines = call(feed_command, "week", *BINS, *MONDAY, "--have", HAVE).stdout.splitlines()
    assert lines[0].startswith("Feed 4 of 5 bins this week: ")
    assert lines[1] == "Mon 4 May:"
    assert any(line.startswith("Staff room (Kitchen staff): act first, no food.") for line in lines)
    assert not any("Staff room" in line for line in lines[: lines.index("Thu 7 May:")])


def test_what_comes_later_is_not_fed_before(feed_command: Path) -> None:
    plan = week(feed_command)
    assert plan["verified"] is True
    for one in plan["bins"]:
        assert len(one["openings"]) <= 2
        for opening in one["openings"]:
            if opening["day"] < 2:
                assert kg_of(opening, "kitchen") == 0
    by_name = {one["bin"]: one for one in plan["bins"]}
    assert by_name["Staff room"]["answer"] == "act_first"
    assert by_name["Staff room"]["openings"] == []


def test_a_bin_is_given_what_its_ration_gives(feed_command: Path) -> None:
    """On the same day with the same things, to the gram."""
    plan = week(feed_command, "--openings", "1")
    for path, one in zip(BINS, plan["bins"], strict=True):
        for opening in one["openings"]:
            if opening["day"] != 0:
                continue
            text = path.read_text(encoding="utf-8") + "blend:\n"
            for put in opening["ration"]["put_in"]:
                if put["feedstock"] != "water-tap":
                    text += f"  - {put['wet_mass_kg'] * 1000:.6f} g {put['label']}\n"
            said = call(
                feed_command, "ration", "-", "--date", "2026-05-04", "--json", text_in=text
            ).stdout
            assert '"answer": "feed"' in said, said


def test_what_is_never_fed_stays_out(feed_command: Path) -> None:
    plan = week(feed_command, have="bacon, 200 g carrot")
    assert [one["label"] for one in plan["take_out"]] == ["bacon"]
    assert all(kg_of(o, "bacon") == 0 for one in plan["bins"] for o in one["openings"])
    call(feed_command, "week", *BINS, *MONDAY, "--have", "bacon, 200 g carrot", "--strict", code=1)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--have", "Blah: 2 kg carrot"), '"Blah" is not a day'),
        (("--have", "2026-06-01: 2 kg carrot"), "from 2026-05-04 to 2026-05-10"),
        (("--have", "2 kg zzzz"), "zzzz"),
        ((), "--have: what is there to feed?"),
        (("--have", "2 kg carrot", "--openings", "9"), "1"),
    ],
)
def test_a_slip_is_one_clear_error(feed_command: Path, words: tuple[str, ...], told: str) -> None:
    assert told in call(feed_command, "week", *BINS, *MONDAY, *words, code=2).stderr


def texts_of(svg: str) -> list[str]:
    return [one.text or "" for one in ElementTree.fromstring(svg).iter(SVG + "text")]


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_sheet_has_a_column_a_bin_and_says_what_the_week_says(
    feed_command: Path, tmp_path: Path, units: str
) -> None:
    page = tmp_path / "week.svg"
    lines = call(
        feed_command, "week", *BINS, *MONDAY, "--have", HAVE, "--units", units, "--sheet", page
    ).stdout
    # A week with much to do has a second page.
    pages = [one.read_text(encoding="utf-8") for one in sorted(tmp_path.glob("week*.svg"))]
    roots = [ElementTree.fromstring(svg) for svg in pages]
    wide = {"metric": ("297mm", "210mm"), "us": ("279.4mm", "215.9mm")}[units]
    assert {(root.get("width"), root.get("height")) for root in roots} == {wide}
    shown = [text for svg in pages for text in texts_of(svg)]
    said = " ".join(shown).lower()
    for name, group in (("Class 3a", "Foxes"), ("Staff room", "Kitchen staff")):
        assert name in shown
        assert f"fed by {group}" in shown
    day = "May 4" if units == "us" else "4 May"
    assert day in shown
    # Every step of the screen stands on the page, with a box each.
    plain = " ".join(lines.split())
    for step in re.findall(r"(?:\): |\. )((?:[a-z]|Cover|Sprinkle)[^.]*(?:\.\d[^.]*)*)\.", plain):
        if "Freeze" not in step and "no food" not in step:
            assert step.lower() in said, step
    assert "Act first, no food." in shown
    assert "lift out the rotting food" in said
    assert "look before each feeding" in said
    boxes = [one for root in roots for one in root.iter(SVG + "rect") if one.get("stroke")]
    assert len(boxes) >= 20
    # Nothing stands outside the paper.
    for one in [text for root in roots for text in root.iter(SVG + "text")]:
        assert 0 < float(one.get("x", "")) < float(wide[0][:-2])
        assert 0 < float(one.get("y", "")) < float(wide[1][:-2]) - 5


@pytest.mark.parametrize(
    ("parted", "the_same"),
    [
        ("1 kg apples, Wed: 2 kg carrot", "1 kg apples; Wed: 2 kg carrot"),
        ("Tue: 1 kg apples, Wed: 2 kg carrot", "Tue: 1 kg apples; Wed: 2 kg carrot"),
        ("1 kg apples, 500 g lettuce, 2026-05-06: 2 kg carrot, tomorrow: 1 kg melon rind",
         "1 kg apples, 500 g lettuce; 2026-05-06: 2 kg carrot; tomorrow: 1 kg melon rind"),
    ],
)  # fmt: skip
def test_a_later_day_begins_behind_a_comma_too(
    feed_command: Path, parted: str, the_same: str
) -> None:
    assert week(feed_command, have=parted) == week(feed_command, have=the_same)


def test_many_bins_have_pages_and_lose_nothing(feed_command: Path, tmp_path: Path) -> None:
    page = tmp_path / "week.svg"
    bins = []
    for copy in range(3):
        for one in BINS:
            bins.append(tmp_path / f"{one.stem}_{copy}.yaml")
            text = one.read_text(encoding="utf-8")
            bins[-1].write_text(
                re.sub(r"^title: .*", rf"\g<0> {'I' * (copy + 1)}", text, flags=re.M),
                encoding="utf-8",
            )
    call(feed_command, "week", *bins, *MONDAY, "--have", HAVE, "--sheet", page)
    pages = sorted(tmp_path.glob("week*.svg"))
    assert len(pages) >= 3
    shown = [text for one in pages for text in texts_of(one.read_text(encoding="utf-8"))]
    assert [shown.count(f"Class 4 {number}") for number in ("I", "II", "III")] == [1, 1, 1]
    assert f"page 1 of {len(pages)}" in shown
    call(feed_command, "week", *bins, *MONDAY, "--have", HAVE, "--sheet", tmp_path / "w.html")
    html = (tmp_path / "w.html").read_text(encoding="utf-8")
    assert html.count("<svg") == len(pages)
    assert "size: A4 landscape" in html


def test_a_sheet_never_takes_the_place_of_a_bin(feed_command: Path) -> None:
    before = BINS[0].read_bytes()
    said = call(
        feed_command, "week", *BINS, *MONDAY, "--have", HAVE, "--sheet", BINS[0], code=2
    ).stderr
    assert "this is the file that is read" in " ".join(said.split())
    assert BINS[0].read_bytes() == before


def test_the_door_gives_the_same_sheet(feed_command: Path, tmp_path: Path) -> None:
    page = tmp_path / "week.html"
    call(feed_command, "week", *BINS, *MONDAY, "--have", HAVE, "--sheet", page)
    request = {
        "verb": "week",
        "bins": [path.read_text(encoding="utf-8") for path in BINS],
        "have": [HAVE],
        "date": "2026-05-04",
        "sheet": "html",
    }
    said = json.loads(call(feed_command, "call", "-", text_in=json.dumps(request)).stdout)
    assert said["sheet"] == page.read_text(encoding="utf-8")
    assert [one["group"] for one in said["bins"]][:2] == ["Foxes", "Owls"]


# Two invented bins of a yard: the first has a freezer box, fresh lettuce and cardboard of its own.
NORTH: dict[str, Any] = {
    "libfeed": 1,
    "title": "North",
    "bed": {"date": "2026-03-01", "container": "60 L tote", "worms": "700 g", "squeeze": "drops",
            "temperature": "20 C", "age": "1 year"},
    "stock": [
        {"date": "2026-03-08", "portions": ["2 kg frozen melon rind"], "container": "blue box"},
        {"date": "2026-03-08", "portions": ["500 g lettuce", "1 kg shredded cardboard"]},
        {"date": "2026-03-01", "portions": ["100 g spinach"]},
    ],
}  # fmt: skip
SOUTH: dict[str, Any] = {**NORTH, "title": "South", "stock": []}
STOCK_DAY = ("--date", "2026-03-09")


def yard(folder: Path) -> list[Path]:
    """Files in lines, so that notes can be added."""
    paths = []
    for content in (NORTH, SOUTH):
        path = folder / f"{str(content['title']).lower()}.yaml"
        lines = [f"{key}: {json.dumps(value)}" for key, value in content.items() if key != "stock"]
        if content["stock"]:
            lines += ["stock:", *(f"  - {json.dumps(one)}" for one in content["stock"])]
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
        paths.append(path)
    return paths


def put_kg(plan: dict[str, Any], label: str, *bins: str) -> float:
    return sum(
        float(put["wet_mass_kg"])
        for one in plan["bins"]
        if not bins or one["bin"] in bins
        for opening in one["openings"]
        for put in opening["ration"]["put_in"]
        if put["label"] == label
    )


def in_stock(feed_command: Path, path: Path, day: str) -> dict[str, float]:
    kept: dict[str, float] = {}
    for one in answer(feed_command, "stock", path, "--date", day)["items"]:
        kept[one["label"]] = kept.get(one["label"], 0.0) + one["wet_mass_kg"]
    return kept


def test_a_week_draws_from_the_stocks_what_spoils_first(feed_command: Path, tmp_path: Path) -> None:
    bins = yard(tmp_path)
    plan = answer(feed_command, "week", *bins, *STOCK_DAY)
    assert put_kg(plan, "lettuce") == pytest.approx(0.5)  # all of what spoils
    assert 0 < put_kg(plan, "frozen melon rind") < 2
    assert put_kg(plan, "spinach") == 0  # past its days
    lettuce_on = [o["day"] for one in plan["bins"] for o in one["openings"] if kg_of(o, "lettuce")]
    assert max(lettuce_on) <= 2  # put by on the 8th: good until the 11th
    # What is taken is what goes in, no more than was there.
    for one in plan["from_stock"]:
        assert one["bin"] == "North"
        assert one["wet_mass_kg"] == pytest.approx(put_kg(plan, one["label"]), abs=1e-6)
        assert one["to_other_bins_kg"] == pytest.approx(
            put_kg(plan, one["label"], "South"), abs=1e-6
        )
    said = " ".join(call(feed_command, "week", *bins, *STOCK_DAY).stdout.split())
    assert "From the stock of North: " in said and "(blue box)" in said
    assert "Take frozen food out of the freezer the day before, that of today now." in said


def test_the_notes_that_a_week_asks_for_empty_the_stock_by_what_it_took(
    feed_command: Path, tmp_path: Path
) -> None:
    """Fed as planned, and noted as the screen says: each gram leaves the stock once."""
    bins = yard(tmp_path)
    before = in_stock(feed_command, bins[0], "2026-03-09")
    plan = answer(feed_command, "week", *bins, *STOCK_DAY)
    lines = call(feed_command, "week", *bins, *STOCK_DAY).stdout
    told = re.findall(r"Note in North: (stock took [^.]*(?:\.\d[^.]*)*)\.", " ".join(lines.split()))
    assert len(told) == 1
    call(feed_command, "note", bins[0], *STOCK_DAY, "--force", told[0])
    for path, one in zip(bins, plan["bins"], strict=True):
        for opening in one["openings"]:
            fed = " and ".join(
                f"{put['wet_mass_kg'] * 1000:.3f} g {put['label']}"
                for put in opening["ration"]["put_in"]
                if not put["feedstock"].startswith("water")
            )
            call(feed_command, "note", path, "--date", opening["date"], "--force", "fed", fed)
    after = in_stock(feed_command, bins[0], "2026-03-15")
    for one in plan["from_stock"]:
        left = before[one["label"]] - one["wet_mass_kg"]
        assert after.get(one["label"], 0.0) == pytest.approx(left, abs=0.011), one["label"]


def test_what_is_said_and_in_stock_is_there_once(feed_command: Path, tmp_path: Path) -> None:
    bins = yard(tmp_path)
    plan = answer(feed_command, "week", *bins, *STOCK_DAY, "--have", "200 g lettuce")
    assert plan["counted_once"] == ["lettuce"]
    assert put_kg(plan, "lettuce") == pytest.approx(0.2)
    # Whoever meant more beside the stock is told what was taken, and what to say.
    asked: list[str | Path] = ["week", *bins, *STOCK_DAY, "--have"]
    text = " ".join(call(feed_command, *asked, "200 g lettuce").stdout.split())
    told = re.search(
        r"There is 200 g of lettuce, as said\. The ([^.]*) in stock counts as part of it\. "
        r"Is there both\? Then say ([^.]*(?:\.\d[^.]*)?)\.",
        text,
    )
    assert told
    both = answer(feed_command, *asked, f"{told[2]} lettuce")
    assert both["scraps_there_kg"] == pytest.approx(
        plan["scraps_there_kg"] + in_stock(feed_command, bins[0], "2026-03-09")["lettuce"], rel=0.03
    )
    # What comes on a later day is something else.
    plan = answer(feed_command, "week", *bins, *STOCK_DAY, "--have", "Wed: 200 g lettuce")
    assert plan["counted_once"] == []
    assert plan["scraps_there_kg"] == pytest.approx(2.7)


def test_what_is_never_fed_stays_in_the_stock(feed_command: Path, tmp_path: Path) -> None:
    bins = yard(tmp_path)
    bins[0].write_text(
        bins[0].read_text(encoding="utf-8").replace("2 kg frozen melon rind", "2 kg bacon"),
        encoding="utf-8",
    )
    plan = answer(feed_command, "week", *bins, *STOCK_DAY)
    assert [one["label"] for one in plan["take_out"]] == ["bacon"]
    assert put_kg(plan, "bacon") == 0
    assert "bacon" not in [one["label"] for one in plan["from_stock"]]


@pytest.mark.parametrize("have", [HAVE, "6 kg frozen carrot, 20 L shredded cardboard"])
@pytest.mark.parametrize("openings", ["2", "3"])
def test_a_bin_is_not_opened_before_the_feeding_before_lets_it(
    feed_command: Path, have: str, openings: str
) -> None:
    """The day that a ration names for the next feeding holds in the week too."""
    plan = week(feed_command, "--openings", openings, have=have)
    pairs = 0
    for one in plan["bins"]:
        for before, after in zip(one["openings"], one["openings"][1:], strict=False):
            pairs += 1
            named = before["ration"]["next_feeding"]
            assert after["date"] >= named["earliest"]
            if "frozen" in have:  # nothing spoils: there is no haste
                assert after["date"] >= named["date"]
    assert pairs > 0 or "frozen" in have


def test_a_bin_that_is_named_twice_is_neither_fed_nor_counted_twice(feed_command: Path) -> None:
    for words in (("week", BINS[0], BINS[0], "--have", HAVE), ("totals", BINS[0], BINS[0])):
        assert "there twice" in call(feed_command, *words, code=2).stderr


def test_the_rest_of_a_week_is_named(feed_command: Path, tmp_path: Path) -> None:
    """Nobody freezes "120 g" without knowing of what."""
    bins = yard(tmp_path)
    said = " ".join(
        call(feed_command, "week", *bins, *STOCK_DAY, "--have", "9 kg cabbage").stdout.split()
    )
    assert re.search(r"No bin can take \d[\d.]* kg of (lettuce and )?cabbage\. Freeze it by", said)
    assert re.search(r"Keep \d[\d.]* kg of frozen melon rind for next week", said)


def test_what_no_bin_takes_is_frozen_while_it_is_good(feed_command: Path) -> None:
    """What comes on Thursday is not to be frozen on a day before it came."""
    said = call(
        feed_command, "week", *BINS, *MONDAY, "--have", "30 kg lettuce; Thu: 30 kg lettuce"
    ).stdout  # fmt: skip
    days = re.findall(r"No bin can take [^.]*(?:\.\d[^.]*)?\. Freeze it by ([^,]*),", said)
    assert days == ["Thu 7 May", "Sun 10 May"]


def test_many_barred_things_take_two_lines(feed_command: Path) -> None:
    barred = ["cheese", "bacon", "fish", "milk", "dog droppings", "beef", "cat litter"]
    have = ", ".join(f"1 kg {name}" for name in barred) + ", 200 g lettuce"
    said = call(feed_command, "week", *BINS, *MONDAY, "--have", have).stdout
    never, rest = said.split("Feed ", 1)
    assert never.count("\n") == 2
    for name in barred:
        assert name in never
        assert name not in rest
