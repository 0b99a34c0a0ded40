//! Pieces of the schemas: scalars as people write them, blocks, and the
//! definitions that several kinds of file share.
//!
//! Editors read `yes`, `12` or a day as something else than text, each by its
//! own version of YAML; so every scalar allows the types that it may come as.

use crate::nouns;
use crate::units::{
    Angle, Fraction, HeatingValue, Length, Mass, Power, Pressure, Quantity, Temperature, Time,
    Volume,
};
use serde_json::{Map, Value, json};

/// A number without a unit, as text.
const NUMBER: &str = r"^\s*[-+\u2212]?([0-9]+(\.[0-9]*)?|\.[0-9]+)\s*$";

/// A key of a block with what it holds.
pub(super) type Key = (&'static str, Value);

/// What is defined once and referred to.
pub(super) fn at(name: &str) -> Value {
    json!({"$ref": format!("#/$defs/{name}")})
}

/// A block of keys: those it needs, those it may have, no others.
pub(super) fn block(needed: Vec<Key>, may: Vec<Key>) -> Value {
    let required: Vec<&str> = needed.iter().map(|(key, _)| *key).collect();
    let mut block = json!({
        "type": "object",
        "properties": properties(needed.iter().chain(&may)),
        "additionalProperties": false,
    });
    if !required.is_empty() {
        block["required"] = json!(required);
    }
    block
}

/// A block that needs nothing if it stands on another (`extends`).
pub(super) fn extendable(needed: Vec<Key>, mut may: Vec<Key>) -> Value {
    let required: Vec<&str> = needed.iter().map(|(key, _)| *key).collect();
    may.push(("extends", say("what this is laid over", at("line"))));
    json!({
        "type": "object",
        "properties": properties(needed.iter().chain(&may)),
        "additionalProperties": false,
        "if": {"not": {"required": ["extends"]}},
        "then": {"required": required},
    })
}

fn properties<'k>(keys: impl Iterator<Item = &'k Key>) -> Map<String, Value> {
    keys.map(|(key, value)| ((*key).to_owned(), value.clone()))
        .collect()
}

/// Entries by id.
pub(super) fn by_id(entry: Value) -> Value {
    json!({"type": "object", "additionalProperties": entry})
}

/// A file of entries by id, which may stand on another.
pub(super) fn file_by_id(entry: Value) -> Value {
    let mut file = by_id(entry);
    file["properties"] = json!({"extends": at("line"), "base": base()});
    file
}

/// A file that may say what it was laid over: `base` beside `extends`.
pub(super) fn over_file(mut file: Value) -> Value {
    file["properties"]["base"] = base();
    file
}

fn base() -> Value {
    json!({
        "type": "string",
        "pattern": "^[0-9a-f]{4}-[0-9a-f]{4}$",
        "description": "the mark of what this is laid over; `leeside check` says which",
    })
}

/// A list.
pub(super) fn list(item: Value) -> Value {
    json!({"type": "array", "items": item})
}

/// A list with something in it.
pub(super) fn filled(item: Value) -> Value {
    json!({"type": "array", "items": item, "minItems": 1})
}

/// A list, or one alone.
pub(super) fn several(item: &Value) -> Value {
    json!({"anyOf": [item, list(item.clone())]})
}

/// What an editor shows beside the key.
pub(super) fn say(text: &str, mut value: Value) -> Value {
    value["description"] = json!(text);
    value
}

/// A whole number.
pub(super) fn whole(least: u32, most: u32) -> Value {
    json!({"anyOf": [
        {"type": "integer", "minimum": least, "maximum": most},
        {"type": "string", "pattern": r"^\s*[0-9]+\s*$"},
    ]})
}

/// A plain number.
pub(super) fn number(least: f64, most: f64) -> Value {
    json!({"anyOf": [
        {"type": "number", "minimum": least, "maximum": most},
        {"type": "string", "pattern": NUMBER},
    ]})
}

