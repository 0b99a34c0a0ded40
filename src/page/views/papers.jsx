// The packet of the work in hand.
import { useEffect, useState } from "preact/hooks";
import { inputs, parsed } from "../live.js";
import { changed, setting, state, value } from "../state.js";
import { Heading, useKnown } from "./parts.jsx";
import { Problems } from "./numbers.jsx";
import { Leaves } from "./sheets.jsx";
import { toLine } from "./to-line.js";
import { Nothing, isLesson } from "./work.jsx";
import { LANGUAGES, later, t } from "../text/language.js";
import { plain } from "../text/words.js";

/** Who prints a bundle. */
const READERS = {
  tonight: later("the instructor, the evening before"),
  learners: later("the learners"),
  field: later("the group on its way"),
  office: later("the office"),
};

/** What the program can make, told by its own help. */
export async function readAsk(bench) {
  const { out } = await bench.run(["make", "--help"]);
  const block = (out.split("--bundle")[1]?.split("\n\n      --")[0] ?? "").replace(/\s+/g, " ");
  const names = block.match(/[a-z]+(?:, [a-z]+){2,}/)?.[0].split(", ") ?? [];
  const bundles = names.filter((name) => name !== "all").map((name) => [name, READERS[name] ?? name]);
  changed({ ask: { bundles, whole: bundles.length > 0 } });
}

function flagsOf(options) {
  const { units, paper, large, bundle, language } = options;
  return [
    ...(units && units !== "file" ? ["--units", units] : []),
    ...(paper ? ["--paper", paper] : []),
    ...(large ? ["--large-print"] : []),
    ...(bundle ? ["--bundle", bundle] : []),
    ...(language ? ["--language", language] : []),
  ];
}

/** The packet's own folder is taken off; that of a further language stays, under its code. */
function inFolder(folder, all) {
  const first = Object.keys(all)[0].split("/")[1];
  return folder === first ? "" : `${folder.slice(first.length + 1)}/`;
}

