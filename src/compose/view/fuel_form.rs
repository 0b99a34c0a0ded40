//! For whom the fuel worksheet is: a look into a table and one multiplication for a scout, the
//! lines from water to grams for a leader, the losses as well for an instructor.

use super::fuel_lines::{Line, loss, losses, worked_row};
use super::{Inputs, OneKitchen};
use crate::compose::catalogue::{self, text};
use crate::nouns::{Kind, Level};
use crate::phrase::phrase;
use crate::plan::Row;
use crate::units::say::{in_mark, significant};
use schemars::JsonSchema;
use serde::Serialize;

/// What a form asks for beside, or in place of, the leader's lines.
#[derive(Clone, Debug, Default, Serialize, JsonSchema)]
pub struct Form {
    /// Which one it is, for its head; nothing for the leader's.
    pub name: String,
    /// Whether it is a table and one multiplication.
    pub scout: bool,
    /// The table to look into.
    pub table: Vec<LookUp>,
    /// The meal that is looked up.
    pub meal: String,
    /// The multiplication.
    pub sum: String,
    /// What it comes to.
    pub answer: String,
    /// The lines of what is lost to the air.
    pub losses: Vec<Line>,
    /// Whether they are asked for.
    pub has_losses: bool,
}

/// A line of the table.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LookUp {
    /// The meal.
    pub meal: String,
    /// Its water, once.
    pub water: String,
    /// Fuel for a litre of it.
    pub fuel: String,
}

/// Whom the worksheet is for: as asked on the command line, else as the file states, else a leader;
/// in a lesson whoever the whole of it is for, assumed or not.
fn level(inputs: &Inputs<'_>) -> Level {
    let assumed = inputs
        .trip
        .assumed
        .iter()
        .any(|one| one.what == "course.level");
    let course = &inputs.trip.course;
    let lesson = inputs.trip.kind == Kind::Lesson;
    let stated = (course.stated && (lesson || !assumed)).then_some(course.level);
    inputs.level.or(stated).unwrap_or(Level::AdultBeginner)
}

impl Form {
    /// The form of a kitchen; what an instructor works out himself is no longer given among the
    /// lines of the meal.
    #[must_use]
    pub fn of(inputs: &Inputs<'_>, one: OneKitchen<'_>, meal: &mut [Line]) -> Self {
        let Some(row) = worked_row(one) else {
            return Self::default();
        };
        match level(inputs) {
            Level::Scout => Self::scout(inputs, one, row),
            Level::AdultBeginner => Self::default(),
            Level::InstructorCandidate => Self::with_losses(row, meal),
        }
    }

    fn scout(inputs: &Inputs<'_>, one: OneKitchen<'_>, row: &Row) -> Self {
        let litres = |row: &Row| significant(row.water.in_litres(), 3);
        let a_litre = |row: &Row| {
            let grams = row.fuel.in_grams() / row.water.in_litres();
            significant(grams, 4)
        };
        let of = |row: &Row, what: &str, words: String| inputs.of_row(one, row, what, words);
        let here = one.plan.rows.iter().filter(|other| other.camp == row.camp);
        let table: Vec<LookUp> = here
            .filter(|row| row.water.in_litres() > 0.0)
            .map(|row| LookUp {
                meal: catalogue::word(row.meal.word(), &[]),
                water: of(row, "water", format!("{} L", litres(row))),
                fuel: of(row, "fuel-per-litre", format!("{} g", a_litre(row))),
            })
            .collect();
        if row.water.in_litres() <= 0.0 {
            return Self::default();
        }
        Self {
            name: text(&phrase!("form-scout")),
            scout: true,
            table,
            meal: catalogue::word(row.meal.word(), &[]),
            sum: format!("{} x {}", litres(row), a_litre(row)),
            answer: of(
                row,
                "fuel",
                format!("{} g", significant(row.fuel.in_grams(), 3)),
            ),
            ..Self::default()
        }
    }

    /// The leader's lines, and those of what is lost before them.
    fn with_losses(row: &Row, meal: &mut [Line]) -> Self {
        let losses = losses(&row.loss_steps);
        let Some(lost) = row.loss_steps.last() else {
            return Self::default();
        };
        let last = loss(losses.len());
        let printed = in_mark(&lost.value);
        for (line, step) in meal.iter_mut().zip(&row.steps) {
            if line.worked {
                line.blank = naming(&line.blank, &printed, &last);
            } else if step.value == lost.value && step.unit == lost.unit {
                line.asked = true;
                line.blank.clone_from(&last);
            }
        }
        Self {
            name: text(&phrase!("form-with-losses")),
            has_losses: true,
            losses,
            ..Self::default()
        }
    }
}

/// A formula in which a number is named in place of being told.
fn naming(formula: &str, number: &str, name: &str) -> String {
    let mut named = String::with_capacity(formula.len());
    let mut rest = formula;
    while let Some(at) = rest.find(number) {
        let (before, found) = rest.split_at(at);
        let after = &found[number.len()..];
        let digit =
            |sign: Option<char>| sign.is_some_and(|one| one.is_ascii_digit() || ".,".contains(one));
        let alone = !digit(before.chars().next_back()) && !digit(after.chars().next());
        named.push_str(before);
        named.push_str(if alone { name } else { number });
        rest = after;
    }
    named.push_str(rest);
    named
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_whole_number_is_named() {
        let named = naming("([line 7] + 48.25) / 148.25 x 48.251", "48.25", "[loss 9]");
        assert_eq!(named, "([line 7] + [loss 9]) / 148.25 x 48.251");
    }
}