/// One of some words.
pub(super) fn words(all: &[&str]) -> Value {
    json!({"enum": all})
}

/// One of a closed set.
pub(super) fn one_of<T: Copy>(all: &[T], word: impl Fn(T) -> &'static str) -> Value {
    words(&all.iter().map(|one| word(*one)).collect::<Vec<_>>())
}

/// A text of a length.
pub(super) fn text(longest: usize) -> Value {
    json!({"anyOf": [
        {"type": "string", "pattern": r"\S", "maxLength": longest},
        {"type": ["number", "boolean"]},
    ]})
}

/// A quantity with its unit, in any spelling that is read.
fn quantity<Q: Quantity>() -> Value {
    let units: Vec<String> = Q::UNITS.iter().map(|(unit, _)| spelling(unit)).collect();
    let pattern = format!(
        r"^\s*[-+\u2212]?([0-9]+(\.[0-9]*)?|\.[0-9]+)[\s\u00b0.]*({})[\s.]*$",
        units.join("|")
    );
    json!({
        "type": "string",
        "pattern": pattern,
        "description": format!("{}, such as {}", Q::NAME, Q::EXAMPLES.replace('`', "")),
    })
}

/// A unit in small and capital letters, spaces and dots as one likes; of one
/// letter only as it is.
fn spelling(unit: &str) -> String {
    let signs: Vec<char> = unit.chars().filter(|c| !c.is_whitespace()).collect();
    signs
        .iter()
        .map(|c| match c {
            c if c.is_ascii_alphabetic() && signs.len() > 1 => {
                format!("[{}{}]", c.to_ascii_uppercase(), c.to_ascii_lowercase())
            }
            '/' => r"\/".to_owned(),
            c => c.to_string(),
        })
        .collect::<Vec<_>>()
        .join(r"[\s.]*")
}

