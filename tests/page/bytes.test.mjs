// What the page makes is what the native program makes, byte by byte.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { ROOT, close, native, open, run, shut } from "./open.mjs";

const TRIPS = join(ROOT, "content/trips");
const DEMO = "quillback-ridge.yaml";

after(shut);

/** Files that are not in both, or not the same in both. */
function unlike(here, there) {
  return [...new Set([...Object.keys(here), ...Object.keys(there)])].filter((path) => here[path] !== there[path]).sort();
}

test("the packet of every example, in every format, is the same to the byte", async () => {
  const page = await open();
  for (const name of readdirSync(TRIPS)) {
    const files = { [name]: readFileSync(join(TRIPS, name)) };
    const args = ["make", name, "--format", "pdf,html,md,docx"];
    const here = await run(page, args, files, { limit: 300_000 });
    const there = native(args, files);
    assert.equal(here.status, 0, here.err);
    assert.ok(Object.keys(here.files).length > 30);
    assert.deepEqual(unlike(here.files, there.files), [], name);
    assert.equal(here.err, there.err, name);
  }
  await close(page);
});

test("every command says the same, and ends with the same status", async () => {
  const page = await open();
  const files = Object.fromEntries(readdirSync(TRIPS).map((name) => [name, readFileSync(join(TRIPS, name))]));
  const trial = readdirSync(join(ROOT, "content/trials"))[0];
  files[trial] = readFileSync(join(ROOT, "content/trials", trial));
  files["ours/content/modules/greywater.yaml"] = Buffer.from("extends: greywater\ntitle: Ours\n");
  const commands = [
    ["--help"], ["make", "--help"], ["nonsense"], ["--version"],
    ...readdirSync(TRIPS).flatMap((name) => [["check", "--json", name], ["plan", name], ["plan", "--json", name], ["plan", "--steps", name]]),
    ["check"], ["check", "--json", "ours"], ["check", "missing.yaml"], ["check", "--content", "ours"],
    ["list", "modules"], ["list", "modules", "--for", DEMO], ["list", "modules", "--coverage"], ["list", "modules", "--reading"],
    ["list", "sheets"], ["list", "gear"], ["list", "fuels"], ["list", "places"], ["list", "sources"], ["list", "topics"],
    ["schema", "trip"], ["schema", "lesson"], ["schema", "module"], ["new"], ["new", "made.yaml"], ["unpack", "all"],
    ["trial", trial, "--json"],
    ["practice", "--topic", "fuel", "--count", "6", "--seed", "7"],
    ["boil", "--water", "1L", "--from", "5C", "--elevation", "2400m", "--fuel", "white-gas", "--efficiency", "45%", "--json"],
    ["make", DEMO, "--sheet", "kitchen-checklist", "--units", "metric", "--paper", "a4", "--large-print"],
    ["make", DEMO, "--content", "ours", "--format", "md"],
    ["make", DEMO, "boathouse-evening.yaml", "--format", "md"],
    ["make", DEMO, "--sheet", "no-such-sheet"],
  ];
  for (const args of commands) {
    const here = await run(page, args, files, { limit: 120_000 });
    const { folder, ...there } = native(args, files);
    // a folder of the machine in a message is the one thing that may differ
    const plain = (text) => text.replaceAll(`${folder}/`, "");
    assert.deepEqual(unlike(here.files, there.files), [], args.join(" "));
    assert.equal(here.out, plain(there.out), args.join(" "));
    assert.equal(here.err, plain(there.err), args.join(" "));
    assert.equal(here.status, there.status, args.join(" "));
  }
  await close(page);
});
