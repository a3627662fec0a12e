"""Which answers lean on a judgement (grade D) through a number that matters.

    leaning.py COMMAND [--details]

COMMAND is a `feed` command. For each example file with portions, and for each invented kitchen
below, `blend`, `balance` and `check` are asked as far as the file allows. Then every number of
grade D of the feedstocks in it is set to the low and to the high end of its range, one at a time,
as an own feedstock of the file. A number matters if that moves a main figure of the answer by a
tenth or more, or a hazard to another level. Printed: of how many answers any number of grade D is
part, in how many one matters, and which properties those are.
"""

from __future__ import annotations

import argparse
import copy
import json
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).resolve().parents[2]
TENTH = 0.10
UNITS = {"kg/kg": (100.0, " %"), "kg/m3": (1.0, " kg/m3"), "1": (1.0, ""), "pH": (1.0, "")}
POOLS = ("labile_share", "cellulosic_share", "lignin_like_share")
# A small bin and what goes in: invented, the usual pairs of scraps and bedding.
BED = {"container": "60 L tote", "worms": "1 kg", "depth_of_contents": "25 cm", "squeeze": "damp",
       "temperature": "20 C", "ph": 6.8}  # fmt: skip
SCRAPS = (
    ("1 kg banana peel", "300 g coffee grounds"),
    ("800 g carrot", "200 g potato peel", "100 g onion"),
    ("600 g lettuce", "400 g tomato"),
    ("1 kg melon peel",),
    ("500 g coffee grounds", "100 g tea leaves"),
    ("300 g bread", "500 g apple core"),
    ("400 g orange peel", "400 g apple core"),
    ("500 g grass clippings", "200 g strawberry"),
    ("700 g cabbage", "80 g rice"),
)
BEDDINGS = ("shredded cardboard", "newspaper", "autumn leaves", "wheat straw", "coir")
Kitchen = tuple[str, str, dict[str, Any]]


def kitchens() -> Iterator[Kitchen]:
    """(name, verb, file) of every example and invented kitchen."""
    for path in sorted((ROOT / "examples").glob("*.yaml")):
        content = yaml.safe_load(path.read_text(encoding="utf-8"))
        verbs = [verb for verb in ("blend", "balance") if verb in content]
        if "bed" in content and verbs:
            verbs.append("check")
        for verb in verbs:
            yield path.stem, verb, content
    for number, scraps in enumerate(SCRAPS):
        for bedding in BEDDINGS:
            name = f"kitchen {number + 1} with {bedding}"
            portions = [*scraps, f"5 L {bedding}"]
            yield name, "blend", {"libfeed": 1, "blend": portions}
            yield name, "check", {"libfeed": 1, "bed": BED, "blend": portions}
            hand = [*scraps, f"any {bedding}", "any water"]
            balance = {"at_hand": hand, "targets": "worm-bed"}
            yield name, "balance", {"libfeed": 1, "balance": balance}


class Command:
    """The `feed` command, each question asked once."""

    def __init__(self, command: str, folder: Path) -> None:
        self.command = command
        self.folder = folder
        self.shown: dict[str, dict[str, Any]] = {}

    def json(self, *arguments: str) -> dict[str, Any]:
        done = subprocess.run(
            [self.command, *arguments, "--json"], capture_output=True, text=True, check=False
        )
        answer: dict[str, Any] = json.loads(done.stdout) if done.stdout.startswith("{") else {}
        return answer

    def ask(self, verb: str, content: dict[str, Any]) -> dict[str, Any]:
        path = self.folder / "asked.yaml"
        path.write_text(yaml.safe_dump(content, sort_keys=False), encoding="utf-8")
        return self.json(verb, str(path))

    def show(self, identifier: str) -> dict[str, Any]:
        if identifier not in self.shown:
            self.shown[identifier] = self.json("show", identifier)
        return self.shown[identifier]


def main_figures(verb: str, answer: dict[str, Any]) -> dict[str, float | str]:
    """What a keeper reads of an answer: amounts, the main properties, the levels of the hazards."""
    found: dict[str, float | str] = {}
    if verb == "check":
        for hazard in answer.get("hazards", []):
            found[f"level of {hazard['hazard']}"] = str(hazard["level"])
    elif verb == "balance":
        found["status"] = str(answer.get("status"))
        portions = answer.get("portions") or (answer.get("closest") or {}).get("portions") or []
        for number, portion in enumerate(portions):
            found[f"amount {number}"] = float(portion["wet_mass_kg"])
    else:
        found["wet mass"] = float(answer.get("wet_mass_kg") or 0)
        for key in ("moisture", "cn_ratio", "volume_l"):
            quantity = answer.get(key)
            value = quantity.get("value") if isinstance(quantity, dict) else quantity
            if isinstance(value, (int, float)):
                found[key] = float(value)
    return found


