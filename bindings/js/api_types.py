"""Functions and TypeScript types for the verbs of the door, from its schema of requests."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]

# What it gives is a text in YAML, which it reads again to be sure of; the module reads JSON only.
NOT_IN_THE_MODULE = {"start"}


def verbs_of(schema: Schema) -> list[Schema]:
    """The verbs that the module answers."""
    return [verb for verb in schema["oneOf"] if verb["title"] not in NOT_IN_THE_MODULE]


HEAD = """\
/** What is wrong with one member of a request, or one place of a file. */
export interface Problem {
  code: string;
  field: string;
  value: string;
  allowed: string;
  message: string;
  file?: string;
  line?: number;
  column?: number;
}
/** All that is wrong; the members are those of the first problem. */
export class FeedError extends Error implements Problem {
  errors: Problem[];
  code: string;
  field: string;
  value: string;
  allowed: string;
  file?: string;
  line?: number;
  column?: number;
}
/** The file of a bin: docs/files.md. */
export type FeedFile = { libfeed: 1 } & { [section: string]: any };
/** An answer, as `feed VERB --json` prints it. */
export type Answer = { [member: string]: any };

/** Loads libfeed.wasm, once: from beside the package, or from where you say. */
export function load(
  source?: URL | string | Response | BufferSource | WebAssembly.Module,
): Promise<void>;
/** The answer to a request; throws FeedError. */
export function call(request: Request): Answer;
/** The same as JSON texts, errors too. */
export function callText(request: string): string;
"""


def function_name(verb: str) -> str:
    """The name of a verb as a function: "trial plan" is trialPlan."""
    first, *rest = verb.split()
    return first + "".join(word.capitalize() for word in rest)


def type_name(verb: str) -> str:
    name = function_name(verb)
    return name[0].upper() + name[1:] + "Members"


def type_of(member: Schema) -> str:
    if "$ref" in member:
        return "FeedFile"
    if "oneOf" in member:
        return " | ".join(type_of(one) for one in member["oneOf"])
    if "enum" in member:
        return " | ".join(f'"{word}"' for word in member["enum"])
    kind: str = member["type"]
    if kind == "array":
        item = type_of(member["items"])
        return f"({item})[]" if " | " in item else f"{item}[]"
    return {"integer": "number"}.get(kind, kind)


def members(verb: Schema) -> list[tuple[str, Schema]]:
    return [(name, member) for name, member in verb["properties"].items() if name != "verb"]


def declarations(schema: Schema) -> str:
    """libfeed.d.ts."""
    text = HEAD
    for verb in verbs_of(schema):
        text += f"\n/** {verb['description']} */\nexport interface {type_name(verb['title'])} {{\n"
        for name, member in members(verb):
            optional = "" if name in verb["required"] else "?"
            text += f"  /** {member['description']} */\n  {name}{optional}: {type_of(member)};\n"
        needs = any(name != "verb" for name in verb["required"])
        title = verb["title"]
        text += (
            f"}}\nexport function {function_name(title)}"
            f"(members{'' if needs else '?'}: {type_name(title)}): Answer;\n"
        )
    requests = " | ".join(
        f'({{ verb: "{verb["title"]}" }} & {type_name(verb["title"])})' for verb in verbs_of(schema)
    )
    return text + f"\n/** What may be asked. */\nexport type Request = {requests};\n"


def functions(schema: Schema) -> str:
    """verbs.js: one function a verb, each of which a bundler may leave out."""
    text = "// One function a verb of the door; made from the schema of requests.\n"
    text += 'import { call } from "./libfeed.js";\n'
    for verb in verbs_of(schema):
        title = verb["title"]
        text += f"\n/** {verb['description']} */\nexport const {function_name(title)} ="
        text += f' (members = {{}}) => call({{ ...members, verb: "{title}" }});\n'
    return text
