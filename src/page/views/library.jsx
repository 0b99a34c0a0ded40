// The library: what every sheet is made from, to read, and to change for one's
// own group in a layer of its own.
import { useState } from "preact/hooks";
import { modules, places, sentence, sources } from "../library.js";
import { parsed } from "../live.js";
import { save } from "../keep/files.js";
import { zip } from "../keep/zip.js";
import { begin, setOverlay, state } from "../state.js";
import { put } from "../text/edit.js";
import * as say from "../text/words.js";
import { Heading, More, Prose, foreign, useKnown } from "./parts.jsx";
import { Own } from "./own.jsx";
import { OwnPlace, rulesOf } from "./own-place.jsx";
import { Opener } from "./start.jsx";
import { decimals, language, t } from "../text/language.js";

export function Library({ bench, at }) {
  const { library } = useKnown();
  if (!library) return <><Heading>{t("The library")}</Heading><p class="hint">{t("The library is being read.")}</p></>;
  const [kind, id] = at.split("/");
  if (kind === "modules" && id) return <Module key={id} bench={bench} id={id} files={library.files} />;
  return (
    <>
      <Heading>{t("The library")}</Heading>
      <p>{t("What the sheets say comes from here: subjects, rules of places, and the sources behind each figure. To change something for your own group, open its subject.")}</p>
      <OwnLayer />
      <h2>{t("Subjects")}</h2>
      <ul class="list-of">{modules(library.files).map((one) => <li key={one.id}><a href={`#library/modules/${one.id}`}>{one.title}</a> <small>{one.summary}</small></li>)}</ul>
      <h2>{t("Places and their rules")}</h2>
      {places(library.files).map((place) => <Place key={place.id} bench={bench} place={place} />)}
      <h2>{t("Sources")}</h2>
      <More title={t("All sources")} count={sources(library.files).length}>
        <dl class="facts">{sources(library.files).map((one) => <div><dt id={`source-${one.code}`}>{one.code}: <span lang={foreign()}>{one.title}</span></dt><dd><span lang={foreign()}>{one.publisher}{one.year ? `, ${one.year}` : ""}.</span> {one.url && <a href={one.url} target="_blank" rel="noreferrer">{one.url}</a>} {one.note && <small lang={foreign()}>{one.note}</small>}</dd></div>)}</dl>
      </More>
    </>
  );
}

function OwnLayer() {
  const overlay = state.work?.overlay ?? {};
  const paths = Object.keys(overlay);
  return (
    <section class="card" aria-labelledby="own">
      <h2 id="own">{t("Of your group")}</h2>
      {paths.length === 0 ? <p>{state.work ? t("Nothing is changed for your group.") : t("Nothing is changed for your group; open a trip first, so that a change has sheets to show on.")}</p> : (
        <>
          <ul>{paths.map((path) => <li>{path.includes("/modules/") ? <a href={`#library/modules/${path.split("/").at(-1).replace(".yaml", "")}`}>{path}</a> : path}</li>)}</ul>
          <p class="row">
            <button type="button" onClick={() => save("our-library.zip", zip(encoded(overlay)))}>{t("Save it to a file")}</button>
            <button type="button" class="quiet" onClick={() => setOverlay({})}>{t("Take it off")}</button>
          </p>
        </>
      )}
      <Opener />
    </section>
  );
}

function encoded(overlay) {
  const encoder = new TextEncoder();
  return Object.fromEntries(Object.entries(overlay).map(([path, text]) => [`our-library/${path}`, encoder.encode(text)]));
}

function Place({ bench, place }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details class="more" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary><span>{place.title}</span></summary>
      {isOpen && (
        <div class="inside">
          <p>{place.summary}</p>
          <dl class="facts">{rulesOf(place).map(([keys, rule]) => (
            <div><dt>{say.capital(say.spoken(keys.join("-")))}</dt><dd>{rule.value ? decimals(rule.value) : rule.text} <small>{[].concat(rule.source ?? []).join(", ")}{rule.note ? ` ${rule.note}` : ""}</small></dd></div>
          ))}</dl>
          {place.disagreements && <><h3>{t("Where authorities differ")}</h3><Prose text={place.disagreements} /></>}
          <OwnPlace bench={bench} place={place} change={change} beginning={beginning} />
        </div>
      )}
    </details>
  );
}

