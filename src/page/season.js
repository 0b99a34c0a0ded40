// A season's table and the packets of its departures, as the page knows them: a
// row is looked at and made in a run of its own, so that the reader sees how far
// it is and no run takes long. The season's papers are put together last.
import { examples } from "./library.js";
import { inputs, parsed } from "./live.js";
import * as store from "./keep/store.js";
import { state, units } from "./state.js";
import { alone, columnOf, isOff, readTable } from "./text/table.js";
import { later, t } from "./text/language.js";

const ID = "season";
/** A departure's check or packet takes a second; a slow phone has a minute for it. */
const LIMIT = 60_000;
/** The ledger of canisters and the table of who gets which, in the folder of a run. */
const LEDGER = "shelf/shelf.csv";
const ASSIGNED = "shelf/assigned.csv";

/** What this page knows of the season; views listen to `state` as for all else. */
export const season = { name: "season.csv", text: "", saved: null, turn: undefined, dates: "", base: "", own: {}, assigned: null, rows: new Map(), made: {}, made_of: new Map(), busy: null };

/** Goes on with the table that the browser kept. */
export function kept() {
  const there = season.text ? null : store.work(ID);
  if (there) Object.assign(season, { name: there.name, text: there.text, saved: there.saved ?? null, turn: there.turn, own: there.own ?? {}, dates: there.dates ?? "", base: there.base ?? "", assigned: there.assigned ?? null });
}

/** Starts on a table that was opened; answers why it is not kept, or null. */
export function openSeason(name, text) {
  // the table that was kept before makes way for it
  Object.assign(season, { turn: store.work(ID)?.turn, name: name.replace(/\.\w+$/, ".csv"), text, saved: text, assigned: null, made: {}, made_of: new Map() });
  return keep();
}

/** Keeps the table; answers why not, or null. */
export function keep() {
  const { name, text, saved, own, dates, base, assigned } = season;
  const answer = store.keep(ID, { name, text, saved, own, dates, base, assigned }, season.turn);
  if (answer.other) return t("Another tab has another table of a season. This one is not kept in the browser: save it to a file.");
  season.turn = answer.turn ?? season.turn;
  return answer.why ?? null;
}

/** The departures as written: {number, name, base, cells, off}. */
export function departures() {
  return written(season.text);
}

const written = remembered((text) => {
  const { rows } = readTable(text);
  if (rows.length === 0) return { heads: [], rows: [] };
  const heads = rows[0].cells;
  const [name, base, status] = ["departure", "base", "status"].map((meaning) => columnOf(heads, meaning));
  return {
    heads,
    rows: rows.slice(1).map(({ number, cells }) => ({ number, cells, name: cells[name] ?? "", base: cells[base] ?? "", off: isOff(cells[status]) })),
  };
});

/** A short word for a long text: equal texts have equal ones. */
const numbers = new Map();
function short(text) {
  if (!numbers.has(text)) numbers.set(text, numbers.size);
  return numbers.get(text);
}

/** The last part of a trip file's name, as the program compares it: `Gull Strand` is gull-strand. */
const stem = (path) => path.split(/[\\/]/).at(-1).replace(/\.ya?ml$/i, "").toLowerCase().replace(/[\s_-]+/g, "-");

/** Remembers what a job gave for the same inputs last. */
function remembered(job) {
  let last = null;
  return (...inputs) => {
    if (!last || inputs.some((one, at) => one !== last.inputs[at])) last = { inputs, result: job(...inputs) };
    return last.result;
  };
}

/** Trip files that a row can stand on, by the last part of their name. */
export function tripFiles() {
  return tripsByName(state.library, state.work?.name, state.work?.text, season.own);
}

const tripsByName = remembered(() => {
  const found = new Map();
  for (const one of state.library ? examples(state.library.files) : []) found.set(stem(one.name), { text: one.text, from: later("an example of this file") });
  for (const one of store.works().reverse()) found.set(stem(one.name), { text: one.text, from: later("kept in this browser") });
  if (state.work) found.set(stem(state.work.name), { text: state.work.text, from: later("in hand") });
  for (const [name, text] of Object.entries(season.own)) found.set(stem(name), { text, from: later("opened here") });
  return found;
});

