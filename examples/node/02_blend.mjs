// Blend: a cafe (invented) keeps worms in stacked trays and feeds them grounds with torn boxes.
import { feed, percent } from "./feed.mjs";

const blend = feed("blend", "2 kg coffee grounds", "500 g shredded cardboard");
const { moisture, cn_ratio: ratio } = blend;
console.log(`${blend.wet_mass_kg.toFixed(2)} kg wet`);
console.log(
  `moisture ${percent(moisture.value)} % (${percent(moisture.low)} to ${percent(moisture.high)})`,
);
console.log(
  `C:N ${ratio.value.toFixed(1)} (${ratio.low.toFixed(1)} to ${ratio.high.toFixed(1)}) ` +
    "carbon to nitrogen by mass",
);
