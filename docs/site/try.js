// The box of the site's first page: a question to the npm package, answered in the browser.
import { FeedError, load, ration } from "./libfeed/libfeed.js";

const form = document.getElementById("try");
const shown = document.getElementById("try-answer");
const today = new Date();
const two = (number) => String(number).padStart(2, "0");

/** One line after the other, as text: what must be taken out comes first. */
function show(lines) {
  shown.replaceChildren(
    ...lines.map((line) => {
      const paragraph = document.createElement("p");
      paragraph.textContent = line;
      return paragraph;
    }),
  );
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const { things, worms } = Object.fromEntries(new FormData(form));
  try {
    await load();
    const date = `${today.getFullYear()}-${two(today.getMonth() + 1)}-${two(today.getDate())}`;
    show(ration({ things, worms, bin: "60 L tote", date }).text);
  } catch (problem) {
    if (!(problem instanceof FeedError)) throw problem;
    show(problem.errors.map((one) => one.message));
  }
});
form.querySelector("button").disabled = false;
