"""Tests that only Catch2 v2 would take: this machine has one version, others have the other."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

TESTS = Path(__file__).resolve().parents[1]
SOURCES = sorted([*TESTS.rglob("*.cpp"), *TESTS.rglob("*.hpp")])
OWN = {TESTS / "support" / "catch2.hpp", TESTS / "support" / "catch2_main.cpp"}


def complaints(text: str) -> list[str]:
    """What ties a test to one version of Catch2."""
    found = []
    if re.search(r"#include <catch2/", text):
        found.append("includes Catch2 itself, not catch2.hpp")
    bare = re.search(r"(?<![:\w])Approx\(", text)
    if bare and "using feed_test::Approx;" not in text:
        found.append("Approx is global in version 2 only: using feed_test::Approx")
    if "Catch::Detail" in text:
        found.append("Catch::Detail is of version 2 only")
    return found


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(TESTS).as_posix())
def test_fits_both_versions(path: Path) -> None:
    if path not in OWN:
        assert complaints(path.read_text(encoding="utf-8")) == []


def test_a_test_for_one_version_is_seen() -> None:
    assert len(complaints("#include <catch2/catch.hpp>\nCHECK(a == Approx(1));\n")) == 2
    assert complaints("CHECK(a == Catch::Detail::Approx(1));\n") != []
    assert complaints("using feed_test::Approx;\nCHECK(a == Approx(1));\n") == []
