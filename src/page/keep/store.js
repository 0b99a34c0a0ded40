// The browser's own store: a convenience that may be missing, full, shared with
// other pages from a disk, or emptied. What must last is saved to a file.
import { t } from "../text/language.js";

const PREFIX = "leeside/piece/";
const SETTINGS = "leeside/settings";
const MARKS = "leeside/marks/";

function store() {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

function readJson(key) {
  try {
    const value = JSON.parse(store()?.getItem(key) ?? "null");
    return value !== null && typeof value === "object" ? value : null;
  } catch {
    return null;
  }
}

/** Why nothing can be kept here, or null. */
export function whyNot() {
  try {
    const here = store();
    if (!here) return t("This browser gives this page no store.");
    here.setItem("leeside/try", "1");
    here.removeItem("leeside/try");
    return null;
  } catch (error) {
    return isFull(error) ? full() : t("This browser does not let this page keep anything.");
  }
}

const full = () => t("The browser's store is full. Save to a file; then take old work away under Start.");

function isFull(error) {
  return error?.name === "QuotaExceededError" || error?.name === "NS_ERROR_DOM_QUOTA_REACHED";
}

/** A new name for a piece of work in the store. */
export function newId() {
  return crypto.getRandomValues(new Uint32Array(2)).join("-");
}

/** All trips and lessons kept here, the newest first. */
export function works() {
  const here = store();
  const found = [];
  for (let at = 0; here && at < here.length; at += 1) {
    const key = here.key(at);
    if (!key.startsWith(PREFIX)) continue;
    const work = readJson(key);
    if (typeof work?.text === "string" && !work.name.endsWith(".csv")) found.push({ ...work, id: key.slice(PREFIX.length) });
  }
  return found.sort((a, b) => String(b.when).localeCompare(String(a.when)));
}

export function work(id) {
  const found = readJson(PREFIX + id);
  return typeof found?.text === "string" ? { ...found, id } : null;
}

/**
 * Keeps a piece of work. `turn` counts its writes: where the store holds
 * another turn than this page wrote last, another tab has written it.
 * Answers {turn} when kept, {other} with the other tab's work, {why} when not.
 */
export function keep(id, work, turn) {
  const here = store();
  if (!here) return { why: whyNot() };
  const there = readJson(PREFIX + id);
  if (there && there.turn !== turn && there.text !== work.text) return { other: there };
  const next = (there?.turn ?? 0) + 1;
  try {
    here.setItem(PREFIX + id, JSON.stringify({ ...work, turn: next, when: new Date().toISOString() }));
    return { turn: next };
  } catch (error) {
    return { why: isFull(error) ? full() : whyNot() };
  }
}

/** Remembers for this tab alone what it has open, so that loading it again goes on there. */
export function openHere(id) {
  try {
    window.sessionStorage.setItem("leeside/open", id);
  } catch {
    // then loading again starts at the start, where the work is listed
  }
}

/** What this tab had open before it was loaded again, or null. */
export function lastHere() {
  try {
    const id = window.sessionStorage.getItem("leeside/open");
    return id === null ? null : work(id);
  } catch {
    return null;
  }
}

export function forget(id) {
  store()?.removeItem(PREFIX + id);
}

export function settings() {
  return readJson(SETTINGS) ?? {};
}

export function keepSettings(value) {
  try {
    store()?.setItem(SETTINGS, JSON.stringify(value));
  } catch {
    // the page works on with what it has
  }
}

/** What was ticked and written on a sheet, as the sheet itself keeps it. */
export function marks(key) {
  return readJson(MARKS + key) ?? {};
}

/** Answers whether they are kept. */
export function keepMarks(key, value) {
  try {
    if (Object.keys(value).length) store()?.setItem(MARKS + key, JSON.stringify(value));
    else store()?.removeItem(MARKS + key);
    return store() !== null;
  } catch {
    return false;
  }
}

/** Calls back when another tab writes to a piece of work. */
export function watch(told) {
  window.addEventListener("storage", (event) => {
    if (event.key?.startsWith(PREFIX)) told(event.key.slice(PREFIX.length));
  });
}
