//! A season: a table with a departure a row, each laid over the trip file that it stands on.
//!
//! [`read`] turns a table into [`Departure`]s (or says what is wrong with the table as a whole);
//! [`Departure::over`] makes the trip file of one, with the containers that it is given from
//! the shelf. What is wrong with one row is said with its name, column and row, and costs the
//! others nothing.

pub mod assigned;
pub mod dates;
pub mod heads;
mod lay;
pub mod table;
#[cfg(not(target_family = "wasm"))]
mod workbook;

use crate::diag::{Outcome, Problem, Told, told};
use crate::load::{Node, Spot, Value, Written};
use crate::nouns::{self, Date};
pub use assigned::InHand;
use heads::Column;
use std::collections::BTreeMap;
use std::sync::Arc;
use table::{Table, letters};

/// The stage of the fire rule.
const STAGE: &str = "restrictions.stage";

/// Folders beside the departures' own.
pub const TAKEN: [&str; 4] = ["season", "days", "weeks", "withdrawn"];

/// A season as written.
#[derive(Clone, Debug)]
pub struct Season {
    /// The departures, in the table's order.
    pub departures: Vec<Departure>,
    /// Rows that cannot be used, each told.
    pub bad: Vec<Problem>,
    /// The numbers of those rows in the spreadsheet.
    pub left_out: Vec<usize>,
    /// What was found out about the table, to be said.
    pub told: Vec<Told>,
}

/// A row.
#[derive(Clone, Debug)]
pub struct Departure {
    /// Its name.
    pub name: String,
    /// The name of its folder.
    pub slug: String,
    /// Its row in the spreadsheet.
    pub row: usize,
    /// The trip file that it stands on, as the table names it; empty is the command's.
    pub base: String,
    /// Whether it was called off.
    pub cancelled: bool,
    /// Words for people: heading and cell.
    pub notes: Vec<(String, String)>,
    /// What it lays over the trip.
    cells: Vec<Laid>,
    /// The table's headings, as they are written there.
    heads: Arc<[String]>,
    /// Where its row stands.
    at: Spot,
}

/// A cell that is laid over the trip.
#[derive(Clone, Debug)]
struct Laid {
    column: Column,
    text: String,
    at: Spot,
    /// Its column, counted from 0.
    number: usize,
}

/// Reads a season's table.
///
/// # Errors
/// What is wrong with the table as a whole: its form, its headings, the order of its days.
pub fn read(table: &Table, stated: Option<dates::Order>) -> Outcome<Season> {
    let columns = heads::columns(table)?;
    let order = dates::order(table, &columns, stated)?;
    let mut told = table.told.clone();
    let notes: Vec<&str> = columns
        .iter()
        .filter_map(|column| match column {
            Column::Note(head) => Some(head.as_str()),
            _ => None,
        })
        .collect();
    if !notes.is_empty() {
        told.push(told!("taken as notes: {notes}", notes = notes.join(", ")));
    }
    if dates::counted(table, &columns) {
        told.push("bare numbers in a column of days are taken as a spreadsheet counts days".into());
    }
    if table.rows.is_empty() {
        told.push("it has headings and no rows".into());
    }
    let mut season = Season {
        departures: Vec::new(),
        bad: Vec::new(),
        left_out: Vec::new(),
        told,
    };
    let mut slugs: BTreeMap<String, usize> = BTreeMap::new();
    let heads: Arc<[String]> = table.heads.iter().map(|head| head.text.clone()).collect();
    for row in &table.rows {
        match departure(table, row, &columns, order, &heads) {
            Err(problem) => {
                season.left_out.push(row.number);
                season.bad.push(*problem);
            }
            Ok(departure) => match slugs.insert(departure.slug.clone(), departure.row) {
                Some(other) => {
                    season.left_out.push(row.number);
                    season.bad.push(departure.problem(Problem::error(
                        "season.same-name",
                        told!(
                            "row {other} has the folder `{slug}` already",
                            other,
                            slug = departure.slug
                        ),
                        "give one of the two another name",
                    )));
                }
                None => season.departures.push(departure),
            },
        }
    }
    Ok(season)
}

