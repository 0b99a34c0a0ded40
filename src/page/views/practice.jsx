// Practice problems and their worked key, by topic and number.
import { useState } from "preact/hooks";
import { setting, tell } from "../state.js";
import { Heading, useKnown } from "./parts.jsx";
import { Leaves } from "./sheets.jsx";
import { Choice } from "./papers.jsx";
import { known, t } from "../text/language.js";
import { spoken } from "../text/words.js";

/** Topics, told by the program's own list. */
export async function readTopics(bench) {
  const { out } = await bench.run(["list", "topics"]);
  const lines = out.trim().split("\n");
  return lines.map((line) => line.trim().split(/\s{2,}/)).filter(([word]) => /^[a-z-]+$/.test(word) && word !== "topic");
}

export function Practice({ bench, topics, at }) {
  const { settings } = useKnown();
  const [ask, setAsk] = useState({ topic: "all", count: "10", seed: "1", level: "" });
  const [made, setMade] = useState(null);
  const [why, setWhy] = useState("");
  const pick = (part) => setAsk({ ...ask, ...part });
  const run = async (formats) => {
    const args = ["practice", "--topic", ask.topic, "--count", ask.count, "--seed", ask.seed, "--out", "out", "--format", formats.join(","),
      ...(ask.level ? ["--level", ask.level] : []), ...(settings.units ? ["--units", settings.units] : []), ...(settings.paper ? ["--paper", settings.paper] : [])];
    const result = await bench.run(args);
    if (result.status !== 0) return { why: result.err };
    return { files: Object.fromEntries(Object.entries(result.files).map(([path, bytes]) => [path.replace(/^out\/[^/]+\//, ""), bytes])) };
  };
  const make = async () => {
    const result = await run(["html"]);
    setWhy(result.why ?? "");
    if (result.why) tell(result.why.trim(), "trouble");
    setMade(result.files ?? null);
  };
  return (
    <>
      <Heading>{t("Practice")}</Heading>
      <p>{t("A sheet of problems and its key with every step. The same number gives the same sheet; another number, other problems.")}</p>
      <form class="fields-row" onSubmit={(event) => { event.preventDefault(); make(); }}>
        <Choice id="topic" label={t("About")} value={ask.topic} of={topics.map(([word, what]) => [word, what ? known(what) ?? what : spoken(word)])} onPick={(topic) => pick({ topic })} />
        <div class="field"><label for="count">{t("How many")}</label><input id="count" inputMode="numeric" autocomplete="off" value={ask.count} onInput={(event) => pick({ count: event.target.value })} /></div>
        <div class="field"><label for="seed">{t("Number of the sheet")}</label><input id="seed" inputMode="numeric" autocomplete="off" value={ask.seed} onInput={(event) => pick({ seed: event.target.value })} /></div>
        <Choice id="level" label={t("How hard")} value={ask.level} of={[["", t("from easy to hard")], ["1", t("1, read it off the table")], ["2", t("2, work it out")], ["3", t("3, plan the trip")]]} onPick={(level) => pick({ level })} />
        <Choice id="practice-units" label={t("Units")} value={settings.units} of={[["", t("metric")], ["us", t("US")], ["both", t("both")]]} onPick={(units) => setting({ units })} />
        <p class="row"><button type="submit" class="strong">{t("Make the sheet")}</button></p>
      </form>
      {why && <pre class="said" role="alert">{why}</pre>}
      {made && <Leaves files={made} base="practice" at={at} name={`practice-${ask.topic}-${ask.seed}`} title={t("Practice")} make={(formats) => run(formats)} />}
    </>
  );
}
