//! What a lesson plan tells the person who holds it: what is true of these adults, these stoves and
//! this hour. The rules are common practice, no source.

use crate::support::content;
use leeside::compose::{Engine, Options, Templates, compose};
use leeside::course::timetable;
use leeside::diag::{Outcome, report};
use leeside::nouns::Library;
use leeside::plan::{self, issues};
use leeside::units::Mass;
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Templates)> =
    LazyLock::new(|| (content::library(), content::templates()));

/// Two burners of alcohol, of which one is lit for all to watch; a shorter plan for rain.
const FEN: &str = "\
kind: lesson
title: Cocoa in the fen meadow
starts: 2027-05-19
units: metric
people:
  learners: 9
  instructors: 2
  youngest: 11
menu:
  supper:
    boil: 0.2 L
water_treatment: tap
place: outdoors
elevation: 20 m
day: 13 C
wind: breezy
stations:
  - name: Heron
    stove: alcohol
    windscreen: full
    pots:
      - aluminium 1 L
  - name: Otter
    stove: alcohol
    windscreen: full
    pots:
      - aluminium 1 L
course:
  minutes: 75
  starts: 16:00
  focus:
    - alcohol-stoves
  fallback:
    minutes: 75
    place: indoors
restrictions:
  stoves: yes
  stage: none
  checked: 2027-05-18, meadow warden
emergency:
  call: 555-0133
  nearest_help: warden's house, four minutes
";

/// A high saddle, three burners of which one is lit.
const SADDLE: &str = "\
kind: lesson
title: Supper on the saddle
starts: 2027-08-06
units: metric
people:
  learners: 13
  instructors: 3
  youngest: 16
menu:
  supper:
    boil: 0.45 L
water_treatment: boil
place: outdoors
elevation: 3250 m
day: 6 C
wind: breezy
stations:
  - name: Crag
    stove: white gas
    windscreen: full
    pots:
      - aluminium 2.5 L
  - name: Scree
    stove: white gas
    windscreen: full
    pots:
      - aluminium 2.5 L
course:
  minutes: 100
  starts: 12:30
  focus:
    - liquid-fuel-stoves
restrictions:
  stoves: yes
  stage: none
  checked: 2027-08-05, hut keeper
emergency:
  call: 555-0190
  nearest_help: hut, forty minutes down
";

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

fn example(name: &str) -> String {
    let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("the example")
}

/// The plan of a lesson and one of its sheets, as text.
fn made(text: &str, sheet: &str) -> (plan::Plan, String) {
    let (library, templates) = &*BUILT_IN;
    let trip = content::trip("lesson.yaml", text, library);
    let planned = good(plan::plan(&trip, library));
    let planned = good(timetable::with_practice(&trip, library, planned));
    let engine = good(Engine::new(templates));
    let options = Options {
        only: vec![sheet.to_owned()],
        ..Options::default()
    };
    let sheets = good(compose(&trip, &planned, library, &engine, &options));
    let made = sheets
        .iter()
        .find(|one| one.name == sheet)
        .expect("the sheet");
    (planned, made.markdown.clone())
}

fn lesson_plan(text: &str) -> String {
    made(text, "lesson-plan").1
}

/// The line of the plan that holds some words.
fn line<'t>(plan: &'t str, words: &str) -> &'t str {
    let mut lines = plan.lines();
    lines
        .find(|line| line.contains(words))
        .unwrap_or_else(|| panic!("no `{words}` in\n{plan}"))
}

#[test]
fn a_station_that_is_never_lit_gets_no_fuel() {
    for (text, lit) in [
        (example("boathouse-evening"), "One"),
        (FEN.to_owned(), "Heron"),
        (SADDLE.to_owned(), "Crag"),
    ] {
        let (planned, sheet) = made(&text, "lesson-plan");
        for kitchen in &planned.kitchens {
            let issued: Mass = issues(&planned, kitchen).iter().map(|one| one.issued).sum();
            let burns = kitchen.name == lit;
            assert_eq!(issued > Mass::ZERO, burns, "{}", kitchen.name);
            assert_eq!(kitchen.stays_cold, !burns, "{}", kitchen.name);
        }
        let said = line(&sheet, "No fuel for ");
        let cold = planned.kitchens.iter().filter(|one| one.stays_cold);
        assert!(cold.clone().count() > 0);
        for kitchen in cold {
            assert!(said.contains(&kitchen.name), "{said}");
        }
        let (_, briefing) = made(&text, "briefing-sheet");
        assert!(
            briefing.contains("no fuel: it is not lit in this lesson"),
            "{briefing}"
        );
    }
}

#[test]
fn nobody_is_promised_an_adult_who_is_not_there() {
    let alone = lesson_plan(&example("one-adult-one-stove"));
    let go = line(&alone, "**Go or no go**");
    assert!(go.contains("an adult at each flame. "), "{go}");
    assert!(alone.contains("**ON**, the adult at it"), "{alone}");
    let two = lesson_plan(&example("boathouse-evening"));
    let go = line(&two, "**Go or no go**");
    assert!(
        go.contains("one without a stove while anyone is away from it"),
        "{go}"
    );
    assert!(go.contains("wind under 8 m/s"), "{go}");
    // In its first flame eight of ten are away from it, and one of two adults is free.
    assert!(
        two.contains("each learner lights once; 1 adult has no stove"),
        "{two}"
    );
    assert!(two.contains("**ON**, both adults at it"), "{two}");
    let (_, risk) = made(&example("boathouse-evening"), "risk-assessment");
    assert!(!risk.contains("nobody is away from the flame"), "{risk}");
    // Of a lone adult others must know whom to call; gas needs no rest.
    let (_, risk) = made(&example("one-adult-one-stove"), "risk-assessment");
    assert!(risk.contains("two learners can say whom to call"), "{risk}");
    assert!(!risk.contains("is lit again only when cold"), "{risk}");
    let (_, risk) = made(FEN, "risk-assessment");
    assert!(risk.contains("is lit again only when cold"), "{risk}");
}

