//! What was probably meant by a day or a number of things that cannot be read.

use crate::nouns::Date;

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// How to write a day that was written in another way; none where that cannot be told.
pub(super) fn day(text: &str) -> Option<String> {
    let lower = text.trim().to_lowercase();
    let parts: Vec<&str> = lower
        .split(|c: char| !c.is_alphanumeric())
        .filter(|part| !part.is_empty())
        .collect();
    let [first, second, third] = parts.as_slice() else {
        return None;
    };
    let number = |part: &str| {
        let digits = part.trim_end_matches(|c: char| c.is_alphabetic());
        let ordinal = ["", "st", "nd", "rd", "th"].contains(&&part[digits.len()..]);
        digits.parse::<u16>().ok().filter(|_| ordinal)
    };
    let day = |year: u16, month: u16, day: u16| {
        let text = format!("{year:04}-{month:02}-{day:02}");
        Date::read(&text).map(|_| text)
    };
    if let Some(month) = [first, second].into_iter().find_map(|part| month(part)) {
        let other = number(first).or_else(|| number(second))?;
        let day = day(number(third)?, month, other)?;
        return Some(format!("write `{day}`"));
    }
    let (a, b, c) = (number(first)?, number(second)?, number(third)?);
    if first.len() == 4 {
        return match day(a, b, c) {
            Some(day) => Some(format!("write `{day}`")),
            None if (1..=12).contains(&b) => {
                let last = (28..=31).rev().find(|last| day(a, b, *last).is_some())?;
                let name = MONTHS[usize::from(b) - 1];
                let name = format!("{}{}", name[..1].to_uppercase(), &name[1..]);
                Some(format!("{name} {a} has {last} days"))
            }
            None => None,
        };
    }
    if third.len() != 4 {
        return None;
    }
    match (day(c, b, a), day(c, a, b)) {
        (Some(one), Some(other)) if one != other => Some(format!(
            "write `{one}` or `{other}`, whichever is meant: year-month-day"
        )),
        (Some(one), _) | (None, Some(one)) => Some(format!("write `{one}`")),
        (None, None) => None,
    }
}

/// A month by its name or the first letters of it.
fn month(word: &str) -> Option<u16> {
    let at = MONTHS
        .iter()
        .position(|name| word.len() >= 3 && name.starts_with(word))?;
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
                said.as_deref().is_some_and(|said| said.starts_with(help)),
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
    fn numbers_in_words_and_with_words() {
        assert_eq!(whole("two"), Some(2));
        assert_eq!(whole("Eight"), Some(8));
        assert_eq!(whole("4 scouts"), Some(4));
        assert_eq!(whole("8-10"), None);
        assert_eq!(whole("a few"), None);
    }
}
