// The page in a real browser: FEED_PAGE is its folder, FEED_BROWSER the browser's program.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";

const source = join(dirname(fileURLToPath(import.meta.url)), "../../../examples/page");
const require = createRequire(join(source, "package.json"));
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const phrasings = readFileSync(new URL("phrasings.txt", import.meta.url), "utf8")
  .split("\n")
  .filter((line) => line && !line.startsWith("#"));
const shots = join(process.env.FEED_PAGE, "../page-shots");

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 900 };

let server;
let base;
let browser;

before(async () => {
  mkdirSync(shots, { recursive: true });
  server = spawn(process.execPath, [join(source, "serve.mjs"), process.env.FEED_PAGE, "0"]);
  const told = await new Promise((resolve) => server.stdout.once("data", resolve));
  base = /http:\S+/.exec(String(told))[0];
  browser = await chromium.launch({ executablePath: process.env.FEED_BROWSER, args: ["--no-sandbox"] });
});
after(async () => {
  await browser?.close();
  server?.kill();
});

/** A page that has answered, and everything that went wrong or left the page's own place. */
async function visit({ viewport = PHONE, prepare, path = "", ...more } = {}) {
  const context = await browser.newContext({ viewport, locale: "en-GB", ...more });
  const page = await context.newPage();
  const faults = [];
  const strangers = [];
  page.on("pageerror", (fault) => faults.push(fault.message));
  page.on("console", (said) => said.type() === "error" && faults.push(said.text()));
  page.on("request", (request) => {
    if (!request.url().startsWith(base) && !request.url().startsWith("data:")) strangers.push(request.url());
  });
  if (prepare) await page.addInitScript(prepare);
  await page.goto(base + path);
  await page.waitForSelector("html[data-ready]", { timeout: 60_000 });
  return { page, context, faults, strangers };
}

async function say(page, words) {
  await page.fill("#said", words);
  await page.press("#said", "Enter");
}

const kept = (page) => page.evaluate(() => localStorage.getItem("worm-bin"));

async function accessible(page, what) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => window.axe.run());
  assert.deepEqual(violations.map((one) => `${what}: ${one.id}: ${one.nodes.map((node) => node.html).join(" ")}`), []);
}

for (const [name, viewport, colorScheme] of [
  ["phone-light", PHONE, "light"],
  ["phone-dark", PHONE, "dark"],
  ["desk-light", DESK, "light"],
  ["desk-dark", DESK, "dark"],
]) {
  test(`an answer on a ${name}, nothing barred in it, no stranger asked`, async () => {
    const { page, faults, strangers } = await visit({ viewport, colorScheme });
    await say(page, "3 apples, bacon and a cup of coffee grounds");
    const chips = await page.locator(".chip").allInnerTexts();
    assert.equal(chips.length, 3);
    assert.match(chips[1], /Never fed/);
    const lines = await page.locator(".answer p").allInnerTexts();
    assert.match(lines[0], /^Never feed bacon/);
    assert.match(await page.locator(".answer .first").innerText(), /^Feed/);
    assert.ok(!lines.slice(2).some((line) => line.includes("bacon")), lines.join("\n"));
    // The strip of days says a day as the answer does.
    const again = /Feed again about (\w+ \d+ \w+)/.exec(lines.join("\n"));
    const marked = await page.locator(".strip li.marked .day").allInnerTexts();
    assert.ok(!again || marked.map((day) => day.replace(/\s+/g, " ")).includes(again[1]), `${marked} | ${again}`);
    const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    assert.ok(wide <= room, `${wide} of ${room} pixels`);
    await accessible(page, name);
    await page.screenshot({ path: join(shots, `${name}.png`), fullPage: true });
    assert.deepEqual(faults, []);
    assert.deepEqual(strangers, []);
  });
}

