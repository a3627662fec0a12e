"""What every Python test may ask for: the source tree, a build of it, the `feed` command."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

SOURCE_DIR = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def source_dir() -> Path:
    """The root of the source tree."""
    return SOURCE_DIR


@pytest.fixture(scope="session")
def build_dir() -> Path:
    """A configured and built tree: $FEED_BUILD_DIR, else build/dev."""
    path = Path(os.environ.get("FEED_BUILD_DIR", SOURCE_DIR / "build" / "dev")).resolve()
    assert (path / "CMakeCache.txt").is_file(), (
        f"{path} is not built: cmake --preset dev && cmake --build --preset dev"
    )
    return path


@pytest.fixture(scope="session")
def feed_command(build_dir: Path) -> Path:
    """The built `feed` program: $FEED_COMMAND, else the one in build_dir."""
    path = Path(os.environ.get("FEED_COMMAND", build_dir / "bindings" / "cli" / "feed")).resolve()
    assert os.access(path, os.X_OK), f"{path} is not built"
    return path
