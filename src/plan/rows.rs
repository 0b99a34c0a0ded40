//! One row: water, batches, heat, loss, fuel and minutes of one use of the stove.

use super::batches;
use super::camps::{CampWork, assumption, behind};
use super::heat::{Heated, heat_part};
use super::hold::{Held, hold_at_boil};
use super::lost::{Way, Working};
use super::needs::Need;
use super::remedy::Stopped;
use super::setup::Setup;
use super::steps::{Lines, Worked};
use super::terms::{HeatTerm, Stops, TermWind, Terms};
use super::types::{Heat, Role, Row};
use crate::diag::Outcome;
use crate::nouns::{Wind, id};
use crate::phrase::{Phrase, phrase};
use crate::physics::heating::{self, Heating};
use crate::units::{Energy, Fraction, Mass, Power, Time, Volume};

/// Works out one row.
///
/// # Errors
/// When the kitchen's efficiency cannot be worked out.
pub(crate) fn work(setup: &Setup<'_>, camp: usize, work: &CampWork, need: &Need) -> Outcome<Row> {
    let place = format!("{}.{}.{}", setup.at, work.plan.slug, id(need.meal.word()));
    let mut lines = Lines::at(place.as_str());
    let figures = setup.figures;
    let stove = &setup.kitchen.stove;
    let hold = need
        .hold
        .minutes(work.plan.boiling, figures.simmer_factor.value);

    let mut power = setup.power(camp, need.meal);
    let parts: Vec<Heated> = need
        .parts
        .iter()
        .map(|part| heat_part(setup, &mut lines, work, need, part, hold, power))
        .collect();
    let mut ways = all_ways(setup, need, &parts, power);
    let stopped = |ways: &[Vec<Way>]| {
        ways.iter()
            .flatten()
            .any(|way| way.heating.time().is_none())
    };
    if power < stove.power && stopped(&ways) {
        // What the cold does to a canister is its verdict; the row keeps its fuel.
        power = stove.power;
        ways = all_ways(setup, need, &parts, power);
    }
    let useful = useful(&mut lines, &parts);
    let share = setup.print_share(&mut lines, need.wind);
    let working = Working {
        setup,
        work,
        need,
        power,
    };
    let mut row = started(setup, camp, need, &parts);
    let mut loss_lines = Lines::at(format!("{place}.lost"));
    if let Some(stops) = stops(&working, &mut lines, &share, &parts, &ways) {
        row.stops = Some(stops);
        row.steps = lines.steps();
        return Ok(row);
    }
    let printed_loss = working.print(&mut loss_lines, &share, &useful, &parts, &ways);
    row.loss_steps = loss_lines.steps();
    let (time, lost) = on_the_way(&ways);
    row.lost = lost;
    let printed_loss = lines.given(
        phrase!("line-lost-on-the-way"),
        Worked::four(printed_loss.without_line().value()),
        "kJ",
        behind(&figures.pot_loss),
    );
    let lhv = &setup.heating.printed;
    let boil_fuel = lines.role(Role::Fuel).work(
        phrase!("line-fuel-to-heat"),
        format!("({useful} + {printed_loss}) / ({share} x {lhv})"),
        "g",
        Phrase::none(),
    );
    let boil_heat = row.heat.water + row.heat.pot + row.heat.melt;
    row.efficiency = if time > Time::ZERO {
        Fraction::of_one(boil_heat / (power * time))
    } else {
        setup.flame(need.wind).share()
    };
    let held = (hold > Time::ZERO && !row.batches.is_empty())
        .then(|| hold_at_boil(setup, &mut lines, work, need, &row.batches, hold, power));
    row.terms.heating = heat_terms(setup, need, power, &parts, &ways);
    let grams = total(setup, &mut lines, need, boil_fuel, held.as_ref());
    let each: Vec<Energy> = ways
        .iter()
        .flatten()
        .map(|way| power * way.heating.time().unwrap_or(Time::ZERO))
        .collect();
    let many = row.batches.len() as f64;
    let hold_each = held
        .as_ref()
        .map_or(Energy::ZERO, |held| held.fuel_heat / many);
    if let Some(held) = &held {
        row.heat.simmer = held.fuel_heat * row.efficiency;
        row.can_hold = held.can_hold;
        row.terms.holds.clone_from(&held.terms);
    }
    row.heat.useful = boil_heat + row.heat.simmer;
    row.fuel = Mass::grams(grams.value());
    row.hold = hold;
    row.flame = time + hold * many;
    row.fills = batches::fills(setup, &each, hold_each);
    let waits = stove.refill_wait * f64::from(row.fills.saturating_sub(1));
    row.minutes = row.flame + figures.set_up.value * many + waits;
    minutes(
        setup,
        &mut lines,
        &format!("({useful} + {printed_loss})"),
        &share,
        power,
        row.batches.len(),
        held.map(|held| held.printed_minutes),
        row.fills,
    );
    row.may_not_boil = may_not_boil(setup, need.wind);
    row.steps = lines.steps();
    Ok(row)
}

