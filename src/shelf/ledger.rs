//! The ledger as a file: a table that opens in a spreadsheet and is only ever added to.

use super::movement::{Action, HEADINGS, Movement, TareFrom, unsafe_again};
use super::tag::{NoTag, Tag};
use crate::diag::{Outcome, Place, Problem, Source, Told, nearest, told};
use crate::nouns::{Blend, Connection, Date};
use crate::units::{Mass, Quantity as _};
use std::collections::{BTreeMap, BTreeSet};

/// At most so many problems are told: whoever broke a file broke it in one way.
const MOST_PROBLEMS: usize = 100;

/// The lines of a ledger, in their order.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    lines: Vec<Movement>,
    /// What is odd and was read all the same.
    pub warnings: Vec<Problem>,
    /// How many bytes at the end of the file are a line that was cut short when it was written,
    /// and are to be laid aside before anything is added.
    pub torn: usize,
    /// Whether the file holds nothing yet, no headings either.
    empty: bool,
    /// Whether what is whole ends without the end of its line.
    open_end: bool,
}

impl Default for Ledger {
    /// A ledger that is not written yet.
    fn default() -> Self {
        Self {
            lines: Vec::new(),
            warnings: Vec::new(),
            torn: 0,
            empty: true,
            open_end: false,
        }
    }
}

impl Ledger {
    /// Reads the text of a ledger; an empty one is a ledger without lines.
    ///
    /// # Errors
    /// Every cell that cannot be read, with its row and column.
    pub fn read(source: &Source) -> Outcome<Self> {
        let text: &str = &source.text;
        let mut ledger = Self::default();
        if text.trim().is_empty() {
            return Ok(ledger);
        }
        ledger.empty = false;
        let head = text.lines().next().unwrap_or_default();
        let comma = [b',', b';', b'\t']
            .into_iter()
            .max_by_key(|sign| head.bytes().filter(|byte| byte == sign).count())
            .unwrap_or(b',');
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(comma)
            .flexible(true)
            .from_reader(text.as_bytes());
        let heads: Vec<String> = match reader.headers() {
            Ok(heads) => heads.iter().map(folded).collect(),
            Err(_) => Vec::new(),
        };
        let columns = columns(source, &heads)?;
        let ends_whole = text.ends_with('\n');
        let records: Vec<_> = reader.into_records().collect();
        let mut problems = Vec::new();
        let mut seen = BTreeMap::new();
        let last = records.len();
        for (index, record) in records.into_iter().enumerate() {
            let is_last = index + 1 == last;
            let Ok(record) = record else {
                problems.push(
                    Problem::error(
                        "shelf.text",
                        "the ledger is not UTF-8 text",
                        "save it from the spreadsheet as CSV with UTF-8",
                    )
                    .in_file(source.name.clone()),
                );
                break;
            };
            if record.iter().all(|cell| cell.trim().is_empty()) {
                continue;
            }
            let start = record.position().map_or(0, csv::Position::byte);
            let line = record.position().map_or(1, csv::Position::line);
            let row = Row {
                source,
                record: &record,
                columns: &columns,
                line: usize::try_from(line).unwrap_or(1),
            };
            let read = row.movement(ledger.next_number());
            let start = usize::try_from(start).unwrap_or(0);
            // an open quote would swallow the next line that is added
            let open = text.get(start..).unwrap_or_default().matches('"').count() % 2 == 1;
            if is_last && !ends_whole && (open || !row.is_as_written(&read)) {
                ledger.torn = text.len() - start;
                ledger.warnings.push(row.problem(
                    0,
                    Problem::warning(
                        "shelf.torn",
                        "the last line was cut short while it was written, and is not counted",
                        "say it again: look on the shelf what was done last",
                    ),
                ));
                continue;
            }
            match read {
                Ok(movement) => {
                    row.say_changes(&movement, &mut ledger.warnings);
                    if seen.insert(movement.id(), ()).is_none() {
                        ledger.lines.push(movement);
                    }
                }
                Err(found) => problems.extend(found),
            }
            if problems.len() >= MOST_PROBLEMS {
                break;
            }
        }
        problems.truncate(MOST_PROBLEMS);
        if !problems.is_empty() {
            return Err(problems);
        }
        ledger.open_end = !ends_whole && ledger.torn == 0;
        ledger.lines.sort_by_cached_key(Movement::order);
        Ok(ledger)
    }

    /// Its lines, the oldest first.
    #[must_use]
    pub fn lines(&self) -> &[Movement] {
        &self.lines
    }

    /// Two copies that were edited apart, as one: every line of both, once.
    #[must_use]
    pub fn merged(mut self, other: Self) -> Self {
        let known: BTreeSet<String> = self.lines.iter().map(Movement::id).collect();
        self.lines.extend(
            other
                .lines
                .into_iter()
                .filter(|line| !known.contains(&line.id())),
        );
        self.lines.sort_by_cached_key(Movement::order);
        self.warnings.extend(other.warnings);
        self
    }

