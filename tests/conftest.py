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


def built(variable: str, preset: str) -> Path:
    """The build tree that the environment names, else the preset's."""
    path = Path(os.environ.get(variable, SOURCE_DIR / "build" / preset)).resolve()
    assert (path / "CMakeCache.txt").is_file(), (
        f"{path} is not built: cmake --preset {preset} && cmake --build --preset {preset}"
    )
    return path


@pytest.fixture(scope="session")
def build_dir() -> Path:
    """A tree with the tests' own programs: $FEED_BUILD_DIR, else build/dev."""
    return built("FEED_BUILD_DIR", "dev")


@pytest.fixture(scope="session")
def package_dir() -> Path:
    """A tree with what is installed and packaged: $FEED_PACKAGE_DIR, else build/package."""
    return built("FEED_PACKAGE_DIR", "package")


@pytest.fixture(scope="session")
def feed_command(package_dir: Path) -> Path:
    """The `feed` program as it is packaged."""
    path = package_dir / "bindings" / "cli" / "feed"
    assert os.access(path, os.X_OK), f"{path} is not built"
    return path
