"""What is packed: the wheel holds the package and nothing else, the source archive builds again."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

import libfeed

ROOT = Path(__file__).resolve().parents[2]
PYTHON_FILES = {
    "__init__.py",
    "_core.pyi",
    "_door.py",
    "_errors.py",
    "_notebook.py",
    "_pandas.py",
    "plot/__init__.py",
    "plot/_feedstock_map.py",
    "plot/_forecast.py",
    "plot/_labels.py",
    "plot/_ratio_by_moisture.py",
    "plot/_reachable.py",
    "plot/_style.py",
    "plot/_trial.py",
    "py.typed",
}


def built(pattern: str) -> Path:
    """What was built last into build/wheel, or into the folder that the environment names."""
    folder = Path(os.environ.get("FEED_WHEEL_DIR", ROOT / "build" / "wheel"))
    found = list(folder.glob(pattern))
    assert len(found) == 1, f"{folder} has no {pattern}: python -m build --outdir build/wheel ."
    return found[0]


@pytest.fixture(scope="module")
def archive() -> Path:
    """The source archive."""
    return built("libfeed-*.tar.gz")


@pytest.fixture(scope="module")
def wheel() -> Path:
    """The wheel, built from the source archive."""
    return built("libfeed-*.whl")


def test_wheel_is_of_this_tree(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as content:
        for name in PYTHON_FILES:
            here = ROOT / "bindings" / "python" / "libfeed" / name
            assert content.read(f"libfeed/{name}") == here.read_bytes(), name


def test_version_is_that_of_the_project() -> None:
    found = re.search(r"project\(libfeed VERSION ([\d.]+)", (ROOT / "CMakeLists.txt").read_text())
    assert found is not None
    assert libfeed.__version__ == found[1]


def test_wheel_holds_the_package_and_nothing_else(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as content:
        names = {name for name in content.namelist() if not name.endswith("/")}
    package = {name.split("/", 1)[1] for name in names if name.startswith("libfeed/")}
    compiled = {name for name in package if name.startswith("_core.") and name.endswith(".so")}
    assert len(compiled) == 1
    assert package - compiled == PYTHON_FILES
    information = f"libfeed-{libfeed.__version__}.dist-info/"
    rest = {name for name in names if not name.startswith("libfeed/")}
    assert all(name.startswith(information) for name in rest), rest
    kinds = {name.removeprefix(information).split("/")[0] for name in rest}
    assert kinds == {"METADATA", "RECORD", "WHEEL", "licenses"}


def test_wheel_says_what_it_needs(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as content:
        (name,) = [name for name in content.namelist() if name.endswith("METADATA")]
        text = content.read(name).decode()
    assert f"Version: {libfeed.__version__}" in text
    assert "Requires-Python: >=3.9" in text
    needed = re.findall(r"^Requires-Dist: (\w+)[^;\n]*$", text, re.MULTILINE)
    assert needed == ["numpy"]


def test_archive_holds_sources_only(archive: Path) -> None:
    with tarfile.open(archive) as content:
        names = [name.split("/", 1)[1] for name in content.getnames() if "/" in name]
    tops = {name.split("/")[0] for name in names}
    assert tops == {
        "CMakeLists.txt",
        "LICENSE",
        "PKG-INFO",
        "README.md",
        "bindings",
        "data",
        "libfeed",
        "pyproject.toml",
    }
    assert [name for name in names if name.startswith("data/")] == ["data/LICENSE.md"]
    assert not [name for name in names if re.search(r"\.(so|o|pyc)$|__pycache__|/build/", name)]


def test_wheel_works_by_itself(wheel: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as content:
        content.extractall(tmp_path)
    program = (
        "import libfeed; print(libfeed.__file__);"
        "print(libfeed.balance(['1 kg kitchen scraps', 'cardboard', 'water']).status)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, "PYTHONPATH": str(tmp_path)},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    place, status = done.stdout.split()
    assert Path(place).is_relative_to(tmp_path)
    assert status == "solved"
