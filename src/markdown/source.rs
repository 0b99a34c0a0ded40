//! The text as the parser gets it, and places in it.

use std::ops::Range;

use crate::diag::{Place, Problem, Told};

use super::escape::is_unseen;
use super::said::without_marks;

/// Stands for an underscore of a blank (`___`); one byte, as what it replaces.
pub(super) const BLANK: char = '\u{1}';
/// Stands for the opening bracket of `[ ]`.
pub(super) const TICK_OPEN: char = '\u{2}';
/// A tick box, `[ ]`, as it stands in the marked text.
pub(super) const TICK: &str = "\u{2} \u{3}";

/// The longest line that a problem shows, in characters.
const LONGEST_LINE: usize = 160;

/// A text with its blanks and tick boxes marked by signs that Markdown takes
/// for plain letters: `(___) and (___)` would otherwise be bold. Every byte
/// stays where it was, so that places hold.
pub(super) struct Marked<'a> {
    name: &'a str,
    /// The text as given.
    given: &'a str,
    /// The text for the parser.
    pub(super) text: String,
    /// Where signs stand that must not be in a text.
    pub(super) unseen: Vec<Range<usize>>,
}

impl<'a> Marked<'a> {
    pub(super) fn new(name: &'a str, given: &'a str) -> Self {
        let mut text = String::with_capacity(given.len());
        let mut unseen = Vec::new();
        let mut at = 0;
        while let Some(sign) = given[at..].chars().next() {
            let rest = &given[at..];
            let run = rest.len() - rest.trim_start_matches('_').len();
            let mut length = sign.len_utf8();
            if sign == '\\' && rest.as_bytes().get(1).is_some_and(u8::is_ascii_punctuation) {
                length = 2;
                text.push_str(&rest[..2]);
            } else if let Some(address) = address_length(rest) {
                length = address;
                text.push_str(&rest[..address]);
            } else if run >= 3 {
                length = run;
                text.extend(std::iter::repeat_n(BLANK, run));
            } else if rest.starts_with("[ ]") {
                length = 3;
                text.push_str(TICK);
            } else if is_unseen(sign) && !matches!(sign, '\n' | '\r' | '\t') {
                unseen.push(at..at + length);
                text.extend(std::iter::repeat_n(' ', length));
            } else {
                text.push(sign);
            }
            at += length;
        }
        Self {
            name,
            given,
            text,
            unseen,
        }
    }

    /// The given text of a range.
    pub(super) fn slice(&self, range: Range<usize>) -> &'a str {
        &self.given[range]
    }

    /// The lines of a range, each with the byte where it starts.
    pub(super) fn lines(&self, range: Range<usize>) -> impl Iterator<Item = (usize, &'a str)> {
        let mut at = range.start;
        self.given[range].split_inclusive('\n').map(move |line| {
            let start = at;
            at += line.len();
            (start, line.trim_end_matches(['\n', '\r']))
        })
    }

    /// Whether the sign at a byte has a backslash before it that counts.
    pub(super) fn is_escaped(&self, at: usize) -> bool {
        let before = &self.given.as_bytes()[..at];
        let slashes = before.iter().rev().take_while(|byte| **byte == b'\\');
        slashes.count() % 2 == 1
    }

    /// A problem at a range of bytes.
    pub(super) fn problem(
        &self,
        code: &'static str,
        range: Range<usize>,
        message: impl Into<Told>,
        help: impl Into<Told>,
    ) -> Problem {
        Problem::error(code, message, help).placed(self.place(range))
    }

    /// The place of a range: its first line only.
    fn place(&self, range: Range<usize>) -> Place {
        let before = &self.given[..range.start];
        let start = before.rfind('\n').map_or(0, |end| end + 1);
        let rest = &self.given[start..];
        let line = rest.split(['\n', '\r']).next().unwrap_or_default();
        let underlined = self.given[range].trim_end();
        let first = underlined.split(['\n', '\r']).next().unwrap_or_default();
        Place {
            file: self.name.into(),
            line: before.matches('\n').count() + 1,
            column: without_marks(&self.given[start..before.len()])
                .chars()
                .count()
                + 1,
            width: first.chars().count().clamp(1, LONGEST_LINE),
            text: without_marks(line).chars().take(LONGEST_LINE).collect(),
        }
    }
}

/// The length of a link's address if one stands here, with the signs that
/// lead to it: underscores in it are no blanks.
fn address_length(rest: &str) -> Option<usize> {
    let ends = if rest.starts_with("](") {
        [')', ' ', '\n', '\r']
    } else if rest.starts_with("<https:") || rest.starts_with("<mailto:") {
        ['>', ' ', '\n', '\r']
    } else {
        return None;
    };
    rest.find(ends).filter(|end| {
        let address = &rest[..*end];
        !address.contains(is_unseen)
    })
}
