//! Which stove for this trip: every family of the library cooks the same meals.

use super::common::{Head, Prose};
use super::{Filled, Inputs};
use crate::compose::catalogue::text;
use crate::compose::{charts, words};
use crate::phrase::{Phrase, phrase};
use crate::plan::{Allowed, Carried, ComparisonRow, fire_rule_lacks};
use crate::units::{Energy, HeatingValue, Mass, say};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// The stoves side by side.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct StoveChoice {
    /// The head.
    pub head: Head,
    /// What the kitchens have now: `Blue: heat-exchanger pot`.
    pub own: String,
    /// Where or when no stove is cleared.
    pub not_cleared: Vec<String>,
    /// A line a family.
    pub stoves: Vec<StoveLine>,
    /// Why a family is not allowed or has to be asked for, by its number.
    pub notes: Vec<Note>,
    /// Whether there is any.
    pub has_notes: bool,
    /// The camp where new fuel is handed out, or empty.
    pub resupply: String,
    /// Whether there is one.
    pub has_resupply: bool,
    /// The call for the bars of what is carried at the start, or none.
    pub start: Vec<Prose>,
    /// The call for the chart of carried mass against nights, or none.
    pub nights: Vec<Prose>,
    /// Whether there is one.
    pub has_nights: bool,
    /// Whether the trip states prices.
    pub priced: bool,
    /// What each fuel is like.
    pub fuels: Vec<FuelLine>,
}

/// A fuel and what it does to people and pots.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct FuelLine {
    /// Its name.
    pub name: String,
    /// Its other names.
    pub also: String,
    /// Whether there are any.
    pub has_also: bool,
    /// Its heating value, with low and high where sources differ.
    pub heat: String,
    /// What it is like.
    pub note: String,
}

/// A family on this trip.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct StoveLine {
    /// Its name.
    pub name: String,
    /// Whether a kitchen of the trip has it.
    pub own: bool,
    /// `yes`, `no (1)`, `ask (2)`.
    pub here: String,
    /// Fuel to take, with its name.
    pub fuel: String,
    /// Fuel to take.
    pub take: String,
    /// Stoves, containers and fuel on the first day.
    pub start: String,
    /// Minutes to boil a litre at the first camp.
    pub litre: String,
    /// The push at the rim that tips it, and the tilt.
    pub tips: String,
    /// Containers to bring back.
    pub back: String,
    /// Heat in a litre of the fuel.
    pub heat_litre: String,
    /// Heat in a kilogram of fuel and container.
    pub heat_kilogram: String,
    /// Grams of container for each gram of fuel.
    pub container: String,
    /// Fossil carbon dioxide.
    pub carbon: String,
    /// What the fuel costs by the trip's prices.
    pub price: String,
}

/// A reason with its number.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Note {
    /// Its number.
    pub number: String,
    /// The reason.
    pub why: String,
}

/// The sheet.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    if !inputs.flame() {
        return Vec::new();
    }
    let rows = &inputs.plan.comparison;
    let mut reasons: Vec<&Phrase> = Vec::new();
    let mut notes: Vec<Note> = Vec::new();
    for row in rows {
        let Some(why) = row.why.as_ref().filter(|why| !reasons.contains(why)) else {
            continue;
        };
        reasons.push(why);
        let id = format!("stove.{}.{}.why", row.stove, row.fuel);
        notes.push(Note {
            number: reasons.len().to_string(),
            why: inputs.say(&id, words::capital(&text(why))),
        });
    }
    let mut figures = BTreeMap::new();
    let nights: Vec<Prose> = charts::masses(inputs)
        .map(|chart| chart.call(&mut figures))
        .into_iter()
        .collect();
    let start: Vec<Prose> = charts::stoves(inputs)
        .map(|chart| chart.call(&mut figures))
        .into_iter()
        .collect();
    let own: Vec<String> = inputs
        .trip
        .kitchens
        .iter()
        .map(|kitchen| format!("{}: {}", kitchen.name, kitchen.stove.name))
        .collect();
    let view = StoveChoice {
        head: inputs.head(title, None, &codes(inputs)),
        own: own.join("; "),
        not_cleared: fire_rule_lacks(inputs.trip)
            .iter()
            .map(|(_, one)| text(one))
            .collect(),
        stoves: rows.iter().map(|row| line(inputs, row, &reasons)).collect(),
        has_notes: !notes.is_empty(),
        notes,
        has_resupply: inputs.trip.resupply.is_some(),
        resupply: inputs
            .trip
            .resupply
            .and_then(|index| inputs.trip.camps.get(index))
            .map(|camp| camp.name.clone())
            .unwrap_or_default(),
        start,
        has_nights: !nights.is_empty(),
        nights,
        priced: !inputs.trip.prices.is_empty(),
        fuels: fuels(inputs),
    };
    vec![Filled::of(None, &view, figures)]
}

