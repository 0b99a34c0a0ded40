//! Headings of a season's table: plain words, or key paths of a trip file.

use super::table::{Table, letters};
use crate::diag::{Outcome, Problem, Told, nearest, told};
use crate::load::folded_key;

/// What a column is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Column {
    /// The departure's name, and with it its folder's.
    Name,
    /// Which trip file it stands on.
    Base,
    /// Whether it takes place.
    Status,
    /// A key path of the trip file.
    Key(String),
    /// A day, at a key path.
    Date(String),
    /// A day and words behind it, at a key path: when somebody asked, and whom.
    Dated(String),
    /// Kitchens by name with their people.
    Kitchens,
    /// Tags of the canisters that go along.
    Canisters,
    /// A list, its entries parted by semicolons.
    List(String),
    /// A word for people; goes on the day list.
    Note(String),
    /// Nothing stands below it.
    Empty,
}

/// Plain headings and what each fills in. The first of a row is what the template writes.
pub const HEADINGS: &[(&str, &[&str])] = &[
    ("departure", &["departure", "departure name", "group"]),
    ("base", &["base", "base trip", "trip file"]),
    ("status", &["status", "cancelled", "canceled"]),
    (
        "starts",
        &["starts", "start", "start date", "date", "first day"],
    ),
    ("title", &["title"]),
    (
        "people.learners",
        &[
            "learners",
            "clients",
            "guests",
            "participants",
            "students",
            "scouts",
        ],
    ),
    (
        "people.instructors",
        &["instructors", "guides", "leaders", "staff", "adults"],
    ),
    ("people.youngest", &["youngest", "youngest age"]),
    ("people.diet", &["diet", "diets", "allergies"]),
    ("kitchens", &["kitchens"]),
    ("canisters", &["canisters", "canister tags"]),
    (
        "part_used_at_most",
        &["part used at most", "most part used"],
    ),
    ("stove", &["stove"]),
    (
        "emergency.call",
        &["emergency call", "emergency", "emergency number"],
    ),
    ("emergency.nearest_help", &["nearest help"]),
    ("restrictions.stoves", &["stoves allowed"]),
    ("restrictions.stage", &["fire stage", "fire rule", "stage"]),
    ("restrictions.checked", &["fire rule checked", "checked"]),
    ("restrictions.until", &["fire rule until"]),
    ("water_treatment", &["water treatment"]),
    ("arrival", &["arrival"]),
    ("resupply", &["resupply"]),
    ("organisation", &["organisation", "organization"]),
    ("units", &["units"]),
    ("paper", &["paper"]),
    ("washing", &["washing"]),
    ("eating", &["eating"]),
    ("first_meal", &["first meal"]),
    ("last_meal", &["last meal"]),
    ("spare", &["spare"]),
    ("confidence", &["confidence"]),
    ("second_stove", &["second stove"]),
    ("windscreen", &["windscreen"]),
    ("lid", &["lid"]),
    ("drinking", &["drinking"]),
    ("step_length", &["step length"]),
];

/// Headings of notes that would else be taken for a slip: who leads is no number of leaders.
const NOTES: [&str; 9] = [
    "guide", "leader", "client", "contact", "phone", "van", "vehicle", "notes", "remarks",
];

/// Keys that hold a day.
const DAYS: [&str; 2] = ["starts", "restrictions.until"];

fn column(key: &str) -> Column {
    match key {
        "departure" => Column::Name,
        "base" => Column::Base,
        "status" => Column::Status,
        "kitchens" => Column::Kitchens,
        "canisters" => Column::Canisters,
        "people.diet" => Column::List(key.to_owned()),
        day if DAYS.contains(&day) => Column::Date(day.to_owned()),
        "restrictions.checked" => Column::Dated(key.to_owned()),
        other => Column::Key(other.to_owned()),
    }
}

/// Letters that may be wrong in a heading before it counts as another word.
fn slips(word: &str) -> usize {
    (word.chars().count() / 5).max(1)
}

