// "Something is wrong": picture tiles to signs, then one test, yes or no, and one step.
import { note, signs as causesOf } from "libfeed";
import type { Bin } from "./bin.js";
import { button, drawing, make } from "./dom.js";
import { signs } from "./pictures.js";
import { problems, today } from "./said.js";

interface Cause {
  cause: string;
  test: string;
  remedy: string;
  harmless: boolean;
}

/** One cause after another: its test, and its step when the test says so. */
function askCause(causes: readonly Cause[], at: number, place: HTMLElement): void {
  const cause = causes[at];
  if (!cause) {
    place.replaceChildren(
      make("p", {}, "None of the usual causes. Feed nothing, look again tomorrow, and ask a person who keeps worms."),
    );
    return;
  }
  const yes = (): void =>
    place.replaceChildren(
      make("p", { class: "first" }, cause.harmless ? `Most likely harmless: ${cause.cause}.` : `It is ${cause.cause}.`),
      make("p", {}, cause.remedy),
      button("Not so after all", () => askCause(causes, at + 1, place), "quiet"),
    );
  const ask = make("p", { class: "first", tabindex: "-1" }, cause.test);
  place.replaceChildren(
    make("p", {}, `May be ${cause.cause}. Make this test:`),
    ask,
    make("div", { class: "row" }, button("Yes, so it is", yes, "main"), button("No", () => askCause(causes, at + 1, place))),
  );
  ask.focus();
}

/** Writes signs into the diary as one look; gives back what it asks of those that it cannot take. */
function writeDown(bin: Bin, words: string[]): string[] {
  const asked: string[] = [];
  const taken = words.filter((one) => {
    try {
      note({ file: bin.file, words: one, date: today() });
      return true;
    } catch (fault) {
      asked.push(problems(fault));
      return false;
    }
  });
  if (taken.length > 0) bin.note(taken.join(", "));
  return asked;
}

export function showSigns(bin: Bin, box: HTMLElement): void {
  const chosen = new Set<string>();
  const result = make("div", { "aria-live": "polite" });
  const tiles = Object.entries(signs).map(([words, picture]) => {
    const tile = make(
      "button",
      {
        type: "button",
        class: "tile",
        "aria-pressed": "false",
        click: () => {
          if (!chosen.delete(words)) chosen.add(words);
          tile.setAttribute("aria-pressed", String(chosen.has(words)));
        },
      },
      drawing(picture),
      make("span", {}, words),
    );
    return tile;
  });
  const written = new Set<string>();
  const find = (): void => {
    if (chosen.size === 0) {
      result.replaceChildren(make("p", {}, "Choose what you see first."));
      return;
    }
    try {
      // Into the diary first: today's answer above must know what was seen.
      const fresh = [...chosen].filter((words) => !written.has(words));
      for (const words of fresh) written.add(words);
      const asked = writeDown(bin, fresh);
      const answer = causesOf({ signs: [...chosen], file: bin.file, units: bin.units });
      const steps = make("div");
      result.replaceChildren(...asked.map((words) => make("p", { class: "message" }, words)), steps);
      askCause(answer.causes as Cause[], 0, steps);
    } catch (fault) {
      result.replaceChildren(make("p", { class: "message", role: "alert" }, problems(fault)));
    }
  };
  box.replaceChildren(
    make("h3", {}, "What do you see or smell?"),
    make("div", { class: "tiles", role: "group", "aria-label": "Signs" }, ...tiles),
    make(
      "div",
      { class: "row" },
      button("Write it down: what may it be?", find, "main"),
      button("Close", () => box.replaceChildren(), "quiet"),
    ),
    result,
  );
  tiles[0]?.focus();
}
