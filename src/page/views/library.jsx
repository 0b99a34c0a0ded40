// The library: what every sheet is made from, to read, and to change for one's
// own group in a layer of its own.
import { useEffect, useState } from "preact/hooks";
import { modules, places, sources } from "../library.js";
import { parsed } from "../live.js";
import { save } from "../keep/files.js";
import { zip } from "../keep/zip.js";
import { begin, setOverlay, state, tell } from "../state.js";
import * as say from "../text/words.js";
import { Heading, More, Prose, useKnown } from "./parts.jsx";
import { Opener } from "./start.jsx";

export function Library({ bench, at }) {
  const { library } = useKnown();
  if (!library) return <><Heading>The library</Heading><p class="hint">The library is being read.</p></>;
  const [kind, id] = at.split("/");
  if (kind === "modules" && id) return <Module key={id} bench={bench} id={id} files={library.files} />;
  return (
    <>
      <Heading>The library</Heading>
      <p>What the sheets say comes from here: subjects, rules of places, and the sources behind each figure. To change something for your own group, open its subject.</p>
      <OwnLayer />
      <h2>Subjects</h2>
      <ul class="list-of">{modules(library.files).map((one) => <li key={one.id}><a href={`#library/modules/${one.id}`}>{one.title}</a> <small>{one.summary}</small></li>)}</ul>
      <h2>Places and their rules</h2>
      {places(library.files).map((place) => <Place key={place.id} place={place} />)}
      <h2>Sources</h2>
      <More title="All sources" count={sources(library.files).length}>
        <dl class="facts">{sources(library.files).map((one) => <div><dt id={`source-${one.code}`}>{one.code}: {one.title}</dt><dd>{one.publisher}{one.year ? `, ${one.year}` : ""}. {one.url && <a href={one.url} target="_blank" rel="noreferrer">{one.url}</a>} {one.note && <small>{one.note}</small>}</dd></div>)}</dl>
      </More>
    </>
  );
}

