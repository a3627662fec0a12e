"""feed trial and the notes of its looks: one file from plan to sentence."""

from __future__ import annotations

import json
import os
import pty
import re
import subprocess
from datetime import date
from pathlib import Path

import pytest
from command import EXAMPLES, answer, call, environment

SEEN = EXAMPLES / "rind_trial_seen.yaml"


@pytest.fixture
def bare(tmp_path: Path) -> Path:
    """The example laid, and nothing looked at."""
    text = SEEN.read_text(encoding="utf-8")
    path = tmp_path / "rinds.yaml"
    path.write_text(text.split("observations:")[0], encoding="utf-8")
    return path


def looks_of_example() -> list[tuple[str, str]]:
    """Every line of looks of the example with its day."""
    looks = []
    day = ""
    for line in SEEN.read_text(encoding="utf-8").split("observations:")[1].splitlines():
        if found := re.search(r"date: (\S+)", line):
            day = found[1]
        looks += [(day, words) for words in re.findall(r'"(plots? [^"]+)"', line)]
    return looks


def test_looks_by_note_read_as_those_of_the_file(feed_command: Path, bare: Path) -> None:
    looks = looks_of_example()
    assert len(looks) > 15
    before = bare.read_text(encoding="utf-8")
    for day, words in looks:
        said = answer(
            feed_command, "note", bare, words, "--by", "Ada", today=date.fromisoformat(day)
        )
        assert said["trial"].startswith("Trial, day ")
        assert "watermelon" not in said["trial"] and "pumpkin" not in said["trial"]
    assert bare.read_text(encoding="utf-8").startswith(before)
    ours = answer(feed_command, "trial", "read", bare)
    assert ours == answer(feed_command, "trial", "read", SEEN)
    assert ours["pairs"][0]["verdict"] == "clear"
    # Side by side teaches nothing of the bin's own rates.
    assert answer(feed_command, "observe", bare)["looks_used"] == 0


def test_a_look_says_what_it_means_today(feed_command: Path, bare: Path) -> None:
    day = date(2026, 9, 19)
    said = call(
        feed_command, "note", bare, "plots", "1,", "4", "and", "6", "gone", today=day
    ).stdout
    assert "Written down for Sat 19 Sep: plots 1, 4 and 6 gone." in said
    assert '- "plots 1, 4 and 6 gone"' in bare.read_text(encoding="utf-8")
    assert "Trial, day 14 of 30: 3 of 12 portions are gone." in said
    ration = call(feed_command, "ration", bare, today=day).stdout.splitlines()[0]
    assert ration in said.splitlines()


def test_the_printed_line_alone_makes_the_trial_of_the_plan(
    feed_command: Path, tmp_path: Path
) -> None:
    """Without a number of portions the plan chooses it; what it prints is all that is written."""
    path = tmp_path / "rinds.yaml"
    text = (EXAMPLES / "rind_trial.yaml").read_text(encoding="utf-8").replace("  portions: 2\n", "")
    path.write_text(text, encoding="utf-8")
    planned = answer(feed_command, "trial", "plan", path)
    assert planned["portions"] in (2, 3) and planned["why_portions"]
    said = call(feed_command, "trial", "plan", path).stdout.splitlines()[-1]
    line = said.removeprefix("Write under trial:  ").replace("DATE", "2026-09-05")
    assert line.startswith(f"portions: {planned['portions']}   seed: {planned['seed']}   ")
    keys = "".join(f"  {key}\n" for key in line.split("   "))
    path.write_text(text + keys, encoding="utf-8")
    last = planned["plots"][-1]["plot"]
    call(feed_command, "note", path, f"plots 1-{last} not gone", today=date(2026, 9, 9))
    read = answer(feed_command, "trial", "read", path)
    assert [plot["feed"] for plot in read["plots"]] == [plot["feed"] for plot in planned["plots"]]
    # Without the number of portions the seed would draw another layout: it is asked for.
    path.write_text(text + keys[keys.index("  seed") :], encoding="utf-8")
    wrong = call(feed_command, "trial", "read", path, "--json", code=2)
    error = json.loads(wrong.stdout or wrong.stderr)["errors"][0]
    assert error["field"] == "trial: portions"
    assert error["allowed"] == line.split("   ")[0]


