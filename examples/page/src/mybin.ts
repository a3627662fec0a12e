// The box "My bin": container, size, worms, wetness and warmth, and the file that keeps them.
import { type Bin, saveFile, type Bed } from "./bin.js";
import { button, choices, field, make, type Choice } from "./dom.js";
import { containers, fists } from "./pictures.js";
import { problems } from "./said.js";

const kinds: readonly Choice[] = [
  { value: "tote", words: "tote" },
  { value: "tray", words: "trays" },
  { value: "bucket", words: "bucket" },
  { value: "box", words: "wooden box" },
  { value: "bath", words: "bath" },
  { value: "flow-through", words: "flow-through" },
].map((one) => ({ ...one, picture: containers[one.value] }));

const wetness: readonly Choice[] = [
  { value: "crumbly", words: "crumbles" },
  { value: "damp", words: "damp, no drop" },
  { value: "drops", words: "a drop or two" },
  { value: "many drops", words: "many drops" },
  { value: "streams", words: "it runs" },
].map((one) => ({ ...one, picture: fists[one.value] }));

const ages: readonly Choice[] = [
  { value: "1 week", words: "days" },
  { value: "6 weeks", words: "weeks" },
  { value: "16 weeks", words: "some months" },
  { value: "52 weeks", words: "a year or more" },
];

/** "60 L" and "tote" of "60 L tote". */
function parted(container: string): { size: string; kind: string } {
  const kind = kinds.find((one) => container.endsWith(one.value))?.value ?? "";
  return { kind, size: kind ? container.slice(0, -kind.length).trim() : container };
}

function wormsBox(bin: Bin, told: (fault: unknown) => void): HTMLElement {
  const said = String(bin.bed.worms ?? "");
  const bought = said.endsWith("as bought");
  let way = said === "" ? "unknown" : bought ? "bought" : "weighed";
  let amount = said.replace(/,?\s*as bought$/, "");
  const take = (): void => {
    try {
      if (way === "unknown") bin.describe("worms", "");
      else if (amount !== "") bin.describe("worms", way === "bought" ? `${amount} as bought` : amount);
    } catch (fault) {
      told(fault);
    }
  };
  return make(
    "div",
    {},
    choices(
      "Worms",
      "worms",
      [
        { value: "weighed", words: "weighed or counted" },
        { value: "bought", words: "as bought" },
        { value: "unknown", words: "I do not know" },
      ],
      way,
      (value) => {
        way = value;
        take();
      },
    ),
    field("How many worms", amount, (value) => {
      amount = value;
      if (way === "unknown" && value !== "") way = "weighed";
      take();
    }, bin.units === "us" ? "1 lb" : "500 g"),
  );
}

/** Wetness and warmth of a bed with a diary are looks of today; before that they describe it. */
function seen(bin: Bin, key: keyof Bed, words: string, value: string): void {
  if (bin.hasDiary) bin.note(words);
  else bin.describe(key, value);
}

function filesBox(bin: Bin, told: (fault: unknown) => void): HTMLElement {
  const opened = make("input", { type: "file", id: "opened", accept: ".yaml,.yml,.json,text/plain" });
  opened.addEventListener("change", async () => {
    const file = opened.files?.[0];
    if (!file) return;
    try {
      bin.open(await file.text());
    } catch (fault) {
      told(fault);
    }
    opened.value = "";
  });
  return make(
    "div",
    { class: "row" },
    button("Save the bin as a file", () => saveFile("bin.yaml", bin.text)),
    make("label", { for: "opened", class: "like-button" }, "Open a file of a bin"),
    opened,
    bin.unread === ""
      ? undefined
      : button("Save what could not be read", () => saveFile("bin-unread.yaml", bin.unread)),
  );
}

export function showBin(bin: Bin, box: HTMLElement): void {
  const message = make("p", { class: "message", role: "alert", hidden: true });
  const told = (fault: unknown): void => {
    message.textContent = problems(fault);
    message.hidden = false;
  };
  const tried = (work: () => void): void => {
    try {
      work();
      message.hidden = true;
    } catch (fault) {
      told(fault);
    }
  };
  const { kind, size } = parted(String(bin.bed.container ?? ""));
  const describe = (key: keyof Bed, value: string): void => tried(() => bin.describe(key, value));
  let sized = size;
  let shaped = kind;
  const container = (): void => describe("container", `${sized} ${shaped}`.trim());
  const details = make(
    "details",
    { open: bin.isNew },
    make("summary", {}, [bin.bed.container, bin.bed.worms && `${bin.bed.worms} worms`].filter(Boolean).join(", ") || "Describe it"),
    choices("What the worms live in", "container", kinds, kind, (value) => {
      shaped = value;
      container();
    }),
    field("How much it holds", size, (value) => {
      sized = value;
      container();
    }, bin.units === "us" ? "15 gallon" : "60 L"),
    wormsBox(bin, told),
    choices("Worms have lived in it for", "age", ages, String(bin.bed.age ?? ""), (value) => describe("age", value)),
    choices("A squeezed handful of the bed", "squeeze", wetness, bin.hasDiary ? "" : String(bin.bed.squeeze ?? ""), (value) =>
      tried(() => seen(bin, "squeeze", `squeeze ${value}`, value)),
    ),
    field("How warm it is", bin.hasDiary ? "" : String(bin.bed.temperature ?? ""), (value) => {
      if (value !== "") tried(() => seen(bin, "temperature", `temperature ${value}`, value));
      else if (!bin.hasDiary) describe("temperature", "");
    }, bin.units === "us" ? "70 F" : "20 C"),
    choices(
      "Units",
      "units",
      [
        { value: "metric", words: "kg, litres, °C" },
        { value: "us", words: "lb, gallons, °F" },
      ],
      bin.units,
      (value) => tried(() => bin.setUnits(value === "us" ? "us" : "metric")),
    ),
  );
  box.replaceChildren(box.firstElementChild ?? "", details, filesBox(bin, told), message);
}
