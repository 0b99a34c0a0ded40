// A change of one value changes nothing else in the text: held against the
// `yaml` package's own reading of the text before and after (YAML 1.2.2).
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { isSound, put, putBlock, read, scalar, valueAt } from "../../src/page/text/edit.js";
import { pathOf, pathText } from "../../src/page/text/words.js";
import { toBytes, toLetters } from "../../src/page/program/pairs.js";
import { unzip, zip } from "../../src/page/keep/zip.js";
import { ROOT } from "./open.mjs";

const TRIPS = join(ROOT, "content/trips");
const texts = readdirSync(TRIPS).map((name) => [name, readFileSync(join(TRIPS, name), "utf8")]);

function leaves(value, path = []) {
  if (typeof value === "string") return [path];
  return Object.entries(value).flatMap(([key, inside]) => leaves(inside, [...path, Array.isArray(value) ? Number(key) : key]));
}

/** The value without what lies at a path, empty holders gone too. */
function without(value, path) {
  const copy = structuredClone(value);
  for (const rest = [...path]; rest.length; rest.pop()) {
    const holder = rest.slice(0, -1).reduce((inside, key) => inside[key], copy);
    if (Array.isArray(holder)) holder.splice(rest.at(-1), 1);
    else delete holder[rest.at(-1)];
    if (Object.keys(holder).length) break;
  }
  return copy;
}

/** Comments of a text, in order. */
function comments(text) {
  return text.split("\n").map((line) => line.match(/(?:^|\s)(#.*)$/)?.[1]).filter(Boolean);
}

for (const [name, text] of texts) {
  for (const [kind, told] of [["", text], [" with Windows line ends", text.replace(/\n/g, "\r\n")]]) {
    test(`${name}${kind}: each value can be changed, put back and taken away`, () => {
      const all = valueAt(read(told), []);
      for (const path of leaves(all)) {
        const old = valueAt(read(told), path);
        const changed = put(told, path, "other: # words");
        assert.equal(valueAt(read(changed), path), "other: # words");
        assert.equal(put(changed, path, old), told, `${pathText(path)} is put back to the letter`);
        assert.equal(changed.split("\n").length, told.split("\n").length);
        assert.deepEqual(valueAt(read(put(told, path, undefined)), []), without(all, path), pathText(path));
      }
    });
  }
}

test("what is not there yet is added, comments and all else kept", () => {
  const more = [
    [["emergency", "call"], "555-0100"],
    [["course", "fallback", "minutes"], "45"],
    [["menu", "supper", "boil"], "1 L"],
    [["people", "diet"], ["milk", "wheat, strict"]],
    [["prices", "canister 230 g"], "8.50"],
  ];
  for (const [name, text] of texts) {
    for (const [path, value] of more) {
      const changed = put(text, path, value);
      assert.ok(isSound(read(changed)), `${name} ${pathText(path)}\n${changed}`);
      assert.deepEqual(valueAt(read(changed), path), value, `${name} ${pathText(path)}`);
      if (typeof valueAt(read(text), path.slice(0, 1)) !== "string") assert.deepEqual(comments(changed).sort(), comments(text).sort(), `${name} ${pathText(path)}`);
    }
    for (const list of ["camps", "canisters_on_hand", "stations"]) {
      const before = valueAt(read(text), [list]) ?? [];
      const changed = put(text, [list, before.length], { name: "One more", pots: ["aluminium 1 L"] });
      assert.deepEqual(valueAt(read(changed), [list]), [...before, { name: "One more", pots: ["aluminium 1 L"] }]);
    }
  }
});

test("whatever is written as a scalar reads back as it was", () => {
  const odd = ["", " ", "- x", "-5 C", "- ", "a: b", "a #b", "#", "yes", "null", "~", "[x", "{x", "'q'", '"q"', "|", "> x", "%", "@x", "`x`", "a\nb", "tab\there", "é 中 🏕", "\u2028", "\ufeff", "---", "...", "x:", ":x", "?x", "! x", "&a", "*a", "<script>", "a\\b", "12:30", "0x1f"];
  for (const value of odd) {
    for (const flow of [false, true]) {
      const text = flow ? `a: [${scalar(value, true)}, x]\n` : `a: ${scalar(value, false)}\n`;
      const back = valueAt(read(text), flow ? ["a", 0] : ["a"]);
      assert.equal(back, value, JSON.stringify(text));
    }
  }
});

test("a text of several lines is put as a block and reads back as it was", () => {
  for (const value of ["one\n", "one", "one\n\ntwo: x\n  - y\n", "  two spaces\nthen none\n", "ends with empty lines\n\n\n", "# no comment\n"]) {
    const text = putBlock("extends: greywater\ntext: old\ntitle: A # kept\n", "text", value);
    assert.equal(valueAt(read(text), ["text"]), value, JSON.stringify(text));
    assert.equal(valueAt(read(text), ["title"]), "A");
    assert.match(text, /# kept/);
    assert.equal(putBlock(text, "text", undefined), "extends: greywater\ntitle: A # kept\n");
  }
});

test("bytes come back from letters, whatever they are", () => {
  for (let length = 0; length < 60; length += 1) {
    const bytes = Uint8Array.from({ length }, (_, at) => (at * 167 + length * 31) % 256);
    const text = toLetters(bytes);
    assert.match(text, /^[!-;=-~]*$/);
    assert.deepEqual(toBytes(text).subarray(0, length), bytes);
    assert.ok(toBytes(text).subarray(length).every((byte) => byte === 0));
  }
});

test("paths are read as the program writes them", () => {
  for (const path of [["title"], ["camps", 0, "elevation"], ["kitchens", 11, "measured", "wind"]]) assert.deepEqual(pathOf(pathText(path)), path);
});

test("a zip file is one to Python's own reader too, and comes back", () => {
  const files = { "learners/a.md": Buffer.from("# é\n"), "staff/b.pdf": Buffer.alloc(70_000, 7), "empty.txt": Buffer.alloc(0) };
  const bytes = zip(files);
  const path = join(mkdtempSync(join(tmpdir(), "leeside-zip-")), "t.zip");
  writeFileSync(path, bytes);
  const script = "import sys,zipfile,json,hashlib\nz=zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None\nprint(json.dumps({n: len(z.read(n)) for n in z.namelist()}))";
  const seen = JSON.parse(execFileSync("python3", ["-c", script, path], { encoding: "utf8" }));
  assert.deepEqual(seen, { "empty.txt": 0, "learners/a.md": 5, "staff/b.pdf": 70_000 });
  assert.deepEqual(Object.fromEntries(Object.entries(unzip(bytes)).map(([name, content]) => [name, Buffer.from(content)])), files);
  assert.throws(() => unzip(Buffer.from("no zip file at all, but long enough to be looked at")), /no zip file/);
});
