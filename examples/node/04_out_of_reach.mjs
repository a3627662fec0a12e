// A target that cannot be met: an allotment (invented) has a flow-through bin, a heap of zucchini and
// hardly anything dry. Which wishes conflict, how near one comes, and what mends it.
import { feed, percent } from "./feed.mjs";

const answer = feed("balance", new URL("../zucchini_glut.yaml", import.meta.url).pathname);
console.log("these cannot all hold:");
for (const member of answer.conflict) console.log(`  ${member}`);
console.log(`nearest: moisture ${percent(answer.closest.reached.moisture.value)} %`);
const { mend } = answer;
console.log(
  mend
    ? `add ${(mend.add_kg * 1000).toFixed(0)} g of ${mend.label}`
    : "no single addition does",
);
