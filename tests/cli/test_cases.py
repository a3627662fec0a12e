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
from published_cases import all_cases, blend_content

FOLDER = Path(__file__).resolve().parent.parent / "cases"


def cases(call: str) -> list[Any]:
    return [pytest.param(case, id=case["id"]) for case in all_cases(FOLDER) if case["call"] == call]


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


@pytest.mark.parametrize("case", cases("blend"))
def test_blend(case: dict[str, Any], feed_command: Path, tmp_path: Path) -> None:
    path = tmp_path / "case.json"
    path.write_text(json.dumps(blend_content(case)), encoding="utf-8")
    answer = run(feed_command, "blend", path)
    plain = {
        key: value.get("value", value.get("at_least")) if isinstance(value, dict) else value
        for key, value in answer.items()
    }
    compare(case, plain)


def test_there_are_cases_of_both_kinds() -> None:
    assert len(cases("table_value")) > 50
    assert len(cases("blend")) > 5
