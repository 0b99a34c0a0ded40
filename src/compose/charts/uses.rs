//! Fuel by use, and which input to measure first.

use super::Chart;
use super::bars::{Bar, drawn};
use crate::compose::view::{Inputs, OneKitchen};
use crate::compose::words;
use crate::doc::Fill;
use crate::nouns::id;
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
    /// Under which it is stated.
    of: String,
    name: String,
    all: Mass,
    melt: Mass,
    light: Mass,
}

/// A kitchen's fuel by camp and meal, as likely and before spill; none where nothing burns.
#[must_use]
pub fn uses(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Option<Chart> {
    let kitchen = one;
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
        let slug = &inputs.plan.camps[row.camp].slug;
        let of = if by_camp {
            slug.clone()
        } else {
            format!("{slug}.{}", id(row.meal.word()))
        };
        let [burnt, melt, light] = row.fuel_by_use();
        let mine = Use {
            of,
            name,
            all: burnt,
            melt,
            light,
        };
        match all.iter_mut().find(|other| other.of == mine.of) {
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
            let of = |what: &str, words: String| {
                inputs.of_kitchen(kitchen, &format!("{}.{what}", one.of), words)
            };
            let mut parts = Vec::new();
            if one.melt > Mass::ZERO {
                let melt = of("fuel-to-melt", grams(one.melt));
                parts.push(format!("{melt} to melt snow"));
            }
            if one.light > Mass::ZERO {
                let light = of("fuel-to-light", grams(one.light));
                parts.push(format!("{light} to light the stove"));
            }
            let of_it = if parts.is_empty() {
                String::new()
            } else {
                format!(", of it {}", words::list(&parts))
            };
            let burnt = of("fuel-in-all", say::fuel(one.all, inputs.units));
            format!("{}: {burnt}{of_it}", one.name)
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
pub fn spread(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Option<Chart> {
    let shares: Vec<(&str, f64)> = one
        .plan
        .fuel
        .spread
        .iter()
        .map(|one| (one.input, one.share * 100.0))
        .filter(|(_, percent)| *percent >= 0.5)
        .collect();
    let (first, _) = shares.first()?;
    let bars: Vec<Bar> = shares
        .iter()
        .map(|(name, percent)| Bar {
            name: said(name).to_owned(),
            parts: vec![(*percent, Fill::Hatched)],
            words: format!("{}%", say::number(*percent, 0)),
        })
        .collect();
    let lines = bars
        .iter()
        .zip(&shares)
        .map(|(bar, (input, _))| {
            let percent = inputs.of_kitchen(one, &format!("spread.{input}"), &bar.words);
            format!("{}: {percent} of the spread", bar.name)
        })
        .collect();
    let caption = format!("What to measure first: {}.", said(first));
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
