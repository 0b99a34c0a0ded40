// What the page says, in the reader's language. English is the key: the sentence
// stands where it is shown, and another language is a list beside it. A sentence
// that the list lacks, or has too many, fails the build's test, so that one
// mended in English cannot lose its translation unseen.
import es from "../words/es.json" with { type: "json" };

/** Languages that there are: code and its own name. */
export const LANGUAGES = [["en", "English"], ["es", "Español"]];
const CATALOGUES = { en: { sentences: {}, program: {} }, es };
const ENGLISH = "en";

let now = ENGLISH;
let plural;
/** Words of the program in the language, as its own catalogue has them: `canister on top`. */
let words = new Map();

/** The language that is spoken. */
export const language = () => now;

/** The first language of the reader's browser that there is. */
export function firstOf(wanted) {
  const codes = wanted.map((one) => one.slice(0, 2).toLowerCase());
  return codes.find((code) => code in CATALOGUES) ?? ENGLISH;
}

export function speak(code) {
  now = code in CATALOGUES ? code : ENGLISH;
  plural = new Intl.PluralRules(now);
  words = new Map();
  if (typeof document !== "undefined") document.documentElement.lang = now;
}
speak(ENGLISH);

/** Marks a sentence that is said later, by `t`: a table's, made before the language is known. */
export const later = (english) => english;

/**
 * A sentence. `{name}` in it is the value of that name: text, a number, or a part
 * of the page; then the answer is a list. Forms for one and for many stand with a
 * `|` between them and are chosen by the value `n`.
 */
export function t(english, values = {}) {
  const said = CATALOGUES[now].sentences[english] ?? english;
  const forms = said.split("|");
  const form = forms.length > 1 && plural.select(values.n) !== "one" ? forms[1] : forms[0];
  const parts = form.split(/\{(\w+)\}/).map((part, at) => (at % 2 ? values[part] ?? "" : part)).filter((part) => part !== "");
  return parts.some((part) => part !== null && typeof part === "object") ? parts : parts.join("");
}

/** Takes the program's own words in the language that is spoken, from the text of its catalogue. */
export function readWords(text) {
  for (const [, id, said] of text.matchAll(/^word-([a-z0-9-]+) = (.*)$/gm)) words.set(id, said);
}

const idOf = (said) => said.toLowerCase().replace(/[^a-z0-9]+/g, "-");

/**
 * What the program says in English, as the reader says it; null where the page
 * has no words for it. Numbers in it stand as `#` in the catalogue.
 */
export function known(english) {
  if (now === ENGLISH) return english;
  const { program } = CATALOGUES[now];
  const numbers = english.match(NUMBER) ?? [];
  const said = program[english] ?? program[english.replace(NUMBER, "#")]?.replace(/#/g, () => decimals(numbers.shift()));
  return said ?? words.get(idOf(english)) ?? null;
}

const NUMBER = /\d+(?:\.\d+)?/g;

/** A number of the program's, `0.6 L`, with the reader's decimal sign. */
export function decimals(text) {
  const sign = new Intl.NumberFormat(now).format(0.5).charAt(1);
  return text.replace(/(\d)\.(\d)/g, `$1${sign}$2`);
}

/** Things one after the other, as in a sentence. */
export const list = (all) => new Intl.ListFormat(now).format(all);
