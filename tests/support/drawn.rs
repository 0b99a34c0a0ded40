//! Valid trips, lessons and a folder of own content, drawn from a seed: every key of a trip file
//! comes up. All names are invented.

use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// Numbers from a seed (64-bit multiply and add; the constants of D. Knuth's MMIX generator).
pub struct Draw(u64);

impl Draw {
    /// The draws of a number; neighbours have nothing in common (the multiplier is the golden ratio
    /// of 64 bits).
    pub fn of(number: u64) -> Self {
        let mut draw = Self(number.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 20_261_126);
        for _ in 0..4 {
            draw.below(2);
        }
        draw
    }

    /// A number from 0 up to `count`, without it.
    pub fn below(&mut self, count: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % count
    }

    /// One of several words.
    pub fn one_of<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.below(of.len() as u64) as usize]
    }

    /// Once in so many.
    pub fn once_in(&mut self, many: u64) -> bool {
        self.below(many) == 0
    }

    /// Puts a value under a key, or not.
    fn maybe(&mut self, into: &mut Map<String, Value>, key: &str, value: Value) {
        if self.once_in(3) {
            into.insert(key.to_owned(), value);
        }
    }
}

/// Files of an own folder of content: a place, a stove, a menu, a profile, another title.
pub const OVERLAY: [(&str, &str); 5] = [
    (
        "places/our-valley.yaml",
        "extends: inland-forest\ntitle: Our valley\n",
    ),
    (
        "gear/stoves.yaml",
        "extends: stoves\nbig-burner:\n  extends: white-gas\n  name: big burner\n  power: 4 kW\n",
    ),
    (
        "menus.yaml",
        "extends: menus\nsoup-evening:\n  name: soup evening\n  supper:\n    boil: 0.5 L\n  breakfast: cold\n  lunch: cold\n  drinks: cold\n",
    ),
    ("profiles/club.yaml", "name: Our club\nunits: metric\n"),
    (
        "modules/greywater.yaml",
        "extends: greywater\ntitle: Where our wash water goes\n",
    ),
];

fn object(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(map) => map,
        _ => Map::new(),
    }
}

/// What a stove's kitchen may state about it.
fn own_stove(draw: &mut Draw) -> Value {
    let factors = |calm: f64| {
        json!({
            "calm": calm, "breezy": calm * 0.9, "windy": calm * 0.6, "may_fail_windy": "no",
        })
    };
    let mut fails = object(factors(0.85));
    fails.insert("may_fail_windy".to_owned(), json!("yes"));
    let mut wind = Map::new();
    wind.insert("none".to_owned(), Value::Object(fails));
    for (screen, calm) in [
        ("natural", 0.9),
        ("partial", 0.9),
        ("full", 0.95),
        ("built-in", 0.95),
    ] {
        wind.insert(screen.to_owned(), factors(calm));
    }
    json!({
        "extends": "white gas", "name": "old burner", "family": "white gas", "fuel": "white gas",
        "fuels": ["white gas"], "efficiency": {"low": "30%", "likely": "41%", "high": "50%"},
        "wind": wind, "screen": draw.one_of(&["none", "partial", "full"]), "power": "2.4 kW",
        "least_power": "500 W", "shut_off": "yes", "mass": "450 g", "burner_mass": "90 g",
        "burner_height": "80 mm", "to_light": "6 g",
        "geometry": {"stands": "legs", "legs": 4, "radius": "75 mm", "height": "70 mm"},
        "usual": {"boil_only": [28, 45], "hot_wash": [55, 75], "shoulder": [45, 75],
            "winter": [110, 180]},
        "spares": ["pump cup"], "basis": "assumption",
    })
}

