//! What may change about a trip, and what becomes of its kitchens then.

use super::types::Plan;
use crate::nouns::{Id, Meal, Verdict, Wind};
use crate::units::{Length, Mass, Temperature, Time};

/// What may change while a trip is planned or runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChangeKind {
    /// Nothing.
    AsPlanned,
    /// This wind at every camp.
    Wind(Wind),
    /// The next stronger wind everywhere.
    MoreWind,
    /// Lids on, or off.
    Lid(bool),
    /// Air and water colder by [`DEGREES`].
    Colder,
    /// Air and water warmer by [`DEGREES`].
    Warmer,
    /// One person more in each kitchen.
    PersonMore,
    /// One night more at the camp of that index, the one that costs most.
    NightMore(usize),
    /// Every camp higher by [`HIGHER`], and colder for it.
    Higher,
    /// All water from snow.
    FromSnow,
    /// The largest pot half as large again.
    LargerPot,
    /// Another stove, by its id in the catalogue.
    Stove(Id),
}

/// How much colder and warmer, kelvins: 5 °C, 9 °F.
pub const DEGREES: f64 = 5.0;

/// How much higher.
pub const HIGHER: Length = Length::metres(500.0);

/// One change, and what becomes of each kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What changes.
    pub kind: ChangeKind,
    /// One a kitchen, in order; empty where the changed trip cannot be planned.
    pub kitchens: Vec<Changed>,
}

/// A kitchen under one change.
#[derive(Clone, Debug, PartialEq)]
pub struct Changed {
    /// Its name.
    pub name: String,
    /// Likely fuel; none where a pot never boils.
    pub fuel: Option<Mass>,
    /// Fuel to take; none where a pot never boils.
    pub carry: Option<Mass>,
    /// Minutes at the stove a day, all meals; none where a pot never boils.
    pub minutes: Option<Time>,
    /// Whether in this wind it may not boil at all.
    pub may_not_boil: bool,
    /// What does not work, or is weak; empty where all is well.
    pub troubles: Vec<Trouble>,
}

/// What does not work under a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Trouble {
    /// A pot never boils.
    Stops {
        /// For what.
        meal: Meal,
        /// Where it stops.
        at: Temperature,
    },
    /// The flame does not make up for what a held pot loses.
    CannotHold,
    /// The canister is weak or does not work.
    Canister {
        /// At which meal.
        meal: Meal,
        /// How it does.
        verdict: Verdict,
    },
    /// In this wind it may not boil at all.
    MayNotBoil,
}

impl Change {
    /// How the fuel to take of a kitchen moves against the trip as planned; none where before or
    /// after the change a pot never boils.
    #[must_use]
    pub fn more(&self, plan: &Plan, kitchen: usize) -> Option<Mass> {
        let old = plan.kitchens.get(kitchen).filter(|one| one.boils())?;
        let carry = self.kitchens.get(kitchen)?.carry?;
        Some(carry - old.fuel.carry)
    }
}
