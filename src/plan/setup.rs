//! What all rows of a kitchen share: heating value, efficiency in a wind, pots.

use super::batches;
use super::camps::assumption;
use super::steps::{Lines, Worked};
use super::types::Batch;
use crate::diag::{Outcome, Problem};
use crate::nouns::{Blend, Figures, Kitchen, Library, Meal, Wind, WindFactors};
use crate::physics::fuel;
use crate::units::{Fraction, HeatingValue, Power, Units, Volume};
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
    /// The kitchen.
    pub(crate) kitchen: &'a Kitchen,
    /// Where its lines stand: `kitchen.blue`.
    pub(crate) at: String,
    /// Its key path, for problems.
    pub(crate) path: String,
    /// The trip's file, for problems.
    pub(crate) file: Arc<str>,
    /// Heating value of its fuel.
    pub(crate) heating: Heating,
    /// The reader's units.
    pub(crate) units: Units,
    /// What the cold leaves of its power.
    pub(crate) powers: BTreeMap<(usize, Meal), Power>,
}

impl<'a> Setup<'a> {
    /// Gathers what the rows of a kitchen need.
    pub(crate) fn new(
        library: &'a Library,
        kitchen: &'a Kitchen,
        index: usize,
        file: &Arc<str>,
        units: Units,
        heating: Heating,
        at: String,
    ) -> Self {
        Self {
            figures: &library.figures,
            kitchen,
            at,
            path: format!("kitchens[{index}]"),
            file: file.clone(),
            heating,
            units,
            powers: BTreeMap::new(),
        }
    }

    /// The power that heats a row: what the burner is set to, or what the cold leaves of it.
    pub(crate) fn power(&self, camp: usize, meal: Meal) -> Power {
        let full = self.kitchen.stove.power;
        self.powers
            .get(&(camp, meal))
            .map_or(full, |left| left.min(full))
    }

    /// The stove's wind factors behind this kitchen's screen.
    pub(crate) fn factors(&self) -> Outcome<WindFactors> {
        let stove = &self.kitchen.stove;
        stove
            .wind
            .get(&self.kitchen.screen)
            .copied()
            .ok_or_else(|| {
                vec![
                Problem::error(
                    "plan.screen",
                    format!(
                        "nothing is known of {} behind the windscreen `{}`",
                        stove.name, self.kitchen.screen
                    ),
                    "choose another windscreen, or give the stove its wind factors for this one",
                )
                .at(self.file.clone(), self.path.clone()),
            ]
            })
    }

    /// Whether one filling of the burner limits a batch.
    pub(crate) fn fill(&self) -> Option<Volume> {
        self.kitchen.stove.one_fill
    }
}

/// The efficiency of a kitchen in a wind.
#[derive(Clone, Debug)]
pub(crate) struct Efficiency {
    /// With the wind in it.
    pub(crate) planned: Fraction,
    /// Before the wind factor: the catalogue's likely value, or as measured.
    pub(crate) still: Fraction,
    /// The wind factor between the two.
    pub(crate) factor: f64,
    /// Planned, as printed.
    pub(crate) printed: Worked,
    /// Before the wind factor, as printed.
    pub(crate) still_printed: Worked,
}

impl Setup<'_> {
    /// The efficiency in a wind, printed as a line.
    pub(crate) fn efficiency(&self, lines: &mut Lines, wind: Wind) -> Outcome<Efficiency> {
        let factors = self.factors()?;
        let factor = factors.at(wind);
        let behind_screen = format!("windscreen {}, {wind}", self.kitchen.screen);
        let f = Worked::given(factor);
        let (planned, still, factor, printed, still_printed) = match self.kitchen.measured {
            Some(measured) => {
                let trial = factors.at(measured.wind);
                let planned = fuel::efficiency_in_other_wind(
                    measured.efficiency,
                    Fraction::of_one(trial),
                    Fraction::of_one(factor),
                );
                let m = Worked::four(measured.efficiency.in_one());
                let t = Worked::given(trial);
                let printed = lines.work(
                    format!(
                        "efficiency measured ({}), taken to {behind_screen}",
                        measured.wind
                    ),
                    format!("{m} x {f} / {t}"),
                    "",
                    format!("your burn trial; wind factors {}", assumption()),
                );
                (planned, measured.efficiency, factor / trial, printed, m)
            }
            None => {
                let likely = self.kitchen.stove.efficiency.likely;
                let e = Worked::four(likely.in_one());
                let printed = lines.work(
                    format!("efficiency x wind factor ({behind_screen})"),
                    format!("{e} x {f}"),
                    "",
                    format!("{} until you measure yours", assumption()),
                );
                (likely * factor, likely, factor, printed, e)
            }
        };
        if planned > Fraction::of_one(1.0) || planned <= Fraction::ZERO {
            return Err(vec![
                Problem::error(
                    "plan.efficiency",
                    format!(
                        "the efficiency would be {:.0} % in {wind} air, which no stove has",
                        planned.in_percent()
                    ),
                    "measure it once more, in calm air: then write the new line of `leeside trial`",
                )
                .at(self.file.clone(), self.path.clone()),
            ]);
        }
        Ok(Efficiency {
            planned,
            still,
            factor,
            printed,
            still_printed,
        })
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
        let terms: Vec<String> = batches::counted(batches)
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
            "heat that the pots take for 1 °C",
            terms.join(" + "),
            "kJ/°C",
            if stated {
                ""
            } else {
                "assumption: usual mass of such pots"
            },
        )
    }
}
