// Measures the page: `node tests/page/measure.mjs`. Not a test: it needs an
// idle machine; where others work on it too, the least of the turns says more
// than their middle: `LEAST=1`. The slowed column is a processor four times
// slower. The browser slows a page's own thread and refuses to slow a worker's
// ("only supported for pages"), so there the program runs on the page's thread,
// slowed with it: nothing goes on side by side, which no real phone is short of.
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { PAGE, ROOT, looked, open, openText, shut } from "./open.mjs";

const SLOW = 4;
const TURNS = 7;
const DEMO = readFileSync(join(ROOT, "content/trips/quillback-ridge.yaml"), "utf8");

function median(numbers) {
  return [...numbers].sort((a, b) => a - b)[process.env.LEAST ? 0 : Math.floor(numbers.length / 2)];
}

/** In the place of a worker: the same program text on the page's own thread. */
function onePlace() {
  window.Worker = class {
    constructor(address) {
      const self = { postMessage: (data) => setTimeout(() => this.onmessage({ data })) };
      this.ready = fetch(address).then((answer) => answer.text()).then((source) => {
        new Function("self", source)(self);
        return self;
      });
    }

    postMessage(data) {
      this.ready = this.ready.then((self) => new Promise((done) => setTimeout(() => done(self.onmessage({ data }) && self))).then(() => self));
    }

    terminate() {}
  };
}

/** A window whose one thread is so many times slower; 1 is the page as it is, with its worker. */
async function slowed(rate, more = {}) {
  if (rate === 1) return open(more);
  const page = await open({ at: "start", bypassCSP: true, ...more, ready: false });
  await page.addInitScript(onePlace);
  const client = await page.context().newCDPSession(page);
  await client.send("Emulation.setCPUThrottlingRate", { rate });
  await page.reload();
  await page.waitForSelector("main[data-ready]", { timeout: 120_000 });
  return page;
}

async function ready(rate) {
  const times = [];
  for (let turn = 0; turn < 3; turn += 1) {
    const page = await slowed(rate, { at: "start" });
    times.push(await page.evaluate(() => performance.getEntriesByName("ready").at(-1).startTime));
    await page.context().close();
  }
  return median(times);
}

/** From a letter typed to its message on the page, and what of it was the program's. */
async function message(rate) {
  const page = await slowed(rate);
  await openText(page, "quillback-ridge.yaml", DEMO);
  await looked(page);
  await page.waitForTimeout(rate * 2000);
  const times = [];
  for (let turn = 0; turn < TURNS; turn += 1) {
    times.push(await page.evaluate(async (text) => {
      const field = document.getElementById("field-confidence");
      for (let box = field.closest("details"); box; box = box.parentElement.closest("details")) box.open = true;
      const said = new Promise((done) => {
        new MutationObserver((_, watch) => {
          if (!document.querySelector(".problems .problem")) return;
          watch.disconnect();
          requestAnimationFrame(() => done(performance.now()));
        }).observe(document.body, { childList: true, subtree: true });
      });
      const start = performance.now();
      field.value = text;
      field.dispatchEvent(new InputEvent("input", { bubbles: true }));
      return (await said) - start;
    }, `${turn}%%`));
    await page.evaluate(() => {
      const field = document.getElementById("field-confidence");
      field.value = "90%";
      field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    });
    await page.waitForFunction(() => !document.querySelector(".problems .problem"));
    await page.waitForTimeout(rate * 1500);
  }
  const run = async (args, given = DEMO) => median(await page.evaluate(async ([args, text, turns]) => {
    const times = [];
    for (let turn = 0; turn < turns; turn += 1) {
      const start = performance.now();
      await window.leeside(args, { "t.yaml": text });
      times.push(performance.now() - start);
    }
    return times;
  }, [args, given, 5]));
  const found = {
    typed: median(times),
    wrong: await run(["check", "--json", "t.yaml"], `${DEMO}confidence: 1%%\n`),
    check: await run(["check", "--json", "t.yaml"]),
    plan: await run(["plan", "--json", "t.yaml"]),
    sheet: await run(["make", "t.yaml", "--sheet", "kitchen-checklist", "--format", "html"]),
    packet: await run(["make", "t.yaml", "--format", "html"]),
    all: await run(["make", "t.yaml", "--format", "pdf,html,md"]),
    heap: await page.evaluate(async () => (performance.measureUserAgentSpecificMemory ? null : performance.memory.usedJSHeapSize)),
  };
  await page.context().close();
  return found;
}

const [one, slow] = [await message(1), await message(SLOW)];
const ms = (time) => `${Math.round(time)} ms`;
const rows = [
  ["size of the file", `${(statSync(PAGE).size / 1e6).toFixed(2)} MB`, ""],
  ["opened and ready", ms(await ready(1)), ms(await ready(SLOW))],
  ["letter typed to message on the page", ms(one.typed), ms(slow.typed)],
  ["of it the program (`check --json`, a wrong value)", ms(one.wrong), ms(slow.wrong)],
  ["`check --json` of a right trip", ms(one.check), ms(slow.check)],
  ["`plan --json`", ms(one.plan), ms(slow.plan)],
  ["one sheet as HTML", ms(one.sheet), ms(slow.sheet)],
  ["the packet as HTML, to leaf through", ms(one.packet), ms(slow.packet)],
  ["the packet as PDF, HTML and Markdown", ms(one.all), ms(slow.all)],
  ["memory of the page's scripts", `${((one.heap ?? 0) / 1e6).toFixed(0)} MB`, ""],
];
console.log("| | | 4 x slower |\n|---|---:|---:|");
for (const row of rows) console.log(`| ${row.join(" | ")} |`);
await shut();
