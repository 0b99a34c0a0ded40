//! Schemas of what a teacher writes: trips, lessons, burn trials.

use super::parts::{
    Key, at, block, filled, list, meals, number, one_of, origin, say, several, whole, words,
};
use crate::nouns::{BoilRules, Eating, Feed, SessionKind, Spare, StoveRule, Washing};
use serde_json::{Value, json};

/// Rules that a camp or place may set, by group: (group, rule, whether it is a
/// distance). `burying` stands alone.
const RULES: &[(&str, &[(&str, bool)])] = &[
    (
        "greywater",
        &[("distance", true), ("from", false), ("method", false)],
    ),
    ("soap", &[("use", false), ("distance", true)]),
    ("food", &[("storage", false)]),
    ("fire", &[("stoves", false), ("clear", true)]),
    ("camp", &[("distance", true)]),
    ("fuel", &[("storage", false)]),
];

/// Rules of a camp or of a place, whose values are of these two kinds. A rule
/// stands in its group, or alone as `group.rule`.
fn rules(distance: &Value, words: &Value) -> Value {
    let mut all = block(vec![], vec![]);
    let kind = |is_distance: bool| if is_distance { distance } else { words };
    for (group, rules) in RULES {
        let mut inside = block(vec![], vec![]);
        for (rule, is_distance) in *rules {
            inside["properties"][rule] = kind(*is_distance).clone();
            all["properties"][format!("{group}.{rule}")] = kind(*is_distance).clone();
        }
        all["properties"][group] = inside;
    }
    all["properties"]["burying"] = words.clone();
    all["properties"]["checked"] = say("who told it, and when", at("line"));
    all
}

/// What may stand in a kitchen, or in the trip for all of its kitchens.
fn kitchen_keys() -> Vec<Key> {
    vec![
        (
            "stove",
            say(
                "its name (`leeside list gear`), or a block with `extends`",
                json!({"anyOf": [at("line"), at("own_stove")]}),
            ),
        ),
        ("fuel", at("line")),
        ("heating_value", at("heating_value")),
        ("blend", say("of new canisters", at("blend"))),
        ("feed", one_of(Feed::ALL, Feed::word)),
        ("windscreen", at("screen")),
        ("lid", at("yes_no")),
        ("pots", several(&at("pot"))),
        (
            "measured",
            say(
                "from `leeside trial`",
                block(
                    vec![("efficiency", at("share"))],
                    vec![
                        ("wind", at("wind")),
                        (
                            "spread",
                            say("how far its runs lie apart, where they do", at("share")),
                        ),
                    ],
                ),
            ),
        ),
        ("power", at("power")),
        ("least_power", at("power")),
        ("efficiency", at("efficiency")),
    ]
}

fn weather() -> Vec<Key> {
    vec![
        (
            "pressure",
            say("a barometer's reading there", at("pressure")),
        ),
        ("day", say("air when supper is cooked", at("temperature"))),
        (
            "night",
            say("low, when breakfast is cooked", at("temperature")),
        ),
        ("water_from", at("water_source")),
        (
            "water",
            say("as it is drawn, or the snow", at("temperature")),
        ),
        ("wind", say("where the stove stands", at("wind"))),
        (
            "fuel_temperature",
            say("a canister kept warm", at("temperature")),
        ),
        ("rules", at("rules")),
    ]
}

fn common() -> (Vec<Key>, Vec<Key>) {
    let needed = vec![
        ("title", say("heads every sheet", at("line"))),
        ("people", at("people")),
    ];
    let mut may = vec![
        ("starts", say("the first day", at("date"))),
        ("organisation", organisation()),
        (
            "content",
            say(
                "folders of your own content, beside this file",
                several(&at("line")),
            ),
        ),
        (
            "notes",
            say(
                "your own words, on briefing and lesson plan",
                several(&at("line")),
            ),
        ),
        ("units", at("units")),
        ("paper", at("paper")),
        (
            "language",
            say(
                "the language of the sheets; of several, a packet each; `es+en`: both beside each other \
                 on the briefing and the kitchen card",
                several(&at("line")),
            ),
        ),
        ("second_stove", at("yes_no")),
        (
            "prices",
            say(
                "by container: canister 230 g",
                json!({"type": "object", "additionalProperties": number(0.0, 100_000.0)}),
            ),
        ),
        ("canisters_on_hand", list(at("canister"))),
        (
            "part_used_at_most",
            say("part-used canisters a kitchen is given", whole(0, 20)),
        ),
        ("menu", at("menu")),
        ("washing", one_of(Washing::ALL, Washing::word)),
        ("eating", one_of(Eating::ALL, Eating::word)),
        ("boil_rules", one_of(BoilRules::ALL, BoilRules::word)),
        ("step_length", say("one counted step", at("length"))),
        ("restrictions", at("restrictions")),
        (
            "emergency",
            block(
                vec![],
                vec![("call", at("line")), ("nearest_help", at("line"))],
            ),
        ),
        ("course", at("course")),
    ];
    may.extend(kitchen_keys());
    (needed, may)
}

