//! The packing list of one kitchen: what goes into which part of the bag.

use super::common::Head;
use super::{Filled, Inputs, OneKitchen};
use crate::compose::words;
use crate::nouns::{Arrival, Id, PackItem};
use crate::units::{Mass, say};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// The parts of a kitchen bag, in the order they are packed.
const BAGS: [(&str, &str); 5] = [
    ("fire", "Fire"),
    ("cook", "Cook"),
    ("wash", "Wash"),
    ("safety", "Safety"),
    ("repair", "Repair"),
];

/// A packing list.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct PackingList {
    /// The head.
    pub head: Head,
    /// `5 people`.
    pub people: String,
    /// The parts of the bag, in the order they are packed.
    pub bags: Vec<Bag>,
    /// Everything together.
    pub total: String,
    /// A person's share.
    pub share: String,
    /// Whether some masses are not known and so not in the sums.
    pub some_unknown: bool,
    /// Whether they arrive by air.
    pub by_air: bool,
    /// Whether a second stove goes along.
    pub second_stove: bool,
}

/// A part of the bag.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Bag {
    /// Its name.
    pub name: String,
    /// Mass of what is in it.
    pub mass: String,
    /// What goes in.
    pub things: Vec<Thing>,
}

/// A thing to pack.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Thing {
    /// Its name.
    pub name: String,
    /// How many, where it is not one.
    pub count: String,
    /// Whether there are several.
    pub several: bool,
    /// Mass of all of them.
    pub mass: String,
    /// Whether its mass is known.
    pub weighed: bool,
    /// Whether it comes back to the store room.
    pub returns: bool,
    /// Whether it may not fly.
    pub not_by_air: bool,
}

/// A packing list a kitchen.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    inputs
        .kitchens()
        .into_iter()
        .map(|one| {
            let view = list(inputs, title, one);
            Filled::of(Some(one.kitchen.name.clone()), &view, BTreeMap::new())
        })
        .collect()
}

struct Row {
    bag: String,
    name: String,
    count: u32,
    mass: Mass,
    returns: bool,
    not_by_air: bool,
}

fn list(inputs: &Inputs<'_>, title: &str, one: OneKitchen<'_>) -> PackingList {
    let mut rows = fire(inputs, one);
    for pot in &one.kitchen.pots {
        rows.push(Row {
            bag: "cook".to_owned(),
            name: format!("Pot with lid, {}", pot.name()),
            count: 1,
            mass: pot.mass,
            returns: true,
            not_by_air: false,
        });
    }
    let (items, sources) = gathered(inputs, one);
    rows.extend(items);
    let total = together(rows.iter());
    let bags = BAGS
        .iter()
        .map(|(bag, heading)| {
            let inside = || rows.iter().filter(|row| row.bag == *bag);
            Bag {
                name: (*heading).to_owned(),
                mass: say::load(together(inside()), inputs.units),
                things: inside().map(|row| thing(inputs, row)).collect(),
            }
        })
        .filter(|bag| !bag.things.is_empty())
        .collect();
    PackingList {
        head: inputs.head(title, Some(&one.kitchen.name), &sources),
        people: words::count(one.kitchen.people, "person", "people"),
        bags,
        total: say::load(total, inputs.units),
        share: say::load(
            total * (1.0 / f64::from(one.kitchen.people.max(1))),
            inputs.units,
        ),
        some_unknown: rows.iter().any(|row| row.mass == Mass::ZERO),
        by_air: inputs.trip.arrival == Some(Arrival::Air),
        second_stove: inputs.trip.second_stove == Some(true),
    }
}

