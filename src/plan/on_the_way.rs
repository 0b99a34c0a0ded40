//! What the card in the hand says while the trip runs: the fuel that should be
//! left after each night, and how much more is needed when something changes.

use super::Plan;
use crate::nouns::{Kind, Library, Trip, WaterFrom, Wind};
use crate::units::{Mass, Temperature, Warming};
use rayon::prelude::*;
use std::sync::Arc;

/// How much colder the line 'colder' of the card is, in kelvins: 5 °C, 9 °F.
pub(super) const COLDER_BY: f64 = 5.0;

/// The fuel that should be left after a night and the breakfast that follows it.
#[derive(Clone, Debug, PartialEq)]
pub struct NightLeft {
    /// The night of the trip, from 1.
    pub night: u32,
    /// Index of the camp.
    pub camp: usize,
    /// Left by the likely need.
    pub left: Mass,
    /// Left when as much is burnt as the trip's confidence allows for.
    pub low: Mass,
    /// Left when as much less is burnt.
    pub high: Mass,
    /// All containers on the scale with what is left, if they were chosen.
    pub scale: Option<Mass>,
}

/// The fuel that a kitchen should have left after each night.
///
/// Each camp's fuel is spread evenly over its nights, spill included, as the
/// trip's sum has it. A new leg starts with what is handed out for it; what was
/// left of the one before is not counted on. A lesson has no nights.
#[must_use]
pub fn fuel_so_far(plan: &Plan, kitchen: usize) -> Vec<NightLeft> {
    let Some(one) = plan.kitchens.get(kitchen) else {
        return Vec::new();
    };
    if plan.kind == Kind::Lesson {
        return Vec::new();
    }
    let sum: f64 = one
        .rows
        .iter()
        .map(|row| row.fuel.in_grams() * f64::from(row.times))
        .sum();
    // Spill and rounding, so that the camps add up to the printed likely need.
    let scale_up = if sum > 0.0 {
        one.fuel.likely.in_grams() / sum
    } else {
        1.0
    };
    let spread = if one.fuel.likely.in_grams() > 0.0 {
        (one.fuel.at_confidence.in_grams() / one.fuel.likely.in_grams() - 1.0).max(0.0)
    } else {
        0.0
    };
    let mut nights = Vec::new();
    let mut night = 0;
    let mut burnt = 0.0;
    let mut leg = 0;
    for (index, camp) in plan.camps.iter().enumerate() {
        let now = one
            .fuel
            .legs
            .iter()
            .position(|leg| (leg.from..leg.until).contains(&index))
            .unwrap_or(0);
        if now != leg {
            leg = now;
            burnt = 0.0;
        }
        let handed: Vec<_> = one
            .containers
            .iter()
            .filter(|container| container.leg == leg)
            .collect();
        let total = |mass: fn(&super::ContainerPlan) -> Mass| -> f64 {
            handed
                .iter()
                .map(|container| mass(container).in_grams() * f64::from(container.count))
                .sum()
        };
        let carried = one
            .fuel
            .legs
            .get(leg)
            .map_or(one.fuel.carry, |leg| leg.carry)
            .in_grams();
        let start = if handed.is_empty() {
            carried
        } else {
            total(|container| container.net)
        };
        let gross = total(|container| container.gross);
        let camp_sum: f64 = one
            .at_camp(index)
            .map(|row| row.fuel.in_grams() * f64::from(row.times))
            .sum::<f64>()
            * scale_up;
        for _ in 0..camp.nights {
            night += 1;
            burnt += camp_sum / f64::from(camp.nights);
            let left = |share: f64| Mass::grams((start - burnt * share).max(0.0));
            nights.push(NightLeft {
                night,
                camp: index,
                left: left(1.0),
                low: left(1.0 + spread),
                high: left(1.0 - spread),
                scale: (!handed.is_empty()).then(|| Mass::grams((gross - burnt).max(0.0))),
            });
        }
    }
    nights
}

/// What may change while a trip is planned or runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChangeKind {
    /// One person more in each kitchen.
    PersonMore,
    /// One night more at the camp of that index, the one that costs most.
    NightMore(usize),
    /// Air and water 5 K colder.
    Colder,
    /// All water from snow.
    FromSnow,
    /// The next stronger wind everywhere.
    MoreWind,
}

