// The box "What I have": what a person says becomes chips with the weight beside. libfeed reads the
// words, here as everywhere; the page has no grammar of its own.
import { blend, note } from "libfeed";
import type { Bin } from "./bin.js";
import { button, drawing, make } from "./dom.js";
import { never } from "./pictures.js";
import { problems, today, weight, type Units } from "./said.js";

export interface Chip {
  words: string;
  wetKg: number;
  measure: string;
  /** Why it is never fed, or empty. */
  barred: string;
  /** What else the word may mean, as words to type. */
  other: string;
}

/** The things in a text, one by one, as libfeed parts them. */
export function things(text: string): string[] {
  const noted = note({ file: { libfeed: 1, bed: {} }, words: `fed ${text}`, date: today() });
  return noted.entry.portions.map((portion: unknown) => String(portion));
}

/** What one thing is and weighs. Throws a FeedError if it is not understood. */
export function chipOf(words: string, units: Units): Chip {
  const read = blend({ things: [words], units });
  const portion = read.portions[0] ?? { wet_mass_kg: 0, measure: "" };
  const barred = read.take_out[0];
  const readings: string[] = read.assumed ?? [];
  const other = readings.map((one) => / for .+ write "(.+?)"/.exec(one)?.[1]).find(Boolean) ?? "";
  return {
    words,
    wetKg: portion.wet_mass_kg,
    measure: portion.measure,
    barred: barred ? `Never fed: ${barred.why}. Instead: ${barred.instead}.` : "",
    other,
  };
}

export class Having {
  chips: Chip[] = [];
  #changed: () => void;

  constructor(changed: () => void) {
    this.#changed = changed;
  }

  /** Adds everything a text says, or throws and adds nothing. */
  add(text: string, units: Units): void {
    const more = things(text).map((one) => chipOf(one, units));
    this.chips = [...this.chips, ...more];
    this.#changed();
  }

  replace(chip: Chip, words: string, units: Units): void {
    const other = chipOf(words, units);
    this.chips = this.chips.map((one) => (one === chip ? { ...other, other: "" } : one));
    this.#changed();
  }

  remove(chip: Chip): void {
    this.chips = this.chips.filter((one) => one !== chip);
    this.#changed();
  }

  clear(): void {
    this.chips = [];
    this.#changed();
  }
}

function chipView(chip: Chip, having: Having, units: Units): HTMLLIElement {
  return make(
    "li",
    { class: chip.barred ? "chip barred" : "chip" },
    chip.barred ? drawing(never) : undefined,
    make("span", { class: "words" }, chip.words),
    make("button", { type: "button", class: "quiet away", "aria-label": `Take away ${chip.words}`, click: () => having.remove(chip) }, "×"),
    chip.barred
      ? make("span", { class: "why" }, chip.barred)
      : make("span", { class: "weight" }, `about ${weight(chip.wetKg, units)}`),
    chip.other && !chip.barred
      ? button(`Is it ${chip.other}?`, () => having.replace(chip, `${chip.measure} ${chip.other}`, units), "quiet")
      : undefined,
  );
}

export function showHaving(bin: Bin, having: Having, box: HTMLElement): void {
  const message = make("p", { class: "message", role: "alert", hidden: true });
  const said = make("input", {
    type: "text",
    id: "said",
    autocomplete: "off",
    placeholder: "3 apples, a cup of coffee, half a bag of leaves",
  });
  const add = (): void => {
    if (said.value.trim() === "") return;
    try {
      having.add(said.value.trim(), bin.units);
      const again = document.getElementById("said");
      if (again instanceof HTMLInputElement) again.focus();
    } catch (fault) {
      message.textContent = problems(fault);
      message.hidden = false;
    }
  };
  const form = make(
    "form",
    { submit: (event: Event) => { event.preventDefault(); add(); } },
    make("label", { for: "said" }, "Say what there is, scraps and bedding"),
    make("div", { class: "row" }, said, make("button", { type: "submit" }, "Add")),
  );
  const list = make("ul", { class: "chips" }, ...having.chips.map((chip) => chipView(chip, having, bin.units)));
  box.replaceChildren(box.firstElementChild ?? "", form, message, list);
}
