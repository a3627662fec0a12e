"""Every code block of every page is run, and every relative link leads somewhere."""

from __future__ import annotations

import importlib.util
import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from blocks import KINDS, ROOT, Block, Playground, blocks_of, pages, quoted, renewed, steps_of

ALL_BLOCKS = [
    block for page in pages() for block in blocks_of(page, page.read_text(encoding="utf-8"))
]
LINK = re.compile(r"(?<!!)\[[^\]]*\]\(([^)\s]+)\)|!\[[^\]]*\]\(([^)\s]+)\)")


def of_kind(*kinds: str) -> list[Any]:
    """The blocks of these kinds that are to be run, as parameters named by their place."""
    return [
        pytest.param(block, id=block.place)
        for block in ALL_BLOCKS
        if block.kind in kinds and not block.not_run
    ]


@pytest.fixture
def playground(tmp_path: Path, feed_command: Path) -> Playground:
    return Playground(tmp_path, feed_command)


def test_there_are_pages() -> None:
    assert ROOT / "README.md" in pages()


@pytest.mark.parametrize("page", pages(), ids=lambda page: str(page.relative_to(ROOT)))
def test_every_block_says_what_it_is(page: Path) -> None:
    blocks = blocks_of(page, page.read_text(encoding="utf-8"))
    assert [block.place for block in blocks if block.kind not in KINDS and not block.not_run] == []


@pytest.mark.parametrize("page", pages(), ids=lambda page: str(page.relative_to(ROOT)))
def test_links_lead_somewhere(page: Path) -> None:
    text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)
    targets = [link or picture for link, picture in LINK.findall(text)]
    local = [target.split("#")[0] for target in targets if not re.match(r"[a-z]+:", target)]
    assert [name for name in local if name and not (page.parent / name).exists()] == []


QUOTING = [pytest.param(block, id=block.place) for block in ALL_BLOCKS if block.quoted]


@pytest.mark.parametrize("block", QUOTING)
def test_block_is_the_file_it_quotes(block: Block) -> None:
    assert block.text == quoted(block)


def test_each_language_is_quoted_from_the_examples() -> None:
    quotes = {block.kind for block in ALL_BLOCKS if block.quoted.startswith("examples/")}
    assert quotes >= {"c", "cpp", "python", "yaml"}


def lines_in(text: str) -> set[str]:
    """The lines that say something of their own."""
    return {line.strip() for line in text.splitlines() if len(line.strip()) > 24}


@pytest.mark.parametrize("page", pages(), ids=lambda page: str(page.relative_to(ROOT)))
def test_no_block_is_a_copy_of_an_example(page: Path) -> None:
    kinds = {"c", "cpp", "python", "yaml"}
    examples = [
        lines_in(path.read_text(encoding="utf-8"))
        for path in (ROOT / "examples").rglob("*")
        if path.suffix in {".c", ".cpp", ".py", ".yaml"}
    ]
    copies = [
        block.place
        for block in blocks_of(page, page.read_text(encoding="utf-8"))
        if block.kind in kinds and not block.quoted
        for example in examples
        if len(lines_in(block.text) & example) >= 3
    ]
    assert copies == []


@pytest.mark.parametrize("block", of_kind("console"))
def test_console_block_shows_true_output(block: Block, playground: Playground) -> None:
    assert renewed(block, playground) == block.text


def test_what_runs_shows_its_output() -> None:
    """A block of `sh` is one that installs or builds, and marked as such; others are `console`."""
    assert of_kind("sh") == []


@pytest.mark.parametrize("block", of_kind("yaml"))
def test_yaml_block_is_understood(block: Block, playground: Playground) -> None:
    content = yaml.safe_load(block.text)
    if not block.text.startswith("libfeed:"):
        assert content is not None
        return
    (playground.folder / "block.yaml").write_text(block.text, encoding="utf-8")
    verbs = {"balance": "balance", "feedings": "forecast", "bed": "check"}
    verb = next((verb for key, verb in verbs.items() if key in content), "blend")
    done = playground.run(f"feed {verb} block.yaml")
    assert done.returncode in (0, 1), done.stdout


