// Which fields a form shows, in which order and under which words. What a field
// takes comes from the program's own schema, so a new key needs no line here: a
// key that no section names stands under "More".
import { known, later, t } from "./language.js";
import { capital, spoken } from "./words.js";

/** Words for keys that do not say it themselves. */
export const WORDS = {
  title: later("Title"),
  starts: later("First day"),
  "people.learners": later("Learners or clients"),
  "people.instructors": later("Instructors or guides"),
  "people.youngest": later("Age of the youngest"),
  "people.diet": later("Diet: what, not who"),
  "people.adults_per_lit_stove": later("Adults at each lit stove"),
  stove: later("Stove"),
  menu: later("Menu"),
  water_treatment: later("How water is made safe"),
  camps: later("Camps"),
  name: later("Name"),
  nights: later("Nights"),
  elevation: later("Height above the sea"),
  day: later("Air when supper is cooked"),
  night: later("Lowest air, when breakfast is cooked"),
  water: later("Water as it is drawn"),
  water_from: later("Water comes from"),
  wind: later("Wind at the stove"),
  place: later("Kind of place, whose rules hold"),
  fuel_temperature: later("A canister kept warm"),
  pressure: later("Barometer's reading"),
  drinking: later("Drinking water, each person and day"),
  rules: later("Rules told by the land manager"),
  kitchens: later("Kitchens, each with its stove and pot"),
  stations: later("Stations, each with its stove and pot"),
  windscreen: later("Windscreen"),
  lid: later("Lid on the pot"),
  pots: later("Pots: material and capacity"),
  measured: later("Measured in a burn trial"),
  spare: later("Spare fuel"),
  confidence: later("How sure the fuel must last"),
  second_stove: later("A second stove for each kitchen"),
  resupply: later("Camp where new fuel is handed out"),
  canisters_on_hand: later("Part-used canisters on hand"),
  part_used_at_most: later("Part-used canisters a kitchen is given at most"),
  restrictions: later("Fire restrictions"),
  emergency: later("Emergency"),
  "emergency.call": later("Whom to call"),
  "emergency.nearest_help": later("Nearest help"),
  course: later("Lesson"),
  boil_rules: later("Whose minutes at the boil"),
  step_length: later("Your own step"),
  arrival: later("How the party comes"),
  washing: later("Washing up"),
  eating: later("Eating from"),
  organisation: later("Organisation"),
  language: later("Language of the sheets"),
  first_meal: later("First meal"),
  last_meal: later("Last meal"),
  "course.minutes": later("Minutes there are"),
  "course.starts": later("Clock at the start"),
  "course.focus": later("What it is about"),
  "course.known": later("What they can do already"),
  "course.seed": later("Number of the skills check's forms"),
  feed: later("Feed of the canister"),
  blend: later("Make-up of new canisters"),
  kind: "",
};

/** Hints in the page's words, where the schema's are for those who write the file; "" for none. */
const HINTS = {
  starts: "",
  learners: "",
  youngest: later("in years; under 16 an adult stands beside each lit stove"),
  stove: "",
  menu: later("what is boiled at each meal; details under Text"),
  elevation: later("a number with its unit: 8200 ft, 2500 m"),
  organisation: later("whose name, phones and sign-off lines stand on the sheets"),
  place: "",
  focus: "",
  known: later("what needs no teaching again, one a line"),
  measured: later("what a burn trial at home gave"),
  diet: later("one a line"),
  pots: later("one a line, such as aluminium 3 L"),
  language: later("en, es; of several, one a line, and a packet each"),
};

export const TRIP = [
  { title: later("The trip"), keys: ["title", "starts", "people", "stove", "menu", "water_treatment", "camps"], open: true },
  { title: later("Kitchens and stoves"), keys: ["kitchens", "pots", "windscreen", "lid", "second_stove", "measured", "fuel", "blend", "feed", "efficiency", "power", "least_power", "heating_value"] },
  { title: later("Food and water"), keys: ["first_meal", "last_meal", "drinking", "washing", "eating", "boil_rules"] },
  { title: later("Fuel to take"), keys: ["spare", "confidence", "resupply", "arrival", "canisters_on_hand", "part_used_at_most", "prices"] },
  { title: later("Rules and emergency"), keys: ["restrictions", "emergency", "step_length"] },
  { title: later("Lesson on the way"), keys: ["course"] },
  { title: later("Paper and units"), keys: ["organisation", "language", "units", "paper"] },
];

