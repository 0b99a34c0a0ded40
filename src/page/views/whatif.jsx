// Two plans side by side: the work as it stands, and the same with something
// changed. What differs is marked in words, not in colour alone.
import { useEffect, useState } from "preact/hooks";
import { planned } from "../live.js";
import { rewrite, tell, units, value } from "../state.js";
import { isSound, put, read, valueAt } from "../text/edit.js";
import * as say from "../text/words.js";
import { Heading, ProblemText, Told, useKnown } from "./parts.jsx";
import { Nothing, isLesson } from "./work.jsx";
import { go } from "./go.js";
import { t } from "../text/language.js";
import { cautionSaid, containerName } from "../library.js";

/** What is usually asked: its words, and what it does to the text. */
function questions(names) {
  const all = (key) => (text, choice) => each(text, key, choice);
  return [
    { id: "stove", label: t("Another stove in every kitchen"), of: names.stoves, apply: stoves },
    { id: "wind", label: t("The wind at every stove"), of: words("calm", "breezy", "windy"), apply: all("wind") },
    { id: "lid", label: t("A lid on the pot"), of: words("yes", "no"), apply: top("lid") },
    { id: "windscreen", label: t("Windscreen"), of: words("none", "natural", "partial", "full", "built-in"), apply: top("windscreen") },
    { id: "water_from", label: t("Water at every camp"), of: words("stream", "tap", "snow"), apply: all("water_from") },
    { id: "spare", label: t("Spare fuel"), of: words("none", "one extra day", "two extra days"), apply: top("spare") },
    { id: "washing", label: t("Washing up"), of: words("wipe and rinse", "two pots", "three bowls", "three bowls with hot dip"), apply: top("washing") },
    { id: "nights", label: t("Nights at the last camp"), of: words("1", "2", "3", "4", "5", "6", "7", "8", "9", "10"), apply: lastNights },
    { id: "learners", label: t("Learners"), apply: (text, number) => put(text, ["people", "learners"], number) },
  ];
}

const words = (...all) => all.map((word) => [word, say.spoken(word)]);
const top = (key) => (text, choice) => put(text, [key], choice);

function each(text, key, choice) {
  if (isLesson()) return put(text, [key], choice);
  const many = valueAt(read(text), ["camps"])?.length ?? 0;
  for (let at = 0; at < many; at += 1) text = put(text, ["camps", at, key], choice);
  return text;
}

function stoves(text, choice) {
  const key = isLesson() ? "stations" : "kitchens";
  const there = valueAt(read(text), [key]);
  if (!Array.isArray(there)) return put(text, ["stove"], choice);
  there.forEach((kitchen, at) => {
    // a measured efficiency belongs to the stove that it was measured on
    text = put(put(text, [key, at, "stove"], choice), [key, at, "measured"], undefined);
  });
  return text;
}

function lastNights(text, choice) {
  const many = valueAt(read(text), ["camps"])?.length ?? 0;
  return many ? put(text, ["camps", many - 1, "nights"], choice) : text;
}

export function WhatIf() {
  const { work, live, library } = useKnown();
  const [chosen, setChosen] = useState({});
  const [other, setOther] = useState(null);
  const asked = library ? questions(library.names) : [];
  const text = work && isSound(work.document) ? changedText(work.text, asked, chosen) : work?.text;
  useEffect(() => {
    if (!work || text === work.text) {
      setOther(null);
      return undefined;
    }
    let isHere = true;
    planned(work, text).then((found) => isHere && setOther(found));
    return () => { isHere = false; };
  }, [text, work?.text]);
  if (!work) return <Nothing />;
  const pick = (id, choice) => setChosen({ ...chosen, [id]: choice });
  return (
    <>
      <Heading>{t("What if")}</Heading>
      <p>{t("Change something here and see what follows. The trip itself stays as it is until you take the change.")}</p>
      <div class="fields-row">
        {asked.map((one) => (
          <div class="field" key={one.id}>
            <label for={`if-${one.id}`}>{one.label}</label>
            {one.of
              ? <select id={`if-${one.id}`} value={chosen[one.id] ?? ""} onChange={(event) => pick(one.id, event.target.value)}><option value="">{t("as it is")}</option>{one.of.map(([choice, word]) => <option value={choice}>{word}</option>)}</select>
              : <input id={`if-${one.id}`} inputMode="numeric" autocomplete="off" value={chosen[one.id] ?? ""} placeholder={String(value(["people", "learners"]) ?? "")} onInput={(event) => pick(one.id, event.target.value)} />}
          </div>
        ))}
      </div>
      {other?.problems.map((problem) => <p class="wrong problem"><strong>{t("It cannot be:")} </strong><ProblemText problem={problem} /></p>)}
      {other?.said && !other.plan && <pre class="said">{other.said}</pre>}
      {live.plan && <Beside one={live.plan} two={other?.plan} />}
      <p class="row">
        <button type="button" class="strong" disabled={!other?.plan} onClick={() => { rewrite(text); setChosen({}); tell(t("The change is taken. Undo takes it back.")); go("form"); }}>{t("Take the change")}</button>
        <button type="button" onClick={() => setChosen({})}>{t("As it was")}</button>
      </p>
    </>
  );
}

