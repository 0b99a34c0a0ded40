// Holds every page of a packet against the Nu HTML checker, axe-core and a real
// browser: `node check.mjs PACKET-FOLDER [--shots FOLDER]`. Exit 1 on any fault.
// Every page is opened, held against axe-core in one look and against the narrowest window, and
// its links are followed. The longest and the shortest page of each sheet is tried in every look
// and used: ticked, written on, cleared, printed, turned by keys, with scripts off. `--all` uses
// every page so, and so do pictures.
//
// CHROMIUM names the browser (default /usr/bin/chromium); java must be there.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { availableParallelism } from "node:os";
import { dirname, join, relative, resolve } from "node:path";
import { chromium } from "playwright-core";

const require = createRequire(import.meta.url);
const AXE = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const VNU = join(require.resolve("vnu-jar/package.json"), "..", "build", "dist", "vnu.jar");

const folder = resolve(process.argv[2] ?? ".");
const shotsAt = process.argv.indexOf("--shots");
const shots = shotsAt > 0 ? resolve(process.argv[shotsAt + 1]) : null;
const everyPage = shots !== null || process.argv.includes("--all");
const faults = [];
const counts = {};

function fault(page, what) {
  faults.push(`${page}: ${what}`);
}
function did(what) {
  counts[what] = (counts[what] ?? 0) + 1;
}

const pages = readdirSync(folder, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith(".html"))
  .sort();
if (pages.length === 0) {
  console.error(`no .html in ${folder}`);
  process.exit(1);
}

// The Nu HTML checker, all pages in one go: errors and warnings alike.
function validate() {
  const files = pages.map((name) => join(folder, name));
  let report = "";
  try {
    execFileSync("java", ["-jar", VNU, "--format", "json", ...files], { stdio: ["ignore", "ignore", "pipe"] });
  } catch (error) {
    report = String(error.stderr);
  }
  const messages = report ? JSON.parse(report).messages : [];
  for (const message of messages) {
    const name = message.url ? relative(folder, new URL(message.url).pathname) : "?";
    fault(name, `vnu ${message.subType ?? message.type} line ${message.lastLine}: ${message.message}`);
  }
  counts.validated = pages.length;
}

// The packet on localhost. Every other request is a fault: a page needs none.
const server = createServer((request, response) => {
  const name = decodeURIComponent(new URL(request.url, "http://localhost").pathname.slice(1));
  if (!pages.includes(name)) {
    response.writeHead(404).end();
    return;
  }
  response.writeHead(200, { "content-type": "text/html; charset=utf-8" });
  response.end(readFileSync(join(folder, name)));
});

