// A learner goes through the page to learn from, in a real browser, at the width of a phone:
// `node learn.mjs PACKET-FOLDER`. Exit 1 on any fault.
//
// Three of the examples are walked, as every packet's page has the same script: a lesson, a trip, and
// one with few questions. check.mjs holds the pages of all packets.
//
// CHROMIUM names the browser (default /usr/bin/chromium), PAGES other packets below the folder: a page
// with one question was walked so by hand.
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const folder = resolve(process.argv[2] ?? ".");
const faults = [];
let held = 0;
let judged = 0;

function hold(what, good) {
  held += 1;
  if (!good) faults.push(what);
}

const packets = (process.env.PAGES ?? "boathouse-evening quillback-ridge half-hour-wash-water").split(" ");
for (const name of packets) {
  if (!existsSync(join(folder, name, "learners", "learn.html"))) {
    console.error(`no ${name}/learners/learn.html below ${folder}`);
    process.exit(1);
  }
}
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
});

function url(name) {
  return pathToFileURL(join(folder, name, "learners", "learn.html")).href;
}

/** Answers the question that stands in the stage; gives whether it was answered rightly. */
async function answer(page, right) {
  return page.evaluate((right) => {
    const form = document.querySelector("#_stage form");
    const legend = form.querySelector("legend").textContent;
    const article = [...document.querySelectorAll(".try")].find((one) => one.querySelector(".ask").textContent === legend);
    const way = article.dataset.way;
    if (way === "choice") {
      const radios = [...form.querySelectorAll("input[type=radio]")];
      radios.find((one) => (one.value === "0") === right).checked = true;
      form.requestSubmit();
    } else if (way === "places") {
      const faults = [...article.querySelectorAll(".choices li")].map((one) => one.dataset.fault === "true");
      const boxes = [...form.querySelectorAll("input[type=checkbox]")];
      const spots = [...form.querySelectorAll(".spot")];
      // some by their boxes, the others by a tap on the drawing
      boxes.forEach((box, at) => { if (faults[at] === right) (at % 2 ? box : spots[at]).click(); });
      form.requestSubmit();
    } else if (way === "order") {
      const list = form.querySelector("ol");
      const lines = [...list.children].sort((a, b) => a.dataset.at - b.dataset.at);
      if (!right) lines.reverse();
      lines.forEach((line) => list.append(line));
      form.requestSubmit();
    } else {
      form.querySelector(".acts button").click();
      [...form.querySelectorAll(".acts button")][right ? 0 : 1].click();
      return way;
    }
    const word = form.querySelector(".verdict .word");
    if (word && word.textContent.startsWith("Right") !== right) return "misjudged";
    const on = [...form.querySelectorAll(".acts button")].find((one) => one.textContent === "Go on");
    if (on) on.click();
    return way;
  }, right);
}

