//! Carried mass against nights, and canister pressure against fuel left.

use super::Chart;
use super::board::{nice_step, solid};
use super::lines::{Axis, Ring, Series, drawn, pen};
use crate::compose::catalogue::text;
use crate::compose::view::{Inputs, OneKitchen};
use crate::phrase::{Phrase, phrase};
use crate::plan::{CanisterCurve, ComparisonRow, Crossing, canister_curves};
use crate::units::{Mass, Units, say};

/// More crossings than this are left to the comparison.
const MOST_CROSSINGS: usize = 6;

/// More camps than this are left out, those with the most pressure first.
const MOST_CAMPS: usize = 8;

/// What is carried at the start for 1 to 14 nights, a line a stove family, with the night counts
/// at which two weigh the same; none for a lesson.
#[must_use]
pub fn masses(inputs: &Inputs<'_>) -> Option<Chart> {
    let rows: Vec<&ComparisonRow> = inputs
        .plan
        .comparison
        .iter()
        .filter(|row| row.by_nights.len() > 1)
        .collect();
    let nights = rows.first()?.by_nights.len();
    let pounds = inputs.units == Units::Us;
    let of = |mass: &Mass| {
        if pounds {
            mass.in_pounds()
        } else {
            mass.in_kilograms()
        }
    };
    let heaviest = rows
        .iter()
        .flat_map(|row| row.by_nights.iter().map(of))
        .fold(0.0, f64::max);
    let up = rising(
        0.0,
        heaviest,
        &if pounds {
            phrase!("chart-pounds")
        } else {
            phrase!("chart-kilograms")
        },
        |tick| tick,
    );
    let across = Axis {
        from: 1.0,
        until: nights as f64,
        ticks: (1..=nights)
            .map(|one| (one as f64, one.to_string()))
            .collect(),
        name: text(&phrase!("chart-nights")),
    };
    let series: Vec<Series> = rows
        .iter()
        .enumerate()
        .map(|(index, row)| Series {
            name: row.stove_name.clone(),
            points: row
                .by_nights
                .iter()
                .enumerate()
                .map(|(night, mass)| ((night + 1) as f64, of(mass)))
                .collect(),
            pen: pen(index),
        })
        .collect();
    let crossings = chosen(inputs, &rows, nights);
    let mut rings = Vec::new();
    let mut notes = Vec::new();
    for (index, crossing) in crossings.iter().enumerate() {
        let number = (index + 1).to_string();
        let (Some(before), Some(after)) =
            (row(&rows, &crossing.before), row(&rows, &crossing.after))
        else {
            continue;
        };
        rings.push(Ring {
            at: meeting(before, after, crossing.nights, &of),
            number: number.clone(),
        });
        notes.push(text(&phrase!(
            "chart-crossing",
            number = number,
            after = after.stove_name,
            before = before.stove_name,
            nights = crossing.nights
        )));
    }
    let mut lines: Vec<String> = rows
        .iter()
        .map(|row| {
            let at = |night: usize| {
                let id = format!("stove.{}.{}.night-{night}", row.stove, row.fuel);
                inputs.say(&id, say::load(row.by_nights[night - 1], inputs.units))
            };
            text(&phrase!(
                "chart-by-nights",
                stove = row.stove_name,
                one = at(1),
                some = at(nights.div_ceil(2)),
                half = nights.div_ceil(2),
                most = at(nights),
                nights = nights
            ))
        })
        .collect();
    lines.extend(
        notes
            .iter()
            .map(|note| text(&phrase!("chart-crossing-line", note = note))),
    );
    let caption = if rings.is_empty() {
        phrase!("chart-masses")
    } else {
        phrase!("chart-masses-with-rings")
    };
    let (board, height) = drawn(&series, &across, &up, &rings, &notes);
    Some(Chart::new(
        "mass-by-nights",
        text(&caption),
        phrase!("chart-masses-about"),
        lines,
        board,
        height,
    ))
}

fn row<'a>(rows: &[&'a ComparisonRow], stove: &str) -> Option<&'a ComparisonRow> {
    rows.iter().copied().find(|row| row.stove == stove)
}

/// The crossings on the chart, those of the trip's own stoves first.
fn chosen<'a>(inputs: &Inputs<'a>, rows: &[&ComparisonRow], nights: usize) -> Vec<&'a Crossing> {
    let own = |stove: &str| inputs.plan.kitchens.iter().any(|one| one.stove == stove);
    let mut found: Vec<&Crossing> = inputs
        .plan
        .crossings
        .iter()
        .filter(|one| one.nights as usize <= nights && one.nights > 1)
        .filter(|one| row(rows, &one.before).is_some() && row(rows, &one.after).is_some())
        .collect();
    found.sort_by_key(|one| (!(own(&one.before) || own(&one.after)), one.nights));
    found.truncate(MOST_CROSSINGS);
    found
}

/// Where two lines meet in the night before the second is lighter.
fn meeting(
    before: &ComparisonRow,
    after: &ComparisonRow,
    nights: u32,
    of: &dyn Fn(&Mass) -> f64,
) -> (f64, f64) {
    let last = before.by_nights.len().min(after.by_nights.len()) - 1;
    let end = (nights as usize - 1).min(last);
    let start = end.saturating_sub(1);
    let gap = |at: usize| of(&after.by_nights[at]) - of(&before.by_nights[at]);
    let (was, is) = (gap(start), gap(end));
    let share = if was > is {
        (was / (was - is)).clamp(0.0, 1.0)
    } else {
        1.0
    };
    let (low, high) = (of(&before.by_nights[start]), of(&before.by_nights[end]));
    (
        (start + 1) as f64 + share * (end - start) as f64,
        low + share * (high - low),
    )
}

