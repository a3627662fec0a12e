"""Write data/schema/answers.schema.json and docs/answers.md from data/schema/answers.yaml.

answer_pages.py           write both
answer_pages.py --check   only say whether they are up to date (exit 1 when not)
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import yaml

sys.path.insert(0, str(Path(__file__).resolve().parent))
from made_files import write_or_check

ROOT = Path(__file__).resolve().parents[2]
ANSWERS = ROOT / "data" / "schema" / "answers.yaml"
REQUESTS = ROOT / "data" / "schema" / "request.schema.json"
SCHEMA = ROOT / "data" / "schema" / "answers.schema.json"
PAGE = ROOT / "docs" / "answers.md"

Table = dict[str, Any]

LIST = "list of "
OR = " or "
BASES: Table = {
    "number": {"type": "number"},
    "whole": {"type": "integer"},
    "truth": {"type": "boolean"},
    "text": {"type": "string"},
    "date": {"type": "string", "format": "date", "pattern": "^\\d{4}-\\d{2}-\\d{2}$"},
    "pair": {
        "type": "array",
        "items": {"type": ["number", "null"]},
        "minItems": 2,
        "maxItems": 2,
    },
    "object": {"type": "object"},
}
PLAIN = {
    "whole": "whole number",
    "truth": "true or false",
    "date": "day",
    "pair": "two numbers",
    "object": "object",
}
FIELD_KEYS = {"is", "unit", "basis", "null", "absent", "means", "since", "ends"}


class Description:
    """The description of all answers; `fields` is what stands in a shape, inherited ones first."""

    def __init__(self, tables: Table) -> None:
        self.since: str = tables["since"]
        self.words: Table = tables["words"]
        self.shapes: Table = tables["shapes"]
        self.verbs: Table = tables["verbs"]
        for name in self.shapes:
            for key, field in self.fields(name).items():
                self.refuse_slips(f"{name}.{key}", field)

    def refuse_slips(self, where: str, field: Table) -> None:
        """A form or key that nobody knows is a slip of whoever wrote it."""
        if unknown := field.keys() - FIELD_KEYS:
            raise ValueError(f"{where}: {', '.join(sorted(unknown))}")
        for one in field["is"].split(OR):
            name = one.removeprefix(LIST)
            if name not in BASES and name not in self.words and name not in self.shapes:
                raise ValueError(f"{where}: no form is called {name}")

    def fields(self, shape: str) -> Table:
        """The fields of a shape by their names; none of one that is either of others."""
        about = self.shapes[shape]
        found: Table = dict(self.fields(about["like"])) if "like" in about else {}
        for key, field in about.get("fields", {}).items():
            found[key] = field
            if field.get("ends"):
                for end, which in (("_low", "Low"), ("_high", "High")):
                    means = f"{which} end of the range of `{key}`."
                    found[key + end] = {**field, "ends": False, "means": means}
        return found

    def answered(self) -> list[str]:
        """The shapes that answers are made of, without those that others are only like."""
        named = {"errors"}
        for verb in self.verbs:
            named |= set(self.answer(verb))
        for shape, about in self.shapes.items():
            named |= set(about.get("either", []))
            for field in self.fields(shape).values():
                named |= {one.removeprefix(LIST) for one in field["is"].split(OR)}
        return [shape for shape in self.shapes if shape in named]

    def answer(self, verb: str) -> list[str]:
        """The shapes that an answer of a verb may have."""
        shapes: list[str] = self.verbs[verb]["is"]
        return shapes


def read(path: Path = ANSWERS) -> Description:
    """The description in a file; ValueError where it has a slip."""
    return Description(yaml.safe_load(path.read_text(encoding="utf-8")))


# -- the schema ---------------------------------------------------------------------------------


def either(names: list[str]) -> Table:
    """The one form, or any of several."""
    forms = [form(one) for one in names]
    return forms[0] if len(forms) == 1 else {"anyOf": forms}


def form(name: str) -> Table:
    """The JSON Schema of one form."""
    if OR in name:
        return either(name.split(OR))
    if name.startswith(LIST):
        return {"type": "array", "items": form(name.removeprefix(LIST))}
    return dict(BASES[name]) if name in BASES else {"$ref": f"#/$defs/{name}"}


def bounded(schema: Table) -> Table:
    """A share, or each of a list of shares, lies from 0 to 1."""
    if schema.get("type") == "number":
        return {**schema, "minimum": 0, "maximum": 1}
    if schema.get("type") == "array" and schema["items"].get("type") == "number":
        return {**schema, "items": bounded(schema["items"])}
    return schema


def field_schema(field: Table, since: str) -> Table:
    content = form(field["is"])
    if field.get("unit") == "share":
        content = bounded(content)
    if "null" in field:
        if isinstance(content.get("type"), str):
            content = {**content, "type": [content["type"], "null"]}
        else:
            content = {"anyOf": [content, {"type": "null"}]}
    about = field["means"]
    for when, said in (("null", "Null"), ("absent", "Absent")):
        if when in field:
            about += f" {said} {field[when]}."
    written: Table = {"description": about, **content}
    for key in ("unit", "basis"):
        if key in field:
            written[f"x-{key}"] = field[key]
    if field.get("since", since) != since:
        written["x-since"] = field["since"]
    return written


def shape_schema(tables: Description, name: str) -> Table:
    about = tables.shapes[name]
    if "either" in about:
        return {
            "description": about["about"],
            "oneOf": [{"$ref": f"#/$defs/{one}"} for one in about["either"]],
        }
    fields = tables.fields(name)
    return {
        "description": about["about"],
        "type": "object",
        "properties": {key: field_schema(one, tables.since) for key, one in fields.items()},
        "required": [key for key, one in fields.items() if "absent" not in one],
        "additionalProperties": False,
    }


def answer_name(verb: str) -> str:
    """Where the answer of a verb stands in the schema."""
    return "answer_" + verb.replace(" ", "_")


def schema(tables: Description, requests: Table) -> Table:
    """The JSON Schema of all answers, each under $defs."""
    meanings = {one["title"]: one["description"] for one in requests["oneOf"]}
    defs: Table = {}
    for verb in tables.verbs:
        defs[answer_name(verb)] = {
            "title": verb,
            "description": meanings[verb],
            **either(tables.answer(verb)),
        }
    for name in tables.answered():
        defs[name] = shape_schema(tables, name)
    for name, words in tables.words.items():
        defs[name] = {"description": words["about"], "enum": list(words["of"])}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "answers.schema.json",
        "title": "Answers",
        "description": "What libfeed answers, by verb under $defs/answer_VERB; an answer to no "
        "request is $defs/errors. x-unit, x-basis and x-since say unit, basis and first version "
        f"({tables.since} where nothing is said).",
        "anyOf": [{"$ref": "#/$defs/errors"}]
        + [{"$ref": f"#/$defs/{answer_name(verb)}"} for verb in tables.verbs],
        "$defs": defs,
    }


# -- the page -----------------------------------------------------------------------------------


def cell(text: str) -> str:
    return text.replace("|", "\\|")


def shown_form(name: str) -> str:
    if OR in name:
        return OR.join(shown_form(one) for one in name.split(OR))
    if name.startswith(LIST):
        return LIST + shown_form(name.removeprefix(LIST))
    return PLAIN.get(name, name) if name in BASES else f"[{name}](#{name.replace('_', '-')})"


def shown_unit(field: Table) -> str:
    unit: str = field.get("unit", "")
    return f"{unit}, {field['basis']}" if "basis" in field else unit


def rows(tables: Description, shape: str) -> list[str]:
    """The table of the fields of a shape."""
    fields = tables.fields(shape)
    lines = ["| field | form | unit | meaning |", "| --- | --- | --- | --- |"]
    for key, field in fields.items():
        meaning = field["means"]
        for when, said in (("null", "Null"), ("absent", "Absent")):
            if when in field:
                meaning += f" {said} {field[when]}."
        if field.get("since", tables.since) != tables.since:
            meaning += f" Since {field['since']}."
        title = key if "absent" in field else f"**{key}**"
        lines.append(
            f"| {title} | {shown_form(field['is'])} | {shown_unit(field)} | {cell(meaning)} |"
        )
    return [*lines, ""]


def shape_lines(tables: Description, name: str) -> list[str]:
    about = tables.shapes[name]
    lines = [f"### {name.replace('_', ' ')}", "", about["about"], ""]
    if "either" in about:
        return [*lines, "Either " + OR.join(shown_form(one) for one in about["either"]) + ".", ""]
    return lines + rows(tables, name)


def word_lines(name: str, words: Table) -> list[str]:
    lines = [f"### {name.replace('_', ' ')}", "", words["about"], ""]
    listed = words["of"]
    if isinstance(listed, list):
        return [*lines, ", ".join(f"`{word}`" for word in listed) + ".", ""]
    return [*lines, *(f"- `{word}`: {means}." for word, means in listed.items()), ""]


HEAD = """\
# Answers

