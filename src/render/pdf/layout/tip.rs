//! What a field to fill in is for, in the words of the line it stands in.

use crate::doc::{Inline, Words, plain};

/// The longest text that a field carries for those who cannot see the page.
const LONGEST_TIP: usize = 90;

/// What a field is for: the words round it, shortened.
pub(super) fn tip(text: &[Inline], words: &Words) -> String {
    shorten(
        &plain(text)
            .replace("[ ]", " ")
            .replace(['_', '\n', '\u{a0}'], " "),
        words,
    )
}

/// What one field among several in a line is for: a box to tick by the words
/// after it, a blank by those before it.
pub(super) fn own_tip(text: &[Inline], at: usize, page: &Words) -> Option<String> {
    let object = |inline: &&Inline| matches!(inline, Inline::Blank(_) | Inline::Tick);
    let after: Vec<Inline> = text[at + 1..]
        .iter()
        .take_while(|inline| !object(inline))
        .cloned()
        .collect();
    let from = text[..at]
        .iter()
        .rposition(|inline| object(&inline))
        .map_or(0, |before| before + 1);
    let (before, after) = (plain(&text[from..at]), plain(&after));
    let mut words = match text[at] {
        Inline::Tick => [after, before],
        _ => [before, after],
    }
    .into_iter()
    .filter(|words| words.chars().any(char::is_alphanumeric));
    words.next().map(|words| shorten(&words, page))
}

/// At most so many characters as a field's text holds, cut between words.
pub(super) fn shorten(text: &str, words: &Words) -> String {
    let mut short = String::new();
    for word in text.split_whitespace() {
        if short.chars().count() + word.chars().count() >= LONGEST_TIP {
            break;
        }
        if !short.is_empty() {
            short.push(' ');
        }
        short.push_str(word);
    }
    if short.is_empty() {
        short.push_str(&words.write_here);
    }
    short
}
