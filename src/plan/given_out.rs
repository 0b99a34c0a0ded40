//! What is given out to kitchens, and in what it is counted.

use super::types::{Assignment, ContainerPlan};
use crate::nouns::{Container, FuelKind, Library, Signal};
use crate::phrase::Phrase;
use crate::units::Mass;

/// A tenth of a gram: what choices count in.
pub(super) const TENTH: Mass = Mass::grams(0.1);

/// What the kitchens were handed, in their order.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct HandedOut {
    /// For each kitchen.
    pub(crate) containers: Vec<Vec<ContainerPlan>>,
    /// How good the choice of canisters is; none without canisters on hand or kitchens for them.
    pub(crate) assignment: Option<Assignment>,
    /// What a person should know about it.
    pub(crate) notes: Vec<Note>,
}

/// A caution that the numbers raise.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Note {
    /// How grave.
    pub(crate) signal: Signal,
    /// A short id.
    pub(crate) id: String,
    /// What it says.
    pub(crate) says: Phrase,
}

pub(super) fn tenths_down(mass: Mass) -> i64 {
    (mass / TENTH + 1e-6).floor().max(0.0) as i64
}

pub(super) fn tenths_up(mass: Mass) -> i64 {
    (mass / TENTH - 1e-6).ceil().max(0.0) as i64
}

/// The containers of the catalogue that hold a kind of fuel, lightest first.
pub(super) fn sizes_for(library: &Library, fuel: FuelKind) -> Vec<&Container> {
    let mut sizes: Vec<&Container> = library
        .containers
        .values()
        .filter(|container| container.fuels.contains(&fuel))
        .collect();
    sizes.sort_by(|a, b| {
        let of = |one: &Container| one.net.in_grams() + one.capacity.in_millilitres();
        of(a).total_cmp(&of(b)).then_with(|| a.id.cmp(&b.id))
    });
    sizes
}
