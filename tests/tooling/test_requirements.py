"""The Python tools of the tests are the ones that were looked at: pinned, each file by its hash."""

from __future__ import annotations

import re
from pathlib import Path

LISTED = re.compile(r"^([A-Za-z0-9_.-]+)==([^\s;\\]+)", re.M)


def pins(text: str) -> dict[str, str]:
    return {re.sub(r"[-_.]+", "-", name).lower(): version for name, version in LISTED.findall(text)}


def test_every_requirement_is_pinned_with_hashes(source_dir: Path) -> None:
    wanted = pins((source_dir / "tests/requirements.txt").read_text(encoding="utf-8"))
    lock = (source_dir / "tests/requirements.lock").read_text(encoding="utf-8")
    locked = pins(lock)
    assert wanted and wanted.items() <= locked.items()
    entries = re.split(r"^(?=[A-Za-z])", re.sub(r"^#.*\n", "", lock, flags=re.M), flags=re.M)
    for entry in filter(str.strip, entries):
        assert LISTED.match(entry), entry.splitlines()[0]
        assert re.search(r"--hash=sha256:[0-9a-f]{64}", entry), entry.splitlines()[0]


def test_the_hashes_are_asked_for(source_dir: Path) -> None:
    script = (source_dir / "tests/run.sh").read_text(encoding="utf-8")
    installs = [line for line in script.splitlines() if re.search(r"pip install .*-r ", line)]
    assert installs
    for line in installs:
        assert "--require-hashes -r tests/requirements.lock" in line, line
