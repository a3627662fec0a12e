"""Count the cases in a test runner's record: count_cases.py ctest LastTest.log | junit FILE.xml.

Prints "PASSED FAILED". A Catch2 program is counted by its test cases, any other ctest entry as one.
"""

from __future__ import annotations

import re
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

ENTRY = re.compile(r"^\d+/\d+ Test: ", re.MULTILINE)
ALL_PASSED = re.compile(r"^All tests passed \(\d+ assertions? in (\d+) test cases?\)", re.MULTILINE)
SOME_FAILED = re.compile(r"^test cases: +(\d+) \|(.*)$", re.MULTILINE)
FAILED = re.compile(r"(\d+) failed")


def count_ctest(text: str) -> tuple[int, int]:
    """Cases passed and failed in ctest's LastTest.log."""
    passed = failed = 0
    for entry in ENTRY.split(text)[1:]:
        ok = re.search(r"^Test Passed\.", entry, re.MULTILINE) is not None
        whole = ALL_PASSED.search(entry)
        some = SOME_FAILED.search(entry)
        if ok and whole:
            passed += int(whole.group(1))
        elif some:
            wrong = FAILED.search(some.group(2))
            bad = max(int(wrong.group(1)) if wrong else 0, 0 if ok else 1)
            failed += bad
            passed += int(some.group(1)) - bad
        elif ok and "No tests ran" not in entry:
            passed += 1
        else:
            failed += 1
    return passed, failed


def count_junit(text: str) -> tuple[int, int]:
    """Cases passed and failed in a JUnit file; skipped ones count as neither."""
    passed = failed = 0
    for suite in ElementTree.fromstring(text).iter("testsuite"):
        bad = int(suite.get("failures", 0)) + int(suite.get("errors", 0))
        failed += bad
        passed += int(suite.get("tests", 0)) - bad - int(suite.get("skipped", 0))
    return passed, failed


def main(arguments: list[str]) -> int:
    kind, path = arguments
    text = Path(path).read_text(encoding="utf-8", errors="replace")
    passed, failed = {"ctest": count_ctest, "junit": count_junit}[kind](text)
    print(passed, failed)
    return 0 if passed + failed > 0 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
