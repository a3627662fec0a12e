"""feed start and feed note: a bin's file is started and kept for its keeper."""

from __future__ import annotations

import os
import pty
import re
import select
import shutil
import subprocess
import time
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from command import EXAMPLES, answer, call, environment


@pytest.fixture
def diary(tmp_path: Path) -> Path:
    return Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "tote.yaml"))


def test_a_note_adds_one_dated_entry_and_answers(feed_command: Path, diary: Path) -> None:
    before = diary.read_text(encoding="utf-8")
    day = date(2026, 3, 27)
    said = call(feed_command, "note", diary, "half", "gone,", "smell", "sour", today=day).stdout
    added = "  - date: 2026-03-27\n    share_gone: 50 %\n    smell: sour\n"
    after = diary.read_text(encoding="utf-8")
    assert "Written down for Fri 27 Mar: half gone, smell sour.\n" in said
    assert added in after
    assert after.replace(added, "") == before
    assert len(said.splitlines()) <= 12
    fed = call(feed_command, "note", diary, "fed 500 g carrot and 3 piece apple core", today=day)
    assert "fed 500 g carrot and 3 piece apple core." in fed.stdout
    after = diary.read_text(encoding="utf-8")
    assert 'portions: ["500 g carrot", "3 piece apple core"]' in after
    assert after.count("2026-03-27") == 2


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("gone", "gone: true"),
        ("temperature 24 C", "temperature: 24 C"),
        ("harvested 5 L", 'action: "harvested 5 L"'),
        ("bedding 1 kg card", 'bedding: "1 kg card"'),
        ("worms 1 lb", "worm_weight: 1 lb"),
        ("soggy", "squeeze: streams"),
        ("room temperature", "temperature: 20 C"),
        ("yesterday mostly gone", "share_gone: 75 %"),
        ("everything eaten", "gone: true"),
        ("food half eaten", "share_gone: 50 %"),
        ("3 dead worms", "vigour: dying"),
        ("a few drops when squeezed", "squeeze: drops"),
        ("new bedding 3 L dry leaves", 'bedding: "3 L dry leaves"'),
        ("stirred", 'action: "stirred"'),
        ("all good", 'note: "all good"'),
        ("weighed the worms: 450 g", "worm_weight: 0.45 kg"),
    ],
)
def test_what_keepers_say_is_kept(words: str, key: str, feed_command: Path, diary: Path) -> None:
    ours = answer(feed_command, "note", diary, words)
    assert f"    {key}\n" in ours["added"]
    assert ours["added"] in diary.read_text(encoding="utf-8")
    call(feed_command, "forecast", diary)


@pytest.mark.parametrize(
    ("words", "day", "portion"),
    [
        ("put in a bucket of leaves", "2026-03-27", "a bucket of leaves"),
        ("2 days ago fed 2 apples", "2026-03-25", "2 apples"),
        ("on monday fed 2 apples", "2026-03-23", "2 apples"),
        ("last monday fed 2 apples", "2026-03-23", "2 apples"),
    ],
)
def test_what_was_fed_is_kept_with_its_day(
    words: str, day: str, portion: str, feed_command: Path, diary: Path
) -> None:
    ours = answer(feed_command, "note", diary, words, today=date(2026, 3, 27))
    assert f"date: {day}\n" in ours["added"]
    assert f'portions: ["{portion}"]' in ours["added"]


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        ("added 200 g worms", "worms 500 g"),
        ("bought 500 worms", "worms 500 g"),
        ("added crushed eggshells", "added 2 handfuls of crushed eggshells"),
        ("fed nothing", "note fed nothing"),
    ],
)
def test_the_repair_of_a_note_works(
    words: str, meant: str, feed_command: Path, diary: Path
) -> None:
    said = " ".join(call(feed_command, "note", diary, words, code=2).stderr.split())
    assert f'"{meant}"' in said
    call(feed_command, "note", diary, meant)


@pytest.mark.parametrize(
    "words", ["smell souerr", "fed 3 kg qqqq", "wet, dry", "2062-01-01 gone", ""]
)
def test_a_note_that_is_not_understood_changes_nothing(
    words: str, feed_command: Path, diary: Path
) -> None:
    before = diary.read_bytes()
    assert call(feed_command, "note", diary, words, code=2).stderr
    assert diary.read_bytes() == before


