"""What a change did to the answers: two `feed` commands, the same files, each difference counted.

    compare_answers.py BEFORE AFTER [--explained FILE] [--verbs balance,check] [--seed N]

Both commands answer with --json every example with blend, balance, check and forecast, every case
of tests/cases that the command can express, and 2,000 random files (random_files.py, drawn from
the feedstocks that both tables hold). Differences are grouped by verb and key, and each group says
how many answers it touches, the largest relative change and the first file.

Two numbers are the same if they differ by at most 1e-9 of the larger one or by 1e-12 (--relative,
--absolute); any other value has to be equal. Entries of lists are matched by what they are about
(hazard, feedstock, property) where they say it, else by their place.

--explained names a YAML list of differences that are meant:

    - verb: check             # or *
      key: hazards[dry].*     # of the group; * stands for anything
      change: value           # value, added, removed, exit, or * (the default)
      at_most: 0.05           # largest relative change, left out: any
      why: ash is taken from one table now

Exit 0 if every difference stands in that list, 1 if not (or if nothing was compared), 2 on bad
usage. The first file of a group can be looked at with --folder, which keeps the files.
"""

from __future__ import annotations

import argparse
import fnmatch
import hashlib
import json
import math
import os
import pickle
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from itertools import zip_longest
from pathlib import Path
from typing import Any

import yaml
from published_cases import case_files
from random_files import VERBS, table_rows, write_files

ROOT = Path(__file__).resolve().parents[2]
RELATIVE = 1e-9
ABSOLUTE = 1e-12
SECONDS_PER_ANSWER = 60.0
# What an entry of a list is about. Those of the first line become part of the key of a group.
SHOWN_NAMES = ("hazard", "property", "target")
MISSING = object()
NAMES = (*SHOWN_NAMES, "feedstock", "name", "field", "id")


@dataclass(frozen=True)
class Job:
    """One question: the words of the command (verb first) and the file or name it is about."""

    verb: str
    about: str


@dataclass(frozen=True)
class Answer:
    code: int
    text: str


@dataclass(frozen=True)
class Difference:
    key: str
    change: str  # value, added, removed, exit
    relative: float | None  # of a number that changed
    before: str
    after: str


@dataclass
class Group:
    """All differences of one kind at one key of one verb."""

    answers: set[str] = field(default_factory=set)
    places: int = 0
    relative: float | None = None
    first: str = ""
    example: tuple[str, str] = ("", "")
    explained: str | None = None


def ask(command: str, job: Job) -> Answer:
    try:
        done = subprocess.run(
            [command, job.verb, job.about, "--json"],
            capture_output=True,
            timeout=SECONDS_PER_ANSWER,
            check=False,
            stdin=subprocess.DEVNULL,
        )
    except subprocess.TimeoutExpired:
        return Answer(-1, f"no answer within {SECONDS_PER_ANSWER:.0f} seconds")
    output = done.stdout or done.stderr
    return Answer(done.returncode, output.decode("utf-8", "replace"))


def fingerprint(command: str, jobs: Sequence[Job]) -> str:
    digest = hashlib.sha256(Path(command).read_bytes())
    for job in jobs:
        digest.update(f"{job.verb}\0{job.about}\0".encode())
        if Path(job.about).is_file():
            digest.update(Path(job.about).read_bytes())
    return digest.hexdigest()[:32]


def ask_all(command: str, jobs: Sequence[Job], cache: Path | None = None) -> list[Answer]:
    """The answers in the order of the jobs; kept in `cache`, as they never change."""
    kept = cache / f"{fingerprint(command, jobs)}.answers" if cache else None
    if kept and kept.is_file():
        answers: list[Answer] = pickle.loads(kept.read_bytes())
        return answers
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        answers = list(pool.map(lambda job: ask(command, job), jobs))
    if kept:
        kept.parent.mkdir(parents=True, exist_ok=True)
        kept.write_bytes(pickle.dumps(answers))
    return answers


def is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def relative_change(one: float, two: float) -> float:
    """Of the larger; 0 for two zeros."""
    largest = max(abs(one), abs(two))
    return abs(one - two) / largest if largest > 0 and math.isfinite(largest) else 0.0


def short(value: object) -> str:
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 100 else text[:97] + "..."


def about(entry: object) -> tuple[str, str] | None:
    """What an entry of a list is about, as (key, value)."""
    if isinstance(entry, Mapping):
        for name in NAMES:
            if isinstance(entry.get(name), str):
                return name, str(entry[name])
    return None


