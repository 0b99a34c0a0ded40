//! Where no line ends though it could: what belongs together in print.

use std::ops::Range;

/// A word with a slash that is longer than this may be broken behind it, as
/// addresses are.
const LONGEST_SLASHED: usize = 14;

/// At most so many bytes of a label stay with the line to write on behind it.
const LONGEST_LABEL: usize = 24;

/// Whether the text before and behind a place stays on one line.
pub(super) fn holds(text: &str, at: usize, labels: &[Range<usize>]) -> bool {
    let before = &text[..at];
    // a short word with a slash stays whole: `kJ/°C`, `and/or`
    let slashed = before.ends_with('/') && word_round(text, at).chars().count() <= LONGEST_SLASHED;
    // a number keeps its sign of degree or percent: `4 °C`, `50 %`
    let number = before.ends_with(' ')
        && before.trim_end().ends_with(|c: char| c.is_ascii_digit())
        && text[at..].starts_with(['°', '%', '‰']);
    slashed || number || labels.iter().any(|label| label.contains(&at))
}

/// Between a line to write on and the words that name it, and between a box to tick and the word
/// behind it: places where `holds` is true. `objects` are where lines and boxes stand in the text,
/// and whether each is a box.
pub(super) fn labels(text: &str, objects: &[(Range<usize>, bool)]) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut least = 0;
    for (place, tick) in objects {
        if *tick && text[place.end..].starts_with(' ') {
            found.push(place.end + 1..place.end + 2);
        }
        let before = &text[least..place.start];
        if !tick && before.ends_with(' ') {
            let ends = |c: char| matches!(c, '.' | ',' | ';' | '·' | '?' | ')' | '\n');
            let words = before.trim_end().trim_end_matches([':', ',', ')']);
            let from = words.rfind(ends).map_or(least, |from| least + from);
            // of a long label the end, from the start of a word
            let near = place.start.saturating_sub(LONGEST_LABEL).max(from);
            let mut starts = text[..place.start].match_indices(' ').map(|(at, _)| at + 1);
            if let Some(first) = starts.find(|start| *start > near + 2) {
                found.push(first..place.start + 1);
            }
        }
        least = place.end;
    }
    found
}

/// The word that a place stands in.
fn word_round(text: &str, at: usize) -> &str {
    let start = text[..at].rfind(char::is_whitespace);
    let start = start.map_or(0, |start| {
        start + text[start..].chars().next().map_or(1, char::len_utf8)
    });
    let end = text[at..].find(char::is_whitespace);
    &text[start..end.map_or(text.len(), |end| at + end)]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The stretches between which a line may end, by spaces alone.
    fn held(text: &str) -> Vec<&str> {
        let object = '\u{e000}';
        let objects: Vec<_> = text
            .match_indices(object)
            .map(|(at, one)| (at..at + one.len(), text[..at].ends_with("? ")))
            .collect();
        let labels = labels(text, &objects);
        let mut from = 0;
        let mut found = Vec::new();
        for (at, _) in text.match_indices(' ') {
            if !holds(text, at + 1, &labels) {
                found.push(&text[from..at]);
                from = at + 1;
            }
        }
        found.push(&text[from..]);
        found
    }

    #[test]
    fn a_line_to_write_on_keeps_the_words_that_name_it() {
        let words = held("Signed: \u{e000} Day: \u{e000} Holds until: \u{e000} g");
        let expected = [
            "Signed: \u{e000}",
            "Day: \u{e000}",
            "Holds until: \u{e000}",
            "g",
        ];
        assert_eq!(words, expected);
        // a box keeps the word behind it
        assert_eq!(
            held("Is it? \u{e000} yes of course"),
            ["Is", "it?", "\u{e000} yes", "of", "course"]
        );
        // only the end of a long label
        let words = held("What went wrong on the way and what stopped it: \u{e000}");
        assert_eq!(words.last(), Some(&"way and what stopped it: \u{e000}"));
    }
}
