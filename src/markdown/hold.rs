//! What must not be torn apart at the end of a line: a number and its unit, a
//! box to tick and its word, a blank and the words before and after it.

use crate::doc::{Inline, plain};

use super::measure::unit_after;

/// The space that no line breaks at.
const HELD: char = '\u{a0}';

/// Longer words or blanks than these, in signs, are not held to their
/// neighbours: a narrow line could not take both.
const LONGEST_WORD: usize = 12;
const LONGEST_BLANK: usize = 24;

/// Puts no-break spaces where a line must not break.
pub(super) fn hold(inlines: &mut [Inline]) {
    for at in 0..inlines.len() {
        let (before, rest) = inlines.split_at_mut(at);
        let Some((Inline::Text(text), after)) = rest.split_first_mut() else {
            continue;
        };
        let mut held = units(text);
        if held.starts_with(' ') && follows(before.last(), &held) {
            held.replace_range(..1, "\u{a0}");
        }
        if let Some(Inline::Blank(width)) = after.first()
            && *width <= LONGEST_BLANK
            && held.ends_with(' ')
            && last_word(&held) <= LONGEST_WORD
        {
            held.pop();
            held.push(HELD);
        }
        *text = held;
    }
}

/// A text with every number held to its unit: `177.2 g`, `2 × pot`.
pub(super) fn units(text: &str) -> String {
    let mut held = String::with_capacity(text.len() + 8);
    let mut before = ' ';
    for (at, sign) in text.char_indices() {
        let unit = sign == ' ' && is_number(before) && unit_after(&text[at + 1..]);
        held.push(if unit { HELD } else { sign });
        before = sign;
    }
    held.replace("\u{a0}fl oz", "\u{a0}fl\u{a0}oz")
}

/// Whether the words of a text that starts with a space stay with what stands
/// before them.
fn follows(before: Option<&Inline>, text: &str) -> bool {
    let words = &text[1..];
    match before {
        Some(Inline::Tick) => words.starts_with(char::is_alphanumeric),
        Some(Inline::Blank(width)) => *width <= LONGEST_BLANK && unit_after(words),
        Some(inline @ (Inline::Strong(_) | Inline::Emphasis(_))) => {
            plain(std::slice::from_ref(inline)).ends_with(is_number) && unit_after(words)
        }
        _ => false,
    }
}

/// The length of the last word of a text, without the space after it.
fn last_word(text: &str) -> usize {
    let words = text.trim_end();
    words
        .rsplit(char::is_whitespace)
        .next()
        .map_or(0, |word| word.chars().count())
}

fn is_number(sign: char) -> bool {
    sign.is_ascii_digit() || matches!(sign, '¼' | '½' | '¾' | '⅓' | '⅔' | '⅛' | '⅜' | '⅝' | '⅞')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_held_to_their_units() {
        for (text, held) in [
            ("177.2 g of fuel", "177.2~g of fuel"),
            (
                "likely 1884 g (66.5 oz) each",
                "likely 1884~g (66.5~oz) each",
            ),
            ("at 5 °C, 2 h 30 min", "at 5~°C, 2~h 30~min"),
            (
                "4.186 kJ/(kg K) and 0.2893 kJ/°C",
                "4.186~kJ/(kg K) and 0.2893~kJ/°C",
            ),
            ("1½ L, 8 in", "1½~L, 8~in"),
            ("2 × bottle 0.6 L", "2~× bottle 0.6~L"),
            ("16 fl oz a day", "16~fl~oz a day"),
            ("step 3 of 5, 2 pots", "step 3 of 5, 2 pots"),
        ] {
            assert_eq!(units(text).replace(HELD, "~"), held);
        }
    }

    #[test]
    fn boxes_and_blanks_are_held_to_their_words() {
        let text = |words: &str| Inline::Text(words.to_owned());
        let mut inlines = vec![
            text("usual? "),
            Inline::Tick,
            text(" yes "),
            Inline::Tick,
            text(" no; mine: "),
            Inline::Blank(8),
            text(" g, told by "),
            Inline::Blank(60),
            text(" and then "),
            Inline::Strong(vec![text("12")]),
            text(" min"),
        ];
        hold(&mut inlines);
        assert_eq!(
            plain(&inlines).replace(HELD, "~"),
            format!(
                "usual? [ ]~yes [ ]~no; mine:~________~g, told by {} and then 12~min",
                "_".repeat(60)
            )
        );
    }
}
