// The shelf of tagged canisters: what stands there, and the lines that say what
// happened to them. The ledger is a table in a file; lines are only added.
import { useEffect, useState } from "preact/hooks";
import { parsed } from "../live.js";
import { save, show, textOf } from "../keep/files.js";
import * as store from "../keep/store.js";
import { tell } from "../state.js";
import { readTable } from "../text/table.js";
import * as say from "../text/words.js";
import { Choice } from "./papers.jsx";
import { Heading, More, Told, useKnown } from "./parts.jsx";
import { known, later, t } from "../text/language.js";

const FILE = "shelf.csv";
const ID = "shelf";

/** What can happen to canisters: its words, and whether a departure is named. */
const ACTIONS = [
  ["weigh", later("Weighed")],
  ["issue", later("Handed out to a departure"), true],
  ["drop", later("Laid down where a departure will pick it up"), true],
  ["return", later("Came back")],
  ["reserve", later("Kept for a departure"), true],
  ["quarantine", later("Set aside: dented, leaking, label gone")],
  ["burn-down", later("Set aside to be burnt empty in lessons")],
  ["retire", later("Gone for good: empty, made safe, recycled")],
  ["lost", later("Cannot be found")],
];

export function Shelf({ bench }) {
  const { library } = useKnown();
  const [kept] = useState(() => store.work(ID));
  const [ledger, setLedger] = useState({ text: kept?.text ?? "", turn: kept?.turn, saved: kept?.saved ?? null });
  const [stock, setStock] = useState(null);
  const [why, setWhy] = useState(null);
  const take = (text, saved = ledger.saved) => {
    const answer = store.keep(ID, { name: FILE, text, saved }, ledger.turn);
    if (answer.other) {
      tell(t("Another tab has written into the shelf. Nothing was added: open the shelf again, or save this one to a file first."), "trouble");
      return;
    }
    if (answer.why) tell(answer.why, "trouble");
    setLedger({ text, saved, turn: answer.turn ?? ledger.turn });
  };
  useEffect(() => {
    let isHere = true;
    bench.run(["shelf", "list", "--json"], ledger.text ? { [FILE]: ledger.text } : {}).then((found) => {
      if (!isHere) return;
      setStock(parsed(found.out));
      if (found.status !== 0) setWhy({ err: found.err });
    });
    return () => { isHere = false; };
  }, [ledger.text]);
  const write = async (args, more = {}) => {
    const at = args[0] === "merge" ? [] : ["--at", now()];
    const result = await bench.run(["shelf", ...args, ...at], { ...(ledger.text ? { [FILE]: ledger.text } : {}), ...more });
    if (result.status !== 0) {
      setWhy({ err: result.err, again: /--sure/.test(result.err) ? [...args, "--sure"] : null });
      return false;
    }
    setWhy(null);
    if (!result.files[FILE]) {
      tell(result.err.trim() || t("Nothing is changed."));
      return true;
    }
    take(new TextDecoder("utf-8", { ignoreBOM: true }).decode(result.files[FILE]));
    tell(result.err.trim() || t("It is written."));
    return true;
  };
  const open = async (file) => {
    const opened = await textOf(file);
    if (opened.why || opened.bytes) {
      tell(opened.why ?? t("{name} is no table.", { name: file.name }), "trouble");
      return;
    }
    const found = await bench.run(["shelf", "list", "--json"], { [FILE]: opened.text });
    if (found.status === 0) take(opened.text, opened.text);
    else setWhy({ err: found.err });
  };
  const together = async (file) => {
    const opened = await textOf(file);
    if (opened.text === undefined) tell(opened.why ?? t("{name} is no table.", { name: file.name }), "trouble");
    else await write(["merge", "other.csv"], { "other.csv": opened.text });
  };
  const labels = async (args) => {
    const made = await bench.run(["shelf", "labels", ...args, "--out", "labels.pdf"], { [FILE]: ledger.text });
    if (made.files["labels.pdf"]) show("labels.pdf", made.files["labels.pdf"]);
    else setWhy({ err: made.err });
  };
  const canisters = stock?.canisters ?? [];
  return (
    <>
      <Heading>{t("The shelf")}</Heading>
      <p>{t("Part-used canisters by their tag: what came, went out, came back, and what is in them. A line that is written stays; a mistake is mended by a further line.")}</p>
      <p class="row">
        <label class="button" for="open-shelf">{t("Open a shelf (.csv)")}</label>
        <input id="open-shelf" class="unseen" type="file" accept=".csv,text/csv" onChange={(event) => { open(event.target.files[0]); event.target.value = ""; }} />
        <button type="button" class="strong" disabled={!ledger.text} onClick={() => { save(FILE, ledger.text); take(ledger.text, ledger.text); tell(t("{name} went to where this browser saves files.", { name: FILE })); }}>{t("Save the shelf to a file")}</button>
        <span class="hint">{ledger.text && (ledger.text === ledger.saved ? t("saved to a file") : t("kept in this browser, not saved to a file"))}</span>
      </p>
      {why && <div class="told trouble" role="alert"><pre class="said">{why.err}</pre>{why.again && <button type="button" onClick={() => write(why.again)}>{t("It is so all the same")}</button>}</div>}
      <h2>{t("{n} canister|{n} canisters", { n: canisters.length })}</h2>
      {canisters.length > 0 && (
        <div class="scroll" tabIndex={0} role="region" aria-label={t("Canisters")}>
          <table>
            <thead><tr><th scope="col">{t("Tag")}</th><th scope="col">{t("Size")}</th><th scope="col">{t("On the scale")}</th><th scope="col">{t("Empty")}</th><th scope="col">{t("Fuel in it")}</th><th scope="col">{t("Where")}</th></tr></thead>
            <tbody>{canisters.map((one) => (
              <tr key={one.tag}><th scope="row">{one.tag}</th><td>{say.spoken(one.size)}</td><td>{weight(one.gross_g)}</td><td>{weight(one.tare_g)}{one.tare_from ? <> (<Told text={one.tare_from} />)</> : ""}</td><td>{weight(one.net_g)}</td><td><Told text={standing(one.standing)} />{one.since ? `, ${t("since {day}", { day: one.since })}` : ""}</td></tr>
            ))}</tbody>
          </table>
        </div>
      )}
      {stock?.odd?.length > 0 && <><h2>{t("Odd")}</h2><ul>{stock.odd.map((odd) => <li>{odd.tag}: <Told text={odd.what} /></li>)}</ul></>}
      <Receive write={write} sizes={sizesOf(library)} />
      <Happened write={write} canisters={canisters} />
      {canisters.length > 0 && <Labels labels={labels} />}
      {ledger.text && <Lines text={ledger.text} write={write} />}
      {ledger.text && (
        <More title={t("Another copy of this shelf, written on apart")}>
          <p class="hint">{t("Both copies' lines are laid together; none is lost, none counted twice.")}</p>
          <label class="button" for="merge-shelf">{t("Open the other copy (.csv)")}</label>
          <input id="merge-shelf" class="unseen" type="file" accept=".csv,text/csv" onChange={(event) => { if (event.target.files[0]) together(event.target.files[0]); event.target.value = ""; }} />
        </More>
      )}
    </>
  );
}

