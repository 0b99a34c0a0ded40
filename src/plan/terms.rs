//! What a row is beside its printed lines: how its fuel moves, and what would make it boil.

use crate::nouns::Screen;
use crate::physics::heating::{Loss, Potful};
use crate::units::{Energy, Fraction, Mass, Power, Temperature, Time, Volume};

/// A pot that never boils on its stove.
#[derive(Clone, Debug, PartialEq)]
pub struct Stops {
    /// Where it stops.
    pub at: Temperature,
    /// What would make it boil, one at a time; empty where nothing that is known would.
    pub remedies: Vec<Remedy>,
}

/// What would make a pot boil.
#[derive(Clone, Debug, PartialEq)]
pub enum Remedy {
    /// A lid.
    Lid,
    /// A windscreen.
    Screen(Screen),
    /// A pot of this capacity at most.
    Pot(Volume),
    /// Another stove, by its name.
    Stove(String),
}

/// A row as the spread needs it: how its fuel moves with each uncertain input.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Terms {
    /// Potfuls that are heated, equal ones counted together.
    pub heating: Vec<HeatTerm>,
    /// Potfuls that are held at the boil.
    pub holds: Vec<HoldTerm>,
    /// Fuel to light.
    pub to_light: Mass,
}

/// A potful that is heated: all in W, J/K, °C.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatTerm {
    /// How many alike.
    pub count: f64,
    /// What is heated.
    pub potful: Potful,
    /// In the next calmer wind, the camp's, and the next windier.
    pub winds: [TermWind; 3],
    /// Power of the flame.
    pub power: Power,
    /// Likely heat of the fuel for one.
    pub likely: Energy,
}

/// What reaches a pot and what leaves it in one wind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TermWind {
    /// Heat into the pot.
    pub flow: Power,
    /// Its loss.
    pub loss: Loss,
}

/// A potful that is held at the boil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoldTerm {
    /// How many alike.
    pub count: f64,
    /// What it loses in the next calmer wind, the camp's, and the next windier.
    pub lost: [Power; 3],
    /// Share of the fuel's heat that reaches the pot in still air.
    pub share: Fraction,
    /// The burner's least flame.
    pub least: Power,
    /// How long it is held.
    pub time: Time,
}
