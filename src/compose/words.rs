//! Small words of the sheets: lists, counts, capitals; facts and rules as the plan says them.

use super::catalogue;
pub use super::said::{fact, length, rule, time, volume, warming};
use crate::nouns::StoveRule;
use crate::plan::Value;
use crate::units::{Force, Units, say};
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

/// `a`, `a or b`, `a, b or c`.
#[must_use]
pub fn or_list(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [start @ .., last] => format!("{} or {last}", start.join(", ")),
    }
}

/// A sideways push, with the weight it feels like.
#[must_use]
pub fn push_words(push: Force) -> String {
    let newtons = push.in_newtons();
    format!(
        "{} N (the weight of {} g)",
        say::number(newtons, 1),
        say::number(newtons / 9.806_65 * 100.0, 0)
            .parse::<u32>()
            .map_or_else(
                |_| say::number(newtons / 9.806_65 * 1000.0, 0),
                |tens| (tens * 10).to_string()
            )
    )
}

/// A statement's value in words, where no sheet has its own way to say it.
#[must_use]
pub fn value(value: &Value, units: Units) -> String {
    match value {
        Value::Length(value) => length(*value, units),
        Value::Height(value) => say::elevation(*value, units),
        Value::Temperature(value) => say::temperature(*value, units),
        Value::Warming(value) => warming(*value, units),
        Value::Mass(value) if value.in_grams() < 1000.0 => say::fuel(*value, units),
        Value::Mass(value) => say::load(*value, units),
        Value::Volume(value) => volume(*value, units),
        Value::Time(value) => time(*value),
        Value::Pressure(value) => format!("{} kPa", say::significant(value.in_kilopascals(), 4)),
        Value::Fraction(value) => format!("{}%", say::significant(value.in_percent(), 3)),
        Value::Angle(value) => format!("{}°", say::number(value.in_degrees(), 0)),
        Value::Force(value) => format!("{} N", say::significant(value.in_newtons(), 2)),
        Value::Energy(value) => format!("{} kJ", say::significant(value.in_kilojoules(), 4)),
        Value::Power(value) => format!("{} W", say::significant(value.in_watts(), 3)),
        Value::Number(value) => say::significant(*value, 6),
        Value::Line(value, unit) => {
            let text = format!("{} {unit}", say::significant(*value, 6));
            text.trim().to_owned()
        }
        Value::Between(low, high) => {
            format!(
                "{} to {}",
                self::value(low, units),
                self::value(high, units)
            )
        }
        Value::Words(words) => words.clone(),
        Value::Phrase(says) => catalogue::text(says),
    }
}

/// Which stoves may be lit, in a few words.
#[must_use]
pub const fn stove_rule(rule: StoveRule) -> &'static str {
    match rule {
        StoveRule::Yes => "stoves may be lit",
        StoveRule::WithShutOff => "only stoves with a shut-off valve may be lit",
        StoveRule::No => "no stove may be lit, nothing is lit at all",
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

/// How many signs of a text are seen.
#[must_use]
pub fn width(text: &str) -> usize {
    crate::markdown::without_marks(text).chars().count()
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
    // A value's marks stand before its words.
    let at = crate::markdown::words_start(text);
    let mut letters = text[at..].chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    format!(
        "{}{}{}",
        &text[..at],
        first.unwrap_or_default(),
        letters.as_str()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_as_a_sentence() {
        assert_eq!(list(&["a".into(), "b".into(), "c".into()]), "a, b and c");
    }
}
