"""The checker of the table: one bad file for each rule, found at its line, and nothing skipped.

A file in bad/ is named `RULE.FILE.yaml` and stands for FILE.yaml of the small table in good/. The
line the checker must name ends in `# BAD` and a part of the message.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
BAD = sorted((HERE / "bad").glob("*.yaml"))
MARK = b"# BAD "


def run(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, str(ROOT / "data" / "tools" / "check.py"), *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def check(data: Path) -> subprocess.CompletedProcess[str]:
    return run("--data", data, "--cases", data / "no-cases")


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """A small table without a problem."""
    data = tmp_path / "data"
    shutil.copytree(HERE / "good", data)
    shutil.copy(ROOT / "data" / "properties.yaml", data)
    return data


def rules() -> set[str]:
    done = run("--rules")
    assert done.returncode == 0, done.stderr
    return {line.split(":")[0] for line in done.stdout.splitlines()}


def test_the_real_table_has_no_problem() -> None:
    done = run()
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.endswith(": 0 problems\n")


def test_the_small_table_has_no_problem(table: Path) -> None:
    done = check(table)
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_rule_has_a_bad_file() -> None:
    covered = {path.name.split(".")[0] for path in BAD} | {"missing-file"}
    assert covered == rules()


@pytest.mark.parametrize("bad", BAD, ids=lambda path: path.stem)
def test_a_bad_file_is_refused_at_its_line(bad: Path, table: Path) -> None:
    rule, target = bad.name.split(".")[:2]
    lines = bad.read_bytes().split(b"\n")
    marked = [number for number, line in enumerate(lines, 1) if MARK in line]
    assert len(marked) == 1, f"{bad.name} must mark one line"
    message = lines[marked[0] - 1].split(MARK)[1].decode().strip()
    shutil.copy(bad, table / f"{target}.yaml")

    done = check(table)

    assert done.returncode == 1, done.stdout + done.stderr
    wanted = f"{(table / target).as_posix()}.yaml:{marked[0]}: {rule}: "
    found = [line for line in done.stdout.splitlines() if line.startswith(wanted)]
    assert found and any(message in line for line in found), done.stdout
    problems = done.stdout.splitlines()[:-1]
    assert problems == found, "one slip must give problems of its own rule and line only"


@pytest.mark.parametrize(
    "name", ["properties", "sources", "scraps", "beddings", "manures", "amendments", "water"]
)
def test_a_missing_file_is_a_failure(name: str, table: Path) -> None:
    (table / f"{name}.yaml").unlink()
    done = check(table)
    assert done.returncode == 1
    assert f"{name}.yaml:1: missing-file: " in done.stdout


def test_an_empty_file_is_a_failure(table: Path) -> None:
    (table / "scraps.yaml").write_text("", encoding="utf-8")
    done = check(table)
    assert done.returncode == 1
    assert "scraps.yaml:1: syntax: the file is empty" in done.stdout


def test_an_empty_list_is_a_failure(table: Path) -> None:
    (table / "water.yaml").write_text("group: water\nfeedstocks: []\n", encoding="utf-8")
    done = check(table)
    assert done.returncode == 1
    assert "water.yaml:2: wrong-kind: " in done.stdout


def test_all_problems_come_at_once(table: Path) -> None:
    text = (table / "scraps.yaml").read_text(encoding="utf-8")
    text = text.replace("value: 80 %", "value: 180 %").replace("roles: [scraps]", "roles: [food]")
    (table / "scraps.yaml").write_text(text, encoding="utf-8")
    done = check(table)
    assert done.returncode == 1
    assert done.stdout.count("unknown-role") == 2
    assert done.stdout.count("percent-over-100") + done.stdout.count("value-outside-range") >= 2
