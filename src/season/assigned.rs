//! Canisters given to departures from the shelf: the table that `leeside shelf assign` wrote,
//! laid over the departures' trip files.

use super::Departure;
use super::table::{Row, Table};
use crate::diag::{Outcome, Problem, Told, nearest, told};
use crate::load::{Entry, Node, Spot, Value};
use crate::nouns::{self, Date, Trip};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What the shelf gives to departures.
#[derive(Clone, Debug, Default)]
pub struct InHand {
    /// By the departure's name: what stands under `canisters_on_hand` of its trip file then. One
    /// that is not named keeps its trip file's own.
    pub canisters: BTreeMap<String, Vec<Node>>,
    /// By the departure's name: the days for which they were shared out, and where that stands.
    days: BTreeMap<String, (Date, Date, Spot)>,
    /// By the departure's name: whether all that it takes went with it already.
    gone: BTreeMap<String, bool>,
}

/// Columns of a canister, and the keys of a trip file that they become.
const KEYS: [(&str, &str); 6] = [
    ("tag", "tag"),
    ("size", "size"),
    ("gross", "gross"),
    ("tare", "tare"),
    ("gas", "blend"),
    ("connection", "connection"),
];

/// Columns that every line fills.
const NEEDED: [&str; 3] = ["departure", "leaves", "back"];

/// The column that tells where a canister comes from, and what it says of one that is out with its
/// departure, and of one whose departure is over.
const HOW: &str = "how";
const OUT: &str = "out with it";
const BACK: &str = "back again";

/// A row with its columns by name.
struct Line<'a> {
    table: &'a Table,
    row: &'a Row,
    columns: &'a BTreeMap<&'static str, usize>,
}

impl Line<'_> {
    /// What a column says, and where; an apostrophe that kept it from being a formula is gone.
    fn cell(&self, name: &str) -> Option<(&str, Spot)> {
        let cell = self.row.cells.get(*self.columns.get(name)?)?;
        let text = match cell.text.strip_prefix('\'') {
            Some(rest) if rest.starts_with(['=', '+', '-', '@', '\'']) => rest,
            _ => &cell.text,
        };
        (!text.is_empty()).then(|| (text, self.table.spot(self.row.number, cell.column)))
    }

    fn problem(&self, name: &str, message: Told, help: impl Into<Told>) -> Vec<Problem> {
        let spot = self
            .cell(name)
            .map_or_else(|| self.table.spot(self.row.number, 1), |(_, spot)| spot);
        let message = told!("row {number}: {message}", number = self.row.number, message);
        vec![spot.problem(Problem::error("season.assigned", message, help))]
    }

    fn date(&self, name: &str) -> Outcome<Date> {
        let read = self.cell(name).and_then(|(text, _)| Date::read(text));
        read.ok_or_else(|| {
            self.problem(
                name,
                told!("`{name}` is no day", name),
                "share the canisters out again: `leeside shelf assign`",
            )
        })
    }

    /// The canister as a trip file has it; none where the line names none.
    fn canister(&self, index: usize) -> Option<Node> {
        let (_, at) = self.cell("tag")?;
        let path = format!("canisters_on_hand[{index}]");
        let entries = KEYS.iter().filter_map(|(column, key)| {
            let (text, at) = self.cell(column)?;
            Some(Entry {
                key: (*key).to_owned(),
                at: at.clone(),
                node: Node {
                    value: Value::Text(text.to_owned()),
                    at,
                    path: Arc::from(format!("{path}.{key}")),
                },
            })
        });
        Some(Node {
            value: Value::Map(entries.collect()),
            at,
            path: Arc::from(path),
        })
    }
}

/// Where each column stands.
fn columns(table: &Table) -> Outcome<BTreeMap<&'static str, usize>> {
    let mut columns = BTreeMap::new();
    let known = || NEEDED.into_iter().chain(KEYS.map(|(column, _)| column));
    for name in known().chain([HOW]) {
        let at = table
            .heads
            .iter()
            .position(|head| nouns::id(&head.text) == name);
        columns.extend(at.map(|at| (name, at)));
    }
    let missing: Vec<&str> = known().filter(|name| !columns.contains_key(name)).collect();
    if missing.is_empty() {
        return Ok(columns);
    }
    Err(vec![table.spot(1, 1).problem(Problem::error(
        "season.assigned",
        told!(
            "this table has no column {missing}",
            missing = missing.join(", ")
        ),
        "name the table that `leeside shelf assign` wrote",
    ))])
}

