// libfeed in a browser, a worker or Node: load() once, then plain calls.
// Its one door takes a request and gives an answer, both plain objects; docs/door.md says which.

const NOT_OPEN = 8; // "bad file descriptor" of WASI: there are no files here
const MOST_HELD = 4 * 1024 * 1024; // bytes between calls; a module that grew further is let go

let compiled;
let instance;

/** What is wrong with a request: the first problem, and all of them in `errors`. */
export class FeedError extends Error {
  constructor(errors) {
    super(errors.map((one) => one.message).join("; "));
    this.name = "FeedError";
    this.errors = errors;
    const { code, field, value, allowed, file, line, column } = errors[0];
    Object.assign(this, { code, field, value, allowed, file, line, column });
  }
}

const problem = (code, message) =>
  new FeedError([
    { code, field: "libfeed", value: "", allowed: "", message, file: "", line: 0, column: 0 },
  ]);

/** The bytes or the compiled form of the module, from wherever it stands. */
async function compiledFrom(source) {
  if (source instanceof WebAssembly.Module) return source;
  if (source instanceof ArrayBuffer || ArrayBuffer.isView(source)) return WebAssembly.compile(source);
  if (typeof Response !== "undefined" && source instanceof Response)
    return WebAssembly.compile(await source.arrayBuffer());
  const place = new URL(source, import.meta.url);
  if (place.protocol === "file:") {
    const { readFile } = await import(/* @vite-ignore */ "node:fs/promises");
    return WebAssembly.compile(await readFile(place));
  }
  const answer = await fetch(place);
  if (!answer.ok) throw problem("not_readable", `cannot load ${place.href}: ${answer.status}`);
  return WebAssembly.compile(await answer.arrayBuffer());
}

/** The C++ library asks for a system; every question is answered with "not here". */
function started(module) {
  const imports = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    imports[from] ??= {};
    imports[from][name] = () => NOT_OPEN;
  }
  const made = new WebAssembly.Instance(module, imports);
  made.exports._initialize();
  return made;
}

/**
 * Loads the module; the same promise may be awaited any number of times.
 * @param source  where libfeed.wasm is (URL, text, Response), its bytes, or it compiled; beside this
 *   file when left out
 */
export async function load(source = new URL("./libfeed.wasm", import.meta.url)) {
  if (instance) return;
  compiled ??= await compiledFrom(source);
  instance ??= started(compiled);
}

/** A module that stopped midway is thrown away; the next call begins a new one. */
function ended(ranOut) {
  instance = undefined;
  return ranOut
    ? problem("out_of_memory", "this needs more than the 16 MB that libfeed takes; nothing was lost")
    : problem("internal", "libfeed stopped on a fault of its own; nothing was lost");
}

/** The bytes that the module holds between calls, at most 4 MB. */
export const heldBytes = () => instance?.exports.memory.buffer.byteLength ?? 0;

/**
 * The answer to a request as JSON text, errors too, for callers that only pass text on.
 * @param request  JSON text
 */
export function callText(request) {
  if (!instance) {
    if (!compiled) throw problem("bad_argument", "await load() first");
    instance = started(compiled);
  }
  const { memory, feed_allocate, feed_call, feed_answer_length, feed_ran_out } = instance.exports;
  const bytes = new TextEncoder().encode(request);
  try {
    const at = feed_allocate(bytes.length);
    if (at === 0) throw ended(true);
    new Uint8Array(memory.buffer, at, bytes.length).set(bytes);
    const answer = feed_call(at, bytes.length);
    const text = new Uint8Array(memory.buffer, answer, feed_answer_length());
    if (memory.buffer.byteLength > MOST_HELD) instance = undefined;
    return new TextDecoder().decode(text);
  } catch (fault) {
    throw fault instanceof WebAssembly.RuntimeError ? ended(feed_ran_out() !== 0) : fault;
  }
}

/** The answer to a request as an object. Throws FeedError with all that is wrong. */
export function call(request) {
  const answer = JSON.parse(callText(JSON.stringify(request)));
  if (answer.errors) throw new FeedError(answer.errors);
  return answer;
}

export * from "./verbs.js";