function Module({ bench, id, files }) {
  const one = modules(files).find((found) => found.id === id);
  const path = pathOf(id);
  const own = state.work?.overlay?.[path];
  if (!one) return <><Heading>{t("No such subject")}</Heading><p><a href="#library">{t("To the library")}</a></p></>;
  const { module } = one;
  return (
    <>
      <p><a href="#library">{t("The library")}</a></p>
      <Heading>{one.title}</Heading>
      <p>{module.summary}</p>
      <h2>{t("To read")}</h2>
      <Prose text={filled(module.text, module)} />
      <h2>{t("Facts")}</h2>
      <dl class="facts">{Object.entries(module.facts ?? {}).map(([name, fact]) => (
        <div><dt>{say.capital(fact.say ?? say.spoken(name))}</dt><dd><b>{valueOf(fact)}</b> <small>{[fact.basis && say.spoken(fact.basis), ...[].concat(fact.source ?? [])].filter(Boolean).join(", ")}</small>{fact.disagreement && <span class="help">{t("Others say: {disagreement}", { disagreement: fact.disagreement })}</span>}</dd></div>
      ))}</dl>
      {module.cautions && <><h2>{t("Cautions")}</h2><ul class="cautions">{Object.values(module.cautions).map((caution) => <li><b>{say.capital(say.spoken(caution.signal ?? ""))}.</b> {filled(sentence(caution), module)}</li>)}</ul></>}
      {module.instructor && <><h2>{t("For the instructor")}</h2><Prose text={filled(module.instructor, module)} /></>}
      <More title={t("As it is written")}><pre class="said" tabIndex={0} lang={foreign()}>{files[`modules/${id}.yaml`]}</pre></More>
      <h2>{t("For your own group")}</h2>
      {own === undefined
        ? <p><button type="button" onClick={async () => change(path, await beginning(bench, id, path, one.title))}>{t("Change this subject for our group")}</button></p>
        : <Own bench={bench} path={path} own={own} module={module} id={id} change={change} valueOf={valueOf} />}
    </>
  );
}

/** A layer over a subject or place, with the mark of what it is written over as it is today: the program says it. */
async function beginning(bench, id, path, title) {
  const named = title ? put("", ["title"], title) : "";
  // a language is laid over the English: what it is written over is no concern of its
  if (path.startsWith(`content/${language()}/`)) return named;
  const plain = `extends: ${id}\n`;
  // the mark is told for a layer that changes something
  const { out } = await bench.run(["check", "--json", "ours"], { [`ours/${path}`]: plain + (named || put("", ["title"], id)) });
  const mark = parsed(out)?.warnings.find((one) => one.code === "content.base")?.help.match(/`(base: \S+)`/)?.[1];
  return `${plain}${mark ? `${mark}\n` : ""}${named}`;
}

/** Where a group's words stand: beside the library's of the language that is spoken. */
const pathOf = (id) => `content/${language() === "en" ? "" : `${language()}/`}modules/${id}.yaml`;

function change(path, text) {
  if (!state.work) begin({ name: "trip.yaml", text: `title: ${t("Our trip")}\n` });
  const overlay = { ...state.work.overlay };
  if (text === undefined) delete overlay[path];
  else overlay[path] = text;
  setOverlay(overlay, path);
}

function valueOf(fact) {
  if (fact.value) return decimals(fact.value);
  if (fact.low) return t("{low} to {high}", { low: decimals(fact.low), high: decimals(fact.high) });
  return fact.text ?? fact.warming ?? "";
}

/** `{name}` in prose is the module's fact of that name. */
function filled(text, module) {
  return String(text ?? "").replace(/\{([a-z0-9-]+)\}/g, (whole, name) => (module.facts?.[name] ? valueOf(module.facts[name]) : whole));
}
