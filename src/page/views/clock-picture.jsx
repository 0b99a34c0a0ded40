// The clock as a picture: rows of the timetable along the minutes, what is lit at
// which station. Its edges, its stations and its parts can be moved, by pointer,
// by keys and by buttons. What the program refuses goes back to where it was,
// with the program's reason.
import { useEffect, useRef, useState } from "preact/hooks";
import { problemsOf } from "../live.js";
import { rewrite, setOverlay, state, value } from "../state.js";
import { put } from "../text/edit.js";
import * as say from "../text/words.js";
import { ProblemText } from "./parts.jsx";
import { known, t } from "../text/language.js";

/** Of the picture: a minute's width (less on a phone), a station's height, the room before and above. */
const wideMinute = () => (window.innerWidth < 500 ? 3 : 5);
/** The room that a time needs above the parts. */
const TIME_WIDE = 42;
const TALL = 28;
const LEFT = 90;
const TOP = 30;
/** The lane of what all do together; no station can be called so. */
const TOGETHER = "";
/** Keys pressed within this time are one move. */
const PAUSE_MS = 450;

function minute(clock) {
  const [hours, minutes] = String(clock).split(":").map(Number);
  return hours * 60 + minutes;
}

function clock(minutes) {
  const day = (minutes + 1440) % 1440;
  return `${Math.floor(day / 60)}:${String(day % 60).padStart(2, "0")}`;
}

/** `6 min` of the library as a number. */
function minutesOf(text) {
  const found = String(text ?? "").match(/^\s*([\d.]+)\s*(min|minutes?|h|hours?)\b/);
  return found ? Number(found[1]) * (found[2].startsWith("h") ? 60 : 1) : null;
}

/** The key of a session: its own where sessions are named, else the course's. */
function keyOf(at, key) {
  return Array.isArray(value(["course", "sessions"])) ? ["course", "sessions", at, key] : ["course", key];
}

/** What can be moved in a session: {id, label, now, least, most, step, said, text or overlay}. */
function handles(session, at, lanes) {
  const { work } = state;
  const starts = minute(session.starts);
  const usual = state.live.plan?.assumed?.find((one) => one.what === "course.stations")?.value;
  const stations = Number.parseInt(value(["course", "stations"]) ?? usual ?? "", 10);
  const text = (key, written) => (number) => ({ text: put(work.text, key, written(number)) });
  return {
    starts: { label: t("Begins"), isClock: true, now: starts, least: 0, most: 23 * 60 + 55, step: 5, said: clock, to: text(keyOf(at, "starts"), clock) },
    minutes: { label: t("Minutes there are"), now: Math.round(session.minutes), least: 10, most: 720, step: 5, said: (number) => t("{minutes}, to {clock}", { minutes: say.minutes(number), clock: clock(starts + number) }), to: text(keyOf(at, "minutes"), String) },
    stations: { label: t("Stations lit at a time"), now: Number.isFinite(stations) ? stations : lanes, least: 1, most: 50, step: 1, said: String, to: text(["course", "stations"], String) },
  };
}

/** A part of the timetable: its minutes are the library's, and for this group in a layer of its own. */
function part(row, title, library) {
  const [id, name] = row.segment.split(".");
  const segment = library?.modules.find((one) => one.id === id)?.module.segments?.[name];
  if (!segment) return null;
  const path = `content/modules/${id}.yaml`;
  const own = state.work.overlay?.[path] ?? `extends: ${id}\n`;
  const pinned = (number) => ["least", "usual"].reduce((text, key) => put(text, ["segments", name, key], `${number} min`), own);
  const now = minute(row.end) - minute(row.start);
  return {
    label: title, now, least: 1, most: 240, step: 1, said: say.minutes,
    floor: minutesOf(segment.least),
    to: (number) => ({ overlay: { ...state.work.overlay, [path]: pinned(number) } }),
    back: state.work.overlay?.[path]?.includes(`${name}:`) ? () => ({ overlay: without(path, own, name) }) : null,
  };
}

function without(path, own, name) {
  const overlay = { ...state.work.overlay };
  const left = ["least", "usual"].reduce((text, key) => put(text, ["segments", name, key], undefined), own);
  if (/^extends: \S+\s*(segments:\s*)?$/.test(left)) delete overlay[path];
  else overlay[path] = left;
  return overlay;
}

/** Parts whose start is written above them: those that leave room for it. */
function timesShown(rows, wide) {
  const shown = new Set();
  let free = -Infinity;
  rows.forEach((row, number) => {
    const at = minute(row.start) * wide;
    if (at < free) return;
    shown.add(number);
    free = at + TIME_WIDE;
  });
  return shown;
}

/** Stations that are ever lit come first, so that the line under them counts them. */
function lanesOf(rows) {
  const places = rows.flatMap((row) => row.places ?? []).map((place) => [place.station ?? TOGETHER, place.lit]);
  return [...new Set([...places.filter(([, lit]) => lit), ...places.filter(([name]) => name !== TOGETHER), ...places].map(([name]) => name))];
}

