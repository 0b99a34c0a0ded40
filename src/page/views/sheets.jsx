// Sheets as they will print: leafed through, printed, saved, handed on.
import { useEffect, useRef, useState } from "preact/hooks";
import frame from "./sheet-frame.js?text";
import { canShare, save, share, show } from "../keep/files.js";
import { canWrite, writeInto } from "../keep/folder.js";
import { zip } from "../keep/zip.js";
import * as store from "../keep/store.js";
import { tell } from "../state.js";
import { capital, spoken } from "../text/words.js";
import { go } from "./go.js";
import { LANGUAGES, t } from "../text/language.js";

/** One sheet in a frame of its own: no origin, no network, only its own script. */
export function Sheet({ html, name, onGo }) {
  const here = useRef(null);
  const key = html.match(/data-key="([^"]*)"/)?.[1] ?? name;
  useEffect(() => {
    const hear = (event) => {
      if (event.source !== here.current?.contentWindow || event.data === null || typeof event.data !== "object") return;
      if (event.data.keep && typeof event.data.keep === "object") {
        if (!store.keepMarks(key, event.data.keep)) tell(t("This browser cannot keep ticks: they are gone when the page is closed."), "trouble");
      } else if (typeof event.data.go === "string") {
        onGo?.(event.data.go);
      }
    };
    window.addEventListener("message", hear);
    return () => window.removeEventListener("message", hear);
  }, [html]);
  return <iframe ref={here} id="sheet" title={name} sandbox="allow-scripts allow-modals allow-popups allow-popups-to-escape-sandbox" srcdoc={dressed(html, key)} />;
}

function dressed(html, key) {
  const marks = JSON.stringify(store.marks(key)).replace(/</g, "\\u003c");
  return html.replace(/<head>/i, () => `<head><script type="application/json" id="_marks">${marks}</script><script>${frame}</script>`);
}

export function printSheet() {
  document.getElementById("sheet")?.contentWindow.postMessage("print", "*");
}

/** `learners/kitchen-checklist.html` as a reader says it. */
export function sheetName(path, html) {
  const title = html?.match(/<title>([^<:]*)/)?.[1];
  if (title && !/index\.html$/.test(path)) return decoded(title).trim();
  return /index\.html$/.test(path) ? t("All sheets, what to print") : capital(spoken(path.split("/").at(-1).replace(/\.html$/, "")));
}

function decoded(text) {
  return text.replace(/&amp;/g, "&").replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&quot;/g, '"').replace(/&#x27;|&#39;/g, "'");
}

/**
 * Sheets to leaf through. `made` is {files by path, folder}; `route` the way
 * here; `make(formats)` makes the same in other formats.
 */
