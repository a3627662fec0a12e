"""What experienced keepers expect of a plan for a bed (tests/cases/plans.json), beside the answer.

    python3 tests/tooling/plans.py                  the table of docs/bed.md, expectations only
    python3 tests/tooling/plans.py PATH/TO/feed     the same with what the command answers

An answer agrees when every expectation holds. It is less safe when it is bolder than the boldest
answer that the advice allows, feeds more, feeds sooner, puts in what must stay out, or leaves out
what is to be taken out or put in; anything else that differs is on the careful side.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
CASES = ROOT / "tests" / "cases" / "plans.json"

#: From the most careful answer to the boldest.
BOLDNESS = ["act_first", "wait", "feed_less", "feed"]
BEDDINGS = {"cardboard-corrugated", "newspaper", "leaves-mixed", "paper-office", "coir"}
ROUNDING_KG = 0.005


def read_cases() -> dict[str, Any]:
    """The whole file: its sources and its cases."""
    found: dict[str, Any] = json.loads(CASES.read_text(encoding="utf-8"))
    return found


def ask(command: Path, case: dict[str, Any]) -> dict[str, Any]:
    """What the command answers to a plan, as JSON; refuses a plan that it cannot read."""
    verb = case["input"].get("verb", ["ration"])
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plan.yaml"
        file.write_text(json.dumps(case["input"]["file"], indent=1), encoding="utf-8")
        words = [str(command), verb[0], str(file), *verb[1:], "--json"]
        # The day of the plans, for a command that asks the clock.
        env = {**os.environ, "SOURCE_DATE_EPOCH": "1777723200"}
        done = subprocess.run(words, capture_output=True, text=True, check=False, env=env)
    if done.returncode not in (0, 1) or not done.stdout:
        raise ValueError(f"{case['id']}: {done.stdout}{done.stderr}")
    answer: dict[str, Any] = json.loads(done.stdout)
    return answer


def put_in_kg(ration: dict[str, Any], what: str) -> float:
    """How much of a feedstock, or of bedding, water or lime, an answer puts in, kg."""
    if what == "water":
        return float(ration["water_kg"])
    if what == "lime":
        return float(ration["lime_kg"])
    names = BEDDINGS if what == "bedding" else {what}
    masses = [float(row["wet_mass_kg"]) for row in ration["put_in"] if row["feedstock"] in names]
    return sum(masses)


class Judgement:
    """What differs between an answer and the expectations, and whether any of it is less safe."""

    def __init__(self) -> None:
        self.bold: list[str] = []
        self.careful: list[str] = []

    @property
    def agrees(self) -> bool:
        """Every expectation holds."""
        return not self.bold and not self.careful


def judge_range(found: float, window: list[float], what: str, into: Judgement) -> None:
    """A number above its window is bold, one below it careful."""
    if found > window[1] + ROUNDING_KG:
        into.bold.append(f"{what} {found:.3g}, at most {window[1]:.3g}")
    if found < window[0] - ROUNDING_KG:
        into.careful.append(f"{what} {found:.3g}, at least {window[0]:.3g}")


def judge_materials(ration: dict[str, Any], expected: dict[str, Any], into: Judgement) -> None:
    """What goes in, stays out and is taken out."""
    for words in expected.get("put_in", []):
        if not any(put_in_kg(ration, word) > 0.0 for word in words.split("|")):
            into.bold.append(f"no {words}")
    for word in expected.get("keep_out", []):
        if put_in_kg(ration, word) > 0.0:
            into.bold.append(f"{word} put in")
    for word, most in expected.get("at_most_kg", {}).items():
        judge_range(put_in_kg(ration, word), [0.0, most], word, into)
    taken = {row["feedstock"] for row in ration["take_out"]}
    for word in expected.get("take_out", []):
        if word not in taken or put_in_kg(ration, word) > 0.0:
            into.bold.append(f"{word} not taken out")


def judge(answer: dict[str, Any], expected: dict[str, Any]) -> Judgement:
    """An answer of `feed ration` or `feed check` against one plan's expectations."""
    ration = answer.get("ration", answer)
    into = Judgement()
    found = ration["answer"]
    allowed = expected["answer"]
    if found not in allowed:
        boldest = max(BOLDNESS.index(word) for word in allowed)
        side = into.bold if BOLDNESS.index(found) > boldest else into.careful
        side.append(f"{found}, not {' or '.join(allowed)}")
    judge_range(ration.get("scraps_kg", 0.0), expected["scraps_kg"], "scraps", into)
    judge_materials(ration, expected, into)
    scraps = ration.get("scraps_kg", 0.0)
    if "bedding_per_kg" in expected and scraps > 0.0:
        ratio = put_in_kg(ration, "bedding") / scraps
        low, high = expected["bedding_per_kg"]
        if ratio < low:
            into.bold.append(f"bedding {ratio:.2g} kg/kg, at least {low}")
        if ratio > high:
            into.careful.append(f"bedding {ratio:.2g} kg/kg, at most {high}")
    if "next_look_days" in expected:
        low, high = expected["next_look_days"]
        day = ration["next_look"]["day"]
        if day > high:
            into.bold.append(f"next look in {day} days, at the latest {high}")
        if day < low:
            into.careful.append(f"next look in {day} days, at the earliest {low}")
    if "next_feeding_days" in expected:
        low, high = expected["next_feeding_days"]
        next_feeding = ration["next_feeding"]
        day = next_feeding["day"] if next_feeding else None
        if day is None:
            # Act first: the bed is looked at before a day is named.
            if found != "act_first":
                into.careful.append("no next feeding")
        elif day < low:
            into.bold.append(f"next feeding in {day} days, at the earliest {low}")
        elif day > high:
            into.careful.append(f"next feeding in {day} days, at the latest {high}")
    if "away_food_kg" in expected:
        judge_range(scraps, expected["away_food_kg"], "food before leaving", into)
    return into


