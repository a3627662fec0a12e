"""The table as the tools of data/tools fill it: ranges, estimates, settled densities."""

from __future__ import annotations

import importlib
import sys
from functools import cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
TOOLS = ROOT / "data" / "tools"


def tool(name: str) -> Any:
    """A module of data/tools by its name."""
    if str(TOOLS) not in sys.path:
        sys.path.insert(0, str(TOOLS))
    return importlib.import_module(name)


@cache
def table() -> Any:
    """The checked table."""
    problems = tool("problems").Problems(ROOT)
    loaded = tool("table_loader").load_table(ROOT / "data", ROOT / "tests" / "cases", problems)
    assert not problems.found
    return loaded


def filled(identifier: str) -> dict[str, Any]:
    """Every value of a row by its key, with the range the header holds."""
    row = table().find(identifier)
    assert row is not None, identifier
    return {value.key: value for value in tool("fill").full_values(row, table().rules)}
