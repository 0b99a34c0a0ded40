// What the page knows, in one place: the work in hand, what the program says of
// it, and where the reader is. Views read it and call the actions below.
import { isSound, put, read, valueAt } from "./text/edit.js";
import * as store from "./keep/store.js";
import { decimals, t } from "./text/language.js";

/** Steps of undo that are kept. */
const STEPS = 200;
/** Changes to one field within this time are one step of undo. */
const ONE_STEP_MS = 1200;

export const state = {
  /** What is being waited for: "unpacking", "ready" or "failed". */
  program: "unpacking",
  why: "",
  work: null,
  /** What the program says of it: `says` holds each value's text by its id, as on the sheets. */
  live: { text: null, problems: [], warnings: [], plan: null, says: new Map(), said: "" },
  library: null,
  /** A folder that was opened, of which one trip is to be chosen: {name, trips, overlay}. */
  folder: null,
  packet: null,
  /** Commands that this program has. */
  commands: new Set(),
  /** What `make` can be asked for: {bundles, whole}. */
  ask: null,
  topics: [],
  settings: { units: "", ...store.settings() },
  /** What to tell the reader: {kind: "note" | "trouble", text}. */
  told: null,
};

const listeners = new Set();

export function listen(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function changed(part = {}) {
  Object.assign(state, part);
  for (const listener of listeners) listener();
}

export function tell(text, kind = "note") {
  changed({ told: text ? { kind, text } : null });
}

export function setting(part) {
  state.settings = { ...state.settings, ...part };
  store.keepSettings(state.settings);
  changed();
}

/** Starts on a text: a new one, an example, a file. `saved` is the text as it lies in a file. */
export function begin({ name, text, saved = null, id = store.newId(), turn, overlay = {}, stale = [] }) {
  const work = { id, name, text, saved, turn, overlay, stale, undo: [], redo: [], document: read(text), kept: null, when: 0 };
  changed({ work, packet: null, told: null, live: { ...state.live, text: null, problems: [], warnings: [], plan: null, says: new Map() } });
  keepNow();
}

/** Goes on with work that the browser kept. */
export function resume(work) {
  begin({ name: work.name, text: work.text, saved: work.saved, id: work.id, turn: work.turn, overlay: work.overlay ?? {}, stale: work.stale ?? [] });
}

/** Puts a value at a path of the text; undefined takes the key away. */
export function change(path, value) {
  const { work } = state;
  if (!work || !isSound(work.document)) return;
  let next;
  try {
    next = put(work.text, path, value);
  } catch (error) {
    tell(t("This could not be written into the text: {message}", { message: error.message }), "trouble");
    return;
  }
  rewrite(next, JSON.stringify(path));
}

/** Puts another text in the place of the work's; changes of one `field` in a row are one step of undo. */
export function rewrite(text, field = "") {
  if (!state.work || text === state.work.text) return;
  advance({ text, document: read(text) }, field);
}

/** The next state of the work, and a step of undo back to this one. */
function advance(part, field) {
  const { work } = state;
  const now = performance.now();
  const isSame = field !== "" && field === work.field && now - work.when < ONE_STEP_MS;
  const undo = isSame ? work.undo : [...work.undo.slice(1 - STEPS), past(work)];
  changed({ work: { ...work, ...part, undo, redo: [], field, when: now } });
  keepSoon();
}

function past({ text, overlay, stale }) {
  return { text, overlay, stale };
}

/** The text on other dates, and what is to be asked again: [[path, why]]. */
export function setStale(stale, text = state.work.text) {
  advance({ stale, text, document: read(text) }, "");
}

export function undo() {
  step("undo", "redo");
}

export function redo() {
  step("redo", "undo");
}

function step(from, to) {
  const { work } = state;
  const next = work?.[from].at(-1);
  if (next === undefined) return;
  const { text, overlay, stale } = next;
  if (overlay !== work.overlay) changed({ packet: null });
  changed({
    work: { ...work, text, overlay, stale, document: text === work.text ? work.document : read(text), field: "", [from]: work[from].slice(0, -1), [to]: [...work[to], past(work)] },
  });
  keepSoon();
}

/** The value at a path of the work's text. */
export function value(path) {
  return state.work ? valueAt(state.work.document, path) : undefined;
}

/** Lays another layer of one's own over the library; letters typed into one `field` are one step of undo. */
export function setOverlay(overlay, field = "") {
  advance({ overlay }, field);
  changed({ packet: null });
}

let waiting = 0;
function keepSoon() {
  clearTimeout(waiting);
  waiting = setTimeout(keepNow, 300);
}

/** Keeps the work in the browser's store, and says when it cannot. */
export function keepNow() {
  clearTimeout(waiting);
  const { work } = state;
  if (!work) return;
  const { id, name, text, saved, overlay, stale, turn } = work;
  const answer = store.keep(id, { name, text, saved, overlay, stale }, turn);
  if (answer.other) {
    const copy = store.newId();
    const again = store.keep(copy, { name, text, saved, overlay, stale }, undefined);
    changed({ work: { ...work, id: copy, turn: again.turn, kept: again.why ?? null } });
    tell(t("Another tab has changed this one too. What you have here goes on as a copy of its own; the other is under Start."), "trouble");
  } else if (answer.why) {
    if (work.kept !== answer.why) tell(answer.why, "trouble");
    changed({ work: { ...state.work, kept: answer.why } });
  } else {
    store.openHere(id);
    changed({ work: { ...state.work, turn: answer.turn, kept: null } });
  }
}

/** Whether closing the page now would lose something. */
export function wouldLose() {
  const { work } = state;
  return work !== null && work.text !== work.saved && work.kept !== null;
}

/** A value as the sheets say it, by its id; `otherwise` until the program has said it. */
export function said(id, otherwise) {
  const text = state.live.says.get(id);
  return text === undefined ? otherwise : decimals(text);
}

/** The units that numbers are shown in: the switch, else the trip's own. */
export function units() {
  if (state.settings.units) return state.settings.units;
  const own = value(["units"]);
  if (own === "us" || own === "metric") return own;
  const elevation = value(["camps", 0, "elevation"]) ?? value(["elevation"]) ?? "";
  return /\d\s*(ft|feet|foot|mi)\b/i.test(elevation) ? "us" : "metric";
}
