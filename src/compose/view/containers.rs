//! What a kitchen is handed, in words: one wording for every sheet.

use crate::compose::words;
use crate::nouns::{ContainerKind, FuelKind};
use crate::plan::{Issue, IssuedContainer, KitchenPlan, Plan, issues};
use crate::units::{Mass, Units, say};
use schemars::JsonSchema;
use serde::Serialize;

/// What is handed out to a kitchen for one leg.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct IssueBlock {
    /// `at the start` or `at Otter weir`; empty where all is handed out at the start.
    pub place: String,
    /// Whether it goes into the bag at the start, and not to a drop on the way.
    pub in_bag: bool,
    /// `needs 1185 g (41.8 oz), issued 1267 g (44.7 oz)`.
    pub sums: String,
    /// `5 containers`.
    pub count: String,
    /// All of them on the scale.
    pub gross: String,
    /// A line a container.
    pub lines: Vec<ContainerLine>,
}

/// One container.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ContainerLine {
    /// `canister 230 g F-014`, or `canister 450 g, new 2 of 3`.
    pub name: String,
    /// Fuel in it, with how far a bottle is filled.
    pub fuel: String,
    /// On the scale.
    pub gross: String,
    /// Mass on the scale in grams, without its unit.
    pub gross_g: String,
    /// Empty in grams, or `not known`.
    pub tare_g: String,
}

/// What a kitchen is handed, a block a leg; none where nothing is.
#[must_use]
pub fn blocks(plan: &Plan, kitchen: &KitchenPlan, units: Units) -> Vec<IssueBlock> {
    issues(plan, kitchen)
        .iter()
        .filter(|one| one.needed > Mass::ZERO)
        .map(|one| IssueBlock {
            place: place(plan, one),
            in_bag: one.in_bag,
            sums: sums(one, units),
            count: count(one),
            gross: say::load(one.gross, units),
            lines: one
                .containers
                .iter()
                .map(|container| line(container, units))
                .collect(),
        })
        .collect()
}

/// Where it is handed out; nothing where all of it is at the start.
fn place(plan: &Plan, one: &Issue) -> String {
    match plan.camps.get(one.from) {
        Some(camp) if !one.in_bag => format!("at {}", camp.name),
        _ if one.until < plan.camps.len() => "at the start".to_owned(),
        _ => String::new(),
    }
}

fn count(one: &Issue) -> String {
    words::count(one.containers.len() as u32, "container", "containers")
}

/// `needs 1185 g, issued 1267 g`; in a lesson with what practice burns of it.
fn sums(one: &Issue, units: Units) -> String {
    let needs = format!("needs {}", say::fuel(one.needed, units));
    let needs = if one.practice > Mass::ZERO {
        format!(
            "{needs} ({} to practise with)",
            say::fuel(one.practice, units)
        )
    } else {
        needs
    };
    if one.containers.is_empty() {
        needs
    } else {
        format!("{needs}, issued {}", say::fuel(one.issued, units))
    }
}

fn line(one: &IssuedContainer, units: Units) -> ContainerLine {
    ContainerLine {
        name: name(one),
        fuel: match (one.kind, one.fill) {
            (ContainerKind::Bottle, Some(fill)) => format!(
                "fill in {}, no more ({})",
                say::volume(fill, units),
                say::fuel(one.net, units)
            ),
            _ => format!("{} of fuel", say::fuel(one.net, units)),
        },
        gross: say::fuel(one.gross, units),
        gross_g: say::number(one.gross.in_grams(), 0),
        tare_g: one.tare.map_or_else(
            || "not known".to_owned(),
            |tare| say::number(tare.in_grams(), 0),
        ),
    }
}

/// A container by its tag, or which new one it is.
fn name(one: &IssuedContainer) -> String {
    match (&one.tag, one.new) {
        (Some(tag), _) => format!("{} {tag}", one.name),
        (None, Some((number, of))) if of > 1 => format!("{}, new {number} of {of}", one.name),
        (None, _) => format!("{}, new", one.name),
    }
}

