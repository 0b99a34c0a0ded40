// What the program worked out, beside the form: fuel, boiling points,
// containers, verdicts, rules, cautions. Each number opens its working.
import { useEffect, useState } from "preact/hooks";
import { why } from "../live.js";
import { said, setting, state, units, value } from "../state.js";
import * as say from "../text/words.js";
import { More, Told, Window, Words, foreign, goTo, useKnown } from "./parts.jsx";
import { isOpen } from "./fields.jsx";
import { toLine } from "./to-line.js";
import { wordFor } from "../text/form.js";
import { cautionSaid, containerName, placeName, ruleSaid } from "../library.js";
import { known, t } from "../text/language.js";

export function Numbers() {
  useKnown();
  const [shown, setShown] = useState(null);
  const { plan, said } = state.live;
  const show = (title, steps, id) => setShown({ title, steps, id });
  return (
    <div class="numbers">
      {said && <pre class="said">{said}</pre>}
      {!plan && !said && <p class="hint">{t("As soon as the questions are answered, fuel, water, boiling points and rules stand here.")}</p>}
      {plan && <Planned plan={plan} show={show} />}
      {shown && <Working {...shown} onClose={() => setShown(null)} />}
    </div>
  );
}

/** What is wrong or open, in a list on top, each line a way to its field. */
export function Problems({ focus }) {
  const { problems, warnings, said } = state.live;
  const open = problems.filter(isOpen);
  const wrong = problems.filter((problem) => !isOpen(problem));
  if (said && problems.length === 0) return <p class="wrong problem" role="alert">{said}</p>;
  if (problems.length + warnings.length === 0) return null;
  const lead = (event, problem) => {
    event.preventDefault();
    if (focus) focus(problem.path, problem);
    else if (!problem.path || !goTo(problem.path)) toLine(problem);
  };
  const link = (problem, text) => <a href="#text" onClick={(event) => lead(event, problem)}><Words text={text} /></a>;
  const line = (problem) => (
    <li>
      {link(problem, problem.message)}{problem.line ? ` (${t("line {line}", { line: problem.line })})` : ""}
      {problem.help && <span class="help"><Words text={problem.help} /></span>}
    </li>
  );
  const toAnswer = (problem) => <li>{link(problem, problem.path ? whereTo(problem.path) : problem.message)}</li>;
  return (
    <section class="problems" aria-label={t("What is wrong or open")}>
      {wrong.length > 0 && <><h2>{t("{n} problem|{n} problems", { n: wrong.length })}</h2><ul class="problem">{wrong.map(line)}</ul></>}
      {open.length > 0 && <><h2>{t("{n} answer still open|{n} answers still open", { n: open.length })}</h2><ul class="open">{open.map(toAnswer)}</ul></>}
      {warnings.length > 0 && <><h2>{t("{n} thing to look at|{n} things to look at", { n: warnings.length })}</h2><ul class="warning">{warnings.map(line)}</ul></>}
    </section>
  );
}

/** `camps[0].nights` as the form says it: Nights, First camp. */
function whereTo(path) {
  const steps = say.pathOf(path);
  const item = steps.findLast((step, at) => typeof step === "number" && at > 0);
  const name = item === undefined ? null : value([...steps.slice(0, steps.lastIndexOf(item) + 1), "name"]);
  return name ? `${wordFor(steps)}, ${name}` : wordFor(steps);
}

/** Where a lesson is held is no name of the reader's but a word of the program. */
const placed = (camp) => (/^(outdoors|indoors)$/.test(camp) ? say.spoken(camp) : camp);

/** `camps[1].night` as a reader says it: Camps 2, Night. */
function whatFor(what) {
  const steps = say.pathOf(what);
  return steps.map((step, at) => (typeof step === "number" ? ` ${step + 1}` : `${at ? ", " : ""}${wordFor(steps.slice(0, at + 1))}`)).join("");
}

/** A number, as the sheets say it where they do, that opens its working. */
function Figure({ id, children, title, steps, show }) {
  const text = said(id, children);
  const isTold = state.live.says.has(id);
  if (!steps?.length && !isTold) return <b class="figure">{text}</b>;
  return <button type="button" class="figure" onClick={() => show(title, steps ?? [], isTold ? id : null)} aria-label={t("{text}, how {title} comes about", { text, title })}>{text}</button>;
}

function Planned({ plan, show }) {
  const unit = units();
  return (
    <>
      <Units />
      {plan.kitchens?.map((kitchen, at) => <Kitchen kitchen={kitchen} at={at} plan={plan} show={show} unit={unit} />)}
      <Camps plan={plan} show={show} unit={unit} />
      <Cautions plan={plan} />
      <Rules plan={plan} show={show} unit={unit} />
      <Stoves plan={plan} unit={unit} />
      <Assumed plan={plan} />
    </>
  );
}

