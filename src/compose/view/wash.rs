//! Where wash water goes, camp by camp: the rule in force there, in one wording for every sheet.

use super::Inputs;
use crate::compose::catalogue::text;
use crate::compose::words;
use crate::markdown;
use crate::nouns::{CampRule, Kind, RuleValue};
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
    /// Whether it says the same in the same words, whichever camp it tells of and whatever of soap.
    fn reads_as(&self, other: &Self) -> bool {
        let plain = |one: &Self| {
            let Self {
                method, distance, ..
            } = one;
            [method, distance].map(|words| markdown::without_marks(words))
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
    let mut lines: Vec<(Vec<String>, WashLine, Soaps)> = Vec::new();
    for one in &inputs.plan.greywater {
        let camp = inputs.plan.camps[one.camp].name.clone();
        let from = from(inputs, one.camp);
        let soap = soap(inputs, one.camp);
        let line = WashLine {
            camp: String::new(),
            method: inputs.of_camp(one.camp, "wash-method", text(&one.method)),
            distance: if one.distance > Length::ZERO {
                let of = |what, words| inputs.of_camp(one.camp, what, words);
                let distance = say::distance(one.distance, inputs.units);
                let distance = text(&phrase!(
                    "wash-in-steps",
                    distance = of("wash-distance", distance),
                    steps = of("wash-steps", one.steps.to_string())
                ));
                far_from(distance, from)
            } else {
                no_distance(from)
            },
            in_steps: one.distance > Length::ZERO,
            has_soap: false,
            soap: String::new(),
        };
        match lines.iter_mut().find(|(_, known, _)| known.reads_as(&line)) {
            Some((camps, _, soaps)) => {
                camps.push(camp.clone());
                soaps.add(camp, soap);
            }
            None => {
                let mut soaps = Soaps::default();
                soaps.add(camp.clone(), soap);
                lines.push((vec![camp], line, soaps));
            }
        }
    }
    lines
        .into_iter()
        .map(|(camps, line, soaps)| {
            let soap = soaps.words();
            WashLine {
                camp: words::camps(&camps, inputs.plan.camps.len()),
                has_soap: !soap.is_empty(),
                soap,
                ..line
            }
        })
        .collect()
}

/// What is said of soap, each with the camps that it is said of.
#[derive(Default)]
struct Soaps(Vec<(Vec<String>, String)>);

impl Soaps {
    fn add(&mut self, camp: String, soap: Option<String>) {
        let soap = soap.unwrap_or_default();
        let plain = markdown::without_marks(&soap);
        let mut known = self.0.iter_mut();
        match known.find(|(_, known)| markdown::without_marks(known) == plain) {
            Some((camps, _)) => camps.push(camp),
            None => self.0.push((vec![camp], soap)),
        }
    }

    /// All of it; the camps are named where they differ.
    fn words(&self) -> String {
        match &self.0[..] {
            [(_, soap)] => soap.clone(),
            several => {
                let each = several.iter().filter(|(_, soap)| !soap.is_empty());
                let each = each.map(|(camps, soap)| format!("{soap} ({})", camps.join(", ")));
                each.collect::<Vec<_>>().join("; ")
            }
        }
    }
}

/// From what the distance of a camp is kept, where a rule says so.
fn from(inputs: &Inputs<'_>, camp: usize) -> Option<String> {
    let rule = inputs.trip.camps[camp].rules.get(FROM)?;
    Some(inputs.of_rule(camp, FROM, inputs.filler.rule_words(rule)))
}

/// The rule that says from what wash water is kept.
const FROM: &str = "greywater.from";

/// A distance and from what it is kept.
fn far_from(distance: String, from: Option<String>) -> String {
    match from {
        Some(from) => text(&phrase!("wash-from", distance = distance, from = from)),
        None => distance,
    }
}

/// That a rule asks for none, and what it names all the same.
fn no_distance(from: Option<String>) -> String {
    text(&match from {
        Some(from) => phrase!("wash-no-distance-from", from = from),
        None => phrase!("wash-no-distance"),
    })
}

/// What is said of soap at a camp, with its distance where the same authority asks for one.
fn soap(inputs: &Inputs<'_>, camp: usize) -> Option<String> {
    let rules = &inputs.trip.camps[camp].rules;
    let said =
        |key: &str, rule: &CampRule| inputs.of_rule(camp, key, inputs.filler.rule_words(rule));
    let use_of_it = rules.get("soap.use")?;
    let words = said("soap.use", use_of_it);
    // where it is the distance of wash water it is said already
    let washed = rules.get("greywater.distance");
    let distance = rules
        .get("soap.distance")
        .filter(|rule| rule.from == use_of_it.from)
        .filter(|rule| washed.is_some_and(|one| one.from == rule.from && one.value != rule.value));
    Some(match distance {
        Some(rule) => text(&phrase!(
            "wash-soap-far",
            soap = words,
            distance = said("soap.distance", rule)
        )),
        None => words,
    })
}

/// The rule of the land that a lesson is held on; it washes up little, and counts no litres.
fn of_a_lesson(inputs: &Inputs<'_>) -> Vec<WashLine> {
    let Some(camp) = inputs.trip.camps.first() else {
        return Vec::new();
    };
    let Some(method) = camp.rules.get("greywater.method") else {
        return Vec::new();
    };
    let (soap, from) = (soap(inputs, 0), from(inputs, 0));
    let distance = camp.rules.get("greywater.distance").map(|rule| &rule.value);
    let distance = match distance {
        Some(RuleValue::Length(length)) if *length > Length::ZERO => {
            let words = say::distance(*length, inputs.units);
            far_from(inputs.of_rule(0, "greywater.distance", words), from)
        }
        _ => no_distance(from),
    };
    vec![WashLine {
        camp: text(&phrase!("this-place")),
        method: inputs.of_rule(0, "greywater.method", inputs.filler.rule_words(method)),
        distance,
        in_steps: false,
        has_soap: soap.is_some(),
        soap: soap.unwrap_or_default(),
    }]
}
