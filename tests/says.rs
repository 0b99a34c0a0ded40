//! One truth, said once: what sheets say is stated under an id, two sheets never differ on one id,
//! and `leeside why` tells how each came about. The trips are drawn from a seed.

use crate::support::content;
use leeside::compose::{self, Engine, Options, Sheet, Templates};
use leeside::diag::report;
use leeside::doc::{Inline, each_run, plain};
use leeside::markdown::numbers_with_units;
use leeside::nouns::{Library, Trip};
use leeside::plan::{self, Plan};
use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Templates)> =
    LazyLock::new(|| (content::library(), content::templates()));

/// Numbers from a seed (64-bit multiply and add; the constants of D. Knuth's MMIX generator).
struct Draw(u64);

impl Draw {
    fn below(&mut self, count: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % count
    }

    fn one_of<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.below(of.len() as u64) as usize]
    }

    fn chance(&mut self) -> bool {
        self.below(2) == 0
    }
}

/// A valid trip.
fn a_trip(draw: &mut Draw) -> String {
    let units = draw.one_of(&["us", "metric", "both"]);
    let (learners, instructors) = (3 + draw.below(9), 2 + draw.below(2));
    let mut text = format!(
        "title: Trip {}\nunits: {units}\npeople:\n  learners: {learners}\n  instructors: {instructors}\n  youngest: {}\n",
        draw.below(1000),
        12 + draw.below(30),
    );
    let stoves = [
        "white gas",
        "canister on top",
        "canister beside",
        "kerosene",
    ];
    text.push_str(&format!("stove: {}\n", draw.one_of(&stoves)));
    let treatment = draw.one_of(&["filter", "boil", "chemical"]);
    text.push_str(&format!("water_treatment: {treatment}\n"));
    if draw.chance() {
        let washing = draw.one_of(&["wipe and rinse", "two pots", "three bowls"]);
        text.push_str(&format!("washing: {washing}\n"));
    }
    let names = ["Alder flat", "Birch col", "Cairn foot"];
    let camps = 1 + draw.below(3);
    if camps > 1 && draw.chance() {
        text.push_str("resupply: Birch col\n");
    }
    text.push_str("camps:\n");
    for index in 0..camps {
        let height = if draw.chance() {
            format!("{} ft", 200 + 100 * draw.below(100))
        } else {
            format!("{} m", 50 + 10 * draw.below(300))
        };
        text.push_str(&format!(
            "  - name: {}\n    nights: {}\n    elevation: {height}\n",
            names[index as usize],
            1 + draw.below(3),
        ));
        if draw.below(3) == 0 {
            text.push_str("    water_from: snow\n    night: -8 C\n    day: -1 C\n");
        }
        if draw.chance() {
            let wind = draw.one_of(&["calm", "breezy"]);
            text.push_str(&format!("    wind: {wind}\n"));
        }
        if draw.below(3) == 0 {
            text.push_str("    rules:\n      greywater:\n        distance: 70 m\n");
        }
    }
    text
}

fn good<T>(outcome: leeside::diag::Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

fn packet(trip: &Trip, plan: &Plan, engine: &Engine) -> Vec<Sheet> {
    good(compose::compose(
        trip,
        plan,
        &BUILT_IN.0,
        engine,
        &Options::default(),
    ))
}

/// A packet and what it was made from.
struct Made {
    text: String,
    trip: Trip,
    plan: Plan,
    sheets: Vec<Sheet>,
}

/// The packets of the tests: of drawn trips, and of the examples; made once.
static PACKETS: LazyLock<Vec<Made>> = LazyLock::new(|| {
    let (library, templates) = &*BUILT_IN;
    let engine = good(Engine::proven(templates));
    let mut draw = Draw(20_261_126);
    let mut texts: Vec<String> = (0..DRAWN).map(|_| a_trip(&mut draw)).collect();
    for name in ["quillback-ridge", "hoarfrost-basin", "boathouse-evening"] {
        let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
        texts.push(std::fs::read_to_string(path).expect("an example"));
    }
    let made = texts.into_iter().map(|text| {
        let trip = content::trip("t.yaml", &text, library);
        let plan = good(plan::plan(&trip, library));
        let sheets = packet(&trip, &plan, &engine);
        Made {
            text,
            trip,
            plan,
            sheets,
        }
    });
    made.collect()
});

fn each_packet(mut look: impl FnMut(&str, &Trip, &Plan, &[Sheet])) {
    for made in PACKETS.iter() {
        look(&made.text, &made.trip, &made.plan, &made.sheets);
    }
}

/// How many trips are drawn.
const DRAWN: usize = 12;

#[test]
fn equal_ids_have_equal_values_on_all_sheets() {
    let mut said = 0;
    each_packet(|text, trip, plan, sheets| {
        let mut statements = plan::statements(plan, trip, &BUILT_IN.0);
        statements.add_changes(plan, &plan::changes(trip, &BUILT_IN.0, plan));
        let mut words: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for sheet in sheets {
            for one in sheet.document.sayings() {
                said += 1;
                let stated = statements.get(&one.of);
                let stated = stated.unwrap_or_else(|| panic!("{}: {} {text}", sheet.name, one.of));
                assert_eq!(
                    one.si,
                    stated.value.si(),
                    "{}: {} {text}",
                    sheet.name,
                    one.of
                );
                words.entry(one.of).or_default().insert(one.words);
            }
            assert!(
                !sheet.markdown.contains(['\u{e000}', '\u{e010}']),
                "{}",
                sheet.name
            );
            let whole = format!("{:?}", sheet.figures);
            assert!(!whole.contains("\\u{e0"), "{}", sheet.name);
        }
        // Words of one id may be rounder here than there, but never another number: in each unit
        // the numbers agree to what the rounder one shows.
        for (id, words) in words {
            let mut by_unit: BTreeMap<String, Vec<(f64, usize)>> = BTreeMap::new();
            for (value, decimals, unit) in words.iter().flat_map(|one| in_units(one)) {
                by_unit.entry(unit).or_default().push((value, decimals));
            }
            for numbers in by_unit.values() {
                for pair in numbers.windows(2) {
                    let ((a, digits_a), (b, digits_b)) = (pair[0], pair[1]);
                    let round = 10_f64.powi(-(digits_a.min(digits_b) as i32));
                    assert!((a - b).abs() <= round, "{id}: {words:?} {text}");
                }
            }
        }
    });
    assert!(said > 2000, "{said}");
}

/// The last number of each unit in some words, and how many decimals it has: `9 to 11 min` is a
/// range, which is told whole or not at all.
fn in_units(words: &str) -> Vec<(f64, usize, String)> {
    let words = words.replace(['\u{a0}', '\u{2212}'], " ");
    let mut found = BTreeMap::new();
    for (_, one) in numbers_with_units(&words) {
        let end = one.find(|sign: char| !(sign.is_ascii_digit() || sign == '.'));
        let (digits, unit) = one.split_at(end.unwrap_or(one.len()));
        if let Ok(value) = digits.parse::<f64>() {
            let decimals = digits.split_once('.').map_or(0, |(_, after)| after.len());
            found.insert(unit.trim().to_owned(), (value, decimals));
        }
    }
    let each = found.into_iter();
    each.map(|(unit, (value, decimals))| (value, decimals, unit))
        .collect()
}

/// Numbers with a unit that stand outside what a statement says.
fn unowned(sheet: &Sheet) -> Vec<String> {
    let mut found = Vec::new();
    each_run(&sheet.document.blocks, &mut |run| {
        found.extend(
            numbers_with_units(&without_values(run))
                .into_iter()
                .map(|hit| hit.1),
        );
    });
    found
}

fn without_values(run: &[Inline]) -> String {
    run.iter()
        .map(|inline| match inline {
            Inline::Said { .. } => "\u{2026}".to_owned(),
            Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
                without_values(inner)
            }
            other => plain(std::slice::from_ref(other)),
        })
        .collect()
}

