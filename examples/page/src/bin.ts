// The keeper's bin: its text in YAML (the same file as the command's), kept in the browser and in a
// file that can be saved and opened. Whatever goes wrong, the text is not lost.
import { check, note, type FeedFile } from "libfeed";
import { readFile, withEntry } from "libfeed/yaml";
import { parseDocument, stringify } from "yaml";
import { today, usualUnits, type Units } from "./said.js";
import { keep, keepsNothing, keepUnread, kept } from "./storage.js";

const KEY = "worm-bin";
const UNITS_KEY = "worm-bin.units";

export interface Bed {
  date?: string;
  container?: string;
  worms?: string;
  squeeze?: string;
  temperature?: string;
  age?: string;
}

export type BinFile = FeedFile & {
  bed?: Bed;
  feedings?: { date: string; portions: unknown[] }[];
  observations?: Record<string, unknown>[];
};

type Heard = () => void;

export class Bin {
  text: string;
  file: BinFile;
  /** Of the texts on the page; amounts are taken in any. */
  units: Units = keptUnits();
  /** Set where the browser keeps nothing, or kept what cannot be read. */
  trouble = "";
  /** Nothing was kept here before: the bin is the usual one, to be described. */
  isNew = true;
  /** The kept text that could not be read, to be saved as it is. */
  unread = "";
  #heard: Heard[] = [];

  constructor() {
    this.text = newText();
    this.file = readFile(this.text);
    this.#read();
  }

  onChange(heard: Heard): void {
    this.#heard.push(heard);
  }

  get bed(): Bed {
    return this.file.bed ?? {};
  }
  get hasDiary(): boolean {
    return Boolean(this.file.feedings?.length || this.file.observations?.length);
  }

  /** Describes the bed anew, or says that a part of its description is not known. */
  describe(key: keyof Bed, value: string): void {
    const document = parseDocument(this.text);
    if (value === "") document.deleteIn(["bed", key]);
    else document.setIn(["bed", key], value);
    if (!this.hasDiary) document.setIn(["bed", "date"], today());
    this.#take(document.toString({ lineWidth: 0 }));
  }

  setUnits(units: Units): void {
    this.units = units;
    keep(UNITS_KEY, units);
    this.#tell();
  }

  /** Adds one entry, said in everyday words. Throws a FeedError and changes nothing if it cannot. */
  note(words: string): string {
    const noted = note({ file: this.file, words, date: today() });
    this.#take(withEntry(this.text, noted));
    return noted.look_back;
  }

  /** Takes the text of a file that was opened; throws and changes nothing if it cannot be read. */
  open(text: string): void {
    const file = readFile(text);
    check({ file, date: today() });
    this.#take(text);
  }

  #take(text: string): void {
    const file = readFile(text);
    this.text = text;
    this.file = file;
    if ((this.unread === "" || keepUnread(KEY, this.unread)) && keep(KEY, text)) {
      this.trouble = "";
      this.unread = "";
    } else {
      this.trouble = keepsNothing("bin");
    }
    this.#tell();
  }

  #tell(): void {
    for (const heard of this.#heard) heard();
  }

  #read(): void {
    const text = kept(KEY);
    if (text === undefined) this.trouble = keepsNothing("bin");
    if (text === null || text === undefined) return;
    try {
      const file = readFile(text);
      check({ file, date: today() });
      this.text = text;
      this.file = file;
      this.isNew = false;
    } catch {
      this.unread = text;
      this.trouble =
        "The bin that was kept here cannot be read. Nothing of it is lost: save it as a file and mend it.";
    }
  }

}

/** The units chosen last, else those of the browser's country. */
export function keptUnits(): Units {
  const said = kept(UNITS_KEY);
  return said === "us" || said === "metric" ? said : usualUnits();
}

function newText(): string {
  const file = {
    libfeed: 1,
    bed: { date: today(), container: "60 L tote", squeeze: "drops", age: "16 weeks" },
  };
  return `# One worm bin. Lines that begin with # are remarks.\n${stringify(file)}`;
}

/** Hands the keeper a file to save. */
export function saveFile(name: string, text: string): void {
  const link = document.createElement("a");
  link.href = `data:application/yaml;charset=utf-8,${encodeURIComponent(text)}`;
  link.download = name;
  link.click();
}
