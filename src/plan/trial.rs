//! A burn trial at home turned into a measured efficiency: `leeside trial`.

use super::flame;
use crate::diag::{Outcome, Problem, Told, told};
use crate::nouns::{BurnRun, Library, Trial, Wind};
use crate::phrase::{Phrase, phrase};
use crate::physics::heating::{self, Potful};
use crate::physics::{air, fuel, water};
use crate::units::{
    Energy, Fraction, Mass, Power, Pressure, SpecificHeat, Temperature, Time, Volume, Warming,
};

/// One boil of a trial, worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct RunResult {
    /// Temperature of the water at the end.
    pub end: Temperature,
    /// Fuel burnt.
    pub fuel: Mass,
    /// Heat into the water.
    pub water_heat: Energy,
    /// Heat away with steam.
    pub evaporation: Energy,
    /// Heat into the pot.
    pub pot_heat: Energy,
    /// Water and steam: what the test's efficiency counts.
    pub useful: Energy,
    /// Heat of the fuel burnt.
    pub fuel_heat: Energy,
    /// Water and steam over fuel: the Water Boiling Test's figure.
    pub efficiency: Fraction,
    /// The same with the pot.
    pub efficiency_with_pot: Fraction,
    /// Water and pot over fuel: what a plan counts.
    pub efficiency_to_plan: Fraction,
    /// Grams of fuel for a litre of water.
    pub fuel_per_litre: Mass,
    /// Useful power, when it was timed.
    pub power: Option<Power>,
    /// Power of the flame, when it was timed.
    pub flame: Option<Power>,
    /// How far the scale's step may put the fuel off, of itself.
    pub step: Fraction,
    /// The wind it was made in, when stated.
    pub wind: Option<Wind>,
}

/// A trial worked out: means over its runs.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialResult {
    /// Air pressure.
    pub pressure: Pressure,
    /// Where water boils.
    pub boiling: Temperature,
    /// Water and steam over fuel: the Water Boiling Test's figure.
    pub efficiency: Fraction,
    /// The same with the pot.
    pub efficiency_with_pot: Fraction,
    /// Water and pot over fuel: the one to plan with.
    pub efficiency_to_plan: Fraction,
    /// Standard deviation of `efficiency_to_plan` between runs (n - 1); none for one run.
    pub spread: Option<Fraction>,
    /// Least and most `efficiency_to_plan`.
    pub range: (Fraction, Fraction),
    /// Heat into water and steam.
    pub useful: Energy,
    /// Heat of the fuel burnt.
    pub fuel_heat: Energy,
    /// Grams of fuel for a litre of water.
    pub fuel_per_litre: Mass,
    /// Useful power; none when no run was timed.
    pub power: Option<Power>,
    /// Power of the flame; none when no run was timed.
    pub flame: Option<Power>,
    /// Each run.
    pub runs: Vec<RunResult>,
    /// What to paste into a kitchen of the trip, a block for each wind that was tried.
    pub paste: Vec<Paste>,
    /// What a reader should know about these numbers.
    pub notes: Vec<Phrase>,
}

/// A block to paste into a kitchen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paste {
    /// The efficiency in this wind.
    pub efficiency: Fraction,
    /// The wind.
    pub wind: Wind,
    /// How far the figure may be off, of itself; none where the trial does not tell.
    pub spread: Option<Fraction>,
    /// Power of the flame, where it was timed.
    pub power: Option<Power>,
}

/// How far above the boil a thermometer of a kitchen may read.
const THERMOMETER_K: f64 = 0.5;

