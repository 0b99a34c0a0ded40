//! What an assessor watches of an objective.

use super::Inputs;
use super::common::Prose;
use crate::compose::prose::sentence;
use crate::compose::words;
use crate::course::skills::Target;
use schemars::JsonSchema;
use serde::Serialize;

/// An objective as the assessor watches it.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Watched {
    /// What the candidate does.
    pub say: Prose,
    /// Whether failing it stops the check.
    pub critical: bool,
    /// What is seen, on one line; several behaviours are numbered.
    pub seen: Prose,
    /// Room for a mark for each behaviour.
    pub marks: String,
}

/// What is watched, in the assessor's words: the handout says each objective with the same ones.
#[must_use]
pub fn watched(inputs: &Inputs<'_>, targets: &[Target<'_>]) -> Vec<Watched> {
    targets
        .iter()
        .map(|target| {
            let line = |text: &str| inputs.filler.line(target.module, text);
            let several = target.objective.behaviours.len() > 1;
            let numbered = target.objective.behaviours.iter().zip(1..);
            let seen: Vec<String> = numbered
                .clone()
                .map(|(text, number)| {
                    let text = line(text).trim_end_matches('.').to_owned();
                    if several {
                        format!("({number}) {text}")
                    } else {
                        text
                    }
                })
                .collect();
            let marks: Vec<String> = numbered
                .map(|(_, number)| {
                    if several {
                        format!("{number}:__")
                    } else {
                        "___".to_owned()
                    }
                })
                .collect();
            Watched {
                say: Prose::new(line(&target.objective.say)),
                critical: target.objective.critical,
                seen: Prose::new(sentence(&words::capital(&seen.join("; ")))),
                marks: marks.join(" "),
            }
        })
        .collect()
}