/** What a row is called: its part, or the parts that go on side by side. */
export function titleOf(row, titles) {
  const beside = row.segment === "carousel" ? new Set((row.places ?? []).map((place) => titles.get(place.does)).filter(Boolean)) : [];
  return titles.get(row.segment) ?? ([...beside].sort().join(" / ") || say.capital(say.spoken(row.segment)));
}

export function Picture({ session, at, titles, library }) {
  const [draft, setDraft] = useState(null);
  const [chosen, setChosen] = useState(null);
  const [said, setSaid] = useState(null);
  const wait = useRef(0);
  const moving = useRef(false);
  const rows = session.rows ?? [];
  const stations = lanesOf(rows);
  const all = handles(session, at, stations.length);
  const parts = rows.map((row) => part(row, titleOf(row, titles), library));
  const found = (id) => all[id] ?? parts[id];
  useEffect(() => () => clearTimeout(wait.current), []);
  // a plan that comes in takes a move back that was written, none that still goes on
  useEffect(() => { if (!moving.current) setDraft(null); }, [session]);

  /** Puts a move to the program; it is written if nothing is wrong with it. */
  const propose = async (id, number) => {
    const one = found(id);
    moving.current = false;
    if (!one || number === one.now) {
      setDraft(null);
      return;
    }
    if (one.floor !== undefined && one.floor !== null && number < one.floor) {
      setDraft(null);
      setSaid({ label: one.label, problems: [{ message: t("{minutes} is the least that is safe and useful for this part, by the library", { minutes: say.minutes(one.floor) }), help: t("leave it out of `focus` instead, or give the lesson more minutes") }] });
      return;
    }
    // what was written stays where it was moved to until it is planned
    if (!(await write(one, one.to(number), `${one.label}: ${one.said(number)}.`))) setDraft(null);
  };
  const write = async (one, { text = state.work.text, overlay = state.work.overlay }, done) => {
    const { work } = state;
    const problems = await problemsOf(work, text, overlay);
    if (state.work.text !== work.text || state.work.overlay !== work.overlay) return false;
    if (problems.length) {
      setSaid({ label: one.label, problems });
      return false;
    }
    if (text !== work.text) rewrite(text);
    if (overlay !== work.overlay) setOverlay(overlay);
    setSaid({ done });
    return true;
  };
  const move = (id, number, isLast) => {
    const { least, most } = found(id);
    const to = Math.min(most, Math.max(least, number));
    setDraft({ id, to });
    moving.current = true;
    clearTimeout(wait.current);
    if (isLast) propose(id, to);
  };
  const nowOf = (id) => (draft?.id === id ? draft.to : found(id).now);
  const keys = (id) => (event) => {
    const one = found(id);
    const steps = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 3, PageDown: -3 }[event.key];
    // stations stand below each other: down is one more
    const sign = id === "stations" && /Up|Down/.test(event.key) ? -1 : 1;
    if (event.key === "Escape") {
      clearTimeout(wait.current);
      moving.current = false;
      setDraft(null);
    } else if (event.key === "Enter") {
      propose(id, nowOf(id));
    } else if (steps) {
      const to = Math.min(one.most, Math.max(one.least, nowOf(id) + sign * steps * one.step));
      move(id, to, false);
      wait.current = setTimeout(() => propose(id, to), PAUSE_MS);
    } else return;
    event.preventDefault();
  };
  const grab = (id, scale, isDown) => (event) => {
    event.preventDefault();
    const { currentTarget: held, pointerId } = event;
    held.focus();
    setChosen(id);
    held.setPointerCapture(pointerId);
    const from = isDown ? event.clientY : event.clientX;
    const one = found(id);
    let to = one.now;
    moving.current = true;
    const drag = (now) => {
      const steps = Math.round(((isDown ? now.clientY : now.clientX) - from) / scale / one.step);
      to = Math.min(one.most, Math.max(one.least, one.now + steps * one.step));
      setDraft({ id, to });
    };
    const end = (isLeft) => () => {
      held.removeEventListener("pointermove", drag);
      held.removeEventListener("pointerup", drop);
      held.removeEventListener("pointercancel", leave);
      moving.current = false;
      if (isLeft) setDraft(null);
      else propose(id, to);
    };
    const drop = end(false);
    const leave = end(true);
    held.addEventListener("pointermove", drag);
    held.addEventListener("pointerup", drop);
    held.addEventListener("pointercancel", leave);
  };
  const common = (id) => {
    const one = found(id);
    return {
      role: "slider", tabIndex: 0, "aria-label": one.label, "aria-valuemin": one.least, "aria-valuemax": one.most, "aria-valuenow": nowOf(id), "aria-valuetext": one.said(nowOf(id)),
      onKeyDown: keys(id), onFocus: () => setChosen(id), class: `grip${draft?.id === id ? " moved" : ""}`,
    };
  };

  const MINUTE = wideMinute();
  const start = minute(session.starts);
  const shift = nowOf("starts") - start;
  const end = Math.max(start + nowOf("minutes"), ...rows.map((row) => minute(row.end)));
  const high = TOP + TALL * Math.max(stations.length, nowOf("stations"), 1) + 14;
  const wide = LEFT + (end - start) * MINUTE + 40;
  const x = (time) => LEFT + (time - start) * MINUTE;
  const timed = timesShown(rows, MINUTE);
  const lane = (place) => TOP + Math.max(0, stations.indexOf(place.station ?? TOGETHER)) * TALL;
  return (
    <>
      <p class="hint">{t("Drag an edge, the line under the stations, or the end of a part; or go to it by Tab and press the arrow keys. What cannot be goes back, with the reason.")}</p>
      <div class="scroll" role="region" aria-label={t("The clock as a picture")} tabIndex={0}>
        <svg width={wide} height={high} role="group" aria-label={t("{n} part from {starts} to {ends}; the table below says the same|{n} parts from {starts} to {ends}; the table below says the same", { n: rows.length, starts: session.starts, ends: session.ends })}>
          {stations.map((station, line) => <text x="0" y={TOP + line * TALL + 18} class="name">{station ? known(station) ?? station : t("all together")}</text>)}
          {rows.map((row, number) => {
            const wideOf = Math.max(3, (minute(row.end) - minute(row.start)) * MINUTE - 1);
            const places = row.places?.length ? row.places : [{ station: stations[0] }];
            const bars = places.map((place) => <rect x={x(minute(row.start))} y={lane(place)} width={wideOf} height={TALL - 4} class={place.lit ? "lit" : row.kind === "break" ? "rest" : "cold"} />);
            const words = `${row.start} ${titleOf(row, titles)}${places.some((place) => place.lit) ? ", lit" : ""}`;
            const late = draft?.id === number ? (draft.to - parts[number].now) * MINUTE : 0;
            return (
              <g class="part">
                {timed.has(number) && <text x={x(minute(row.start))} y="18" class="time">{row.start}</text>}
                {parts[number]
                  ? <g {...common(number)} onPointerDown={grab(number, MINUTE)}><title>{words}</title>{bars}<rect class="edge" x={x(minute(row.end)) - 5 + late} y={TOP} width="5" height={TALL * Math.max(1, stations.length) - 4} /></g>
                  : <g><title>{words}</title>{bars}</g>}
              </g>
            );
          })}
          <g {...common("starts")} onPointerDown={grab("starts", MINUTE)}><title>{t("Begins")}</title><rect class="hold" x={LEFT - 12 + shift * MINUTE} y={TOP - 6} width="24" height={high - TOP} /><rect class="bar" x={LEFT - 3 + shift * MINUTE} y={TOP - 6} width="5" height={high - TOP} /></g>
          <g {...common("minutes")} onPointerDown={grab("minutes", MINUTE)}><title>{t("Minutes there are")}</title><rect class="hold" x={x(start + nowOf("minutes")) - 10} y={TOP - 6} width="28" height={high - TOP} /><rect class="bar" x={x(start + nowOf("minutes")) + 2} y={TOP - 6} width="5" height={high - TOP} /></g>
          <g {...common("stations")} aria-orientation="vertical" onPointerDown={grab("stations", TALL, true)}><title>{t("Stations lit at a time")}</title><rect class="hold" x="0" y={TOP + nowOf("stations") * TALL - 12} width={LEFT - 16} height="24" /><rect class="bar" x="0" y={TOP + nowOf("stations") * TALL - 4} width={LEFT - 16} height="5" /></g>
        </svg>
      </div>
      <p class="hint">{t("Filled: a stove is lit. Light: nothing is lit. Dashed: a break.")}</p>
      {["starts", "minutes", "stations"].map((id) => <Steps key={id} one={all[id]} now={nowOf(id)} onStep={(to) => move(id, to, true)} />)}
      {typeof chosen === "number" && parts[chosen] && <Steps one={parts[chosen]} now={nowOf(chosen)} onStep={(to) => move(chosen, to, true)} onBack={parts[chosen].back && (() => write(parts[chosen], parts[chosen].back(), t("{label}: as the library has it.", { label: parts[chosen].label })))} />}
      <div role="status">{said?.done && <p>{t("{done} Undo takes it back.", { done: said.done })}</p>}</div>
      <div role="alert">{said?.problems?.map((problem) => <p class="wrong problem"><strong>{t("Not moved, {label}:", { label: said.label.toLowerCase() })} </strong><ProblemText problem={problem} /></p>)}</div>
    </>
  );
}

/** The same moves by buttons, for whoever cannot drag. */
function Steps({ one, now, onStep, onBack }) {
  const less = one.isClock ? t("Earlier") : t("Less");
  const more = one.isClock ? t("Later") : t("More");
  return (
    <p class="row steps-row" role="group" aria-label={one.label}>
      <span class="grow"><b>{one.label}</b>: {one.said(now)}</span>
      <button type="button" onClick={() => onStep(now - one.step)} disabled={now <= one.least}>{less}<span class="unseen">: {one.label}</span></button>
      <button type="button" onClick={() => onStep(now + one.step)} disabled={now >= one.most}>{more}<span class="unseen">: {one.label}</span></button>
      {onBack && <button type="button" class="quiet" onClick={onBack}>{t("As the library has it")}</button>}
    </p>
  );
}
