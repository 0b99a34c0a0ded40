//! The sheets that go along: what they say of the fire rule, of the place and of the cold is true of
//! this trip and of each of its camps.
//!
//! What is looked for is the trade's own: that an answer which nobody gave is no leave, that cool
//! water is for burns and snow is not, that white gas far below freezing freezes skin on touch
//! (common practice, no source; the cautions themselves cite theirs in the modules).

use crate::support::content;
use leeside::compose::{Engine, Options, Templates, compose};
use leeside::diag::report;
use leeside::nouns::{Library, Trip};
use leeside::plan::{self, Allowed, Plan};
use std::collections::BTreeMap;
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Templates)> =
    LazyLock::new(|| (content::library(), content::templates()));

/// A short trip, invented; the camps follow.
const HEAD: &str = "\
title: Osprey ledges
starts: 2027-08-06
units: metric
people:
  learners: 4
  instructors: 2
  youngest: 18
kitchens:
  - name: Blue
    people: 6
    stove: white gas
    windscreen: full
water_treatment: filter
";

const CAMPS: &str = "\
camps:
  - name: Lower meadow
    nights: 2
    elevation: 900 m
  - name: Tarn bench
    nights: 2
    elevation: 1500 m
";

/// A trip with further lines, read as the commands read it.
fn trip(further: &str) -> Trip {
    content::trip("osprey.yaml", &format!("{HEAD}{further}"), &BUILT_IN.0)
}

/// A trip of the examples.
fn example(name: &str) -> String {
    let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("an example")
}

