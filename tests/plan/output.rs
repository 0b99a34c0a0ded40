//! What `plan` prints: the pinned keys of the JSON, the table, cautions and rules of real content.

use crate::support::content;
use crate::support::trips::*;
use leeside::compose::numbers::{caution, json, table};
use leeside::nouns::*;
use leeside::plan::plan;
use leeside::units::*;
use serde_json::Value;

const QUILLBACK: &str = include_str!("../../content/trips/quillback-ridge.yaml");

fn member<'a>(value: &'a Value, path: &str) -> &'a Value {
    path.split('.').fold(value, |value, key| {
        let found = match key.parse::<usize>() {
            Ok(index) => value.get(index),
            Err(_) => value.get(key),
        };
        found.unwrap_or_else(|| panic!("no `{key}` of `{path}`"))
    })
}

#[test]
fn every_pinned_key_of_the_json_is_there_with_its_kind() {
    let library = content::library();
    let trip = content::trip("quillback-ridge.yaml", QUILLBACK, &library);
    let json = json(&plan(&trip, &library).expect("a plan"), &trip, &library);
    assert_eq!(member(&json, "format"), "leeside-plan/1");
    assert_eq!(member(&json, "kind"), "trip");
    for path in [
        "people",
        "camps.0.nights",
        "camps.0.elevation_m",
        "camps.0.pressure_kpa",
        "camps.0.boiling_c",
        "kitchens.0.people",
        "kitchens.0.meals.0.times",
        "kitchens.0.meals.0.water_l",
        "kitchens.0.meals.0.batches",
        "kitchens.0.meals.0.heat_kj.water",
        "kitchens.0.meals.0.heat_kj.pot",
        "kitchens.0.meals.0.heat_kj.melt",
        "kitchens.0.meals.0.heat_kj.simmer",
        "kitchens.0.meals.0.heat_kj.useful",
        "kitchens.0.meals.0.efficiency",
        "kitchens.0.meals.0.fuel_g",
        "kitchens.0.meals.0.minutes",
        "kitchens.0.fuel.heating_value_mj_per_kg",
        "kitchens.0.fuel.likely_g",
        "kitchens.0.fuel.at_confidence_g",
        "kitchens.0.fuel.spare_g",
        "kitchens.0.fuel.carry_g",
        "kitchens.0.fuel.grams_per_person_day",
        "kitchens.0.fuel.spread.0.share",
        "greywater.0.litres_per_day",
        "greywater.0.distance_m",
        "greywater.0.steps",
    ] {
        assert!(member(&json, path).is_number(), "{path}");
    }
    for path in [
        "title",
        "camps.0.name",
        "camps.0.wind",
        "kitchens.0.name",
        "kitchens.0.stove",
        "kitchens.0.meals.0.camp",
        "kitchens.0.meals.0.meal",
        "kitchens.0.fuel.kind",
        "kitchens.0.fuel.spread.0.input",
        "greywater.0.camp",
        "greywater.0.method",
        "rules.0.camp",
        "rules.0.rule",
        "rules.0.value",
        "rules.0.from",
        "assumed.0.what",
        "assumed.0.value",
        "assumed.0.why",
        "cautions.0.signal",
        "cautions.0.module",
        "cautions.0.text",
    ] {
        assert!(member(&json, path).is_string(), "{path}");
    }
    assert_eq!(member(&json, "kitchens.0.fuel.kind"), "white-gas");
    // 200 ft in steps of 0.76 m (the arithmetic of the greywater line), a begun step counted whole.
    assert_eq!(member(&json, "greywater.0.steps"), 81);
    assert!((member(&json, "greywater.0.distance_m").as_f64().unwrap() - 60.96).abs() < 1e-9);
    // spare = carry - likely, to the last digit that is printed.
    let fuel = member(&json, "kitchens.0.fuel");
    let grams = |key: &str| fuel[key].as_f64().unwrap();
    assert!((grams("carry_g") - grams("likely_g") - grams("spare_g")).abs() < 1e-9);
}

#[test]
fn what_is_not_worked_out_is_absent() {
    let mut lesson = trip(
        vec![camp("Boathouse", 0, 310.0)],
        vec![kitchen(5, Family::WhiteGas, vec![pot(3.0, None)])],
    );
    lesson.kind = Kind::Lesson;
    let library = library();
    let json = json(&plan(&lesson, &library).expect("a plan"), &lesson, &library);
    assert_eq!(json["greywater"], Value::Array(Vec::new()));
    assert_eq!(
        json["kitchens"][0]["fuel"]["legs"].as_array().map(Vec::len),
        Some(1)
    );
    assert_eq!(json["camps"][0]["nights"], 0);
}

