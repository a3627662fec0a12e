"""Observations, diaries, trials, fits and sheets from a notebook."""

from __future__ import annotations

import datetime
import json
import os
import subprocess
from pathlib import Path

import pytest

import libfeed

ROOT = Path(__file__).resolve().parents[2]
TOTE = ROOT / "examples" / "lunch_club_tote.yaml"
LOOK = libfeed.Observation(
    datetime.date(2026, 3, 24),
    by="Green table",
    left_wet_kg=0.05,
    worms="spread",
    vigour="active",
    squeeze="many drops",
    pooling=False,
    smell="earthy",
    ph=6.5,
    temperature_c={"back": 18.0, "front": 17.5},
    air_low_c=9.0,
    air_high_c=16.0,
    note="# quoted: 'as written'",
)


@pytest.fixture
def tote(tmp_path: Path) -> Path:
    path = tmp_path / "tote.yaml"
    path.write_bytes(TOTE.read_bytes())
    return path


def test_an_observation_survives_a_file(tote: Path) -> None:
    news = libfeed.append_observation(tote, LOOK)
    read = libfeed.read_feed_file(tote).diary.observations[-1]
    assert read.to_yaml() == LOOK.to_yaml() == news.added
    for name in ("date", "by", "left_wet_kg", "worms", "vigour", "squeeze", "pooling", "smell"):
        assert getattr(read, name) == getattr(LOOK, name), name
    assert read.temperature_c == {"back": 18.0, "front": 17.5}
    assert (read.air_low_c, read.air_high_c, read.ph) == (9.0, 16.0, 6.5)
    assert read.note == LOOK.note


def test_append_keeps_the_rest_of_the_file(tote: Path) -> None:
    before = tote.read_text(encoding="utf-8")
    news = libfeed.append_observation(tote, LOOK)
    after = tote.read_text(encoding="utf-8")
    assert after.replace(news.added, "", 1) == before
    assert after == libfeed.with_observation(before, LOOK)


def test_append_says_what_the_command_says(tote: Path, tmp_path: Path, feed_command: Path) -> None:
    other = tmp_path / "other.yaml"
    other.write_bytes(tote.read_bytes())
    words = ["share_gone=90 %", "smell=earthy", "date=2026-03-25"]
    done = subprocess.run(
        [feed_command, "observe", other, *words[:2], "--date", "2026-03-25", "--json"],
        capture_output=True,
        text=True,
        check=True,
    )
    look = libfeed.Observation("2026-03-25", share_gone=0.9, smell="earthy")
    news = libfeed.append_observation(tote, look)
    assert news.to_dict() == json.loads(done.stdout)
    assert tote.read_text() == other.read_text()


def test_the_newest_look_moves_the_rates() -> None:
    diary = libfeed.read_feed_file(TOTE).diary
    more = diary.with_observation(LOOK)
    assert len(more.observations) == len(diary.observations) + 1
    news = more.news(newest_is_new=True)
    assert news.before.used == diary.calibrate().used
    assert news.calibration.used == news.before.used + 1
    labile = news.calibration.rates[0].after_per_day
    assert labile != news.before.rates[0].after_per_day
    assert labile == more.calibrate().rates[0].after_per_day
    assert news.look_back
    assert diary.news().before.rates[0].after_per_day == diary.calibrate().rates[0].after_per_day


def test_an_append_that_fails_leaves_the_file(tmp_path: Path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text("libfeed: 1\nobservations: [{date: 2026-13-40}]\n")
    with pytest.raises(libfeed.FeedError) as raised:
        libfeed.append_observation(path, LOOK)
    assert raised.value.line == 2
    assert path.read_text() == "libfeed: 1\nobservations: [{date: 2026-13-40}]\n"
    with pytest.raises(OSError, match="no such file"):
        libfeed.append_observation(tmp_path / "nowhere.yaml", LOOK)


@pytest.mark.parametrize(
    ("field", "wrong"),
    [
        ("share_gone", 75.0),
        ("left_wet_kg", -0.1),
        ("worms", "asleep"),
        ("ph", 15.0),
        ("temperature_c", float("nan")),
        ("of_feeding", "yesterday"),
        ("air_low_c", 40.0),
    ],
)
def test_what_cannot_be_seen_is_refused(field: str, wrong: object) -> None:
    given = {"air_high_c": 20.0, field: wrong}
    with pytest.raises(ValueError, match=r".") as raised:
        libfeed.Observation("2026-03-20", **given)  # type: ignore[arg-type]
    assert isinstance(raised.value, libfeed.FeedValueError)
    assert raised.value.field == field
    assert raised.value.allowed


def test_the_bed_of_a_day_takes_over_what_was_seen() -> None:
    file = libfeed.read_feed_file(TOTE)
    bed = file.diary.with_observation(LOOK).bed_on("2026-03-25")
    assert (bed.squeeze, bed.ph) == ("many drops", 6.5)
    assert len(bed.earlier) == 2


def test_a_published_first_order_fit() -> None:
    """Biochemical oxygen demand: Bates and Watts 1988, appendix A4.1."""
    fit = libfeed.fit_first_order([1, 2, 3, 4, 5, 7], [8.3, 10.3, 19.0, 16.0, 15.6, 19.8])
    assert fit.plateau == pytest.approx(19.143, abs=5e-4)
    assert fit.rate_per_day == pytest.approx(0.5311, abs=5e-5)
    assert fit.residual_standard_deviation == pytest.approx(2.549, abs=5e-4)
    with pytest.raises(libfeed.FeedError) as raised:
        libfeed.fit_first_order([1, 2, 3], [1, 2, 3])
    assert raised.value.allowed == "points that flatten out"


def test_pictures_and_sheets_are_those_of_the_command(tmp_path: Path, feed_command: Path) -> None:
    file = libfeed.read_feed_file(TOTE)
    assert file.bed is not None
    assert file.day_zero is not None
    svg, html = tmp_path / "ahead.svg", tmp_path / "sheet.html"
    subprocess.run(
        [feed_command, "forecast", TOTE, "--svg", svg, "--sheet", html],
        check=True,
        capture_output=True,
        env={**os.environ, "SOURCE_DATE_EPOCH": "0"},  # then a file is of its own day, as here
    )
    told = json.loads(libfeed.answer_json("forecast", file))
    ration = file.ration()
    assert told["ration"] == ration.to_dict()
    assert svg.read_text(encoding="utf-8").startswith("<svg")
    sheet = libfeed.bin_sheet(file.title, ration)
    assert sheet.to_html() == html.read_text(encoding="utf-8")
    said = [line.removeprefix("Put in: ") for line in sheet.today]
    assert said == [line.strip() for line in ration.lines()]
    assert all(len(line) <= 80 for line in sheet.to_text().splitlines())
    assert libfeed.bin_sheet(file.title, ration, lime=True, rows=0).lime


def test_signs_as_json() -> None:
    signs = libfeed.diagnose(libfeed.Bed(), ["flies"])
    assert signs.to_dict()["causes"][0]["cause"] == signs.causes[0].name
    assert signs.causes[0].test in signs._repr_html_()