    /// The number of the next line.
    fn next_number(&self) -> u64 {
        1 + self.lines.iter().map(|line| line.number).max().unwrap_or(0)
    }

    /// The time of the newest line.
    #[must_use]
    pub fn newest(&self) -> Option<&str> {
        self.lines.last().map(|line| line.time.as_str())
    }

    /// Takes lines in, numbered and never older than the newest one there is (a clock that
    /// went back must not put a return before its issue), and gives the text that adds them to
    /// the file.
    pub fn add(&mut self, lines: Vec<Movement>) -> String {
        let mut text = String::new();
        if self.empty {
            text.push_str(&row_text(HEADINGS.map(str::to_owned)));
            self.empty = false;
        } else if self.open_end {
            text.push('\n');
            self.open_end = false;
        }
        for mut line in lines {
            line.number = self.next_number();
            if let Some(newest) = self.newest()
                && line.time.as_str() < newest
            {
                newest.clone_into(&mut line.time);
            }
            let [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o] = line.cells();
            text.push_str(&row_text([
                line.id(),
                a,
                b,
                c,
                d,
                e,
                f,
                g,
                h,
                i,
                j,
                k,
                l,
                m,
                n,
                o,
            ]));
            self.lines.push(line);
        }
        text
    }

    /// The whole ledger as text, as it is written after two copies were laid together.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = row_text(HEADINGS.map(str::to_owned));
        for line in &self.lines {
            let cells: Vec<String> = std::iter::once(line.id()).chain(line.cells()).collect();
            text.push_str(&row_text(cells));
        }
        text
    }
}

/// A row of a comma-separated table, quoted where it must be.
fn row_text(cells: impl IntoIterator<Item = String>) -> String {
    let cells: Vec<String> = cells
        .into_iter()
        .map(|cell| {
            if cell.contains([',', '"', ';', '\t']) {
                format!("\"{}\"", cell.replace('"', "\"\""))
            } else {
                cell
            }
        })
        .collect();
    format!("{}\n", cells.join(","))
}

