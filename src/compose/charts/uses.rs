//! Fuel by use, and which input to measure first.

use super::Chart;
use super::bars::{Bar, drawn};
use crate::compose::catalogue::{self, text};
use crate::compose::view::{Inputs, OneKitchen};
use crate::compose::words;
use crate::doc::Fill;
use crate::nouns::id;
use crate::phrase::phrase;
use crate::units::{Mass, say};

/// More bars than this are gathered by camp.
const MOST_BARS: usize = 14;

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
        let meal = catalogue::word(row.meal.word(), &[]);
        let name = if by_camp {
            camp.clone()
        } else if one_camp {
            words::capital(&meal)
        } else {
            format!("{camp}, {meal}")
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
            let part = |what: &str, mass: Mass| (mass > Mass::ZERO).then(|| of(what, grams(mass)));
            let melt = part("fuel-to-melt", one.melt);
            let light = part("fuel-to-light", one.light);
            let (name, burnt) = (
                &one.name,
                of("fuel-in-all", say::fuel(one.all, inputs.units)),
            );
            text(&match (melt, light) {
                (None, None) => return format!("{name}: {burnt}"),
                (Some(melt), None) => {
                    phrase!("chart-use-melting", name = name, fuel = burnt, melt = melt)
                }
                (None, Some(light)) => {
                    phrase!(
                        "chart-use-lighting",
                        name = name,
                        fuel = burnt,
                        light = light
                    )
                }
                (Some(melt), Some(light)) => phrase!(
                    "chart-use-both",
                    name = name,
                    fuel = burnt,
                    melt = melt,
                    light = light
                ),
            })
        })
        .collect();
    // what fills which part of a bar
    let key = [
        (Fill::White, phrase!("chart-to-cook")),
        (Fill::Hatched, phrase!("chart-to-melt")),
        (Fill::Black, phrase!("chart-to-light")),
    ];
    let key: Vec<(Fill, String)> = key
        .into_iter()
        .map(|(fill, words)| (fill, text(&words)))
        .filter(|(fill, _)| {
            let used = |bar: &Bar| bar.parts.iter().any(|(size, of)| of == fill && *size > 0.0);
            bars.iter().any(used)
        })
        .collect();
    let (board, height) = drawn(&bars, &key);
    Some(Chart::new(
        "fuel-by-use",
        text(&phrase!("chart-uses", kitchen = one.kitchen.name)),
        phrase!("chart-uses-about"),
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
            name: said(name),
            parts: vec![(*percent, Fill::Hatched)],
            words: text(&phrase!(
                "chart-percent",
                percent = say::number(*percent, 0)
            )),
        })
        .collect();
    let lines = bars
        .iter()
        .zip(&shares)
        .map(|(bar, (input, _))| {
            let percent = inputs.of_kitchen(one, &format!("spread.{input}"), &bar.words);
            text(&phrase!(
                "chart-of-the-spread",
                input = bar.name,
                percent = percent
            ))
        })
        .collect();
    let caption = text(&phrase!("chart-spread", input = said(first)));
    let (board, height) = drawn(&bars, &[]);
    Some(Chart::new(
        "measure-first",
        caption,
        phrase!("chart-spread-about"),
        lines,
        board,
        height,
    ))
}

/// An input as a cook calls it.
fn said(input: &str) -> String {
    text(&match input {
        "efficiency" => phrase!("chart-input-efficiency"),
        "wind" => phrase!("chart-input-wind"),
        "water" => phrase!("chart-input-water"),
        "amount" => phrase!("chart-input-amount"),
        "spill" => phrase!("chart-input-spill"),
        "loss" => phrase!("chart-input-loss"),
        other => return catalogue::word(other, &[]),
    })
}
