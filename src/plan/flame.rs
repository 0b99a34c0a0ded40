//! What a stove's flame brings into a pot behind its screen in each wind, and what the pot loses.

use crate::diag::{Outcome, Problem, told};
use crate::nouns::{Family, Figures, Kitchen, Library, Screen, Stove, Wind, WindFactors};
use crate::physics::heating::{Loss, OpenTop, Potful, ReferenceBoil, surface_m2};
use crate::physics::water::heat_to_warm;
use crate::units::{Fraction, Mass, Power, Temperature, Volume, Warming};
use std::sync::Arc;

/// A flame in one wind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Flame {
    /// Share of the fuel's heat that reaches a pot in still air, before the pot's loss.
    pub(crate) still: Fraction,
    /// What screen and wind leave of it.
    pub(crate) factor: f64,
    /// Loss of wall, lid and bottom, W/(m2 K).
    pub(crate) loss: f64,
    /// The same of an open surface, which lies below the rim.
    pub(crate) open_loss: f64,
}

impl Flame {
    /// Share of the fuel's heat that reaches the pot.
    pub(crate) fn share(&self) -> Fraction {
        self.still * self.factor
    }
}

/// The flames of a kitchen by wind, in the order of [`Wind::ALL`].
pub(crate) type Flames = [Flame; 3];

/// The screen that counts: a heat-exchanger pot always has its own.
fn screen_of(family: Family, screen: Screen) -> Screen {
    if family == Family::HeatExchanger {
        Screen::BuiltIn
    } else {
        screen
    }
}

/// A loss by wind, as a screen leaves it: that of the next calmer wind behind a natural, full or
/// built-in one, halfway to it behind a partial one.
fn screened(figures: &Figures, screen: Screen, wind: Wind) -> f64 {
    let at = |wind: Wind| {
        let table = &figures.pot_loss.value;
        table.get(&wind).copied().unwrap_or(0.0)
    };
    match screen {
        Screen::None => at(wind),
        Screen::Partial => (at(wind) + at(wind.calmer())) / 2.0,
        Screen::Natural | Screen::Full | Screen::BuiltIn => at(wind.calmer()),
    }
}

/// The reference boil of the library.
pub(crate) fn reference(figures: &Figures) -> ReferenceBoil {
    let of = &figures.reference_boil.value;
    let water = Mass::kilograms(of.water.in_litres() * figures.water_density.value);
    let one = Warming::of_kelvins(1.0);
    ReferenceBoil {
        pot: Potful {
            water,
            water_heat: figures.water_heat.value,
            pot_joules_per_kelvin: heat_to_warm(of.mass, of.heat, one).in_joules(),
            start: of.start,
            end: of.end,
            snow: None,
        },
        capacity: of.capacity,
        air: of.air,
    }
}

/// Shares of the fuel's heat that reach the pot of the reference boil by wind, as a stove with
/// these wind factors takes its efficiency times the factor: the still-air share first.
struct Own {
    still: f64,
    factors: [f64; 3],
}

fn own(
    figures: &Figures,
    efficiency: Fraction,
    power: Power,
    screen: Screen,
    factors: WindFactors,
) -> Own {
    let boil = reference(figures);
    let calm = screened(figures, Screen::None, Wind::Calm);
    let still = boil.flow(efficiency, power, calm) / power;
    let factors = [Wind::Calm, Wind::Breezy, Wind::Windy].map(|wind| {
        let loss = screened(figures, screen, wind);
        boil.flow(efficiency * factors.at(wind), power, loss) / power / still
    });
    Own { still, factors }
}

/// What no flame in the open does better than: the catalogue's burner on top of its canister
/// behind the same screen. Behind a full or built-in screen it does not stand.
fn most(library: &Library, screen: Screen) -> [f64; 3] {
    let none = [1.0; 3];
    if matches!(screen, Screen::Full | Screen::BuiltIn) {
        return none;
    }
    let top = |stove: &&Stove| stove.family == Family::CanisterOnTop;
    let Some(stove) = library.stoves.values().find(top) else {
        return none;
    };
    match stove.wind.get(&screen) {
        Some(factors) => {
            let (likely, power) = (stove.efficiency.likely, stove.power);
            own(&library.figures, likely, power, screen, *factors).factors
        }
        None => none,
    }
}

/// The flames of a stove of a still-air efficiency at a power, by wind.
pub(crate) fn flames(
    library: &Library,
    family: Family,
    efficiency: Fraction,
    power: Power,
    screen: Screen,
    factors: WindFactors,
) -> Flames {
    let figures = &library.figures;
    let screen = screen_of(family, screen);
    let own = own(figures, efficiency, power, screen, factors);
    let most = if family == Family::HeatExchanger {
        [1.0; 3]
    } else {
        most(library, screen)
    };
    let mut least = 1.0_f64;
    let mut index = 0;
    [Wind::Calm, Wind::Breezy, Wind::Windy].map(|wind| {
        // Wind on a weak burner is not all called loss: no windier flame is better than a calmer.
        let factor = own.factors[index].min(most[index]).min(least).min(1.0);
        least = least.min(own.factors[index]);
        index += 1;
        Flame {
            still: Fraction::of_one(own.still),
            factor,
            loss: screened(figures, screen, wind),
            open_loss: screened(figures, screen, wind.calmer()),
        }
    })
}

/// The still-air efficiency of a kitchen: the catalogue's likely value, or as measured, with the
/// wind of the trial taken out of it.
pub(crate) fn still_efficiency(kitchen: &Kitchen, factors: WindFactors) -> Fraction {
    match kitchen.measured {
        Some(measured) => measured.efficiency * (1.0 / factors.at(measured.wind)),
        None => kitchen.stove.efficiency.likely,
    }
}

/// How a pot loses heat on a flame.
pub(crate) fn loss(
    figures: &Figures,
    flame: &Flame,
    capacity: Volume,
    air: Temperature,
    lid: bool,
) -> Loss {
    let of = &figures.open_top.value;
    Loss {
        watts_per_kelvin: flame.loss * surface_m2(capacity),
        air,
        open: (!lid).then(|| {
            OpenTop::new(
                flame.open_loss,
                of.radiation,
                capacity,
                air,
                of.humidity,
                of.latent,
            )
        }),
    }
}

/// Refuses a still-air efficiency that no stove has: from 1 % to 95 %.
pub(crate) fn possible(efficiency: Fraction, file: &Arc<str>, path: &str) -> Outcome<()> {
    if (1.0..=95.0).contains(&efficiency.in_percent()) {
        return Ok(());
    }
    Err(vec![
        Problem::error(
            "plan.efficiency",
            told!(
                "the efficiency would be {efficiency} % in still air, which no stove has",
                efficiency = format!("{:.0}", efficiency.in_percent())
            ),
            "measure it once more, in calm air: then write the new line of `leeside trial`",
        )
        .at(file.clone(), path.to_owned()),
    ])
}
