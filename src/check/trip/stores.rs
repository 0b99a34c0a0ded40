//! The store room: canisters on hand, prices.

use super::super::desk::{Desk, shown, suggestion};
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{Because, Presumed};
use crate::nouns::{
    CanisterOnHand, Connection, Container, ContainerKind, FuelKind, Kitchen, Library, Price, id,
};
use crate::units::{Mass, Quantity as _, Volume, say};
use std::collections::BTreeMap;

/// More canisters than these for one trip, or for so many kitchens, take too long to share out.
const MOST_CANISTERS: usize = 200;
const MOST_PAIRS: usize = 2000;

/// Scales and labels are this far off.
const SCALE: Mass = Mass::grams(3.0);

/// The canisters in the store room.
pub(super) fn canisters(
    desk: &Desk,
    node: &Node,
    kitchens: Option<&[Kitchen]>,
    library: &Library,
) -> Option<Vec<CanisterOnHand>> {
    let Value::List(items) = &node.value else {
        return desk.error(
            node,
            "value.shape",
            told!(
                "expected the canisters (a list), found {kind}",
                kind = Told::from(node.kind())
            ),
            "put `- ` before the first key of each canister",
        );
    };
    let count = kitchens.map_or(1, <[Kitchen]>::len);
    if items.len() > MOST_CANISTERS || items.len() * count > MOST_PAIRS {
        let most = MOST_CANISTERS.min(MOST_PAIRS / count.max(1)).max(1);
        return desk.error(
            node,
            "trip.canisters",
            if count == 1 {
                told!(
                    "{items} canisters for 1 kitchen are more than one plan can share out",
                    items = items.len()
                )
            } else {
                told!(
                    "{items} canisters for {count} kitchens are more than one plan can share out",
                    items = items.len(),
                    count
                )
            },
            told!("list the {most} or fewer that may go on this trip", most),
        );
    }
    let mut tags = BTreeMap::new();
    let read: Vec<Option<CanisterOnHand>> = items
        .iter()
        .map(|item| canister(desk, item, &mut tags, kitchens, library))
        .collect();
    read.into_iter().collect()
}

fn canister(
    desk: &Desk,
    node: &Node,
    tags: &mut BTreeMap<String, ()>,
    kitchens: Option<&[Kitchen]>,
    library: &Library,
) -> Option<CanisterOnHand> {
    let keys = desk.keys(node, "a canister on hand")?;
    let tag = keys
        .need("tag", "write what stands on the canister, such as `F-014`")
        .and_then(|node| {
            let tag = desk.line(node, "the tag")?;
            if tags.insert(id(&tag), ()).is_some() {
                return desk.error(
                    node,
                    "trip.tag",
                    told!("two canisters have the tag `{tag}`", tag = shown(&tag)),
                    "give each its own tag",
                );
            }
            Some(tag)
        });
    let container = keys
        .need(
            "size",
            "write the grams of fuel in a full one, such as `230 g`",
        )
        .and_then(|node| size(desk, node, library));
    let gross = keys
        .need("gross", "write what it weighs now, such as `291 g`")
        .and_then(|node| mass(desk, node));
    let tare = keys.get("tare").map(|node| mass(desk, node));
    let blend = match keys.get("blend") {
        Some(node) => desk.blend(node),
        None => {
            let blend = library.figures.unknown_blend.value;
            desk.assume(
                node.path_of("blend"),
                Presumed::Blend(blend),
                Because::CautiousInTheCold,
            );
            Some(blend)
        }
    };
    let present = keys.get("present").map(|node| desk.blend(node));
    let connection = match keys.get("connection") {
        Some(node) => desk.word(node, "a connection", Connection::ALL, Connection::word),
        None => {
            desk.assume(
                node.path_of("connection"),
                Presumed::Word(Connection::Thread.word()),
                Because::NotStated,
            );
            Some(Connection::Thread)
        }
    };
    let stated_connection = keys.node.get("connection");
    keys.done();

    if let (Some(container), Some(gross)) = (container, gross) {
        weighed(desk, node, container, gross, tare)?;
    }
    if let (Some(connection), Some(kitchens)) = (connection, kitchens) {
        fits(
            desk,
            stated_connection.unwrap_or(node),
            connection,
            kitchens,
        );
    }
    Some(CanisterOnHand {
        tag: tag?,
        container: container?.id.clone(),
        gross: gross?,
        tare: super::optional(tare)?,
        blend: blend?,
        blend_stated: node.get("blend").is_some(),
        present: super::optional(present)?,
        connection: connection?,
    })
}

fn mass(desk: &Desk, node: &Node) -> Option<Mass> {
    desk.within(
        node,
        Mass::grams(10.0)..=Mass::kilograms(5.0),
        "a mass from 10 g to 5 kg",
    )
}

/// The catalogue's canister of a size.
fn size<'l>(desk: &Desk, node: &Node, library: &'l Library) -> Option<&'l Container> {
    let wanted: Mass = desk.quantity(node)?;
    let canisters = || {
        library
            .containers
            .values()
            .filter(|container| container.kind == ContainerKind::Canister)
    };
    canisters()
        .find(|container| (container.net - wanted).in_grams().abs() < 0.5)
        .or_else(|| {
            let mut known: Vec<_> = canisters().map(|container| container.net).collect();
            known.sort_by(|a, b| a.in_grams().total_cmp(&b.in_grams()));
            let known: Vec<String> = known
                .iter()
                .map(|net| format!("`{} g`", say::significant(net.in_grams(), 4)))
                .collect();
            desk.error(
                node,
                "name.unknown",
                told!(
                    "the catalogue has no canister of `{node}`",
                    node = shown(node.text().unwrap_or_default())
                ),
                told!(
                    "write one of {known}; `size` is the fuel in a full one",
                    known = known.join(", ")
                ),
            )
        })
}

