// What a group says in the place of the library: facts and words of a subject,
// how hard they read, what is wrong with them, and which sheets change and how.
import { useEffect, useRef, useState } from "preact/hooks";
import { inputs, parsed } from "../live.js";
import { state } from "../state.js";
import { isSound, put, putBlock, read, valueAt } from "../text/edit.js";
import * as say from "../text/words.js";
import { More, ProblemText } from "./parts.jsx";
import { language, t } from "../text/language.js";

/** Typing that pauses this long is looked at; then the sheets are compared. */
const PAUSE_MS = 300;

export function Own({ bench, path, own, module, id, change, valueOf }) {
  const document = read(own);
  const facts = Object.entries(module.facts ?? {}).flatMap(([name, fact]) => (fact.value !== undefined ? (language() === "en" ? [[name, "value", fact]] : []) : fact.text !== undefined ? [[name, "text", fact]] : []));
  const now = (keys) => (isSound(document) ? valueAt(document, keys) : undefined);
  const write = (keys, text, usual) => change(path, put(own, keys, text.trim() === "" || text === usual ? undefined : text));
  return (
    <>
      {!isSound(document) && <p class="hint">{t("It has a slip of form, so its fields cannot be shown: mend it below.")}</p>}
      {isSound(document) && (
        <>
          <div class="field">
            <label for="own-words">{t("What learners read")}</label>
            <p class="hint">{t("Short words, short sentences. Emptied, the library's words stand again. {code} prints the fact of that name.", { code: <code>{"{name}"}</code> })}</p>
            <textarea id="own-words" rows={12} value={now(["text"]) ?? module.text} onInput={(event) => change(path, putBlock(own, "text", event.target.value.trim() === "" || event.target.value === module.text ? undefined : event.target.value))} />
          </div>
          {language() === "en" && <Reading bench={bench} own={own} id={id} />}
          {language() !== "en" && <p class="hint">{t("Figures are the same in every language: change them where the page speaks English.")}</p>}
          {facts.length > 0 && (
            <More title={t("Facts, as your group has them")} count={facts.length}>
              {facts.map(([name, key, fact]) => (
                <div class="field" key={name}>
                  <label for={`own-${name}`}>{say.capital(fact.say ?? say.spoken(name))}</label>
                  <p class="hint" id={`own-${name}-hint`}>{t("the library: {value}", { value: valueOf(fact) })}</p>
                  <input id={`own-${name}`} autocomplete="off" aria-describedby={`own-${name}-hint`} value={now(["facts", name, key]) ?? valueOf(fact)} onInput={(event) => write(["facts", name, key], event.target.value, valueOf(fact))} />
                </div>
              ))}
            </More>
          )}
        </>
      )}
      <label for="own-text">{t("The same as it is written: only the keys that differ")}</label>
      <textarea id="own-text" class="code" rows={10} spellcheck={false} value={own} onInput={(event) => change(path, event.target.value)} />
      <Wrong bench={bench} own={own} />
      <Changes bench={bench} own={own} />
      <p class="row"><button type="button" class="quiet" onClick={() => change(path, undefined)}>{t("Take this change away")}</button></p>
    </>
  );
}

/** Runs a job when the typing pauses; a newer one takes its place. */
function usePaused(job, keys, pause = PAUSE_MS) {
  useEffect(() => {
    let isHere = true;
    const wait = setTimeout(() => job(() => isHere), pause);
    return () => {
      isHere = false;
      clearTimeout(wait);
    };
  }, keys);
}

/** The layer's files alone, as a folder `ours`. */
function layer() {
  return Object.fromEntries(Object.entries(state.work.overlay).map(([name, text]) => [`ours/${name}`, text]));
}

