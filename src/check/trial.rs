//! A burn trial at home. Whether its numbers can be true is for the
//! calculation to say; here they are read, and held against what a scale and
//! a thermometer can show.

use super::desk::{Desk, Keys};
use super::gear::material_named;
use super::trip::{elevation, pressure, read_units};
use super::values::in_feet;
use crate::diag::{Outcome, Problem, Told, told};
use crate::load::{Node, Value, Written};
use crate::nouns::{Blend, BurnRun, Fuel, FuelKind, Library, Screen, Stove, Trial, TrialPot, Wind};
use crate::physics::air::pressure_us_standard_atmosphere_1976;
use crate::physics::water::saturation_temperature_if97;
use crate::units::{HeatingValue, Mass, Temperature, Time, Units, Volume, say};

pub(super) fn trial(written: &Written, library: &Library) -> Outcome<(Trial, Vec<Problem>)> {
    let desk = Desk::default();
    let root = &written.root;
    if root.get("runs").is_none() && root.get("people").is_some() {
        desk.error::<()>(
            root,
            "trial.is_trip",
            "this is a trip and not a burn trial",
            "`leeside plan FILE` works it out; a burn trial lists its `runs`",
        );
        return desk.finish(None);
    }
    let trial = desk
        .keys(&written.root, "a burn trial")
        .and_then(|keys| read(keys, written, library));
    desk.finish(trial)
}

fn read(keys: Keys<'_, '_>, written: &Written, library: &Library) -> Option<Trial> {
    let desk = keys.desk;
    if let Some(node) = keys.get("title") {
        desk.line(node, "the title");
    }
    let fuel = keys
        .need(
            "fuel",
            "name the fuel, such as `white gas`, or `canister` with `blend`",
        )
        .and_then(|node| desk.fuel(node, library));
    let blend = match (keys.get("blend"), fuel) {
        (Some(node), Some(fuel)) if fuel.kind != FuelKind::Canister => desk.error(
            node,
            "trial.blend",
            told!("{name} has no blend of gases", name = fuel.name),
            "leave `blend` out, or state `heating_value`",
        ),
        (Some(node), _) => desk.blend(node).map(Some),
        (None, _) => Some(None),
    };
    let stated_value = keys.get("heating_value").map(|node| {
        desk.within(
            node,
            HeatingValue::megajoules_per_kilogram(10.0)
                ..=HeatingValue::megajoules_per_kilogram(60.0),
            "the lower heating value of the fuel, from 10 MJ/kg to 60 MJ/kg",
        )
    });
    let height_node = keys.need(
        "elevation",
        "write the height above the sea, such as `1250 m`",
    );
    let elevation = height_node.and_then(|node| elevation(desk, node));
    let pressure = keys
        .get("pressure")
        .map(|node| pressure(desk, node, elevation));
    let units = match keys.get("units") {
        Some(node) => read_units(desk, node),
        None if height_node.is_some_and(in_feet) => Some(Units::Us),
        None => Some(Units::Metric),
    };
    let pot = keys.get("pot").map(|node| pot(desk, node, library));
    let boiling = elevation.and_then(|height| {
        pressure
            .flatten()
            .or_else(|| pressure_us_standard_atmosphere_1976(height))
            .and_then(saturation_temperature_if97)
    });
    let runs = keys
        .need("runs", "list at least one boil")
        .and_then(|node| runs(desk, node, boiling));
    let stove = keys.get("stove").map(|node| stove(desk, node, library));
    let screen = keys
        .get("screen")
        .or_else(|| keys.get("windscreen"))
        .map(|node| desk.word(node, "a windscreen", Screen::ALL, Screen::word));
    let air = keys.get("air").map(|node| desk.outdoor_temperature(node));
    keys.done();
    let (fuel, blend) = (fuel?, blend?);
    let trial = Trial {
        file: written.source.name.clone(),
        units: units?,
        fuel: fuel.clone(),
        blend,
        heating_value: optional(stated_value)?
            .unwrap_or_else(|| heating_value(fuel, blend, library)),
        elevation: elevation?,
        pressure: optional(pressure)?,
        stove: optional(stove)?,
        screen: optional(screen)?,
        air: optional(air)?,
        pot: optional(pot)?,
        runs: runs?,
    };
    Some(trial)
}

