//! One pot for `leeside boil`, as it is asked for and as it is answered.

use super::flame;
use super::types::Step;
use crate::nouns::{FuelKind, Library, Screen, Stove, Wind};
use crate::phrase::Phrase;
use crate::physics::heating::Loss;
use crate::units::{
    Energy, Fraction, HeatingValue, Length, Mass, Power, Pressure, SpecificHeat, Temperature, Time,
    Units, Volume,
};

/// What the pot's water is before it is heated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Start {
    /// Water at a temperature.
    Water(Temperature),
    /// Snow or ice at a temperature.
    Snow(Temperature),
}

/// A pot that is heated with its water.
#[derive(Clone, Debug, PartialEq)]
pub struct BoilPot {
    /// Mass with lid.
    pub mass: Mass,
    /// What it is made of.
    pub material: String,
    /// Specific heat of that.
    pub specific_heat: SpecificHeat,
}

/// One pot to work out.
#[derive(Clone, Debug, PartialEq)]
pub struct Boil {
    /// The reader's units: conversion lines come first in US units.
    pub units: Units,
    /// Water in the pot; with [`Start::Snow`] what is wanted from snow.
    pub water: Volume,
    /// What it is before.
    pub start: Start,
    /// To which temperature; none is the boil.
    pub to: Option<Temperature>,
    /// Height above the sea.
    pub elevation: Length,
    /// Name of the fuel.
    pub fuel: String,
    /// Its kind.
    pub kind: FuelKind,
    /// Its density, kg/L, for liquids that are poured.
    pub density: f64,
    /// Its lower heating value.
    pub heating_value: HeatingValue,
    /// How the heating value is known, for the end of its line.
    pub heating_value_why: Phrase,
    /// Share of the fuel's heat that reaches water and pot.
    pub efficiency: Fraction,
    /// The pot, if it is counted.
    pub pot: Option<BoilPot>,
    /// Water that leaves as steam.
    pub evaporated: Mass,
    /// The stove it stands on: then the pot loses heat on the way, and `efficiency` is that of the
    /// reference boil.
    pub on: Option<BoilOn>,
}

/// Where the heat of one pot goes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BoilHeat {
    /// Into water.
    pub water: Energy,
    /// Into the pot.
    pub pot: Energy,
    /// Into snow, until it is water at 0 °C.
    pub melt: Energy,
    /// Away with steam.
    pub evaporation: Energy,
    /// All of it.
    pub useful: Energy,
}

/// One pot worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Boiled {
    /// Air pressure.
    pub pressure: Pressure,
    /// Where water boils.
    pub boiling: Temperature,
    /// Where the heat goes, unrounded.
    pub heat: BoilHeat,
    /// Fuel, as printed in its step; none where it never boils.
    pub fuel: Option<Mass>,
    /// Minutes of flame, on a stove.
    pub minutes: Option<Time>,
    /// Heat lost to the air on the way, on a stove.
    pub lost: Option<Energy>,
    /// Where it stops, when it never gets there.
    pub stops: Option<Temperature>,
    /// The same as poured, for liquid fuels.
    pub fuel_volume: Option<Volume>,
    /// The arithmetic, line by line.
    pub steps: Vec<Step>,
}

/// A stove under a pot, in its air.
#[derive(Clone, Debug, PartialEq)]
pub struct BoilOn {
    /// Its name.
    pub name: String,
    /// Power of its flame.
    pub power: Power,
    /// Share of the fuel's heat that reaches the pot in still air.
    pub still: Fraction,
    /// What wind and screen leave of it.
    pub factor: f64,
    /// The wind that it stands in, and behind which screen.
    pub stands: (Wind, Screen),
    /// The pot's capacity.
    pub capacity: Volume,
    /// Its loss for each square metre and kelvin.
    pub coefficient: f64,
    /// Its loss.
    pub loss: Loss,
}

impl BoilOn {
    /// A stove of the catalogue under a pot. None where nothing is known of it behind that screen.
    #[must_use]
    #[expect(clippy::too_many_arguments, reason = "one flag each")]
    pub fn new(
        library: &Library,
        stove: &Stove,
        efficiency: Fraction,
        power: Power,
        (wind, screen): (Wind, Screen),
        capacity: Volume,
        air: Temperature,
        lid: bool,
    ) -> Option<Self> {
        let factors = *stove.wind.get(&screen)?;
        let flames = flame::flames(library, stove.family, efficiency, power, screen, factors);
        let flame = &flames[wind as usize];
        Some(Self {
            name: stove.name.clone(),
            power,
            still: flame.still,
            factor: flame.factor,
            stands: (wind, screen),
            capacity,
            coefficient: flame.loss,
            loss: flame::loss(&library.figures, flame, capacity, air, lid),
        })
    }

    /// Heat that reaches the pot.
    pub(super) fn flow(&self) -> Power {
        self.power * (self.still * self.factor)
    }
}
