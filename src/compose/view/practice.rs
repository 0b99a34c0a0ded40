//! Practice problems and their key.

use super::super::catalogue::{self, text};
use super::super::words;
use crate::course::practice::{Group, Practice, Problem};
use crate::nouns::{Library, Signal};
use crate::phrase::{Phrase, phrase};
use crate::plan::Step;
use crate::units::say;
use schemars::JsonSchema;
use serde::Serialize;

/// The learners' sheet. It does not know the seed.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct PracticeSheet {
    /// `Fuel for a meal`, or `All topics`.
    pub title: String,
    /// Whose word comes first.
    pub standing: String,
    /// The groups.
    pub groups: Vec<GroupView>,
}

/// The key: the sheet, its seed and how to make it again.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct PracticeKey {
    /// What the numbers were drawn from.
    pub seed: String,
    /// The command that makes both again.
    pub command: String,
    /// The sheet.
    pub sheet: PracticeSheet,
}

/// Problems of one topic and level.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct GroupView {
    /// The topic.
    pub topic: String,
    /// `read it off the table`.
    pub level: String,
    /// Whether figures are given.
    pub has_numbers: bool,
    /// Figures to work with.
    pub numbers: Vec<String>,
    /// Whether there is a table.
    pub has_table: bool,
    /// What it shows.
    pub caption: String,
    /// Its head.
    pub head: Vec<String>,
    /// Its rows.
    pub rows: Vec<RowView>,
    /// What can hurt.
    pub careful: Vec<CarefulView>,
    /// The problems.
    pub problems: Vec<ProblemView>,
}

/// A row of a table.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct RowView {
    /// Its cells.
    pub cells: Vec<String>,
}

/// A caution in plain words.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CarefulView {
    /// The signal word.
    #[schemars(example = &"WARNING")]
    pub signal: String,
    /// Its words.
    pub words: String,
}

/// A problem.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ProblemView {
    /// Its number.
    pub number: String,
    /// What is asked.
    pub ask: String,
    /// The unit of the answer.
    pub unit: String,
    /// `within 3 %`.
    pub tolerance: String,
    /// The answer with its unit.
    pub answer: String,
    /// `30.9 to 32.8 g`.
    pub range: String,
    /// The sums.
    pub lines: Vec<LineView>,
}

/// A line of the key.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LineView {
    /// What is worked out.
    pub say: String,
    /// The formula with numbers, or how it is known.
    pub how: String,
    /// The result with its unit.
    pub result: String,
}

/// The sheet of a set of problems.
#[must_use]
pub fn sheet(practice: &Practice, library: &Library) -> PracticeSheet {
    let topics = &practice.request.topics;
    let title = if topics.len() == crate::course::practice::Topic::ALL.len() {
        text(&phrase!("practice-all-topics"))
    } else {
        let titles: Vec<String> = topics.iter().map(|topic| text(&topic.title())).collect();
        words::list(&titles)
    };
    PracticeSheet {
        title,
        standing: library.standing_line.trim().to_owned(),
        groups: practice.groups.iter().map(group).collect(),
    }
}

/// The key of a set of problems; `command` makes both again.
#[must_use]
pub fn key(practice: &Practice, library: &Library, command: &str) -> PracticeKey {
    PracticeKey {
        seed: practice.request.seed.to_string(),
        command: command.to_owned(),
        sheet: sheet(practice, library),
    }
}

fn group(group: &Group) -> GroupView {
    let table = group.table.clone().unwrap_or_default();
    GroupView {
        topic: text(&group.topic.title()),
        level: text(&group.level.title()),
        has_numbers: !group.numbers.is_empty(),
        numbers: texts(&group.numbers),
        has_table: group.table.is_some(),
        caption: text(&table.caption),
        head: texts(&table.head),
        rows: table
            .rows
            .iter()
            .map(|cells| RowView {
                cells: texts(cells),
            })
            .collect(),
        careful: group
            .careful
            .iter()
            .map(|(signal, says)| CarefulView {
                signal: signal_word(*signal).to_owned(),
                words: text(says),
            })
            .collect(),
        problems: group.problems.iter().map(problem).collect(),
    }
}

const fn signal_word(signal: Signal) -> &'static str {
    match signal {
        Signal::Danger => "DANGER",
        Signal::Warning => "WARNING",
        Signal::Caution => "CAUTION",
        Signal::Notice => "NOTICE",
    }
}

fn texts(phrases: &[Phrase]) -> Vec<String> {
    phrases.iter().map(text).collect()
}

/// A number with its unit, if it has one.
pub(super) fn with_unit(number: &str, unit: &str) -> String {
    format!("{} {}", say::in_mark(number), catalogue::unit(unit))
        .trim_end()
        .to_owned()
}

fn problem(problem: &Problem) -> ProblemView {
    ProblemView {
        number: problem.number.to_string(),
        ask: text(&problem.ask),
        unit: catalogue::unit(&problem.unit),
        tolerance: text(&problem.accept.says),
        answer: with_unit(&problem.answer, &problem.unit),
        range: with_unit(&text(&problem.accept.range()), &problem.unit),
        lines: worked(&problem.steps)
            .into_iter()
            .map(|(say, how, result)| LineView { say, how, result })
            .collect(),
    }
}

/// Each step in words: what is worked out, how, and the result with its unit.
pub(in crate::compose) fn worked(steps: &[Step]) -> Vec<(String, String, String)> {
    steps
        .iter()
        .map(|step| {
            let formula = say::in_mark(step.formula.as_str());
            let how = match (step.formula.is_empty(), step.why.is_none()) {
                (true, true) => text(&phrase!("practice-given")),
                (true, false) => text(&step.why),
                (false, true) => formula,
                (false, false) => format!("{formula} ({})", text(&step.why)),
            };
            (text(&step.say), how, with_unit(&step.value, &step.unit))
        })
        .collect()
}