fn stove(desk: &Desk, node: &Node, library: &Library) -> Option<Stove> {
    let text = desk.scalar(node, "a stove")?;
    if let Some(stove) = library.stoves.get(&crate::nouns::id(text)) {
        return Some(stove.clone());
    }
    let known: Vec<&str> = library.stoves.keys().map(String::as_str).collect();
    desk.error(
        node,
        "trial.stove",
        told!(
            "`{value}` is no stove that is known here",
            value = text.trim()
        ),
        told!("write one of: {known}", known = known.join(", ")),
    )
}

fn optional<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        None => Some(None),
        Some(Some(value)) => Some(Some(value)),
        Some(None) => None,
    }
}

/// The mass mean of a canister's gases, or the fuel's own value.
fn heating_value(fuel: &Fuel, blend: Option<Blend>, library: &Library) -> HeatingValue {
    let of = |id: &str| library.fuels.get(id).map(|fuel| fuel.heating_value);
    let Some(blend) = blend else {
        return fuel.heating_value;
    };
    match (of("propane"), of("isobutane"), of("n-butane")) {
        (Some(propane), Some(isobutane), Some(butane)) => {
            propane * blend.propane.in_one()
                + isobutane * blend.isobutane.in_one()
                + butane * blend.butane.in_one()
        }
        _ => fuel.heating_value,
    }
}

fn pot(desk: &Desk, node: &Node, library: &Library) -> Option<TrialPot> {
    let keys = desk.keys(node, "the pot")?;
    let mass = keys
        .need("mass", "write its mass with the lid, such as `105 g`")
        .and_then(|node| {
            desk.within(
                node,
                Mass::grams(5.0)..=Mass::kilograms(20.0),
                "a mass from 5 g to 20 kg",
            )
        });
    let material = keys
        .need("material", "write aluminium, titanium or stainless")
        .and_then(|node| material_named(desk, node, desk.scalar(node, "a material")?, library));
    let capacity = keys.get("capacity").map(|node| {
        desk.within(
            node,
            Volume::litres(0.2)..=Volume::litres(50.0),
            "what the pot holds, from 0.2 L to 50 L",
        )
    });
    keys.done();
    let material = material?;
    Some(TrialPot {
        mass: mass?,
        capacity: optional(capacity)?,
        material: material.id.clone(),
        specific_heat: material.specific_heat,
    })
}

fn runs(desk: &Desk, node: &Node, boiling: Option<Temperature>) -> Option<Vec<BurnRun>> {
    let items: Vec<&Node> = match &node.value {
        Value::List(items) => items.iter().collect(),
        _ => {
            return desk.error(
                node,
                "value.shape",
                told!(
                    "expected the boils (a list), found {kind}",
                    kind = Told::from(node.kind())
                ),
                "put `- ` before the first key of each boil",
            );
        }
    };
    if items.is_empty() {
        return desk.error(
            node,
            "value.empty",
            "there is no boil in the trial",
            "list at least one",
        );
    }
    let read: Vec<Option<BurnRun>> = items
        .into_iter()
        .map(|item| run(desk, item, boiling))
        .collect();
    read.into_iter().collect()
}

