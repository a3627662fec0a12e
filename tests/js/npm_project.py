"""An empty project that has installed what `npm pack` made of a fresh build."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent


def run(*words: str | Path, cwd: Path, text: str | None = None) -> str:
    done = subprocess.run(
        [str(word) for word in words],
        cwd=cwd,
        input=text,
        capture_output=True,
        text=True,
        timeout=600,
    )
    assert done.returncode == 0, (done.stdout + done.stderr)[-4000:]
    return done.stdout


def make_project(source_dir: Path, folder: Path) -> None:
    run(sys.executable, source_dir / "bindings/js/build.py", folder, cwd=source_dir)
    packed = run("npm", "pack", "--silent", cwd=folder / "package").split()[-1]
    home = folder / "project"
    shutil.rmtree(home, ignore_errors=True)
    home.mkdir()
    (home / "package.json").write_text('{"private": true, "type": "module"}', encoding="utf-8")
    run(
        "npm",
        "install",
        "--silent",
        "--no-audit",
        "--no-fund",
        folder / "package" / packed,
        "yaml@2.8.1",
        cwd=home,
    )
    for test in HERE.glob("*.mjs"):
        shutil.copy(test, home / test.name)
