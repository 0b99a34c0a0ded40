// The same file in Firefox: it opens from disk, runs the program, makes a
// packet that is the native one, and goes from the questions to a card.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { firefox } from "./bidi.mjs";
import { PAGE, ROOT, native } from "./open.mjs";

const DEMO = readFileSync(join(ROOT, "content/trips/quillback-ridge.yaml"), "utf8");
let browser;
let context;

/** What a function gives in the page. */
async function inPage(work, ...values) {
  const told = await browser.send("script.evaluate", {
    expression: `(${work})(...${JSON.stringify(values)}).then(JSON.stringify)`, awaitPromise: true, target: { context },
  });
  assert.equal(told.type, "success", JSON.stringify(told.exceptionDetails?.text));
  return told.result.value === undefined ? undefined : JSON.parse(told.result.value);
}

before(async () => {
  browser = await firefox(process.env.FIREFOX ?? "firefox-esr");
  context = (await browser.send("browsingContext.getTree")).contexts[0].context;
  await browser.send("browsingContext.navigate", { context, url: pathToFileURL(PAGE).href, wait: "complete" });
  await inPage(async () => {
    for (let turn = 0; turn < 1200 && !document.querySelector("main[data-ready]"); turn += 1) await new Promise((done) => { setTimeout(done, 50); });
    if (!document.querySelector("main[data-ready]")) throw new Error(document.body.innerText);
  });
});

after(() => browser?.end());

test("Firefox makes the packet that the native program makes", async () => {
  const args = ["make", "quillback-ridge.yaml", "--format", "pdf,html,md"];
  const here = await inPage(async (args, text) => {
    const made = await window.leeside(args, { "quillback-ridge.yaml": text }, { limit: 300_000 });
    const files = {};
    for (const [path, bytes] of Object.entries(made.files)) {
      files[path] = Array.from(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)), (byte) => byte.toString(16).padStart(2, "0")).join("");
    }
    return { status: made.status, files };
  }, args, DEMO);
  const there = native(args, { "quillback-ridge.yaml": DEMO });
  assert.equal(here.status, 0);
  const unlike = Object.keys(there.files).filter((path) => there.files[path] !== here.files[path]);
  assert.deepEqual(unlike, []);
});

test("Firefox goes from the questions to a card", async () => {
  const told = await inPage(async () => {
    const until = async (look) => {
      for (let turn = 0; turn < 600; turn += 1) {
        const found = look();
        if (found) return found;
        await new Promise((done) => { setTimeout(done, 50); });
      }
      throw new Error(`${look}: ${document.body.innerText.slice(0, 400)}`);
    };
    const write = async (id, text) => {
      const field = await until(() => document.getElementById(id));
      field.value = text;
      field.dispatchEvent(new Event(field.matches("select") ? "change" : "input", { bubbles: true }));
    };
    [...document.querySelectorAll("button")].find((one) => one.textContent.startsWith("A trip")).click();
    await write("field-people.learners", "6");
    await write("field-people.instructors", "1");
    await write("field-stove", "white gas");
    await write("field-water_treatment", "filter");
    await write("field-camps[0].nights", "2");
    await write("field-camps[0].elevation", "1900 m");
    const make = await until(() => [...document.querySelectorAll("button")].find((one) => one.textContent === "Make the papers" && !one.disabled));
    make.click();
    const sheet = await until(() => document.getElementById("sheet"));
    return sheet.title;
  });
  assert.match(told, /Kitchen card/);
});
