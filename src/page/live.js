// What the program says of the work, as it is typed: the newest text is checked
// and planned as soon as the one before it is done with.
import { changed, state, units } from "./state.js";
import { t } from "./text/language.js";

let bench = null;
let running = null;

export function setBench(live) {
  bench = live;
}

/** Files and flags of a run on the work: its text, and what is laid over the library. */
export function inputs(work, text = work.text, overlay = work.overlay ?? {}) {
  const files = { [work.name]: text };
  for (const [path, content] of Object.entries(overlay)) files[`ours/${path}`] = content;
  const flags = Object.keys(overlay).length ? ["--content", "ours"] : [];
  return { files, flags };
}

/** Checks and plans if the text is not the one that was looked at last. */
export function look() {
  const { work, live } = state;
  if (!bench || !work || running) return;
  const isLooked = live.text === work.text && live.overlay === work.overlay && live.id === work.id;
  if (isLooked && (live.units === state.settings.units || !live.plan)) return;
  running = one(work).finally(() => {
    running = null;
    look();
  });
}

async function one(work) {
  const { files, flags } = inputs(work);
  const mark = { text: work.text, overlay: work.overlay, id: work.id };
  try {
    const check = await bench.run(["check", "--json", work.name, ...flags], files);
    const found = parsed(check.out);
    if (!found) {
      changed({ live: { ...state.live, ...mark, problems: [], warnings: [], plan: null, said: check.err || t("the program gave no answer") } });
      return;
    }
    const isRight = found.problems.length === 0;
    changed({ live: { ...state.live, ...mark, ...found, said: "", plan: isRight ? state.live.plan : null } });
    // what was typed meanwhile is checked before this is planned
    const isOld = () => state.work?.text !== work.text || state.work.id !== work.id;
    if (!isRight || isOld()) return;
    const planned = await bench.run(["plan", "--json", work.name, ...flags], files);
    changed({ live: { ...state.live, plan: parsed(planned.out), said: planned.out ? "" : planned.err } });
    if (isOld()) return;
    const chosen = state.settings.units;
    const says = await bench.run(["why", work.name, "--json", "--units", units(), ...flags], files);
    const ids = parsed(says.out)?.ids ?? [];
    changed({ live: { ...state.live, units: chosen, says: new Map(ids.map((one) => [one.id, one.text])) } });
  } catch (error) {
    changed({ live: { ...state.live, ...mark, plan: null, said: t("The program could not be run: {message}", { message: error.message }) } });
  }
}

/** How a printed value came about, by its id: {steps, assumed, sources, from}, or null. */
export async function why(work, id) {
  const { files, flags } = inputs(work);
  const told = await bench.run(["why", work.name, id, "--json", "--units", units(), ...flags], files);
  return parsed(told.out)?.why ?? null;
}

/** What is wrong with another text or layer in the place of the work's: problems, or what else is said. */
export async function problemsOf(work, text, overlay) {
  const { files, flags } = inputs(work, text, overlay);
  const check = await bench.run(["check", "--json", work.name, ...flags], files);
  return parsed(check.out)?.problems ?? [{ message: check.err.trim() || t("the program gave no answer") }];
}

/** What a keeper of the content must look at again by a day, a line each. */
export async function staleRules(day) {
  return (await bench.run(["check", "--stale", day])).out;
}

/** Plans another text beside the work's: {problems, plan, said}. */
export async function planned(work, text) {
  const { files, flags } = inputs(work, text);
  const check = await bench.run(["check", "--json", work.name, ...flags], files);
  const found = parsed(check.out);
  if (!found || found.problems.length) return { problems: found?.problems ?? [], plan: null, said: check.err };
  const plan = await bench.run(["plan", "--json", work.name, ...flags], files);
  return { problems: [], plan: parsed(plan.out), said: plan.err };
}

export function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
