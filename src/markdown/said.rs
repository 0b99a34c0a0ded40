//! A value that keeps its statement's id on the way through a template and the reader.
//!
//! The marks are private-use signs, which no file may hold (`load` refuses them) and no format
//! prints: the reader makes [`Inline::Said`] of them, the Markdown that is kept is clean of them.

use crate::doc::{Inline, plain};

const OPEN: char = '\u{e000}';
const PART: char = '\u{e001}';
const CLOSE: char = '\u{e002}';

/// Words that say a statement: its id, its value in SI units if it is a number, the words.
#[must_use]
pub fn said(of: &str, si: Option<f64>, words: &str) -> String {
    let si = si.map(|si| si.to_string()).unwrap_or_default();
    format!("{OPEN}{of}{PART}{si}{PART}{words}{CLOSE}")
}

/// A text with the words of its values and without their marks.
#[must_use]
pub fn without_marks(text: &str) -> String {
    if text.contains(is_mark) {
        take(text).0
    } else {
        text.to_owned()
    }
}

/// The words of a run of inlines without their looks, its values marked again.
#[must_use]
pub fn said_again(run: &[Inline]) -> String {
    run.iter()
        .map(|inline| match inline {
            Inline::Said { of, si, words } => said(of, *si, words),
            Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
                said_again(inner)
            }
            other => plain(std::slice::from_ref(other)),
        })
        .collect()
}

/// Where the words of a text start that may open with a value.
#[must_use]
pub fn words_start(text: &str) -> usize {
    let mut parts = text.char_indices().filter(|(_, sign)| *sign == PART);
    let words = text.starts_with(OPEN).then(|| parts.nth(1)).flatten();
    words.map_or(0, |(at, sign)| at + sign.len_utf8())
}

/// Whether a sign is one of the marks.
pub(super) fn is_mark(sign: char) -> bool {
    matches!(sign, OPEN..=CLOSE)
}

/// Where a value stands in a text, in characters.
#[derive(Debug, PartialEq)]
pub(super) struct Span {
    from: usize,
    until: usize,
    of: String,
    si: Option<f64>,
}

/// A text without marks, and where its values stand. A value inside a value is part of the outer.
pub(super) fn take(text: &str) -> (String, Vec<Span>) {
    let mut clean = String::with_capacity(text.len());
    let mut spans: Vec<Span> = Vec::new();
    let mut open: Vec<(usize, String, Option<f64>)> = Vec::new();
    let mut count = 0;
    let mut rest = text;
    while let Some(at) = rest.find(is_mark) {
        clean.push_str(&rest[..at]);
        count += rest[..at].chars().count();
        rest = &rest[at..];
        let mut parts = rest.strip_prefix(OPEN).unwrap_or_default().splitn(3, PART);
        if let (Some(of), Some(si), Some(words)) = (parts.next(), parts.next(), parts.next())
            && !of.contains(is_mark)
        {
            open.push((count, of.to_owned(), si.parse().ok()));
            rest = words;
            continue;
        }
        if rest.starts_with(CLOSE)
            && let Some((from, of, si)) = open.pop()
            && open.is_empty()
        {
            spans.push(Span {
                from,
                until: count,
                of,
                si,
            });
        }
        rest = rest.get(OPEN.len_utf8()..).unwrap_or_default();
    }
    clean.push_str(rest);
    (clean, spans)
}

/// A text whose values become pieces of their own.
pub(super) fn split(text: &str, spans: &[Span], done: &mut Vec<Inline>) {
    let mut signs = text.chars();
    let mut at = 0;
    let mut piece = |until: usize| {
        let words: String = signs.by_ref().take(until - at).collect();
        at = until;
        words
    };
    let mut push = |inline: Inline, words_empty: bool| {
        if !words_empty {
            done.push(inline);
        }
    };
    for span in spans {
        let before = piece(span.from);
        push(Inline::Text(before.clone()), before.is_empty());
        let words = piece(span.until);
        let empty = words.is_empty();
        let (of, si) = (span.of.clone(), span.si);
        push(Inline::Said { of, si, words }, empty);
    }
    let rest: String = signs.collect();
    let empty = rest.is_empty();
    push(Inline::Text(rest), empty && !spans.is_empty());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_taken_out_again() {
        let text = format!(
            "a {} b {}",
            said("x.y", Some(0.5), "500 g"),
            said("z", None, "no")
        );
        assert_eq!(without_marks(&text), "a 500 g b no");
        let (clean, spans) = take(&text);
        let mut inlines = Vec::new();
        split(&clean, &spans, &mut inlines);
        let value = |of: &str, si, words: &str| Inline::Said {
            of: of.to_owned(),
            si,
            words: words.to_owned(),
        };
        let text = |words: &str| Inline::Text(words.to_owned());
        let wanted = [
            text("a "),
            value("x.y", Some(0.5), "500 g"),
            text(" b "),
            value("z", None, "no"),
        ];
        assert_eq!(inlines, wanted);
    }

    #[test]
    fn a_value_in_a_value_and_torn_marks_leave_the_words() {
        let inner = said("in", Some(1.0), "one");
        let (clean, spans) = take(&said("out", None, &format!("a {inner} b")));
        assert_eq!((clean.as_str(), spans.len()), ("a one b", 1));
        assert_eq!(spans[0].of, "out");
        for torn in ["\u{e000}x", "x\u{e001}", "x\u{e002}", "\u{e000}a\u{e001}x"] {
            assert!(
                take(torn).0.contains('x') && take(torn).1.is_empty(),
                "{torn:?}"
            );
        }
    }
}
