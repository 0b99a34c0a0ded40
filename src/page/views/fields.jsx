// The fields of a form, made from the program's schema: labels above, one
// column, what is wrong beside the field in the program's own words.
import { change, state, value as valueOf } from "../state.js";
import { asked, FIRST, hintFor, NEW_ITEM, wordFor } from "../text/form.js";
import { capital, pathText, spoken } from "../text/words.js";
import { objectiveName } from "../library.js";
import { More, ProblemText, Told, Words, idOf } from "./parts.jsx";
import { LANGUAGES, t } from "../text/language.js";

/** What has to be known to draw a field: the schema, and names to choose from. */
export function Fields({ schema, names, path = [], keys, required = [] }) {
  const properties = schema.properties;
  return keys.filter((key) => properties[key]).map((key) => (
    <Field key={key} path={[...path, key]} part={properties[key]} root={schema} names={names} isRequired={required.includes(key)} />
  ));
}

function Field({ path, part, root, names, isRequired }) {
  const key = path.at(-1);
  const from = asked(part, root);
  const ask = { ...from, hint: hintFor(path, from.hint) };
  const now = valueOf(path);
  const common = { path, ask, now, root, names, isRequired };
  if (key === "kind" || key === "extends") return null;
  if (now !== undefined && isOwn(now, ask)) return <AsText {...common} />;
  if (ask.as === "own") return null;
  if (ask.as === "block") return <Block {...common} />;
  if (ask.as === "list") return <List {...common} />;
  if (ask.as === "table") return <Table {...common} />;
  if (ask.orBlock && typeof now === "object") return <Block {...common} />;
  if (ask.as === "lines" && severalOf(key)) return <Ticks {...common} of={severalOf(key)} />;
  return <One {...common} />;
}

/** Written in a way that has no field here. */
function isOwn(now, ask) {
  if (ask.as === "block" || ask.as === "table") return typeof now !== "object" || Array.isArray(now);
  if (ask.as === "list") return !Array.isArray(now) && !(ask.orNumber && typeof now === "string");
  if (ask.as === "lines") return Array.isArray(now) ? now.some((item) => typeof item !== "string") : typeof now !== "string";
  if (ask.orBlock && ask.of && !Array.isArray(now)) return false;
  return typeof now !== "string";
}

function AsText({ path }) {
  return (
    <div class="field" id={idOf(pathText(path))} tabIndex={-1}>
      <p class="label">{wordFor(path)}</p>
      <p class="hint">{t("It is written in a way that has no field here.")} <a href="#text">{t("Change it in the text.")}</a></p>
      <Wrong path={path} />
    </div>
  );
}

/** Problems of exactly this path, and of what lies in it where no field shows that. */
function problemsOf(path) {
  const here = pathText(path);
  return [...state.live.problems.map((p) => ({ ...p, kind: isOpen(p) ? "open" : "problem" })),
    ...state.live.warnings.map((p) => ({ ...p, kind: "warning" }))].filter((problem) => problem.path === here);
}

/** Something that is not answered yet is no mistake. */
export function isOpen(problem) {
  return problem.code === "key.missing";
}

/** Why a value is of other dates, or undefined. */
function staleOf(path) {
  const here = pathText(path);
  return state.work?.stale.find(([one]) => one === here)?.[1];
}

/** What is said of a value; a block that is open says that its own fields are to be answered. */
function Wrong({ path, isBlock }) {
  const found = problemsOf(path);
  const stale = staleOf(path);
  if (found.length === 0 && !stale) return null;
  return (
    <div id={`${idOf(pathText(path))}-wrong`}>
      {stale && <p class="wrong open"><strong>{t("Ask again:")} </strong>{t(stale)}</p>}
      {found.map((problem) => (
        <p class={`wrong ${problem.kind}`}>
          <strong>{{ open: t("To answer:"), problem: t("Problem:"), warning: t("Look at this:") }[problem.kind]} </strong>
          {problem.kind === "open" ? <Words text={isBlock ? t("what is asked below") : problem.help ?? problem.message} /> : <ProblemText problem={problem} />}
        </p>
      ))}
    </div>
  );
}

function describedBy(path, hint, standing) {
  const id = idOf(pathText(path));
  return [hint && `${id}-hint`, standing && `${id}-default`, (problemsOf(path).length || staleOf(path)) && `${id}-wrong`].filter(Boolean).join(" ") || undefined;
}

function assumed(path) {
  const here = pathText(path);
  return state.live.plan?.assumed?.find((line) => line.what === here);
}