/// A container for a list: its name, and how far a bottle is filled.
#[must_use]
pub fn packed(one: &IssuedContainer, units: Units) -> String {
    match (one.kind, one.fill) {
        (ContainerKind::Bottle, Some(fill)) => format!(
            "{}: fill in {}, no more",
            name(one),
            say::volume(fill, units)
        ),
        _ => name(one),
    }
}

/// A leg's containers in a few words: `F-014 (141 g), 3 × new canister 450 g (450 g each)`.
fn in_short(one: &Issue) -> Vec<String> {
    let mut groups: Vec<(&IssuedContainer, u32)> = Vec::new();
    for container in &one.containers {
        let same = |(known, _): &&mut (&IssuedContainer, u32)| {
            known.tag.is_none() && container.tag.is_none() && known.name == container.name
        };
        match groups.iter_mut().find(same) {
            Some((_, count)) => *count += 1,
            None => groups.push((container, 1)),
        }
    }
    groups
        .into_iter()
        .map(|(one, count)| {
            let grams = say::number(one.net.in_grams(), 0);
            match &one.tag {
                Some(tag) => format!("{tag} ({grams} g)"),
                None if count == 1 => format!("new {} ({grams} g)", one.name),
                None => format!("{count} × new {} ({grams} g each)", one.name),
            }
        })
        .collect()
}

/// Why a kitchen is handed nothing: its first pot that never boils, and what would make it.
#[must_use]
pub fn will_not_boil(plan: &Plan, kitchen: &KitchenPlan, units: Units) -> Option<String> {
    let row = kitchen.failing().next()?;
    let stops = row.stops.as_ref()?;
    let more = match kitchen.failing().count() - 1 {
        0 => String::new(),
        more => format!(" ({more} more on the menu do not boil either)"),
    };
    Some(format!(
        "will not boil: {} at {}{more} stops at {}; {}. No fuel is counted or handed out until all of it boils",
        row.meal,
        plan.camps[row.camp].name,
        say::temperature(stops.at, units),
        stops.remedy()
    ))
}

/// What a kitchen is handed in one phrase a leg, without the containers' names: for a sheet that
/// lists them.
#[must_use]
pub fn in_brief(plan: &Plan, kitchen: &KitchenPlan, units: Units) -> Vec<(String, String)> {
    if let Some(why) = will_not_boil(plan, kitchen, units) {
        return vec![(String::new(), why)];
    }
    blocks(plan, kitchen, units)
        .into_iter()
        .map(|one| (one.place, one.sums))
        .collect()
}

/// What a kitchen is handed in one phrase a leg: place (empty where there is one leg), then needed,
/// issued, containers; or why it is handed nothing.
#[must_use]
pub fn in_words(plan: &Plan, kitchen: &KitchenPlan, units: Units) -> Vec<(String, String)> {
    if let Some(why) = will_not_boil(plan, kitchen, units) {
        return vec![(String::new(), why)];
    }
    issues(plan, kitchen)
        .iter()
        .filter(|one| one.needed > Mass::ZERO)
        .map(|one| {
            let containers = in_short(one);
            let words = if containers.is_empty() {
                sums(one, units)
            } else {
                format!(
                    "{} in {}: {}",
                    sums(one, units),
                    count(one),
                    words::list(&containers)
                )
            };
            (place(plan, one), words)
        })
        .collect()
}

/// What a kitchen starts each leg with, for the card; or why it starts with nothing.
#[must_use]
pub fn starts_with(plan: &Plan, kitchen: &KitchenPlan, units: Units) -> Vec<String> {
    if let Some(why) = will_not_boil(plan, kitchen, units) {
        return vec![format!("no fuel, for it {why}")];
    }
    issues(plan, kitchen)
        .iter()
        .filter(|one| one.needed > Mass::ZERO)
        .map(|one| {
            let at = match plan.camps.get(one.from) {
                Some(camp) if !one.in_bag => format!("from {} ", camp.name),
                _ => String::new(),
            };
            if one.containers.is_empty() {
                format!("{at}{} (assumed)", say::fuel(one.needed, units))
            } else {
                format!(
                    "{at}{} in {} (needs {}, assumed)",
                    say::fuel(one.issued, units),
                    count(one),
                    say::fuel(one.needed, units)
                )
            }
        })
        .collect()
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
