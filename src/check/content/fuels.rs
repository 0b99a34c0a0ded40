//! The catalogue's fuels, pot materials and containers.

use super::super::desk::Desk;
use super::gear::{Entry, not_negative, positive};
use super::optional;
use crate::load::Node;
use crate::nouns::{Container, ContainerKind, Fuel, FuelKind, Id, Material};
use crate::units::{Fraction, HeatingValue, Length, Mass, SpecificHeat, Volume};

/// A fuel.
pub(super) fn fuel(desk: &Desk, name: &Id, node: &Node) -> Option<Fuel> {
    let keys = desk.keys(node, "a fuel")?;
    let entry = Entry {
        keys: &keys,
        based: false,
    };
    let shown_name = entry.read("name", "name the fuel", None, |desk, node| {
        desk.line(node, "the fuel's name")
    });
    let kind = entry.read("kind", "write its kind", None, |desk, node| {
        desk.word(node, "a kind of fuel", FuelKind::ALL, FuelKind::word)
    });
    let value = entry.read(
        "heating_value",
        "write the lower heating value, such as `44.7 MJ/kg`",
        None,
        positive::<HeatingValue>,
    );
    let low = keys
        .get("heating_low")
        .map(|node| positive::<HeatingValue>(desk, node));
    let high = keys
        .get("heating_high")
        .map(|node| positive::<HeatingValue>(desk, node));
    let density = entry.read(
        "density",
        "write kilograms in a litre",
        None,
        |desk, node| desk.number(node, "a density in kg/L", 0.1..=3.0),
    );
    let fossil_co2 = entry.read(
        "fossil_co2",
        "write grams of fossil CO2 for each gram burnt",
        None,
        |desk, node| desk.number(node, "grams of CO2 a gram", 0.0..=5.0),
    );
    let also_called = keys.get("also_called").map(|node| {
        desk.list(node, "other names")
            .into_iter()
            .filter_map(|item| desk.line(item, "a name"))
            .collect()
    });
    let note = keys.get("note").map(|node| super::prose::prose(desk, node));
    let origin = super::origin(&keys, false);
    keys.done();
    let (value, low, high) = (value?, optional(low)?, optional(high)?);
    let (low, high) = (low.unwrap_or(value), high.unwrap_or(value));
    if low > value || value > high {
        return desk.error(
            node,
            "value.range",
            "the heating value does not lie between its low and high",
            "`heating_low` is the smallest, `heating_high` the largest",
        );
    }
    Some(Fuel {
        id: name.clone(),
        name: shown_name?,
        kind: kind?,
        heating_value: value,
        heating_range: (low, high),
        density: density?,
        fossil_co2: fossil_co2?,
        also_called: also_called.unwrap_or_default(),
        note: optional(note)?.unwrap_or_default(),
        sources: origin?.sources,
    })
}

/// What a pot is made of.
pub(super) fn material(desk: &Desk, name: &Id, node: &Node) -> Option<Material> {
    let keys = desk.keys(node, "a pot material")?;
    let entry = Entry {
        keys: &keys,
        based: false,
    };
    let shown_name = entry.read("name", "name the material", None, |desk, node| {
        desk.line(node, "the name")
    });
    let heat = entry.read(
        "specific_heat",
        "write kJ to warm a kilogram by one kelvin",
        None,
        |desk, node| desk.number(node, "a specific heat in kJ/(kg K)", 0.05..=5.0),
    );
    let base_mass = entry.read("base_mass", "write a mass", None, not_negative::<Mass>);
    let mass_per_litre = entry.read("mass_per_litre", "write a mass", None, not_negative::<Mass>);
    let origin = super::origin(&keys, false);
    keys.done();
    Some(Material {
        id: name.clone(),
        name: shown_name?,
        specific_heat: SpecificHeat::kilojoules_per_kilogram_kelvin(heat?),
        base_mass: base_mass?,
        mass_per_litre: mass_per_litre?,
        sources: origin?.sources,
    })
}

/// A container.
pub(super) fn container(desk: &Desk, name: &Id, node: &Node) -> Option<Container> {
    let keys = desk.keys(node, "a container")?;
    let entry = Entry {
        keys: &keys,
        based: false,
    };
    let shown_name = entry.read("name", "name the container", None, |desk, node| {
        desk.line(node, "the name")
    });
    let kind = entry.read(
        "kind",
        "write canister, bottle or pack",
        None,
        |desk, node| {
            desk.word(
                node,
                "a kind of container",
                ContainerKind::ALL,
                ContainerKind::word,
            )
        },
    );
    let fuels = entry.read(
        "fuels",
        "list the kinds of fuel it holds",
        None,
        |desk, node| {
            let read: Vec<_> = desk
                .list(node, "kinds of fuel")
                .into_iter()
                .map(|item| desk.word(item, "a kind of fuel", FuelKind::ALL, FuelKind::word))
                .collect();
            read.into_iter().collect::<Option<Vec<_>>>()
        },
    );
    let net = keys.get("net").map(|node| positive::<Mass>(desk, node));
    let capacity = keys
        .get("capacity")
        .map(|node| positive::<Volume>(desk, node));
    let fill = keys.get("fill").map(|node| {
        desk.within(
            node,
            Fraction::percent(10.0)..=Fraction::percent(100.0),
            "a share from 10% to 100%",
        )
    });
    let tare = entry.read("tare", "write its mass empty", None, positive::<Mass>);
    let spread = entry.or("tare_spread", None, Mass::ZERO, not_negative::<Mass>);
    let diameter = entry.read("diameter", "write its diameter", None, positive::<Length>);
    let height = entry.read("height", "write its height", None, positive::<Length>);
    let residue = entry.or("residue", None, Mass::ZERO, not_negative::<Mass>);
    let residue_share = keys
        .get("residue_share")
        .map_or(Some(Fraction::ZERO), |node| {
            desk.within(
                node,
                Fraction::ZERO..=Fraction::percent(50.0),
                "a share from 0% to 50%",
            )
        });
    let origin = super::origin(&keys, false);
    let kind = kind?;
    if kind == ContainerKind::Bottle {
        keys.need("capacity", "a bottle has a capacity, such as `1 L`")?;
    } else {
        keys.need("net", "write the mass of fuel in a full one")?;
    }
    keys.done();
    origin?;
    Some(Container {
        id: name.clone(),
        name: shown_name?,
        kind,
        fuels: fuels?,
        net: optional(net)?.unwrap_or(Mass::ZERO),
        capacity: optional(capacity)?.unwrap_or(Volume::ZERO),
        fill: optional(fill)?.unwrap_or(Fraction::of_one(1.0)),
        tare: tare?,
        tare_spread: spread?,
        diameter: diameter?,
        height: height?,
        residue: residue?,
        residue_share: residue_share?,
    })
}
