"""The comparer must find what differs, and only that."""

from __future__ import annotations

import json
import re
import stat
from pathlib import Path
from typing import Any

import compare_answers
import pytest
from compare_answers import Answer, Comparer, Group, Job
from random_files import VERBS, Shelves, Writer, write_files

ROWS = [
    {"id": f"{group}-{number}", "group": group, "stance": "avoid" if number == 3 else "feed"}
    for group in ("scraps", "beddings", "guarded", "manures", "amendments", "water")
    for number in range(4)
]


def found(one: Any, two: Any) -> list[tuple[str, str]]:
    return [(each.key, each.change) for each in Comparer().differences(one, two)]


def test_equal_trees_have_no_difference() -> None:
    tree = {"a": [1, {"hazard": "dry", "value": 0.1}], "b": None, "c": "text"}
    assert found(tree, json.loads(json.dumps(tree))) == []


@pytest.mark.parametrize(
    ("one", "two", "same"),
    [
        (1.0, 1.0 + 5e-10, True),  # the stated tolerance, 1e-9 of the larger
        (1.0, 1.0 + 5e-9, False),
        (0.0, 5e-13, True),  # the stated one beside zero, 1e-12
        (0.0, 5e-12, False),
        (1e6, 1e6 + 1e-4, True),
        (3, 3.0, True),
        (-1.0, 1.0, False),
    ],
)
def test_tolerance(one: float, two: float, same: bool) -> None:
    assert (found({"x": one}, {"x": two}) == []) is same
    assert (found({"x": two}, {"x": one}) == []) is same


def test_largest_relative_change_is_of_the_larger() -> None:
    (difference,) = Comparer().differences({"x": 2.0}, {"x": 1.0})
    assert difference.relative == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("one", "two"),
    [(1, True), (0, False), (0, None), ("1", 1), ([], {}), ("a", "b"), ([1], 1), (None, {})],
)
def test_kinds_are_told_apart(one: Any, two: Any) -> None:
    assert found({"x": one}, {"x": two}) == [("x", "value")]


def test_keys_that_come_and_go() -> None:
    assert found({"a": {"b": 1}}, {"a": {"c": 1}}) == [("a.b", "removed"), ("a.c", "added")]
    assert found({"a": None}, {}) == [("a", "removed")]


def test_entries_are_matched_by_what_they_are_about() -> None:
    one = [{"hazard": "dry", "value": 1}, {"hazard": "hot", "value": 2}]
    two = [{"hazard": "hot", "value": 3}]
    assert found({"h": one}, {"h": two}) == [("h[dry]", "removed"), ("h[hot].value", "value")]


def test_a_changed_order_is_a_difference() -> None:
    one = [{"feedstock": "a", "kg": 1}, {"feedstock": "b", "kg": 2}]
    assert found({"p": one}, {"p": one[::-1]}) == [("p[order]", "value")]


def test_entries_without_a_name_are_matched_by_place() -> None:
    assert found([1, 2], [1, 3, 4]) == [("[]", "value"), ("[]", "added")]
    twice = [{"feedstock": "a", "kg": 1}, {"feedstock": "a", "kg": 2}]
    other = [{"feedstock": "a", "kg": 1}, {"feedstock": "a", "kg": 3}]
    assert found(twice, other) == [("[].kg", "value")]


def test_exit_codes_and_what_is_no_json() -> None:
    def keys(one: Answer, two: Answer) -> list[str]:
        return [each.key for each in Comparer().answers(one, two)]

    assert keys(Answer(0, "{}"), Answer(0, "{}")) == []
    assert keys(Answer(0, '{"a": 1}'), Answer(2, '{"errors": []}')) == ["(exit code)"]
    assert keys(Answer(0, '{"a": 1}'), Answer(1, '{"a": 2}')) == ["(exit code)", "a"]
    assert keys(Answer(0, "{}"), Answer(-1, "killed")) == ["(exit code)", "(text)"]


