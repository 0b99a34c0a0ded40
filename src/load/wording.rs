//! The YAML parser's words, reworded for a cook, with the place.

use super::node::Spot;
use super::yaml::{TAGGED, TOO_MANY};
use crate::diag::{Problem, Source, Told, told};

/// The tail ` at line 4 column 10` of the parser's words; it leaves the tail
/// out at the very start of a text.
pub(super) fn line_and_column(message: &str) -> (usize, usize) {
    message
        .rsplit_once(" at line ")
        .and_then(|(_, tail)| tail.split_once(" column "))
        .and_then(|(line, column)| Some((line.parse().ok()?, column.parse().ok()?)))
        .unwrap_or((1, 1))
}

/// Slips of the hand that the parser notices late or in other words: told where they were made.
fn slip(spot: &Spot, line: &str, words: &str) -> Option<Problem> {
    let at = |line: usize, column: usize| Spot {
        source: spot.source.clone(),
        line,
        column,
    };
    let before = spot
        .source
        .text
        .lines()
        .enumerate()
        .take(spot.line - 1)
        .filter(|(_, line)| !line.trim().is_empty() && !line.trim_start().starts_with('#'))
        .last()
        .map(|(index, line)| (index + 1, line));
    let here = Some((spot.line, line));
    for (number, line) in [before, here].into_iter().flatten() {
        let indent: Vec<char> = line.chars().take_while(|c| c.is_whitespace()).collect();
        if let Some(odd) = indent.iter().position(|c| !c.is_ascii()) {
            return Some(at(number, odd + 1).point(Problem::error(
                "yaml.space",
                "this line starts with a space of another kind, as copied from a web page",
                "delete the space before the first word and type it again, two a level",
            )));
        }
        if let Some(problem) = of_a_word_processor(&at(number, indent.len() + 1), line) {
            return Some(problem);
        }
        let dashed = line.trim_start().strip_prefix('-').unwrap_or_default();
        if dashed.starts_with(char::is_alphanumeric) && has_colon(dashed) {
            return Some(at(number, indent.len() + 1).problem(Problem::error(
                "yaml.dash",
                "the dash before an item of a list needs a space after it",
                told!("write `- {dashed}`", dashed = first_words(dashed)),
            )));
        }
    }
    if words.contains("could not find expected ':'")
        && let Some((number, line)) = before
        && !has_colon(line)
    {
        let key = line.trim_start().trim_start_matches("- ");
        let column = line.chars().count() - key.chars().count() + 1;
        let (message, mend) = match key.split_once([':', '=']) {
            Some((name, value)) if key.contains(':') => (
                "the colon on this line has no space after it",
                told!(
                    "write `{name}: {value}`",
                    name = name.trim(),
                    value = first_words(value)
                ),
            ),
            Some((name, value)) => (
                "a key is followed by `:`, not by `=`",
                told!(
                    "write `{name}: {value}`",
                    name = name.trim(),
                    value = first_words(value)
                ),
            ),
            None => (
                "this line has no `:` between a key and its value",
                Told::from(
                    "write `key: value`, with a space after the colon, such as `stove: white gas`",
                ),
            ),
        };
        return Some(at(number, column).problem(Problem::error("yaml.colon", message, mend)));
    }
    let value = line.split_once(": ").map_or("", |(_, value)| value.trim());
    if value == "?" || words.contains("did not find expected") && value.starts_with(['*', '&']) {
        let key = line.find(": ").map_or(0, |at| line[..at].chars().count());
        return Some(at(spot.line, key + 3).problem(Problem::error(
            "yaml.character",
            "a value cannot start with this character",
            "put quotes around the whole value",
        )));
    }
    None
}

/// Signs that a word processor puts in place of plain ones, and an apostrophe that ends a quote.
fn of_a_word_processor(spot: &Spot, line: &str) -> Option<Problem> {
    let plain = line.trim_start();
    if let Some(rest) = plain.strip_prefix(['\u{2022}', '\u{2013}', '\u{2014}', '\u{b7}'])
        && rest.starts_with(' ')
    {
        return Some(spot.point(Problem::error(
            "yaml.dash",
            "an item of a list starts with a plain hyphen, and this is another sign",
            told!("write `- {rest}`", rest = first_words(rest)),
        )));
    }
    let (key, value) = plain.split_once(": ")?;
    let value = value.trim();
    if value.starts_with('\u{201c}') && value.contains(": ") {
        let bare = value.trim_matches(['\u{201c}', '\u{201d}']);
        return Some(spot.problem(Problem::error(
            "yaml.quotes",
            "curly quotes do not hold a text together",
            told!(
                "write straight ones: `{key}: \"{bare}\"`",
                key,
                bare = first_words(bare)
            ),
        )));
    }
    let inside = value.strip_prefix('\'')?.strip_suffix('\'')?;
    let alone = inside.replace("''", "").contains('\'');
    alone.then(|| {
        spot.problem(Problem::error(
            "yaml.quotes",
            "the apostrophe ends the quoted text",
            told!(
                "write double quotes: `{key}: \"{inside}\"`",
                key,
                inside = first_words(inside)
            ),
        ))
    })
}