/// A stove and what a kitchen states beside it.
fn kitchen(draw: &mut Draw, ours: bool) -> Map<String, Value> {
    let mut all = Map::new();
    let canister = draw.once_in(3);
    if canister {
        let stove = draw.one_of(&["canister on top", "canister beside", "heat exchanger"]);
        all.insert("stove".to_owned(), json!(stove));
        draw.maybe(&mut all, "blend", json!("propane 30, isobutane 70"));
        if stove == "canister beside" {
            draw.maybe(&mut all, "feed", json!("liquid"));
        }
    } else if draw.once_in(6) {
        all.insert("stove".to_owned(), own_stove(draw));
    } else if ours && draw.once_in(2) {
        all.insert("stove".to_owned(), json!("big burner"));
    } else {
        let stove = draw.one_of(&["white gas", "kerosene", "white gas", "alcohol"]);
        all.insert("stove".to_owned(), json!(stove));
        if stove == "alcohol" {
            draw.maybe(&mut all, "fuel", json!("ethanol"));
            all.insert("windscreen".to_owned(), json!("full"));
        } else {
            draw.maybe(&mut all, "heating_value", json!("43.5 MJ/kg"));
        }
    }
    if !all.contains_key("windscreen") {
        draw.maybe(&mut all, "windscreen", json!("partial"));
    }
    draw.maybe(&mut all, "lid", json!("no"));
    let pots = ["aluminium 3 L, 310 g", "titanium 1.5 L", "stainless 2 L"];
    let (pot, other) = (draw.one_of(&pots), draw.one_of(&pots));
    draw.maybe(&mut all, "pots", json!([pot, other]));
    match draw.below(5) {
        0 => {
            let wind = draw.one_of(&["calm", "breezy"]);
            let measured = json!({"efficiency": "44%", "wind": wind, "spread": "6%"});
            all.insert("measured".to_owned(), measured);
        }
        1 => {
            let efficiency = json!({"low": "35%", "likely": "42%", "high": "50%"});
            all.insert("efficiency".to_owned(), efficiency);
        }
        _ => {}
    }
    if !matches!(all.get("stove").and_then(Value::as_str), Some("alcohol")) {
        draw.maybe(&mut all, "power", json!("2.2 kW"));
        draw.maybe(&mut all, "least_power", json!("600 W"));
    }
    all
}

fn meal(draw: &mut Draw) -> Value {
    match draw.below(4) {
        0 => json!("cold"),
        1 => json!({"boil": "0.6 L", "simmer": "8 min"}),
        2 => json!("0.4 L"),
        _ => json!({"boil": "14 fl oz"}),
    }
}

fn menu(draw: &mut Draw) -> Value {
    match draw.below(3) {
        0 => json!(draw.one_of(&["boil only", "cooks fresh", "simmered supper"])),
        _ => {
            let mut menu = Map::new();
            for key in ["supper", "breakfast", "lunch"] {
                let meal = meal(draw);
                draw.maybe(&mut menu, key, meal);
            }
            draw.maybe(
                &mut menu,
                "drinks",
                json!({"boil": "0.25 L", "times_a_day": 2}),
            );
            draw.maybe(&mut menu, "extends", json!("cooks fresh"));
            if menu.is_empty() {
                menu.insert(
                    "supper".to_owned(),
                    json!({"boil": "0.5 L", "simmer": "8 min"}),
                );
            }
            Value::Object(menu)
        }
    }
}

fn rules(draw: &mut Draw) -> Value {
    let all = json!({
        "greywater": {"distance": "70 m", "from": "water and paths", "method": "scatter on gravel"},
        "soap": {"use": "none", "distance": "70 m"},
        "food": {"storage": "in the locker of the hut"},
        "fire": {"stoves": "on bare ground", "clear": "2 m"},
        "camp": {"distance": "60 m"},
        "fuel": {"storage": "in the shade"},
        "burying": "never",
        "checked": "2027-05-01, ranger desk",
    });
    let mut some = Map::new();
    for (key, value) in object(all) {
        draw.maybe(&mut some, &key, value);
    }
    Value::Object(some)
}

