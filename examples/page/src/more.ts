// The page of what is asked less often: a new bin, worms, a week over several bins, the stock, the
// harvest, work on the bed, a heap. Each question is one verb of libfeed, its fields in the keeper's
// words; the answer is that of the command.
import { harvest, heap, load, refresh, start, stock, totals, week, worms, type FeedFile } from "libfeed";
import { readFile } from "libfeed/yaml";
import { Bin, saveFile } from "./bin.js";
import { button, make, place, printPage } from "./dom.js";
import { linesOf } from "./lines.js";
import { problems, today } from "./said.js";

interface Told {
  lines: readonly string[];
  more?: Node;
}
interface Field {
  key: string;
  label: string;
  hint?: string;
  choices?: readonly (readonly [value: string, words: string])[];
}
interface Question {
  title: string;
  fields: readonly Field[];
  ask: (said: Record<string, string>, bin: Bin) => Told;
}

/** Bins beside the kept one, opened for this visit. */
const others: { name: string; file: FeedFile }[] = [];

/** What was filled in, without what was left empty. */
const given = (said: Record<string, string>, ...keys: string[]): Record<string, string> =>
  Object.fromEntries(keys.flatMap((key) => (said[key] ? [[key, said[key]]] : [])));
/** A whole number of a field, or as it was written, to be refused by libfeed. */
const whole = (said: Record<string, string>, ...keys: string[]): Record<string, number> => {
  const number = (words: string): number => (Number.isNaN(Number(words)) ? (words as unknown as number) : Number(words));
  return Object.fromEntries(keys.flatMap((key) => (said[key] ? [[key, number(said[key])]] : [])));
};

const binsOf = (bin: Bin): FeedFile[] => [bin.file, ...others.map((one) => one.file)];

const ofThisBin: readonly Question[] = [
  {
    title: "When do I harvest?",
    fields: [
      {
        key: "way",
        label: "How to part worms and castings",
        choices: [
          ["", "as suits the bin"],
          ["aside", "move the food aside"],
          ["light", "light and small heaps"],
          ["trays", "trays"],
          ["half", "half and half"],
        ],
      },
    ],
    ask: (said, bin) => ({
      lines: harvest({ file: bin.file, date: today(), units: bin.units, ...given(said, "way") }).text,
    }),
  },
  {
    title: "Change, split or move the bed, or leave it",
    fields: [
      {
        key: "change",
        label: "What is to be done",
        choices: [
          ["bedding", "change a third of the bedding"],
          ["flush", "wash salt out"],
          ["dry", "dry it out"],
          ["split", "make two bins of it"],
          ["move", "move it"],
          ["away", "I am going away"],
          ["winter", "a winter outdoors"],
        ],
      },
      { key: "away", label: "Going away: for how long", hint: "3 weeks" },
      { key: "temperature", label: "Moving or winter: how warm it is there", hint: "12 C" },
    ],
    ask: (said, bin) => {
      const change = said["change"] as "bedding";
      const member = { away: "away", move: "temperature", winter: "temperature" }[said["change"] ?? ""];
      const answer = refresh({
        file: bin.file,
        date: today(),
        units: bin.units,
        change,
        ...given(said, ...(member ? [member] : [])),
      });
      if ("text" in answer) return { lines: answer.text };
      // Before a time away it is a check, with the ration of today.
      const told = [answer.advice.away?.text, answer.advice.temperature?.text];
      return { lines: [...answer.ration.text, ...told.filter((one) => one !== undefined)] };
    },
  },
  {
    title: "What is in stock, and what do I thaw?",
    fields: [
      { key: "put", label: "Put by today", hint: "2 kg frozen melon rind" },
      { key: "collect", label: "What I could collect", hint: "coffee grounds, dry leaves" },
    ],
    ask: (said, bin) => {
      if (said["put"]) bin.note(`stock ${said["put"]}`);
      return { lines: stock({ file: bin.file, date: today(), units: bin.units, ...given(said, "collect") }).text };
    },
  },
  {
    title: "What did it take so far?",
    fields: [],
    ask: (_said, bin) => ({ lines: totals({ bins: binsOf(bin), units: bin.units }).text }),
  },
  {
    title: "How many worms live in it?",
    fields: [
      { key: "census", label: "Worms in each sample", hint: "12, 30, 7, 18" },
      { key: "sample", label: "Size of a sample", hint: "500 ml" },
    ],
    ask: (said, bin) => ({
      lines: worms({ file: bin.file, date: today(), units: bin.units, ...given(said, "census", "sample") }).text,
    }),
  },
];

