//! Conditions that no trip or lesson can meet: what stands behind them is
//! never printed.

use super::super::desk::Desk;
use crate::diag::{Told, told};
use crate::load::Node;
use crate::nouns::{AppliesWhen, Family, FuelKind, Kind, Library, Module};
use crate::units::{Length, Temperature};

/// Nights are no colder in a trip file.
const COLDEST: Temperature = Temperature::celsius(-60.0);
/// Camps are no higher in a trip file.
const HIGHEST: Length = Length::metres(9000.0);

/// Warns of each condition of a module that cannot hold, alone or beside the
/// module's own.
pub(super) fn check(desk: &Desk, root: &Node, module: &Module, library: &Library) {
    let look = |block: &[&str], when: &AppliesWhen, outer: Option<&AppliesWhen>| {
        let node = block
            .iter()
            .try_fold(root, |node, key| node.get(key))
            .and_then(|node| node.get("applies"));
        if let Some(node) = node {
            judge(desk, node, when, outer, library);
        }
    };
    let own = &module.applies;
    look(&[], own, None);
    let outer = Some(own);
    for section in &module.sections {
        look(&["sections", &section.id], &section.applies, outer);
    }
    for caution in &module.cautions {
        look(&["cautions", &caution.id], &caution.applies, outer);
    }
    for item in &module.items {
        look(
            &["checklist", item.moment.word(), &item.id],
            &item.applies,
            outer,
        );
    }
    for thing in &module.pack {
        look(&["pack", &thing.id], &thing.applies, outer);
    }
    for item in &module.shake_down {
        look(&["shake_down", &item.id], &item.applies, outer);
    }
    for question in &module.questions {
        look(&["questions", &question.id], &question.applies, outer);
    }
    for segment in &module.segments {
        look(&["segments", &segment.id], &segment.applies, outer);
    }
    for drawing in &module.drawings {
        look(&["drawings", &drawing.id], &drawing.applies, outer);
    }
}

fn judge(
    desk: &Desk,
    node: &Node,
    when: &AppliesWhen,
    outer: Option<&AppliesWhen>,
    library: &Library,
) {
    let mut found = vec![(node, alone(when, library))];
    if let Some(outer) = outer {
        found.push((node, beside(when, outer)));
    }
    let items = node.get("any").map(|any| match &any.value {
        crate::load::Value::List(items) => items.as_slice(),
        _ => &[],
    });
    for (item, one) in items.unwrap_or_default().iter().zip(&when.any) {
        found.push((item, alone(one, library)));
        found.push((item, beside(one, when)));
        if let Some(outer) = outer {
            found.push((item, beside(one, outer)));
        }
    }
    for (node, reason) in found {
        if let Some(Never { key, message, help }) = reason {
            desk.warn(
                node.get(key).unwrap_or(node),
                "content.never",
                message,
                help,
            );
        }
    }
}

/// Why conditions never hold.
struct Never {
    key: &'static str,
    message: Told,
    help: Told,
}

fn never(key: &'static str, message: impl Into<Told>, help: impl Into<Told>) -> Option<Never> {
    Some(Never {
        key,
        message: message.into(),
        help: help.into(),
    })
}

/// One block by itself.
fn alone(when: &AppliesWhen, library: &Library) -> Option<Never> {
    if when.colder_than.is_some_and(|limit| limit <= COLDEST) {
        return never(
            "colder_than",
            "no trip file has a night that cold, so this is never printed",
            "write the temperature from which it matters, such as `5 C`",
        );
    }
    if when.higher_than.is_some_and(|limit| limit >= HIGHEST) {
        return never(
            "higher_than",
            "no trip file has a camp that high, so this is never printed",
            "write the height from which it matters, such as `3000 m`",
        );
    }
    for (key, places) in [
        ("place", &when.place),
        ("place_other_than", &when.place_other_than),
    ] {
        if let Some(unknown) = places.iter().find(|id| !library.places.contains_key(*id)) {
            return never(
                key,
                told!(
                    "there is no place `{unknown}`, so no camp is in it",
                    unknown
                ),
                "name a place of `leeside list places`, or add the place",
            );
        }
    }
    if when.kind == Some(Kind::Lesson) && !when.arrival.is_empty() {
        return never(
            "arrival",
            "a lesson has no `arrival`, so this is never printed",
            "write `kind: trip`, or leave `arrival` out",
        );
    }
    burns_nowhere(when, library)
}

