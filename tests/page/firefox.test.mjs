// The same file in Firefox: it opens from disk, runs the program, makes the
// packets that are the native ones, and goes from the questions to a card.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { firefox } from "./bidi.mjs";
import { PAGE, ROOT, native } from "./open.mjs";

const TRIPS = join(ROOT, "content/trips");
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

/** A run in the page: status, what it said, and the digests of what it wrote. */
async function run(args, files) {
  return inPage(async (args, files) => {
    const made = await window.leeside(args, files, { limit: 300_000 });
    const digests = {};
    for (const [path, bytes] of Object.entries(made.files)) {
      digests[path] = Array.from(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)), (byte) => byte.toString(16).padStart(2, "0")).join("");
    }
    return { status: made.status, out: made.out, err: made.err, files: digests };
  }, args, files);
}

async function same(args, files) {
  const here = await run(args, files);
  const there = native(args, files);
  const { status, out, err } = there;
  assert.deepEqual({ status: here.status, out: here.out, err: here.err }, { status, out: out.replaceAll(`${there.folder}/`, ""), err: err.replaceAll(`${there.folder}/`, "") }, args.join(" "));
  assert.deepEqual(here.files, there.files, args.join(" "));
  return there;
}

test("Firefox makes the packets of every example that the native program makes", async () => {
  for (const name of readdirSync(TRIPS)) {
    const made = await same(["make", name, "--format", "pdf,html,md,docx"], { [name]: readFileSync(join(TRIPS, name), "utf8") });
    assert.ok(Object.keys(made.files).length > 30, name);
  }
});

test("Firefox says what the native program says", async () => {
  const files = { "quillback-ridge.yaml": DEMO, "wrong.yaml": `${DEMO}confidence: 1%%\n`, "june.csv": "departure,base,start date,learners\na,quillback-ridge,2027-06-04,8\n" };
  const received = native(["shelf", "receive", "--size", "canister 230 g", "--count", "3", "--tare", "150 g", "--connection", "thread", "--at", "2027-05-01T08:00"]);
  files["shelf.csv"] = readFileSync(join(received.folder, "shelf.csv"), "utf8");
  for (const args of [
    ["check", "--json", "quillback-ridge.yaml"], ["check", "--json", "wrong.yaml"], ["plan", "--json", "quillback-ridge.yaml"], ["plan", "--steps", "quillback-ridge.yaml"],
    ["list", "modules"], ["schema", "trip"], ["practice", "--topic", "fuel", "--count", "6", "--seed", "7"],
    ["shelf", "list", "--json"], ["shelf", "assign", "--season", "june.csv"], ["season", "june.csv", "--out", "out"],
  ]) await same(args, files);
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