/// A row with its water and heat, before its fuel.
fn started(setup: &Setup<'_>, camp: usize, need: &Need, parts: &[Heated]) -> Row {
    let flame = setup.flame(need.wind);
    let mut heat = Heat::default();
    let mut batches = Vec::new();
    for part in parts {
        heat.water += part.heat.water;
        heat.pot += part.heat.pot;
        heat.melt += part.heat.melt;
        batches.extend(part.batches.iter().copied());
    }
    heat.useful = heat.water + heat.pot + heat.melt;
    let to_light = setup.kitchen.stove.to_light * need.lights.share();
    Row {
        camp,
        meal: need.meal,
        times: need.times,
        water: need.parts.iter().map(|part| part.water).sum(),
        batches,
        heat,
        lost: Energy::ZERO,
        efficiency: flame.share(),
        still_share: flame.still,
        flame_factor: flame.factor,
        stops: None,
        can_hold: true,
        fuel: Mass::ZERO,
        to_light,
        hold: Time::ZERO,
        flame: Time::ZERO,
        fills: 0,
        minutes: Time::ZERO,
        may_not_boil: true,
        terms: Terms {
            to_light,
            ..Terms::default()
        },
        steps: Vec::new(),
        loss_steps: Vec::new(),
    }
}

/// Printed heat of all parts.
fn useful(lines: &mut Lines, parts: &[Heated]) -> Worked {
    match parts {
        [only] => only.printed.clone(),
        many => {
            let sum: Vec<String> = many.iter().map(|one| one.printed.to_string()).collect();
            lines.work(
                phrase!("line-useful-heat-in-all"),
                sum.join(" + "),
                "kJ",
                Phrase::none(),
            )
        }
    }
}

/// What becomes of every batch of every part.
fn all_ways(setup: &Setup<'_>, need: &Need, parts: &[Heated], power: Power) -> Vec<Vec<Way>> {
    parts
        .iter()
        .map(|part| ways(setup, need, part, power))
        .collect()
}

/// What becomes of every batch of a part.
fn ways(setup: &Setup<'_>, need: &Need, part: &Heated, power: Power) -> Vec<Way> {
    let flow = power * setup.flame(need.wind).share();
    part.batches
        .iter()
        .zip(&part.potfuls)
        .map(|(batch, potful)| {
            let capacity = setup.kitchen.pots[batch.pot].capacity;
            let loss = setup.loss(need.wind, capacity, need.air);
            Way {
                heating: heating::heat(flow, &loss, potful, setup.figures.boil_margin.value),
                flow,
            }
        })
        .collect()
}

/// Time and loss of all batches.
fn on_the_way(ways: &[Vec<Way>]) -> (Time, Energy) {
    let all = ways.iter().flatten();
    let time = all
        .clone()
        .filter_map(|way| way.heating.time())
        .sum::<Time>();
    let lost = all.filter_map(|way| way.heating.lost(way.flow)).sum();
    (time, lost)
}

/// The first pot that never boils, with what would make it.
fn stops(
    working: &Working<'_>,
    lines: &mut Lines,
    share: &Worked,
    parts: &[Heated],
    ways: &[Vec<Way>],
) -> Option<Stops> {
    let (setup, need) = (working.setup, working.need);
    for (part, ways) in parts.iter().zip(ways) {
        for (batch, way) in part.batches.iter().zip(ways) {
            if let Heating::Stops { at } = way.heating {
                working.print_stop(lines, share, part, batch.pot);
                let stopped = Stopped {
                    capacity: setup.kitchen.pots[batch.pot].capacity,
                    end: batch.end,
                    air: need.air,
                    wind: need.wind,
                    power: working.power,
                };
                return Some(Stops {
                    at,
                    remedies: stopped.remedies(setup),
                });
            }
        }
    }
    None
}

