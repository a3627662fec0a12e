// Small helpers to build the page. No text of a keeper ever becomes markup: it is set as text.

type Child = Node | string | undefined;

/** An element with attributes and children; functions are listeners (`click: () => ...`). */
export function make<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Record<string, string | boolean | ((event: Event) => void)> = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(key, value);
    else if (value === true) element.setAttribute(key, "");
    else if (value !== false) element.setAttribute(key, value);
  }
  for (const child of children) if (child !== undefined) element.append(child);
  return element;
}

/** One of the page's own drawings. They are constants of pictures.ts, never a keeper's text. */
export function drawing(svg: string): HTMLElement {
  const holder = make("span", { class: "drawing", "aria-hidden": "true" });
  holder.innerHTML = svg;
  return holder;
}

export function place(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no place called ${id}`);
  return found;
}

export interface Choice {
  value: string;
  words: string;
  picture?: string;
}

/** Choices as a group of radio buttons, with pictures where they have some. */
export function choices(
  legend: string,
  name: string,
  all: readonly Choice[],
  chosen: string,
  changed: (value: string) => void,
): HTMLFieldSetElement {
  const tiles = all.map((one) =>
    make(
      "label",
      { class: one.picture ? "tile" : "option" },
      make("input", {
        type: "radio",
        name,
        value: one.value,
        checked: one.value === chosen,
        change: () => changed(one.value),
      }),
      one.picture ? drawing(one.picture) : undefined,
      make("span", {}, one.words),
    ),
  );
  return make("fieldset", {}, make("legend", {}, legend), make("div", { class: "tiles" }, ...tiles));
}

let fields = 0;

/** A labelled text box. `done` is called when the keeper leaves it or presses Enter. */
export function field(
  label: string,
  value: string,
  done: (value: string) => void,
  hint = "",
): HTMLElement {
  const id = `field-${++fields}`;
  const box = make("input", { type: "text", id, value, autocomplete: "off", placeholder: hint });
  box.addEventListener("change", () => done(box.value.trim()));
  return make("p", { class: "field" }, make("label", { for: id }, label), box);
}

export const button = (words: string, pressed: () => void, kind = ""): HTMLButtonElement =>
  make("button", { type: "button", class: kind, click: pressed }, words);

/** Prints a page of HTML that libfeed made, from a frame that is taken away afterwards. */
export function printPage(html: string | string[] = ""): void {
  const frame = make("iframe", { title: "Page to print", class: "printed", srcdoc: String(html) });
  frame.addEventListener("load", () => {
    frame.contentWindow?.addEventListener("afterprint", () => frame.remove());
    frame.contentWindow?.print();
  });
  document.body.append(frame);
}
