//! Study cards: the hazards of what is checked, then its questions, one idea a card.

use super::common::{CautionGroup, Extent, Head, Prose};
use super::watched::watched;
use super::{Filled, Inputs, handout};
use crate::compose::catalogue::text;
use crate::compose::cautions::Needed;
use crate::compose::prose::sentence;
use crate::compose::{drawings, words};
use crate::doc::{Figure, Shape};
use crate::nouns::{Level, Module, Question, QuestionKind};
use crate::phrase::phrase;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Cards that are learned in a week; beyond it each hazard and each objective gets one all the same.
const MOST_CARDS: usize = 12;

/// Drawings with faults among them.
const MOST_SCENES: usize = 3;

/// Words on one side of a card.
const CARD_WORDS: usize = 25;

/// Study cards.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct StudyCards {
    /// The head.
    pub head: Head,
    /// The hazards, then the questions.
    pub groups: Vec<CardGroup>,
}

/// Cards of a kind.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CardGroup {
    /// Its heading.
    pub title: String,
    /// The cards.
    pub cards: Vec<Card>,
}

/// A card.
#[derive(Clone, Debug, Default, Serialize, JsonSchema)]
pub struct Card {
    /// Its front.
    pub front: Prose,
    /// Call for a drawing on its front, without its words.
    pub drawing: Prose,
    /// Whether there is one.
    pub has_drawing: bool,
    /// Its back.
    pub back: Prose,
    /// A caution on its back, else none.
    pub caution: Vec<CautionGroup>,
}

/// The cards: the gravest caution of each subject that is checked, then questions for what is
/// checked; for those who will teach it also what an assessor looks for.
#[must_use]
pub fn study_cards(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let mut sources = BTreeSet::new();
    let mut figures = BTreeMap::new();
    let hazards: Vec<Card> = handout::checked(inputs)
        .into_iter()
        .filter(|module| !inputs.chosen(module, Extent::Gravest).is_empty())
        .map(|module| Card {
            caution: inputs.caution_groups(&[module], Extent::Gravest),
            ..pictured(
                inputs,
                module,
                text(&phrase!(
                    "card-hurt",
                    subject = crate::markdown::escape(&module.title)
                )),
                &mut figures,
            )
        })
        .collect();
    let first: Vec<Card> = handout::responding(inputs)
        .map(|module| {
            inputs.cite(module, &[&module.first_response], &mut sources);
            Card {
                front: Prose::new(text(&phrase!(
                    "card-happened",
                    subject = crate::markdown::escape(&module.title)
                ))),
                back: Prose::new(inputs.filler.line(module, &module.first_response)),
                ..Card::default()
            }
        })
        .collect();
    let looked_for = looked_for(inputs);
    let scenes = scenes(inputs, &mut figures);
    let room = MOST_CARDS
        .saturating_sub(scenes.len())
        .saturating_sub(hazards.len())
        .saturating_sub(first.len())
        .saturating_sub(looked_for.len());
    let questions = asked(inputs, room, &mut sources);
    let groups = [
        (phrase!("cards-hurt"), hazards),
        (phrase!("cards-first"), first),
        (phrase!("cards-wrong-here"), scenes),
        (phrase!("cards-know"), questions),
        (phrase!("cards-looked-for"), looked_for),
    ]
    .into_iter()
    .filter(|(_, cards)| !cards.is_empty())
    .map(|(title, cards)| CardGroup {
        title: text(&title),
        cards,
    })
    .collect();
    let view = StudyCards {
        head: inputs.head(title, None, &sources),
        groups,
    };
    vec![Filled::of(None, &view, figures)]
}

/// Questions: one for each objective, and more, in turn from each so that none crowds out another,
/// while there is room.
fn asked<'a>(inputs: &Inputs<'a>, room: usize, sources: &mut BTreeSet<String>) -> Vec<Card> {
    let of_each: Vec<(&Module, Vec<(&Question, Card)>)> = inputs
        .check
        .targets
        .iter()
        .map(|target| {
            let of = |questions: Vec<&'a Question>| -> Vec<(&'a Question, Card)> {
                let plain = questions.into_iter().filter(|one| one.scene.is_none());
                plain
                    .filter_map(|one| Some((one, card(inputs, target.module, one)?)))
                    .collect()
            };
            let [free, asked] = inputs.to_learn_with(target.module, target.id).map(of);
            (target.module, if free.is_empty() { asked } else { free })
        })
        .collect();
    let most = of_each.iter().map(|(_, cards)| cards.len()).max();
    let mut found = Vec::new();
    for round in 0..most.unwrap_or(0) {
        for (module, cards) in &of_each {
            let Some((question, card)) = cards.get(round) else {
                continue;
            };
            if round == 0 || found.len() < room {
                inputs.cite(module, &[&question.ask, &question.answer], sources);
                found.push(card.clone());
            }
        }
    }
    found
}

