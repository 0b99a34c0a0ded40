//! The skills check, its key, and study cards.

use super::common::{CautionGroup, Extent, Head, Prose};
use super::{Filled, Inputs, handout};
use crate::compose::cautions::Needed;
use crate::compose::prose::sentence;
use crate::nouns::{Module, Question, QuestionKind};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeSet;

/// Questions that one side of paper holds.
const MOST_QUESTIONS: usize = 8;

/// Objectives that the rubric holds for six candidates on one side.
const MOST_OBJECTIVES: usize = 9;

/// Cards that two leaves hold.
const MOST_CARDS: usize = 12;

/// Words on one side of a card.
const CARD_WORDS: usize = 25;

/// Candidates on one rubric.
const CANDIDATES: usize = 6;

/// The skills check and its key.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SkillsCheck {
    /// The head.
    pub head: Head,
    /// The questions.
    pub questions: Vec<Asked>,
    /// What the assessor watches.
    pub objectives: Vec<Watched>,
    /// The columns of the rubric.
    pub candidates: Vec<String>,
    /// Months that a pass holds.
    pub holds: String,
}

/// A question as asked.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Asked {
    /// Its number.
    pub number: String,
    /// What is asked.
    pub ask: Prose,
    /// Whether one of several is chosen.
    pub is_choice: bool,
    /// Whether steps are put in order.
    pub is_order: bool,
    /// Whether words or a number are written.
    pub is_written: bool,
    /// The choices or steps as shown.
    pub choices: Vec<Choice>,
    /// The answer.
    pub answer: Prose,
    /// Why.
    pub because: Prose,
    /// Whether a reason is given.
    pub has_because: bool,
    /// The module it is from.
    pub module: String,
}

/// A choice.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Choice {
    /// `A`, `B`, ...
    pub letter: String,
    /// Its words.
    pub words: Prose,
}

/// An objective as the assessor watches it.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Watched {
    /// What the candidate does.
    pub say: Prose,
    /// Whether failing it stops the check.
    pub critical: bool,
    /// What is seen.
    pub behaviours: Vec<Prose>,
}

/// The skills check of a trip or lesson; the key is made from the same view.
#[must_use]
pub fn skills_check(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let (taught, _) = handout::choose(inputs);
    let questions = asked(inputs, &taught);
    let mut objectives: Vec<Watched> = taught
        .iter()
        .flat_map(|module| {
            module.objectives.values().map(|one| Watched {
                say: Prose::new(inputs.filler.line(module, &one.say)),
                critical: one.critical,
                behaviours: one
                    .behaviours
                    .iter()
                    .map(|text| Prose::new(inputs.filler.line(module, text)))
                    .collect(),
            })
        })
        .collect();
    objectives.sort_by_key(|one| !one.critical);
    objectives.truncate(MOST_OBJECTIVES);
    let view = SkillsCheck {
        head: inputs.head(title, None, &BTreeSet::new()),
        questions,
        objectives,
        candidates: (1..=CANDIDATES).map(|number| number.to_string()).collect(),
        holds: "12 months, or until the next trip in another season".to_owned(),
    };
    Filled::one(&view)
}

/// Questions taken in turn from each module, so that no subject crowds out another.
fn asked(inputs: &Inputs<'_>, modules: &[&Module]) -> Vec<Asked> {
    let mut chosen: Vec<(&Module, &Question)> = Vec::new();
    let most = modules.iter().map(|module| module.questions.len()).max();
    'full: for round in 0..most.unwrap_or(0) {
        for module in modules {
            let question = module
                .questions
                .iter()
                .filter(|question| inputs.holds(&question.applies))
                .nth(round);
            if let Some(question) = question {
                chosen.push((module, question));
            }
            if chosen.len() == MOST_QUESTIONS {
                break 'full;
            }
        }
    }
    chosen
        .into_iter()
        .enumerate()
        .map(|(index, (module, question))| ask(inputs, module, question, index + 1))
        .collect()
}

