// Last year's trip on other dates: days moved together, and what was told for
// the other dates named, to be asked again. The text of what is stale stays.
import { put, read, valueAt } from "./edit.js";
import { pathText } from "./words.js";
import { later } from "./language.js";

const DAY_MS = 86_400_000;

/** What is told, weighed or expected for certain days, and why it must be asked again. */
const ASKED = [
  [["restrictions"], later("rules on fire and stoves change through a season: ask the land manager")],
  [["people"], later("other people come: how many, how young, what they may not eat")],
  [["emergency"], later("numbers and the way to help may be others")],
  [["canisters_on_hand"], later("they were used since: weigh them again")],
  [["prices"], later("prices of the other year")],
];
const ASKED_OF_CAMP = [
  ["rules", later("told by the land manager for the other dates")],
  ["pressure", later("a barometer's reading holds for its day")],
  ["day", later("air of the other dates")],
  ["night", later("air of the other dates")],
  ["water", later("water of the other dates")],
  ["water_from", later("snow or stream: another year, another week")],
];

/** The first day that a text names: the trip's, or its first session's; "" for none. */
export function firstDay(text) {
  const document = read(text);
  const sessions = valueAt(document, ["course", "sessions"]);
  const all = [valueAt(document, ["starts"]), ...(Array.isArray(sessions) ? sessions.map((one) => one?.date) : [])];
  return all.filter((day) => isDay(day)).sort()[0] ?? "";
}

function isDay(text) {
  return /^\d{4}-\d{2}-\d{2}$/.test(text ?? "") && Number.isFinite(Date.parse(text));
}

/** The text with every day of its own moved so that the first one is `date`. */
export function moved(text, date) {
  const from = firstDay(text);
  if (!from || !isDay(date)) return text;
  const by = Math.round((Date.parse(date) - Date.parse(from)) / DAY_MS);
  const later = (day) => new Date(Date.parse(day) + by * DAY_MS).toISOString().slice(0, 10);
  const document = read(text);
  let next = text;
  const shift = (path) => {
    const day = valueAt(document, path);
    if (isDay(day)) next = put(next, path, later(day));
  };
  shift(["starts"]);
  const sessions = valueAt(document, ["course", "sessions"]);
  if (Array.isArray(sessions)) sessions.forEach((_, at) => shift(["course", "sessions", at, "date"]));
  return next;
}

/** What must be asked again once the days are moved: [[path as text, why]]. */
export function stale(text) {
  const document = read(text);
  const found = ASKED.filter(([path]) => valueAt(document, path) !== undefined).map(([path, why]) => [pathText(path), why]);
  const camps = valueAt(document, ["camps"]);
  const places = Array.isArray(camps) ? camps.map((_, at) => ["camps", at]) : [[]];
  for (const place of places) {
    for (const [key, why] of ASKED_OF_CAMP) {
      if (valueAt(document, [...place, key]) !== undefined) found.push([pathText([...place, key]), why]);
    }
  }
  return found;
}

/** Rules of these places that were read too long before a day, from the program's own list. */
export function oldRules(said, places) {
  const found = new Map();
  for (const line of said.split("\n")) {
    const [, kind, what, when] = line.split("\t");
    const [place, ...rule] = (what ?? "").split(" ");
    if (kind === "place" && places.includes(place)) found.set(place, [...(found.get(place) ?? []), { rule: rule.join(" "), when }]);
  }
  return found;
}
