//! Which stove: what each family makes the party carry on the first day.

use super::Chart;
use super::bars::{Bar, drawn};
use crate::compose::catalogue::text;
use crate::compose::view::Inputs;
use crate::doc::Fill;
use crate::phrase::{Arg, Phrase, phrase};
use crate::plan::{Allowed, Carried, ComparisonRow};
use crate::units::{Mass, say};

/// Stoves, containers and fuel of each family that boils the trip's water; none where fewer than
/// two do.
#[must_use]
pub fn stoves(inputs: &Inputs<'_>) -> Option<Chart> {
    let rows: Vec<(&ComparisonRow, Carried)> = inputs
        .plan
        .comparison
        .iter()
        .filter_map(|row| row.carried.map(|carried| (row, carried)))
        .filter(|(_, carried)| carried.start > Mass::ZERO)
        .collect();
    if rows.len() < 2 {
        return None;
    }
    // fuel that is handed out on the way is not carried at the start
    let split = inputs.trip.resupply.is_none();
    let units = inputs.units;
    let named = |row: &ComparisonRow| match row.allowed {
        Allowed::Yes => row.stove_name.clone(),
        Allowed::No => ruled_out(row),
        Allowed::Unknown => text(&phrase!("chart-ask", stove = row.stove_name)),
    };
    let bars: Vec<Bar> = rows
        .iter()
        .map(|(row, carried)| {
            let (start, fuel) = (carried.start.in_grams(), carried.fuel.in_grams());
            let parts = if split {
                vec![
                    (fuel, Fill::White),
                    ((start - fuel).max(0.0), Fill::Hatched),
                ]
            } else {
                vec![(start, Fill::White)]
            };
            Bar {
                name: named(row),
                parts,
                words: say::load(carried.start, units),
            }
        })
        .collect();
    let lines = rows
        .iter()
        .map(|(row, carried)| {
            let of = |what: &str, words: String| {
                inputs.say(&format!("stove.{}.{}.{what}", row.stove, row.fuel), words)
            };
            let start = of("start", say::load(carried.start, units));
            if split {
                let fuel = of("fuel", say::load(carried.fuel, units));
                text(&phrase!(
                    "chart-carried",
                    stove = named(row),
                    start = start,
                    fuel = fuel
                ))
            } else {
                format!("{}: {start}", named(row))
            }
        })
        .collect();
    // what fills which part of a bar
    let key = [
        (Fill::White, text(&phrase!("chart-fuel"))),
        (Fill::Hatched, text(&phrase!("chart-stoves-containers"))),
    ];
    let (board, height) = drawn(&bars, if split { &key } else { &[] });
    Some(Chart::new(
        "stoves-at-the-start",
        text(&phrase!("chart-stoves")),
        phrase!("chart-stoves-about"),
        lines,
        board,
        height,
    ))
}

/// The name of a stove that is ruled out, and by what: the land manager, the cold or the wind.
fn ruled_out(row: &ComparisonRow) -> String {
    let why = match row.why.as_ref().map(Phrase::id) {
        Some("stove-too-cold") => "cold",
        Some("stove-may-not-boil" | "stove-may-not-boil-own") => "wind",
        Some("stove-never-boils" | "stove-never-boils-at-all") => "boil",
        _ => return text(&phrase!("chart-not-allowed", stove = row.stove_name)),
    };
    text(&phrase!(
        "chart-ruled-out",
        stove = row.stove_name,
        why = Arg::Word(why.to_owned())
    ))
}
