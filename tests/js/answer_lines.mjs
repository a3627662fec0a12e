// Answers requests, one JSON text a line of standard input, as JSON texts, one a line.
import { createInterface } from "node:readline";
import { callText, load } from "libfeed";

await load();
for await (const line of createInterface({ input: process.stdin }))
  console.log(JSON.stringify(callText(line)));
