// The package without a bundler, as it is installed: FEED_PAGE is a folder with a page that imports it,
// FEED_BROWSER the browser's program.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const source = join(dirname(fileURLToPath(import.meta.url)), "../../../examples/page");
const { chromium } = createRequire(join(source, "package.json"))("playwright-core");

test("a plain module script answers under a strict policy", async () => {
  const server = spawn(process.execPath, [join(source, "serve.mjs"), process.env.FEED_PAGE, "0"]);
  const told = await new Promise((resolve) => server.stdout.once("data", resolve));
  const browser = await chromium.launch({ executablePath: process.env.FEED_BROWSER, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage();
    const faults = [];
    page.on("pageerror", (fault) => faults.push(fault.message));
    page.on("console", (said) => said.type() === "error" && faults.push(said.text()));
    await page.goto(/http:\S+/.exec(String(told))[0]);
    await page.waitForFunction(() => document.body.textContent.includes("Never feed bacon"), undefined, { timeout: 60_000 });
    assert.deepEqual(faults, []);
  } finally {
    await browser.close();
    server.kill();
  }
});
