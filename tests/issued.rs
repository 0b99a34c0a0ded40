//! Fuel needed, issued and left is one ledger on every sheet; where nothing may be lit no sheet
//! speaks of it; what a lesson has not is not on its sheets.

use crate::support::content;
use leeside::compose::catalogue::text;
use leeside::compose::{Engine, Options, Sheet, Templates, compose};
use leeside::course::timetable;
use leeside::diag::{Outcome, report};
use leeside::nouns::{Library, Trip, file_name};
use leeside::plan::{self, Plan, issues};
use leeside::units::say;
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Templates)> =
    LazyLock::new(|| (content::library(), content::templates()));

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

fn made(name: &str, text: &str) -> (Trip, Plan, Vec<Sheet>) {
    let (library, templates) = &*BUILT_IN;
    let trip = content::trip(name, text, library);
    let planned = good(plan::plan(&trip, library));
    let planned = good(timetable::with_practice(&trip, library, planned));
    let engine = good(Engine::new(templates));
    let sheets = good(compose(
        &trip,
        &planned,
        library,
        &engine,
        &Options::default(),
    ));
    (trip, planned, sheets)
}

fn example(name: &str) -> String {
    let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("the example")
}

const TWO_LEGS: &str = "\
title: Copper saddle loop
starts: 2027-07-16
people:
  learners: 8
  instructors: 2
  youngest: 15
units: metric
kitchens:
  - name: Blue
    people: 5
    stove: canister beside
  - name: Red
    people: 5
    stove: white gas
water_treatment: filter
washing: three bowls with hot dip
resupply: Otter weir
canisters_on_hand:
  - tag: F-014
    size: 230 g
    gross: 291 g
    tare: 150 g
camps:
  - name: Larch hollow
    nights: 2
    elevation: 2500 m
  - name: Marmot bench
    nights: 1
    elevation: 2700 m
    place: desert river
  - name: Otter weir
    nights: 2
    elevation: 2600 m
";

const BAN: &str = "\
title: Larch hollow weekend
starts: 2027-07-16
people:
  learners: 6
  instructors: 2
  youngest: 13
  diet:
    - tree nuts, strict
stove: canister on top
water_treatment: filter
camps:
  - name: Larch hollow
    nights: 1
    elevation: 820 m
  - name: Otter weir
    nights: 2
    elevation: 1100 m
restrictions:
  stoves: no
  stage: total fire ban
  checked: 2027-07-14, district desk
";

/// The sheets of a name, or the one of a kitchen.
fn sheet<'a>(sheets: &'a [Sheet], name: &str, kitchen: Option<&str>) -> &'a Sheet {
    sheets
        .iter()
        .find(|one| {
            one.name == name && (one.kitchen.is_none() || one.kitchen.as_deref() == kitchen)
        })
        .unwrap_or_else(|| panic!("no sheet {name} of {kitchen:?}"))
}

#[test]
fn needed_and_issued_are_the_same_figures_on_every_sheet_and_leg() {
    for (name, text) in [
        ("two-legs.yaml", TWO_LEGS.to_owned()),
        ("kestrel-ten-days.yaml", example("kestrel-ten-days")),
        ("boathouse-evening.yaml", example("boathouse-evening")),
    ] {
        let (trip, planned, sheets) = made(name, &text);
        for (kitchen, of) in planned.kitchens.iter().zip(&trip.kitchens) {
            if kitchen.stays_cold {
                for sheet_name in ["briefing-sheet", "kitchen-checklist", "lesson-handout"] {
                    let text = &sheet(&sheets, sheet_name, Some(&of.name)).markdown;
                    let said = text.contains("no fuel: it is not lit in this lesson");
                    assert!(said, "{name} {sheet_name}: {}", of.name);
                }
                continue;
            }
            for issue in issues(&planned, kitchen) {
                assert!(issue.issued >= issue.needed, "{name}");
                let issued = format!("issued {}", say::fuel(issue.issued, trip.units));
                let needs = format!("needs {}", say::fuel(issue.needed, trip.units));
                for sheet_name in [
                    "briefing-sheet",
                    "packing-list",
                    "return-sheet",
                    "lesson-handout",
                ] {
                    let text = &sheet(&sheets, sheet_name, Some(&of.name)).markdown;
                    assert!(text.contains(&issued), "{name} {sheet_name}: {issued}");
                    assert!(text.contains(&needs), "{name} {sheet_name}: {needs}");
                }
                let card = &sheet(&sheets, "kitchen-checklist", Some(&of.name)).markdown;
                let starts = format!(
                    "{} in {} container",
                    say::fuel(issue.issued, trip.units),
                    issue.containers.len()
                );
                assert!(card.contains(&starts), "{name}: {starts}\n{card}");
                let back = &sheet(&sheets, "return-sheet", None).markdown;
                for one in issue.containers.iter().filter_map(|one| one.tag.as_ref()) {
                    assert!(back.contains(one.as_str()), "{name}: {one}");
                }
            }
        }
        // a line a container: as many on the return sheet as are handed out
        let handed: usize = planned
            .kitchens
            .iter()
            .flat_map(|kitchen| issues(&planned, kitchen))
            .map(|issue| issue.containers.len())
            .sum();
        let back = &sheet(&sheets, "return-sheet", None).markdown;
        let lines = back.matches("| [ ] | [ ] |").count();
        assert_eq!(lines, handed, "{name}\n{back}");
    }
}

