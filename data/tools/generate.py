#!/usr/bin/env python3
"""Writes the table header, docs/feedstocks.md and docs/disagreements.md.

With --check nothing is written: exit 1 if the committed files differ from a fresh run.
"""

from __future__ import annotations

import argparse
import sys
from decimal import Decimal
from pathlib import Path

from disagreements import disagreements_page
from fill import full_values, measure_range
from model import Citation, Feedstock, Table
from names_reader import read_names
from names_writer import names_header
from problems import Problems
from signs_header import signs_header
from signs_reader import read_sign_words
from table_loader import ROOT, content_sha256, load_table

from docs import feedstock_page

LAYOUT_VERSION = 2
HEADER = Path("libfeed/include/feed/feedstock/generated/table.hpp")
SIGNS = Path("libfeed/include/feed/diary/generated/sign_words.hpp")
PAGE = Path("docs/feedstocks.md")
DISAGREEMENTS = Path("docs/disagreements.md")
# Factor from a unit of the data files to the stored unit.
STORED = {
    "%": Decimal("0.01"),
    "% CaCO3": Decimal("0.01"),
    "g/100 g": Decimal("0.01"),
    "g citric/kg": Decimal("0.001"),
    "mg/100 g": Decimal("0.00001"),
    "1": Decimal(1),
    "pH": Decimal(1),
    "dS/m": Decimal(1),
    "kg/m3": Decimal(1),
    "g/g": Decimal(1),
}


def quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ")
    return f'"{escaped}"'


def plain(number: Decimal) -> str:
    """The shortest decimal text of a number, a C++ double literal."""
    text = format(number.normalize(), "f")
    return text if "." in text else text + ".0"


class Citations:
    """Citations in order of first use, each once."""

    def __init__(self) -> None:
        self._index: dict[tuple[str, str], int] = {}

    def index(self, citation: Citation) -> int:
        return self._index.setdefault((citation.text, citation.method), len(self._index))

    def rows(self) -> list[str]:
        return [f"{{{quoted(sources)}, {quoted(method)}}}" for sources, method in self._index]


def bits(kind: str, names: tuple[str, ...]) -> str:
    if not names:
        return "0"
    return " | ".join(f"bits::{kind}({kind.capitalize()}::{name})" for name in names)


