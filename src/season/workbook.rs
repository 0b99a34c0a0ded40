//! A workbook as a spreadsheet saves it, read as a table: its first sheet, a line a row.
//!
//! The form is Office Open XML (ECMA-376, SpreadsheetML); the crate that reads it gives a cell
//! at a time, so that a sheet with one cell in its last corner costs no more than another.

use super::table::{MOST_ROWS, letters};
use crate::diag::{Outcome, Problem, Told, told};
use calamine::{DataRef, Reader as _, Xlsx};
use std::io::Cursor;

/// Bytes that a workbook may unpack to.
const LARGEST: u64 = 400_000_000;

/// Columns that are read at most.
const MOST_COLUMNS: u32 = 500;

/// The first sheet as text with tabs between its cells, each row on the line of its number, and
/// what was found out about it.
///
/// # Errors
/// A file that is no such workbook or unpacks to too much, cells that are no plain text.
pub(super) fn read(name: &str, bytes: &[u8]) -> Outcome<(String, Vec<Told>)> {
    let refused = |message: Told, help: &'static str| {
        vec![Problem::error("season.workbook", message, help).in_file(name.to_owned())]
    };
    let broken = || {
        refused(
            Told::from("this workbook cannot be read"),
            "in the spreadsheet choose 'save as', then .xlsx or CSV UTF-8, and name that file",
        )
    };
    if unpacked(bytes).is_none_or(|size| size > LARGEST) {
        return Err(broken());
    }
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(|_| broken())?;
    let sheets = book.sheet_names();
    let sheet = sheets.first().cloned().ok_or_else(broken)?;
    let mut told = vec![told!("a workbook; its sheet `{sheet}` is read", sheet)];
    if sheets.len() > 1 {
        told.push(told!(
            "its other sheets are not: {sheets}",
            sheets = sheets[1..].join(", ")
        ));
    }
    let mut cells = book.worksheet_cells_reader(&sheet).map_err(|_| broken())?;
    let mut lines: Vec<Vec<String>> = Vec::new();
    let mut formulas = 0;
    let mut problems = Vec::new();
    while let Some(cell) = cells.next_cell_with_formula().map_err(|_| broken())? {
        let (row, column) = cell.pos;
        let text = match text(&cell.value) {
            Ok(text) if text.is_empty() => continue,
            Ok(text) => text,
            Err(what) => {
                problems.push(told_of(name, row, column, what));
                continue;
            }
        };
        formulas += u32::from(cell.formula.is_some());
        if row as usize > MOST_ROWS || column >= MOST_COLUMNS {
            return Err(refused(
                told!(
                    "row {row}, column {column} is filled: this sheet is larger than {MOST_ROWS} rows and \
                     {MOST_COLUMNS} columns",
                    row = row + 1,
                    column = letters(column as usize),
                    MOST_ROWS,
                    MOST_COLUMNS
                ),
                "cut it into several, a month each",
            ));
        }
        put(&mut lines, row as usize, column as usize, text);
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    if formulas > 0 {
        told.push(told!(
            "cells with a formula: {formulas}, taken as last worked out",
            formulas
        ));
    }
    let lines: Vec<String> = lines.iter().map(|cells| cells.join("\t")).collect();
    Ok((lines.join("\n"), told))
}

/// What an archive unpacks to, as it says itself; none where it is no archive.
fn unpacked(bytes: &[u8]) -> Option<u64> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).ok()?;
    (0..archive.len())
        .map(|at| archive.by_index_raw(at).ok().map(|file| file.size()))
        .sum()
}

fn put(lines: &mut Vec<Vec<String>>, row: usize, column: usize, text: String) {
    if lines.len() <= row {
        lines.resize(row + 1, Vec::new());
    }
    let line = &mut lines[row];
    if line.len() <= column {
        line.resize(column + 1, String::new());
    }
    line[column] = text;
}

/// What a cell says, as a table of text would have it.
fn text(value: &DataRef<'_>) -> Result<String, Told> {
    let plain = match value {
        DataRef::Empty => String::new(),
        DataRef::Int(number) => number.to_string(),
        DataRef::Float(number) => number.to_string(),
        DataRef::Bool(true) => "yes".to_owned(),
        DataRef::Bool(false) => "no".to_owned(),
        DataRef::String(text) | DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => {
            text.trim().to_owned()
        }
        DataRef::SharedString(text) => text.trim().to_owned(),
        DataRef::DateTime(time) if time.is_datetime() => {
            let (year, month, day, ..) = time.to_ymd_hms_milli();
            format!("{year:04}-{month:02}-{day:02}")
        }
        DataRef::DateTime(time) => time.as_f64().to_string(),
        DataRef::Error(error) => {
            return Err(told!(
                "the spreadsheet could not work this cell out: {error}",
                error
            ));
        }
    };
    // line breaks, tabs, whatever else is no letter: a cell is one line
    let plain = if plain.chars().any(char::is_control) {
        let one_line = plain.replace("\r\n", " ");
        one_line.replace(char::is_control, " ")
    } else {
        plain
    };
    // as the reader of text takes quotes
    Ok(if plain.starts_with('"') {
        format!("\"{}\"", plain.replace('"', "\"\""))
    } else {
        plain
    })
}

fn told_of(name: &str, row: u32, column: u32, what: Told) -> Problem {
    Problem::error(
        "season.cell",
        told!(
            "row {row}, column {column}: {what}",
            row = row + 1,
            column = letters(column as usize),
            what
        ),
        "a cell is one line of plain text; mend it in the spreadsheet",
    )
    .in_file(name.to_owned())
}
