//! One row: water, batches, heat, efficiency, fuel and minutes of one use of the stove.

use super::batches;
use super::camps::{CampWork, assumption, behind};
use super::heat::heat_part;
use super::hold::hold_at_boil;
use super::needs::Need;
use super::setup::Setup;
use super::steps::{Lines, Worked};
use super::types::{Heat, Role, Row, Terms};
use crate::diag::Outcome;
use crate::nouns::{Wind, id};
use crate::units::{Energy, Mass, Power, Time};

/// Works out one row.
///
/// # Errors
/// When the kitchen's efficiency cannot be worked out.
pub(crate) fn work(setup: &Setup<'_>, camp: usize, work: &CampWork, need: &Need) -> Outcome<Row> {
    let place = format!("{}.{}.{}", setup.at, work.plan.slug, id(need.meal.word()));
    let mut lines = Lines::at(place);
    let figures = setup.figures;
    let stove = &setup.kitchen.stove;
    let mut aside = Lines::default();
    let mut efficiency = setup.efficiency(&mut aside, work.plan.wind)?;
    // Its own line comes later, after the heat.
    efficiency.printed = efficiency.printed.without_line();
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
    let boil_fuel = lines.role(Role::Fuel).work(
        "fuel to heat it",
        format!("{boil} / ({e} x {lhv})"),
        "g",
        "",
    );
    let mut sum = vec![boil_fuel.to_string()];
    let mut hold_each = Energy::ZERO;
    let mut hold_minutes = None;
    if hold > Time::ZERO && !batches.is_empty() {
        let held = hold_at_boil(setup, &mut lines, work, need, &batches, &efficiency, hold);
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
        lines.role(Role::Fuel).work(
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
    let power = setup.power(camp, need.meal);
    let boiling_time = boil_heat / (power * efficiency.planned);
    let waits = stove.refill_wait * f64::from(fills.saturating_sub(1));
    let many = batches.len() as f64;
    minutes(
        setup,
        &mut lines,
        &boil,
        &e,
        power,
        batches.len(),
        hold_minutes,
        fills,
    );
    let flame = boiling_time + hold * many;

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
#[expect(
    clippy::too_many_arguments,
    reason = "one printed paragraph of one row"
)]
fn minutes(
    setup: &Setup<'_>,
    lines: &mut Lines,
    boil: &Worked,
    efficiency: &Worked,
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
    let left = if cold {
        ", what the cold canister leaves"
    } else {
        ""
    };
    let burn = lines.work(
        format!("minutes of flame at {power} kW{left}"),
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
    let role = lines.role(Role::Minutes);
    role.work(say, formula, "min", behind(&setup.figures.set_up));
}