/// An axis that rises over all values, with round ticks.
fn rising(least: f64, most: f64, name: &Phrase, tick: impl Fn(f64) -> f64) -> Axis {
    let step = nice_step((most - least).max(1e-6), 6.0);
    let from = (least / step).floor();
    let until = (most / step).ceil().max(from + 1.0);
    let decimals = usize::from(step < 1.0) + usize::from(step < 0.1);
    let count = (until - from).round() as u32;
    Axis {
        from: from * step,
        until: until * step,
        ticks: (0..=count)
            .map(|index| {
                let value = (from + f64::from(index)) * step;
                let words = say::number(tick(value), decimals).replace('-', "\u{2212}");
                (value, words)
            })
            .collect(),
        name: text(name),
    }
}

/// The tag behind a canister's name.
fn tagged(curve: &CanisterCurve) -> String {
    let tag = curve.tag.as_ref();
    tag.map_or_else(String::new, |tag| format!(", {tag}"))
}

/// A canister's pressure against what is left in it, a line a camp; none for other fuels.
#[must_use]
pub fn pressure(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Option<Chart> {
    let mut worked = canister_curves(inputs.trip, inputs.plan, one.index)?;
    let all = worked.curves.len();
    if all > MOST_CAMPS {
        let start = |points: &[(Mass, crate::units::Pressure)]| {
            points.first().map_or(0.0, |point| point.1.in_kilopascals())
        };
        worked
            .curves
            .sort_by(|a, b| start(&a.points).total_cmp(&start(&b.points)));
        worked.curves.truncate(MOST_CAMPS);
        worked.curves.sort_by_key(|curve| curve.camp);
    }
    let starts = worked
        .curves
        .iter()
        .filter_map(|curve| curve.points.first());
    let net = starts.map(|start| start.0.in_grams()).reduce(f64::max)?;
    let least = worked.least.in_kilopascals();
    let mut series: Vec<Series> = worked
        .curves
        .iter()
        .enumerate()
        .map(|(index, curve)| Series {
            name: format!(
                "{}, {}{}",
                inputs.plan.camps[curve.camp].name,
                say::temperature(curve.fuel_temperature, inputs.units),
                tagged(curve)
            ),
            points: curve
                .points
                .iter()
                .map(|(left, gauge)| (left.in_grams(), gauge.in_kilopascals()))
                .collect(),
            pen: pen(index),
        })
        .collect();
    let lines: Vec<String> = worked
        .curves
        .iter()
        .map(|curve| {
            let camp = &inputs.plan.camps[curve.camp];
            let of = |what: &str, words: String| {
                inputs.of_kitchen(one, &format!("{}.canister.{what}", camp.slug), words)
            };
            let kpa = |what: &str, share: f64, unit: &str| {
                let value = curve.gauge_with(share).in_kilopascals();
                let words = say::number(value, 0).replace('-', "\u{2212}");
                of(what, format!("{words}{unit}"))
            };
            let fuel = say::temperature(curve.fuel_temperature, inputs.units);
            let fuel = of("temperature", fuel);
            text(&phrase!(
                "chart-pressures",
                canister = format!("{}, {fuel}{}", camp.name, tagged(curve)),
                full = kpa("gauge-full", 1.0, " kPa"),
                half = kpa("gauge-half", 0.5, ""),
                tenth = kpa("gauge-tenth", 0.1, "")
            ))
        })
        .chain([text(&phrase!(
            "chart-least-pressure",
            least = inputs.of_kitchen(one, "least-gauge", format!("{} kPa", say::number(least, 0)))
        ))])
        .collect();
    let ends = series.iter().filter_map(|one| one.points.last());
    let end = ends.map(|end| end.0).fold(net, f64::min);
    series.push(Series {
        name: text(&phrase!("chart-stove-needs", least = say::number(least, 0))),
        points: vec![(net, least), (end, least)],
        pen: solid(0.75),
    });
    let values = || {
        series
            .iter()
            .flat_map(|one| &one.points)
            .map(|point| point.1)
    };
    let up = rising(
        values().fold(0.0, f64::min),
        values().fold(0.0, f64::max),
        &phrase!("chart-gauge-pressure"),
        |tick| tick,
    );
    let step = nice_step(net.max(1.0), 6.0);
    let count = (net / step + 1e-9).floor() as u32;
    let across = Axis {
        from: net,
        until: 0.0,
        ticks: (0..=count)
            .map(|index| {
                let grams = f64::from(index) * step;
                (grams, say::number(grams, 0))
            })
            .collect(),
        name: text(&phrase!("chart-grams-left")),
    };
    let caption = if all > MOST_CAMPS {
        phrase!("chart-pressure-of-some", most = MOST_CAMPS, all = all)
    } else {
        phrase!("chart-pressure")
    };
    let (board, height) = drawn(&series, &across, &up, &[], &[]);
    Some(Chart::new(
        "canister-pressure",
        text(&caption),
        phrase!("chart-pressure-about"),
        lines,
        board,
        height,
    ))
}
