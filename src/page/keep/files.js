// Files of the reader's own disk: the real storage.
import { t } from "../text/language.js";

/** More than this is no trip: the largest that we know has 20 kB. */
const LARGEST = 5_000_000;

const TYPES = {
  yaml: "application/yaml", csv: "text/csv", zip: "application/zip", pdf: "application/pdf", html: "text/html",
  docx: "application/vnd.openxmlformats-officedocument.wordprocessingml.document", md: "text/markdown", json: "application/json",
};

export function typeOf(name) {
  return TYPES[name.split(".").at(-1)] ?? "application/octet-stream";
}

/** Hands a file to the browser, which saves it where it saves. */
export function save(name, content) {
  const address = URL.createObjectURL(new Blob([content], { type: typeOf(name) }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Opens a file in a window of its own, as the browser shows such files. */
export function show(name, content) {
  const address = URL.createObjectURL(new Blob([content], { type: typeOf(name) }));
  const opened = window.open(address, "_blank");
  if (!opened) save(name, content);
  setTimeout(() => URL.revokeObjectURL(address), 600_000);
}

/** Whether this device can hand such a file to another program. */
export function canShare(name, content) {
  try {
    return navigator.canShare?.({ files: [new File([content], name, { type: typeOf(name) })] }) === true;
  } catch {
    return false;
  }
}

export async function share(name, title, content) {
  try {
    await navigator.share({ title, files: [new File([content], name, { type: typeOf(name) })] });
    return null;
  } catch (error) {
    return error.name === "AbortError" ? null : t("It could not be handed on: {message}", { message: error.message });
  }
}

/** The text of a file that someone opens, or why it is none. */
export async function textOf(file) {
  if (file.size > LARGEST) {
    return { why: t("{name} has {size} MB: a trip or lesson is a small text file that ends in .yaml.", { name: file.name, size: Math.round(file.size / 1e6) }) };
  }
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (/\.zip$/i.test(file.name)) return { name: file.name, bytes };
  if (/\.(xlsx?|ods|numbers)$/i.test(file.name)) {
    return { why: t("{name} is a workbook, and this page reads tables as text. In the spreadsheet choose 'save as', then CSV UTF-8, and open that file here.", { name: file.name }) };
  }
  try {
    // the mark that some programs put in front is kept, so that no byte is lost
    return { name: file.name, text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return { why: t("{name} is not a text in UTF-8. Open it in a text editor, save it as UTF-8, and open it here again.", { name: file.name }) };
  }
}