class HeaderWriter:
    """Collects the flat arrays of the header."""

    def __init__(self, table: Table) -> None:
        self.table = table
        self.citations = Citations()
        self.values: list[str] = []
        self.value_lines: list[str] = []
        self.measures: list[str] = []
        self.feedstocks: list[str] = []
        self.rows = sorted(table.feedstocks, key=lambda row: row.id)
        for row in self.rows:
            self._feedstock(row)

    def _feedstock(self, row: Feedstock) -> None:
        first_value, first_measure = len(self.values), len(self.measures)
        self.value_lines.append(f"    // {row.id}")
        for value in full_values(row, self.table.rules):
            kind = self.table.rules.kinds[value.key]
            factor = STORED[kind.unit]
            numbers = ", ".join(plain(n * factor) for n in (value.value, value.low, value.high))
            text = (
                f"{{{numbers}, {self.citations.index(value.citation)},"
                f" {self.citations.index(value.range_citation)}, Property::{kind.stored},"
                f" Grade::{value.grade.lower()}, Grade::{value.range_grade.lower()}}}"
            )
            self.values.append(text)
            self.value_lines.append(f"    {text},")
        for measure in row.measures.values():
            low, high = measure_range(row, measure, self.table.rules)
            self.measures.append(
                f"{{{plain(measure.wet_grams)}, {plain(low)}, {plain(high)},"
                f" {self.citations.index(measure.citation)},"
                f" Measure::{measure.measure}, Grade::{measure.grade.lower()}}}"
            )
        most = (
            f"{plain(row.most.wet_grams)}, {self.citations.index(row.most.citation)}"
            if row.most
            else "0.0, 0"
        )
        self.feedstocks.append(
            f"{{{quoted(row.id)}, {quoted(row.name)}, {quoted(row.note)},"
            f" {quoted(row.preparation)}, {bits('caution', row.cautions)},"
            f" {first_value}, {first_measure},"
            f" {len(self.values) - first_value}, {len(self.measures) - first_measure},"
            f" {bits('role', row.roles)}, Group::{row.group}, Stance::{row.stance},"
            f" Stance::{row.heap.stance if row.heap else row.stance},"
            f" Stance::{row.stance_pre_composted or row.stance},"
            f" DecayClass::{row.decay_class}, {most},"
            f" {quoted(row.most.reason if row.most else '')}, {quoted(row.why_barred)},"
            f" {quoted(row.instead)}, {quoted(row.sold_as)}}}"
        )

    def _aliases(self) -> list[str]:
        index = {row.id: number for number, row in enumerate(self.rows)}
        aliases = [alias for row in self.rows for alias in row.aliases]
        aliases.sort(key=lambda alias: (alias.text.encode(), alias.rank))
        return [
            f"{{{quoted(alias.text)}, {quoted(alias.part)}, {index[alias.feedstock]},"
            f" {alias.rank}}}"
            for alias in aliases
        ]

    def text(self, sha256: str) -> str:
        sources = [
            f"{{{quoted(s.id)}, {quoted(s.citation)}, {quoted(s.covers)}, {quoted(s.licence)},"
            f" {quoted(s.status)}, {quoted(s.remark)}}}"
            for s in sorted(self.table.sources.values(), key=lambda source: source.id)
        ]
        return "\n".join(
            [
                "// Generated by data/tools/generate.py from data/*.yaml; do not edit.",
                "// clang-format off",
                "#pragma once",
                "#include <array>",
                "#include <cstdint>",
                "#include <string_view>",
                "",
                '#include "feed/feedstock/record.hpp"',
                "",
                "namespace feed::table {",
                "",
                "/// Version of the record layout in record.hpp.",
                f"inline constexpr int layout_version = {LAYOUT_VERSION};",
                "/// Version of the numbers.",
                "inline constexpr std::string_view data_version ="
                f" {quoted(self.table.rules.data_version)};",
                "/// SHA-256 over the names, lengths and bytes of data/*.yaml.",
                f'inline constexpr std::string_view content_sha256 = "{sha256}";',
                "",
                *array("Source", "sources", "Published sources, sorted by id.", sources),
                *array(
                    "Citation",
                    "citations",
                    "Citations, in order of first use.",
                    self.citations.rows(),
                ),
                *array(
                    "Value",
                    "values",
                    "Values, feedstock by feedstock, in the order of Property.",
                    self.values,
                    self.value_lines,
                ),
                *array(
                    "MeasureValue",
                    "measures",
                    "Household measures, feedstock by feedstock.",
                    self.measures,
                ),
                "namespace bits {",
                "constexpr std::uint32_t caution(Caution one) noexcept {"
                " return static_cast<std::uint32_t>(one); }",
                "constexpr std::uint8_t role(Role one) noexcept {"
                " return static_cast<std::uint8_t>(one); }",
                "}  // namespace bits",
                "",
                *array("Feedstock", "feedstocks", "Feedstocks, sorted by id.", self.feedstocks),
                *array(
                    "Alias",
                    "aliases",
                    "Names a keeper may type, sorted by text, then rank.",
                    self._aliases(),
                ),
                "}  // namespace feed::table",
                "",
            ]
        )


def array(
    kind: str, name: str, about: str, rows: list[str], lines: list[str] | None = None
) -> list[str]:
    body = lines if lines is not None else [f"    {row}," for row in rows]
    return [
        f"/// {about}",
        f"inline constexpr std::array<{kind}, {len(rows)}> {name}{{{{",
        *body,
        "}};",
        "",
    ]


def outputs(data: Path, cases: Path) -> dict[Path, str] | None:
    """The generated files, or None where the table has problems (they are printed)."""
    problems = Problems(ROOT)
    table = load_table(data, cases, problems)
    has_names = (data / "names").is_dir()
    names = read_names(data / "names", table, problems) if has_names else []
    signs = read_sign_words(data / "names", problems) if has_names else None
    if problems.found:
        for problem in sorted(problems.found):
            print(problem)
        return None
    return {
        HEADER: HeaderWriter(table).text(content_sha256(data)),
        **{HEADER.with_name(f"names_{n.language}.hpp"): names_header(n, table) for n in names},
        **({SIGNS: signs_header(signs)} if signs else {}),
        PAGE: feedstock_page(table),
        DISAGREEMENTS: disagreements_page(cases, table),
    }


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", type=Path, default=ROOT / "data", help="folder of the table")
    parser.add_argument("--out", type=Path, default=ROOT, help="root folder of what is written")
    parser.add_argument("--check", action="store_true", help="compare only")
    arguments = parser.parse_args()
    files = outputs(arguments.data, ROOT / "tests" / "cases")
    if files is None:
        return 1
    stale = 0
    for relative, text in files.items():
        path = arguments.out / relative
        same = path.is_file() and path.read_text(encoding="utf-8") == text
        if same:
            continue  # an untouched header builds nothing anew
        if arguments.check:
            print(f"{relative}: differs from a fresh run of data/tools/generate.py")
            stale += 1
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main())
