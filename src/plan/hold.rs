//! Fuel to hold a boil: to simmer, or to make water safe.

use super::batches;
use super::camps::{CampWork, assumption, behind, temperature};
use super::needs::{Hold, Need};
use super::setup::{Efficiency, Setup};
use super::steps::{Lines, Worked};
use super::types::Batch;
use crate::nouns::Meal;
use crate::physics::simmer;
use crate::units::{Energy, Power, Time};

/// The fuel of a hold, unrounded and printed.
pub(crate) struct Held {
    pub(crate) fuel_heat: Energy,
    pub(crate) powers: Vec<Power>,
    pub(crate) printed_fuel: Worked,
    pub(crate) printed_minutes: Worked,
}

/// Holds each batch at the boil in its own pot.
pub(crate) fn hold_at_boil(
    setup: &Setup<'_>,
    lines: &mut Lines,
    work: &CampWork,
    need: &Need,
    batches: &[Batch],
    efficiency: &Efficiency,
    hold: Time,
) -> Held {
    let figures = setup.figures;
    let stove = &setup.kitchen.stove;
    let boiling = &work.boiling;
    let minutes = match need.hold {
        Hold::Simmer(sea) => {
            let factor = Worked::given(figures.simmer_factor.value);
            let sea = Worked::given(sea.in_minutes());
            lines.work(
                format!("minutes to simmer where water boils at {boiling} °C"),
                format!("{sea} x {factor}^((100 - {boiling}) / 10)"),
                "min",
                behind(&figures.simmer_factor),
            )
        }
        _ => lines.given(
            "minutes at a rolling boil that make water safe here",
            Worked::given(hold.in_minutes()),
            "min",
            "the rule set of the trip",
        ),
    };
    let air = temperature(
        lines,
        "air around the pot",
        need.air,
        setup.units,
        "the trip",
    );
    let loss = figures
        .hold_loss
        .value
        .get(&work.plan.wind)
        .copied()
        .unwrap_or(0.0);
    let lid = if setup.kitchen.lid {
        1.0
    } else {
        figures.no_lid_hold.value
    };
    // The wind is in the heat loss already.
    let still = efficiency.still;

    let mut fuel_heat = Energy::ZERO;
    let mut powers = Vec::new();
    for batch in batches {
        let pot = &setup.kitchen.pots[batch.pot];
        let power = simmer::hold_power(loss, pot.capacity, work.plan.boiling, need.air, lid);
        fuel_heat += simmer::fuel_power(power, still, stove.least_power) * hold;
        powers.push(power);
    }
    let mut flames = Vec::new();
    for (index, count) in batches::counted(batches) {
        let pot = &setup.kitchen.pots[index];
        let name = pot.name();
        let cubic_metres = Worked::four(pot.capacity.in_litres() / 1000.0);
        let area = lines.work(
            format!("surface of the {name} pot, as tall as wide"),
            format!("1.5 x 3.1416 x (4 x {cubic_metres} / 3.1416)^(2 / 3)"),
            "m2",
            "",
        );
        let h = Worked::given(loss);
        let warmer = if work.plan.boiling > need.air {
            format!("({boiling} - {air})")
        } else {
            "0".to_owned()
        };
        let mut formula = format!("{h} x {area} x {warmer}");
        if !setup.kitchen.lid {
            formula += &format!(" x {}", Worked::given(lid));
        }
        let lost = lines.work(
            format!(
                "heat that the {name} pot loses at the boil, {}",
                work.plan.wind
            ),
            formula,
            "W",
            behind(&figures.hold_loss),
        );
        let flame = lines.work(
            "flame that makes up for it",
            format!("{lost} / {}", efficiency.still_printed),
            "W",
            "",
        );
        let least = Worked::given(stove.least_power.in_watts());
        let flame = if flame.value() < least.value() {
            lines.given(
                "but the burner's least flame is more",
                least,
                "W",
                assumption(),
            )
        } else {
            flame
        };
        flames.push(if count == 1 {
            flame.to_string()
        } else {
            format!("{count} x {flame}")
        });
    }
    let lhv = &setup.heating.printed;
    let what = if need.meal == Meal::Treatment {
        "hold the boil"
    } else {
        "simmer"
    };
    let printed_fuel = lines.work(
        format!("fuel to {what}, each batch in its own pot"),
        format!("{minutes} x 60 x ({}) / 1000 / {lhv}", flames.join(" + ")),
        "g",
        "",
    );
    Held {
        fuel_heat,
        powers,
        printed_fuel,
        printed_minutes: minutes,
    }
}
