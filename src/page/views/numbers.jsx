// What the program worked out, beside the form: fuel, boiling points,
// containers, verdicts, rules, cautions. Each number opens its working.
import { useEffect, useState } from "preact/hooks";
import { why } from "../live.js";
import { said, setting, state, units, value } from "../state.js";
import * as say from "../text/words.js";
import { More, Window, Words, goTo, useKnown } from "./parts.jsx";
import { isOpen } from "./fields.jsx";
import { toLine } from "./to-line.js";
import { wordFor } from "../text/form.js";

export function Numbers() {
  useKnown();
  const [shown, setShown] = useState(null);
  const { plan, said } = state.live;
  const show = (title, steps, id) => setShown({ title, steps, id });
  return (
    <div class="numbers">
      {said && <pre class="said">{said}</pre>}
      {!plan && !said && <p class="hint">As soon as the questions are answered, fuel, water, boiling points and rules stand here.</p>}
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
      {link(problem, problem.message)}{problem.line ? ` (line ${problem.line})` : ""}
      {problem.help && <span class="help"><Words text={problem.help} /></span>}
    </li>
  );
  const toAnswer = (problem) => <li>{link(problem, problem.path ? whereTo(problem.path) : problem.message)}</li>;
  return (
    <section class="problems" aria-label="What is wrong or open">
      {wrong.length > 0 && <><h2>{say.count(wrong.length, "problem")}</h2><ul class="problem">{wrong.map(line)}</ul></>}
      {open.length > 0 && <><h2>{say.count(open.length, "answer")} still open</h2><ul class="open">{open.map(toAnswer)}</ul></>}
      {warnings.length > 0 && <><h2>{say.count(warnings.length, "thing")} to look at</h2><ul class="warning">{warnings.map(line)}</ul></>}
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

/** A number, as the sheets say it where they do, that opens its working. */
function Figure({ id, children, title, steps, show }) {
  const text = said(id, children);
  const isTold = state.live.says.has(id);
  if (!steps?.length && !isTold) return <b class="figure">{text}</b>;
  return <button type="button" class="figure" onClick={() => show(title, steps ?? [], isTold ? id : null)} aria-label={`${text}, how ${title} comes about`}>{text}</button>;
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
      <legend>Units</legend>
      {[["", "as in the file"], ["us", "US"], ["metric", "metric"]].map(([units, word]) => (
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
    <section class="card" aria-label={`Kitchen ${kitchen.name}`}>
      <h2>{kitchen.name} <small>{say.count(kitchen.people, "person", "people")}, {say.spoken(kitchen.stove)}</small></h2>
      {fuel ? (
        <dl class="facts">
          <div class="big"><dt>Fuel to take, {say.spoken(fuel.kind)}</dt><dd><Figure id={`${here}.needed`} title="the fuel to take" steps={fuel.steps} show={show}>{say.grams(fuel.carry_g)}</Figure></dd></div>
          <div><dt>Likely burnt</dt><dd><Figure id={`${here}.likely`} title="the likely fuel" steps={fuel.steps} show={show}>{say.grams(fuel.likely_g)}</Figure></dd></div>
          {fuel.grams_per_person_day != null && <div><dt>A person and day</dt><dd><Figure id={`${here}.person-day`} title="the fuel a person and day" show={show}>{say.grams(fuel.grams_per_person_day)}</Figure>{fuel.usual ? `, usual ${say.plain(fuel.usual.low)} to ${say.plain(fuel.usual.high)}\u00a0g` : ""}</dd></div>}
        </dl>
      ) : <p>No fuel.</p>}
      {fuel?.legs?.length > 1 && (
        <ul class="lines">{fuel.legs.map((leg, number) => (
          <li>Leg {number + 1}{leg.from ? `, from ${leg.from}` : ""}: <Figure id={`${here}.leg-${number + 1}.needed`} title={`the fuel of leg ${number + 1}`} show={show}>{say.grams(leg.needed_g ?? leg.carry_g ?? 0)}</Figure> needed, {said(`${here}.leg-${number + 1}.issued`, say.grams(leg.issued_g ?? 0))} handed out</li>
        ))}</ul>
      )}
      <ul class="lines">{(kitchen.containers ?? []).map((one) => <li>{container(one, here)}</li>)}</ul>
      {noBoil.map((meal) => <p class="wrong warning"><strong>Will not boil: </strong>{meal.meal} at {meal.camp}{meal.stops_at_c != null ? `, it stops at ${say.temperature(meal.stops_at_c, unit)}` : ""}</p>)}
      {cold.map((row) => <p class="wrong warning"><strong>{say.capital(row.meal)} at {row.camp}, canister {row.container ?? row.tag}: </strong>{verdict(row)}</p>)}
      <More title="Meals, minutes and the push that tips the pot">
        <div class="scroll" tabIndex={0} role="region" aria-label={`Meals of ${kitchen.name}`}>
          <table>
            <thead><tr><th scope="col">Meal</th><th scope="col">Water</th><th scope="col">Potfuls</th><th scope="col">Fuel</th><th scope="col">Time</th></tr></thead>
            <tbody>{(kitchen.meals ?? []).map((meal) => [meal, `${here}.${say.slug(meal.camp)}.${meal.meal}`]).map(([meal, row]) => (
              <tr>
                <th scope="row">{say.capital(meal.meal)}, {meal.camp}{meal.times > 1 ? `, ${meal.times} times` : ""}</th>
                <td>{said(`${row}.water`, say.volume(meal.water_l, unit))}</td><td>{say.plain(meal.batches)}</td>
                <td><Figure id={`${row}.fuel`} title={`the fuel for ${meal.meal} at ${meal.camp}`} steps={meal.steps} show={show}>{say.grams(meal.fuel_g)}</Figure></td>
                <td>{meal.minutes == null ? "none" : said(`${row}.minutes`, say.minutes(meal.minutes))}</td>
              </tr>
            ))}</tbody>
          </table>
        </div>
        {kitchen.stability && <p>A push of <Figure id={`${here}.push`} title="the push that tips the pot" steps={kitchen.stability.steps} show={show}>{`${say.plain(kitchen.stability.rim_push_n, 1)}\u00a0N`}</Figure> at the rim tips the pot (about {say.plain(kitchen.stability.rim_push_n * 102)} g on a kitchen scale).</p>}
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
  const size = one.tag ? `canister ${one.tag}` : say.spoken(one.container ?? one.kind);
  const often = one.count > 1 ? `${one.count} × ` : "";
  return `${often}${size}: ${said(`${here}.container.${one.tag}.gross`, say.grams(one.gross_g))} on the scale when handed out${one.on_hand ? ", on hand" : ""}`;
}

function Camps({ plan, show, unit }) {
  return (
    <section class="card" aria-label="Camps">
      <h2>Where water boils</h2>
      <dl class="facts">
        {plan.camps?.map((camp) => [camp, `camp.${say.slug(camp.name)}`]).map(([camp, here]) => (
          <div>
            <dt>{camp.name}, {said(`${here}.elevation`, say.height(camp.elevation_m, unit))}{camp.nights ? `, ${say.count(camp.nights, "night")}` : ""}</dt>
            <dd><Figure id={`${here}.boils`} title={`the boiling point at ${camp.name}`} steps={camp.steps} show={show}>{say.boiling(camp.boiling_c, unit)}</Figure>, {camp.wind}
              {camp.day_c !== undefined && `, air ${said(`${here}.day`, say.temperature(camp.day_c, unit))} by day, ${said(`${here}.night`, say.temperature(camp.night_c, unit))} at night`}</dd>
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
    <section class="card" aria-label="Cautions">
      <h2>Cautions</h2>
      <p class="hint">They stand on the sheets too. The land manager's rules, the maker's instructions and trained first aid come first.</p>
      {SIGNALS.map((signal) => {
        const mine = all.filter((one) => one.signal === signal);
        return mine.length > 0 && (
          <More title={say.capital(signal)} count={mine.length} open={signal === "danger"}>
            <ul class={`cautions ${signal}`}>{mine.map((one) => <li>{one.text}</li>)}</ul>
          </More>
        );
      })}
    </section>
  );
}

function Rules({ plan, show, unit }) {
  if (!plan.rules?.length) return null;
  return (
    <section class="card" aria-label="Rules of the place">
      <h2>Rules of the place</h2>
      {plan.greywater?.map((one) => (
        <p>{one.camp}: wash water {said(`camp.${say.slug(one.camp)}.wash-distance`, say.height(one.distance_m, unit))} from water, <Figure id={`camp.${say.slug(one.camp)}.wash-steps`} title={`the steps at ${one.camp}`} steps={one.working} show={show}>{`${say.plain(one.steps)} steps`}</Figure>. {say.capital(one.method ?? "")}.</p>
      ))}
      {plan.camps?.map((camp) => {
        const mine = plan.rules.filter((rule) => rule.camp === camp.name);
        return mine.length > 0 && (
          <More title={camp.name} count={mine.length}>
            <dl class="facts">{mine.map((rule) => <div><dt>{say.capital(say.spoken(rule.rule.replace(/\./g, " ")))}</dt><dd>{said(`rule.${say.slug(rule.camp)}.${rule.rule}`, rule.value)} <small>({rule.checked ? `told: ${rule.checked}` : `${say.spoken(rule.from)}, not told by the land manager yet`})</small></dd></div>)}</dl>
          </More>
        );
      })}
    </section>
  );
}

function Stoves({ plan, unit }) {
  if (!plan.comparison?.length) return null;
  return (
    <More title="Every family of stove on this trip" count={plan.comparison.length}>
      <div class="scroll" tabIndex={0} role="region" aria-label="Stoves side by side">
        <table>
          <thead><tr><th scope="col">Stove</th><th scope="col">Fuel</th><th scope="col">Mass at the start</th><th scope="col">Time a litre</th><th scope="col">Containers</th><th scope="col">Allowed</th></tr></thead>
          <tbody>{plan.comparison.map((one) => [one, `stove.${one.stove}.${one.fuel}`]).map(([one, here]) => (
            <tr><th scope="row">{say.capital(say.spoken(one.stove))}</th><td>{one.fuel_g == null ? "none" : said(`${here}.fuel`, say.grams(one.fuel_g))}</td><td>{one.start_mass_g == null ? "none" : said(`${here}.start`, say.mass(one.start_mass_g, unit))}</td>
              <td>{one.minutes_per_litre == null ? "none" : said(`${here}.minutes-per-litre`, say.minutes(one.minutes_per_litre))}</td><td>{one.containers == null ? "none" : say.plain(one.containers)}</td><td>{one.allowed}{one.why ? `: ${one.why}` : ""}</td></tr>
          ))}</tbody>
        </table>
      </div>
    </More>
  );
}

function Assumed({ plan }) {
  if (!plan.assumed?.length) return null;
  return (
    <More title="What was left open and taken as usual" count={plan.assumed.length}>
      <dl class="facts">{plan.assumed.map((one) => <div><dt>{say.capital(say.spoken(one.what.replace(/\[(\d+)\]\.?/g, (_, at) => ` ${Number(at) + 1}, `).replace(/\./g, ", ")))}</dt><dd><b>{say.spoken(one.value)}</b>{one.why && one.why !== "not stated" ? `: ${one.why}` : ""}</dd></div>)}</dl>
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
    <Window title={`How ${title} comes about`} onClose={onClose}>
      {told?.from && <p>{say.capital(told.from)}: <b>{told.text}</b></p>}
      <ol class="steps">
        {all.map((step) => (
          <li>{say.capital(step.say)}{step.formula && <span class="formula">{step.formula}</span>} = <b>{step.result ?? `${step.value}${step.unit ? `\u00a0${step.unit}` : ""}`}</b>{step.why && <small> ({step.why})</small>}</li>
        ))}
      </ol>
      {told?.assumed?.length > 0 && <><h3>Taken as usual</h3><ul>{told.assumed.map((line) => <li>{typeof line === "string" ? line : Object.values(line).join(": ")}</li>)}</ul></>}
      {told?.sources?.length > 0 && <><h3>Sources</h3><ul>{told.sources.map((one) => <li>{one.code}: {one.title} {one.url && <a href={one.url} target="_blank" rel="noreferrer">{one.url}</a>}</li>)}</ul></>}
    </Window>
  );
}
