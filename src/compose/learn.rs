//! The page to learn from by oneself: what is checked, with pictures, steps, questions and
//! sums from the same library and the same calculation as the sheets.

use super::catalogue::{self, text};
use super::prose::sentence;
use super::view::Inputs;
use super::view::common::Extent;
use super::{drawings, view};
use crate::course::practice::{self, Request, Topic};
use crate::diag::Outcome;
use crate::doc::learn::{Objective, Page, Scene, Subject, Sum, Sums, Try, Way};
use crate::doc::{self, Inline};
use crate::markdown;
use crate::nouns::{Library, Module, Question, QuestionKind};
use crate::phrase::{Phrase, phrase};
use std::collections::{BTreeMap, BTreeSet};

/// Steps of a subject: more are not looked at on a phone.
const MOST_STEPS: usize = 3;

/// Cautions of a subject that are told in full.
const MOST_CAUTIONS: usize = 2;

/// Sums of a topic: one shown worked, one half worked, the others blank.
const SUMS_A_TOPIC: usize = 6;

/// Between the seed of a check and that of these sums, so that no form's numbers come up here.
const OTHER_SEED: u64 = 0x1ea2_0000;

/// The page of a trip or lesson; none where nothing is checked.
///
/// # Errors
/// When the library lacks what the sums speak of.
pub(super) fn page(inputs: &Inputs<'_>) -> Outcome<Option<Page>> {
    let subjects: Vec<Subject> = view::handout::checked(inputs)
        .into_iter()
        .map(|module| subject(inputs, module))
        .filter(|subject| !subject.objectives.is_empty() && !subject.tries.is_empty())
        .collect();
    if subjects.is_empty() {
        return Ok(None);
    }
    Ok(Some(Page {
        title: text(&phrase!("learn-title", trip = inputs.trip.title)),
        notes: vec![
            text(&phrase!("learn-note")),
            inputs.library.standing_line.trim().to_owned(),
        ],
        subjects,
        sums: sums(inputs, u64::from(inputs.trip.course.seed) ^ OTHER_SEED)?,
        foot: foot(inputs.library),
    }))
}

/// Which content it was made from.
fn foot(library: &Library) -> String {
    text(&phrase!(
        "foot-content",
        edition = library.edition.to_string()
    ))
}

fn subject(inputs: &Inputs<'_>, module: &Module) -> Subject {
    let line = |text: &str| inlines(&inputs.filler.line(module, text));
    let targets: Vec<_> = inputs
        .check
        .targets
        .iter()
        .filter(|target| target.module.id == module.id)
        .collect();
    let mut items: Vec<_> = module
        .items
        .iter()
        .filter(|item| inputs.holds(&item.applies))
        .collect();
    items.sort_by_key(|item| item.rank);
    Subject {
        id: module.id.clone(),
        title: module.title.clone(),
        about: line(&module.summary),
        figures: module
            .drawings
            .iter()
            .filter(|drawing| inputs.holds(&drawing.applies))
            .map(|drawing| {
                drawings::figure(
                    drawings::name(module, drawing),
                    drawing,
                    doc::plain(&line(&drawing.caption)),
                    doc::plain(&line(&drawing.alt)),
                )
            })
            .collect(),
        steps: items
            .iter()
            .take(MOST_STEPS)
            .map(|item| line(&item.say))
            .collect(),
        cautions: inputs
            .chosen(module, Extent::Full)
            .into_iter()
            .take(MOST_CAUTIONS)
            .map(|caution| {
                let words = inputs.caution_words(module, caution, Extent::Full);
                (view::common::doc_signal(caution.signal), inlines(&words))
            })
            .collect(),
        objectives: targets
            .iter()
            .map(|target| Objective {
                id: format!("{}.{}", module.id, target.id),
                say: line(&target.objective.say),
                must: target.objective.critical,
            })
            .collect(),
        tries: tries(inputs, module),
    }
}

