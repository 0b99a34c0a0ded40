// A folder of the reader's disk, where the browser lets a page have one; what
// cannot be there goes as a zip file instead.
import { textOf } from "./files.js";
import { t } from "../text/language.js";

/** Whether this browser lets a page write into a folder that the reader names. */
export function canWrite() {
  return typeof window.showDirectoryPicker === "function";
}

/**
 * Asks for a folder, makes the files and writes them into it, by relative path.
 * The browser lets a page ask only while the press of a button is fresh, so that
 * it asks before `make` works. `make` answers {files} or {why}; the result is
 * {name} of the folder, {why} it could not be, or {} where the reader thought
 * better of it.
 */
export async function writeInto(make) {
  let folder;
  try {
    folder = await window.showDirectoryPicker({ mode: "readwrite", id: "leeside" });
  } catch (error) {
    return error.name === "AbortError" ? {} : { why: t("No folder could be opened: {message}", { message: error.message }) };
  }
  const { files, why } = await make();
  if (why) return { why };
  let written = 0;
  try {
    for (const [path, content] of Object.entries(files)) {
      await writeOne(folder, path.split("/"), content);
      written += 1;
    }
    return { name: folder.name };
  } catch (error) {
    return { why: t("Of {all} files {written} were written into {name}, then it ended: {message}. Save a zip file instead.", { all: Object.keys(files).length, written, name: folder.name, message: error.message }) };
  }
}

async function writeOne(folder, [step, ...rest], content) {
  if (rest.length > 0) return writeOne(await folder.getDirectoryHandle(step, { create: true }), rest, content);
  const file = await (await folder.getFileHandle(step, { create: true })).createWritable();
  await file.write(content);
  return file.close();
}

/** Where a path lies in a library of a group: `content/modules/x.yaml`, or null. */
export function inLibrary(path) {
  const inside = path.replace(/\\/g, "/").match(/(?:^|\/)((?:content|templates)\/.*)$/)?.[1];
  return inside && !inside.split("/").includes("..") && !inside.startsWith("content/trips/") ? inside : null;
}

/** What lies in a folder that was opened: {name, trips: [{name, text}], overlay, left: [why]}. */
export async function readFolder(files) {
  const found = { name: "", trips: [], overlay: {}, left: [] };
  for (const file of [...files].sort((a, b) => (a.webkitRelativePath < b.webkitRelativePath ? -1 : 1))) {
    const path = file.webkitRelativePath || file.name;
    found.name ||= path.split("/")[0];
    const inside = inLibrary(path.split("/").slice(1).join("/"));
    if (!/\.ya?ml$/i.test(path) && !inside) continue;
    const opened = await textOf(file);
    if (opened.text === undefined) found.left.push(opened.why ?? t("{path} is no text.", { path }));
    else if (inside) found.overlay[inside] = opened.text;
    else found.trips.push({ name: opened.name, text: opened.text });
  }
  return found;
}