@pytest.mark.parametrize("block", of_kind("json"))
def test_json_block_is_json(block: Block) -> None:
    json.loads(block.text)


def with_main(text: str) -> str:
    """The block as a whole program: its includes first, the rest as the body of main."""
    if re.search(r"\bint main\(", text):
        return text
    lines = text.splitlines()
    includes = [line for line in lines if line.startswith("#include")]
    body = [line for line in lines if not line.startswith("#include")]
    return "\n".join([*includes, "int main() {", *body, "return 0;", "}"]) + "\n"


# What a page quotes of examples/ is built and run by tests/examples.
PROGRAMS = [one for one in of_kind("cpp", "c") if not one.values[0].quoted]


@pytest.mark.parametrize("block", PROGRAMS)
def test_program_block_runs(block: Block, playground: Playground, package_dir: Path) -> None:
    source = playground.folder / f"block.{block.kind}"
    source.write_text(with_main(block.text), encoding="utf-8")
    program = playground.folder / "block"
    if block.kind == "cpp":
        compiler = ["g++", "-std=c++20", f"-I{ROOT / 'libfeed' / 'include'}"]
        libraries = [str(package_dir / "libfeed" / "libfeed_io.a"), "-lyaml-cpp"]
    else:
        c_library = package_dir / "bindings" / "c"
        compiler = ["gcc", "-std=c99", f"-I{ROOT / 'bindings' / 'c' / 'include'}"]
        libraries = [f"-L{c_library}", "-lfeed", f"-Wl,-rpath,{c_library}"]
    warnings = ["-Wall", "-Wextra", "-Wpedantic", "-Werror"]
    command = [*compiler, *warnings, str(source), "-o", str(program), *libraries]
    subprocess.run(command, check=True, capture_output=True, text=True)
    done = playground.run("./block")
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("block", of_kind("python"))
def test_python_block_runs(block: Block, playground: Playground) -> None:
    if importlib.util.find_spec("libfeed") is None:
        pytest.fail("the Python package is not installed")
    (playground.folder / "block.py").write_text(block.text, encoding="utf-8")
    done = playground.run(f"{sys.executable} block.py")
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("block", of_kind("cmake"))
def test_cmake_block_configures(block: Block, package_dir: Path, tmp_path: Path) -> None:
    prefix = tmp_path / "prefix"
    subprocess.run(["cmake", "--install", package_dir, "--prefix", prefix], check=True)
    (tmp_path / "CMakeLists.txt").write_text(block.text, encoding="utf-8")
    (tmp_path / "my_program.cpp").write_text("#include <feed/feed.hpp>\nint main() {}\n")
    (tmp_path / "libfeed").symlink_to(ROOT)
    subprocess.run(
        ["cmake", "-G", "Ninja", "-B", "build", f"-DCMAKE_PREFIX_PATH={prefix}"],
        cwd=tmp_path,
        check=True,
    )
    # Where libfeed is built too, its program alone will do: tests/install builds a guest whole.
    guest = "add_subdirectory" in block.text
    target = "CMakeFiles/my_program.dir/my_program.cpp.o" if guest else "my_program"
    subprocess.run(["cmake", "--build", "build", "--target", target], cwd=tmp_path, check=True)


PAGE = """\
text
<!-- not run: needs a printer -->
```sh
lpr sheet.txt
```

```console
$ echo one
one
$ echo two
wrong
```
"""


def test_blocks_are_found_with_their_lines_and_reasons() -> None:
    first, second = blocks_of(ROOT / "page.md", PAGE)
    assert (first.line, first.kind, first.not_run) == (4, "sh", "needs a printer")
    assert (second.line, second.kind, second.not_run) == (8, "console", "")
    assert [step.command for step in steps_of(second)] == ["echo one", "echo two"]


def test_wrong_output_is_seen(tmp_path: Path) -> None:
    _, block = blocks_of(ROOT / "page.md", PAGE)
    playground = Playground(tmp_path, Path("/bin/true"))
    assert renewed(block, playground) == block.text.replace("wrong", "two")


def test_an_open_block_is_refused() -> None:
    with pytest.raises(ValueError, match="not closed"):
        blocks_of(ROOT / "page.md", "```sh\necho\n")