/** How hard the words are to read, beside the library's: the program's own count. */
function Reading({ bench, own, id }) {
  const [found, setFound] = useState({ before: null, now: null });
  usePaused(async (isHere) => {
    const ask = async (flags, files) => parsed((await bench.run(["list", "modules", "--reading", "--json", ...flags], files)).out)?.rows.find((row) => row.module === id);
    const before = found.before ?? await ask([], {});
    const now = await ask(["--content", "ours"], layer());
    // what is wrong with it is told below; the last count stands till then
    if (isHere()) setFound({ before, now: now ?? found.now });
  }, [own]);
  const { before, now } = found;
  if (!before || !now) return <p class="hint" role="status">{t("Its reading grade is being counted.")}</p>;
  return (
    <p role="status"><b>{t("School grade {grade}", { grade: now.grade })}</b>, {now.grade === before.grade ? t("as in the library") : t("in the library {grade}", { grade: before.grade })}; {t("{words} words in {n} sentence.|{words} words in {n} sentences.", { words: now.words, n: now.sentences })} <span class="help">{t("The hardest sentence: {sentence}", { sentence: now.hardest_sentence.replace(/^(\d+): /, "$1, ") })}</span></p>
  );
}

export function Wrong({ bench, own }) {
  const [said, setSaid] = useState(null);
  usePaused(async (isHere) => {
    const check = await bench.run(["check", "--json", "ours"], layer());
    if (isHere()) setSaid(parsed(check.out) ?? { problems: [{ message: check.err }], warnings: [] });
  }, [own]);
  const lines = (found, kind) => found.map((problem) => <p class={`wrong ${kind}`}>{problem.line ? `${say.capital(t("line {line}", { line: problem.line }))}: ` : ""}<ProblemText problem={problem} /></p>);
  return (
    <div role="status">
      {said && lines(said.problems, "problem")}
      {said && lines(said.warnings, "warning")}
      {said && said.problems.length + said.warnings.length === 0 && <p>{t("Nothing is wrong in it.")}</p>}
    </div>
  );
}

/** Which sheets of the work in hand change, and how: before and after. */
export function Changes({ bench, own }) {
  const { work } = state;
  const [shown, setShown] = useState({ sheets: null, why: "" });
  const before = useRef({ text: null, files: null });
  usePaused(async (isHere) => {
    const make = (flags, files) => bench.run(["make", work.name, "--out", "out", "--format", "md", ...(language() === "en" ? [] : ["--language", language()]), ...flags], files);
    if (before.current.text !== work.text) {
      const made = await make([], { [work.name]: work.text });
      before.current = { text: work.text, files: made.status === 0 ? made.files : null };
    }
    if (!isHere()) return;
    if (!before.current.files) {
      setShown({ sheets: null, why: t("Open a trip or lesson whose questions are answered, and its sheets are compared here.") });
      return;
    }
    const { files, flags } = inputs(work);
    const after = await make(flags, files);
    if (!isHere()) return;
    setShown(after.status === 0 ? { sheets: differences(before.current.files, after.files), why: "" } : { sheets: null, why: t("The sheets are compared as soon as nothing is wrong.") });
  }, [own, work.text], 3 * PAUSE_MS);
  const { sheets, why } = shown;
  return (
    <section aria-labelledby="changes">
      <h3 id="changes">{t("Which sheets change, and how")}</h3>
      <p role="status" class="hint">{why || (sheets === null ? t("The sheets are being compared.") : sheets.length === 0 ? t("No sheet of this trip changes.") : t("{n} sheet of this trip changes|{n} sheets of this trip change", { n: sheets.length }))}</p>
      {sheets?.map((sheet) => (
        <More title={say.capital(say.spoken(sheet.name))} count={sheet.lines.length}>
          <ul class="differences">{sheet.lines.map((line) => <li class={line.is}><b>{line.is === "gone" ? t("Before:") : t("After:")} </b>{line.text}</li>)}</ul>
        </More>
      ))}
    </section>
  );
}

function differences(before, after) {
  const decoder = new TextDecoder();
  const lines = (bytes) => (bytes ? decoder.decode(bytes).split("\n").filter((line) => line.trim()) : []);
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].filter((path) => path.endsWith(".md")).sort().flatMap((path) => {
    const old = lines(before[path]);
    const now = lines(after[path]);
    const gone = old.filter((line) => !now.includes(line)).map((text) => ({ is: "gone", text }));
    const come = now.filter((line) => !old.includes(line)).map((text) => ({ is: "come", text }));
    return gone.length + come.length ? [{ name: path.split("/").at(-1).replace(".md", ""), lines: [...gone, ...come] }] : [];
  });
}
