//! Every number of the trip, decided once.
//!
//! Pure: the same trip and library give the same plan, to the last digit.
//! What a reader sees is worked from printed, rounded values, line by line
//! ([`Step`]); the spread is worked unrounded.

mod advice;
mod applies;
mod batches;
mod boil;
mod boil_on;
mod burning;
mod burns;
mod camps;
mod canister;
mod canisters;
mod cans;
mod cautions;
mod change;
mod choose;
mod cold;
mod compared;
mod comparison;
mod containers;
mod days;
mod drawn;
mod fire;
mod flame;
mod fuel;
mod given_out;
mod heat;
mod hold;
mod issue;
mod lost;
mod needs;
mod new_ones;
mod on_the_way;
mod outline;
mod place;
pub mod places;
mod pot;
mod remedy;
mod rows;
mod serve;
mod setup;
mod spread;
mod stability;
mod stated;
pub mod statements;
mod step;
mod steps;
mod terms;
mod trial;
mod types;
mod usual;
mod what_if;

use crate::diag::{Outcome, Problem, told};
use crate::nouns::{Camp, Library, Trip};
use crate::units::Mass;
use fuel::Base;
use setup::Handed;
use spread::Draws;
use std::sync::Arc;
pub(crate) use steps::{Lines, Worked};

pub use advice::{
    Advice, BetterPot, BurnAdvice, FORECAST_HEIGHT, KitchenAdvice, LightestKit, MeltAdvice,
    PotAdvice, PotLimit, WindAdvice, advice, melting,
};
pub use applies::{Reason, Verdict, applies};
pub use boil::{blend_heating_value, blend_why, boil, fuel_called};
pub use canister::{CanisterBurn, CanisterBurnt, burn_canister};
pub use change::{Change, ChangeKind, Changed, DEGREES, HIGHER, Trouble};
pub use days::{DayMeal, DayPlan, days};
pub use drawn::{canister_curves, canister_through, stack_outline};
pub use fire::fire_rule_lacks;
pub use issue::{Issue, IssuedContainer, issued_in_all, issues};
pub use on_the_way::{NightLeft, fuel_so_far};
pub use outline::{CanisterCurve, CanisterCurves, StackOutline, Through};
pub use pot::{Boil, BoilHeat, BoilOn, BoilPot, Boiled, Start};
pub use stated::statements;
pub use statements::{Origin, Statement, Statements, Value};
pub use terms::{HeatTerm, HoldTerm, Remedy, Stops, TermWind, Terms};
pub use trial::{Paste, RunResult, TrialResult, trial};
pub use types::{
    Allowed, Assignment, Batch, CampPlan, Carried, CautionPlan, ColdRow, ComparisonRow,
    ContainerPlan, Crossing, Decides, FuelPlan, GreywaterPlan, Heat, KitchenPlan, Leg, ModulePlan,
    Plan, Role, Row, RulePlan, SpreadShare, StabilityPlan, Step, Usual, step_of,
};
pub use what_if::{
    changes, changes_of_all_stoves, changes_on_the_way, changes_side_by_side, lightest_other,
};

/// Decides every number of a trip or lesson.
///
/// # Errors
/// What good values cannot do: a height or pressure without a boiling point, an efficiency of
/// more than the fuel holds, a figure that the library lacks.
pub fn plan(trip: &Trip, library: &Library) -> Outcome<Plan> {
    decide(
        trip,
        library,
        Depth::Whole,
        draws(&trip.camps, library),
        &[],
    )
}

/// As [`plan`] without the comparison of stoves, which costs the most time, for those who read
/// none.
///
/// # Errors
/// As [`plan`].
pub fn plan_of_own_stoves(trip: &Trip, library: &Library) -> Outcome<Plan> {
    decide(
        trip,
        library,
        Depth::OwnStoves,
        draws(&trip.camps, library),
        &[],
    )
}

/// As [`plan_of_own_stoves`], for those who only ask whether the trip can be planned: the other
/// stoves are set up, and not burnt.
///
/// # Errors
/// As [`plan`].
pub fn plan_to_check(trip: &Trip, library: &Library) -> Outcome<Plan> {
    let plan = plan_of_own_stoves(trip, library)?;
    comparison::can_be_set_up(trip, library)?;
    Ok(plan)
}