/// Holds what the scale says against what a canister can weigh.
fn weighed(
    desk: &Desk,
    node: &Node,
    container: &Container,
    gross: Mass,
    tare: Option<Option<Mass>>,
) -> Option<()> {
    let at = node.get("gross").unwrap_or(node);
    let grams = |mass: Mass| format!("{} g", say::number(mass.in_grams(), 0));
    let (least, most) = match tare {
        Some(None) => return None,
        Some(Some(tare)) => (tare, tare + container.net + SCALE),
        None => (
            container.tare - container.tare_spread,
            container.tare + container.tare_spread + container.net + SCALE,
        ),
    };
    if gross < least {
        return desk.error(
            at,
            "trip.canister",
            told!(
                "a canister of {gross} cannot weigh less than it does empty ({least})",
                gross = grams(gross),
                least = grams(least)
            ),
            "weigh it again, and read the tare on its label",
        );
    }
    if gross > most {
        return desk.error(
            at,
            "trip.canister",
            told!(
                "a canister of {gross} is heavier than a full one ({most})",
                gross = grams(gross),
                most = grams(most)
            ),
            "weigh it without the stove, and check `size` and `tare`",
        );
    }
    if let Some(Some(tare)) = tare
        && (tare - container.tare).in_grams().abs() > 2.5 * container.tare_spread.in_grams()
    {
        desk.warn(
            node.get("tare").unwrap_or(node),
            "trip.canister",
            told!(
                "a {name} usually weighs about {tare} empty",
                name = container.name,
                tare = grams(container.tare)
            ),
            "check `tare` against the label",
        );
    }
    Some(())
}

/// A canister that no stove of the trip takes is no fuel for it.
fn fits(desk: &Desk, node: &Node, connection: Connection, kitchens: &[Kitchen]) {
    let takes: Vec<Connection> = kitchens
        .iter()
        .filter(|kitchen| kitchen.fuel.kind == FuelKind::Canister)
        .filter_map(|kitchen| kitchen.stove.connection)
        .collect();
    if takes.is_empty() {
        desk.warn(
            node,
            "trip.connection",
            "no kitchen of this trip burns canister gas, so this canister stays at home",
            "leave it out, or give a kitchen a canister stove",
        );
    } else if !takes.contains(&connection) {
        desk.error::<()>(
            node,
            "trip.connection",
            told!(
                "this canister has a {connection} connection, and the stoves take {takes}",
                connection,
                takes = takes[0]
            ),
            "leave it out: a canister that does not fit its stove leaks",
        );
    }
}

/// Prices by the user: `canister 230 g: 7.50`, `white gas 1 L: 14`.
pub(super) fn prices(desk: &Desk, node: &Node, library: &Library) -> Option<Vec<Price>> {
    if !matches!(node.value, Value::Map(_)) {
        return desk.error(
            node,
            "value.shape",
            told!(
                "expected the prices (a block), found {kind}",
                kind = Told::from(node.kind())
            ),
            "write a line such as `canister 230 g: 7.50` below it",
        );
    }
    let read: Vec<Option<Price>> = node
        .entries()
        .iter()
        .map(|entry| {
            let amount = desk.number(&entry.node, "a price", 0.0..=100_000.0);
            let container = priced(&entry.key, library).or_else(|| {
                let names = library
                    .containers
                    .values()
                    .map(|container| container.name.as_str());
                desk.error(
                    &entry.node,
                    "name.unknown",
                    told!(
                        "there is no container `{key}` to have a price",
                        key = shown(&entry.key)
                    ),
                    suggestion(&entry.key, names),
                )
            });
            Some(Price {
                item: entry.key.clone(),
                container: container?.id.clone(),
                amount: amount?,
            })
        })
        .collect();
    read.into_iter().collect()
}

/// The container that a price is for: by its name, or by a fuel and a size.
fn priced<'l>(item: &str, library: &'l Library) -> Option<&'l Container> {
    let containers = || library.containers.values();
    if let Some(found) = containers().find(|container| id(&container.name) == id(item)) {
        return Some(found);
    }
    let digit = item.find(|c: char| c.is_ascii_digit())?;
    let (name, size) = item.split_at(digit);
    let wanted = id(name);
    let kind = FuelKind::from_word(&wanted).or_else(|| {
        library
            .fuels
            .values()
            .find(|fuel| fuel.id == wanted || id(&fuel.name) == wanted)
            .map(|fuel| fuel.kind)
    })?;
    let holds = |container: &&Container| container.fuels.contains(&kind);
    if let Ok(mass) = Mass::read(size) {
        containers()
            .filter(holds)
            .find(|container| (container.net - mass).in_grams().abs() < 0.5)
    } else {
        let volume = Volume::read(size).ok()?;
        containers()
            .filter(holds)
            .find(|container| (container.capacity - volume).in_millilitres().abs() < 1.0)
    }
}
