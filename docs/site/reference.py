"""The references of the site, from the comments: C and C++ through doxygen and breathe, Python out
of its stub, TypeScript out of the schemas that the npm package's declarations are made of."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "bindings/js"))
import api_types  # noqa: E402  # what libfeed.d.ts is made with

# The public headers of C++, by what they are for: what docs/promise.md speaks of. Whatever else
# lies under feed/ is a part of these and may change.
CPP_HEADERS = {
    "Know": (
        "quantity/error.hpp",
        "quantity/estimate.hpp",
        "feedstock/feedstock.hpp",
        "feedstock/lookup.hpp",
        "feedstock/amount.hpp",
    ),
    "Blend and balance": (
        "blend/portion.hpp",
        "blend/blend_properties.hpp",
        "blend/blend.hpp",
        "balance/balance_problem.hpp",
        "balance/balance.hpp",
        "balance/balance_answer.hpp",
    ),
    "Ration and check": (
        "bed/bed.hpp",
        "ration/ration.hpp",
        "ration/check.hpp",
        "ration/decide.hpp",
    ),
    "Forecast": ("forecast/forecast.hpp", "forecast/forecast_result.hpp"),
    "Diary": (
        "diary/date.hpp",
        "diary/diary.hpp",
        "diary/observation.hpp",
        "ration/from_diary.hpp",
    ),
    "Trial": ("trial/trial.hpp", "trial/trial_reading.hpp"),
    "Files and the door": (
        "io/feed_file.hpp",
        "io/note.hpp",
        "io/diary_append.hpp",
        "io/door.hpp",
    ),
}

# Namespaces of what is inside.
CPP_HIDDEN = ("feed::detail", "feed::decay", "feed::io::detail")

COMMON = {
    "GENERATE_HTML": "NO",
    "GENERATE_LATEX": "NO",
    "GENERATE_XML": "YES",
    "JAVADOC_AUTOBRIEF": "YES",
    "EXTRACT_ALL": "YES",
    "MACRO_EXPANSION": "YES",
    "EXPAND_ONLY_PREDEF": "YES",
    "QUIET": "YES",
    "WARNINGS": "NO",
    "WARN_IF_UNDOCUMENTED": "NO",
    "WARN_IF_INCOMPLETE_DOC": "NO",
}


def run_doxygen(folder: Path, **settings: str) -> None:
    folder.mkdir(parents=True)
    text = "".join(f"{key} = {value}\n" for key, value in {**COMMON, **settings}.items())
    text += f"OUTPUT_DIRECTORY = {folder}\n"
    subprocess.run(["doxygen", "-"], input=text, text=True, check=True)


def write_c(source: Path) -> None:
    run_doxygen(
        source / "doxygen/c",
        INPUT=str(ROOT / "bindings/c/include/feed/feed.h"),
        PREDEFINED="FEED_API=",
        OPTIMIZE_OUTPUT_FOR_C="YES",
    )
    page = "# The C interface\n\nAs the header says it; rules on handles and threads first.\n\n"
    page += "```{doxygenfile} feed.h\n:project: c\n```\n"
    (source / "c_reference.md").write_text(page, encoding="utf-8")


def write_cpp(source: Path) -> None:
    include = ROOT / "libfeed/include"
    headers = [include / "feed" / name for names in CPP_HEADERS.values() for name in names]
    run_doxygen(
        source / "doxygen/cpp",
        INPUT=" ".join(map(str, headers)),
        STRIP_FROM_PATH=str(include),
        EXCLUDE_SYMBOLS=" ".join(f"{name} {name}::*" for name in CPP_HIDDEN),
    )
    page = """# The C++ interface

The public headers. `#include <feed/bin.hpp>` has what one bin needs, `<feed/feed.hpp>` all of the
core, `<feed/io/...>` files and the door. What stays, what may change: [promise](docs/promise.md).

"""
    for chapter, names in CPP_HEADERS.items():
        page += f"## {chapter}\n\n"
        for name in names:
            page += f"### feed/{name}\n\n```{{doxygenfile}} {Path(name).name}\n:project: cpp\n"
            page += "```\n\n"
    (source / "cpp_reference.md").write_text(page, encoding="utf-8")


def write_python(source: Path) -> None:
    """The package with its stub in place of the compiled part: same names, forms and comments."""
    package = source / "python/libfeed"
    package.parent.mkdir(parents=True)
    shutil.copytree(ROOT / "bindings/python/libfeed", package)
    stub = (package / "_core.pyi").read_text(encoding="utf-8")
    constant = re.compile(r"^([A-Z0-9_]+: \w+|__version__: \w+)$", re.MULTILINE)
    (package / "_core.py").write_text(constant.sub(r"\1 = ...", stub), encoding="utf-8")
    page = """# The Python interface

How to install it, and how to begin: [Python](docs/python.md).

```{eval-rst}
.. automodule:: libfeed
   :members:
   :undoc-members:
   :imported-members:
   :exclude-members: TABLE_CONTENT_SHA256, TABLE_LAYOUT_VERSION, TABLE_VERSION
```

`TABLE_VERSION`, `TABLE_LAYOUT_VERSION` and `TABLE_CONTENT_SHA256` name the table.
"""
    (source / "python_reference.md").write_text(page, encoding="utf-8")


def typescript_shape(name: str, shape: dict[str, Any]) -> str:
    text = f"### {api_types.shape_name(name)}\n\n{shape['description']}\n\n"
    if "properties" not in shape:
        return (
            text
            + f"```ts\ntype {api_types.shape_name(name)} = {api_types.answer_type(shape)};\n```\n\n"
        )
    text += "| field | type | meaning |\n| --- | --- | --- |\n"
    for key, field in shape["properties"].items():
        optional = "" if key in shape["required"] else "?"
        kind = api_types.answer_type(field).replace("|", "\\|")
        text += f"| {key}{optional} | `{kind}` | {api_types.remark(field)} |\n".replace("\n|", " |")
    return text + "\n"


def write_typescript(source: Path) -> None:
    """What libfeed.d.ts declares, from the schemas that it is made of."""
    requests, answers = (
        json.loads((ROOT / f"data/schema/{name}.schema.json").read_text(encoding="utf-8"))
        for name in ("request", "answers")
    )
    page = "# The TypeScript interface\n\nThe declarations of the npm package. How to begin: "
    page += "[JavaScript](bindings/js/README.md).\n\n## Load, call, errors\n\n"
    page += f"```ts\n{api_types.HEAD}```\n\n## Verbs\n\n"
    for verb in requests["oneOf"]:
        page += f"### {api_types.function_name(verb['title'])}\n\n{verb['description']}\n\n"
        page += "| member | type | meaning |\n| --- | --- | --- |\n"
        for name, member in api_types.members(verb):
            optional = "" if name in verb["required"] else "?"
            kind = api_types.type_of(member).replace("|", "\\|")
            page += f"| {name}{optional} | `{kind}` | {member.get('description', '')} |\n"
        page += "\n"
    page += "## Answers\n\n"
    found: dict[str, None] = {}
    for verb in requests["oneOf"]:
        answer = f"answer_{verb['title'].replace(' ', '_')}"
        found[answer] = None
        api_types.used(answers["$defs"][answer], answers["$defs"], found)
    for name in found:
        page += typescript_shape(name, answers["$defs"][name])
    (source / "typescript_reference.md").write_text(page, encoding="utf-8")


def write_references(source: Path) -> None:
    write_c(source)
    write_cpp(source)
    write_python(source)
    write_typescript(source)
