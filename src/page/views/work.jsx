// The work in hand: its questions with the numbers beside, its text, and the
// ways to save, undo and take it back.
import { useEffect, useRef, useState } from "preact/hooks";
import { save, canShare, share } from "../keep/files.js";
import { canWrite, writeInto } from "../keep/folder.js";
import { keepNow, redo, rewrite, state, tell, undo, value, change, changed } from "../state.js";
import { isSound, valueAt } from "../text/edit.js";
import { firstDay } from "../text/again.js";
import { LESSON, TRIP, asked, hintSaid, wordFor } from "../text/form.js";
import { capital, fileName, pathText } from "../text/words.js";
import { Fields } from "./fields.jsx";
import { Numbers, Problems } from "./numbers.jsx";
import { Again, Stale } from "./again.jsx";
import { Heading, More, useKnown } from "./parts.jsx";
import { go } from "./go.js";
import { taken, toLine } from "./to-line.js";
import { t } from "../text/language.js";

/** Views of the work, and what stands above each of them. */
export function WorkBar({ view }) {
  const { work, live } = useKnown();
  if (!work) return null;
  const links = [["form", t("Questions")], ["text", t("Text")], ["papers", t("Papers")], ["whatif", t("What if")], ...(isLesson() || live.plan?.course ? [["clock", t("Clock")]] : [])];
  const isSaved = work.text === work.saved;
  return (
    <div class="workbar">
      <nav aria-label={t("This piece of work")}>
        {links.map(([to, word]) => <a href={`#${to}`} aria-current={view === to ? "page" : undefined}>{word}</a>)}
      </nav>
      <div class="row" role="group" aria-label={t("Keep")}>
        <button type="button" onClick={undo} disabled={work.undo.length === 0}>{t("Undo")}</button>
        <button type="button" onClick={redo} disabled={work.redo.length === 0}>{t("Redo")}</button>
        <button type="button" class="strong" onClick={saveWork}>{t("Save to a file")}</button>
        {canWrite() && <button type="button" onClick={saveFolder}>{t("Save to a folder")}</button>}
        {canShare(work.name, work.text) && <button type="button" onClick={async () => { const why = await share(work.name, value(["title"]), work.text); if (why) tell(why, "trouble"); }}>{t("Hand on")}</button>}
        <span class="hint" role="status">{isSaved ? t("{name} is saved", { name: work.name }) : work.kept ? t("Not kept: save to a file") : t("Kept in this browser, not saved to a file")}</span>
      </div>
    </div>
  );
}

/** A piece of work that was never named is named by its title. */
function nameOf(work) {
  const title = value(["title"]);
  return /^(trip|lesson)\.yaml$/.test(work.name) && typeof title === "string" ? fileName(title, "trip") : work.name;
}

export function saveWork() {
  const { work } = state;
  const name = nameOf(work);
  save(name, work.text);
  isSavedAs(name, work);
  const layer = Object.keys(work.overlay ?? {}).length ? ` ${t("What your group changed in the library is a file of its own: save it under Library.")}` : "";
  tell(t("{name} went to where this browser saves files.", { name }) + layer);
}

function isSavedAs(name, { text }) {
  changed({ work: { ...state.work, saved: text, name } });
  keepNow();
}

/** The trip and what its group changed in the library, in a folder that the reader names. */
async function saveFolder() {
  const { work } = state;
  const name = nameOf(work);
  const { name: folder, why } = await writeInto(async () => ({ files: { [name]: work.text, ...(work.overlay ?? {}) } }));
  if (why) tell(why, "trouble");
  if (!folder) return;
  isSavedAs(name, work);
  tell(Object.keys(work.overlay ?? {}).length ? t("{name} is in the folder {folder}, your group's library beside it.", { name, folder }) : t("{name} is in the folder {folder}.", { name, folder }));
}

export function isLesson() {
  return value(["kind"]) === "lesson";
}

