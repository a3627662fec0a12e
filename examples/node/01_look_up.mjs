// Look up a feedstock: what is known of used coffee grounds, how well, and from where.
import { feed, percent } from "./feed.mjs";

const coffee = feed("show", "coffee grounds");
const value = (property) => coffee.values.find((one) => one.property === property);
const moisture = value("moisture");
const ratio = value("cn_ratio");
console.log(coffee.name);
console.log(`moisture ${percent(moisture.value)} % of wet mass, grade ${moisture.grade}`);
console.log(
  `C:N ${ratio.value.toFixed(1)} (${ratio.low.toFixed(1)} to ${ratio.high.toFixed(1)}) ` +
    `carbon to nitrogen by mass, grade ${ratio.grade}`,
);
