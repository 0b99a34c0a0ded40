//! What was probably meant by a quantity that cannot be read: the same text without what stands
//! in the way. Each is only a proposal; the reader tries them in order.

/// Words that people put before a number.
const BEFORE: [&str; 8] = [
    "about",
    "approximately",
    "approx.",
    "approx",
    "around",
    "circa",
    "ca.",
    "ca",
];

/// Other ways to write the same text, likeliest first.
pub(super) fn proposals(text: &str) -> Vec<String> {
    let text = plain(text);
    let mut found = Vec::new();
    if let Some(whole) = fraction(&text) {
        found.push(whole);
    }
    found.extend(marks(&text));
    found.push(without_commas(&text));
    found.push(joined(&text));
    for between in [" / ", "/", " to ", " - ", "-", "\u{2013}", "(", " or "] {
        // a sign in front parts nothing
        let from = text.char_indices().nth(1).map_or(text.len(), |(at, _)| at);
        if let Some(at) = text[from..].find(between) {
            let (first, rest) = (&text[..from + at], &text[from + at + between.len()..]);
            let unit: String = rest.chars().skip_while(|c| !c.is_alphabetic()).collect();
            found.push(first.trim().to_owned());
            found.push(format!("{} {}", first.trim(), unit.trim()));
        }
    }
    // words after the unit: `2 cups each`
    let words: Vec<&str> = text.split_whitespace().collect();
    for count in (1..words.len()).rev() {
        found.push(words[..count].join(" "));
    }
    found.retain(|one| !one.is_empty());
    found
}

/// The text without words before the number.
fn plain(text: &str) -> String {
    let mut text = text.trim().trim_start_matches(['~', '\u{2248}']).trim();
    for word in BEFORE {
        if let Some(rest) = text.strip_prefix(word)
            && rest.starts_with(|c: char| c.is_whitespace() || c.is_ascii_digit())
        {
            text = rest.trim();
        }
    }
    match text.strip_prefix("minus ") {
        Some(rest) => format!("-{}", rest.trim()),
        None => text.to_owned(),
    }
}

/// `1/2 L` is `0.5 L`, `1 1/2 L` is `1.5 L`.
fn fraction(text: &str) -> Option<String> {
    let (before, after) = text.split_once('/')?;
    let end = after
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(after.len());
    let below: f64 = after[..end].parse().ok()?;
    let mut parts = before.split_whitespace();
    let (first, second) = (parts.next()?, parts.next());
    let (whole, above): (f64, f64) = match second {
        Some(second) => (first.parse().ok()?, second.parse().ok()?),
        None => (0.0, first.parse().ok()?),
    };
    // more than eighths is no fraction that a cook writes
    let kitchen = (2.0..=8.0).contains(&below) && above < below && parts.next().is_none();
    kitchen.then(|| {
        let value = ((whole + above / below) * 1000.0).round() / 1000.0;
        format!("{value} {}", after[end..].trim())
    })
}

/// `5900'` is feet, `12"` inches; metres above sea level are metres.
fn marks(text: &str) -> Option<String> {
    let known = [
        ("'", "ft"),
        ("\u{2019}", "ft"),
        ("\u{2032}", "ft"),
        ("\"", "in"),
        ("\u{201d}", "in"),
        ("\u{2033}", "in"),
        ("masl", "m"),
        ("m.a.s.l.", "m"),
    ];
    known.iter().find_map(|(mark, unit)| {
        let number = text.strip_suffix(mark)?.trim();
        Some(format!("{number} {unit}"))
    })
}

/// A comma before one or two decimals is a point, one before three digits is left out.
fn without_commas(text: &str) -> String {
    let digits = |part: &str| part.chars().take_while(char::is_ascii_digit).count();
    match text.split_once(',') {
        Some((before, after)) if !after.contains(',') => {
            let decimals = digits(after) < 3 || matches!(before.trim(), "0" | "-0");
            let between = if decimals { "." } else { "" };
            format!("{before}{between}{after}")
        }
        _ => text.replace(',', ""),
    }
}

/// `1 800 m` is `1800 m`.
fn joined(text: &str) -> String {
    let signs: Vec<char> = text.chars().collect();
    let digit = |at: usize| signs.get(at).is_some_and(char::is_ascii_digit);
    let kept = signs.iter().enumerate().filter(|(at, sign)| {
        let inside = *at > 0 && digit(at - 1) && digit(at + 1);
        !(sign.is_whitespace() && inside)
    });
    kept.map(|(_, sign)| *sign).collect()
}

#[cfg(test)]
mod tests {
    use crate::units::{Length, Quantity as _, Temperature, Volume};

    #[test]
    fn what_was_meant_is_proposed() {
        for (typed, meant) in [
            ("5900'", "write `5900 ft`"),
            ("about 1800 m", "write `1800 m`"),
            ("1 800 m", "write `1800 m`"),
            ("1800 masl", "write `1800 m`"),
            ("8,200 ft", "write `8200 ft`"),
            ("1700-1900 m", "write one value, such as `1700 m`"),
        ] {
            assert!(
                Length::read(typed).unwrap_err().help.starts_with(meant),
                "{typed}"
            );
        }
        for (typed, meant) in [
            ("0,6 L", "write `0.6 L`"),
            ("1/2 L", "write `0.5 L`"),
            ("1 1/2 L", "write `1.5 L`"),
            ("2 cups each", "write `2 cups`"),
        ] {
            assert!(
                Volume::read(typed).unwrap_err().help.starts_with(meant),
                "{typed}"
            );
        }
        for (typed, meant) in [
            ("minus 4 C", "write `-4 C`"),
            ("-4 C / 25 F", "write one value, such as `-4 C`"),
            ("21\u{b0}", "say which scale is meant: `21 C` or `21 F`"),
            ("21 degrees", "say which scale is meant: `21 C` or `21 F`"),
            ("freezing", "write `41 F` or `5 C`"),
        ] {
            assert!(
                Temperature::read(typed)
                    .unwrap_err()
                    .help
                    .starts_with(meant),
                "{typed}"
            );
        }
    }
}
