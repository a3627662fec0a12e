"""Gathers the pages of the site: python docs/site/build.py FEED_COMMAND NPM_PACKAGE OUT.

The pages of docs/ as they stand, a page for each feedstock made of what `feed show` answers, and
the references (reference.py). Sphinx then makes HTML of OUT/source (see build.sh).
"""

from __future__ import annotations

import argparse
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(ROOT / "data/tools"), str(HERE)]
from reference import write_references  # noqa: E402

from docs import TITLES  # noqa: E402  # the groups as the page of all feedstocks calls them

# Pages outside docs/ that belong to the site.
OTHER_PAGES = (
    "README.md",
    "DEVELOPERS.md",
    "bindings/js/README.md",
    "data/README.md",
    "examples/README.md",
    "examples/page/README.md",
    "tests/README.md",
)
LINK = re.compile(r"(!?)\[([^\]]*)\]\(([^)\s]+)\)")
CODE = re.compile(r"(```.*?```|`[^`\n]*`)", re.DOTALL)


def asked(feed: Path, *words: str) -> str:
    done = subprocess.run([feed, *words], capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1) or not done.stdout:
        raise SystemExit(f"feed {' '.join(words)}: {done.stderr}")
    return done.stdout


def pages() -> list[Path]:
    inside = [p for p in (ROOT / "docs").rglob("*.md") if HERE not in p.parents]
    return sorted([*inside, *(ROOT / name for name in OTHER_PAGES)])


def linked(text: str, page: Path, known: set[Path], source: Path) -> str:
    """Links to what the site has not are left as words; pictures are taken along."""

    def one(found: re.Match[str]) -> str:
        picture, words, target = found.groups()
        place = target.split("#")[0]
        if "://" in target or target.startswith(("#", "mailto:")) or not place:
            return found[0]
        path = (page.parent / place).resolve()
        if path in known:
            return found[0]
        if picture and path.is_file():
            copy = source / path.relative_to(ROOT)
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(path, copy)
            return found[0]
        return words

    pieces = CODE.split(text)
    return "".join(piece if at % 2 else LINK.sub(one, piece) for at, piece in enumerate(pieces))


def number(value: float | None) -> str:
    return "" if value is None else f"{value:.3g}"


def feedstock_page(feed: Path, row: dict[str, Any]) -> str:
    """What may be done with one feedstock, then every number with its range and source."""
    screen = asked(feed, "show", row["id"]).strip()
    # Not in the side bar: four hundred names in every page would help nobody. Search finds them.
    lines = ["---", "orphan: true", "---", "", f"# {row['name']}", "", "```text", screen, "```", ""]
    lines += [
        "| property | value | range | unit | grade | source |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    for value in row["values"]:
        what = value["property"].replace("_", " ")
        if value["basis"] in ("wet", "dry"):
            what += f" ({value['basis']})"
        spread = f"{number(value['low'])} to {number(value['high'])}"
        source = f"{value['sources']} {value['method']}".strip()
        cells = [what, number(value["value"]), spread, value["unit"], value["grade"], source]
        lines.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    lines += ["", "Grades and sources: [the whole table](../docs/feedstocks.md). A range is what a"]
    lines += ["keeper's material may be. What is not listed is unknown, never zero.", ""]
    return "\n".join(lines)


def write_feedstocks(feed: Path, source: Path) -> None:
    folder = source / "feedstocks"
    folder.mkdir(parents=True)
    groups: dict[str, list[dict[str, Any]]] = {key: [] for key in TITLES}
    for row in json.loads(asked(feed, "table", "--json"))["feedstocks"]:
        whole = json.loads(asked(feed, "show", row["id"], "--json"))
        (folder / f"{row['id']}.md").write_text(feedstock_page(feed, whole), encoding="utf-8")
        groups[whole["group"]].append(whole)
    index = ["# Feedstocks", "", "What each is, whether it may be fed, and its numbers.", ""]
    for group, rows in groups.items():
        index += [f"## {TITLES[group]}", ""]
        rows.sort(key=lambda row: row["name"].lower())
        index += [f"- [{row['name']}]({row['id']}.md): {row['stance']}" for row in rows]
        index.append("")
    (folder / "index.md").write_text("\n".join(index), encoding="utf-8")


def write_box(package: Path, source: Path) -> None:
    """The box of the first page, and the npm package that answers in it."""
    static = source / "static"
    static.mkdir()
    for name in ("try.js", "try.css"):
        shutil.copy(HERE / name, static / name)
    (static / "libfeed").mkdir()
    for name in ("libfeed.js", "verbs.js", "libfeed.wasm", "LICENSE"):
        shutil.copy(package / name, static / "libfeed" / name)


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("feed", type=Path)
    parser.add_argument("package", type=Path, help="folder of the npm package, for the box")
    parser.add_argument("out", type=Path)
    arguments = parser.parse_args()
    source: Path = arguments.out / "source"
    shutil.rmtree(source, ignore_errors=True)
    source.mkdir(parents=True)
    known = {page.resolve() for page in pages()}
    for page in pages():
        copy = source / page.relative_to(ROOT)
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_text(
            linked(page.read_text(encoding="utf-8"), page, known, source), encoding="utf-8"
        )
    index = (HERE / "index.md").read_text(encoding="utf-8")
    index = index.replace("](../../", "](").replace("](../", "](docs/")
    (source / "index.md").write_text(index, encoding="utf-8")
    shutil.copy(HERE / "conf.py", source / "conf.py")
    decisions = sorted(p.stem for p in (ROOT / "docs/decisions").glob("*.md"))
    listed = "\n".join(f"docs/decisions/{name}" for name in decisions)
    (source / "decisions.md").write_text(
        "# Decisions\n\nWhy it is built as it is, and what was turned down.\n\n"
        f":::{{toctree}}\n{listed}\n:::\n",
        encoding="utf-8",
    )
    write_feedstocks(arguments.feed.resolve(), source)
    write_references(source)
    write_box(arguments.package, source)
    print(f"{sum(1 for _ in source.rglob('*.md'))} pages")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
