//! What if: the trip planned again with one thing changed at a time, side by side.

use super::comparison::with_stove;
use super::types::{KitchenPlan, Plan};
use super::{Depth, decide, draws};
use crate::nouns::{Camp, Kind, Library, Stove, Trip, Verdict, WaterFrom, Wind};
use crate::units::{Length, Mass, Temperature, Time, Units, Volume, Warming, say};
use rayon::prelude::*;
use std::fmt::Write as _;
use std::sync::Arc;

/// One change, and what becomes of each kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIf {
    /// What changes, in words: `windy`, `no lid`.
    pub change: String,
    /// One a kitchen, in order; empty where the changed trip cannot be planned.
    pub kitchens: Vec<WhatIfKitchen>,
}

/// A kitchen under one change.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIfKitchen {
    /// Its name.
    pub name: String,
    /// Likely fuel; none where a pot never boils.
    pub fuel: Option<Mass>,
    /// Fuel to take; none where a pot never boils.
    pub carry: Option<Mass>,
    /// Minutes at the stove a day, all meals; none where a pot never boils.
    pub minutes: Option<Time>,
    /// Whether everything on the menu boils and can be held, and the canister works.
    pub works: bool,
    /// Why not, or what is weak; empty where all is well.
    pub why: String,
}

/// How much colder and warmer, kelvins.
const DEGREES: f64 = 5.0;

/// How much higher.
const HIGHER: Length = Length::metres(500.0);

type Changed = Box<dyn Fn(&mut Trip) + Sync + Send>;

/// The trip as planned, then with one change at a time.
#[must_use]
pub fn what_if(trip: &Trip, library: &Library) -> Vec<WhatIf> {
    let mut longer = trip.camps.clone();
    if let Some(last) = longer.last_mut() {
        last.nights += 1;
    }
    // A draw belongs to its camp and day: those of the longer trip serve the others too.
    let draws = draws(&longer, library);
    changes(trip, library)
        .par_iter()
        .map(|(change, apply)| {
            let mut changed = trip.clone();
            apply(&mut changed);
            let planned = decide(&changed, library, Depth::Carry, Arc::clone(&draws), &[]).ok();
            WhatIf {
                change: change.clone(),
                kitchens: planned.map_or_else(Vec::new, |plan| {
                    plan.kitchens
                        .iter()
                        .map(|one| kitchen(&plan, one))
                        .collect()
                }),
            }
        })
        .collect()
}

/// What there is to change about a trip, in words, and how.
fn changes(trip: &Trip, library: &Library) -> Vec<(String, Changed)> {
    let mut all: Vec<(String, Changed)> = vec![("as planned".to_owned(), Box::new(|_| {}))];
    let mut add = |say: &str, apply: Changed| all.push((say.to_owned(), apply));
    for wind in Wind::ALL {
        if trip.camps.iter().any(|camp| camp.wind != *wind) {
            let wind = *wind;
            add(
                &format!("{wind} everywhere"),
                Box::new(move |trip| each_camp(trip, |camp| camp.wind = wind)),
            );
        }
    }
    let lids = trip.kitchens.iter().any(|kitchen| kitchen.lid);
    add(
        if lids { "no lid" } else { "lids on" },
        Box::new(move |trip| {
            for kitchen in &mut trip.kitchens {
                kitchen.lid = !lids;
            }
        }),
    );
    let degrees = |by: f64, word: &str| match trip.units {
        Units::Us => format!("{} °F {word}", by * 1.8),
        _ => format!("{by} °C {word}"),
    };
    add(
        &degrees(DEGREES, "colder"),
        Box::new(|trip| each_camp(trip, |camp| warmer(camp, -DEGREES))),
    );
    add(
        &degrees(DEGREES, "warmer"),
        Box::new(|trip| each_camp(trip, |camp| warmer(camp, DEGREES))),
    );
    add(
        "one more person in each kitchen",
        Box::new(|trip| {
            for kitchen in &mut trip.kitchens {
                kitchen.people += 1;
                trip.people.learners += 1;
            }
        }),
    );
    if trip.kind == Kind::Trip {
        add(
            "one more night at the last camp",
            Box::new(|trip| {
                if let Some(camp) = trip.camps.last_mut() {
                    camp.nights += 1;
                }
            }),
        );
    }
    let lapse = library.figures.lapse_per_km.value.kelvins() * HIGHER.in_metres() / 1000.0;
    add(
        &format!(
            "{} higher, and colder for it",
            say::elevation(HIGHER, trip.units)
        ),
        Box::new(move |trip| {
            each_camp(trip, |camp| {
                camp.elevation += HIGHER;
                camp.pressure = None;
                warmer(camp, -lapse);
            });
        }),
    );
    add(
        "the largest pot half as large again",
        Box::new(|trip| {
            for kitchen in &mut trip.kitchens {
                larger_pot(kitchen);
            }
        }),
    );
    let mut stoves: Vec<&Stove> = library.stoves.values().collect();
    stoves.sort_by_key(|stove| stove.family);
    for stove in stoves {
        let other = |kitchen: &crate::nouns::Kitchen| kitchen.stove.family != stove.family;
        let Some(fuel) = library.fuels.get(&stove.fuel) else {
            continue;
        };
        if trip.kitchens.iter().any(other) {
            let (stove, fuel) = (stove.clone(), fuel.clone());
            add(
                &format!("stove: {}", stove.name),
                Box::new(move |trip| {
                    trip.canisters_on_hand.clear();
                    for kitchen in &mut trip.kitchens {
                        *kitchen = with_stove(kitchen, &stove, &fuel);
                    }
                }),
            );
        }
    }
    all
}