/// What one run cannot be.
fn refusals(trial: &Trial, index: usize, run: &BurnRun, boiling: Temperature) -> Vec<Problem> {
    let at = |key: &str, message: Told, help: &'static str| {
        Problem::error("trial.impossible", message, help)
            .at(trial.file.clone(), format!("runs[{index}].{key}"))
    };
    let mut wrong = Vec::new();
    if run.water <= Mass::ZERO {
        wrong.push(at(
            "water",
            Told::from("there was no water in the pot"),
            "write the water's mass, for example `600 g`",
        ));
    }
    if run.start < Temperature::celsius(0.0) {
        wrong.push(at(
            "start",
            Told::from("water colder than 0 C is ice: a trial starts with water"),
            "write the temperature of the water before lighting, for example `17 C`",
        ));
    }
    if let Some(end) = run.end
        && end - boiling > Warming::of_kelvins(THERMOMETER_K)
    {
        wrong.push(at(
            "end",
            told!("the water ended at {in_celsius} C, but it boils at {in_celsius_2} C at this height", in_celsius = format!("{:.2}", end.in_celsius()), in_celsius_2 = format!("{:.2}", boiling.in_celsius())),
            "write `boiling`, or read the thermometer again, its tip in the water and off the bottom",
        ));
    } else if run.end.unwrap_or(boiling) <= run.start {
        wrong.push(at(
            "start",
            told!("the water was as hot at the start ({in_celsius} C) as at the end ({in_celsius_2} C)", in_celsius = format!("{:.2}", run.start.in_celsius()), in_celsius_2 = format!("{:.2}", run.end.unwrap_or(boiling).in_celsius())),
            "write the temperature of the water before lighting, for example `17 C`",
        ));
    }
    if run.evaporated < Mass::ZERO || run.evaporated > run.water {
        wrong.push(at(
            "evaporated",
            Told::from("the water boiled away is between nothing and all of it"),
            "write the mass of pot and water before less the mass after, for example `14 g`",
        ));
    }
    if run.fuel_after > run.fuel_before {
        wrong.push(at(
            "fuel_after",
            Told::from("there is more fuel after the boil than before it"),
            "the two weighings may be swapped: weigh the same things before and after",
        ));
    } else if run.fuel_after == run.fuel_before {
        wrong.push(at(
            "fuel_after",
            Told::from("no fuel was burnt: both weighings are the same"),
            "use a scale that reads to 1 g or better, and boil at least half a litre",
        ));
    } else if run.fuel_after < Mass::ZERO {
        wrong.push(at(
            "fuel_after",
            Told::from("fuel cannot weigh less than nothing"),
            "write the mass of the stove or canister after the boil",
        ));
    }
    if run.minutes.is_some_and(|time| time <= Time::ZERO) {
        wrong.push(at(
            "minutes",
            Told::from("a boil takes more than no time"),
            "write the minutes from full flame to the end, for example `6.5`",
        ));
    }
    wrong
}

/// One run worked out.
fn worked(trial: &Trial, run: &BurnRun, boiling: Temperature, library: &Library) -> RunResult {
    let figures = &library.figures;
    let end = run.end.unwrap_or(boiling);
    let (pot, metal) = trial
        .pot
        .as_ref()
        .map_or((Mass::ZERO, SpecificHeat::ZERO), |pot| {
            (pot.mass, pot.specific_heat)
        });
    let measured = fuel::TrialRun {
        water: run.water,
        start: run.start,
        end,
        evaporated: run.evaporated,
        fuel: run.fuel_before - run.fuel_after,
    };
    let (value, c) = (trial.heating_value, figures.water_heat.value);
    let latent = figures.evaporation.value;
    let efficiency = fuel::thermal_efficiency_wbt(&measured, value, c, latent);
    let water_heat = water::heat_to_warm(run.water, c, end - run.start);
    let evaporation = water::heat_to_evaporate(run.evaporated, latent);
    let useful = water_heat + evaporation;
    RunResult {
        end,
        fuel: measured.fuel,
        water_heat,
        evaporation,
        pot_heat: water::heat_to_warm(pot, metal, end - run.start),
        useful,
        fuel_heat: value * measured.fuel,
        efficiency,
        efficiency_with_pot: efficiency + fuel::pot_share(&measured, value, pot, metal),
        efficiency_to_plan: still_air(trial, run, end, measured.fuel, library)
            .unwrap_or_else(|| fuel::efficiency_to_plan(&measured, value, c, pot, metal)),
        fuel_per_litre: measured.fuel / run.water.in_kilograms(),
        power: run
            .minutes
            .map(|time| Power::watts(useful.in_joules() / time.in_seconds())),
        flame: run.minutes.map(|time| flame_of(trial, measured.fuel, time)),
        step: Fraction::of_one(scale_step(run).in_grams() / measured.fuel.in_grams().max(1e-9)),
        wind: run.wind,
    }
}

/// Power of a flame that burnt some fuel in some time.
fn flame_of(trial: &Trial, fuel: Mass, time: Time) -> Power {
    Power::watts((trial.heating_value * fuel).in_joules() / time.in_seconds())
}

/// The step of the scale, by the digits of both weighings: 0.1 g, 1 g or more.
fn scale_step(run: &BurnRun) -> Mass {
    let reads = |step: f64| {
        [run.fuel_before, run.fuel_after].iter().all(|mass| {
            let steps = mass.in_grams() / step;
            (steps - steps.round()).abs() < 1e-6
        })
    };
    let step = [10.0, 5.0, 1.0, 0.1, 0.01]
        .into_iter()
        .find(|step| reads(*step));
    Mass::grams(step.unwrap_or(0.01))
}

