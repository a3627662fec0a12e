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
    assert sum(path.stat().st_size for path in page.glob("*.br")) < 700_000


def test_in_a_browser(page: Path, source_dir: Path) -> None:
    browser = os.environ.get("FEED_BROWSER")
    if not browser:
        pytest.skip("FEED_BROWSER is not set")
    done = subprocess.run(
        ["node", "--test", "--test-reporter=tap", source_dir / "tests/js/page/page.test.mjs"],
        env={**os.environ, "FEED_PAGE": str(page)},
        capture_output=True,
        text=True,
        timeout=600,
    )
    assert done.returncode == 0 and "# pass 0" not in done.stdout, done.stdout[-6000:]
