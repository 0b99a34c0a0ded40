//! The forms of the fuel worksheet: what each asks for, and that its key answers it.

use crate::support::content;
use leeside::compose::{Engine, Options, Sheet, compose};
use leeside::diag::{Outcome, report};
use leeside::nouns::{Level, Library};
use leeside::{check, load, plan};
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Engine)> =
    LazyLock::new(|| (content::library(), good(Engine::new(&content::templates()))));

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

/// The forms of a trip, each with its key.
fn forms(name: &str, level: Option<Level>) -> Vec<(String, String)> {
    let (library, engine) = &*BUILT_IN;
    let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
    let written = good(load::trip_file(std::path::Path::new(&path)));
    let (trip, _) = good(check::trip(&written, library));
    let plan = good(plan::plan(&trip, library));
    let options = Options {
        only: ["fuel-worksheet", "fuel-worksheet-key"]
            .map(str::to_owned)
            .to_vec(),
        level,
        ..Options::default()
    };
    let sheets = good(compose(&trip, &plan, library, engine, &options));
    let (forms, keys): (Vec<Sheet>, Vec<Sheet>) = sheets
        .into_iter()
        .partition(|sheet| sheet.name == "fuel-worksheet");
    assert_eq!(forms.len(), keys.len());
    let pairs = forms.into_iter().zip(keys);
    pairs
        .map(|(form, key)| (form.markdown, key.markdown))
        .collect()
}

const TRIPS: [&str; 4] = [
    "quillback-ridge",
    "boathouse-evening",
    "kestrel-ten-days",
    "hoarfrost-basin",
];

#[test]
fn the_form_of_the_worksheet_follows_the_level() {
    const TABLE: &str = "## Look it up, then multiply";
    const LOSSES: &str = "## What is lost to the air";
    for name in TRIPS {
        for (form, key) in forms(name, Some(Level::Scout)) {
            assert!(form.contains(TABLE) && !form.contains(LOSSES), "{name}");
            assert!(!form.contains("| Line |"), "{name}: {form}");
            // `key: 2.4 x 22.39 = **53.7 g**`: its givens stand in the form's table, its result does not
            let sum = key
                .lines()
                .find(|line| line.contains(" x ") && line.contains("**. A gram"));
            let sum = sum.unwrap_or_else(|| panic!("{name}: no sum in\n{key}"));
            let (_, sum) = sum.split_once(": ").expect("a sum");
            let (givens, result) = sum.split_once(" = **").expect("a result");
            let (litres, a_litre) = givens.split_once(" x ").expect("a product");
            assert!(
                form.contains(&format!("| {litres} L | {a_litre} g |")),
                "{name}: {form}"
            );
            let number = |words: &str| words.parse::<f64>().expect("a number");
            let (result, _) = result.split_once(" g**").expect("grams");
            let product = number(litres) * number(a_litre);
            let rounded = (product - number(result)).abs();
            assert!(
                rounded <= 1.0 && rounded <= 0.006 * product,
                "{name}: {sum}"
            );
            assert!(
                !form.contains(&format!(" {result} g")),
                "{name} tells {result}"
            );
        }
        for (form, key) in forms(name, Some(Level::InstructorCandidate)) {
            assert!(form.contains(LOSSES) && !form.contains(TABLE), "{name}");
            let (_, losses) = key
                .split_once("### Heat lost to the air: ")
                .expect("worked");
            let last = losses
                .lines()
                .filter(|line| line.starts_with("| "))
                .take_while(|line| !line.starts_with("| 1 | Minutes"))
                .find(|line| line.contains("lost to the air"));
            let result = last
                .and_then(|line| line.rsplit(" | ").next())
                .expect("a result");
            let result = result.trim_end_matches(" |");
            assert!(key.contains(result));
            let (number, _) = result.split_once(' ').expect("a number and its unit");
            assert!(
                !form.contains(number),
                "{name}: the form tells {result}\n{form}"
            );
        }
        for (form, _) in forms(name, Some(Level::AdultBeginner)) {
            assert!(!form.contains(LOSSES) && !form.contains(TABLE), "{name}");
            assert!(form.contains("## Work out one meal"), "{name}");
        }
    }
    // what a file states holds where nothing is asked for; where it is silent the form is the leader's
    for (name, heading) in [
        ("three-stoves", TABLE),
        ("candidates-three-days", LOSSES),
        ("quillback-ridge", "## Work out one meal"),
    ] {
        let all = forms(name, None);
        assert!(!all.is_empty());
        assert!(all.iter().all(|(form, _)| form.contains(heading)), "{name}");
    }
}
