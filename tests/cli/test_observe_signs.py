"""feed observe and feed signs."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest
from command import EXAMPLES, answer, call

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def diary(tmp_path: Path) -> Path:
    return Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "tote.yaml"))


def test_an_observation_is_added_and_nothing_else_changes(feed_command: Path, diary: Path) -> None:
    before = diary.read_text(encoding="utf-8")
    ours = answer(
        feed_command, "observe", diary, "--date", "2026-03-27", "share_gone=90 %", "smell=earthy"
    )
    after = diary.read_text(encoding="utf-8")
    assert ours["added"] in after
    assert after.replace(ours["added"], "") == before
    assert ours["observations"] == 3
    assert ours["look_back"]
    labile = ours["rates_per_day"][0]
    assert labile["after_low"] < labile["after"] < labile["after_high"]
    assert [item.name for item in diary.parent.iterdir()] == ["tote.yaml"]


def test_looking_without_adding_changes_nothing(feed_command: Path, diary: Path) -> None:
    before = diary.read_bytes()
    text = call(feed_command, "observe", diary).stdout
    assert "This bin's rates" in text
    assert diary.read_bytes() == before


def test_the_date_is_today_when_left_out(feed_command: Path, diary: Path) -> None:
    call(feed_command, "observe", diary, "smell=earthy", today=date(2026, 5, 17))
    found = re.findall(r"- date: (\S+)", diary.read_text(encoding="utf-8"))
    assert found[-1] == "2026-05-17" or "2026-05-17" in found
    # Without a day said from outside it is the day of the keeper's clock.
    before = date.today()
    environment = {k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"}
    words = [str(feed_command), "observe", str(diary), "smell=sour"]
    subprocess.run(words, check=True, capture_output=True, env=environment)
    found = re.findall(r"- date: (\S+)", diary.read_text(encoding="utf-8"))
    assert str(before) in found or str(date.today()) in found


def test_a_date_ahead_is_asked_back(feed_command: Path, diary: Path) -> None:
    before = diary.read_bytes()
    words = ("observe", diary, "--date", "2062-03-27", "smell=earthy")
    said = " ".join(call(feed_command, *words, code=2).stderr.split())
    assert "ahead; is it meant?" in said and "--force" in said
    assert diary.read_bytes() == before
    call(feed_command, *words, "--force")
    assert "2062-03-27" in diary.read_text(encoding="utf-8")


def test_not_gone_is_kept(feed_command: Path, diary: Path) -> None:
    ours = answer(feed_command, "observe", diary, "--date", "2026-03-27", "gone=no")
    assert ours["added"] == "  - date: 2026-03-27\n    gone: false\n"
    text = diary.read_text(encoding="utf-8")
    assert "gone: false" in text and "gone: true" not in text


def test_a_failure_to_print_does_not_deny_what_is_in_the_file(
    feed_command: Path, diary: Path
) -> None:
    with Path("/dev/full").open("wb") as full:
        words = [
            str(feed_command),
            "observe",
            str(diary),
            "--force",
            "--date",
            "2026-03-27",
            "ph=7",
        ]
        done = subprocess.run(words, stdout=full, stderr=subprocess.PIPE, check=False)
    assert done.returncode == 0
    assert b"the entry is in" in done.stderr and b"could not be printed" in done.stderr
    assert diary.read_text(encoding="utf-8").count("2026-03-27") == 1


def test_a_note_through_a_link_keeps_the_link(feed_command: Path, diary: Path) -> None:
    link = diary.parent / "link.yaml"
    link.symlink_to("tote.yaml")
    call(feed_command, "observe", link, "--date", "2026-03-27", "smell=sour")
    assert link.is_symlink() and "2026-03-27" in diary.read_text(encoding="utf-8")
    diary.chmod(0o444)
    said = call(feed_command, "observe", link, "--date", "2026-03-28", "smell=sour", code=2).stderr
    assert "may only be read" in said and "as it was" in " ".join(said.split())
    assert "2026-03-28" not in diary.read_text(encoding="utf-8")


def test_pictures_and_sheets_never_take_the_place_of_a_diary(
    feed_command: Path, diary: Path
) -> None:
    before = diary.read_bytes()
    for option in ("--svg", "--sheet"):
        assert "is read" in call(feed_command, "forecast", diary, option, diary, code=2).stderr
    page = diary.parent / "page.html"
    words = ("forecast", diary, "--sheet", page, "--svg", page)
    assert "writes" in call(feed_command, *words, code=2).stderr
    words = ("forecast", diary, "--svg", page, "--sheet", diary.parent / "no" / "page.html")
    assert "does not exist" in call(feed_command, *words, code=2).stderr
    assert diary.read_bytes() == before
    assert [item.name for item in diary.parent.iterdir()] == ["tote.yaml"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["smel=earthy"], 'is "smell" meant?'),
        (["share_gone=90"], 'is "90 %" meant?'),
        (["smell=lavender", "ph=20"], "lavender"),
        (["earthy"], "KEY=VALUE"),
        (["note="], "nothing after the ="),
        (["note=  "], "nothing after the ="),
        (["--date", "2026-02-30", "smell=earthy"], "calendar"),
    ],
)
def test_what_cannot_be_read_is_not_written(
    words: list[str], said: str, feed_command: Path, diary: Path
) -> None:
    before = diary.read_bytes()
    assert said in call(feed_command, "observe", diary, *words, code=2).stderr
    assert diary.read_bytes() == before


def test_faster_food_raises_the_rate(feed_command: Path, tmp_path: Path) -> None:
    rates = []
    for gone in ("20 %", "95 %"):
        path = Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "one.yaml"))
        ours = answer(feed_command, "observe", path, "--date", "2026-03-18", f"share_gone={gone}")
        rates.append(ours["rates_per_day"][0]["after"])
    assert rates[1] > rates[0]


def test_temperatures_at_several_places_are_recorded(feed_command: Path, tmp_path: Path) -> None:
    path = Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "one.yaml"))
    places = "temperature={back: 21 C, middle: 23 C}"
    call(feed_command, "observe", path, "--date", "2026-03-27", places, "by=Ama")
    assert 'temperature: {"back": 21 C, "middle": 23 C}' in path.read_text(encoding="utf-8")
    hot = "temperature={back: 21 C, middle: 300 C}"
    assert "too large" in call(feed_command, "observe", path, hot, code=2).stderr


def test_everything_a_site_records_is_kept(feed_command: Path, tmp_path: Path) -> None:
    path = Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "one.yaml"))
    seen = (
        "weight_in=1.2 kg", "running_total=9 kg", "bedding=card", "temperature={back: 21 C}",
        "moisture=75 %", "pooling=no", "smell=earthy", "vigour=active", "worms=spread",
        "pests=some gnats", "action=turned", "by=Ama", "ph=7", "air_low=12 C", "air_high=20 C",
    )  # fmt: skip
    call(feed_command, "observe", path, "--date", "2026-03-27", *seen)
    text = path.read_text(encoding="utf-8")
    for one in seen:
        assert f"    {one.split('=')[0]}: " in text, one


def test_the_likeliest_cause_is_not_called_less_likely(feed_command: Path) -> None:
    for sign in ("climbing", "balled", "sour", "heat"):
        lines = call(feed_command, "signs", sign, "--why").stdout.splitlines()
        first = next(line for line in lines if line.startswith("  - "))
        assert "(likely" in first, first


def test_observe_in_us_units(feed_command: Path, tmp_path: Path) -> None:
    path = Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "one.yaml"))
    first = ("--date", "2026-03-21", "weight_in=1 kg", "running_total=10 kg")
    call(feed_command, "observe", path, *first)
    second = ("--date", "2026-03-22", "weight_in=1 kg", "running_total=14 kg", "--units", "us")
    text = " ".join(call(feed_command, "observe", path, *second).stdout.split())
    assert "rates at 77 F" in text and " kg" not in text.split("now:")[1].split("Does not")[1]
    assert "grows by 8.82 lb, but 2.2 lb were entered" in text


def test_signs_give_ordered_causes_with_tests(feed_command: Path) -> None:
    ours = answer(feed_command, "signs", "climbing", "sour")
    shares = [cause["share"] for cause in ours["causes"] if not cause["harmless"]]
    assert shares == sorted(shares, reverse=True) and len(shares) > 2
    assert all(cause["test"] for cause in ours["causes"])
    assert ours["steps"] and all(0 <= step < len(ours["causes"]) for step in ours["steps"])


def test_harmless_is_called_harmless(feed_command: Path) -> None:
    assert "armless" in call(feed_command, "signs", "white worms").stdout.splitlines()[0]


def test_signs_with_a_bed(feed_command: Path) -> None:
    file = EXAMPLES / "lunch_club_tote.yaml"
    with_bed = answer(feed_command, "signs", "mould", "--bed", file)
    assert any(cause["why"] for cause in with_bed["causes"])


def test_a_file_among_the_signs_is_the_bed(feed_command: Path) -> None:
    file = EXAMPLES / "lunch_club_tote.yaml"
    with_bed = answer(feed_command, "signs", "mould", "--bed", file)
    assert answer(feed_command, "signs", file, "mould") == with_bed
    two = call(feed_command, "signs", file, "mould", "--bed", file, code=2)
    assert "one file of a bin is due here" in two.stderr


def test_worms_that_came_back_end_the_alarm(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "bin.yaml"
    for back in ("worms back", "worms settled down", "worms stopped leaving"):
        path.write_text("libfeed: 1\nbed:\n  date: 2026-03-01\n  container: 60 L tote\n")
        call(feed_command, "note", path, "worms leaving", "--date", "2026-03-10")
        act = answer(feed_command, "ration", path, "1 kg carrots", "--date", "2026-03-11")
        assert act["answer"] == "act_first", back
        call(feed_command, "note", path, back, "--date", "2026-03-11")
        fed = answer(feed_command, "ration", path, "1 kg carrots", "--date", "2026-03-11")
        assert fed["answer"] in ("feed", "feed_less"), back
        signs = call(feed_command, "signs", back).stdout
        assert signs.startswith("Most likely harmless"), signs


def test_what_to_do_fits_a_hand_held_screen(feed_command: Path) -> None:
    for row in (ROOT / "tests/data/signs.csv").read_text(encoding="utf-8").splitlines():
        words = row.split(";")[0]
        if row.startswith("#") or row.startswith("signs;") or row.split(";")[1] == "ask":
            continue
        screen = call(feed_command, "signs", *words.split(" + ")).stdout
        assert len(screen.splitlines()) <= 12 and len(screen.split()) <= 115, screen
        assert screen.startswith("Most likely"), screen
        assert "If so: " in screen or "Nothing needs doing" in screen, screen
        assert not re.search(r"\d (kg|g|L|ml|lb|oz)\b", screen), screen


def test_a_bed_makes_amounts_of_shares(feed_command: Path) -> None:
    file = EXAMPLES / "lunch_club_tote.yaml"
    screen = call(feed_command, "signs", "soggy", "--bed", file).stdout
    assert re.search(r"\d (kg|g) of shredded office paper", screen), screen


def test_a_note_is_read_with_the_same_words(feed_command: Path, tmp_path: Path) -> None:
    """What a diary has a key for is kept under it."""
    kept = {
        "smells of rotten eggs": "smell: rotten",
        "soggy": "squeeze: streams",
        "the bedding is dry": "squeeze: crumbly",
        "worms on the lid": "worms: at the lid",
        "escaping": "worms: leaving",
        "dead worms": "vigour: dying",
        "fruit flys": 'pests: "fruit flies"',
        "mold": 'pests: "mould"',
        "mostly gone": "share_gone: 75 %",
        "room temperature": "temperature: 20 C",
        "cocoons": 'note: "cocoons"',
    }
    for words, line in kept.items():
        path = Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "one.yaml"))
        call(feed_command, "note", path, words, "--date", "2026-03-27")
        assert f"    {line}\n" in path.read_text(encoding="utf-8"), words
    for words, repair in (("hot", "temperature 28 C"),):
        path = Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "one.yaml"))
        refused = call(feed_command, "note", path, words, "--date", "2026-03-27", code=2).stderr
        assert repair in " ".join(refused.split())
        call(feed_command, "note", path, repair, "--date", "2026-03-27")


def test_dying_worms_are_not_fed(feed_command: Path, tmp_path: Path) -> None:
    path = Path(shutil.copy(EXAMPLES / "lunch_club_tote.yaml", tmp_path / "one.yaml"))
    said = call(feed_command, "note", path, "worms are dying", "--date", "2026-03-27").stdout
    assert "ct first" in said and "worms were dying" in " ".join(said.split()), said


def test_files_take_the_words_of_keepers(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "bin.yaml"
    path.write_text(
        "libfeed: 1\nbed: {date: 2026-03-01, container: 60 L tote, worms: 1 lb, squeeze: soggy}\n"
        "observations:\n  - {date: 2026-03-02, smell: rotten eggs, worms: climbing}\n",
        encoding="utf-8",
    )
    said = call(feed_command, "ration", path, "--date", "2026-03-02").stdout
    assert said.startswith("Act first"), said


def test_unknown_and_unclear_signs(feed_command: Path) -> None:
    assert "is not a sign" in call(feed_command, "signs", "glowing", code=2).stderr
    assert "fits several signs" in call(feed_command, "signs", "smell", code=2).stderr
    assert "worms climbing" in call(feed_command, "signs").stdout
