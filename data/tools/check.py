#!/usr/bin/env python3
"""Checks the table: prints `file:line: rule: message` for every problem; exit 1 if there is one."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from names_reader import read_names
from problems import RULES, Problems
from signs_reader import read_sign_words
from table_loader import ROOT, load_table


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", type=Path, default=ROOT / "data", help="folder of the table")
    parser.add_argument(
        "--cases", type=Path, default=ROOT / "tests" / "cases", help="folder of reference cases"
    )
    parser.add_argument("--rules", action="store_true", help="list the rules")
    arguments = parser.parse_args()
    if arguments.rules:
        for rule, meaning in RULES.items():
            print(f"{rule}: {meaning}")
        return 0
    problems = Problems(ROOT)
    table = load_table(arguments.data, arguments.cases, problems)
    if (arguments.data / "names").is_dir():
        read_names(arguments.data / "names", table, problems)
        read_sign_words(arguments.data / "names", problems)
    for problem in sorted(problems.found):
        print(problem)
    values = sum(len(row.values) for row in table.feedstocks)
    print(
        f"{len(table.feedstocks)} feedstocks, {values} values, {len(table.sources)} sources:"
        f" {len(problems.found)} problems"
    )
    return 1 if problems.found else 0


if __name__ == "__main__":
    sys.exit(main())
