// The package as an app uses it, in an empty project: calls, errors, memory, YAML beside it.
import assert from "node:assert/strict";
import { readFile as readBytes } from "node:fs/promises";
import test from "node:test";
import { FeedError, call, heldBytes, load, note, ration, table, trialPlan, version } from "libfeed";
import { readFile, withEntry } from "libfeed/yaml";

const WASM = new URL(import.meta.resolve("libfeed/libfeed.wasm"));
const BIN = {
  libfeed: 1,
  bed: { container: "60 L tote", worms: "1 lb", temperature: "20 C", date: "2026-03-14" },
};

test("a call before load says what to do", () => {
  assert.throws(() => version(), { name: "FeedError", message: "await load() first" });
});

test("it loads from bytes, and again without harm", async () => {
  await load(await readBytes(WASM));
  await load();
  assert.match(version().version, /^\d+\.\d+\.\d+$/);
});

test("a barred thing is taken out first, in every line that speaks of it", async () => {
  await load();
  const answer = ration({ file: { ...BIN, blend: ["100 g bacon", "300 g carrot"] } });
  assert.equal(answer.take_out[0].label, "bacon");
  assert.match(answer.text[0], /^Never feed bacon/);
  assert.ok(answer.put_in.every((one) => one.label !== "bacon"));
});

test("errors have code, field and what is allowed", async () => {
  await load();
  assert.throws(
    () => ration({ things: ["3 apples"], worms: "1 parsec" }),
    (error) => {
      assert.ok(error instanceof FeedError);
      assert.equal(error.field, "worms");
      assert.notEqual(error.allowed, "");
      assert.equal(error.errors.length >= 1, true);
      return true;
    },
  );
  assert.throws(() => call({ verb: "rationn" }), { code: "out_of_range", field: "verb" });
});

test("a text in YAML is sent to the reader of YAML", async () => {
  await load();
  assert.throws(() => ration({ file: "libfeed: 1\nbed: {worms: 1 lb}\n" }), /libfeed\/yaml reads YAML/);
});

test("a text that is not Unicode does no harm", async () => {
  await load();
  assert.throws(() => ration({ things: ["3 \ud800 apples", "x\u0000y"] }), FeedError);
});

test("memory that runs out ends cleanly, and the next call is answered", async () => {
  await load();
  const blend = Array.from({ length: 1000 }, () => "x".repeat(20000));
  assert.throws(() => ration({ file: { ...BIN, blend } }), { code: "out_of_memory" });
  assert.equal(ration({ file: BIN }).date, "2026-03-14");
});

test("what a large answer took is given back", async () => {
  await load();
  const trial = { feeds: ["watermelon rind", "pumpkin"], bins: 12, seed: 7 };
  const held = [
    () => trialPlan({ file: { ...BIN, trial }, sheet: "svg" }),
    () => ration({ file: BIN }),
    () => table(),
    () => table(),
  ].map((one) => (one(), heldBytes()));
  assert.equal(held[0], 0); // it took more
  assert.ok(held[1] > 0);
  assert.ok(held.every((bytes) => bytes <= 4 * 1024 * 1024), held.join());
});

test("half a year of looks fits into the memory", async () => {
  await load();
  const day = (n) => new Date(Date.UTC(2026, 2, 14 + n)).toISOString().slice(0, 10);
  const feedings = Array.from({ length: 52 }, (_, i) => ({
    date: day(i * 3.5),
    portions: ["300 g carrot", "50 g coffee grounds", "40 g shredded cardboard"],
  }));
  const observations = feedings.map(({ date }) => ({ date, squeeze: "damp", smell: "earthy" }));
  const answer = ration({ file: { ...BIN, feedings, observations }, date: day(183) });
  assert.ok(["act_first", "wait", "feed_less", "feed"].includes(answer.answer));
});

test("a note goes into a YAML file, and every comment stays", async () => {
  await load();
  for (const text of [
    "libfeed: 1  # the form\n# the tote\nbed: {container: 60 L tote, worms: 1 lb, date: 2026-03-14}\n",
    "libfeed: 1\r\nbed: {container: 60 L tote, worms: 1 lb, date: 2026-03-14}\r\nobservations:\r\n  - date: 2026-03-15\r\n    note: |\r\n      all well\r\n      # not a comment\r\n",
    "libfeed: 1\nobservations: [{date: 2026-03-15, smell: earthy}]\nbed: &tote\n  container: 60 L tote\n  worms: 1 lb\n  date: 2026-03-14",
  ]) {
    const noted = note({ file: readFile(text), words: "smell sour", date: "2026-03-16" });
    const written = withEntry(text, noted);
    const seen = readFile(written).observations;
    assert.equal(seen.at(-1).date, "2026-03-16");
    assert.equal(seen.length, (readFile(text).observations ?? []).length + 1);
    for (const comment of text.match(/#[^\r\n]*/g) ?? []) assert.ok(written.includes(comment), comment);
    assert.equal(written.includes("\r\n"), text.includes("\r\n"));
    assert.equal(note({ file: readFile(written), words: "gone", date: "2026-03-17" }).section, "observations");
  }
});

test("what is not a list is not written into", () => {
  assert.throws(() => withEntry("observations: 3\n", { section: "observations", entry: {} }), /not a list/);
});

test("a plan of a trial with its sheet is one call", async () => {
  await load();
  const trial = { kind: "choice", question: "gone", feeds: ["watermelon rind", "pumpkin"], bins: ["porch tote", "shed tote", "cellar tote"], portions: 2, portion: "60 g", looks: 12 };
  const plan = trialPlan({ file: { ...BIN, trial }, sheet: "html" });
  assert.match(plan.sheet, /^<!doctype html>/i);
});