def reordered(before: list[Any], after: list[Any]) -> bool:
    """The same things, in another order."""
    ours, theirs = ([str(about(entry)) for entry in entries] for entries in (before, after))
    return ours != theirs and sorted(ours) == sorted(theirs)


def matched(before: list[Any], after: list[Any]) -> Iterator[tuple[str, Any, Any]]:
    """Pairs of entries with the word for the key."""
    ours, theirs = ({about(entry): entry for entry in entries} for entries in (before, after))
    names = dict.fromkeys((*ours, *theirs))
    if None not in names and (len(ours), len(theirs)) == (len(before), len(after)):
        for name in names:
            shown = name[1] if name and name[0] in SHOWN_NAMES else ""
            yield shown, ours.get(name, MISSING), theirs.get(name, MISSING)
        return
    for one, two in zip_longest(before, after, fillvalue=MISSING):
        yield "", one, two


class Comparer:
    """Finds the differences between two trees of JSON."""

    def __init__(self, relative: float = RELATIVE, absolute: float = ABSOLUTE) -> None:
        self.relative = relative
        self.absolute = absolute

    def same_number(self, one: float, two: float) -> bool:
        if one == two:
            return True
        return abs(one - two) <= max(self.absolute, self.relative * max(abs(one), abs(two)))

    def differences(self, one: Any, two: Any, key: str = "") -> Iterator[Difference]:
        if is_number(one) and is_number(two):
            if not self.same_number(one, two):
                yield Difference(key, "value", relative_change(one, two), short(one), short(two))
        elif isinstance(one, Mapping) and isinstance(two, Mapping):
            for name in dict.fromkeys((*one, *two)):
                below = f"{key}.{name}" if key else str(name)
                yield from self.both(one.get(name, MISSING), two.get(name, MISSING), below)
        elif isinstance(one, list) and isinstance(two, list):
            if reordered(one, two):
                yield Difference(f"{key}[order]", "value", None, short(one), short(two))
            for name, ours, theirs in matched(one, two):
                yield from self.both(ours, theirs, f"{key}[{name}]")
        elif one != two or type(one) is not type(two):
            yield Difference(key, "value", None, short(one), short(two))

    def both(self, one: Any, two: Any, key: str) -> Iterator[Difference]:
        """Of what may be missing on one side."""
        if two is MISSING:
            yield Difference(key, "removed", None, short(one), "")
        elif one is MISSING:
            yield Difference(key, "added", None, "", short(two))
        else:
            yield from self.differences(one, two, key)

    def answers(self, one: Answer, two: Answer) -> Iterator[Difference]:
        if one.code != two.code:
            yield Difference("(exit code)", "exit", None, str(one.code), str(two.code))
        try:
            before, after = json.loads(one.text), json.loads(two.text)
        except json.JSONDecodeError:
            if one.text != two.text:
                yield Difference("(text)", "value", None, short(one.text), short(two.text))
            return
        if one.code != two.code and ({one.code, two.code} & {-1, 2, 3}):
            return  # an answer and a refusal share no key
        yield from self.differences(before, after)


Groups = dict[tuple[str, str, str], Group]


def grouped(
    jobs: Sequence[Job], before: Sequence[Answer], after: Sequence[Answer], comparer: Comparer
) -> Groups:
    groups: Groups = {}
    for job, one, two in zip(jobs, before, after, strict=True):
        for found in comparer.answers(one, two):
            group = groups.setdefault((job.verb, found.key, found.change), Group())
            group.places += 1
            group.answers.add(job.about)
            if found.relative is not None:
                group.relative = max(group.relative or 0.0, found.relative)
            if not group.first:
                group.first, group.example = job.about, (found.before, found.after)
    return groups


EXPLAINED_KEYS = {"verb", "key", "change", "at_most", "why"}


def read_explained(path: Path) -> list[dict[str, Any]]:
    entries = yaml.safe_load(path.read_text(encoding="utf-8")) or []
    for number, entry in enumerate(entries, 1):
        if not isinstance(entry, dict) or not entry.get("key") or not entry.get("why"):
            raise ValueError(f"{path}: entry {number} needs a key and a why")
        if unknown := set(entry) - EXPLAINED_KEYS:
            raise ValueError(f"{path}: entry {number}: unknown {', '.join(sorted(unknown))}")
    return list(entries)


