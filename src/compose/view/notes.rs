//! Notes for the instructor: how each subject goes wrong, and where authorities differ.

use super::common::{Head, Prose};
use super::{Filled, Inputs, lesson_taught};
use crate::compose::prose::{one_line, sentence};
use crate::compose::{catalogue, words};
use crate::markdown;
use crate::nouns::{Fact, Module, Place};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeSet;

/// The notes of a trip or lesson.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct InstructorNotes {
    /// The head.
    pub head: Head,
    /// The subjects of the lesson, then what it teaches beside them.
    pub parts: Vec<Part>,
    /// What authorities say differently on the other subjects of the trip.
    pub others: Vec<Prose>,
    /// Whether they do.
    pub has_others: bool,
    /// Where authorities differ on the rules of this trip's places.
    pub places: Vec<PlaceNote>,
}

/// The notes on a subject.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Part {
    /// Its title.
    pub title: String,
    /// An invented story to open with.
    pub story: Prose,
    /// Whether there is one.
    pub has_story: bool,
    /// What instructors read.
    pub text: Prose,
    /// What authorities say differently, fact by fact.
    pub differs: Vec<Prose>,
    /// Whether they do.
    pub has_differs: bool,
}

/// What authorities say differently about a place.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct PlaceNote {
    /// The place.
    pub title: String,
    /// What they say.
    pub text: Prose,
    /// A word on each of its rules that is in force.
    pub rules: Vec<Prose>,
}

/// The sheet.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let mut sources = BTreeSet::new();
    let taught: Vec<&Module> = match &inputs.course {
        Ok(course) => {
            let (asked, beside) = lesson_taught::taught(course);
            asked.into_iter().chain(beside).collect()
        }
        // a course that cannot be held is about what was asked for all the same
        Err(_) => inputs
            .modules
            .iter()
            .copied()
            .filter(|module| inputs.trip.course.focus.contains(&module.id))
            .collect(),
    };
    let parts: Vec<Part> = taught
        .iter()
        .map(|module| part(inputs, module, &mut sources))
        .filter(|part| !part.text.md.is_empty() || part.has_story || part.has_differs)
        .collect();
    let others: Vec<Prose> = inputs
        .modules
        .iter()
        .filter(|module| !taught.iter().any(|one| one.id == module.id))
        .flat_map(|module| differing(inputs, module, &mut sources))
        .collect();
    let view = InstructorNotes {
        head: inputs.head(title, None, &sources),
        parts,
        has_others: !others.is_empty(),
        others,
        places: places(inputs),
    };
    Filled::one(&view)
}

fn part(inputs: &Inputs<'_>, module: &Module, sources: &mut BTreeSet<String>) -> Part {
    inputs.cite(module, &[&module.instructor], sources);
    let differs = differing(inputs, module, sources);
    let story = inputs.filler.line(module, &module.story);
    Part {
        title: module.title.clone(),
        has_story: !story.is_empty(),
        story: Prose::new(story),
        text: Prose::new(inputs.filler.prose(module, &module.instructor).trim()),
        has_differs: !differs.is_empty(),
        differs,
    }
}

/// What authorities say differently on a subject, fact by fact.
fn differing(inputs: &Inputs<'_>, module: &Module, sources: &mut BTreeSet<String>) -> Vec<Prose> {
    module
        .facts
        .iter()
        .filter(|(_, fact)| !fact.disagreement.trim().is_empty())
        .map(|(name, fact)| {
            sources.extend(fact.sources.iter().cloned());
            differs(inputs, module, name, fact)
        })
        .collect()
}

/// What a fact says, and what others say.
fn differs(inputs: &Inputs<'_>, module: &Module, name: &str, fact: &Fact) -> Prose {
    let words = one_line(&inputs.filler.prose(module, &fact.disagreement));
    let id = format!("{}.{name}", module.id);
    told(fact.say.trim(), &inputs.filler.say(&id, fact), &words)
}

/// `**Distance from water: 200 ft.** What others say.`, the words being Markdown.
fn told(what: &str, value: &str, words: &str) -> Prose {
    Prose::new(format!(
        "**{}: {}.** {words}",
        markdown::escape(&words::capital(what)),
        markdown::escape(value.trim_end_matches('.')),
    ))
}

/// The places of the camps, each once, in the order of the trip.
fn places(inputs: &Inputs<'_>) -> Vec<PlaceNote> {
    let mut told = BTreeSet::new();
    inputs
        .trip
        .camps
        .iter()
        .filter(|camp| told.insert(camp.place.as_str()))
        .filter_map(|camp| inputs.library.places.get(&camp.place))
        .map(|place| PlaceNote {
            title: place.title.clone(),
            text: Prose::new(place.disagreements.trim()),
            rules: rules(inputs, place),
        })
        .filter(|note| !note.text.md.is_empty() || !note.rules.is_empty())
        .collect()
}

/// `**Greywater, method: scatter widely.** Soil filters it.`, where no trip of its own says
/// otherwise.
fn rules(inputs: &Inputs<'_>, place: &Place) -> Vec<Prose> {
    place
        .rules
        .iter()
        .filter(|(_, rule)| !rule.note.trim().is_empty())
        .filter_map(|(key, rule)| {
            let said = inputs
                .trip
                .camps
                .iter()
                .enumerate()
                .filter(|(_, camp)| camp.place == place.id)
                .find_map(|(index, camp)| {
                    let rule = camp.rules.get(key).filter(|one| one.from == place.id)?;
                    Some((&inputs.plan.camps[index].slug, rule))
                });
            let (camp, said) = said?;
            let words = sentence(&markdown::escape(&words::capital(rule.note.trim())));
            Some(told(
                &catalogue::word(&key.replace('.', ", "), &[]),
                &inputs.say(
                    &format!("rule.{camp}.{key}"),
                    inputs.filler.rule_words(said),
                ),
                &words,
            ))
        })
        .collect()
}