/// What each column of a table is for.
///
/// # Errors
/// Headings that are missing, doubled, or nearly one that is known; no column for names.
pub fn columns(table: &Table) -> Outcome<Vec<Column>> {
    let mut problems = Vec::new();
    let mut columns: Vec<Column> = Vec::new();
    let widest = table
        .rows
        .iter()
        .map(|row| row.cells.len())
        .max()
        .unwrap_or(0);
    for at in 0..table.heads.len().max(widest) {
        let head = table.heads.get(at).cloned().unwrap_or_default();
        let place = || table.spot(1, head.column);
        let found = read(&head.text);
        let found = match found {
            Some(Err(help)) => {
                problems.push(place().problem(Problem::error(
                    "season.heading",
                    told!(
                        "column {at} is headed `{text}`, which is no heading",
                        at = letters(at),
                        text = head.text
                    ),
                    help,
                )));
                Column::Empty
            }
            Some(Ok(column)) => column,
            None => {
                let filled = table
                    .rows
                    .iter()
                    .find(|row| row.cells.get(at).is_some_and(|cell| !cell.text.is_empty()));
                if let Some(row) = filled {
                    problems.push(place().problem(Problem::error(
                        "season.heading",
                        told!(
                            "column {at} has no heading, and row {number} has something in it",
                            at = letters(at),
                            number = row.number
                        ),
                        "write a heading; any word that is not a key becomes a note",
                    )));
                }
                Column::Empty
            }
        };
        if found != Column::Empty && columns.contains(&found) {
            problems.push(place().problem(Problem::error(
                "season.heading",
                told!(
                    "column {at} says again what another column says: `{text}`",
                    at = letters(at),
                    text = head.text
                ),
                "keep one of the two",
            )));
        }
        columns.push(found);
    }
    if !columns.contains(&Column::Name) {
        problems.push(table.spot(1, 1).problem(Problem::error(
            "season.name",
            "this table has no column `departure`",
            "give each row a short name in a column `departure`; its folder is named by it",
        )));
    }
    if problems.is_empty() {
        Ok(columns)
    } else {
        Err(problems)
    }
}

/// A heading: none if it is empty, or help where it is nearly one.
fn read(head: &str) -> Option<Result<Column, Told>> {
    let words = folded_key(head).replace('_', " ");
    if words.is_empty() {
        return None;
    }
    let known = HEADINGS.iter().find(|(key, names)| {
        folded_key(key) == folded_key(head) || names.contains(&words.as_str())
    });
    if let Some((key, _)) = known {
        return Some(Ok(column(key)));
    }
    if NOTES.contains(&words.as_str()) {
        return Some(Ok(Column::Note(head.trim().to_owned())));
    }
    if head.contains(['.', '[']) {
        return Some(match super::lay::steps(head) {
            Some(_) => Ok(column(head.trim())),
            None => Err(Told::from(
                "write a key path as `people.learners`, `camps.Tarn bench.nights`",
            )),
        });
    }
    let names = HEADINGS.iter().flat_map(|(_, names)| names.iter().copied());
    match nearest(&words, names) {
        Some(near) if strsim::damerau_levenshtein(&words, near) <= slips(&words) => Some(Err(
            told!("did you mean `{near}`? A note needs another word", near),
        )),
        _ => Some(Ok(Column::Note(head.trim().to_owned()))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_words_are_keys_near_misses_are_asked_and_others_are_notes() {
        assert_eq!(read("Start date"), Some(Ok(Column::Date("starts".into()))));
        assert_eq!(
            read("People.Learners"),
            Some(Ok(Column::Key("people.learners".into())))
        );
        assert_eq!(
            read("camps[0].nights"),
            Some(Ok(Column::Key("camps[0].nights".into())))
        );
        for note in ["guide", "Van", "notes", "phone 2", "place"] {
            assert_eq!(read(note), Some(Ok(Column::Note(note.into()))), "{note}");
        }
        for slip in ["lerners", "strats", "emergency cal", "camps[1"] {
            assert!(matches!(read(slip), Some(Err(_))), "{slip}");
        }
        assert_eq!(read(" "), None);
    }
}
