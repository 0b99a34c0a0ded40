//! What a lesson brings: kit summed over stations, the safety kit, fuel to practise with.

use super::Inputs;
use crate::compose::catalogue::text;
use crate::compose::words;
use crate::course::stated::part_used_id;
use crate::course::timetable::Course;
use crate::phrase::phrase;
use crate::units::{Mass, Time, Units, say};
use schemars::JsonSchema;
use serde::Serialize;

/// What is brought.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Kit {
    /// Whether something is lit, so that there is a safety kit.
    pub lit: bool,
    /// The safety kit, a line each.
    pub safety: Vec<String>,
    /// Everything else, with how many.
    pub things: Vec<String>,
    /// Whether there is anything.
    pub has_things: bool,
    /// Fuel for the practice burns.
    pub fuel: Vec<FuelRow>,
    /// Whether any is burnt.
    pub has_fuel: bool,
    /// The stations that are never lit and get none.
    pub cold: String,
    /// Whether there are any beside those that are lit.
    pub has_cold: bool,
    /// Part-used canisters to burn first.
    pub part_used: String,
    /// Whether there are any.
    pub has_part_used: bool,
}

/// Fuel of a station.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct FuelRow {
    /// The station.
    pub station: String,
    /// Its fuel.
    pub fuel: String,
    /// Minutes of full flame, and lightings.
    pub burns: String,
    /// The arithmetic.
    pub sum: String,
    /// What is set out to practise with.
    pub set_out: String,
    /// What is handed out in all: practice, menu and reserve.
    pub issued: String,
}

/// What the course of a trip brings.
#[must_use]
pub fn kit(inputs: &Inputs<'_>, course: &Course<'_>) -> Kit {
    let safety = &course.safety;
    let units = inputs.units;
    let mut lines = Vec::new();
    if safety.live > 0 {
        let water = match units {
            // Whole quarts, up: nobody measures a tenth into a bucket.
            Units::Us => format!("{} qt", libm::ceil(safety.water.in_quarts())),
            _ => say::volume(safety.water, units),
        };
        let water = inputs.say("course.water", water);
        lines = [
            phrase!("kit-water", water = water, places = safety.live),
            phrase!("kit-burn-kits", count = safety.burn_kits),
            phrase!("kit-cold-down", count = safety.cold_down),
            phrase!("kit-hair-ties", count = safety.hair_ties),
            phrase!("kit-lighters", count = safety.lighters),
        ]
        .iter()
        .map(text)
        .collect();
    }
    let things: Vec<String> = course
        .kit
        .iter()
        .map(|one| match one.count {
            0 | 1 => inputs.kit_item(one),
            count => format!("{count} × {}", inputs.kit_item(one)),
        })
        .collect();
    let fuel: Vec<FuelRow> = course
        .practice_fuel
        .iter()
        .filter_map(|one| {
            let station = inputs.kitchens().get(one.station).copied()?;
            let kitchen = station.kitchen;
            let value = station.plan.fuel.heating_value;
            let of = |what: &str, words: String| {
                inputs.of_kitchen(station, &format!("practice.{what}"), words)
            };
            let lightings = of("lightings", one.lightings.to_string());
            Some(FuelRow {
                station: kitchen.name.clone(),
                fuel: kitchen.fuel.name.clone(),
                burns: {
                    let minutes = say::time(Time::minutes(f64::from(one.minutes)));
                    let minutes = of("minutes", minutes);
                    text(&phrase!("kit-burns", minutes = minutes, times = lightings))
                },
                sum: format!(
                    "{} × {} ÷ {}{} = {}{}",
                    of("minutes", format!("{} s", one.minutes * 60)),
                    of(
                        "power",
                        format!(
                            "{} kW",
                            say::significant(kitchen.stove.power.in_watts() / 1000.0, 3)
                        )
                    ),
                    inputs.of_kitchen(
                        station,
                        "heating-value",
                        format!(
                            "{} MJ/kg",
                            say::significant(value.in_megajoules_per_kilogram(), 4)
                        )
                    ),
                    if kitchen.stove.to_light.in_grams() > 0.0 {
                        format!(
                            " + {lightings} × {}",
                            of(
                                "to-light",
                                format!(
                                    "{} g",
                                    say::significant(kitchen.stove.to_light.in_grams(), 3)
                                )
                            )
                        )
                    } else {
                        String::new()
                    },
                    // a decimal, or 80.2 rounded up to 85 would look wrong
                    of(
                        "burnt",
                        format!("{} g", say::number(one.burnt.in_grams(), 1))
                    ),
                    if one.of_menu > Mass::ZERO {
                        let grams = format!("{} g", say::number(one.of_menu.in_grams(), 1));
                        let menu = of("of-menu", grams);
                        format!("; {}", text(&phrase!("kit-of-menu", menu = menu)))
                    } else {
                        String::new()
                    }
                ),
                set_out: of(
                    "set-out",
                    format!("{} g", say::number(one.set_out.in_grams(), 0)),
                ),
                issued: inputs
                    .handed(station)
                    .in_words()
                    .into_iter()
                    .map(|(_, fuel)| fuel)
                    .collect::<Vec<_>>()
                    .join("; "),
            })
        })
        .collect();
    let cold: Vec<String> = inputs
        .kitchens()
        .iter()
        .filter(|one| one.plan.stays_cold)
        .map(|one| one.kitchen.name.clone())
        .collect();
    let part_used: Vec<String> = course
        .part_used
        .iter()
        .map(|(tag, net)| {
            let left = format!("{} g", say::number(net.in_grams(), 0));
            let left = inputs.say(&part_used_id(tag), left);
            text(&phrase!("kit-left", tag = tag, left = left))
        })
        .collect();
    Kit {
        lit: safety.live > 0,
        safety: lines,
        has_things: !things.is_empty(),
        things,
        has_cold: !cold.is_empty() && !fuel.is_empty(),
        cold: words::list(&cold),
        has_fuel: !fuel.is_empty(),
        fuel,
        has_part_used: !part_used.is_empty(),
        part_used: part_used.join(", "),
    }
}
