//! What each kitchen is handed, leg by leg: needed, issued, and a line a container.
//!
//! Every sheet that speaks of fuel handed out prints from here, so that none can say otherwise.

use super::types::{ContainerPlan, KitchenPlan, Plan};
use crate::nouns::{ContainerKind, Id};
use crate::units::{Mass, Volume};

/// The fuel of one kitchen from one handing out to the next.
#[derive(Clone, Debug, PartialEq)]
pub struct Issue {
    /// Index of the leg, from 0.
    pub leg: usize,
    /// Index of the camp from whose first supper on it is burnt.
    pub from: usize,
    /// Index of the camp after its last.
    pub until: usize,
    /// Whether it goes into the bag at the start, or is handed out at its first camp.
    pub in_bag: bool,
    /// What the sums ask for, practice included: fuel that can be burnt.
    pub needed: Mass,
    /// Of which the practice burns of a lesson.
    pub practice: Mass,
    /// What lies in the containers.
    pub issued: Mass,
    /// All containers on the scale.
    pub gross: Mass,
    /// A line a container.
    pub containers: Vec<IssuedContainer>,
}

/// One container that is handed out.
#[derive(Clone, Debug, PartialEq)]
pub struct IssuedContainer {
    /// Index of its line among the kitchen's containers, by which it is stated.
    pub line: usize,
    /// Its tag; none for a new one.
    pub tag: Option<String>,
    /// Which of how many new ones of this size the kitchen gets, all legs together.
    pub new: Option<(u32, u32)>,
    /// Id in the catalogue.
    pub container: Id,
    /// Name in the catalogue.
    pub name: String,
    /// Its kind.
    pub kind: ContainerKind,
    /// Fuel in it.
    pub net: Mass,
    /// With its fuel, on the scale.
    pub gross: Mass,
    /// Empty, if known.
    pub tare: Option<Mass>,
    /// Fuel to fill in (bottle).
    pub fill: Option<Volume>,
}

/// The legs of a kitchen: first camp, camp after the last, what is needed.
pub(crate) fn legs(kitchen: &KitchenPlan, camps: usize) -> Vec<(usize, usize, Mass)> {
    let fuel = &kitchen.fuel;
    if kitchen.stays_cold {
        return vec![(0, camps, Mass::ZERO)];
    }
    if fuel.legs.is_empty() {
        return vec![(0, camps, fuel.carry + fuel.practice)];
    }
    fuel.legs
        .iter()
        .map(|leg| (leg.from, leg.until, leg.carry))
        .collect()
}

/// What a kitchen is handed, a leg each. A leg for which nothing is handed out has no containers.
#[must_use]
pub fn issues(plan: &Plan, kitchen: &KitchenPlan) -> Vec<Issue> {
    let mut given: Vec<(&str, u32)> = Vec::new();
    legs(kitchen, plan.camps.len())
        .into_iter()
        .enumerate()
        .map(|(leg, (from, until, needed))| {
            let lines = kitchen.containers.iter().enumerate();
            let mine: Vec<(usize, &ContainerPlan)> =
                lines.filter(|(_, one)| one.leg == leg).collect();
            let sum = |mass: fn(&ContainerPlan) -> Mass| -> Mass {
                mine.iter()
                    .map(|(_, one)| mass(one) * f64::from(one.count))
                    .sum()
            };
            Issue {
                leg,
                from,
                until,
                in_bag: leg == 0,
                needed,
                practice: if leg == 0 {
                    kitchen.fuel.practice
                } else {
                    Mass::ZERO
                },
                issued: sum(|one| one.net),
                gross: sum(|one| one.gross),
                containers: mine
                    .iter()
                    .flat_map(|(line, one)| handed(kitchen, *line, one, &mut given))
                    .collect(),
            }
        })
        .collect()
}

/// What a kitchen needs and is handed in all.
#[must_use]
pub fn issued_in_all(plan: &Plan, kitchen: &KitchenPlan) -> (Mass, Mass) {
    let issues = issues(plan, kitchen);
    (
        issues.iter().map(|one| one.needed).sum(),
        issues.iter().map(|one| one.issued).sum(),
    )
}

/// The pieces of one line of the plan; new ones of a size are numbered.
fn handed<'a>(
    kitchen: &'a KitchenPlan,
    line: usize,
    one: &'a ContainerPlan,
    given: &mut Vec<(&'a str, u32)>,
) -> Vec<IssuedContainer> {
    let all: u32 = kitchen
        .containers
        .iter()
        .filter(|other| other.tag.is_none() && other.container == one.container)
        .map(|other| other.count)
        .sum();
    (0..one.count)
        .map(|_| {
            let new = one.tag.is_none().then(|| {
                let count = match given.iter_mut().find(|(id, _)| *id == one.container) {
                    Some((_, count)) => {
                        *count += 1;
                        *count
                    }
                    None => {
                        given.push((&one.container, 1));
                        1
                    }
                };
                (count, all)
            });
            IssuedContainer {
                line,
                tag: one.tag.clone(),
                new,
                container: one.container.clone(),
                name: one.name.clone(),
                kind: one.kind,
                net: one.net,
                gross: one.gross,
                tare: one.tare,
                fill: one.fill,
            }
        })
        .collect()
}
