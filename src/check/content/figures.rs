//! The figures of the calculation (`figures.yaml`).

use super::super::desk::{Desk, Keys};
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{
    BoilMinutes, BoilRules, Constant, Figures, OpenPot, ReferencePot, WashMethod, Washing, Wind,
};
use crate::units::{
    Fraction, HeatingValue, Length, Mass, Power, Pressure, Quantity, SpecificHeat, Temperature,
    Time, Volume, Warming,
};
use std::collections::BTreeMap;

pub(super) fn figures(desk: &Desk, node: &Node) -> Option<Figures> {
    let keys = desk.keys(node, "the figures")?;
    let heat = |key| {
        figure(&keys, key, |desk, node| {
            desk.number(node, "a specific heat in kJ/(kg K)", 0.05..=10.0)
                .map(SpecificHeat::kilojoules_per_kilogram_kelvin)
        })
    };
    let latent = |key| figure(&keys, key, above_zero::<HeatingValue>);
    let share = |key| {
        figure(&keys, key, |desk, node| {
            desk.within(
                node,
                Fraction::ZERO..=Fraction::percent(100.0),
                "a share from 0% to 100%",
            )
        })
    };
    let number = |key| {
        figure(&keys, key, |desk, node| {
            desk.number(node, "a number", 0.0..=1000.0)
        })
    };
    let warming = |key| figure(&keys, key, warming);
    let volume = |key| figure(&keys, key, above_zero::<Volume>);
    let mass = |key| figure(&keys, key, above_zero::<Mass>);
    let temperature = |key| figure(&keys, key, Desk::outdoor_temperature);
    let length = |key| figure(&keys, key, above_zero::<Length>);

    let water_heat = heat("water_heat");
    let ice_heat = heat("ice_heat");
    let fusion = latent("fusion");
    let evaporation = latent("evaporation");
    let gas_latent = latent("gas_latent");
    let gas_heat = heat("gas_heat");
    let steel_heat = heat("steel_heat");
    let canister_film = figure(&keys, "canister_film", by_wind);
    let burner_warmth = figure(&keys, "burner_warmth", above_zero::<Power>);
    let open_valve = number("open_valve");
    let regulator_gauge = figure(&keys, "regulator_gauge", above_zero::<Pressure>);
    let body_warm = temperature("body_warm");
    let fill = share("fill");
    let fill_snow = share("fill_snow");
    let set_up = figure(&keys, "set_up", above_zero::<Time>);
    let melt_to = temperature("melt_to");
    let simmer_factor = number("simmer_factor");
    let pot_loss = figure(&keys, "pot_loss", by_wind);
    let reference_boil = figure(&keys, "reference_boil", reference_pot);
    let boil_margin = figure(&keys, "boil_margin", |desk, node| {
        desk.number(node, "a number from 1 to 3", 1.0..=3.0)
    });
    let open_top = figure(&keys, "open_top", open_pot);
    let spill_likely = share("spill_likely");
    let spill_most = share("spill_most");
    let measured_spread = share("measured_spread");
    let wind_spread = share("wind_spread");
    let trip_wind_spread = share("trip_wind_spread");
    let other_wind = share("other_wind");
    let loss_spread = share("loss_spread");
    let unboiled = number("unboiled");
    let water_spread = warming("water_spread");
    let amount_spread = share("amount_spread");
    let drinking = volume("drinking");
    let drinking_snow = volume("drinking_snow");
    let round_up = mass("round_up");
    let unknown_blend = figure(&keys, "unknown_blend", Desk::blend);
    let drawn_at = temperature("drawn_at");
    let nearly_empty = mass("nearly_empty");
    let greywater_distance = length("greywater_distance");
    let step = length("step");
    let water_density = number("water_density");
    let washing = keys
        .need("washing", HELP)
        .and_then(|node| washing(desk, node));
    let boil_minutes = keys
        .need("boil_minutes", HELP)
        .and_then(|node| boil_minutes(desk, node));
    let people_a_kitchen = number("people_a_kitchen");
    let pot_a_person = volume("pot_a_person");
    let day_sea_level = temperature("day_sea_level");
    let lapse_per_km = warming("lapse_per_km");
    let night_below_day = warming("night_below_day");
    let water_bounds = figure(&keys, "water_bounds", |desk, node| {
        let keys = desk.keys(node, "low and high")?;
        let [low, high] = ["low", "high"].map(|key| {
            keys.need(key, "write a temperature")
                .and_then(|node| desk.outdoor_temperature(node))
        });
        keys.done();
        Some((low?, high?))
    });
    keys.done();
    Some(Figures {
        water_heat: water_heat?,
        ice_heat: ice_heat?,
        fusion: fusion?,
        evaporation: evaporation?,
        gas_latent: gas_latent?,
        gas_heat: gas_heat?,
        steel_heat: steel_heat?,
        canister_film: canister_film?,
        burner_warmth: burner_warmth?,
        open_valve: open_valve?,
        regulator_gauge: regulator_gauge?,
        body_warm: body_warm?,
        fill: fill?,
        fill_snow: fill_snow?,
        set_up: set_up?,
        melt_to: melt_to?,
        simmer_factor: simmer_factor?,
        pot_loss: pot_loss?,
        reference_boil: reference_boil?,
        boil_margin: boil_margin?,
        open_top: open_top?,
        spill_likely: spill_likely?,
        spill_most: spill_most?,
        measured_spread: measured_spread?,
        wind_spread: wind_spread?,
        trip_wind_spread: trip_wind_spread?,
        other_wind: other_wind?,
        loss_spread: loss_spread?,
        unboiled: unboiled?,
        water_spread: water_spread?,
        amount_spread: amount_spread?,
        drinking: drinking?,
        drinking_snow: drinking_snow?,
        round_up: round_up?,
        unknown_blend: unknown_blend?,
        drawn_at: drawn_at?,
        nearly_empty: nearly_empty?,
        greywater_distance: greywater_distance?,
        step: step?,
        water_density: water_density?,
        washing: washing?,
        boil_minutes: boil_minutes?,
        people_a_kitchen: people_a_kitchen?,
        pot_a_person: pot_a_person?,
        day_sea_level: day_sea_level?,
        lapse_per_km: lapse_per_km?,
        night_below_day: night_below_day?,
        water_bounds: water_bounds?,
    })
}