/** `out with june-1`: what is so, and with which departure. */
function standing(text) {
  const [, what, departure] = text.match(/^(kept for|out with|laid down for) (.+)$/) ?? [];
  return what && known(what) ? `${known(what)} ${departure}` : text;
}

const weight = (g) => (g == null ? t("not known") : say.grams(g));

/** The time as the ledger has it: this device's clock, in universal time. */
function now() {
  return new Date().toISOString().slice(0, 16);
}

function sizesOf(library) {
  return library?.names.canisters ?? [];
}

function Receive({ write, sizes }) {
  const [ask, setAsk] = useState({ size: "", count: "1", tare: "", gas: "" });
  const pick = (part) => setAsk({ ...ask, ...part });
  const send = async (event) => {
    event.preventDefault();
    await write(["receive", "--size", ask.size || sizes[0]?.[0] || "", "--count", ask.count, ...(ask.tare ? ["--tare", ask.tare] : []), ...(ask.gas ? ["--gas", ask.gas] : [])]);
  };
  return (
    <form onSubmit={send}>
      <h2>{t("New ones came")}</h2>
      <div class="fields-row">
        <div class="field"><label for="size">{t("Size")}</label><select id="size" value={ask.size || sizes[0]?.[0]} onChange={(event) => pick({ size: event.target.value })}>{sizes.map(([id, name]) => <option value={id}>{name}</option>)}</select></div>
        <div class="field"><label for="many">{t("How many alike")}</label><input id="many" inputMode="numeric" autocomplete="off" value={ask.count} onInput={(event) => pick({ count: event.target.value })} /></div>
        <div class="field"><label for="tare">{t("Mass empty, from the label")}</label><p class="hint">{t("such as 150 g; left open, the table's guess")}</p><input id="tare" autocomplete="off" value={ask.tare} onInput={(event) => pick({ tare: event.target.value })} /></div>
        <div class="field"><label for="gas">{t("What gas")}</label><p class="hint">{t("such as propane 30, isobutane 70")}</p><input id="gas" autocomplete="off" value={ask.gas} onInput={(event) => pick({ gas: event.target.value })} /></div>
      </div>
      <p><button type="submit" class="strong">{t("Put them on the shelf")}</button></p>
    </form>
  );
}

