//! What learners may know before a lesson: of each thing that is checked what the page to learn from
//! asks of it, and what only hands can show. On the back of the register; marks by hand, no names
//! in files.

use super::Inputs;
use super::common::Prose;
use crate::compose::catalogue::text;
use crate::compose::{learn, words};
use crate::doc::learn::Way;
use crate::phrase::phrase;
use schemars::JsonSchema;
use serde::Serialize;

/// Something that is checked, and how much of it can be known beforehand.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Known {
    /// The objective, as in "light a stove from a safe place".
    pub say: Prose,
    /// Whether it keeps people alive.
    pub critical: bool,
    /// What whoever worked the page can do of it.
    pub page: String,
    /// What must still be seen.
    pub hands: String,
}

/// Everything that is checked, the musts first.
#[must_use]
pub fn known(inputs: &Inputs<'_>) -> Vec<Known> {
    let mut targets: Vec<_> = inputs.check.targets.iter().collect();
    targets.sort_by_key(|target| !target.objective.critical);
    targets
        .into_iter()
        .map(|target| {
            let (module, objective) = (target.module, target.objective);
            let ways: Vec<String> = learn::ways(inputs, module, target.id)
                .into_iter()
                .map(|way| {
                    text(&match way {
                        Way::Words => phrase!("known-words"),
                        Way::Choice => phrase!("known-choice"),
                        Way::Order => phrase!("known-order"),
                        Way::Places => phrase!("known-places"),
                    })
                })
                .collect();
            let acts = objective.behaviours.len();
            Known {
                say: Prose::new(inputs.filler.line(module, &objective.say)),
                critical: objective.critical,
                page: if ways.is_empty() {
                    text(&phrase!("known-not-asked"))
                } else {
                    words::list(&ways)
                },
                hands: text(&match acts {
                    0 => phrase!("known-said-is-enough"),
                    _ => phrase!("known-acts", acts = acts),
                }),
            }
        })
        .collect()
}
