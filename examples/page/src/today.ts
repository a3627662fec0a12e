// The box "Today": one answer, whole and in its order, and what a keeper does next.
import { forecast, ration, type FeedFile } from "libfeed";
import type { Bin } from "./bin.js";
import { button, make, printPage, place } from "./dom.js";
import type { Having } from "./having.js";
import { linesOf } from "./lines.js";
import { dayAfter, problems, today, weekday, weight, type Units } from "./said.js";
import { showSigns } from "./wrong.js";

// Stays when the answer is made anew: a note of a sign makes it.
const wrong = make("div", { id: "wrong" });

type Ration = ReturnType<typeof ration>;

const withThings = (bin: Bin, having: Having): FeedFile =>
  having.chips.length === 0
    ? bin.file
    : { ...bin.file, blend: having.chips.map((chip) => chip.words) };

function room(bin: Bin, answer: Ration): HTMLElement | undefined {
  if (!(answer.week_kg > 0)) return undefined;
  const share = Math.min(1, answer.scraps_kg / answer.week_kg);
  const words = `${weight(answer.scraps_kg, bin.units)} of the ${weight(answer.week_kg, bin.units)} that these worms eat in a week`;
  return make(
    "p",
    { class: "room" },
    make("meter", { min: "0", max: "1", value: share.toFixed(2), "aria-label": words }),
    make("span", {}, words),
  );
}

/** Two weeks by day: feed, look, feed again. Every mark is a word. */
function strip(answer: Ration, units: Units): HTMLElement {
  const date = today();
  const items: HTMLLIElement[] = [];
  const next = answer.next_feeding;
  for (let day = 0; day < 14; ++day) {
    const marks = [
      day === 0 && answer.scraps_kg > 0 ? "feed" : "",
      day === answer.next_look?.day ? "look" : "",
      day === next?.day ? "feed again" : "",
    ].filter(Boolean);
    const open = next && day >= next.earliest_day && day <= next.latest_day;
    const kind = marks.length > 0 ? "marked" : open ? "open" : "";
    items.push(
      make(
        "li",
        { class: kind },
        make("span", { class: "day" }, day === 0 ? "today" : weekday(dayAfter(date, day), units)),
        make("span", { class: "mark" }, marks.join(", ") || (open ? "may be ready" : "rest")),
      ),
    );
  }
  return make("ol", { class: "strip", "aria-label": "The next two weeks", tabindex: "0" }, ...items);
}

/** What was put in, as the diary takes it. */
function fedWords(answer: Ration): string {
  const grams = (kilograms: number): string => `${Math.max(1, Math.round(kilograms * 1000))} g`;
  const parts = answer.put_in.map(
    (one: { wet_mass_kg: number; feedstock: string; label: string }) =>
      `${grams(one.wet_mass_kg)} ${one.feedstock || one.label}`,
  );
  if (answer.water_kg > 0) parts.push(`${grams(answer.water_kg)} water`);
  return `fed ${parts.join(", ")}`;
}

function whyBox(answer: Ration): HTMLElement {
  const list = (title: string, lines: string[]): Node[] =>
    lines.length === 0
      ? []
      : [make("h3", {}, title), make("ul", {}, ...lines.map((line) => make("li", {}, line)))];
  return make(
    "details",
    { class: "why" },
    make("summary", {}, "Why, and what was taken for granted"),
    ...list("Reasons", answer.reasons),
    ...list("Take care", answer.cautions.map((one: { text: string }) => one.text)),
    ...list("Taken for granted", answer.assumed),
  );
}

function diaryBox(bin: Bin): HTMLElement {
  const fed = (bin.file.feedings ?? []).map((one) => ({
    date: String(one.date),
    words: `fed ${one.portions.map((portion) => (typeof portion === "string" ? portion : JSON.stringify(portion))).join(", ")}`,
  }));
  const seen = (bin.file.observations ?? []).map(({ date, ...rest }) => ({
    date: String(date),
    words: Object.entries(rest).map(([key, value]) => `${key.replace(/_/g, " ")}: ${typeof value === "string" ? value : JSON.stringify(value)}`).join(", "),
  }));
  const all = [...fed, ...seen].sort((one, other) => other.date.localeCompare(one.date));
  return make(
    "details",
    {},
    make("summary", {}, `Diary, ${all.length} ${all.length === 1 ? "entry" : "entries"}`),
    make("ul", { class: "diary" }, ...all.map((one) => make("li", {}, make("time", {}, one.date), ` ${one.words}`))),
  );
}

export function showToday(bin: Bin, having: Having, box: HTMLElement): void {
  const message = make("p", { class: "message", role: "alert", hidden: true });
  const tried = (work: () => void): void => {
    try {
      work();
    } catch (fault) {
      message.textContent = problems(fault);
      message.hidden = false;
    }
  };
  const title = box.firstElementChild ?? "";
  let answer: Ration;
  try {
    answer = ration({ file: withThings(bin, having), date: today(), units: bin.units });
  } catch (fault) {
    message.textContent = problems(fault);
    message.hidden = false;
    box.replaceChildren(title, message);
    return;
  }
  place("always").textContent = answer.always;
  const nothingSaid = having.chips.length === 0;
  const seen = make("input", { type: "text", id: "seen", autocomplete: "off", placeholder: "half gone, many drops, 22 C" });
  box.replaceChildren(
    title,
    linesOf(answer.text),
    room(bin, answer) ?? "",
    make(
      "div",
      { class: "row" },
      nothingSaid || answer.put_in.length === 0
        ? undefined
        : button("I fed it", () =>
            tried(() => {
              bin.note(fedWords(answer));
              having.clear();
            }), "main"),
      button("Something is wrong", () => showSigns(bin, wrong), "alarm"),
      button("Print the page for the bin", () =>
        tried(() => printPage(forecast({ file: withThings(bin, having), date: today(), units: bin.units, sheet: "html" }).sheet))),
    ),
    message,
    wrong,
    strip(answer, bin.units),
    make(
      "form",
      {
        submit: (event: Event) => {
          event.preventDefault();
          if (seen.value.trim() !== "") tried(() => void bin.note(seen.value.trim()));
        },
      },
      make("label", { for: "seen" }, "What did you see or do?"),
      make("div", { class: "row" }, seen, make("button", { type: "submit" }, "Write it down")),
    ),
    whyBox(answer),
    diaryBox(bin),
  );
}
