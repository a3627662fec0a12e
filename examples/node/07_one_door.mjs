// One door: an app that keeps its bin (invented) as an object asks, notes what was fed, asks again.
import { call } from "./feed.mjs";

const bin = {
  libfeed: 1,
  bed: { date: "2026-03-14", container: "60 L tote", worms: "1 lb", temperature: "20 C" },
  blend: ["300 g carrot", "50 g bacon"],
};
// All the lines, in their order: what must be taken out comes first.
const today = call({ verb: "ration", file: bin, date: "2026-03-14" });
today.text.forEach((line) => console.log(line));

// The app keeps the object, so it adds the entry itself.
delete bin.blend;
const note = call({ verb: "note", file: bin, words: "fed 300 g carrot", date: "2026-03-14" });
bin[note.section] = [...(bin[note.section] ?? []), note.entry];
const later = call({ verb: "ration", file: bin, date: "2026-03-15" });
console.log(`the day after: ${later.answer}, ${note.section}: ${bin[note.section].length}`);

try {
  call({ verb: "note", file: bin, words: "fed 2 furlongs carrot", date: "2026-03-15" });
} catch (problem) {
  console.log(`refused: ${problem.message}`);
}
