// A simulated class on the page to learn from: how many questions until the musts are known, in the
// page's own order and by a shuffled deck: `node class.mjs PACKET-FOLDER`. Exit 1 where the page's
// order does not save a tenth at least. It is a simulation: no learner was asked anything.
//
// Forgetting is the curve of H. Ebbinghaus, Memory (1885), chapters VII and VIII, figures from
// memory: of what was learned once, k / ((log10 minutes)^1.25 + k) is left, k about 1.84; a row of
// twelve syllables learned anew on six days took 16.5, 11, 7.5, 5, 3 and 2.5 readings, so that after
// one, two .. five days of learning 33, 55, 70, 82 and 85 in a hundred are left a day later, and k
// grows so. Read here as the chance that an answer is still known. What nobody has seen is known by
// three in ten, and one of the choices is guessed; both are common practice, no source.
//
// The page is the real one in a real browser: it is asked what is due, and told right or wrong.
import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const LEARNERS = 100;
const file = join(resolve(process.argv[2] ?? "."), "boathouse-evening", "learners", "learn.html");
if (!existsSync(file)) {
  console.error(`there is no ${file}`);
  process.exit(1);
}
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
});
const page = await browser.newPage();
page.on("pageerror", (error) => { console.error(error.message); process.exit(1); });
await page.goto(pathToFileURL(file).href);

/** One learner, by the page or by a shuffled deck: the questions asked until the musts are known. */
function learner({ seed, byPage }) {
  const DAYS = 28, A_DAY = 15, SECONDS = 40, ENOUGH = 0.8;
  const LEFT = [0.33, 0.55, 0.7, 0.82, 0.85];
  const log = (minutes) => Math.log10(Math.max(minutes, 1)) ** 1.25;
  const strength = LEFT.map((left) => left * log(1440) / (1 - left));
  // mulberry32, public domain: small draws that are the same everywhere
  let state = seed * 2654435761 >>> 0;
  const draw = () => {
    state = state + 0x6d2b79f5 >>> 0;
    let t = Math.imul(state ^ state >>> 15, state | 1);
    t = t + Math.imul(t ^ t >>> 7, t | 61) ^ t;
    return ((t ^ t >>> 14) >>> 0) / 4294967296;
  };
  const must = new Set([...document.querySelectorAll("#_know [data-must=true]")].map((one) => one.dataset.objective));
  const items = [...document.querySelectorAll(".try")].map((one) => ({
    id: one.dataset.try,
    ask: one.querySelector(".ask").textContent,
    must: must.has(one.dataset.objective),
    guess: one.dataset.way === "choice" ? 1 / one.querySelectorAll(".choices li").length : 0,
    knew: draw() < 0.3,
    days: [],
    at: 0,
  }));
  const start = Date.UTC(2027, 4, 1, 10);
  let now = start;
  const known = (item, when) => {
    if (!item.days.length) return item.knew ? 1 : 0;
    if (item.knew) return 1;
    const k = strength[Math.min(item.days.length, strength.length) - 1];
    return k / (log((when - item.at) / 60000) + k);
  };
  const musts = items.filter((one) => one.must);
  const done = () => musts.reduce((sum, one) => sum + known(one, now + 86400000), 0) >= ENOUGH * musts.length;
  let asked = 0;
  const tell = (item) => {
    const right = draw() < known(item, now) || draw() < item.guess;
    const day = Math.floor((now - start) / 86400000);
    if (!item.days.includes(day)) item.days.push(day);
    item.at = now;
    now += SECONDS * 1000;
    asked += 1;
    return right;
  };
  if (!byPage) {
    let deck = [];
    for (let day = 0; day < DAYS; day += 1) {
      now = start + day * 86400000;
      for (let one = 0; one < A_DAY; one += 1) {
        if (!deck.length) {
          deck = [...items];
          for (let at = deck.length - 1; at > 0; at -= 1) {
            const other = Math.floor(draw() * (at + 1));
            [deck[at], deck[other]] = [deck[other], deck[at]];
          }
        }
        tell(deck.pop());
        if (done()) return { asked, days: day + 1 };
      }
    }
    return { asked, days: DAYS, never: true };
  }
  const real = Date.now;
  Date.now = () => now;
  const click = (root, words) => [...root.querySelectorAll("button")].find((one) => one.textContent.startsWith(words)).click();
  const bar = document.querySelector("#_views"), keeping = document.querySelector("#_keeping"), stage = document.querySelector("#_stage");
  click(keeping, "Start afresh");
  click(keeping, "Yes, forget it");
  keeping.querySelector("#_days").value = "28";
  keeping.querySelector("form").requestSubmit();
  try {
    for (let day = 0; day < DAYS; day += 1) {
      now = start + day * 86400000;
      click(bar, "Test me");
      for (let one = 0; one < A_DAY; one += 1) {
        const form = stage.querySelector("form");
        if (!form) break;
        const ask = form.querySelector("legend").textContent;
        const item = items.find((other) => other.ask === ask);
        const right = tell(item);
        const list = form.querySelector("ol.order");
        const radios = [...form.querySelectorAll("input[type=radio]")];
        if (radios.length) {
          radios.find((radio) => (radio.value === "0") === right).checked = true;
          form.requestSubmit();
        } else if (form.querySelector(".spot")) {
          const article = document.querySelector(`.try[data-try="${item.id}"]`);
          const faults = [...article.querySelectorAll(".choices li")].map((line) => line.dataset.fault === "true");
          form.querySelectorAll("input[type=checkbox]").forEach((box, at) => { box.checked = faults[at] === right; });
          form.requestSubmit();
        } else if (list) {
          const lines = [...list.children].sort((a, b) => a.dataset.at - b.dataset.at);
          if (!right) lines.reverse();
          lines.forEach((line) => list.append(line));
          form.requestSubmit();
        } else {
          click(form, "Look");
          click(form, right ? "I had all of it" : "Not all of it");
        }
        if (stage.contains(form)) click(form, "Go on");
        if (done()) return { asked, days: day + 1 };
      }
    }
    return { asked, days: DAYS, never: true };
  } finally {
    Date.now = real;
  }
}

const middle = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
const told = {};
for (const [name, byPage] of [["page", true], ["deck", false]]) {
  const all = [];
  for (let seed = 1; seed <= LEARNERS; seed += 1) all.push(await page.evaluate(learner, { seed, byPage }));
  told[name] = {
    questions: middle(all.map((one) => one.asked)),
    days: middle(all.map((one) => one.days)),
    never: all.filter((one) => one.never).length,
  };
}
await browser.close();
const { page: own, deck } = told;
console.log(`simulated class of ${LEARNERS}, musts known: by the page ${own.questions} questions in ${own.days} days` +
  ` (${own.never} never), by a shuffled deck ${deck.questions} in ${deck.days} (${deck.never} never)`);
if (!(own.questions <= 0.9 * deck.questions) || own.never > deck.never) {
  console.error("the page's order saves no questions");
  process.exit(1);
}