const HELP: &str = "the calculation cannot do without it; take it from the built-in `figures.yaml`";

/// A figure: `value`, `what`, `basis`, `source`.
fn figure<T>(
    keys: &Keys<'_, '_>,
    key: &'static str,
    read: impl FnOnce(&Desk, &Node) -> Option<T>,
) -> Option<Constant<T>> {
    constant(keys.desk, keys.need(key, HELP)?, read)
}

fn constant<T>(
    desk: &Desk,
    node: &Node,
    read: impl FnOnce(&Desk, &Node) -> Option<T>,
) -> Option<Constant<T>> {
    let keys = desk.keys(node, "a figure")?;
    let value = keys
        .need("value", "write the value")
        .and_then(|node| read(desk, node));
    let what = keys
        .need("what", "say what it is, for the worksheet")
        .and_then(|node| desk.line(node, "what the figure is"));
    let origin = super::origin(&keys, false);
    keys.done();
    let origin = origin?;
    Some(Constant {
        value: value?,
        what: what?,
        basis: origin.basis,
        sources: origin.sources,
    })
}

fn above_zero<Q: Quantity + PartialOrd + Default>(desk: &Desk, node: &Node) -> Option<Q> {
    let value = desk.quantity::<Q>(node)?;
    if value > Q::default() {
        return Some(value);
    }
    desk.error(
        node,
        "value.range",
        told!(
            "{name} must be more than nothing",
            name = Told::from(Q::NAME)
        ),
        told!("write {examples}", examples = Told::from(Q::EXAMPLES)),
    )
}

