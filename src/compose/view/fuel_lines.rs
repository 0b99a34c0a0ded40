//! Lines of arithmetic, blank and filled in, and the meal that a form works with.

use super::OneKitchen;
use crate::compose::catalogue::{self, text};
use crate::compose::{say, words};
use crate::phrase::{StepId, phrase};
use crate::plan::{Row, Step};
use crate::units::say::in_mark;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// A line of arithmetic.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Line {
    /// Its number.
    pub number: String,
    /// What is worked out.
    pub say: String,
    /// The same with earlier results as `line 3`.
    pub blank_say: String,
    /// The formula with numbers.
    pub formula: String,
    /// The formula with earlier results as `line 3`.
    pub blank: String,
    /// Whether there is something to work out.
    pub worked: bool,
    /// Whether the blank form asks for it: sums over meals that the form does
    /// not list are given.
    pub asked: bool,
    /// Whether the blank form shows it.
    pub shown: bool,
    /// The result with its unit.
    pub result: String,
    /// Its unit.
    pub unit: String,
    /// What it rests on.
    pub why: String,
    /// Whether it rests on something that is said.
    pub has_why: bool,
}

/// The row that the form works line by line: of the first camp's meals the one
/// with the fewest lines, the first of these.
#[must_use]
pub fn worked_row(one: OneKitchen<'_>) -> Option<&Row> {
    let first = one.plan.rows.first()?.camp;
    one.plan
        .rows
        .iter()
        .filter(|row| row.camp == first)
        .min_by_key(|row| row.steps.len())
}

/// Steps as numbered lines; `before` are the lines that stand above them.
#[must_use]
pub fn lines(steps: &[Step], before: &[Step]) -> Vec<Line> {
    let line = |number: usize| text(&phrase!("blank-line", number = number));
    lines_called(steps, before, line)
}

/// Lines of what is lost to the air, which a form numbers apart.
#[must_use]
pub fn losses(steps: &[Step]) -> Vec<Line> {
    lines_called(steps, &[], loss)
}

/// What a loss is called where its number is asked for.
#[must_use]
pub fn loss(number: usize) -> String {
    text(&phrase!("blank-loss", number = number))
}

fn lines_called(steps: &[Step], before: &[Step], called: impl Fn(usize) -> String) -> Vec<Line> {
    let all: Vec<&Step> = before.iter().chain(steps).collect();
    // A number that is given stands on the form anyway: only what was worked out is referred to.
    let worked = all
        .iter()
        .zip(1..)
        .filter(|(step, _)| !step.formula.is_empty());
    let numbers: BTreeMap<&StepId, usize> = worked.map(|(step, at)| (&step.id, at)).collect();
    let reference = |id: &StepId| numbers.get(id).map(|number| called(*number));
    all.iter()
        .zip(1..)
        .skip(before.len())
        .map(|(step, number)| Line {
            number: format!("{number}"),
            say: say::what(step),
            blank_say: {
                let what = catalogue::tokens(&step.say);
                match what.inputs().any(|input| numbers.contains_key(input)) {
                    true => words::capital(&what.naming(reference)),
                    false => say::what(step),
                }
            },
            formula: in_mark(&step.formula.to_string()),
            blank: in_mark(&step.formula.naming(reference)),
            worked: !step.formula.is_empty(),
            asked: !step.formula.is_empty(),
            shown: true,
            result: say::result(step),
            unit: catalogue::unit(&step.unit),
            has_why: !step.why.is_none(),
            why: text(&step.why),
        })
        .collect()
}
