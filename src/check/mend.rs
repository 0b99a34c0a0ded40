//! What was probably meant by a day or a number of things that cannot be read.

use crate::diag::{Told, told};
use crate::nouns::Date;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// How to write a day that was written in another way; none where that cannot be told.
pub(super) fn day(text: &str) -> Option<Told> {
    match days(text).as_slice() {
        [] => no_such_day(text),
        [one] => Some(told!("write `{one}`", one)),
        several => Some(told!(
            "write {several}, whichever is meant: year-month-day",
            several = Told::list(
                several
                    .iter()
                    .map(|one| Told::as_written(format!("`{one}`"))),
                " or "
            )
        )),
    }
}

/// The day that is meant where it was written in another way and only one can be.
#[must_use]
pub fn day_meant(text: &str) -> Option<String> {
    match days(text).as_slice() {
        [one] => Some(one.clone()),
        _ => None,
    }
}

/// The time of day that is meant by `7pm`, `7.30 pm` or `1930`, as hours and minutes of 24 hours.
#[must_use]
pub fn clock_meant(text: &str) -> Option<String> {
    let lower = text.trim().to_lowercase().replace('.', ":");
    let (time, add) = match (lower.strip_suffix("pm"), lower.strip_suffix("am")) {
        (Some(time), _) => (time, Some(12)),
        (_, Some(time)) => (time, Some(0)),
        _ => (lower.as_str(), None),
    };
    let time = time.trim().trim_end_matches('h').trim();
    let digits = |part: &str| part.chars().all(|c| c.is_ascii_digit());
    let (hour, minute) = match time.split_once(':') {
        Some((hour, minute)) => (hour, minute),
        None if time.len() == 4 && digits(time) => time.split_at(2),
        None => (time, "00"),
    };
    if minute.len() != 2 || !digits(minute) || !digits(hour) {
        return None;
    }
    let (hour, minute) = (hour.parse::<u32>().ok()?, minute.parse::<u32>().ok()?);
    let hour = match add {
        Some(add) if (1..=12).contains(&hour) => hour % 12 + add,
        Some(_) => return None,
        None => hour,
    };
    (hour < 24 && minute < 60).then(|| format!("{hour}:{minute:02}"))
}

/// The parts of a day as written: numbers and words.
fn parts(text: &str) -> Vec<String> {
    text.trim()
        .to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|part| !part.is_empty())
        .map(str::to_owned)
        .collect()
}

/// A number with or without the ending of an ordinal.
fn number(part: &str) -> Option<u16> {
    let digits = part.trim_end_matches(char::is_alphabetic);
    let ordinal = ["", "st", "nd", "rd", "th"].contains(&&part[digits.len()..]);
    digits.parse::<u16>().ok().filter(|_| ordinal)
}

fn of_calendar(year: u16, month: u16, day: u16) -> Option<String> {
    let text = format!("{year:04}-{month:02}-{day:02}");
    Date::read(&text).map(|_| text)
}

/// The days that a text may mean, the European order first.
fn days(text: &str) -> Vec<String> {
    let parts = parts(text);
    let [first, second, third] = parts.as_slice() else {
        return Vec::new();
    };
    if let Some(month) = [first, second].into_iter().find_map(|part| month(part)) {
        let day = number(first).or_else(|| number(second));
        let found = day.zip(number(third));
        return found
            .and_then(|(day, year)| of_calendar(year, month, day))
            .into_iter()
            .collect();
    }
    let (Some(a), Some(b), Some(c)) = (number(first), number(second), number(third)) else {
        return Vec::new();
    };
    let mut found: Vec<String> = if first.len() == 4 {
        of_calendar(a, b, c).into_iter().collect()
    } else if third.len() == 4 {
        [of_calendar(c, b, a), of_calendar(c, a, b)]
            .into_iter()
            .flatten()
            .collect()
    } else {
        Vec::new()
    };
    found.dedup();
    found
}

/// How long the month is that a day was written of, if that is what is wrong with it.
fn no_such_day(text: &str) -> Option<Told> {
    let parts = parts(text);
    let [year, month, _] = parts.as_slice() else {
        return None;
    };
    let month = number(month).filter(|month| year.len() == 4 && (1..=12).contains(month))?;
    let year = number(year)?;
    let last = (28..=31)
        .rev()
        .find(|last| of_calendar(year, month, *last).is_some())?;
    let name = Told::from(MONTHS[usize::from(month) - 1]);
    Some(told!("{name} {year} has {last} days", name, year, last))
}

/// A month by its name or the first letters of it.
fn month(word: &str) -> Option<u16> {
    let at = MONTHS
        .iter()
        .position(|name| word.len() >= 3 && name.to_lowercase().starts_with(word))?;
    u16::try_from(at + 1).ok()
}

/// The whole number that a text means: `two`, `4 scouts`, `12 years`.
pub(super) fn whole(text: &str) -> Option<u32> {
    const WORDS: [&str; 13] = [
        "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    let lower = text.trim().to_lowercase();
    let mut parts = lower.split_whitespace();
    let first = parts.next()?;
    if let Some(at) = WORDS.iter().position(|word| *word == first) {
        return u32::try_from(at).ok();
    }
    let rest: Vec<&str> = parts.collect();
    let wordy = rest
        .iter()
        .all(|part| part.chars().all(char::is_alphabetic));
    first.parse().ok().filter(|_| wordy && !rest.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_read_in_other_orders_to_say_how_they_are_written() {
        for (typed, help) in [
            ("05/14/2027", "write `2027-05-14`"),
            ("14.5.2027", "write `2027-05-14`"),
            ("14 May 2027", "write `2027-05-14`"),
            ("May 14th, 2027", "write `2027-05-14`"),
            ("2027-5-14", "write `2027-05-14`"),
            ("2027/05/14", "write `2027-05-14`"),
            ("2027-02-30", "February 2027 has 28 days"),
            ("04/05/2027", "write `2027-05-04` or `2027-04-05`"),
        ] {
            let said = day(typed);
            assert!(
                said.as_ref().is_some_and(|said| said.starts_with(help)),
                "{typed}: {said:?}"
            );
        }
        for typed in [
            "next Friday",
            "2027",
            "14 Brumaire 2027",
            "99/99/2027",
            "2027-13-01",
        ] {
            assert_eq!(day(typed), None, "{typed}");
        }
    }

    #[test]
    fn times_of_day_are_read_in_other_ways() {
        for (typed, meant) in [
            ("7pm", Some("19:00")),
            ("7.30 PM", Some("19:30")),
            ("12am", Some("0:00")),
            ("12 pm", Some("12:00")),
            ("1930", Some("19:30")),
            ("19h", Some("19:00")),
            ("13pm", None),
            ("25", None),
            ("noon", None),
        ] {
            assert_eq!(clock_meant(typed).as_deref(), meant, "{typed}");
        }
    }

    #[test]
    fn numbers_in_words_and_with_words() {
        assert_eq!(whole("two"), Some(2));
        assert_eq!(whole("Eight"), Some(8));
        assert_eq!(whole("4 scouts"), Some(4));
        assert_eq!(whole("8-10"), None);
        assert_eq!(whole("a few"), None);
    }
}
