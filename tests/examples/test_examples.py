"""The stories of examples/: every language runs and prints the same lines."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

STORIES = (
    "01_look_up",
    "02_blend",
    "03_balance",
    "04_out_of_reach",
    "05_trial",
    "06_one_day",
)


def lines_of(command: list[str], **variables: str) -> list[str]:
    done = subprocess.run(
        command, capture_output=True, text=True, env={**os.environ, **variables}, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.splitlines()


def in_cpp(package_dir: Path, story: str) -> list[str]:
    lines = lines_of([str(package_dir / "examples" / f"example_cpp_{story}")])
    assert len(lines) >= 3
    return lines


@pytest.mark.parametrize("story", STORIES)
def test_c_says_what_cpp_says(story: str, package_dir: Path) -> None:
    said = lines_of([str(package_dir / "examples" / f"example_c_{story}")])
    assert said == in_cpp(package_dir, story)


@pytest.mark.parametrize("story", STORIES)
def test_node_says_what_cpp_says(
    story: str, package_dir: Path, source_dir: Path, feed_command: Path
) -> None:
    node = shutil.which("node")
    assert node is not None, "node is not installed (package nodejs)"
    script = source_dir / "examples" / "node" / f"{story}.mjs"
    said = lines_of([node, str(script)], FEED_COMMAND=str(feed_command))
    assert said == in_cpp(package_dir, story)


@pytest.mark.parametrize("story", STORIES)
def test_python_says_what_cpp_says(story: str, package_dir: Path, source_dir: Path) -> None:
    script = source_dir / "examples" / "python" / f"{story}.py"
    assert lines_of([sys.executable, str(script)]) == in_cpp(package_dir, story)


@pytest.mark.parametrize("story", STORIES)
def test_the_command_tells_the_story(story: str, source_dir: Path, feed_command: Path) -> None:
    script = source_dir / "examples" / "command" / f"{story}.sh"
    path = f"{feed_command.parent}:{os.environ['PATH']}"
    done = subprocess.run(
        ["sh", "-eu", str(script)], capture_output=True, text=True, env={**os.environ, "PATH": path}
    )
    assert done.returncode == (1 if story == "04_out_of_reach" else 0), done.stderr
    assert all(len(line) <= 80 for line in done.stdout.splitlines())
    expected = {
        "01_look_up": "23:1",
        "02_blend": "49 %",
        "03_balance": "kitchen scraps, 1.2 kg",
        "04_out_of_reach": "cannot hold together: zucchini; torn cardboard",
        "05_trial": "Clear: watermelon rind is gone before pumpkin",
        "06_one_day": "Never feed bacon",
    }
    assert expected[story] in done.stdout


def test_one_day_is_one_answer(package_dir: Path, source_dir: Path, feed_command: Path) -> None:
    """The command's first screen is what the programs print, bacon first; a fed bin waits."""
    script = source_dir / "examples" / "command" / "06_one_day.sh"
    printed = lines_of(
        ["sh", "-eu", str(script)], PATH=f"{feed_command.parent}:{os.environ['PATH']}"
    )
    # What to note is told of a file, which the programs have not.
    said: list[str] = []
    noting = False
    for line in printed:
        noting = line.startswith("Done? ") or (noting and line.startswith("  "))
        if not noting:
            said.append(line)
    told = in_cpp(package_dir, "06_one_day")
    end = next(i for i, line in enumerate(told) if line.startswith("the plan: "))
    assert end > 5 and said[:end] == told[:end]
    assert said[0].startswith("Never feed bacon")
    assert said[-3].startswith("Wait.") and told[-1] == "the day after: wait"


def test_a_day_through_the_one_door(source_dir: Path, feed_command: Path) -> None:
    """An app that keeps its bin as an object: take out, note, ask again, be refused."""
    node = shutil.which("node")
    assert node is not None, "node is not installed (package nodejs)"
    script = source_dir / "examples" / "node" / "07_one_door.mjs"
    lines = lines_of([node, str(script)], FEED_COMMAND=str(feed_command))
    assert lines[0].startswith("Never feed bacon")
    assert "feedings: 1" in lines[-2]
    assert lines[-1].startswith("refused: ")


def built_today(language: str, compiler: str, source_dir: Path, library: Path, out: Path) -> None:
    if language == "rust":
        command = [compiler, "-O", str(source_dir / "examples/rust/today.rs"), "-L", str(library)]
        variables = {}
    else:
        command = [compiler, "build"]
        variables = {
            "CGO_CFLAGS": f"-I{source_dir}/bindings/c/include",
            "CGO_LDFLAGS": f"-L{library}",
            "GOCACHE": str(out.parent / "cache"),
            "GOPATH": str(out.parent / "go"),
            "GO111MODULE": "off",
        }
    command += ["-o", str(out)]
    if language == "go":
        command.append(str(source_dir / "examples/go/today.go"))
    lines_of(command, **variables)


@pytest.mark.parametrize(("language", "program"), [("rust", "rustc"), ("go", "go")])
def test_other_languages_say_what_the_command_says(
    language: str,
    program: str,
    source_dir: Path,
    package_dir: Path,
    feed_command: Path,
    tmp_path: Path,
) -> None:
    """Where the compiler is: one short program, by the one door of the shared library."""
    compiler = shutil.which(program)
    if compiler is None:
        pytest.skip(f"{program} is not installed")
    library = package_dir / "bindings" / "c"
    out = tmp_path / "today"
    built_today(language, compiler, source_dir, library, out)
    said = lines_of([str(out)], LD_LIBRARY_PATH=str(library))
    request = {
        "verb": "ration",
        "date": "2026-03-14",
        "things": ["300 g carrot", "50 g bacon"],
        "bin": "60 L tote",
        "worms": "1 lb",
        "temperature": "20 C",
    }
    asked = subprocess.run(
        [str(feed_command), "call", "-"], input=json.dumps(request), capture_output=True, text=True
    )
    assert said == [*json.loads(asked.stdout)["text"], "refused: true"]