def moved(before: dict[str, float | str], after: dict[str, float | str]) -> bool:
    """Whether a main figure moved by a tenth or more; of amounts, a tenth of the whole feeding."""
    whole = sum(
        x for key, x in before.items() if key.startswith("amount") and not isinstance(x, str)
    )
    for key, was in before.items():
        now = after.get(key)
        if isinstance(was, str) or isinstance(now, str) or now is None:
            if was != now:
                return True
            continue
        scale = whole if key.startswith("amount") else abs(was)
        if abs(now - was) >= TENTH * scale and now != was:
            return True
    return False


def texts(content: dict[str, Any], verb: str) -> list[str]:
    listed = content.get("blend") if verb != "balance" else content["balance"]["at_hand"]
    if listed is None:
        listed = content.get("balance", {}).get("at_hand", [])
    return [entry for entry in listed if isinstance(entry, str)]


def written_ids(command: Command, content: dict[str, Any], verb: str) -> dict[str, str]:
    """Name in the file -> id in the table, of the portions that come from the table."""
    found = {}
    own = {str(name) for name in content.get("feedstocks", {})}
    for text in texts(content, verb):
        words = text.split()
        for start in range(1, len(words)):
            name = " ".join(words[start:])
            if name in own:
                break
            identifier = command.show(name).get("id")
            if identifier and "errors" not in command.show(name):
                found[name] = identifier
                break
    return found


def setting(datum: dict[str, Any], end: float) -> str | None:
    """The text of a value in a file, or nothing where the file has no word for its unit."""
    unit = str(datum["unit"])
    if datum["property"] == "water_holding_capacity":
        return f"{end:.6g} g/g"
    if datum["property"] in ("cn_ratio", "ph"):
        return f"{end:.6g}"
    if unit not in UNITS:
        return None
    factor, word = UNITS[unit]
    return f"{end * factor:.6g}{word}"


def changes(feedstock: dict[str, Any]) -> Iterator[tuple[str, dict[str, str]]]:
    """Each number of grade D at either end of its range, with what has to move with it."""
    values = {datum["property"]: datum for datum in feedstock.get("values", [])}
    for name, datum in values.items():
        if datum["grade"] != "D" or name in POOLS[1:]:
            continue
        for end in (datum["low"], datum["high"]):
            if end == datum["value"]:
                continue
            text = setting(datum, end)
            if text is None:
                continue
            put = {name: text}
            if name == POOLS[0] and all(pool in values for pool in POOLS):
                lignin = values[POOLS[2]]["value"]
                put[POOLS[1]] = f"{max(0.0, 1 - lignin - end) * 100:.6g} %"
                put[POOLS[2]] = f"{lignin * 100:.6g} %"
            yield name, put


def judge(command: Command, kitchen: Kitchen) -> tuple[bool, set[str]]:
    """Whether a number of grade D is part of the answer, and the properties that matter."""
    _, verb, content = kitchen
    part, matter = False, set[str]()
    for name, identifier in written_ids(command, content, verb).items():
        # Against the same file with the same own feedstock, but with nothing set.
        alike = copy.deepcopy(content)
        alike.setdefault("feedstocks", {})[name] = {"like": identifier}
        before = main_figures(verb, command.ask(verb, alike))
        for property_name, put in changes(command.show(identifier)):
            part = True
            if property_name in matter:
                continue
            changed = copy.deepcopy(content)
            changed.setdefault("feedstocks", {})[name] = {"like": identifier, **put}
            answer = command.ask(verb, changed)
            if not answer.get("errors") and moved(before, main_figures(verb, answer)):
                matter.add(property_name)
    return part, matter


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("command")
    parser.add_argument("--details", action="store_true", help="one line for each answer")
    arguments = parser.parse_args()
    asked, parts, leaning = Counter[str](), Counter[str](), Counter[str]()
    by: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        command = Command(arguments.command, Path(folder))
        for kitchen in kitchens():
            part, matter = judge(command, kitchen)
            verb = kitchen[1]
            asked[verb] += 1
            parts[verb] += part
            leaning[verb] += bool(matter)
            by.update(matter)
            if arguments.details:
                print(f"{verb} {kitchen[0]}: {', '.join(sorted(matter)) or '-'}")
    for verb in asked:
        print(
            f"{verb}: {asked[verb]} answers, {parts[verb]} with a number of grade D,"
            f" {leaning[verb]} in which one matters"
        )
    total = sum(asked.values())
    print(f"all: {sum(leaning.values())} of {total}, {100 * sum(leaning.values()) / total:.0f} %")
    for name, count in by.most_common():
        print(f"  {name}: {count}")
    return 0 if total else 1


if __name__ == "__main__":
    sys.exit(main())
