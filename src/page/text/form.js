// Which fields a form shows, in which order and under which words. What a field
// takes comes from the program's own schema, so a new key needs no line here: a
// key that no section names stands under "More".

/** Words for keys that do not say it themselves. */
export const WORDS = {
  title: "Title",
  starts: "First day",
  "people.learners": "Learners or clients",
  "people.instructors": "Instructors or guides",
  "people.youngest": "Age of the youngest",
  "people.diet": "Diet: what, not who",
  "people.adults_per_lit_stove": "Adults at each lit stove",
  stove: "Stove",
  menu: "Menu",
  water_treatment: "How water is made safe",
  camps: "Camps",
  name: "Name",
  nights: "Nights",
  elevation: "Height above the sea",
  day: "Air when supper is cooked",
  night: "Lowest air, when breakfast is cooked",
  water: "Water as it is drawn",
  water_from: "Water comes from",
  wind: "Wind at the stove",
  place: "Kind of place, whose rules hold",
  fuel_temperature: "A canister kept warm",
  pressure: "Barometer's reading",
  drinking: "Drinking water, each person and day",
  rules: "Rules told by the land manager",
  kitchens: "Kitchens, each with its stove and pot",
  stations: "Stations, each with its stove and pot",
  windscreen: "Windscreen",
  lid: "Lid on the pot",
  pots: "Pots: material and capacity",
  measured: "Measured in a burn trial",
  spare: "Spare fuel",
  confidence: "How sure the fuel must last",
  second_stove: "A second stove for each kitchen",
  resupply: "Camp where new fuel is handed out",
  canisters_on_hand: "Part-used canisters on hand",
  part_used_at_most: "Part-used canisters a kitchen is given at most",
  restrictions: "Fire restrictions",
  emergency: "Emergency",
  "emergency.call": "Whom to call",
  "emergency.nearest_help": "Nearest help",
  course: "Lesson",
  boil_rules: "Whose minutes at the boil",
  step_length: "Your own step",
  arrival: "How the party comes",
  washing: "Washing up",
  eating: "Eating from",
  organisation: "Organisation",
  first_meal: "First meal",
  last_meal: "Last meal",
  "course.minutes": "Minutes there are",
  "course.starts": "Clock at the start",
  "course.focus": "What it is about",
  "course.known": "What they can do already",
  "course.seed": "Number of the skills check's forms",
  feed: "Feed of the canister",
  blend: "Make-up of new canisters",
  kind: "",
};

/** Hints in the page's words, where the schema's are for those who write the file; "" for none. */
const HINTS = {
  starts: "",
  learners: "",
  youngest: "in years; under 16 an adult stands beside each lit stove",
  stove: "",
  menu: "what is boiled at each meal; details under Text",
  elevation: "a number with its unit: 8200 ft, 2500 m",
  organisation: "whose name, phones and sign-off lines stand on the sheets",
  place: "",
  focus: "subjects, one a line",
  known: "what needs no teaching again, one a line",
  measured: "what a burn trial at home gave",
  diet: "one a line",
  pots: "one a line, such as aluminium 3 L",
};

export const TRIP = [
  { title: "The trip", keys: ["title", "starts", "people", "stove", "menu", "water_treatment", "camps"], open: true },
  { title: "Kitchens and stoves", keys: ["kitchens", "pots", "windscreen", "lid", "second_stove", "measured", "fuel", "blend", "feed", "efficiency", "power", "least_power", "heating_value"] },
  { title: "Food and water", keys: ["first_meal", "last_meal", "drinking", "washing", "eating", "boil_rules"] },
  { title: "Fuel to take", keys: ["spare", "confidence", "resupply", "arrival", "canisters_on_hand", "part_used_at_most", "prices"] },
  { title: "Rules and emergency", keys: ["restrictions", "emergency", "step_length"] },
  { title: "Lesson on the way", keys: ["course"] },
  { title: "Paper and units", keys: ["organisation", "units", "paper"] },
];

export const LESSON = [
  { title: "The lesson", keys: ["title", "starts", "people", "place", "elevation", "stations", "stove", "water_treatment", "course"], open: true },
  { title: "Weather and water", keys: ["day", "night", "wind", "water_from", "water", "pressure", "fuel_temperature", "land", "rules"] },
  { title: "Food, pots and stoves", keys: ["menu", "pots", "windscreen", "lid", "second_stove", "measured", "fuel", "blend", "feed", "efficiency", "power", "least_power", "heating_value", "washing", "eating", "boil_rules"] },
  { title: "Canisters", keys: ["canisters_on_hand", "part_used_at_most", "prices"] },
  { title: "Rules and emergency", keys: ["restrictions", "emergency", "step_length"] },
  { title: "Paper and units", keys: ["organisation", "units", "paper"] },
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
  camps: (number) => ({ name: `Camp ${number}`, nights: "1", elevation: "" }),
  kitchens: (number) => ({ name: `Kitchen ${number}`, people: "", stove: "canister on top" }),
  stations: (number) => ({ name: `Station ${number}`, stove: "canister on top" }),
  canisters_on_hand: (number) => ({ tag: `C-${String(number).padStart(3, "0")}`, size: "230 g", gross: "" }),
  sessions: (number) => ({ name: `Session ${number}`, minutes: "120" }),
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
  return own ?? hint;
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
  if (word) return word;
  const said = key.replace(/[_.-]/g, " ");
  return said.charAt(0).toUpperCase() + said.slice(1);
}
