// The season: a table with a departure a row, what is wrong with which row, the
// packets of all, and the season's papers to leaf through.
import { useEffect, useState } from "preact/hooks";
import { save, show, textOf } from "../keep/files.js";
import { canWrite, writeInto } from "../keep/folder.js";
import { zip } from "../keep/zip.js";
import { bases, departures, foundIn, isCurrent, keep, kept, look, make, openSeason, season, tripFiles, wholeProblems } from "../season.js";
import { changed, setting, tell } from "../state.js";
import * as say from "../text/words.js";
import { Given } from "./given.jsx";
import { go } from "./go.js";
import { Choice } from "./papers.jsx";
import { Heading, More, ProblemText, useKnown } from "./parts.jsx";
import { Sheet, printSheet, sheetName } from "./sheets.jsx";

/** Counts the runs begun: a newer one ends those before it. */
let turn = 0;

/** Looks at the rows that changed, and says after each how far it is. */
async function lookAgain(bench) {
  const mine = (turn += 1);
  try {
    await look(bench, (done, of) => {
      if (mine !== turn) return false;
      season.busy = done < of ? { word: "Looked at", done, of } : null;
      changed();
      return true;
    });
  } finally {
    if (mine === turn) {
      season.busy = null;
      changed();
    }
  }
}

async function makeAll(bench) {
  const mine = (turn += 1);
  let ended = false;
  try {
    season.busy = { word: "Made", done: 0, of: departures().rows.filter((row) => foundIn(row)?.problems.length === 0).length };
    changed();
    const why = await make(bench, (done, of) => {
      ended = mine !== turn;
      if (!ended) season.busy = { word: "Made", done, of };
      changed();
      return !ended;
    });
    if (why) tell(why, "trouble");
    else if (!ended) tell("The season's papers are made.");
  } finally {
    if (mine === turn) season.busy = null;
    changed();
  }
}

function stop() {
  turn += 1;
  season.busy = null;
  changed();
  tell("It ends with the departure that it is at. What is made is kept until the page is closed; making goes on from there.");
}

/** Another table, or the same with something changed. */
function take(part) {
  Object.assign(season, part);
  const why = keep();
  if (why) tell(why, "trouble");
  changed();
}

export function Season({ bench, at }) {
  const { library, settings } = useKnown();
  const [waits, setWaits] = useState(0);
  useEffect(() => { kept(); changed(); }, []);
  useEffect(() => {
    if (!season.text || !library) return undefined;
    // a table that is typed in is looked at when the typing pauses
    const wait = setTimeout(() => lookAgain(bench), waits ? 600 : 0);
    return () => clearTimeout(wait);
  }, [season.text, season.dates, season.base, season.own, library, waits]);
  const open = async (file) => {
    const opened = await textOf(file);
    if (opened.why || opened.bytes) {
      tell(opened.why ?? `${file.name} is no table: open a file that ends in .csv.`, "trouble");
      return;
    }
    const why = openSeason(opened.name, opened.text);
    if (why) tell(why, "trouble");
    changed();
  };
  const begin = async () => {
    const made = await bench.run(["season", "--template"]);
    season.made = {};
    take({ name: "season.csv", text: made.out, saved: null });
  };
  const toFile = () => {
    save(season.name, season.text);
    take({ saved: season.text });
    tell(`${season.name} went to where this browser saves files.`);
  };
  return (
    <>
      <Heading>The season</Heading>
      <p>A table with a departure a row, each on a trip file of its own or a common one. Every row becomes its packet; beside them come the list of each day and what to order.</p>
      <p class="row">
        <label class="button" for="open-season">Open a table (.csv)</label>
        <input id="open-season" class="unseen" type="file" accept=".csv,.tsv,.txt,.xlsx,.ods,text/csv" onChange={(event) => { if (event.target.files[0]) open(event.target.files[0]); event.target.value = ""; }} />
        {!season.text && <button type="button" onClick={begin}>A table to start from</button>}
        {season.text && <button type="button" onClick={toFile}>Save the table to a file</button>}
        <span class="hint">{season.text && (season.text === season.saved ? "saved to a file" : "kept in this browser, not saved to a file")}</span>
      </p>
      {season.text && (
        <>
          <Bases />
          <More title="Days, units, paper">
            <Choice id="season-dates" label="Days such as 03/04/2027 are" value={season.dates} of={[["", "as the table shows by itself"], ["day-first", "day, month, year"], ["month-first", "month, day, year"]]} onPick={(dates) => take({ dates })} />
            <Choice id="season-base" label="Trip file of rows that name none" value={season.base} of={[["", "none"], ...[...tripFiles().keys()].sort().map((name) => [name, say.spoken(name)])]} onPick={(base) => take({ base })} />
            <Choice id="season-units" label="Units" value={settings.units} of={[["", "as in the trip files"], ["us", "US"], ["metric", "metric"], ["both", "both"]]} onPick={(units) => setting({ units })} />
            <Choice id="season-paper" label="Paper" value={settings.paper ?? ""} of={[["", "as in the trip files"], ["letter", "letter"], ["a4", "A4"]]} onPick={(paper) => setting({ paper })} />
          </More>
          <Rows />
          <More title="The table as text" id="season-as-text">
            <label for="season-text">A row a line; what is changed here is looked at again</label>
            <textarea id="season-text" class="code" rows={12} wrap="off" spellcheck={false} value={season.text} onInput={(event) => { setWaits(waits + 1); take({ text: event.target.value }); }} />
          </More>
          <Given bench={bench} />
          <Made bench={bench} at={at} />
        </>
      )}
    </>
  );
}

