//! A season of departures from one trip file and a table: each row of the CSV
//! file lays its cells over the trip, by key path.

use crate::diag::{Outcome, Problem, Source};
use crate::load::{Entry, Node, Spot, Value, Written, folded_key};
use std::sync::Arc;

/// The column that names a departure, and with it its folder.
const NAME: &str = "departure";

/// One trip for each row: the departure's name, and the trip file with the
/// row's cells in place of what it says there. Empty cells change nothing.
///
/// # Errors
/// A table that cannot be read, has no column `departure`, or has a heading
/// that is no key path.
pub fn departures(trip: &Written, table: &Source) -> Outcome<Vec<(String, Written)>> {
    let mut reader = csv::ReaderBuilder::new()
        .flexible(false)
        .trim(csv::Trim::All)
        .from_reader(table.text.trim_start_matches('\u{feff}').as_bytes());
    let heads = reader
        .headers()
        .map_err(|error| broken(table, &error))?
        .clone();
    let Some(name_at) = heads.iter().position(|head| folded_key(head) == NAME) else {
        return Err(vec![Spot::top(table).problem(Problem::error(
            "departures.name",
            "this table has no column `departure`",
            "give each row a short name in a column `departure`; its folder is named by it",
        ))]);
    };
    let mut problems = Vec::new();
    let mut paths = Vec::new();
    for (index, head) in heads.iter().enumerate() {
        match steps(head) {
            Some(steps) => paths.push(steps),
            None if index == name_at => paths.push(Vec::new()),
            None => problems.push(Spot::top(table).problem(Problem::error(
                "departures.path",
                format!("`{head}` is not a key of a trip file"),
                "write keys as `starts`, `people.learners`, `camps[0].elevation`",
            ))),
        }
    }
    let mut trips = Vec::new();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                problems.extend(broken(table, &error));
                break;
            }
        };
        let line = record.position().map_or(1, |position| position.line());
        let at = Spot {
            source: table.clone(),
            line: usize::try_from(line).unwrap_or(1),
            column: 1,
        };
        let name = record.get(name_at).unwrap_or_default();
        if name.is_empty() {
            problems.push(at.problem(Problem::error(
                "departures.name",
                "this row has no name in the column `departure`",
                "write a short one, such as `june-1`",
            )));
            continue;
        }
        let mut root = trip.root.clone();
        for (index, cell) in record.iter().enumerate() {
            if index == name_at || cell.is_empty() {
                continue;
            }
            if let Err(problem) = put(&mut root, &paths[index], cell, &at, String::new()) {
                problems.push(*problem);
            }
        }
        trips.push((
            name.to_owned(),
            Written {
                source: trip.source.clone(),
                root,
            },
        ));
    }
    if problems.is_empty() {
        Ok(trips)
    } else {
        Err(problems)
    }
}

/// A step of a key path.
enum Step {
    Key(String),
    Index(usize),
}

/// `camps[0].elevation` as steps; none if it is no key path.
fn steps(path: &str) -> Option<Vec<Step>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let (key, mut rest) = part.find('[').map_or((part, ""), |at| part.split_at(at));
        if key.trim().is_empty() {
            return None;
        }
        steps.push(Step::Key(key.trim().to_owned()));
        while let Some(inside) = rest.strip_prefix('[') {
            let (number, after) = inside.split_once(']')?;
            steps.push(Step::Index(number.trim().parse().ok()?));
            rest = after;
        }
        if !rest.is_empty() {
            return None;
        }
    }
    Some(steps)
}

/// Puts a cell at a key path, making what is missing on the way.
fn put(
    node: &mut Node,
    steps: &[Step],
    cell: &str,
    at: &Spot,
    path: String,
) -> Result<(), Box<Problem>> {
    let Some((step, rest)) = steps.split_first() else {
        node.value = Value::Text(cell.to_owned());
        node.at = at.clone();
        node.path = Arc::from(path);
        return Ok(());
    };
    match step {
        Step::Key(key) => {
            let path = if path.is_empty() {
                key.clone()
            } else {
                format!("{path}.{key}")
            };
            if !matches!(node.value, Value::Map(_)) {
                node.value = Value::Map(Vec::new());
            }
            let Value::Map(entries) = &mut node.value else {
                return Ok(());
            };
            let found = entries
                .iter()
                .position(|entry| folded_key(&entry.key) == folded_key(key));
            let index = found.unwrap_or_else(|| {
                entries.push(Entry {
                    key: key.clone(),
                    at: at.clone(),
                    node: Node {
                        value: Value::Nothing,
                        at: at.clone(),
                        path: Arc::from(path.as_str()),
                    },
                });
                entries.len() - 1
            });
            put(&mut entries[index].node, rest, cell, at, path)
        }
        Step::Index(index) => {
            let path = format!("{path}[{index}]");
            match &mut node.value {
                Value::List(list) if *index < list.len() => {
                    put(&mut list[*index], rest, cell, at, path)
                }
                _ => Err(Box::new(at.problem(Problem::error(
                    "departures.path",
                    format!("the trip has no `{path}`"),
                    "count from 0: the first camp is `camps[0]`",
                )))),
            }
        }
    }
}

fn broken(table: &Source, error: &csv::Error) -> Vec<Problem> {
    let line = error.position().map_or(1, csv::Position::line);
    let at = Spot {
        source: table.clone(),
        line: usize::try_from(line).unwrap_or(1).max(1),
        column: 1,
    };
    let message = match error.kind() {
        csv::ErrorKind::UnequalLengths {
            expected_len, len, ..
        } => format!("this row has {len} cells and the headings are {expected_len}"),
        csv::ErrorKind::Utf8 { .. } => "this row is not UTF-8 text".to_owned(),
        _ => "this table cannot be read".to_owned(),
    };
    vec![at.problem(Problem::error(
        "departures.table",
        message,
        "save it from the spreadsheet as CSV with commas and UTF-8",
    ))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load;

    fn source(text: &str) -> Source {
        Source {
            name: "season.csv".into(),
            text: text.into(),
        }
    }

    #[test]
    fn lays_cells_over_the_trip() {
        let trip = load::text(
            "t.yaml",
            "title: A\npeople:\n  learners: 4\ncamps:\n  - name: B\n",
        )
        .unwrap();
        let table = source("departure,starts,people.learners,camps[0].name\njune,2027-06-01,6,\n");
        let trips = departures(&trip, &table).unwrap();
        assert_eq!(trips[0].0, "june");
        let root = &trips[0].1.root;
        assert_eq!(root.get("starts").unwrap().text(), Some("2027-06-01"));
        let learners = root.get("people").unwrap().get("learners").unwrap();
        assert_eq!((learners.text(), learners.at.line), (Some("6"), 2));
        let none = source("starts\n2027-06-01\n");
        assert_eq!(
            departures(&trip, &none).unwrap_err()[0].code,
            "departures.name"
        );
        let far = source("departure,camps[3].name\na,b\n");
        assert_eq!(
            departures(&trip, &far).unwrap_err()[0].code,
            "departures.path"
        );
    }
}