def matches(pattern: str, key: str) -> bool:
    """Only * is special: brackets belong to keys."""
    return fnmatch.fnmatchcase(key, re.sub(r"\[", "[[]", pattern))


def explain(groups: Groups, explained: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Marks the groups that are meant; returns the entries that met nothing."""
    used: set[int] = set()
    for (verb, key, change), group in groups.items():
        for number, entry in enumerate(explained):
            at_most = entry.get("at_most")
            if (
                entry.get("verb", "*") in ("*", verb)
                and matches(str(entry["key"]), key)
                and entry.get("change", "*") in ("*", change)
                and (at_most is None or (group.relative or 0.0) <= float(at_most))
            ):
                group.explained = str(entry["why"])
                used.add(number)
                break
    return [entry for number, entry in enumerate(explained) if number not in used]


def report(groups: Groups, show_explained: bool) -> str:
    lines = []
    ordered = sorted(groups.items(), key=lambda item: (item[0][0], -len(item[1].answers), item[0]))
    for (verb, key, change), group in ordered:
        if group.explained is not None and not show_explained:
            continue
        largest = f", at most {group.relative:.3g} of it" if group.relative is not None else ""
        mark = f"  [explained: {group.explained}]" if group.explained is not None else ""
        lines.append(
            f"{verb} {key} {change}: {len(group.answers)} answers, {group.places} places"
            f"{largest}{mark}\n    first {group.first}\n"
            f"    before {group.example[0]}\n    after  {group.example[1]}"
        )
    return "\n".join(lines)


def all_jobs(folder: Path, commands: Sequence[str], count: int, seed: int) -> list[Job]:
    jobs = []
    for path in sorted((ROOT / "examples").glob("*.yaml")):
        jobs += [Job(verb, str(path)) for verb in VERBS]
    cases = folder / "cases"
    cases.mkdir(parents=True, exist_ok=True)
    jobs += [Job(verb, about) for verb, about in case_files(ROOT / "tests" / "cases", cases)]
    tables = [{str(row["id"]): row for row in table_rows(command)} for command in commands]
    rows = [row for name, row in tables[0].items() if all(name in table for table in tables)]
    drawn = folder / "random"
    drawn.mkdir(parents=True, exist_ok=True)
    for path in write_files(drawn, rows, count, seed):
        verb = path.name.split("_")[0]
        jobs.append(Job(verb, str(path)))
        if verb == "check":  # the same bed, day by day
            jobs.append(Job("forecast", str(path)))
    return jobs


def main(words: list[str]) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("before")
    parser.add_argument("after")
    parser.add_argument("--explained", type=Path, help="YAML list of differences that are meant")
    parser.add_argument("--verbs", help="only these, parted by commas")
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--relative", type=float, default=RELATIVE)
    parser.add_argument("--absolute", type=float, default=ABSOLUTE)
    parser.add_argument("--folder", type=Path, help="keep the files that were asked about here")
    parser.add_argument("--cache", type=Path, help="keep the answers here, for the next comparison")
    parser.add_argument("--show-explained", action="store_true")
    wanted = parser.parse_args(words)
    try:
        explained = read_explained(wanted.explained) if wanted.explained else []
    except (OSError, ValueError, yaml.YAMLError) as error:
        parser.error(str(error))
    with tempfile.TemporaryDirectory() as temporary:
        folder = wanted.folder or Path(temporary)
        jobs = all_jobs(folder, [wanted.before, wanted.after], wanted.count, wanted.seed)
        if wanted.verbs:
            jobs = [job for job in jobs if job.verb in wanted.verbs.split(",")]
        before = ask_all(wanted.before, jobs, wanted.cache)
        after = ask_all(wanted.after, jobs, wanted.cache)
    groups = grouped(jobs, before, after, Comparer(wanted.relative, wanted.absolute))
    unused = explain(groups, explained)
    text = report(groups, wanted.show_explained)
    if text:
        print(text)
    for entry in unused:
        print(f"explained, but not met: {entry.get('verb', '*')} {entry['key']}")
    touched = {(verb, name) for (verb, _, _), group in groups.items() for name in group.answers}
    open_groups = sum(group.explained is None for group in groups.values())
    print(
        f"{len(jobs)} answers compared, {len(touched)} differ, in {len(groups)} groups; "
        f"{open_groups} groups are not explained"
    )
    return 1 if open_groups or not jobs else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
