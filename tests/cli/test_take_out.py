"""What is never fed stands first in blend and balance, and --strict says so to scripts.

The files are invented.
"""

from __future__ import annotations

from pathlib import Path

from command import answer, call

BALANCE = """libfeed: 1
balance:
  at_hand: [1 kg carrot, 200 g bacon, any newspaper, any water]
"""
BLEND = """libfeed: 1
feedstocks:
  rind: {like: bacon, stance: feed little}
blend: [1 kg carrot, 20 g rind, 100 g pet waste]
"""
LIFTED_TOO_FAR = """libfeed: 1
feedstocks:
  litter: {like: pet waste, stance: feed}
blend: [1 kg carrot, 100 g litter]
"""
NO_BEDDING = "libfeed: 1\nbalance: {at_hand: [500 g bread]}\n"


def written(folder: Path, text: str) -> Path:
    path = folder / "kitchen.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def test_balance_takes_out_what_is_barred(feed_command: Path, tmp_path: Path) -> None:
    path = written(tmp_path, BALANCE)
    first = call(feed_command, "balance", path).stdout.splitlines()[0]
    assert first.startswith("Never feed bacon: ")
    ours = answer(feed_command, "balance", path)
    assert [one["feedstock"] for one in ours["take_out"]] == ["bacon-cooked"]
    assert ours["take_out"][0]["why"]
    assert ours["take_out"][0]["instead"]
    masses = {one["feedstock"]: one["wet_mass_kg"] for one in ours["portions"]}
    assert masses["bacon-cooked"] == 0
    assert masses["carrot"] == 1
    call(feed_command, "balance", "--strict", path, code=1)


def test_blend_says_what_is_never_fed_first(feed_command: Path, tmp_path: Path) -> None:
    path = written(tmp_path, BLEND)
    text = call(feed_command, "blend", path).stdout
    assert text.startswith("Never feed pet waste: ")
    assert "Your file feeds rind, which is never fed otherwise" in text
    ours = answer(feed_command, "blend", path)
    assert [one["feedstock"] for one in ours["take_out"]] == ["pet-waste"]
    call(feed_command, "blend", "--strict", path, code=1)
    call(feed_command, "blend", "--strict", "1 kg carrot")


def test_no_file_feeds_pet_waste(feed_command: Path, tmp_path: Path) -> None:
    path = written(tmp_path, LIFTED_TOO_FAR)
    refused = " ".join(call(feed_command, "blend", path, code=2).stderr.split())
    assert "leave the stance out" in refused
    path = written(tmp_path, LIFTED_TOO_FAR.replace(", stance: feed", ""))
    assert call(feed_command, "blend", path).stdout.startswith("Never feed litter: ")


def test_a_file_without_bedding_is_offered_house_bedding(
    feed_command: Path, tmp_path: Path
) -> None:
    path = written(tmp_path, NO_BEDDING)
    ours = answer(feed_command, "balance", path)
    assert ours["status"] == "solved"
    masses = {one["feedstock"]: one["wet_mass_kg"] for one in ours["portions"]}
    assert masses["cardboard-corrugated"] > 0
    assert any("no bedding" in sentence for sentence in ours["assumed"])
    assert ours["remarks"]


def test_a_heap_is_spoken_of_as_a_heap(feed_command: Path, tmp_path: Path) -> None:
    path = written(
        tmp_path,
        "libfeed: 1\nbalance:\n  at_hand: [10 kg grass clippings, any straw, any water]\n"
        "  targets: hot-heap\n",
    )
    text = call(feed_command, "balance", path).stdout
    assert text.startswith("Put on the heap together, ")
    assert "worm" not in text.split("Cautions")[0]


def test_a_heap_in_a_tote_is_refused(feed_command: Path, tmp_path: Path) -> None:
    """3 x 3 x 3 ft is the least for a heap that gets hot (extension page, Oregon county)."""
    text = (
        "libfeed: 1\nbed: {container: 60 L tote, temperature: 20 C}\n"
        "balance:\n  at_hand: [4 kg grass clippings, any dry leaves]\n  targets: hot-heap\n"
    )
    path = written(tmp_path, text)
    for verb in ("ration", "check", "forecast", "balance"):
        errors = answer(feed_command, verb, path, code=2)["errors"]
        assert len(errors) == 1
        assert errors[0]["field"] == "bed: container"
        assert "heap" in errors[0]["message"]
        assert "worm-bed" in errors[0]["allowed"]
    path = written(tmp_path, text.replace("hot-heap", "worm-bed"))
    assert answer(feed_command, "ration", path)["answer"] in ("feed", "feed_less", "wait")
    roomy = text.replace("60 L tote", "{kind: box, inside: 100 x 100 x 100 cm}")
    path = written(tmp_path, roomy)
    assert answer(feed_command, "balance", path)["status"] == "solved"


def test_a_refusal_alone_is_not_followed_by_feed_it(feed_command: Path) -> None:
    """Who names only what is never fed must not read below it that it may go in."""
    said = call(feed_command, "ration", "--worms", "1 lb", "--bin", "60 L tote", "bag of dog poo")
    assert said.stdout.startswith("Never feed dog poo: ")
    assert "Feed it" not in said.stdout
    assert " of scraps today: other, soft ones." in said.stdout


def test_what_is_at_its_weekly_most_is_not_fed_again_tomorrow(feed_command: Path) -> None:
    at_hand = "5 kg coffee grounds"
    said = call(feed_command, "ration", "--worms", "1 lb", "--bin", "60 L tote", at_hand).stdout
    assert "No more coffee grounds for a week." in said.splitlines()


def test_a_lifted_bar_is_said_first_whatever_it_is_used_for(
    feed_command: Path, tmp_path: Path
) -> None:
    """As bedding too: nobody covers a feeding with it unwarned."""
    path = written(
        tmp_path,
        "libfeed: 1\nfeedstocks:\n"
        "  shreds: {like: bacon, roles: bedding, stance: feed little}\n"
        "bed: {date: 2026-03-02, container: 60 L tote, worms: 500 g, squeeze: drops}\n"
        "blend: [300 g carrot, 1 kg shreds]\n",
    )
    lines = call(feed_command, "ration", path).stdout
    assert "of shreds" in lines
    assert lines.startswith("Your file feeds shreds, which is never fed otherwise")


def test_the_sheet_puts_in_nothing_of_what_is_barred(feed_command: Path, tmp_path: Path) -> None:
    path = written(
        tmp_path,
        "libfeed: 1\nbed: {date: 2026-03-02, container: 60 L tote, worms: 500 g, squeeze: drops}\n"
        "blend: [300 g carrot, 100 g bacon]\n",
    )
    sheet = tmp_path / "sheet.txt"
    call(feed_command, "forecast", path, "--sheet", sheet)
    put_in = [line for line in sheet.read_text(encoding="utf-8").splitlines() if "Put in:" in line]
    assert len(put_in) == 1
    assert "carrot" in put_in[0]
