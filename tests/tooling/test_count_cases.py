"""The counter of tests/run.sh must not count a failure as a success."""

from __future__ import annotations

from pathlib import Path

import count_cases


def entry(output: str, verdict: str) -> str:
    return (
        f"1/9 Testing: a\n1/9 Test: a\nCommand: a\nOutput:\n{output}\n<end of output>\n{verdict}\n"
    )


def test_catch_programs_are_counted_by_case() -> None:
    text = entry("All tests passed (7 assertions in 3 test cases)", "Test Passed.")
    text += entry("test cases:  5 |  3 passed | 2 failed", "Test Failed.")
    assert count_cases.count_ctest(text) == (6, 2)


def test_other_programs_count_as_one() -> None:
    text = (
        entry("fine", "Test Passed.") + entry("oh", "Test Failed.") + entry("", "Test timed out.")
    )
    assert count_cases.count_ctest(text) == (1, 2)


def test_a_crash_after_the_summary_is_a_failure() -> None:
    text = entry("All tests passed (7 assertions in 3 test cases)", "Test Failed.")
    assert count_cases.count_ctest(text) == (0, 1)


def test_a_program_without_a_case_is_a_failure() -> None:
    assert count_cases.count_ctest(entry("No tests ran", "Test Passed.")) == (0, 1)


def test_junit_counts_errors_and_leaves_out_skips() -> None:
    text = '<testsuites><testsuite tests="9" failures="1" errors="2" skipped="3"/></testsuites>'
    assert count_cases.count_junit(text) == (3, 3)


def test_an_empty_record_is_refused(tmp_path: Path) -> None:
    record = tmp_path / "LastTest.log"
    record.write_text("Start testing\n", encoding="utf-8")
    assert count_cases.main(["ctest", str(record)]) == 1