/** A field with one value. */
function One({ path, ask, now, names, isRequired }) {
  const id = idOf(pathText(path));
  const standing = now === undefined || now === "" ? assumed(path) : null;
  const choices = choicesOf(path.at(-1), ask, names, now);
  const common = {
    id,
    "aria-describedby": describedBy(path, ask.hint, standing),
    "aria-invalid": problemsOf(path).some((problem) => problem.kind === "problem") || undefined,
    "aria-required": isRequired || undefined,
  };
  const word = choices && standing ? ` (${spoken(standing.value)})` : "";
  return (
    <div class="field">
      <label for={id}>{wordFor(path)}</label>
      {ask.hint && <p class="hint" id={`${id}-hint`}>{ask.hint}</p>}
      {choices ? (
        <select {...common} value={now ?? ""} onChange={(event) => change(path, event.target.value || undefined)}>
          <option value="">{isRequired ? t("Choose") : `${t("As usual")}${word}`}</option>
          {choices.map(([choice, said]) => <option value={choice}>{said}</option>)}
        </select>
      ) : ask.as === "lines" ? (
        <textarea {...common} rows={Math.max(2, Array.isArray(now) ? now.length + 1 : 2)} value={Array.isArray(now) ? now.join("\n") : now ?? ""}
          onInput={(event) => change(path, linesOf(event.target.value))} onChange={(event) => tidy(path, event)} />
      ) : (
        <input {...common} type={ask.isDate ? "date" : "text"} inputMode={ask.as === "number" ? "decimal" : undefined} autocomplete="off"
          value={now ?? ""} onInput={(event) => change(path, event.target.value)} onChange={(event) => tidy(path, event)} />
      )}
      {standing && <p class="standing" id={`${id}-default`}>{t("Left open:")} <b><Told text={standing.value} /></b>{standing.why && standing.why !== "not stated" ? <>, <Told text={standing.why} /></> : ""}</p>}
      <Wrong path={path} />
    </div>
  );
}

/** What several of which can be chosen: subjects of the library, objectives of this course; null for free lines. */
function severalOf(key) {
  const { library, live } = state;
  if (key === "focus" && library?.modules) return library.modules.filter(({ module }) => module.segments).map(({ id, title }) => [id, title]);
  const objectives = live.plan?.course?.objectives;
  if (key === "known" && objectives?.length) return objectives.map(({ id }) => [id, capital(objectiveName(id))]);
  return null;
}

/** Several of a kind, each with a tick; what stands in the text and is none of them keeps its line. */
function Ticks({ path, now, of }) {
  const id = idOf(pathText(path));
  const items = Array.isArray(now) ? now : now ? [now] : [];
  const same = (one, other) => one.toLowerCase().replace(/[\s_]+/g, "-") === other;
  const more = items.filter((item) => !of.some(([one]) => same(item, one))).map((item) => [item, item]);
  const flip = (choice, at) => {
    if (at >= 0) change(items.length > 1 ? [...path, at] : path, undefined);
    else change(Array.isArray(now) ? [...path, items.length] : path, Array.isArray(now) ? choice : [...items, choice]);
  };
  return (
    <fieldset id={id} tabIndex={-1} aria-describedby={describedBy(path, null, null)}>
      <legend>{wordFor(path)}</legend>
      <Wrong path={path} />
      <More title={t("Choose")} count={items.length || undefined}>
        <ul class="ticks">{[...of, ...more].map(([choice, said]) => {
          const at = items.findIndex((item) => item === choice || same(item, choice));
          return <li key={choice}><label class="tick"><input type="checkbox" checked={at >= 0} onChange={() => flip(choice, at)} /> <span>{said}</span></label></li>;
        })}</ul>
      </More>
    </fieldset>
  );
}

/** A field that is left empty is a key that is left out. */
function tidy(path, event) {
  if (event.target.value.trim() === "") change(path, undefined);
}

function linesOf(text) {
  const lines = text.split("\n");
  return lines.length === 1 ? lines[0] : lines;
}

function choicesOf(key, ask, names, now) {
  let choices = null;
  if (ask.as === "choice") choices = ask.of.map((word) => [word, spoken(word)]);
  if (ask.as === "yesno") choices = [["yes", spoken("yes")], ["no", spoken("no")]];
  const named = { stove: names.stoves, fuel: names.fuels, place: names.places, land: names.places, menu: names.menus, organisation: names.profiles, language: Array.isArray(now) ? null : LANGUAGES }[key];
  if (named && ask.as !== "choice") choices = named;
  if (!choices) return null;
  const isThere = now === undefined || now === "" || choices.some(([choice]) => choice === now);
  if (isThere) return choices;
  const same = choices.find(([choice]) => spoken(choice).toLowerCase() === spoken(now).toLowerCase());
  // kept as it was written
  return same ? choices.map((choice) => (choice === same ? [now, same[1]] : choice)) : [...choices, [now, now]];
}

