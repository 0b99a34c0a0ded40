//! What a trip is handed of the canisters that are offered to it, and what it leaves in them.

use super::press::Press;
use crate::course::timetable;
use crate::diag::Outcome;
use crate::nouns::{ContainerKind, FuelKind, Trip};
use crate::plan::{self, KitchenPlan, Plan};
use crate::units::Mass;
use std::collections::BTreeMap;

/// What a trip is handed.
#[derive(Clone, Debug, PartialEq)]
pub struct Handed {
    /// Those on hand that it takes: tag, and the fuel left when it comes back.
    pub taken: Vec<(String, Mass)>,
    /// New canisters, by name.
    pub new: BTreeMap<String, u32>,
    /// Mass of the new ones, full.
    pub bought: Mass,
    /// Whether the choice is known to be the best.
    pub exact: bool,
}

impl Press {
    /// What a trip is handed of its canisters on hand, by the calculation of its packet. A trip
    /// that burns none is handed none.
    ///
    /// # Errors
    /// What the plan cannot work out.
    pub fn handed(&self, trip: &Trip) -> Outcome<Handed> {
        let mut handed = Handed {
            taken: Vec::new(),
            new: BTreeMap::new(),
            bought: Mass::ZERO,
            exact: true,
        };
        let burns = |kind: FuelKind| kind == FuelKind::Canister;
        if trip.lights_nothing() || !trip.kitchens.iter().any(|kitchen| burns(kitchen.fuel.kind)) {
            return Ok(handed);
        }
        let plan = plan::plan_of_own_stoves(trip, &self.library)?;
        let plan = timetable::with_practice(trip, &self.library, plan)?;
        handed.exact = plan.assignment.as_ref().is_none_or(|made| made.exact);
        for kitchen in &plan.kitchens {
            handed.taken.extend(left(&plan, kitchen));
            let canisters = kitchen
                .containers
                .iter()
                .filter(|one| one.kind == ContainerKind::Canister && one.tag.is_none());
            for one in canisters {
                *handed.new.entry(one.name.clone()).or_default() += one.count;
                handed.bought += one.gross * f64::from(one.count);
            }
        }
        Ok(handed)
    }
}

/// What a kitchen leaves in its tagged canisters when all that it asks for is burnt, spare and
/// all, the canisters one after the other: no more than that is counted on again.
fn left(plan: &Plan, kitchen: &KitchenPlan) -> Vec<(String, Mass)> {
    let mut left = Vec::new();
    for issue in plan::issues(plan, kitchen) {
        let mut asked = issue.needed;
        let mine = kitchen.containers.iter().filter(|one| one.leg == issue.leg);
        for one in mine {
            let Some(tag) = &one.tag else { continue };
            let burnt = if one.usable < asked {
                one.usable
            } else {
                asked
            };
            asked = asked - burnt;
            left.push((tag.clone(), one.net - burnt));
        }
    }
    left
}