#[test]
fn what_is_handed_out_on_the_way_is_not_in_the_bag() {
    let (_, _, sheets) = made("two-legs.yaml", TWO_LEGS);
    let list = &sheet(&sheets, "packing-list", Some("Red")).markdown;
    let (bag, drop) = list
        .split_once("Handed out at Otter weir, not in this bag")
        .expect("a part of its own");
    assert!(
        bag.contains("new 1 of") && drop.contains("Bottle"),
        "{list}"
    );
    // three bowls with a hot dip: a basin each and tongs, no sanitiser
    assert!(list.contains("**3** × Folding basin"), "{list}");
    assert!(list.contains("tongs for the hot dip"), "{list}");
    assert!(!list.contains("bleach"), "{list}");
    // each camp's own rule on wash water, and zero in words
    let briefing = &sheet(&sheets, "briefing-sheet", None).markdown;
    assert!(briefing.contains("into the main current"), "{briefing}");
    assert!(
        briefing.contains("no distance from the main current"),
        "{briefing}"
    );
}

/// A text as words with single spaces between and around them.
fn words(text: &str) -> String {
    let words: Vec<&str> = text
        .split(|sign: char| !sign.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    format!(" {} ", words.join(" ").to_lowercase())
}

/// Words of what is not there where nothing may be lit, but in the sentences that say so.
#[test]
fn where_no_stove_may_be_lit_no_sheet_has_one() {
    let (_, planned, sheets) = made("ban.yaml", BAN);
    for kitchen in &planned.kitchens {
        assert!(kitchen.rows.is_empty() && kitchen.containers.is_empty());
        assert!(kitchen.stability.is_none());
    }
    assert!(
        planned
            .comparison
            .iter()
            .all(|row| row.allowed == plan::Allowed::No)
    );
    let names: Vec<&str> = sheets.iter().map(|one| one.name.as_str()).collect();
    for gone in [
        "fuel-worksheet",
        "fuel-worksheet-key",
        "stove-choice",
        "shake-down",
    ] {
        assert!(!names.contains(&gone), "{names:?}");
    }
    let absent = [
        "lighter", "stove", "stoves", "canister", "burner", "valve", "fuel", "matches",
    ];
    for name in [
        "briefing-sheet",
        "kitchen-checklist",
        "packing-list",
        "return-sheet",
    ] {
        for one in sheets.iter().filter(|one| one.name == name) {
            let said = one
                .markdown
                .to_lowercase()
                .replace("no stove may be lit", "")
                .replace("light nothing at all", "")
                .replace("light sheet", "")
                .replace("water with fuel", "");
            for word in absent {
                assert!(
                    !words(&said).contains(&format!(" {word} ")),
                    "{name}: `{word}`\n{said}"
                );
            }
        }
        let told = sheets
            .iter()
            .filter(|one| one.name == name)
            .any(|one| one.markdown.contains("o stove may be lit"));
        assert!(
            told || name == "packing-list" || name == "return-sheet",
            "{name}"
        );
    }
    // a diet stated: food, reaction and a blank for who holds the plan
    for name in ["briefing-sheet", "kitchen-checklist", "lesson-plan"] {
        let text = &sheet(&sheets, name, None).markdown;
        assert!(text.contains("tree nuts, strict"), "{name}");
        assert!(text.contains("A reaction:"), "{name}");
        assert!(text.contains("Who holds plan and medicine: ____"), "{name}");
    }
}

#[test]
fn a_lesson_in_a_yard_has_no_nights_tents_or_snow() {
    let text = example("boathouse-evening");
    let (_, _, sheets) = made("boathouse-evening.yaml", &text);
    for name in ["kitchen-checklist", "briefing-sheet"] {
        for one in sheets.iter().filter(|one| one.name == name) {
            let said = one.markdown.to_lowercase().replace("day and night", "");
            for word in [
                "tent",
                "snow",
                " night",
                "outdoors |",
                "at outdoors",
                "whole trip",
                "bear",
            ] {
                let there = words(&said).contains(&format!(" {word} "));
                assert!(!there, "{name}: `{word}`\n{said}");
            }
        }
    }
    // an alcohol burner has no valve
    let card = sheet(&sheets, "kitchen-checklist", Some("Three"));
    assert!(!card.markdown.contains("valve"), "{}", card.markdown);
    let worksheet = sheet(&sheets, "fuel-worksheet", Some("One"));
    assert!(!worksheet.markdown.contains("at outdoors"));
    // the first thing to do about a burn is on each learner sheet that can hold it
    for name in ["briefing-sheet", "kitchen-checklist", "lesson-handout"] {
        let text = &sheet(&sheets, name, Some("One")).markdown;
        assert!(text.contains("cool running water now"), "{name}");
    }
}

#[test]
fn a_lesson_stands_on_its_land_and_a_stated_rule_replaces_the_places() {
    let text = example("boathouse-evening");
    let land = format!("{text}land: developed site\n");
    let (trip, _, sheets) = made("boathouse-evening.yaml", &land);
    assert_eq!(trip.camps[0].place, "developed-site");
    assert!(
        !sheet(&sheets, "lesson-handout", None)
            .markdown
            .contains("scatter it thinly")
    );
    let own = format!("{text}rules:\n  greywater:\n    method: down the kitchen sink\n");
    let (_, _, sheets) = made("boathouse-evening.yaml", &own);
    let card = &sheet(&sheets, "kitchen-checklist", Some("One")).markdown;
    assert!(card.contains("down the kitchen sink"), "{card}");
    assert!(card.contains("asks for no distance"), "{card}");
    assert!(!card.contains("61 m"), "{card}");
}

#[test]
fn a_lesson_takes_confidence() {
    let text = format!("{}confidence: 99%\n", example("boathouse-evening"));
    let (sure, _, _) = made("boathouse-evening.yaml", &text);
    assert!((sure.confidence.in_percent() - 99.0).abs() < 1e-9);
}

/// Letters as catalogues write them (memory: ALA-LC romanisation, German umlauts as two letters).
#[test]
fn names_that_differ_make_files_that_differ() {
    for (one, two) in [
        ("Änne", "Énne"),
        ("Ōtaki", "Ätaki"),
        ("Ветка", "Ёлка"),
        ("湖", "山"),
    ] {
        assert_ne!(file_name(one), file_name(two));
        assert!(!file_name(one).is_empty());
        assert!(
            file_name(one)
                .bytes()
                .all(|sign| sign.is_ascii_alphanumeric())
        );
    }
}

#[test]
fn every_word_for_a_fuel_means_the_same_everywhere() {
    let library = &BUILT_IN.0;
    for (word, fuel) in [
        ("gas", "canister-gas"),
        ("canister", "canister-gas"),
        ("paraffin", "kerosene"),
        ("alcohol", "ethanol"),
        ("tablets", "hexamine"),
        ("white gas", "white-gas"),
    ] {
        assert_eq!(
            library.fuel_called(word).map(|one| one.id.as_str()),
            Some(fuel),
            "{word}"
        );
    }
    assert_eq!(
        library.fuel_called("meths").map(|one| one.kind),
        library.fuel_called("alcohol").map(|one| one.kind)
    );
}

/// An open pot of five litres on a spirit burner in the wind gets nowhere near the boil.
const NEVER_BOILS: &str = "\
title: Windy shoulder
starts: 2027-07-16
people:
  learners: 6
  instructors: 2
  youngest: 15
units: metric
kitchens:
  - name: Blue
    people: 4
    stove: canister beside
  - name: Red
    people: 4
    stove: alcohol
    pots:
      - aluminium 5 L
    lid: no
    windscreen: none
water_treatment: filter
washing: three bowls with hot dip
camps:
  - name: Windy shoulder
    elevation: 2400 m
    nights: 2
    wind: windy
    night: -5 C
";

#[test]
fn a_kitchen_whose_pot_never_boils_says_so_and_what_it_takes() {
    let (_, planned, sheets) = made("never-boils.yaml", NEVER_BOILS);
    let red = &planned.kitchens[1];
    let stops = red.failing().next().and_then(|row| row.stops.as_ref());
    let remedy = text(&stops.expect("it never boils").remedy());
    for name in [
        "briefing-sheet",
        "kitchen-checklist",
        "lesson-handout",
        "packing-list",
        "return-sheet",
        "fuel-worksheet",
        "fuel-worksheet-key",
    ] {
        let text = &sheet(&sheets, name, Some("Red")).markdown;
        assert!(text.contains("will not boil: "), "{name}\n{text}");
        assert!(text.contains(&remedy), "{name}: {remedy}\n{text}");
        for nothing in [" 0 g", "+0 g", "**0 g"] {
            assert!(!text.contains(nothing), "{name}: `{nothing}`\n{text}");
        }
    }
    // five degrees more of cold stop the other kitchen's pot too: no fuel is saved by that
    let blue = &sheet(&sheets, "kitchen-checklist", Some("Blue")).markdown;
    assert!(
        blue.contains("colder a pot will not boil") && !blue.contains('\u{2212}'),
        "{blue}"
    );
}
