//! A canister through the meal that is hardest on it: pressure and flame, minute by minute.

use super::Chart;
use super::board::{nice_step, solid};
use super::lines::{Axis, Series, drawn, pen};
use crate::compose::catalogue::text;
use crate::compose::view::{Inputs, OneKitchen};
use crate::phrase::phrase;
use crate::plan::canister_through;
use crate::units::{Power, Pressure, Time, say};

/// Pressure and flame over the minutes of the worst meal, each as a share of what it is when lit
/// (the flame: of the burner's full power); none for other fuels.
#[must_use]
pub fn through(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Option<Chart> {
    let through = canister_through(inputs.trip, inputs.library, inputs.plan, one.index)?;
    let lit = through.points.first()?.1.in_kilopascals();
    let last = through.points.last()?;
    let minutes = last.0.in_minutes();
    if lit <= 0.0 || minutes <= 0.0 {
        return None;
    }
    let full = through.set.in_kilowatts();
    let percent = |share: f64| share * 100.0;
    let series = [
        Series {
            name: text(&phrase!(
                "chart-flame-of",
                power = say::significant(full, 2)
            )),
            points: through
                .points
                .iter()
                .map(|(time, _, power)| (time.in_minutes(), percent(power.in_kilowatts() / full)))
                .collect(),
            pen: solid(1.5),
        },
        Series {
            name: text(&phrase!("chart-pressure-of", gauge = say::number(lit, 0))),
            points: through
                .points
                .iter()
                .map(|(time, gauge, _)| {
                    let share = gauge.in_kilopascals().max(0.0) / lit;
                    (time.in_minutes(), percent(share))
                })
                .collect(),
            pen: pen(1),
        },
    ];
    let most = series
        .iter()
        .flat_map(|one| &one.points)
        .map(|point| point.1)
        .fold(100.0, f64::max);
    let tens = (most / 20.0).ceil() as u32;
    let up = Axis {
        from: 0.0,
        until: f64::from(tens) * 20.0,
        ticks: (0..=tens)
            .map(|tick| {
                (
                    f64::from(tick) * 20.0,
                    say::number(f64::from(tick) * 20.0, 0),
                )
            })
            .collect(),
        name: text(&phrase!("chart-percent-of-lit")),
    };
    let step = nice_step(minutes, 8.0);
    let count = (minutes / step + 1e-9).floor() as u32;
    let across = Axis {
        from: 0.0,
        until: minutes,
        ticks: (0..=count)
            .map(|tick| {
                let at = f64::from(tick) * step;
                (at, say::number(at, usize::from(step < 1.0)))
            })
            .collect(),
        name: text(&phrase!("chart-minutes-of-flame")),
    };
    let which = through.tag.as_ref().map_or_else(
        || phrase!("chart-new-canister"),
        |tag| phrase!("chart-canister-tagged", tag = tag),
    );
    let camp = &inputs.plan.camps[through.camp].name;
    let said = |(name, (time, gauge, power)): (&str, &(Time, Pressure, Power))| {
        let of = |what: &str, words: String| {
            inputs.of_kitchen(one, &format!("through.{name}.{what}"), words)
        };
        let gauge = say::number(gauge.in_kilopascals().max(0.0), 0);
        let minutes = format!("{} min", say::number(time.in_minutes(), 1));
        let power = format!("{} kW", say::number(power.in_kilowatts(), 2));
        text(&phrase!(
            "chart-after-minutes",
            minutes = of("minutes", minutes),
            gauge = of("gauge", format!("{gauge} kPa")),
            power = of("power", power)
        ))
    };
    let lines = through.told().into_iter().map(said).collect();
    let (board, height) = drawn(&series, &across, &up, &[], &[]);
    Some(Chart::new(
        "canister-through",
        text(&phrase!(
            "chart-through",
            meal = through.meal,
            camp = camp,
            canister = which,
            verdict = through.verdict
        )),
        phrase!("chart-through-about"),
        lines,
        board,
        height,
    ))
}
