//! Prose in content: Markdown with `{fact}` in it, and no bare numbers.

use super::super::desk::{Desk, shown};
use crate::diag::{Problem, Told, told};
use crate::load::{Node, Spot};
use crate::markdown::{check_prose, numbers_with_units};

/// The longest prose of one block, in characters.
const LONGEST_PROSE: usize = 20_000;

/// Prose of any length: blocks of Markdown.
pub(super) fn prose(desk: &Desk, node: &Node) -> Option<String> {
    let text = desk.scalar(node, "prose")?;
    if text.chars().count() > LONGEST_PROSE {
        return desk.error(
            node,
            "content.long",
            told!(
                "the text is longer than {LONGEST_PROSE} characters",
                LONGEST_PROSE
            ),
            "split it into two modules",
        );
    }
    numbers(desk, node, text);
    markdown(desk, node, text);
    Some(text.to_owned())
}

/// A phrase of Markdown that ends up on one line of a sheet.
pub(super) fn phrase(
    desk: &Desk,
    node: &Node,
    what: &'static str,
    longest: usize,
) -> Option<String> {
    let text = phrase_with_numbers(desk, node, what, longest)?;
    numbers(desk, node, node.text().unwrap_or_default());
    Some(text)
}

/// A phrase that may hold numbers with units, because it is itself a fact or a rule.
pub(super) fn phrase_with_numbers(
    desk: &Desk,
    node: &Node,
    what: &'static str,
    longest: usize,
) -> Option<String> {
    let text = desk.scalar(node, what)?.trim();
    if text.is_empty() {
        return desk.error(
            node,
            "value.empty",
            told!(
                "expected {what}, found nothing between the quotes",
                what = Told::from(what)
            ),
            "write a few words",
        );
    }
    let length = text.chars().count();
    if length > longest {
        desk.error::<()>(
            node,
            "content.long",
            told!(
                "{what} has {length} characters; {longest} fit on its sheet",
                what = Told::from(what),
                length,
                longest
            ),
            "say it in fewer words, or move the rest into the module's text",
        );
    }
    markdown(desk, node, text);
    Some(text.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// Numbers with units, which must be facts.
fn numbers(desk: &Desk, node: &Node, text: &str) {
    for (byte, number) in numbers_with_units(text) {
        desk.put(in_text(
            node,
            text,
            byte,
            number.chars().count(),
            Problem::error(
                "content.number",
                told!("`{value}` is a number with a unit in prose", value = shown(&number)),
                "make it a fact with its source and write `{its-name}` here: then one change reaches every sheet",
            ),
        ));
    }
}

/// Markdown that the sheets cannot show.
fn markdown(desk: &Desk, node: &Node, text: &str) {
    for problem in check_prose(&node.at.source.name, text) {
        let byte = problem
            .place
            .as_ref()
            .map(|place| byte_of(text, place.line, place.column));
        let width = problem.place.as_ref().map_or(1, |place| place.width);
        let plain = Problem {
            place: None,
            file: None,
            ..problem
        };
        desk.put(in_text(node, text, byte.unwrap_or(0), width, plain));
    }
}

/// The byte of a line and column of a text.
fn byte_of(text: &str, line: usize, column: usize) -> usize {
    let start: usize = text
        .split_inclusive('\n')
        .take(line.saturating_sub(1))
        .map(str::len)
        .sum();
    let within: usize = text[start..]
        .chars()
        .take(column.saturating_sub(1))
        .map(char::len_utf8)
        .sum();
    start + within
}

/// A problem at a byte of a scalar's text, placed in the file as near as the
/// way it is written allows.
pub(super) fn in_text(
    node: &Node,
    text: &str,
    byte: usize,
    width: usize,
    problem: Problem,
) -> Problem {
    let mut problem = match spot_in(node, text, byte) {
        Some(spot) => {
            let mut place = spot.place();
            let room = place.text.chars().count().saturating_sub(place.column - 1);
            place.width = width.clamp(1, room.max(1));
            problem.placed(place)
        }
        None => node.at.problem(problem),
    };
    problem.path = Some(node.path.to_string());
    problem
}

fn spot_in(node: &Node, text: &str, byte: usize) -> Option<Spot> {
    let lines: Vec<&str> = node.at.source.text.lines().collect();
    let first: String = lines
        .get(node.at.line - 1)?
        .chars()
        .skip(node.at.column - 1)
        .collect();
    let before = text.get(..byte)?;
    let line_in_text = before.matches('\n').count();
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    let column_in_text = before[line_start..].chars().count();
    if first.starts_with('|') {
        let line = node.at.line + 1 + line_in_text;
        let written = lines.get(line - 1)?;
        let of_text = text.lines().nth(line_in_text)?;
        let indent = written
            .chars()
            .count()
            .checked_sub(of_text.chars().count())?;
        written.ends_with(of_text).then(|| Spot {
            source: node.at.source.clone(),
            line,
            column: indent + column_in_text + 1,
        })
    } else {
        // one line, in quotes or without
        let quote = usize::from(first.starts_with(['"', '\'']));
        let written: String = first.chars().skip(quote).collect();
        written.starts_with(text.trim_end()).then(|| Spot {
            source: node.at.source.clone(),
            line: node.at.line,
            column: node.at.column + quote + column_in_text,
        })
    }
}

/// The names in braces of a text, with the byte of each opening brace.
pub(super) fn placeholders(text: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(open) = text[at..].find('{') {
        let start = at + open;
        let Some(length) = text[start..].find('}') else {
            found.push((start, &text[start + 1..]));
            break;
        };
        found.push((start, &text[start + 1..start + length]));
        at = start + length + 1;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_in_braces_are_found() {
        assert_eq!(placeholders("at {a} and {b.c}."), [(3, "a"), (11, "b.c")]);
        assert_eq!(placeholders("open {a"), [(5, "a")]);
        assert!(placeholders("none").is_empty());
    }

    #[test]
    fn a_slip_in_a_block_of_prose_is_shown_where_it_stands() {
        let text = "facts:\n  x: 1\ntext: |\n  One line.\n\n  Walk 200 ft away.\n";
        let written = crate::load::text("m.yaml", text).unwrap();
        let node = written.root.get("text").unwrap();
        let desk = Desk::default();
        prose(&desk, node);
        let problems = desk.finish::<()>(None).unwrap_err();
        let place = problems[0].place.as_ref().unwrap();
        assert_eq!((place.line, place.column, place.width), (6, 8, 6));
    }
}
