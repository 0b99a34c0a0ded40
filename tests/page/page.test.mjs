// The page in a real browser, from disk, with the network off: what a newcomer
// does, what is kept, what hostile files cannot do.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { ROOT, axe, close, looked, noSideScroll, open, openText, run, saved, shot, shut } from "./open.mjs";

const TRIPS = join(ROOT, "content/trips");
const trip = (name) => readFileSync(join(TRIPS, `${name}.yaml`), "utf8");
const VIEWS = ["start", "form", "text", "papers", "whatif", "practice", "season", "shelf", "library", "library/modules/greywater"];

after(shut);

async function shows(page, view) {
  await page.evaluate((view) => { location.hash = view; }, view);
  await page.locator("main h1").first().waitFor();
  if (["form", "text", "papers", "whatif"].includes(view)) await looked(page);
  if (view === "papers") await page.locator("#sheet").waitFor({ timeout: 60_000 });
}

async function openTrip(page, name, text = trip(name)) {
  await openText(page, `${name}.yaml`, text);
  await page.getByRole("heading", { level: 1 }).first().waitFor();
  await looked(page);
}

test("a newcomer comes from nothing to a printed kitchen card in at most 12 actions", async () => {
  const page = await open();
  let actions = 0;
  const does = async (action) => {
    actions += 1;
    await action;
  };
  await does(page.getByRole("button", { name: "A trip" }).click());
  await does(page.getByLabel("Learners or clients").fill("8"));
  await does(page.getByLabel("Instructors or guides").fill("2"));
  await does(page.getByLabel("Age of the youngest").fill("13"));
  await does(page.getByLabel("Stove", { exact: true }).selectOption("white gas"));
  await does(page.getByLabel("How water is made safe").selectOption("filter"));
  await does(page.getByLabel("Nights").fill("2"));
  await does(page.getByLabel("Height above the sea").fill("8200 ft"));
  await does(page.getByRole("button", { name: "Make the papers" }).click());
  const sheet = page.frameLocator("#sheet");
  await sheet.getByRole("heading", { level: 1, name: /Kitchen card/ }).waitFor({ timeout: 60_000 });
  const frame = page.frames().find((one) => one !== page.mainFrame());
  await frame.evaluate(() => { window.print = () => { document.documentElement.dataset.printed = "yes"; }; });
  await does(page.getByRole("button", { name: "Print this sheet" }).click());
  await sheet.locator("html[data-printed=yes]").waitFor({ state: "attached" });
  assert.ok(actions <= 12, `${actions} actions`);
  await close(page);
});