/// Air, water and ground of a place.
fn weather(draw: &mut Draw, into: &mut Map<String, Value>, may_snow: bool) {
    if may_snow && draw.once_in(4) {
        for (key, value) in [
            ("water_from", "snow"),
            ("day", "-2 C"),
            ("night", "-9 C"),
            ("water", "-4 C"),
        ] {
            into.insert(key.to_owned(), json!(value));
        }
    } else {
        let day = 6 + draw.below(16);
        draw.maybe(into, "day", json!(format!("{day} C")));
        if into.contains_key("day") {
            draw.maybe(into, "night", json!(format!("{} C", day - 5)));
        }
        draw.maybe(into, "water", json!("48 F"));
        draw.maybe(into, "water_from", json!("stream"));
        draw.maybe(into, "fuel_temperature", json!("12 C"));
    }
    let wind = draw.one_of(&["calm", "breezy", "calm", "windy"]);
    draw.maybe(into, "wind", json!(wind));
    let rules = rules(draw);
    draw.maybe(into, "rules", rules);
}

fn course(draw: &mut Draw, lesson: bool) -> Value {
    let mut course = object(json!({
        "focus": ["lighting-and-flames", "greywater"],
    }));
    if lesson && draw.once_in(3) {
        let kind = draw.one_of(&["teach", "teach-back", "check"]);
        course.insert(
            "sessions".to_owned(),
            json!([
                {"name": "First light", "date": "2027-05-02", "starts": "9:00", "minutes": 150,
                 "place": "outdoors", "kind": "teach", "focus": ["lighting-and-flames"]},
                {"name": "Second light", "date": "2027-05-03", "starts": "10:00", "minutes": 150,
                 "kind": kind, "focus": ["greywater"]},
            ]),
        );
    } else {
        course.insert("minutes".to_owned(), json!(120 + 15 * draw.below(5)));
        draw.maybe(&mut course, "starts", json!("9:30"));
        let place = draw.one_of(&["outdoors", "indoors"]);
        let mut fallback = object(json!({"minutes": 45, "place": "indoors"}));
        draw.maybe(&mut fallback, "focus", json!(["greywater"]));
        if draw.once_in(4) {
            course.insert("place".to_owned(), json!(place));
        } else {
            course.insert("fallback".to_owned(), Value::Object(fallback));
        }
    }
    draw.maybe(&mut course, "stations", json!(1));
    draw.maybe(&mut course, "known", json!(["greywater.scatter"]));
    let level = draw.one_of(&["scout", "adult beginner", "instructor candidate"]);
    draw.maybe(&mut course, "level", json!(level));
    draw.maybe(&mut course, "latitude", json!(46));
    let seed = draw.below(1000);
    draw.maybe(&mut course, "seed", json!(seed));
    Value::Object(course)
}

