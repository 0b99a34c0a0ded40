// Numbers and words as the sheets say them.

import { known, language } from "./language.js";

/** One form of numbers a language, made once. */
const NUMBERS = new Map();

function parts(value) {
  const speaks = language();
  if (!NUMBERS.has(speaks)) NUMBERS.set(speaks, new Intl.NumberFormat(speaks, { maximumFractionDigits: 2, useGrouping: "always" }));
  return NUMBERS.get(speaks).formatToParts(value);
}

function number(value, digits = 0) {
  // a plan may leave a number out: a lesson has no day, a meal that is cold no minutes
  if (!Number.isFinite(value)) return "\u2013";
  const rounded = Number(value.toFixed(digits));
  // a space for thousands, as on the sheets; a real minus sign
  return parts(rounded).map(({ type, value: part }) => ({ group: "\u202f", minusSign: "\u2212" })[type] ?? part).join("");
}

const isUs = (units) => units === "us";

/** Fuel is weighed in grams everywhere: canisters and scales say grams. */
export const grams = (g) => `${number(g)}\u00a0g`;
export const mass = (g, units) =>
  isUs(units)
    ? g >= 453.6 ? `${number(g / 453.59237, 1)}\u00a0lb` : `${number(g / 28.349523125, 1)}\u00a0oz`
    : g >= 1000 ? `${number(g / 1000, 2)}\u00a0kg` : grams(g);
export const temperature = (c, units) => (isUs(units) ? `${number(c * 1.8 + 32)}\u00a0°F` : `${number(c)}\u00a0°C`);
export const boiling = (c, units) => (isUs(units) ? `${number(c * 1.8 + 32)}\u00a0°F` : `${number(c, 1)}\u00a0°C`);
export const height = (m, units) => (isUs(units) ? `${number(m / 0.3048)}\u00a0ft` : `${number(m)}\u00a0m`);
export const volume = (l, units) => (isUs(units) ? `${number(l * 1.056688, 1)}\u00a0qt` : `${number(l, 1)}\u00a0L`);
export const minutes = (value) => `${number(value)}\u00a0min`;
export const share = (value) => `${number(value * 100)}\u00a0%`;
export const kilopascal = (value) => `${number(value, 1)}\u00a0kPa`;
export const plain = number;

/** `white-gas` as a reader says it. */
export function spoken(id) {
  const said = String(id ?? "").replace(/[-_]/g, " ");
  return known(said) ?? said;
}

export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A file name from a title, as the program makes folder names. */
export function fileName(title, fallback) {
  const name = String(title ?? "").toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "");
  return `${name.slice(0, 60).replace(/-$/, "") || fallback}.yaml`;
}

/** A name as it stands in the id of a value: Tarn bench is tarn-bench. */
export function slug(name) {
  return String(name ?? "").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "");
}

/** `camps[0].elevation` to ["camps", 0, "elevation"]. */
export function pathOf(text) {
  return [...String(text ?? "").matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map((match) =>
    match[1] === undefined ? match[2] : Number(match[1]));
}

/** The other way round. */
export function pathText(path) {
  return path.map((step, at) => (typeof step === "number" ? `[${step}]` : `${at ? "." : ""}${step}`)).join("");
}
