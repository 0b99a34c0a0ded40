//! `leeside list modules`: what each holds, which apply to a trip and why, how hard they read; and
//! `leeside list places`: whose rules they are and what of them is stale.

use crate::support::content;
use leeside::compose::said;
use leeside::nouns::{AppliesWhen, Library, Trip};
use leeside::{check, load};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

fn said(args: &[&str]) -> String {
    listed("modules", args)
}

fn listed(what: &str, args: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(["list", what])
        .args(args)
        .current_dir(ROOT)
        .output()
        .expect("the program runs");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).expect("text")
}

/// Rows of a table by the word they start with.
fn row<'t>(table: &'t str, first: &str) -> Vec<&'t str> {
    table
        .lines()
        .map(|line| line.split_whitespace().collect::<Vec<_>>())
        .find(|cells| cells.first() == Some(&first))
        .unwrap_or_else(|| panic!("no row `{first}` in\n{table}"))
}

#[test]
fn coverage_counts_what_the_library_holds() {
    let library = content::library();
    let table = said(&["--coverage"]);
    let heads = "module facts seen no source cautions items objectives critical questions what now segments drawings sources";
    assert_eq!(
        table
            .lines()
            .next()
            .unwrap()
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" "),
        heads
    );
    let mut all = BTreeSet::new();
    for module in library.modules.values() {
        let sources: BTreeSet<_> = module
            .facts
            .values()
            .flat_map(|fact| &fact.sources)
            .collect();
        let cells = row(&table, &module.id);
        let number = |at: usize| cells[at].parse::<usize>().unwrap();
        assert_eq!(number(1), module.facts.len(), "{}", module.id);
        assert_eq!(number(4), module.cautions.len(), "{}", module.id);
        assert_eq!(number(5), module.items.len(), "{}", module.id);
        assert_eq!(number(6), module.objectives.len(), "{}", module.id);
        assert_eq!(number(8), module.questions.len(), "{}", module.id);
        assert_eq!(number(10), module.segments.len(), "{}", module.id);
        assert_eq!(number(12), sources.len(), "{}", module.id);
        all.extend(sources);
        for objective in module.objectives.keys() {
            // what teaches it and what assesses it stand in its row
            let cells = row(&table, &format!("{}.{objective}", module.id));
            let taught = module
                .segments
                .iter()
                .find(|segment| segment.objectives.contains(objective));
            let asked = module
                .questions
                .iter()
                .find(|question| &question.objective == objective);
            for name in [&taught.unwrap().id, &asked.unwrap().id] {
                assert!(
                    cells.iter().any(|cell| cell.trim_end_matches(',') == name),
                    "{name} in {cells:?}"
                );
            }
        }
    }
    assert_eq!(row(&table, "all")[12], all.len().to_string());
}

#[test]
fn a_trip_has_each_module_with_its_reason() {
    let library = content::library();
    let table = said(&["--for", "content/trips/gull-strand.yaml"]);
    let path = Path::new(ROOT).join("content/trips/gull-strand.yaml");
    let trip = content::trip(
        "gull-strand.yaml",
        &fs::read_to_string(path).unwrap(),
        &library,
    );
    let mut both = BTreeSet::new();
    for module in library.modules.values() {
        let cells = row(&table, &module.id);
        let holds = module.applies.holds(&trip);
        assert_eq!(cells[1], if holds { "yes" } else { "no" }, "{}", module.id);
        assert!(cells.len() > 3, "{} has no reason: {cells:?}", module.id);
        both.insert(holds);
    }
    assert_eq!(both.len(), 2, "some apply and some do not");
    let why_not = row(&table, "cold-and-altitude").join(" ");
    assert_eq!(
        why_not,
        "cold-and-altitude no no night is below 5 °C, and no camp is above 2000 m"
    );
}

const TRIP: &str = "title: T
people:
  learners: 4
  youngest: 17
stove: white gas
water_treatment: filter
camps:
  - name: A
    nights: 1
    elevation: 1500 m
    night: 8 C
";

