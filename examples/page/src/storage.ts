// What the browser keeps, where it keeps anything: storage may be full, blocked or not there.

/** What is kept under a key: null where nothing is, undefined where the browser keeps nothing. */
export function kept(key: string): string | null | undefined {
  try {
    return localStorage.getItem(key);
  } catch {
    return undefined;
  }
}

/** Keeps a text; false where the browser does not. */
export function keep(key: string, text: string): boolean {
  try {
    localStorage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}

/**
 * Keeps what could not be read beside its key, before another text takes its place: every such text
 * has a key of its own. False where the browser does not.
 */
export function keepUnread(key: string, text: string): boolean {
  let beside = `${key}.unread`;
  for (let i = 2; (kept(beside) ?? text) !== text; ++i) beside = `${key}.unread.${i}`;
  return keep(beside, text);
}

/** Lets go of what is kept. Where nothing is kept nothing is left either. */
export function letGo(key: string): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Nothing was there.
  }
}

/** What is told where a browser keeps nothing. */
export const keepsNothing = (what: string): string =>
  `This browser does not keep the ${what}. Save it as a file before you leave.`;
