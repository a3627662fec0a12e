import type { FeedFile, Note } from "./libfeed.js";

/** A file of a bin as the object that libfeed takes. */
export function readFile(text: string): FeedFile;
/** The text of a file with the entry that `note` gave, its comments kept. */
export function withEntry(text: string, noted: Note): string;
