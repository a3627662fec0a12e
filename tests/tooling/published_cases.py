"""The reference cases of tests/cases that the command can express, as questions to it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

OBJECTIVES = {"least_added": "least added", "closest_to_aims": "closest to the aims"}


def material(portion: dict[str, Any]) -> dict[str, Any]:
    """A feedstock of the case's own, in the file form."""
    given: dict[str, str] = {
        key: f"{portion[key] * 100:.12g} %" for key in ("carbon", "nitrogen") if key in portion
    }
    if "cn_ratio" in portion:
        given["cn_ratio"] = f"{portion['cn_ratio']:.12g}"
    moisture = f"{portion['moisture'] * 100:.12g} %"
    if portion.get("basis", "dry") == "as_received":
        return {"laboratory_report": {"basis": "as received", "moisture": moisture, **given}}
    own: dict[str, Any] = {"moisture": moisture, **given}
    if "bulk_density" in portion:
        own["bulk_density"] = f"{portion['bulk_density']:.12g} kg/m3"
    if "role" in portion:
        own["roles"] = portion["role"]
    return own


def blend_content(case: dict[str, Any]) -> dict[str, Any]:
    content: dict[str, Any] = {"libfeed": 1, "feedstocks": {}, "blend": []}
    for portion in case["input"]["portions"]:
        name = portion.get("feedstock")
        if name is None:
            name = f"case {portion['name']}"
            content["feedstocks"][name] = material(portion)
        content["blend"].append({"feedstock": name, "amount": f"{portion['wet_mass_kg']:.12g} kg"})
    return content


def window(target: dict[str, Any]) -> dict[str, str]:
    """Low, high and aim of a target: fractions in percent, ratios as they are."""
    share = target["property"] == "moisture"
    return {
        key: f"{target[key] * 100:.12g} %" if share else f"{target[key]:.12g}"
        for key in ("low", "high", "aim")
        if target.get(key) is not None
    }


def balance_content(case: dict[str, Any]) -> dict[str, Any]:
    given = case["input"]
    content: dict[str, Any] = {"libfeed": 1, "feedstocks": {}}
    at_hand = []
    for entry in given["entries"]:
        name = f"case {entry['name']}"
        content["feedstocks"][name] = material(entry)
        exactly = entry.get("exactly_kg")
        amount = "any" if exactly is None else f"{exactly:.12g} kg"
        at_hand.append({"feedstock": name, "amount": amount})
    targets: dict[str, Any] = {"set": "none"}
    targets.update({target["property"]: window(target) for target in given["targets"]})
    content["balance"] = {"at_hand": at_hand, "targets": targets}
    if "objective" in given:
        content["balance"]["objective"] = OBJECTIVES[given["objective"]]
    return content


def all_cases(folder: Path) -> Iterator[dict[str, Any]]:
    for path in sorted(folder.glob("*.json")):
        yield from json.loads(path.read_text(encoding="utf-8")).get("cases", [])


def case_files(cases: Path, folder: Path) -> Iterator[tuple[str, str]]:
    """(verb, file or name) of each case; files are written to `folder`. Each question once."""
    shown = set()
    for case in all_cases(cases):
        if case["call"] == "table_value" and case["input"]["feedstock"] not in shown:
            shown.add(case["input"]["feedstock"])
            yield "show", case["input"]["feedstock"]
        content = {"blend": blend_content, "balance": balance_content}.get(case["call"])
        if content is not None:
            path = folder / f"{case['id']}.json"
            path.write_text(json.dumps(content(case)), encoding="utf-8")
            yield case["call"], str(path)