function Happened({ write, canisters }) {
  const [ask, setAsk] = useState({ action: "weigh", tag: "", gross: "", departure: "" });
  const pick = (part) => setAsk({ ...ask, ...part });
  const isForDeparture = ACTIONS.find(([word]) => word === ask.action)[2];
  if (canisters.length === 0) return null;
  const send = async (event) => {
    event.preventDefault();
    const tag = ask.tag || canisters[0].tag;
    const done = await write([ask.action, ask.gross ? `${tag}=${ask.gross}` : tag, ...(isForDeparture ? ["--departure", ask.departure] : [])]);
    if (done) pick({ gross: "" });
  };
  return (
    <form onSubmit={send}>
      <h2>{t("Something happened to one")}</h2>
      <div class="fields-row">
        <div class="field"><label for="tag">{t("Tag")}</label><select id="tag" value={ask.tag || canisters[0].tag} onChange={(event) => pick({ tag: event.target.value })}>{canisters.map((one) => <option>{one.tag}</option>)}</select></div>
        <div class="field"><label for="action">{t("What")}</label><select id="action" value={ask.action} onChange={(event) => pick({ action: event.target.value })}>{ACTIONS.map(([word, said]) => <option value={word}>{t(said)}</option>)}</select></div>
        <div class="field"><label for="gross">{t("On the scale")}</label><p class="hint">{t("such as 291 g; may be left open")}</p><input id="gross" autocomplete="off" value={ask.gross} onInput={(event) => pick({ gross: event.target.value })} /></div>
        {isForDeparture && <div class="field"><label for="departure">{t("Departure")}</label><input id="departure" autocomplete="off" value={ask.departure} onInput={(event) => pick({ departure: event.target.value })} /></div>}
      </div>
      <p><button type="submit" class="strong">{t("Write it down")}</button></p>
    </form>
  );
}

/** Labels with a code to scan, to stick on. */
function Labels({ labels }) {
  const { settings } = useKnown();
  const [paper, setPaper] = useState(settings.paper || "a4");
  const [start, setStart] = useState("1");
  return (
    <More title={t("Labels to stick on")}>
      <form class="fields-row" onSubmit={(event) => { event.preventDefault(); labels(["--paper", paper, "--start", start]); }}>
        <Choice id="labels-paper" label={t("Sheet of labels")} value={paper} of={[["a4", "A4"], ["letter", t("letter")]]} onPick={setPaper} />
        <div class="field"><label for="labels-start">{t("First free label")}</label><p class="hint">{t("counted along the rows")}</p><input id="labels-start" inputMode="numeric" autocomplete="off" value={start} onInput={(event) => setStart(event.target.value)} /></div>
        <p><button type="submit">{t("Labels as PDF")}</button></p>
      </form>
    </More>
  );
}

/** Every line of the ledger; one that was wrong is told to count for nothing, and stays. */
function Lines({ text, write }) {
  const [heads, ...rows] = readTable(text).rows;
  const at = (name) => heads.cells.indexOf(name);
  const corrected = new Set(rows.map((row) => row.cells[at("corrects")]).filter(Boolean));
  return (
    <More title={t("Every line that was written")} count={rows.length}>
      <div class="scroll" tabIndex={0} role="region" aria-label={t("Lines of the ledger")}>
        <table>
          <thead><tr>{heads.cells.map((head) => <th scope="col">{say.capital(say.spoken(head))}</th>)}<th scope="col">{t("Mend")}</th></tr></thead>
          <tbody>{rows.map((row) => (
            <tr key={row.cells[0]}>
              {heads.cells.map((_, cell) => <td>{row.cells[cell] ?? ""}</td>)}
              <td>{corrected.has(row.cells[0]) ? t("corrected") : <button type="button" class="quiet" onClick={() => write(["correct", row.cells[0], "--void"])}>{t("Counts for nothing")}<span class="unseen">, {t("line {line}", { line: row.number })}</span></button>}</td>
            </tr>
          ))}</tbody>
        </table>
      </div>
    </More>
  );
}
