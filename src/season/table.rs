//! A table as a spreadsheet saves it, as rows of cells that know where they stand.

use crate::diag::{Outcome, Problem, Source, Told, told};
use crate::load::Spot;
use std::sync::Arc;

/// Rows that are read at most.
pub const MOST_ROWS: usize = 100_000;

/// The separators that spreadsheets write.
const SEPARATORS: [(char, &str); 3] = [(',', "commas"), (';', "semicolons"), ('\t', "tabs")];

/// A table as written.
#[derive(Clone, Debug)]
pub struct Table {
    /// Its name and text.
    pub source: Source,
    /// The headings.
    pub heads: Vec<Cell>,
    /// The rows below them, without the blank ones.
    pub rows: Vec<Row>,
    /// What was found out about the file, for the person who made it.
    pub told: Vec<Told>,
}

/// A row.
#[derive(Clone, Debug)]
pub struct Row {
    /// Its number in the spreadsheet: the headings are row 1.
    pub number: usize,
    /// Its cells.
    pub cells: Vec<Cell>,
}

/// A cell.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cell {
    /// What it says.
    pub text: String,
    /// Where its line has it, in characters from 1.
    pub column: usize,
}

impl Table {
    /// The spot of a cell.
    #[must_use]
    pub fn spot(&self, row: usize, column: usize) -> Spot {
        Spot {
            source: self.source.clone(),
            line: row,
            column: column.max(1),
        }
    }
}

/// The letters of a column, counted from 0, as a spreadsheet names it.
#[must_use]
pub fn letters(mut column: usize) -> String {
    let mut letters = Vec::new();
    loop {
        // a remainder below 26 fits
        letters.push(char::from(b'A' + u8::try_from(column % 26).unwrap_or(0)));
        if column < 26 {
            break;
        }
        column = column / 26 - 1;
    }
    letters.iter().rev().collect()
}

/// Reads a table: text with commas, semicolons or tabs between its cells, or a workbook.
///
/// # Errors
/// A file that is no table, a quote that is opened and not closed, too many rows.
pub fn read(name: &str, bytes: &[u8]) -> Outcome<Table> {
    let refused = |message: &'static str, help: &'static str| {
        vec![Problem::error("season.table", message, help).in_file(name.to_owned())]
    };
    // a workbook is a ZIP archive (APPNOTE.TXT 4.3.7: local file header)
    if bytes.starts_with(b"PK\x03\x04") {
        return workbook(name, bytes);
    }
    let text = std::str::from_utf8(bytes).map_err(|_| {
        refused(
            "this table is not UTF-8 text",
            "save it from the spreadsheet as CSV UTF-8",
        )
    })?;
    let mut told = Vec::new();
    let plain = text.strip_prefix('\u{feff}').unwrap_or(text);
    if plain.len() < text.len() {
        told.push(Told::from("a byte order mark at its start"));
    }
    if plain.contains("\r\n") {
        told.push(Told::from("lines end as on Windows"));
    }
    let first = plain.lines().next().unwrap_or_default();
    let count = |sign: char| first.matches(sign).count();
    let (separator, word) = SEPARATORS
        .into_iter()
        .rev()
        .max_by_key(|(sign, _)| count(*sign))
        .unwrap_or(SEPARATORS[0]);
    if separator != ',' {
        told.push(told!("cells are parted by {word}", word = Told::from(word)));
    }
    rows(name, plain, separator, told)
}

/// A workbook as a table.
#[cfg(not(target_family = "wasm"))]
fn workbook(name: &str, bytes: &[u8]) -> Outcome<Table> {
    let (text, told) = super::workbook::read(name, bytes)?;
    rows(name, &text, '\t', told)
}

/// The page, which opens no tables, carries no reader of workbooks.
#[cfg(target_family = "wasm")]
fn workbook(name: &str, _: &[u8]) -> Outcome<Table> {
    Err(vec![
        Problem::error(
            "season.workbook",
            "this is a workbook, and a table as text was expected",
            "in the spreadsheet choose 'save as', then CSV UTF-8, and name that file",
        )
        .in_file(name.to_owned()),
    ])
}

fn too_long(name: &str) -> Vec<Problem> {
    vec![
        Problem::error(
            "season.long",
            told!("this table has more than {MOST_ROWS} rows", MOST_ROWS),
            "cut it into several, a month each",
        )
        .in_file(name.to_owned()),
    ]
}