def test_groups_count_answers_and_places() -> None:
    jobs = [Job("check", "one"), Job("check", "two"), Job("blend", "two")]
    before = [Answer(0, '{"p": [{"x": 1}, {"x": 1}]}'), Answer(0, '{"p": [{"x": 1}]}')]
    after = [Answer(0, '{"p": [{"x": 2}, {"x": 4}]}'), Answer(0, '{"p": [{"x": 5}]}')]
    same = Answer(0, "{}")
    groups = compare_answers.grouped(jobs, [*before, same], [*after, same], Comparer())
    assert list(groups) == [("check", "p[].x", "value")]
    group = groups["check", "p[].x", "value"]
    assert (len(group.answers), group.places, group.first) == (2, 3, "one")
    assert group.relative == pytest.approx(0.8)


def explained(entry: dict[str, Any], key: str, relative: float | None = None) -> bool:
    group = Group(relative=relative)
    unused = compare_answers.explain({("check", key, "value"): group}, [{"why": "w", **entry}])
    assert bool(unused) is (group.explained is None)
    return group.explained is not None


def test_a_list_explains_what_it_names_and_no_more() -> None:
    assert explained({"key": "hazards[dry].*"}, "hazards[dry].value")
    assert not explained({"key": "hazards[dry].*"}, "hazards[hot].value")
    assert not explained({"key": "hazards[dry]"}, "hazards[dry].value")
    assert explained({"key": "*", "verb": "check"}, "a")
    assert not explained({"key": "*", "verb": "blend"}, "a")
    assert not explained({"key": "a", "change": "added"}, "a")
    assert explained({"key": "a", "at_most": 0.05}, "a", 0.04)
    assert not explained({"key": "a", "at_most": 0.05}, "a", 0.06)


@pytest.mark.parametrize("text", ["- {key: a}", "- {why: a}", "- a", "- {key: a, why: b, oops: 1}"])
def test_a_list_without_reasons_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "list.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match="entry 1"):
        compare_answers.read_explained(path)


def command(folder: Path, name: str, value: float) -> str:
    """A command that knows a table and answers every question alike."""
    path = folder / name
    table, answer = json.dumps({"feedstocks": ROWS}), json.dumps({"value": value})
    path.write_text(
        f"#!/bin/sh\nif [ \"$1\" = table ]; then echo '{table}'; else echo '{answer}'; fi\n",
        encoding="utf-8",
    )
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return str(path)


def test_the_whole(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    one, two = command(tmp_path, "one", 1.0), command(tmp_path, "two", 1.01)
    few = ["--count", "8", "--verbs", "balance,forecast"]
    assert compare_answers.main([one, one, *few]) == 0
    assert compare_answers.main([one, two, *few, "--cache", str(tmp_path / "kept")]) == 1
    assert re.search(r"forecast value value: \d+ answers", capsys.readouterr().out)
    meant = tmp_path / "meant.yaml"
    meant.write_text("- {key: value, at_most: 0.02, why: a test}\n", encoding="utf-8")
    again = [*few, "--cache", str(tmp_path / "kept"), "--explained", str(meant)]
    assert compare_answers.main([one, two, *again]) == 0
    assert compare_answers.main([one, one, "--verbs", "none", "--count", "4"]) == 1


def test_random_files_depend_on_the_seed_only(tmp_path: Path) -> None:
    def texts(name: str, seed: int) -> list[str]:
        (tmp_path / name).mkdir()
        paths = write_files(tmp_path / name, ROWS, 40, seed)
        assert [path.name.split("_")[0] for path in paths] == list(VERBS) * 10
        return [path.read_text(encoding="utf-8") for path in paths]

    assert texts("one", 1) == texts("two", 1)
    assert texts("three", 2) != texts("four", 1)
    assert len(set(texts("five", 3))) == 40


def test_random_files_hold_what_their_verb_reads() -> None:
    contents = {verb: Writer(Shelves(ROWS), 7).file(verb) for verb in VERBS}
    assert contents["blend"]["blend"]
    assert contents["balance"]["balance"]["at_hand"]
    assert "bed" in contents["check"]
    assert {"feedings", "blend"} & set(contents["forecast"])


def test_barred_feedstocks_are_drawn_as_barred_only() -> None:
    shelves = Shelves(ROWS)
    assert "scraps-3" not in shelves.of("scraps")
    assert "scraps-3" in shelves.of("barred")
