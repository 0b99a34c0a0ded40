//! Finding numbers with a unit in prose, where a fact should stand instead.

/// Units whose letters mean a unit only as they are written here.
const EXACT: &[&str] = &[
    "C", "F", "K", "m", "g", "L", "l", "h", "s", "N", "W", "J", "Pa", "°C", "°F", "°", "%", "º",
    "℃", "℉", "′", "″",
];

/// Units in any mixture of small and capital letters, the longer before the
/// shorter where one starts the other.
const LOOSE: &[&str] = &[
    "fl oz",
    "fl. oz",
    "degrees",
    "degree",
    "deg",
    "percent",
    "per cent",
    "mm",
    "cm",
    "km",
    "km/h",
    "m/s",
    "ft",
    "feet",
    "foot",
    "inches",
    "inch",
    "yd",
    "yards",
    "yard",
    "miles",
    "mile",
    "mi",
    "metres",
    "metre",
    "meters",
    "meter",
    "kilometres",
    "kilometers",
    "mg",
    "kg",
    "grams",
    "gram",
    "kilograms",
    "kilogram",
    "oz",
    "ounces",
    "ounce",
    "lb",
    "lbs",
    "pounds",
    "pound",
    "ml",
    "cl",
    "dl",
    "litres",
    "litre",
    "liters",
    "liter",
    "millilitres",
    "milliliters",
    "cups",
    "cup",
    "quarts",
    "quart",
    "qt",
    "pints",
    "pint",
    "gallons",
    "gallon",
    "gal",
    "tsp",
    "tbsp",
    "teaspoons",
    "teaspoon",
    "tablespoons",
    "tablespoon",
    "min",
    "mins",
    "minutes",
    "minute",
    "sec",
    "secs",
    "seconds",
    "second",
    "hr",
    "hrs",
    "hours",
    "hour",
    "ppm",
    "ppb",
    "kpa",
    "hpa",
    "mbar",
    "bar",
    "psi",
    "kw",
    "kj",
    "mj",
    "kwh",
    "btu",
    "kcal",
    "mph",
    "knots",
    "paces",
    "pace",
];

/// Every number with a unit that stands outside a `{placeholder}`, with the
/// byte where it starts: `200 ft`, `5 °C`, `20-min`, `1/2 cup`, `45 %`.
///
/// Prose must print a fact there instead, so that one change reaches every
/// sheet and the sheet's units are the reader's. Numbers written as words and
/// spans of days are left alone.
#[must_use]
pub fn numbers_with_units(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut at = 0;
    let mut before = ' ';
    while let Some(sign) = text[at..].chars().next() {
        if sign == '{'
            && let Some(end) = text[at..].find('}')
        {
            at += end + 1;
            before = '}';
            continue;
        }
        let starts = is_number(sign) && !before.is_alphanumeric() && !matches!(before, '.' | '}');
        if !starts {
            at += sign.len_utf8();
            before = sign;
            continue;
        }
        let number = number_length(&text[at..]);
        let after = &text[at + number..];
        if let Some(unit) = unit_length(after) {
            found.push((at, text[at..at + number + unit].to_owned()));
            at += number + unit;
        } else {
            at += number;
        }
        before = '0';
    }
    found
}

/// Digits and the single signs for fractions.
fn is_number(sign: char) -> bool {
    sign.is_ascii_digit() || matches!(sign, '¼' | '½' | '¾' | '⅓' | '⅔' | '⅛' | '⅜' | '⅝' | '⅞')
}

/// The length of a number: `10,100`, `1.5`, `1/2`, `1 1/2`. A part is taken
/// in only when a digit follows it.
fn number_length(text: &str) -> usize {
    let mut end = 0;
    let mut signs = text.char_indices().peekable();
    while let Some((at, sign)) = signs.next() {
        let joins = matches!(sign, '.' | ',' | '/' | '⁄')
            && signs.peek().is_some_and(|(_, next)| is_number(*next));
        if is_number(sign) {
            end = at + sign.len_utf8();
        } else if !joins {
            break;
        }
    }
    end
}

/// Whether a text starts with a unit, or a sign that belongs to the number
/// before it. Wider than what prose is held against: a line that does not
/// break there harms nobody.
pub(super) fn unit_after(text: &str) -> bool {
    text.starts_with('×') || unit_length(text).is_some() || {
        let rest = text.strip_prefix("in");
        rest.is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
    }
}

/// The length of the gap and the unit that follow a number, if a unit does.
fn unit_length(after: &str) -> Option<usize> {
    let word = after.trim_start_matches([' ', '\u{a0}', '\u{202f}', '\u{2009}']);
    let gap = after.len() - word.len();
    let gap_signs = after[..gap].chars().count();
    let (gap, word) = match word.strip_prefix(['-', '\u{2011}']) {
        // `20-min boil`, but `5 -minute` is no such thing.
        Some(rest) if gap == 0 => (word.len() - rest.len(), rest),
        _ => (gap, word),
    };
    if gap_signs > 1 {
        return None;
    }
    let ends = |length: usize| {
        let next = word[length..].chars().next();
        next.is_none_or(|sign| !sign.is_alphanumeric() && sign != '\'')
    };
    let exact = EXACT
        .iter()
        .filter(|unit| word.starts_with(**unit))
        // A sign such as `%` or `°` needs no space after it.
        .filter(|unit| ends(unit.len()) || !unit.ends_with(char::is_alphanumeric))
        .map(|unit| unit.len());
    let loose = LOOSE
        .iter()
        .filter(|unit| {
            word.get(..unit.len())
                .is_some_and(|start| start.eq_ignore_ascii_case(unit))
        })
        .filter(|unit| ends(unit.len()))
        .map(|unit| unit.len());
    exact.chain(loose).max().map(|unit| gap + unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> Vec<String> {
        numbers_with_units(text)
            .into_iter()
            .map(|hit| hit.1)
            .collect()
    }

    #[test]
    fn finds_units() {
        for (text, hits) in [
            ("Walk 200 ft from water", vec!["200 ft"]),
            ("at 5 °C or 77 C", vec!["5 °C", "77 C"]),
            ("60 m, 20 min, 50 ppm", vec!["60 m", "20 min", "50 ppm"]),
            ("8 oz of soap (45 %)", vec!["8 oz", "45 %"]),
            ("45% full", vec!["45%"]),
            ("a 20-minute wait", vec!["20-minute"]),
            ("10-15 minutes", vec!["15 minutes"]),
            ("1/2 cup and 1½ L", vec!["1/2 cup", "1½ L"]),
            ("10,100 ft", vec!["10,100 ft"]),
            ("8 fl oz", vec!["8 fl oz"]),
            ("5kg", vec!["5kg"]),
        ] {
            assert_eq!(found(text), hits, "{text}");
        }
    }

    #[test]
    fn leaves_plain_numbers_alone() {
        for text in [
            "Walk {distance} from water",
            "{wait_20 min} later",
            "3 meals",
            "2 in the tent, 4 fit",
            "step 3 of 5",
            "the 3 mittens",
            "PDF/UA-1 and T05 m",
            "call 555-0117",
            "1. Light it",
        ] {
            assert_eq!(found(text), Vec::<String>::new(), "{text}");
        }
    }

    #[test]
    fn says_where() {
        assert_eq!(numbers_with_units("é 5 kg"), [(3, "5 kg".to_owned())]);
    }
}
