//! The skills check: its forms, the grids for what is watched, and the key.

use super::common::{Head, Prose, signal_word};
use super::practice::with_unit;
use super::watched::{Watched, watched};
use super::{Filled, Inputs, Part};
use crate::compose::catalogue::{self, text};
use crate::compose::prose::sentence;
use crate::compose::words;
use crate::course::practice::Group;
use crate::course::skills::{Form, Item, Target};
use crate::nouns::QuestionKind;
use crate::phrase::{Phrase, phrase};
use crate::plan::Value;
use crate::units::say;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Candidates on one grid.
pub const CANDIDATES: usize = 6;

/// Sides of paper that a form's questions may take.
const FORM_SIDES: usize = 2;

/// Objectives of a grid that one side holds; more take both sides of its leaf.
const SIDE_OBJECTIVES: usize = 13;

/// One paper of the skills check: a form's questions, or the grids.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SkillsCheck {
    /// The head.
    pub head: Head,
    /// Whether it is a form with questions; else it holds the grids.
    pub is_form: bool,
    /// The form's letter.
    pub letter: String,
    /// How many questions there are, in words.
    pub blueprint: String,
    /// The questions.
    pub questions: Vec<Asked>,
    /// What can hurt at the sums.
    pub careful: Vec<Careful>,
    /// The grids, one for six candidates.
    pub grids: Vec<Grid>,
    /// How long a pass holds.
    pub holds: String,
}

/// The key of every form.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SkillsKey {
    /// The head.
    pub head: Head,
    /// What the forms were drawn from. No other paper says it.
    pub seed: String,
    /// How many questions there are, in words.
    pub blueprint: String,
    /// Each form's answers.
    pub forms: Vec<FormKey>,
    /// What the assessor watches.
    pub objectives: Vec<Watched>,
    /// Whether something is watched but not asked.
    pub has_only_watched: bool,
    /// What that is.
    pub only_watched: Vec<Prose>,
    /// How long a pass holds.
    pub holds: String,
}

/// The answers of a form.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct FormKey {
    /// Its letter.
    pub letter: String,
    /// Its questions with their answers.
    pub questions: Vec<Asked>,
    /// Numbers of those that an earlier form asks too.
    pub repeats: String,
    /// Whether there are any.
    pub has_repeats: bool,
}

/// A grid for six candidates.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Grid {
    /// The first candidate's number.
    pub first: String,
    /// The last one's.
    pub last: String,
    /// Whether a page ends before it.
    pub on_new_page: bool,
    /// Its columns.
    pub candidates: Vec<String>,
    /// Its rows.
    pub objectives: Vec<Watched>,
}

/// A question as asked.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Asked {
    /// Its number.
    #[schemars(example = &"1")]
    pub number: String,
    /// What is asked.
    pub ask: Prose,
    /// Whether a wrong answer stops the check.
    pub critical: bool,
    /// Whether one of several is chosen.
    pub is_choice: bool,
    /// Whether steps are put in order.
    pub is_order: bool,
    /// Whether a number or a few words are written.
    pub is_short: bool,
    /// Whether a sentence or two are written.
    pub is_long: bool,
    /// Whether it is a sum.
    pub is_sum: bool,
    /// The choices or steps as shown.
    pub choices: Vec<Choice>,
    /// The sum.
    pub sums: Vec<SumView>,
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

/// A sum with its numbers.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SumView {
    /// What it is worked from.
    pub givens: Vec<String>,
    /// What is asked.
    pub ask: String,
    /// The unit of the answer.
    pub unit: String,
    /// How near it must come.
    pub tolerance: String,
    /// The answer with its unit.
    pub answer: String,
    /// What counts as right.
    pub range: String,
    /// The lines of the key.
    pub lines: Vec<SumLine>,
}

/// A caution in plain words.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Careful {
    /// The signal word.
    #[schemars(example = &"WARNING")]
    pub signal: String,
    /// Its words.
    pub words: String,
}

/// A line of a sum's key.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SumLine {
    /// What is worked out.
    pub say: String,
    /// The formula with its numbers.
    pub formula: String,
    /// The result with its unit.
    pub result: String,
}