/// A difference of temperatures: `6.5 C`, `3 K`, `10 F`.
pub(super) fn warming(desk: &Desk, node: &Node) -> Option<Warming> {
    const HELP: &str = "write a difference such as `6.5 K` or `10 F`";
    let text = desk.scalar(node, "a difference of temperatures")?.trim();
    let (number, make): (&str, fn(f64) -> Warming) = match text.chars().last() {
        Some('K' | 'C') => (&text[..text.len() - 1], Warming::of_kelvins),
        Some('F') => (&text[..text.len() - 1], Warming::of_fahrenheit_degrees),
        _ => {
            return desk.error(
                node,
                "value.quantity",
                told!(
                    "`{text}` is not a difference of temperatures",
                    text = super::shown(text)
                ),
                HELP,
            );
        }
    };
    let number = number.trim().trim_end_matches('°').trim_end();
    match number.parse::<f64>() {
        Ok(value) if value.is_finite() && (0.0..=1000.0).contains(&value) => Some(make(value)),
        _ => desk.error(
            node,
            "value.quantity",
            told!(
                "`{text}` is not a difference of temperatures",
                text = super::shown(text)
            ),
            HELP,
        ),
    }
}

fn by_wind(desk: &Desk, node: &Node) -> Option<BTreeMap<Wind, f64>> {
    let keys = desk.keys(node, "a value for each wind")?;
    let read = [
        (Wind::Calm, "calm"),
        (Wind::Breezy, "breezy"),
        (Wind::Windy, "windy"),
    ]
    .map(|(wind, key)| {
        let value = keys
            .need(key, "write a number")
            .and_then(|node| desk.number(node, "W for each square metre and kelvin", 0.0..=1000.0));
        (wind, value)
    });
    keys.done();
    read.into_iter()
        .map(|(wind, value)| value.map(|value| (wind, value)))
        .collect()
}

/// The pot in which an efficiency is measured.
fn reference_pot(desk: &Desk, node: &Node) -> Option<ReferencePot> {
    let keys = desk.keys(node, "the reference boil")?;
    let temperature = |key| {
        keys.need(key, "write a temperature, such as `15 C`")
            .and_then(|node| desk.quantity::<Temperature>(node))
    };
    let volume = |key| {
        keys.need(key, "write litres, such as `1 L`")
            .and_then(|node| above_zero::<Volume>(desk, node))
    };
    let (water, capacity) = (volume("water"), volume("pot"));
    let (start, end, air) = (temperature("start"), temperature("end"), temperature("air"));
    let mass = keys
        .need("pot_mass", "write grams, such as `165 g`")
        .and_then(|node| above_zero::<Mass>(desk, node));
    let heat = keys
        .need("pot_heat", "write a specific heat in kJ/(kg K)")
        .and_then(|node| desk.number(node, "a specific heat in kJ/(kg K)", 0.05..=10.0))
        .map(SpecificHeat::kilojoules_per_kilogram_kelvin);
    keys.done();
    let pot = ReferencePot {
        water: water?,
        start: start?,
        end: end?,
        air: air?,
        capacity: capacity?,
        mass: mass?,
        heat: heat?,
    };
    if pot.end > pot.start {
        return Some(pot);
    }
    desk.error(
        node,
        "value.range",
        "the reference boil must end hotter than it starts",
        "write `end` above `start`",
    )
}

/// How a pot without its lid loses heat by vapour.
fn open_pot(desk: &Desk, node: &Node) -> Option<OpenPot> {
    let keys = desk.keys(node, "a pot without its lid")?;
    let radiation = keys
        .need("radiation", "write W for each square metre and kelvin")
        .and_then(|node| desk.number(node, "W for each square metre and kelvin", 0.0..=100.0));
    let humidity = keys
        .need("humidity", "write a share, such as `50%`")
        .and_then(|node| {
            desk.within(
                node,
                Fraction::ZERO..=Fraction::percent(100.0),
                "a share from 0% to 100%",
            )
        });
    let latent = keys
        .need("latent", "write a heat, such as `2.30 MJ/kg`")
        .and_then(|node| above_zero::<HeatingValue>(desk, node));
    let held_below = keys
        .need("held_below", "write a difference, such as `3 K`")
        .and_then(|node| warming(desk, node));
    keys.done();
    Some(OpenPot {
        radiation: radiation?,
        humidity: humidity?,
        latent: latent?,
        held_below: held_below?,
    })
}

