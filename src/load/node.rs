//! A file as a tree of texts that know where they stand.

use crate::diag::{Place, Problem, Source};
use std::cell::RefCell;
use std::sync::Arc;

/// Lines longer than this are cut where they are shown.
const SHOWN_LINE: usize = 110;

/// A spot in a source. Lines and columns count from 1, columns in characters.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The text it is in.
    pub source: Source,
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
}

/// A part of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// What is written there.
    pub value: Value,
    /// Where: a scalar's own first character; for the rest, the key that holds it.
    pub at: Spot,
    /// The key path: `camps[1].elevation`.
    pub path: Arc<str>,
}

/// What is written at a node.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// Keys with what they hold, in the order written.
    Map(Vec<Entry>),
    /// A list.
    List(Vec<Node>),
    /// A scalar, as typed.
    Text(String),
    /// A key with nothing after it (or `null`, `~`).
    Nothing,
}

/// A key and what it holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The key as typed.
    pub key: String,
    /// Where the key stands.
    pub at: Spot,
    /// What it holds.
    pub node: Node,
}

impl Spot {
    /// The top of a source.
    #[must_use]
    pub fn top(source: &Source) -> Self {
        Self {
            source: source.clone(),
            line: 1,
            column: 1,
        }
    }

    /// The spot of a byte of a source.
    #[must_use]
    pub fn of_byte(source: &Source, byte: usize) -> Self {
        let before = source.text.get(..byte).unwrap_or(&source.text);
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Self {
            source: source.clone(),
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
        }
    }

    /// The place to show, with what is written there underlined.
    #[must_use]
    pub fn place(&self) -> Place {
        let line = self.line_text();
        let rest: String = line.chars().skip(self.column - 1).collect();
        let width = written_width(&rest);
        let shown: String = if line.chars().count() > SHOWN_LINE {
            line.chars()
                .take(SHOWN_LINE - 3)
                .chain("...".chars())
                .collect()
        } else {
            line.to_owned()
        };
        let room = shown.chars().count().saturating_sub(self.column - 1);
        Place {
            file: self.source.name.clone(),
            line: self.line,
            column: self.column,
            width: width.clamp(1, room.max(1)),
            text: plain(&shown),
        }
    }

    /// The line as written. Where the last one asked for began is remembered: problems come in the
    /// order of lines, and a table may have a hundred thousand.
    fn line_text(&self) -> &str {
        thread_local! {
            static LAST: RefCell<(Arc<str>, usize, usize)> = RefCell::new((Arc::from(""), 1, 0));
        }
        let text = &self.source.text;
        LAST.with_borrow_mut(|(of, line, start)| {
            if !Arc::ptr_eq(of, text) || *line > self.line {
                (*of, *line, *start) = (Arc::clone(text), 1, 0);
            }
            while *line < self.line {
                let Some(end) = text[*start..].find('\n') else {
                    return "";
                };
                (*line, *start) = (*line + 1, *start + end + 1);
            }
            text[*start..].lines().next().unwrap_or_default()
        })
    }

    /// A problem at this one character.
    #[must_use]
    pub fn point(&self, problem: Problem) -> Problem {
        let mut place = self.place();
        place.width = 1;
        problem.placed(place)
    }

    /// A problem at this spot.
    #[must_use]
    pub fn problem(&self, problem: Problem) -> Problem {
        problem.placed(self.place())
    }
}

/// How many characters of the rest of a line the scalar or key at its start takes.
fn written_width(rest: &str) -> usize {
    let mut chars = rest.chars();
    if let Some(quote @ ('"' | '\'')) = chars.next() {
        return chars
            .position(|c| c == quote)
            .map_or(rest.trim_end().chars().count(), |at| at + 2);
    }
    let end = [": ", " #", ", ", "]", "}"]
        .iter()
        .filter_map(|stop| rest.find(stop))
        .min()
        .unwrap_or(rest.len());
    rest[..end].trim_end().trim_end_matches(':').chars().count()
}

/// A line fit for a terminal: a tab is one space, other control characters
/// (which could move the cursor or change colours) are shown as a mark.
fn plain(line: &str) -> String {
    line.chars()
        .map(|c| match c {
            '\t' => ' ',
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
            c if c.is_control() => '\u{fffd}',
            c => c,
        })
        .collect()
}

/// Whether two keys are one: capitals do not count, and spaces, hyphens and
/// underscores are the same.
#[must_use]
pub fn same_key(a: &str, b: &str) -> bool {
    // every key of every file comes by here, nearly always as plain letters
    if a.is_ascii() && b.is_ascii() {
        let (a, b) = (a.trim().as_bytes(), b.trim().as_bytes());
        let fold = |byte: &u8| match byte.to_ascii_lowercase() {
            b' ' | b'-' => b'_',
            other => other,
        };
        return a.len() == b.len() && a.iter().map(fold).eq(b.iter().map(fold));
    }
    fn folded(key: &str) -> impl Iterator<Item = char> + '_ {
        key.trim()
            .chars()
            .flat_map(char::to_lowercase)
            .map(|c| if matches!(c, ' ' | '-') { '_' } else { c })
    }
    folded(a).eq(folded(b))
}

