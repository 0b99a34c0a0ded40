//! What all rows of a kitchen share: heating value, efficiency in a wind, pots.

use super::camps::assumption;
use super::flame::{self, Flames};
use super::steps::{Lines, Worked};
use super::types::{Batch, counted};
use crate::diag::{Outcome, Problem, told};
use crate::nouns::{Basis, Blend, Figures, Kitchen, Library, Meal, Wind, WindFactors};
use crate::phrase::{Phrase, phrase};
use crate::physics::heating::Loss;
use crate::units::{HeatingValue, Power, Temperature, Units, Volume};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What the canisters handed out bring to a kitchen's rows, once they are chosen.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Handed {
    /// Their mean composition.
    pub(crate) blend: Option<Blend>,
    /// By camp and meal, what the cold leaves of the burner's power; its full power where nothing
    /// stands.
    pub(crate) powers: BTreeMap<(usize, Meal), Power>,
}

/// A lower heating value, exact and as printed.
#[derive(Clone, Debug)]
pub(crate) struct Heating {
    /// Unrounded.
    pub(crate) value: HeatingValue,
    /// In MJ/kg.
    pub(crate) printed: Worked,
}

/// What all rows of one kitchen share.
#[derive(Clone, Debug)]
pub(crate) struct Setup<'a> {
    /// The library's figures.
    pub(crate) figures: &'a Figures,
    /// The library, for other stoves.
    pub(crate) library: &'a Library,
    /// The kitchen.
    pub(crate) kitchen: &'a Kitchen,
    /// Where its lines stand: `kitchen.blue`.
    pub(crate) at: String,
    /// Heating value of its fuel.
    pub(crate) heating: Heating,
    /// The reader's units.
    pub(crate) units: Units,
    /// What the cold leaves of its power.
    pub(crate) powers: BTreeMap<(usize, Meal), Power>,
    /// The stove's wind factors behind this kitchen's screen.
    pub(crate) factors: WindFactors,
    /// Its flame in each wind.
    pub(crate) flames: Flames,
}

impl<'a> Setup<'a> {
    /// Gathers what the rows of a kitchen need.
    ///
    /// # Errors
    /// When nothing is known of its stove behind its windscreen, or its efficiency cannot be.
    pub(crate) fn new(
        library: &'a Library,
        kitchen: &'a Kitchen,
        index: usize,
        file: &Arc<str>,
        units: Units,
        heating: Heating,
        at: String,
    ) -> Outcome<Self> {
        let path = format!("kitchens[{index}]");
        let stove = &kitchen.stove;
        let factors = stove.wind.get(&kitchen.screen).copied().ok_or_else(|| {
            vec![
                Problem::error(
                    "plan.screen",
                    told!(
                        "nothing is known of {name} behind the windscreen `{screen}`",
                        name = stove.name,
                        screen = kitchen.screen
                    ),
                    "choose another windscreen, or give the stove its wind factors for this one",
                )
                .at(file.clone(), path.clone()),
            ]
        })?;
        let efficiency = flame::still_efficiency(kitchen, factors);
        flame::possible(efficiency, file, &path)?;
        let flames = flame::flames(
            library,
            stove.family,
            efficiency,
            stove.power,
            kitchen.screen,
            factors,
        );
        Ok(Self {
            library,
            figures: &library.figures,
            kitchen,
            at,
            heating,
            units,
            powers: BTreeMap::new(),
            factors,
            flames,
        })
    }

    /// The power that heats a row: what the burner is set to, or what the cold leaves of it.
    pub(crate) fn power(&self, camp: usize, meal: Meal) -> Power {
        let full = self.kitchen.stove.power;
        self.powers
            .get(&(camp, meal))
            .map_or(full, |left| left.min(full))
    }

    /// Whether one filling of the burner limits a batch.
    pub(crate) fn fill(&self) -> Option<Volume> {
        self.kitchen.stove.one_fill
    }

    /// Prints the share of the fuel's heat that reaches the pot in a wind.
    pub(crate) fn print_share(&self, lines: &mut Lines, wind: Wind) -> Worked {
        let flame = self.flame(wind);
        let still = self.print_still(lines);
        let factor = lines.given(
            phrase!(
                "line-left-behind-kitchens-screen",
                screen = self.kitchen.screen,
                wind = wind
            ),
            Worked::four(flame.factor),
            "",
            assumption(),
        );
        lines.work(
            phrase!("line-share-that-reaches"),
            format!("{still} x {factor}"),
            "",
            Phrase::none(),
        )
    }

    /// Prints the share of the fuel's heat that reaches the pot in still air.
    pub(crate) fn print_still(&self, lines: &mut Lines) -> Worked {
        lines.given(
            phrase!("line-still-share"),
            self.still_printed(),
            "",
            match self.kitchen.measured {
                Some(_) => phrase!("why-your-trial"),
                None => phrase!("why-until-measured", basis = Basis::Assumption),
            },
        )
    }

    /// The still-air share as it is printed.
    pub(crate) fn still_printed(&self) -> Worked {
        Worked::four(self.flame(Wind::Calm).still.in_one())
    }
}

impl Setup<'_> {
    /// Heat to warm a pot by one kelvin, J/K.
    pub(crate) fn pot_joules_per_kelvin(&self, pot: usize) -> f64 {
        let pot = &self.kitchen.pots[pot];
        pot.mass.in_kilograms() * pot.specific_heat.in_joules_per_kilogram_kelvin()
    }

    /// Prints the heat that all pots of a part take for one kelvin, kJ/K.
    pub(crate) fn print_pots(&self, lines: &mut Lines, batches: &[Batch]) -> Worked {
        let terms: Vec<String> = counted(batches)
            .into_iter()
            .map(|(pot, count)| {
                let pot = &self.kitchen.pots[pot];
                let mass = Worked::four(pot.mass.in_kilograms());
                let c = Worked::given(pot.specific_heat.in_kilojoules_per_kilogram_kelvin());
                format!("{count} x {mass} x {c}")
            })
            .collect();
        let stated = batches
            .iter()
            .all(|batch| self.kitchen.pots[batch.pot].mass_stated);
        lines.work(
            phrase!("line-heat-pots-take-1"),
            terms.join(" + "),
            "kJ/°C",
            if stated {
                Phrase::none()
            } else {
                phrase!("why-usual-pots", basis = Basis::Assumption)
            },
        )
    }
}

impl Setup<'_> {
    /// The flame in a wind.
    pub(crate) fn flame(&self, wind: Wind) -> &flame::Flame {
        &self.flames[wind as usize]
    }

    /// How a pot of this kitchen loses heat.
    pub(crate) fn loss(&self, wind: Wind, capacity: Volume, air: Temperature) -> Loss {
        flame::loss(
            self.figures,
            self.flame(wind),
            capacity,
            air,
            self.kitchen.lid,
        )
    }
}
