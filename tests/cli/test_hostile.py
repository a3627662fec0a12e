"""Nothing let in: hostile words stay words, hostile megabytes stay cheap."""

from __future__ import annotations

import json
import subprocess
import sys
import unicodedata
from pathlib import Path
from xml.etree import ElementTree

import hostile
import pytest
from command import call

# What must not reach a screen: controls but line feeds, and what turns or hides words.
TURNING = {chr(c) for c in (0x61C, 0x200E, 0x200F, *range(0x2028, 0x202F), *range(0x2066, 0x206A))}


def steering(text: str) -> list[str]:
    return [
        c
        for c in text
        if (unicodedata.category(c) == "Cc" and c != "\n") or c in TURNING or c == "\ufeff"
    ]


def feed_file(folder: Path, word: str) -> Path:
    content = {
        "libfeed": 1,
        "title": word,
        "containers": {word: "2 L"},
        "feedstocks": {word + "stuff": {"like": "newspaper", "note": word}},
        "bed": {"date": "2026-03-02", "container": "60 L tote", "worms": "500 g"},
        "feedings": [{"date": "2026-03-02", "portions": ["500 g carrot"], "by": word}],
        "observations": [
            {"date": "2026-03-09", "note": word, "pests": word, "temperature": {word: "20 C"}}
        ],
        "blend": [{"feedstock": word + "stuff", "amount": "1 kg"}, "300 g carrot"],
        "balance": {"at_hand": [f"1 kg {word}stuff", "any water"], "targets": "worm-bed"},
    }
    path = folder / "hostile.json"
    path.write_text(json.dumps(content, ensure_ascii=False), encoding="utf-8")
    return path


@pytest.mark.parametrize("word", hostile.WORDS, ids=ascii)
def test_hostile_words_stay_words(word: str, feed_command: Path, tmp_path: Path) -> None:
    path = feed_file(tmp_path, word)
    for verb in ("blend", "balance", "check", "forecast", "observe"):
        for more in ((), ("--json",)):
            done = call(feed_command, verb, path, *more, code=None)
            assert done.returncode in (0, 1, 2)
            assert not steering(done.stdout) and not steering(done.stderr), verb
            if more and done.returncode != 2:
                json.loads(done.stdout)
    for words in (
        ["show", word],
        ["signs", word],
        ["blend", f"1 kg {word}"],
        [word],
        ["--" + word],
    ):
        done = call(feed_command, *words, code=None)
        assert not steering(done.stdout) and not steering(done.stderr), words


@pytest.mark.parametrize("word", hostile.WORDS, ids=ascii)
def test_pictures_and_pages_are_well_formed(word: str, feed_command: Path, tmp_path: Path) -> None:
    path = feed_file(tmp_path, word)
    svg, html, text = (tmp_path / name for name in ("a.svg", "a.html", "a.txt"))
    call(feed_command, "forecast", path, "--svg", svg, "--sheet", html)
    call(feed_command, "forecast", path, "--sheet", text)
    picture = ElementTree.fromstring(svg.read_bytes())
    assert picture.tag.endswith("svg") and not list(picture.iter("script"))
    page = html.read_text(encoding="utf-8")
    root = ElementTree.fromstring(page.removeprefix("<!DOCTYPE html>\n"))
    assert root.tag == "html" and not list(root.iter("script"))
    for written in (svg, html, text):
        assert not steering(written.read_text(encoding="utf-8"))


def test_arguments_that_are_not_utf_8_give_utf_8(feed_command: Path) -> None:
    for words in ([b"show", b"caf\xe9 qqq", b"--json"], [b"blend", b"1 kg caf\xe9", b"--json"]):
        done = subprocess.run([bytes(feed_command), *words], capture_output=True, check=False)
        assert done.returncode == 2
        json.loads(done.stdout.decode("utf-8"))


def test_twenty_problems_are_told_and_the_rest_counted(feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text("libfeed: 1\n" + "".join(f"key{i}: 1\n" for i in range(100_000)), "utf-8")
    done = call(feed_command, "blend", path, code=2)
    assert "and 99,980 more problems" in " ".join(done.stderr.split())
    assert done.stderr.count("given: key") == 20
    problems = json.loads(call(feed_command, "blend", path, "--json", code=2).stdout)["errors"]
    assert len(problems) == 21


CPU_SECONDS = 30  # against an endless loop; what an answer costs is told by the benchmarks
LARGEST_KB = 200_000

RUN = """
import resource, subprocess, sys
resource.setrlimit(resource.RLIMIT_CPU, (int(sys.argv[1]), int(sys.argv[1])))
done = subprocess.run(sys.argv[2:], capture_output=True)
most = resource.getrusage(resource.RUSAGE_CHILDREN)
print(done.returncode, most.ru_maxrss, len(done.stdout) + len(done.stderr), most.ru_utime)
"""


@pytest.mark.parametrize("what", sorted(hostile.texts()))
def test_a_hostile_megabyte_stays_cheap(what: str, feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "hostile.yaml"
    path.write_text(hostile.texts()[what], encoding="utf-8")
    for verb in ("balance", "forecast", "observe"):
        words = [sys.executable, "-c", RUN, str(CPU_SECONDS), str(feed_command), verb, str(path)]
        done = subprocess.run(words, capture_output=True, text=True, check=True)
        code, most_kb, said, _seconds = done.stdout.split()
        assert int(code) in (0, 1, 2), verb
        assert int(most_kb) <= LARGEST_KB, verb
        assert int(said) <= 100_000, verb
