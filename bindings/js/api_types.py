"""Functions and TypeScript types for the verbs of the door, from the schemas of its requests and
answers."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]

HEAD = """\
/** All that is wrong; the members are those of the first problem. */
export class FeedError extends Error implements Problem {
  errors: Problem[];
  code: ErrorCode;
  field: string;
  value: string;
  allowed: string;
  file: string;
  line: number;
  column: number;
}
/** The file of a bin: docs/files.md. */
export type FeedFile = { libfeed: 1 } & { [section: string]: any };
/** An answer to any verb, as `feed VERB --json` prints it. */
export type Answer = Answers[keyof Answers];

/** Loads libfeed.wasm, once: from beside the package, or from where you say. */
export function load(
  source?: URL | string | Response | BufferSource | WebAssembly.Module,
): Promise<void>;
/** The answer to a request; throws FeedError. */
export function call<Verb extends keyof Answers>(
  request: { verb: Verb } & Request,
): Answers[Verb];
/** The same as JSON texts, errors too. */
export function callText(request: string): string;
/** The bytes that the module holds between calls, at most 4 MB. */
export function heldBytes(): number;
"""

# What an error is made of; it is thrown, and so the answer to no verb.
PROBLEM = "problem"


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


def shape_name(name: str) -> str:
    """A shape or a list of words as a type: "put_in" is PutIn."""
    return "".join(word.capitalize() for word in name.split("_"))


def referred(schema: Schema) -> str:
    """The name of what "#/$defs/put_in" refers to."""
    return str(schema["$ref"]).rsplit("/", 1)[1]


def answer_type(schema: Schema) -> str:
    """The type of a field, a shape or an answer."""
    if "$ref" in schema:
        return shape_name(referred(schema))
    for either in ("anyOf", "oneOf"):
        if either in schema:
            return " | ".join(answer_type(one) for one in schema[either])
    if "enum" in schema:
        return " | ".join(f'"{word}"' for word in schema["enum"])
    kind = schema["type"]
    if isinstance(kind, list):
        return " | ".join(answer_type({**schema, "type": one}) for one in kind)
    if kind == "array":
        item = answer_type(schema["items"])
        if "maxItems" in schema:
            return "[" + ", ".join([item] * schema["maxItems"]) + "]"
        return f"({item})[]" if " | " in item else f"{item}[]"
    plain = {"integer": "number", "object": "{ [member: string]: any }"}
    return plain.get(kind, str(kind))


def used(schema: Schema, defs: Schema, found: dict[str, None]) -> None:
    """Adds the names of all that a schema is made of."""
    if "$ref" in schema:
        name = referred(schema)
        if name not in found:
            found[name] = None
            used(defs[name], defs, found)
        return
    parts = [*schema.get("anyOf", []), *schema.get("oneOf", [])]
    parts += schema.get("properties", {}).values()
    if "items" in schema:
        parts.append(schema["items"])
    for part in parts:
        used(part, defs, found)


def remark(field: Schema) -> str:
    """What a field says, and its unit."""
    unit = ", ".join(field[key] for key in ("x-unit", "x-basis") if key in field)
    text = f"{field['description']} [{unit}]" if unit else field["description"]
    return text.replace("*/", "* /")


def shape_declaration(name: str, shape: Schema) -> str:
    title = shape_name(name)
    text = f"\n/** {shape['description']} */\n"
    if "properties" not in shape:
        return f"{text}export type {title} = {answer_type(shape)};\n"
    text += f"export interface {title} {{\n"
    for key, field in shape["properties"].items():
        optional = "" if key in shape["required"] else "?"
        text += f"  /** {remark(field)} */\n  {key}{optional}: {answer_type(field)};\n"
    return text + "}\n"


def answer_of(verb: str, defs: Schema) -> Schema:
    answer: Schema = defs["answer_" + verb.replace(" ", "_")]
    return answer


def answer_declarations(requests: Schema, defs: Schema) -> str:
    """The shapes that the module answers with, and which verb has which."""
    found: dict[str, None] = {}
    used({"$ref": f"#/$defs/{PROBLEM}"}, defs, found)
    verbs = [verb["title"] for verb in requests["oneOf"]]
    for verb in verbs:
        used(answer_of(verb, defs), defs, found)
    text = "".join(shape_declaration(name, defs[name]) for name in sorted(found))
    rows = "".join(f'  "{verb}": {answer_type(answer_of(verb, defs))};\n' for verb in verbs)
    return f"{text}\n/** What each verb answers. */\nexport interface Answers {{\n{rows}}}\n"


def declarations(requests: Schema, answers: Schema) -> str:
    """libfeed.d.ts."""
    text = HEAD
    for verb in requests["oneOf"]:
        title = verb["title"]
        text += f"\n/** {verb['description']} */\nexport interface {type_name(title)} {{\n"
        for name, member in members(verb):
            optional = "" if name in verb["required"] else "?"
            text += f"  /** {member['description']} */\n  {name}{optional}: {type_of(member)};\n"
        needs = any(name != "verb" for name in verb["required"])
        given = answer_type(answer_of(title, answers["$defs"]))
        text += (
            f"}}\nexport function {function_name(title)}"
            f"(members{'' if needs else '?'}: {type_name(title)}): {given};\n"
        )
    asked = " | ".join(
        f'({{ verb: "{verb["title"]}" }} & {type_name(verb["title"])})'
        for verb in requests["oneOf"]
    )
    text += f"\n/** What may be asked. */\nexport type Request = {asked};\n"
    return text + answer_declarations(requests, answers["$defs"])


def functions(schema: Schema) -> str:
    """verbs.js: one function a verb, each of which a bundler may leave out."""
    text = "// One function a verb of the door; made from the schema of requests.\n"
    text += 'import { call } from "./libfeed.js";\n'
    for verb in schema["oneOf"]:
        title = verb["title"]
        text += f"\n/** {verb['description']} */\nexport const {function_name(title)} ="
        text += f' (members = {{}}) => call({{ ...members, verb: "{title}" }});\n'
    return text