fn each_camp(trip: &mut Trip, apply: impl Fn(&mut Camp)) {
    for camp in &mut trip.camps {
        apply(camp);
    }
}

/// Air and water warmer by some kelvins; water stays water and snow stays snow.
fn warmer(camp: &mut Camp, by: f64) {
    let zero = Temperature::celsius(0.0);
    let by = Warming::of_kelvins(by);
    camp.day = camp.day + by;
    camp.night = camp.night + by;
    let water = camp.water + by;
    camp.water = if camp.water_from == WaterFrom::Snow {
        water.min(zero)
    } else {
        water.max(zero)
    };
}

/// The largest pot half as large again, and as much heavier.
fn larger_pot(kitchen: &mut crate::nouns::Kitchen) {
    const BY: f64 = 1.5;
    let largest = kitchen
        .pots
        .iter_mut()
        .max_by(|a, b| a.capacity.in_litres().total_cmp(&b.capacity.in_litres()));
    if let Some(pot) = largest {
        pot.capacity = Volume::litres(pot.capacity.in_litres() * BY);
        pot.mass = pot.mass * BY;
    }
}

/// One kitchen of a changed plan.
fn kitchen(plan: &Plan, one: &KitchenPlan) -> WhatIfKitchen {
    let boils = one.boils();
    let days = f64::from(plan.nights.max(1));
    let minutes: Time = one
        .rows
        .iter()
        .map(|row| row.minutes * f64::from(row.times))
        .sum();
    let mut why = Vec::new();
    if let Some(row) = one.failing().next()
        && let Some(stops) = &row.stops
    {
        why.push(format!(
            "{} never boils: it stops at {}",
            row.meal,
            say::temperature(stops.at, plan.units)
        ));
    }
    if boils && one.rows.iter().any(|row| !row.can_hold) {
        why.push("cannot hold a simmer".to_owned());
    }
    let worst = one.cold.iter().max_by_key(|row| row.verdict);
    if let Some(row) = worst.filter(|row| row.verdict >= Verdict::Weak) {
        why.push(format!("canister at {}: {}", row.meal, row.verdict));
    }
    if boils && one.rows.iter().any(|row| row.may_not_boil) {
        why.push("may not boil in this wind".to_owned());
    }
    WhatIfKitchen {
        name: one.name.clone(),
        fuel: boils.then_some(one.fuel.likely),
        carry: boils.then_some(one.fuel.carry),
        minutes: boils.then(|| minutes / days),
        works: why.is_empty(),
        why: why.join("; "),
    }
}

/// The changes as a table for a terminal.
#[must_use]
pub fn what_if_text(rows: &[WhatIf], units: Units) -> String {
    let mut text = String::new();
    let kitchens = rows.first().map_or(0, |row| row.kitchens.len());
    for index in 0..kitchens {
        let name = &rows[0].kitchens[index].name;
        let _ = writeln!(text, "\nWhat if: {name}");
        let width = rows.iter().map(|row| row.change.chars().count()).max();
        let width = width.unwrap_or(0);
        let _ = writeln!(
            text,
            "  {:width$}  {:>16}  {:>16}  {:>9}  will it work",
            "change", "likely fuel", "take", "min a day"
        );
        for row in rows {
            let Some(one) = row.kitchens.get(index) else {
                let _ = writeln!(text, "  {:width$}  cannot be planned", row.change);
                continue;
            };
            let grams =
                |mass: Option<Mass>| mass.map_or("-".to_owned(), |mass| say::fuel(mass, units));
            let minutes = one
                .minutes
                .map_or("-".to_owned(), |time| say::number(time.in_minutes(), 0));
            let verdict = if one.works {
                "yes".to_owned()
            } else {
                format!("look: {}", one.why)
            };
            let _ = writeln!(
                text,
                "  {:width$}  {:>16}  {:>16}  {:>9}  {verdict}",
                row.change,
                grams(one.fuel),
                grams(one.carry),
                minutes
            );
        }
    }
    text
}
