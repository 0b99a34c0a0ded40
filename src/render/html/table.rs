//! Tables.

use crate::doc::{Align, Inline, Table, has_field, plain};

use super::super::markup::escaped;
use super::words::{Words, name};

/// A space as wide as a point, and one as wide as a digit.
const POINT_SPACE: char = '\u{2008}';
const DIGIT_SPACE: char = '\u{2007}';

/// So many columns are squeezed too thin on a phone.
const WIDE: usize = 5;

/// Adds a table inside a region that scrolls sideways where the screen is
/// narrow. `label` is what the region is called.
pub(super) fn push(words: &mut Words, table: &Table, label: &str) {
    // A wide table keeps its columns' width on a phone and scrolls.
    let class = if table.columns.len() >= WIDE {
        " class=\"wide\""
    } else {
        ""
    };
    words.out.push_str(&format!(
        "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{}\"><table{class}>\n<thead><tr>",
        escaped(label)
    ));
    for (column, cell) in table.head.iter().enumerate() {
        let side = side(table, column);
        if plain(cell).trim().is_empty() {
            words.out.push_str("<td></td>");
            continue;
        }
        words.out.push_str(&format!("<th scope=\"col\"{side}>"));
        words.run(cell, label);
        words.out.push_str("</th>");
    }
    words.out.push_str("</tr></thead>\n<tbody>\n");
    let decimals: Vec<_> = (0..table.columns.len())
        .map(|at| decimals(table, at))
        .collect();
    let names_row = table.names_rows();
    for row in &table.rows {
        words.out.push_str("<tr>");
        for (column, cell) in row.iter().enumerate() {
            let element = if column == 0 && names_row {
                "th scope=\"row\""
            } else {
                "td"
            };
            words
                .out
                .push_str(&format!("<{element}{}>", side(table, column)));
            let near = near(table, row, column);
            let near = near.as_deref().unwrap_or(label);
            match (cell.as_slice(), decimals.get(column).copied().flatten()) {
                ([Inline::Text(text)], Some(most)) => {
                    words.run(&[Inline::Text(lined_up(text, most))], near);
                }
                (
                    [
                        Inline::Said {
                            of,
                            si,
                            words: text,
                        },
                    ],
                    Some(most),
                ) => {
                    let value = Inline::Said {
                        of: of.clone(),
                        si: *si,
                        words: lined_up(text, most),
                    };
                    words.run(&[value], near);
                }
                _ => words.run(cell, near),
            }
            words.out.push_str(if column == 0 && names_row {
                "</th>"
            } else {
                "</td>"
            });
        }
        words.out.push_str("</tr>\n");
    }
    words.out.push_str("</tbody>\n</table></div>\n");
}

fn side(table: &Table, column: usize) -> &'static str {
    match table.columns.get(column) {
        Some(Align::Right) => " class=\"right\"",
        Some(Align::Centre) => " class=\"centre\"",
        Some(Align::Left) | None => "",
    }
}

fn is_words(cell: &[Inline]) -> bool {
    !has_field(cell) && plain(cell).contains(char::is_alphanumeric)
}

/// The row's and the column's words, to name a field in that cell.
fn near(table: &Table, row: &[Vec<Inline>], column: usize) -> Option<String> {
    let row_words = row
        .iter()
        .find(|cell| is_words(cell))
        .map(|cell| plain(cell));
    let column_words = table.head.get(column).map(|cell| plain(cell));
    let both = match (row_words, column_words) {
        (Some(row), Some(column)) if !column.trim().is_empty() => format!("{row}, {column}"),
        (Some(row), _) => row,
        (None, Some(column)) => column,
        (None, None) => return None,
    };
    name(&[both])
}

/// The most digits after a point in a right-aligned column, if there is a
/// point in it at all.
fn decimals(table: &Table, column: usize) -> Option<usize> {
    if table.columns.get(column) != Some(&Align::Right) {
        return None;
    }
    let cells = table.rows.iter().filter_map(|row| row.get(column));
    let most = cells.filter_map(|cell| match cell.as_slice() {
        [Inline::Text(text) | Inline::Said { words: text, .. }] => {
            split(text).map(|(_, fraction, _)| fraction)
        }
        _ => None,
    });
    most.max().filter(|most| *most > 0)
}

/// Where a number's whole part ends, how many digits follow its point, and
/// where the number ends; nothing when the cell is no number.
fn split(text: &str) -> Option<(usize, usize, usize)> {
    let signs = |sign: char| sign.is_ascii_digit() || matches!(sign, ',' | '-' | '+' | '\u{2212}');
    let whole = text.find(|sign| !signs(sign)).unwrap_or(text.len());
    if !text[..whole].ends_with(|sign: char| sign.is_ascii_digit()) {
        return None;
    }
    let fraction = text[whole..].strip_prefix('.').map_or(0, |rest| {
        rest.bytes().take_while(u8::is_ascii_digit).count()
    });
    let end = if fraction > 0 {
        whole + 1 + fraction
    } else {
        whole
    };
    Some((whole, fraction, end))
}

/// A number with blanks after it for the digits that others in its column have.
fn lined_up(text: &str, most: usize) -> String {
    let Some((_, fraction, end)) = split(text) else {
        return text.to_owned();
    };
    let mut out = text[..end].to_owned();
    if fraction == 0 {
        out.push(POINT_SPACE);
    }
    out.extend(std::iter::repeat_n(DIGIT_SPACE, most - fraction));
    out.push_str(&text[end..]);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_line_up() {
        assert_eq!(lined_up("12 L", 2), "12\u{2008}\u{2007}\u{2007} L");
        assert_eq!(lined_up("1.5", 2), "1.5\u{2007}");
        assert_eq!(lined_up("none", 2), "none");
    }
}
