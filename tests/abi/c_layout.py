"""Sizes and offsets of the public structs of the C header, as the C compiler lays them out, and the
numbers of its enumerators.

`python tests/abi/c_layout.py --write` renews bindings/c/layout.txt and bindings/c/enumerators.txt;
fields may only be appended, and a number never means another thing.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

from c_header import HEADER, ROOT

LAYOUT = ROOT / "bindings/c/layout.txt"
ENUMERATORS = ROOT / "bindings/c/enumerators.txt"


def code() -> str:
    """The header without its comments."""
    return re.sub(r"/\*.*?\*/", "", HEADER.read_text(encoding="utf-8"), flags=re.DOTALL)


def structs() -> dict[str, list[str]]:
    """Each struct with its fields, in the order of the header."""
    text = code()
    found: dict[str, list[str]] = {}
    for match in re.finditer(r"typedef struct (\w+) \{(.*?)\} (\w+);", text, flags=re.DOTALL):
        fields = []
        for declaration in match[2].split(";"):
            pointer = re.search(r"\(\*(\w+)\)", declaration)
            plain = re.search(r"(\w+)(?:\[\w+\])?\s*$", declaration.strip())
            if pointer:
                fields.append(pointer[1])
            elif plain:
                fields.append(plain[1])
        found[match[3]] = fields
    return found


def measured(compiler: str = "cc") -> str:
    """One line a struct (`name size`) and a line a field (`  name offset size`)."""
    lines = []
    for name, fields in structs().items():
        lines.append(f'printf("{name} %zu\\n", sizeof({name}));')
        for field in fields:
            lines.append(
                f'printf("  {field} %zu %zu\\n", offsetof({name}, {field}), '
                f"sizeof((({name} *)0)->{field}));"
            )
    return printed(lines, compiler)


def numbered(compiler: str = "cc") -> str:
    """One line an enumerator (`NAME number`), in the order of the header."""
    lines = []
    for members in re.findall(r"enum \{(.*?)\};", code(), flags=re.DOTALL):
        for name in re.findall(r"(FEED_\w+)\s*=", members):
            lines.append(f'printf("{name} %d\\n", (int){name});')
    return printed(lines, compiler)


def printed(lines: list[str], compiler: str) -> str:
    """What a C program of these lines prints."""
    program = (
        "#include <feed/feed.h>\n#include <stddef.h>\n#include <stdio.h>\nint main(void) {\n"
        + "\n".join(lines)
        + "\nreturn 0;\n}\n"
    )
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "layout.c"
        source.write_text(program, encoding="utf-8")
        binary = Path(folder) / "layout"
        include = HEADER.parent.parent
        subprocess.run(
            [compiler, "-std=c99", f"-I{include}", str(source), "-o", str(binary)], check=True
        )
        return subprocess.run([str(binary)], check=True, capture_output=True, text=True).stdout


if __name__ == "__main__":
    if sys.argv[1:] == ["--write"]:
        LAYOUT.write_text(measured(), encoding="utf-8")
        ENUMERATORS.write_text(numbered(), encoding="utf-8")
    else:
        sys.stdout.write(measured() + numbered())
