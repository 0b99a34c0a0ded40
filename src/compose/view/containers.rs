//! Containers of fuel in words, and how to tell what is left in them.

use super::Inputs;
use crate::nouns::{ContainerKind, FuelKind};
use crate::plan::ContainerPlan;
use crate::units::say;

/// A container handed out, in words.
#[must_use]
pub fn container_words(inputs: &Inputs<'_>, one: &ContainerPlan) -> String {
    let units = inputs.units;
    let what = match (&one.tag, one.kind) {
        (Some(tag), _) => format!("{} {tag}", one.name),
        (None, ContainerKind::Bottle) => format!("{} × {}", one.count, one.name),
        (None, _) => format!("{} × new {}", one.count, one.name),
    };
    let inside = match (one.kind, one.fill) {
        (ContainerKind::Bottle, Some(fill)) => format!(
            "fill in {} of fuel ({}) each, no more",
            say::volume(fill, units),
            say::fuel(one.net, units)
        ),
        _ => format!("{} of fuel", say::fuel(one.net, units)),
    };
    let scale = format!("on the scale {}", say::fuel(one.gross, units));
    format!("{what}: {inside}, {scale}")
}

/// A container in a few words: its tag, or how many of what.
#[must_use]
pub fn tag_words(one: &ContainerPlan) -> String {
    let grams = say::number(one.net.in_grams(), 0);
    match &one.tag {
        Some(tag) => format!("{tag} ({grams} g)"),
        None if one.count == 1 => format!("{} ({grams} g)", one.name),
        None => format!("{} × {} ({grams} g each)", one.count, one.name),
    }
}

/// All that a kitchen is handed, in a few words.
#[must_use]
pub fn all_in_words(containers: &[ContainerPlan]) -> Vec<String> {
    equal_ones_together(containers)
        .iter()
        .map(tag_words)
        .collect()
}

/// Containers with the equal new ones of several legs together.
#[must_use]
pub fn equal_ones_together(containers: &[ContainerPlan]) -> Vec<ContainerPlan> {
    let mut all: Vec<ContainerPlan> = Vec::new();
    for one in containers {
        let same = |known: &&mut ContainerPlan| {
            known.tag.is_none()
                && one.tag.is_none()
                && known.name == one.name
                && (known.net.in_grams() - one.net.in_grams()).abs() < 0.5
        };
        match all.iter_mut().find(same) {
            Some(known) => known.count += one.count,
            None => all.push(one.clone()),
        }
    }
    all
}

/// How the fuel left is found without a scale.
#[must_use]
pub fn without_scale(kind: FuelKind) -> &'static str {
    match kind {
        FuelKind::Canister => {
            "No scale: float the canister upright in water at home, full and empty, and mark both water lines; the line now lies between them."
        }
        FuelKind::WhiteGas | FuelKind::Kerosene | FuelKind::Alcohol => {
            "No scale: a clean stick in the upright bottle; mark it at home full, half and a quarter."
        }
        FuelKind::Tablet => "No scale: count the tablets.",
    }
}
