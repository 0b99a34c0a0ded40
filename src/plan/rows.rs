//! One row: water, batches, heat, efficiency, fuel and minutes of one use of the stove.

use super::batches::{self, Pots};
use super::camps::{CampWork, assumption, behind, temperature};
use super::needs::{End, Hold, Need, Part};
use super::steps::{Lines, Worked};
use super::types::{Batch, Heat, Row, Terms};
use crate::diag::{Outcome, Problem};
use crate::nouns::{Figures, Kitchen, Library, Meal, WaterFrom, Wind, WindFactors};
use crate::physics::{fuel, simmer, water};
use crate::units::{
    Energy, Fraction, HeatingValue, Mass, Power, Temperature, Time, Units, Volume, Warming,
};
use std::sync::Arc;

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
    /// Its key path, for problems.
    pub(crate) path: String,
    /// The trip's file, for problems.
    pub(crate) file: Arc<str>,
    /// Heating value of its fuel.
    pub(crate) heating: Heating,
    /// The reader's units.
    pub(crate) units: Units,
    /// What of an alcohol fill burns: all but what stays in the burner.
    pub(crate) burnt_of_fill: Fraction,
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
    ) -> Self {
        let left = library
            .containers
            .values()
            .filter(|container| container.fuels.contains(&kitchen.fuel.kind))
            .map(|container| container.residue_share)
            .fold(Fraction::ZERO, Fraction::max);
        Self {
            figures: &library.figures,
            kitchen,
            path: format!("kitchens[{index}]"),
            file: file.clone(),
            heating,
            units,
            burnt_of_fill: Fraction::of_one(1.0) - left,
        }
    }

    /// The stove's wind factors behind this kitchen's screen.
    fn factors(&self) -> Outcome<WindFactors> {
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
    /// Before the wind factor, as the spread draws it.
    pub(crate) still: Fraction,
    /// The wind factor.
    pub(crate) factor: f64,
    /// Planned, as printed.
    pub(crate) printed: Worked,
    /// The text of the still-air efficiency, for the hold.
    still_text: String,
}

impl Setup<'_> {
    /// The efficiency in a wind, printed as a line.
    pub(crate) fn efficiency(&self, lines: &mut Lines, wind: Wind) -> Outcome<Efficiency> {
        let factors = self.factors()?;
        let factor = factors.at(wind);
        let behind_screen = format!("windscreen {}, {wind}", self.kitchen.screen);
        let f = Worked::given(factor);
        let (planned, still, printed, still_text) = match self.kitchen.measured {
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
                (
                    planned,
                    measured.efficiency / trial,
                    printed,
                    format!("{m} / {t}"),
                )
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
                (likely * factor, likely, printed, e.to_string())
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
            still_text,
        })
    }
}

/// The likely heat of parts of a row, before rounding and as printed.
struct Heated {
    heat: Heat,
    terms: Terms,
    batches: Vec<Batch>,
    /// Printed sum of water, melt and pots, kJ.
    printed: Worked,
    /// Boil heat of each batch, unrounded: for the fillings of an alcohol burner.
    each: Vec<Energy>,
}

/// Where water or snow starts.
#[derive(Clone, Copy)]
pub(crate) struct Start<'a> {
    pub(crate) at: Temperature,
    pub(crate) printed: &'a Worked,
}

