//! Schemas of what the commands print with `--json`. Keys stay and more may be added, so other
//! keys are left open; `tests/outside/test_results.py` holds that none is left untold.

use serde_json::{Map, Value, json};

type Keys = Vec<(&'static str, Value)>;

/// An object with keys that it always has and keys that it may have.
fn object(must: Keys, may: Keys) -> Value {
    let required: Vec<&str> = must.iter().map(|(key, _)| *key).collect();
    let all = must.into_iter().chain(may);
    let properties: Map<String, Value> = all.map(|(key, value)| (key.to_owned(), value)).collect();
    json!({"type": "object", "properties": properties, "required": required})
}

fn list(item: Value) -> Value {
    json!({"type": "array", "items": item})
}

fn text() -> Value {
    json!({"type": "string"})
}

fn number() -> Value {
    json!({"type": "number"})
}

fn whole() -> Value {
    json!({"type": "integer", "minimum": 0})
}

fn truth() -> Value {
    json!({"type": "boolean"})
}

/// A value that may be absent: `null` where it was not worked out.
fn or_null(value: Value) -> Value {
    json!({"anyOf": [value, {"type": "null"}]})
}

fn format(name: &str) -> Value {
    json!({"const": name})
}

/// Keys that all hold a number.
fn numbers(keys: &[&'static str]) -> Keys {
    keys.iter().map(|key| (*key, number())).collect()
}

/// Keys that all hold a number or `null`.
fn numbers_or_null(keys: &[&'static str]) -> Keys {
    keys.iter().map(|key| (*key, or_null(number()))).collect()
}

/// Keys that all hold a text.
fn texts(keys: &[&'static str]) -> Keys {
    keys.iter().map(|key| (*key, text())).collect()
}

fn both(first: Keys, second: Keys) -> Keys {
    first.into_iter().chain(second).collect()
}

/// Printed lines of a working.
fn steps() -> Value {
    list(object(
        both(
            texts(&["say", "formula", "unit", "why"]),
            vec![("value", json!({}))],
        ),
        vec![],
    ))
}

/// `leeside plan --json`.
pub(super) fn plan() -> Value {
    let must = vec![
        ("format", format("leeside-plan/1")),
        ("title", text()),
        ("kind", text()),
        ("people", whole()),
        ("nights", whole()),
        ("confidence", number()),
        ("camps", list(camp())),
        ("kitchens", list(kitchen())),
        ("greywater", list(greywater())),
        ("rules", list(rule())),
        (
            "modules",
            list(object(
                both(texts(&["id", "title", "why"]), vec![("applies", truth())]),
                vec![],
            )),
        ),
        (
            "assumed",
            list(object(texts(&["what", "value", "why"]), vec![])),
        ),
        (
            "cautions",
            list(object(texts(&["signal", "module", "id", "text"]), vec![])),
        ),
    ];
    let crossing = object(
        both(texts(&["before", "after"]), vec![("nights", json!({}))]),
        vec![],
    );
    let assignment = object(
        both(
            numbers(&["left_over_g", "bound_g"]),
            vec![("exact", truth())],
        ),
        vec![],
    );
    let may = vec![
        ("comparison", list(compared())),
        ("crossings", list(crossing)),
        ("assignment", assignment),
        ("course", json!({"type": "object"})),
        ("what_if", list(what_if())),
        ("advice", advice()),
    ];
    object(must, may)
}

fn camp() -> Value {
    let heights = numbers(&[
        "elevation_m",
        "pressure_kpa",
        "boiling_c",
        "day_c",
        "night_c",
        "water_c",
        "safe_boil_minutes",
    ]);
    let rest = vec![("nights", whole()), ("steps", steps())];
    let must = both(texts(&["name", "wind", "water_from"]), heights);
    object(both(must, rest), vec![])
}

fn kitchen() -> Value {
    let must = vec![
        ("name", text()),
        ("people", whole()),
        ("stove", text()),
        ("steps", steps()),
        ("meals", list(meal())),
        ("fuel", fuel()),
        ("containers", list(container())),
        ("cold", list(cold())),
    ];
    object(must, vec![("stability", stability())])
}

fn meal() -> Value {
    let heat = object(
        numbers(&["water", "pot", "melt", "simmer", "useful"]),
        vec![],
    );
    let sure = numbers(&["water_l", "efficiency", "hold_minutes", "to_light_g"]);
    let unsure = numbers_or_null(&[
        "fuel_g",
        "minutes",
        "flame_minutes",
        "lost_kj",
        "stops_at_c",
    ]);
    let rest = vec![
        ("times", whole()),
        ("batches", whole()),
        ("heat_kj", heat),
        ("would_boil", or_null(list(text()))),
        ("can_hold", truth()),
        ("may_not_boil", truth()),
        ("steps", steps()),
        ("loss_steps", steps()),
    ];
    let must = both(both(texts(&["camp", "meal"]), both(sure, unsure)), rest);
    object(must, vec![("fills", whole())])
}

fn fuel() -> Value {
    let usual = object(
        vec![("season", or_null(text()))],
        vec![
            ("why", text()),
            ("inside", truth()),
            ("low", number()),
            ("high", number()),
        ],
    );
    let sums = numbers_or_null(&[
        "likely_g",
        "at_confidence_g",
        "spare_g",
        "carry_g",
        "grams_per_person_day",
    ]);
    let spread = object(vec![("input", text()), ("share", number())], vec![]);
    let leg = object(
        both(
            numbers(&[
                "needed_g",
                "practice_g",
                "issued_g",
                "gross_g",
                "likely_g",
                "at_confidence_g",
                "spare_g",
                "carry_g",
            ]),
            vec![
                ("from", or_null(text())),
                ("to", or_null(text())),
                ("decides", text()),
            ],
        ),
        vec![],
    );
    let rest = vec![
        ("usual", usual),
        ("spread", list(spread)),
        ("steps", steps()),
        ("legs", list(leg)),
    ];
    let sure = numbers(&["heating_value_mj_per_kg", "practice_g", "may_fail"]);
    let must = both(texts(&["kind", "decides"]), both(sure, sums));
    let must = both(must, vec![("stays_cold", truth())]);
    object(both(must, rest), vec![])
}

fn container() -> Value {
    let rest = vec![
        ("tag", or_null(text())),
        ("on_hand", truth()),
        ("count", whole()),
        ("leg", whole()),
    ];
    let sure = numbers(&["size_g", "net_g", "usable_g", "gross_g"]);
    let unsure = numbers_or_null(&["tare_g", "fill_ml"]);
    let must = both(texts(&["container", "kind"]), both(sure, unsure));
    object(both(must, rest), vec![])
}

fn cold() -> Value {
    let must = both(
        texts(&["camp", "meal", "verdict"]),
        numbers(&[
            "fuel_temperature_c",
            "gauge_start_kpa",
            "gauge_low_kpa",
            "power_kw",
            "usable_fraction",
        ]),
    );
    let rest = vec![("leg", whole()), ("container", or_null(text()))];
    object(both(must, rest), vec![])
}

fn stability() -> Value {
    let must = numbers(&[
        "tip_angle_full_deg",
        "tip_angle_worst_deg",
        "rim_push_n",
        "shim_mm",
    ]);
    let rest = vec![("notes", list(text())), ("steps", steps())];
    object(both(must, rest), vec![])
}

fn greywater() -> Value {
    let must = both(
        texts(&["camp", "method", "from"]),
        numbers(&["litres_per_day", "distance_m", "steps"]),
    );
    object(both(must, vec![("working", steps())]), vec![])
}

fn rule() -> Value {
    let must = texts(&["camp", "rule", "value", "from"]);
    let rest = vec![
        ("checked", or_null(text())),
        ("as_of", or_null(text())),
        ("stale_days", json!({})),
    ];
    object(both(must, rest), vec![])
}

fn compared() -> Value {
    let sure = numbers(&["energy_mj_per_l"]);
    // none of these for a stove that never boils the trip's pots
    let unsure = numbers_or_null(&[
        "fuel_g",
        "start_mass_g",
        "average_mass_g",
        "minutes_per_litre",
        "fossil_co2_g",
        "energy_mj_per_kg_with_container",
        "container_g_per_g",
        "rim_push_n",
        "tip_angle_deg",
        "price",
    ]);
    let rest = vec![
        ("why", or_null(text())),
        ("may_not_boil", truth()),
        ("containers", json!({})),
        ("start_mass_g_by_nights", list(number())),
    ];
    let must = both(texts(&["stove", "fuel", "allowed"]), both(sure, unsure));
    object(both(must, rest), vec![])
}

fn advice() -> Value {
    let pot = object(
        both(
            texts(&["camp", "meal", "limit"]),
            both(
                numbers(&["water_l", "batches_now", "batches"]),
                numbers_or_null(&["capacity_l", "tip_angle_deg"]),
            ),
        ),
        vec![],
    );
    let rates = ["litres_an_hour", "litres_a_day", "minutes_a_day"];
    let melting = object(both(texts(&["camp"]), numbers(&rates)), vec![]);
    let burn = object(
        both(
            vec![("container", or_null(text()))],
            both(
                numbers(&["fuel_g", "full_minutes"]),
                numbers_or_null(&["least_minutes"]),
            ),
        ),
        vec![],
    );
    let kitchen = vec![
        ("name", text()),
        ("pot", or_null(pot)),
        ("melting", list(melting)),
        ("burn", or_null(burn)),
    ];
    let kit = both(
        texts(&["stove", "fuel", "allowed"]),
        numbers(&["start_mass_g"]),
    );
    let wind = numbers(&[
        "share_at_stove",
        "calm_below_m_per_s",
        "breezy_below_m_per_s",
    ]);
    object(
        vec![
            ("kitchens", list(object(kitchen, vec![]))),
            ("lightest", or_null(object(kit, vec![]))),
            ("wind", object(wind, vec![])),
        ],
        vec![],
    )
}

fn what_if() -> Value {
    let kitchen = object(
        both(
            numbers_or_null(&["fuel_g", "carry_g", "minutes"]),
            vec![("name", text()), ("works", json!({})), ("why", json!({}))],
        ),
        vec![],
    );
    object(
        vec![("change", text()), ("kitchens", list(kitchen))],
        vec![],
    )
}

/// Problems as `check --json` prints them.
fn problems() -> Value {
    let must = both(
        texts(&["code", "message", "help"]),
        vec![
            ("file", or_null(text())),
            ("line", or_null(whole())),
            ("column", or_null(whole())),
            ("path", or_null(text())),
        ],
    );
    list(object(must, vec![]))
}

/// `leeside check --json`.
pub(super) fn check() -> Value {
    let must = vec![
        ("format", format("leeside-check/1")),
        ("problems", problems()),
        ("warnings", problems()),
    ];
    object(must, vec![])
}

/// `leeside why --json`, with and without an id.
pub(super) fn why() -> Value {
    let line = object(texts(&["id", "say", "formula", "result", "why"]), vec![]);
    let source = object(
        both(texts(&["code", "title"]), vec![("url", or_null(text()))]),
        vec![],
    );
    let one = object(
        both(
            texts(&["id", "text", "from"]),
            vec![
                ("si", or_null(number())),
                ("steps", list(line)),
                ("assumed", list(text())),
                ("sources", list(source)),
            ],
        ),
        vec![],
    );
    let id = object(
        both(texts(&["id", "text"]), vec![("si", or_null(number()))]),
        vec![],
    );
    let may = vec![("why", one), ("ids", list(id))];
    object(vec![("format", format("leeside-why/1"))], may)
}

/// `leeside list --json`: each row has an id but where things are counted.
pub(super) fn listed() -> Value {
    let row = json!({"type": "object", "properties": {"id": text(), "module": text()}});
    let must = vec![
        ("format", format("leeside-list/1")),
        ("what", text()),
        ("rows", list(row.clone())),
    ];
    object(must, vec![("objectives", list(row))])
}

/// `leeside make --json`.
pub(super) fn made() -> Value {
    let sheet = object(
        both(
            texts(&["file", "sheet", "title", "print"]),
            vec![("copies", whole()), ("sides", or_null(whole()))],
        ),
        vec![],
    );
    let would = object(
        vec![
            ("file", text()),
            (
                "fate",
                json!({"enum": ["new", "same", "replaced", "edited", "gone", "stays"]}),
            ),
        ],
        vec![],
    );
    let packet = object(
        both(texts(&["folder", "open"]), vec![("sheets", list(sheet))]),
        vec![("would", list(would))],
    );
    let must = vec![
        ("format", format("leeside-make/1")),
        ("packets", list(packet)),
    ];
    object(must, vec![])
}
