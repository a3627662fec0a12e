"""Every way in, tried as a stranger would: a small program is built against it and run."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path

import pytest
from clang_version import CLANG

CONSUMERS = Path(__file__).with_name("consumers")


def run(*command: str | Path, cwd: Path | None = None, **environment: str) -> str:
    """The output of a command that must succeed."""
    done = subprocess.run(
        [str(part) for part in command],
        cwd=cwd,
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, f"{command}\n{done.stdout}{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def version(source_dir: Path) -> str:
    text = (source_dir / "CMakeLists.txt").read_text(encoding="utf-8")
    found = re.search(r"project\(libfeed VERSION (\d+\.\d+\.\d+)", text)
    assert found is not None
    return found.group(1)


@pytest.fixture(scope="module")
def installed(package_dir: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An installed tree outside the system's folders."""
    prefix = tmp_path_factory.mktemp("installed")
    run("cmake", "--install", package_dir, "--prefix", prefix)
    return prefix


def build_and_run(source: Path, build: Path, *options: str) -> None:
    """Configures and builds a consumer and runs its programs, use_*."""
    run("cmake", "-G", "Ninja", "-S", source, "-B", build, *options)
    run("cmake", "--build", build)
    programs = [path for path in build.glob("use_*") if path.is_file()]
    assert len(programs) >= 2
    for program in programs:
        run(program)


def test_find_package(installed: Path, version: str, tmp_path: Path) -> None:
    build_and_run(
        CONSUMERS / "find_package",
        tmp_path,
        f"-DCMAKE_PREFIX_PATH={installed}",
        f"-DCONSUMER_EXPECTS={version}",
    )


def test_find_package_refuses_another_version(installed: Path, tmp_path: Path) -> None:
    done = subprocess.run(
        ["cmake", "-S", str(CONSUMERS / "find_package"), "-B", str(tmp_path),
         f"-DCMAKE_PREFIX_PATH={installed}", "-DCONSUMER_EXPECTS=99.0.0"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode != 0
    assert "99.0.0" in done.stderr


def test_subproject_is_a_quiet_guest(source_dir: Path, version: str, tmp_path: Path) -> None:
    build_and_run(
        CONSUMERS / "guest",
        tmp_path / "build",
        f"-DFEED_SOURCE={source_dir}",
        f"-DCONSUMER_EXPECTS={version}",
        "-DFEED_JOIN_SOURCES=ON",  # each source alone is what tests/tooling/alone.py reads
    )
    listed = run("ctest", "--test-dir", tmp_path / "build", "-N")
    assert "Total Tests: 0" in listed
    prefix = tmp_path / "prefix"
    run("cmake", "--install", tmp_path / "build", "--prefix", prefix)
    assert not prefix.exists()


def pkg_config(installed: Path, *options: str) -> list[str]:
    folder = next(installed.rglob("pkgconfig"))
    prefix = f"--define-variable=prefix={installed}"
    asked = run("pkg-config", prefix, "--cflags", "--libs", *options, PKG_CONFIG_PATH=str(folder))
    return asked.split()


def test_pkg_config_core(installed: Path, version: str, tmp_path: Path) -> None:
    flags = pkg_config(installed, "libfeed-core")
    define = f'-DCONSUMER_EXPECTS="{version}"'
    run("g++", "-std=c++20", define, CONSUMERS / "core.cpp", "-o", tmp_path / "core", *flags)
    run(tmp_path / "core")


def test_pkg_config_io(installed: Path, tmp_path: Path) -> None:
    flags = pkg_config(installed, "libfeed-io")
    run("g++", "-std=c++20", CONSUMERS / "io.cpp", "-o", tmp_path / "io", *flags)
    run(tmp_path / "io")


def test_pkg_config_c_shared(installed: Path, version: str, tmp_path: Path) -> None:
    flags = pkg_config(installed, "libfeed")
    assert "-lyaml-cpp" not in flags
    folder = next(installed.rglob("libfeed.so")).parent
    define = f'-DCONSUMER_EXPECTS="{version}"'
    run("gcc", "-std=c99", define, CONSUMERS / "c.c", "-o", tmp_path / "c", *flags)
    run(tmp_path / "c", LD_LIBRARY_PATH=str(folder))


def test_pkg_config_c_static(installed: Path, version: str, tmp_path: Path) -> None:
    """The static C library reads YAML, so a static program has to link yaml-cpp."""
    flags = pkg_config(installed, "--static", "libfeed")
    assert "-lyaml-cpp" in flags
    archive = next(installed.rglob("libfeed.a"))
    flags = [str(archive) if flag == "-lfeed" else flag for flag in flags]
    define = f'-DCONSUMER_EXPECTS="{version}"'
    run("gcc", "-std=c99", define, CONSUMERS / "c.c", "-o", tmp_path / "c", *flags)
    needed = run("readelf", "-d", tmp_path / "c")
    assert "libfeed.so" not in needed
    run(tmp_path / "c")


@pytest.mark.parametrize("compiler", ["g++", CLANG])
def test_single_header(source_dir: Path, version: str, tmp_path: Path, compiler: str) -> None:
    header = tmp_path / "feed" / "feed.hpp"
    header.parent.mkdir()
    run("python3", source_dir / "libfeed" / "tools" / "amalgamate.py", header)
    assert '#include "feed/' not in header.read_text(encoding="utf-8")
    define = f'-DCONSUMER_EXPECTS="{version}"'
    for name in ("one", "two"):
        (tmp_path / f"{name}.cpp").write_text("#include <feed/feed.hpp>\n", encoding="utf-8")
    run(
        compiler, "-std=c++20", "-Wall", "-Wextra", "-Werror", define, "-I", tmp_path,
        CONSUMERS / "core.cpp", tmp_path / "one.cpp", tmp_path / "two.cpp",
        "-o", tmp_path / "core",
    )  # fmt: skip
    run(tmp_path / "core")


def test_installed_files_name_no_build_folder(installed: Path, source_dir: Path) -> None:
    for path in installed.rglob("*"):
        if path.suffix in {".cmake", ".pc", ".hpp", ".h", ".1"}:
            assert str(source_dir) not in path.read_text(encoding="utf-8"), path