/// Whether a line has a key: a colon that a space or the end of the line follows.
fn has_colon(line: &str) -> bool {
    line.contains(": ") || line.trim_end().ends_with(':')
}

/// The start of a text, short enough for a message.
fn first_words(text: &str) -> String {
    let text = text.trim();
    if text.chars().count() > 40 {
        text.chars().take(37).chain("...".chars()).collect()
    } else {
        text.to_owned()
    }
}

/// The parser's words for a cook.
pub(super) fn reworded(error: &serde_yaml::Error, source: &Source) -> Problem {
    let words = error.to_string();
    let spot = error.location().map(|location| Spot {
        source: source.clone(),
        line: location.line().max(1),
        column: location.column().max(1),
    });
    let line = spot
        .as_ref()
        .and_then(|spot| source.text.lines().nth(spot.line - 1))
        .unwrap_or_default();
    let indent_has_tab = |line: &str| {
        line.chars()
            .take_while(|c| c.is_whitespace())
            .any(|c| c == '\t')
    };
    let has = |part: &str| words.contains(part);
    if let Some(problem) = spot.as_ref().and_then(|spot| slip(spot, line, &words)) {
        return problem;
    }
    let (code, message, help) = if has(TOO_MANY) || has("repetition limit") {
        (
            "yaml.anchors",
            "the file repeats itself through anchors (`&`, `*`) until it is too large to read",
            "write the parts out instead of repeating them by anchors",
        )
    } else if has("unknown anchor") {
        (
            "yaml.anchors",
            "this names an anchor that is not in the file",
            "put quotes around a text that starts with `*`",
        )
    } else if has("recursion limit") {
        (
            "yaml.deep",
            "the file is nested too deep here",
            "no file needs more than ten levels: check the indents",
        )
    } else if has("more than one document") {
        (
            "yaml.two",
            "there are two documents in one file, parted by `---`",
            "keep one; remove the line `---`",
        )
    } else if has(TAGGED) || has("tag") {
        (
            "yaml.tag",
            "a word that starts with `!` is a tag, and tags mean nothing here",
            "put quotes around a text that starts with `!`",
        )
    } else if has("expected a key") {
        (
            "yaml.key",
            "a key must be a word or a few, not a list or a block",
            "write `key: value`",
        )
    } else if indent_has_tab(line) {
        (
            "yaml.tab",
            "there is a tab at the start of this line",
            "indent with spaces, two a level",
        )
    } else if has("mapping values are not allowed") {
        (
            "yaml.colon",
            "there is one `: ` too many on this line, or the line is indented too far",
            "put quotes around a text that holds `: `, and line keys up with their neighbours",
        )
    } else if has("could not find expected ':'") {
        (
            "yaml.colon",
            "a key without `:` stands just before this",
            "write `key: value`, with a space after the colon",
        )
    } else if has("block sequence entries are not allowed") {
        (
            "yaml.list",
            "a list cannot start here",
            "put `- ` on a line of its own below the key",
        )
    } else if has("unexpected end of stream")
        || has("expected node content")
        || has("',' or ']'")
        || has("',' or '}'")
    {
        (
            "yaml.open",
            "a quote or bracket that was opened is not closed",
            "close it, or write the value without quotes or brackets",
        )
    } else if has("cannot start any token") {
        (
            "yaml.character",
            "a value cannot start with this character",
            "put quotes around the whole value",
        )
    } else {
        (
            "yaml.syntax",
            "the lines do not fit together here",
            "line keys up with their neighbours, `key: value`, two more spaces for what belongs to a key",
        )
    };
    let spot = match code {
        // where it was opened helps more than where the file ends
        "yaml.open" => words
            .rsplit_once(" at line ")
            .map(|_| {
                let (line, column) = line_and_column(&words);
                Spot {
                    source: source.clone(),
                    line,
                    column,
                }
            })
            .or(spot),
        "yaml.two" => source
            .text
            .lines()
            .enumerate()
            .skip(1)
            .find(|(_, line)| line.trim_end() == "---")
            .map(|(index, _)| Spot {
                source: source.clone(),
                line: index + 1,
                column: 1,
            })
            .or(spot),
        _ => spot,
    };
    let problem = Problem::error(code, message, help);
    match spot {
        Some(spot) => spot.problem(problem),
        None => problem.in_file(source.name.clone()),
    }
}