fn ask(inputs: &Inputs<'_>, module: &Module, question: &Question, number: usize) -> Asked {
    let line = |text: &str| inputs.filler.line(module, text);
    let is_choice = question.kind == QuestionKind::Choice;
    let is_order = question.kind == QuestionKind::Order;
    let shown = order(question.choices.len(), &question.id);
    let letter = |place: usize| char::from(b'A' + u8::try_from(place % 26).unwrap_or(0));
    let choices: Vec<Choice> = shown
        .iter()
        .enumerate()
        .map(|(place, index)| Choice {
            letter: letter(place).to_string(),
            words: Prose::new(line(&question.choices[*index])),
        })
        .collect();
    let place_of = |index: usize| shown.iter().position(|shown| *shown == index).unwrap_or(0);
    let answer = if is_choice {
        question.choices.first().map_or_else(String::new, |right| {
            format!("{}: {}", letter(place_of(0)), line(right))
        })
    } else if is_order {
        (0..question.choices.len())
            .map(|index| letter(place_of(index)).to_string())
            .collect::<Vec<_>>()
            .join(", ")
    } else {
        line(&question.answer)
    };
    let because = line(&question.because);
    Asked {
        number: number.to_string(),
        ask: Prose::new(line(&question.ask)),
        is_choice,
        is_order,
        is_written: !is_choice && !is_order,
        choices,
        answer: Prose::new(sentence(&answer)),
        has_because: !because.is_empty(),
        because: Prose::new(because),
        module: module.title.clone(),
    }
}

/// An order of so many things that depends on the name alone and is never the
/// given one, so that the right answer does not always stand first.
fn order(count: usize, name: &str) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    if count < 2 {
        return order;
    }
    let mut state = name.bytes().fold(0x9e37_79b9_u32, |state, byte| {
        (state ^ u32::from(byte)).wrapping_mul(0x0100_0193)
    });
    for index in (1..count).rev() {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        let other = usize::try_from(state).unwrap_or(0) % (index + 1);
        order.swap(index, other);
    }
    if order.windows(2).all(|pair| pair[0] < pair[1]) {
        order.rotate_left(1);
    }
    order
}

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
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Card {
    /// Its front.
    pub front: Prose,
    /// Its back.
    pub back: Prose,
    /// A caution on its back, else none.
    pub caution: Vec<CautionGroup>,
}

/// The cards: the gravest caution of each hazard, then questions.
#[must_use]
pub fn study_cards(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let mut sources = BTreeSet::new();
    let mut cards: Vec<Card> = Vec::new();
    for module in &inputs.modules {
        if !inputs.chosen(module, Extent::Gravest).is_empty() {
            cards.push(Card {
                front: Prose::new(format!(
                    "{}: what can hurt you, and what do you do?",
                    crate::markdown::escape(&module.title)
                )),
                back: Prose::default(),
                caution: inputs.caution_groups(&[module], Extent::Gravest),
            });
        }
    }
    let hazards = cards.len();
    let most = inputs
        .modules
        .iter()
        .map(|module| module.questions.len())
        .max();
    for round in 0..most.unwrap_or(0) {
        for module in &inputs.modules {
            let Some(question) = module.questions.get(round) else {
                continue;
            };
            if cards.len() < MOST_CARDS
                && inputs.holds(&question.applies)
                && let Some(card) = card(inputs, module, question)
            {
                inputs.cite(module, &[&question.ask, &question.answer], &mut sources);
                cards.push(card);
            }
        }
    }
    let questions = cards.split_off(hazards);
    let groups = [("What can hurt", cards), ("What to know", questions)]
        .into_iter()
        .filter(|(_, cards)| !cards.is_empty())
        .map(|(title, cards)| CardGroup {
            title: title.to_owned(),
            cards,
        })
        .collect();
    let view = StudyCards {
        head: inputs.head(title, None, &sources),
        groups,
    };
    Filled::one(&view)
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
    let short = |text: &str| text.split_whitespace().count() <= CARD_WORDS;
    (short(&front) && short(&back)).then(|| Card {
        front: Prose::new(front),
        back: Prose::new(back),
        caution: Vec::new(),
    })
}

/// The gravest caution of each hazard.
#[must_use]
pub fn cards_need(inputs: &Inputs<'_>, _: Option<&str>) -> Vec<Needed> {
    inputs
        .modules
        .iter()
        .flat_map(|module| inputs.needed(module, Extent::Gravest))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shows_choices_in_another_order() {
        for name in ["why-soil", "order", "a", "cold-or-empty"] {
            let shown = order(4, name);
            assert_ne!(shown, [0, 1, 2, 3]);
            let mut sorted = shown.clone();
            sorted.sort_unstable();
            assert_eq!(sorted, [0, 1, 2, 3]);
        }
    }
}
