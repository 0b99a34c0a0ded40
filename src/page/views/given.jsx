// Which canister of the shelf goes with which departure: shared out by the
// program, read through, saved, and taken along when the packets are made.
import { useState } from "preact/hooks";
import { save, textOf } from "../keep/files.js";
import { bases, departures, foundIn, given, isSharedNow, keep, ledger, openAssigned, season, share } from "../season.js";
import { changed, tell } from "../state.js";
import * as say from "../text/words.js";
import { More } from "./parts.jsx";
import { later, t } from "../text/language.js";

const FILE = "assigned.csv";
/** The rules of the house: flag, words, an example; left open, the program's own hold. */
const RULES = [
  ["--turnaround", later("Days between coming back and leaving again"), "2", "numeric"],
  ["--floor", later("Least fuel that goes along"), "30 g"],
  ["--frost", later("Full ones only where a night is as cold as"), "0 C"],
];

export function Given({ bench }) {
  const [rules, setRules] = useState({});
  const [why, setWhy] = useState("");
  const isThere = ledger() !== "";
  const lacking = bases().some(([, found]) => !found);
  const right = departures().rows.filter((row) => !row.off && foundIn(row)?.problems.length === 0).length;
  const shareOut = async () => {
    season.busy = { word: later("Sharing out canisters over departures: {done} of {of}"), done: 0, of: right };
    setWhy("");
    changed();
    try {
      const told = await share(bench, RULES.flatMap(([flag]) => (rules[flag] ? [flag, rules[flag]] : [])));
      setWhy([told.why, told.looks].filter(Boolean).join("\n\n"));
      if (!told.why) tell(t("The canisters are shared out: look through who gets which."));
    } finally {
      season.busy = null;
      changed();
    }
  };
  const open = async (file) => {
    const opened = await textOf(file);
    const fault = opened.text === undefined ? opened.why ?? t("{name} is no table.", { name: file.name }) : openAssigned(opened.text);
    if (fault) tell(fault, "trouble");
    changed();
  };
  const drop = () => {
    season.assigned = null;
    const fault = keep();
    if (fault) tell(fault, "trouble");
    else tell(t("The packets take the canisters that their trip files list, and new ones."));
    changed();
  };
  return (
    <section aria-labelledby="season-given">
      <h2 id="season-given">{t("Canisters from the shelf")}</h2>
      {isThere
        ? <p>{t("Each departure gets what its own calculation takes of what is on the shelf by the day it leaves. Without that, packets take the canisters that their trip files list, and new ones.")}</p>
        : <p>{t("There is no shelf here: {link}, then share its canisters out over the departures. Without that, packets take the canisters that their trip files list, and new ones.", { link: <a href="#shelf">{t("open one or begin one")}</a> })}</p>}
      {isThere && (
        <More title={t("Rules of the house")}>
          <div class="fields-row">{RULES.map(([flag, words, hint, mode]) => (
            <div class="field" key={flag}><label for={`rule${flag}`}>{t(words)}</label><p class="hint" id={`hint${flag}`}>{t("such as {value}, which holds when this is left open", { value: hint })}</p><input id={`rule${flag}`} aria-describedby={`hint${flag}`} autocomplete="off" inputMode={mode} value={rules[flag] ?? ""} onInput={(event) => setRules({ ...rules, [flag]: event.target.value.trim() })} /></div>
          ))}</div>
        </More>
      )}
      <p class="row">
        {isThere && <button type="button" class="strong" disabled={right === 0 || lacking || season.busy !== null} onClick={shareOut}>{t("Share the canisters out")}</button>}
        {season.assigned && <button type="button" onClick={() => { save(FILE, season.assigned.text); tell(t("{name} went to where this browser saves files.", { name: FILE })); }}>{t("Save who gets which")}</button>}
        {season.assigned && <button type="button" onClick={drop}>{t("Make the packets without the shelf")}</button>}
        <label class="button" for="open-assigned">{t("Open who gets which (.csv)")}</label>
        <input id="open-assigned" class="unseen" type="file" accept=".csv,text/csv" onChange={(event) => { if (event.target.files[0]) open(event.target.files[0]); event.target.value = ""; }} />
      </p>
      {why && <div class="told trouble" role="alert"><pre class="said">{why}</pre></div>}
      {season.assigned && <Which />}
    </section>
  );
}

/** The table of who gets which, with what the program said of it. */
function Which() {
  const { heads, rows } = given();
  const tag = heads.indexOf("tag");
  const { said } = season.assigned;
  return (
    <>
      {season.assigned.of && !isSharedNow() && <p class="wrong open"><strong>{t("Older than table or shelf:")} </strong>{t("something changed since the canisters were shared out; share them out again.")}</p>}
      {said && <pre class="said">{said}</pre>}
      <More title={t("Who gets which")} count={rows.filter((row) => row.cells[tag]).length}>
        <div class="scroll" tabIndex={0} role="region" aria-label={t("Who gets which")}>
          <table>
            <thead><tr>{heads.map((head) => <th scope="col">{say.capital(say.spoken(head))}</th>)}</tr></thead>
            <tbody>{rows.map((row) => <tr key={row.number}>{heads.map((_, at) => <td>{row.cells[at] ?? ""}</td>)}</tr>)}</tbody>
          </table>
        </div>
      </More>
    </>
  );
}
