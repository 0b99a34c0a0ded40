// The built-in library as the program unpacks it: examples, places, stoves,
// menus, modules, schemas. Read once, from the program itself.
import { parse } from "yaml";
import { changed, state } from "./state.js";
import { parsed } from "./live.js";
import { decimals, language, readWords, t } from "./text/language.js";
import { spoken } from "./text/words.js";

/** Reads what the page draws forms and shelves of books from. */
export async function readLibrary(bench) {
  const [unpacked, trip, lesson, sheets] = await Promise.all([
    bench.run(["unpack", "built-in"]),
    bench.run(["schema", "trip"]),
    bench.run(["schema", "lesson"]),
    bench.run(["list", "sheets"]),
  ]);
  if (unpacked.status !== 0) throw new Error(unpacked.err);
  const decoder = new TextDecoder();
  const files = {};
  for (const [path, bytes] of Object.entries(unpacked.files)) {
    if (/\.(ya?ml|md|csv|ftl)$/.test(path)) files[path.replace(/^built-in\/(content\/)?/, "")] = decoder.decode(bytes);
  }
  changed({
    library: {
      files,
      schema: { trip: parsed(trip.out), lesson: parsed(lesson.out) },
      sheets: sheetsOf(sheets.out),
    },
  });
  nameLibrary(files);
}

/** What the library calls things, in the language that is spoken. */
export function nameLibrary(files) {
  readWords(files[`${language()}/words/words.ftl`] ?? "");
  changed({ library: { ...state.library, names: namesOf(files), modules: modules(files) } });
}

/** A file of the library with what the reader's language says laid over it. */
export function said(files, path) {
  const english = safe(files[path]);
  if (language() === "en") return english;
  const other = safe(files[`${language()}/${path}`]);
  if (!laid.has(other)) laid.set(other, over(english, other));
  return laid.get(other);
}

const laid = new WeakMap();

function over(below, above) {
  const isBlock = (one) => one !== null && typeof one === "object" && !Array.isArray(one);
  if (!isBlock(below) || !isBlock(above)) return above;
  return Object.fromEntries([...new Set([...Object.keys(below), ...Object.keys(above)])].map((key) => [key, key in above ? (key in below ? over(below[key], above[key]) : above[key]) : below[key]]));
}

/** What was parsed, by its text: the library's files do not change. */
const parsedFiles = new Map();

function safe(text = "") {
  if (!parsedFiles.has(text)) parsedFiles.set(text, parsedOnce(text));
  return parsedFiles.get(text);
}

function parsedOnce(text) {
  try {
    // yes and no stay words, as people write them
    return parse(text, { schema: "failsafe" }) ?? {};
  } catch {
    return {};
  }
}

function ids(files, folder) {
  return Object.keys(files).filter((path) => path.startsWith(folder) && path.endsWith(".yaml")).sort();
}

function idOf(path) {
  return path.split("/").at(-1).replace(/\.yaml$/, "");
}

function namesOf(files) {
  const named = (path) => Object.entries(said(files, path)).map(([id, one]) => [id.replace(/-/g, " "), one?.name ?? id.replace(/-/g, " ")]);
  const titled = (folder) => ids(files, folder).map((path) => {
    const one = said(files, path);
    return [idOf(path).replace(/-/g, " "), one.title ?? one.name ?? idOf(path)];
  });
  return {
    stoves: named("gear/stoves.yaml"),
    fuels: named("gear/fuels.yaml").filter(([id]) => !/^(propane|isobutane|n butane)$/.test(id)),
    canisters: named("gear/containers.yaml").filter(([id]) => id.startsWith("canister")),
    menus: named("menus.yaml"),
    places: titled("places/"),
    profiles: ids(files, "profiles/").map((path) => [idOf(path), safe(files[path]).name ?? idOf(path)]),
  };
}

function sheetsOf(text) {
  const rows = text.trim().split("\n").slice(1).map((line) => line.split(/\s{2,}/));
  return Object.fromEntries(rows.map(([name, folder, what]) => [name, { folder, what }]));
}

/** The examples that come with the program: [{name, title, text, kind}]. */
export function examples(files) {
  return ids(files, "trips/").map((path) => {
    const one = safe(files[path]);
    return { name: path.split("/").at(-1), title: one.title ?? idOf(path), text: files[path], kind: one.kind === "lesson" ? "lesson" : "trip" };
  });
}