#[test]
fn before_the_first_flame_it_is_asked_again() {
    for text in [
        example("school-yard"),
        example("family-evening"),
        FEN.to_owned(),
    ] {
        let plan = lesson_plan(&text);
        let first = line(&plan, "| **ON**");
        assert!(first.contains("**Go?** [ ] wind under 8 m/s"), "{first}");
        let clock = plan.split("## Who is where").next().unwrap();
        assert_eq!(clock.matches("**Go?**").count(), 1, "{clock}");
    }
}

#[test]
fn minutes_in_hand_are_said() {
    let plan = lesson_plan(&example("school-yard"));
    assert!(plan.contains("Ends **15:55**, 5 min in hand;"), "{plan}");
    let full = lesson_plan(&example("half-hour-wash-water"));
    assert!(full.contains("Ends **19:30**; with"), "{full}");
}

#[test]
fn what_goes_first_is_not_what_the_lesson_is_for() {
    for name in ["school-yard", "family-evening"] {
        let plan = lesson_plan(&example(name));
        assert!(
            line(&plan, "| Break |").ends_with("| drop\u{a0}1 |"),
            "{plan}"
        );
        let flame = line(&plan, "**Go?**");
        assert!(flame.ends_with("last rounds first |"), "{flame}");
    }
    let plan = lesson_plan(&example("one-adult-one-stove"));
    assert!(
        line(&plan, "| Good flame, bad flame |").ends_with("| drop\u{a0}1 |"),
        "{plan}"
    );
    // Nobody is late for what begins two minutes after the start.
    let plan = lesson_plan(&example("half-hour-wash-water"));
    assert!(
        line(&plan, "| From dirty pot to dry ground |").ends_with("| keep |"),
        "{plan}"
    );
}

#[test]
fn a_shorter_plan_that_comes_too_late_is_not_offered() {
    let fen = lesson_plan(FEN);
    let go = line(&fen, "**Go or no go**");
    assert!(!go.contains("Stopped later"), "{go}");
    assert!(fen.contains("**If you move in later**"), "{fen}");
    let yard = lesson_plan(&example("school-yard"));
    assert!(line(&yard, "**Go or no go**").contains("start it by 15:25"));
}

#[test]
fn flames_are_told_from_rests() {
    let plan = lesson_plan(&example("family-evening"));
    let flame = line(&plan, "**Go?**");
    // Three turns of ten minutes, and between them two rests of eleven.
    assert!(flame.contains("**ON**, burns 30 of 52, 1 free"), "{flame}");
    let beside = line(&plan, "### 17:48 ");
    assert!(beside.contains("while burners rest"), "{beside}");
    assert!(
        line(&plan, "### 17:17 Good flame, bad flame").contains("beside the flame"),
        "{plan}"
    );
}

#[test]
fn height_is_told_where_it_changes_the_pot() {
    let high = lesson_plan(SADDLE);
    // By hand, ISO 2533 and the tables of saturated steam: 681 hPa at 3 250 m, and 89 °C.
    assert!(high.contains("At 3250 m water boils at 89 °C"), "{high}");
    assert!(!lesson_plan(FEN).contains("water boils at"));
}

#[test]
fn a_week_later_plan_and_sheet_ask_for_the_same() {
    for name in [
        "school-yard",
        "boathouse-evening",
        "candidates-three-days",
        "family-evening",
    ] {
        let plan = lesson_plan(&example(name));
        let (_, sheet) = made(&example(name), "week-later");
        let asked: Vec<&str> = sheet
            .lines()
            .filter_map(|line| {
                line.strip_prefix("| ")?
                    .strip_suffix(" | [ ] | [ ] | [ ] |")
            })
            .collect();
        assert!(asked.len() >= 4, "{sheet}");
        let said = line(&plan, "**A week later**");
        assert!(
            said.ends_with(&format!("{}.", asked.join("; "))),
            "{said}\n{asked:#?}"
        );
    }
}

#[test]
fn a_change_that_takes_no_more_fuel_is_not_a_figure() {
    let (library, templates) = &*BUILT_IN;
    let trip = content::trip("lesson.yaml", &example("family-evening"), library);
    let planned = good(plan::plan(&trip, library));
    let planned = good(timetable::with_practice(&trip, library, planned));
    let engine = good(Engine::new(templates));
    let options = Options {
        only: vec!["kitchen-checklist".to_owned()],
        ..Options::default()
    };
    let sheets = good(compose(&trip, &planned, library, &engine, &options));
    for sheet in &sheets {
        let changes = line(&sheet.markdown, "**If it changes**");
        assert!(!changes.contains("+0 g"), "{changes}");
        // Five degrees more to warm are within what the figures are rounded up to, for four people.
        assert!(changes.contains("Pear as planned"), "{changes}");
    }
}
