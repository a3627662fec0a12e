"""The Debian packages: made, installed into an empty root, used, and removed without a trace."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

CONSUMERS = Path(__file__).with_name("consumers")


def run(*command: str | Path) -> subprocess.CompletedProcess[str]:
    done = subprocess.run(
        [str(part) for part in command], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, f"{command}\n{done.stdout}{done.stderr}"
    return done


class DebianRoot:
    """A folder that dpkg takes for the root of a system; needs no rights on the real one."""

    def __init__(self, path: Path) -> None:
        self.path = path
        (path / "var/lib/dpkg/info").mkdir(parents=True)
        (path / "var/lib/dpkg/updates").mkdir()
        (path / "var/lib/dpkg/status").touch()

    def dpkg(self, *arguments: str | Path) -> None:
        fake = [] if os.geteuid() == 0 else ["fakeroot"]
        force = "--force-not-root,depends,script-chrootless"
        run(*fake, "dpkg", f"--root={self.path}", force, *arguments)

    def files(self) -> list[str]:
        return sorted(
            found.relative_to(self.path).as_posix()
            for found in self.path.rglob("*")
            if not found.is_relative_to(self.path / "var") and not found.is_dir()
        )


@pytest.fixture(scope="module")
def packages(package_dir: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Package name to file, from `cpack -G DEB`."""
    folder = tmp_path_factory.mktemp("packages")
    run("cpack", "-G", "DEB", "-B", folder, "--config", package_dir / "CPackConfig.cmake")
    made = folder.glob("*.deb")
    return {run("dpkg-deb", "-f", path, "Package").stdout.strip(): path for path in made}


@pytest.fixture(scope="module")
def root(packages: dict[str, Path], tmp_path_factory: pytest.TempPathFactory) -> DebianRoot:
    installed = DebianRoot(tmp_path_factory.mktemp("root"))
    installed.dpkg("-i", *packages.values())
    return installed


def test_the_packages_and_what_they_need(packages: dict[str, Path]) -> None:
    assert set(packages) == {"libfeed0", "libfeed-dev", "libfeed-cpp-dev", "libfeed-command"}
    needs = {name: run("dpkg-deb", "-f", path, "Depends").stdout for name, path in packages.items()}
    assert "libboost-dev" in needs["libfeed-cpp-dev"]
    assert "libyaml-cpp-dev" in needs["libfeed-cpp-dev"]
    assert "libfeed-dev (= " in needs["libfeed-cpp-dev"]
    # A program in C needs the shared library and nothing of what that was made with.
    assert needs["libfeed-dev"].startswith("libfeed0 (= ") and "," not in needs["libfeed-dev"]
    assert "libyaml-cpp" in needs["libfeed0"]
    assert "libyaml-cpp" in needs["libfeed-command"]
    assert "-dev" not in needs["libfeed-command"]


def readelf(what: str, path: Path) -> str:
    return run("readelf", "-W", what, path).stdout


def binaries(root: DebianRoot) -> list[Path]:
    libraries = (root.path / "usr/lib").rglob("libfeed.so.*.*.*")
    return [root.path / "usr/bin/feed", *libraries]


def test_binaries_are_hardened_as_the_distribution_does_it(root: DebianRoot) -> None:
    """Stack protector, checked functions, full RELRO, position-independent (hardening-check(1))."""
    found = binaries(root)
    assert len(found) == 2
    checked = []
    for path in found:
        assert " DYN " in readelf("-h", path).replace("\n", " "), (
            f"{path}: not position-independent"
        )
        assert "GNU_RELRO" in readelf("-l", path), f"{path}: no RELRO"
        dynamic = readelf("-d", path)
        assert "BIND_NOW" in dynamic or "NOW" in dynamic.split("FLAGS", 1)[-1], f"{path}: lazy"
        symbols = readelf("--dyn-syms", path)
        assert "__stack_chk_fail" in symbols, f"{path}: no stack protector"
        checked.append("_chk@" in symbols.replace("__stack_chk_fail", ""))
        # An executable stack would undo the rest.
        stack = next(line for line in readelf("-l", path).splitlines() if "GNU_STACK" in line)
        assert "RWE" not in stack, f"{path}: executable stack"
    # A program whose sizes are all known beforehand has no checked call left in it.
    assert any(checked), "no binary calls a checked function: no FORTIFY"