function changedText(text, asked, chosen) {
  return asked.reduce((now, one) => {
    if (!chosen[one.id]) return now;
    try {
      return one.apply(now, chosen[one.id]);
    } catch {
      return now;
    }
  }, text);
}

/** Rows of what two plans say. */
function rows(plan, unit) {
  const found = new Map();
  for (const kitchen of plan.kitchens ?? []) {
    found.set(t("{name}: stove", { name: kitchen.name }), say.spoken(kitchen.stove));
    if (kitchen.fuel) {
      found.set(t("{name}: fuel to take", { name: kitchen.name }), say.grams(kitchen.fuel.carry_g));
      found.set(t("{name}: likely burnt", { name: kitchen.name }), say.grams(kitchen.fuel.likely_g));
    }
    found.set(t("{name}: containers", { name: kitchen.name }), (kitchen.containers ?? []).map((one) => (one.tag ? one.tag : `${one.count} × ${containerName(one.container ?? one.kind)}`)).join(", ") || t("none"));
    const verdicts = new Set((kitchen.cold ?? []).map((row) => say.spoken(row.verdict ?? (row.works ? "fine" : "weak"))));
    if (verdicts.size) found.set(t("{name}: in the cold", { name: kitchen.name }), [...verdicts].join(", "));
    const supper = (kitchen.meals ?? []).find((meal) => meal.meal === "supper");
    if (supper?.minutes != null) found.set(t("{name}: a supper takes", { name: kitchen.name }), say.minutes(supper.minutes));
    if (kitchen.stability) found.set(t("{name}: push that tips the pot", { name: kitchen.name }), `${say.plain(kitchen.stability.rim_push_n, 1)}\u00a0N`);
  }
  for (const camp of plan.camps ?? []) found.set(t("{name}: water boils at", { name: camp.name }), say.boiling(camp.boiling_c, unit));
  found.set(t("Cautions"), say.plain(plan.cautions?.length ?? 0));
  return found;
}

function Beside({ one, two }) {
  const unit = units();
  const left = rows(one, unit);
  const right = two ? rows(two, unit) : new Map();
  const keys = [...new Set([...left.keys(), ...right.keys()])];
  const before = new Set((one.cautions ?? []).map((caution) => caution.text));
  const more = (two?.cautions ?? []).filter((caution) => !before.has(caution.text));
  return (
    <>
      <div class="scroll" tabIndex={0} role="region" aria-label={t("Two plans side by side")}>
        <table class="pair">
          <thead><tr><th scope="col">{t("What")}</th><th scope="col">{t("As it is")}</th><th scope="col">{t("What if")}</th></tr></thead>
          <tbody>{keys.map((key) => {
            const differs = two && left.get(key) !== right.get(key);
            return (
              <tr class={differs ? "differs" : undefined}>
                <th scope="row">{key}</th><td>{left.get(key) ?? t("none")}</td>
                <td>{!two ? "" : differs ? <><b>{right.get(key) ?? t("none")}</b> <small>{t("differs")}</small></> : t("the same")}</td>
              </tr>
            );
          })}</tbody>
        </table>
      </div>
      {more.length > 0 && <section aria-label={t("Cautions that come with it")}><h2>{t("Cautions that come with it")}</h2><ul class="cautions">{more.map((caution) => <li><b>{say.capital(say.spoken(caution.signal))}.</b> {cautionSaid(caution) ?? <Told text={caution.text} />}</li>)}</ul></section>}
    </>
  );
}
