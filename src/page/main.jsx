// Puts the page together: unpacks the program, opens its way in for programs
// (`window.leeside`), and shows the view that the address names.
import { Component, render } from "preact";
import { useEffect } from "preact/hooks";
import worker from "worker:./program/worker.js";
import { nameLibrary, readLibrary } from "./library.js";
import { look, setBench } from "./live.js";
import { Bench, unpack } from "./program/program.js";
import { changed, keepNow, listen, redo, resume, setting, state, tell, undo, wouldLose } from "./state.js";
import * as store from "./keep/store.js";
import { Clock } from "./views/clock.jsx";
import { go, route } from "./views/go.js";
import { Library } from "./views/library.jsx";
import { Heading, useKnown } from "./views/parts.jsx";
import { Papers, readAsk } from "./views/papers.jsx";
import { Practice, readTopics } from "./views/practice.jsx";
import { Season } from "./views/season.jsx";
import { Shelf } from "./views/shelf.jsx";
import { Start } from "./views/start.jsx";
import { WhatIf } from "./views/whatif.jsx";
import { Form, Text, WorkBar, saveWork } from "./views/work.jsx";
import { LANGUAGES, firstOf, language, list, speak, t } from "./text/language.js";

/** Runs that the reader waits for, and runs that follow each letter typed. */
const benches = { press: null, live: null };

const WORK_VIEWS = ["form", "text", "papers", "whatif", "clock"];

function Page() {
  const { program, why, told, work, topics, library, live, commands } = useKnown();
  const [name, ...rest] = route();
  const view = name || "start";
  const at = rest.join("/");
  return (
    <>
      <a class="skip" href="#main" onClick={(event) => { event.preventDefault(); document.querySelector("main h1")?.focus(); }}>{t("To the contents")}</a>
      <header>
        <a class="mark" href="#start" aria-label={t("leeside, start")}>leeside</a>
        <nav aria-label={t("Main")}>
          {[["start", t("Start")], ...(work ? [["form", t("In hand")]] : []), ["practice", t("Practice")], ...(commands.has("season") ? [["season", t("Season")]] : []), ...(commands.has("shelf") ? [["shelf", t("Shelf")]] : []), ["library", t("Library")]].map(([to, word]) => (
            <a href={`#${to}`} aria-current={view === to || (to === "form" && WORK_VIEWS.includes(view)) ? "page" : undefined}>{word}</a>
          ))}
        </nav>
        <Languages />
      </header>
      <main id="main" data-ready={program === "ready" ? "yes" : undefined} data-looked={work && live.text === work.text && live.overlay === work.overlay ? "yes" : undefined}>
        <div role="status" class={told ? `told ${told.kind}` : "unseen"}>
          {told && <><span>{told.text}</span> <button type="button" class="quiet" onClick={() => tell("")}>{t("Close {unseen}", { unseen: <span class="unseen">{t("this message")}</span> })}</button></>}
        </div>
        {program === "failed" && <p class="told trouble" role="alert">{why}</p>}
        {WORK_VIEWS.includes(view) && <WorkBar view={view} />}
        <Held key={`${view} ${work?.id} ${language()}`}>
        {view === "start" && <Start />}
        {view === "form" && <Form key={work?.id} />}
        {view === "text" && <Text key={work?.id} />}
        {view === "papers" && (program === "ready" ? <Papers bench={benches.press} at={at} /> : <p class="hint">{t("The program is being unpacked.")}</p>)}
        {view === "whatif" && <WhatIf key={work?.id} />}
        {view === "clock" && <Clock />}
        {view === "practice" && <Practice bench={benches.press} topics={topics} at={at} />}
        {view === "season" && (commands.has("season") ? <Season bench={benches.press} at={at} /> : <p class="hint">{t("The program is being unpacked.")}</p>)}
        {view === "shelf" && (commands.has("shelf") ? <Shelf bench={benches.press} /> : <p class="hint">{t("The program is being unpacked.")}</p>)}
        {view === "library" && <Library bench={benches.press} at={at} library={library} />}
        {!["start", ...WORK_VIEWS, "practice", "library", "season", "shelf"].includes(view) && <><Heading>{t("No such page")}</Heading><p><a href="#start">{t("To the start")}</a></p></>}
        </Held>
      </main>
      <footer><p>{t("The land manager's rules, the maker's instructions and trained first aid come first. This file asks nothing of any network.")}</p></footer>
    </>
  );
}

