// Balance: a school lunch club (invented) has scraps that must go, and cardboard and water at will.
import { feed, percent } from "./feed.mjs";

const labels = ["kitchen scraps", "coffee grounds", "shredded cardboard", "water"];
const answer = feed("balance", new URL("../lunch_club.yaml", import.meta.url).pathname);
answer.portions.forEach((portion, i) =>
  console.log(`${labels[i]}: ${(portion.wet_mass_kg * 1000).toFixed(0)} g`),
);
const { cn_ratio: ratio, moisture } = answer.reached;
console.log(`C:N ${ratio.value.toFixed(1)}, moisture ${percent(moisture.value)} %`);
