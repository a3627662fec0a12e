// Trial: two neighbours (invented) lay melon rind and pumpkin side by side in six totes.
import { call } from "./feed.mjs";

const trial = { feeds: ["watermelon rind", "pumpkin"], bins: 6, seed: 7, last_day: 24 };

// Before anything is laid: how much of each, and the least chance by luck it can reach.
const plan = call({ verb: "trial plan", file: { libfeed: 1, trial } });
const [rind, pumpkin] = plan.feeds.map((feed) => (1000 * feed.fresh_wet_mass_kg).toFixed(0));
console.log(`${rind} g watermelon rind, ${pumpkin} g pumpkin: ${plan.portion_rule}`);
console.log(`smallest chance by luck ${plan.smallest_p.toFixed(3)}`);

// Looks every third day, in the words of the sheet: the rind is gone on day 9, pumpkin on day 18.
const lookOn = (day) => ({
  date: `2026-09-${String(day + 1).padStart(2, "0")}`,
  plots: plan.plots.map(({ plot, feed }) => {
    const gone = day >= (feed === "watermelon rind" ? 9 : 18);
    return `plot ${plot} ${gone ? "gone" : "not gone"}`;
  }),
});
const observations = [3, 6, 9, 12, 15, 18, 21, 24].map(lookOn);
const file = { libfeed: 1, trial: { ...trial, start: "2026-09-01" }, observations };
const [pair] = call({ verb: "trial read", file }).pairs;
console.log(`${pair.verdict}, by luck ${pair.luck.p.toFixed(3)}`);
const { value, low, high } = pair.time_ratio;
console.log(
  `watermelon rind takes ${value.toFixed(2)} (${low.toFixed(2)} to ${high.toFixed(2)}) times as long`,
);
