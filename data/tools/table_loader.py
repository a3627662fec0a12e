"""Loads and checks the whole table; check.py, generate.py and docs.py start here."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from feedstock_reader import FeedstockReader
from model import GROUPS, Table
from problems import Problems
from rules_reader import read_rules, read_sources
from table_rules import check_table

ROOT = Path(__file__).resolve().parents[2]
FILES = ("properties.yaml", "sources.yaml", *(f"{group}.yaml" for group in GROUPS))


def load_table(data: Path, cases: Path, problems: Problems) -> Table:
    """The table in `data`, with every problem found added to `problems`."""
    rules = read_rules(data / "properties.yaml", problems)
    sources = read_sources(data / "sources.yaml", problems)
    reader = FeedstockReader(rules, sources, problems)
    feedstocks = [row for group in GROUPS for row in reader.read(data / f"{group}.yaml", group)]
    table = Table(rules, sources, feedstocks)
    check_table(table, cited_in_cases(cases, problems), problems)
    return table


def cited_in_cases(cases: Path, problems: Problems) -> set[str]:
    """Ids of the sources that reference cases name."""
    cited: set[str] = set()
    for path in sorted(cases.glob("*.json")):
        try:
            content = json.loads(path.read_text(encoding="utf-8"))
        except (OSError, UnicodeDecodeError, json.JSONDecodeError) as error:
            problems.add(problems.place(path, getattr(error, "lineno", 1)), "syntax", str(error))
            continue
        for case in content.get("cases", []):
            cited.add(str(case.get("source", {}).get("key", "")))
    return cited


def content_sha256(data: Path) -> str:
    """One hash over names and bytes of the table's files."""
    digest = hashlib.sha256()
    for name in sorted(FILES):
        content = (data / name).read_bytes()
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()