/// The potfuls as the spread needs them, equal ones counted together.
fn heat_terms(
    setup: &Setup<'_>,
    need: &Need,
    power: Power,
    parts: &[Heated],
    ways: &[Vec<Way>],
) -> Vec<HeatTerm> {
    let winds = |capacity: Volume| {
        [need.wind.calmer(), need.wind, need.wind.windier()].map(|wind| TermWind {
            flow: power * setup.flame(wind).share(),
            loss: setup.loss(wind, capacity, need.air),
        })
    };
    let mut terms: Vec<HeatTerm> = Vec::new();
    for (part, ways) in parts.iter().zip(ways) {
        let mut before: Option<(usize, Volume)> = None;
        for ((batch, potful), way) in part.batches.iter().zip(&part.potfuls).zip(ways) {
            if before == Some((batch.pot, batch.water))
                && let Some(last) = terms.last_mut()
            {
                last.count += 1.0;
                continue;
            }
            before = Some((batch.pot, batch.water));
            terms.push(HeatTerm {
                count: 1.0,
                potful: *potful,
                winds: winds(setup.kitchen.pots[batch.pot].capacity),
                power,
                likely: power * way.heating.time().unwrap_or(Time::ZERO),
            });
        }
    }
    terms
}

/// Prints the sum of a row's fuel.
fn total(
    setup: &Setup<'_>,
    lines: &mut Lines,
    need: &Need,
    boil_fuel: Worked,
    held: Option<&Held>,
) -> Worked {
    let mut sum = vec![boil_fuel.to_string()];
    sum.extend(held.map(|held| held.printed_fuel.to_string()));
    let to_light = setup.kitchen.stove.to_light;
    if need.lights.lightings > 0 && to_light > Mass::ZERO {
        let mut grams = lines.given(
            phrase!("line-fuel-to-light"),
            Worked::given(to_light.in_grams()),
            "g",
            assumption(),
        );
        if need.lights.lightings != need.lights.times {
            let (lit, times) = (need.lights.lightings, need.lights.times);
            grams = lines.work(
                phrase!(
                    "line-fuel-to-light-shared",
                    meal = need.meal,
                    lit = lit,
                    times = times
                ),
                format!("{grams} x {lit} / {times}"),
                "g",
                Phrase::none(),
            );
        }
        sum.push(grams.to_string());
    }
    if sum.len() == 1 {
        return boil_fuel;
    }
    lines.role(Role::Fuel).work(
        phrase!("line-fuel-once", meal = need.meal),
        sum.join(" + "),
        "g",
        Phrase::none(),
    )
}

/// Whether in this wind the stove may fail; one that was measured in it did not.
fn may_not_boil(setup: &Setup<'_>, wind: Wind) -> bool {
    let proven = setup
        .kitchen
        .measured
        .is_some_and(|measured| measured.wind == wind);
    wind == Wind::Windy && setup.factors.may_fail_windy && !proven
}

/// Prints the minutes of a row.
#[expect(
    clippy::too_many_arguments,
    reason = "one printed paragraph of one row"
)]
fn minutes(
    setup: &Setup<'_>,
    lines: &mut Lines,
    through: &str,
    share: &Worked,
    power: Power,
    batches: usize,
    hold: Option<Worked>,
    fills: u32,
) {
    let stove = &setup.kitchen.stove;
    let cold = power < stove.power;
    let power = if cold {
        Worked::four(power.in_kilowatts())
    } else {
        Worked::given(power.in_kilowatts())
    };
    let say = if cold {
        phrase!("line-minutes-of-flame-cold", power = power)
    } else {
        phrase!("line-minutes-of-flame", power = power)
    };
    let burn = lines.work(
        say,
        format!("{through} / ({power} x {share}) / 60"),
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
        phrase!("line-minutes-with-waits")
    } else {
        phrase!("line-minutes-with-set-up")
    };
    let role = lines.role(Role::Minutes);
    role.work(say, formula, "min", behind(&setup.figures.set_up));
}