fn washing(desk: &Desk, node: &Node) -> Option<BTreeMap<Washing, WashMethod>> {
    let keys = desk.keys(node, "the washing methods")?;
    let read = [
        (Washing::WipeAndRinse, "wipe_and_rinse"),
        (Washing::TwoPots, "two_pots"),
        (Washing::ThreeBowls, "three_bowls"),
        (Washing::ThreeBowlsHotDip, "three_bowls_with_hot_dip"),
    ]
    .map(|(method, key)| {
        (
            method,
            keys.need(key, HELP).and_then(|node| wash(desk, node)),
        )
    });
    keys.done();
    read.into_iter()
        .map(|(method, read)| read.map(|read| (method, read)))
        .collect()
}

fn wash(desk: &Desk, node: &Node) -> Option<WashMethod> {
    let keys = desk.keys(node, "a washing method")?;
    let a_person = keys
        .get("a_person")
        .map_or(Some(Volume::ZERO), |node| desk.quantity(node));
    let mut parts = Vec::new();
    let mut fine = true;
    if let Some(node) = keys.get("a_kitchen") {
        let items: Vec<&Node> = match &node.value {
            Value::Map(_) => vec![node],
            _ => desk.list(node, "the waters of a kitchen"),
        };
        for item in items {
            let Some(keys) = desk.keys(item, "a water to wash in") else {
                fine = false;
                continue;
            };
            let water = keys
                .need("water", "write litres")
                .and_then(|node| above_zero::<Volume>(desk, node));
            let at = keys
                .get("at")
                .map(|node| desk.quantity::<Temperature>(node));
            keys.done();
            match (water, super::optional(at)) {
                (Some(water), Some(at)) => parts.push((water, at)),
                _ => fine = false,
            }
        }
    }
    let origin = super::origin(&keys, false);
    keys.done();
    let origin = origin?;
    fine.then_some(WashMethod {
        a_person: a_person?,
        a_kitchen: parts,
        basis: origin.basis,
        sources: origin.sources,
    })
}

fn boil_minutes(desk: &Desk, node: &Node) -> Option<BTreeMap<BoilRules, Constant<BoilMinutes>>> {
    let keys = desk.keys(node, "the minutes of boiling")?;
    let read = [
        (BoilRules::Cdc, "cdc"),
        (BoilRules::CdcTravel, "cdc_travel"),
        (BoilRules::Epa, "epa"),
        (BoilRules::HealthCanada, "health_canada"),
        (BoilRules::Who, "who"),
    ]
    .map(|(rules, key)| {
        let read = keys
            .need(key, HELP)
            .and_then(|node| constant(desk, node, minutes));
        (rules, read)
    });
    keys.done();
    read.into_iter()
        .map(|(rules, read)| read.map(|read| (rules, read)))
        .collect()
}

fn minutes(desk: &Desk, node: &Node) -> Option<BoilMinutes> {
    let keys = desk.keys(node, "minutes at a rolling boil")?;
    let [low, high] = ["low", "high"].map(|key| {
        keys.need(key, "write minutes, such as `1 min`")
            .and_then(|node| {
                desk.within(
                    node,
                    Time::ZERO..=Time::hours(1.0),
                    "minutes, from `0 min` to `60 min`",
                )
            })
    });
    let above = keys.get("above").map(|node| desk.quantity::<Length>(node));
    let from = keys
        .get("from_that_height")
        .map_or(Some(false), |node| desk.yes_no(node));
    keys.done();
    Some(BoilMinutes {
        low: low?,
        above: super::optional(above)?,
        from_that_height: from?,
        high: high?,
    })
}
