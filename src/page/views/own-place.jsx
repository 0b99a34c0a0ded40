// What a group says in the place of a place's rules, for all of its trips.
import { state } from "../state.js";
import { isSound, put, read, valueAt } from "../text/edit.js";
import { decimals, language, t } from "../text/language.js";
import * as say from "../text/words.js";
import { Changes, Wrong } from "./own.jsx";

/** The rules of a place one by one: [keys, rule]. */
export function rulesOf(place) {
  return Object.entries(place.rules ?? {}).flatMap(([subject, rule]) =>
    (rule.text || rule.value ? [[[subject], rule]] : Object.entries(rule).map(([name, one]) => [[subject, name], one])));
}

/** Words stand beside the language's own, figures beside the English, which all languages share. */
const layerOf = (id, key) => `content/${key === "text" && language() !== "en" ? `${language()}/` : ""}places/${id}.yaml`;

export function OwnPlace({ bench, place, change, beginning }) {
  const overlay = state.work?.overlay ?? {};
  const layers = [...new Set(["value", "text"].map((key) => layerOf(place.id, key)))];
  const base = layerOf(place.id, "value");
  if (overlay[base] === undefined) {
    return <p><button type="button" onClick={async () => change(base, await beginning(bench, place.id, base))}>{t("Change these rules for our group")}</button></p>;
  }
  const rules = rulesOf(place).map(([keys, rule]) => [keys, rule, rule.value === undefined ? "text" : "value"]);
  const now = (path, keys) => {
    const document = read(overlay[path] ?? "");
    return isSound(document) ? valueAt(document, keys) : undefined;
  };
  const write = (path, keys, text, usual) => change(path, put(overlay[path] ?? "", keys, text.trim() === "" || text === usual ? undefined : text) || undefined);
  return (
    <>
      <p class="hint">{t("A rule that the land manager told for one trip stands in that trip; here stand those that hold for all of yours.")}</p>
      {rules.map(([keys, rule, key]) => {
        const path = layerOf(place.id, key);
        const id = `own-${place.id}-${keys.join("-")}`;
        const usual = key === "value" ? decimals(rule.value) : rule.text;
        return (
          <div class="field" key={id}>
            <label for={id}>{say.capital(say.spoken(keys.join("-")))}</label>
            <p class="hint" id={`${id}-hint`}>{t("the library: {value}", { value: usual })}</p>
            <input id={id} autocomplete="off" aria-describedby={`${id}-hint`} value={now(path, ["rules", ...keys, key]) ?? usual} onInput={(event) => write(path, ["rules", ...keys, key], event.target.value, usual)} />
          </div>
        );
      })}
      <Wrong bench={bench} own={JSON.stringify(overlay)} />
      <Changes bench={bench} own={JSON.stringify(overlay)} />
      <p class="row"><button type="button" class="quiet" onClick={() => layers.forEach((path) => change(path, undefined))}>{t("Take this change away")}</button></p>
    </>
  );
}