fn folded(head: &str) -> String {
    head.trim()
        .to_lowercase()
        .replace(['_', '-'], " ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

/// Where each heading stands.
type Columns = BTreeMap<&'static str, usize>;

fn columns(source: &Source, heads: &[String]) -> Outcome<Columns> {
    let mut columns = Columns::new();
    let mut problems = Vec::new();
    for (index, head) in heads.iter().enumerate() {
        match HEADINGS.iter().find(|known| *known == head) {
            Some(known) => {
                columns.entry(*known).or_insert(index);
            }
            None if head.is_empty() => {}
            None => {
                let help = nearest(head, HEADINGS).map_or_else(
                    || Told::from("put what is yours into the column `note`"),
                    |near| told!("did you mean `{near}`?", near),
                );
                let message = told!("a ledger has no column `{head}`", head);
                problems.push(at(
                    source,
                    1,
                    Problem::error("shelf.heading", message, help),
                ));
            }
        }
    }
    for needed in ["time", "tag", "action"] {
        if !columns.contains_key(needed) {
            let known = HEADINGS.join(", ");
            let message = told!("this ledger has no column `{needed}`", needed);
            let help = told!("its headings are: {known}", known);
            problems.push(at(
                source,
                1,
                Problem::error("shelf.heading", message, help),
            ));
        }
    }
    if problems.is_empty() {
        Ok(columns)
    } else {
        Err(problems)
    }
}

fn at(source: &Source, line: usize, problem: Problem) -> Problem {
    let text = source.text.lines().nth(line - 1).unwrap_or_default();
    problem.placed(Place {
        file: source.name.clone(),
        line,
        column: 1,
        width: 1,
        text: text.chars().take(100).collect(),
    })
}

/// One row of the file.
struct Row<'a> {
    source: &'a Source,
    record: &'a csv::StringRecord,
    columns: &'a Columns,
    line: usize,
}

impl Row<'_> {
    fn cell(&self, head: &str) -> &str {
        self.columns
            .get(head)
            .and_then(|index| self.record.get(*index))
            .map(str::trim)
            .map(unsafe_again)
            .unwrap_or_default()
    }

    fn problem(&self, column: usize, problem: Problem) -> Problem {
        let mut problem = at(self.source, self.line, problem);
        // commas may stand inside of cells, so the column is that of the table
        problem.path = Some(format!("row {}, column {}", self.line, column + 1));
        problem
    }

    /// Reads a cell that may be empty.
    fn read<T>(
        &self,
        head: &'static str,
        problems: &mut Vec<Problem>,
        reader: impl Fn(&str) -> Result<T, (Told, Told)>,
    ) -> Option<T> {
        let cell = self.cell(head);
        if cell.is_empty() {
            return None;
        }
        match reader(cell) {
            Ok(value) => Some(value),
            Err((message, help)) => {
                let column = self.columns.get(head).copied().unwrap_or(0);
                problems.push(self.problem(
                    column,
                    Problem::error(
                        "shelf.cell",
                        told!("`{head}`: {message}", head, message),
                        help,
                    ),
                ));
                None
            }
        }
    }

    fn movement(&self, next: u64) -> Outcome<Movement> {
        let mut problems = Vec::new();
        let mass = |text: &str| Mass::read(text).map_err(|bad| (bad.message, bad.help));
        let time = self.read("time", &mut problems, read_time);
        let tag = self.read("tag", &mut problems, read_tag);
        let action = self.read("action", &mut problems, |text| one_of(text, Action::ALL));
        let gross = self.read("gross", &mut problems, mass);
        let tare = self.read("tare", &mut problems, mass);
        let from = self.read("tare from", &mut problems, |text| {
            one_of(text, TareFrom::ALL)
        });
        let gas = self.read("gas", &mut problems, |text| {
            Blend::read(text).map_err(|bad| (bad.message, bad.help))
        });
        let connection = self.read("connection", &mut problems, |text| {
            one_of(text, Connection::ALL)
        });
        let leg = self.read("leg", &mut problems, |text| {
            text.parse().map_err(|_| {
                (
                    told!("`{text}` is no number of a leg", text),
                    Told::from("write 1, 2, .."),
                )
            })
        });
        let number = self
            .cell("id")
            .split_once('-')
            .and_then(|(number, _)| number.parse().ok());
        if let (Some(time), Some(tag), Some(action), true) =
            (time, tag, action, problems.is_empty())
        {
            let size = self.cell("size");
            return Ok(Movement {
                number: number.unwrap_or(next),
                who: self.cell("who").to_owned(),
                size: (!size.is_empty()).then(|| crate::nouns::id(size)),
                gross,
                tare: tare.map(|tare| (tare, from.unwrap_or(TareFrom::Table))),
                gas,
                connection,
                departure: self.cell("departure").to_owned(),
                leg,
                scale: self.cell("scale").to_owned(),
                corrects: self.cell("corrects").to_owned(),
                note: self.cell("note").to_owned(),
                ..Movement::new(&time, "", tag, action)
            });
        }
        for head in ["time", "tag", "action"] {
            if self.cell(head).is_empty() {
                let column = self.columns.get(head).copied().unwrap_or(0);
                problems.push(self.problem(
                    column,
                    Problem::error(
                        "shelf.cell",
                        told!("this line has no {head}", head),
                        "a line needs a time, a tag and an action; delete it if it is no movement",
                    ),
                ));
            }
        }
        Err(problems)
    }

    /// Whether a line reads well and is the one that was written.
    fn is_as_written(&self, read: &Outcome<Movement>) -> bool {
        matches!(read, Ok(movement) if movement.id() == self.cell("id"))
    }

    /// Says when a line was typed or changed by hand.
    fn say_changes(&self, movement: &Movement, warnings: &mut Vec<Problem>) {
        let id = self.cell("id");
        if !id.is_empty() && movement.id() != id {
            warnings.push(self.problem(
                0,
                Problem::warning(
                    "shelf.changed",
                    told!(
                        "the line {id} of {sticker} was changed by hand",
                        id,
                        sticker = movement.tag.sticker()
                    ),
                    "it is taken as it stands now; next time leave the line and add a `correct`",
                ),
            ));
        }
    }
}

fn read_tag(text: &str) -> Result<Tag, (Told, Told)> {
    Tag::read(text).map_err(|error| match error {
        NoTag::Empty => (
            told!("`{text}` is no tag", text),
            Told::from("write letters and a number, such as F-014"),
        ),
        NoTag::Check { expected } => (
            told!("the check character of `{text}` is wrong", text),
            told!(
                "look at the sticker again; it ends in .{expected} if the rest is right",
                expected
            ),
        ),
    })
}

fn read_time(text: &str) -> Result<String, (Told, Told)> {
    let wrong = || {
        (
            told!("`{text}` is no time", text),
            Told::from("write it as 2027-05-14T09:30"),
        )
    };
    let (day, clock) = text
        .split_once(['T', ' '])
        .map_or((text, "00:00"), |(day, clock)| (day, clock.trim()));
    let date = Date::read(day).ok_or_else(wrong)?;
    let parts: Vec<u8> = clock
        .split(':')
        .map(str::parse)
        .collect::<Result<_, _>>()
        .map_err(|_| wrong())?;
    let (hour, minute, second) = match parts[..] {
        [hour, minute] => (hour, minute, 0),
        [hour, minute, second] => (hour, minute, second),
        _ => return Err(wrong()),
    };
    if hour > 23 || minute > 59 || second > 59 {
        return Err(wrong());
    }
    Ok(format!("{date}T{hour:02}:{minute:02}:{second:02}"))
}