test("each example is opened, changed, saved and opened again without a byte lost", async () => {
  const page = await open();
  for (const file of readdirSync(TRIPS)) {
    const name = file.replace(".yaml", "");
    const text = trip(name);
    await openTrip(page, name);
    assert.equal((await saved(page)).bytes.toString(), text, `${name} as it was`);
    await page.getByLabel("Title", { exact: true }).fill("Another title");
    await looked(page);
    const changed = await saved(page);
    assert.equal(changed.name, file);
    assert.equal(changed.bytes.toString(), text.replace(/^title: .*?( +#.*)?$/m, "title: Another title$1"), name);
    await openTrip(page, name, changed.bytes.toString());
    assert.equal(await page.getByLabel("Title", { exact: true }).inputValue(), "Another title");
    assert.equal((await saved(page)).bytes.toString(), changed.bytes.toString(), `${name} again`);
  }
  await close(page);
});

test("the text keeps Windows line ends and the mark in front when it is changed", async () => {
  const page = await open();
  const text = `\ufeff${trip("quillback-ridge").replace(/\n/g, "\r\n")}`;
  await openTrip(page, "quillback-ridge", text);
  await page.getByLabel("Age of the youngest").fill("14");
  await shows(page, "text");
  await page.locator("#text").press("ControlOrMeta+End");
  await page.locator("#text").pressSequentially("# end");
  assert.equal((await saved(page)).bytes.toString(), `${text.replace("youngest: 13", "youngest: 14")}# end`);
  await close(page);
});

test("every file that cannot be gives the program's message, with its line and beside its field", async () => {
  const page = await open();
  const folder = join(ROOT, "tests/bad/check");
  const names = readdirSync(folder).filter((name) => name.endsWith(".yaml"));
  assert.ok(names.length > 80);
  let beside = 0;
  let met = 0;
  for (const name of names) {
    const text = readFileSync(join(folder, name), "utf8");
    if (/^runs:/m.test(text)) continue;
    const told = JSON.parse((await run(page, ["check", "--json", name], { [name]: text })).out);
    // some are wrong for another command only
    if (told.problems.length === 0) continue;
    met += 1;
    await openText(page, name, text);
    await looked(page);
    assert.deepEqual(page.faults, [], name);
    for (const problem of told.problems.filter((one) => one.code !== "key.missing")) {
      const words = problem.message.replace(/`/g, "");
      await page.locator(".problems li", { hasText: words }).first().waitFor({ timeout: 5000 }).catch(() => assert.fail(`${name}: '${words}' is not listed`));
    }
    for (const problem of told.problems) {
      beside += await page.evaluate((path) => (path && document.getElementById(`field-${path}`)?.closest(".field, fieldset")?.querySelector(".wrong") ? 1 : 0), problem.path);
    }
  }
  assert.ok(met > 80, `${met} files`);
  assert.ok(beside > met / 3, `${beside} problems stand beside their field`);
  await close(page);
});

test("files that cannot be read are told with their line", async () => {
  const page = await open();
  const folder = join(ROOT, "tests/bad/load");
  for (const name of readdirSync(folder).filter((one) => one.endsWith(".yaml"))) {
    await openText(page, name, readFileSync(join(folder, name)));
    await page.locator(".problems li, .told.trouble").first().waitFor({ timeout: 10_000 }).catch(() => assert.fail(`${name}: nothing is told`));
  }
  await close(page);
});

test("a problem in the list leads to its field, also where that stands one tap away", async () => {
  const page = await open();
  await openTrip(page, "quillback-ridge", `${trip("quillback-ridge")}confidence: 130%\n`);
  await page.locator(".problems a").first().click();
  assert.equal(await page.evaluate(() => document.activeElement.id), "field-confidence");
  await close(page);
});

test("hostile files: nothing runs, the page stays up", async () => {
  const page = await open();
  const evil = `</script><img src=x onerror=alert(1)><script>window.hit=1</script><a href='javascript:window.hit=1'>x</a>`;
  const text = trip("quillback-ridge").replace(/^title: .*/m, `title: "${evil}"`).replace("Lower meadow", `"${evil}"`);
  await openTrip(page, "quillback-ridge", text);
  for (const view of ["form", "text", "whatif", "papers", "start"]) await shows(page, view);
  await shows(page, "papers");
  const sheet = page.frames().find((one) => one !== page.mainFrame());
  for (const frame of [page.mainFrame(), sheet]) {
    assert.equal(await frame.evaluate(() => window.hit), undefined);
    assert.equal(await frame.evaluate(() => document.querySelectorAll("main img, a[href^=javascript]").length), 0);
  }
  // the sheet's frame has no way to the page
  assert.equal(await sheet.evaluate(() => { try { return String(window.parent.document); } catch { return "refused"; } }), "refused");
  // more than any trip has
  const large = join(mkdtempSync(join(tmpdir(), "leeside-large-")), "large.yaml");
  writeFileSync(large, Buffer.alloc(50_000_000, "a"));
  await shows(page, "start");
  await page.locator("#open-file").setInputFiles(large);
  await page.getByText("has 50 MB").waitFor();
  // of another kind
  await openText(page, "picture.yaml", Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0xff, 0xd8]));
  await page.getByText("is not a text in UTF-8").waitFor();
  await openText(page, "list.yaml", "- a\n- b\n");
  await page.locator(".problems li").first().waitFor();
  await openText(page, "deep.yaml", "[".repeat(100_000));
  await page.locator(".problems li, .wrong").first().waitFor({ timeout: 60_000 });
  // a library from elsewhere, with a way out of its folder
  await openText(page, "library.zip", Buffer.from("PK no zip file, but long enough to be looked at as one"));
  await page.getByText("could not be opened").waitFor();
  await assert.rejects(run(page, ["check", "../x"], { "../x": "a" }), /no path inside/);
  // and all is well after it
  await openTrip(page, "quillback-ridge");
  assert.equal(await page.locator(".problems .problem").count(), 0);
  await close(page);
});

test("an overlay with markup and scripts in its words and templates stays text and does not run", async () => {
  const page = await open();
  const module = 'extends: greywater\ntitle: "<script>window.hit=1</script>"\ntext: |\n  <img src=x onerror=window.hit=1> words\n';
  const made = await run(page, ["make", "t.yaml", "--content", "ours", "--format", "html"], { "t.yaml": trip("quillback-ridge"), "ours/content/modules/greywater.yaml": module }, { whole: true });
  for (const bytes of Object.values(made.files)) assert.ok(!Buffer.from(bytes).toString().includes("<script>window.hit"));
  const shell = Buffer.from((await run(page, ["unpack", "x"], {}, { whole: true })).files["x/templates/page/page.js"]).toString();
  const poisoned = await page.evaluate(async ([text, script]) => {
    const made = await window.leeside(["make", "t.yaml", "--content", "ours", "--format", "html", "--sheet", "kitchen-checklist"], { "t.yaml": text, "ours/templates/page/page.js": `${script};parent.postMessage("out","*");document.title="ran"` });
    const frame = document.createElement("iframe");
    frame.sandbox = "allow-scripts";
    frame.srcdoc = new TextDecoder().decode(Object.entries(made.files).find(([path]) => path.endsWith("kitchen-checklist.html"))[1]);
    const heard = new Promise((done) => { window.addEventListener("message", (event) => event.data === "out" && done("ran")); setTimeout(() => done("did not run"), 1500); });
    document.body.append(frame);
    return heard;
  }, [trip("quillback-ridge"), shell]);
  assert.equal(poisoned, "did not run");
  page.faults = page.faults.filter((fault) => !/Content Security Policy/.test(fault));
  await close(page);
});

test("a run that takes too long is ended and told, and the next one works", async () => {
  const page = await open();
  const ended = await run(page, ["make", "t.yaml"], { "t.yaml": trip("quillback-ridge") }, { limit: 5 });
  assert.equal(ended.status, 124);
  assert.match(ended.err, /ended after/);
  const next = await run(page, ["plan", "t.yaml"], { "t.yaml": trip("quillback-ridge") });
  assert.equal(next.status, 0);
  assert.deepEqual(next.files, {});
  await close(page);
});

test("nothing is lost when the tab is killed, and undo takes a change back", async () => {
  const page = await open();
  await page.getByRole("button", { name: "A trip" }).click();
  await page.getByLabel("Title", { exact: true }).fill("Heron evening");
  await page.waitForTimeout(500);
  await page.reload();
  assert.equal(await page.getByLabel("Title", { exact: true }).inputValue(), "Heron evening");
  const context = page.context();
  const { faults } = page;
  const client = await context.newCDPSession(page);
  const crashed = page.waitForEvent("crash");
  client.send("Page.crash").catch(() => {});
  await crashed;
  const again = await open({ context });
  await again.getByRole("link", { name: "Heron evening" }).click();
  assert.equal(await again.getByLabel("Title", { exact: true }).inputValue(), "Heron evening");
  await again.getByLabel("Title", { exact: true }).fill("Other");
  await again.getByRole("button", { name: "Undo" }).click();
  assert.equal(await again.getByLabel("Title", { exact: true }).inputValue(), "Heron evening");
  await again.getByRole("button", { name: "Redo" }).click();
  assert.equal(await again.getByLabel("Title", { exact: true }).inputValue(), "Other");
  assert.deepEqual(faults, []);
  await close(again);
});

test("two tabs on one piece of work lose nothing and are told", async () => {
  const page = await open();
  await page.getByRole("button", { name: "A trip" }).click();
  await page.getByLabel("Title", { exact: true }).fill("Two cooks");
  await page.waitForTimeout(500);
  const other = await open({ context: page.context() });
  await other.getByRole("link", { name: "Two cooks" }).click();
  await other.getByLabel("Title", { exact: true }).fill("Of the second tab");
  await page.getByText("Another tab works on this too").waitFor();
  await page.getByLabel("Title", { exact: true }).fill("Of the first tab");
  await page.getByText("goes on as a copy of its own").waitFor();
  const third = await open({ context: page.context() });
  await third.getByRole("link", { name: "Of the first tab" }).waitFor();
  await third.getByRole("link", { name: "Of the second tab" }).waitFor();
  assert.deepEqual([...page.faults, ...other.faults], []);
  await close(third);
});

test("a full store is told, and saving to a file still works", async () => {
  const page = await open();
  await page.evaluate(() => {
    let part = "x".repeat(1_000_000);
    for (let at = 0; part.length > 0; at += 1) {
      try {
        localStorage.setItem(`fill-${at}`, part);
      } catch {
        part = part.slice(0, Math.floor(part.length / 2));
      }
    }
  });
  await page.getByRole("button", { name: "A trip" }).click();
  await page.getByText("store is full").waitFor();
  await page.getByLabel("Title", { exact: true }).fill("Kept in a file");
  await page.waitForTimeout(500);
  // closing would lose it, so the browser asks
  const asked = page.waitForEvent("dialog");
  page.close({ runBeforeUnload: true });
  const dialog = await asked;
  assert.equal(dialog.type(), "beforeunload");
  await dialog.dismiss();
  assert.match((await saved(page)).bytes.toString(), /^title: Kept in a file$/m);
  await close(page);
});

test("the browser's back button goes back a view", async () => {
  const page = await open();
  await openTrip(page, "quillback-ridge");
  await page.getByRole("link", { name: "Text" }).click();
  await page.locator("#text").waitFor();
  await page.goBack();
  await page.getByLabel("Title", { exact: true }).waitFor();
  await close(page);
});

test("ticks on a card are kept, and cards can be turned, in the page", async () => {
  const page = await open({ width: 390, height: 844, hasTouch: true, isMobile: true });
  await openTrip(page, "quillback-ridge");
  await shows(page, "papers/learners/kitchen-checklist.html");
  const box = page.frameLocator("#sheet").locator("input[type=checkbox]").first();
  await box.check({ timeout: 60_000 });
  await shows(page, "papers/learners/study-cards.html");
  await page.frameLocator("#sheet").getByRole("button", { name: "Show answer" }).click();
  await page.frameLocator("#sheet").getByRole("button", { name: "Hide answer" }).waitFor();
  await shows(page, "papers/learners/kitchen-checklist.html");
  assert.equal(await page.frameLocator("#sheet").locator("input[type=checkbox]").first().isChecked(), true);
  await close(page);
});

test("a number opens its working, and the switch changes the units", async () => {
  const page = await open();
  await openTrip(page, "quillback-ridge");
  await page.locator("button.figure").first().click();
  await page.getByRole("dialog").getByText("=").first().waitFor();
  await page.keyboard.press("Escape");
  const camps = page.getByRole("region", { name: "Camps" });
  await camps.getByText("°F").first().waitFor();
  await page.locator(".switch label", { hasText: "metric" }).click();
  await camps.getByText("°C").first().waitFor();
  await close(page);
});

test("a lesson comes from four answers to its plan", async () => {
  const page = await open();
  await page.getByRole("button", { name: "A lesson" }).click();
  await page.getByLabel("Learners or clients").fill("8");
  await page.getByLabel("Instructors or guides").fill("2");
  await page.getByLabel("Age of the youngest").fill("17");
  await page.getByLabel("Height above the sea").fill("300 m");
  await page.getByRole("button", { name: "Make the papers" }).click();
  await page.frameLocator("#sheet").getByRole("heading", { level: 1, name: /Lesson plan/ }).waitFor({ timeout: 60_000 });
  await close(page);
});

test("the leaves of paper are those that the program counts, and a lesson's subjects are ticks", async () => {
  const page = await open();
  await openTrip(page, "boathouse-evening");
  const { out, err } = await run(page, ["make", "t.yaml", "--bundle", "tonight", "--format", "pdf"], { "t.yaml": trip("boathouse-evening") });
  const leaves = `${out}${err}`.match(/(\d+) leaves of paper/)[1];
  await shows(page, "papers");
  await page.getByText("Paper, units, print").click();
  await page.getByLabel("Who prints it").selectOption("tonight");
  await page.getByText("Leaves of paper").first().click();
  await page.getByRole("row", { name: /^All together/ }).getByText(leaves, { exact: true }).waitFor({ timeout: 60_000 });
  await shows(page, "form");
  const focus = page.locator("[id='field-course.focus']");
  await focus.evaluate((one) => { for (let box = one.closest("details"); box; box = box.parentElement.closest("details")) box.open = true; });
  await focus.locator("summary").click();
  assert.equal(await focus.getByRole("checkbox", { checked: true }).count(), 4);
  await focus.getByRole("checkbox", { name: "Gas canister stoves" }).uncheck();
  await focus.getByRole("checkbox", { name: "Making water safe" }).check();
  await looked(page);
  const text = (await saved(page)).bytes.toString();
  assert.equal(text, trip("boathouse-evening").replace("    - canister-stoves\n", "").replace("    - alcohol-stoves\n", "    - alcohol-stoves\n    - water-treatment\n"));
  await close(page);
});

test("the shelf: canisters come, are weighed, what cannot be is refused, the ledger is saved and opened", async () => {
  const page = await open({ at: "shelf" });
  // what will be put down is what the field shows
  await page.waitForFunction(() => document.getElementById("size")?.value);
  await page.getByLabel("Size").selectOption({ label: "canister 230 g" });
  await page.getByLabel("Mass empty").fill("150 g");
  await page.getByRole("button", { name: "Put them on the shelf" }).click();
  const row = page.getByRole("row", { name: /F-001/ });
  await row.getByText("380 g").waitFor();
  assert.match(await page.locator("#tag").inputValue(), /^F-001/);
  await page.getByLabel("On the scale").fill("900 g");
  await page.getByRole("button", { name: "Write it down" }).click();
  await page.getByText("heavier than").waitFor();
  await page.getByLabel("On the scale").fill("291 g");
  await page.getByRole("button", { name: "Write it down" }).click();
  await row.getByText("141 g").waitFor();
  const file = await saved(page, "Save the shelf to a file");
  const other = await open({ at: "shelf" });
  await other.locator("#open-shelf").setInputFiles({ name: "shelf.csv", mimeType: "text/csv", buffer: file.bytes });
  await other.getByRole("row", { name: /F-001/ }).getByText("141 g").waitFor();
  assert.equal((await saved(other, "Save the shelf to a file")).bytes.toString(), file.bytes.toString());
  // a line that was wrong is told to count for nothing, and stays; labels are made; copies are laid together
  await other.getByText("Every line that was written").click();
  const lines = other.getByRole("region", { name: "Lines of the ledger" });
  await lines.getByRole("button", { name: /Counts for nothing/ }).nth(1).click();
  await other.getByRole("row", { name: /F-001/ }).first().getByText("380 g").waitFor();
  await lines.getByText("corrected").waitFor();
  await page.locator("#merge-shelf").setInputFiles({ name: "theirs.csv", mimeType: "text/csv", buffer: (await saved(other, "Save the shelf to a file")).bytes });
  await row.getByText("380 g").waitFor();
  await other.getByText("Labels to stick on").click();
  const [labels] = await Promise.all([other.context().waitForEvent("page"), other.getByRole("button", { name: "Labels as PDF" }).click()]);
  await labels.close();
  await axe(other, "a shelf with lines");
  await noSideScroll(other, "a shelf with lines");
  await close(page);
  await close(other);
});

test("what if: two plans side by side, and the change can be taken", async () => {
  const page = await open();
  await openTrip(page, "quillback-ridge");
  await shows(page, "whatif");
  await page.getByLabel("Nights at the last camp").selectOption("4");
  await page.locator("tr.differs").first().waitFor();
  await page.getByRole("button", { name: "Take the change" }).click();
  await looked(page);
  assert.match((await saved(page)).bytes.toString(), /nights: 4/);
  await close(page);
});

test("a subject is changed for a group, shown on its sheets, saved and opened by another", async () => {
  const page = await open();
  await openTrip(page, "quillback-ridge");
  await shows(page, "library/modules/greywater");
  await page.getByRole("button", { name: "Change this subject" }).click();
  await page.locator("#own-text").waitFor();
  assert.match(await page.locator("#own-text").inputValue(), /^extends: greywater\nbase: \S+\ntitle: /);
  await page.locator("#own-text").fill("extends: greywater\ntitle: Where our wash water goes\n");
  await page.locator(".differences").first().waitFor({ state: "attached", timeout: 60_000 });
  // words and facts by their fields; how hard they read is counted as they are typed
  await page.getByText("as in the library").waitFor({ timeout: 60_000 });
  await page.locator("#own-words").fill("Wash water goes on soil.\n\nCircumstances notwithstanding, responsible individuals systematically disperse contaminated dishwater considerably beyond riparian vegetation.\n");
  await page.getByText(", in the library").waitFor({ timeout: 60_000 });
  await page.getByText("is the most that learners get").waitFor({ timeout: 60_000 });
  await page.getByText("Facts, as your group has them").click();
  await page.locator("#own-distance").fill("300 ft");
  assert.match(await page.locator("#own-text").inputValue(), /^facts:\n {2}distance:\n {4}value: 300 ft$/m);
  assert.match(await page.locator(".differences").first().textContent(), /Before: .*Where the wash water goes.*After: .*Where our wash water goes/s);
  await page.locator("#own-distance").fill("");
  await page.locator("#own-words").fill("");
  assert.equal(await page.locator("#own-text").inputValue(), "extends: greywater\ntitle: Where our wash water goes\n");
  await shows(page, "library");
  const file = await saved(page, "Save it to a file");
  const other = await open();
  await openTrip(other, "quillback-ridge");
  await openText(other, "our-library.zip", file.bytes);
  await other.getByText("content/modules/greywater.yaml").waitFor();
  await close(page);
  await close(other);
});

test("a rule of a place is changed for a group, and the sheets say it", async () => {
  const page = await open();
  await openTrip(page, "quillback-ridge");
  await shows(page, "library");
  await page.getByText("Inland forest and mountain").click();
  await page.getByRole("button", { name: "Change these rules" }).click();
  await page.getByLabel("Greywater distance").fill("300 ft");
  await page.locator(".differences li.come", { hasText: "300 ft" }).first().waitFor({ state: "attached", timeout: 60_000 });
  await page.getByText("Nothing is wrong in it").waitFor();
  await page.getByLabel("Greywater distance").fill("3 ft of rope");
  await page.locator(".inside .wrong.problem").first().waitFor({ timeout: 60_000 });
  await axe(page, "a place's rules");
  await page.getByRole("button", { name: "Take this change away" }).click();
  await page.getByRole("button", { name: "Change these rules" }).waitFor();
  await close(page);
});

for (const [name, look] of [
  ["wide and light", { colorScheme: "light" }],
  ["wide and dark", { colorScheme: "dark" }],
  ["a phone", { width: 390, height: 844, isMobile: true, hasTouch: true, colorScheme: "light" }],
  ["320 px, or 400 % on a small screen", { width: 320, height: 640, colorScheme: "dark", reducedMotion: "reduce" }],
]) {
  test(`every view: no finding of axe, no sideways scroll: ${name}`, async () => {
    const page = await open(look);
    for (const example of ["kestrel-ten-days", "boathouse-evening"]) {
      await openTrip(page, example);
      for (const view of [...VIEWS, ...(example.startsWith("boat") ? ["clock"] : [])]) {
        await shows(page, view);
        if (view === "form") await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
        await axe(page, `${view} (${name})`);
        await noSideScroll(page, `${view} of ${example} (${name})`);
        await shot(page, `${name.replace(/\W+/g, "-")}-${example}-${view.replace(/\W+/g, "-")}`);
      }
    }
    await close(page);
  });
}

test("by keyboard alone from the start to a printed sheet, the focus always seen", async () => {
  const page = await open();
  const press = async (key, times = 1) => { for (let at = 0; at < times; at += 1) await page.keyboard.press(key); };
  const focused = () => page.evaluate(() => {
    const one = document.activeElement;
    const style = getComputedStyle(one);
    return { id: one.id, text: (one.textContent ?? "").slice(0, 40), seen: one.tagName === "H1" || one.tagName === "BODY" || style.outlineStyle !== "none" || one.classList.contains("unseen") || one.tagName === "IFRAME" };
  });
  const to = async (wanted) => {
    for (let at = 0; at < 120; at += 1) {
      const now = await focused();
      assert.ok(now.seen, `the focus on ${JSON.stringify(now)} is not seen`);
      if (now.id === wanted || now.text.startsWith(wanted)) return;
      await press("Tab");
    }
    assert.fail(`${wanted} is not reached by Tab`);
  };
  await to("A trip");
  await press("Enter");
  const type = async (id, text) => { await to(id); await page.keyboard.type(text); };
  await page.locator("#field-title").waitFor();
  await type("field-people.learners", "6");
  await type("field-people.instructors", "1");
  await type("field-people.youngest", "17");
  await type("field-stove", "white");
  await type("field-water_treatment", "filter");
  await type("field-camps[0].nights", "2");
  await type("field-camps[0].elevation", "1900 m");
  await looked(page);
  await to("Make the papers");
  await press("Enter");
  await page.locator("#sheet").waitFor({ timeout: 60_000 });
  await to("Print this sheet");
  await close(page);
});