function Units() {
  return (
    <fieldset class="switch">
      <legend>{t("Units")}</legend>
      {[["", t("as in the file")], ["us", t("US")], ["metric", t("metric")]].map(([units, word]) => (
        <label><input type="radio" name="units" checked={state.settings.units === units} onChange={() => setting({ units })} /> <span>{word}</span></label>
      ))}
    </fieldset>
  );
}

function Kitchen({ kitchen, at, plan, show, unit }) {
  const { fuel } = kitchen;
  const here = `kitchen.${say.slug(kitchen.name)}`;
  const cold = (kitchen.cold ?? []).filter((row) => (row.verdict ? row.verdict !== "fine" : row.works === false));
  const noBoil = (kitchen.meals ?? []).filter((meal) => meal.stops_at_c != null || meal.may_not_boil);
  return (
    <section class="card" aria-label={t("Kitchen {name}", { name: kitchen.name })}>
      <h2>{kitchen.name} <small>{t("{n} person|{n} people", { n: kitchen.people })}, {say.spoken(kitchen.stove)}</small></h2>
      {fuel ? (
        <dl class="facts">
          <div class="big"><dt>{t("Fuel to take, {kind}", { kind: say.spoken(fuel.kind) })}</dt><dd><Figure id={`${here}.needed`} title={t("the fuel to take")} steps={fuel.steps} show={show}>{say.grams(fuel.carry_g)}</Figure></dd></div>
          <div><dt>{t("Likely burnt")}</dt><dd><Figure id={`${here}.likely`} title={t("the likely fuel")} steps={fuel.steps} show={show}>{say.grams(fuel.likely_g)}</Figure></dd></div>
          {fuel.grams_per_person_day != null && <div><dt>{t("A person and day")}</dt><dd><Figure id={`${here}.person-day`} title={t("the fuel a person and day")} show={show}>{say.grams(fuel.grams_per_person_day)}</Figure>{fuel.usual?.low != null ? `, ${t("usual {low} to {high}", { low: say.plain(fuel.usual.low), high: say.grams(fuel.usual.high) })}` : ""}</dd></div>}
        </dl>
      ) : <p>{t("No fuel.")}</p>}
      {fuel?.legs?.length > 1 && (
        <ul class="lines">{fuel.legs.map((leg, number) => (
          <li>{leg.from ? t("Leg {number}, from {from}", { number: number + 1, from: leg.from }) : t("Leg {number}", { number: number + 1 })}: {t("{needed} needed, {issued} handed out", {
            needed: <Figure id={`${here}.leg-${number + 1}.needed`} title={t("the fuel of leg {number}", { number: number + 1 })} show={show}>{say.grams(leg.needed_g ?? leg.carry_g ?? 0)}</Figure>,
            issued: said(`${here}.leg-${number + 1}.issued`, say.grams(leg.issued_g ?? 0)),
          })}</li>
        ))}</ul>
      )}
      <ul class="lines">{(kitchen.containers ?? []).map((one) => <li>{container(one, here)}</li>)}</ul>
      {noBoil.map((meal) => <p class="wrong warning"><strong>{t("Will not boil:")} </strong>{t("{meal} at {camp}", { meal: say.spoken(meal.meal), camp: meal.camp })}{meal.stops_at_c != null ? `, ${t("it stops at {temperature}", { temperature: say.temperature(meal.stops_at_c, unit) })}` : ""}</p>)}
      {cold.map((row) => <p class="wrong warning"><strong>{t("{meal} at {camp}, canister {tag}:", { meal: say.capital(say.spoken(row.meal)), camp: row.camp, tag: known(row.container ?? row.tag) ?? row.container ?? row.tag })} </strong><Told text={verdict(row)} /></p>)}
      <More title={t("Meals, minutes and the push that tips the pot")}>
        <div class="scroll" tabIndex={0} role="region" aria-label={t("Meals of {name}", { name: kitchen.name })}>
          <table>
            <thead><tr><th scope="col">{t("Meal")}</th><th scope="col">{t("Water")}</th><th scope="col">{t("Potfuls")}</th><th scope="col">{t("Fuel")}</th><th scope="col">{t("Time")}</th></tr></thead>
            <tbody>{(kitchen.meals ?? []).map((meal) => [meal, `${here}.${say.slug(meal.camp)}.${meal.meal}`]).map(([meal, row]) => (
              <tr>
                <th scope="row">{say.capital(say.spoken(meal.meal))}, {placed(meal.camp)}{meal.times > 1 ? `, ${t("{times} times", { times: meal.times })}` : ""}</th>
                <td>{said(`${row}.water`, say.volume(meal.water_l, unit))}</td><td>{say.plain(meal.batches)}</td>
                <td><Figure id={`${row}.fuel`} title={t("the fuel for {meal} at {camp}", { meal: say.spoken(meal.meal), camp: meal.camp })} steps={meal.steps} show={show}>{say.grams(meal.fuel_g)}</Figure></td>
                <td>{meal.minutes == null ? t("none") : said(`${row}.minutes`, say.minutes(meal.minutes))}</td>
              </tr>
            ))}</tbody>
          </table>
        </div>
        {kitchen.stability && <p>{t("A push of {push} at the rim tips the pot (about {mass} on a kitchen scale).", {
          push: <Figure id={`${here}.push`} title={t("the push that tips the pot")} steps={kitchen.stability.steps} show={show}>{`${say.plain(kitchen.stability.rim_push_n, 1)}\u00a0N`}</Figure>,
          mass: say.grams(kitchen.stability.rim_push_n * 102),
        })}</p>}
      </More>
    </section>
  );
}