const beside: readonly Question[] = [
  {
    title: "Set up a new bin",
    fields: [
      { key: "size", label: "The bin, and what it holds", hint: "60 L tote" },
      { key: "worms", label: "Worms", hint: "500 g" },
      { key: "bedding", label: "Bedding at hand", hint: "2 kg cardboard, 1 bucket dry leaves" },
    ],
    ask: (said, bin) => {
      const made = start({ date: today(), units: bin.units, ...given(said, "size", "worms", "bedding") });
      return {
        lines: made.new_bin?.text ?? [],
        more: button("Save the file of this bin", () => saveFile("bin.yaml", made.text)),
      };
    },
  },
  {
    title: "How many worms, and what bin, for our scraps?",
    fields: [
      { key: "people", label: "People who eat at home", hint: "4" },
      { key: "coffee", label: "Cups of coffee a day in all", hint: "4" },
      { key: "scraps", label: "Or the scraps of a week", hint: "2 kg apples, 500 g coffee grounds" },
    ],
    ask: (said, bin) => ({
      lines: worms({
        units: bin.units,
        ...whole(said, "people", "coffee"),
        ...(said["scraps"] ? { scraps: [said["scraps"]] } : {}),
      }).text,
    }),
  },
  {
    title: "A week over several bins",
    fields: [
      { key: "have", label: "What there is, and what comes", hint: "2 kg coffee grounds; Thu: 3 kg lettuce" },
    ],
    ask: (said, bin) => {
      const asked = {
        bins: binsOf(bin),
        date: today(),
        units: bin.units,
        ...(said["have"] ? { have: [said["have"]] } : {}),
      };
      const print = (): void => printPage(week({ ...asked, sheet: "html" }).sheet);
      return { lines: week(asked).text, more: button("Print the page for the wall", print) };
    },
  },
  {
    title: "Build a heap that gets hot",
    fields: [{ key: "things", label: "What there is for it", hint: "8 buckets grass, 20 buckets leaves, wood chips" }],
    ask: (said, bin) => ({
      lines: heap({ units: bin.units, ...(said["things"] ? { things: [said["things"]] } : {}) }).text,
    }),
  },
];

function inputOf(one: Field, id: string): HTMLInputElement | HTMLSelectElement {
  if (!one.choices) return make("input", { type: "text", id, autocomplete: "off", placeholder: one.hint ?? "" });
  return make(
    "select",
    { id },
    ...one.choices.map(([value, words]) => make("option", { value }, words)),
  );
}

function questionBox(question: Question, at: string, bin: Bin): HTMLElement {
  const result = make("div");
  const inputs = question.fields.map((one) => ({ one, input: inputOf(one, `${at}-${one.key}`) }));
  const asked = (event: Event): void => {
    event.preventDefault();
    const said = Object.fromEntries(inputs.map(({ one, input }) => [one.key, input.value.trim()]));
    try {
      const told = question.ask(said, bin);
      result.replaceChildren(linesOf(told.lines), told.more ?? "");
    } catch (fault) {
      result.replaceChildren(make("p", { class: "message", role: "alert" }, problems(fault)));
    }
  };
  return make(
    "details",
    { id: at },
    make("summary", {}, question.title),
    make(
      "form",
      { submit: asked },
      ...inputs.map(({ one, input }) =>
        make("p", { class: "field" }, make("label", { for: input.id }, one.label), input),
      ),
      make("button", { type: "submit", class: "main" }, "Work it out"),
    ),
    result,
  );
}

function othersBox(): HTMLElement {
  const told = make("p", { role: "status" }, "My bin alone.");
  const opened = make("input", { type: "file", id: "opened", multiple: true, accept: ".yaml,.yml,.json,text/plain" });
  opened.addEventListener("change", async () => {
    try {
      for (const one of opened.files ?? []) others.push({ name: one.name, file: readFile(await one.text()) });
      told.textContent = `My bin, and ${others.map((one) => one.name).join(", ")}.`;
    } catch (fault) {
      told.textContent = problems(fault);
    }
    opened.value = "";
  });
  return make(
    "div",
    { class: "row" },
    make("label", { for: "opened", class: "like-button" }, "Open files of other bins"),
    opened,
    told,
  );
}

try {
  await load(new URL("libfeed.wasm", document.baseURI));
  const bin = new Bin();
  const storage = place("storage");
  storage.textContent = bin.trouble;
  storage.hidden = bin.trouble === "";
  const show = (id: string, questions: readonly Question[]): void =>
    place(id).append(...questions.map((one, n) => questionBox(one, `${id}-${n}`, bin)));
  show("mine", ofThisBin);
  show("beside", beside);
  place("beside").append(othersBox());
  document.documentElement.dataset.ready = "yes";
} catch (fault) {
  const storage = place("storage");
  storage.textContent = problems(fault);
  storage.hidden = false;
}
