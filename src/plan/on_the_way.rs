//! What the card in the hand says while the trip runs: the fuel that should be left after each
//! night.

use super::Plan;
use crate::nouns::Kind;
use crate::units::Mass;

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