/// Works out one row.
///
/// # Errors
/// When the kitchen's efficiency cannot be worked out.
pub(crate) fn work(setup: &Setup<'_>, camp: usize, work: &CampWork, need: &Need) -> Outcome<Row> {
    let mut lines = Lines::default();
    let figures = setup.figures;
    let stove = &setup.kitchen.stove;
    let mut aside = Lines::default();
    let efficiency = setup.efficiency(&mut aside, work.plan.wind)?;
    let hold = need
        .hold
        .minutes(work.plan.boiling, figures.simmer_factor.value);

    let mut heated = Vec::new();
    for part in &need.parts {
        heated.push(heat_part(
            setup,
            &mut lines,
            work,
            need,
            part,
            hold,
            &efficiency,
        ));
    }
    let boil = match heated.as_slice() {
        [only] => only.printed.clone(),
        many => {
            let sum: Vec<String> = many.iter().map(|one| one.printed.to_string()).collect();
            lines.work("useful heat in all", sum.join(" + "), "kJ", "")
        }
    };
    let mut heat = Heat::default();
    let mut terms = Terms {
        hold_time: hold,
        least: stove.least_power,
        ..Terms::default()
    };
    let mut batches = Vec::new();
    let mut each = Vec::new();
    for one in heated {
        heat.water += one.heat.water;
        heat.pot += one.heat.pot;
        heat.melt += one.heat.melt;
        terms.amount += one.terms.amount;
        terms.amount_per_kelvin += one.terms.amount_per_kelvin;
        terms.pot += one.terms.pot;
        terms.pot_per_kelvin += one.terms.pot_per_kelvin;
        batches.extend(one.batches);
        each.extend(one.each);
    }
    let boil_heat = heat.water + heat.pot + heat.melt;

    let e = setup.efficiency(&mut lines, work.plan.wind)?.printed;
    let lhv = &setup.heating.printed;
    let boil_fuel = lines.work(
        "fuel to heat it",
        format!("{boil} / ({e} x {lhv})"),
        "g",
        "",
    );
    let mut sum = vec![boil_fuel.to_string()];
    let mut hold_fuel = Energy::ZERO;
    let mut hold_each = Energy::ZERO;
    let mut hold_minutes = None;
    if hold > Time::ZERO && !batches.is_empty() {
        let held = hold_at_boil(setup, &mut lines, work, need, &batches, &efficiency, hold);
        hold_fuel = held.fuel_heat;
        hold_each = held.fuel_heat / batches.len() as f64;
        terms.hold = held.powers;
        heat.simmer = held.fuel_heat * efficiency.planned;
        sum.push(held.printed_fuel.to_string());
        hold_minutes = Some(held.printed_minutes);
    }
    let to_light = if need.lights {
        stove.to_light
    } else {
        Mass::ZERO
    };
    terms.to_light = to_light;
    if to_light > Mass::ZERO {
        let grams = lines.given(
            "fuel to light the stove once",
            Worked::given(to_light.in_grams()),
            "g",
            assumption(),
        );
        sum.push(grams.to_string());
    }
    let grams = if sum.len() > 1 {
        lines.work(
            format!("fuel for {} once", need.meal),
            sum.join(" + "),
            "g",
            "",
        )
    } else {
        boil_fuel
    };
    heat.useful = boil_heat + heat.simmer;

    let fills = batches::fills(setup, &efficiency, &each, hold_each);
    let boiling_time = boil_heat / (stove.power * efficiency.planned);
    let waits = stove.refill_wait * f64::from(fills.saturating_sub(1));
    let many = batches.len() as f64;
    minutes(
        setup,
        &mut lines,
        &boil,
        &e,
        batches.len(),
        hold_minutes,
        fills,
    );
    let flame = boiling_time + hold * many;
    debug_assert!(hold_fuel >= Energy::ZERO);

    Ok(Row {
        camp,
        meal: need.meal,
        times: need.times,
        water: need.parts.iter().map(|part| part.water).sum(),
        batches,
        heat,
        efficiency: efficiency.planned,
        still_efficiency: efficiency.still,
        wind_factor: efficiency.factor,
        fuel: Mass::grams(grams.value()),
        to_light,
        hold,
        flame,
        fills,
        minutes: flame + figures.set_up.value * many + waits,
        may_not_boil: may_not_boil(setup, work.plan.wind)?,
        terms,
        steps: lines.steps(),
    })
}

/// Whether in this wind the stove may fail; one that was measured in it did not.
fn may_not_boil(setup: &Setup<'_>, wind: Wind) -> Outcome<bool> {
    let proven = setup
        .kitchen
        .measured
        .is_some_and(|measured| measured.wind == wind);
    Ok(wind == Wind::Windy && setup.factors()?.may_fail_windy && !proven)
}

/// Prints the minutes of a row.
fn minutes(
    setup: &Setup<'_>,
    lines: &mut Lines,
    boil: &Worked,
    efficiency: &Worked,
    batches: usize,
    hold: Option<Worked>,
    fills: u32,
) {
    let stove = &setup.kitchen.stove;
    let power = Worked::given(stove.power.in_kilowatts());
    let burn = lines.work(
        format!("minutes of flame at {power} kW"),
        format!("{boil} / ({power} x {efficiency}) / 60"),
        "min",
        assumption(),
    );
    let set_up = Worked::given(setup.figures.set_up.value.in_minutes());
    let mut formula = format!("{burn} + {batches} x {set_up}");
    if let Some(hold) = hold {
        formula += &format!(" + {batches} x {hold}");
    }
    if fills > 1 {
        let wait = Worked::given(stove.refill_wait.in_minutes());
        formula += &format!(" + {} x {wait}", fills - 1);
    }
    let say = if fills > 1 {
        "minutes with set-up and the waits until the burner is cold"
    } else {
        "minutes with set-up"
    };
    lines.work(say, formula, "min", behind(&setup.figures.set_up));
}

/// What a part of a row is called on its lines.
fn called(need: &Need, part: &Part) -> String {
    match part.end {
        End::At(at) if need.parts.len() > 1 => {
            format!("{} to {} °C", need.meal, Worked::given(at.in_celsius()))
        }
        _ => need.meal.to_string(),
    }
}

