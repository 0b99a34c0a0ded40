// Binds program and page into one HTML file: `node bind.mjs PROGRAM.wasm OUT.html`.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { toLetters } from "./program/pairs.js";
import { run } from "./program/run.js";

const here = dirname(fileURLToPath(import.meta.url));
const [wasm, out] = process.argv.slice(2);

const common = {
  bundle: true, minify: true, write: false, charset: "ascii", target: ["chrome115", "firefox118", "safari16.4"], legalComments: "none",
};

/** The largest that mails, sticks and phones take without a thought. */
const MOST = 5_000_000;

/** Modules that are handed on as text: a bundled worker, a script for the sheets' frame. */
const texts = {
  name: "texts",
  setup(build) {
    build.onResolve({ filter: /^worker:|\?text$/ }, ({ path, resolveDir }) => ({
      path: join(resolveDir, path.replace(/^worker:|\?text$/g, "")), namespace: "text",
    }));
    build.onLoad({ filter: /.*/, namespace: "text" }, async ({ path }) => ({ contents: await script(path, "iife"), loader: "text" }));
  },
};

async function script(entry, format) {
  const made = await build({ ...common, entryPoints: [entry], format, jsx: "automatic", jsxImportSource: "preact", plugins: [texts] });
  // nothing in a script may end the element that it stands in
  return made.outputFiles[0].text.trim().replace(/<\/script/gi, "<\\/script").replace(/<!--/g, "<\\!--");
}

function digest(text) {
  return `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
}

/** The page's languages: its catalogues, and English, which needs none. */
const LANGUAGES = ["en", ...readdirSync(join(here, "words")).map((name) => name.replace(".json", ""))];

/** The digests of the scripts that the program's own sheets carry, as their pages name them. */
async function sheetScripts(program, trip) {
  const runs = [];
  // what a sheet says by itself stands in its script, so that each language has scripts of its own
  for (const language of LANGUAGES) {
    const files = { "trip.yaml": `language: ${language}\n${trip}` };
    runs.push(await run(program, ["make", "trip.yaml", "--format", "html"], files));
    runs.push(await run(program, ["season", "join", "season.csv", "--base", "trip.yaml"], { ...files, "season.csv": "departure\none\n" }));
  }
  for (const { status, err } of runs) if (status !== 0) throw new Error(`the example cannot be made:\n${err}`);
  const found = new Set();
  for (const bytes of runs.flatMap(({ files }) => Object.values(files))) {
    const policy = new TextDecoder().decode(bytes).match(/script-src ([^;"]*)/)?.[1] ?? "";
    for (const [one] of policy.matchAll(/'sha256-[^']+'/g)) found.add(one);
  }
  return [...found].sort();
}

const bytes = readFileSync(wasm);
const program = await WebAssembly.compile(bytes);
const trip = readFileSync(join(here, "../../content/trips/quillback-ridge.yaml"), "utf8");
const main = await script(join(here, "main.jsx"), "esm");
const frame = await script(join(here, "views/sheet-frame.js"), "iife");
const style = (await build({ ...common, entryPoints: [join(here, "style.css")] })).outputFiles[0].text.trim();

// Sheets stand in frames that inherit this policy: their own scripts are named
// by digest, and their styles (which differ by paper and size) are let in.
const policy = [
  "default-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  `script-src 'wasm-unsafe-eval' ${[digest(main), digest(frame), ...(await sheetScripts(program, trip))].join(" ")}`,
  "style-src 'unsafe-inline'",
  "worker-src blob:",
  "img-src data:",
].join("; ");

// a third smaller than gzip
const packed = execFileSync("xz", ["-9e", "--check=crc32", "--stdout", wasm], { maxBuffer: 1 << 28 });
const parts = { policy, style, script: main, program: toLetters(packed), length: packed.length };
const page = readFileSync(join(here, "shell.html"), "utf8").replace(/\{\{(\w+)\}\}/g, (_, name) => parts[name]);
writeFileSync(out, page);
const size = Buffer.byteLength(page);
if (size >= MOST) throw new Error(`${out} has ${size} bytes; it must stay below ${MOST}`);
const mb = (size) => `${(size / 1e6).toFixed(2)} MB`;
console.log(`${out}: ${mb(size)} (program ${mb(bytes.length)}, packed ${mb(parts.program.length)}, page ${mb(main.length + style.length)})`);
