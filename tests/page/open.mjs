// What the tests of the page share: a browser without a network, the page from
// disk, and the native program beside it.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
// the browser and the accessibility checker are those of tests/web
const require = createRequire(join(here, "../web/package.json"));
const { chromium } = require("playwright-core");
const AXE = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

export const ROOT = resolve(here, "../..");
export const PAGE = resolve(process.env.PAGE ?? join(ROOT, "out/leeside.html"));
export const NATIVE = resolve(process.env.LEESIDE ?? join(ROOT, "target/release/leeside"));
const SHOTS = process.env.SHOTS;
const ADDRESS = pathToFileURL(PAGE).href;

let browser;

/** A window on the page, its network off; every request but for the page itself is a fault. */
export async function open({ at = "", width = 1280, height = 900, context, ready = true, ...more } = {}) {
  assert.ok(existsSync(PAGE), `${PAGE} is missing: build it with src/page/build`);
  browser ??= await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
  });
  const place = context ?? (await browser.newContext({ viewport: { width, height }, offline: true, acceptDownloads: true, ...more }));
  const page = await place.newPage();
  page.faults = [];
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(ADDRESS) && !url.startsWith("blob:") && !url.startsWith("data:") && url !== "about:srcdoc") page.faults.push(`asks for ${url}`);
  });
  page.on("pageerror", (error) => page.faults.push(`script error: ${error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error") page.faults.push(`console: ${message.text()}`);
  });
  await page.goto(ADDRESS + (at ? `#${at}` : ""));
  if (ready) await page.waitForSelector("main[data-ready]", { timeout: 60_000 });
  return page;
}

export async function close(page) {
  const { faults } = page;
  await page.context().close();
  assert.deepEqual(faults, []);
}

export async function shut() {
  await browser?.close();
  browser = undefined;
}

/** Waits until the program has said what it has to say of the text as it is now. */
export async function looked(page) {
  await page.waitForSelector("main[data-looked]", { timeout: 60_000 });
}

/** Opens a file of this text through the page's own button. */
export async function openText(page, name, content) {
  await page.goto(`${ADDRESS}#start`);
  await page.locator("#open-file").setInputFiles({ name, mimeType: "text/plain", buffer: Buffer.from(content) });
}

/** The bytes that Save to a file hands to the browser. */
export async function saved(page, button = "Save to a file") {
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: button }).first().click()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** A run in the page, by its way in for programs; files come back as digests, or whole. */
export async function run(page, args, files = {}, { whole = false, limit } = {}) {
  const given = Object.fromEntries(Object.entries(files).map(([path, bytes]) => [path, Buffer.from(bytes).toString("base64")]));
  const result = await page.evaluate(async ([args, given, whole, limit]) => {
    const files = Object.fromEntries(Object.entries(given).map(([path, text]) => [path, Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))]));
    const result = await window.leeside(args, files, limit ? { limit } : undefined);
    const kept = {};
    for (const [path, bytes] of Object.entries(result.files)) {
      const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
      kept[path] = whole ? Array.from(bytes) : Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
    }
    return { ...result, files: kept };
  }, [args, given, whole, limit]);
  return result;
}

/** The same run by the native program, in a folder of its own. */
export function native(args, files = {}) {
  const folder = mkdtempSync(join(tmpdir(), "leeside-page-"));
  const write = (path, bytes) => execFileSync("sh", ["-c", 'mkdir -p "$(dirname "$1")" && cat > "$1"', "sh", join(folder, path)], { input: bytes });
  for (const [path, bytes] of Object.entries(files)) write(path, bytes);
  const made = spawnSync(NATIVE, args, { cwd: folder, maxBuffer: 1 << 28 });
  const list = execFileSync("sh", ["-c", 'cd "$1" && find . -type f -exec sha256sum {} +', "sh", folder], { encoding: "utf8", maxBuffer: 1 << 26 });
  const found = {};
  for (const line of list.trim().split("\n").filter(Boolean)) {
    const [hash, path] = line.split(/ {2}\.\//);
    if (!(path in files)) found[path] = hash;
  }
  return { status: made.status, out: made.stdout.toString(), err: made.stderr.toString(), files: found, folder };
}

/** What axe-core has to say of the view, through the debugger so that the page's policy stays in force. */
export async function axe(page, name) {
  const client = await page.context().newCDPSession(page);
  await client.send("Runtime.evaluate", { expression: AXE });
  const expression = `axe.run(document, { iframes: false, resultTypes: ["violations"] }).then((result) => JSON.stringify(result.violations.map((one) => one.id + ": " + one.nodes[0].html.slice(0, 160) + " | " + one.nodes[0].failureSummary)))`;
  const { result, exceptionDetails } = await client.send("Runtime.evaluate", { expression, awaitPromise: true, returnByValue: true });
  await client.detach();
  assert.equal(exceptionDetails, undefined, JSON.stringify(exceptionDetails));
  assert.deepEqual(JSON.parse(result.value), [], `axe on ${name}`);
}

/** A picture for whoever looks: SHOTS names the folder. */
export async function shot(page, name) {
  if (!SHOTS) return;
  // a page of many screens takes the browser longer than it is worth
  const fullPage = await page.evaluate(() => document.documentElement.scrollHeight < 6000);
  await page.screenshot({ path: join(SHOTS, `${name}.png`), fullPage });
}

/** No view scrolls sideways. */
export async function noSideScroll(page, name) {
  const wide = await page.evaluate(() => {
    const edge = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= edge) return null;
    const over = [...document.querySelectorAll("body *")].find((one) => one.getBoundingClientRect().right > edge + 1 && !one.closest(".scroll, .skip, .unseen, .editor"));
    return `${document.documentElement.scrollWidth} px on ${edge}: ${over?.outerHTML.slice(0, 160)}`;
  });
  assert.equal(wide, null, `${name} scrolls sideways`);
}
