// The page of a trial: lay it out, print its sheet, tick what is seen, read what it says. The trial
// is a file of its own, the same as the command's; the looker sees numbers of places, no feeds.
import { load, note, trialPlan, trialRead, type FeedFile } from "libfeed";
import { readFile, withEntry } from "libfeed/yaml";
import { parseDocument, stringify } from "yaml";
import { keptUnits, saveFile } from "./bin.js";
import { button, choices, field, make, place, printPage } from "./dom.js";
import { problems, today } from "./said.js";
import { keep, keepsNothing, keepUnread, kept, letGo } from "./storage.js";

const KEY = "worm-bin.trial";

interface Wanted {
  feeds: string[];
  bins: number;
  question: string;
  portion: string;
  worms: string;
  container: string;
}

const wanted: Wanted = {
  feeds: ["", ""],
  bins: 1,
  question: "gone",
  portion: "60 g",
  worms: "500 g",
  container: "60 L tote",
};

let text = "";
/** What was kept here and cannot be read. */
let unread = "";

function take(written: string): void {
  readFile(written);
  text = written;
  if ((unread === "" || keepUnread(KEY, unread)) && keep(KEY, written)) unread = "";
  else trouble(keepsNothing("trial"));
}

function trouble(words: string): void {
  const storage = place("storage");
  storage.textContent = words;
  storage.hidden = words === "";
}

function tried(work: () => void): void {
  try {
    trouble("");
    work();
  } catch (fault) {
    trouble(problems(fault));
    place("storage").scrollIntoView({ block: "nearest" });
  }
}

/** The file of a trial as it is asked for, without seed and start. */
function fileOf(): FeedFile {
  return {
    libfeed: 1,
    bed: { date: today(), container: wanted.container, worms: wanted.worms, squeeze: "drops", age: "16 weeks" },
    trial: {
      kind: "choice",
      question: wanted.question,
      feeds: wanted.feeds.filter((feed) => feed !== ""),
      bins: wanted.bins,
      portion: wanted.portion,
    },
  };
}

function showPlan(): void {
  const box = place("plan");
  const result = make("div", { "aria-live": "polite" });
  const draw = (): void =>
    tried(() => {
      const plan = trialPlan({ file: fileOf(), units: keptUnits(), yaml: true });
      const file = { ...fileOf(), ...readFile(plan.yaml ?? "") };
      result.replaceChildren(
        ...plan.text.map((line: string, at: number) => make("p", { class: at === 0 ? "first" : "" }, line.trim())),
        make(
          "div",
          { class: "row" },
          button("Lay it today", () =>
            tried(() => {
              const document = parseDocument(`# A trial of feeds side by side.\n${stringify(file)}`);
              document.setIn(["trial", "start"], today());
              take(document.toString({ lineWidth: 0 }));
              showAll();
            }), "main"),
          button("Print the sheet", () => tried(() => printPage(trialPlan({ file, units: keptUnits(), sheet: "html" }).sheet))),
        ),
      );
    });
  const feeds = wanted.feeds.map((feed, at) =>
    field(`Food ${at + 1}`, feed, (value) => {
      wanted.feeds[at] = value;
    }, at === 0 ? "melon rind" : "pumpkin"),
  );
  box.replaceChildren(
    box.firstElementChild ?? "",
    ...feeds,
    wanted.feeds.length < 4
      ? button("One more food", () => {
          wanted.feeds.push("");
          showPlan();
        }, "quiet")
      : "",
    choices(
      "What do you want to know?",
      "question",
      [
        { value: "gone", words: "which is gone first" },
        { value: "found", words: "which is found first" },
      ],
      wanted.question,
      (value) => {
        wanted.question = value;
      },
    ),
    field("How many bins", String(wanted.bins), (value) => {
      wanted.bins = Number(value) || 1;
    }),
    field("What the bins are", wanted.container, (value) => {
      wanted.container = value;
    }),
    field("Worms in each", wanted.worms, (value) => {
      wanted.worms = value;
    }),
    field("One portion", wanted.portion, (value) => {
      wanted.portion = value;
    }),
    button("Plan it", draw, "main"),
    result,
  );
}

function showLook(): void {
  const box = place("look");
  if (text === "") {
    box.replaceChildren(box.firstElementChild ?? "", make("p", {}, "No trial is laid yet."));
    return;
  }
  const words = make("input", { type: "text", id: "looked", autocomplete: "off", placeholder: "plots 1-4 worms few, plot 2 half left, plot 3 gone" });
  const write = (said: string): void =>
    tried(() => {
      take(withEntry(text, note({ file: readFile(text), words: said, date: today() })));
      showAll();
    });
  const plan = trialPlan({ file: readFile(text) });
  const count: number = plan.plots.length;
  const rows = Array.from({ length: count }, (_, at) => {
    const plot = at + 1;
    const state = make("select", { "aria-label": `Plot ${plot}`, class: "state" },
      ...["", "all left", "three quarters left", "half left", "a quarter left", "gone"].map((one) =>
        make("option", { value: one }, one || "not looked")));
    return { plot, state, row: make("li", {}, make("span", {}, `Plot ${plot}`), state) };
  });
  box.replaceChildren(
    box.firstElementChild ?? "",
    make("ol", { class: "plots" }, ...rows.map((one) => one.row)),
    button("Write these down", () => {
      const said = rows.filter((one) => one.state.value !== "").map((one) => `plot ${one.plot} ${one.state.value}`);
      if (said.length > 0) write(said.join(", "));
    }, "main"),
    make(
      "form",
      { submit: (event: Event) => { event.preventDefault(); if (words.value.trim()) write(words.value.trim()); } },
      make("label", { for: "looked" }, "Or in words, with worms and weights"),
      make("div", { class: "row" }, words, make("button", { type: "submit" }, "Write it down")),
    ),
  );
}

function showRead(): void {
  const box = place("read");
  const title = box.firstElementChild ?? "";
  if (text === "") {
    box.replaceChildren(title, make("p", {}, "Nothing was seen yet."));
    return;
  }
  tried(() => {
    const answer = trialRead({ file: readFile(text) });
    box.replaceChildren(
      title,
      ...answer.text.map((line: string, at: number) => make("p", { class: at === 0 ? "first" : "" }, line.trim())),
      make(
        "div",
        { class: "row" },
        button("Save the trial as a file", () => saveFile("trial.yaml", text)),
        button("Begin another", () => {
          saveFile("trial.yaml", text);
          text = "";
          letGo(KEY);
          showAll();
        }, "quiet"),
      ),
    );
  });
}

function showAll(): void {
  showPlan();
  showLook();
  showRead();
}

try {
  await load(new URL("libfeed.wasm", document.baseURI));
  const said = kept(KEY);
  if (said === undefined) trouble(keepsNothing("trial"));
  try {
    readFile(said ?? "");
    text = said ?? "";
  } catch {
    unread = said ?? "";
    trouble("The trial that was kept here cannot be read. Nothing of it is lost: it stays in this browser.");
  }
  showAll();
  document.documentElement.dataset.ready = "yes";
} catch (fault) {
  trouble(problems(fault));
}