What `feed VERB --json`, `feed_call` in C, `feed::call` in C++, `libfeed.call` in Python and the
npm package answer. What may be asked: [door.md](door.md). Made from `data/schema/answers.yaml`,
with the JSON Schema `data/schema/answers.schema.json` (closed: an answer has no other field) and
the TypeScript types of the npm package. The schema is a file beside the library, which keeps the
module for browsers small: `{"verb": "schema"}` gives that of requests alone.

Fields in bold are always there. A share is from 0 to 1, never per cent. A day is a text such as
`2026-03-14`; a field that counts days from today is 0 for today. Numbers are in the units said
here, whatever `units` asks for: `units` is of texts. Texts are for people and may change; fields,
units and words of a list stay, and [CHANGELOG](CHANGELOG.md) says what changes.

When something is wrong the answer is [errors](#errors), and nothing else. The command adds to
`start` the member `started`, the path of the file; its `note` writes the file and so leaves out
`section`, `entry` and `file_text`.

"""


def page(tables: Description, requests: Table) -> str:
    """docs/answers.md: verbs in the order of door.md, then shapes, then words."""
    lines = ["## Verbs", "", "| verb | answer | |", "| --- | --- | --- |"]
    for verb in (one["title"] for one in requests["oneOf"]):
        about = tables.verbs[verb]
        answer = OR.join(shown_form(one) for one in about["is"])
        lines.append(f"| {verb} | {answer} | {about.get('when', '')} |")
    lines.append("")
    lines += ["## Shapes", ""]
    for name in tables.answered():
        lines += shape_lines(tables, name)
    lines += ["## Words", ""]
    for name, words in tables.words.items():
        lines += word_lines(name, words)
    return HEAD + "\n".join(lines).rstrip("\n") + "\n"


def pages() -> dict[Path, str]:
    """Both files as they should be."""
    tables = read()
    requests = json.loads(REQUESTS.read_text(encoding="utf-8"))
    written = json.dumps(schema(tables, requests), indent=1, ensure_ascii=False)
    return {SCHEMA: written + "\n", PAGE: page(tables, requests)}


if __name__ == "__main__":
    sys.exit(write_or_check(pages(), sys.argv[1:], Path(__file__).name))