/// What trips and lessons state alike.
fn common(draw: &mut Draw, ours: bool) -> Map<String, Value> {
    let (learners, instructors) = (3 + draw.below(8), 2 + draw.below(2));
    let mut people = object(json!({"learners": learners, "instructors": instructors}));
    let youngest = 12 + draw.below(30);
    draw.maybe(&mut people, "youngest", json!(youngest));
    draw.maybe(&mut people, "adults_per_lit_stove", json!(1));
    draw.maybe(&mut people, "diet", json!(["tree nuts, strict"]));
    let number = draw.below(1000);
    let mut all = object(json!({"title": format!("Outing {number}"), "people": people}));
    let club = match (ours, draw.below(3)) {
        (true, _) => json!("club"),
        (false, 0) => json!("Our own club"),
        (false, 1) => json!({"name": "Our own club", "phones": ["555-0199"], "sign_off": ["Cook"]}),
        (false, _) => json!("fernhollow"),
    };
    draw.maybe(&mut all, "organisation", club);
    draw.maybe(&mut all, "notes", json!(["The gate is locked at nine"]));
    // which folders these are is settled before a trip is checked
    draw.maybe(&mut all, "content", json!("club"));
    draw.maybe(&mut all, "starts", json!("2027-05-14"));
    let units = draw.one_of(&["us", "metric", "both"]);
    draw.maybe(&mut all, "units", json!(units));
    let paper = draw.one_of(&["letter", "a4"]);
    draw.maybe(&mut all, "paper", json!(paper));
    all.insert("language".to_owned(), json!("en"));
    draw.maybe(&mut all, "second_stove", json!("yes"));
    let prices = json!({"canister 230 g": 7.5, "canister 100 g": 5, "white gas 1 L": 14});
    draw.maybe(&mut all, "prices", prices);
    let hand = json!([
        {"tag": "F-014", "size": "230 g", "gross": "291 g", "tare": "150 g",
         "blend": "propane 30, isobutane 70", "connection": "thread"},
        {"tag": "F-021", "size": "450 g", "gross": "655 g", "tare": "205 g",
         "blend": "propane 30, isobutane 70", "present": "propane 28, isobutane 72"},
    ]);
    draw.maybe(&mut all, "canisters_on_hand", hand);
    if all.contains_key("canisters_on_hand") {
        all.insert("part_used_at_most".to_owned(), json!(1));
    }
    let menu = menu(draw);
    draw.maybe(&mut all, "menu", menu);
    if ours {
        draw.maybe(&mut all, "menu", json!("soup evening"));
    }
    let washing = draw.one_of(&["wipe and rinse", "two pots", "three bowls"]);
    draw.maybe(&mut all, "washing", json!(washing));
    let eating = draw.one_of(&["own bowls", "shared pot", "from the pouch"]);
    draw.maybe(&mut all, "eating", json!(eating));
    let boil = draw.one_of(&["cdc", "epa", "health-canada", "who"]);
    draw.maybe(&mut all, "boil_rules", json!(boil));
    draw.maybe(&mut all, "step_length", json!("0.62 m"));
    let restrictions = match draw.below(3) {
        0 => json!({"stoves": "yes", "stage": "stage 1", "checked": "2027-05-12, ranger desk",
            "until": "2027-06-30"}),
        1 => json!({"stoves": "with a shut-off valve", "checked": "2027-05-12, ranger desk"}),
        _ => json!({"stoves": "no", "stage": "full ban"}),
    };
    draw.maybe(&mut all, "restrictions", restrictions);
    let emergency = json!({"call": "555-0117", "nearest_help": "hut, two hours on foot"});
    draw.maybe(&mut all, "emergency", emergency);
    all
}

/// A trip.
pub fn trip(draw: &mut Draw, ours: bool) -> Value {
    let mut all = common(draw, ours);
    let treatment = draw.one_of(&["filter", "boil", "chemical", "uv"]);
    all.insert("water_treatment".to_owned(), json!(treatment));
    let names = ["Alder flat", "Birch col", "Cairn foot"];
    let count = 1 + draw.below(3);
    let camps: Vec<Value> = names
        .iter()
        .take(count as usize)
        .map(|name| {
            let height = if draw.once_in(2) {
                format!("{} ft", 200 + 100 * draw.below(100))
            } else {
                format!("{} m", 50 + 10 * draw.below(300))
            };
            let nights = 1 + draw.below(3);
            let mut camp = object(json!({"name": name, "nights": nights, "elevation": height}));
            weather(draw, &mut camp, true);
            draw.maybe(&mut camp, "pressure", json!("84 kPa"));
            let place = draw.one_of(&["bear country", "alpine snow", "sea coast", "uk hills"]);
            let place = if ours { "our valley" } else { place };
            draw.maybe(&mut camp, "place", json!(place));
            let menu = menu(draw);
            if menu.is_object() {
                draw.maybe(&mut camp, "menu", menu);
            }
            draw.maybe(&mut camp, "drinking", json!("3.5 L"));
            Value::Object(camp)
        })
        .collect();
    all.insert("camps".to_owned(), json!(camps));
    if count > 1 && draw.once_in(2) {
        all.insert("resupply".to_owned(), json!("Birch col"));
    }
    let people = &all["people"];
    let party = [&people["learners"], &people["instructors"]];
    let party: u64 = party.iter().filter_map(|one| one.as_u64()).sum();
    if draw.once_in(3) {
        let mut kitchens = [kitchen(draw, ours), kitchen(draw, ours)];
        let first = party.div_ceil(2);
        for (kitchen, (name, people)) in kitchens
            .iter_mut()
            .zip([("Wren", first), ("Otter", party - first)])
        {
            kitchen.insert("name".to_owned(), json!(name));
            kitchen.insert("people".to_owned(), json!(people));
        }
        all.insert("kitchens".to_owned(), json!(kitchens));
    } else {
        all.extend(kitchen(draw, ours));
    }
    draw.maybe(&mut all, "kind", json!("trip"));
    let meal = draw.one_of(&["breakfast", "lunch", "supper"]);
    draw.maybe(&mut all, "first_meal", json!(meal));
    let meal = draw.one_of(&["breakfast", "lunch", "supper"]);
    draw.maybe(&mut all, "last_meal", json!(meal));
    let arrival = draw.one_of(&["air", "road", "foot", "boat"]);
    draw.maybe(&mut all, "arrival", json!(arrival));
    let spare = draw.one_of(&["none", "one extra day", "two extra days"]);
    draw.maybe(&mut all, "spare", json!(spare));
    draw.maybe(&mut all, "confidence", json!("80%"));
    draw.maybe(&mut all, "drinking", json!("2.5 L"));
    if draw.once_in(3) {
        let course = course(draw, false);
        all.insert("course".to_owned(), course);
    }
    Value::Object(all)
}

