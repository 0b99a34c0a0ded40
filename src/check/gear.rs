//! Gear as a trip or trial names it: stoves with their own values, pots.

use super::content::gear::{range, stove as stove_entry};
use super::desk::{Desk, shown, suggestion};
use crate::diag::told;
use crate::load::{Node, Value};
use crate::nouns::{Id, Library, Material, Pot, Stove, id};
use crate::units::{Mass, Power, Quantity as _, Volume};

/// The stove of a name, or of a block that extends one.
pub(super) fn stove(desk: &Desk, node: &Node, library: &Library) -> Option<Stove> {
    if !matches!(node.value, Value::Map(_)) {
        let known = node.text().is_some_and(|text| {
            let wanted = id(text);
            let mut stoves = library.stoves.values();
            stoves.any(|stove| stove.id == wanted || id(&stove.name) == wanted)
        });
        if !known && let Some(burners) = by_fuel(node, library) {
            if let [only] = burners.as_slice() {
                return Some((*only).clone());
            }
            let names: Vec<String> = burners
                .iter()
                .map(|stove| format!("`{}`", stove.id))
                .collect();
            return desk.error(
                node,
                "name.unknown",
                told!(
                    "`{node}` is a fuel of several stoves",
                    node = shown(node.text().unwrap_or_default())
                ),
                told!("write which one: {names}", names = names.join(", ")),
            );
        }
        return desk
            .named(node, "stove", &library.stoves, |stove| &stove.name)
            .cloned();
    }
    let extends = node.get("extends").or_else(|| {
        desk.error(
            node,
            "key.missing",
            "a stove of your own must say which stove it is like",
            "write `extends: white gas` (or another stove of `leeside list gear`) first",
        )
    })?;
    let base = desk.named(extends, "stove", &library.stoves, |stove| &stove.name)?;
    stove_entry(desk, &base.id, node, Some(base))
}

/// The stoves that burn a fuel by habit, where a fuel stands in place of a stove.
fn by_fuel<'l>(node: &Node, library: &'l Library) -> Option<Vec<&'l Stove>> {
    let fuel = library.fuel_called(node.text()?)?;
    let burners = library
        .stoves
        .values()
        .filter(|stove| stove.fuel == fuel.id);
    let burners: Vec<&Stove> = burners.collect();
    (!burners.is_empty()).then_some(burners)
}

/// Lays a kitchen's own `power`, `least_power` and `efficiency` over its stove.
pub(super) fn own_values(
    desk: &Desk,
    stove: &mut Stove,
    power: Option<&Node>,
    least_power: Option<&Node>,
    efficiency: Option<&Node>,
) -> Option<()> {
    let most = Power::kilowatts(20.0);
    let limits = "a burner's power from 50 W to 20 kW";
    let mut fine = Some(());
    let fixed = stove.least_power >= stove.power;
    if let Some(node) = power {
        match desk.within(node, Power::watts(50.0)..=most, limits) {
            Some(power) => {
                stove.power = power;
                stove.least_power = if fixed {
                    power
                } else {
                    stove.least_power.min(power)
                };
            }
            None => fine = None,
        }
    }
    if let Some(node) = least_power {
        match desk.within(node, Power::watts(10.0)..=most, limits) {
            Some(least) if least > stove.power => {
                fine = desk.error(
                    node,
                    "trip.power",
                    "the least flame cannot be more than the burner's full power",
                    "write the heat of the fuel burnt at the smallest steady flame",
                );
            }
            Some(least) => stove.least_power = least,
            None => fine = None,
        }
    }
    if let Some(node) = efficiency {
        match range(desk, node, Some(stove.efficiency)) {
            Some(range) => stove.efficiency = range,
            None => fine = None,
        }
    }
    fine
}

/// The material of a name; the American spelling of aluminium is the same.
pub(super) fn material<'l>(wanted: &str, library: &'l Library) -> Option<&'l Material> {
    let wanted: Id = match wanted {
        "aluminum" => "aluminium".to_owned(),
        "stainless-steel" | "steel" => "stainless".to_owned(),
        other => other.to_owned(),
    };
    library.materials.get(&wanted).or_else(|| {
        library
            .materials
            .values()
            .find(|material| id(&material.name) == wanted)
    })
}

/// A material by name, or a problem.
pub(super) fn material_named<'l>(
    desk: &Desk,
    node: &Node,
    text: &str,
    library: &'l Library,
) -> Option<&'l Material> {
    material(&id(text), library).or_else(|| {
        desk.error(
            node,
            "name.unknown",
            told!(
                "there is no pot material named `{value}`",
                value = shown(text)
            ),
            suggestion(&id(text), library.materials.keys().map(String::as_str)),
        )
    })
}

/// A pot: `MATERIAL CAPACITY[, MASS]`.
pub(super) fn pot(desk: &Desk, node: &Node, library: &Library) -> Option<Pot> {
    const HELP: &str =
        "write material and capacity, and the mass if you weighed it: `aluminium 3 L, 310 g`";
    let text = desk.scalar(node, "a pot")?;
    let (first, mass) = match text.split_once(',') {
        Some((first, mass)) => (first, Some(mass)),
        None => (text, None),
    };
    if first.trim().starts_with(|c: char| c.is_ascii_digit()) {
        return desk.error(
            node,
            "trip.pot",
            told!(
                "the pot `{value}` does not say what it is made of",
                value = shown(text)
            ),
            HELP,
        );
    }
    let Some(digit) = first.find(|c: char| c.is_ascii_digit()) else {
        return desk.error(
            node,
            "trip.pot",
            told!("the pot `{value}` has no capacity", value = shown(text)),
            HELP,
        );
    };
    let (name, capacity) = first.split_at(digit);
    let material = material_named(desk, node, name, library)?;
    let capacity = match Volume::read(capacity) {
        Ok(volume) if (0.1..=60.0).contains(&volume.in_litres()) => volume,
        Ok(_) => {
            return desk.error(
                node,
                "trip.pot",
                told!(
                    "a pot of `{capacity}` is no camp pot",
                    capacity = shown(capacity)
                ),
                "write a capacity from 0.1 L to 60 L",
            );
        }
        Err(misread) => return desk.error(node, "trip.pot", misread.message, HELP),
    };
    let mass = match mass.map(Mass::read) {
        None => None,
        Some(Ok(mass)) if (5.0..=20_000.0).contains(&mass.in_grams()) => Some(mass),
        Some(Ok(_)) => {
            return desk.error(
                node,
                "trip.pot",
                "that is not the mass of a camp pot",
                "write the mass of the pot with its lid, from 5 g to 20 kg",
            );
        }
        Some(Err(misread)) => return desk.error(node, "trip.pot", misread.message, HELP),
    };
    Some(made(material, capacity, mass))
}

/// A pot of a material, with the catalogue's mass if none is stated.
pub(super) fn made(material: &Material, capacity: Volume, mass: Option<Mass>) -> Pot {
    Pot {
        material: material.id.clone(),
        specific_heat: material.specific_heat,
        capacity,
        mass: mass.unwrap_or(material.base_mass + material.mass_per_litre * capacity.in_litres()),
        mass_stated: mass.is_some(),
    }
}