export function Leaves({ files, base, at, name, make, title, whole, first = /kitchen-checklist/ }) {
  const [busy, setBusy] = useState("");
  const order = Object.keys(files).filter((path) => path.endsWith(".html") && path.slice(0, -5) !== "index").sort(byUse(first));
  const shown = order.includes(at) ? at : order[0];
  const texts = useTexts(files, order);
  const turn = (step) => go(`${base}/${order[(order.indexOf(shown) + step + order.length) % order.length]}`);
  const take = async (what, job) => {
    setBusy(what);
    try {
      const why = await job();
      if (why) tell(why, "trouble");
    } finally {
      setBusy("");
    }
  };
  const one = (format) => async () => {
    const made = await make([format], shown);
    if (made.why) return made.why;
    const path = Object.keys(made.files).find((found) => found === shown.replace(/html$/, format)) ?? Object.keys(made.files).find((found) => found.endsWith(format));
    if (!path) return t("No {format} was made.", { format });
    const file = path.split("/").at(-1);
    if (format === "pdf") show(file, made.files[path]);
    else save(file, made.files[path]);
    return null;
  };
  const packet = async () => {
    const made = await make(["pdf", "html", "md"], null);
    if (made.why) return made.why;
    save(`${name}.zip`, zip(made.files));
    tell(t("{name}.zip went to where this browser saves files: every sheet as PDF, page and text.", { name }));
    return null;
  };
  const folder = async () => {
    const { name: folder, why } = await writeInto(() => make(["pdf", "html", "md"], null));
    if (folder) tell(t("Every sheet is in the folder {folder}, as PDF, page and text.", { folder }));
    return why ?? null;
  };
  const all = async () => {
    const made = await make(["pdf"], null, true);
    if (made.why) return made.why;
    const packet = Object.keys(made.files).find((path) => /(^|\/)packet\.pdf$/.test(path));
    if (!packet) return t("No single PDF was made.");
    show(`${name}.pdf`, made.files[packet]);
    return null;
  };
  const hand = async () => {
    const made = await make(["pdf"], shown);
    if (made.why) return made.why;
    const path = Object.keys(made.files).find((found) => found.endsWith(".pdf"));
    return share(path.split("/").at(-1), title, made.files[path]);
  };
  return (
    <>
      <div class="row" role="group" aria-label={t("This sheet")}>
        <label class="unseen" for="which">{t("Sheet")}</label>
        <select id="which" value={shown} onChange={(event) => go(`${base}/${event.target.value}`)}>
          {folders(order).map(([folder, paths]) => (
            <optgroup label={folder === "learners" ? t("To hand out") : folder === "staff" ? t("For the staff, keys too") : LANGUAGES.find(([code]) => code === folder)?.[1] ?? t("Sheets")}>
              {paths.map((path) => <option value={path}>{sheetName(path, texts.get(path))}</option>)}
            </optgroup>
          ))}
        </select>
        <button type="button" onClick={() => turn(-1)}>{t("Sheet before")}</button>
        <button type="button" onClick={() => turn(1)}>{t("Next sheet")}</button>
        <button type="button" class="strong" onClick={printSheet}>{t("Print this sheet")}</button>
      </div>
      <Sheet key={shown} html={texts.get(shown)} name={sheetName(shown, texts.get(shown))} onGo={(to) => go(`${base}/${beside(shown, to, order)}`)} />
      <div class="row" role="group" aria-label={t("Take it along")}>
        <button type="button" disabled={busy !== ""} onClick={() => take("pdf", one("pdf"))}>{t("This sheet as PDF")}</button>
        <button type="button" disabled={busy !== ""} onClick={() => take("docx", one("docx"))}>{t("This sheet for a word processor")}</button>
        {whole && <button type="button" disabled={busy !== ""} onClick={() => take("all", all)}>{t("All in one PDF")}</button>}
        <button type="button" disabled={busy !== ""} onClick={() => take("zip", packet)}>{t("Save all as a zip file")}</button>
        {canWrite() && <button type="button" disabled={busy !== ""} onClick={() => take("folder", folder)}>{t("Save all to a folder")}</button>}
        {canShare("sheet.pdf", "") && <button type="button" disabled={busy !== ""} onClick={() => take("share", hand)}>{t("Hand on this sheet")}</button>}
        <span role="status" class="hint">{busy && t("Being made")}</span>
      </div>
    </>
  );
}

/** The sheets' texts, read once. */
function useTexts(files, order) {
  const kept = useRef({ files: null, texts: new Map() });
  if (kept.current.files !== files) {
    const decoder = new TextDecoder();
    kept.current = { files, texts: new Map(order.map((path) => [path, decoder.decode(files[path])])) };
  }
  return kept.current.texts;
}

function beside(shown, to, order) {
  const path = new URL(to, `http://x/${shown}`).pathname.slice(1);
  return order.includes(path) ? path : shown;
}

/** The sheet that is reached for comes first, the rest as the folders list them. */
function byUse(first) {
  const rank = (path) => (first.test(path) || !path.includes("/") ? 0 : path.startsWith("learners/") ? 1 : 2);
  return (a, b) => rank(a) - rank(b) || a.localeCompare(b);
}

function folders(order) {
  const found = new Map();
  for (const path of order) {
    const folder = path.includes("/") ? path.split("/")[0] : "";
    found.set(folder, [...(found.get(folder) ?? []), path]);
  }
  return [...found];
}