fn departure(
    table: &Table,
    row: &table::Row,
    columns: &[Column],
    order: dates::Order,
    heads: &Arc<[String]>,
) -> Result<Departure, Box<Problem>> {
    let mut departure = Departure {
        name: String::new(),
        slug: String::new(),
        row: row.number,
        base: String::new(),
        cancelled: false,
        notes: Vec::new(),
        cells: Vec::new(),
        heads: heads.clone(),
        at: table.spot(row.number, 1),
    };
    for (number, (column, cell)) in columns.iter().zip(&row.cells).enumerate() {
        let text = cell.text.as_str();
        let spot = table.spot(row.number, cell.column);
        match column {
            _ if text.is_empty() => {}
            Column::Empty => {}
            Column::Name => departure.name = text.to_owned(),
            Column::Base => departure.base = text.to_owned(),
            Column::Status => {
                let word = text.to_lowercase();
                departure.cancelled =
                    ["cancelled", "canceled", "withdrawn", "yes"].contains(&word.as_str());
                departure.notes.push(("status".to_owned(), text.to_owned()));
            }
            Column::Note(head) => departure.notes.push((head.clone(), text.to_owned())),
            _ => departure.cells.push(Laid {
                column: column.clone(),
                text: match column {
                    Column::Date(_) => dates::iso(text, order),
                    Column::Dated(_) => dates::iso_then_words(text, order),
                    _ => text.to_owned(),
                },
                at: spot,
                number,
            }),
        }
    }
    departure.slug = slug(&departure.name);
    if departure.slug.is_empty() {
        let at = columns
            .iter()
            .position(|column| *column == Column::Name)
            .unwrap_or(0);
        return Err(Box::new(departure.at.problem(Problem::error(
            "season.name",
            told!(
                "row {number}, column {at}: this row has no name",
                number = row.number,
                at = letters(at)
            ),
            "write a short one, such as `june-1`",
        ))));
    }
    if TAKEN.contains(&departure.slug.as_str()) {
        return Err(Box::new(departure.problem(Problem::error(
            "season.name",
            told!(
                "`{name}` is the name of a folder of the season's own",
                name = departure.name
            ),
            "give the departure another name",
        ))));
    }
    Ok(departure)
}

/// The folder of a departure: lower case, other runs of characters a hyphen.
#[must_use]
pub fn slug(name: &str) -> String {
    nouns::id(name)
        .split(|sign: char| !sign.is_alphanumeric())
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join("-")
}

impl Departure {
    /// The departure's trip file: the one that it stands on with its cells laid over it, and
    /// with the canisters that it was given, if it was given any.
    ///
    /// # Errors
    /// Each cell that cannot be laid over that file.
    pub fn over(&self, base: &Written, in_hand: &InHand) -> Outcome<Written> {
        let mut root = base.root.clone();
        self.forget_the_rule(&mut root);
        let mut problems = Vec::new();
        for Laid {
            column, text, at, ..
        } in &self.cells
        {
            let laid = match column {
                Column::Key(path) | Column::Date(path) | Column::Dated(path) => {
                    lay::put(&mut root, path, Value::Text(text.clone()), at)
                }
                Column::List(path) => lay::put(&mut root, path, lay::list(text, path, at), at),
                Column::Kitchens => lay::kitchens(&mut root, text, at),
                Column::Canisters => lay::canisters(&mut root, text, at),
                _ => Ok(()),
            };
            problems.extend(laid.err().map(|problem| self.problem(*problem)));
        }
        if let Some(canisters) = in_hand.canisters.get(&self.name) {
            let given = Value::List(canisters.clone());
            let laid = lay::put(&mut root, "canisters_on_hand", given, &self.at);
            problems.extend(laid.err().map(|problem| self.problem(*problem)));
        }
        if problems.is_empty() {
            Ok(Written {
                source: base.source.clone(),
                root,
            })
        } else {
            Err(problems)
        }
    }

    /// Another stage than the trip file's is another rule: which stoves it allows, who told it and
    /// until when is no longer what stands there.
    fn forget_the_rule(&self, root: &mut Node) {
        let stated = |cell: &&Laid| matches!(&cell.column, Column::Key(path) if path == STAGE);
        let Some(stage) = self.cells.iter().find(stated) else {
            return;
        };
        let before = root.get("restrictions").and_then(|rule| rule.get("stage"));
        if before.and_then(Node::text).map(str::trim) == Some(stage.text.trim()) {
            return;
        }
        lay::take_out(root, "restrictions", &["stoves", "checked", "until"]);
    }

    /// Its first day, where its row states one that can be read.
    #[must_use]
    pub fn starts(&self) -> Option<Date> {
        let starts = |cell: &&Laid| matches!(&cell.column, Column::Date(path) if path == "starts");
        self.cells
            .iter()
            .find(starts)
            .and_then(|cell| Date::read(&cell.text))
    }

    /// A problem said of this departure: its name, and row and column where a cell is at fault.
    #[must_use]
    pub fn problem(&self, problem: Problem) -> Problem {
        let table = &self.at.source.name;
        let column = problem
            .place
            .as_ref()
            .filter(|place| place.file == *table)
            .and_then(|place| {
                self.cells
                    .iter()
                    .find(|cell| cell.at.column == place.column)
            })
            .map_or(Told::NOTHING, |cell| {
                let head = self.heads.get(cell.number).map_or("", String::as_str);
                told!(
                    ", column {letters} ({head})",
                    letters = letters(cell.number),
                    head
                )
            });
        let message = told!(
            "departure `{name}`, row {row}{column}: {message}",
            name = self.name,
            row = self.row,
            column,
            message = problem.message
        );
        let mut said = Problem { message, ..problem };
        // the party is the table's and its kitchens are still the trip file's
        let has_kitchens = self
            .cells
            .iter()
            .any(|cell| cell.column == Column::Kitchens);
        if said.code == "trip.people" && said.path.as_deref() == Some("kitchens") && !has_kitchens {
            said.help.push("; for this departure alone: a column `kitchens` in the table, such as `Blue 4, Red 3`");
        }
        if said.place.is_none() && said.path.is_none() {
            self.at.problem(said)
        } else {
            said
        }
    }

