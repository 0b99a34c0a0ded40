// The season in the page: a table is opened, what is wrong is told by row, and
// the packets are those that the native program makes of the whole table.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { alone, readTable, writeRow } from "../../src/page/text/table.js";
import { unzip } from "../../src/page/keep/zip.js";
import { ROOT, axe, close, native, noSideScroll, open, saved, shot, shut } from "./open.mjs";

after(shut);

const trip = (name) => readFileSync(join(ROOT, `content/trips/${name}.yaml`), "utf8");
// three departures of which one is called off; the days are day first by the last alone
const TABLE = `departure,base,start date,learners,instructors,youngest,diet,kitchens,van,status
ridge-01,../trips/quillback-ridge,04/06/2027,8,2,14,,,white,
strand-01,../trips/gull-strand,06/06/2027,6,2,15,"nuts; ""hot"" spice","Skerry 4, Kelp 4",green,
sands-09,../trips/lantern-sands,26/06/2027,9,3,16,,"Upstream 6, Downstream 6",grey,cancelled
`;

test("a table is read as Python's own reader reads it, and one departure alone keeps the others' rows and days", () => {
  const tables = [TABLE, readFileSync(join(ROOT, "content/seasons/summer-2027.csv"), "utf8"), "\ufeffa;b\r\n\"1;2\";\"say \"\"x\"\"\"\r\n\r\n3;\r\n", "a,b\n1,\"two\nlines, \"\"x\"\"\"\n2,\"\n\"\n"];
  const folder = mkdtempSync(join(tmpdir(), "leeside-table-"));
  tables.forEach((text, at) => {
    writeFileSync(join(folder, "t.csv"), text);
    const told = JSON.parse(execFileSync("python3", ["-c", "import csv,json,re,sys; print(json.dumps([[re.sub(chr(13) + '?' + chr(10), ' ', c).strip() for c in r] for r in csv.reader(open(sys.argv[1], encoding='utf-8-sig', newline=''), delimiter=sys.argv[2]) if any(r)]))", join(folder, "t.csv"), at === 2 ? ";" : ","], { encoding: "utf8" }));
    assert.deepEqual(readTable(text).rows.map((row) => row.cells), told);
    for (const row of readTable(text).rows) assert.deepEqual(readTable(writeRow(row.cells, ",")).rows[0].cells, row.cells);
  });
  // a row of two lines counts as the spreadsheet counts it; a quote that was left open swallows none
  assert.deepEqual(readTable(tables[3]).rows.map((row) => row.number), [1, 2, 3]);
  assert.deepEqual(readTable("a,b\n1,\"x\n2,y\n3,\"z\"w\n").rows.length, 4);
  const one = readTable(alone(TABLE, 3));
  assert.deepEqual(one.rows.map((row) => [row.number, row.cells[2], row.cells.at(-1)]), [[1, "start date", "status"], [2, "04/06/2027", "cancelled"], [3, "06/06/2027", ""], [4, "26/06/2027", "cancelled"]]);
  assert.deepEqual(readTable(alone("departure,base\na,b\nc\n", 2)).rows.map((row) => row.cells), [["departure", "base", "status"], ["a", "b", ""], ["c", "", "cancelled"]]);
});

async function give(page, name, text) {
  await page.locator("#open-season").setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
}