/// A profile, a name, or name, phones and sign-off lines.
fn organisation() -> Value {
    let own = block(
        vec![("name", at("line"))],
        vec![
            ("phones", several(&at("line"))),
            ("sign_off", several(&at("line"))),
        ],
    );
    json!({"description": "a profile, or your own name", "anyOf": [at("line"), own]})
}

/// How many there are, or each of them.
fn kitchens(key: &'static str) -> Key {
    (
        key,
        json!({"anyOf": [whole(1, 200), filled(at("kitchen"))]}),
    )
}

/// Without a stove for all, each kitchen is listed with its own.
fn each_has_a_stove(schema: &mut Value, key: &str) {
    schema["if"] = json!({"not": {"required": ["stove"]}});
    schema["then"] = json!({
        "required": [key],
        "properties": {key: {"type": "array", "items": {"required": ["stove"]}}},
    });
}

pub(super) fn trip() -> Value {
    let (mut needed, mut may) = common();
    needed.push(("water_treatment", at("treatment")));
    needed.push(("camps", filled(at("camp"))));
    let meals = words(&["breakfast", "lunch", "supper"]);
    may.extend([
        ("kind", json!({"const": "trip"})),
        kitchens("kitchens"),
        ("first_meal", meals.clone()),
        ("last_meal", meals),
        ("arrival", at("arrival")),
        (
            "spare",
            json!({"anyOf": [
                one_of(Spare::ALL, Spare::word),
                {"enum": [true, false, "yes", "Yes", "YES", "true", "no", "No", "NO", "false"]},
            ]}),
        ),
        ("confidence", say("that the fuel lasts", at("share"))),
        (
            "resupply",
            say("camp where new fuel is handed out", at("line")),
        ),
        ("drinking", say("each person, each day", at("volume"))),
    ]);
    let mut schema = block(needed, may);
    each_has_a_stove(&mut schema, "kitchens");
    schema
}

pub(super) fn lesson() -> Value {
    let (mut needed, mut may) = common();
    needed.push(("kind", json!({"const": "lesson"})));
    needed.push(("elevation", at("length")));
    may.extend(weather());
    may.extend([
        kitchens("stations"),
        ("water_treatment", at("treatment")),
        ("place", words(&["outdoors", "indoors"])),
        ("land", say("the place whose rules hold", at("line"))),
    ]);
    let mut schema = block(needed, may);
    each_has_a_stove(&mut schema, "stations");
    schema
}

pub(super) fn trial() -> Value {
    block(
        vec![
            ("fuel", at("line")),
            ("elevation", at("length")),
            ("runs", filled(at("run"))),
        ],
        vec![
            ("title", at("line")),
            ("blend", at("blend")),
            ("heating_value", at("heating_value")),
            ("pressure", at("pressure")),
            ("units", at("units")),
            (
                "pot",
                block(
                    vec![("mass", at("mass")), ("material", at("line"))],
                    vec![("capacity", at("volume"))],
                ),
            ),
            ("stove", at("line")),
            ("windscreen", at("line")),
            ("screen", at("line")),
            ("air", at("temperature")),
        ],
    )
}

