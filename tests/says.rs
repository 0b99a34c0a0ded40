//! One truth, said once: what sheets say is stated under an id, two sheets never differ on one id,
//! and `leeside why` tells how each came about. The trips are drawn from a seed.

use crate::support::content;
use crate::support::drawn::{self, Draw};
use leeside::compose::sheets::{self, Reads};
use leeside::compose::{self, Engine, Options, Sheet, Templates};
use leeside::course::timetable;
use leeside::diag::report;
use leeside::doc::{Inline, each_run, plain};
use leeside::markdown::numbers_with_units;
use leeside::nouns::{FuelKind, Kind, Kitchen, Library, Trip, WaterFrom};
use leeside::plan;
use leeside::units::Temperature;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Templates)> =
    LazyLock::new(|| (content::library(), content::templates()));

fn good<T>(outcome: leeside::diag::Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

/// How many trips and lessons are drawn, a third of them lessons and a third over an own folder of
/// content.
const DRAWN: u64 = 60;

/// How many are drawn: [`DRAWN`], or as many as `LEESIDE_DRAWN` says, for a run by hand.
fn how_many() -> u64 {
    let stated = std::env::var("LEESIDE_DRAWN").ok();
    stated.and_then(|text| text.parse().ok()).unwrap_or(DRAWN)
}

/// What the packet of one drawn file came to.
#[derive(Default)]
struct Found {
    /// How many values its sheets say.
    said: usize,
    /// What is wrong with it, with the file.
    wrong: Vec<String>,
    /// By sheet: numbers with a unit that no statement owns.
    unowned: Vec<(String, String)>,
    /// Words of what is not there, with their sheet.
    absent: Vec<String>,
    /// The keys it states.
    keys: BTreeSet<String>,
    /// Why `check` refused it, if it did.
    refused: Option<String>,
}

/// The library with an own folder laid over it.
static OURS: LazyLock<Library> = LazyLock::new(|| {
    let folder = tempfile::tempdir().expect("a folder");
    for (path, text) in drawn::OVERLAY {
        let path = folder.path().join(path);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        std::fs::write(path, text).expect("a file");
    }
    content::library_over(folder.path())
});

/// The packets of drawn files and of the examples, looked through once for all tests.
static FOUND: LazyLock<Vec<Found>> = LazyLock::new(|| {
    // before the threads: whoever waits for one of them inside would wait for itself
    LazyLock::force(&OURS);
    let engine = good(Engine::proven(&BUILT_IN.1));
    let files = (0..how_many()).into_par_iter().map(|number| {
        let mut draw = Draw::of(number);
        let ours = draw.once_in(3);
        let file = if number % 3 == 2 {
            drawn::lesson(&mut draw, ours)
        } else {
            drawn::trip(&mut draw, ours)
        };
        let library = if ours { &*OURS } else { &BUILT_IN.0 };
        let text = format!("{file:#}\n");
        // the other stoves on one in eight: they cost the most time
        let found = look_through(&text, library, &engine, number % 8 == 0);
        Found {
            keys: drawn::keys(&file),
            ..found
        }
    });
    let names = ["quillback-ridge", "hoarfrost-basin", "boathouse-evening"];
    let examples = names.into_par_iter().map(|name| {
        let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("an example");
        look_through(&text, &BUILT_IN.0, &engine, true)
    });
    files.chain(examples).collect()
});

/// Checks, plans and composes one file, as `make` does, and looks through its sheets.
fn look_through(text: &str, library: &Library, engine: &Engine, compared: bool) -> Found {
    let mut found = Found::default();
    let trip = match content::try_trip("t.yaml", text, library) {
        Ok(trip) => trip,
        Err(problems) => {
            found.refused = Some(format!("{}{text}", report(&problems)));
            return found;
        }
    };
    let planned = if compared {
        plan::plan(&trip, library)
    } else {
        plan::plan_of_own_stoves(&trip, library)
    };
    let planned = planned.and_then(|plan| timetable::with_practice(&trip, library, plan));
    let only: Vec<String> = sheets::ALL
        .iter()
        .filter(|row| compared || !row.reads.contains(&Reads::OtherStoves))
        .map(|row| row.name.to_owned())
        .collect();
    let options = Options {
        only,
        ..Options::default()
    };
    let refused_course = planned.as_ref().ok().and_then(|plan| {
        let modules = timetable::applying(&trip, library);
        timetable::timetable(&trip, library, plan, &modules).err()
    });
    let made = planned.and_then(|plan| {
        let sheets = compose::compose(&trip, &plan, library, engine, &options)?;
        Ok((plan, sheets))
    });
    // `check` holds the course too
    if let Some(problems) = refused_course {
        found.refused = Some(format!("{}{text}", report(&problems)));
        return found;
    }
    let (plan, sheets) = match made {
        Ok(made) => made,
        Err(problems) => {
            found.wrong.push(format!(
                "checks, and is not made: {}{text}",
                report(&problems)
            ));
            return found;
        }
    };
    let statements = good(compose::stated(&trip, &plan, library, trip.units));
    let names = names_with_units(&trip, library);
    let mut words: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for sheet in &sheets {
        for one in sheet.document.sayings() {
            found.said += 1;
            match statements.get(&one.of) {
                None => found.wrong.push(format!(
                    "{}: nothing is stated under {}",
                    sheet.name, one.of
                )),
                Some(stated) if stated.value.si() != one.si => {
                    let wrong = format!("{}: {} is {:?} {text}", sheet.name, one.of, one.si);
                    found.wrong.push(wrong);
                }
                Some(_) => {}
            }
            words.entry(one.of).or_default().insert(one.words);
        }
        let figures = format!("{:?}", sheet.figures);
        if sheet.markdown.contains(['\u{e000}', '\u{e010}']) || figures.contains("\\u{e0") {
            found
                .wrong
                .push(format!("{}: marks stand in the text", sheet.name));
        }
        let unowned = unowned(sheet).into_iter();
        let unowned = unowned.filter(|(number, _)| !names.contains(&number.replace('\u{a0}', " ")));
        let unowned = unowned
            .map(|(number, around)| (sheet.name.clone(), format!("{number} in \"{around}\"")));
        found.unowned.extend(unowned);
        found.absent.extend(spoken_of(sheet, &trip));
    }
    // Words may be told in part; numbers may only be rounder.
    words.retain(|id, _| {
        let stated = statements.get(id).map(|one| &one.value);
        !matches!(stated, Some(plan::Value::Words(_)))
    });
    let clash = |(id, words): (&String, &BTreeSet<String>)| {
        (!agree(words)).then(|| format!("{id}: {words:?} {text}"))
    };
    found.wrong.extend(words.iter().filter_map(clash));
    found
}

#[test]
fn equal_ids_have_equal_values_on_all_sheets() {
    let wrong: Vec<&String> = FOUND.iter().flat_map(|one| &one.wrong).collect();
    assert!(wrong.is_empty(), "{}: {}", wrong.len(), wrong[0]);
    let said: usize = FOUND.iter().map(|one| one.said).sum();
    assert!(said > 20_000, "{said}");
}

/// `check` may refuse what was drawn (a wind that no camp stove stands, a cold that its rule set
/// does not know); most of it must be good, or nothing is tried.
#[test]
fn most_of_what_is_drawn_is_good() {
    let refused: Vec<&String> = FOUND
        .iter()
        .filter_map(|one| one.refused.as_ref())
        .collect();
    assert!(
        refused.len() * 3 <= FOUND.len(),
        "{}: {}",
        refused.len(),
        refused[0]
    );
}

#[test]
fn every_key_of_a_trip_file_is_drawn() {
    let mut known = BTreeSet::new();
    for kind in ["trip", "lesson"] {
        let schema = Command::new(env!("CARGO_BIN_EXE_leeside"))
            .args(["schema", kind])
            .output()
            .expect("the program runs");
        let schema = serde_json::from_slice(&schema.stdout).expect("JSON");
        known.extend(drawn::keys_of_schema(&schema));
    }
    let good = FOUND.iter().filter(|one| one.refused.is_none());
    let stated: BTreeSet<&String> = good.flat_map(|one| &one.keys).collect();
    let missing: Vec<&String> = known
        .iter()
        .filter(|key| !stated.contains(*key) && !NOT_DRAWN.iter().any(|one| key.starts_with(one)))
        .collect();
    assert!(known.len() > 150, "{}", known.len());
    assert!(missing.is_empty(), "{missing:?}");
}

/// Keys that are left out: those of a stove of one's own that another family needs (tests of gear
/// state them), and what means nothing where it stands.
const NOT_DRAWN: &[&str] = &[
    "stove.connection",
    "stove.liquid_feed",
    "stove.one_fill",
    "stove.refill_wait",
    "stove.least_gauge",
    "stove.regulated",
    "stove.warn_pot_above",
    "stove.source",
    "stove.geometry.diameter",
    // a meal is eaten once, and a drink does not simmer
    "menu.supper.times_a_day",
    "menu.breakfast.times_a_day",
    "menu.lunch.times_a_day",
    "menu.drinks.simmer",
];

/// Words of one id may be rounder here than there, but never another number: in each unit the
/// numbers agree to what the rounder one shows.
fn agree(words: &BTreeSet<String>) -> bool {
    let mut by_unit: BTreeMap<String, Vec<(f64, usize)>> = BTreeMap::new();
    for (value, decimals, unit) in words.iter().flat_map(|one| in_units(one)) {
        by_unit.entry(unit).or_default().push((value, decimals));
    }
    by_unit
        .values()
        .flat_map(|numbers| numbers.windows(2))
        .all(|pair| {
            let ((a, digits_a), (b, digits_b)) = (pair[0], pair[1]);
            (a - b).abs() <= 10_f64.powi(-(digits_a.min(digits_b) as i32))
        })
}

/// Words that speak of a thing, and whether the thing is there.
fn spoken_of(sheet: &Sheet, trip: &Trip) -> Vec<String> {
    if !matches!(sheet.name.as_str(), "kitchen-checklist" | "packing-list") {
        return Vec::new();
    }
    let of_sheet = |kitchen: &&Kitchen| {
        let name = sheet.kitchen.as_ref();
        name.is_none_or(|name| name.contains(kitchen.name.as_str()))
    };
    let kinds: Vec<FuelKind> = trip
        .kitchens
        .iter()
        .filter(of_sheet)
        .map(|one| one.fuel.kind)
        .collect();
    let stoves = !trip.without_flame();
    let burns = |of: &[FuelKind]| stoves && kinds.iter().any(|kind| of.contains(kind));
    let liquid = [FuelKind::WhiteGas, FuelKind::Kerosene];
    let camps = &trip.camps;
    let overnight = trip.kind == Kind::Trip;
    let there = [
        ("pump", burns(&liquid)),
        ("canister", burns(&[FuelKind::Canister])),
        ("valve", burns(&[FuelKind::Canister, liquid[0], liquid[1]])),
        (
            "snow",
            camps.iter().any(|camp| {
                camp.water_from == WaterFrom::Snow
                    || camp.place == "alpine-snow"
                    || camp.night < Temperature::celsius(0.0)
            }),
        ),
        ("tent", overnight),
        ("night", overnight),
        (
            "bear",
            camps
                .iter()
                .any(|camp| camp.rules.contains_key("food.storage")),
        ),
    ];
    let text = sheet.markdown.to_lowercase();
    // what would be otherwise: another stove, water from snow; and a pump that gives water
    let of_others = ["another stove", "if it changes", "tap, pump"];
    let lines = text.lines();
    let lines = lines.filter(|line| !of_others.iter().any(|one| line.contains(one)));
    let text = lines.collect::<Vec<_>>().join("\n");
    let words: BTreeSet<&str> = text.split(|sign: char| !sign.is_alphabetic()).collect();
    let spoken = there.iter().filter(|(word, there)| {
        !there && (words.contains(word) || words.contains(format!("{word}s").as_str()))
    });
    spoken
        .map(|(word, _)| {
            let line = text
                .lines()
                .find(|line| line.contains(word))
                .unwrap_or_default();
            format!("{}: {word} in \"{line}\"", sheet.name)
        })
        .collect()
}

#[test]
fn what_is_not_there_is_not_spoken_of() {
    let absent: BTreeSet<&String> = FOUND.iter().flat_map(|one| &one.absent).collect();
    let absent: Vec<&str> = absent.into_iter().map(String::as_str).collect();
    assert!(absent.is_empty(), "{}", absent.join("\n"));
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

/// Numbers with a unit that stand outside what a statement says, and what is round them.
fn unowned(sheet: &Sheet) -> Vec<(String, String)> {
    let mut found = Vec::new();
    each_run(&sheet.document.blocks, &mut |run| {
        let words = without_values(run);
        let hits = numbers_with_units(&words).into_iter();
        found.extend(hits.map(|(at, number)| {
            let whole = |at: &usize| words.is_char_boundary(*at);
            let start = (0..=at.saturating_sub(60)).rev().find(whole);
            let end = (at + number.len() + 40..=words.len()).find(whole);
            let around = &words[start.unwrap_or(0)..end.unwrap_or(words.len())];
            (number, around.to_owned())
        }));
    });
    found
}

fn without_values(run: &[Inline]) -> String {
    run.iter()
        .map(|inline| match inline {
            Inline::Said { .. } => "\u{2026}".to_owned(),
            // an address says nothing, whatever its digits look like
            Inline::Link { text, .. } if !plain(text).contains(' ') => "\u{2026}".to_owned(),
            Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
                without_values(inner)
            }
            other => plain(std::slice::from_ref(other)),
        })
        .collect()
}

#[test]
fn numbers_with_a_unit_are_owned_by_a_statement() {
    let mut by_sheet: BTreeMap<&String, BTreeSet<&String>> = BTreeMap::new();
    for (sheet, number) in FOUND.iter().flat_map(|one| &one.unowned) {
        by_sheet.entry(sheet).or_default().insert(number);
    }
    let wrong: Vec<String> = by_sheet
        .iter()
        .map(|(sheet, found)| {
            let lines: Vec<&str> = found.iter().map(|one| one.as_str()).collect();
            format!("{sheet}: {}\n  {}", lines.len(), lines.join("\n  "))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What is no statement though it holds a unit: names of containers and pots, and the titles under
/// which sources were published, which say nothing of this trip.
fn names_with_units(trip: &Trip, library: &Library) -> BTreeSet<String> {
    let containers = library.containers.values().map(|one| one.name.clone());
    let pots = trip.kitchens.iter().flat_map(|kitchen| &kitchen.pots);
    let pots = pots.map(|pot| pot.name());
    let titles = library.sources.values().map(|one| one.title.clone());
    let names = containers.chain(pots).chain(titles);
    names
        .flat_map(|name| numbers_with_units(&name))
        .map(|(_, words)| words)
        .collect()
}

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
