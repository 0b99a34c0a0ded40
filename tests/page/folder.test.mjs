// Folders: what lies in one is opened, and work is saved into one where the
// browser lets a page have it.
import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, test } from "node:test";
import { ROOT, close, looked, open, openText, shut } from "./open.mjs";

after(shut);

const trip = (name) => readFileSync(join(ROOT, `content/trips/${name}.yaml`), "utf8");
const OWN = "extends: greywater\ntitle: Where our wash water goes\n";

function folder(files) {
  const root = mkdtempSync(join(tmpdir(), "leeside-folder-"));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return root;
}

test("a folder with one trip and a library opens both, one with several asks which, one with neither says so", async () => {
  const page = await open();
  await page.locator("#open-folder").setInputFiles(folder({ "ridge.yaml": trip("quillback-ridge"), "content/modules/greywater.yaml": OWN, "photo.jpg": "no text \xff", "notes.txt": "words" }));
  await page.getByRole("heading", { level: 1, name: /Quillback/i }).waitFor();
  await looked(page);
  assert.equal(await page.locator(".problems .problem").count(), 0);
  await page.evaluate(() => { location.hash = "library"; });
  await page.getByText("content/modules/greywater.yaml").waitFor();
  await page.evaluate(() => { location.hash = "start"; });
  await page.locator("#open-folder").setInputFiles(folder({ "a.yaml": trip("gull-strand"), "trips/b.yaml": "title: The second one\n", "own/content/modules/greywater.yaml": OWN }));
  await page.getByText("is laid over each").waitFor();
  await page.getByRole("link", { name: "The second one" }).click();
  assert.equal(await page.getByLabel("Title", { exact: true }).inputValue(), "The second one");
  await page.evaluate(() => { location.hash = "start"; });
  await page.locator("#open-folder").setInputFiles(folder({ "notes.txt": "words" }));
  await page.getByText("neither a trip file").waitFor();
  await close(page);
});

test("work is saved into a folder, refusal and a full disk are told, without the way there is no button", async () => {
  const page = await open();
  // the browser's own question cannot be answered by a test: a folder of the same interface stands in
  await page.evaluate(() => {
    window.there = {};
    const handle = (path) => ({
      name: path || "club stick",
      getDirectoryHandle: async (name) => handle(`${path}${name}/`),
      getFileHandle: async (name) => ({ createWritable: async () => {
        if (window.isFull) throw new DOMException("no room is left", "QuotaExceededError");
        return { write: async (content) => { window.there[path + name] = typeof content === "string" ? content : content.length; }, close: async () => {} };
      } }),
    });
    // as a browser does, it asks only while the press of a button is fresh
    window.showDirectoryPicker = async () => { if (!navigator.userActivation.isActive) throw new DOMException("no press of a button", "SecurityError"); if (window.refuses) throw new DOMException("not now", "AbortError"); return handle(""); };
  });
  await page.locator("#open-folder").setInputFiles(folder({ "ridge.yaml": trip("quillback-ridge"), "content/modules/greywater.yaml": OWN }));
  await looked(page);
  await page.evaluate(() => { window.refuses = true; });
  await page.getByRole("button", { name: "Save to a folder" }).click();
  await page.evaluate(() => { window.refuses = false; window.isFull = true; });
  await page.getByRole("button", { name: "Save to a folder" }).click();
  await page.getByText("0 were written into club stick, then it ended: no room is left").waitFor();
  await page.evaluate(() => { window.isFull = false; });
  await page.getByRole("button", { name: "Save to a folder" }).click();
  await page.getByText("your group's library beside it").waitFor();
  assert.deepEqual(await page.evaluate(() => window.there), { "ridge.yaml": trip("quillback-ridge"), "content/modules/greywater.yaml": OWN });
  await page.evaluate(() => { location.hash = "papers"; });
  await page.locator("#sheet").waitFor({ timeout: 60_000 });
  // by key: a click just below the sheet's frame goes to the frame where the machine is busy
  await page.getByRole("button", { name: "Save all to a folder" }).press("Enter");
  await page.getByText("Every sheet is in the folder club stick").waitFor({ timeout: 60_000 }).catch(async () => assert.fail(await page.locator("main > div[role=status]").textContent()));
  const names = Object.keys(await page.evaluate(() => window.there));
  assert.ok(names.includes("learners/kitchen-checklist.pdf") && names.includes("staff/index.html"), names.join());
  const other = await open();
  await other.evaluate(() => { window.showDirectoryPicker = undefined; });
  await openText(other, "ridge.yaml", trip("quillback-ridge"));
  await other.getByRole("button", { name: "Save to a file" }).waitFor();
  assert.equal(await other.getByRole("button", { name: "Save to a folder" }).count(), 0);
  await close(page);
  await close(other);
});
