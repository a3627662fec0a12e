"""The switches must change what they say, and nothing while they are off."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest
from instrument import Mutant, instrument

HEADER = """\
#pragma once
#include <algorithm>
#include <array>
#include <string>
namespace feed {
enum class Level { none, watch, act };
struct Limit { double watch; double act; };
inline constexpr Limit heat{35.0, 45.0};
inline constexpr std::array<double, 3> steps{1.0, 2.0, 4.0};
inline constexpr int count = 3;
inline Level level_of(double value) {
    if (value >= heat.act) return Level::act;
    return value > heat.watch ? Level::watch : Level::none;
}
inline double mixed(double a, double b) { return std::max(a + 2.0 * b, 1.0); }
inline bool both(bool a, bool b) { return a && b; }
inline std::string said(double x) { return "x" + std::to_string(count) + (x == 0 ? "" : "!"); }
static_assert(count == 3);
}  // namespace feed
"""

MAIN = """\
#include <cstdio>
#include "feed/feed.hpp"
using namespace feed;
int main() {
    for (const double value : {20.0, 35.0, 36.0, 45.0, 50.0})
        std::printf("%d ", static_cast<int>(level_of(value)));
    std::printf("%g %g %d %d %s", mixed(3, 4), mixed(-3, 0), both(true, false), both(true, true),
                said(1).c_str());
    for (const double step : steps) std::printf(" %g", step);
    std::printf(" %g %g\\n", heat.act, heat.watch);
}
"""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[Mutant], Path]:
    """All mutants of the header above, and a program that prints what they change."""
    folder = tmp_path_factory.mktemp("mutants")
    layer = folder / "include" / "feed" / "blend"
    layer.mkdir(parents=True)
    (layer / "small.hpp").write_text(HEADER, encoding="utf-8")
    (layer.parent / "feed.hpp").write_text(
        '#pragma once\n#include "feed/blend/small.hpp"\n', encoding="utf-8"
    )
    (folder / "main.cpp").write_text(MAIN, encoding="utf-8")
    target = folder / "instrumented"
    mutants = instrument(folder / "include", target, folder / "mutants.json")
    program = folder / "main"
    words = ["g++", "-std=c++20", "-include", str(target / "feed" / "mutant.hpp"), f"-I{target}"]
    subprocess.run([*words, str(folder / "main.cpp"), "-o", str(program)], check=True)
    return mutants, program


def output(program: Path, mutant: int | None, reached: Path | None = None) -> str:
    environment = {**os.environ}
    if mutant is not None:
        environment["FEED_MUTANT"] = str(mutant)
    if reached is not None:
        environment["FEED_MUTANT_REACHED"] = str(reached)
    done = subprocess.run([program], env=environment, capture_output=True, text=True, check=True)
    return done.stdout


PLAIN = "0 0 1 2 2 11 1 0 1 x3! 1 2 4 45 35\n"


def test_with_no_switch_on_nothing_changes(built: tuple[list[Mutant], Path]) -> None:
    assert output(built[1], None) == PLAIN
    assert output(built[1], 10**6) == PLAIN


@pytest.mark.parametrize(
    ("change", "source", "expected"),
    [
        (">= to >", "value >= heat.act", "0 0 1 1 2 11 1 0 1 x3! 1 2 4 45 35\n"),
        ("> to >=", "value > heat.watch", "0 1 1 2 2 11 1 0 1 x3! 1 2 4 45 35\n"),
        ("+ to -", "a + 2.0 * b", "0 0 1 2 2 1 1 0 1 x3! 1 2 4 45 35\n"),
        ("right of + dropped", "a + 2.0 * b", "0 0 1 2 2 3 1 0 1 x3! 1 2 4 45 35\n"),
        ("* to /", "2.0 * b", "0 0 1 2 2 3.5 inf 0 1 x3! 1 2 4 45 35\n"),
        ("* 1.1", "2.0", None),
        ("max to min", "std::max(a + 2.0 * b, 1.0)", "0 0 1 2 2 1 -3 0 1 x3! 1 2 4 45 35\n"),
        ("right of && dropped", "a && b", "0 0 1 2 2 11 1 1 1 x3! 1 2 4 45 35\n"),
        ("== to !=", "x == 0", "0 0 1 2 2 11 1 0 1 x3 1 2 4 45 35\n"),
        ("to watch", "heat.act", "0 2 2 2 2 11 1 0 1 x3! 1 2 4 45 35\n"),
        ("to none", "Level::act", "0 0 1 0 0 11 1 0 1 x3! 1 2 4 45 35\n"),
        ("* 1.1", "45.0", "0 0 1 1 2 11 1 0 1 x3! 1 2 4 49.5 35\n"),
        ("rows 2 and 3 swapped", "steps{1.0, 2.0, 4.0}", "0 0 1 2 2 11 1 0 1 x3! 1 4 2 45 35\n"),
    ],
)
def test_each_rule(
    built: tuple[list[Mutant], Path], change: str, source: str, expected: str | None
) -> None:
    mutants, program = built
    found = [each for each in mutants if each.change == change and source in each.source]
    assert found, [(each.change, each.source) for each in mutants]
    outputs = {output(program, each.id) for each in found}
    assert PLAIN not in outputs
    if expected is not None:
        assert expected in outputs


def test_every_mutant_of_the_header_shows(built: tuple[list[Mutant], Path]) -> None:
    mutants, program = built
    same = [each for each in mutants if output(program, each.id) == PLAIN]
    # A table's numbers are read only once; a tenth more of these is printed and so is seen.
    assert not same, [(each.change, each.source, each.line) for each in same]


def test_places_that_were_reached_are_told(
    built: tuple[list[Mutant], Path], tmp_path: Path
) -> None:
    mutants, program = built
    output(program, None, tmp_path / "reached")
    reached = {int(line) for line in (tmp_path / "reached").read_text().split()}
    assert reached <= {each.id for each in mutants} | {each.id + 1 for each in mutants}
    assert len(reached) > len(mutants) // 2


def test_texts_and_static_assertions_are_left_alone(built: tuple[list[Mutant], Path]) -> None:
    mutants, program = built
    assert not [each for each in mutants if '"x"' in each.source]
    record = json.loads((program.parent / "mutants.json").read_text(encoding="utf-8"))
    assert record["left_out"] == []


def test_keys_are_of_one_mutant_each(built: tuple[list[Mutant], Path]) -> None:
    keys = [each.key for each in built[0]]
    assert len(set(keys)) == len(keys)