/// Keys compare in lower case with spaces, hyphens and underscores the same.
#[must_use]
pub fn folded_key(key: &str) -> String {
    key.trim().to_lowercase().replace([' ', '-'], "_")
}

impl Node {
    /// Whether nothing is written here because all that follows is a comment: `title: #1`.
    #[must_use]
    pub fn is_commented_out(&self) -> bool {
        self.value == Value::Nothing
            && (self.line().split_once(':'))
                .is_some_and(|(_, rest)| rest.trim_start().starts_with('#'))
    }

    /// Whether it became a block or a list because its text starts with a bracket: `title: {x}`.
    #[must_use]
    pub fn is_bracketed(&self) -> bool {
        matches!(self.value, Value::Map(_) | Value::List(_))
            && (self.line().split_once(": "))
                .is_some_and(|(_, rest)| rest.trim_start().starts_with(['{', '[']))
    }

    fn line(&self) -> &str {
        let mut lines = self.at.source.text.lines();
        lines.nth(self.at.line - 1).unwrap_or_default()
    }

    /// A problem here.
    #[must_use]
    pub fn problem(&self, problem: Problem) -> Problem {
        let mut place = self.at.place();
        if let Value::Text(text) = &self.value
            && let Some(first) = text.lines().next()
            && place
                .text
                .chars()
                .skip(place.column - 1)
                .collect::<String>()
                .starts_with(first)
        {
            place.width = first.chars().count().max(1);
        }
        let mut problem = problem.placed(place);
        problem.path = (!self.path.is_empty()).then(|| self.path.to_string());
        problem
    }

    /// What a key holds, if this is a mapping that has it.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Self> {
        self.entries()
            .iter()
            .find(|entry| same_key(&entry.key, key))
            .map(|entry| &entry.node)
    }

    /// The spot of the deepest part of a key path that is written, and how many
    /// characters of the path it stands for.
    #[must_use]
    pub fn nearest(&self, path: &str) -> (&Spot, usize) {
        let within = |node: &Self| {
            !node.path.is_empty()
                && path.strip_prefix(&*node.path).is_some_and(|rest| {
                    rest.is_empty() || rest.starts_with('.') || rest.starts_with('[')
                })
        };
        let parts: Vec<&Self> = match &self.value {
            Value::Map(entries) => entries.iter().map(|entry| &entry.node).collect(),
            Value::List(items) => items.iter().collect(),
            Value::Text(_) | Value::Nothing => Vec::new(),
        };
        parts
            .into_iter()
            .find(|node| within(node))
            .map_or((&self.at, self.path.len()), |node| node.nearest(path))
    }

    /// The entries, none if this is not a mapping.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        match &self.value {
            Value::Map(entries) => entries,
            _ => &[],
        }
    }

    /// The text, if this is a scalar.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match &self.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    /// What this is, in a person's words.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match &self.value {
            Value::Map(_) => "a block of keys",
            Value::List(_) => "a list",
            Value::Text(_) => "a value",
            Value::Nothing => "nothing",
        }
    }

    /// The text, or the first of a list of texts.
    #[must_use]
    pub fn first(&self) -> Option<&str> {
        match &self.value {
            Value::List(items) => items.first()?.text(),
            _ => self.text(),
        }
    }

    /// The path of a key in here.
    #[must_use]
    pub fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn underlines_what_is_written() {
        assert_eq!(written_width("8200 ft   # high"), 7);
        assert_eq!(written_width("elevation: 8200 ft"), 9);
        assert_eq!(written_width("camps:"), 5);
        assert_eq!(written_width("\"a: b\" # no"), 6);
        assert_eq!(written_width("9:00"), 4);
    }

    #[test]
    fn a_path_is_found_as_far_as_it_is_written() {
        let written =
            crate::load::text("t", "a: 1\ncamps:\n  - name: x\n    wind: calm\n").unwrap();
        let at = |path| {
            let (spot, _) = written.root.nearest(path);
            (spot.line, spot.column)
        };
        assert_eq!(at("camps[0].wind"), (4, 11));
        assert_eq!(at("camps[0].day"), (3, 5));
        assert_eq!(at("nothing"), (1, 1));
    }

    #[test]
    fn keys_are_the_same_however_they_are_spelt() {
        assert!(same_key("Water From", "water_from") && same_key("water-from", " water from "));
        assert!(!same_key("water", "water_from") && !same_key("a", "b"));
        assert_eq!(folded_key("Water-From "), "water_from");
    }

    #[test]
    fn a_terminal_is_safe_from_a_file() {
        assert_eq!(plain("a\tb\u{1b}[31m"), "a b\u{fffd}[31m");
    }
}
