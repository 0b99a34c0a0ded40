//! Small pieces of markup text that more than one format needs.

use std::fmt::Write as _;

/// Adds text with the signs escaped that mean something in HTML and XML, in
/// element text as well as in quoted attributes.
pub(super) fn push_escaped(out: &mut String, text: &str) {
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            // Not allowed in either, escaped or not.
            '\u{fffe}' | '\u{ffff}' => {}
            _ if sign.is_control() && !matches!(sign, '\n' | '\t') => {}
            _ => out.push(sign),
        }
    }
}

/// Text with the signs escaped that mean something in HTML and XML.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    push_escaped(&mut out, text);
    out
}

/// Adds a length with at most two decimals and no trailing zeros.
pub(super) fn push_number(out: &mut String, number: f32) {
    let start = out.len();
    // Writing to a String cannot fail.
    let _ = write!(out, "{number:.2}");
    let kept = out[start..]
        .trim_end_matches('0')
        .trim_end_matches('.')
        .len();
    out.truncate(start + kept);
    if &out[start..] == "-0" {
        out.replace_range(start.., "0");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        for (number, text) in [(1.0, "1"), (0.25, "0.25"), (-0.001, "0"), (120.5, "120.5")] {
            let mut out = String::new();
            push_number(&mut out, number);
            assert_eq!(out, text);
        }
    }
}