    /// Where its row stands.
    #[must_use]
    pub const fn spot(&self) -> &Spot {
        &self.at
    }
}

/// The table that a season starts from: plain headings and a row to write over.
#[must_use]
pub fn template() -> String {
    let heads = [
        "departure",
        "base",
        "start date",
        "learners",
        "instructors",
        "youngest",
        "diet",
        "kitchens",
        "fire stage",
        "fire rule checked",
        "emergency call",
        "guide",
        "status",
    ];
    let row = [
        "june-1",
        "quillback-ridge",
        "2027-06-04",
        "8",
        "2",
        "13",
        "tree nuts; gluten",
        "2",
        "",
        "",
        "555-0117",
        "Guide A",
        "",
    ];
    format!("{}\n{}\n", heads.join(","), row.join(","))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load;

    const BASE: &str = "title: A\npeople:\n  learners: 4\nkitchens:\n  - name: Blue\n    people: 3\n  - name: Red\n    people: 3\ncamps:\n  - name: Tarn bench\n    nights: 1\n";

    fn season(text: &str) -> Season {
        read(&table::read("season.csv", text.as_bytes()).unwrap(), None).unwrap()
    }

    #[test]
    fn cells_are_laid_over_the_trip_by_plain_words_and_by_name() {
        let base = load::text("t.yaml", BASE).unwrap();
        let season = season(
            "departure,learners,diet,kitchens,camps.Tarn bench.nights,van\njune,6,nuts; milk,\"Red 4, Blue 4\",2,white\n",
        );
        assert_eq!(
            season.departures[0].notes,
            [("van".to_owned(), "white".to_owned())]
        );
        let root = season.departures[0]
            .over(&base, &InHand::default())
            .unwrap()
            .root;
        let text = |path: &str| root.nearest(path).1;
        assert_eq!(text("people.diet[1]"), "people.diet[1]".len());
        let people = root.get("people").unwrap();
        assert_eq!(people.get("learners").unwrap().text(), Some("6"));
        let Value::List(kitchens) = &root.get("kitchens").unwrap().value else {
            panic!()
        };
        assert_eq!(kitchens[0].get("name").unwrap().text(), Some("Red"));
        assert_eq!(kitchens[0].get("people").unwrap().text(), Some("4"));
        let Value::List(camps) = &root.get("camps").unwrap().value else {
            panic!()
        };
        assert_eq!(camps[0].get("nights").unwrap().text(), Some("2"));
    }

    #[test]
    fn another_stage_than_the_trips_own_is_another_rule() {
        let rule =
            "restrictions:\n  stage: stage 1\n  stoves: yes\n  checked: 2027-05-01, the desk\n";
        let base = load::text("t.yaml", &format!("{BASE}{rule}")).unwrap();
        let season = season("departure,fire stage\njune,ban\njuly,stage 1\naugust,\n");
        let stoves = |at: usize| {
            let written = season.departures[at]
                .over(&base, &InHand::default())
                .unwrap();
            let rule = written.root.get("restrictions").unwrap().clone();
            (rule.get("stoves").is_some(), rule.get("checked").is_some())
        };
        assert_eq!(
            stoves(0),
            (false, false),
            "what was allowed then says nothing of a ban"
        );
        assert_eq!(stoves(1), (true, true));
        assert_eq!(stoves(2), (true, true));
    }

    #[test]
    fn a_bad_row_is_told_with_name_column_and_row_and_costs_the_others_nothing() {
        let base = load::text("t.yaml", BASE).unwrap();
        let season = season("departure,kitchens\n,2\njune,\"Green 4\"\njuly,2\nJune,1\n");
        assert_eq!(season.departures.len(), 2);
        assert!(
            season.bad[0].message.contains("row 2, column A"),
            "{}",
            season.bad[0]
        );
        assert!(season.bad[1].message.contains("row 5"), "{}", season.bad[1]);
        let problem = season.departures[0]
            .over(&base, &InHand::default())
            .unwrap_err()
            .remove(0);
        assert!(
            problem
                .message
                .starts_with("departure `june`, row 3, column B (kitchens):"),
            "{problem}"
        );
        assert!(problem.help.contains("Blue, Red"), "{problem}");
        assert!(season.departures[1].over(&base, &InHand::default()).is_ok());
    }
}
