//! Fuel by use, and which input to measure first.

use super::Chart;
use super::bars::{Bar, drawn};
use crate::compose::view::{Inputs, OneKitchen};
use crate::compose::words;
use crate::doc::Fill;
use crate::units::{Mass, say};

/// More bars than this are gathered by camp.
const MOST_BARS: usize = 14;

/// What fills which part of a bar.
const KEY: [(Fill, &str); 3] = [
    (Fill::White, "to heat and cook"),
    (Fill::Hatched, "to melt snow"),
    (Fill::Black, "to light the stove"),
];

/// Fuel of one use, all times together.
#[derive(Clone, Default)]
struct Use {
    name: String,
    all: Mass,
    melt: Mass,
    light: Mass,
}

/// A kitchen's fuel by camp and meal, as likely and before spill; none where nothing burns.
#[must_use]
pub fn uses(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Option<Chart> {
    let by_camp = one.plan.rows.len() > MOST_BARS;
    let one_camp = inputs.plan.camps.len() == 1;
    let mut all: Vec<Use> = Vec::new();
    for row in &one.plan.rows {
        let camp = &inputs.plan.camps[row.camp].name;
        let name = if by_camp {
            camp.clone()
        } else if one_camp {
            words::capital(row.meal.word())
        } else {
            format!("{camp}, {}", row.meal.word())
        };
        let times = f64::from(row.times);
        let useful = row.heat.useful.in_kilojoules();
        let melting = if useful > 0.0 {
            (row.heat.melt.in_kilojoules() / useful).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let light = row.to_light.min(row.fuel);
        let mine = Use {
            name,
            all: row.fuel * times,
            melt: (row.fuel - light) * melting * times,
            light: light * times,
        };
        match all.iter_mut().find(|other| other.name == mine.name) {
            Some(other) => {
                other.all += mine.all;
                other.melt += mine.melt;
                other.light += mine.light;
            }
            None => all.push(mine),
        }
    }
    all.retain(|one| one.all > Mass::ZERO);
    if all.is_empty() {
        return None;
    }
    let grams = |mass: Mass| format!("{} g", say::number(mass.in_grams(), 0));
    let bars: Vec<Bar> = all
        .iter()
        .map(|one| Bar {
            name: one.name.clone(),
            parts: vec![
                (
                    (one.all - one.melt - one.light).in_grams().max(0.0),
                    Fill::White,
                ),
                (one.melt.in_grams(), Fill::Hatched),
                (one.light.in_grams(), Fill::Black),
            ],
            words: say::fuel(one.all, inputs.units),
        })
        .collect();
    let lines = all
        .iter()
        .map(|one| {
            let mut parts = Vec::new();
            if one.melt > Mass::ZERO {
                parts.push(format!("{} to melt snow", grams(one.melt)));
            }
            if one.light > Mass::ZERO {
                parts.push(format!("{} to light the stove", grams(one.light)));
            }
            let of_it = if parts.is_empty() {
                String::new()
            } else {
                format!(", of it {}", words::list(&parts))
            };
            format!("{}: {}{of_it}", one.name, say::fuel(one.all, inputs.units))
        })
        .collect();
    let key: Vec<(Fill, &str)> = KEY
        .into_iter()
        .filter(|(fill, _)| {
            let used = |bar: &Bar| bar.parts.iter().any(|(size, of)| of == fill && *size > 0.0);
            bars.iter().any(used)
        })
        .collect();
    let (board, height) = drawn(&bars, &key);
    Some(Chart::new(
        "fuel-by-use",
        format!(
            "Fuel by use, {}: likely need of all nights, before spill.",
            one.kitchen.name
        ),
        "Bars of the fuel for each use.",
        lines,
        board,
        height,
    ))
}

/// The inputs by their share of the spread, largest first; none without a spread.
#[must_use]
pub fn spread(one: OneKitchen<'_>) -> Option<Chart> {
    let shares: Vec<(&str, f64)> = one
        .plan
        .fuel
        .spread
        .iter()
        .map(|one| (said(one.input), one.share * 100.0))
        .filter(|(_, percent)| *percent >= 0.5)
        .collect();
    let (first, _) = shares.first()?;
    let bars: Vec<Bar> = shares
        .iter()
        .map(|(name, percent)| Bar {
            name: (*name).to_owned(),
            parts: vec![(*percent, Fill::Hatched)],
            words: format!("{}%", say::number(*percent, 0)),
        })
        .collect();
    let lines = bars
        .iter()
        .map(|bar| format!("{}: {} of the spread", bar.name, bar.words))
        .collect();
    let caption = format!("What to measure first: {first}.");
    let (board, height) = drawn(&bars, &[]);
    Some(Chart::new(
        "measure-first",
        caption,
        "Bars of the share of the spread that each uncertain input causes.",
        lines,
        board,
        height,
    ))
}

/// An input as a cook calls it.
fn said(input: &'static str) -> &'static str {
    match input {
        "efficiency" => "efficiency of your stove",
        "wind" => "wind at the stove",
        "water" => "temperature of the water",
        "amount" => "amount of water used",
        "spill" => "fuel spilt",
        other => other,
    }
}
