//! Which pots the water of a row goes into, and how many fillings an alcohol burner takes.

use super::camps::{assumption, behind};
use super::needs::{Hold, Need, Part};
use super::setup::Setup;
use super::steps::{Lines, Worked};
use super::types::Batch;
use crate::phrase::{Phrase, phrase};
use crate::physics::heating::{Potful, Snow};
use crate::physics::{heating, pots};
use crate::units::{Energy, Mass, Power, Temperature, Time, Volume, Warming};

/// The smallest batch that anyone would boil on an alcohol burner: where a filling boils less
/// than this, the stove does not suit, and the plan says so.
const LEAST_BATCH: Volume = Volume::litres(0.1);

/// Where water or snow starts.
#[derive(Clone, Copy)]
pub(crate) struct Start<'a> {
    pub(crate) at: Temperature,
    pub(crate) printed: &'a Worked,
}

/// How the pots of a part start and end.
pub(crate) struct Pots<'a> {
    pub(crate) start: Start<'a>,
    pub(crate) end: Temperature,
    pub(crate) end_printed: &'a Worked,
    pub(crate) snow: bool,
}

/// A batch with its pot, as it is heated.
pub(crate) fn potful(setup: &Setup<'_>, batch: &Batch, start: Temperature, snow: bool) -> Potful {
    let figures = setup.figures;
    Potful {
        water: Mass::kilograms(batch.water.in_litres() * figures.water_density.value),
        water_heat: figures.water_heat.value,
        pot_joules_per_kelvin: setup.pot_joules_per_kelvin(batch.pot),
        start,
        end: batch.end,
        snow: snow.then_some(Snow {
            heat: figures.ice_heat.value,
            fusion: figures.fusion.value,
        }),
    }
}

/// Divides the water of a part among the pots, and prints how.
pub(crate) fn fill_pots(
    setup: &Setup<'_>,
    lines: &mut Lines,
    part: &Part,
    need: &Need,
    pots: &Pots<'_>,
    minutes: Time,
    power: Power,
) -> Vec<Batch> {
    let figures = setup.figures;
    let fill = if pots.snow {
        &figures.fill_snow
    } else {
        &figures.fill
    };
    let all = &setup.kitchen.pots;
    // Of equal potfuls the first is taken: with a burner's filling as the limit that should be
    // the heavier pot, so that a worse stove never seems to need less fuel.
    let mut order: Vec<usize> = (0..all.len()).collect();
    let cap = setup.fill().map(|_| {
        order.sort_by(|a, b| {
            setup
                .pot_joules_per_kelvin(*b)
                .total_cmp(&setup.pot_joules_per_kelvin(*a))
        });
        one_filling(setup, lines, pots, need, minutes, power)
    });
    let capacities: Vec<Volume> = order.iter().map(|pot| all[*pot].capacity).collect();
    let filled = match cap {
        Some(cap) => pots::batches_capped(part.water, &capacities, fill.value, cap),
        None => pots::batches(part.water, &capacities, fill.value),
    };
    let batches: Vec<Batch> = filled
        .into_iter()
        .map(|(pot, water)| Batch {
            pot: order[pot],
            water,
            end: pots.end,
        })
        .collect();
    if let Some(largest) = all.iter().map(|pot| pot.capacity).reduce(Volume::max) {
        let capacity = Worked::four(largest.in_litres());
        let share = Worked::given(fill.value.in_one());
        lines.work(
            phrase!("line-potful-largest-pot"),
            format!("{capacity} x {share}"),
            "L",
            behind(fill),
        );
    }
    lines.given(
        phrase!("line-batches", batches = said(setup, &batches)),
        Worked::given(batches.len() as f64),
        "",
        Phrase::none(),
    );
    batches
}

/// Batches in words: `2 x 2.25 L in aluminium 3 L, 0.5 L in aluminium 1 L`.
fn said(setup: &Setup<'_>, batches: &[Batch]) -> Phrase {
    let mut runs: Vec<(usize, String, usize)> = Vec::new();
    for batch in batches {
        let litres = Worked::four(batch.water.in_litres()).text();
        match runs.last_mut() {
            Some((pot, same, count)) if *pot == batch.pot && *same == litres => *count += 1,
            _ => runs.push((batch.pot, litres, 1)),
        }
    }
    let each = runs.into_iter().map(|(pot, litres, count)| {
        let pot = &setup.kitchen.pots[pot];
        phrase!("batches-in-pot", count = count, litres = litres, pot = pot)
    });
    each.reduce(|some, more| phrase!("batches-and", some = some, more = more))
        .unwrap_or_else(|| phrase!("batches-none"))
}

/// Heat of the fuel in one filling. What stays in the burner at the end is carried beside it
/// (`containers`), not taken from the boil: 50 mL boil about 0.85 L at 38 %.
fn filling_heat(setup: &Setup<'_>) -> Energy {
    let fill = setup.fill().unwrap_or(Volume::ZERO);
    setup.heating.value * Mass::kilograms(fill.in_litres() * setup.kitchen.fuel.density)
}