/// The forms and the grids.
#[must_use]
pub fn skills_check(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let learners = usize::try_from(inputs.trip.people.learners).unwrap_or(1);
    let mut papers: Vec<Filled> = inputs
        .check
        .forms
        .iter()
        .enumerate()
        .map(|(place, form)| {
            let letter = form.letter.to_string();
            let title = text(&phrase!("check-form", title = title, letter = letter));
            let view = SkillsCheck {
                head: inputs.head(&title, None, &BTreeSet::new()),
                is_form: true,
                letter,
                blueprint: blueprint(inputs),
                questions: asked(inputs, form),
                careful: careful(form),
                grids: Vec::new(),
                holds: holds(),
            };
            // Neighbours write different forms; the last one waits for another day.
            let (copies, copies_for) = match place {
                0 => (learners.div_ceil(2), phrase!("check-copies-first")),
                1 => (learners / 2, phrase!("check-copies-neighbours")),
                _ => (1, phrase!("check-copies-again")),
            };
            let mut filled = Filled::of(None, &view, BTreeMap::new());
            filled.part = Some(Part {
                ending: match place {
                    0 => String::new(),
                    _ => format!("form-{}", form.letter.to_ascii_lowercase()),
                },
                title,
                about: text(&phrase!("check-form-about")),
                copies,
                copies_for: text(&copies_for),
                print: text(&phrase!("check-form-print")),
                most_pages: FORM_SIDES,
            });
            filled
        })
        .collect();
    let grids = grids(inputs, learners);
    let count = grids.len();
    let one_side = inputs.check.targets.len() <= SIDE_OBJECTIVES;
    let title = text(&phrase!("check-grid", title = title));
    let view = SkillsCheck {
        head: inputs.head(&title, None, &BTreeSet::new()),
        is_form: false,
        letter: String::new(),
        blueprint: String::new(),
        questions: Vec::new(),
        careful: Vec::new(),
        grids,
        holds: holds(),
    };
    let mut filled = Filled::of(None, &view, BTreeMap::new());
    filled.part = Some(Part {
        ending: "grid".to_owned(),
        title,
        about: text(&phrase!("check-grid-about")),
        copies: 1,
        copies_for: text(&phrase!("check-grid-copies")),
        print: text(&match one_side {
            true => phrase!("check-grid-one-side"),
            false => phrase!("check-grid-both-sides"),
        }),
        most_pages: if one_side { count } else { 2 * count },
    });
    papers.push(filled);
    papers
}

/// The key of every form.
#[must_use]
pub fn key(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let check = &inputs.check;
    let only_watched: Vec<Prose> = watched(inputs, &check.only_watched)
        .into_iter()
        .map(|one| one.say)
        .collect();
    Filled::one(&SkillsKey {
        head: inputs.head(title, None, &BTreeSet::new()),
        seed: inputs.trip.course.seed.to_string(),
        blueprint: blueprint(inputs),
        forms: check
            .forms
            .iter()
            .map(|form| FormKey {
                letter: form.letter.to_string(),
                questions: asked(inputs, form),
                has_repeats: !form.repeats.is_empty(),
                repeats: words::list(
                    &form
                        .repeats
                        .iter()
                        .map(ToString::to_string)
                        .collect::<Vec<_>>(),
                ),
            })
            .collect(),
        objectives: watched(inputs, &check.targets),
        has_only_watched: !only_watched.is_empty(),
        only_watched,
        holds: holds(),
    })
}

/// How long a pass holds. Common practice, no source: skills with fire fade over a winter.
fn holds() -> String {
    text(&phrase!("check-holds"))
}

/// `11 questions: one for each thing that you will be checked on, and one sum`.
fn blueprint(inputs: &Inputs<'_>) -> String {
    let check = &inputs.check;
    let all = check.forms.first().map_or(0, |form| form.items.len());
    let asked = |target: &Target<'_>| {
        let items = check.forms.iter().take(1).flat_map(|form| &form.items);
        let same = |item: &&Item<'_>| {
            item.target.module.id == target.module.id && item.target.id == target.id
        };
        let own = items.filter(|item| item.sum.is_none()).filter(same);
        own.count()
    };
    let counts = check.targets.iter().map(asked).filter(|count| *count > 0);
    let in_words = |count: usize| text(&phrase!("check-each", count = count));
    let each = match (counts.clone().min(), counts.max()) {
        (Some(least), Some(most)) if least < most => {
            words::or_list(&[&in_words(least), &in_words(most)])
        }
        _ => in_words(check.each),
    };
    text(&phrase!(
        "check-blueprint",
        questions = all,
        each = each,
        sums = check.sums
    ))
}

fn grids(inputs: &Inputs<'_>, learners: usize) -> Vec<Grid> {
    (0..learners.div_ceil(CANDIDATES).max(1))
        .map(|grid| {
            let first = grid * CANDIDATES + 1;
            let last = first + CANDIDATES - 1;
            Grid {
                first: first.to_string(),
                last: last.to_string(),
                on_new_page: grid > 0,
                candidates: (first..=last).map(|number| number.to_string()).collect(),
                objectives: watched(inputs, &inputs.check.targets),
            }
        })
        .collect()
}

fn asked(inputs: &Inputs<'_>, form: &Form<'_>) -> Vec<Asked> {
    form.items
        .iter()
        .enumerate()
        .map(|(index, item)| ask(inputs, item, &sum_id(form, index), index + 1))
        .collect()
}

/// What can hurt at the sums of a form, once.
fn careful(form: &Form<'_>) -> Vec<Careful> {
    let mut careful: Vec<Careful> = Vec::new();
    for (signal, says) in form
        .items
        .iter()
        .flat_map(|item| &item.sum)
        .flat_map(|group| &group.careful)
    {
        let words = text(says);
        if !careful.iter().any(|one| one.words == words) {
            careful.push(Careful {
                signal: signal_word(*signal).to_owned(),
                words,
            });
        }
    }
    careful
}

