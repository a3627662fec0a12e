// Runs the `feed` command and gives its JSON answer: a way into libfeed from Node without an addon.
import { spawnSync } from "node:child_process";

const command = process.env.FEED_COMMAND ?? "feed";

/** The answer of `feed ...words --json`; text goes to standard input's place as a file when given. */
export function feed(...words) {
  const done = spawnSync(command, [...words, "--json"], { encoding: "utf8" });
  if (done.error) throw done.error;
  const answer = JSON.parse(done.stdout);
  if (answer.errors) throw new Error(answer.errors.map((e) => e.message).join("\n"));
  return answer;
}

/** A fraction as per cent with one decimal. */
export const percent = (fraction) => (fraction * 100).toFixed(1);