for (const name of packets) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const page = await context.newPage();
  const asked = [];
  page.on("request", (request) => { if (!request.url().startsWith("file:")) asked.push(request.url()); });
  page.on("pageerror", (error) => faults.push(`${name}: ${error.message}`));
  await page.clock.install({ time: new Date("2027-05-01T10:00:00Z") });
  await page.goto(url(name));
  const button = (label) => page.locator("nav.views button", { hasText: label });
  const count = () => page.locator("#_views .count").textContent();

  // every view holds against axe
  for (const view of ["What you must know", "Learn", "Test me", "Sums", "Try a check", "Keep and settings"]) {
    await button(view).first().click();
    await page.addScriptTag({ content: AXE }).catch(() => page.evaluate(AXE));
    const found = await page.evaluate(async () => (await axe.run(document)).violations.map((one) => `${one.id}: ${one.nodes[0].html}`));
    hold(`${name}, ${view}: axe ${found.join("; ")}`, found.length === 0);
    // on a phone, on the narrowest screen of WCAG 2.2 (1.4.10), and with letters twice as large (1.4.4)
    for (const [width, letters] of [[390, "100%"], [320, "100%"], [640, "200%"]]) {
      await page.setViewportSize({ width, height: 844 });
      const over = await page.evaluate((letters) => {
        document.documentElement.style.fontSize = letters;
        const edge = document.documentElement.clientWidth;
        const isOver = document.documentElement.scrollWidth > edge;
        const wide = [...document.querySelectorAll("#_main *")].find((one) => one.getBoundingClientRect().right > edge + 1 && !one.closest(".scroll"));
        document.documentElement.style.fontSize = "";
        return isOver && (wide?.outerHTML.slice(0, 120) ?? "the page");
      }, letters);
      hold(`${name}, ${view}: sideways scrolling at ${width} px, letters of ${letters}: ${over}`, !over);
    }
    await page.setViewportSize({ width: 390, height: 844 });
  }

  // the first answer wrong: it comes back in the same round; then all right until nothing is due
  await button("Test me").click();
  hold(`${name}: a wrong answer is told`, (await answer(page, false)) !== "misjudged");
  let rounds = 1;
  const all = await page.locator(".try").count();
  while (await page.locator("#_stage form").count()) {
    const way = await answer(page, true);
    if (way === "misjudged") { faults.push(`${name}: a right answer was called wrong`); break; }
    rounds += 1;
    if (rounds > 3 * all + 5) { faults.push(`${name}: the round has no end`); break; }
  }
  hold(`${name}: what was wrong comes back once, ${rounds} of ${all + 1}`, rounds === all + 1);
  const [, known, musts] = (await count()).match(/Musts known: (\d+) of (\d+)/) ?? [];
  hold(`${name}: all musts known, ${known} of ${musts}`, musts > 0 && known === musts);

  // opened again, it is still known; days later it is due again, as the boxes say
  await page.reload();
  hold(`${name}: kept over a reload`, (await count()).includes(`Musts known: ${musts} of ${musts}`));
  // what stands there once the page has read what it kept; on a busy machine that comes a little late
  const due = async (wanted) => {
    let said = "";
    for (let turn = 0; turn < 40; turn += 1) {
      said = await button("Test me").textContent();
      if (wanted.test(said)) break;
      if (turn === 20) await page.reload();
      await new Promise((go) => setTimeout(go, 100));
    }
    return said;
  };
  const all_due = new RegExp(`^Test me \\(${all}\\)$`);
  const none_due = /^Test me$/;
  const due_is = async (what, wanted) => {
    const said = await due(wanted);
    hold(`${name}: ${what}: ${said}`, wanted.test(said));
  };
  await due_is("nothing due today", none_due);
  await page.clock.setFixedTime(new Date("2027-05-02T10:00:00Z"));
  await page.reload();
  await due_is("after one day only what was wrong once", /^Test me( \(1\))?$/);
  await page.clock.setFixedTime(new Date("2027-05-03T10:00:00Z"));
  await page.reload();
  await due_is("after two days all comes back", all_due);

  // two weeks, always right: each box waits twice as long as the one before, so days 2, 6 and 14
  for (const day of [2, 3, 5, 6, 7, 13, 14]) {
    await page.clock.setFixedTime(new Date(Date.UTC(2027, 4, 1 + day, 10)));
    await page.reload();
    const asks = [2, 6, 14].includes(day);
    await due_is(`day ${day}`, asks ? all_due : none_due);
    if (!asks) continue;
    await button("Test me").click();
    for (let round = 0; round < all && (await page.locator("#_stage form").count()); round += 1) await answer(page, true);
  }

  // a code carries it to another device; one that is no code changes nothing
  await button("Keep and settings").click();
  await page.getByRole("button", { name: "Show my code" }).click();
  const code = await page.locator("#_code").textContent();
  const other = await (await browser.newContext()).newPage();
  await other.goto(url(name));
  await other.locator("nav.views button", { hasText: "Keep" }).click();
  for (const [text, good] of [["nonsense", false], [code.slice(0, -1) + (code.endsWith("0") ? "1" : "0"), false], [code.toLowerCase(), true]]) {
    await other.getByLabel("A code from another device").fill(text);
    await other.getByRole("button", { name: "Take it" }).click();
    const told = await other.locator("#_told").textContent();
    const there = await other.locator("#_views .count").textContent();
    hold(`${name}: code '${text}': ${told}`, good ? told.startsWith("Taken") : told.startsWith("That is no code"));
    hold(`${name}: after code '${text}': ${there}`, there.includes(`Musts known: ${good ? musts : 0} of`));
  }
  await other.context().close();

  // forgetting asks first
  await page.getByRole("button", { name: "Start afresh" }).click();
  await page.getByRole("button", { name: "No, keep it" }).click();
  hold(`${name}: no means no`, (await count()).includes(`Musts known: ${musts} of ${musts}`));
  await page.getByRole("button", { name: "Start afresh" }).click();
  await page.getByRole("button", { name: "Yes, forget it" }).click();
  hold(`${name}: forgotten`, (await count()).includes("Musts known: 0 of"));

  // sums: the key's own answer is right, one far off is not, a hint shows a step
  await button("Sums").click();
  const sums = page.locator(".sum form");
  hold(`${name}: there are sums`, (await sums.count()) > 10);
  for (let at = 0; at < Math.min(12, await sums.count()); at += 1) {
    const form = sums.nth(at);
    const key = await form.evaluate((one) => one.closest(".sum").querySelector(".because").textContent.match(/Answer: (-?[\d.]+)/)[1]);
    await form.locator("input").fill(String(Number(key) * 3 + 7));
    await form.getByRole("button", { name: "Check" }).click();
    hold(`${name}: sum ${at}, far off`, /^Too (small|large)/.test(await form.locator("[role=status]").textContent()));
    await form.getByRole("button", { name: "Hint" }).click();
    hold(`${name}: sum ${at}, a hint`, (await form.locator(".hints li").count()) > 0);
    await form.locator("input").fill(key.replace(".", ","));
    await form.getByRole("button", { name: "Check" }).click();
    hold(`${name}: sum ${at}, the key`, (await form.locator("[role=status]").textContent()).startsWith("Right"));
  }
  // a sum's own answer is never given before it is asked for, not by half worked ones and not by hints
  for (const sum of await page.locator(".sum:has(form)").all()) {
    const told = await sum.evaluate((one) => {
      const steps = [...one.querySelectorAll("details ol > li")].map((step) => step.textContent);
      return { first: [...one.querySelectorAll(".hints li")].map((step) => step.textContent), last: steps.at(-1) };
    });
    hold(`${name}: the answer stands above the blank: ${told.last}`, !told.first.includes(told.last));
  }
  {
    const form = sums.first();
    const [key, unit, last] = await form.evaluate((one) => {
      const sum = one.closest(".sum");
      return [sum.querySelector(".because").textContent.match(/Answer: (-?[\d.]+)/)[1], sum.dataset.unit, sum.querySelector("details ol > li:last-child").textContent];
    });
    for (let press = 0; press < 6; press += 1) await form.getByRole("button", { name: "Hint" }).click();
    hold(`${name}: a hint gives the answer`, !(await form.locator(".hints li").last().textContent()).endsWith(last.slice(last.lastIndexOf("="))));
    for (const [typed, says] of [[`${key} ${unit}`, /^Right/], [`${key}${unit}`, /^Right/], [`${key} furlongs`, /^Your answer, in/], ["none", /^Write a number/]]) {
      await form.locator("input").fill(typed);
      await form.getByRole("button", { name: "Check" }).click();
      hold(`${name}: '${typed}' in a sum`, says.test(await form.locator("[role=status]").textContent()));
    }
  }
  for (const one of await page.locator(".topic .scroll").all()) hold(`${name}: a table of the sums is cut`, await one.evaluate((box) => box.scrollWidth <= box.clientWidth + 1));
  hold(`${name}: sums have a list to jump by`, (await page.locator("#_sums .contents a").count()) === (await page.locator("#_sums .topic").count()));

  // a check to try: nothing told before the end, gone on with after a pause, others at the next go
  const tryOne = async (right) => {
    const picked = [];
    while (await page.locator("#_stage form").count()) {
      picked.push(await page.locator("#_stage legend").textContent());
      hold(`${name}: the check tells an answer before its end`, (await page.locator("#_stage .feedback").count()) === 0);
      const written = page.locator("#_stage textarea");
      if (await written.count()) {
        await written.fill("as it stands in the handout");
        await page.getByRole("button", { name: "Go on" }).click();
      } else await answer(page, right);
      if (picked.length === 2) {
        await button("Learn").click();
        await button("Try a check").click();
        hold(`${name}: a check left half-way goes on`, /question 3 of/.test(await page.locator("#_stage").textContent()));
      }
    }
    while (await page.locator("#_stage .acts button", { hasText: "I had all of it" }).count()) {
      hold(`${name}: what was written stands beside its answer`, /You wrote: as it stands.*Why|You wrote: as it stands/s.test(await page.locator("#_stage .boxed").textContent()));
      await page.locator("#_stage .acts button").nth(right ? 0 : 1).click();
    }
    return picked;
  };
  await button("Try a check").click();
  const first = await tryOne(true);
  hold(`${name}: a check all right: ${await page.locator("#_stage").textContent()}`, (await page.locator("#_stage").textContent()).includes(`${first.length} of ${first.length} right`));
  await page.getByRole("button", { name: "Another check" }).click();
  const second = await tryOne(false);
  hold(`${name}: the second check asks the same`, all === first.length || second.some((one) => !first.includes(one)));
  hold(`${name}: a check all wrong`, (await page.locator("#_stage").textContent()).includes(`0 of ${second.length} right`));

  // one's own wrong choice and order are told beside the right ones
  await button("Learn").click();
  const wrongChoice = page.locator(".try[data-way=choice] form").first();
  await wrongChoice.locator("input[value='1']").check();
  const chosen = (await wrongChoice.locator("label:has(input[value='1'])").textContent()).trim();
  await wrongChoice.getByRole("button", { name: "Check" }).click();
  hold(`${name}: the wrong choice is named`, (await wrongChoice.locator(".verdict").textContent()).includes(`You chose: ${chosen}`));
  const order = page.locator(".try[data-way=order] form").first();
  if (await order.count()) {
    for (const narrow of [390, 320]) {
      await page.setViewportSize({ width: narrow, height: 844 });
      const broken = await order.locator(".move").evaluateAll((moves) => moves.filter((move) => move.getBoundingClientRect().height > 50).length);
      hold(`${name}: ${broken} buttons are broken at ${narrow} px`, broken === 0);
    }
    await page.setViewportSize({ width: 390, height: 844 });
    await order.evaluate((form) => { const list = form.querySelector("ol"); [...list.children].sort((a, b) => b.dataset.at - a.dataset.at).forEach((line) => list.append(line)); });
    await order.getByRole("button", { name: "Check" }).click();
    hold(`${name}: a wrong order says where each step belongs`, (await order.locator("li b", { hasText: /^step \d/ }).count()) > 0);
  }
  await page.reload();
  await button("Keep and settings").click();
  await page.getByLabel("Days to the check").fill("2.5");
  await page.getByRole("button", { name: "Set", exact: true }).click();
  hold(`${name}: half a day is told`, (await page.locator("#_told").textContent()).startsWith("Write the days"));

  // a finger tells the places of a drawing apart (WCAG 2.2, 2.5.8: 24 CSS pixels), and a tap chooses
  await button("Learn").click();
  for (const scene of await page.locator(".try[data-way=places] form").all()) {
    const spots = await scene.locator(".spot").evaluateAll((all) => all.map((one) => one.getBoundingClientRect()).map((one) => [one.x + one.width / 2, one.y + one.height / 2, one.width, one.height]));
    hold(`${name}: places are large enough`, spots.every(([, , wide, high]) => wide >= 24 && high >= 24));
    const near = spots.some(([x, y], at) => spots.slice(0, at).some(([u, v]) => Math.hypot(x - u, y - v) < 24));
    hold(`${name}: places lie apart`, !near);
    // the letter lies beside what it names, with a line to it
    const off = await scene.locator(".spot").evaluateAll((all) => all.map((one) => {
      const box = one.getBoundingClientRect();
      const lead = [...one.parentNode.querySelectorAll(".lead")][[...one.parentNode.querySelectorAll(".spot")].indexOf(one)];
      const picture = one.parentNode.getBoundingClientRect();
      const point = [picture.left + picture.width * parseFloat(lead.style.left) / 100, picture.top + picture.height * parseFloat(lead.style.top) / 100];
      return Math.hypot(box.x + box.width / 2 - point[0], box.y + box.height / 2 - point[1]);
    }));
    hold(`${name}: a letter covers its place: ${off}`, off.every((by) => by > 30 && by < 45));
    await scene.locator(".spot").first().tap();
    hold(`${name}: a tap chooses`, await scene.locator("input[type=checkbox]").first().isChecked());
    await scene.locator("input[type=checkbox]").first().press("Space");
    hold(`${name}: a key takes it back`, (await scene.locator(".spot.chosen").count()) === 0);
    judged += 1;
  }
  hold(`${name}: asked the network for ${asked}`, asked.length === 0);
  await context.close();

  // with scripts off all of it stands there
  const plain = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await plain.goto(url(name));
  hold(`${name}: without scripts the questions stand`, await plain.locator(".try .ask").first().isVisible());
  hold(`${name}: without scripts the answers open`, (await plain.locator(".try details.answer").count()) === all);
  await plain.context().close();
}

