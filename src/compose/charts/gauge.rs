//! Fuel as a gauge: what is in a kitchen's containers at the start of each leg and after each
//! night, with the band that it should lie in.

use super::Chart;
use super::board::{Board, LEAD, WIDE, room, solid};
use crate::compose::catalogue::text;
use crate::compose::view::{Inputs, OneKitchen};
use crate::doc::{Anchor, Fill};
use crate::phrase::phrase;
use crate::plan::{NightLeft, fuel_so_far, issues};
use crate::units::{Mass, say};

/// Height of a full gauge with its numbers, and of one beside a table that has them.
const HIGH: (f32, f32) = (64.0, 40.0);
/// Height of the neck on it.
const NECK: f32 = 5.0;
/// The most that one gauge gets of the width.
const MOST: f32 = 96.0;

/// One gauge of the row.
struct Gauge {
    /// What stands above it, and what does where there is little room.
    name: (String, String),
    /// The level as planned.
    level: Mass,
    /// Low and high; none where it was just filled.
    band: Option<(Mass, Mass)>,
}

/// A kitchen's fuel, night by night; none for a lesson and where a pot never boils. Beside a table
/// of the same numbers it is drawn without them.
#[must_use]
pub fn gauge(inputs: &Inputs<'_>, one: OneKitchen<'_>, beside_table: bool) -> Option<Chart> {
    let nights = fuel_so_far(inputs.plan, one.index);
    if nights.is_empty() || !one.plan.boils() || one.plan.fuel.carry <= Mass::ZERO {
        return None;
    }
    let mut gauges = Vec::new();
    let mut lines = Vec::new();
    for issue in issues(inputs.plan, one.plan) {
        if issue.needed <= Mass::ZERO {
            continue;
        }
        let (what, level) = if issue.containers.is_empty() {
            ("needed", issue.needed)
        } else {
            ("issued", issue.issued)
        };
        let first = gauges.is_empty();
        let name = if first {
            (phrase!("chart-start"), phrase!("chart-start"))
        } else {
            (phrase!("chart-new-fuel"), phrase!("chart-new"))
        };
        gauges.push(Gauge {
            name: (text(&name.0), text(&name.1)),
            level,
            band: None,
        });
        let of_leg = format!("leg-{}.{what}", issue.leg + 1);
        let level = inputs.of_kitchen(one, &of_leg, say::fuel(level, inputs.units));
        lines.push(text(&match inputs.plan.camps.get(issue.from) {
            Some(camp) if !first => {
                phrase!("chart-handed-out", camp = camp.name, level = level)
            }
            _ => phrase!("chart-at-the-start", level = level),
        }));
        let here = issue.from..issue.until;
        for night in nights.iter().filter(|night| here.contains(&night.camp)) {
            gauges.push(Gauge {
                name: (
                    text(&phrase!("chart-night", night = night.night)),
                    night.night.to_string(),
                ),
                level: night.left,
                band: Some((night.low, night.high)),
            });
            lines.push(told(inputs, one, night));
        }
    }
    let (board, height) = drawn(&gauges, !beside_table);
    let caption = if beside_table {
        phrase!("chart-gauge-beside")
    } else {
        phrase!("chart-gauge", kitchen = one.kitchen.name)
    };
    Some(Chart::new(
        "fuel-gauge",
        text(&caption),
        phrase!("chart-gauge-about"),
        lines,
        board,
        height,
    ))
}

/// A night in words.
fn told(inputs: &Inputs<'_>, one: OneKitchen<'_>, night: &NightLeft) -> String {
    let grams = |what: &str, mass: Mass| {
        let at = format!("night-{}.{what}", night.night);
        inputs.of_kitchen(one, &at, format!("{} g", say::number(mass.in_grams(), 0)))
    };
    text(&phrase!(
        "chart-after-night",
        night = night.night,
        camp = inputs.plan.camps[night.camp].name,
        left = grams("left", night.left),
        low = grams("left-low", night.low),
        high = grams("left-high", night.high)
    ))
}

fn drawn(gauges: &[Gauge], numbers: bool) -> (Board, f32) {
    let grams = |mass: Mass| say::number(mass.in_grams(), 0);
    let all = gauges.iter().map(|one| one.level.in_grams());
    let highs = gauges.iter().filter_map(|one| one.band);
    let most = all
        .chain(highs.map(|(_, high)| high.in_grams()))
        .fold(1.0, f64::max);
    let pitch = (WIDE / gauges.len() as f32).min(MOST);
    let wide = (0.6 * pitch).min(44.0);
    let top = LEAD + NECK;
    let tall = if numbers { HIGH.0 } else { HIGH.1 };
    let foot = top + tall;
    let at = |mass: Mass| foot - (mass.in_grams() / most) as f32 * (tall - 3.0);
    let band = |(low, high): (Mass, Mass)| format!("{}\u{2013}{}", grams(low), grams(high));
    let named = gauges.iter().all(|one| room(&one.name.0) + 4.0 <= pitch);
    let bands = gauges.iter().filter_map(|one| one.band);
    let told = bands.map(band).all(|words| room(&words) + 4.0 <= pitch);
    let mut board = Board::default();
    for (index, one) in gauges.iter().enumerate() {
        let middle = (index as f32 + 0.5) * pitch;
        let (left, right) = (middle - 0.5 * wide, middle + 0.5 * wide);
        let name = if named { &one.name.0 } else { &one.name.1 };
        board.words((middle, 9.0), Anchor::Middle, false, name);
        let neck = 0.2 * wide;
        board.outline(
            &[
                (left, foot),
                (left, top),
                (middle - neck, top),
                (middle - neck, top - NECK),
                (middle + neck, top - NECK),
                (middle + neck, top),
                (right, top),
                (right, foot),
            ],
            Fill::White,
        );
        if let Some((low, high)) = one.band {
            let (low, high) = (at(low), at(high));
            if low - high > 0.5 {
                board.block(left, high, wide, low - high, Fill::Hatched);
            }
        }
        let level = at(one.level);
        board.line(&[(left - 4.0, level), (right + 4.0, level)], solid(2.0));
        if !numbers {
            continue;
        }
        let mut y = foot + LEAD;
        board.words((middle, y), Anchor::Middle, true, &grams(one.level));
        if let (true, Some(low_high)) = (told, one.band) {
            y += LEAD;
            board.words((middle, y), Anchor::Middle, false, &band(low_high));
        }
    }
    let below = match (numbers, told) {
        (false, _) => 0.0,
        (true, false) => LEAD,
        (true, true) => 2.0 * LEAD,
    };
    (board, foot + below + 3.0)
}