/// Drawings with faults in them, of what is checked: on the front the drawing, on the back its
/// faults. A card is too small for letters on it.
fn scenes(inputs: &Inputs<'_>, figures: &mut BTreeMap<String, Figure>) -> Vec<Card> {
    let targets = inputs.check.targets.iter();
    let asked = targets.flat_map(|target| {
        let own = target.module.questions.iter();
        own.filter(|question| question.objective == *target.id && inputs.holds(&question.applies))
            .map(|question| (target.module, question))
    });
    asked
        .filter_map(|(module, question)| scene_card(inputs, module, question, figures))
        .take(MOST_SCENES)
        .collect()
}

fn scene_card(
    inputs: &Inputs<'_>,
    module: &Module,
    question: &Question,
    figures: &mut BTreeMap<String, Figure>,
) -> Option<Card> {
    let (fence, mut figure) = inputs.scene_of(module, question)?;
    let places = question.scene.iter().flat_map(|scene| &scene.places);
    let faults: Vec<&str> = places
        .filter(|one| one.is_fault)
        .map(|one| one.say.as_str())
        .collect();
    let back = words::capital(&faults.join("; "));
    figure.caption = String::new();
    figures.insert(figure.id.clone(), figure);
    Some(Card {
        front: Prose::new(inputs.filler.line(module, &question.ask)),
        drawing: fence,
        has_drawing: true,
        back: Prose::new(sentence(&inputs.filler.line(module, &back))),
        ..Card::default()
    })
}

/// A question about a subject, with the subject's first drawing: its shapes without their words,
/// which are to be found.
fn pictured(
    inputs: &Inputs<'_>,
    module: &Module,
    front: String,
    figures: &mut BTreeMap<String, Figure>,
) -> Card {
    let mut card = Card {
        front: Prose::new(front),
        ..Card::default()
    };
    if let Some((fence, mut figure)) = inputs.drawings_of(module).into_iter().next() {
        figure.shapes = without_words(figure.shapes);
        figure.caption = String::new();
        card.drawing = fence;
        card.has_drawing = true;
        figures.insert(figure.id.clone(), figure);
    }
    card
}

/// The shapes of a drawing without its words and the lines that lead from them.
pub(super) fn without_words(shapes: Vec<Shape>) -> Vec<Shape> {
    let leads = |shape: &Shape| match shape {
        Shape::Line { points, pen, .. } => points.len() == 2 && pen.width == drawings::LEADER,
        _ => false,
    };
    let words = |shape: Option<&Shape>| matches!(shape, Some(Shape::Label { .. }));
    let kept = (0..shapes.len()).filter(|at| {
        let leader = leads(&shapes[*at]) && words(shapes.get(at + 1));
        !leader && !words(shapes.get(*at))
    });
    kept.map(|at| shapes[at].clone()).collect()
}

/// For those who will teach it: what is seen at each critical objective.
fn looked_for(inputs: &Inputs<'_>) -> Vec<Card> {
    if inputs.trip.course.level != Level::InstructorCandidate {
        return Vec::new();
    }
    let critical: Vec<_> = inputs
        .check
        .targets
        .iter()
        .copied()
        .filter(|target| target.objective.critical)
        .collect();
    watched(inputs, &critical)
        .into_iter()
        .take(MOST_CARDS / 3)
        .map(|one| Card {
            front: Prose::new(text(&phrase!("card-look-for", say = one.say.md))),
            back: one.seen,
            ..Card::default()
        })
        .collect()
}

/// A question as a card, if it is one idea in few words.
fn card(inputs: &Inputs<'_>, module: &Module, question: &Question) -> Option<Card> {
    let answer = match question.kind {
        QuestionKind::Choice => question.choices.first()?,
        QuestionKind::Order => return None,
        _ => &question.answer,
    };
    let front = inputs.filler.line(module, &question.ask);
    let back = sentence(&inputs.filler.line(module, answer));
    let short = |text: &str| words::in_text(text) <= CARD_WORDS;
    (short(&front) && short(&back)).then(|| Card {
        front: Prose::new(front),
        back: Prose::new(back),
        ..Card::default()
    })
}

/// The gravest caution of each subject that is checked.
#[must_use]
pub fn needs(inputs: &Inputs<'_>, _: Option<&str>) -> Vec<Needed> {
    handout::checked(inputs)
        .into_iter()
        .flat_map(|module| inputs.needed(module, Extent::Gravest))
        .collect()
}
