"""The npm package, built once for all tests of it."""

from __future__ import annotations

import fcntl
import os
from pathlib import Path

import pytest
from npm_project import make_project


@pytest.fixture(scope="session")
def project(source_dir: Path) -> Path:
    """An empty project that has installed what `npm pack` made of a fresh build."""
    folder = source_dir / "build" / "js"
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / "lock").open("w") as lock:  # several workers may ask for it at once
        fcntl.flock(lock, fcntl.LOCK_EX)
        stamp = folder / "made"
        run_id = os.environ.get("PYTEST_XDIST_TESTRUNUID", str(os.getpid()))
        if not stamp.is_file() or stamp.read_text(encoding="utf-8") != run_id:
            make_project(source_dir, folder)
            stamp.write_text(run_id, encoding="utf-8")
    return folder / "project"
