// Runs the `feed` command and gives its JSON answer: a way into libfeed from Node without an addon.
import { spawnSync } from "node:child_process";

const command = process.env.FEED_COMMAND ?? "feed";

/** What the command prints for these words and this input, as an object; all its problems as one error. */
function asked(words, input) {
  const done = spawnSync(command, words, { input, encoding: "utf8" });
  if (done.error) throw done.error;
  const answer = JSON.parse(done.stdout);
  if (answer.errors) throw new Error(answer.errors.map((e) => e.message).join("\n"));
  return answer;
}

/** The answer of `feed ...words --json`. */
export const feed = (...words) => asked([...words, "--json"]);

/** The answer to a request through the one door (docs/door.md). */
export const call = (request) => asked(["call", "-"], JSON.stringify(request));

/** A fraction as per cent with one decimal. */
export const percent = (fraction) => (fraction * 100).toFixed(1);
