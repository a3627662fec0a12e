// The page of one bin: what it is, what there is, what goes in today.
import { load } from "libfeed";
import { Bin } from "./bin.js";
import { place } from "./dom.js";
import { Having, showHaving } from "./having.js";
import { showBin } from "./mybin.js";
import { problems } from "./said.js";
import { showToday } from "./today.js";

function start(): void {
  const bin = new Bin();
  const storage = place("storage");
  const show = (): void => {
    storage.textContent = bin.trouble;
    storage.hidden = bin.trouble === "";
    showBin(bin, place("bin"));
    showHaving(bin, having, place("have"));
    showToday(bin, having, place("today"));
    document.documentElement.dataset.ready = "yes";
  };
  const having = new Having(() => {
    showHaving(bin, having, place("have"));
    showToday(bin, having, place("today"));
  });
  bin.onChange(show);
  show();
}

try {
  await load(new URL("libfeed.wasm", document.baseURI));
  start();
} catch (fault) {
  const storage = place("storage");
  storage.textContent = problems(fault);
  storage.hidden = false;
}
if ("serviceWorker" in navigator) navigator.serviceWorker.register("worker.js").catch(() => undefined);
