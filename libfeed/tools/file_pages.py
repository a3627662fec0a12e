"""Write docs/files.md and docs/door.md from their schemas, and docs/errors.md from the error codes.

file_pages.py           write the pages
file_pages.py --check   only say whether they are up to date (exit 1 when not)
"""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))
from made_files import write_or_check

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = ROOT / "data" / "schema" / "feed-file.schema.json"
REQUESTS = ROOT / "data" / "schema" / "request.schema.json"
CODES = ROOT / "libfeed" / "include" / "feed" / "quantity" / "error.hpp"

# The order of the page: the file first, then what its sections are made of.
ORDER = [
    "file",
    "feedstock",
    "value",
    "nutrition_label",
    "laboratory_report",
    "portion",
    "balance",
    "entry",
    "targets",
    "window",
    "bed",
    "container",
    "worms",
    "feeding",
    "stock",
    "observation",
    "trial",
    "trial_bin",
]

# What each code means and what usually helps; the tool refuses a code without its line.
MEANINGS = {
    "failed": ("Anything without a code of its own.", "Read the message."),
    "bad_argument": (
        "A call that cannot be meant: an unknown option, a missing word, a null pointer.",
        "See `feed COMMAND --help`.",
    ),
    "out_of_memory": ("The machine has no memory left.", "Use a smaller file."),
    "not_a_number": (
        "A number is due and there is none, or it is not finite; a decimal comma counts as none.",
        "Write `1.5`, not `1,5`.",
    ),
    "out_of_range": (
        "A number or word outside what is allowed: a negative weight, a temperature of 200 C.",
        "The error lists what is allowed.",
    ),
    "unit_missing": ("A number without its unit.", "Write `1.2 kg`, `0.9 %`, `6 piece`."),
    "unit_unknown": (
        "A unit that is not known, or does not fit here.",
        "The error lists the units, or declare a vessel under `containers`.",
    ),
    "percent_slip": (
        "A per cent written as a share of 1, or the reverse.",
        "Write `78 %` or `0.78` for moisture; every other fraction needs its unit.",
    ),
    "low_above_high": ("The ends of a range are swapped.", "Write the smaller one first."),
    "ambiguous_amount": (
        "An amount can be read in two ways, or says no amount.",
        "Write it as one of the readings in the error.",
    ),
    "unknown_feedstock": (
        "No feedstock has this name.",
        "Take one of the nearest names in the error, see `feed table`, or define your own.",
    ),
    "ambiguous_feedstock": (
        "The words fit several feedstocks equally.",
        "Take one of the names in the error.",
    ),
    "unknown_property": ("No property has this name.", "The error lists the nearest."),
    "duplicate_entry": (
        "The same key or feedstock twice.",
        "Keep one, or add the amounts up.",
    ),
    "missing_value": (
        "A value is needed that was not given and that the table does not have.",
        "Give it, or a feedstock that it is like.",
    ),
    "syntax": (
        "The text is not well-formed YAML or JSON. Only the first such fault of a file is told.",
        "Look at the line for a tab, a colon inside a text, or a missing bracket.",
    ),
    "unknown_key": ("A key that has no meaning here.", "The error names the nearest key."),
    "wrong_type": (
        "A list where a text is due, a text where a mapping is due, and so on.",
        "See the form of the section in [files.md](files.md).",
    ),
    "wrong_version": (
        "The file does not begin with `libfeed: 1`.",
        "Put `libfeed: 1` in the first line.",
    ),
    "too_large": (
        "More than 8 MB, too many values once aliases are written out, or too deep.",
        "Split the file; write aliases out where they repeat one another.",
    ),
    "not_readable": ("The file is missing, a folder, or may not be opened.", "Check its name."),
    "not_writable": (
        "The file or its folder cannot be written, or another program holds it.",
        "Nothing was changed; try again.",
    ),
    "not_utf8": ("The bytes are not UTF-8, or hold a NUL.", "Save the file as UTF-8 text."),
    "no_amount_fixed": (
        "A balance in which nothing says how much there is.",
        "Give one entry an exact or a least amount, or set a total.",
    ),
    "contradiction": (
        "Two entries that cannot both hold, such as a C:N that carbon and nitrogen deny.",
        "Leave one of them out.",
    ),
    "empty": ("Something that must not be empty is.", "Fill it in, or leave the key out."),
    "internal": ("A fault of the program itself.", "Please report it, with the file."),
}


