"""`feed stock`: what is kept for later, what to thaw, how long bedding lasts (invented bins)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from command import EXAMPLES, answer, call

WELL: dict[str, Any] = {
    "date": "2026-03-01",
    "container": "60 L tote",
    "worms": "700 g",
    "squeeze": "drops",
    "temperature": "20 C",
    "age": "1 year",
}
FED = [
    {"date": day, "portions": ["300 g carrot", "60 g shredded cardboard"]}
    for day in ("2026-02-10", "2026-02-20", "2026-03-01")
]
STOCK = [
    {"date": "2026-03-08", "portions": ["2 kg frozen melon rind"], "container": "the blue box"},
    {"date": "2026-03-08", "portions": ["500 g lettuce", "1 kg shredded cardboard"]},
]


def write(path: Path, **sections: Any) -> None:
    """A bin's file in lines that entries can be added to."""
    lines = ["libfeed: 1", f"bed: {json.dumps(WELL)}"]
    for name, entries in sections.items():
        lines += [f"{name}:", *(f"  - {json.dumps(one)}" for one in entries)]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def test_bedding_and_lime_in_the_stock_are_no_question(feed_command: Path, tmp_path: Path) -> None:
    """Nobody asked about them: a well bed is told to feed, and nothing is left out."""
    path = tmp_path / "shed.yaml"
    kept = [{"date": "2026-03-01", "portions": ["1 kg shredded cardboard", "500 g eggshell"]}]
    write(path, stock=kept)
    told = call(feed_command, "ration", path).stdout
    assert told.startswith("Feed it: ") and "shredded cardboard" in told
    assert "eave out" not in told
    asked = call(feed_command, "ration", path, "300 g carrot, 5 eggshells").stdout
    assert "Leave out the eggshells" in asked


@pytest.fixture
def bin_file(tmp_path: Path) -> Path:
    path = tmp_path / "tote.yaml"
    write(path, feedings=FED, stock=STOCK)
    return path


def left(feed_command: Path, path: Path, day: str) -> dict[str, float]:
    said = answer(feed_command, "stock", path, "--date", day)
    return {one["label"]: one["wet_mass_kg"] for one in said["items"]}


def test_what_was_fed_since_came_from_the_stock(feed_command: Path, bin_file: Path) -> None:
    assert left(feed_command, bin_file, "2026-03-08") == {
        "frozen melon rind": 2,
        "lettuce": 0.5,
        "shredded cardboard": 1,
    }
    for words in (
        "2026-03-09 fed 700 g frozen melon rind and 100 g shredded cardboard",
        "2026-03-10 bedding 200 g shredded cardboard",
        "2026-03-10 stock took 300 g frozen melon rind",
        # Fresh rind is not what lies in the freezer.
        "2026-03-10 fed 100 g melon rind",
        "2026-03-10 stock 1 kg frozen melon rind in my second box",
    ):
        call(feed_command, "note", bin_file, *words.split())
    assert left(feed_command, bin_file, "2026-03-08")["frozen melon rind"] == 2
    assert left(feed_command, bin_file, "2026-03-09")["frozen melon rind"] == pytest.approx(1.3)
    said = answer(feed_command, "stock", bin_file, "--date", "2026-03-10")
    frozen = [one for one in said["items"] if one["keep"] == "frozen"]
    # 2 - 0.7 - 0.3 of the first box; the second is whole: the oldest goes first
    assert [one["wet_mass_kg"] for one in frozen] == pytest.approx([1.0, 1.0])
    assert [one["container"] for one in frozen] == ["the blue box", "my second box"]
    assert said["bedding"][0]["wet_mass_kg"] == pytest.approx(0.7)