export function Form() {
  const { work, library, live } = useKnown();
  if (!work) return <Nothing />;
  if (!isSound(work.document)) {
    return (
      <>
        <Heading>{work.name}</Heading>
        <Problems focus={(path, problem) => toLine(problem)} />
        <p>{t("The text has a slip of form, so its questions cannot be shown. {link}, or undo.", { link: <a href="#text">{t("Mend it in the text")}</a> })}</p>
      </>
    );
  }
  const kind = isLesson() ? "lesson" : "trip";
  const schema = library?.schema[kind];
  const title = value(["title"]);
  return (
    <div class="beside">
      <div class="main">
        <Heading>{typeof title === "string" && title ? title : work.name}</Heading>
        <Problems />
        <Stale />
        {!schema && <p class="hint">{t("The questions are being read from the program.")}</p>}
        {schema && <Sections schema={schema} names={library.names} kind={kind} />}
        <p class="row"><button type="button" class="strong" disabled={live.problems.length > 0} onClick={() => go("papers")}>{t("Make the papers")}</button>
          {live.problems.length > 0 && <span class="hint">{t("when every answer is there")}</span>}</p>
        {firstDay(work.text) && <Again />}
      </div>
      <aside aria-label={t("What the program works out")}><Numbers /></aside>
    </div>
  );
}

function Sections({ schema, names, kind }) {
  const sections = kind === "lesson" ? LESSON : TRIP;
  const named = new Set(sections.flatMap((section) => section.keys));
  const rest = Object.keys(schema.properties).filter((key) => !named.has(key) && key !== "kind");
  const required = ["title", "people", "water_treatment", "camps", "elevation", "stove"];
  return (
    <form onSubmit={(event) => event.preventDefault()} novalidate>
      {sections.map((section) => section.open
        ? <Fields key={section.title} schema={schema} names={names} keys={section.keys} required={required} />
        : (
          <More key={section.title} title={t(section.title)} count={stated(section.keys)}>
            <Fields schema={schema} names={names} keys={section.keys} />
          </More>
        ))}
      {rest.length > 0 && <More title={t("More")}><Fields schema={schema} names={names} keys={rest} /></More>}
    </form>
  );
}

function stated(keys) {
  const many = keys.filter((key) => value([key]) !== undefined).length;
  return many ? t("{n} stated|{n} stated", { n: many }) : t("as usual");
}

export function Nothing() {
  return (
    <>
      <Heading>{t("Nothing is open")}</Heading>
      <p><a href="#start">{t("Choose what to make, or open a file.")}</a></p>
    </>
  );
}

export function Text() {
  const { work, live, library } = useKnown();
  const area = useRef(null);
  const gutter = useRef(null);
  const [at, setAt] = useState(0);
  useEffect(() => {
    const problem = taken();
    if (problem && area.current) jump(area.current, problem);
  }, []);
  if (!work) return <Nothing />;
  const marks = new Map();
  for (const problem of live.warnings) marks.set(problem.line, "warning");
  for (const problem of live.problems) marks.set(problem.line, "problem");
  const lines = work.text.split("\n").length;
  return (
    <div class="beside">
      <div class="main">
        <Heading>{t("{name}, as text", { name: work.name })}</Heading>
        <Problems focus={(path, problem) => jump(area.current, problem)} />
        <p class="row">
          <button type="button" onClick={() => navigator.clipboard?.writeText(work.text).then(() => tell(t("The text is copied.")), () => area.current.select())}>{t("Copy all")}</button>
        </p>
        <label for="text">{t("The file, letter by letter. It and the questions are the same thing.")}</label>
        <div class="editor">
          <ol ref={gutter} aria-hidden="true">{Array.from({ length: lines }, (_, line) => <li class={marks.get(line + 1)}>{line + 1}</li>)}</ol>
          <textarea id="text" ref={area} value={work.text} wrap="off" spellcheck={false} autocapitalize="off" autocomplete="off" rows={Math.min(40, lines + 2)}
            aria-invalid={live.problems.length > 0 || undefined}
            onInput={(event) => { rewrite(asWritten(event.target.value, work.text), "text"); setAt(event.target.selectionStart); }}
            onSelect={(event) => setAt(event.target.selectionStart)}
            onScroll={(event) => { gutter.current.scrollTop = event.target.scrollTop; }} />
        </div>
        {library && isSound(work.document) && <Fits at={at} schema={library.schema[isLesson() ? "lesson" : "trip"]} area={area} />}
      </div>
      <aside aria-label={t("What the program works out")}><Numbers /></aside>
    </div>
  );
}

