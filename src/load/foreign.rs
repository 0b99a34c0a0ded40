//! Files that are something else: told by how they start, before a word of YAML is read.

use super::node::Spot;
use crate::diag::{Problem, Source, Told, told};

/// A problem where a file is no plain text of keys and values but of another program.
pub(super) fn foreign(source: &Source) -> Option<Problem> {
    let text = source.text.trim_start();
    let lower: String = text.chars().take(20).collect::<String>().to_lowercase();
    let (what, help) = if text.starts_with("PK\u{3}\u{4}") {
        (
            "a word processor's file, a spreadsheet or a zip file",
            "save it as plain text, or copy its words into a plain text file",
        )
    } else if lower.starts_with("%pdf") {
        ("a PDF", "name the trip file that it was made from")
    } else if lower.starts_with("{\\rtf") {
        ("a word processor's file", "save it as plain text")
    } else if lower.starts_with("<!doctype")
        || lower.starts_with("<html")
        || lower.starts_with("<?xml")
    {
        (
            "a web page",
            "save the words on it as plain text, without the page around them",
        )
    } else if lower.starts_with("```") {
        (
            "a piece of a page with marks around it",
            "delete the lines that start with ```",
        )
    } else if is_table(text) {
        (
            "a table",
            "`leeside season FILE` reads tables of departures; a trip is written one key a line",
        )
    } else {
        return None;
    };
    let message = told!(
        "this is {what}, and a file of `key: value` lines was expected",
        what = Told::from(what)
    );
    let start = source.text.len() - text.len();
    Some(Spot::of_byte(source, start).point(Problem::error("file.kind", message, help)))
}

/// Whether the first two lines have the same number of cells and no key.
fn is_table(text: &str) -> bool {
    let mut lines = text.lines().filter(|line| !line.trim().is_empty());
    let (Some(first), Some(second)) = (lines.next(), lines.next()) else {
        return false;
    };
    [',', ';', '\t'].into_iter().any(|sign| {
        let cells = first.matches(sign).count();
        cells >= 2
            && second.matches(sign).count() == cells
            && !first.contains(':')
            && !first.contains(['[', '{'])
    })
}
