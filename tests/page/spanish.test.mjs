// The page in Spanish: every sentence has its own, nothing English is left in any
// view, and the longer words stand where the English ones do.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { ROOT, axe, close, looked, noSideScroll, open, openText, run, saved, shot, shut } from "./open.mjs";

const PAGE = join(ROOT, "src/page");
const SPANISH = JSON.parse(readFileSync(join(PAGE, "words/es.json"), "utf8"));
const WORDS = new Map([...readFileSync(join(ROOT, "content/es/words/words.ftl"), "utf8").matchAll(/^word-([a-z0-9-]+) = (.*)$/gm)].map(([, id, said]) => [id, said]));
const TRIP = readFileSync(join(ROOT, "content/trips/kestrel-ten-days.yaml"), "utf8");
const LESSON = readFileSync(join(ROOT, "content/trips/boathouse-evening.yaml"), "utf8");
const VIEWS = ["start", "form", "text", "papers", "whatif", "clock", "practice", "season", "shelf", "library", "library/modules/greywater", "nowhere"];

/** English words that no Spanish sentence has: those that hold English sentences together. */
const ENGLISH = /(?<![\p{L}.-])(the|and|of|to|is|are|with|for|from|this|that|these|those|which|what|not|its|it|be|by|on|at|or|was|were|will|when|where|how|who|than|then|them|they|their|your|you|we|our|have|does|each|every|only|into|there|here|more|other|one|two|first|left|if|as|an|in|so)(?![\p{L}-])/giu;

after(shut);

