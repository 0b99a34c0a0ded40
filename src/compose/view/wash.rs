//! Where wash water goes, camp by camp: the rule in force there, in one wording for every sheet.

use super::Inputs;
use crate::compose::catalogue::text;
use crate::compose::words;
use crate::markdown;
use crate::nouns::{Kind, RuleValue};
use crate::phrase::phrase;
use crate::units::{Length, say};
use schemars::JsonSchema;
use serde::Serialize;

/// Where the wash water of a camp, or of several that do it alike, goes.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WashLine {
    /// The camp, or those that share it.
    pub camp: String,
    /// How: the rule's words.
    pub method: String,
    /// How far, in the reader's unit and steps; or in words that no distance is kept.
    pub distance: String,
    /// What the rule says of soap.
    pub soap: String,
    /// Whether a rule says it.
    pub has_soap: bool,
    /// Whether the distance is told in steps.
    #[serde(skip)]
    pub in_steps: bool,
}

impl WashLine {
    /// Whether it says the same in the same words, whichever camp it tells of.
    fn reads_as(&self, other: &Self) -> bool {
        let plain = |one: &Self| {
            let Self {
                method,
                distance,
                soap,
                ..
            } = one;
            [method, distance, soap].map(|words| markdown::without_marks(words))
        };
        plain(self) == plain(other)
    }

    /// All of it in a phrase.
    #[must_use]
    pub fn words(&self) -> String {
        let Self {
            method,
            distance,
            soap,
            ..
        } = self;
        text(&if self.has_soap {
            phrase!(
                "wash-and-soap",
                method = method,
                distance = distance,
                soap = soap
            )
        } else {
            phrase!("wash-without-soap", method = method, distance = distance)
        })
    }
}

/// Where wash water goes, a line for all camps that do it alike.
#[must_use]
pub fn lines(inputs: &Inputs<'_>) -> Vec<WashLine> {
    if inputs.trip.kind == Kind::Lesson {
        return of_a_lesson(inputs);
    }
    let mut lines: Vec<(Vec<String>, WashLine)> = Vec::new();
    for one in &inputs.plan.greywater {
        let camp = inputs.plan.camps[one.camp].name.clone();
        let soap = inputs.trip.camps[one.camp].rules.get("soap.use");
        let line = WashLine {
            camp: String::new(),
            method: inputs.of_camp(one.camp, "wash-method", text(&one.method)),
            distance: if one.distance > Length::ZERO {
                let of = |what, words| inputs.of_camp(one.camp, what, words);
                let distance = say::distance(one.distance, inputs.units);
                text(&phrase!(
                    "wash-in-steps",
                    distance = of("wash-distance", distance),
                    steps = of("wash-steps", one.steps.to_string())
                ))
            } else {
                text(&phrase!("wash-no-distance"))
            },
            in_steps: one.distance > Length::ZERO,
            has_soap: soap.is_some(),
            soap: soap.map_or_else(String::new, |rule| {
                inputs.of_rule(one.camp, "soap.use", inputs.filler.rule_words(rule))
            }),
        };
        match lines.iter_mut().find(|(_, known)| known.reads_as(&line)) {
            Some((camps, _)) => camps.push(camp),
            None => lines.push((vec![camp], line)),
        }
    }
    lines
        .into_iter()
        .map(|(camps, line)| WashLine {
            camp: words::camps(&camps, inputs.plan.camps.len()),
            ..line
        })
        .collect()
}

/// The rule of the land that a lesson is held on; it washes up little, and counts no litres.
fn of_a_lesson(inputs: &Inputs<'_>) -> Vec<WashLine> {
    let Some(camp) = inputs.trip.camps.first() else {
        return Vec::new();
    };
    let Some(method) = camp.rules.get("greywater.method") else {
        return Vec::new();
    };
    let soap = camp.rules.get("soap.use");
    let distance = camp.rules.get("greywater.distance").map(|rule| &rule.value);
    let distance = match distance {
        Some(RuleValue::Length(length)) if *length > Length::ZERO => {
            let words = say::distance(*length, inputs.units);
            inputs.of_rule(0, "greywater.distance", words)
        }
        _ => text(&phrase!("wash-no-distance")),
    };
    vec![WashLine {
        camp: text(&phrase!("this-place")),
        method: inputs.of_rule(0, "greywater.method", inputs.filler.rule_words(method)),
        distance,
        in_steps: false,
        has_soap: soap.is_some(),
        soap: soap.map_or_else(String::new, |rule| {
            inputs.of_rule(0, "soap.use", inputs.filler.rule_words(rule))
        }),
    }]
}
