// The clock as a picture: moved by pointer, by keys and by buttons; what cannot
// be goes back with the program's reason; what is written is the file's own keys.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { ROOT, axe, close, looked, noSideScroll, open, openText, saved, shot, shut } from "./open.mjs";

after(shut);

const LESSON = readFileSync(join(ROOT, "content/trips/boathouse-evening.yaml"), "utf8");

async function onTheClock(look) {
  const page = await open(look);
  await openText(page, "boathouse-evening.yaml", LESSON);
  await looked(page);
  await page.evaluate(() => { location.hash = "clock"; });
  await page.getByRole("slider", { name: "Minutes there are" }).waitFor({ timeout: 60_000 });
  return page;
}

const now = (page, name) => page.getByRole("slider", { name }).first().getAttribute("aria-valuenow");
const text = async (page) => (await saved(page)).bytes.toString();

test("minutes and stations are dragged, written into the file's own keys, and taken back", async () => {
  const page = await onTheClock();
  const drag = async (name, dx, dy) => {
    const grip = page.getByRole("slider", { name }).first();
    await grip.scrollIntoViewIfNeeded();
    const box = await grip.locator(".bar").boundingBox();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + dx, box.y + box.height / 2 + dy, { steps: 4 });
    await page.mouse.up();
  };
  await drag("Minutes there are", -100, 0);
  await page.getByText("Minutes there are: 130 min, to 20:10.").waitFor();
  await page.getByRole("heading", { name: /18:00 to 20:(0|10)/ }).waitFor({ timeout: 30_000 });
  assert.equal(await text(page), LESSON.replace("  minutes: 150", "  minutes: 130"));
  await drag("Begins", 75, 0);
  await page.getByText("Begins: 18:15.").waitFor();
  await drag("Stations lit at a time", 0, 28);
  await page.getByText("Stations lit at a time: 3.").waitFor();
  assert.equal(await text(page), LESSON.replace("  minutes: 150", "  minutes: 130").replace("starts: 18:00", "starts: 18:15").replace("stations: 2 ", "stations: 3 "));
  // more stations than there are stoves: refused, and where it was
  await looked(page);
  await drag("Stations lit at a time", 0, 5 * 28);
  await page.getByText("there are stoves for 3").waitFor();
  assert.equal(await now(page, "Stations lit at a time"), "3");
  for (let at = 0; at < 3; at += 1) await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(await text(page), LESSON);
  await close(page);
});

test("by keys and by buttons, with the reason where it cannot be", async () => {
  const page = await onTheClock();
  await page.getByRole("slider", { name: "Minutes there are" }).focus();
  for (let at = 0; at < 2; at += 1) await page.keyboard.press("ArrowRight");
  await page.getByText("Minutes there are: 160 min").first().waitFor();
  await page.getByText("Undo takes it back").waitFor();
  assert.equal(await text(page), LESSON.replace("  minutes: 150", "  minutes: 160"));
  await looked(page);
  // twelve minutes are too few for what safety asks
  await page.getByRole("slider", { name: "Minutes there are" }).focus();
  for (let at = 0; at < 10; at += 1) await page.keyboard.press("PageDown");
  await page.getByText("minutes are missing").waitFor();
  await page.getByText("or more, or leave out of").waitFor();
  assert.equal(await now(page, "Minutes there are"), "160");
  // a part's minutes are this group's own, above the library's
  const parts = page.getByRole("slider", { name: "The tired canister" });
  const before = Number(await now(page, "The tired canister"));
  await parts.focus();
  for (let at = 0; at < 4; at += 1) await page.keyboard.press("ArrowRight");
  await page.getByText(`The tired canister: ${before + 4} min.`).waitFor();
  await page.waitForFunction((wanted) => document.querySelector('[aria-label="The tired canister"][role=slider]')?.getAttribute("aria-valuenow") === wanted && document.querySelector("main[data-looked]"), String(before + 4), { timeout: 30_000 });
  await looked(page);
  const group = page.getByRole("group", { name: "The tired canister" });
  await parts.focus();
  for (let at = 0; at < before + 4; at += 1) await page.keyboard.press("ArrowLeft");
  await page.getByText("5 min is the least that is safe").waitFor();
  await group.getByRole("button", { name: "As the library has it" }).click();
  await page.getByText("as the library has it.").waitFor();
  await page.waitForFunction((wanted) => document.querySelector('[aria-label="The tired canister"][role=slider]')?.getAttribute("aria-valuenow") === wanted, String(before), { timeout: 30_000 });
  await page.getByRole("group", { name: "Stations lit at a time" }).getByRole("button", { name: "Less" }).click();
  await page.getByText("Stations lit at a time: 1.").waitFor();
  await close(page);
});

for (const [name, look] of [["a phone", { width: 390, height: 844, isMobile: true, hasTouch: true }], ["320 px in the dark", { width: 320, height: 640, colorScheme: "dark" }]]) {
  test(`the clock fits and has no finding of axe: ${name}`, async () => {
    const page = await onTheClock(look);
    await page.getByRole("slider", { name: "The tired canister" }).focus();
    await axe(page, "clock");
    await noSideScroll(page, "clock");
    await shot(page, `clock-${look.width}`);
    await close(page);
  });
}