def test_each_package_states_its_terms(packages: dict[str, Path], root: DebianRoot) -> None:
    for name in packages:
        text = (root.path / "usr/share/doc" / name / "copyright").read_text(encoding="utf-8")
        assert "Permission is hereby granted" in text


def test_the_command_runs(root: DebianRoot) -> None:
    said = run(root.path / "usr/bin/feed", "version").stdout
    assert said.strip()


def test_the_manual_page_renders_without_a_warning(root: DebianRoot) -> None:
    page = next((root.path / "usr/share/man/man1").glob("feed.1*"))
    done = run("man", "--warnings", "-E", "UTF-8", "-l", "-Tutf8", "-Z", page)
    assert done.stderr == ""
    assert done.stdout


def test_the_completions_complete(root: DebianRoot) -> None:
    script = root.path / "usr/share/bash-completion/completions/feed"
    ask = (
        f'source "{script}"; COMP_WORDS=(feed ba); COMP_CWORD=1; COMP_LINE="feed ba"; COMP_POINT=7;'
        " entry=$(complete -p feed); name=${entry##*-F }; ${name%% *} feed ba feed;"
        ' printf "%s\\n" "${COMPREPLY[@]}"'
    )
    assert run("bash", "-c", ask).stdout.split() == ["balance"]


def test_a_program_builds_against_the_package(root: DebianRoot, tmp_path: Path) -> None:
    run(
        "cmake", "-G", "Ninja", "-S", CONSUMERS / "find_package", "-B", tmp_path,
        f"-DCMAKE_PREFIX_PATH={root.path}/usr", "-DCONSUMER_EXPECTS=" + package_version(root),
    )  # fmt: skip
    run("cmake", "--build", tmp_path)
    for program in ("use_core", "use_io", "use_c", "use_c_static"):
        run(tmp_path / program)


def test_a_c_program_builds_against_the_c_package_alone(
    packages: dict[str, Path], tmp_path: Path
) -> None:
    (tmp_path / "root").mkdir()
    root = DebianRoot(tmp_path / "root")
    root.dpkg("-i", packages["libfeed0"], packages["libfeed-dev"])
    headers = [name for name in root.files() if name.startswith("usr/include")]
    assert headers and all(name.endswith(".h") for name in headers)
    folder = next((root.path / "usr").rglob("pkgconfig"))
    # No other package is looked up, so yaml-cpp and Boost may be missing.
    environment = os.environ | {"PKG_CONFIG_LIBDIR": str(folder)}
    for words in (["--cflags", "--libs", "libfeed"], ["--static", "--libs", "libfeed"]):
        asked = subprocess.run(
            ["pkg-config", *words], env=environment, capture_output=True, text=True, check=False
        )
        assert asked.returncode == 0, asked.stderr
    run(
        "gcc", "-std=c99", CONSUMERS / "c.c", f'-DCONSUMER_EXPECTS="{package_version(root)}"',
        f"-I{root.path}/usr/include", f"-L{folder.parent}", "-lfeed", "-o", tmp_path / "use_c",
    )  # fmt: skip
    run("env", f"LD_LIBRARY_PATH={folder.parent}", tmp_path / "use_c")


def package_version(root: DebianRoot) -> str:
    admin = root.path / "var/lib/dpkg"
    ask = ["dpkg-query", f"--admindir={admin}", "-W", "-f=${Version}", "libfeed-dev"]
    return run(*ask).stdout.strip()


def test_removing_leaves_nothing(
    packages: dict[str, Path], tmp_path_factory: pytest.TempPathFactory
) -> None:
    fresh = DebianRoot(tmp_path_factory.mktemp("removed"))
    fresh.dpkg("-i", *packages.values())
    assert "usr/bin/feed" in fresh.files()
    fresh.dpkg("-r", *packages)
    assert fresh.files() == []
