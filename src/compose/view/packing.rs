//! The packing list of one kitchen: what goes into which part of the bag.

use super::common::{Head, Pair};
use super::{Filled, Inputs, OneKitchen, containers};
use crate::compose::words;
use crate::nouns::{Arrival, Id, PackItem};
use crate::plan::{Issue, issues};
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
    /// What is handed out on the way, a part for each place.
    pub drops: Vec<Bag>,
    /// Fuel needed and issued, a line a place.
    pub issued: Vec<Pair>,
    /// Whether a stove may be lit.
    pub flame: bool,
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
    let mut rows = if inputs.flame() {
        fire(inputs, one)
    } else {
        Vec::new()
    };
    for pot in &one.kitchen.pots {
        if !inputs.flame() {
            break;
        }
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
        drops: drops(inputs, one),
        issued: containers::in_brief(inputs.plan, one.plan, inputs.units)
            .into_iter()
            .map(|(place, fuel)| Pair::new(place, fuel))
            .collect(),
        flame: inputs.flame(),
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
    for issue in issues(inputs.plan, one.plan)
        .iter()
        .filter(|issue| issue.in_bag)
    {
        rows.extend(handed_out(inputs, one, issue, "fire"));
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

/// What is handed out for a leg, a line a container, or the fuel where none was chosen.
fn handed_out(inputs: &Inputs<'_>, one: OneKitchen<'_>, issue: &Issue, bag: &str) -> Vec<Row> {
    let row = |name: String, mass: Mass| Row {
        bag: bag.to_owned(),
        name,
        count: 1,
        mass,
        returns: true,
        not_by_air: true,
    };
    if issue.containers.is_empty() && issue.needed > Mass::ZERO {
        let fuel = format!("Fuel: {}", one.kitchen.fuel.name);
        return vec![row(fuel, issue.needed)];
    }
    issue
        .containers
        .iter()
        .map(|container| {
            let name = containers::packed(container, inputs.units);
            row(words::capital(&name), container.gross)
        })
        .collect()
}

/// What waits on the way, a part for each drop: not carried from the start.
fn drops(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<Bag> {
    issues(inputs.plan, one.plan)
        .iter()
        .filter(|issue| !issue.in_bag && issue.needed > Mass::ZERO)
        .map(|issue| {
            let rows = handed_out(inputs, one, issue, "drop");
            let camp = &inputs.plan.camps[issue.from].name;
            Bag {
                name: format!("Handed out at {camp}, not in this bag"),
                mass: say::load(together(rows.iter()), inputs.units),
                things: rows.iter().map(|row| thing(inputs, row)).collect(),
            }
        })
        .collect()
}

/// The mass of all of them; what is not known counts nothing.
fn together<'a>(rows: impl Iterator<Item = &'a Row>) -> Mass {
    Mass::grams(
        rows.map(|row| row.mass.in_grams() * f64::from(row.count))
            .sum(),
    )
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