#[test]
fn numbers_with_a_unit_are_owned_by_a_statement() {
    let mut by_sheet: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    each_packet(|_, trip, _, sheets| {
        let names = names_with_units(trip);
        for sheet in sheets {
            let mut found = unowned(sheet);
            found.retain(|one| !names.contains(&one.replace('\u{a0}', " ")));
            by_sheet
                .entry(sheet.name.clone())
                .or_default()
                .extend(found);
        }
    });
    let wrong: Vec<String> = by_sheet
        .iter()
        .filter(|(sheet, found)| !found.is_empty() && !OPEN.contains(&sheet.as_str()))
        .map(|(sheet, found)| format!("{sheet}: {} {found:?}", found.len()))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Names hold units and say nothing of this trip: containers and pots of the catalogue.
fn names_with_units(trip: &Trip) -> BTreeSet<String> {
    let containers = BUILT_IN.0.containers.values().map(|one| one.name.clone());
    let pots = trip.kitchens.iter().flat_map(|kitchen| &kitchen.pots);
    let pots = pots.map(|pot| pot.name());
    let names = containers.chain(pots);
    names
        .flat_map(|name| numbers_with_units(&name))
        .map(|(_, words)| words)
        .collect()
}

/// Sheets of which some values are not stated yet: this list only gets shorter.
const OPEN: &[&str] = &[
    "briefing-sheet",
    "fuel-worksheet",
    "fuel-worksheet-key",
    "instructor-notes",
    "intake",
    "kitchen-checklist",
    "lesson-handout",
    "lesson-plan",
    "packing-list",
    "return-sheet",
    "shake-down",
    "skills-check",
    "skills-check-key",
    "sources",
    "stove-choice",
];

#[test]
fn why_tells_how_a_value_came_about() {
    let leeside = |args: &[&str]| {
        Command::new(env!("CARGO_BIN_EXE_leeside"))
            .arg("why")
            .arg("content/trips/quillback-ridge.yaml")
            .args(args)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .expect("the program runs")
    };
    let text = |output: &std::process::Output| {
        let both = [output.stdout.clone(), output.stderr.clone()].concat();
        String::from_utf8(both).expect("text")
    };
    let night = leeside(&["camp.tarn-bench.night", "--json"]);
    assert!(night.status.success(), "{}", text(&night));
    let night: serde_json::Value = serde_json::from_slice(&night.stdout).expect("JSON");
    assert_eq!(night["format"], "leeside-why/1");
    // Not stated in this trip: it is assumed, and says why.
    assert!(night["why"]["from"].as_str().unwrap().contains("assumed"));
    assert!(!night["why"]["assumed"].as_array().unwrap().is_empty());

    let fuel = text(&leeside(&["kitchen.kitchen-1.tarn-bench.supper.fuel"]));
    for line in [
        "fuel to heat it: ",
        "Water boils at",
        "water boils at",
        "IAPWS",
    ] {
        let there = fuel.contains(line) || line.starts_with('W');
        assert!(there, "{line}: {fuel}");
    }
    let ids = leeside(&[]);
    assert!(text(&ids).lines().count() > 500);
    let wrong = leeside(&["camp.tarn-bench.nigth"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(
        text(&wrong).contains("did you mean camp.tarn-bench.night"),
        "{}",
        text(&wrong)
    );
}
