"""The list of large functions can only shrink."""

from __future__ import annotations

from pathlib import Path

from function_size import Size, measured, problems, read_list, written

LONG = "int long_one(int x) {\n" + "    ++x;\n" * 90 + "    return x;\n}\n"
BRANCHY = "int branchy(int x) {\n" + "    if (x) ++x;\n" * 25 + "    return x;\n}\n"
SHORT = "int small(int x) { return x; }\n"


def test_too_long_and_too_branchy_are_found(tmp_path: Path) -> None:
    (tmp_path / "a.cpp").write_text(LONG + BRANCHY + SHORT, encoding="utf-8")
    sizes = measured(tmp_path, ["a.cpp"])
    assert sizes == {"a.cpp: long_one": Size(93, 1), "a.cpp: branchy": Size(28, 26)}


def test_what_is_listed_may_stay_and_nothing_else() -> None:
    size = {"a: f": Size(90, 5)}
    assert problems(size, size) == []
    assert problems(size, {"a: f": Size(95, 5)}) == []
    assert len(problems(size, {})) == 1
    assert len(problems(size, {"a: f": Size(89, 5)})) == 1
    assert len(problems({"a: f": Size(70, 25)}, {"a: f": Size(70, 24)})) == 1


def test_an_entry_that_is_not_needed_is_a_problem() -> None:
    assert len(problems({}, {"a: f": Size(90, 5)})) == 1


def test_a_list_reads_as_it_was_written(tmp_path: Path) -> None:
    sizes = {"a.cpp: feed::f": Size(90, 5), "b.py: g": Size(3, 30)}
    (tmp_path / "list.yaml").write_text(written(sizes), encoding="utf-8")
    assert read_list(tmp_path / "list.yaml") == sizes
