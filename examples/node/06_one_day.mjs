// One day: a tote in a stairwell (invented) is asked for its ration, fed, noted, asked again.
import { call } from "./feed.mjs";

const bed = {
  date: "2026-03-14",
  container: "60 L tote",
  worms: "1 lb",
  temperature: "20 C",
  squeeze: "drops",
};
const bin = { libfeed: 1, bed };
const today = { ...bin, blend: ["300 g carrot", "50 g bacon", "200 g shredded cardboard"] };

// What may go in today. All lines, in their order: what must be taken out comes first.
call({ verb: "ration", file: today }).text.forEach((line) => console.log(line));

// The plan as it stands, bacon and all, against the bed.
for (const { hazard, level } of call({ verb: "check", file: today }).hazards)
  if (level === "watch" || level === "act") console.log(`the plan: ${hazard}, ${level}`);

/** The bin with what was done or seen. */
function noted(file, words, date) {
  const { section, entry } = call({ verb: "note", file, words, date });
  return { section, file: { ...file, [section]: [...(file[section] ?? []), entry] } };
}
const fed = noted(bin, "fed 300 g carrot and 17 g shredded cardboard", "2026-03-14");
console.log(`noted in: ${fed.section}`);

// A week ahead, from what went in.
const ahead = call({ verb: "forecast", file: fed.file, days: 8 });
console.log(`food left after a week: ${(1000 * ahead.food_left_kg[7]).toFixed(0)} g`);

// The day after somebody looks, and the same question has another answer.
const seen = noted(fed.file, "smell earthy", "2026-03-15");
console.log(`the day after: ${call({ verb: "ration", file: seen.file }).answer}`);