/// Reads who gets which canister. Every departure of the season has an entry then, so that none
/// takes the canisters of the trip file that it stands on.
///
/// # Errors
/// A table of something else, departures that the season does not have, and a canister that
/// would be in two places at once.
pub fn read(table: &Table, departures: &[Departure]) -> Outcome<InHand> {
    let columns = columns(table)?;
    let mut in_hand = InHand {
        canisters: departures
            .iter()
            .map(|one| (one.name.clone(), Vec::new()))
            .collect(),
        ..InHand::default()
    };
    let mut problems = Vec::new();
    let mut busy: BTreeMap<String, Vec<(Date, Date, String, usize)>> = BTreeMap::new();
    for row in &table.rows {
        let line = Line {
            table,
            row,
            columns: &columns,
        };
        if let Err(more) = take(&line, &mut in_hand, &mut busy) {
            problems.extend(more);
        }
    }
    if problems.is_empty() {
        Ok(in_hand)
    } else {
        Err(problems)
    }
}

fn take(
    line: &Line<'_>,
    in_hand: &mut InHand,
    busy: &mut BTreeMap<String, Vec<(Date, Date, String, usize)>>,
) -> Outcome<()> {
    let (name, spot) = line
        .cell("departure")
        .map(|(name, spot)| (name.to_owned(), spot))
        .ok_or_else(|| {
            let message = Told::from("no departure is named");
            line.problem("departure", message, "write its name, or delete the line")
        })?;
    let (leaves, back) = (line.date("leaves")?, line.date("back")?);
    if !in_hand.canisters.contains_key(&name) {
        let known = in_hand.canisters.keys().map(String::as_str);
        let help = nearest(&name, known).map_or_else(
            || Told::from("share the canisters out again: `leeside shelf assign`"),
            |near| {
                told!(
                    "did you mean `{near}`? Else share the canisters out again",
                    near
                )
            },
        );
        let message = told!("the season has no departure `{name}`", name);
        return Err(line.problem("departure", message, help));
    }
    in_hand.days.insert(name.clone(), (leaves, back, spot));
    if let Some((tag, _)) = line.cell("tag") {
        let others = busy.entry(nouns::id(tag).to_string()).or_default();
        let clash = others
            .iter()
            .find(|(from, until, ..)| leaves <= *until && *from <= back);
        // back before its days were over: it may be elsewhere by then
        let how = line.cell(HOW).map_or("", |(how, _)| how);
        let is_back = how == BACK;
        let is_gone = is_back || how == OUT;
        let all = in_hand.gone.entry(name.clone()).or_insert(true);
        *all &= is_gone;
        if let Some((.., other, row)) = clash.filter(|_| !is_back) {
            return Err(line.problem(
                "tag",
                told!(
                    "{tag} would be with `{name}` while it is with `{other}` (row {row})",
                    tag,
                    name,
                    other,
                    row
                ),
                "a canister is in one place at a time: take one of the two lines out",
            ));
        }
        if !is_back {
            others.push((leaves, back, name.clone(), line.row.number));
        }
    }
    let mine = in_hand.canisters.entry(name).or_default();
    let next = line.canister(mine.len());
    mine.extend(next);
    Ok(())
}

impl InHand {
    /// Whether anything was given from a shelf.
    #[must_use]
    pub fn is_given(&self) -> bool {
        !self.canisters.is_empty()
    }

    /// Whether a departure has left, or is over: what it took is with it, and its papers are those
    /// that it took along.
    #[must_use]
    pub fn is_gone(&self, departure: &Departure) -> bool {
        self.gone.get(&departure.name).copied().unwrap_or(false)
    }

    /// Holds a departure's trip against the days for which its canisters were shared out: on
    /// other days they may be with somebody else.
    ///
    /// # Errors
    /// When its days are others.
    pub fn holds(&self, departure: &Departure, trip: &Trip) -> Outcome<()> {
        let Some((leaves, back, spot)) = self.days.get(&departure.name) else {
            return Ok(());
        };
        if trip.starts == Some(*leaves) && trip.ends() == Some(*back) {
            return Ok(());
        }
        let problem = Problem::error(
            "season.assigned",
            told!(
                "its canisters were shared out for {leaves} to {back}, and its days are others",
                leaves,
                back
            ),
            "share them out again: `leeside shelf assign`",
        );
        Err(vec![departure.problem(spot.problem(problem))])
    }
}
