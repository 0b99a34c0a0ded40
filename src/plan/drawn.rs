//! What charts need beyond the plan's numbers: curves and sizes, worked when a sheet draws them.

use super::outline::{CanisterCurves, StackOutline, Through};
use super::types::{KitchenPlan, Plan};
use super::{cold, stability};
use crate::nouns::{Library, Trip};

/// The pressure of a kitchen's weakest canister at each camp; none for other fuels.
#[must_use]
pub fn canister_curves(trip: &Trip, plan: &Plan, kitchen: usize) -> Option<CanisterCurves> {
    let of: &KitchenPlan = plan.kitchens.get(kitchen)?;
    cold::curves(trip, trip.kitchens.get(kitchen)?, of, &plan.camps)
}

/// A kitchen's canister through its worst meal; none for other fuels.
#[must_use]
pub fn canister_through(
    trip: &Trip,
    library: &Library,
    plan: &Plan,
    kitchen: usize,
) -> Option<Through> {
    let of: &KitchenPlan = plan.kitchens.get(kitchen)?;
    cold::through(trip, library, trip.kitchens.get(kitchen)?, of, &plan.camps)
}

/// The sizes of the stack for which a kitchen's tilt is worked; none where nothing is cooked.
#[must_use]
pub fn stack_outline(
    trip: &Trip,
    library: &Library,
    plan: &Plan,
    kitchen: usize,
) -> Option<StackOutline> {
    let of = plan.kitchens.get(kitchen)?;
    stability::outline(trip.kitchens.get(kitchen)?, library, of)
}
