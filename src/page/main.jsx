// Puts the page together: unpacks the program, opens its way in for programs
// (`window.leeside`), and shows the view that the address names.
import { Component, render } from "preact";
import { useEffect } from "preact/hooks";
import worker from "worker:./program/worker.js";
import { readLibrary, modules } from "./library.js";
import { look, setBench } from "./live.js";
import { Bench, unpack } from "./program/program.js";
import { changed, keepNow, listen, redo, resume, state, tell, undo, wouldLose } from "./state.js";
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
      <a class="skip" href="#main" onClick={(event) => { event.preventDefault(); document.querySelector("main h1")?.focus(); }}>To the contents</a>
      <header>
        <a class="mark" href="#start" aria-label="leeside, start">leeside</a>
        <nav aria-label="Main">
          {[["start", "Start"], ...(work ? [["form", "In hand"]] : []), ["practice", "Practice"], ...(commands.has("season") ? [["season", "Season"]] : []), ...(commands.has("shelf") ? [["shelf", "Shelf"]] : []), ["library", "Library"]].map(([to, word]) => (
            <a href={`#${to}`} aria-current={view === to || (to === "form" && WORK_VIEWS.includes(view)) ? "page" : undefined}>{word}</a>
          ))}
        </nav>
      </header>
      <main id="main" data-ready={program === "ready" ? "yes" : undefined} data-looked={work && live.text === work.text && live.overlay === work.overlay ? "yes" : undefined}>
        <div role="status" class={told ? `told ${told.kind}` : "unseen"}>
          {told && <><span>{told.text}</span> <button type="button" class="quiet" onClick={() => tell("")}>Close<span class="unseen"> this message</span></button></>}
        </div>
        {program === "failed" && <p class="told trouble" role="alert">{why}</p>}
        {WORK_VIEWS.includes(view) && <WorkBar view={view} />}
        <Held key={`${view} ${work?.id}`}>
        {view === "start" && <Start />}
        {view === "form" && <Form key={work?.id} />}
        {view === "text" && <Text key={work?.id} />}
        {view === "papers" && (program === "ready" ? <Papers bench={benches.press} at={at} /> : <p class="hint">The program is being unpacked.</p>)}
        {view === "whatif" && <WhatIf key={work?.id} />}
        {view === "clock" && <Clock />}
        {view === "practice" && <Practice bench={benches.press} topics={topics} at={at} />}
        {view === "season" && (commands.has("season") ? <Season bench={benches.press} at={at} /> : <p class="hint">The program is being unpacked.</p>)}
        {view === "shelf" && (commands.has("shelf") ? <Shelf bench={benches.press} /> : <p class="hint">The program is being unpacked.</p>)}
        {view === "library" && <Library bench={benches.press} at={at} library={library} />}
        {!["start", ...WORK_VIEWS, "practice", "library", "season", "shelf"].includes(view) && <><Heading>No such page</Heading><p><a href="#start">To the start</a></p></>}
        </Held>
      </main>
      <footer><p>The land manager's rules, the maker's instructions and trained first aid come first. This file asks nothing of any network.</p></footer>
    </>
  );
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
    return <p class="told trouble" role="alert">This view broke: {broken}. Nothing that you wrote is lost. <a href="#text">Go on in the text</a>, or save it to a file.</p>;
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
  const needed = { WebAssembly: "WebAssembly" in window, ReadableStream: "ReadableStream" in window, "structured windows (dialog)": "HTMLDialogElement" in window };
  return Object.keys(needed).filter((name) => !needed[name]);
}

async function start() {
  const lacks = missing();
  if (lacks.length) {
    changed({ program: "failed", why: `This browser is too old for this page: it lacks ${lacks.join(" and ")}. A current Chromium or Firefox opens it, on a phone too.` });
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
  const library = await readLibrary(benches.press);
  library.modules = modules(library.files);
  await readAsk(benches.press);
  const { out } = await benches.press.run(["--help"]);
  const commands = new Set([...out.matchAll(/^ {2}([a-z]+) {2,}/gm)].map((match) => match[1]));
  changed({ commands, topics: await readTopics(benches.press) });
}

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
  if (state.work?.id === id) tell("Another tab works on this too. Whoever changes it last keeps a copy of its own; close one of them.", "trouble");
});
window.addEventListener("unhandledrejection", (event) => tell(`Something went wrong in the page: ${event.reason?.message ?? event.reason}. What you wrote is kept; save it to a file.`, "trouble"));
start().catch((error) => changed({ program: "failed", why: `The program in this file could not be started: ${error.message}. The file may be cut short: get it again.` }));
if (!location.hash) go("start");