def test_a_ration_draws_from_the_stock_fresh_food_first(feed_command: Path, bin_file: Path) -> None:
    put = {
        one["label"]: one["wet_mass_kg"]
        for one in answer(feed_command, "ration", bin_file, "--date", "2026-03-09")["put_in"]
    }
    assert put["lettuce"] == pytest.approx(0.5)
    assert 0 < put["frozen melon rind"] < 2
    assert 0 < put["shredded cardboard"] < 1
    later = answer(feed_command, "ration", bin_file, "--date", "2026-03-13")
    # Lettuce of the 8th keeps four days, that one included.
    assert "lettuce" not in [one["label"] for one in later["put_in"]]
    text = call(feed_command, "ration", bin_file, "--date", "2026-03-13").stdout
    assert "Keep the rest frozen" in text
    assert "Freeze" not in text


def test_food_that_is_named_goes_before_the_stock(feed_command: Path, bin_file: Path) -> None:
    with bin_file.open("a", encoding="utf-8") as lines:
        lines.write("blend: [200 g carrot]\n")
    put = answer(feed_command, "ration", bin_file, "--date", "2026-03-09")["put_in"]
    assert [one["label"] for one in put][:2] == ["carrot", "shredded cardboard"]


def test_what_to_thaw_is_what_the_next_ration_puts_in(feed_command: Path, bin_file: Path) -> None:
    call(feed_command, "note", bin_file, "2026-03-09", "fed", "700 g carrot")
    ration = answer(feed_command, "ration", bin_file, "--date", "2026-03-10")
    assert ration["answer"] == "wait"
    said = answer(feed_command, "stock", bin_file, "--date", "2026-03-10")
    assert said["feed_on"] == ration["next_feeding"]["date"]
    then = answer(feed_command, "ration", bin_file, "--date", said["feed_on"])
    frozen = [one for one in then["put_in"] if one["label"] == "frozen melon rind"]
    assert [one["wet_mass_kg"] for one in said["thaw"]] == [one["wet_mass_kg"] for one in frozen]
    thaw = said["thaw"][0]
    assert thaw["take_out_on"] < said["feed_on"]
    # A quarter of the water, 15 to 40 %; rind is about nine tenths water.
    assert thaw["juice_l"]["value"] == pytest.approx(0.225 * thaw["wet_mass_kg"], rel=0.06)
    assert thaw["juice_l"]["low"] < thaw["juice_l"]["value"] < thaw["juice_l"]["high"]


def test_bedding_lasts_as_long_as_the_diary_tells(feed_command: Path, bin_file: Path) -> None:
    """180 g in the 28 days from 10 February to 9 March; 1 kg then lasts 155 days."""
    said = answer(feed_command, "stock", bin_file, "--date", "2026-03-09")["bedding"][0]
    assert said["a_week_kg"] == pytest.approx(0.18 / 28 * 7)
    assert said["gone_on"] == "2026-08-11"


def test_the_screen_says_what_to_do_first(feed_command: Path, bin_file: Path) -> None:
    lines = call(feed_command, "stock", bin_file, "--date", "2026-03-09").stdout.splitlines()
    assert lines[0].startswith("Take ") and "out of the freezer today." in lines[0]
    assert "Fresh: 500 g of lettuce, good until Wed 11 Mar. Feed or freeze it by then." in lines
    assert "Freezer: 2 kg of frozen melon rind (the blue box)." in lines
    assert len(lines) <= 12
    past = call(feed_command, "stock", bin_file, "--date", "2026-03-13").stdout
    assert "Past its days: 500 g of lettuce. Give it to a heap." in past


def test_without_a_stock_it_says_how_to_begin(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    write(path)
    said = " ".join(call(feed_command, "stock", path).stdout.split())
    assert said.startswith("Nothing is in stock.")
    typed = said.split("feed note FILE ")[1].rstrip(".")
    call(feed_command, "note", path, "--date", "2026-03-08", *typed.split())
    assert left(feed_command, path, "2026-03-08") == {"frozen melon rind": 2}


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        ({"date": "2026-03-08"}, "what was put by, or taken out?"),
        ({"portions": ["2 kg frozen melon rind"]}, "date"),
        ({"date": "2026-03-08", "portions": ["2 kg zzzz"]}, "zzzz"),
        ({"date": "2026-03-08", "portions": ["1 kg carrot"], "box": "x"}, "box"),
    ],
)
def test_a_slip_names_its_place(
    feed_command: Path, tmp_path: Path, entry: dict[str, Any], told: str
) -> None:
    path = tmp_path / "tote.yaml"
    write(path, stock=[entry])
    said = call(feed_command, "stock", path, code=2).stderr
    assert told in said
    assert "stock: entry 1" in said


