//! Sixty suppers on a full canister: the table of verdicts in DEVELOPERS.md is what the plan says.

use crate::support::content;
use leeside::nouns::*;
use leeside::plan::{Plan, plan};
use std::fmt::Write as _;

const AIR: [i32; 6] = [15, 10, 5, 0, -5, -10];
const BLENDS: [&str; 2] = ["propane 30, n-butane 70", "propane 30, isobutane 70"];

/// One supper of the usual menu from a full 230 g canister.
fn supper(library: &Library, people: u32, air: i32, blend: &str, wind: &str) -> Plan {
    let text = format!(
        "title: A supper\nunits: metric\npeople:\n  learners: {people}\n  instructors: 0\nstove: canister on top\n\
         pots:\n  - aluminium 2 L\nwater_treatment: filter\nspare: none\nmenu:\n  breakfast: cold\n  drinks: cold\n\
         canisters_on_hand:\n  - tag: A\n    size: 230 g\n    gross: 380 g\n    tare: 150 g\n    blend: {blend}\n\
         camps:\n  - name: Here\n    nights: 1\n    elevation: 0 m\n    day: {air} C\n    night: {air} C\n    \
         water: 5 C\n    wind: {wind}\n"
    );
    let trip = content::trip("supper", &text, library);
    plan(&trip, library).expect("a plan")
}

fn verdict(plan: &Plan) -> &'static str {
    let cold = &plan.kitchens[0].cold;
    assert_eq!(cold.len(), 1);
    cold[0].verdict.word()
}

/// The table as it stands in DEVELOPERS.md.
fn grid(library: &Library) -> String {
    let mut text = String::from("| blend | people |");
    for air in AIR {
        let _ = write!(text, " {air} C |");
    }
    text.push_str("\n|---|---:|---|---|---|---|---|---|\n");
    for blend in BLENDS {
        for people in 1..=5 {
            let _ = write!(text, "| {blend} | {people} |");
            for air in AIR {
                let calm = verdict(&supper(library, people, air, blend, "calm"));
                let breezy = verdict(&supper(library, people, air, blend, "breezy"));
                if calm == breezy {
                    let _ = write!(text, " {calm} |");
                } else {
                    let _ = write!(text, " {calm} / {breezy} |");
                }
            }
            text.push('\n');
        }
    }
    text
}

/// `UPDATE=1` writes it anew.
#[test]
fn the_verdicts_on_sixty_suppers_are_those_of_the_table() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/DEVELOPERS.md");
    let page = std::fs::read_to_string(path).expect("the page for developers");
    let grid = grid(&content::library());
    if std::env::var_os("UPDATE").is_some() {
        let start = page.find("| blend | people |").expect("the table");
        let end = start + page[start..].find("\n\n").expect("an end") + 1;
        let page = format!("{}{grid}{}", &page[..start], &page[end..]);
        std::fs::write(path, page).expect("written");
        return;
    }
    assert!(
        page.contains(&grid),
        "UPDATE=1 cargo test sixty_suppers writes\n{grid}"
    );
}