def grams(kilograms: float) -> str:
    """A mass for the page."""
    return f"{kilograms:g} kg" if kilograms >= 1.0 else f"{round(1000 * kilograms)} g"


def expectation_text(expected: dict[str, Any]) -> str:
    """The expectations of one plan in a line."""
    parts = [" or ".join(word.replace("_", " ") for word in expected["answer"])]
    low, high = expected["scraps_kg"]
    if high == 0.0:
        parts.append("no food")
    elif low == 0.0:
        parts.append(f"at most {grams(high)}")
    else:
        parts.append(f"{grams(low)} to {grams(high)}")
    parts += [f"with {words.replace('|', ' or ')}" for words in expected.get("put_in", [])]
    parts += [f"no {word}" for word in expected.get("keep_out", [])]
    parts += [f"{w} at most {grams(m)}" for w, m in expected.get("at_most_kg", {}).items()]
    if expected.get("take_out"):
        parts.append("taken out: " + ", ".join(expected["take_out"]))
    if "bedding_per_kg" in expected:
        parts.append("bedding {:g} to {:g} of their weight".format(*expected["bedding_per_kg"]))
    if "next_look_days" in expected:
        parts.append("look in {} to {} days".format(*expected["next_look_days"]))
    if "next_feeding_days" in expected:
        parts.append("again in {} to {} days".format(*expected["next_feeding_days"]))
    if "away_food_kg" in expected:
        low, high = expected["away_food_kg"]
        parts.append(f"{grams(low)} to {grams(high)} before leaving")
    return "; ".join(parts)


def answer_text(answer: dict[str, Any]) -> str:
    """What was answered, in a few words."""
    ration = answer.get("ration", answer)
    text = str(ration["answer"]).replace("_", " ")
    scraps = ration.get("scraps_kg", 0.0)
    if scraps > 0.0:
        text += f", {grams(round(scraps, 3))}"
    return text


def table(command: Path | None) -> list[str]:
    """The rows of docs/bed.md."""
    head = "| plan | expected | advice |"
    rule = "|---|---|---|"
    if command:
        head += " feed ration | |"
        rule += "---|---|"
    lines = [head, rule]
    for case in read_cases()["cases"]:
        source = case["source"]
        keys = ", ".join([source["key"], *source.get("also", [])])
        title = case["input"]["file"]["title"]
        expected = expectation_text(case["expected"])
        row = f"| {case['id']} {title} | {expected} | {keys}: {source['place']} |"
        if command:
            answer = ask(command, case)
            judged = judge(answer, case["expected"])
            word = "agrees" if judged.agrees else ("less safe" if judged.bold else "more careful")
            row += f" {answer_text(answer)} | {word} |"
        lines.append(row)
    return lines


def sources() -> list[str]:
    """The list of advice below the table."""
    return [f"- {key}: {text}" for key, text in read_cases()["sources"].items()]


if __name__ == "__main__":
    print("\n".join(table(Path(sys.argv[1]) if len(sys.argv) > 1 else None)))
    print()
    print("\n".join(sources()))