/// The efficiency to paste for calm air behind the trial's screen: the still-air efficiency whose
/// flame brings this very pot to its end on these grams, times the screen's factor in calm air, by
/// which the plan divides again. None where the stove is not stated.
///
/// Where the trial was not timed the flame is the stove's own.
fn still_air(
    trial: &Trial,
    run: &BurnRun,
    end: Temperature,
    burnt: Mass,
    library: &Library,
) -> Option<Fraction> {
    let stove = trial.stove.as_ref()?;
    let screen = trial.screen.unwrap_or(stove.screen);
    let factors = *stove.wind.get(&screen)?;
    let figures = &library.figures;
    let wind = run.wind.unwrap_or(Wind::Calm);
    let time = run
        .minutes
        .unwrap_or_else(|| (trial.heating_value * burnt) / stove.power);
    let power = flame_of(trial, burnt, time);
    let pot = trial.pot.as_ref();
    let water = Volume::litres(run.water.in_kilograms() / figures.water_density.value.max(0.1));
    let capacity = pot
        .and_then(|pot| pot.capacity)
        .unwrap_or(water / figures.fill.value.in_one().max(0.1));
    let potful = Potful {
        water: run.water,
        water_heat: figures.water_heat.value,
        pot_joules_per_kelvin: pot.map_or(0.0, |pot| {
            water::heat_to_warm(pot.mass, pot.specific_heat, Warming::of_kelvins(1.0)).in_joules()
        }),
        start: run.start,
        end,
        snow: None,
    };
    let air = trial.air.unwrap_or(run.start);
    let lid = run.lid.unwrap_or(true);
    let flames = |efficiency: f64| {
        let efficiency = Fraction::of_one(efficiency);
        flame::flames(library, stove.family, efficiency, power, screen, factors)
    };
    // What a pot loses does not hang on the efficiency.
    let loss = flame::loss(figures, &flames(0.5)[wind as usize], capacity, air, lid);
    let wanted = heating::flow_for(time, &loss, &potful) / power;
    let (mut low, mut high) = (0.005, 0.99);
    for _ in 0..50 {
        let middle = (low + high) / 2.0;
        if flames(middle)[wind as usize].share().in_one() < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(Fraction::of_one((low + high) / 2.0 * factors.calm))
}

/// Works a trial out.
///
/// # Errors
/// Everything in it that cannot be, each with its key path.
pub fn trial(trial: &Trial, library: &Library) -> Outcome<TrialResult> {
    let at = |path: &str, message: Told, help: &'static str| {
        Problem::error("trial.impossible", message, help).at(trial.file.clone(), path)
    };
    let pressure = trial
        .pressure
        .or_else(|| air::pressure_us_standard_atmosphere_1976(trial.elevation));
    let boiling = pressure.and_then(water::saturation_temperature_if97);
    let (Some(pressure), Some(boiling)) = (pressure, boiling) else {
        let key = if trial.pressure.is_some() {
            "pressure"
        } else {
            "elevation"
        };
        return Err(vec![at(
            key,
            Told::from("water has no boiling point here in the formulas used"),
            "write a height from -400 m to 11000 m, or a barometer's `pressure`",
        )]);
    };
    let mut wrong = Vec::new();
    if trial.runs.is_empty() {
        wrong.push(at(
            "runs",
            Told::from("there is no boil in this trial"),
            "add at least one run",
        ));
    }
    if trial.pot.as_ref().is_some_and(|pot| pot.mass < Mass::ZERO) {
        wrong.push(at(
            "pot.mass",
            Told::from("a pot cannot weigh less than nothing"),
            "write its mass with lid, for example `105 g`",
        ));
    }
    for (index, run) in trial.runs.iter().enumerate() {
        wrong.extend(refusals(trial, index, run, boiling));
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }

    let runs: Vec<RunResult> = trial
        .runs
        .iter()
        .map(|run| worked(trial, run, boiling, library))
        .collect();
    for (index, run) in runs.iter().enumerate() {
        if run.efficiency_with_pot > Fraction::of_one(1.0) {
            wrong.push(at(
                &format!("runs[{index}].fuel_after"),
                told!("the pot took {efficiency_with_pot} % of the fuel's heat: more than there was", efficiency_with_pot = format!("{:.0}", run.efficiency_with_pot.in_percent())),
                "weigh fuel and water again: too little fuel, too much water or a wrong fuel was written",
            ));
        }
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(means(pressure, boiling, runs, trial))
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Means over the runs, their spread, and what to do with them.
fn means(
    pressure: Pressure,
    boiling: Temperature,
    runs: Vec<RunResult>,
    trial: &Trial,
) -> TrialResult {
    let still = trial.stove.is_some();
    let over = |of: fn(&RunResult) -> f64| mean(&runs.iter().map(of).collect::<Vec<_>>());
    let planned: Vec<f64> = runs
        .iter()
        .map(|run| run.efficiency_to_plan.in_one())
        .collect();
    let middle = mean(&planned);
    let spread = (planned.len() > 1).then(|| {
        let squares: f64 = planned
            .iter()
            .map(|one| (one - middle) * (one - middle))
            .sum();
        Fraction::of_one((squares / (planned.len() - 1) as f64).sqrt())
    });
    let timed: Vec<f64> = runs
        .iter()
        .filter_map(|run| run.power.map(Power::in_watts))
        .collect();
    TrialResult {
        pressure,
        boiling,
        efficiency: Fraction::of_one(over(|run| run.efficiency.in_one())),
        efficiency_with_pot: Fraction::of_one(over(|run| run.efficiency_with_pot.in_one())),
        efficiency_to_plan: Fraction::of_one(middle),
        spread,
        range: (
            Fraction::of_one(planned.iter().copied().fold(f64::INFINITY, f64::min)),
            Fraction::of_one(planned.iter().copied().fold(0.0, f64::max)),
        ),
        useful: Energy::joules(over(|run| run.useful.in_joules())),
        fuel_heat: Energy::joules(over(|run| run.fuel_heat.in_joules())),
        fuel_per_litre: Mass::grams(over(|run| run.fuel_per_litre.in_grams())),
        power: (!timed.is_empty()).then(|| Power::watts(mean(&timed))),
        flame: mean_flame(&runs),
        paste: paste(&runs, still, spread.zip(Some(middle))),
        notes: notes(&runs, trial, middle),
        runs,
    }
}

/// Mean power of the flame over the runs that were timed.
fn mean_flame(runs: &[RunResult]) -> Option<Power> {
    let timed: Vec<f64> = runs
        .iter()
        .filter_map(|run| run.flame.map(Power::in_watts))
        .collect();
    (!timed.is_empty()).then(|| Power::watts(mean(&timed)))
}

/// How far the figure may be off, of itself: the runs' standard deviation or the scale's step,
/// whichever is more; 8 % for one run.
fn doubt(runs: &[RunResult], spread: Option<(Fraction, f64)>) -> f64 {
    let step = mean(&runs.iter().map(|run| run.step.in_one()).collect::<Vec<_>>());
    let between = match spread {
        // Two standard deviations: nearly all runs lie inside.
        Some((spread, middle)) => 2.0 * spread.in_one() / middle.max(1e-9),
        None => 0.08,
    };
    between.max(step).clamp(0.02, 0.5)
}

/// The winds that were tried; a run without one counts as calm, the cautious side: a plan then
/// takes the wind factor off it.
fn winds(runs: &[RunResult]) -> Vec<(Wind, Vec<f64>)> {
    Wind::ALL
        .iter()
        .map(|wind| {
            let here = runs
                .iter()
                .filter(|run| run.wind.unwrap_or(Wind::Calm) == *wind)
                .map(|run| run.efficiency_to_plan.in_percent())
                .collect::<Vec<_>>();
            (*wind, here)
        })
        .filter(|(_, here)| !here.is_empty())
        .collect()
}

/// What to paste, a block for each wind.
fn paste(runs: &[RunResult], still: bool, spread: Option<(Fraction, f64)>) -> Vec<Paste> {
    if still {
        // Taken to calm air: one block for runs of any wind.
        let all: Vec<f64> = runs
            .iter()
            .map(|run| run.efficiency_to_plan.in_percent())
            .collect();
        return vec![Paste {
            efficiency: Fraction::percent(mean(&all)),
            wind: Wind::Calm,
            spread: Some(Fraction::of_one(doubt(runs, spread))),
            power: mean_flame(runs),
        }];
    }
    let tried = winds(runs).into_iter();
    tried
        .map(|(wind, here)| Paste {
            efficiency: Fraction::percent(mean(&here)),
            wind,
            spread: None,
            power: None,
        })
        .collect()
}

fn notes(runs: &[RunResult], trial: &Trial, middle: f64) -> Vec<Phrase> {
    let mut notes = Vec::new();
    if !(0.10..=0.75).contains(&middle) {
        let percent = format!("{:.0}", middle * 100.0);
        notes.push(phrase!("trial-unusual", percent = percent));
    }
    if trial.stove.is_none() {
        notes.push(phrase!("trial-without-stove"));
    }
    if trial.pot.is_none() {
        notes.push(phrase!("trial-without-pot"));
    }
    if runs.iter().any(|run| run.wind.is_none()) {
        notes.push(phrase!("trial-without-wind"));
    }
    if trial.stove.is_none() && winds(runs).len() > 1 {
        notes.push(phrase!("trial-several-winds"));
    }
    if runs.len() < 3 {
        notes.push(phrase!("trial-few-runs"));
    }
    notes
}