/// Water that one filling of an alcohol burner brings to its end, as printed.
///
/// Minutes at the boil are kept back from it when they fit into half a filling (a boil that makes
/// water safe always does and must not be cut short); a longer simmer takes fillings of its own.
fn one_filling(
    setup: &Setup<'_>,
    lines: &mut Lines,
    pots: &Pots<'_>,
    need: &Need,
    minutes: Time,
    power: Power,
) -> Volume {
    let figures = setup.figures;
    let stove = &setup.kitchen.stove;
    let millilitres = Worked::given(setup.fill().unwrap_or(Volume::ZERO).in_millilitres());
    let density = Worked::given(setup.kitchen.fuel.density);
    let lhv = &setup.heating.printed;
    let mut heat = lines.work(
        phrase!("line-heat-one-filling-burner"),
        format!("{millilitres} x {density} x {lhv}"),
        "kJ",
        assumption(),
    );
    let held = stove.least_power * minutes;
    if need.hold != Hold::None && held <= filling_heat(setup) * 0.5 {
        let watts = Worked::given(stove.least_power.in_watts());
        let minutes = Worked::four(minutes.in_minutes());
        heat = lines.work(
            phrase!("line-less-what-minutes-boil"),
            format!("{heat} - {watts} x {minutes} x 60 / 1000"),
            "kJ",
            Phrase::none(),
        );
    }
    let (start, end) = (pots.start.printed, pots.end_printed);
    let heaviest = (0..setup.kitchen.pots.len())
        .max_by(|a, b| {
            setup
                .pot_joules_per_kelvin(*a)
                .total_cmp(&setup.pot_joules_per_kelvin(*b))
        })
        .unwrap_or(0);
    let pot = &setup.kitchen.pots[heaviest];
    let mass = Worked::four(pot.mass.in_kilograms());
    let c_pot = Worked::given(pot.specific_heat.in_kilojoules_per_kilogram_kelvin());
    let c = Worked::given(figures.water_heat.value.in_kilojoules_per_kilogram_kelvin());
    let rise = (pots.end - pots.start.at).max(Warming::ZERO);
    if rise == Warming::ZERO {
        return Volume::litres(f64::INFINITY);
    }
    let litre = if pots.snow {
        let ice = Worked::given(figures.ice_heat.value.in_kilojoules_per_kilogram_kelvin());
        let fusion = Worked::given(figures.fusion.value.in_joules_per_kilogram() / 1000.0);
        format!("({ice} x (0 - {start}) + {fusion} + {c} x {end})")
    } else {
        format!("({c} x ({end} - {start}))")
    };
    let Some(stays) = staying(setup, pots, need, power) else {
        // It never boils, and the row says so.
        return Volume::litres(f64::INFINITY);
    };
    let e = lines.given(
        phrase!("line-share-fuels-heat-stays"),
        Worked::four(stays),
        "",
        assumption(),
    );
    let most = lines.work(
        phrase!("line-one-filling-heats-most"),
        format!("({heat} x {e} - {mass} x {c_pot} x ({end} - {start})) / {litre}"),
        "L",
        Phrase::none(),
    );
    if most.value() < LEAST_BATCH.in_litres() {
        lines.given(
            phrase!("line-too-little-this-stove"),
            Worked::given(LEAST_BATCH.in_litres()),
            "L",
            assumption(),
        );
        return LEAST_BATCH;
    }
    Volume::litres(most.value())
}

/// Share of the fuel's heat that stays in the pot that loses most, on the way to its end; none
/// where it never gets there.
fn staying(setup: &Setup<'_>, pots: &Pots<'_>, need: &Need, power: Power) -> Option<f64> {
    let index = (0..setup.kitchen.pots.len()).max_by(|a, b| {
        let capacity = |pot: usize| setup.kitchen.pots[pot].capacity.in_litres();
        capacity(*a).total_cmp(&capacity(*b))
    })?;
    let batch = Batch {
        pot: index,
        water: Volume::litres(0.5),
        end: pots.end,
    };
    let potful = potful(setup, &batch, pots.start.at, pots.snow);
    let loss = setup.loss(need.wind, setup.kitchen.pots[index].capacity, need.air);
    let flow = power * setup.flame(need.wind).share();
    let heated = heating::heat(flow, &loss, &potful, setup.figures.boil_margin.value);
    let (time, lost) = (heated.time()?, heated.lost(flow)?);
    let through = flow * time;
    Some((through - lost) / (power * time))
}

/// Fillings of an alcohol burner for the heat of the fuel that each batch burns; 0 for other stoves.
pub(crate) fn fills(setup: &Setup<'_>, each: &[Energy], hold_each: Energy) -> u32 {
    // Rounded numbers stand behind the size of a batch: a filling may be over by as much.
    const ROUNDING: f64 = 0.002;
    if setup.fill().is_none() {
        return 0;
    }
    let one = filling_heat(setup);
    each.iter()
        .map(|burnt| (((*burnt + hold_each) / one - ROUNDING).ceil()).max(1.0) as u32)
        .sum()
}