/// What a name refers to; none if there is no such definition.
pub(super) fn definition(name: &str) -> Option<Value> {
    Some(match name {
        "length" => quantity::<Length>(),
        "temperature" => quantity::<Temperature>(),
        "mass" => quantity::<Mass>(),
        "volume" => quantity::<Volume>(),
        "time" => quantity::<Time>(),
        "pressure" => quantity::<Pressure>(),
        "share" => quantity::<Fraction>(),
        "power" => quantity::<Power>(),
        "heating_value" => quantity::<HeatingValue>(),
        "difference" => json!({
            "type": "string",
            "pattern": r"^\s*([0-9]+(\.[0-9]*)?|\.[0-9]+)\s*\u00b0?\s*[KCF]\s*$",
            "description": "a difference of temperatures, such as 6.5 K or 10 F",
        }),
        "value" => value(),
        "line" => text(200),
        "prose" => json!({"type": "string"}),
        "yes_no" => json!({"anyOf": [
            {"enum": [true, false, "yes", "no"]},
            {"type": "string", "pattern": r"^\s*([Yy][Ee][Ss]|[Nn][Oo]|[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee]|[YyNn]|[Oo][Nn]|[Oo][Ff][Ff])\s*$"},
        ]}),
        "date" => json!({
            "type": "string",
            "pattern": r"^\s*(19|[2-9][0-9])[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])\s*$",
            "description": "year-month-day, such as 2027-05-14",
        }),
        "seen" => json!({"anyOf": [
            at("date"),
            {"enum": [false, "no"]},
            {"type": "string", "pattern": r"^\s*[Nn][Oo]\s*$"},
        ]}),
        // an old YAML reads 14:30 as 870
        "clock" => json!({
            "anyOf": [
                {"type": "string", "pattern": r"^\s*([01]?[0-9]|2[0-3]):[0-5][0-9]\s*$"},
                {"type": "integer", "minimum": 0, "maximum": 1439},
            ],
            "description": "24 hours, such as 9:00 or 14:30",
        }),
        "minutes" => json!({"anyOf": [
            {"type": "number", "minimum": 0.1, "maximum": 720},
            {"type": "string", "pattern": NUMBER},
            at("time"),
        ]}),
        "blend" => {
            let gas = r"\s*([Pp]ropane|[Ii]sobutane|[Ii]so-butane|[Ii]-butane|[Nn]-butane|[Nn]ormal[ -]butane|[Bb]utane)\s+[0-9.]+%?\s*";
            json!({
                "type": "string",
                "pattern": format!("^{gas}(,{gas})*$"),
                "description": "shares by mass that add to 100: propane 30, isobutane 70",
            })
        }
        "efficiency" => json!({"anyOf": [at("share"), at("range")]}),
        "range" => block(
            vec![
                ("low", at("share")),
                ("likely", at("share")),
                ("high", at("share")),
            ],
            vec![],
        ),
        "wind" => one_of(nouns::Wind::ALL, nouns::Wind::word),
        "screen" => one_of(nouns::Screen::ALL, nouns::Screen::word),
        "paper" => one_of(nouns::Paper::ALL, nouns::Paper::word),
        "units" => words(&["us", "metric", "both"]),
        "water_from" => one_of(nouns::WaterFrom::ALL, nouns::WaterFrom::word),
        "water_source" => {
            let own = nouns::WaterFrom::ALL.iter().map(|one| one.word());
            let also = nouns::WaterFrom::ALSO.iter().map(|(word, _)| *word);
            words(&own.chain(also).collect::<Vec<_>>())
        }
        "treatment" => one_of(nouns::Treatment::ALL, nouns::Treatment::word),
        "arrival" => one_of(nouns::Arrival::ALL, nouns::Arrival::word),
        "level" => one_of(nouns::Level::ALL, nouns::Level::word),
        "connection" => one_of(nouns::Connection::ALL, nouns::Connection::word),
        "fuel_kind" => one_of(nouns::FuelKind::ALL, nouns::FuelKind::word),
        "family" => one_of(nouns::Family::ALL, nouns::Family::word),
        "meal" => meal(),
        "stove" => super::gear::stove(),
        other => {
            return super::trip::definition(other).or_else(|| super::content::definition(other));
        }
    })
}

/// A fact's value: any quantity, or a plain number.
fn value() -> Value {
    let mut kinds: Vec<Value> = [
        "length",
        "temperature",
        "mass",
        "volume",
        "time",
        "pressure",
        "share",
    ]
    .iter()
    .map(|name| at(name))
    .collect();
    kinds.push(quantity::<Angle>());
    kinds.push(json!({"type": "number"}));
    kinds.push(json!({"type": "string", "pattern": NUMBER}));
    json!({"anyOf": kinds})
}

/// `cold`, an amount, or a block.
fn meal() -> Value {
    json!({"anyOf": [
        {"const": "cold"},
        at("volume"),
        block(
            vec![],
            vec![
                ("boil", say("water to boil, each person", at("volume"))),
                ("simmer", say("at sea level; grows with height", at("time"))),
                ("times_a_day", whole(1, 20)),
            ],
        ),
    ]})
}

/// The meals of a menu.
pub(super) fn meals() -> Vec<Key> {
    ["supper", "breakfast", "lunch", "drinks"]
        .into_iter()
        .map(|key| (key, at("meal")))
        .collect()
}

/// Where a value comes from; of what changes, also when it was looked up.
pub(super) fn origin(dated: bool) -> (Vec<Key>, Vec<Key>) {
    let basis = say(
        "how it is known",
        words(&["published", "common practice", "assumption"]),
    );
    let mut may = vec![("source", say("codes of sources.yaml", several(&at("line"))))];
    if dated {
        may.push((
            "sure",
            words(&["seen", "seen-mirror", "second-hand", "derived", "memory"]),
        ));
        may.push(("as_of", at("date")));
    }
    (vec![("basis", basis)], may)
}