/// The stove, its spares and its fuel.
fn fire(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<Row> {
    let stove = &one.kitchen.stove;
    let row = |name: String, count: u32, mass: Mass, returns: bool, not_by_air: bool| Row {
        bag: "fire".to_owned(),
        name,
        count,
        mass,
        returns,
        not_by_air,
    };
    let mut rows = vec![row(
        format!("Stove, {}", stove.name),
        1,
        stove.mass,
        true,
        false,
    )];
    if inputs.trip.second_stove == Some(true) && one.index == 0 {
        rows.push(row(
            "Second stove, for all kitchens".to_owned(),
            1,
            stove.mass,
            true,
            false,
        ));
    }
    rows.extend(handed_out(one));
    if one.plan.containers.is_empty() {
        rows.push(row(
            format!("Fuel: {}", one.kitchen.fuel.name),
            1,
            one.plan.fuel.carry,
            true,
            true,
        ));
    }
    if !stove.spares.is_empty() {
        let mut spares = row(
            format!("Stove spares: {}", stove.spares.join("; ")),
            1,
            Mass::ZERO,
            true,
            false,
        );
        spares.bag = "repair".to_owned();
        rows.push(spares);
    }
    rows
}

/// The mass of all of them; what is not known counts nothing.
fn together<'a>(rows: impl Iterator<Item = &'a Row>) -> Mass {
    Mass::grams(
        rows.map(|row| row.mass.in_grams() * f64::from(row.count))
            .sum(),
    )
}

/// The containers, a line for all of a size, with their tags.
fn handed_out(one: OneKitchen<'_>) -> Vec<Row> {
    let mut lines: Vec<(&str, Vec<&str>, u32, f64)> = Vec::new();
    for container in &one.plan.containers {
        let grams = container.gross.in_grams() * f64::from(container.count);
        let line = match lines.iter_mut().find(|line| line.0 == container.name) {
            Some(line) => line,
            None => {
                lines.push((&container.name, Vec::new(), 0, 0.0));
                let last = lines.len() - 1;
                &mut lines[last]
            }
        };
        line.1.extend(container.tag.as_deref());
        line.2 += container.count;
        line.3 += grams;
    }
    lines
        .into_iter()
        .map(|(name, tags, count, grams)| Row {
            bag: "fire".to_owned(),
            name: if tags.is_empty() {
                format!("{}, full", words::capital(name))
            } else {
                format!("{}: {}", words::capital(name), tags.join(", "))
            },
            count,
            // A line's mass is of all its pieces; a row's is of one.
            mass: Mass::grams(grams / f64::from(count.max(1))),
            returns: true,
            not_by_air: true,
        })
        .collect()
}

/// What the modules bring; equal ids of two modules are one thing.
fn gathered(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> (Vec<Row>, BTreeSet<String>) {
    let mut sources = BTreeSet::new();
    let mut things: BTreeMap<Id, (u32, usize, String, PackItem)> = BTreeMap::new();
    let mut order = 0;
    for module in inputs.modules_for(one) {
        for item in &module.pack {
            if !inputs.holds_for(&item.applies, one) {
                continue;
            }
            inputs.cite(module, &[&item.say], &mut sources);
            let count = item.a_kitchen + item.a_person * one.kitchen.people;
            let said = super::common::plain_line(&inputs.filler.line(module, &item.say));
            order += 1;
            things
                .entry(item.id.clone())
                .and_modify(|known| known.0 = known.0.max(count))
                .or_insert((count, order, said, item.clone()));
        }
    }
    let mut things: Vec<_> = things.into_values().collect();
    things.sort_by_key(|(_, order, _, _)| *order);
    let rows = things
        .into_iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, _, said, item)| Row {
            bag: item.bag,
            name: said,
            count,
            mass: item.mass,
            returns: item.returns,
            not_by_air: item.not_by_air,
        })
        .collect();
    (rows, sources)
}

fn thing(inputs: &Inputs<'_>, row: &Row) -> Thing {
    Thing {
        name: row.name.clone(),
        count: row.count.to_string(),
        several: row.count > 1,
        mass: say::load(row.mass * f64::from(row.count), inputs.units),
        weighed: row.mass != Mass::ZERO,
        returns: row.returns,
        not_by_air: row.not_by_air,
    }
}
