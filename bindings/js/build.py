"""Builds the npm package: python bindings/js/build.py FOLDER.

Needs ziglang (tests/requirements.txt). FOLDER/package is then what `npm pack` takes. The compiler
is Clang with its own C++ library for WebAssembly, as docs/decisions/ says; nothing generated stands
between it and JavaScript.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import api_types
from door_sources import boost_headers, joined_sources

ROOT = Path(__file__).resolve().parents[2]
HERE = Path(__file__).resolve().parent
STACK_BYTES = 256 * 1024
MOST_MEMORY_BYTES = 16 * 1024 * 1024
# What grows when it is put in place of a call stays a call: 2 kB less after brotli.
INLINE_LITTLE = ["-mllvm", "-inline-threshold=0"]
FLAGS = [
    *("-target", "wasm32-wasi", "-std=c++20", "-fno-exceptions", "-fno-rtti", "-flto"),
    # Its own -Oz means -Os, and without it the compiler adds checks for debugging.
    *("-Oz", "-Xclang", "-Oz", "-DNDEBUG", "-DBOOST_ALL_NO_LIB", "-fvisibility=hidden"),
    "-ffp-contract=off",
    *INLINE_LITTLE,
]
LINK_FLAGS = [
    *INLINE_LITTLE,
    "-mexec-model=reactor",
    f"-Wl,--strip-all,--gc-sections,-z,stack-size={STACK_BYTES}",
    f"-Wl,--max-memory={MOST_MEMORY_BYTES}",
]


def compiler(*arguments: str) -> None:
    subprocess.run([sys.executable, "-m", "ziglang", "c++", *arguments], check=True)


def build_module(work: Path) -> Path:
    """Compiles and links libfeed.wasm in the folder `work`."""
    includes = [f"-I{ROOT / 'libfeed/include'}", f"-I{ROOT / 'libfeed/src'}"]
    includes += ["-isystem", str(boost_headers(work))]

    def compiled(source: Path) -> Path:
        made = work / (source.stem + ".o")
        compiler(*FLAGS, *includes, "-c", str(source), "-o", str(made))
        return made

    with ThreadPoolExecutor(os.cpu_count()) as pool:
        objects = list(pool.map(compiled, [*joined_sources(work), HERE / "src/door.cpp"]))
    module = work / "libfeed.wasm"
    compiler(*FLAGS, *LINK_FLAGS, *map(str, objects), "-o", str(module))
    return module


def version() -> str:
    text = (ROOT / "CMakeLists.txt").read_text(encoding="utf-8")
    found = re.search(r"VERSION\s+(\d+\.\d+\.\d+)", text)
    assert found
    return found[1]


def lay_out(package: Path, module: Path) -> None:
    """Puts together what `npm pack` takes."""
    shutil.rmtree(package, ignore_errors=True)
    package.mkdir(parents=True)
    manifest = json.loads((HERE / "package.json").read_text(encoding="utf-8"))
    manifest["version"] = version()
    (package / "package.json").write_text(json.dumps(manifest, indent=2) + "\n", encoding="utf-8")
    for name in ("libfeed.js", "yaml.js", "yaml.d.ts", "README.md"):
        shutil.copy(HERE / name, package / name)
    shutil.copy(ROOT / "LICENSE", package / "LICENSE")
    requests, answers = (
        json.loads((ROOT / f"data/schema/{name}.schema.json").read_text(encoding="utf-8"))
        for name in ("request", "answers")
    )
    types = api_types.declarations(requests, answers)
    (package / "libfeed.d.ts").write_text(types, encoding="utf-8")
    (package / "verbs.js").write_text(api_types.functions(requests), encoding="utf-8")
    shutil.copy(module, package / "libfeed.wasm")


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("folder", type=Path, help="where to build")
    folder = parser.parse_args().folder.resolve()
    work = folder / "work"
    work.mkdir(parents=True, exist_ok=True)
    lay_out(folder / "package", build_module(work))
    print(folder / "package")


if __name__ == "__main__":
    main()
