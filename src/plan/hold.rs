//! Fuel to hold a boil: to simmer, or to make water safe.

use super::camps::{CampWork, assumption, behind, temperature};
use super::needs::{Hold, Need};
use super::setup::Setup;
use super::steps::{Lines, Worked};
use super::terms::HoldTerm;
use super::types::{Batch, counted};
use crate::nouns::{Meal, Wind};
use crate::phrase::{Phrase, phrase};
use crate::physics::simmer;
use crate::units::{Energy, Power, Temperature, Time, Volume};

/// The fuel of a hold, unrounded and printed.
pub(crate) struct Held {
    pub(crate) fuel_heat: Energy,
    pub(crate) terms: Vec<HoldTerm>,
    /// Whether a flame makes up for every pot's loss.
    pub(crate) can_hold: bool,
    pub(crate) printed_fuel: Worked,
    pub(crate) printed_minutes: Worked,
}

/// What a held pot loses: at the boil, and without a lid what evaporates a little below it.
fn lost(
    setup: &Setup<'_>,
    wind: Wind,
    capacity: Volume,
    boiling: Temperature,
    air: Temperature,
) -> Power {
    let loss = setup.loss(wind, capacity, air);
    let held_at = boiling - setup.figures.open_top.value.held_below;
    let open = loss
        .open
        .map_or(Power::ZERO, |open| open.evaporation(held_at));
    (loss.dry(boiling) + open).max(Power::ZERO)
}

/// Holds each batch at the boil in its own pot.
pub(crate) fn hold_at_boil(
    setup: &Setup<'_>,
    lines: &mut Lines,
    work: &CampWork,
    need: &Need,
    batches: &[Batch],
    hold: Time,
    power: Power,
) -> Held {
    let figures = setup.figures;
    let stove = &setup.kitchen.stove;
    let boiling = &work.boiling;
    let minutes = match need.hold {
        Hold::Simmer(sea) => {
            let factor = Worked::given(figures.simmer_factor.value);
            let sea = Worked::given(sea.in_minutes());
            lines.work(
                phrase!("line-minutes-simmer-where-water", boiling = boiling),
                format!("{sea} x {factor}^((100 - {boiling}) / 10)"),
                "min",
                behind(&figures.simmer_factor),
            )
        }
        _ => lines.given(
            phrase!("line-minutes-rolling-boil-make"),
            Worked::given(hold.in_minutes()),
            "min",
            phrase!("why-rule-set"),
        ),
    };
    let air = temperature(
        lines,
        phrase!("line-air-around-pot"),
        need.air,
        setup.units,
        phrase!("why-trip"),
    );
    // The wind is in the heat loss already.
    let share = setup.flame(need.wind).still;
    let most = power * setup.flame(need.wind).share();
    let least = stove.least_power.min(power);

    let mut fuel_heat = Energy::ZERO;
    let mut terms = Vec::new();
    let mut can_hold = true;
    let mut flames = Vec::new();
    for (index, count) in counted(batches) {
        let capacity = setup.kitchen.pots[index].capacity;
        let at = |wind: Wind| lost(setup, wind, capacity, work.plan.boiling, need.air);
        let now = at(need.wind);
        can_hold &= now <= most;
        fuel_heat += simmer::fuel_power(now, share, least) * hold * count as f64;
        terms.push(HoldTerm {
            count: count as f64,
            lost: [at(need.wind.calmer()), now, at(need.wind.windier())],
            share,
            least,
            time: hold,
        });
        let flame = print_flame(setup, lines, work, need, index, now, &air);
        let printed_least = Worked::given(least.in_watts());
        let flame = if flame.value() < printed_least.value() {
            lines.given(
                phrase!("line-but-burners-least-flame"),
                printed_least,
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
        phrase!("line-fuel-to-hold")
    } else {
        phrase!("line-fuel-to-simmer")
    };
    let printed_fuel = lines.work(
        what,
        format!("{minutes} x 60 x ({}) / 1000 / {lhv}", flames.join(" + ")),
        "g",
        Phrase::none(),
    );
    Held {
        fuel_heat,
        terms,
        can_hold,
        printed_fuel,
        printed_minutes: minutes,
    }
}

/// The flame that makes up for what a held pot loses.
fn print_flame(
    setup: &Setup<'_>,
    lines: &mut Lines,
    work: &CampWork,
    need: &Need,
    index: usize,
    exact: Power,
    air: &Worked,
) -> Worked {
    let figures = setup.figures;
    let boiling = &work.boiling;
    let pot = &setup.kitchen.pots[index];
    let name = pot;
    let cubic_metres = Worked::four(pot.capacity.in_litres() / 1000.0);
    let area = lines.work(
        phrase!("line-pot-surface", pot = name),
        format!("1.5 x 3.1416 x (4 x {cubic_metres} / 3.1416)^(2 / 3)"),
        "m2",
        Phrase::none(),
    );
    let h = Worked::given(setup.flame(need.wind).loss);
    let warmer = if work.plan.boiling > need.air {
        format!("({boiling} - {air})")
    } else {
        "0".to_owned()
    };
    let mut formula = format!("{h} x {area} x {warmer}");
    if !setup.kitchen.lid {
        let loss = setup.loss(need.wind, pot.capacity, need.air);
        let dry = loss.dry(work.plan.boiling).max(Power::ZERO);
        let steam = lines.given(
            phrase!("line-without-lid-open-top"),
            Worked::four((exact - dry).in_watts()),
            "W",
            behind(&figures.open_top),
        );
        formula += &format!(" + {steam}");
    }
    let lost = lines.work(
        phrase!("line-pot-loses-at-boil", pot = name, wind = need.wind),
        formula,
        "W",
        behind(&figures.pot_loss),
    );
    let still = setup.print_still(lines);
    lines.work(
        phrase!("line-flame-makes-up"),
        format!("{lost} / {still}"),
        "W",
        Phrase::none(),
    )
}