def test_a_note_that_is_not_understood_leaves_the_file(feed_command: Path, bin_file: Path) -> None:
    before = bin_file.read_bytes()
    assert "zzzz" in call(feed_command, "note", bin_file, "stock", "2 kg zzzz", code=2).stderr
    assert "what was put by?" in call(feed_command, "note", bin_file, "stock", code=2).stderr
    assert bin_file.read_bytes() == before


def test_the_door_gives_the_same(feed_command: Path, bin_file: Path) -> None:
    request = {
        "verb": "stock",
        "file": bin_file.read_text(encoding="utf-8"),
        "date": "2026-03-09",
    }
    said = json.loads(call(feed_command, "call", "-", text_in=json.dumps(request)).stdout)
    assert said == answer(feed_command, "stock", bin_file, "--date", "2026-03-09")


def loose_kg_l(feed_command: Path, name: str) -> float:
    """Of the table, kg a litre."""
    values = answer(feed_command, "show", name)["values"]
    return next(float(one["value"]) for one in values if one["property"] == "bulk_density") / 1000


def season(feed_command: Path, path: Path, *words: str) -> dict[str, Any]:
    said: dict[str, Any] = answer(feed_command, "stock", path, "--date", "2026-03-09", *words)
    return dict(said["collect"])


def test_a_season_needs_its_scraps_volume_in_bedding(feed_command: Path, tmp_path: Path) -> None:
    """Common practice: half to twice the volume of the scraps, loose. 700 g of worms eat 700 g a
    week (the weekly rule); 13 weeks of that are 9.1 kg of soft mixed scraps."""
    path = tmp_path / "tote.yaml"
    write(path)
    said = season(feed_command, path, "--collect", "dry leaves, shredded cardboard, carrot")
    assert said["most_week_kg"] == pytest.approx(0.7)
    litres = 9.1 / loose_kg_l(feed_command, "mixed vegetables")
    assert said["bedding_l"]["value"] == pytest.approx(litres)
    assert said["bedding_l"]["low"] == pytest.approx(litres / 2)
    assert said["bedding_l"]["high"] == pytest.approx(litres * 2)
    assert said["collect_l"] == pytest.approx(litres)
    leaves, cardboard, carrot = said["things"]
    assert leaves["wet_mass_kg"] == pytest.approx(litres * loose_kg_l(feed_command, "dry leaves"))
    assert cardboard["wet_mass_kg"] == pytest.approx(
        litres * loose_kg_l(feed_command, "shredded cardboard")
    )
    assert carrot["most_week_kg"] == pytest.approx(0.7)
    assert carrot["wet_mass_kg"] == pytest.approx(9.1)


def test_the_diary_says_what_a_season_needs(feed_command: Path, bin_file: Path) -> None:
    """180 g of cardboard in 27 days, 13 weeks of it; 1 kg is in stock."""
    said = season(feed_command, bin_file, "--collect", "dry leaves")
    assert said["from_diary"] is True
    card = loose_kg_l(feed_command, "shredded cardboard")
    assert said["bedding_l"]["value"] == pytest.approx(0.18 / 27 * 91 / card)
    assert said["stock_l"] == pytest.approx(1 / card)
    # 607 g are needed: the stock is enough.
    assert said["collect_l"] == 0
    longer = season(feed_command, bin_file, "--collect", "dry leaves", "--for", "1 year")
    assert longer["collect_l"] == pytest.approx((0.18 / 27 * 365 - 1) / card, rel=1e-6)
    text = call(feed_command, "stock", bin_file, "--date", "2026-03-09", "--for", "13 weeks").stdout
    assert "That is enough: collect no bedding." in text