/** The trip files that rows stand on, and which are still to be opened. */
function Bases() {
  const all = bases();
  const open = async (files) => {
    const own = { ...season.own };
    for (const file of files) {
      const opened = await textOf(file);
      if (opened.text === undefined) tell(opened.why ?? `${file.name} is no trip file.`, "trouble");
      else own[opened.name] = opened.text;
    }
    take({ own });
  };
  const lacking = all.filter(([, found]) => !found);
  return (
    <section class="card" aria-labelledby="season-bases">
      <h2 id="season-bases">Trip files it stands on</h2>
      {all.length === 0 && <p>No row names one. Name it in a column <code>base</code>, or choose one for all rows below.</p>}
      <ul class="lines">{all.map(([name, found]) => <li><b>{name}</b>: {found ? found.from : <strong class="missing">not here yet: open it</strong>}</li>)}</ul>
      <p>
        <label class={lacking.length ? "button strong" : "button"} for="open-bases">Open trip files (.yaml)</label>
        <input id="open-bases" class="unseen" type="file" multiple accept=".yaml,.yml" onChange={(event) => { open([...event.target.files]); event.target.value = ""; }} />
      </p>
    </section>
  );
}

function Rows() {
  const { heads, rows } = departures();
  const whole = wholeProblems();
  const wrong = rows.filter((row) => !row.off && foundIn(row)?.problems.length);
  const open = rows.filter((row) => !row.off && !foundIn(row));
  const { busy } = season;
  return (
    <section aria-labelledby="season-rows">
      <h2 id="season-rows">{say.count(rows.length, "departure")}</h2>
      <p role="status" class="hint">{busy ? `${busy.word} ${busy.done} of ${busy.of}` : whole.length ? "The table cannot be read as it is" : open.length ? "" : wrong.length ? `${say.count(wrong.length, "row")} to mend, the others can be made` : rows.length ? "Every row is right" : "It has headings and no rows"}</p>
      {whole.map((problem) => <p class="wrong problem"><strong>The table: </strong><ProblemText problem={problem} /></p>)}
      {wrong.length > 0 && (
        <section class="problems" aria-label="What is wrong, by row"><h3>What is wrong, by row</h3>
          <ul class="problem">{wrong.flatMap((row) => foundIn(row).problems.map((problem) => <li><a href="#season" onClick={(event) => { event.preventDefault(); toRow(row.number); }}>Row {row.number}, {row.name}</a>: <ProblemText problem={bare(problem)} /></li>))}</ul>
        </section>
      )}
      <div class="scroll" tabIndex={0} role="region" aria-label="Departures">
        <table>
          <thead><tr><th scope="col">Row</th><th scope="col">State</th>{heads.map((head) => <th scope="col">{say.capital(say.spoken(head))}</th>)}</tr></thead>
          <tbody>{rows.map((row) => <Departure row={row} heads={heads} />)}</tbody>
        </table>
      </div>
    </section>
  );
}

/** The row's problem without the words that its place in the list says already. */
function bare(problem) {
  return { ...problem, message: problem.message.replace(/^departure `.*?`, row \d+(, )?(: )?/, "") };
}