/// Stoves and fuels of one block of which no stove burns any of the fuels.
fn burns_nowhere(when: &AppliesWhen, library: &Library) -> Option<Never> {
    if when.fuel.is_empty() {
        return None;
    }
    let burns = |family: Option<Family>| {
        library
            .stoves
            .values()
            .filter(move |stove| family.is_none_or(|family| stove.family == family))
            .flat_map(|stove| stove.fuels.iter())
            .filter_map(|fuel| library.fuels.get(fuel))
            .map(|fuel| fuel.kind)
    };
    let fits = |family| burns(family).any(|kind| when.fuel.contains(&kind));
    if when.stove.is_empty() {
        return if fits(None) {
            None
        } else {
            never(
                "fuel",
                told!(
                    "no stove of the library burns {fuel}",
                    fuel = list(&when.fuel)
                ),
                "name a fuel of `leeside list gear`, or add the stove",
            )
        };
    }
    if when.stove.iter().any(|family| fits(Some(*family))) {
        return None;
    }
    let mut burnt: Vec<FuelKind> = when
        .stove
        .iter()
        .flat_map(|one| burns(Some(*one)))
        .collect();
    burnt.sort_unstable();
    burnt.dedup();
    never(
        "fuel",
        told!(
            "no stove of the kind {stove} burns {fuel}, so no kitchen meets both",
            stove = list(&when.stove),
            fuel = list(&when.fuel)
        ),
        if burnt.is_empty() {
            Told::from("leave `fuel` or `stove` out")
        } else {
            told!(
                "leave `fuel` out, or write what such a stove burns: {burnt}",
                burnt = list(&burnt)
            )
        },
    )
}

/// A block beside the one around it: what a trip has only one of must agree.
fn beside(inner: &AppliesWhen, outer: &AppliesWhen) -> Option<Never> {
    const HELP: &str = "change one of the two, or leave this one out";
    if let (Some(inner), Some(outer)) = (inner.kind, outer.kind)
        && inner != outer
    {
        return never(
            "kind",
            told!(
                "this is only for a {inner}, and all around it only for a {outer}: it is never printed",
                inner,
                outer
            ),
            HELP,
        );
    }
    if let (Some(inner), Some(outer)) = (inner.flame, outer.flame)
        && inner != outer
    {
        return never(
            "flame",
            "`flame` here and `flame` around it exclude each other: it is never printed",
            HELP,
        );
    }
    let apart = |key, inner: bool| {
        if inner {
            never(
                key,
                told!(
                    "`{key}` here and `{key}` around it have nothing in common: it is never printed",
                    key
                ),
                HELP,
            )
        } else {
            None
        }
    };
    apart("arrival", disjoint(&inner.arrival, &outer.arrival))
        .or_else(|| apart("treatment", disjoint(&inner.treatment, &outer.treatment)))
        .or_else(|| {
            let lesson = [inner, outer]
                .iter()
                .any(|when| when.kind == Some(Kind::Lesson));
            if lesson && (!inner.arrival.is_empty() || !outer.arrival.is_empty()) {
                never(
                    "arrival",
                    "a lesson has no `arrival`: it is never printed",
                    HELP,
                )
            } else {
                None
            }
        })
}

fn disjoint<T: PartialEq>(a: &[T], b: &[T]) -> bool {
    !a.is_empty() && !b.is_empty() && !a.iter().any(|one| b.contains(one))
}

fn list<T: std::fmt::Display>(words: &[T]) -> Told {
    Told::list(
        words.iter().map(|word| Told::as_written(word.to_string())),
        " or ",
    )
}