/// A lesson's plan with the fuel of its practice burns handed out too, a mass a kitchen; to one that
/// is never lit (none) no fuel goes at all.
///
/// # Errors
/// As [`plan`].
pub fn with_practice(
    planned: Plan,
    trip: &Trip,
    library: &Library,
    practice: &[Option<Mass>],
) -> Outcome<Plan> {
    if practice.is_empty() {
        return Ok(planned);
    }
    let draws = draws(&trip.camps, library);
    let plan = decide(trip, library, Depth::OwnStoves, draws, practice)?;
    Ok(Plan {
        comparison: planned.comparison,
        crossings: planned.crossings,
        ..plan
    })
}

/// A lesson's plan when its course lights nothing, as indoors: no fuel, nothing cooked.
///
/// # Errors
/// As [`plan`].
pub fn with_nothing_lit(planned: Plan, trip: &Trip, library: &Library) -> Outcome<Plan> {
    let mut cold = trip.clone();
    cold.course.indoors = true;
    let draws = draws(&trip.camps, library);
    let plan = decide(&cold, library, Depth::OwnStoves, draws, &[])?;
    Ok(Plan {
        comparison: planned.comparison,
        crossings: planned.crossings,
        cautions: planned.cautions,
        ..plan
    })
}

/// How much of a plan is read: the rest is left empty.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Depth {
    /// All of it.
    Whole,
    /// No other stoves.
    OwnStoves,
    /// What to carry, without what its doubt comes from.
    Carry,
}

/// The draws of a trip's camps.
fn draws(camps: &[Camp], library: &Library) -> Arc<Draws> {
    Arc::new(Draws::new(camps, &library.figures))
}

/// As [`plan`], as far as it is read, with draws for its camps and nights or more.
/// `practice` is what a lesson's practice burns, a mass a kitchen, none where it is never lit; empty
/// where there is no lesson.
fn decide(
    trip: &Trip,
    library: &Library,
    depth: Depth,
    draws: Arc<Draws>,
    practice: &[Option<Mass>],
) -> Outcome<Plan> {
    let mut problems = Vec::new();
    let mut worked = Vec::new();
    for index in 0..trip.camps.len() {
        match camps::work(trip, library, index) {
            Ok(camp) => worked.push(camp),
            Err(more) => problems.extend(more),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let base = Base {
        trip,
        library,
        camps: worked,
        draws,
        with_shares: depth != Depth::Carry,
        practice,
    };
    let mut kitchens = Vec::new();
    for (index, kitchen) in trip.kitchens.iter().enumerate() {
        match fuel::kitchen(&base, kitchen, index, &Handed::default()) {
            Ok(kitchen) => kitchens.push(kitchen),
            Err(more) => problems.extend(more),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    for (index, kitchen) in kitchens.iter().enumerate() {
        problems.extend(beyond_numbers(trip, kitchen, index));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let served = serve::serve(&base, &mut kitchens)?;
    let rules = place::rules(trip, library);
    let mut cautions = served.cautions;
    cautions.extend(cautions::of_plan(trip, &kitchens, &rules));
    cautions.extend(cautions::of_modules(trip, library));
    cautions.sort_by_key(|caution| caution.signal);
    let compared = if depth == Depth::Whole {
        comparison::compare(&base)?
    } else {
        comparison::Compared::default()
    };
    Ok(Plan {
        title: trip.title.clone(),
        kind: trip.kind,
        people: trip.people.all(),
        units: trip.units,
        nights: camps::nights(&trip.camps),
        confidence: trip.confidence,
        camps: base.camps.into_iter().map(|work| work.plan).collect(),
        kitchens,
        comparison: compared.rows,
        crossings: compared.crossings,
        assignment: served.assignment,
        days: days::days(trip),
        greywater: place::greywater(trip, library),
        rules,
        modules: cautions::modules(trip, library),
        assumed: trip.assumed.clone(),
        cautions,
    })
}

/// A kitchen whose numbers are no numbers, because a value is too large or too small to count with.
fn beyond_numbers(trip: &Trip, kitchen: &KitchenPlan, index: usize) -> Option<Problem> {
    let rows = kitchen
        .rows
        .iter()
        .all(|row| row.fuel.is_finite() && row.minutes.is_finite() && row.heat.useful.is_finite());
    let fuel = &kitchen.fuel;
    let sums = fuel.likely.is_finite() && fuel.at_confidence.is_finite() && fuel.carry.is_finite();
    (!rows || !sums).then(|| {
        Problem::error(
            "plan.beyond-numbers",
            told!(
                "the fuel of {name} cannot be worked out",
                name = kitchen.name
            ),
            "look for a value of this kitchen or its camps that is far too large or too small",
        )
        .at(trip.file.clone(), format!("kitchens[{index}]"))
    })
}
