// An answer's lines as libfeed orders them: what is never fed first, then what to do.
import { drawing, make } from "./dom.js";
import { never } from "./pictures.js";

export function linesOf(lines: readonly string[]): HTMLElement {
  const box = make("div", { class: "answer", "aria-live": "polite" });
  let barred = false;
  let told = false;
  for (const line of lines) {
    const below = line.startsWith("  ");
    if (!below) barred = /^(Never feed|Take out)/.test(line);
    const kind = barred ? "barred" : !below && !told ? "first" : below ? "below" : "";
    if (kind === "first") told = true;
    box.append(make("p", { class: kind }, barred && !below ? drawing(never) : undefined, line.trim()));
  }
  return box;
}
