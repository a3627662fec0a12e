"""Mutation testing: are small wrong changes to the core caught by the tests of their layer?

    mutants.py [--all | --count 60 | --listed 40] [--seed 1] [--layers blend,balance] [--write-list]

instrument.py writes a copy of the core that holds every mutant behind a switch; that copy is built
once, with the unit and property tests and a program that answers many files. A mutant counts if it
changes any answer of the examples, the published cases or the 2,000 random files of
random_files.py (a crash, or an answer that never comes, is a change). Of those that count, at
least 95 % should be caught by a unit, case or property test of the same layer.

--count N      so many of each layer, drawn by the seed (the default, 60)
--all          every mutant: hours; the nightly form
--listed N     N of mutants/caught.txt, drawn by the seed; only the tests are run, and each must
               still catch its mutant. With --two-layers, of two layers: the form of tests/run.sh
--write-list   writes those that were caught to mutants/caught.txt

Everything is kept in build/mutants; report.json there names each mutant and what became of it.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import resource
import subprocess
import sys
import time
from array import array
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict, dataclass, field
from pathlib import Path

from compare_answers import Job
from instrument import Mutant, instrument
from published_cases import case_files
from random_files import VERBS, write_files

ROOT = Path(__file__).resolve().parents[2]
FOLDER = ROOT / "build" / "mutants"
SOURCE = FOLDER / "source"
BUILD = FOLDER / "build"
CAUGHT = Path(__file__).resolve().parent / "mutants" / "caught.txt"
MEMORY = 4 << 30
# Compiling takes longer than running unless many mutants are run.
OPTIMISE = os.environ.get("FEED_MUTANTS_OPTIMISE", "1")
# A mutant that takes this many times as long as the unchanged program has hung.
PATIENCE, LEAST_SECONDS = 10.0, 20.0
COMPILER_PLACE = re.compile(
    r"^([^:\s]+):(\d+):\d+: (?:fatal error|error|note): (.*)$", re.MULTILINE
)


@dataclass
class Outcome:
    mutant: Mutant
    changed: str = ""  # the first answer that changed
    caught: str = ""  # the program that caught it


@dataclass
class Program:
    """A test program, the layer it belongs to, its time and the places it reaches."""

    name: str
    layer: str
    path: Path
    seconds: float = 0.0
    reached: set[int] = field(default_factory=set)


# -- the copy and its build ---------------------------------------------------------------------


def sync(source: Path, target: Path) -> None:
    """Copies a file only if it differs, so that the build sees what changed."""
    content = source.read_bytes()
    if not target.is_file() or target.read_bytes() != content:
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
        target.chmod(source.stat().st_mode)


def tracked() -> list[str]:
    words = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, check=True)
    return [name for name in done.stdout.decode().split("\0") if name]


def copy_sources(more: Sequence[tuple[str, int, str]]) -> list[Mutant]:
    fresh = FOLDER / "include"
    places = [(name.replace(f"{SOURCE}/libfeed/include", str(fresh)), line, text)
              for name, line, text in more]  # fmt: skip
    mutants = instrument(ROOT / "libfeed" / "include", fresh, FOLDER / "mutants.json", places)
    wanted = set()
    for name in tracked():
        if (ROOT / name).is_file() and not name.startswith("libfeed/include/"):
            sync(ROOT / name, SOURCE / name)
            wanted.add(SOURCE / name)
    for path in fresh.rglob("*"):
        if path.is_file():
            target = SOURCE / "libfeed" / "include" / path.relative_to(fresh)
            sync(path, target)
            wanted.add(target)
    for path in SOURCE.rglob("*"):
        if path.is_file() and path not in wanted:
            path.unlink()
    return mutants


def test_programs(layers: Iterable[str]) -> list[Program]:
    """By folder: unit/LAYER and, by the name of the program, properties."""
    programs = []
    for layer in layers:
        lists = SOURCE / "tests" / "unit" / layer / "CMakeLists.txt"
        text = lists.read_text(encoding="utf-8") if lists.is_file() else ""
        for name in re.findall(r"feed_test\((\w+)", text):
            programs.append(Program(name, layer, BUILD / "tests" / "unit" / layer / name))
        text = (SOURCE / "tests" / "properties" / "CMakeLists.txt").read_text(encoding="utf-8")
        for name in re.findall(rf"feed_test\((properties_{layer}\w*)", text):
            programs.append(Program(name, layer, BUILD / "tests" / "properties" / name))
    return programs


def build(targets: Sequence[str]) -> str:
    """Configures and builds; returns the output where that fails."""
    switches = SOURCE / "tests" / "tooling" / "mutants" / "switches.cmake"
    clang = os.environ.get("FEED_CLANG", "14")
    configure = [
        "cmake", "-S", str(SOURCE), "-B", str(BUILD), "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Debug",
        f"-DCMAKE_C_COMPILER=clang-{clang}", f"-DCMAKE_CXX_COMPILER=clang++-{clang}",
        "-DCMAKE_CXX_FLAGS_DEBUG=",
        f"-DCMAKE_CXX_FLAGS=-O{OPTIMISE}",
        f"-DCMAKE_PROJECT_libfeed_INCLUDE={switches}",
        "-DFEED_BUILD_TESTS=ON", "-DFEED_BUILD_MUTANTS=ON", "-DFEED_BUILD_ORACLES=OFF",
        "-DFEED_BUILD_COMMAND=OFF", "-DFEED_PRECOMPILE_HEADERS=ON",
    ]  # fmt: skip
    done = subprocess.run(configure, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError((done.stdout + done.stderr)[-3000:])
    words = ["cmake", "--build", str(BUILD), "-j", str(os.cpu_count()), "--target", *targets]
    done = subprocess.run([*words, "--", "-k", "0"], capture_output=True, text=True, check=False)
    return done.stdout + done.stderr if done.returncode else ""


def as_built(layers: Sequence[str]) -> tuple[list[Mutant], list[Program]]:
    """What the last run built, whatever the sources say now."""
    record = json.loads((FOLDER / "mutants.json").read_text(encoding="utf-8"))
    mutants = [Mutant(**each) for each in record["mutants"]]
    wanted = [each for each in dict.fromkeys(mutant.layer for mutant in mutants)
              if not layers or each in layers]  # fmt: skip
    programs = [each for each in test_programs(wanted) if each.path.is_file()]
    return [each for each in mutants if each.layer in wanted], programs


def prepare(layers: Sequence[str], answers: bool) -> tuple[list[Mutant], list[Program]]:
    FOLDER.mkdir(parents=True, exist_ok=True)
    more: list[tuple[str, int, str]] = []
    for _ in range(6):
        mutants = copy_sources(more)
        wanted = [each for each in dict.fromkeys(mutant.layer for mutant in mutants)
                  if not layers or each in layers]  # fmt: skip
        programs = test_programs(wanted)
        output = build([each.name for each in programs] + (["mutant_answers"] if answers else []))
        if not output:
            return [each for each in mutants if each.layer in wanted], programs
        # A test that needs a constant at compile time: that one keeps its constexpr.
        include = SOURCE / "libfeed" / "include"
        inside = [
            (str((BUILD / found.group(1)).resolve()), int(found.group(2)), found.group(3))
            for found in COMPILER_PLACE.finditer(output)
        ]
        inside = [place for place in inside if include in Path(place[0]).parents]
        if not set(inside) - set(more):
            raise RuntimeError(output[-6000:])
        more = sorted({*more, *inside})
    raise RuntimeError("the copy still does not compile:\n" + output[-6000:])


# -- running ------------------------------------------------------------------------------------


def limit_memory() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def run(words: Sequence[str | Path], mutant: int | None, seconds: float, reached: Path | None = None
        ) -> tuple[int, str]:  # fmt: skip
    """Exit code and output with a mutant switched on; -1 where it did not end in time."""
    environment = dict(os.environ)
    if mutant is not None:
        environment["FEED_MUTANT"] = str(mutant)
    if reached is not None:
        environment["FEED_MUTANT_REACHED"] = str(reached)
    try:
        done = subprocess.run(
            [str(word) for word in words], env=environment, capture_output=True, check=False,
            timeout=seconds, preexec_fn=limit_memory, cwd=SOURCE,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return -1, ""
    return done.returncode, done.stdout.decode("utf-8", "replace")


def look_at_programs(programs: Sequence[Program]) -> None:
    """Each program unchanged: it must pass; its time and what it reaches."""
    for program in programs:
        record = FOLDER / f"{program.name}.reached"
        record.unlink(missing_ok=True)
        begin = time.monotonic()
        code, output = run([program.path], None, 600.0, record)
        program.seconds = time.monotonic() - begin
        if code != 0:
            raise RuntimeError(f"{program.name} fails without a mutant:\n{output[-3000:]}")
        program.reached = set(map(int, record.read_text(encoding="utf-8").split()))


class Answers:
    """The answers of the unchanged core, and which of them each place can change."""

    def __init__(self, count: int, seed: int) -> None:
        self.program = BUILD / "tests" / "tooling" / "mutants" / "mutant_answers"
        self.jobs = self.all_jobs(count, seed)
        record = FOLDER / "jobs.txt"
        record.write_text(
            "".join(f"{job.verb}\t{job.about}\n" for job in self.jobs), encoding="utf-8"
        )
        begin = time.monotonic()
        code, output = run([self.program, "record", record], None, 900.0)
        if code != 0:
            raise RuntimeError("the answers of the unchanged core cannot be had")
        self.seconds = (time.monotonic() - begin) / len(self.jobs)
        self.hashes: list[str] = []
        self.reach: dict[int, array[int]] = {}
        for number, line in enumerate(output.splitlines()):
            first, *places = line.split(" ")
            self.hashes.append(first)
            for place in places:
                self.reach.setdefault(int(place), array("I")).append(number)

    def all_jobs(self, count: int, seed: int) -> list[Job]:
        jobs = [Job(verb, str(path)) for path in sorted((ROOT / "examples").glob("*.yaml"))
                for verb in VERBS]  # fmt: skip
        cases, drawn = FOLDER / "cases", FOLDER / "random"
        for folder in (cases, drawn):
            folder.mkdir(exist_ok=True)
        jobs += [Job(verb, about) for verb, about in case_files(ROOT / "tests" / "cases", cases)
                 if verb in VERBS]  # fmt: skip
        for path in write_files(drawn, table_rows_of_source(), count, seed):
            jobs.append(Job(path.name.split("_")[0], str(path)))
        return jobs

    def first_changed(self, mutant: int, reached_at_start: bool) -> str:
        """The first answer that the mutant changes, or nothing."""
        numbers: Sequence[int] = self.reach.get(mutant, array("I"))
        if reached_at_start:
            numbers = range(len(self.jobs))
        if not numbers:
            return ""
        listed = FOLDER / f"compare_{mutant}.txt"
        listed.write_text(
            "".join(
                f"{self.jobs[i].verb}\t{self.jobs[i].about}\t{self.hashes[i]}\n" for i in numbers
            ),
            encoding="utf-8",
        )
        seconds = max(LEAST_SECONDS, PATIENCE * self.seconds * len(numbers))
        code, output = run([self.program, "compare", listed], mutant, seconds)
        listed.unlink()
        if code == 0:
            return ""
        if code == 1 and output.strip().isdigit():
            job = self.jobs[numbers[int(output)]]
            return f"{job.verb} {Path(job.about).name}"
        return "no end" if code == -1 else f"crash ({code})"


def table_rows_of_source() -> list[dict[str, str]]:
    """The rows of the table as its source lists them: the copy has no command."""
    import yaml

    rows = []
    for path in sorted((ROOT / "data").glob("*.yaml")):
        content = yaml.safe_load(path.read_text(encoding="utf-8"))
        if isinstance(content, dict) and "feedstocks" in content:
            rows += [{"id": row["id"], "group": content["group"], "stance": row["stance"]}
                     for row in content["feedstocks"]]  # fmt: skip
    return rows


def caught_by(mutant: int, programs: Sequence[Program], start: set[int]) -> str:
    for program in sorted(programs, key=lambda program: program.seconds):
        if mutant not in program.reached and mutant not in start:
            continue
        seconds = max(LEAST_SECONDS, PATIENCE * program.seconds)
        if run([program.path, "--abort"], mutant, seconds)[0] != 0:
            return program.name
    return ""


# -- choosing and reporting ---------------------------------------------------------------------


def drawn(mutants: Sequence[Mutant], count: int, seed: int) -> list[Mutant]:
    """So many of each layer."""
    chosen = []
    for layer in dict.fromkeys(mutant.layer for mutant in mutants):
        own = [mutant for mutant in mutants if mutant.layer == layer]
        chosen += random.Random(f"{seed} {layer}").sample(own, min(count, len(own)))
    return chosen


def listed(mutants: Sequence[Mutant], count: int, seed: int) -> list[Mutant]:
    known = {mutant.key: mutant for mutant in mutants}
    keys = [key for key in CAUGHT.read_text(encoding="utf-8").splitlines() if key in known]
    if not keys:
        raise RuntimeError(f"none of {CAUGHT.name} still exists; run mutants.py --write-list")
    return [known[key] for key in random.Random(seed).sample(keys, min(count, len(keys)))]


def two_layers(seed: int) -> list[str]:
    """Two of those that the list names: building the tests of all takes most of the time."""
    there = sorted({key.split("/")[0] for key in CAUGHT.read_text(encoding="utf-8").splitlines()})
    return sorted(random.Random(seed).sample(there, 2))


def place(mutant: Mutant) -> str:
    return f"{mutant.file}:{mutant.line}: {mutant.change}: {mutant.source}"


def table(outcomes: Sequence[Outcome]) -> str:
    lines = ["| Layer | made | changed an answer | caught | share |", "|---|---|---|---|---|"]
    layers = list(dict.fromkeys(each.mutant.layer for each in outcomes))
    for layer in [*layers, "all"]:
        own = [each for each in outcomes if layer in ("all", each.mutant.layer)]
        counted = [each for each in own if each.changed]
        caught = [each for each in counted if each.caught]
        share = f"{100.0 * len(caught) / len(counted):.0f} %" if counted else "-"
        lines.append(f"| {layer} | {len(own)} | {len(counted)} | {len(caught)} | {share} |")
    return "\n".join(lines)


def write_report(outcomes: Sequence[Outcome]) -> None:
    entries = [{**asdict(each.mutant), "changed": each.changed, "caught": each.caught}
               for each in outcomes]  # fmt: skip
    (FOLDER / "report.json").write_text(json.dumps(entries, indent=1), encoding="utf-8")


def write_list(outcomes: Sequence[Outcome], mutants: Sequence[Mutant]) -> None:
    """Adds what was caught, takes out what was tried and slipped through or is no more."""
    known = set(CAUGHT.read_text(encoding="utf-8").splitlines()) if CAUGHT.is_file() else set()
    there = {mutant.key for mutant in mutants}
    tried = {each.mutant.key for each in outcomes}
    kept = {key for key in known if key in there and key not in tried}
    kept |= {each.mutant.key for each in outcomes if each.changed and each.caught}
    CAUGHT.write_text("".join(f"{key}\n" for key in sorted(kept)), encoding="utf-8")


def spread(work: Callable[[Mutant], Outcome], mutants: Sequence[Mutant]) -> list[Outcome]:
    begin = time.monotonic()
    outcomes = []
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        for outcome in pool.map(work, mutants):
            outcomes.append(outcome)
            if len(outcomes) % 50 == 0:
                print(
                    f"{len(outcomes)} of {len(mutants)}, {time.monotonic() - begin:.0f} s",
                    flush=True,
                )
                write_report(outcomes)
    return outcomes


def main(words: list[str]) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    how = parser.add_mutually_exclusive_group()
    how.add_argument("--count", type=int, default=60)
    how.add_argument("--all", action="store_true")
    how.add_argument("--listed", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--layers", default="")
    parser.add_argument("--two-layers", action="store_true", help="of those listed, by the seed")
    parser.add_argument("--files", type=int, default=2000)
    parser.add_argument("--write-list", action="store_true")
    parser.add_argument("--as-built", action="store_true", help="neither copy nor build again")
    wanted = parser.parse_args(words)
    layers = [layer for layer in wanted.layers.split(",") if layer]
    if wanted.two_layers:
        layers = two_layers(wanted.seed)
        print(f"of the layers {' and '.join(layers)}", flush=True)
    if wanted.as_built:
        mutants, programs = as_built(layers)
    else:
        mutants, programs = prepare(layers, answers=wanted.listed is None)
    print(f"{len(mutants)} mutants built", flush=True)
    look_at_programs(programs)
    # Constants of tables are read before main, in every program.
    start = set.intersection(*(program.reached for program in programs))
    of_layer = {layer: [each for each in programs if each.layer == layer]
                for layer in {each.layer for each in programs}}  # fmt: skip

    def tests_catch(mutant: Mutant) -> Outcome:
        caught = caught_by(mutant.id, of_layer.get(mutant.layer, []), start)
        return Outcome(mutant, "listed", caught)

    if wanted.listed is not None:
        outcomes = spread(tests_catch, listed(mutants, wanted.listed, wanted.seed))
        missed = [each.mutant for each in outcomes if not each.caught]
        for one in missed:
            print(f"slipped through: {place(one)}")
        print(f"{len(outcomes) - len(missed)} of {len(outcomes)} listed mutants caught")
        return 1 if missed else 0
    answers = Answers(wanted.files, 1)
    print(f"{len(answers.jobs)} answers known", flush=True)

    def try_one(mutant: Mutant) -> Outcome:
        changed = answers.first_changed(mutant.id, mutant.id in start)
        if not changed:
            return Outcome(mutant)
        caught = caught_by(mutant.id, of_layer.get(mutant.layer, []), start)
        return Outcome(mutant, changed, caught)

    chosen = mutants if wanted.all else drawn(mutants, wanted.count, wanted.seed)
    outcomes = spread(try_one, chosen)
    write_report(outcomes)
    if wanted.write_list:
        write_list(outcomes, mutants)
    for each in outcomes:
        if each.changed and not each.caught:
            print(f"slipped through: {place(each.mutant)} ({each.changed})")
    print(table(outcomes))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
