// Measures the installed package: size, time to load, and for each request of standard input (a list of
// JSON) the memory of a module that answers nothing else, and the median time. Prints JSON.
import { readFile } from "node:fs/promises";
import { brotliCompressSync, constants } from "node:zlib";
import { text } from "node:stream/consumers";
import { callText, load } from "libfeed";

const TURNS = Number(process.env.FEED_TURNS ?? 1);
const bytes = await readFile(new URL(import.meta.resolve("libfeed/libfeed.wasm")));
const wire = brotliCompressSync(bytes, {
  params: {
    [constants.BROTLI_PARAM_QUALITY]: 11,
    [constants.BROTLI_PARAM_LGWIN]: 24,
    [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
  },
});

const compiled = await WebAssembly.compile(bytes);
const imports = {};
for (const { module, name } of WebAssembly.Module.imports(compiled)) (imports[module] ??= {})[name] = () => 8;

/** The bytes of a new module after one request. */
function memoryOf(request) {
  const { exports } = new WebAssembly.Instance(compiled, imports);
  exports._initialize();
  const said = new TextEncoder().encode(request);
  const at = exports.feed_allocate(said.length);
  new Uint8Array(exports.memory.buffer, at, said.length).set(said);
  exports.feed_call(at, said.length);
  return exports.memory.buffer.byteLength;
}

function median(times) {
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)];
}

async function timed(one) {
  const begin = performance.now();
  await one();
  return performance.now() - begin;
}

const loaded = [];
for (let turn = 0; turn < TURNS; ++turn)
  loaded.push(
    await timed(async () => {
      const { exports } = await WebAssembly.instantiate(await WebAssembly.compile(bytes), imports);
      exports._initialize();
    }),
  );
await load();
const requests = [];
for (const request of JSON.parse(await text(process.stdin)).map((one) => JSON.stringify(one))) {
  const times = [];
  for (let turn = 0; turn < TURNS; ++turn) times.push(await timed(() => callText(request)));
  requests.push({ memory_bytes: memoryOf(request), median_ms: median(times) });
}
console.log(
  JSON.stringify({ bytes: bytes.length, wire_bytes: wire.length, load_ms: median(loaded), requests }),
);