def shown(value: Any) -> str:
    """An example as it is written in a file, on one line."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "[" + ", ".join(shown(item) for item in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {shown(item)}" for key, item in value.items()) + "}"
    return str(value)


def properties_of(definition: dict[str, Any]) -> tuple[dict[str, Any], set[str]]:
    """The keys of a definition and which of them are needed."""
    forms = [definition, *definition.get("oneOf", [])]
    for form in forms:
        if "properties" in form:
            return form["properties"], set(form.get("required", []))
    return {}, set()


def cell(text: str) -> str:
    """A text inside a Markdown table."""
    return text.replace("|", "\\|").replace("\n", " ")


def files_page(schema: dict[str, Any]) -> str:
    """docs/files.md."""
    definitions = schema["$defs"]
    lines = [
        "# Feed files",
        "",
        f"{schema['description']} Made from `data/schema/feed-file.schema.json`, which editors can"
        " use to check a file while it is written.",
        "",
        "A small one:",
        "",
        "<!-- from: examples/kitchen.yaml -->",
        "```yaml",
        (ROOT / "examples" / "kitchen.yaml").read_text(encoding="utf-8").rstrip("\n"),
        "```",
        "",
        "The example of each key stands as it is written after the key. Keys in bold are needed.",
        "",
    ]
    for name in ORDER:
        definition = definitions[name]
        lines += [f"## {definition['title']}", "", definition["description"], ""]
        short = [form for form in definition.get("oneOf", []) if "examples" in form]
        for form in short:
            examples = ", ".join(f"`{shown(example)}`" for example in form["examples"])
            lines += [f"As one text: {examples}.", ""]
        lines += ["| key | example | meaning |", "| --- | --- | --- |"]
        properties, needed = properties_of(definition)
        for key, about in properties.items():
            title = f"**{key}**" if key in needed else key
            example = "<br>".join(f"`{cell(shown(one))}`" for one in about["examples"])
            meaning = about["description"]
            if "enum" in about:
                meaning += " One of: " + ", ".join(str(word) for word in about["enum"]) + "."
            lines.append(f"| {title} | {example} | {cell(meaning)} |")
        lines.append("")
    return "\n".join(lines).rstrip("\n") + "\n"


def codes_of(header: str) -> list[tuple[str, int]]:
    """The enumerators of ErrorCode with their numbers."""
    body = re.search(r"enum class ErrorCode[^{]*\{(.*?)\};", header, re.DOTALL)
    assert body, "error.hpp has no ErrorCode"
    return [(name, int(number)) for name, number in re.findall(r"(\w+) = (\d+)", body.group(1))]


def errors_page(header: str) -> str:
    """docs/errors.md."""
    lines = [
        "# Errors",
        "",
        "An error names the field, the value, what is allowed and the likely slip, with file, line"
        " and column. The first syntax error of a file, or else all its content errors, come at"
        " once; nothing is written then and the command exits with 2. With `--json` they are"
        ' `{"errors": [{"field", "value", "allowed", "message", "file", "line", "column"}]}`.',
        "",
        "The numbers are those of the C interface. They are never reused.",
        "",
        "| code | name | what it means | what helps |",
        "| --- | --- | --- | --- |",
    ]
    for name, number in codes_of(header):
        meaning, help_text = MEANINGS[name]
        lines.append(f"| {number} | {name} | {cell(meaning)} | {cell(help_text)} |")
    return "\n".join(lines) + "\n"


def form_of(about: dict[str, Any]) -> str:
    """What a member of a request may be, in words."""
    if "enum" in about:
        return ", ".join(f"`{word}`" for word in about["enum"])
    if "oneOf" in about:
        return "object or text" if "$ref" in about["oneOf"][1] else "text or list of texts"
    if about["type"] == "array":
        forms = form_of(about["items"])
        return f"list, each {forms}"
    if "minimum" in about:
        return f"whole number, {about['minimum']} to {about['maximum']}"
    if about.get("format") == "date":
        return "day, as a text"
    return {"boolean": "true or false"}.get(about["type"], "text")


def door_page(schema: dict[str, Any]) -> str:
    """docs/door.md."""
    lines = [
        "# One door",
        "",
        "A request and its answer are JSON, so any language that can pass a text can do what the"
        " command can: `feed_call` in C, `feed::call` in C++ (`feed/io/door.hpp`), `libfeed.call`"
        " in Python. Nothing behind the door reads a file, a clock or a locale: the file of a bin"
        " and the day come with the request. Made from `data/schema/request.schema.json`, which is"
        ' itself the answer to `{"verb": "schema"}`.',
        "",
        "```json",
        '{"verb": "ration",',
        ' "date": "2026-03-14",',
        ' "file": {"libfeed": 1, "bed": {"container": "60 L tote", "worms": "1 lb"},',
        '          "blend": ["500 g carrot"]}}',
        "```",
        "",
        "The answer is what `feed VERB --json` prints; every field of it stands in"
        " [answers.md](answers.md). Whoever shows a ration to a keeper shows"
        " `text`, the lines of the first screen, whole and in order: what must be taken out comes"
        " first. In a shell, `feed call request.json` answers too, and `feed call -` reads the"
        " request from standard input.",
        "",
        "What is wrong comes all at once, as"
        ' `{"errors": [{"code", "field", "value", "allowed", "message", "file", "line",'
        ' "column"}]}`; see [errors.md](errors.md). `line` and `column` count in the request, or in'
        " the text of the file where the file is a text. A request is at most 8 MB, and no key may"
        " stand in it twice. In C the code of the call is that of the first error.",
        "",
        "An app that keeps its bin as an object sends it as `file`. After `note` it adds `entry` to"
        " the list that `section` names, and keeps the object. The form of the file:"
        " [files.md](files.md).",
        "",
        "Members in bold are needed. `--why`, `--strict` and `--force` of the command have no"
        " counterpart: an answer in JSON is whole, its reader judges it, and the door knows no day"
        " but the one it is given.",
        "",
    ]
    for verb in schema["oneOf"]:
        lines += [f"## {verb['title']}", "", verb["description"], ""]
        members = {key: about for key, about in verb["properties"].items() if key != "verb"}
        if not members:
            lines += ["It takes nothing else.", ""]
            continue
        lines += ["| member | form | example | meaning |", "| --- | --- | --- | --- |"]
        for key, about in members.items():
            title = f"**{key}**" if key in verb["required"] else key
            example = cell(json.dumps(about["examples"][0], ensure_ascii=False))
            meaning = cell(about["description"])
            lines.append(f"| {title} | {cell(form_of(about))} | `{example}` | {meaning} |")
        lines.append("")
    return "\n".join(lines).rstrip("\n") + "\n"


def pages() -> dict[Path, str]:
    """All pages as they should be."""
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    return {
        ROOT / "docs" / "files.md": files_page(schema),
        ROOT / "docs" / "door.md": door_page(json.loads(REQUESTS.read_text(encoding="utf-8"))),
        ROOT / "docs" / "errors.md": errors_page(CODES.read_text(encoding="utf-8")),
    }


if __name__ == "__main__":
    sys.exit(write_or_check(pages(), sys.argv[1:], Path(__file__).name))