/** A field for text knows one kind of line end; the file keeps its own. */
function asWritten(text, before) {
  return before.includes("\r\n") ? text.replace(/\n/g, "\r\n") : text;
}

function jump(area, problem) {
  const lines = area.value.split("\n");
  const line = Math.max(1, problem.line ?? 1);
  const start = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  const from = start + Math.max(0, (problem.column ?? 1) - 1);
  area.focus();
  area.setSelectionRange(Math.min(from, area.value.length), start + (lines[line - 1] ?? "").length);
  area.scrollTop = Math.max(0, (line - 5) * (area.scrollHeight / lines.length));
}

/** Keys that may stand where the cursor is. */
function Fits({ at, schema, area }) {
  const { work } = state;
  const path = holderAt(work.text, at, work.document);
  const part = partAt(path, schema);
  if (!part) return null;
  const there = valueAt(work.document, path) ?? {};
  const missing = Object.keys(part).filter((key) => there[key.replace(/[\s-]/g, "_")] === undefined && !key.includes(".") && key !== "kind");
  if (missing.length === 0) return null;
  const put = (key) => {
    const ask = asked(part[key], schema);
    const example = ask.as === "choice" ? ask.of[0] : ask.as === "yesno" ? "yes" : ask.as === "list" ? [{ name: "1" }] : ask.as === "block" ? { [Object.keys(ask.of)[0]]: "" } : "";
    change([...path, key], example);
    area.current?.focus();
  };
  return (
    <More title={path.length ? t("Keys that fit below {path}", { path: pathText(path) }) : t("Keys that fit here")} count={missing.length}>
      <p class="hint">{t("A key is put at the end of its block; what it may hold is said here, or beside it as soon as it is wrong.")}</p>
      <ul class="keys">{missing.map((key) => {
        const ask = asked(part[key], schema);
        // what is chosen from is written as it stands here, in any language
        const of = ask.as === "choice" ? ask.of : ask.as === "yesno" ? ["yes", "no"] : null;
        return <li><button type="button" onClick={() => put(key)}><code>{key}</code></button> <small>{of ? <code>{of.join(", ")}</code> : capital(hintSaid(ask.hint) ?? wordFor([...path, key]))}</small></li>;
      })}</ul>
    </More>
  );
}

/** The path of the block that holds the line at a place in the text. */
function holderAt(text, at, document) {
  const lines = text.slice(0, at).split("\n");
  const full = text.split("\n");
  let indent = full[lines.length - 1]?.search(/\S/) ?? 0;
  if (indent < 0) indent = lines.at(-1).length;
  const path = [];
  const counts = new Map();
  for (const line of full.slice(0, lines.length - 1)) {
    const match = line.match(/^(\s*)(- )?([A-Za-z][\w .-]*):/);
    if (!match) continue;
    const [, space, dash, key] = match;
    while (path.length && path.at(-1).indent >= space.length) path.pop();
    const holder = path.map((one) => one.key).join("/");
    if (dash) {
      const number = (counts.get(holder) ?? -1) + 1;
      counts.set(holder, number);
      path.push({ indent: space.length, key: number });
    }
    path.push({ indent: space.length + (dash ? 2 : 0), key });
  }
  while (path.length && path.at(-1).indent >= indent) path.pop();
  const found = path.map((one) => (typeof one.key === "string" ? one.key.trim().replace(/[\s-]+/g, "_") : one.key));
  const holds = valueAt(document, found);
  return holds !== null && typeof holds === "object" && !Array.isArray(holds) ? found : [];
}

function partAt(path, schema) {
  let properties = schema?.properties;
  for (const step of path) {
    if (typeof step === "number") continue;
    const ask = properties?.[step] ? asked(properties[step], schema) : null;
    properties = ask?.of && !Array.isArray(ask.of) ? ask.of : undefined;
  }
  return properties;
}