def test_grounds_of_a_cafe_are_no_more_than_the_worms_bear(
    feed_command: Path, bin_file: Path
) -> None:
    """The cap is that of the ration: what it takes in a week of as much as there could be."""
    said = season(feed_command, bin_file, "--collect", "coffee grounds")
    ration = call(
        feed_command, "ration", "-", "--date", "2026-03-09", "--json",
        text_in=f"libfeed: 1\nbed: {json.dumps(WELL)}\nblend: [5 kg coffee grounds]\n",
    ).stdout  # fmt: skip
    put = json.loads(ration)["put_in"][0]
    assert put["label"] == "coffee grounds"
    # A ration rounds down to what a scale shows.
    most = said["things"][0]["most_week_kg"]
    assert put["wet_mass_kg"] <= most <= 1.07 * put["wet_mass_kg"]
    assert said["things"][0]["wet_mass_kg"] == pytest.approx(13 * said["things"][0]["most_week_kg"])
    text = call(
        feed_command, "stock", bin_file, "--date", "2026-03-09", "--collect", "coffee grounds"
    ).stdout
    assert "Fetch it week by week" in text
    assert "loose bedding" not in text  # nobody asked


def test_what_is_never_fed_is_not_collected(feed_command: Path, bin_file: Path) -> None:
    said = call(
        feed_command, "stock", bin_file, "--date", "2026-03-09", "--collect", "bacon, walnut leaves"
    ).stdout.splitlines()
    assert said[0].startswith("Never feed bacon")
    assert said[1].startswith("Never feed walnut leaves")
    got = season(feed_command, bin_file, "--collect", "bacon")
    assert got["things"] == [] and len(got["take_out"]) == 1


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--for", "1 day"), "1 week to 1 year"),
        (("--for", "soon"), "for how long is it to last?"),
        (("--collect", "eggshell"), "a pinch"),
        (("--collect", "zzzz"), "zzzz"),
    ],
)
def test_a_slip_in_what_to_collect(
    feed_command: Path, bin_file: Path, words: tuple[str, ...], told: str
) -> None:
    said = call(feed_command, "stock", bin_file, "--date", "2026-03-09", *words, code=2).stderr
    assert told in " ".join(said.split())
    assert words[0] in said


def test_what_is_kept_and_never_fed_is_said_first(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    kept = ["2 kg frozen chicken bones", "1 kg glossy paper", "300 g lettuce"]
    write(path, stock=[{"date": "2026-03-08", "portions": kept}])
    lines = call(feed_command, "stock", path, "--date", "2026-03-09").stdout.splitlines()
    assert lines[0].startswith("Never feed frozen chicken bones")
    assert lines[1].startswith("Never feed glossy paper")
    assert not any(line.startswith(("Freezer:", "Bedding:")) for line in lines)
    said = answer(feed_command, "stock", path, "--date", "2026-03-09", "--collect", "dry leaves")
    assert [one["label"] for one in said["take_out"]] == kept_names(kept)[:2]
    assert said["collect"]["stock_l"] == 0


def kept_names(kept: list[str]) -> list[str]:
    """The words after amount and unit."""
    return [one.split(" ", 2)[2] for one in kept]


def test_what_is_thawed_for_another_day_says_which(feed_command: Path) -> None:
    """The bin waits until then: nobody is to feed it today."""
    tote = EXAMPLES / "freezer_tote.yaml"
    said = " ".join(call(feed_command, "stock", tote).stdout.split())
    assert "out of the freezer today, for Mon 4 May." in said
    ration = answer(feed_command, "ration", tote)
    assert ration["answer"] == "wait"
    assert ration["next_feeding"]["date"] == "2026-05-04"
    fed = answer(feed_command, "ration", tote, "--date", "2026-05-04")["put_in"]
    thaw = answer(feed_command, "stock", tote)["thaw"]
    assert [one["wet_mass_kg"] for one in thaw] == [
        one["wet_mass_kg"] for one in fed if one["label"] == thaw[0]["label"]
    ]