/// The questions of a subject, by objective.
fn tries(inputs: &Inputs<'_>, module: &Module) -> Vec<Try> {
    let checked: BTreeSet<&str> = inputs
        .check
        .targets
        .iter()
        .filter(|target| target.module.id == module.id)
        .map(|target| target.id.as_str())
        .collect();
    let way = |question: &Question| way(inputs, module, question);
    checked
        .into_iter()
        .flat_map(|objective| {
            let [free, asked] = inputs.to_learn_with(module, objective);
            if free.is_empty() { asked } else { free }
        })
        .map(|question| {
            let line = |text: &str| inlines(&inputs.filler.line(module, text));
            let scene = scene(inputs, module, question);
            let places = question.scene.iter().flat_map(|scene| &scene.places);
            let shown = question.choices.iter().chain(places.map(|one| &one.say));
            Try {
                id: format!("{}.{}", module.id, question.id),
                objective: format!("{}.{}", module.id, question.objective),
                way: way(question),
                ask: line(&question.ask),
                choices: shown.map(|text| line(text)).collect(),
                scene,
                answer: inlines(&sentence(&inputs.filler.line(module, &question.answer))),
                because: inlines(&sentence(&inputs.filler.line(module, &question.because))),
            }
        })
        .collect()
}

/// How a question is answered on the page.
fn way(inputs: &Inputs<'_>, module: &Module, question: &Question) -> Way {
    match question.kind {
        QuestionKind::Choice => Way::Choice,
        QuestionKind::Order => Way::Order,
        _ if scene(inputs, module, question).is_some() => Way::Places,
        _ => Way::Words,
    }
}

/// How an objective is asked about on the page, each way once; none where it is not.
pub(super) fn ways(inputs: &Inputs<'_>, module: &Module, objective: &str) -> Vec<Way> {
    let mut ways = Vec::new();
    for question in &module.questions {
        let asked = question.objective == objective
            && question.sum.is_none()
            && inputs.holds(&question.applies);
        if asked {
            let way = way(inputs, module, question);
            if !ways.contains(&way) {
                ways.push(way);
            }
        }
    }
    ways
}

/// The drawing of a question with marked places.
fn scene(inputs: &Inputs<'_>, module: &Module, question: &Question) -> Option<Scene> {
    let (_, mut figure) = inputs.scene_of(module, question)?;
    let scene = question.scene.as_ref()?;
    figure.shapes.extend(drawings::marks(scene));
    let (width, height) = (figure.width, figure.height);
    Some(Scene {
        figure,
        places: scene
            .places
            .iter()
            .map(|one| {
                (
                    one.at.0 as f32 / width,
                    one.at.1 as f32 / height,
                    one.is_fault,
                )
            })
            .collect(),
    })
}

/// Sums of every topic, from the easiest on.
fn sums(inputs: &Inputs<'_>, seed: u64) -> Outcome<Vec<Sums>> {
    let set = practice::practice(
        inputs.library,
        &Request {
            topics: Topic::ALL.to_vec(),
            count: Topic::ALL.len() * SUMS_A_TOPIC,
            level: None,
            seed,
            units: inputs.units,
        },
    )?;
    Ok(set
        .groups
        .into_iter()
        .map(|group| Sums {
            title: format!(
                "{}: {}",
                text(&group.topic.title()),
                text(&group.level.title())
            ),
            numbers: group.numbers.iter().map(text).collect(),
            table: group
                .table
                .map(|table| (text(&table.caption), texts(&table.head), cells(&table.rows))),
            problems: group
                .problems
                .into_iter()
                .map(|problem| {
                    let steps = view::practice::worked(&problem.steps);
                    Sum {
                        ask: text(&problem.ask),
                        answer: problem.answer,
                        unit: catalogue::unit(&problem.unit),
                        range: (problem.accept.least, problem.accept.most),
                        tolerance: text(&problem.accept.says),
                        steps,
                    }
                })
                .collect(),
        })
        .collect())
}

fn texts(phrases: &[Phrase]) -> Vec<String> {
    phrases.iter().map(text).collect()
}

fn cells(rows: &[Vec<Phrase>]) -> Vec<Vec<String>> {
    rows.iter().map(|row| texts(row)).collect()
}

/// A line of Markdown as a run of text.
fn inlines(text: &str) -> Vec<Inline> {
    let read = markdown::read(
        "a line",
        &format!("# x\n\n{text}\n"),
        &BTreeMap::new(),
        super::sheets::plain_style(),
        "",
    );
    match read.map(|document| document.blocks.into_iter().nth(1)) {
        Ok(Some(doc::Block::Paragraph(words))) => words,
        _ if text.is_empty() => Vec::new(),
        _ => vec![Inline::Text(text.to_owned())],
    }
}