#[test]
fn the_same_trip_gives_the_same_bytes() {
    let library = content::library();
    let trip = content::trip("quillback-ridge.yaml", QUILLBACK, &library);
    let print = || json(&plan(&trip, &library).expect("a plan"), &trip, &library).to_string();
    let first = print();
    assert_eq!(first, print());
    let elsewhere = std::thread::scope(|scope| scope.spawn(print).join().expect("a thread"));
    assert_eq!(first, elsewhere);
}

#[test]
fn the_table_says_it_in_the_readers_units_and_never_breaks_a_line_for_a_name() {
    let mut trip = one_night();
    trip.title = "Two\nlines \u{1b}[31m".to_owned();
    trip.camps[0].name = "A\ncamp".to_owned();
    let plan = plan(&trip, &library()).expect("a plan");
    let told = |units: Units, working: bool| {
        let trip = Trip {
            units,
            ..trip.clone()
        };
        table(&plan, &trip, &library(), working)
    };
    let metric = told(Units::Metric, true);
    assert!(metric.starts_with("Two lines"));
    assert!(!metric.contains('\u{1b}') && metric.contains("A camp"));
    assert!(metric.contains("2500 m") && metric.contains("Fuel: likely"));
    assert!(metric.contains("4.186 x"), "the working is shown");
    assert!(metric.lines().all(|line| line.chars().count() <= 130));
    let us = told(Units::Us, false);
    assert!(us.contains("8202 ft") && us.contains("oz)"));
    assert!(!us.contains("4.186 x"));
}

#[test]
fn rules_of_the_trip_come_before_those_of_the_place() {
    let library = content::library();
    let text = QUILLBACK.replacen(
        "nights: 1\n",
        "nights: 1\n    rules:\n      greywater:\n        distance: 100 m\n",
        1,
    );
    let trip = content::trip("quillback-ridge.yaml", &text, &library);
    let plan = plan(&trip, &library).expect("a plan");
    let first = &plan.greywater[0];
    assert_eq!(
        (first.distance.in_metres(), first.from.as_str()),
        (100.0, "trip")
    );
    // 100 m / 0.76 m = 131.6.
    assert_eq!(first.steps, 132);
    assert!((plan.greywater[1].distance.in_metres() - 60.96).abs() < 1e-9);
}

#[test]
fn cautions_come_gravest_first_with_their_facts_filled_in() {
    let library = content::library();
    let trip = content::trip("quillback-ridge.yaml", QUILLBACK, &library);
    let plan = plan(&trip, &library).expect("a plan");
    let signals: Vec<Signal> = plan.cautions.iter().map(|caution| caution.signal).collect();
    assert!(signals.is_sorted() && signals.len() > 10);
    for one in &plan.cautions {
        let text = caution(&trip, &library, one);
        assert!(
            !text.is_empty() && !text.contains(['{', '}', '*']),
            "{text}"
        );
    }
    // Not stated is not known, never allowed.
    assert!(
        plan.cautions
            .iter()
            .any(|caution| caution.id == "fire-rule-unknown")
    );
    let applied: Vec<&str> = plan
        .modules
        .iter()
        .filter(|module| module.verdict.is_ok())
        .map(|module| module.id.as_str())
        .collect();
    for caution in plan
        .cautions
        .iter()
        .filter(|caution| caution.module != "plan")
    {
        assert!(
            applied.contains(&caution.module.as_str()),
            "{}",
            caution.module
        );
    }
}

#[test]
fn the_plan_speaks_up_for_wind_alcohol_adults_and_old_rules() {
    let said = |trip: &Trip, library: &Library, id: &str| {
        plan(trip, library)
            .expect("a plan")
            .cautions
            .iter()
            .any(|caution| caution.module == "plan" && caution.id.starts_with(id))
    };
    let library = library();
    let mut windy = one_night();
    windy.kitchens[0].screen = Screen::None;
    assert!(!said(&windy, &library, "will-not-boil"));
    windy.camps[0].wind = Wind::Windy;
    assert!(said(&windy, &library, "will-not-boil"));

    let many = trip(
        vec![camp("Camp", 1, 1000.0)],
        vec![kitchen(5, Family::Alcohol, vec![pot(1.5, None)])],
    );
    assert!(said(&many, &library, "fills"));

    let mut young = one_night();
    young.people.youngest = Some(13);
    assert!(said(&young, &library, "adults"));
    young.people.instructors = 1;
    assert!(!said(&young, &library, "adults"));

    let content = content::library();
    let later = format!(
        "starts: 2029-06-01\n{}",
        QUILLBACK.replace("starts:", "# starts:")
    );
    let trip = content::trip("quillback-ridge.yaml", &later, &content);
    assert!(said(&trip, &content, "stale-rules"));
}
