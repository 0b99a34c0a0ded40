//! Schemas of the catalogue and of the figures of the calculation.

use super::parts::{
    Key, at, block, extendable, file_by_id, list, number, one_of, origin, say, several, whole,
    words,
};
use crate::nouns::{ContainerKind, Screen};
use serde_json::{Value, json};

/// One stove, whole or laid over another.
pub(super) fn stove() -> Value {
    let (basis, source) = origin(false);
    let mut needed = vec![
        ("name", at("line")),
        ("family", at("family")),
        ("fuel", at("line")),
        ("efficiency", at("efficiency")),
        ("wind", wind()),
        ("power", at("power")),
        (
            "shut_off",
            say("a valve shuts it off at once", at("yes_no")),
        ),
        ("mass", at("mass")),
        ("geometry", geometry()),
    ];
    needed.extend(basis);
    let mut may = vec![
        ("fuels", several(&at("line"))),
        ("connection", at("connection")),
        ("liquid_feed", at("yes_no")),
        ("screen", at("screen")),
        ("least_power", at("power")),
        ("to_light", at("mass")),
        ("one_fill", at("volume")),
        ("refill_wait", at("time")),
        ("least_gauge", at("pressure")),
        (
            "regulated",
            say("a regulator holds its power in the cold", at("yes_no")),
        ),
        ("burner_mass", at("mass")),
        ("burner_height", at("length")),
        ("usual", usual()),
        ("spares", several(&at("line"))),
        ("warn_pot_above", at("volume")),
    ];
    may.extend(source);
    extendable(needed, may)
}

fn wind() -> Value {
    let factor = || number(0.01, 1.0);
    let of_a_screen = block(
        vec![
            ("calm", factor()),
            ("breezy", factor()),
            ("windy", factor()),
        ],
        vec![("may_fail_windy", at("yes_no"))],
    );
    let screens: serde_json::Map<String, Value> = Screen::ALL
        .iter()
        .flat_map(|screen| [screen.word().to_owned(), screen.word().replace('-', "_")])
        .map(|screen| (screen, of_a_screen.clone()))
        .collect();
    json!({"type": "object", "properties": screens, "additionalProperties": false})
}

fn geometry() -> Value {
    block(
        vec![("stands", words(&["on canister", "legs", "round"]))],
        vec![
            ("legs", whole(3, 8)),
            ("radius", at("length")),
            ("diameter", at("length")),
            ("height", at("length")),
        ],
    )
}

fn usual() -> Value {
    let pair = || {
        let mut pair = list(number(0.0, 2000.0));
        pair["minItems"] = json!(2);
        pair["maxItems"] = json!(2);
        pair
    };
    say(
        "grams of fuel a person and day, low and high",
        block(
            vec![],
            vec![
                ("boil_only", pair()),
                ("hot_wash", pair()),
                ("shoulder", pair()),
                ("winter", pair()),
            ],
        ),
    )
}

pub(super) fn stoves() -> Value {
    file_by_id(at("stove"))
}

/// An entry of the catalogue with its origin.
fn entry(mut needed: Vec<Key>, mut may: Vec<Key>) -> Value {
    let (basis, source) = origin(false);
    needed.extend(basis);
    may.extend(source);
    file_by_id(extendable(needed, may))
}

pub(super) fn fuels() -> Value {
    entry(
        vec![
            ("name", at("line")),
            ("kind", at("fuel_kind")),
            (
                "heating_value",
                say("lower heating value", at("heating_value")),
            ),
            ("density", say("kg/L", number(0.1, 3.0))),
            ("fossil_co2", say("grams a gram", number(0.0, 5.0))),
        ],
        vec![
            ("heating_low", at("heating_value")),
            ("heating_high", at("heating_value")),
            ("also_called", several(&at("line"))),
            ("note", at("prose")),
        ],
    )
}

pub(super) fn pots() -> Value {
    entry(
        vec![
            ("name", at("line")),
            ("specific_heat", say("kJ/(kg K)", number(0.05, 5.0))),
            ("base_mass", at("mass")),
            ("mass_per_litre", at("mass")),
        ],
        vec![],
    )
}

