"""The counter of tests/run.sh must not count a failure as a success."""

from __future__ import annotations

from pathlib import Path

import count_cases
import pytest


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
        entry("8 inputs", "Test Passed.")
        + entry("oh", "Test Failed.")
        + entry("", "Test timed out.")
    )
    text += entry("Done 9 runs in 1 second(s)", "Test Passed.")
    assert count_cases.count_ctest(text) == (2, 2)


def test_a_crash_after_the_summary_is_a_failure() -> None:
    text = entry("All tests passed (7 assertions in 3 test cases)", "Test Failed.")
    assert count_cases.count_ctest(text) == (0, 1)


def test_a_program_without_a_case_is_a_failure() -> None:
    assert count_cases.count_ctest(entry("No tests ran", "Test Passed.")) == (0, 1)


@pytest.mark.parametrize("output", ["", "half of the way", "0 inputs"])
def test_a_program_that_dies_with_exit_code_0_is_a_failure(output: str) -> None:
    assert count_cases.count_ctest(entry(output, "Test Passed.")) == (0, 1)


JUNIT = """<testsuites><testsuite tests="9" failures="1" errors="2" skipped="2">
<testcase classname="tests.a" name="b"><skipped message="not here"/></testcase>
<testcase classname="tests.a" name="c"><skipped message="not here"/></testcase>
</testsuite></testsuites>"""


def test_a_skipped_case_is_a_failure_unless_it_is_listed() -> None:
    assert count_cases.count_junit(JUNIT, {"tests.a::b", "tests.a::c"}) == (4, 3)
    assert count_cases.count_junit(JUNIT, {"tests.a::b"}) == (4, 4)
    assert count_cases.count_junit(JUNIT, set()) == (4, 5)


def test_the_list_of_skips_is_read_without_its_remarks() -> None:
    assert all("#" not in name for name in count_cases.may_skip())


def test_an_empty_record_is_refused(tmp_path: Path) -> None:
    record = tmp_path / "LastTest.log"
    record.write_text("Start testing\n", encoding="utf-8")
    assert count_cases.main(["ctest", str(record)]) == 1