test("a season is opened, mended by row, made, and saved with the bytes of the native program", async () => {
  const page = await open({ at: "season" });
  await give(page, "summer.xlsx", "PK\x03\x04 a workbook");
  await page.getByText("save as', then CSV UTF-8").waitFor();
  await page.getByRole("button", { name: "Close this message" }).click();
  await give(page, "june.csv", TABLE.replace("learners", "lerners"));
  await page.getByText("did you mean").waitFor({ timeout: 60_000 });
  await give(page, "june.csv", TABLE.replace("6,2,15", "many,2,15").replace("../trips/quillback-ridge", "../trips/heron-ridge"));
  const wrong = page.getByRole("region", { name: "What is wrong, by row" });
  await wrong.getByText("expected the number of learners").waitFor({ timeout: 60_000 });
  assert.match(await wrong.textContent(), /Row 2, ridge-01.*no such file.*Row 3, strand-01/s);
  await page.getByText("not here yet: open it").waitFor();
  await page.locator("#open-bases").setInputFiles({ name: "heron-ridge.yaml", mimeType: "text/plain", buffer: Buffer.from(trip("quillback-ridge").replace("nights: 1", "nights: 2")) });
  await wrong.getByText("Row 2").waitFor({ state: "detached", timeout: 60_000 });
  // the row is mended where it stands
  await wrong.getByRole("link", { name: "Row 3" }).click();
  assert.equal(await page.evaluate(() => document.activeElement.id), "season-text");
  await page.locator("#season-text").fill(TABLE);
  await page.getByText("Every row is right").waitFor({ timeout: 60_000 });
  await axe(page, "season");
  await noSideScroll(page, "season");
  await page.getByRole("button", { name: "Make 2 packets" }).click();
  const sheet = page.frameLocator("#sheet");
  await sheet.getByRole("link", { name: "strand-01" }).first().waitFor({ timeout: 120_000 });
  await shot(page, "season");
  const file = await saved(page, "Save all as a zip file");
  assert.equal(file.name, "june.zip");
  const zipped = unzip(file.bytes);
  const whole = native(["season", "seasons/june.csv", "--out", "out"], { "seasons/june.csv": TABLE, "trips/quillback-ridge.yaml": trip("quillback-ridge"), "trips/gull-strand.yaml": trip("gull-strand"), "trips/lantern-sands.yaml": trip("lantern-sands") });
  assert.equal(whole.status, 0, whole.err);
  assert.deepEqual(Object.keys(zipped).map((path) => `out/${path}`).sort(), Object.keys(whole.files).sort());
  for (const [path, bytes] of Object.entries(zipped)) assert.ok(Buffer.from(bytes).equals(readFileSync(join(whole.folder, "out", path))), path);
  // the season's page leads to a departure's, and its list is searched
  await sheet.locator("#_words").fill("strand");
  await sheet.getByText("1 of 2 departures").waitFor();
  await page.getByLabel("Paper", { exact: true }).nth(-1).selectOption("strand-01/index.html");
  await sheet.getByRole("heading", { level: 1 }).waitFor();
  // nothing is made again that did not change
  await page.getByRole("button", { name: "Make 2 packets" }).click();
  await page.getByText("The season's papers are made.").waitFor({ timeout: 60_000 });
  // papers of a table that changed say so
  assert.equal(await page.getByText("Older than the table").count(), 0);
  await page.locator("#season-text").fill(TABLE.replace("8,2,14", "7,2,14"));
  await page.getByText("Older than the table").waitFor();
  await page.locator("#season-text").fill(TABLE);
  await page.getByText("Older than the table").waitFor({ state: "detached", timeout: 60_000 });
  await page.reload();
  await page.getByText("Every row is right").waitFor({ timeout: 60_000 });
  assert.equal((await saved(page, "Save the table to a file")).bytes.toString(), TABLE);
  await close(page);
});