/** How a canister does at a meal: its verdict, and what to do about it. */
function verdict({ verdict, advice }) {
  if (!advice) return verdict ?? "weak";
  return verdict && !advice.startsWith(verdict) ? `${verdict}: ${advice}` : advice;
}

function container(one, here) {
  const size = one.tag ? t("canister {tag}", { tag: one.tag }) : containerName(one.container ?? one.kind);
  const often = one.count > 1 ? `${one.count} × ` : "";
  const mass = said(`${here}.container.${one.tag}.gross`, say.grams(one.gross_g));
  const what = `${often}${size}`;
  return one.on_hand ? t("{what}: {mass} on the scale when handed out, on hand", { what, mass }) : t("{what}: {mass} on the scale when handed out", { what, mass });
}

function Camps({ plan, show, unit }) {
  return (
    <section class="card" aria-label={t("Camps")}>
      <h2>{t("Where water boils")}</h2>
      <dl class="facts">
        {plan.camps?.map((camp) => [camp, `camp.${say.slug(camp.name)}`]).map(([camp, here]) => (
          <div>
            <dt>{placed(camp.name)}, {said(`${here}.elevation`, say.height(camp.elevation_m, unit))}{camp.nights ? `, ${t("{n} night|{n} nights", { n: camp.nights })}` : ""}</dt>
            <dd><Figure id={`${here}.boils`} title={t("the boiling point at {name}", { name: camp.name })} steps={camp.steps} show={show}>{say.boiling(camp.boiling_c, unit)}</Figure>, {say.spoken(camp.wind)}
              {camp.day_c !== undefined && `, ${t("air {day} by day, {night} at night", { day: said(`${here}.day`, say.temperature(camp.day_c, unit)), night: said(`${here}.night`, say.temperature(camp.night_c, unit)) })}`}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

const SIGNALS = ["danger", "warning", "caution", "notice"];

function Cautions({ plan }) {
  const all = plan.cautions ?? [];
  if (all.length === 0) return null;
  return (
    <section class="card" aria-label={t("Cautions")}>
      <h2>{t("Cautions")}</h2>
      <p class="hint">{t("They stand on the sheets too. The land manager's rules, the maker's instructions and trained first aid come first.")}</p>
      {SIGNALS.map((signal) => {
        const mine = all.filter((one) => one.signal === signal);
        return mine.length > 0 && (
          <More title={say.capital(say.spoken(signal))} count={mine.length} open={signal === "danger"}>
            <ul class={`cautions ${signal}`}>{mine.map((one) => <li>{cautionSaid(one) ?? <Told text={one.text} />}</li>)}</ul>
          </More>
        );
      })}
    </section>
  );
}

function Rules({ plan, show, unit }) {
  if (!plan.rules?.length) return null;
  return (
    <section class="card" aria-label={t("Rules of the place")}>
      <h2>{t("Rules of the place")}</h2>
      {plan.greywater?.map((one) => (
        <p>{t("{camp}: wash water {distance} from water, {steps}.", { camp: placed(one.camp), distance: said(`camp.${say.slug(one.camp)}.wash-distance`, say.height(one.distance_m, unit)), steps: <Figure id={`camp.${say.slug(one.camp)}.wash-steps`} title={t("the steps at {camp}", { camp: one.camp })} steps={one.working} show={show}>{t("{n} step|{n} steps", { n: one.steps })}</Figure> })} {say.capital(ruleSaid(one.from, "greywater.method", one.method ?? "") ?? "") || <Told text={say.capital(one.method ?? "")} />}.</p>
      ))}
      {plan.camps?.map((camp) => {
        const mine = plan.rules.filter((rule) => rule.camp === camp.name);
        return mine.length > 0 && (
          <More title={placed(camp.name)} count={mine.length}>
            <dl class="facts">{mine.map((rule) => <div><dt>{say.capital(say.spoken(rule.rule.replace(/\./g, "-")))}</dt><dd><Rule rule={rule} /> <small>({rule.checked ? t("told: {checked}", { checked: rule.checked }) : t("{from}, not told by the land manager yet", { from: placeName(rule.from) })})</small></dd></div>)}</dl>
          </More>
        );
      })}
    </section>
  );
}

/** A rule as the place says it in the reader's language, or as the sheets say its number. */
function Rule({ rule }) {
  const value = said(`rule.${say.slug(rule.camp)}.${rule.rule}`, rule.value);
  return ruleSaid(rule.from, rule.rule, value) ?? <Told text={value} />;
}

function Stoves({ plan, unit }) {
  if (!plan.comparison?.length) return null;
  return (
    <More title={t("Every family of stove on this trip")} count={plan.comparison.length}>
      <div class="scroll" tabIndex={0} role="region" aria-label={t("Stoves side by side")}>
        <table>
          <thead><tr><th scope="col">{t("Stove")}</th><th scope="col">{t("Fuel")}</th><th scope="col">{t("Mass at the start")}</th><th scope="col">{t("Time a litre")}</th><th scope="col">{t("Containers")}</th><th scope="col">{t("Allowed")}</th></tr></thead>
          <tbody>{plan.comparison.map((one) => [one, `stove.${one.stove}.${one.fuel}`]).map(([one, here]) => (
            <tr><th scope="row">{say.capital(say.spoken(one.stove))}</th><td>{one.fuel_g == null ? t("none") : said(`${here}.fuel`, say.grams(one.fuel_g))}</td><td>{one.start_mass_g == null ? t("none") : said(`${here}.start`, say.mass(one.start_mass_g, unit))}</td>
              <td>{one.minutes_per_litre == null ? t("none") : said(`${here}.minutes-per-litre`, say.minutes(one.minutes_per_litre))}</td><td>{one.containers == null ? t("none") : say.plain(one.containers)}</td><td>{say.spoken(one.allowed)}{one.why ? <>: <Told text={one.why} /></> : ""}</td></tr>
          ))}</tbody>
        </table>
      </div>
    </More>
  );
}

function Assumed({ plan }) {
  if (!plan.assumed?.length) return null;
  return (
    <More title={t("What was left open and taken as usual")} count={plan.assumed.length}>
      <dl class="facts">{plan.assumed.map((one) => <div><dt>{whatFor(one.what)}</dt><dd><b><Told text={one.value} /></b>{one.why && one.why !== "not stated" ? <>: <Told text={one.why} /></> : ""}</dd></div>)}</dl>
    </More>
  );
}

function Working({ title, steps, id, onClose }) {
  const [told, setTold] = useState(null);
  useEffect(() => {
    let isHere = true;
    if (id) why(state.work, id).then((found) => isHere && setTold(found));
    return () => { isHere = false; };
  }, [id]);
  const all = steps.length ? steps : told?.steps ?? [];
  return (
    <Window title={t("How {title} comes about", { title })} onClose={onClose}>
      {told?.from && <p><Told text={say.capital(told.from)} />: <b>{told.text}</b></p>}
      <ol class="steps">
        {all.map((step) => (
          <li lang={foreign()}>{say.capital(step.say)}{step.formula && <span class="formula">{step.formula}</span>} = <b>{step.result ?? `${step.value}${step.unit ? `\u00a0${step.unit}` : ""}`}</b>{step.why && <small> ({step.why})</small>}</li>
        ))}
      </ol>
      {told?.assumed?.length > 0 && <><h3>{t("Taken as usual")}</h3><ul>{told.assumed.map((line) => <li lang={foreign()}>{typeof line === "string" ? line : Object.values(line).join(": ")}</li>)}</ul></>}
      {told?.sources?.length > 0 && <><h3>{t("Sources")}</h3><ul>{told.sources.map((one) => <li>{one.code}: <span lang={foreign()}>{one.title}</span> {one.url && <a href={one.url} target="_blank" rel="noreferrer">{one.url}</a>}</li>)}</ul></>}
    </Window>
  );
}