def test_more_left_than_before_changes_nothing(feed_command: Path, bare: Path) -> None:
    call(feed_command, "note", bare, "plot 3 a quarter left", today=date(2026, 9, 15))
    before = bare.read_bytes()
    asked = call(feed_command, "note", bare, "plot 3 half left", today=date(2026, 9, 18), code=2)
    said = " ".join(asked.stderr.split())
    assert "More left than before: which look is right?" in said
    line = int(re.search(r"rinds\.yaml:(\d+):", said)[1])  # type: ignore[index]
    # The line that it names is where the older look stands.
    assert before.decode().splitlines()[line - 1].strip() == "plots:"
    assert bare.read_bytes() == before
    # Its repair works: the older look put right, the same words are taken.
    bare.write_text(before.decode().replace("a quarter left", "half left"), encoding="utf-8")
    call(feed_command, "note", bare, "plot 3 half left", today=date(2026, 9, 18))


@pytest.mark.parametrize(
    "words",
    [
        "plot 13 gone",
        "plot 0 gone",
        "plot 3",
        "plot 3 eaten by cats",
        "2026-09-01 plot 3 gone",
        "plot 3 500 g left",
    ],
)
def test_an_impossible_look_changes_nothing(words: str, feed_command: Path, bare: Path) -> None:
    before = bare.read_bytes()
    wrong = call(feed_command, "note", bare, words, "--json", today=date(2026, 9, 20), code=2)
    error = json.loads(wrong.stdout or wrong.stderr)["errors"][0]
    assert error["field"] and error["message"] and error["allowed"]
    assert bare.read_bytes() == before


def test_feeds_alone_teach_the_bin_and_feeds_side_by_side_do_not(
    feed_command: Path, bare: Path, tmp_path: Path
) -> None:
    path = tmp_path / "alone.yaml"
    head = bare.read_text(encoding="utf-8").replace("kind: choice", "kind: alone")
    head = head.replace("portions: 2", "portions: 1").replace("last_day: 30", "last_day: 18")
    head = head.replace("cellar tote]", "cellar tote, yard tote, roof tote, hall tote]")
    head = head.replace("start: 2026-09-05", "start: [2026-09-05, 2026-10-05]")
    path.write_text(head, encoding="utf-8")
    plots = answer(feed_command, "trial", "plan", path)["plots"]
    # Invented: the rind is gone on day 6, the pumpkin on day 12.
    for month, number in (("09", 1), ("10", 2)):
        for day in range(2, 19, 2):
            seen = [
                f"plot {plot['plot']} {'' if day >= gone else 'not '}gone"
                for plot in plots
                if plot["round"] == number
                for gone in [6 if plot["feed"] == "watermelon rind" else 12]
            ]
            words = f"2026-{month}-{day + 5:02d} {'; '.join(seen)}"
            said = answer(feed_command, "note", path, words, today=date(2026, 11, 1))
    assert [text.split(" goes ")[0] for text in said["own_feeds"]] == [
        "By your own trial, watermelon rind",
        "By your own trial, pumpkin",
    ]
    assert answer(feed_command, "observe", path)["own_feeds"] == said["own_feeds"]
    assert answer(feed_command, "observe", SEEN)["own_feeds"] == []


def test_progress_only_where_a_person_watches(feed_command: Path) -> None:
    plan = EXAMPLES / "rind_trial.yaml"
    assert call(feed_command, "trial", "plan", plan).stderr == ""
    ours, theirs = pty.openpty()
    done = subprocess.run(
        [feed_command, "trial", "plan", plan],
        stdout=subprocess.PIPE, stderr=theirs, env=environment(date(2026, 9, 1)), check=True,
    )  # fmt: skip
    os.close(theirs)
    watched = os.read(ours, 4096).decode()
    os.close(ours)
    assert "of 12" in watched and watched.endswith("\r")
    assert done.stdout.startswith(b"Choice")