/** Makes the work's packet; answers {files by path in the packet} or {why}. */
export async function makePacket(bench, work, options, formats, only) {
  const { files, flags } = inputs(work);
  const sheet = only ? ["--sheet", only] : [];
  const result = await bench.run(["make", work.name, "--out", "out", "--format", formats.join(","), ...flags, ...flagsOf(options), ...sheet], files, { limit: 120_000 });
  if (result.status !== 0) return { why: result.err };
  const made = {};
  for (const [path, bytes] of Object.entries(result.files)) {
    made[path.replace(/^out\/([^/]+)\//, (_, folder) => inFolder(folder, result.files))] = bytes;
  }
  return { files: made, said: result.err };
}

export function Papers({ bench, at }) {
  const { work, live, settings, packet, ask, library } = useKnown();
  const [large, setLarge] = useState(false);
  const options = { units: settings.units, paper: settings.paper ?? "", bundle: settings.bundle ?? "", language: settings.sheets ?? "", large };
  const mark = work && JSON.stringify([work.id, work.text, work.overlay, options]);
  const isStale = packet?.mark !== mark;
  useEffect(() => {
    if (!work || !isStale || (live.text === work.text && live.problems.length)) return;
    const wait = setTimeout(async () => {
      if (state.packet?.making === mark) return;
      changed({ packet: { ...state.packet, making: mark } });
      const made = await makePacket(bench, work, options, ["html"]);
      if (state.packet?.making === mark) changed({ packet: { mark, ...made } });
    }, 0);
    return () => clearTimeout(wait);
  }, [mark, live.text, live.problems.length]);
  if (!work) return <Nothing />;
  const make = (formats, only, whole) => {
    // one PDF of every sheet is a bundle too
    const asked = whole && !options.bundle ? { ...options, bundle: "all" } : options;
    return makePacket(bench, work, only ? { ...asked, bundle: "" } : asked, formats, only && sheetOf(only, library));
  };
  const title = value(["title"]);
  return (
    <>
      <Heading>{t("Papers")}{typeof title === "string" ? `: ${title}` : ""}</Heading>
      <Problems focus={(path, problem) => toLine(problem)} />
      {packet?.why && <pre class="said" role="alert">{packet.why}</pre>}
      <details class="more"><summary><span>{t("Paper, units, print")}</span></summary>
        <div class="inside">
          {ask?.bundles.length > 0 && (
            <Choice id="bundle" label={t("Who prints it")} value={options.bundle} of={[["", t("every sheet")], ...ask.bundles.map(([name, reader]) => [name, t(reader)])]} onPick={(bundle) => setting({ bundle })} />
          )}
          <Choice id="units" label={t("Units")} value={options.units} of={[["", t("as in the file")], ["us", t("US")], ["metric", t("metric")], ["both", t("both")]]} onPick={(units) => setting({ units })} />
          <Choice id="sheets-language" label={t("Language of the sheets")} value={options.language} of={[["", t("as in the file")], ...LANGUAGES, [LANGUAGES.map(([code]) => code).join(","), t("both")]]} onPick={(sheets) => setting({ sheets })} />
          <Choice id="paper" label={t("Paper")} value={options.paper} of={[["", t("as in the file")], ["letter", t("letter")], ["a4", "A4"]]} onPick={(paper) => setting({ paper })} />
          <p><label class="tick"><input type="checkbox" checked={large} onChange={(event) => setLarge(event.target.checked)} /> <span>{t("Large print")}</span></label></p>
        </div>
      </details>
      <p role="status" class="hint">{isStale && live.problems.length === 0 ? t("The sheets are being made.") : ""}</p>
      {packet?.files && !isStale && <Paper key={mark} count={async () => (await makePacket(bench, work, options, ["pdf"])).files} />}
      {packet?.files && <Leaves files={packet.files} base="papers" at={at} name={work.name.replace(/\.ya?ml$/, "")} make={make} title={typeof title === "string" ? title : work.name} whole={ask?.whole} first={isLesson() ? /lesson-plan/ : undefined} />}
    </>
  );
}

/** How much paper it takes, sheet by sheet: told by the program's list of what it made. */
function Paper({ count }) {
  const [found, setFound] = useState(null);
  const ask = async (event) => {
    if (!event.currentTarget.open || found) return;
    setFound({ rows: [] });
    const files = (await count()) ?? {};
    const lists = Object.keys(files).filter((path) => /(^|\/)manifest\.json$/.test(path));
    setFound({ rows: lists.flatMap((path) => Object.entries(parsed(new TextDecoder().decode(files[path]))?.sheets ?? {}).flatMap(([name, sheet]) => (name === "packet" ? [] : [sheet]))), isDone: true });
  };
  const all = found?.rows.reduce((sum, row) => sum + row.copies * row.leaves, 0);
  return (
    <details class="more" onToggle={ask}><summary><span>{t("Leaves of paper")}</span>{found?.isDone && <span class="count">{plain(all)}</span>}</summary>
      <div class="inside">
        {!found?.isDone && <p class="hint" role="status">{t("The leaves are being counted.")}</p>}
        {found?.isDone && (
          <div class="scroll" tabIndex={0} role="region" aria-label={t("Leaves of paper")}>
            <table>
              <thead><tr><th scope="col">{t("Sheet")}</th><th scope="col">{t("Copies")}</th><th scope="col">{t("Sides")}</th><th scope="col">{t("Leaves")}</th></tr></thead>
              <tbody>{found.rows.filter((row) => row.leaves > 0).map((row) => <tr><th scope="row">{row.title}</th><td>{plain(row.copies)}</td><td>{plain(row.pages)}</td><td>{plain(row.copies * row.leaves)}</td></tr>)}</tbody>
              <tfoot><tr><th scope="row">{t("All together")}</th><td /><td /><td>{plain(all)}</td></tr></tfoot>
            </table>
          </div>
        )}
      </div>
    </details>
  );
}

export function Choice({ id, label, value: now, of, onPick }) {
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={now} onChange={(event) => onPick(event.target.value)}>
        {of.map(([choice, word]) => <option value={choice}>{word}</option>)}
      </select>
    </div>
  );
}

/** The sheet that a file of the packet is a part of: packing-list-kitchen-1 is of packing-list. */
function sheetOf(path, library) {
  const file = path.split("/").at(-1).replace(/\.html$/, "");
  const names = Object.keys(library?.sheets ?? {}).filter((name) => file === name || file.startsWith(`${name}-`));
  return names.sort((a, b) => b.length - a.length)[0] ?? file;
}