/// The built-in library, but for one module that applies when these conditions hold.
fn with_conditions(conditions: &str) -> Library {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("modules")).unwrap();
    fs::write(
        folder.path().join("modules/greywater.yaml"),
        format!("extends: greywater\napplies:\n{conditions}"),
    )
    .unwrap();
    let files = load::library(&[folder.path().to_owned()]).unwrap();
    check::library(&files).unwrap().0
}

/// Whether conditions hold, and why or why not, in words.
fn judged(when: &AppliesWhen, trip: &Trip) -> Result<String, String> {
    let verdict = when.judged(trip);
    let words = said::verdict(&verdict, trip.units);
    if verdict.is_ok() {
        Ok(words)
    } else {
        Err(words)
    }
}

#[test]
fn one_of_any_is_enough_beside_what_must_hold() {
    let any = "  any:\n    - colder_than: 5 C\n    - higher_than: 2000 m\n";
    let library = with_conditions(any);
    let when = &library.modules["greywater"].applies;
    let judge = |text: &str| judged(when, &content::trip("t.yaml", text, &library));
    let neither = judge(TRIP).unwrap_err();
    assert_eq!(
        neither,
        "no night is below 5 °C, and no camp is above 2000 m"
    );
    let cold = judge(&TRIP.replace("8 C", "-3 C")).unwrap();
    assert_eq!(cold, "nights below 5 °C at A");
    let high = judge(&TRIP.replace("1500 m", "2500 m")).unwrap();
    assert_eq!(high, "A is above 2000 m");

    let library = with_conditions(&format!("  people_from: 12\n{any}"));
    let when = &library.modules["greywater"].applies;
    let few = judged(
        when,
        &content::trip("t.yaml", &TRIP.replace("8 C", "-3 C"), &library),
    );
    assert_eq!(few.unwrap_err(), "fewer than 12 people");
}

/// A place of the user's own is told what other ground is told, without being named anywhere.
#[test]
fn a_place_of_ones_own_is_other_than_the_named_ones() {
    let library = content::library();
    let questions = &library.modules["greywater"].questions;
    let scatter = questions.iter().find(|one| one.id == "how-far").unwrap();
    let at = |place: &str| {
        let mut trip = content::trip("t.yaml", TRIP, &library);
        trip.camps[0].place = place.to_owned();
        judged(&scatter.applies, &trip)
    };
    assert!(at("our-own-hill").is_ok());
    assert_eq!(
        at("desert-river").unwrap_err(),
        "every camp is in desert-river or developed-site or alpine-snow"
    );
}

#[test]
fn no_learner_text_is_harder_than_grade_8() {
    let library = content::library();
    let table = said(&["--reading"]);
    for module in library.modules.values() {
        let cells = row(&table, &module.id);
        let number = |at: usize| cells[at].parse::<f64>().unwrap();
        let (words, sentences, syllables) = (number(1), number(2), number(3));
        // the published formula, worked from the counts beside it
        let grade = 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
        assert!((grade - number(4)).abs() < 0.006, "{cells:?}");
        assert!(grade <= 8.0, "{cells:?}");
        let hardest = check::reading(module).hardest.unwrap();
        assert!(module.whole_text()[hardest.byte..].len() > hardest.start.len());
    }
}

#[test]
fn the_built_in_content_gives_nothing_to_look_at() {
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .arg("check")
        .output()
        .expect("the program runs");
    assert!(output.status.success());
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(said.lines().count(), 1, "{said}");
}

/// What is due by a day is listed with its address, and what is not due is not.
#[test]
fn what_is_due_by_a_day_is_listed_with_its_address() {
    let library = content::library();
    let said = |day: &str| -> String {
        let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
            .args(["check", "--stale", day])
            .output()
            .expect("the program runs");
        assert!(output.status.success());
        String::from_utf8(output.stdout).unwrap()
    };
    let reviews = |text: &str| {
        text.lines()
            .filter(|line| line.split('\t').nth(1) == Some("module"))
            .count()
    };
    let (before, after) = (said("2026-11-21"), said("2031-01-01"));
    assert_eq!(reviews(&before), 0, "{before}");
    assert_eq!(reviews(&after), library.modules.len());
    for source in library.sources.values() {
        let row = after
            .lines()
            .find(|line| line.split('\t').nth(2) == Some(&source.id))
            .unwrap_or_else(|| panic!("{}", source.id));
        let address = source.url.as_ref().unwrap_or(&source.title);
        assert!(row.ends_with(address.as_str()), "{row}");
        // what nobody ever looked up is always due
        let never = source.seen.is_none();
        let listed = before
            .lines()
            .any(|line| line.split('\t').nth(2) == Some(&source.id));
        assert_eq!(listed, never, "{}", source.id);
    }
    let wrong = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(["check", "--stale", "soon"])
        .output()
        .expect("the program runs");
    assert!(!wrong.status.success());
}

