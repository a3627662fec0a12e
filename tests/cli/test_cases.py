"""The shared reference cases, through the command and the file form.

Calls that the command can express: `table_value` (feed show --json) and `blend` (feed blend --json
on a file). The others are for the runners of the library.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

FOLDER = Path(__file__).resolve().parent.parent / "cases"


def cases(call: str) -> list[Any]:
    found = []
    for path in sorted(FOLDER.glob("*.json")):
        for case in json.loads(path.read_text(encoding="utf-8")).get("cases", []):
            if case["call"] == call:
                found.append(pytest.param(case, id=case["id"]))
    return found


def run(feed_command: Path, *words: str | Path) -> dict[str, Any]:
    result = subprocess.run(
        [feed_command, *words, "--json"], capture_output=True, text=True, check=False
    )
    assert result.returncode == 0, result.stdout + result.stderr
    answer: dict[str, Any] = json.loads(result.stdout)
    return answer


def band(expected: dict[str, float]) -> tuple[float, float]:
    """The range that counts as right."""
    low = expected.get("low", expected.get("value", 0.0))
    high = expected.get("high", expected.get("value", 0.0))
    slack_low = expected.get("abs", expected.get("rel", 0.0) * abs(low))
    slack_high = expected.get("abs", expected.get("rel", 0.0) * abs(high))
    return low - slack_low, high + slack_high


def compare(case: dict[str, Any], ours: dict[str, Any]) -> None:
    assert case["expected"]
    for key, expected in case["expected"].items():
        value = ours[key]
        if not isinstance(expected, dict):
            assert value == expected
            continue
        low, high = band(expected)
        disagreement = case.get("known_disagreement")
        if disagreement is None:
            assert low <= value <= high, f"{key}: {value} is not in {low}..{high}"
        else:
            # Pinned: still that number, still outside on that side.
            assert value == pytest.approx(disagreement["ours"], rel=5e-3)
            assert value > high if disagreement["direction"] == "above" else value < low


@pytest.mark.parametrize("case", cases("table_value"))
def test_table_value(case: dict[str, Any], feed_command: Path) -> None:
    answer = run(feed_command, "show", case["input"]["feedstock"])
    values = {value["property"]: value["value"] for value in answer["values"]}
    compare(case, values)


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
    own = {"moisture": moisture, **given}
    if "bulk_density" in portion:
        own["bulk_density"] = f"{portion['bulk_density']:.12g} kg/m3"
    return own


@pytest.mark.parametrize("case", cases("blend"))
def test_blend(case: dict[str, Any], feed_command: Path, tmp_path: Path) -> None:
    content: dict[str, Any] = {"libfeed": 1, "feedstocks": {}, "blend": []}
    for portion in case["input"]["portions"]:
        name = portion.get("feedstock")
        if name is None:
            name = f"case {portion['name']}"
            content["feedstocks"][name] = material(portion)
        content["blend"].append({"feedstock": name, "amount": f"{portion['wet_mass_kg']:.12g} kg"})
    path = tmp_path / "case.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    answer = run(feed_command, "blend", path)
    plain = {
        key: value.get("value", value.get("at_least")) if isinstance(value, dict) else value
        for key, value in answer.items()
    }
    compare(case, plain)


def test_there_are_cases_of_both_kinds() -> None:
    assert len(cases("table_value")) > 50
    assert len(cases("blend")) > 5
