"""Files that a tool makes and that are committed: written, or compared with what is there."""

from __future__ import annotations

from pathlib import Path


def write_or_check(made: dict[Path, str], arguments: list[str], tool: str) -> int:
    """Writes what differs, or with --check only says so; returns the exit code."""
    stale = []
    for path, text in made.items():
        if path.is_file() and path.read_text(encoding="utf-8") == text:
            continue
        stale.append(path.name)
        if "--check" not in arguments:
            path.write_text(text, encoding="utf-8")
    if stale and "--check" in arguments:
        print(f"stale: {', '.join(stale)}; run python3 libfeed/tools/{tool}")
        return 1
    return 0