pub(super) fn containers() -> Value {
    entry(
        vec![
            ("name", at("line")),
            ("kind", one_of(ContainerKind::ALL, ContainerKind::word)),
            ("fuels", several(&at("fuel_kind"))),
            ("tare", at("mass")),
            ("diameter", at("length")),
            ("height", at("length")),
        ],
        vec![
            ("net", at("mass")),
            ("capacity", at("volume")),
            ("fill", at("share")),
            ("tare_spread", at("mass")),
            ("residue", at("mass")),
            ("residue_share", at("share")),
        ],
    )
}

/// Figures by the kind of their value.
const FIGURES: &[(&str, &[&str])] = &[
    (
        "number",
        &[
            "water_heat",
            "ice_heat",
            "gas_heat",
            "steel_heat",
            "simmer_factor",
            "boil_margin",
            "unboiled",
            "water_density",
            "people_a_kitchen",
            "open_valve",
        ],
    ),
    ("heating_value", &["fusion", "evaporation", "gas_latent"]),
    (
        "share",
        &[
            "fill",
            "fill_snow",
            "spill_likely",
            "spill_most",
            "measured_spread",
            "wind_spread",
            "trip_wind_spread",
            "other_wind",
            "loss_spread",
            "amount_spread",
        ],
    ),
    ("time", &["set_up"]),
    (
        "temperature",
        &["melt_to", "drawn_at", "day_sea_level", "body_warm"],
    ),
    ("power", &["burner_warmth"]),
    ("pressure", &["regulator_gauge"]),
    (
        "difference",
        &["water_spread", "lapse_per_km", "night_below_day"],
    ),
    ("volume", &["drinking", "drinking_snow", "pot_a_person"]),
    ("mass", &["round_up", "nearly_empty"]),
    ("blend", &["unknown_blend"]),
    ("length", &["greywater_distance", "step"]),
];

/// A figure: its value, what it is, where it comes from.
fn figure(value: Value) -> Value {
    let (mut needed, may) = origin(false);
    needed.extend([("value", value), ("what", at("line"))]);
    block(needed, may)
}

pub(super) fn figures() -> Value {
    let mut needed: Vec<Key> = FIGURES
        .iter()
        .flat_map(|(kind, keys)| {
            let value = if *kind == "number" {
                number(0.0, 1000.0)
            } else {
                at(kind)
            };
            keys.iter().map(move |key| (*key, figure(value.clone())))
        })
        .collect();
    let by_wind = || {
        let watts = || number(0.0, 1000.0);
        figure(block(
            vec![("calm", watts()), ("breezy", watts()), ("windy", watts())],
            vec![],
        ))
    };
    needed.extend([
        ("pot_loss", by_wind()),
        ("canister_film", by_wind()),
        (
            "reference_boil",
            figure(block(
                vec![
                    ("water", at("volume")),
                    ("start", at("temperature")),
                    ("end", at("temperature")),
                    ("air", at("temperature")),
                    ("pot", at("volume")),
                    ("pot_mass", at("mass")),
                    ("pot_heat", number(0.0, 10.0)),
                ],
                vec![],
            )),
        ),
        (
            "open_top",
            figure(block(
                vec![
                    ("radiation", number(0.0, 100.0)),
                    ("humidity", at("share")),
                    ("latent", at("heating_value")),
                    ("held_below", at("difference")),
                ],
                vec![],
            )),
        ),
        (
            "water_bounds",
            figure(block(
                vec![("low", at("temperature")), ("high", at("temperature"))],
                vec![],
            )),
        ),
        ("washing", washing()),
        ("boil_minutes", boil_minutes()),
    ]);
    extendable(needed, vec![])
}

fn washing() -> Value {
    let method = || {
        let (needed, mut may) = origin(false);
        let water = block(
            vec![("water", at("volume"))],
            vec![("at", at("temperature"))],
        );
        may.extend([("a_person", at("volume")), ("a_kitchen", several(&water))]);
        block(needed, may)
    };
    block(
        vec![
            ("wipe-and-rinse", method()),
            ("two-pots", method()),
            ("three-bowls", method()),
            ("three-bowls-with-hot-dip", method()),
        ],
        vec![],
    )
}

fn boil_minutes() -> Value {
    let rule = || {
        figure(block(
            vec![("low", at("time")), ("high", at("time"))],
            vec![("above", at("length")), ("from_that_height", at("yes_no"))],
        ))
    };
    block(
        vec![
            ("cdc", rule()),
            ("epa", rule()),
            ("cdc-travel", rule()),
            ("health-canada", rule()),
            ("who", rule()),
        ],
        vec![],
    )
}