/// Water, batches and heat of one part.
fn heat_part(
    setup: &Setup<'_>,
    lines: &mut Lines,
    work: &CampWork,
    need: &Need,
    part: &Part,
    hold: Time,
    efficiency: &Efficiency,
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
            format!("water for {name}"),
            Worked::four(part.water.in_litres()),
            "L",
            "common practice",
        ),
    };

    let pots = Pots {
        start,
        end,
        end_printed: &end_printed,
        snow,
    };
    let batches = batches::fill_pots(setup, lines, part, &pots, need.hold, hold, efficiency);

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
    let one_kelvin = Warming::of_kelvins(1.0);
    let moves = if snow {
        start.at < Temperature::celsius(0.0)
    } else {
        rise > Warming::ZERO
    };
    let terms = Terms {
        amount: heat.water + heat.melt,
        amount_per_kelvin: if !moves {
            Energy::ZERO
        } else if snow {
            water::heat_to_warm(mass, figures.ice_heat.value, one_kelvin)
        } else {
            water::heat_to_warm(mass, figures.water_heat.value, one_kelvin)
        },
        pot: heat.pot,
        pot_per_kelvin: if moves {
            Energy::joules(capacity)
        } else {
            Energy::ZERO
        },
        ..Terms::default()
    };

    let printed = print_heat(
        setup, lines, &name, &litres, &pots, &batches, rise, pot_rise,
    );
    let each = batches
        .iter()
        .map(|batch| {
            let share = batch.water / part.water;
            (heat.water + heat.melt) * share
                + Energy::joules(setup.pot_joules_per_kelvin(batch.pot) * pot_rise.kelvins())
        })
        .collect();
    Heated {
        heat,
        terms,
        batches,
        printed,
        each,
    }
}

/// Litres for the kitchen, with a conversion where the trip counted in fluid ounces.
fn a_person(setup: &Setup<'_>, lines: &mut Lines, name: &str, each: Volume) -> Worked {
    let people = setup.kitchen.people;
    let ounces = each.in_fluid_ounces();
    let whole = |value: f64, of: f64| (value * of - (value * of).round()).abs() < 1e-6;
    // A volume that is round in fluid ounces and not in litres was written in ounces or cups.
    let litres =
        if setup.units == Units::Us && whole(ounces, 4.0) && !whole(each.in_litres(), 1000.0) {
            let ounces = Worked::given(ounces);
            lines.work(
                format!("water for {name}, each person, {ounces} fl oz in litres"),
                format!("{ounces} x 0.0295735"),
                "L",
                "",
            )
        } else {
            Worked::four(each.in_litres())
        };
    lines.work(
        format!("water for {name}, {people} people"),
        format!("{litres} x {people}"),
        "L",
        "",
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
    name: &str,
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
            format!("mass of water for {name}"),
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
            format!("heat to melt the snow for {name}"),
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
            format!("heat to warm the water for {name}"),
            format!("{kilograms} x {c} x ({end} - {from})"),
            "kJ",
            behind(&figures.water_heat),
        );
        sum.push(warm.to_string());
    }
    if pot_rise > Warming::ZERO && !batches.is_empty() {
        let per_kelvin = setup.print_pots(lines, batches);
        let pot = lines.work(
            "heat to warm the pots",
            format!("{per_kelvin} x ({end} - {start})"),
            "kJ",
            "",
        );
        sum.push(pot.to_string());
    }
    if sum.is_empty() {
        return lines.given(
            format!("useful heat for {name}: the water is warm enough"),
            Worked::four(0.0),
            "kJ",
            "",
        );
    }
    lines.work(format!("useful heat for {name}"), sum.join(" + "), "kJ", "")
}

impl Setup<'_> {
    /// Heat to warm a pot by one kelvin, J/K.
    pub(crate) fn pot_joules_per_kelvin(&self, pot: usize) -> f64 {
        let pot = &self.kitchen.pots[pot];
        pot.mass.in_kilograms() * pot.specific_heat.in_joules_per_kilogram_kelvin()
    }

    /// Prints the heat that all pots of a part take for one kelvin, kJ/K.
    fn print_pots(&self, lines: &mut Lines, batches: &[Batch]) -> Worked {
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

/// The fuel of a hold, unrounded and printed.
struct Held {
    fuel_heat: Energy,
    powers: Vec<Power>,
    printed_fuel: Worked,
    printed_minutes: Worked,
}

/// Holds each batch at the boil in its own pot.
fn hold_at_boil(
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
    // The wind is in the heat loss already; no flame gives more than its fuel holds.
    let still = efficiency.still.min(Fraction::of_one(1.0));

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
        let still_text = if efficiency.still > Fraction::of_one(1.0) {
            "1".to_owned()
        } else {
            efficiency.still_text.clone()
        };
        let flame = lines.work(
            "flame that makes up for it",
            format!("{lost} / ({still_text})"),
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