fn run(desk: &Desk, node: &Node, boiling: Option<Temperature>) -> Option<BurnRun> {
    let keys = desk.keys(node, "a boil")?;
    let mass = |key, help: &'static str| {
        keys.need(key, help).and_then(|node| {
            desk.within(
                node,
                Mass::grams(0.1)..=Mass::kilograms(100.0),
                "a mass from 0.1 g to 100 kg",
            )
        })
    };
    let water = mass("water", "write the grams of water in the pot at the start");
    let start = keys
        .need("start", "write the water's temperature at the start")
        .and_then(|node| {
            desk.within(
                node,
                Temperature::celsius(0.0)..=Temperature::celsius(100.0),
                "a temperature of water",
            )
        });
    let end_node = keys.need(
        "end",
        "write `boiling`, or the water's temperature at the end",
    );
    let end = end_node.and_then(|node| match node.text().map(str::trim) {
        Some(text) if ["boiling", "boil"].contains(&text.to_lowercase().as_str()) => Some(None),
        _ => desk
            .within(
                node,
                Temperature::celsius(0.0)..=Temperature::celsius(110.0),
                "`boiling`, or a temperature of water",
            )
            .map(Some),
    });
    let evaporated = match keys.get("evaporated") {
        Some(node) => desk.within(
            node,
            Mass::ZERO..=Mass::kilograms(50.0),
            "the grams of water lost as steam",
        ),
        None => Some(Mass::ZERO),
    };
    let before = mass(
        "fuel_before",
        "weigh the stove or canister before, and write grams",
    );
    let after = mass(
        "fuel_after",
        "weigh the stove or canister after, and write grams",
    );
    let minutes = keys.get("minutes").map(|node| {
        let text = desk.scalar(node, "minutes")?;
        if text.trim().parse::<f64>().is_ok() {
            desk.number(node, "the minutes it took", 0.1..=600.0)
                .map(Time::minutes)
        } else {
            desk.within(
                node,
                Time::seconds(6.0)..=Time::hours(10.0),
                "minutes, such as `6.5` or `6.5 min`",
            )
        }
    });
    let wind = keys
        .get("wind")
        .map(|node| desk.word(node, "a wind", Wind::ALL, Wind::word));
    let lid = keys.get("lid").map(|node| desk.yes_no(node));
    keys.done();
    let run = BurnRun {
        water: water?,
        start: start?,
        end: end?,
        evaporated: evaporated?,
        fuel_before: before?,
        fuel_after: after?,
        minutes: optional(minutes)?,
        wind: optional(wind)?,
        lid: optional(lid)?,
    };
    possible(desk, node, &run, boiling)?;
    Some(run)
}

/// What no scale and no thermometer can have shown.
fn possible(desk: &Desk, node: &Node, run: &BurnRun, boiling: Option<Temperature>) -> Option<()> {
    let at = |key: &str| node.get(key).unwrap_or(node);
    if run.fuel_after >= run.fuel_before {
        return desk.error(
            at("fuel_after"),
            "trial.fuel",
            "there is as much fuel after the boil as before, or more",
            "the heavier reading is `fuel_before`; check that both were weighed with the same parts on",
        );
    }
    if run.evaporated >= run.water {
        return desk.error(
            at("evaporated"),
            "trial.evaporated",
            "all of the water is said to have boiled away",
            "write the mass of the water before less the mass after",
        );
    }
    // a kitchen thermometer is a degree off
    let slack = crate::units::Warming::of_kelvins(1.0);
    if let Some(boiling) = boiling {
        let shown = format!("{} C", say::number(boiling.in_celsius(), 1));
        if run.end.is_some_and(|end| end > boiling + slack) {
            return desk.error(
                at("end"),
                "trial.end",
                told!(
                    "water boils at {shown} at this height and gets no hotter",
                    shown
                ),
                "write `boiling`",
            );
        }
        if run.start >= boiling {
            return desk.error(
                at("start"),
                "trial.start",
                told!(
                    "water boils at {shown} at this height, so it cannot start as hot as that",
                    shown
                ),
                "write the temperature before the stove was lit",
            );
        }
    }
    if run.end.is_some_and(|end| end <= run.start) {
        return desk.error(
            at("end"),
            "trial.end",
            "the water is no warmer at the end than at the start",
            "check `start` and `end`",
        );
    }
    Some(())
}