fn planned(trip: &Trip) -> Plan {
    plan::plan(trip, &BUILT_IN.0).unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

/// The sheets of a trip as running text, by their files' names.
fn sheets(trip: &Trip) -> BTreeMap<String, String> {
    let engine = Engine::new(&BUILT_IN.1).expect("the templates");
    let sheets = compose(
        trip,
        &planned(trip),
        &BUILT_IN.0,
        &engine,
        &Options::default(),
    )
    .unwrap_or_else(|problems| panic!("{}", report(&problems)));
    let told = sheets.iter().map(|sheet| {
        let words = sheet.markdown.replace('\u{a0}', " ");
        let words: Vec<&str> = words.split_whitespace().collect();
        (sheet.file_stem(), words.join(" "))
    });
    told.collect()
}

const BRIEFING: &str = "briefing-sheet";
const CARD: &str = "kitchen-checklist";
const CHOICE: &str = "stove-choice";

/// Whether a sheet says this, which it must, or must not.
fn says(sheets: &BTreeMap<String, String>, sheet: &str, words: &str, it_does: bool) {
    let found = sheets.iter().filter(|(name, _)| name.starts_with(sheet));
    let mut any = false;
    for (name, text) in found {
        any = true;
        assert_eq!(text.contains(words), it_does, "{name}: `{words}`\n{text}");
    }
    assert!(any, "no {sheet}");
}

#[test]
fn a_stage_without_an_answer_on_stoves_clears_nothing() {
    let told = sheets(&trip(&format!(
        "{CAMPS}restrictions:\n  stage: stage 1\n  checked: 2027-08-04, forest desk\n"
    )));
    says(&told, BRIEFING, "not known, so nothing is cleared", true);
    says(
        &told,
        BRIEFING,
        "Stage: stage 1 (checked: 2027-08-04, forest desk)",
        true,
    );
    says(
        &told,
        BRIEFING,
        "which stoves may be lit is not known",
        true,
    );
    says(
        &told,
        "lesson-handout",
        "which stoves may be lit is not known",
        true,
    );
    let told = sheets(&trip(&format!(
        "{CAMPS}restrictions:\n  stoves: yes\n  checked: 2027-08-04, forest desk\n"
    )));
    says(&told, BRIEFING, "not known", false);
}

#[test]
fn a_fire_rule_that_ends_on_the_way_is_said_with_its_first_open_day() {
    let asked = "restrictions:\n  stoves: yes\n  checked: 2027-08-04, forest desk\n  until: ";
    let open = "from 2027-08-09 on not known, so nothing is cleared";
    let told = sheets(&trip(&format!("{CAMPS}{asked}2027-08-08\n")));
    for sheet in [BRIEFING, CARD, CHOICE, "lesson-handout"] {
        says(&told, sheet, open, true);
    }
    let told = sheets(&trip(&format!("{CAMPS}{asked}2027-08-10\n")));
    for sheet in [BRIEFING, CARD, CHOICE] {
        says(&told, sheet, "not known, so nothing", false);
    }
}

#[test]
fn a_camp_where_no_stove_may_be_lit_eats_cold_and_takes_no_fuel() {
    let asked = "restrictions:\n  stoves: yes\n  checked: 2027-08-04, forest desk\n";
    let whole = trip(&format!("{CAMPS}{asked}"));
    let dark = trip(&format!(
        "{CAMPS}    rules:\n      fire:\n        stoves: none, total ban\n{asked}"
    ));
    assert!(dark.camps[1].no_stove && !dark.camps[0].no_stove);
    let (all, half) = (planned(&whole), planned(&dark));
    assert!(half.kitchens[0].rows.iter().all(|row| row.camp == 0));
    assert!(half.kitchens[0].fuel.likely < all.kitchens[0].fuel.likely);
    // what a changed trip asks is asked of the lit camp only
    let more = plan::changes_on_the_way(&dark, &half);
    for change in plan::changes(&dark, &BUILT_IN.0, &half, &more) {
        assert!(
            change.kitchens.iter().all(|one| one.troubles.is_empty()),
            "{change:?}"
        );
    }
    let told = sheets(&dark);
    let words = "no stove may be lit at Tarn bench (none, total ban)";
    for sheet in [BRIEFING, CARD, CHOICE, "lesson-handout"] {
        says(&told, sheet, words, true);
    }
    says(&sheets(&whole), CARD, "no stove may be lit", false);
}

#[test]
fn a_kitchen_on_snow_is_told_what_snow_asks() {
    let text = example("hoarfrost-basin");
    let snow = content::trip("hoarfrost-basin.yaml", &text, &BUILT_IN.0);
    let told = sheets(&snow);
    for words in [
        "Mark clean snow",
        "Set stove and fuel on a board",
        "Snow on top of some water, lid on; melt to drink first, it cools burns too",
        "a closed bottle of water for the morning",
        "spilt fuel freezes skin",
        "**Snow to drink:**",
        "An avalanche slope",
    ] {
        says(&told, CARD, words, true);
    }
    // there is no water to stand by before anything is melted
    says(&told, CARD, "of water for burns beside", false);
    for sheet in [BRIEFING, "lesson-handout"] {
        says(&told, sheet, "An avalanche slope", true);
    }
    for mild in ["lantern-sands", "gull-strand"] {
        let text = example(mild);
        let told = sheets(&content::trip("mild.yaml", &text, &BUILT_IN.0));
        for sheet in [BRIEFING, CARD, "lesson-handout"] {
            says(&told, sheet, "valanche", false);
        }
        says(&told, CARD, "All water from snow", false);
        says(&told, CARD, "of water for burns beside", true);
        says(&told, BRIEFING, "**Tide**", mild == "gull-strand");
    }
}

#[test]
fn wash_water_is_so_far_from_what_is_named() {
    let named = [
        (
            "hoarfrost-basin",
            "from water, routes, camps and the snow that is melted for drinking",
        ),
        (
            "lantern-sands",
            "never side streams, springs, eddies or the beach",
        ),
    ];
    for (name, words) in named {
        let told = sheets(&content::trip("one.yaml", &example(name), &BUILT_IN.0));
        for sheet in [BRIEFING, CARD, "lesson-handout"] {
            says(&told, sheet, words, true);
        }
    }
    // another river of the same kind, whose permit nobody has stated
    let river = "camps:\n  - name: Cottonwood bar\n    nights: 1\n    elevation: 900 m\n    place: desert river\n";
    let told = sheets(&trip(river));
    for sheet in [BRIEFING, CARD] {
        says(&told, sheet, "by this river's permit only", true);
        says(&told, sheet, "91 m (verify) away", true);
    }
    says(&told, BRIEFING, "asks for no distance", false);
}

#[test]
fn in_bear_country_the_food_is_apart_where_meals_are_cold_too() {
    let camps = "camps:\n  - name: Cottonwood bar\n    nights: 1\n    elevation: 900 m\n    place: bear country\n";
    for restrictions in [
        "",
        "restrictions:\n  stoves: no\n  checked: 2027-08-04, desk\n",
    ] {
        let told = sheets(&trip(&format!("{camps}{restrictions}")));
        says(
            &told,
            CARD,
            "Keep tents, kitchen and food store 91 m apart",
            true,
        );
        says(&told, CARD, "Food and scraps by dark: ", true);
        says(&told, BRIEFING, "hundred yards", false);
    }
    let told = sheets(&trip(&format!(
        "{camps}restrictions:\n  stoves: no\n  checked: 2027-08-04, desk\n"
    )));
    for packed in [
        "Food for every meal that needs no flame",
        "Lamp to hang",
        "Clean cloths",
    ] {
        says(&told, "packing-list", packed, true);
    }
}

#[test]
fn a_windscreen_is_packed_where_the_fuel_is_worked_with_one() {
    let with = |screen: &str| {
        let text = format!("{HEAD}{CAMPS}").replace("full", screen);
        let text = text.replace("white gas", "canister on top");
        sheets(&content::trip("osprey.yaml", &text, &BUILT_IN.0))
    };
    let (none, some) = (with("none"), with("partial"));
    says(&none, "packing-list", "Windscreen with pegs", false);
    says(&none, CARD, "No windscreen here: cook in the lee", true);
    says(&none, CARD, "Screen the windward side", false);
    says(&some, "packing-list", "Windscreen with pegs", true);
    says(&some, CARD, "Screen the windward side", true);
}

#[test]
fn a_stove_that_the_table_rules_out_is_not_what_another_takes() {
    for name in ["hoarfrost-basin", "quillback-ridge", "three-stoves"] {
        let trip = content::trip("one.yaml", &example(name), &BUILT_IN.0);
        let plan = planned(&trip);
        let told = sheets(&trip);
        says(&told, CHOICE, "another stove (", false);
        for row in plan
            .comparison
            .iter()
            .filter(|row| row.allowed == Allowed::No)
        {
            for sheet in [BRIEFING, CHOICE, "fuel-worksheet"] {
                says(
                    &told,
                    sheet,
                    &format!("another stove ({})", row.stove_name),
                    false,
                );
            }
        }
    }
}

#[test]
fn ours_is_judged_with_its_own_pot() {
    // the large pot of the one kitchen never boils on the other's burner
    let text = format!("{HEAD}{CAMPS}")
        .replace("learners: 4", "learners: 6")
        .replace(
            "    windscreen: full\n",
            "    windscreen: full\n    pots: [aluminium 8 L]\n  - name: Wren\n    people: 2\n    \
             stove: alcohol\n    windscreen: full\n    pots: [aluminium 1 L]\n",
        );
    let trip = content::trip("osprey.yaml", &text, &BUILT_IN.0);
    let plan = planned(&trip);
    let row = |name: &str| {
        let found = plan.comparison.iter().find(|row| row.stove.contains(name));
        found.expect("a row")
    };
    assert!(plan.kitchens[1].boils());
    assert_ne!(
        row("alcohol").allowed,
        Allowed::No,
        "{:?}",
        row("alcohol").why
    );
    assert_eq!(row("tablet").allowed, Allowed::No);
}

#[test]
fn who_only_chose_a_diet_is_not_told_of_adrenaline() {
    let with = |diet: &str| {
        let text = format!("{HEAD}{CAMPS}").replace(
            "  youngest: 18\n",
            &format!("  youngest: 18\n  diet: [{diet}]\n"),
        );
        sheets(&content::trip("osprey.yaml", &text, &BUILT_IN.0))
    };
    says(&with("vegetarian"), BRIEFING, "adrenaline", false);
    for diet in ["tree nuts", "vegetarian, gluten", "no idea yet"] {
        says(&with(diet), BRIEFING, "adrenaline", true);
    }
}

#[test]
fn a_burner_that_cannot_be_turned_down_is_not_told_to() {
    let with = |stove: &str| {
        let text = format!("{HEAD}{CAMPS}").replace("white gas", stove);
        sheets(&content::trip("osprey.yaml", &text, &BUILT_IN.0))
    };
    says(&with("white gas"), CARD, "flame down at the boil", true);
    let alcohol = with("alcohol");
    says(&alcohol, CARD, "flame down at the boil", false);
    says(&alcohol, "packing-list", "Pot cosy", true);
}
