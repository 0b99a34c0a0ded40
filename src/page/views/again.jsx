// Last year's trip on other dates: the days moved, and what was told for the
// other dates marked until it is asked again.
import { useState } from "preact/hooks";
import { staleRules } from "../live.js";
import { change, setStale, state, tell, value } from "../state.js";
import { firstDay, moved, oldRules, stale } from "../text/again.js";
import { wordFor } from "../text/form.js";
import * as say from "../text/words.js";
import { More, goTo } from "./parts.jsx";
import { go } from "./go.js";
import { t } from "../text/language.js";

export function Again() {
  const [date, setDate] = useState("");
  const move = async () => {
    const { work } = state;
    const text = moved(work.text, date);
    if (text === work.text) return;
    const told = stale(text);
    const places = (value(["camps"]) ?? [{ place: value(["land"]) }]).flatMap?.((camp) => (camp?.place ? [say.slug(camp.place)] : [])) ?? [];
    const old = oldRules(await staleRules(date), places);
    setStale([...told, ...[...old].map(([place, rules]) => ["", t("{n} rule of {place}: {when}; read them again where the authority publishes them|{n} rules of {place}: {when}; read them again where the authority publishes them", { n: rules.length, place: say.spoken(place), when: rules[0].when })])], text);
    tell(t("The first day is {date} now. What was told for the other dates is marked, to be asked again.", { date }));
    document.getElementById("stale")?.scrollIntoView({ block: "center" });
  };
  return (
    <More title={t("Use it again on other dates")}>
      <p class="hint">{t("The first day is {day}. All days move together.", { day: firstDay(state.work.text) })}</p>
      <div class="field">
        <label for="again">{t("New first day")}</label>
        <input id="again" type="date" value={date} onInput={(event) => setDate(event.target.value)} />
      </div>
      <p><button type="button" onClick={move} disabled={!date}>{t("Move the dates")}</button></p>
    </More>
  );
}

/** What is still of the other dates: each is asked again, is so still, or is left open. */
export function Stale() {
  const all = state.work?.stale ?? [];
  if (all.length === 0) return null;
  const drop = (one) => setStale(state.work.stale.filter((other) => other !== one));
  const leaveOpen = (one) => {
    change(say.pathOf(one[0]), undefined);
    drop(one);
  };
  return (
    <section class="problems" id="stale" aria-labelledby="stale-title">
      <h2 id="stale-title">{t("{n} thing of the other dates|{n} things of the other dates", { n: all.length })}</h2>
      <ul class="open">
        {all.map((one) => {
          const [path, why] = one;
          const name = path ? nameOf(path) : "";
          return (
            <li key={path + why}>
              {path && <><a href="#form" onClick={(event) => { event.preventDefault(); if (!goTo(path)) go("text"); }}>{name}</a>{shown(path)}: </>}{t(why)}
              <span class="row">
                <button type="button" class="quiet" onClick={() => drop(one)}>{t("Asked: it is right now")}<span class="unseen">, {name || t(why)}</span></button>
                {path && path !== "people" && <button type="button" class="quiet" onClick={() => leaveOpen(one)}>{t("Take it out")}<span class="unseen">: {name}</span></button>}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function nameOf(path) {
  const steps = say.pathOf(path);
  const camp = steps[0] === "camps" ? value(["camps", steps[1], "name"]) : null;
  return camp ? `${wordFor(steps)}, ${camp}` : wordFor(steps);
}

/** A value of one word, as it stands. */
function shown(path) {
  const now = value(say.pathOf(path));
  return typeof now === "string" ? ` (${now})` : "";
}