/** Keys that belong together. */
function Block({ path, ask, root, names }) {
  const schema = { ...root, properties: ask.of };
  const { first, rest } = parted(path, ask.of);
  const standing = assumed(path);
  return (
    <fieldset id={idOf(pathText(path))} tabIndex={-1}>
      <legend>{wordFor(path)}</legend>
      {ask.hint && <p class="hint">{ask.hint}</p>}
      {standing && <p class="standing">{t("Left open:")} <b><Told text={standing.value} /></b>, <Told text={standing.why} /></p>}
      <Wrong path={path} isBlock />
      <Fields schema={schema} names={names} path={path} keys={first} />
      {rest.length > 0 && <More title={first.length ? t("More on {what}", { what: lower(wordFor(path)) }) : t("Open")}><Fields schema={schema} names={names} path={path} keys={rest} /></More>}
    </fieldset>
  );
}

function parted(path, of) {
  const keys = Object.keys(of).filter((key) => !key.includes("."));
  const wanted = FIRST[path.filter((step) => typeof step === "string").at(-1)];
  if (!wanted) return keys.length > 4 ? { first: [], rest: keys } : { first: keys, rest: [] };
  return { first: wanted.filter((key) => of[key]), rest: keys.filter((key) => !wanted.includes(key)) };
}

/** What an item of a list is called. */
function nameOf(item, at) {
  return item?.name || item?.tag || t("number {n}", { n: at + 1 });
}

function lower(text) {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** Several of a kind: camps, kitchens, canisters. */
function List({ path, ask, now, root, names }) {
  const key = path.at(-1);
  const isNumber = typeof now === "string";
  const items = Array.isArray(now) ? now : [];
  const standing = now === undefined ? assumed(path) : null;
  const add = () => change([...path, items.length], (NEW_ITEM[key] ?? ((number) => ({ name: `${number}` })))(items.length + 1));
  const schema = { ...root, properties: ask.of };
  const { first, rest } = parted(path, ask.of);
  const id = idOf(pathText(path));
  return (
    <fieldset class="list" id={id} tabIndex={-1}>
      <legend>{wordFor(path)}</legend>
      {ask.hint && <p class="hint">{ask.hint}</p>}
      {standing && <p class="standing">{t("Left open:")} <b><Told text={standing.value} /></b>{standing.why ? <>, <Told text={standing.why} /></> : ""}</p>}
      <Wrong path={path} />
      {ask.orNumber && items.length === 0 && (
        <div class="field">
          <label for={`${id}-number`}>{t("How many")}</label>
          <input id={`${id}-number`} type="text" inputMode="numeric" autocomplete="off" value={isNumber ? now : ""}
            onInput={(event) => change(path, event.target.value)} onChange={(event) => tidy(path, event)} />
        </div>
      )}
      {items.map((item, at) => (
        <fieldset class="item" key={at} id={idOf(pathText([...path, at]))} tabIndex={-1}>
          <legend>{item?.name || item?.tag || `${at + 1}`}</legend>
          <Wrong path={[...path, at]} />
          <Fields schema={schema} names={names} path={[...path, at]} keys={first} />
          {rest.length > 0 && (
            <More title={t("More on {what}", { what: nameOf(item, at) })}>
              <Fields schema={schema} names={names} path={[...path, at]} keys={rest} />
            </More>
          )}
          <p class="row"><button type="button" class="quiet" onClick={() => change([...path, at], undefined)}>{t("Take away {what}", { what: nameOf(item, at) })}</button></p>
        </fieldset>
      ))}
      <p class="row"><button type="button" onClick={add}>{isNumber ? t("Name them one by one") : t("One more")}<span class="unseen">: {lower(wordFor(path))}</span></button></p>
    </fieldset>
  );
}

/** Values by a name that the reader gives: prices. */
function Table({ path, ask, now = {} }) {
  const id = idOf(pathText(path));
  const add = (event) => {
    event.preventDefault();
    const form = event.target.closest(".add");
    const name = form.querySelector("input").value.trim();
    if (name) change([...path, name], "0");
    form.querySelector("input").value = "";
  };
  return (
    <fieldset id={id} tabIndex={-1}>
      <legend>{wordFor(path)}</legend>
      {ask.hint && <p class="hint">{ask.hint}</p>}
      <Wrong path={path} />
      {Object.entries(now).map(([key, value]) => (
        <div class="field" key={key}>
          <label for={idOf(pathText([...path, key]))}>{spoken(key)}</label>
          <input id={idOf(pathText([...path, key]))} type="text" inputMode="decimal" autocomplete="off" value={value}
            onInput={(event) => change([...path, key], event.target.value)} onChange={(event) => tidy([...path, key], event)} />
          <Wrong path={[...path, key]} />
        </div>
      ))}
      <div class="field add">
        <label for={`${id}-new`}>{t("One more: of what")}</label>
        <input id={`${id}-new`} type="text" autocomplete="off" />
        <button type="button" onClick={add}>{t("Add")}<span class="unseen">: {lower(wordFor(path))}</span></button>
      </div>
    </fieldset>
  );
}