function OwnLayer() {
  const overlay = state.work?.overlay ?? {};
  const paths = Object.keys(overlay);
  return (
    <section class="card" aria-labelledby="own">
      <h2 id="own">Of your group</h2>
      {paths.length === 0 ? <p>Nothing is changed for your group{state.work ? "" : "; open a trip first, so that a change has sheets to show on"}.</p> : (
        <>
          <ul>{paths.map((path) => <li><a href={`#library/modules/${path.split("/").at(-1).replace(".yaml", "")}`}>{path}</a></li>)}</ul>
          <p class="row">
            <button type="button" onClick={() => save("our-library.zip", zip(encoded(overlay)))}>Save it to a file</button>
            <button type="button" class="quiet" onClick={() => setOverlay({})}>Take it off</button>
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

function Place({ place }) {
  return (
    <More title={place.title}>
      <p>{place.summary}</p>
      <dl class="facts">{Object.entries(place.rules ?? {}).flatMap(([subject, rule]) => (rule.text || rule.value ? [[subject, rule]] : Object.entries(rule).map(([name, one]) => [`${subject}, ${name}`, one]))).map(([name, rule]) => (
        <div><dt>{say.capital(say.spoken(name))}</dt><dd>{rule.value ?? rule.text} <small>{[].concat(rule.source ?? []).join(", ")}{rule.note ? ` ${rule.note}` : ""}</small></dd></div>
      ))}</dl>
      {place.disagreements && <><h3>Where authorities differ</h3><Prose text={place.disagreements} /></>}
    </More>
  );
}

function Module({ bench, id, files }) {
  const one = modules(files).find((found) => found.id === id);
  const path = `content/modules/${id}.yaml`;
  const own = state.work?.overlay?.[path];
  if (!one) return <><Heading>No such subject</Heading><p><a href="#library">To the library</a></p></>;
  const { module } = one;
  return (
    <>
      <p><a href="#library">The library</a></p>
      <Heading>{one.title}</Heading>
      <p>{module.summary}</p>
      <h2>To read</h2>
      <Prose text={filled(module.text, module)} />
      <h2>Facts</h2>
      <dl class="facts">{Object.entries(module.facts ?? {}).map(([name, fact]) => (
        <div><dt>{say.capital(fact.say ?? say.spoken(name))}</dt><dd><b>{valueOf(fact)}</b> <small>{[fact.basis, ...[].concat(fact.source ?? [])].filter(Boolean).join(", ")}</small>{fact.disagreement && <span class="help">Others say: {fact.disagreement}</span>}</dd></div>
      ))}</dl>
      {module.cautions && <><h2>Cautions</h2><ul class="cautions">{Object.values(module.cautions).map((caution) => <li><b>{say.capital(caution.signal ?? "")}.</b> {filled([caution.hazard, `${caution.consequence}.`, `${caution.avoid}.`, caution.respond && `${caution.respond}.`].filter(Boolean).join(" "), module)}</li>)}</ul></>}
      {module.instructor && <><h2>For the instructor</h2><Prose text={filled(module.instructor, module)} /></>}
      <More title="As it is written"><pre class="said" tabIndex={0}>{files[`modules/${id}.yaml`]}</pre></More>
      <h2>For your own group</h2>
      {own === undefined
        ? <p><button type="button" onClick={() => change(path, `extends: ${id}\ntitle: ${one.title}\n`)}>Change this subject for our group</button></p>
        : <Own bench={bench} path={path} own={own} />}
    </>
  );
}

function change(path, text) {
  if (!state.work) begin({ name: "trip.yaml", text: "title: Our trip\n" });
  const overlay = { ...state.work.overlay };
  if (text === undefined) delete overlay[path];
  else overlay[path] = text;
  setOverlay(overlay, path);
}

function valueOf(fact) {
  if (fact.value) return fact.value;
  if (fact.low) return `${fact.low} to ${fact.high}`;
  return fact.text ?? fact.warming ?? "";
}

/** `{name}` in prose is the module's fact of that name. */
function filled(text, module) {
  return String(text ?? "").replace(/\{([a-z0-9-]+)\}/g, (whole, name) => (module.facts?.[name] ? valueOf(module.facts[name]) : whole));
}

/** The group's layer over one subject: its text, what is wrong with it, which sheets change and how. */
function Own({ bench, path, own }) {
  const [said, setSaid] = useState(null);
  const [sheets, setSheets] = useState(null);
  useEffect(() => {
    const wait = setTimeout(async () => {
      const files = Object.fromEntries(Object.entries(state.work.overlay).map(([name, text]) => [`ours/${name}`, text]));
      const check = await bench.run(["check", "--json", "ours"], files);
      setSaid(parsed(check.out) ?? { problems: [{ message: check.err }], warnings: [] });
    }, 250);
    return () => clearTimeout(wait);
  }, [own]);
  const compare = async () => {
    const { work } = state;
    const files = Object.fromEntries(Object.entries(work.overlay).map(([name, text]) => [`ours/${name}`, text]));
    const make = (flags) => bench.run(["make", work.name, "--out", "out", "--format", "md", ...flags], { ...files, [work.name]: work.text });
    const [before, after] = await Promise.all([make([]), make(["--content", "ours"])]);
    if (before.status || after.status) {
      tell((after.err || before.err).trim(), "trouble");
      return;
    }
    setSheets(differences(before.files, after.files));
  };
  const found = said ? [...said.problems, ...said.warnings] : [];
  return (
    <>
      <label for="own-text">What your group says instead: only the keys that differ</label>
      <textarea id="own-text" class="code" rows={10} spellcheck={false} value={own} onInput={(event) => change(path, event.target.value)} />
      <div role="status">{found.map((problem) => <p class="wrong problem">{problem.line ? `Line ${problem.line}: ` : ""}{problem.message}{problem.help && <span class="help">{problem.help}</span>}</p>)}
        {said && found.length === 0 && <p>Nothing is wrong in it.</p>}</div>
      <p class="row">
        <button type="button" onClick={compare}>Which sheets change, and how</button>
        <button type="button" class="quiet" onClick={() => change(path, undefined)}>Take this change away</button>
      </p>
      {sheets && (sheets.length === 0 ? <p>No sheet of this trip changes.</p> : sheets.map((sheet) => (
        <More title={say.capital(say.spoken(sheet.name))} count={sheet.lines.length}>
          <ul class="differences">{sheet.lines.map((line) => <li class={line.is}><b>{line.is === "gone" ? "Before: " : "After: "}</b>{line.text}</li>)}</ul>
        </More>
      )))}
    </>
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