/// What trips, lessons and trials refer to.
pub(super) fn definition(name: &str) -> Option<Value> {
    Some(match name {
        "people" => block(
            vec![("learners", say("or clients", whole(0, 200)))],
            vec![
                ("instructors", whole(0, 200)),
                ("youngest", say("age in years", whole(3, 110))),
                ("adults_per_lit_stove", number(0.0, 10.0)),
                ("diet", say("what, not who", several(&at("line")))),
            ],
        ),
        "camp" => {
            let mut may = weather();
            may.extend([
                ("place", say("`leeside list places`", at("line"))),
                ("menu", at("menu")),
                ("drinking", at("volume")),
            ]);
            block(
                vec![
                    ("name", at("line")),
                    ("nights", whole(1, 60)),
                    ("elevation", at("length")),
                ],
                may,
            )
        }
        "kitchen" => {
            let mut may = kitchen_keys();
            may.extend([("name", super::parts::text(40)), ("people", whole(1, 200))]);
            block(vec![], may)
        }
        "own_stove" => {
            let mut stove = super::gear::stove();
            stove["required"] = json!(["extends"]);
            stove
        }
        "pot" => json!({
            "type": "string",
            "pattern": r"^\s*[A-Za-z][A-Za-z\s-]*[0-9.]+\s*[A-Za-z][A-Za-z\s.]*(,\s*[0-9.]+\s*[A-Za-z]+\s*)?$",
            "description": "material and capacity, and the mass if weighed: aluminium 3 L, 310 g",
        }),
        "rules" => rules(&at("length"), &at("line")),
        "place_rules" => rules(&at("rule_distance"), &at("rule_words")),
        "rule_distance" => place_rule(("value", at("length"))),
        "rule_words" => place_rule(("text", super::parts::text(200))),
        "menu" => {
            let mut keys = meals();
            keys.push(("extends", at("line")));
            json!({
                "anyOf": [at("line"), block(vec![], keys)],
                "description": "a named menu, `cold`, or what is boiled at each meal",
            })
        }
        "restrictions" => block(
            vec![],
            vec![
                ("stage", json!({"type": ["string", "number"]})),
                ("checked", json!({"type": "string"})),
                (
                    "stoves",
                    say(
                        "which stoves may be lit; left out: not known, and nothing is cleared",
                        json!({"anyOf": [
                            at("yes_no"),
                            one_of(StoveRule::ALL, StoveRule::word),
                        ]}),
                    ),
                ),
                ("until", say("the last day that it holds", at("date"))),
            ],
        ),
        "canister" => block(
            vec![
                ("tag", at("line")),
                ("size", say("fuel in a full one", at("mass"))),
                ("gross", say("what it weighs now", at("mass"))),
            ],
            vec![
                ("tare", say("what it weighs empty", at("mass"))),
                ("blend", at("blend")),
                ("present", say("what is left in it now", at("blend"))),
                ("connection", at("connection")),
            ],
        ),
        "course" => block(
            vec![],
            vec![
                ("minutes", at("minutes")),
                ("starts", at("clock")),
                (
                    "sessions",
                    json!({"anyOf": [whole(1, 30), filled(at("session"))]}),
                ),
                ("stations", whole(1, 50)),
                ("focus", say("modules", several(&at("line")))),
                ("known", say("objectives", several(&at("line")))),
                ("level", at("level")),
                (
                    "latitude",
                    say(
                        "degrees, north positive: with the date it tells when it is light",
                        number(-66.0, 66.0),
                    ),
                ),
                (
                    "seed",
                    say(
                        "another number, another set of forms of the skills check",
                        whole(0, 999_999_999),
                    ),
                ),
                ("place", words(&["outdoors", "indoors"])),
                (
                    "fallback",
                    block(
                        vec![("minutes", at("minutes"))],
                        vec![
                            ("place", words(&["outdoors", "indoors"])),
                            ("focus", say("modules", several(&at("line")))),
                        ],
                    ),
                ),
            ],
        ),
        "session" => block(
            vec![],
            vec![
                ("name", at("line")),
                ("minutes", at("minutes")),
                ("starts", at("clock")),
                ("date", at("date")),
                ("place", words(&["outdoors", "indoors"])),
                ("kind", one_of(SessionKind::ALL, SessionKind::word)),
                ("focus", say("modules", several(&at("line")))),
            ],
        ),
        "run" => block(
            vec![
                ("water", say("in the pot at the start", at("mass"))),
                ("start", at("temperature")),
                (
                    "end",
                    json!({"anyOf": [words(&["boiling", "boil"]), at("temperature")]}),
                ),
                ("fuel_before", at("mass")),
                ("fuel_after", at("mass")),
            ],
            vec![
                ("evaporated", at("mass")),
                ("minutes", at("minutes")),
                ("wind", at("wind")),
                ("lid", at("yes_no")),
            ],
        ),
        _ => return None,
    })
}

fn place_rule(value: Key) -> Value {
    let (mut needed, mut may) = origin(true);
    needed.push(value);
    may.push(("note", at("line")));
    block(needed, may)
}
