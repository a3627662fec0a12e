"""The check of the built site finds what it is there for."""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def check() -> ModuleType:
    spec = importlib.util.spec_from_file_location("site_check", ROOT / "docs/site/check.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("link", "said"),
    [
        ('<a href="other.html#there">x</a>', []),
        ('<a href="#here">x</a>', []),
        ('<a href="https://example.org/">x</a>', []),
        ('<a href="gone.html">x</a>', ["one.html: gone.html: no such file"]),
        ('<a href="other.html#gone">x</a>', ["one.html: other.html#gone: no such part"]),
        ('<img src="gone.svg">', ["one.html: gone.svg: no such file"]),
        (
            '<script src="https://example.org/a.js"></script>',
            ["one.html: https://example.org/a.js: loaded from elsewhere"],
        ),
    ],
)
def test_each_link_is_followed(
    check: ModuleType, tmp_path: Path, link: str, said: list[str]
) -> None:
    (tmp_path / "one.html").write_text(f'<h1 id="here">1</h1>{link}', encoding="utf-8")
    (tmp_path / "other.html").write_text('<h1 id="there">2</h1>', encoding="utf-8")
    assert check.broken(tmp_path) == said


def test_what_a_reference_lacks_is_named(check: ModuleType, tmp_path: Path) -> None:
    for language in ("c", "cpp", "python", "typescript"):
        (tmp_path / f"{language}_reference.html").write_text("feed_call", encoding="utf-8")
    found = check.missing(tmp_path)
    assert "c_reference: feed_balance is missing" in found
    assert "c_reference: feed_call is missing" not in found
    assert "cpp_reference: RationAnswer is missing" in found
    assert "python_reference: Bed is missing" in found
    assert "typescript_reference: forecast is missing" in found


def test_the_reference_of_typescript_has_every_verb(source_dir: Path, tmp_path: Path) -> None:
    """What the site is made of is made without the tools of the site."""
    code = "import sys, pathlib, reference; reference.write_typescript(pathlib.Path(sys.argv[1]))"
    done = subprocess.run(
        [sys.executable, "-c", code, tmp_path],
        cwd=source_dir / "docs/site",
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    page = (tmp_path / "typescript_reference.md").read_text(encoding="utf-8")
    verbs = json.loads((source_dir / "data/schema/request.schema.json").read_text("utf-8"))["oneOf"]
    assert len(verbs) > 15
    for verb in verbs:
        assert verb["description"] in page, verb["title"]