/** The sentences that the page's sources say. */
function sentences() {
  const found = new Set();
  for (const folder of ["", "text", "keep", "program", "views"]) {
    for (const file of readdirSync(join(PAGE, folder)).filter((name) => /\.jsx?$/.test(name))) {
      const source = readFileSync(join(PAGE, folder, file), "utf8");
      for (const [, text] of source.matchAll(/\b(?:t|later)\(("(?:[^"\\]|\\.)*")/g)) found.add(JSON.parse(text));
    }
  }
  return found;
}

const names = (text) => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort();

test("every sentence of the page is in the catalogue, with its values and forms, and none that is not said", () => {
  const said = sentences();
  assert.ok(said.size > 500, `${said.size} sentences`);
  assert.deepEqual([...said].filter((one) => !(one in SPANISH.sentences)), [], "without Spanish");
  assert.deepEqual(Object.keys(SPANISH.sentences).filter((one) => !said.has(one)), [], "said nowhere");
  for (const [english, spanish] of Object.entries(SPANISH.sentences)) {
    assert.deepEqual(names(spanish), names(english), english);
    assert.equal(spanish.split("|").length, english.split("|").length, english);
    const rest = spanish.replace(/`[^`]*`|\{\w+\}|\b(propane|isobutane|aluminium)\b/g, "");
    assert.deepEqual(rest.match(ENGLISH), null, spanish);
  }
});

test("no view's sentence stands in the sources outside the catalogue", () => {
  // text between two tags, and names for whoever hears the page, are said by a function
  for (const file of readdirSync(join(PAGE, "views")).filter((name) => name.endsWith(".jsx"))) {
    const source = readFileSync(join(PAGE, "views", file), "utf8").replace(/^\s*(\/\/|\*|\/\*\*).*$/gm, "");
    assert.deepEqual(source.match(/(aria-label|title|placeholder|label)="[^"]*[a-z]{3}[^"]*"/g), null, file);
    const loose = [...source.matchAll(/>([^<>{}=();&|?]*[a-z]{3} [a-z][^<>{}=();&|?]*)</g)].map(([, text]) => text);
    assert.deepEqual(loose, [], file);
  }
});

test("every key, choice and hint of the form has its words", async () => {
  const page = await open();
  const known = (text) => text in SPANISH.program || WORDS.has(text.toLowerCase().replace(/[^a-z0-9]+/g, "-"));
  const form = readFileSync(join(PAGE, "text/form.js"), "utf8");
  const own = new Set([...form.matchAll(/^ {2}"?([\w.]+)"?: (?:later\(|"")/gm)].map(([, key]) => key.split(".").at(-1)));
  const lacks = new Set();
  const walk = (part) => {
    if (part === null || typeof part !== "object") return;
    for (const [key, inside] of Object.entries(part.properties ?? {})) {
      if (!key.includes(".") && !own.has(key) && !known(key.replace(/[_-]/g, " "))) lacks.add(`key ${key}`);
      if (typeof inside.description === "string" && !own.has(key) && !known(inside.description)) lacks.add(inside.description);
    }
    for (const word of part.enum ?? []) if (typeof word === "string" && !/^(yes|no|true|false)$/i.test(word) && !known(word.replace(/[_-]/g, " "))) lacks.add(`choice ${word}`);
    Object.values(part).forEach(walk);
  };
  for (const kind of ["trip", "lesson"]) walk(JSON.parse((await run(page, ["schema", kind])).out));
  assert.deepEqual([...lacks].filter((one) => !/^(key (n butane|propane|isobutane|kind|title|name))$/.test(one)), []);
  await close(page);
});

/** What stands in the view and what it is called, without what the reader or the program wrote as a file. */
async function saidIn(page) {
  return page.evaluate(async () => {
    document.querySelectorAll("details").forEach((one) => { one.open = true; });
    // what opens is drawn then
    await new Promise((done) => setTimeout(done, 100));
    const aside = "[lang=en], a[href^=http], pre, textarea, code, script, style, noscript, iframe, .code";
    const found = [document.title];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) if (!node.parentElement.closest(aside)) found.push(node.textContent);
    for (const one of document.querySelectorAll("[aria-label], [title], [placeholder]")) {
      if (!one.closest(aside)) found.push(...["aria-label", "title", "placeholder"].map((name) => one.getAttribute(name) ?? ""));
    }
    return found.filter((text) => text.trim());
  });
}

/** A trip as a Spanish-speaking group has it. */
function spanish(text) {
  let camp = 0;
  return `language: es\n${text}`
    .replace(/^title: .*$/m, "title: Diez días")
    .replace(/^( *(?:- )?name: ).*$/gm, (_, key) => `${key}Lugar ${(camp += 1)}`)
    .replace(/^(notes|organisation|resupply):.*\n/gm, "");
}

async function shows(page, view) {
  await page.evaluate((view) => { location.hash = view; }, view);
  await page.locator("main h1").first().waitFor();
  if (["form", "text", "papers", "whatif", "clock"].includes(view)) await looked(page);
  if (view === "papers") await page.locator("#sheet").waitFor({ timeout: 60_000 });
  if (["form", "whatif"].includes(view)) await page.locator(".numbers .card, table").first().waitFor({ timeout: 60_000 });
}

test("in Spanish no view says an English word, and axe finds nothing", async () => {
  const page = await open({ locale: "es-MX" });
  assert.equal(await page.evaluate(() => document.documentElement.lang), "es");
  for (const [file, text, views] of [["salida.yaml", spanish(TRIP), VIEWS], ["clase.yaml", spanish(LESSON), ["form", "clock"]]]) {
    await openText(page, file, text);
    await looked(page);
    for (const view of views) {
      await shows(page, view);
      const left = (await saidIn(page)).filter((one) => one.match(ENGLISH));
      assert.deepEqual(left, [], `${view} of ${file}`);
      await axe(page, `${view} in Spanish`);
      await shot(page, `es-${file.replace(".yaml", "")}-${view.replace(/\W+/g, "-")}`);
    }
  }
  await close(page);
});

test("the longer Spanish words stand on 320 px without a sideways scroll", async () => {
  const page = await open({ locale: "es-MX", width: 320, height: 640 });
  for (const [file, text, views] of [["salida.yaml", spanish(TRIP), VIEWS], ["clase.yaml", spanish(LESSON), ["clock"]]]) {
    await openText(page, file, text);
    await looked(page);
    for (const view of views) {
      await shows(page, view);
      await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
      await noSideScroll(page, `${view} in Spanish`);
      await shot(page, `es-320-${file.replace(".yaml", "")}-${view.replace(/\W+/g, "-")}`);
    }
  }
  await close(page);
});

test("the language is chosen by the browser first, then by the switch, which is kept", async () => {
  const page = await open();
  assert.equal(await page.evaluate(() => document.documentElement.lang), "en");
  await page.getByText("Español").click();
  await page.getByRole("heading", { level: 1, name: "¿Qué quiere hacer?" }).waitFor();
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "¿Qué quiere hacer?" }).waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.lang), "es");
  // a trip begun in Spanish has its sheets in Spanish, and says so
  await page.getByRole("button", { name: "Una salida" }).click();
  await page.getByText("Sus hojas salen en este idioma").waitFor();
  await page.getByLabel("Participantes o clientes").fill("8");
  await page.getByLabel("Instructores o guías").fill("2");
  await page.getByLabel("Edad de la persona más joven").fill("13");
  await page.getByLabel("Cocinilla", { exact: true }).selectOption("white gas");
  await page.getByLabel("Cómo se hace segura el agua").selectOption("filter");
  await page.getByLabel("Noches").fill("2");
  await page.getByLabel("Altura sobre el mar").fill("2500 m");
  await looked(page);
  assert.match((await saved(page, "Guardar en un archivo")).bytes.toString(), /^title: Nuestra salida\nlanguage: es\n/);
  await page.getByRole("button", { name: "Hacer las hojas" }).click();
  await page.frameLocator("#sheet").getByRole("heading", { level: 1, name: /Tarjeta de cocina/ }).waitFor({ timeout: 60_000 });
  // both languages side by side in one packet
  await page.getByText("Papel, unidades, impresión").click();
  await page.getByLabel("Idioma de las hojas").selectOption("en,es");
  await page.locator("#which optgroup[label=Español] option").first().waitFor({ state: "attached", timeout: 60_000 });
  await page.locator(".languages").getByText("English").click();
  await page.getByRole("button", { name: "Print this sheet" }).waitFor();
  await close(page);
});

test("a group's Spanish words are laid over the Spanish ones, and change the Spanish sheets", async () => {
  const page = await open({ locale: "es-CL" });
  await openText(page, "salida.yaml", spanish(TRIP));
  await looked(page);
  await shows(page, "library/modules/greywater");
  await page.getByRole("button", { name: "Cambiar este tema" }).click();
  await page.locator("#own-text").fill("title: Nuestra agua de lavado\n");
  await page.getByText("Después:").first().waitFor({ state: "attached", timeout: 60_000 });
  await shows(page, "library");
  await page.getByRole("link", { name: "content/es/modules/greywater.yaml" }).waitFor();
  await close(page);
});

test("a caution in Spanish has the numbers of the trip", async () => {
  const page = await open({ locale: "es-AR" });
  await openText(page, "salida.yaml", spanish(TRIP));
  await looked(page);
  const cautions = page.locator(".cautions li");
  await cautions.first().waitFor({ state: "attached", timeout: 60_000 });
  const { cautions: plan } = JSON.parse((await run(page, ["plan", "--json", "t.yaml"], { "t.yaml": spanish(TRIP) })).out);
  const shown = await cautions.allTextContents();
  assert.equal(shown.length, plan.length);
  const numbers = (text) => (text.match(/\d+([.,]\d+)?/g) ?? []).map((one) => one.replace(",", ".")).sort();
  const order = ["danger", "warning", "caution", "notice"].flatMap((signal) => plan.filter((one) => one.signal === signal));
  order.forEach((one, at) => {
    assert.notEqual(shown[at], one.text);
    assert.deepEqual(numbers(shown[at]), numbers(one.text), shown[at]);
  });
  await close(page);
});
