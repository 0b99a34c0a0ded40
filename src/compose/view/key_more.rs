//! What the key of the fuel worksheet tells the instructor beside the workings: the trip with one
//! thing changed at a time, and advice from the same sums.

use super::{Inputs, OneKitchen};
use crate::compose::{advice, what_if, words};
use crate::plan;
use crate::plan::statements::change_id;
use schemars::JsonSchema;
use serde::Serialize;

/// What if, and advice.
#[derive(Clone, Debug, Default, Serialize, JsonSchema)]
pub struct KeyMore {
    /// The trip with one thing changed at a time, as planned first.
    pub what_if: Vec<WhatIfLine>,
    /// Whether there are any.
    pub has_what_if: bool,
    /// Advice, a sentence each.
    pub advice: Vec<String>,
    /// Whether there is any.
    pub has_advice: bool,
}

/// A change and what becomes of the kitchen.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct WhatIfLine {
    /// What changes.
    pub change: String,
    /// Likely fuel.
    pub fuel: String,
    /// Fuel to take.
    pub take: String,
    /// Minutes at the stove a day.
    pub minutes: String,
    /// `yes`, or what to look at.
    pub works: String,
}

impl KeyMore {
    /// What the key of a kitchen says.
    #[must_use]
    pub fn of(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Self {
        let what_if = what_if(inputs, one);
        let advice = advice::of_kitchen(inputs, one);
        Self {
            has_what_if: !what_if.is_empty(),
            what_if,
            has_advice: !advice.is_empty(),
            advice,
        }
    }
}

/// The changes that were worked for the sheets asked for, of those that are laid side by side.
fn what_if(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<WhatIfLine> {
    plan::changes_side_by_side(inputs.trip, inputs.plan)
        .iter()
        .filter_map(|kind| inputs.changes.iter().find(|change| change.kind == *kind))
        .filter_map(|change| Some((change, change.kitchens.get(one.index)?)))
        .map(|(change, changed)| {
            let at = change_id(&one.plan.slug, &change.kind);
            let tell = |what: &str, words: String| inputs.say(&format!("{at}.{what}"), words);
            let told = what_if::told(changed, inputs.units, &tell);
            WhatIfLine {
                change: words::capital(&inputs.change(&change.kind)),
                fuel: told.fuel,
                take: told.take,
                minutes: told.minutes,
                works: told.works,
            }
        })
        .collect()
}