/// A lesson without a trip.
pub fn lesson(draw: &mut Draw, ours: bool) -> Value {
    let mut all = common(draw, ours);
    all.insert("kind".to_owned(), json!("lesson"));
    all.insert("water_treatment".to_owned(), json!("tap"));
    all.insert("elevation".to_owned(), json!("310 m"));
    weather(draw, &mut all, false);
    draw.maybe(&mut all, "pressure", json!("97 kPa"));
    if draw.once_in(2) {
        let stations = ["One", "Two"].map(|name| {
            let mut station = kitchen(draw, ours);
            station.insert("name".to_owned(), json!(name));
            Value::Object(station)
        });
        all.insert("stations".to_owned(), json!(stations));
    } else {
        all.extend(kitchen(draw, ours));
    }
    let place = draw.one_of(&["outdoors", "outdoors", "indoors"]);
    all.insert("place".to_owned(), json!(place));
    draw.maybe(&mut all, "land", json!("developed site"));
    let course = course(draw, true);
    all.insert("course".to_owned(), course);
    Value::Object(all)
}

/// The keys of a file, joined with points, whatever list or name they stand under: `people.diet`,
/// `rules.soap.use`, `pots`.
pub fn keys(of: &Value) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    gather(of, "", &mut found);
    found
}

fn gather(of: &Value, at: &str, found: &mut BTreeSet<String>) {
    match of {
        Value::Array(items) => {
            for item in items {
                gather(item, at, found);
            }
        }
        Value::Object(map) => {
            for (key, value) in map {
                let key = plain(&format!("{at}{key}"));
                gather(value, &format!("{key}."), found);
                found.insert(key);
            }
        }
        _ => {}
    }
}

/// A path without the lists that its key may stand in.
fn plain(path: &str) -> String {
    let lists = ["kitchens.", "stations.", "camps."];
    let path = lists
        .iter()
        .find_map(|list| path.strip_prefix(list))
        .unwrap_or(path);
    path.replace("built_in", "built-in")
}

/// The keys that a JSON Schema knows, named as by [`keys`].
pub fn keys_of_schema(schema: &Value) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    walk(schema, schema, "", &mut found);
    found
}

fn walk(schema: &Value, node: &Value, at: &str, found: &mut BTreeSet<String>) {
    if let Some(name) = node["$ref"]
        .as_str()
        .and_then(|name| name.rsplit('/').next())
    {
        walk(schema, &schema["$defs"][name], at, found);
    }
    if let Some(properties) = node["properties"].as_object() {
        for (key, value) in properties {
            let key = plain(&format!("{at}{key}"));
            walk(schema, value, &format!("{key}."), found);
            found.insert(key);
        }
    }
    walk_each(schema, &node["items"], at, found);
    for several in ["anyOf", "oneOf", "allOf"] {
        for one in node[several].as_array().into_iter().flatten() {
            walk_each(schema, one, at, found);
        }
    }
}

fn walk_each(schema: &Value, node: &Value, at: &str, found: &mut BTreeSet<String>) {
    if node.is_object() {
        walk(schema, node, at, found);
    }
}