export const LESSON = [
  { title: later("The lesson"), keys: ["title", "starts", "people", "place", "elevation", "stations", "stove", "water_treatment", "course"], open: true },
  { title: later("Weather and water"), keys: ["day", "night", "wind", "water_from", "water", "pressure", "fuel_temperature", "land", "rules"] },
  { title: later("Food, pots and stoves"), keys: ["menu", "pots", "windscreen", "lid", "second_stove", "measured", "fuel", "blend", "feed", "efficiency", "power", "least_power", "heating_value", "washing", "eating", "boil_rules"] },
  { title: later("Canisters"), keys: ["canisters_on_hand", "part_used_at_most", "prices"] },
  { title: later("Rules and emergency"), keys: ["restrictions", "emergency", "step_length"] },
  { title: later("Paper and units"), keys: ["organisation", "language", "units", "paper"] },
];

/** Fields shown at once in a list's item; its others stand one tap away. */
export const FIRST = {
  camps: ["name", "nights", "elevation"],
  kitchens: ["name", "people", "stove", "pots"],
  stations: ["name", "stove", "pots"],
  canisters_on_hand: ["tag", "size", "gross", "tare"],
  people: ["learners", "instructors", "youngest"],
  course: ["minutes", "starts", "stations", "focus"],
};

/** What one more item of a list starts as. */
export const NEW_ITEM = {
  camps: (number) => ({ name: t("Camp {n}", { n: number }), nights: "1", elevation: "" }),
  kitchens: (number) => ({ name: t("Kitchen {n}", { n: number }), people: "", stove: "canister on top" }),
  stations: (number) => ({ name: t("Station {n}", { n: number }), stove: "canister on top" }),
  canisters_on_hand: (number) => ({ tag: `C-${String(number).padStart(3, "0")}`, size: "230 g", gross: "" }),
  sessions: (number) => ({ name: t("Session {n}", { n: number }), minutes: "120" }),
};

/** A part of a schema with its reference followed. */
export function resolved(schema, root) {
  if (schema?.$ref) {
    const found = schema.$ref.replace("#/$defs/", "");
    return { ...resolved(root.$defs[found], root), ...(schema.description ? { description: schema.description } : {}), ref: found };
  }
  return schema ?? {};
}

/** What a field takes, said below its label. */
export function hintFor(path, hint) {
  const own = HINTS[path.at(-1)];
  return own === undefined ? hintSaid(hint) : t(own);
}

/** The schema's own hint, which speaks English to those who write the file. */
export function hintSaid(hint) {
  return hint && (known(hint) ?? hint);
}

/**
 * How a key is asked for: {as, ...}. `as` is choice, yesno, number, text, lines,
 * block, list, table, or own (only to be written as text).
 */
export function asked(schema, root) {
  const part = resolved(schema, root);
  const hint = part.description;
  if (part.ref === "yes_no") return { as: "yesno", hint };
  if (part.const !== undefined) return { as: "own", hint };
  if (part.enum) return { as: "choice", of: part.enum.filter((word) => typeof word === "string"), hint };
  if (part.type === "array") return list(part, root, hint);
  if (part.type === "object") {
    return part.properties ? { as: "block", of: part.properties, hint } : { as: "table", hint };
  }
  if (part.anyOf) return oneOf(part.anyOf.map((choice) => resolved(choice, root)), root, hint);
  if (part.type === "integer" || part.type === "number") return { as: "number", hint };
  return { as: "text", hint, isDate: part.ref === "date" };
}

function list(part, root, hint) {
  const item = resolved(part.items, root);
  if (item.type === "object") return { as: "list", of: item.properties, hint };
  return { as: "lines", hint };
}

function oneOf(choices, root, hint) {
  const array = choices.find((choice) => choice.type === "array");
  const block = choices.find((choice) => choice.type === "object");
  const words = choices.filter((choice) => choice.enum).flatMap((choice) => choice.enum);
  const isNumber = choices.some((choice) => choice.anyOf || choice.type === "integer" || choice.type === "number");
  if (array) {
    const made = list(array, root, hint);
    return made.as === "list" ? { ...made, orNumber: isNumber } : made;
  }
  if (block) return { as: "text", of: block.properties, orBlock: true, hint };
  if (words.length) return { as: "choice", of: words.filter((word) => typeof word === "string" && !/^(yes|no|true|false)$/i.test(word)), hint };
  return { as: isNumber ? "number" : "text", hint };
}

export function wordFor(path) {
  const keys = path.filter((step) => typeof step === "string");
  const key = keys.at(-1);
  const word = WORDS[keys.slice(-2).join(".")] ?? WORDS[key];
  return word ? t(word) : capital(spoken(key.replace(/\./g, " ")));
}