/// Lines that one row may be written on: a note with breaks in it, and no more.
const MOST_LINES: usize = 30;

/// A table in which each row stands on one line, that of its number in the spreadsheet: a line
/// break in a quoted cell is a space then. Gives back the rows that had one.
fn one_line_a_row(text: &str, separator: char) -> (String, Vec<usize>) {
    let lines: Vec<&str> = text.lines().collect();
    let mut rows: Vec<String> = Vec::new();
    let mut broken = Vec::new();
    let mut at = 0;
    while at < lines.len() {
        let mut row = lines[at].to_owned();
        let mut taken = 1;
        // only where the quote is closed as it should be: one that was left open is told as such
        if cells(&row, separator).is_err() {
            for (more, next) in lines[at + 1..].iter().take(MOST_LINES).enumerate() {
                row = format!("{row} {next}");
                if cells(&row, separator).is_ok_and(|_| closes_well(&row, separator)) {
                    taken = more + 2;
                    broken.push(rows.len() + 1);
                    break;
                }
            }
        }
        rows.push(if taken > 1 { row } else { lines[at].to_owned() });
        at += taken;
    }
    (rows.join("\n"), broken)
}

/// Whether nothing but the next cell comes after a quoted one (RFC 4180, 2.5).
fn closes_well(row: &str, separator: char) -> bool {
    let mut is_open = false;
    let mut is_start = true;
    let mut signs = row.chars().peekable();
    while let Some(sign) = signs.next() {
        match (sign, is_open) {
            ('"', true) if signs.peek() == Some(&'"') => {
                signs.next();
            }
            ('"', true) => {
                is_open = false;
                if signs.peek().is_some_and(|next| *next != separator) {
                    return false;
                }
            }
            ('"', false) if is_start => is_open = true,
            _ => {}
        }
        is_start = !is_open && (sign == separator || (is_start && sign == ' '));
    }
    !is_open
}

/// Says in which rows something was found; the first few are named.
fn in_rows(what: &'static str, rows: &[usize]) -> Option<Told> {
    let named: Vec<String> = rows.iter().take(5).map(ToString::to_string).collect();
    let more = if rows.len() > 5 { ", .." } else { "" };
    let named = named.join(", ") + more;
    let what = Told::from(what);
    match rows.len() {
        0 => None,
        1 => Some(told!(
            "{what} in cells are taken as spaces (row {named})",
            what,
            named
        )),
        _ => Some(told!(
            "{what} in cells are taken as spaces (rows {named})",
            what,
            named
        )),
    }
}

fn rows(name: &str, text: &str, separator: char, mut told: Vec<Told>) -> Outcome<Table> {
    // a row in a few lines each is a longer file, and no longer table
    if text.lines().count() > MOST_LINES * MOST_ROWS {
        return Err(too_long(name));
    }
    let (text, broken) = one_line_a_row(text, separator);
    let text = text.as_str();
    if text.lines().count() > MOST_ROWS + 1 {
        return Err(too_long(name));
    }
    let strange = |line: &str| line.chars().any(|sign| sign.is_control() && sign != '\t');
    let lines = (1..).zip(text.lines());
    let controls: Vec<usize> = lines
        .filter(|(_, line)| strange(line))
        .map(|(row, _)| row)
        .collect();
    told.extend(in_rows("line breaks", &broken));
    told.extend(in_rows("control characters", &controls));
    let mut table = Table {
        source: Source {
            name: Arc::from(name),
            text: Arc::from(text),
        },
        heads: Vec::new(),
        rows: Vec::new(),
        told,
    };
    let mut problems = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let number = index + 1;
        match cells(line, separator) {
            Ok(cells) if cells.iter().all(|cell| cell.text.is_empty()) => {}
            Ok(cells) if table.heads.is_empty() => table.heads = cells,
            Ok(cells) => table.rows.push(Row { number, cells }),
            Err((column, message)) => {
                problems.push(table.spot(number, column).problem(Problem::error(
                    "season.cell",
                    told!("row {number}: {message}", number, message),
                    "a cell is one line of plain text; mend it in the spreadsheet",
                )))
            }
        }
    }
    if table.heads.is_empty() && problems.is_empty() {
        problems.push(
            Problem::error(
                "season.table",
                "this table has no headings",
                "`leeside season --template` writes one to start from",
            )
            .in_file(name.to_owned()),
        );
    }
    if problems.is_empty() {
        Ok(table)
    } else {
        Err(problems)
    }
}

