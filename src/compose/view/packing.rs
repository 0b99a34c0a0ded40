//! The packing list of one kitchen: what goes into which part of the bag.

use super::common::{Head, Pair};
use super::{Filled, Inputs, OneKitchen};
use crate::compose::catalogue::{self, text};
use crate::compose::words;
use crate::nouns::{Arrival, Id, PackItem};
use crate::phrase::phrase;
use crate::plan::statements::container_id;
use crate::plan::{Issue, Value, issues};
use crate::units::{Mass, say};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// The parts of a kitchen bag, in the order they are packed.
const BAGS: [&str; 5] = ["fire", "cook", "wash", "safety", "repair"];

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
    /// The id under which its mass is stated.
    of: String,
    bag: String,
    name: String,
    count: u32,
    mass: Mass,
    returns: bool,
    not_by_air: bool,
}

/// The id of something of a kitchen's packing list.
fn packed_id(one: OneKitchen<'_>, what: &str) -> String {
    format!("kitchen.{}.pack.{what}", one.plan.slug)
}

/// The masses that the packing lists say, by id: of things, of bags, of all together.
#[must_use]
pub fn stated(inputs: &Inputs<'_>) -> Vec<(String, Value)> {
    let mut all = Vec::new();
    for one in inputs.kitchens() {
        let (rows, _) = packed(inputs, one);
        let mut say = |what: &str, mass: Mass| {
            all.push((packed_id(one, what), Value::Mass(mass)));
        };
        for bag in BAGS {
            let inside = rows.iter().filter(|row| row.bag == bag);
            say(&format!("bag.{bag}"), together(inside));
        }
        for (issue, rows) in dropped(inputs, one) {
            say(&format!("drop-{}", issue.leg), together(rows.iter()));
        }
        let total = together(rows.iter());
        say("all", total);
        say("a-person", a_share(one, total));
        all.extend(rows.iter().map(|row| {
            let mass = row.mass * f64::from(row.count);
            (row.of.clone(), Value::Mass(mass))
        }));
    }
    all
}

/// A person's share of a mass.
fn a_share(one: OneKitchen<'_>, total: Mass) -> Mass {
    total * (1.0 / f64::from(one.kitchen.people.max(1)))
}

