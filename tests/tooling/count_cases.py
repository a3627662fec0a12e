"""Count the cases in a test runner's record: count_cases.py ctest LastTest.log | junit FILE.xml.

Prints "PASSED FAILED". A Catch2 program is counted by its test cases, any other ctest entry as one.
A program that ends without its last line has died on the way and counts as a failure, whatever its
exit code. A skipped case is a failure unless skips.txt beside this file lists it.
"""

from __future__ import annotations

import re
import sys
import xml.etree.ElementTree as ElementTree
from collections.abc import Collection
from pathlib import Path

ENTRY = re.compile(r"^\d+/\d+ Test: ", re.MULTILINE)
ALL_PASSED = re.compile(r"^All tests passed \(\d+ assertions? in (\d+) test cases?\)", re.MULTILINE)
SOME_FAILED = re.compile(r"^test cases: +(\d+) \|(.*)$", re.MULTILINE)
FAILED = re.compile(r"(\d+) failed")
# The last line of a program that is no Catch2 program: support/fuzz_corpus_main.cpp, libFuzzer.
INPUTS = re.compile(r"^([1-9]\d* inputs$|Done [1-9]\d* runs in )", re.MULTILINE)
SKIPS = Path(__file__).resolve().parent / "skips.txt"


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
        elif ok and INPUTS.search(entry):
            passed += 1
        else:
            failed += 1
    return passed, failed


def may_skip() -> set[str]:
    """The names in skips.txt."""
    lines = SKIPS.read_text(encoding="utf-8").splitlines()
    return {line.split("#")[0].strip() for line in lines} - {""}


def count_junit(text: str, listed: Collection[str]) -> tuple[int, int]:
    """Cases passed and failed in a JUnit file; listed skips count as neither, others as failed."""
    passed = failed = 0
    root = ElementTree.fromstring(text)
    for suite in root.iter("testsuite"):
        bad = int(suite.get("failures", 0)) + int(suite.get("errors", 0))
        failed += bad
        passed += int(suite.get("tests", 0)) - bad - int(suite.get("skipped", 0))
    for case in root.iter("testcase"):
        name = f"{case.get('classname')}::{case.get('name')}"
        if case.find("skipped") is not None and name not in listed:
            failed += 1
            print(f"skipped and not listed: {name}", file=sys.stderr)
    return passed, failed


def main(arguments: list[str]) -> int:
    kind, path = arguments
    text = Path(path).read_text(encoding="utf-8", errors="replace")
    passed, failed = count_ctest(text) if kind == "ctest" else count_junit(text, may_skip())
    print(passed, failed)
    return 0 if passed + failed > 0 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