/// How the fuel to carry moves when something about the trip changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What changes.
    pub kind: ChangeKind,
    /// Fuel more (or less) for each kitchen; none where before or after it a pot never boils.
    pub more: Vec<Option<Mass>>,
    /// Whether water may not boil at all then, for each kitchen.
    pub may_not_boil: Vec<bool>,
}

/// Plans the trip again with one thing changed at a time.
///
/// A change that cannot be planned (a height without air, say) is left out, and
/// so is one that changes nothing for any kitchen.
#[must_use]
pub fn changes(trip: &Trip, library: &Library, plan: &Plan) -> Vec<Change> {
    let lesson = trip.kind == Kind::Lesson;
    let mut kinds = vec![ChangeKind::PersonMore];
    let mut camps = trip.camps.clone();
    if let (false, Some(camp)) = (lesson, costliest(plan)) {
        kinds.push(ChangeKind::NightMore(camp));
        camps[camp].nights += 1;
    }
    kinds.push(ChangeKind::Colder);
    if !lesson
        && trip
            .camps
            .iter()
            .any(|camp| camp.water_from != WaterFrom::Snow)
    {
        kinds.push(ChangeKind::FromSnow);
    }
    if trip.camps.iter().any(|camp| camp.wind != Wind::Windy) {
        kinds.push(ChangeKind::MoreWind);
    }
    // a draw belongs to its camp and day: those of the longer trip serve the others too
    let draws = super::draws(&camps, library);
    kinds
        .par_iter()
        .filter_map(|kind| {
            let changed = changed(trip, library, kind);
            let draws = Arc::clone(&draws);
            let changed = super::decide(&changed, library, super::Depth::Carry, draws, &[]).ok()?;
            let more: Vec<Option<Mass>> = changed
                .kitchens
                .iter()
                .zip(&plan.kitchens)
                .map(|(new, old)| {
                    (new.boils() && old.boils()).then(|| new.fuel.carry - old.fuel.carry)
                })
                .collect();
            let may_not_boil = changed
                .kitchens
                .iter()
                .map(|kitchen| kitchen.rows.iter().any(|row| row.may_not_boil))
                .collect();
            more.iter()
                .any(|mass| *mass != Some(Mass::ZERO))
                .then_some(Change {
                    kind: kind.clone(),
                    more,
                    may_not_boil,
                })
        })
        .collect()
}

/// The camp whose night costs most fuel.
fn costliest(plan: &Plan) -> Option<usize> {
    let cost = |index: usize| -> f64 {
        let grams: f64 = plan
            .kitchens
            .iter()
            .flat_map(|kitchen| kitchen.at_camp(index))
            .map(|row| row.fuel.in_grams() * f64::from(row.times))
            .sum();
        grams / f64::from(plan.camps[index].nights.max(1))
    };
    (0..plan.camps.len()).max_by(|a, b| cost(*a).total_cmp(&cost(*b)))
}

/// The trip with one thing changed.
fn changed(trip: &Trip, library: &Library, kind: &ChangeKind) -> Trip {
    let mut trip = trip.clone();
    match kind {
        ChangeKind::PersonMore => {
            for kitchen in &mut trip.kitchens {
                kitchen.people += 1;
                trip.people.learners += 1;
            }
        }
        ChangeKind::NightMore(camp) => trip.camps[*camp].nights += 1,
        ChangeKind::Colder => {
            let colder = Warming::of_kelvins(-COLDER_BY);
            for camp in &mut trip.camps {
                camp.day = camp.day + colder;
                camp.night = camp.night + colder;
                let water = camp.water + colder;
                camp.water = if camp.water_from == WaterFrom::Snow {
                    water
                } else {
                    water.max(Temperature::celsius(0.0))
                };
            }
        }
        ChangeKind::FromSnow => {
            let drinking = library.figures.drinking_snow.value;
            for camp in &mut trip.camps {
                if camp.water_from != WaterFrom::Snow {
                    camp.water_from = WaterFrom::Snow;
                    camp.water = camp.night.min(Temperature::celsius(0.0));
                    camp.drinking = camp.drinking.max(drinking);
                }
            }
        }
        ChangeKind::MoreWind => {
            for camp in &mut trip.camps {
                camp.wind = match camp.wind {
                    Wind::Calm => Wind::Breezy,
                    Wind::Breezy | Wind::Windy => Wind::Windy,
                };
            }
        }
    }
    trip
}
