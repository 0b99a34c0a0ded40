// The built-in library as the program unpacks it: examples, places, stoves,
// menus, modules, schemas. Read once, from the program itself.
import { parse } from "yaml";
import { changed, state } from "./state.js";
import { parsed } from "./live.js";

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
    if (/\.(ya?ml|md|csv)$/.test(path)) files[path.replace(/^built-in\/(content\/)?/, "")] = decoder.decode(bytes);
  }
  changed({
    library: {
      files,
      schema: { trip: parsed(trip.out), lesson: parsed(lesson.out) },
      names: namesOf(files),
      sheets: sheetsOf(sheets.out),
    },
  });
  return state.library;
}

function safe(text) {
  try {
    // yes and no stay words, as people write them
    return parse(text ?? "", { schema: "failsafe" }) ?? {};
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
  const named = (path) => Object.entries(safe(files[path])).map(([id, one]) => [id.replace(/-/g, " "), one?.name ?? id.replace(/-/g, " ")]);
  const titled = (folder) => ids(files, folder).map((path) => {
    const one = safe(files[path]);
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
    const module = safe(files[path]);
    return { id: idOf(path), title: module.title ?? idOf(path), summary: module.summary ?? "", order: Number(module.order ?? 0), module };
  }).sort((a, b) => a.order - b.order);
}

export function places(files) {
  return ids(files, "places/").map((path) => ({ id: idOf(path), ...safe(files[path]) }));
}

export function sources(files) {
  return Object.entries(safe(files["sources.yaml"])).map(([code, one]) => ({ code, ...one }));
}