function Departure({ row, heads }) {
  const found = foundIn(row);
  const said = row.off ? "called off" : !found ? "not looked at yet" : found.problems.length ? say.count(found.problems.length, "problem") : found.warnings.length ? `right; ${say.count(found.warnings.length, "thing")} to look at` : "right";
  return (
    <tr class={found?.problems.length ? "differs" : undefined}>
      <td>{row.number}</td>
      <td>{found?.warnings.length ? <details><summary>{said}</summary><ul>{found.warnings.map((one) => <li><ProblemText problem={bare(one)} /></li>)}</ul></details> : said}</td>
      {heads.map((_, at) => <td>{row.cells[at] ?? ""}</td>)}
    </tr>
  );
}

/** Puts the cursor on a row of the table's text. */
function toRow(number) {
  const box = document.getElementById("season-as-text");
  box.open = true;
  const area = document.getElementById("season-text");
  const lines = area.value.split("\n");
  const start = lines.slice(0, number - 1).reduce((sum, line) => sum + line.length + 1, 0);
  area.focus();
  area.setSelectionRange(start, start + (lines[number - 1] ?? "").length);
  area.scrollTop = Math.max(0, (number - 3) * (area.scrollHeight / lines.length));
}

/** Making, and what was made: to leaf through, print, save. */
function Made({ bench, at }) {
  const { made, busy } = season;
  const decoder = new TextDecoder();
  const good = departures().rows.filter((row) => !row.off && foundIn(row)?.problems.length === 0);
  const folders = [...new Set(Object.keys(made).map((path) => path.split("/")[0]))].filter((name) => !["season", "days"].includes(name)).sort();
  const pages = ["season/index.html", "season/day-list.html", ...folders.map((name) => `${name}/index.html`)].filter((path) => made[path]);
  const shown = made[at] && at.endsWith(".html") ? at : pages[0];
  const goTo = (to) => {
    const path = decodeURIComponent(new URL(to, `http://x/${shown}`).pathname.slice(1));
    if (path.endsWith(".html") && made[path]) go(`season/${path}`);
    else if (made[path]) (path.endsWith(".pdf") ? show : save)(path.split("/").at(-1), made[path]);
    else tell("That file is not among what was made: make the packets again.", "trouble");
  };
  return (
    <section aria-labelledby="season-made">
      <h2 id="season-made">The papers</h2>
      <p class="row">
        <button type="button" class="strong" disabled={good.length === 0 || busy !== null} onClick={() => makeAll(bench)}>Make {say.count(good.length, "packet")}</button>
        {busy?.word === "Made" && <><progress max={busy.of} value={busy.done} aria-label="Packets made" /><button type="button" onClick={stop}>Stop</button></>}
        {shown && <button type="button" onClick={() => { const name = season.name.replace(/\.\w+$/, ""); save(`${name}.zip`, zip(made)); tell(`${name}.zip went to where this browser saves files: the packets, the day lists and the season's page.`); }}>Save all as a zip file</button>}
        {shown && canWrite() && <button type="button" onClick={async () => { const { name, why } = await writeInto(async () => ({ files: made })); if (why) tell(why, "trouble"); if (name) tell(`The season is in the folder ${name}.`); }}>Save all to a folder</button>}
      </p>
      {shown && busy === null && !isCurrent() && <p class="wrong open"><strong>Older than the table: </strong>something changed since these were made; make the packets again.</p>}
      {shown && (
        <>
          <div class="row" role="group" aria-label="This paper">
            <label class="unseen" for="season-which">Paper</label>
            <select id="season-which" value={pages.includes(shown) ? shown : ""} onChange={(event) => go(`season/${event.target.value}`)}>
              {!pages.includes(shown) && <option value="">{sheetName(shown, decoder.decode(made[shown]))}</option>}
              {pages.map((path) => <option value={path}>{path === "season/index.html" ? "The season's page" : path === "season/day-list.html" ? "The day list" : `Departure ${path.split("/")[0]}`}</option>)}
            </select>
            <button type="button" class="strong" onClick={printSheet}>Print this sheet</button>
          </div>
          <Sheet key={shown} html={decoder.decode(made[shown])} name={sheetName(shown, decoder.decode(made[shown]))} onGo={goTo} />
        </>
      )}
    </section>
  );
}
