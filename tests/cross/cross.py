"""libfeed where it is not built every day: python tests/cross/cross.py KIND OUT [FEED_COMMAND].

    libcxx    the core with LLVM's C++ library (libc++)
    bare      the core without exceptions and without run-time types
    cortex    the core for a Cortex-M4, with its table and without: how much flash each takes
    windows   everything behind the door, by MinGW; where Wine is, it answers as FEED_COMMAND does

The commands are printed as they are run; docs/portable.md has them too.
"""

from __future__ import annotations

import json
import os
import shlex
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path[:0] = [str(ROOT / "bindings/js"), str(ROOT / "tests/js")]
from door_sources import boost_headers, joined_sources  # noqa: E402
from usual_requests import REQUESTS  # noqa: E402

CORE = ["-std=c++20", "-Ilibfeed/include", "-Itests/cross", "-Wall", "-Wextra", "-Werror"]
DOOR = [*CORE, "-Ilibfeed/src", "-ffp-contract=off"]
PROGRAMS = ("with_table", "without_table")
# Flash of a Cortex-M4 in kB, a little above what was measured (docs/portable.md).
MOST_KB = {"with_table": 800, "without_table": 100}


def run(*words: str | Path, text: str | None = None) -> str:
    command = [str(word) for word in words]
    print(shlex.join(command), flush=True)
    done = subprocess.run(command, cwd=ROOT, input=text, capture_output=True, text=True)
    if done.returncode != 0:
        raise SystemExit((done.stdout + done.stderr)[-6000:])
    return done.stdout


def boost(out: Path) -> list[str]:
    """Boost's headers and nothing else of this machine."""
    return ["-isystem", str(boost_headers(out))]


def grams(program: Path) -> int:
    """The last byte of the grams of its recipe; 0 where it found none."""
    return subprocess.run([program], cwd=ROOT).returncode


def on_this_machine(out: Path, compiler: str, *flags: str) -> None:
    run(compiler, *CORE, *flags, "-fsyntax-only", "tests/cross/whole_core.cpp")
    for name in PROGRAMS:
        program = out / name
        source = f"tests/cross/{name}.cpp"
        run(compiler, *CORE, *flags, "-O1", source, "-o", program)
        if grams(program) == 0:
            raise SystemExit(f"{name} found no recipe")


def libcxx(out: Path) -> None:
    version = os.environ.get("FEED_CLANG", "14")
    on_this_machine(out, f"clang++-{version}", "-stdlib=libc++")


def bare(out: Path) -> None:
    on_this_machine(out, "g++", "-fno-exceptions", "-fno-rtti", "-Wno-restrict")


def cortex(out: Path) -> None:
    flags = "-mcpu=cortex-m4 -mthumb -mfloat-abi=hard -mfpu=fpv4-sp-d16 -Os -fno-exceptions"
    flags += " -fno-rtti -ffunction-sections -fdata-sections -Wl,--gc-sections --specs=nano.specs"
    flags += " --specs=nosys.specs -DFEED_ENGLISH_ONLY -Wno-restrict -Wno-psabi"
    for name in PROGRAMS:
        program = out / f"{name}.elf"
        source = f"tests/cross/{name}.cpp"
        # The stubs of nosys warn while they are linked.
        words = [*CORE, *boost(out), *flags.split(), source]
        run("arm-none-eabi-g++", *words, "-o", program)
        text, data, *_ = run("arm-none-eabi-size", program).splitlines()[1].split()
        kilobytes = (int(text) + int(data)) / 1000
        print(f"flash {name}: {kilobytes:.0f} kB, at most {MOST_KB[name]}")
        if kilobytes > MOST_KB[name]:
            raise SystemExit(f"{name} takes {kilobytes:.0f} kB of flash")


def windows(out: Path, feed: Path) -> None:
    compiler = "x86_64-w64-mingw32-g++-posix"

    def compiled(source: Path) -> Path:
        made = out / f"{source.stem}.obj"
        run(compiler, *DOOR, *boost(out), "-Wno-restrict", "-O1", "-c", source, "-o", made)
        return made

    with ThreadPoolExecutor(2) as pool:
        objects = list(pool.map(compiled, [*joined_sources(out), HERE / "door.cpp"]))
    program = out / "door.exe"
    run(compiler, "-static", *objects, "-o", program)
    wine = shutil.which("wine64") or shutil.which("wine") or "/usr/lib/wine/wine64"
    if not Path(wine).exists():
        print("Wine is not here: built, not run")
        return
    os.environ.setdefault("WINEDEBUG", "-all")
    os.environ.setdefault("WINEPREFIX", str(out / "wine"))
    for name, request in REQUESTS.items():
        said = json.dumps(request)
        here = json.loads(run(feed, "call", "-", text=said))
        there = json.loads(run(wine, program, text=said))
        if here.get("text") != there.get("text") or here.keys() != there.keys():
            raise SystemExit(f"{name}: another answer on Windows")
    print(f"{len(REQUESTS)} requests are answered as on this machine")


def main() -> int:
    kind, out = sys.argv[1], Path(sys.argv[2]).resolve()
    out.mkdir(parents=True, exist_ok=True)
    if kind == "windows":
        windows(out, Path(sys.argv[3]).resolve())
    else:
        {"libcxx": libcxx, "bare": bare, "cortex": cortex}[kind](out)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
