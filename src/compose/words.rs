//! Small words of the sheets: lists, counts, capitals; facts and rules as the plan says them.

pub use crate::plan::said::{fact, length, rule, time, volume, warming};
use std::collections::BTreeSet;

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn list(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [start @ .., last] => format!("{} and {last}", start.join(", ")),
    }
}

/// The names of camps or kitchens that share something, out of so many: `every camp`
/// is shorter than four names.
#[must_use]
pub fn camps(names: &[String], of: usize) -> String {
    if names.len() == of && of > 1 {
        "every camp".to_owned()
    } else {
        list(names)
    }
}

/// Source codes in the order in which people look them up: S9 before S10.
#[must_use]
pub fn by_number(codes: &BTreeSet<String>) -> Vec<&String> {
    let key = |code: &String| {
        let letters = code.trim_end_matches(|c: char| c.is_ascii_digit());
        let number: u64 = code[letters.len()..].parse().unwrap_or(0);
        (letters.to_owned(), number)
    };
    let mut codes: Vec<&String> = codes.iter().collect();
    codes.sort_by_key(|code| key(code));
    codes
}

/// Source codes as a sheet cites them: `[S03] [S17]`.
#[must_use]
pub fn cited(codes: &BTreeSet<String>) -> String {
    let cited: Vec<String> = by_number(codes)
        .into_iter()
        .map(|code| format!("[{code}]"))
        .collect();
    cited.join(" ")
}

/// How many words a text has: what room it takes.
#[must_use]
pub fn in_text(text: &str) -> usize {
    text.split_whitespace().count()
}

/// `1 night`, `2 nights`.
#[must_use]
pub fn count(number: u32, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// Small numbers in words, for the start of a phrase.
#[must_use]
pub fn in_words(number: u32) -> String {
    match number {
        0 => "none".to_owned(),
        1 => "one".to_owned(),
        2 => "two".to_owned(),
        3 => "three".to_owned(),
        4 => "four".to_owned(),
        _ => number.to_string(),
    }
}

/// With a capital first letter.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().collect::<String>() + letters.as_str())
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_as_a_sentence() {
        assert_eq!(list(&["a".into(), "b".into(), "c".into()]), "a, b and c");
    }
}
