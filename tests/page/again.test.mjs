// Last year's trip on other dates: every day of it moves, nothing else of the
// text, and what was told for the other dates is marked until it is asked again.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { firstDay, moved, oldRules, stale } from "../../src/page/text/again.js";
import { ROOT, axe, close, looked, open, openText, saved, shut } from "./open.mjs";

after(shut);

const trip = (name) => readFileSync(join(ROOT, `content/trips/${name}.yaml`), "utf8");

test("days move together, over a leap day and a year's end, and nothing else changes", () => {
  const course = trip("candidates-three-days");
  // 10 April 2027 to 24 February 2028 is 320 days: the calendar's, by hand
  assert.equal(firstDay(course), "2027-04-10");
  const next = moved(course, "2028-02-24");
  assert.deepEqual(next.match(/date: \d{4}-\d\d-\d\d/g), ["date: 2028-02-24", "date: 2028-02-25", "date: 2028-03-02"]);
  assert.equal(next.replace(/\d{4}-\d\d-\d\d/g, ""), course.replace(/\d{4}-\d\d-\d\d/g, ""));
  assert.match(next, /checked: 2027-04-08/);
  assert.equal(moved("title: x\n", "2028-01-01"), "title: x\n");
  assert.equal(moved("starts: 2027-12-31\n", "2028-01-01"), "starts: 2028-01-01\n");
  assert.deepEqual(stale("camps:\n  - name: A\n    night: 2 C\nrestrictions:\n  stoves: yes\n").map(([path]) => path), ["restrictions", "camps[0].night"]);
  assert.deepEqual([...oldRules("2027-11-25\tplace\talpine-snow fire.stoves\tread 2026-11-25\tx\nnever\tsource\tS1\tnever\t\n", ["alpine-snow"]).keys()], ["alpine-snow"]);
});

test("what is of the other dates is listed, marked at its field, asked again or taken out, and kept", async () => {
  const page = await open();
  const text = trip("kestrel-ten-days");
  await openText(page, "kestrel-ten-days.yaml", text);
  await looked(page);
  await page.getByText("Use it again on other dates").click();
  await page.getByLabel("New first day").fill("2029-07-28");
  await page.getByRole("button", { name: "Move the dates" }).click();
  const list = page.getByRole("region", { name: "of the other dates" });
  await list.getByRole("link", { name: "Fire restrictions" }).waitFor({ timeout: 60_000 });
  await looked(page);
  assert.equal((await saved(page)).bytes.toString(), text.replace(/^starts: \S+/m, "starts: 2029-07-28"));
  assert.match(await list.textContent(), /rules? of .*read .*good for/);
  await list.getByRole("link", { name: "Fire restrictions" }).click();
  assert.equal(await page.evaluate(() => Boolean(document.activeElement.closest("#field-restrictions"))), true);
  await page.locator("#field-restrictions-wrong").getByText("Ask again: ").waitFor();
  await axe(page, "other dates");
  await list.getByRole("button", { name: /Asked: it is right now.*Fire restrictions/ }).click();
  await list.getByRole("link", { name: "Fire restrictions" }).waitFor({ state: "detached" });
  await list.getByRole("button", { name: /Take it out.*Emergency/ }).click();
  assert.doesNotMatch((await saved(page)).bytes.toString(), /^emergency:/m);
  await page.waitForTimeout(500);
  await page.reload();
  await list.waitFor();
  assert.equal(await list.getByRole("link", { name: "Fire restrictions" }).count(), 0);
  // each step can be taken back, the whole move too
  await openText(page, "kestrel-ten-days.yaml", text);
  await looked(page);
  await page.getByText("Use it again on other dates").click();
  await page.getByLabel("New first day").fill("2029-07-28");
  await page.getByRole("button", { name: "Move the dates" }).click();
  await list.waitFor({ timeout: 60_000 });
  await page.getByRole("button", { name: "Undo" }).click();
  await list.waitFor({ state: "detached" });
  assert.equal((await saved(page)).bytes.toString(), text);
  await close(page);
});