hold("there are drawings to judge", judged > 0 || process.env.PAGES);
// by keyboard alone, on one page: choose, check, go on
{
  const page = await (await browser.newContext()).newPage();
  await page.goto(url(packets[0]));
  await page.locator("nav.views button", { hasText: "Test me" }).focus();
  await page.keyboard.press("Enter");
  let steps = 0;
  for (; steps < 200; steps += 1) {
    const here = await page.evaluate(() => {
      const one = document.activeElement;
      if (one.type === "radio") return "radio";
      return one.tagName === "BUTTON" ? one.textContent : one.tagName;
    });
    if (here === "Go on" || here === "I had all of it") break;
    if (here === "radio") { await page.keyboard.press("Space"); await page.keyboard.press("Enter"); }
    else if (here === "Look" || here === "Check") await page.keyboard.press("Enter");
    else await page.keyboard.press("Tab");
  }
  hold(`the keyboard alone answers a question (${steps} keys)`, steps < 60);
  await page.context().close();
}
// a browser that keeps nothing: said, and it works on
{
  const context = await browser.newContext();
  await context.addInitScript(() => { Object.defineProperty(window, "localStorage", { get() { throw new Error("no"); } }); });
  const page = await context.newPage();
  await page.goto(url(packets[0]));
  hold("a browser that keeps nothing is told", (await page.locator("#_told").textContent()).includes("keeps nothing"));
  await page.locator("nav.views button", { hasText: "Test me" }).click();
  hold("and works on", (await page.locator("#_stage form").count()) === 1);
  await context.close();
}
await browser.close();

for (const one of faults) console.error(one);
console.log(`${held} things held on ${packets.length} pages to learn from, ${faults.length} faults`);
process.exit(faults.length > 0 ? 1 : 0);