fn ask(inputs: &Inputs<'_>, item: &Item<'_>, at: &str, number: usize) -> Asked {
    let module = item.target.module;
    let question = item.question;
    let line = |text: &str| inputs.filler.line(module, text);
    let kind = question.kind;
    let letter = |place: usize| char::from(b'A' + u8::try_from(place % 26).unwrap_or(0));
    let choices: Vec<Choice> = item
        .shown
        .iter()
        .enumerate()
        .filter_map(|(place, index)| {
            Some(Choice {
                letter: letter(place).to_string(),
                words: Prose::new(line(question.choices.get(*index)?)),
            })
        })
        .collect();
    let place_of = |index: usize| item.shown.iter().position(|shown| *shown == index);
    let letter_of = |index: usize| place_of(index).map_or_else(String::new, |at| letter(at).into());
    let answer = match kind {
        QuestionKind::Choice => question.choices.first().map_or_else(String::new, |right| {
            format!("{}: {}", letter_of(0), line(right))
        }),
        QuestionKind::Order => (0..question.choices.len())
            .map(letter_of)
            .collect::<Vec<_>>()
            .join(", "),
        _ => line(&question.answer),
    };
    let because = line(&question.because);
    let sums: Vec<SumView> = item
        .sum
        .iter()
        .flat_map(|one| sums(inputs, one, at))
        .collect();
    let written = sums.is_empty();
    Asked {
        number: number.to_string(),
        ask: Prose::new(line(&question.ask)),
        critical: item.critical(),
        is_choice: kind == QuestionKind::Choice,
        is_order: kind == QuestionKind::Order,
        is_short: written && matches!(kind, QuestionKind::Number | QuestionKind::Short),
        is_long: matches!(kind, QuestionKind::SpotTheFault | QuestionKind::WhatNow),
        is_sum: !written,
        choices,
        sums,
        answer: Prose::new(sentence(&answer)),
        has_because: !because.is_empty(),
        because: Prose::new(because),
        module: module.title.clone(),
    }
}

/// The id of the sum at a place of a form.
fn sum_id(form: &Form<'_>, index: usize) -> String {
    format!("check.{}.{}", form.letter.to_ascii_lowercase(), index + 1)
}

/// What the sums of the forms say: an exercise's words and numbers are its own, not the trip's.
#[must_use]
pub fn stated(inputs: &Inputs<'_>) -> Vec<(String, Value)> {
    let mut all = Vec::new();
    for form in &inputs.check.forms {
        for (index, group) in (0..)
            .zip(&form.items)
            .filter_map(|(at, one)| Some((at, one.sum.as_ref()?)))
        {
            let at = sum_id(form, index);
            for (number, says) in (1..).zip(&group.numbers) {
                all.push((format!("{at}.given-{number}"), Value::Phrase(says.clone())));
            }
            for problem in &group.problems {
                let at = format!("{at}.{}", problem.number);
                let says = |says: &Phrase| Value::Phrase(says.clone());
                all.push((format!("{at}.ask"), says(&problem.ask)));
                all.push((format!("{at}.tolerance"), says(&problem.accept.says)));
                all.push((format!("{at}.range"), says(&problem.accept.range())));
                let answer = Value::Words(say::in_mark(&problem.answer));
                all.push((format!("{at}.answer"), answer));
                for (line, step) in (1..).zip(&problem.steps) {
                    let value = Value::Line(step.number(), step.unit.clone());
                    all.push((format!("{at}.line-{line}"), value));
                }
            }
        }
    }
    all
}

fn sums(inputs: &Inputs<'_>, group: &Group, at: &str) -> Vec<SumView> {
    let numbers = (1..).zip(&group.numbers);
    let givens: Vec<String> = numbers
        .map(|(number, says)| inputs.say(&format!("{at}.given-{number}"), text(says)))
        .collect();
    let problems = group.problems.iter().map(|problem| {
        let at = format!("{at}.{}", problem.number);
        let say = |what: &str, words: &str| inputs.say(&format!("{at}.{what}"), words);
        SumView {
            givens: givens.clone(),
            ask: say("ask", &text(&problem.ask)),
            unit: catalogue::unit(&problem.unit),
            tolerance: say("tolerance", &text(&problem.accept.says)),
            answer: say("answer", &with_unit(&problem.answer, &problem.unit)),
            range: say(
                "range",
                &with_unit(&text(&problem.accept.range()), &problem.unit),
            ),
            lines: (1..)
                .zip(&problem.steps)
                .filter(|(_, step)| !step.formula.is_empty())
                .map(|(line, step)| SumLine {
                    say: text(&step.say),
                    formula: say::in_mark(step.formula.as_str()),
                    result: say(&format!("line-{line}"), &with_unit(&step.value, &step.unit)),
                })
                .collect(),
        }
    });
    problems.collect()
}