/// A time as the ledger writes it.
///
/// # Errors
/// What is wrong with it, and what to write.
pub fn time(text: &str) -> Result<String, String> {
    read_time(text).map_err(|(message, help)| format!("{message}; {help}"))
}

/// A tag as somebody typed it.
///
/// # Errors
/// What is wrong with it, and what to write.
pub fn tag(text: &str) -> Result<Tag, String> {
    read_tag(text).map_err(|(message, help)| format!("{message}; {help}"))
}

fn one_of<T: Copy + std::fmt::Display>(text: &str, all: &[T]) -> Result<T, (Told, Told)> {
    let wanted = crate::nouns::id(text);
    let words: Vec<String> = all.iter().map(ToString::to_string).collect();
    all.iter()
        .copied()
        .find(|one| crate::nouns::id(&one.to_string()) == wanted)
        .ok_or_else(|| {
            let near = nearest(&wanted, words.iter().map(String::as_str)).map_or_else(
                || told!("write one of {words}", words = words.join(", ")),
                |near| told!("did you mean `{near}`?", near),
            );
            (told!("`{text}` is not known here", text), near)
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn source(text: &str) -> Source {
        Source {
            name: "shelf.csv".into(),
            text: text.into(),
        }
    }

    fn two() -> (Ledger, String) {
        let mut ledger = Ledger::default();
        let tag = Tag::numbered("F", 14);
        let mut receive = Movement::new("2027-05-01T08:00:00", "K", tag.clone(), Action::Receive);
        receive.size = Some("canister-230".into());
        receive.tare = Some((Mass::grams(150.0), TareFrom::Label));
        let mut weigh = Movement::new("2027-05-02T08:00:00", "K", tag, Action::Weigh);
        weigh.gross = Some(Mass::grams(291.5));
        weigh.note = "a, \"b\"".into();
        let text = ledger.add(vec![receive, weigh]);
        (ledger, text)
    }

    #[test]
    fn what_is_added_is_read_again() {
        let (ledger, text) = two();
        let again = Ledger::read(&source(&text)).unwrap();
        assert_eq!(again.lines(), ledger.lines());
        assert!(again.warnings.is_empty(), "{:?}", again.warnings);
        let semicolons = "time;tag;action\n2027-05-01 8:00;F-1;receive\n";
        assert_eq!(Ledger::read(&source(semicolons)).unwrap().lines().len(), 1);
    }

    #[test]
    fn a_line_cut_short_anywhere_is_laid_aside_and_said() {
        let (_, text) = two();
        let start = text.trim_end().rfind('\n').unwrap() + 1;
        for end in start + 1..text.len() - 1 {
            let ledger = Ledger::read(&source(&text[..end])).unwrap();
            assert_eq!(ledger.lines().len(), 1, "{}", &text[start..end]);
            assert_eq!((ledger.torn, ledger.warnings.len()), (end - start, 1));
        }
        let whole = Ledger::read(&source(text.trim_end())).unwrap();
        assert_eq!(whole.lines().len(), 2);
    }

    #[test]
    fn two_copies_edited_apart_are_one_in_any_order() {
        let (base, _) = two();
        let (mut here, mut there) = (base.clone(), base);
        let other = Tag::numbered("F", 2);
        let line = |time: &str| Movement::new(time, "L", other.clone(), Action::Receive);
        here.add(vec![line("2027-05-03T08:00:00")]);
        there.add(vec![line("2027-05-02T09:00:00")]);
        let one = here.clone().merged(there.clone());
        assert_eq!(one.lines(), there.merged(here).lines());
        assert_eq!(one.lines().len(), 4);
    }

    #[test]
    fn nonsense_is_told_by_row_and_column() {
        let text = "time,tag,action,gross\n31-02-2027,F-014.0,lend,291\n";
        let problems = Ledger::read(&source(text)).unwrap_err();
        assert_eq!(problems.len(), 4, "{problems:#?}");
        assert!(problems.iter().all(|problem| problem.place.is_some()));
        let clock_back = Ledger::default().add(vec![
            Movement::new(
                "2027-05-03T08:00:00",
                "",
                Tag::numbered("F", 1),
                Action::Receive,
            ),
            Movement::new(
                "2027-05-01T08:00:00",
                "",
                Tag::numbered("F", 1),
                Action::Weigh,
            ),
        ]);
        assert!(!clock_back.contains("2027-05-01"));
    }
}
