//! Small words of the sheets: lists, counts, capitals; facts and rules as the plan says them.

use super::catalogue::{self, text};
use super::said::from_to;
pub use super::said::{fact, length, rule, time, volume, warming};
use crate::markdown::without_marks;
use crate::nouns::{Pot, StoveRule};
use crate::phrase::{Arg, Said as _, phrase};
use crate::plan::Value;
use crate::units::{Force, Units, say};
use icu_list::ListFormatter;
use icu_list::options::ListFormatterOptions;
use icu_locale_core::Locale;
use std::collections::BTreeSet;

/// `a`, `a and b`, `a, b and c`, by the rules of the language that is spoken.
#[must_use]
pub fn list(words: &[String]) -> String {
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    listed(ListFormatter::try_new_and, &words)
}

/// `a`, `a or b`, `a, b or c`, by the rules of the language that is spoken.
#[must_use]
pub fn or_list(words: &[&str]) -> String {
    listed(ListFormatter::try_new_or, words)
}

/// What stands between two that are one or the other: ` or `.
#[must_use]
pub fn or_before(last: &str) -> String {
    let both = or_list(&["", last]);
    both.strip_suffix(last).unwrap_or(&both).to_owned()
}

/// A sideways push, with the weight it feels like.
#[must_use]
pub fn push_words(push: Force) -> String {
    let newtons = push.in_newtons();
    let grams = say::number(newtons / 9.806_65 * 100.0, 0)
        .parse::<u32>()
        .map_or_else(
            |_| say::number(newtons / 9.806_65 * 1000.0, 0),
            |tens| (tens * 10).to_string(),
        );
    text(&phrase!(
        "push-as-weight",
        newtons = say::number(newtons, 1),
        grams = grams
    ))
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
            let unit = catalogue::unit(unit);
            let text = format!("{} {unit}", say::significant(*value, 6));
            text.trim().to_owned()
        }
        Value::Between(low, high) => from_to(&self::value(low, units), &self::value(high, units)),
        Value::Words(words) => words.clone(),
        Value::Phrase(says) => text(says),
    }
}

/// Which stoves may be lit, in a few words.
#[must_use]
pub fn stove_rule(rule: StoveRule) -> String {
    text(&match rule {
        StoveRule::Yes => phrase!("stoves-may-be-lit"),
        StoveRule::WithShutOff => phrase!("stoves-with-valve-may-be-lit"),
        StoveRule::No => phrase!("stoves-may-not-be-lit"),
    })
}

/// A pot as people read it: `aluminium 3 L`.
#[must_use]
pub fn pot(pot: &Pot) -> String {
    match pot.said() {
        Arg::Phrase(name) => text(&name),
        _ => String::new(),
    }
}

/// `5 people`.
#[must_use]
pub fn people(number: u32) -> String {
    text(&phrase!("people-count", people = number))
}

/// The names of camps or kitchens that share something, out of so many: `every camp`
/// is shorter than four names.
#[must_use]
pub fn camps(names: &[String], of: usize) -> String {
    if names.len() == of && of > 1 {
        text(&phrase!("every-camp"))
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
    text(&phrase!("number-in-words", number = number))
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

/// A place in a list that is filled when the list is made.
const PLACE: &str = "\0";

/// A list in the language that is spoken. The sound of the last word decides what stands before it
/// (in Spanish `y` or `e`, `o` or `u`): it is asked about without the marks of its value.
fn listed<E>(
    maker: impl FnOnce(
        icu_list::ListFormatterPreferences,
        ListFormatterOptions,
    ) -> Result<ListFormatter, E>,
    words: &[&str],
) -> String {
    let Some((last, before)) = words.split_last() else {
        return String::new();
    };
    let language = catalogue::language();
    // British lists have no comma before the last
    let named = if language == "en" { "en-GB" } else { &language };
    let locale: Locale = named.parse().unwrap_or(Locale::UNKNOWN);
    let Ok(maker) = maker((&locale).into(), ListFormatterOptions::default()) else {
        return words.join(", ");
    };
    let heard = without_marks(last);
    let places = before.iter().map(|_| PLACE).chain([heard.as_str()]);
    let made = maker.format(places).to_string();
    let mut between = made.strip_suffix(&heard).unwrap_or(&made).split(PLACE);
    let mut list = between.next().unwrap_or_default().to_owned();
    for (word, between) in before.iter().zip(between) {
        list.push_str(word);
        list.push_str(between);
    }
    list + last
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::markdown::said;
    use catalogue::{Catalogue, speaking};
    use std::sync::Arc;

    #[test]
    fn lists_read_as_a_sentence() {
        assert_eq!(list(&["a".into(), "b".into(), "c".into()]), "a, b and c");
        assert_eq!(or_list(&["a", "b", "c"]), "a, b or c");
        assert_eq!(
            (list(&[]), list(&["a".into()])),
            (String::new(), "a".to_owned())
        );
    }

    /// The words before the sounds i and o, by the Real Academia's rule (Diccionario panhispánico
    /// de dudas, `y` and `o`, from memory); the list of patterns is Unicode's.
    #[test]
    fn spanish_lists_hear_the_word_that_follows() {
        let words = Catalogue::read("es", &[("a.ftl", "decimal-mark = ,\n")]);
        let words = Arc::new(words.unwrap_or_else(|problems| panic!("{problems:?}")));
        speaking(Some(&words), || {
            let and = |last: &str| list(&["agua".to_owned(), last.to_owned()]);
            assert_eq!(and("gas"), "agua y gas");
            assert_eq!(and("hielo"), "agua y hielo");
            assert_eq!(and("instructora"), "agua e instructora");
            assert_eq!(and("higos"), "agua e higos");
            assert_eq!(or_list(&["6", "7", "8"]), "6, 7 u 8");
            assert_eq!(or_list(&["siete", "nueve"]), "siete o nueve");
            let marked = said("x.y", None, "once");
            assert_eq!(or_list(&["diez", &marked]), format!("diez u {marked}"));
            assert_eq!(or_before("61 m"), " o ");
        });
    }
}
