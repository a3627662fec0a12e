// What an app may rely on when it reads an answer; compiled, never run.
import { call, ration, refresh, type Answers, type Ration } from "libfeed";
import { withEntry } from "libfeed/yaml";

const today: Ration = ration({ things: "3 apples" });
export const day: string | null = today.date;
export const kilograms: number[] = today.put_in.map((one) => one.wet_mass_kg);

const noted = call({ verb: "note", file: "x", words: "fed 3 apples", date: "2026-03-14" });
export const text: string = withEntry("x", noted);

const done = refresh({ file: "x", change: "dry" });
export const verdict: string = "hazards" in done ? done.grade : done.verdict;

const { fat_kg } = call({ verb: "blend", things: "1 kg apples" });
export const fat: number | undefined = fat_kg === null ? undefined : "value" in fat_kg ? fat_kg.value : fat_kg.at_least;

// @ts-expect-error no such field
today.weekly_kg;
// @ts-expect-error the answer of another verb
export const week: Answers["week"] = call({ verb: "version" });
// @ts-expect-error a note needs a file and a day
call({ verb: "note", words: "fed 3 apples" });
