// The lesson's clock: as a picture to move minutes and stations on, and in words
// in the table below it.
import * as say from "../text/words.js";
import { Picture, titleOf } from "./clock-picture.jsx";
import { Heading, useKnown } from "./parts.jsx";
import { Problems } from "./numbers.jsx";
import { toLine } from "./to-line.js";
import { Nothing } from "./work.jsx";

export function Clock() {
  const { work, live, library } = useKnown();
  if (!work) return <Nothing />;
  const course = live.plan?.course;
  return (
    <>
      <Heading>The clock</Heading>
      <Problems focus={(path, problem) => toLine(problem)} />
      {!course && live.plan && <p>Minute by minute it stands on <a href="#papers/staff/lesson-plan.html">the lesson plan</a>.</p>}
      {course?.sessions?.map((session, at) => <Session key={at} session={session} at={at} library={library} />)}
      {course?.left_out?.length > 0 && <Left rows={course.left_out} />}
      <Syllabus objectives={course?.objectives} />
    </>
  );
}

function Session({ session, at, library }) {
  const rows = session.rows ?? [];
  const titles = segmentTitles(library);
  return (
    <section class="card" aria-label={session.name ?? "The lesson"}>
      <h2>{session.name ?? "The lesson"}, {session.starts} to {session.ends}</h2>
      <Picture session={session} at={at} titles={titles} library={library} />
      <div class="scroll" tabIndex={0} role="region" aria-label="The clock as a table">
        <table>
          <thead><tr><th scope="col">Clock</th><th scope="col">What</th><th scope="col">How</th><th scope="col">Lit</th></tr></thead>
          <tbody>{rows.map((row) => <tr><td>{row.start} to {row.end}</td><th scope="row">{titleOf(row, titles)}</th><td>{row.kind}</td><td>{(row.places ?? []).filter((place) => place.lit).map((place) => place.station).join(", ") || "nothing"}</td></tr>)}</tbody>
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
