//! What is said of a family of stoves on a trip, side by side with the others.

use crate::nouns::Id;
use crate::phrase::Phrase;
use crate::units::{Angle, Energy, Force, Mass, Time};

/// Whether a stove may be used here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Allowed {
    /// It may.
    Yes,
    /// It may not, or cannot.
    No,
    /// Nobody has asked yet.
    Unknown,
}

impl Allowed {
    /// `yes`, `no`, `unknown`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Yes => "yes",
            Self::No => "no",
            Self::Unknown => "unknown",
        }
    }
}

/// One stove family on this trip.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparisonRow {
    /// Id of the stove.
    pub stove: Id,
    /// Its name.
    pub stove_name: String,
    /// Id of the fuel.
    pub fuel: Id,
    /// Name of the fuel.
    pub fuel_name: String,
    /// Whether it may be used.
    pub allowed: Allowed,
    /// Why not, or why not known.
    pub why: Option<Phrase>,
    /// Whether it may fail to boil in the wind of a camp.
    pub may_not_boil: bool,
    /// What is carried for it; none where a pot of the trip never boils on it: part of the fuel
    /// would be read as all of it.
    pub carried: Option<Carried>,
    /// Push at the rim that tips it, where known.
    pub rim_push: Option<Force>,
    /// The least tilt that tips it, where known.
    pub tip_angle: Option<Angle>,
    /// Heat in a litre of the fuel.
    pub energy_per_litre: Energy,
    /// Start mass for 1 to 14 nights, for the chart.
    pub by_nights: Vec<Mass>,
}

impl ComparisonRow {
    /// Whether a pot of the trip never boils on it.
    #[must_use]
    pub const fn never_boils(&self) -> bool {
        self.carried.is_none()
    }
}

/// What a trip carries for a stove, and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carried {
    /// Fuel to carry.
    pub fuel: Mass,
    /// Stove, containers and fuel at the start.
    pub start: Mass,
    /// The same averaged over the nights.
    pub average: Mass,
    /// Minutes to boil a litre at the first camp: flame and one set-up, no waits between fillings.
    pub minutes_per_litre: Time,
    /// Containers to bring back or dispose of.
    pub containers: u32,
    /// Fossil carbon dioxide of the likely fuel.
    pub fossil_co2: Mass,
    /// Heat in a kilogram of fuel with its container.
    pub energy_per_kilogram_with_container: Energy,
    /// Grams of container for each gram of fuel.
    pub container_share: f64,
    /// What it costs by the user's prices.
    pub price: Option<f64>,
}

/// Where two stove families weigh the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Crossing {
    /// Id of the stove that is lighter before.
    pub before: Id,
    /// Id of the stove that is lighter from `nights` on.
    pub after: Id,
    /// First night count at which the second is lighter.
    pub nights: u32,
}