/// The cells of a line; in quotes a separator is text and a doubled quote is one.
fn cells(line: &str, separator: char) -> Result<Vec<Cell>, (usize, &'static str)> {
    let mut cells = Vec::new();
    let mut cell = Cell {
        text: String::new(),
        column: 1,
    };
    let mut opened = None;
    let mut signs = line.chars().enumerate().peekable();
    while let Some((at, sign)) = signs.next() {
        match (sign, opened) {
            ('"', Some(_)) if signs.peek().is_some_and(|(_, next)| *next == '"') => {
                signs.next();
                cell.text.push('"');
            }
            ('"', Some(_)) => opened = None,
            ('"', None) if cell.text.trim().is_empty() => opened = Some(at + 1),
            (sign, None) if sign == separator => {
                cells.push(std::mem::take(&mut cell));
                cell.column = at + 2;
            }
            (sign, _) if sign.is_control() => cell.text.push(' '),
            (sign, _) => cell.text.push(sign),
        }
    }
    if let Some(column) = opened {
        return Err((column, "a quote is opened and not closed on its line"));
    }
    cells.push(cell);
    for cell in &mut cells {
        cell.text = cell.text.trim().to_owned();
    }
    Ok(cells)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_named_as_a_spreadsheet_names_them() {
        assert_eq!(letters(0), "A");
        assert_eq!(letters(25), "Z");
        assert_eq!(letters(26), "AA");
        assert_eq!(letters(701), "ZZ");
        assert_eq!(letters(702), "AAA");
    }

    #[test]
    fn separators_marks_and_line_ends_are_found_out() {
        let text = "\u{feff}departure;starts\r\n\r\n\"june; 1\";2027-06-01\r\n;\r\n";
        let table = read("t.csv", text.as_bytes()).unwrap();
        assert_eq!(table.told.len(), 3, "{:?}", table.told);
        assert_eq!(table.rows.len(), 1);
        assert_eq!(
            (table.rows[0].number, table.rows[0].cells[0].text.as_str()),
            (3, "june; 1")
        );
        assert_eq!(table.rows[0].cells[1].column, 11);
        let open = "departure,call\na,\"555\nb,2\n";
        let problem = read("t.csv", open.as_bytes()).unwrap_err().remove(0);
        assert!(problem.message.starts_with("row 2: a quote"), "{problem}");
        let many = "a\n".repeat(MOST_ROWS + 2);
        assert_eq!(
            read("t.csv", many.as_bytes()).unwrap_err()[0].code,
            "season.long"
        );
    }

    #[test]
    fn a_cell_is_one_line_of_plain_text_whatever_it_held() {
        let text = "departure,note,van\na,\"first\r\nsecond \"\"x\"\", third\",white\nb\u{1b}[31m,x\ty,\nc,\"1\n\n2\",\n";
        let table = read("t.csv", text.as_bytes()).unwrap();
        let said: Vec<(usize, Vec<&str>)> = table
            .rows
            .iter()
            .map(|row| {
                (
                    row.number,
                    row.cells.iter().map(|cell| cell.text.as_str()).collect(),
                )
            })
            .collect();
        assert_eq!(
            said[0],
            (2, vec!["a", "first second \"x\", third", "white"])
        );
        assert_eq!(said[1], (3, vec!["b [31m", "x y", ""]));
        assert_eq!((said[2].0, said[2].1[0]), (4, "c"));
        let told = Told::list(table.told, "; ");
        assert!(
            told.contains("line breaks in cells are taken as spaces (rows 2, 4)"),
            "{told}"
        );
        assert!(
            told.contains("control characters in cells are taken as spaces (row 3)"),
            "{told}"
        );
        // quotes that were left open swallow no row
        for open in [
            "departure,call\na,\"555\nb,2\nc,\"6\n",
            "departure,call\na,\"555\nb,2\n",
        ] {
            assert!(read("t.csv", open.as_bytes()).is_err(), "{open}");
        }
    }
}
