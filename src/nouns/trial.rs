//! A burn trial at home, as meant.

use super::{Blend, Fuel, Id, Screen, Stove, Wind};
use crate::units::{
    HeatingValue, Length, Mass, Pressure, SpecificHeat, Temperature, Time, Units, Volume,
};
use std::sync::Arc;

/// What was weighed and read while water was boiled at home, once or several times.
///
/// `check` makes it from a file; whether the numbers can be true is for the calculation to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// The file it came from.
    pub file: Arc<str>,
    /// The reader's units.
    pub units: Units,
    /// The fuel that was burnt.
    pub fuel: Fuel,
    /// Composition of the canister, when stated.
    pub blend: Option<Blend>,
    /// Lower heating value: stated, or of the blend, or the fuel's own.
    pub heating_value: HeatingValue,
    /// Height above the sea.
    pub elevation: Length,
    /// A barometer's station pressure, in place of the standard atmosphere's.
    pub pressure: Option<Pressure>,
    /// The stove, when stated: then the efficiency is taken to still air and back.
    pub stove: Option<Stove>,
    /// What kept the wind off; the stove's own when not stated.
    pub screen: Option<Screen>,
    /// The air around; as warm as the water at the start when not stated.
    pub air: Option<Temperature>,
    /// The pot, when it was weighed.
    pub pot: Option<TrialPot>,
    /// Each boil, in order.
    pub runs: Vec<BurnRun>,
}

/// The pot of a trial.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialPot {
    /// Mass with lid.
    pub mass: Mass,
    /// What it holds to the brim, when stated.
    pub capacity: Option<Volume>,
    /// Its material.
    pub material: Id,
    /// Specific heat of that.
    pub specific_heat: SpecificHeat,
}

/// One boil of a trial.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurnRun {
    /// Water in the pot at the start.
    pub water: Mass,
    /// Its temperature at the start.
    pub start: Temperature,
    /// Its temperature at the end; none when it was brought to the boil.
    pub end: Option<Temperature>,
    /// Water lost as steam.
    pub evaporated: Mass,
    /// Stove or canister on the scale before.
    pub fuel_before: Mass,
    /// The same after.
    pub fuel_after: Mass,
    /// How long it took, when it was timed.
    pub minutes: Option<Time>,
    /// The wind at the stove, when stated.
    pub wind: Option<Wind>,
    /// Whether the lid was on, when stated.
    pub lid: Option<bool>,
}
