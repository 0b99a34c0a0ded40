//! A table as a spreadsheet saves it, as rows of cells that know where they stand.

use crate::diag::{Outcome, Problem, Source};
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
    pub told: Vec<String>,
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
/// A file that is no table, a cell with a line break or a control character, too many rows.
pub fn read(name: &str, bytes: &[u8]) -> Outcome<Table> {
    let refused = |message: &str, help: &str| {
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
        told.push("a byte order mark at its start".to_owned());
    }
    if plain.contains("\r\n") {
        told.push("lines end as on Windows".to_owned());
    }
    let first = plain.lines().next().unwrap_or_default();
    let count = |sign: char| first.matches(sign).count();
    let (separator, word) = SEPARATORS
        .into_iter()
        .rev()
        .max_by_key(|(sign, _)| count(*sign))
        .unwrap_or(SEPARATORS[0]);
    if separator != ',' {
        told.push(format!("cells are parted by {word}"));
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
            format!("this table has more than {MOST_ROWS} rows"),
            "cut it into several, a month each",
        )
        .in_file(name.to_owned()),
    ]
}

fn rows(name: &str, text: &str, separator: char, told: Vec<String>) -> Outcome<Table> {
    if text.lines().count() > MOST_ROWS + 1 {
        return Err(too_long(name));
    }
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
                    format!("row {number}: {message}"),
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
            (sign, _) if sign.is_control() && sign != '\t' => {
                return Err((at + 1, "a cell holds a control character"));
            }
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
        assert!(read("t.csv", b"a\nb\x1b[31m\n").is_err());
    }
}