test("the shelf is shared out over the season, and the packets take what each is given, with the native program's bytes", async () => {
  const rooted = (run) => readFileSync(join(run.folder, "shelf.csv"));
  const received = native(["shelf", "receive", "--size", "canister 230 g", "--count", "6", "--tare", "150 g", "--connection", "thread", "--gas", "propane 30, isobutane 70", "--at", "2027-05-01T08:00"]);
  const weighed = native(["shelf", "weigh", "F-001=300 g", "F-002=260 g", "--at", "2027-05-02T08:00"], { "shelf.csv": rooted(received) });
  const ledger = rooted(weighed);
  const table = TABLE.replace("sands-09,../trips/lantern-sands,26/06/2027,9,3,16", "strand-02,../trips/gull-strand,26/06/2027,5,2,16").replace('"Upstream 6, Downstream 6"', '"Skerry 3, Kelp 4"').replace("cancelled", "");
  const files = { "seasons/june.csv": table, "shelf.csv": ledger, "trips/quillback-ridge.yaml": trip("quillback-ridge"), "trips/gull-strand.yaml": trip("gull-strand") };
  const shared = native(["shelf", "assign", "--season", "seasons/june.csv", "--floor", "20 g"], files);
  assert.equal(shared.status, 0, shared.err);
  const assigned = readFileSync(join(shared.folder, "assigned.csv"));
  const whole = native(["season", "seasons/june.csv", "--assigned", "assigned.csv", "--out", "out"], { ...files, "assigned.csv": assigned });
  assert.equal(whole.status, 0, whole.err);

  const page = await open({ at: "season" });
  await give(page, "june.csv", table);
  await page.getByText("There is no shelf here").waitFor();
  await page.evaluate(() => { location.hash = "shelf"; });
  await page.locator("#open-shelf").setInputFiles({ name: "shelf.csv", mimeType: "text/csv", buffer: ledger });
  await page.getByRole("heading", { level: 2, name: "6 canisters" }).waitFor();
  await page.evaluate(() => { location.hash = "season"; });
  await page.getByText("Every row is right").waitFor({ timeout: 60_000 });
  // what the program refuses is said in its words
  await page.getByText("Rules of the house").click();
  await page.getByLabel("Least fuel that goes along").fill("20 pots");
  await page.getByRole("button", { name: "Share the canisters out" }).click();
  await page.getByRole("alert").getByText("20 pots").waitFor({ timeout: 60_000 });
  await page.getByLabel("Least fuel that goes along").fill("20 g");
  await page.getByRole("button", { name: "Share the canisters out" }).click();
  await page.getByText(shared.out.split("\n")[0]).waitFor({ timeout: 120_000 });
  await page.getByText("Who gets which", { exact: true }).click();
  await axe(page, "season with its canisters");
  await noSideScroll(page, "season with its canisters");
  await shot(page, "season-canisters");
  assert.equal((await saved(page, "Save who gets which")).bytes.toString(), assigned.toString());
  await page.getByRole("button", { name: "Make 3 packets" }).click();
  await page.getByText("The season's papers are made.").waitFor({ timeout: 240_000 });
  const zipped = unzip((await saved(page, "Save all as a zip file")).bytes);
  assert.deepEqual(Object.keys(zipped).map((path) => `out/${path}`).sort(), Object.keys(whole.files).sort());
  for (const [path, bytes] of Object.entries(zipped)) assert.ok(Buffer.from(bytes).equals(readFileSync(join(whole.folder, "out", path))), path);
  // it is still there after the page was closed, says when it is old, and can be laid aside
  await page.reload();
  await page.getByText("Every row is right").waitFor({ timeout: 60_000 });
  assert.equal(await page.getByText("Older than table or shelf").count(), 0);
  await page.getByText("The table as text").click();
  await page.locator("#season-text").fill(table.replace("8,2,14", "7,2,14"));
  await page.getByText("Older than table or shelf").waitFor();
  await page.getByRole("button", { name: "Make the packets without the shelf" }).click();
  await page.getByText("Older than table or shelf").waitFor({ state: "detached" });
  await page.locator("#open-assigned").setInputFiles({ name: "june.csv", mimeType: "text/csv", buffer: Buffer.from(table) });
  await page.getByText("That is no table of who gets which").waitFor();
  await page.locator("#open-assigned").setInputFiles({ name: "assigned.csv", mimeType: "text/csv", buffer: assigned });
  await page.getByRole("button", { name: "Save who gets which" }).waitFor();
  await close(page);
});

test("a table that is opened like any file goes where it is worked on", async () => {
  const page = await open();
  const give = (name, text) => page.locator("#open-file").setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
  await give("what.csv", "a,b\n1,2\n");
  await page.getByText("of no kind that is known here").waitFor();
  await give("our-shelf.csv", "id,time,who,tag,action\n");
  await page.getByRole("heading", { level: 1, name: "The shelf" }).waitFor();
  await page.evaluate(() => { location.hash = "start"; });
  await give("june.csv", TABLE);
  await page.getByRole("heading", { level: 1, name: "The season" }).waitFor();
  await page.getByRole("cell", { name: "ridge-01" }).waitFor();
  // what is written in a table is text, whatever it is
  await page.evaluate(() => { location.hash = "start"; });
  await give("evil.csv", `departure,base,start date,van\n"<img src=x onerror=window.hit=1>",../../../quillback-ridge,2027-06-04,"</script><script>window.hit=1</script>"\n`);
  await page.getByRole("cell", { name: "onerror" }).waitFor();
  await page.getByText("Every row is right").waitFor({ timeout: 60_000 });
  assert.equal(await page.evaluate(() => window.hit ?? document.querySelectorAll("main img, main script").length), 0);
  // opened again another day, it takes the place of the one that was kept
  await page.evaluate(() => { location.hash = "start"; });
  await page.reload();
  await page.waitForSelector("main[data-ready]");
  await give("july.csv", TABLE.replace("ridge-01", "ridge-77"));
  await page.getByRole("cell", { name: "ridge-77" }).waitFor();
  assert.equal(await page.getByText("Another tab has").count(), 0);
  await close(page);
});