def test_the_repair_of_a_slip_works(feed_command: Path, diary: Path) -> None:
    said = " ".join(call(feed_command, "note", diary, "smell souerr", code=2).stderr.split())
    meant = said.split('is "')[1].split('"')[0]
    call(feed_command, "note", diary, meant)


def test_a_bin_is_started_by_options(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    words = ("--container", "tote", "--size", "60 L", "--worms", "1 lb as bought")
    call(feed_command, "start", path, *words, today=date(2026, 3, 14))
    text = path.read_text(encoding="utf-8")
    # A new bin: the file is of the day on which its worms go in.
    assert "date: 2026-03-15" in text and "container: 60 L tote" in text and "#" in text
    assert "age: 0 days" in text and "cardboard" in text and "water" in text
    for verb in ("forecast", "observe"):
        call(feed_command, verb, path)
    before = path.read_bytes()
    assert "stands there already" in call(feed_command, "start", path, *words, code=2).stderr
    assert path.read_bytes() == before
    call(feed_command, "note", path, "fed 500 g carrot", today=date(2026, 3, 15))
    other = tmp_path / "other.yaml"
    assert "--worms" in call(feed_command, "start", other, "--worms", "lots", code=2).stderr
    assert not other.exists()


def test_a_new_bin_is_set_up(feed_command: Path, tmp_path: Path) -> None:
    """Bedding, water, grit, worms and rations in this order; and every verb then says the same."""
    path = tmp_path / "new.yaml"
    words = ("--size", "60 L", "--worms", "500 g", "--bedding", "cardboard")
    said = call(feed_command, "start", path, *words, today=date(2026, 3, 14)).stdout
    flat = " ".join(said.split())
    order = ["Take ", "Mix in", "Squeeze a handful", "soil or sand",
             "Put the worms in on Sun 15 Mar", "Feed nothing until Wed 18 Mar"]  # fmt: skip
    places = [flat.index(words) for words in order]
    assert places == sorted(places)
    waits = call(feed_command, "ration", path, today=date(2026, 3, 15)).stdout
    assert waits.startswith("Wait. Feed nothing until Wed 18 Mar.")
    first = re.search(r"until Wed 18 Mar, then (?:[^.]*, )?(?:about )?(\d+ g) of", flat)
    assert first
    fed = call(feed_command, "ration", path, "--date", "2026-03-18").stdout
    assert fed.startswith(f"Feed it: {first[1]} of scraps today."), (fed, said)


def test_a_bin_that_lives_is_not_set_up_again(feed_command: Path, tmp_path: Path) -> None:
    for i, words in enumerate((("--age", "2 years"), ("--squeeze", "damp"))):
        path = tmp_path / f"{i}.yaml"
        said = call(feed_command, "start", path, "--worms", "500 g", *words).stdout
        assert "half of it first" not in said and "Put the worms" not in said
        assert "age: 0" not in path.read_text(encoding="utf-8")


def test_what_is_no_bedding_is_refused(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "new.yaml"
    problem = call(feed_command, "start", path, "--bedding", "3 carrots", code=2).stderr
    assert problem.startswith("--bedding: ") and not path.exists()
    said = call(feed_command, "start", path, "--bedding", "2 kg glossy paper").stdout
    assert "Never feed glossy paper" in said and "cardboard" in said


def talk(feed_command: Path, path: Path, lines: list[str]) -> tuple[str, int]:
    """Types lines at a terminal and gives back what stood there."""
    ours, theirs = pty.openpty()
    program = subprocess.Popen(
        [str(feed_command), "start", str(path)],
        stdin=theirs, stdout=theirs, stderr=theirs, env=environment(date(2026, 3, 14)),
    )  # fmt: skip
    os.close(theirs)
    seen = b""
    asked = 0
    end = time.monotonic() + 60
    while time.monotonic() < end:
        if select.select([ours], [], [], 0.2)[0]:
            try:
                part = os.read(ours, 4096)
            except OSError:
                break
            if not part:
                break
            seen += part
        if seen.count(b"\n> ") + seen.startswith(b"> ") > asked and asked < len(lines):
            os.write(ours, (lines[asked] + "\n").encode())
            asked += 1
    os.close(ours)
    return seen.decode("utf-8"), program.wait(timeout=60)


def test_a_bin_is_started_step_by_step(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    said, code = talk(feed_command, path, ["tote", "60 L", "", "lots", "500 g", "", "damp", ""])
    assert code == 0, said
    text = path.read_text(encoding="utf-8")
    assert "container: 60 L tote" in text and "worms: 500 g" in text and "squeeze: damp" in text
    assert said.count("How many worms?") == 2, "an answer that cannot be used is asked again"


def test_breaking_off_writes_nothing(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "tote.yaml"
    said, code = talk(feed_command, path, ["tote", "\x04"])
    assert code == 2 and "Nothing was written" in said
    assert not path.exists()


def test_verbs_answer_without_a_file(feed_command: Path, tmp_path: Path) -> None:
    bin_words = ("--worms", "1 lb", "--bin", "60 L tote")
    food = ("500", "g", "carrot,", "3", "piece", "apple", "core", "and", "1", "L", "lettuce")
    for verb in ("check", "balance", "forecast"):
        said = call(feed_command, verb, *bin_words, *food, code=None, cwd=tmp_path)
        assert said.returncode in (0, 1) and not said.stderr, verb
    written = "libfeed: 1\nbed: {container: 60 L tote, worms: 1 lb}\nblend:\n"
    written += "  - 500 g carrot\n  - 3 piece apple core\n  - 1 L lettuce\n"
    (tmp_path / "bin.yaml").write_text(written, encoding="utf-8")
    for verb in ("check", "forecast"):
        of_file = answer(feed_command, verb, "bin.yaml", cwd=tmp_path)
        assert answer(feed_command, verb, *bin_words, *food, cwd=tmp_path) == of_file
        assert (
            call(feed_command, verb, "-", "--json", text_in=written).stdout
            == call(feed_command, verb, "bin.yaml", "--json", cwd=tmp_path).stdout
        )


def test_a_file_is_told_by_its_name(feed_command: Path, tmp_path: Path) -> None:
    (tmp_path / "bin").write_text("libfeed: 1\nblend: [1 kg carrot]\n", encoding="utf-8")
    call(feed_command, "blend", "./bin", cwd=tmp_path)
    assert ".yaml" in " ".join(
        call(feed_command, "blend", "bin", cwd=tmp_path, code=2).stderr.split()
    )
    call(feed_command, "blend", "1/2 cup carrot", cwd=tmp_path)
    said = call(feed_command, "check", "--bin", "sofa", "1 kg carrot", cwd=tmp_path, code=2)
    assert "--bin" in said.stderr
    said = call(feed_command, "check", "--bin", "tote", "./bin", cwd=tmp_path, code=2)
    assert "leave the options out" in said.stderr
    said = call(feed_command, "check", "no.yaml", cwd=tmp_path, code=2)
    assert "no such file" in said.stderr


def test_asking_back_has_a_code(feed_command: Path) -> None:
    errors: list[dict[str, str]] = []
    for words in ("1 kg lime", "1 kg chips", "1 kg ash", "1 kg qqqq"):
        said = call(feed_command, "blend", words, "--json", code=None)
        if said.returncode == 2:
            errors = answer(feed_command, "blend", words, code=2)["errors"]
            assert errors[0]["code"] in ("ambiguous", "unknown_feedstock")
            if errors[0]["code"] == "ambiguous":
                assert ";" in errors[0]["allowed"] or " or " in errors[0]["allowed"]


def test_observe_says_what_to_type_now(feed_command: Path, diary: Path) -> None:
    words = ("--date", "2026-03-27", "share_gone=60 %", "smell=earthy", "squeeze=drops")
    said = call(feed_command, "observe", diary, *words).stdout
    meant = said.split("In everyday words: feed note ")[1].split('"')[1]
    assert meant == "60 % gone, smell earthy, drops"
    other = answer(feed_command, "note", diary, "--date", "2026-03-28", meant)["added"]
    added = answer(feed_command, "observe", diary, "--date", "2026-03-28", *words[2:])["added"]
    assert other == added
    # What has no everyday words yet is not talked away.
    assert "feed note" not in call(feed_command, "observe", diary, "air_low=3 C").stdout


def test_a_new_bin_waits_for_one_day_whoever_asks_and_when(
    feed_command: Path, tmp_path: Path
) -> None:
    """The worms go in the day after: the ration of both days names the day that start named."""
    path = tmp_path / "new.yaml"
    words = ["--container", "tote", "--size", "60 L", "--worms", "1 lb as bought"]
    bedding = ["--bedding", "2 kg shredded cardboard"]
    started = call(feed_command, "start", path, *words, *bedding, today=date(2026, 3, 14))
    assert "Feed nothing until Wed 18 Mar" in started.stdout
    for day in ("2026-03-14", "2026-03-15", "2026-03-17"):
        ration = call(feed_command, "ration", path, "--date", day)
        assert ration.stdout.startswith("Wait. Feed nothing until Wed 18 Mar."), day


def new_bin(feed_command: Path, folder: Path, bedding: str) -> dict[str, Any]:
    """A new bin as it is planned; its file says the same of the bed."""
    path = folder / "new.yaml"
    path.unlink(missing_ok=True)
    words = ("--size", "60 L", "--worms", "500 g", "--bedding", bedding)
    planned: dict[str, Any] = answer(
        feed_command, "start", path, *words, "--date", "2026-03-14", "--force"
    )["new_bin"]
    bed = answer(feed_command, "check", path, "--date", "2026-03-15")
    assert not [one for one in bed["hazards"] if one["hazard"] in ("wet", "dry") and one["value"]
                and one["level"] in ("watch", "act")], bedding  # fmt: skip
    return planned


def test_bedding_that_is_wet_already_gets_less_water(feed_command: Path, tmp_path: Path) -> None:
    """Damp, soaked and dry make three beds of one wetness, each with its own water."""
    for name in ("cardboard", "newspaper", "shredded office paper", "autumn leaves"):
        dry, damp, soaked = (
            new_bin(feed_command, tmp_path, how + name) for how in ("", "damp ", "soaked ")
        )
        assert dry["water_kg"] > 1.5 * damp["water_kg"] > 0, name
        assert soaked["water_kg"] == 0, name
        for one in (dry, damp, soaked):
            assert 0.55 <= one["wetness"]["value"] <= 0.72, name
        # Of the same weight there is less bedding in it.
        depths = [
            new_bin(feed_command, tmp_path, f"3 kg {how}{name}")["depth_at_hand_m"]
            for how in ("", "damp ", "soaked ")
        ]
        assert depths[0] > 1.2 * depths[1] > 1.2 * depths[2], name


def test_coir_is_dry_as_a_brick_and_soaked_where_it_is_called_so(
    feed_command: Path, tmp_path: Path
) -> None:
    """Coir is sold dry; where nobody says, it counts as soaked, and that is said."""
    words = ("--size", "60 L", "--worms", "500 g", "--date", "2026-03-14", "--force", "--bedding")
    told = "Coir counts as soaked here. Is yours dry? Then write dry coir."
    screens = {
        bedding: call(feed_command, "start", tmp_path / f"{n}.yaml", *words, bedding).stdout
        for n, bedding in enumerate(("coir", "650 g coir brick", "dry coir", "soaked coir", "card"))
    }
    assert [bedding for bedding, said in screens.items() if told in said] == ["coir"]
    assert all(len(said.splitlines()) <= 12 for said in screens.values())
    brick = new_bin(feed_command, tmp_path, "5 coir bricks")
    # Five times its weight in water, as wrappers say (common practice).
    assert 3.5 < brick["water_kg"] / 3.25 < 6


@pytest.mark.parametrize(
    ("words", "written"),
    [
        ("fed 3 apples yesterday", "2026-03-26"),
        ("yesterday fed 3 apples", "2026-03-26"),
        ("fed 3 apples on Monday", "2026-03-23"),
        ("fed 3 apples 2 days ago", "2026-03-25"),
        ("I fed 3 apples", 'portions: ["3 apples"]'),
        ("added 3 apples", 'portions: ["3 apples"]'),
        ("gave them 3 apples", 'portions: ["3 apples"]'),
        ("added 500 g shredded paper", 'bedding: "500 g shredded paper"'),
        ("added a litre of water", 'action: "added water 1 L"'),
        ("added 2 L water", 'action: "added water 2 L"'),
        ("added water 2 L", 'action: "added water 2 L"'),
        ("water 500 ml", 'action: "added water 0.5 L"'),
        ("temprature 24 C", "temperature: 24 C"),
        ("harvsted 5 L", 'action: "harvested 5 L"'),
        ("wroms 500 g", "worm_weight: 0.5 kg"),
        ("sqeeze drops", "squeeze: drops"),
        ("a third left", "share_gone: 67 %"),
        ("about half left", "share_gone: 50 %"),
        ("not touched", "share_gone: 0 %"),
    ],
)
def test_notes_are_read_as_they_are_said(
    words: str, written: str, feed_command: Path, diary: Path
) -> None:
    before = diary.read_text(encoding="utf-8")
    call(feed_command, "note", diary, *words.split(), "--date", "2026-03-27", code=0)
    assert written in diary.read_text(encoding="utf-8").replace(before, "", 1)


@pytest.mark.parametrize(
    "words", ["temperature 24", "24 degrees", "worms 1000", "left 60 x", "fed 3 apples, it stinks"]
)
def test_a_note_that_is_refused_says_one_that_is_taken(
    words: str, feed_command: Path, diary: Path
) -> None:
    said = call(feed_command, "note", diary, *words.split(), "--date", "2026-03-27", code=2).stderr
    assert said.startswith("note: ")
    assert said.count("\n") <= 3
    repair = " ".join(said.split()).split('rite "')[-1].split("for instance ")[-1]
    repair = repair.split('"')[0] or repair.split('"')[1]
    call(feed_command, "note", diary, *repair.split(), "--date", "2026-03-27", code=0)


def test_what_was_seen_goes_beside_what_was_fed(feed_command: Path, diary: Path) -> None:
    words = ["fed", "3", "apples,", "smell", "sour"]
    ours = answer(feed_command, "note", diary, *words, "--date", "2026-03-27")
    assert 'portions: ["3 apples"]' in ours["added"] and "smell: sour" in ours["added"]
    said = call(feed_command, "ration", diary, "--date", "2026-03-27").stdout
    assert "it smelled sour" in said


@pytest.mark.parametrize(
    ("said", "written"), [("yesterday", "2026-03-26"), ("today", "2026-03-27")]
)
def test_a_day_is_said_in_words(said: str, written: str, feed_command: Path, diary: Path) -> None:
    day = date(2026, 3, 27)
    call(feed_command, "note", diary, "half", "gone", "--date", said, today=day)
    assert f"date: {written}\n    share_gone: 50 %" in diary.read_text(encoding="utf-8")
    wrong = call(feed_command, "ration", diary, "--date", "some day", code=2, today=day).stderr
    assert 'write for instance "today", "yesterday" or "2026-03-27"' in " ".join(wrong.split())


@pytest.mark.parametrize("warmth", ["room temperature", "cold", "cool", "warm", "Room Temp"])
def test_warmth_is_said_in_words(warmth: str, feed_command: Path) -> None:
    bin_words = ["--worms", "1 lb", "--bin", "60 L tote", "--temperature"]
    said = call(feed_command, "ration", *bin_words, warmth, "3 apples").stdout
    assert "of scraps today" in said
    hot = call(feed_command, "ration", *bin_words, "hot", "3 apples", code=2).stderr
    assert 'write for instance "20 C"' in " ".join(hot.split())


def test_what_must_come_out_stands_before_what_goes_in(feed_command: Path, diary: Path) -> None:
    said = call(
        feed_command, "note", diary, "fed", "chicken", "bones", "--date", "2026-03-27"
    ).stdout
    assert 0 < said.index("Dig out what is left of the bones") < said.index("\nWait")
    said = call(feed_command, "note", diary, "rats", "--date", "2026-03-28").stdout
    assert 0 < said.index("feed signs rats") < said.index("scraps today")
