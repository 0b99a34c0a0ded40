//! Heat into water, snow and pots, exact and as printed.

use super::batches::{self, Pots, Start, potful};
use super::camps::{CampWork, behind};
use super::needs::{End, Need, Part};
use super::setup::Setup;
use super::steps::{Lines, Worked};
use super::types::{Batch, Heat};
use crate::nouns::WaterFrom;
use crate::phrase::{Phrase, phrase};
use crate::physics::heating::Potful;
use crate::physics::water;
use crate::units::{Energy, Mass, Power, Temperature, Time, Units, Volume, Warming};

/// The likely heat of parts of a row, before rounding and as printed.
pub(crate) struct Heated {
    pub(crate) heat: Heat,
    pub(crate) batches: Vec<Batch>,
    /// Printed sum of water, melt and pots, kJ.
    pub(crate) printed: Worked,
    /// The same potfuls as they are heated.
    pub(crate) potfuls: Vec<Potful>,
    /// Their end as printed.
    pub(crate) end_printed: Worked,
}

/// What a part of a row is called on its lines.
fn called(need: &Need, part: &Part) -> Phrase {
    match part.end {
        End::At(at) if need.parts.len() > 1 => {
            phrase!(
                "part-to",
                meal = need.meal,
                at = Worked::given(at.in_celsius())
            )
        }
        _ => phrase!("part", meal = need.meal),
    }
}

/// Water, batches and heat of one part.
pub(crate) fn heat_part(
    setup: &Setup<'_>,
    lines: &mut Lines,
    work: &CampWork,
    need: &Need,
    part: &Part,
    hold: Time,
    power: Power,
) -> Heated {
    let figures = setup.figures;
    let snow = work.plan.water_from == WaterFrom::Snow;
    let start = Start {
        at: work.plan.water,
        printed: &work.water,
    };
    let (end, end_printed) = match part.end {
        End::Boil => (work.plan.boiling, work.boiling.clone()),
        End::At(at) => {
            let at = at.min(work.plan.boiling);
            (at, Worked::hundredths(at.in_celsius()))
        }
    };
    let name = called(need, part);
    let litres = match part.a_person {
        Some(each) => a_person(setup, lines, &name, each),
        None => lines.given(
            phrase!("line-water-for", part = name),
            Worked::four(part.water.in_litres()),
            "L",
            phrase!("why-common-practice"),
        ),
    };

    let pots = Pots {
        start,
        end,
        end_printed: &end_printed,
        snow,
    };
    let batches = batches::fill_pots(setup, lines, part, need, &pots, hold, power);

    // Water already warmer than it need be takes no heat.
    let from = if snow {
        Temperature::celsius(0.0)
    } else {
        start.at
    };
    let rise = (end - from).max(Warming::ZERO);
    let pot_rise = (end - start.at).max(Warming::ZERO);
    let mass = Mass::kilograms(part.water.in_litres() * figures.water_density.value);
    let capacity: f64 = batches
        .iter()
        .map(|batch| setup.pot_joules_per_kelvin(batch.pot))
        .sum();
    let heat = Heat {
        water: water::heat_to_warm(mass, figures.water_heat.value, rise),
        melt: if snow {
            water::heat_to_melt(mass, figures.ice_heat.value, start.at, figures.fusion.value)
        } else {
            Energy::ZERO
        },
        pot: Energy::joules(capacity * pot_rise.kelvins()),
        ..Heat::default()
    };
    let printed = print_heat(
        setup, lines, &name, &litres, &pots, &batches, rise, pot_rise,
    );
    let potfuls = batches
        .iter()
        .map(|batch| potful(setup, batch, start.at, snow))
        .collect();
    Heated {
        heat,
        batches,
        printed,
        potfuls,
        end_printed,
    }
}

/// Litres for the kitchen, with a conversion where the trip counted in fluid ounces.
fn a_person(setup: &Setup<'_>, lines: &mut Lines, name: &Phrase, each: Volume) -> Worked {
    let people = setup.kitchen.people;
    let ounces = each.in_fluid_ounces();
    let whole = |value: f64, of: f64| (value * of - (value * of).round()).abs() < 1e-6;
    // A volume that is round in fluid ounces and not in litres was written in ounces or cups.
    let litres =
        if setup.units == Units::Us && whole(ounces, 4.0) && !whole(each.in_litres(), 1000.0) {
            let ounces = Worked::given(ounces);
            lines.work(
                phrase!(
                    "line-water-for-each-in-litres",
                    part = name,
                    ounces = ounces
                ),
                format!("{ounces} x 0.0295735"),
                "L",
                Phrase::none(),
            )
        } else {
            Worked::four(each.in_litres())
        };
    lines.work(
        phrase!("line-water-for-people", part = name, people = people),
        format!("{litres} x {people}"),
        "L",
        Phrase::none(),
    )
}

/// Prints melt, water, pots and their sum.
#[expect(
    clippy::too_many_arguments,
    reason = "one printed paragraph of one part"
)]
fn print_heat(
    setup: &Setup<'_>,
    lines: &mut Lines,
    name: &Phrase,
    litres: &Worked,
    pots: &Pots<'_>,
    batches: &[Batch],
    rise: Warming,
    pot_rise: Warming,
) -> Worked {
    let figures = setup.figures;
    let (start, end) = (pots.start.printed, pots.end_printed);
    let density = figures.water_density.value;
    let kilograms = if density == 1.0 {
        litres.clone()
    } else {
        lines.work(
            phrase!("line-mass-of-water-for", part = name),
            format!("{litres} x {}", Worked::given(density)),
            "kg",
            behind(&figures.water_density),
        )
    };
    let c = Worked::given(figures.water_heat.value.in_kilojoules_per_kilogram_kelvin());
    let mut sum = Vec::new();
    if pots.snow {
        let ice = Worked::given(figures.ice_heat.value.in_kilojoules_per_kilogram_kelvin());
        let fusion = Worked::given(figures.fusion.value.in_joules_per_kilogram() / 1000.0);
        let melt = lines.work(
            phrase!("line-heat-to-melt-for", part = name),
            format!("{kilograms} x ({ice} x (0 - {start}) + {fusion})"),
            "kJ",
            behind(&figures.fusion),
        );
        sum.push(melt.to_string());
    }
    let from = if pots.snow {
        "0".to_owned()
    } else {
        start.to_string()
    };
    if rise > Warming::ZERO {
        let warm = lines.work(
            phrase!("line-heat-to-warm-for", part = name),
            format!("{kilograms} x {c} x ({end} - {from})"),
            "kJ",
            behind(&figures.water_heat),
        );
        sum.push(warm.to_string());
    }
    if pot_rise > Warming::ZERO && !batches.is_empty() {
        let per_kelvin = setup.print_pots(lines, batches);
        let pot = lines.work(
            phrase!("line-heat-to-warm-pots"),
            format!("{per_kelvin} x ({end} - {start})"),
            "kJ",
            Phrase::none(),
        );
        sum.push(pot.to_string());
    }
    if sum.is_empty() {
        return lines.given(
            phrase!("line-useful-heat-none", part = name),
            Worked::four(0.0),
            "kJ",
            Phrase::none(),
        );
    }
    lines.work(
        phrase!("line-useful-heat-for", part = name),
        sum.join(" + "),
        "kJ",
        Phrase::none(),
    )
}