/** The trip files that the table names, each with where it is from, or null where there is none. */
export function bases() {
  const there = tripFiles();
  const named = new Set(departures().rows.filter((row) => !row.off).map((row) => row.base || season.base).filter(Boolean));
  return [...named].sort().map((base) => [base, there.get(stem(base)) ?? null]);
}

/** The folder of a run: the table as deep as its rows' way up asks for, the trips where they are looked for. */
function folder(text) {
  const up = Math.max(0, ...bases().map(([base]) => base.split(/[\\/]/).filter((part) => part === "..").length));
  const here = Array.from({ length: up }, (_, at) => `level-${at + 1}`);
  const files = {};
  for (const [base, found] of bases()) {
    if (!found) continue;
    const at = [...here];
    for (const part of base.replace(/\\/g, "/").split("/")) {
      if (part === "..") at.pop();
      else if (part !== ".") at.push(part);
    }
    const path = at.join("/");
    files[/\.\w+$/.test(path) ? path : `${path}.yaml`] = found.text;
  }
  const table = [...here, season.name].join("/");
  files[table] = text;
  const layer = state.work ? inputs(state.work) : { files: {}, flags: [] };
  for (const [path, content] of Object.entries(layer.files)) if (path.startsWith("ours/")) files[path] = content;
  if (season.assigned) files[ASSIGNED] = season.assigned.text;
  const base = season.base ? ["--base", Object.keys(files).find((path) => stem(path) === stem(season.base)) ?? season.base] : [];
  return { table, files, flags: [...layer.flags, ...base, ...(season.dates ? ["--dates", season.dates] : [])], given: season.assigned ? ["--assigned", ASSIGNED] : [] };
}

/** What a row's result depends on. */
function markOf(row) {
  const found = tripFiles().get(stem(row.base || season.base));
  return JSON.stringify([season.name, departures().heads, row.cells, found && short(found.text), short(JSON.stringify(state.work?.overlay ?? {})), season.dates, season.base, units(), state.settings.paper]);
}

/** What a row's packet depends on: its result, and the canisters that it is given. */
function packetMarkOf(row) {
  return JSON.stringify([markOf(row), season.assigned && givenTo(row.name).map((given) => given.cells)]);
}

/** Who gets which, as it was written: {number, cells}. */
export function given() {
  return season.assigned ? givenRows(season.assigned.text) : { heads: [], rows: [] };
}

const givenRows = remembered((text) => {
  const [heads, ...rows] = readTable(text).rows;
  return { heads: heads?.cells ?? [], rows };
});

function givenTo(name) {
  const { heads, rows } = given();
  const at = heads.indexOf("departure");
  return rows.filter((row) => row.cells[at] === name);
}

/** The ledger of canisters that the browser keeps; empty where it keeps none. */
export function ledger() {
  return store.work("shelf")?.text ?? "";
}

/** A short word for what canisters are shared out by, the same on another day. */
function sharedBy() {
  const texts = [season.text, ledger(), season.dates, season.base, ...bases().map(([, found]) => found?.text), JSON.stringify(state.work?.overlay ?? {})];
  let sum = 0x811c9dc5;
  for (const letter of JSON.stringify(texts)) sum = Math.imul(sum ^ letter.codePointAt(0), 0x01000193) >>> 0;
  return sum.toString(16);
}

/** Whether the canisters were shared out for table and shelf as they are now. */
export function isSharedNow() {
  return season.assigned?.of === sharedBy();
}

/** Takes a table of who gets which that was saved before; answers why not, or null. */
export function openAssigned(text) {
  if (!["departure", "leaves", "back", "tag"].every((head) => readTable(text).rows[0]?.cells.includes(head))) return t("That is no table of who gets which: open the one that was saved here, or that `leeside shelf assign` wrote.");
  season.assigned = { text, of: null, said: "" };
  return keep();
}

/** Shares the shelf out over the departures; answers {why}, or {looks} where rows are told. */
export async function share(bench, rules) {
  const { table, files, flags } = folder(season.text);
  files[LEDGER] = ledger();
  const of = sharedBy();
  const args = ["shelf", "assign", "--season", table, "--shelf", LEDGER, "--out", ASSIGNED, ...rules, ...flags];
  const run = await bench.run(args, files, { limit: 10 * LIMIT });
  if (!run.files[ASSIGNED]) return { why: run.err.trim() || t("the program gave no answer") };
  season.assigned = { text: new TextDecoder().decode(run.files[ASSIGNED]), of, said: run.out.trim() };
  const looks = run.err.replace(/^wrote .*\n?/m, "").trim();
  return { why: keep(), looks };
}

