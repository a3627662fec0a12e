"""A source that lends a header from its neighbour is found; the shares together are all sources."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from subprocess import run

from alone import wanted

TOOL = Path(__file__).with_name("alone.py")


def entries(folder: Path, **sources: str) -> list[dict[str, str]]:
    """What CMake writes of sources that each need the compiler once."""
    made = []
    for name, text in sources.items():
        path = folder / f"{name}.cpp"
        path.write_text(text, encoding="utf-8")
        command = f"g++ -std=c++20 -Wall -Werror -o {name}.o -c {path}"
        made.append({"directory": str(folder), "command": command, "file": str(path)})
    (folder / "compile_commands.json").write_text(json.dumps(made), encoding="utf-8")
    return made


def test_a_missing_include_is_found_and_named(tmp_path: Path) -> None:
    entries(
        tmp_path,
        whole="#include <string>\nstd::string text() { return {}; }\n",
        lent="std::string other() { return {}; }\n",
    )
    done = run([sys.executable, TOOL, tmp_path], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "lent.cpp" in done.stdout
    assert "whole.cpp" not in done.stdout
    assert not list(tmp_path.glob("*.o"))


def test_the_shares_together_are_all_and_none_twice(tmp_path: Path) -> None:
    every = entries(tmp_path, **{f"s{i}": "" for i in range(11)})
    read = [entry["file"] for seed in range(4) for entry in wanted(every, 4, seed)]
    assert sorted(read) == sorted(entry["file"] for entry in every)


def test_nothing_to_read_is_no_success(tmp_path: Path) -> None:
    entries(tmp_path)
    done = run([sys.executable, TOOL, tmp_path], capture_output=True, text=True, check=False)
    assert done.returncode == 1