/** The modules in reading order: [{id, title, summary, module}]. */
export function modules(files) {
  return ids(files, "modules/").map((path) => {
    const module = said(files, path);
    return { id: idOf(path), title: module.title ?? idOf(path), summary: module.summary ?? "", order: Number(module.order ?? 0), module };
  }).sort((a, b) => a.order - b.order);
}

export function places(files) {
  return ids(files, "places/").map((path) => ({ id: idOf(path), ...said(files, path) }));
}

/** A container as the reader's language calls it. */
export function containerName(id) {
  const named = state.library && language() !== "en" ? said(state.library.files, "gear/containers.yaml") : {};
  return named[id]?.name ?? spoken(id);
}

/** An objective as the reader's language says it. */
export function objectiveName(id) {
  const [module, name] = id.split(".");
  const found = language() === "en" ? undefined : state.library?.modules.find((one) => one.id === module);
  return found?.module.objectives?.[name]?.say ?? spoken(id.replace(".", ": "));
}

/** A place as the reader's language calls it. */
export function placeName(id) {
  return (state.library && said(state.library.files, `places/${id}.yaml`).title) ?? spoken(id);
}

/**
 * What a rule says, in the reader's language, where the place's own words hold as
 * they stand; null where the trip or a number decides.
 */
export function ruleSaid(place, rule, value) {
  const files = state.library?.files ?? {};
  const path = `places/${place}.yaml`;
  const at = (from) => rule.split(".").reduce((inside, key) => inside?.[key], from.rules)?.text;
  const english = at(safe(files[path]));
  const isSame = english && english.toLowerCase() === String(value).toLowerCase();
  return isSame ? at(said(files, path)) ?? null : null;
}

/**
 * A caution of the plan in the reader's language. Its numbers are those of this
 * trip: they are read off the program's English by the library's, and stand in
 * the other sentence. Null where the two do not fit.
 */
export function cautionSaid({ module, id, text }) {
  if (language() === "en" || !state.library) return text;
  const { files } = state.library;
  const path = `modules/${module}.yaml`;
  const english = safe(files[path]);
  const other = said(files, path);
  const pattern = sentence(english.cautions?.[id]);
  const wanted = sentence(other.cautions?.[id]);
  if (!pattern || !wanted || wanted === pattern) return null;
  const names = [];
  const source = pattern.split(/\{([a-z0-9.-]+)\}/).map((part, at) => {
    if (at % 2 === 0) return part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    names.push(part);
    return "(.+?)";
  }).join("");
  const found = text.match(new RegExp(`^${source}$`));
  if (!found) return null;
  const values = new Map(names.map((name, at) => [name, found[at + 1]]));
  const valueOf = (name) => {
    const told = values.get(name);
    // a fact in words has its own in the other language, the library's or a place's; a number is the same
    return told && (textsOf(files).get(told.toLowerCase()) ?? amount(told));
  };
  let isWhole = true;
  const made = wanted.replace(/\{([a-z0-9.-]+)\}/g, (_, name) => valueOf(name) ?? ((isWhole = false), ""));
  return isWhole ? made : null;
}

/** A value of the program's in the reader's words: `3 days`; undefined where it is no number. */
function amount(text) {
  const known = { day: t("day"), days: t("days"), hour: t("hour"), hours: t("hours") };
  return /\d/.test(text) ? decimals(text).replace(/\b(days?|hours?)\b/g, (unit) => known[unit]) : undefined;
}

/** What facts and rules say in words, the English to the reader's. */
let texts = { of: null, in: "", found: null };

function textsOf(files) {
  if (texts.of !== files || texts.in !== language()) {
    texts = { of: files, in: language(), found: new Map() };
    for (const path of [...ids(files, "places/"), ...ids(files, "modules/")]) pairs(safe(files[path]), said(files, path));
  }
  return texts.found;
}

function pairs(english, other) {
  for (const [key, one] of Object.entries(english ?? {})) {
    if (key === "text" && typeof one === "string") texts.found.set(one.toLowerCase(), other?.text);
    else if (one !== null && typeof one === "object" && !Array.isArray(one)) pairs(one, other?.[key]);
  }
}

/** The sentences of a caution, as the program says them one after the other. */
export function sentence(caution) {
  if (!caution) return "";
  const { hazard, consequence, avoid, respond } = caution;
  const all = [`${hazard}: ${consequence}`, avoid, respond].filter(Boolean);
  return all.map((one) => (/[.!?]$/.test(one) ? one : `${one}.`)).join(" ");
}

export function sources(files) {
  return Object.entries(safe(files["sources.yaml"])).map(([code, one]) => ({ code, ...one }));
}