/** What was found in a row: {problems, warnings}, or undefined while it was not looked at. */
export function foundIn(row) {
  const found = season.rows.get(row.number);
  return found?.mark === markOf(row) ? found : undefined;
}

/** Looks at every row that changed; `step(done, of)` is called after each and ends it by answering false. */
export async function look(bench, step) {
  const going = departures().rows.filter((row) => !row.off);
  const todo = going.filter((row) => !foundIn(row));
  let done = 0;
  for (const row of todo) {
    const { table, files, flags } = folder(alone(season.text, row.number));
    const told = await bench.run(["check", "--json", table, ...flags], files, { limit: LIMIT });
    const found = parsed(told.out) ?? { problems: [{ message: told.err.trim() || t("the program gave no answer") }], warnings: [] };
    const ofRow = (one) => rowOf(one) === row.number;
    const whole = found.problems.filter((one) => rowOf(one) === null);
    season.rows.set(row.number, { mark: markOf(row), problems: found.problems.filter(ofRow), warnings: found.warnings.filter(ofRow), whole });
    done += 1;
    // what is wrong with the table as a whole is the same for each row
    if (step(done, todo.length) === false || whole.length > 0) return;
  }
}

/** The row that a problem speaks of, in whatever language it speaks; null where it is the table as a whole. */
function rowOf({ message }) {
  const row = message.match(/^\p{L}+ `.*?`, \p{L}+ (\d+)|^\p{L}+ (\d+), column/u);
  return row ? Number(row[1] ?? row[2]) : null;
}

/** What is wrong with the table as a whole: its form, its headings, the order of its days. */
export function wholeProblems() {
  for (const row of departures().rows) {
    const whole = row.off ? [] : foundIn(row)?.whole ?? [];
    if (whole.length) return whole;
  }
  return [];
}

/** Makes the packets of the departures that have nothing wrong, then the season's papers; answers the last words said. */
export async function make(bench, step) {
  const good = departures().rows.filter((row) => !row.off && foundIn(row)?.problems.length === 0 && foundIn(row).whole.length === 0);
  const asked = ["--out", "out", ...(state.settings.units ? ["--units", state.settings.units] : []), ...(state.settings.paper ? ["--paper", state.settings.paper] : [])];
  let done = 0;
  const old = season.made_of;
  season.made_of = new Map();
  const packets = {};
  for (const row of good) {
    const mark = packetMarkOf(row);
    const there = [...old.values()].find((one) => one.mark === mark);
    if (there) {
      season.made_of.set(row.number, there);
    } else {
      const { table, files, flags, given } = folder(alone(season.text, row.number));
      const run = await bench.run(["season", table, "--slice", "1/1", ...asked, ...flags, ...given], files, { limit: LIMIT });
      if (Object.keys(run.files).length === 0) return run.err.trim();
      season.made_of.set(row.number, { mark, files: run.files });
    }
    Object.assign(packets, season.made_of.get(row.number).files);
    done += 1;
    if (step(done, good.length) === false) return null;
  }
  const { table, files, flags, given } = folder(season.text);
  const needed = Object.fromEntries(Object.entries(packets).filter(([path]) => /(\/manifest\.json|\.pdf)$/.test(path)));
  const joined = await bench.run(["season", "join", table, ...asked, ...flags, ...given], { ...files, ...needed }, { limit: 10 * LIMIT });
  if (joined.status === 2 || !joined.files["out/season/index.html"]) return joined.err.trim();
  season.made = Object.fromEntries(Object.entries({ ...packets, ...joined.files }).map(([path, bytes]) => [path.replace(/^out\//, ""), bytes]));
  return null;
}

/** Whether what was made is of the table as it is now. */
export function isCurrent() {
  const going = departures().rows.filter((row) => !row.off && foundIn(row)?.problems.length === 0);
  return going.length === season.made_of.size && going.every((row) => season.made_of.get(row.number)?.mark === packetMarkOf(row));
}
