"""The page of examples/page: its types, what it is made of, and how it behaves in a browser."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest
from npm_project import run


@pytest.fixture(scope="module")
def page(project: Path, source_dir: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page, built on the package of this run."""
    home = source_dir / "examples/page"
    run("npm", "ci", "--silent", "--no-audit", "--no-fund", cwd=home)
    out = tmp_path_factory.mktemp("built") / "page"
    print(run("node", "build.mjs", project.parent / "package", out, cwd=home))
    return out


def test_its_types_hold(page: Path, source_dir: Path) -> None:
    assert page.is_dir()
    run("npx", "--no-install", "tsc", "--noEmit", cwd=source_dir / "examples/page")


def test_answers_have_the_types_of_their_verbs(page: Path, project: Path, source_dir: Path) -> None:
    assert page.is_dir()
    compiler = source_dir / "examples/page/node_modules/typescript/bin/tsc"
    shutil.copy(Path(__file__).parent / "answer_types.ts", project)
    words = "--noEmit --strict --module nodenext --target es2022 --lib es2022,dom"
    run("node", compiler, *words.split(), "answer_types.ts", cwd=project)


def test_it_is_its_own_files_and_keeps_them_all(page: Path) -> None:
    names = {path.name for path in page.iterdir() if path.suffix != ".br"}
    worker = (page / "worker.js").read_text(encoding="utf-8")
    for name in names - {"worker.js"}:
        assert f'"{name}"' in worker, name
    for path in page.glob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert "http://" not in text and "https://" not in text
        assert "script-src 'self' 'wasm-unsafe-eval'" in text
    # The module is nearly all of it; docs/decisions/0013 says why it is not smaller.
    assert sum(path.stat().st_size for path in page.glob("*.br")) < 800_000


def in_a_browser(test: str, page: Path, source_dir: Path) -> None:
    if not os.environ.get("FEED_BROWSER"):
        pytest.skip("FEED_BROWSER is not set")
    done = subprocess.run(
        ["node", "--test", "--test-reporter=tap", source_dir / "tests/js/page" / test],
        env={**os.environ, "FEED_PAGE": str(page)},
        capture_output=True,
        text=True,
        timeout=900,
    )
    assert done.returncode == 0 and "# pass 0" not in done.stdout, done.stdout[-6000:]


def test_in_a_browser(page: Path, source_dir: Path) -> None:
    in_a_browser("page.test.mjs", page, source_dir)


PLAIN = """<!doctype html><meta charset="utf-8"><link rel="icon" href="data:,">
<meta http-equiv="Content-Security-Policy"
 content="default-src 'self'; img-src data:; script-src 'self' 'wasm-unsafe-eval'">
<body><script type="module" src="plain.js"></script>
"""
SCRIPT = """import { load, ration } from "./libfeed.js";
await load();
const things = ["50 g bacon", "3 apples"];
document.body.textContent = ration({ things, date: "2026-03-14" }).text[0];
"""


def test_a_plain_script_in_a_browser(
    page: Path, project: Path, source_dir: Path, tmp_path: Path
) -> None:
    """No bundler: the files of the package as they are, and one that imports them."""
    assert page.is_dir()  # what drives the browser is installed with it
    shutil.copytree(project / "node_modules/libfeed", tmp_path / "plain")
    (tmp_path / "plain/index.html").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "plain/plain.js").write_text(SCRIPT, encoding="utf-8")
    in_a_browser("plain.test.mjs", tmp_path / "plain", source_dir)