/// The fuels of the table, and what the trip's own kitchens burn, each once.
fn fuels(inputs: &Inputs<'_>) -> Vec<FuelLine> {
    let compared = inputs.plan.comparison.iter().map(|row| &row.fuel);
    let own = inputs.trip.kitchens.iter().map(|kitchen| &kitchen.fuel.id);
    let mut told = BTreeSet::new();
    compared
        .chain(own)
        .filter(|id| told.insert(id.as_str()))
        .filter_map(|id| inputs.library.fuels.get(id))
        .map(|fuel| {
            let megajoules =
                |value: HeatingValue| say::number(value.in_megajoules_per_kilogram(), 1);
            let (low, high) = fuel.heating_range;
            let of =
                |what: &str, words: &str| inputs.say(&format!("fuel.{}.{what}", fuel.id), words);
            let (low, high) = (megajoules(low), megajoules(high));
            let same = low == high;
            let high = of("heating-high", &format!("{high} MJ/kg"));
            let low = of("heating-low", &low);
            let likely = of(
                "heating-value",
                &format!("{} MJ/kg", megajoules(fuel.heating_value)),
            );
            FuelLine {
                name: words::capital(&fuel.name),
                has_also: !fuel.also_called.is_empty(),
                also: fuel.also_called.join(", "),
                heat: if same {
                    likely
                } else {
                    text(&phrase!(
                        "fuel-heat-range",
                        likely = likely,
                        low = low,
                        high = high
                    ))
                },
                note: fuel.note.trim().to_owned(),
            }
        })
        .collect()
}

/// The sources of the fuels' heat and carbon.
fn codes(inputs: &Inputs<'_>) -> BTreeSet<String> {
    inputs
        .plan
        .comparison
        .iter()
        .filter_map(|row| inputs.library.fuels.get(&row.fuel))
        .flat_map(|fuel| fuel.sources.iter().cloned())
        .collect()
}

/// Where there is no number to give.
const NOTHING: &str = "–";

fn line(inputs: &Inputs<'_>, row: &ComparisonRow, reasons: &[&Phrase]) -> StoveLine {
    let units = inputs.units;
    let word = text(&match row.allowed {
        Allowed::Yes => phrase!("stove-here-yes"),
        Allowed::No => phrase!("stove-here-no"),
        Allowed::Unknown => phrase!("stove-here-ask"),
    });
    let number = row
        .why
        .as_ref()
        .and_then(|why| reasons.iter().position(|one| *one == why));
    let of = |what: &str, words: String| {
        inputs.say(&format!("stove.{}.{}.{what}", row.stove, row.fuel), words)
    };
    // Half a trip's fuel is no fuel for the trip: nothing is said of a stove that never boils it.
    let if_it_boils = |what: &str, words: &dyn Fn(&Carried) -> String| {
        row.carried
            .as_ref()
            .map_or_else(|| NOTHING.to_owned(), |one| of(what, words(one)))
    };
    let if_fuel = |what: &str, words: &dyn Fn(&Carried) -> String| {
        if row.carried.is_some_and(|one| one.fuel > Mass::ZERO) {
            if_it_boils(what, words)
        } else {
            NOTHING.to_owned()
        }
    };
    let push = row
        .rim_push
        .map(|push| of("push", format!("{} N", say::number(push.in_newtons(), 1))));
    let tilt = row
        .tip_angle
        .map(|angle| of("tilt", format!("{}°", say::number(angle.in_degrees(), 0))));
    let tips: Vec<String> = push.into_iter().chain(tilt).collect();
    let megajoules = |energy: Energy| format!("{} MJ", say::number(energy.in_megajoules(), 0));
    StoveLine {
        name: row.stove_name.clone(),
        own: inputs
            .plan
            .kitchens
            .iter()
            .any(|kitchen| kitchen.stove == row.stove),
        here: match number {
            None => word,
            Some(index) => format!("{word} ({})", index + 1),
        },
        fuel: row.fuel_name.clone(),
        take: if_it_boils("fuel", &|one| say::load(one.fuel, units)),
        start: if_it_boils("start", &|one| say::load(one.start, units)),
        litre: if_it_boils("minutes-per-litre", &|one| {
            format!("{} min", say::number(one.minutes_per_litre.in_minutes(), 0))
        }),
        tips: if tips.is_empty() {
            text(&phrase!("not-known"))
        } else {
            tips.join(", ")
        },
        back: if_it_boils("containers", &|one| one.containers.to_string()),
        heat_litre: of("energy-per-litre", megajoules(row.energy_per_litre)),
        heat_kilogram: if_fuel("energy-per-kilogram", &|one| {
            megajoules(one.energy_per_kilogram_with_container)
        }),
        container: if_fuel("container-share", &|one| {
            format!("{} g", say::number(one.container_share, 2))
        }),
        carbon: match row.carried {
            Some(one) if one.fossil_co2 <= Mass::ZERO && one.fuel > Mass::ZERO => {
                text(&phrase!("stove-no-carbon"))
            }
            _ => if_fuel("fossil-co2", &|one| say::load(one.fossil_co2, units)),
        },
        price: row.carried.and_then(|one| one.price).map_or_else(
            || text(&phrase!("not-stated")),
            |price| say::number(price, 2),
        ),
    }
}
