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
import { later, t } from "../text/language.js";

/** Counts the runs begun: a newer one ends those before it. */
let turn = 0;

/** Looks at the rows that changed, and says after each how far it is. */
async function lookAgain(bench) {
  const mine = (turn += 1);
  try {
    await look(bench, (done, of) => {
      if (mine !== turn) return false;
      season.busy = done < of ? { word: later("Looked at {done} of {of}"), done, of } : null;
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
    season.busy = { isMaking: true, word: later("Made {done} of {of}"), done: 0, of: departures().rows.filter((row) => foundIn(row)?.problems.length === 0).length };
    changed();
    const why = await make(bench, (done, of) => {
      ended = mine !== turn;
      if (!ended) season.busy = { isMaking: true, word: later("Made {done} of {of}"), done, of };
      changed();
      return !ended;
    });
    if (why) tell(why, "trouble");
    else if (!ended) tell(t("The season's papers are made."));
  } finally {
    if (mine === turn) season.busy = null;
    changed();
  }
}

function stop() {
  turn += 1;
  season.busy = null;
  changed();
  tell(t("It ends with the departure that it is at. What is made is kept until the page is closed; making goes on from there."));
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
      tell(opened.why ?? t("{name} is no table: open a file that ends in .csv.", { name: file.name }), "trouble");
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
    tell(t("{name} went to where this browser saves files.", { name: season.name }));
  };
  return (
    <>
      <Heading>{t("The season")}</Heading>
      <p>{t("A table with a departure a row, each on a trip file of its own or a common one. Every row becomes its packet; beside them come the list of each day and what to order.")}</p>
      <p class="row">
        <label class="button" for="open-season">{t("Open a table (.csv)")}</label>
        <input id="open-season" class="unseen" type="file" accept=".csv,.tsv,.txt,.xlsx,.ods,text/csv" onChange={(event) => { if (event.target.files[0]) open(event.target.files[0]); event.target.value = ""; }} />
        {!season.text && <button type="button" onClick={begin}>{t("A table to start from")}</button>}
        {season.text && <button type="button" onClick={toFile}>{t("Save the table to a file")}</button>}
        <span class="hint">{season.text && (season.text === season.saved ? t("saved to a file") : t("kept in this browser, not saved to a file"))}</span>
      </p>
      {season.text && (
        <>
          <Bases />
          <More title={t("Days, units, paper")}>
            <Choice id="season-dates" label={t("Days such as 03/04/2027 are")} value={season.dates} of={[["", t("as the table shows by itself")], ["day-first", t("day, month, year")], ["month-first", t("month, day, year")]]} onPick={(dates) => take({ dates })} />
            <Choice id="season-base" label={t("Trip file of rows that name none")} value={season.base} of={[["", t("none")], ...[...tripFiles().keys()].sort().map((name) => [name, say.spoken(name)])]} onPick={(base) => take({ base })} />
            <Choice id="season-units" label={t("Units")} value={settings.units} of={[["", t("as in the trip files")], ["us", t("US")], ["metric", t("metric")], ["both", t("both")]]} onPick={(units) => setting({ units })} />
            <Choice id="season-paper" label={t("Paper")} value={settings.paper ?? ""} of={[["", t("as in the trip files")], ["letter", t("letter")], ["a4", "A4"]]} onPick={(paper) => setting({ paper })} />
          </More>
          <Rows />
          <More title={t("The table as text")} id="season-as-text">
            <label for="season-text">{t("A row a line; what is changed here is looked at again")}</label>
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
      if (opened.text === undefined) tell(opened.why ?? t("{name} is no trip file.", { name: file.name }), "trouble");
      else own[opened.name] = opened.text;
    }
    take({ own });
  };
  const lacking = all.filter(([, found]) => !found);
  return (
    <section class="card" aria-labelledby="season-bases">
      <h2 id="season-bases">{t("Trip files it stands on")}</h2>
      {all.length === 0 && <p>{t("No row names one. Name it in a column {code}, or choose one for all rows below.", { code: <code>base</code> })}</p>}
      <ul class="lines">{all.map(([name, found]) => <li><b>{name}</b>: {found ? t(found.from) : <strong class="missing">{t("not here yet: open it")}</strong>}</li>)}</ul>
      <p>
        <label class={lacking.length ? "button strong" : "button"} for="open-bases">{t("Open trip files (.yaml)")}</label>
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
      <h2 id="season-rows">{t("{n} departure|{n} departures", { n: rows.length })}</h2>
      <p role="status" class="hint">{busy ? t(busy.word, busy) : whole.length ? t("The table cannot be read as it is") : open.length ? "" : wrong.length ? t("{n} row to mend, the others can be made|{n} rows to mend, the others can be made", { n: wrong.length }) : rows.length ? t("Every row is right") : t("It has headings and no rows")}</p>
      {whole.map((problem) => <p class="wrong problem"><strong>{t("The table:")} </strong><ProblemText problem={problem} /></p>)}
      {wrong.length > 0 && (
        <section class="problems" aria-label={t("What is wrong, by row")}><h3>{t("What is wrong, by row")}</h3>
          <ul class="problem">{wrong.flatMap((row) => foundIn(row).problems.map((problem) => <li><a href="#season" onClick={(event) => { event.preventDefault(); toRow(row.number); }}>{t("Row {number}, {name}", { number: row.number, name: row.name })}</a>: <ProblemText problem={bare(problem)} /></li>))}</ul>
        </section>
      )}
      <div class="scroll" tabIndex={0} role="region" aria-label={t("Departures")}>
        <table>
          <thead><tr><th scope="col">{t("Row")}</th><th scope="col">{t("State")}</th>{heads.map((head) => <th scope="col">{say.capital(say.spoken(head))}</th>)}</tr></thead>
          <tbody>{rows.map((row) => <Departure row={row} heads={heads} />)}</tbody>
        </table>
      </div>
    </section>
  );
}

/** The row's problem without the words that its place in the list says already. */
function bare(problem) {
  return { ...problem, message: problem.message.replace(/^\p{L}+ `.*?`, \p{L}+ \d+(, )?(: )?/u, "") };
}

function Departure({ row, heads }) {
  const found = foundIn(row);
  const said = row.off ? t("called off") : !found ? t("not looked at yet") : found.problems.length ? t("{n} problem|{n} problems", { n: found.problems.length }) : found.warnings.length ? t("right; {n} thing to look at|right; {n} things to look at", { n: found.warnings.length }) : t("right");
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
    else tell(t("That file is not among what was made: make the packets again."), "trouble");
  };
  return (
    <section aria-labelledby="season-made">
      <h2 id="season-made">{t("The papers")}</h2>
      <p class="row">
        <button type="button" class="strong" disabled={good.length === 0 || busy !== null} onClick={() => makeAll(bench)}>{t("Make {n} packet|Make {n} packets", { n: good.length })}</button>
        {busy?.isMaking && <><progress max={busy.of} value={busy.done} aria-label={t("Packets made")} /><button type="button" onClick={stop}>{t("Stop")}</button></>}
        {shown && <button type="button" onClick={() => { const name = season.name.replace(/\.\w+$/, ""); save(`${name}.zip`, zip(made)); tell(t("{name}.zip went to where this browser saves files: the packets, the day lists and the season's page.", { name })); }}>{t("Save all as a zip file")}</button>}
        {shown && canWrite() && <button type="button" onClick={async () => { const { name, why } = await writeInto(async () => ({ files: made })); if (why) tell(why, "trouble"); if (name) tell(t("The season is in the folder {name}.", { name })); }}>{t("Save all to a folder")}</button>}
      </p>
      {shown && busy === null && !isCurrent() && <p class="wrong open"><strong>{t("Older than the table:")} </strong>{t("something changed since these were made; make the packets again.")}</p>}
      {shown && (
        <>
          <div class="row" role="group" aria-label={t("This paper")}>
            <label class="unseen" for="season-which">{t("Paper")}</label>
            <select id="season-which" value={pages.includes(shown) ? shown : ""} onChange={(event) => go(`season/${event.target.value}`)}>
              {!pages.includes(shown) && <option value="">{sheetName(shown, decoder.decode(made[shown]))}</option>}
              {pages.map((path) => <option value={path}>{path === "season/index.html" ? t("The season's page") : path === "season/day-list.html" ? t("The day list") : t("Departure {name}", { name: path.split("/")[0] })}</option>)}
            </select>
            <button type="button" class="strong" onClick={printSheet}>{t("Print this sheet")}</button>
          </div>
          <Sheet key={shown} html={decoder.decode(made[shown])} name={sheetName(shown, decoder.decode(made[shown]))} onGo={goTo} />
        </>
      )}
    </section>
  );
}
