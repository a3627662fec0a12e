// Files in YAML beside libfeed, which reads JSON: needs the package "yaml".
import { isSeq, parse, parseDocument } from "yaml";

const AS_WRITTEN = { lineWidth: 0, flowCollectionPadding: false };

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

/** A file of a bin as the object that libfeed takes. Throws what the reader of YAML throws. */
export const readFile = (text) => parse(text) ?? {};

/**
 * The text of a file with the entry that `note` gave, its comments kept. Proven before it is given
 * back: everything earlier reads the same, and one entry more stands at the end of the list.
 * @param text  the file as it is
 * @param noted  the answer of note: {section, entry}
 */
export function withEntry(text, { section, entry }) {
  const before = readFile(text);
  const document = parseDocument(text);
  if (document.errors.length > 0) throw document.errors[0];
  const list = document.get(section);
  if (list === undefined || list === null) document.set(section, document.createNode([entry]));
  else if (isSeq(list)) list.add(document.createNode(entry));
  else throw new Error(`${section} is not a list, so nothing was added`);
  let written = document.toString(AS_WRITTEN);
  if (text.includes("\r\n")) written = written.replace(/\r?\n/g, "\r\n");
  const due = { ...before, [section]: [...(before[section] ?? []), entry] };
  if (!same(sorted(readFile(written)), sorted(due)))
    throw new Error(`the entry could not be added without changing the file; nothing was written`);
  return written;
}

function sorted(value) {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(
    Object.keys(value)
      .sort()
      .map((key) => [key, sorted(value[key])]),
  );
}
