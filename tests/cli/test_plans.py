"""Forty plans with what experienced keepers expect (tests/cases/plans.json, docs/bed.md)."""

from __future__ import annotations

from pathlib import Path

import plans

CASES = plans.read_cases()["cases"]


def test_forty_plans_with_their_advice() -> None:
    """Each plan names its advice; the answers that are allowed are words of a ration."""
    found = plans.read_cases()
    assert len(CASES) >= 40
    assert len({case["id"] for case in CASES}) == len(CASES)
    for case in CASES:
        source = case["source"]
        assert source["place"], case["id"]
        for key in [source["key"], *source.get("also", [])]:
            assert key in found["sources"], case["id"]
        assert set(case["expected"]["answer"]) <= set(plans.BOLDNESS), case["id"]


def test_the_answers_agree_with_keepers(feed_command: Path) -> None:
    """At least 36 of 40 agree; none of the rest is less safe without a reason written beside it."""
    agree = 0
    for case in CASES:
        judged = plans.judge(plans.ask(feed_command, case), case["expected"])
        agree += judged.agrees
        known = case.get("known_disagreement")
        if judged.bold:
            assert known, f"{case['id']} is less safe: {judged.bold}"
            assert known["cause"]
            assert judged.bold == [known["ours"]], case["id"]
        else:
            assert not known, f"{case['id']} agrees by now"
    assert agree >= 36, f"{agree} of {len(CASES)} agree"


def test_the_page_has_the_table(feed_command: Path, source_dir: Path) -> None:
    """Renew with: python3 tests/tooling/plans.py PATH/TO/feed, between the comments of the page."""
    page = (source_dir / "docs" / "bed.md").read_text(encoding="utf-8")
    for name, lines in (("plans", plans.table(feed_command)), ("advice", plans.sources())):
        written = page.split(f"<!-- {name}: begin -->\n")[1].split(f"<!-- {name}: end -->")[0]
        assert written.splitlines() == lines
