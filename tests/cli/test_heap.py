"""`feed heap`: the recipe of a small hot heap in layers, and what its log says; yards invented."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from command import EXAMPLES, answer, call

YARD = EXAMPLES / "yard" / "heap.yaml"
LOGGED = EXAMPLES / "yard" / "heap_with_log.yaml"
AT_HAND = ["40 buckets grass clippings", "60 buckets dry leaves", "wood chips"]


def heap_file(folder: Path, **sections: Any) -> Path:
    path = folder / "heap.yaml"
    path.write_text(yaml.safe_dump({"libfeed": 1, "kind": "heap", **sections}, sort_keys=False))
    return path


def test_the_amounts_are_those_of_the_balance(feed_command: Path) -> None:
    """One answer: the whole of `feed balance` stands in that of `feed heap`."""
    for path in (YARD, LOGGED):
        assert answer(feed_command, "heap", path)["balance"] == answer(
            feed_command, "balance", path
        )
    text = call(feed_command, "heap", YARD).stdout
    for portion in answer(feed_command, "balance", YARD)["portions"]:
        assert portion["measure"].split(",")[0] in text


def test_what_finds_too_little_dry_stuff_is_kept_back(feed_command: Path) -> None:
    """Of 50 L of scraps a bucket of leaves takes a little; the rest was not spoken of."""
    at_hand = ["5 buckets kitchen scraps", "1 bucket leaves"]
    heap = answer(feed_command, "heap", *at_hand)
    scraps = next(
        one for one in heap["balance"]["portions"] if one["feedstock"] == "fruit-veg-byproduct"
    )
    there = answer(feed_command, "blend", "5 buckets kitchen scraps")["wet_mass_kg"]
    assert [one["feedstock"] for one in heap["kept_back"]] == ["fruit-veg-byproduct"]
    kept = heap["kept_back"][0]["wet_mass_kg"]
    assert kept == pytest.approx(there - scraps["wet_mass_kg"])
    told = " ".join(heap["text"])
    assert "there is too little dry stuff" in told
    added = re.search(r"For all of it add (\d+) L, about", told)
    assert added, told
    # What it names, added to the bucket of 10 L, lets all of it in.
    enough = answer(feed_command, "heap", at_hand[0], f"{int(added[1]) + 10} L leaves")
    assert enough["kept_back"] == []
    assert answer(feed_command, "heap", *AT_HAND)["kept_back"] == []


def test_layers_add_up_to_the_recipe_and_no_more_than_there_is(feed_command: Path) -> None:
    heap = answer(feed_command, "heap", *AT_HAND, "2 kg bacon")
    layers = heap["layers"]
    laid: dict[str, float] = {}
    for part, times in (("bottom", 1), ("each_round", layers["rounds"])):
        for one in layers[part]:
            laid[one["feedstock"]] = laid.get(one["feedstock"], 0) + times * one["wet_mass_kg"]
    recipe = {one["feedstock"]: one["wet_mass_kg"] for one in heap["balance"]["portions"]}
    assert {name: kg for name, kg in recipe.items() if kg > 0} == pytest.approx(laid)
    assert laid["grass-clippings"] == pytest.approx(83.2)  # 400 L at 208 kg/m3 (NRAES-54, recalled)
    assert "bacon" in heap["balance"]["take_out"][0]["label"]
    assert not any("bacon" in name for name in laid)
    assert heap["layers"]["size"] == "heats"


# Richard and Trautmann 1996 (Cornell Composting): 10 kg of grass clippings (77 % water, 45 % C,
# 2.4 % N) need 6.8 kg of leaves (35 %, 50 % C, 0.75 % N) for 60 % moisture.
def test_the_published_amount_of_leaves_for_sixty_percent(
    feed_command: Path, tmp_path: Path
) -> None:
    def own(moisture: str, carbon: str, nitrogen: str, role: str, like: str) -> dict[str, Any]:
        return {"like": like, "moisture": moisture, "carbon": carbon, "nitrogen": nitrogen,
                "roles": [role]}  # fmt: skip

    path = heap_file(
        tmp_path,
        feedstocks={
            "their grass": own("77 %", "45 %", "2.4 %", "scraps", "grass clippings"),
            "their leaves": own("35 %", "50 %", "0.75 %", "bedding", "dry leaves"),
        },
        balance={
            "at_hand": ["10 kg their grass", "any their leaves"],
            "objective": "least added",
        },
    )
    portions = answer(feed_command, "heap", path)["balance"]["portions"]
    assert portions[1]["wet_mass_kg"] == pytest.approx(6.8, rel=1e-9)


@pytest.mark.parametrize(
    "words",
    [
        ["ration", "FILE"],
        ["check", "FILE"],
        ["forecast", "FILE"],
        ["harvest", "FILE"],
        ["refresh", "FILE", "--change", "flush"],
        ["week", "FILE", "--have", "1 kg carrot", "--date", "2026-05-02"],
        ["signs", "sour", "--bed", "FILE"],
        ["observe", "FILE"],
    ],
)
def test_no_verb_about_worms_answers_a_file_of_a_heap(
    words: list[str], feed_command: Path, tmp_path: Path
) -> None:
    set_alone = tmp_path / "set.yaml"
    set_alone.write_text(
        "libfeed: 1\nbalance:\n  at_hand: [1 kg grass clippings, any dry leaves]\n"
        "  targets: hot-heap\n"
    )
    for path in (YARD, set_alone):
        asked = [str(path) if word == "FILE" else word for word in words]
        said = call(feed_command, *asked, code=2).stderr
        assert "is of a heap" in said
        assert "ask feed heap" in " ".join(said.split())
        error = json.loads(call(feed_command, *asked, "--json", code=2).stdout)["errors"][0]
        assert error["code"] == "contradiction"


def test_a_file_of_a_bin_is_no_heap(feed_command: Path, tmp_path: Path) -> None:
    assert "kind: heap" in call(feed_command, "heap", EXAMPLES / "balcony_tote.yaml", code=2).stderr
    for section in ({"bed": {"worms": "1 lb"}}, {"balance": {"at_hand": ["1 kg carrot"],
                                                             "targets": "worm-bed"}}):  # fmt: skip
        said = call(feed_command, "heap", heap_file(tmp_path, **section), code=2).stderr
        assert "of a heap" in said
    assert "balance" in call(feed_command, "heap", heap_file(tmp_path), code=2).stderr


def look(day: int, middle: float, **more: Any) -> dict[str, Any]:
    return {"date": f"2026-05-{day:02}", "temperature": {"middle": f"{middle} C"}, **more}


@pytest.mark.parametrize(
    ("observations", "step", "first"),
    [
        ([look(2, 58)], "leave", "Leave it alone: 58 C in the middle."),
        ([look(2, 67)], "turn", "Turn it today: 67 C in the middle is too hot."),
        ([look(2, 73)], "cool", "Cool it today: 73 C in the middle is far too hot."),
        ([look(2, 84)], "stand_back", "Do not open it: 84 C in the middle is a risk of fire."),
        ([look(2, 61), look(9, 44)], "turn", "Turn it: it has cooled from 61 C to 44 C."),
        ([look(2, 14), look(10, 24)], "mend", "It has not got hot: 24 C"),
        (
            [look(2, 61), look(9, 44, action="turned"), look(20, 30)],
            "ripen",
            "Let it ripen: it no longer heats after turning.",
        ),
        (
            [
                look(2, 61),
                look(9, 40, action="turned"),
                look(30, 14, air_low="9 C", air_high="15 C"),
            ],
            "cooled",
            "It has cooled for good: 14 C inside, 12 C in the air.",
        ),
    ],
)
def test_turn_it_or_leave_it_alone(
    observations: list[dict[str, Any]],
    step: str,
    first: str,
    feed_command: Path,
    tmp_path: Path,
) -> None:
    path = heap_file(tmp_path, observations=observations)
    log = answer(feed_command, "heap", path)["log"]
    assert log["step"] == step
    text = call(feed_command, "heap", path).stdout
    assert text.startswith(first), text
    dangerous = step in ("stand_back", "cool")
    call(feed_command, "heap", path, "--strict", code=1 if dangerous else 0)
    assert ("fire service" in text) == dangerous
    if step in ("turn", "cool", "mend"):
        assert "stand upwind" in text


def test_notes_keep_the_places_of_the_thermometer(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "heap.yaml"
    path.write_text(YARD.read_text())
    words = "temperature 55 C in the middle, edge 38 C, 31 C at 15 cm deep, air 12 C"
    said = call(feed_command, "note", path, words).stdout
    assert "Leave it alone: 55 C in the middle." in said
    seen = yaml.safe_load(path.read_text())["observations"][-1]
    assert seen["temperature"] == {"middle": "55 C", "edge": "38 C", "15 cm deep": "31 C"}
    assert (seen["air_low"], seen["air_high"]) == ("12 C", "12 C")
    assert "ration" not in said and "worm bin" not in said
    again = call(feed_command, "note", path, "60 C middle, 50 C core, 49 C middle", code=2).stderr
    assert "cannot both be (temperature)" in again
    call(feed_command, "observe", path, "temperature=62 C")
    assert "62 C" in call(feed_command, "heap", path).stdout


def test_what_may_go_to_the_worms(feed_command: Path, tmp_path: Path) -> None:
    """The caps of the rows hold: half of the heap manure, so twice its cap of the heap."""
    row = json.loads(call(feed_command, "show", "manure-horse", "--json").stdout)
    sections = {
        "balance": {"at_hand": ["10 kg horse manure", "10 kg dry leaves"],
                    "targets": {"set": "none", "total_mass": "exactly 20 kg"}},
        "observations": [look(2, 61), look(9, 44, action="turned"), look(25, 24)],
    }  # fmt: skip
    path = heap_file(tmp_path, **sections)
    worms = answer(feed_command, "heap", path, "--worms", "500 g")["for_worms"]
    assert worms["cool_enough"] is True
    assert worms["capped"] == ["manure-horse"]
    cap = row["most_wet_kg_per_kg_worms"]
    assert worms["week_kg_per_kg_worms"] == pytest.approx(2 * cap)
    assert worms["week_kg"] == pytest.approx(cap)
    text = call(feed_command, "heap", path, "--worms", "500 g").stdout
    assert "For the worms: spread some thin for two days" in text
    assert "ask feed ration" in text
    early = heap_file(tmp_path, **{**sections, "observations": [look(2, 61), look(9, 55)]})
    assert "Not for the worms yet" in call(feed_command, "heap", early).stdout
    assert "--worms" in call(feed_command, "heap", early, "--worms", "many", code=2).stderr


def test_why_shows_rules_that_differ_with_their_sources_and_no_claim(feed_command: Path) -> None:
    text = " ".join(call(feed_command, "heap", LOGGED, "--why").stdout.split())
    for source in ("Surrey County Council", "NRCS", "Cornell", "AgriFutures", "from memory"):
        assert source in text
    assert "this program says nothing of what heat does to them" in text
    assert "No forecast" in text
    assert "second-hand" in text
    rules = answer(feed_command, "heap", LOGGED)["rules"]
    assert sum(rule["about"] == "too hot" for rule in rules) >= 3


def test_words_make_the_heap_that_the_file_makes(feed_command: Path, tmp_path: Path) -> None:
    path = heap_file(
        tmp_path,
        balance={
            "at_hand": [
                "as much as possible up to 40 buckets grass clippings",
                "as much as possible up to 60 buckets dry leaves",
                "any wood chips",
                "any water",
            ]
        },
    )
    by_file = answer(feed_command, "heap", path)
    assert by_file["balance"] == answer(feed_command, "heap", *AT_HAND)["balance"]
    call(feed_command, "heap", "3 kg water, 5 kg grass clippings, 5 kg dry leaves", code=None)
    small = call(feed_command, "heap", "3 buckets grass, 6 buckets leaves, wood chips").stdout
    assert small.startswith("Too small to get hot")


def test_what_makes_no_hot_heap_says_what_would(feed_command: Path) -> None:
    text = call(feed_command, "heap", "20 kg newspaper", code=1).stdout
    assert text.startswith("These do not make a heap that gets hot.\nTo mend it, add ")


@pytest.mark.parametrize(
    ("there", "mend"),
    # Browns and greens as a garden has them; what is judged with the mend gets hot.
    [
        ("30 buckets grass", r"leaves|straw|cardboard|shavings"),
        ("20 buckets kitchen scraps", r"leaves|straw|cardboard|shavings"),
        ("10 buckets horse manure", r"leaves|straw|cardboard|shavings"),
        ("1 m3 straw", r"grass|coffee|manure|hay"),
        ("leaves", r"grass|coffee|manure|hay"),
    ],
)
def test_a_heap_is_mended_with_what_heaps_are_built_of(
    feed_command: Path, there: str, mend: str
) -> None:
    text = " ".join(call(feed_command, "heap", there, code=1).stdout.split())
    told = re.search(r"To mend it, add (\S+ \S+), about \S+ \S+ of ([^.]*)\. With it go", text)
    assert told and re.search(mend, told[2]), text
    assert "freeze" not in text and "feed something" not in text and "before feeding" not in text
    built = call(feed_command, "heap", f"{there}, {told[1]} {told[2]}", code=None).stdout
    assert "These do not make" not in built, built


def test_a_heap_without_amounts_is_one_that_heats(feed_command: Path) -> None:
    """A cubic metre: at least 3 ft each way (Oregon county extension page)."""
    for there in ("grass clippings, dry leaves", "horse manure, straw"):
        said = answer(feed_command, "heap", there)
        assert said["layers"]["size"] == "hot" or said["layers"]["volume_l"] >= 760, said["layers"]
        assert call(feed_command, "heap", there).stdout.startswith("Build a heap ")
    # With one amount that one says how much.
    known = answer(feed_command, "heap", "10 buckets grass clippings, dry leaves")
    assert known["layers"]["volume_l"] < 760


def test_a_burning_heap_is_never_opened(feed_command: Path, tmp_path: Path) -> None:
    """A reading beyond what any bed bears is taken, and the first lines keep people away."""
    heap = tmp_path / "heap.yaml"
    heap.write_text(YARD.read_text(encoding="utf-8"), encoding="utf-8")
    said = call(feed_command, "note", heap, "95 C middle", "--date", "2026-04-01").stdout
    assert "95 C" in heap.read_text(encoding="utf-8")
    assert "Do not open it" in said and "fire service" in said


def test_what_does_not_go_on_the_heap_is_said_on_the_first_screen(feed_command: Path) -> None:
    """However much is barred or left out: the first ones by name, and how many more."""
    barred = [
        "bacon", "cheese", "milk", "beef", "fish", "dog droppings", "cooking oil", "cat litter",
        "glossy paper",
    ]  # fmt: skip
    browns = ["wood chips", "straw", "hay", "newspaper", "cardboard", "sawdust"]
    some = ", ".join(["8 buckets grass", "20 buckets leaves", *browns])
    said = call(feed_command, "heap", some + "".join(f", 1 kg {name}" for name in barred)).stdout
    assert said.count("\n") <= 12
    never = " ".join(said.split()).split("Too small")[0]
    for name in barred:
        assert name in never
    portions = answer(feed_command, "heap", some)["balance"]["portions"]
    unused = [
        name for name, one in zip(browns, portions[2:], strict=False) if one["wet_mass_kg"] == 0
    ]
    assert len(unused) > 4
    assert f"Leave out {', '.join(unused[:3])} and {len(unused) - 3} more." in said
    # Whether it wants water the fist says: that is nothing to leave out.
    assert "Leave out" not in call(feed_command, "heap", "2 m3 leaves, 300 kg grass").stdout


@pytest.mark.parametrize(
    ("words", "key", "does"),
    [("smells of ammonia", "ammonia", "dry leaves"), ("smells rotten", "foul", "twigs")],
)
def test_a_heap_that_smells_is_mended(
    feed_command: Path, tmp_path: Path, words: str, key: str, does: str
) -> None:
    path = heap_file(tmp_path, observations=[look(2, 55)])
    said = call(feed_command, "note", path, "--date", "2026-05-03", "--force", words).stdout
    assert f"Fork in {does}" in said.splitlines()[1] and "Leave it alone" not in said
    log = answer(feed_command, "heap", path)["log"]
    assert [log["ammonia"], log["foul"]].count("2026-05-03") == 1 and log[key] == "2026-05-03"
    said = call(feed_command, "note", path, "--date", "2026-05-04", "--force", "turned").stdout
    assert "Fork in" not in said
    assert answer(feed_command, "heap", path)["log"][key] is None


def test_smoke_that_is_noted_is_answered_at_once(feed_command: Path, tmp_path: Path) -> None:
    path = heap_file(tmp_path, observations=[look(2, 55)])
    for words in ("smoke", "a burning smell from the top"):
        said = call(feed_command, "note", path, "--date", "2026-05-03", "--force", words).stdout
        assert "Do not open it: smoke is a risk of fire." in said
        assert "fire service" in said
    assert answer(feed_command, "heap", path)["log"]["smoke"] == "2026-05-03"


def test_a_heap_of_two_materials_that_need_care_fits_the_screen(feed_command: Path) -> None:
    said = call(feed_command, "heap", "chicken manure 40 kg", "sawdust").stdout
    assert said.count("\n") <= 12
    assert len(said.split()) <= 110
    assert said.count("Take care") == 3