/** The switch of the page's language: its names are said in their own languages. */
function Languages() {
  return (
    <fieldset class="switch languages">
      <legend class="unseen">{t("Language")}</legend>
      {LANGUAGES.map(([code, name]) => (
        <label><input type="radio" name="language" checked={language() === code} onChange={() => speaks(code)} /> <span lang={code}>{name}</span></label>
      ))}
    </fieldset>
  );
}

/** Another language of the page; the work in hand, and the language of its sheets, stay as they are. */
function speaks(code) {
  speak(code);
  if (state.library) nameLibrary(state.library.files);
  setting({ language: code });
}

/** A view that breaks leaves the rest of the page, and what was written, as they are. */
class Held extends Component {
  componentDidCatch(error) {
    console.warn(error);
    this.setState({ broken: String(error?.message ?? error), at: location.hash });
  }

  render() {
    const { broken, at } = this.state;
    if (!broken || at !== location.hash) return this.props.children;
    return <p class="told trouble" role="alert">{t("This view broke: {broken}. Nothing that you wrote is lost. {link}, or save it to a file.", { broken, link: <a href="#text">{t("Go on in the text")}</a> })}</p>;
  }
}

function Root() {
  useEffect(() => {
    let [before] = route();
    const moved = () => {
      document.body.dataset.moved = "yes";
      // another sheet in the same view leaves the reader where they are
      if (route()[0] !== before) window.scrollTo(0, 0);
      [before] = route();
      changed();
    };
    window.addEventListener("hashchange", moved);
    return () => window.removeEventListener("hashchange", moved);
  }, []);
  return <Page />;
}

function keys(event) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || !state.work) return;
  const key = event.key.toLowerCase();
  const isText = event.target.matches?.("input, textarea");
  if (key === "s") saveWork();
  else if (key === "z" && !isText) (event.shiftKey ? redo : undo)();
  else return;
  event.preventDefault();
}

/** What a browser must have; said kindly where one is too old. */
function missing() {
  const needed = { WebAssembly: "WebAssembly" in window, ReadableStream: "ReadableStream" in window, dialog: "HTMLDialogElement" in window };
  return Object.keys(needed).filter((name) => !needed[name]);
}

async function start() {
  const lacks = missing();
  if (lacks.length) {
    changed({ program: "failed", why: t("This browser is too old for this page: it lacks {lacks}. A current Chromium or Firefox opens it, on a phone too.", { lacks: list(lacks) }) });
    return;
  }
  const packed = document.getElementById("program");
  const program = await unpack(packed.textContent, Number(packed.dataset.bytes));
  packed.remove();
  benches.press = new Bench(program, worker);
  benches.live = new Bench(program, worker);
  window.leeside = (args, files, options) => benches.press.run(args, files, options);
  setBench(benches.live);
  changed({ program: "ready" });
  performance.mark("ready");
  look();
  await readLibrary(benches.press);
  await readAsk(benches.press);
  const { out } = await benches.press.run(["--help"]);
  const commands = new Set([...out.matchAll(/^ {2}([a-z]+) {2,}/gm)].map((match) => match[1]));
  changed({ commands, topics: await readTopics(benches.press) });
}

speak(state.settings.language ?? firstOf(navigator.languages ?? [navigator.language]));
const last = store.lastHere();
if (last) resume(last);
render(<Root />, document.getElementById("page"));
listen(look);
window.addEventListener("keydown", keys);
window.addEventListener("pagehide", keepNow);
window.addEventListener("beforeunload", (event) => {
  keepNow();
  if (wouldLose()) event.preventDefault();
});
store.watch((id) => {
  if (state.work?.id === id) tell(t("Another tab works on this too. Whoever changes it last keeps a copy of its own; close one of them."), "trouble");
});
window.addEventListener("unhandledrejection", (event) => tell(t("Something went wrong in the page: {message}. What you wrote is kept; save it to a file.", { message: event.reason?.message ?? event.reason }), "trouble"));
start().catch((error) => changed({ program: "failed", why: t("The program in this file could not be started: {message}. The file may be cut short: get it again.", { message: error.message }) }));
if (!location.hash) go("start");
