// The lesson's clock as a picture: rows of the timetable along the minutes, who
// is at which station, what is lit. Its words stand in the table below it.
import { change, value } from "../state.js";
import * as say from "../text/words.js";
import { Heading, useKnown } from "./parts.jsx";
import { Problems } from "./numbers.jsx";
import { toLine } from "./to-line.js";
import { Nothing } from "./work.jsx";

const MINUTE = 5;

export function Clock() {
  const { work, live, library } = useKnown();
  if (!work) return <Nothing />;
  const course = live.plan?.course;
  return (
    <>
      <Heading>The clock</Heading>
      <Problems focus={(path, problem) => toLine(problem)} />
      <Ends />
      {!course && live.plan && <p>Minute by minute it stands on <a href="#papers/staff/lesson-plan.html">the lesson plan</a>.</p>}
      {course?.sessions?.map((session, at) => <Session session={session} at={at} library={library} />)}
      {course?.left_out?.length > 0 && <Left rows={course.left_out} />}
      <Syllabus objectives={live.plan?.objectives} />
    </>
  );
}

/** Minutes and stations by a slider: what safety does not allow is refused with its reason. */
function Ends() {
  const minutes = Number.parseInt(value(["course", "minutes"]) ?? "", 10);
  const stations = Number.parseInt(value(["course", "stations"]) ?? "", 10);
  return (
    <div class="fields-row">
      <Slider id="minutes" label="Minutes there are" now={Number.isFinite(minutes) ? minutes : 120} least={15} most={480} step={5} onPick={(number) => change(["course", "minutes"], String(number))} />
      <Slider id="stations" label="Stations lit at a time" now={Number.isFinite(stations) ? stations : 1} least={1} most={12} step={1} onPick={(number) => change(["course", "stations"], String(number))} />
    </div>
  );
}

function Slider({ id, label, now, least, most, step, onPick }) {
  return (
    <div class="field">
      <label for={`clock-${id}`}>{label}: <output for={`clock-${id}`}>{now}</output></label>
      <input id={`clock-${id}`} type="range" min={least} max={most} step={step} value={now} onInput={(event) => onPick(event.target.value)} />
    </div>
  );
}

function minute(clock) {
  const [hours, minutes] = String(clock).split(":").map(Number);
  return hours * 60 + minutes;
}

function Session({ session, library }) {
  const rows = session.rows ?? [];
  const start = minute(session.starts ?? rows[0]?.start);
  const end = Math.max(minute(session.ends ?? rows.at(-1)?.end), ...rows.map((row) => minute(row.end)));
  const stations = [...new Set(rows.flatMap((row) => (row.places ?? []).map((place) => place.station ?? "watching")))];
  const tall = 28;
  const high = 30 + tall * Math.max(1, stations.length);
  const wide = Math.max(300, (end - start) * MINUTE) + 90;
  const titles = segmentTitles(library);
  return (
    <section class="card">
      <h2>{session.name ?? "The lesson"}, {session.starts} to {session.ends}</h2>
      <div class="scroll" tabIndex={0} role="region" aria-label="The clock as a picture">
        <svg width={wide} height={high} role="img" aria-label={`${say.count(rows.length, "part")} from ${session.starts} to ${session.ends}; the table below says the same`}>
          {stations.map((station, line) => <text x="0" y={30 + line * tall + 18} class="name">{station}</text>)}
          {rows.map((row) => {
            const x = 90 + (minute(row.start) - start) * MINUTE;
            const width = Math.max(2, (minute(row.end) - minute(row.start)) * MINUTE - 1);
            const places = row.places?.length ? row.places : [{ station: stations[0] }];
            return (
              <g>
                <text x={x} y="18" class="time">{row.start}</text>
                {places.map((place) => <rect x={x} y={30 + Math.max(0, stations.indexOf(place.station ?? "watching")) * tall} width={width} height={tall - 4} class={place.lit ? "lit" : row.kind === "break" ? "rest" : "cold"}><title>{`${row.start} ${titles.get(row.segment) ?? row.segment}${place.lit ? ", lit" : ""}`}</title></rect>)}
              </g>
            );
          })}
        </svg>
      </div>
      <p class="hint">Filled: a stove is lit. Hatched or light: nothing is lit.</p>
      <div class="scroll" tabIndex={0} role="region" aria-label="The clock as a table">
        <table>
          <thead><tr><th scope="col">Clock</th><th scope="col">What</th><th scope="col">How</th><th scope="col">Lit</th></tr></thead>
          <tbody>{rows.map((row) => <tr><td>{row.start} to {row.end}</td><th scope="row">{titles.get(row.segment) ?? say.capital(say.spoken(row.segment))}</th><td>{row.kind}</td><td>{(row.places ?? []).filter((place) => place.lit).map((place) => place.station).join(", ") || "nothing"}</td></tr>)}</tbody>
        </table>
      </div>
      {session.left_out?.length > 0 && <Left rows={session.left_out} />}
    </section>
  );
}

function segmentTitles(library) {
  const found = new Map();
  for (const { id, module } of library?.modules ?? []) {
    for (const [name, segment] of Object.entries(module.segments ?? {})) found.set(`${id}.${name}`, segment.title);
  }
  return found;
}

function Left({ rows }) {
  return (
    <section class="card"><h2>Left out</h2><ul>{rows.map((row) => <li>{say.capital(say.spoken(row.segment))}: {row.why}{row.minutes ? ` (${row.minutes} min)` : ""}</li>)}</ul></section>
  );
}

function Syllabus({ objectives }) {
  if (!objectives?.length) return null;
  return (
    <section class="card">
      <h2>What is taught and checked</h2>
      <ul class="lines">{objectives.map((one) => <li><b>{say.capital(say.spoken(one.id.replace(".", ": ")))}</b>{one.critical ? " (must be met)" : ""}: {one.taught?.length ? `taught ${one.taught.join(", ")}` : "not taught"}; {one.checked?.length ? `checked ${one.checked.join(", ")}` : "not checked"}</li>)}</ul>
    </section>
  );
}
