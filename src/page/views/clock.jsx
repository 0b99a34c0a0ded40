// The lesson's clock: as a picture to move minutes and stations on, and in words
// in the table below it.
import * as say from "../text/words.js";
import { Picture, titleOf } from "./clock-picture.jsx";
import { Heading, Told, useKnown } from "./parts.jsx";
import { Problems } from "./numbers.jsx";
import { toLine } from "./to-line.js";
import { Nothing } from "./work.jsx";
import { known, t } from "../text/language.js";
import { objectiveName } from "../library.js";

export function Clock() {
  const { work, live, library } = useKnown();
  if (!work) return <Nothing />;
  const course = live.plan?.course;
  return (
    <>
      <Heading>{t("The clock")}</Heading>
      <Problems focus={(path, problem) => toLine(problem)} />
      {!course && live.plan && <p>{t("Minute by minute it stands on {link}.", { link: <a href="#papers/staff/lesson-plan.html">{t("the lesson plan")}</a> })}</p>}
      {course?.sessions?.map((session, at) => <Session key={at} session={session} at={at} library={library} />)}
      {course?.left_out?.length > 0 && <Left rows={course.left_out} titles={segmentTitles(library)} />}
      <Syllabus objectives={course?.objectives} />
    </>
  );
}

function Session({ session, at, library }) {
  const rows = session.rows ?? [];
  const titles = segmentTitles(library);
  return (
    <section class="card" aria-label={session.name ?? t("The lesson")}>
      <h2>{t("{name}, {starts} to {ends}", { name: session.name ? known(session.name) ?? session.name : t("The lesson"), starts: session.starts, ends: session.ends })}</h2>
      <Picture session={session} at={at} titles={titles} library={library} />
      <div class="scroll" tabIndex={0} role="region" aria-label={t("The clock as a table")}>
        <table>
          <thead><tr><th scope="col">{t("When")}</th><th scope="col">{t("What")}</th><th scope="col">{t("How")}</th><th scope="col">{t("Lit")}</th></tr></thead>
          <tbody>{rows.map((row) => <tr><td>{t("{start} to {end}", { start: row.start, end: row.end })}</td><th scope="row">{titleOf(row, titles)}</th><td>{say.spoken(row.kind)}</td><td>{(row.places ?? []).filter((place) => place.lit).map((place) => known(place.station) ?? place.station).join(", ") || t("nothing")}</td></tr>)}</tbody>
        </table>
      </div>
      {session.left_out?.length > 0 && <Left rows={session.left_out} titles={titles} />}
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

function Left({ rows, titles }) {
  return (
    <section class="card"><h2>{t("Left out")}</h2><ul>{rows.map((row) => <li>{titles.get(row.segment) ?? say.capital(say.spoken(row.segment))}: <Told text={row.why} />{row.minutes ? ` (${say.minutes(row.minutes)})` : ""}</li>)}</ul></section>
  );
}

const all = (when) => when.map((one) => known(one) ?? one).join(", ");

function Syllabus({ objectives }) {
  if (!objectives?.length) return null;
  return (
    <section class="card">
      <h2>{t("What is taught and checked")}</h2>
      <ul class="lines">{objectives.map((one) => <li><b>{say.capital(objectiveName(one.id))}</b>{one.critical ? ` (${t("must be met")})` : ""}: {one.taught?.length ? t("taught {when}", { when: all(one.taught) }) : t("not taught")}; {one.checked?.length ? t("checked {when}", { when: all(one.checked) }) : t("not checked")}</li>)}</ul>
    </section>
  );
}
