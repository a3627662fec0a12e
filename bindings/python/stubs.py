"""Writes libfeed/_core.pyi from the installed package: python bindings/python/stubs.py [--check].

Needs pybind11-stubgen and ruff. With --check nothing is written, and a difference is an error.
"""

from __future__ import annotations

import difflib
import re
import subprocess
import sys
import tempfile
from pathlib import Path

STUB = Path(__file__).resolve().parent / "libfeed" / "_core.pyi"


def generated() -> str:
    """The stub of the installed package."""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, "-m", "pybind11_stubgen", "libfeed._core", "-o", folder]
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise SystemExit(done.stdout + done.stderr)
        text = (Path(folder) / "libfeed" / "_core.pyi").read_text(encoding="utf-8")
    # The values of versions and hashes are not part of the types.
    text = re.sub(r"^(\w+): (str|int) = .*$", r"\1: \2", text, flags=re.MULTILINE)
    text = re.sub(r"\bos\.PathLike\b(?!\[)", "os.PathLike[str]", text)
    text = re.sub(r"[ \t]+$", "", text, flags=re.MULTILINE)
    formatted = subprocess.run(
        [sys.executable, "-m", "ruff", "format", "--no-cache", "--stdin-filename", STUB, "-"],
        input=text,
        capture_output=True,
        text=True,
        check=True,
    )
    return formatted.stdout


def main() -> int:
    """0 when the stub is up to date or was written."""
    text = generated()
    if "--check" not in sys.argv[1:]:
        STUB.write_text(text, encoding="utf-8")
        return 0
    committed = STUB.read_text(encoding="utf-8")
    difference = list(
        difflib.unified_diff(committed.splitlines(), text.splitlines(), "committed", "generated")
    )
    print("\n".join(difference))
    return 1 if difference else 0


if __name__ == "__main__":
    sys.exit(main())