async function open(context, name) {
  const page = await context.newPage();
  const url = `${base}/${name.split("/").map(encodeURIComponent).join("/")}`;
  page.on("request", (request) => {
    if (request.url().split("#")[0] !== url && !request.url().endsWith("/favicon.ico")) {
      fault(name, `asks for ${request.url()}`);
    }
  });
  page.on("pageerror", (error) => fault(name, `script error: ${error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error" && !message.text().includes("favicon") && !message.text().includes("404")) {
      fault(name, `console: ${message.text()}`);
    }
  });
  await page.goto(url);
  return page;
}

// axe-core through the debugger, so that the page's own policy stays in force.
async function accessible(page, name, look) {
  const client = await page.context().newCDPSession(page);
  await client.send("Runtime.evaluate", { expression: AXE });
  const expression = `axe.run(document, { resultTypes: ["violations"] })
    .then((result) => JSON.stringify(result.violations.map((v) =>
      ({ id: v.id, impact: v.impact, nodes: v.nodes.map((n) => n.target.join(" ") + " " + n.failureSummary) }))))`;
  const answer = await client.send("Runtime.evaluate", { expression, awaitPromise: true, returnByValue: true });
  if (answer.exceptionDetails) {
    fault(name, `axe did not run: ${JSON.stringify(answer.exceptionDetails)}`);
    return;
  }
  for (const violation of JSON.parse(answer.result.value)) {
    fault(name, `axe (${look}) ${violation.id} [${violation.impact}]: ${violation.nodes[0]} (${violation.nodes.length} in all)`);
  }
  await client.detach();
  did("axe runs");
}

async function noSideScroll(page, name, look) {
  const wide = await page.evaluate(() => {
    const edge = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= edge) return null;
    const over = [...document.querySelectorAll("body *")].find((element) =>
      element.getBoundingClientRect().right > edge + 1 && !element.closest(".scroll, .skip, .unseen"));
    return `${document.documentElement.scrollWidth} px wide on ${edge}: ${over?.outerHTML.slice(0, 120)}`;
  });
  if (wide) fault(name, `(${look}) scrolls sideways: ${wide}`);
  did("width checks");
}

// On a desk a table of many columns has the room that there is; on a phone no heading breaks within a word.
async function fits(page, name, look) {
  const bad = await page.evaluate((look) => {
    if (look === "desk") return [...document.querySelectorAll(".scroll > table.wide")].filter(({ parentNode: box }) => box.scrollWidth > box.clientWidth + 1).map((table) => `cut: ${table.textContent.slice(0, 60)}`);
    const broken = [];
    const range = document.createRange();
    for (const heading of document.querySelectorAll("h1, h2, h3")) {
      const texts = document.createTreeWalker(heading, NodeFilter.SHOW_TEXT);
      for (let node = texts.nextNode(); node; node = texts.nextNode()) {
        for (const { 0: word, index } of node.textContent.matchAll(/\p{L}{3,14}/gu)) {
          range.setStart(node, index);
          range.setEnd(node, index + word.length);
          if (new Set([...range.getClientRects()].map((line) => line.top)).size > 1) broken.push(`broken: ${word}`);
        }
      }
    }
    return broken;
  }, look);
  if (bad.length) fault(name, `(${look}) ${bad[0]} (${bad.length} in all)`);
  did("tables and headings that fit");
}

// Targets of 44 by 44 px, links within a line of text apart (WCAG 2.5.5).
async function bigTargets(page, name) {
  const small = await page.evaluate(() => {
    const all = [...document.querySelectorAll("button, summary, input, a[href]")];
    return all
      .filter((element) => element.checkVisibility({ visibilityProperty: true }) && !element.classList.contains("skip"))
      .filter((element) => !(element.tagName === "A" && element.closest("p, li span:not(.links), td, th, h1, h2, h3, h4") && !element.closest(".links")))
      .filter((element) => !(element.tagName === "A" && element.closest("main li") && !element.closest(".links")))
      .map((element) => element.closest("label") ?? element)
      .filter((element) => {
        const box = element.getBoundingClientRect();
        return box.width < 43.5 || box.height < 43.5;
      })
      .map((element) => {
        const box = element.getBoundingClientRect();
        return `${element.outerHTML.slice(0, 90)} is ${Math.round(box.width)} x ${Math.round(box.height)}`;
      });
  });
  if (small.length) fault(name, `${small.length} targets under 44 px, as ${small[0]}`);
  did("target checks");
}

async function keepsTicks(context, name) {
  const page = await open(context, name);
  const boxes = page.locator("main input[type=checkbox]");
  const lines = page.locator("main input.blank");
  const ticks = await boxes.count();
  const blanks = await lines.count();
  // cards and the page to learn from keep what is known in their own way: learn.mjs holds that
  if (await page.locator(".card, #_views").count()) {
    await page.close();
    return;
  }
  if (ticks > 0) await boxes.first().check();
  if (blanks > 0) await lines.first().fill("seven");
  if (ticks + blanks > 0) {
    if (ticks > 0 && (await page.locator("#_done").textContent()) !== `1 of ${ticks}`) fault(name, "progress does not count");
    await page.reload();
    if (ticks > 0 && !(await boxes.first().isChecked())) fault(name, "a tick is lost on reload");
    if (blanks > 0 && (await lines.first().inputValue()) !== "seven") fault(name, "writing is lost on reload");
    await page.locator("#_clear").click();
    await page.keyboard.press("Enter"); // the focus stands on "keep"
    if (ticks > 0 && !(await boxes.first().isChecked())) fault(name, "cleared without a yes");
    await page.locator("#_clear").click();
    await page.locator("#_yes").click();
    await page.reload();
    if (ticks > 0 && (await boxes.first().isChecked())) fault(name, "a tick comes back after clearing");
    if (blanks > 0 && (await lines.first().inputValue()) !== "") fault(name, "writing comes back after clearing");
    did("tick and reload");
  }
  await page.close();
}

// A value that is pressed tells where it comes from; the same is to read at the end of the page.
async function tellsWhere(context, name) {
  const page = await open(context, name);
  const values = page.locator("main data[data-of]:visible:not(label *):not(a *)");
  const told = page.locator(".why [data-why]");
  if ((await values.count()) > 0 && (await told.count()) > 0) {
    const known = await told.evaluateAll((all) => all.map((one) => one.getAttribute("data-why")));
    for (const of of await values.evaluateAll((all) => all.map((one) => one.getAttribute("data-of")))) {
      if (!known.includes(of) && !of.endsWith(".what")) fault(name, `nothing is told of ${of}`);
    }
    const first = values.and(page.locator(known.map((one) => `[data-of="${one}"]`).join(","))).first();
    await first.click();
    const pane = page.locator("#_why");
    if (!(await pane.isVisible())) fault(name, "a pressed value tells nothing");
    else if ((await pane.locator("dd").count()) === 0) fault(name, "a pressed value tells no source");
    await page.keyboard.press("Escape");
    if (await pane.isVisible()) fault(name, "what a value tells does not close");
    did("values told");
  }
  await page.close();
}

// Every card reached, turned and marked with keys alone.
async function cardsByKeyboard(context, name) {
  const page = await open(context, name);
  const all = await page.locator(".card").count();
  if (all > 0) {
    const now = page.locator(".card.now");
    const answer = page.locator(".card.now .back");
    const seen = new Set();
    for (let card = 0; card < all; card += 1) {
      seen.add(await now.getAttribute("id"));
      if ((await page.locator(".card:visible").count()) !== 1) fault(name, "more than one card shows");
      if (await answer.isVisible()) fault(name, "an answer shows before it is asked for");
      await page.keyboard.press(card % 2 ? "Enter" : " ");
      if (!(await answer.isVisible())) fault(name, "the key does not show the answer");
      await page.keyboard.press("ArrowRight");
    }
    if (seen.size !== all) fault(name, `keys reach ${seen.size} of ${all} cards`);
    const first = await now.getAttribute("id");
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("ArrowRight");
    if ((await now.getAttribute("id")) !== first) fault(name, "left does not undo right");
    for (let press = 0; press < 40; press += 1) {
      await page.keyboard.press("Tab");
      if (await page.evaluate(() => document.activeElement.id === "_knew")) break;
    }
    await page.keyboard.press("Enter");
    await page.reload();
    if (!(await page.locator("#_place").textContent()).includes("1 known")) fault(name, "a known card is forgotten on reload");
    await page.locator(".more summary").click();
    const order = async () => {
      await page.locator("#_order").fill("7");
      await page.keyboard.press("Tab");
      const names = [];
      for (let card = 0; card < all; card += 1) {
        names.push(await now.getAttribute("id"));
        await page.locator("#_next").click();
      }
      return names.join(" ");
    };
    const once = await order();
    if (once !== (await order())) fault(name, "the same order number deals another order");
    if (new Set(once.split(" ")).size !== all) fault(name, "an order loses cards");
    did("decks by keyboard");
  }
  await page.close();
}

async function withoutScripts(browser, name) {
  const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  const page = await open(context, name);
  for (const part of [".bar", "#_kept", "#_deck"]) {
    for (const bar of await page.locator(part).all()) {
      if (await bar.isVisible()) fault(name, `${part} shows without scripts`);
    }
  }
  const hidden = [];
  for (const card of await page.locator(".card, .card .back").all()) {
    if (!(await card.isVisible())) hidden.push(await card.getAttribute("id"));
  }
  if (hidden.length) fault(name, `${hidden.length} cards or answers hidden without scripts`);
  const box = page.locator("main input[type=checkbox]").first();
  if (await box.count()) {
    await box.check();
    if (!(await box.isChecked())) fault(name, "boxes do not tick without scripts");
  }
  did("scripts off");
  await context.close();
}

// Every link inside the packet leads to a file, a heading or outside by https.
async function links(page, name) {
  const targets = await page.evaluate(() => [...document.querySelectorAll("a[href]")].map((a) => {
    const href = a.getAttribute("href");
    return { href, here: href.startsWith("#") ? document.getElementById(decodeURIComponent(href.slice(1))) !== null : null };
  }));
  for (const { href, here } of targets) {
    if (here === false) fault(name, `no such heading: ${href}`);
    if (here !== null || /^(https:|mailto:)/.test(href)) continue;
    const file = decodeURIComponent(href.split("#")[0]);
    if (/^[a-z]+:|^\//i.test(href) || !existsSync(join(folder, dirname(name), file))) fault(name, `leads nowhere: ${href}`);
  }
  if (targets.length) did("pages with links");
}

// What the printer gets: all cards and answers, no bars.
async function printed(context, name) {
  const page = await open(context, name);
  await page.emulateMedia({ media: "print" });
  for (const bar of await page.locator(".bar, .skip, .contents").all()) {
    if (await bar.isVisible()) fault(name, "a bar or menu is printed");
  }
  for (const part of await page.locator(".card, .card .back").all()) {
    if (!(await part.isVisible())) fault(name, "a card or answer is missing in print");
  }
  if (shots) await page.pdf({ path: join(shots, `${name.replaceAll("/", "-")}.pdf`), preferCSSPageSize: true });
  did("print");
  await page.close();
}

const LOOKS = [
  ["phone", { width: 390, height: 844 }, "light"],
  ["phone, dark", { width: 390, height: 844 }, "dark"],
  ["desk", { width: 1280, height: 900 }, "light"],
  ["320 px", { width: 320, height: 600 }, "light"],
];

// A sheet of several kitchens is one sheet: `learners/packing-list-red.html` as `packing-list`.
function sheetOf(name) {
  return name.split("/").slice(1).join("/").replace(/(packing-list|kitchen-checklist|fuel-worksheet(?:-key)?)(-.*)?\.html$/, "$1.html");
}

function longestAndShortest() {
  const bySize = [...pages].sort((a, b) => statSync(join(folder, a)).size - statSync(join(folder, b)).size);
  const ends = new Map();
  for (const name of bySize) ends.set(sheetOf(name), [ends.get(sheetOf(name))?.[0] ?? name, name]);
  return new Set([...ends.values()].flat());
}

// The page hears of its new size a frame later: regions take the keyboard only then.
async function settled(page) {
  await page.evaluate(() => new Promise((done) => {
    setTimeout(done, 2000);
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 50)));
  }));
}

async function usePage(browser, name) {
  const context = await browser.newContext({ viewport: LOOKS[0][1], hasTouch: true });
  const page = await open(context, name);
  for (const [look, size, colorScheme] of LOOKS) {
    await page.setViewportSize(size);
    await page.emulateMedia({ colorScheme });
    await settled(page);
    await accessible(page, name, look);
    await noSideScroll(page, name, look);
    if (look === "phone") await bigTargets(page, name);
    if (look === "phone" || look === "desk") await fits(page, name, look);
    if (shots) {
      await page.screenshot({ path: join(shots, `${name.replaceAll("/", "-")}-${look.replace(/\W+/g, "-")}.png`), fullPage: true });
    }
  }
  await links(page, name);
  await page.setViewportSize(LOOKS[0][1]);
  await keepsTicks(context, name);
  await tellsWhere(context, name);
  await cardsByKeyboard(context, name);
  await printed(context, name);
  await context.close();
  await withoutScripts(browser, name);
  did("pages used");
}

async function lookAtPage(context, name, [look, size, colorScheme]) {
  const page = await open(context, name);
  await page.setViewportSize(size);
  await page.emulateMedia({ colorScheme });
  await settled(page);
  await accessible(page, name, look);
  await page.setViewportSize({ width: 320, height: 600 });
  await noSideScroll(page, name, "320 px");
  await links(page, name);
  await page.close();
}

await new Promise((done) => server.listen(0, "127.0.0.1", done));
const base = `http://127.0.0.1:${server.address().port}`;
if (shots) mkdirSync(shots, { recursive: true });
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});
try {
  validate();
  const used = everyPage ? new Set(pages) : longestAndShortest();
  const queue = [...pages.entries()];
  const work = async () => {
    const context = await browser.newContext({ hasTouch: true });
    for (let next = queue.shift(); next; next = queue.shift()) {
      const [at, name] = next;
      if (used.has(name)) await usePage(browser, name);
      else await lookAtPage(context, name, LOOKS[at % LOOKS.length]);
    }
    await context.close();
  };
  await Promise.all(Array.from({ length: Math.max(2, availableParallelism()) }, work));
} finally {
  await browser.close();
  server.close();
}

console.log(`${pages.length} pages: ${Object.entries(counts).map(([what, count]) => `${what} ${count}`).join(", ")}`);
for (const line of faults.sort()) console.log(line);
process.exit(faults.length ? 1 : 0);