test("fed is written down, and then the answer waits", async () => {
  const { page } = await visit();
  await page.fill("text=How many worms", "500 g").catch(() => page.getByLabel("How many worms").fill("500 g"));
  await page.getByLabel("How many worms").press("Enter");
  await say(page, "200 g apples, a handful of shredded cardboard");
  await page.click("text=I fed it");
  const text = await kept(page);
  assert.match(text, /^feedings:\n {2}- date: \d{4}-\d\d-\d\d\n/m);
  assert.match(text, /g apple/);
  assert.match(text, /^# One worm bin/);
  assert.equal(await page.locator(".chip").count(), 0);
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  assert.equal(await kept(page), text);
});

test("a chip is corrected to the other reading", async () => {
  const { page } = await visit();
  await say(page, "3 apples");
  const whole = await page.locator(".chip .weight").innerText();
  await page.click(".chip >> text=/Is it/");
  const core = await page.locator(".chip .weight").innerText();
  assert.match(whole, /6\d\d g/);
  assert.match(core, /\b[4-9]\d g/);
});

test("a sign is written down, asks one test, and today's answer knows of it", async () => {
  const { page } = await visit();
  await page.click("text=Something is wrong");
  await page.click("button.tile:has-text('worms climbing')");
  await page.click("button.tile:has-text('heat')");
  await page.click("text=Write it down");
  assert.match(await kept(page), /worms: /);
  assert.match(await page.locator("#wrong .first").innerText(), /thermometer|hand/);
  await page.click("text=Yes, so it is");
  assert.match(await page.locator("#wrong").innerText(), /Feed nothing/);
  await accessible(page, "signs");
});

test("by the keyboard alone", async () => {
  const { page } = await visit();
  const pressTo = async (wanted) => {
    for (let i = 0; i < 80; ++i) {
      await page.keyboard.press("Tab");
      if (await page.evaluate(wanted)) return;
    }
    assert.fail(`not reached: ${wanted}`);
  };
  await pressTo(`document.activeElement.id === "said"`);
  await page.keyboard.type("200 g apples");
  await page.keyboard.press("Enter");
  await pressTo(`document.activeElement.textContent === "I fed it"`);
  await page.keyboard.press("Enter");
  assert.match(await kept(page), /feedings:/);
});

test("without a network after the first visit", async () => {
  const { page, context } = await visit();
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await context.setOffline(true);
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await say(page, "2 bananas");
  assert.equal(await page.locator(".chip").count(), 1);
});

test("a browser that keeps nothing says so, and the file has the diary", async () => {
  const { page, faults } = await visit({
    prepare: () => {
      Storage.prototype.setItem = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    },
  });
  await say(page, "200 g apples");
  await page.click("text=I fed it");
  assert.match(await page.locator("#storage").innerText(), /Save it as a file/);
  const [saved] = await Promise.all([page.waitForEvent("download"), page.click("text=Save the bin as a file")]);
  assert.match(readFileSync(await saved.path(), "utf8"), /feedings:/);
  assert.deepEqual(faults, []);
});

test("a kept file that cannot be read is not lost", async () => {
  const broken = "libfeed: 1\nbed: {worms: [\n# my notes of two years\n";
  const { page } = await visit({ prepare: `if (!localStorage.getItem("worm-bin")) localStorage.setItem("worm-bin", ${JSON.stringify(broken)})` });
  assert.match(await page.locator("#storage").innerText(), /cannot be read/);
  assert.equal(await kept(page), broken);
  const [saved] = await Promise.all([page.waitForEvent("download"), page.click("text=Save what could not be read")]);
  assert.equal(readFileSync(await saved.path(), "utf8"), broken);
  await say(page, "200 g apples");
  await page.click("text=I fed it");
  assert.match(await kept(page), /feedings:/);
  assert.equal(await page.evaluate(() => localStorage.getItem("worm-bin.unread")), broken);
});

test("a kept trial that cannot be read is not lost", async () => {
  const broken = "libfeed: 1\ntrial: {feeds: [\n# three weeks of looks\n";
  const prepare = `if (!localStorage.getItem("worm-bin.trial")) localStorage.setItem("worm-bin.trial", ${JSON.stringify(broken)})`;
  const { page } = await visit({ path: "trial.html", prepare });
  assert.match(await page.locator("#storage").innerText(), /cannot be read/);
  await page.getByLabel("Food 1").fill("melon rind");
  await page.getByLabel("Food 2").fill("pumpkin");
  await page.click("text=Plan it");
  await page.click("text=Lay it today");
  await page.waitForSelector(".plots li");
  assert.equal(await page.evaluate(() => localStorage.getItem("worm-bin.trial.unread")), broken);
});

test("a file is opened as it is, and a wrong one changes nothing", async () => {
  const { page } = await visit();
  const file = (text) => ({ name: "bin.yaml", mimeType: "application/yaml", buffer: Buffer.from(text) });
  const good = "libfeed: 1\n# mine\nbed: {date: 2026-03-01, container: 40 L box, worms: 1 lb}\n";
  await page.setInputFiles("#opened", file(good));
  await page.waitForFunction((text) => localStorage.getItem("worm-bin") === text, good);
  await page.setInputFiles("#opened", file("libfeed: 1\nbed: {wurms: 1 lb}\n"));
  await page.waitForSelector("#bin .message:not([hidden])");
  assert.match(await page.locator("#bin .message").innerText(), /wurms/);
  assert.equal(await kept(page), good);
});

test("phrasings become chips, and what nobody should feed is barred", async () => {
  const { page } = await visit();
  let at = 0;
  for (const line of phrasings) {
    const [words, kind] = line.split("|").map((part) => part.trim());
    await say(page, words);
    const chip = page.locator(".chip").last();
    assert.equal(await page.locator(".chip").count(), ++at, words);
    const barred = /\bbarred\b/.test((await chip.getAttribute("class")) ?? "");
    assert.equal(barred, kind === "never", words);
  }
  assert.ok(at >= 40);
});

test("a hostile title and name stay text", async () => {
  const { page, faults } = await visit();
  await say(page, `2 <img src=x onerror="window.bad=1">`);
  assert.equal(await page.evaluate(() => window.bad), undefined);
  assert.equal(await page.locator("#have img").count(), 0);
  assert.ok(await page.locator("#have .message").isVisible());
  assert.deepEqual(faults, []);
});

test("the rest of the job has its answers, those of the door, and barred food first", async () => {
  const { page, faults, strangers } = await visit({ path: "more.html", viewport: DESK });
  const ask = async (title, fields, choice) => {
    const box = page.locator("details", { has: page.locator("summary", { hasText: title }) });
    if (!(await box.getAttribute("open").then((open) => open !== null))) await box.locator("summary").click();
    for (const [label, words] of Object.entries(fields)) await box.getByLabel(label).fill(words);
    if (choice) await box.locator("select").selectOption(choice);
    await box.getByRole("button", { name: "Work it out" }).click();
    return {
      lines: await box.locator(".answer p").allInnerTexts(),
      refused: (await box.locator(".message").allInnerTexts()).join(" "),
    };
  };
  for (const [title, fields, choice, first] of [
    ["When do I harvest?", {}, "light", /^(Harvest|Do not harvest|Not yet|Wait)/],
    ["Change, split or move", {}, "split", /^(Split it|Do not split|First)/],
    ["Change, split or move", { "for how long": "3 weeks" }, "away", /^(Feed|Wait|Act)/],
    ["What is in stock", { "Put by today": "2 kg frozen melon rind" }, "", /melon rind/],
    ["What did it take so far?", {}, "", /^(In all|Nothing)/],
    ["How many worms live in it?", { "Worms in each sample": "12, 30, 7, 18", "Size of a sample": "500 ml" }, "", /^About \d+ worms/],
    ["Set up a new bin", { "The bin": "60 L tote", Worms: "500 g", "Bedding at hand": "cardboard" }, "", /^Take .* of cardboard/],
    ["How many worms, and what bin", { "People who eat": "4" }, "", /^Start with/],
    ["A week over several bins", { "What there is": "2 kg carrot" }, "", /^Feed|^No bin/],
    ["Build a heap", { "What there is": "meat 5 kg, 60 buckets grass, 150 buckets leaves" }, "", /^Never feed meat/],
  ]) {
    const { lines, refused } = await ask(title, fields, choice);
    assert.equal(refused, "", title);
    assert.match(lines[0] ?? "", first, `${title}: ${lines.join(" | ")}`);
    if (choice === "away") assert.match(lines.join(" "), /Gone for 21 days/);
    if (title !== "A week over several bins") assert.ok(lines.length <= 12, `${title}: ${lines.length} lines`);
  }
  assert.match(await kept(page), /^stock:/m);
  const { refused } = await ask("How many worms, and what bin", { "People who eat": "many" }, "");
  assert.match(refused, /[Pp]eople/);
  await accessible(page, "more");
  await page.screenshot({ path: join(shots, "more.png"), fullPage: true });
  const phone = await visit({ path: "more.html" });
  const [wide, room] = await phone.page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(wide <= room, `${wide} of ${room} pixels`);
  assert.deepEqual(faults, []);
  assert.deepEqual(strangers, []);
});

test("a trial is planned, laid, ticked and read", async () => {
  const { page, faults } = await visit({ path: "trial.html", viewport: DESK });
  await page.getByLabel("Food 1").fill("melon rind");
  await page.getByLabel("Food 2").fill("pumpkin");
  await page.getByLabel("How many bins").fill("3");
  await page.click("text=Plan it");
  await page.waitForSelector("#plan .first");
  await page.screenshot({ path: join(shots, "trial.png"), fullPage: true });
  await page.click("text=Lay it today");
  await page.waitForSelector(".plots li");
  await page.locator(".plots select").first().selectOption("half left");
  await page.click("text=Write these down");
  assert.match(await page.evaluate(() => localStorage.getItem("worm-bin.trial")), /half left/);
  assert.match(await page.locator("#read").innerText(), /[Ss]o far|cannot tell/);
  await accessible(page, "trial");
  assert.deepEqual(faults, []);
});