/// What is in the bag of a kitchen, and the sources of what is said of it.
fn packed(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> (Vec<Row>, BTreeSet<String>) {
    let mut rows = if inputs.lights() {
        fire(inputs, one)
    } else {
        Vec::new()
    };
    for (number, pot) in (1..).zip(&one.kitchen.pots) {
        if !inputs.lights() {
            break;
        }
        rows.push(Row {
            of: packed_id(one, &format!("pot-{number}")),
            bag: "cook".to_owned(),
            name: text(&phrase!("pack-pot", pot = words::pot(pot))),
            count: 1,
            mass: pot.mass,
            returns: true,
            not_by_air: false,
        });
    }
    let (items, sources) = gathered(inputs, one);
    rows.extend(items);
    if inputs.flame() && !inputs.lights() {
        // a lesson that lights nothing packs nothing to light
        rows.retain(|row| row.bag != "fire");
    }
    (rows, sources)
}

fn list(inputs: &Inputs<'_>, title: &str, one: OneKitchen<'_>) -> PackingList {
    let (rows, sources) = packed(inputs, one);
    let say =
        |what: &str, mass: Mass| inputs.say(&packed_id(one, what), say::load(mass, inputs.units));
    let total = together(rows.iter());
    let bags = BAGS
        .iter()
        .map(|bag| {
            let inside = || rows.iter().filter(|row| row.bag == *bag);
            Bag {
                name: words::capital(&catalogue::word(bag, &["bag"])),
                mass: say(&format!("bag.{bag}"), together(inside())),
                things: inside().map(|row| thing(inputs, row)).collect(),
            }
        })
        .filter(|bag| !bag.things.is_empty())
        .collect();
    PackingList {
        head: inputs.head(title, Some(&one.kitchen.name), &sources),
        people: words::people(one.kitchen.people),
        bags,
        drops: drops(inputs, one),
        issued: inputs
            .handed(one)
            .in_brief()
            .into_iter()
            .map(|(place, fuel)| Pair::new(place, fuel))
            .collect(),
        flame: inputs.lights(),
        total: say("all", total),
        share: say("a-person", a_share(one, total)),
        some_unknown: rows.iter().any(|row| row.mass == Mass::ZERO),
        by_air: inputs.trip.arrival == Some(Arrival::Air),
        second_stove: inputs.trip.second_stove == Some(true),
    }
}

/// The stove, its spares and its fuel.
fn fire(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<Row> {
    let stove = &one.kitchen.stove;
    let row = |what: &str, name: String, mass: Mass| Row {
        of: packed_id(one, what),
        bag: "fire".to_owned(),
        name,
        count: 1,
        mass,
        returns: true,
        not_by_air: false,
    };
    let name = text(&phrase!("pack-stove", stove = stove.name));
    let mut rows = vec![row("stove", name, stove.mass)];
    if inputs.trip.second_stove == Some(true) && one.index == 0 {
        let name = text(&phrase!("pack-second-stove"));
        rows.push(row("second-stove", name, stove.mass));
    }
    for issue in issues(inputs.plan, one.plan)
        .iter()
        .filter(|issue| issue.in_bag)
    {
        rows.extend(handed_out(inputs, one, issue, "fire"));
    }
    if !stove.spares.is_empty() {
        let spares = stove.spares.join("; ");
        let name = text(&phrase!("pack-spares", spares = spares));
        let mut spares = row("spares", name, Mass::ZERO);
        spares.bag = "repair".to_owned();
        rows.push(spares);
    }
    rows
}

/// What is handed out for a leg, a line a container, or the fuel where none was chosen.
fn handed_out(inputs: &Inputs<'_>, one: OneKitchen<'_>, issue: &Issue, bag: &str) -> Vec<Row> {
    let row = |of: String, name: String, mass: Mass| Row {
        of,
        bag: bag.to_owned(),
        name,
        count: 1,
        mass,
        returns: true,
        not_by_air: true,
    };
    if issue.containers.is_empty() && issue.needed > Mass::ZERO {
        let fuel = text(&phrase!("pack-fuel", fuel = one.kitchen.fuel.name));
        let of = format!("kitchen.{}.leg-{}.needed", one.plan.slug, issue.leg + 1);
        return vec![row(of, fuel, issue.needed)];
    }
    issue
        .containers
        .iter()
        .map(|container| {
            let name = inputs.handed(one).packed(container);
            let of = format!("{}.gross", container_id(one.plan, container.line));
            row(of, words::capital(&name), container.gross)
        })
        .collect()
}

/// What waits on the way, a part for each drop: not carried from the start.
fn drops(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<Bag> {
    dropped(inputs, one)
        .into_iter()
        .map(|(issue, rows)| {
            let camp = &inputs.plan.camps[issue.from].name;
            let of = packed_id(one, &format!("drop-{}", issue.leg));
            Bag {
                name: text(&phrase!("pack-handed-out-at", camp = camp)),
                mass: inputs.say(&of, say::load(together(rows.iter()), inputs.units)),
                things: rows.iter().map(|row| thing(inputs, row)).collect(),
            }
        })
        .collect()
}

/// The legs that are handed out on the way, each with what waits.
fn dropped(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<(Issue, Vec<Row>)> {
    let mut legs = issues(inputs.plan, one.plan);
    legs.retain(|issue| !issue.in_bag && issue.needed > Mass::ZERO);
    let with_rows = |issue: Issue| {
        let rows = handed_out(inputs, one, &issue, "drop");
        (issue, rows)
    };
    legs.into_iter().map(with_rows).collect()
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
            of: packed_id(one, &item.id),
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
        mass: inputs.say(
            &row.of,
            say::load(row.mass * f64::from(row.count), inputs.units),
        ),
        weighed: row.mass != Mass::ZERO,
        returns: row.returns,
        not_by_air: row.not_by_air,
    }
}
