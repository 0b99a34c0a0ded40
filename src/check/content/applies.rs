//! When a module, caution, item, question or segment applies.

use super::super::desk::{Desk, Keys};
use super::super::values::LONGEST_LINE;
use super::optional;
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{
    AppliesWhen, Arrival, Family, FuelKind, Id, Kind, Screen, Treatment, Washing, WaterFrom, id,
};
use crate::units::Length;

/// The conditions under a block's `applies`; none is always.
pub(super) fn applies(keys: &Keys<'_, '_>) -> Option<AppliesWhen> {
    let Some(node) = keys.get("applies") else {
        return Some(AppliesWhen::default());
    };
    let desk = keys.desk;
    let keys = desk.keys(node, "`applies`")?;
    let any = keys
        .get("any")
        .map_or(Some(Vec::new()), |node| any(desk, node));
    Some(AppliesWhen {
        any: any?,
        ..conditions(keys)?
    })
}

/// `any`: a list of blocks of which one must hold.
fn any(desk: &Desk, node: &Node) -> Option<Vec<AppliesWhen>> {
    const HELP: &str = "write two or more conditions below `any`, each with `- ` before it, such as `- colder_than: 5 C`";
    let Value::List(items) = &node.value else {
        return desk.error(
            node,
            "value.shape",
            told!(
                "expected a list of conditions, found {kind}",
                kind = Told::from(node.kind())
            ),
            HELP,
        );
    };
    if items.len() < 2 {
        return desk.error(
            node,
            "content.applies",
            "`any` has nothing to choose from",
            HELP,
        );
    }
    let read: Vec<Option<AppliesWhen>> = items
        .iter()
        .map(|item| {
            let keys = desk.keys(item, "a condition of `any`")?;
            if item.entries().is_empty() {
                return desk.error(item, "content.applies", "this condition is empty", HELP);
            }
            conditions(keys)
        })
        .collect();
    read.into_iter().collect()
}

/// The conditions of one block, all of which must hold.
fn conditions(keys: Keys<'_, '_>) -> Option<AppliesWhen> {
    let desk = keys.desk;
    let kind = keys
        .get("kind")
        .map(|node| desk.word(node, "a kind of file", Kind::ALL, Kind::word));
    let fuel = words(
        &keys,
        "fuel",
        "a kind of fuel",
        FuelKind::ALL,
        FuelKind::word,
    );
    let stove = words(&keys, "stove", "a stove family", Family::ALL, Family::word);
    let windscreen = words(
        &keys,
        "windscreen",
        "a windscreen",
        Screen::ALL,
        Screen::word,
    );
    let colder_than = keys
        .get("colder_than")
        .map(|node| desk.outdoor_temperature(node));
    let higher_than = keys
        .get("higher_than")
        .map(|node| desk.quantity::<Length>(node));
    let people_from = keys
        .get("people_from")
        .map(|node| desk.whole(node, "a number of people", 1..=200));
    let youngest_under = keys
        .get("youngest_under")
        .map(|node| desk.whole(node, "an age", 1..=110));
    let place = keys
        .get("place")
        .map_or_else(Vec::new, |node| ids(desk, node));
    let place_other_than = keys
        .get("place_other_than")
        .map_or_else(Vec::new, |node| ids(desk, node));
    let water_from = words(
        &keys,
        "water_from",
        "a source of water",
        WaterFrom::ALL,
        WaterFrom::word,
    );
    let arrival = words(
        &keys,
        "arrival",
        "a way to arrive",
        Arrival::ALL,
        Arrival::word,
    );
    let treatment = words(
        &keys,
        "treatment",
        "a way to make water safe",
        Treatment::ALL,
        Treatment::word,
    );
    let diet = keys
        .get("diet")
        .map_or(Some(false), |node| desk.yes_no(node));
    let washing = words(
        &keys,
        "washing",
        "a way to wash up",
        Washing::ALL,
        Washing::word,
    );
    let flame = keys.get("flame").map(|node| desk.yes_no(node));
    keys.done();
    Some(AppliesWhen {
        kind: optional(kind)?,
        fuel: fuel?,
        stove: stove?,
        windscreen: windscreen?,
        colder_than: optional(colder_than)?,
        higher_than: optional(higher_than)?,
        people_from: optional(people_from)?,
        youngest_under: optional(youngest_under)?,
        place,
        place_other_than,
        water_from: water_from?,
        arrival: arrival?,
        treatment: treatment?,
        diet: diet?,
        washing: washing?,
        flame: optional(flame)?,
        any: Vec::new(),
    })
}

fn words<T: Copy>(
    keys: &Keys<'_, '_>,
    key: &'static str,
    what: &'static str,
    all: &[T],
    word: impl Fn(T) -> &'static str + Copy,
) -> Option<Vec<T>> {
    let Some(node) = keys.get(key) else {
        return Some(Vec::new());
    };
    let read: Vec<Option<T>> = keys
        .desk
        .list(node, what)
        .into_iter()
        .map(|item| keys.desk.word(item, what, all, word))
        .collect();
    read.into_iter().collect()
}

/// Ids in a list.
pub(super) fn ids(desk: &Desk, node: &Node) -> Vec<Id> {
    desk.list(node, "ids")
        .into_iter()
        .filter_map(|item| desk.line(item, "an id"))
        .filter(|text| text.len() <= LONGEST_LINE)
        .map(|text| id(&text))
        .collect()
}