#[test]
fn places_say_whose_rules_they_are_and_when_they_were_read() {
    let library = content::library();
    let table = listed("places", &[]);
    let mut countries = BTreeSet::new();
    for place in library.places.values() {
        let cells = row(&table, &place.id);
        let read: Vec<_> = place.rules.values().filter_map(|rule| rule.as_of).collect();
        let first = read.iter().min().expect("each place was read").to_string();
        assert!(cells.contains(&first.as_str()), "{}: {cells:?}", place.id);
        if let Some(country) = &place.country {
            // their land managers all count in metres
            assert_eq!(
                (cells[1], cells[2 + place.languages.len()]),
                (country.as_str(), "metric")
            );
            countries.insert(country);
        } else {
            assert_eq!(cells[1], place.rules.len().to_string(), "{}", place.id);
        }
    }
    assert!(countries.len() >= 18, "{countries:?}");
}

#[test]
fn a_place_is_stale_from_the_day_that_its_rules_are_too_old() {
    let library = content::library();
    let place = &library.places["norway"];
    let read = place
        .rules
        .values()
        .filter_map(|rule| rule.as_of)
        .min()
        .unwrap();
    let [last, first] = [1, 0].map(|less| read.plus_days(place.stale_after - less).to_string());
    let before = listed("places", &["--on", &last]);
    assert!(row(&before, "norway").contains(&"no"), "{before}");
    let then = listed("places", &["--on", &first]);
    assert!(!row(&then, "norway").contains(&"no"), "{then}");
    let due = then
        .lines()
        .find(|line| line.contains("norway fire.stoves: read"))
        .unwrap_or_else(|| panic!("what is stale in\n{then}"));
    // where it is read again
    assert!(due.contains("http"), "{due}");
    let trip = listed(
        "places",
        &[
            "--for",
            "content/trips/gull-strand.yaml",
            "--on",
            "2027-12-31",
        ],
    );
    assert!(
        trip.contains("sea-coast") && !trip.contains("norway"),
        "{trip}"
    );
}

/// A module is shown as it is taught: its facts told, nothing left in braces, each source named.
#[test]
fn a_module_and_a_place_are_shown_as_text() {
    let library = content::library();
    let show = |what: &str, id: &str| {
        let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
            .args(["show", what, id])
            .output()
            .expect("the program runs");
        (
            output.status.code(),
            String::from_utf8(output.stdout).unwrap(),
        )
    };
    for module in library.modules.values() {
        let (status, text) = show("module", &module.id);
        assert_eq!(status, Some(0), "{}", module.id);
        assert!(text.starts_with(&format!("# {}", module.title)), "{text}");
        for caution in &module.cautions {
            assert!(
                text.contains(&caution.signal.word().to_uppercase()),
                "{}",
                module.id
            );
        }
        for (id, fact) in &module.facts {
            assert!(text.contains(&format!("- {id}: ")), "{}: {id}", module.id);
            for code in &fact.sources {
                assert!(
                    text.contains(&format!("- {code}: ")),
                    "{}: {code}",
                    module.id
                );
            }
            assert!(
                !text.contains(&format!("{{{id}}}")),
                "{}: {id} is not told",
                module.id
            );
        }
    }
    for place in library.places.values() {
        let (status, text) = show("places", &place.id);
        assert_eq!(status, Some(0), "{}", place.id);
        assert!(
            place
                .rules
                .keys()
                .all(|key| text.contains(&format!("- {key}: "))),
            "{text}"
        );
    }
    assert_eq!(show("module", "graywater").0, Some(2));
}
