"""Whether a built site is whole: python docs/site/check.py FOLDER.

Every link, picture and script of every page leads to a file of the site, and every #part to an
element of it. Nothing is loaded from elsewhere. Each reference has what it is a reference of.
"""

from __future__ import annotations

import re
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

ROOT = Path(__file__).resolve().parents[2]
LOADED = {("img", "src"), ("script", "src"), ("link", "href")}


class Page(HTMLParser):
    """What a page links to and loads, and the parts that a link to it may name."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.links: list[str] = []
        self.loads: list[str] = []
        self.parts: set[str] = set()
        self.feed(path.read_text(encoding="utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for key, value in attrs:
            if value is None:
                continue
            if key in ("id", "name"):
                self.parts.add(value)
            if (tag, key) in LOADED:
                self.loads.append(value)
            if key in ("href", "src"):
                self.links.append(value)


def broken(folder: Path) -> list[str]:
    """Each link that leads nowhere, and each thing that a page would load from elsewhere."""
    pages = {path.resolve(): Page(path) for path in sorted(folder.rglob("*.html"))}
    found = []
    for path, page in pages.items():
        for target in page.links:
            link = urlsplit(target)
            if link.scheme == "data":
                continue
            if link.scheme or link.netloc:
                if target in page.loads:
                    found.append(f"{path.name}: {target}: loaded from elsewhere")
                continue
            place = (path.parent / unquote(link.path)).resolve() if link.path else path
            if not place.is_file():
                found.append(f"{path.name}: {target}: no such file")
                continue
            parts = pages[place].parts if place in pages else None
            if link.fragment and parts is not None and unquote(link.fragment) not in parts:
                found.append(f"{path.name}: {target}: no such part")
    return found


def words_of(path: Path, pattern: str) -> list[str]:
    return re.findall(pattern, path.read_text(encoding="utf-8"), re.MULTILINE)


def missing(folder: Path) -> list[str]:
    """What a reference should name and does not."""
    due = {
        "c": words_of(ROOT / "bindings/c/symbols.txt", r"^(feed_\w+)"),
        "cpp": ["look_up", "BlendProperties", "RationAnswer", "read_feed_text", "TrialReading"],
        "python": words_of(ROOT / "bindings/python/libfeed/__init__.py", r'^    "([a-zA-Z]\w*)",'),
        "typescript": words_of(ROOT / "data/schema/request.schema.json", r'"const": "(\w+)"'),
    }
    found = []
    for language, names in due.items():
        text = (folder / f"{language}_reference.html").read_text(encoding="utf-8")
        text = re.sub(r"<[^>]+>", "", text)
        found += [f"{language}_reference: {name} is missing" for name in names if name not in text]
        if not names:
            found.append(f"{language}_reference: nothing to look for")
    return found


def main() -> int:
    folder = Path(sys.argv[1])
    problems = broken(folder) + missing(folder)
    print("\n".join(problems[:50]) or "Every link leads somewhere.")
    return 1 if problems else 0


if __name__ == "__main__":
    raise SystemExit(main())
