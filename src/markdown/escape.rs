//! Putting a value into Markdown text so that it stays plain text.

/// Signs that could open markup wherever they stand.
const ANYWHERE: [char; 14] = [
    '\\', '`', '*', '_', '[', ']', '<', '>', '|', '~', '&', '^', '{', '$',
];

/// Signs that mean something only as the first of a line.
const AT_START: [char; 5] = ['#', '-', '+', '=', ':'];

/// A value as plain text inside Markdown: whatever a trip file holds, [`super::read`]
/// gives back the same words and no markup.
///
/// Escapes as little as it can, so that the text stays readable where it is
/// kept as a file. Runs of blanks and line ends become one space, signs that
/// cannot be seen (control characters, marks that turn the direction of
/// writing) are left out, and three kinds need help only in one spot: `#`, `-`,
/// `+`, `=`, `:` and `1.` at the start of a line, `#` at the end of a heading, and `!`
/// where it may meet a bracket of the template.
#[must_use]
pub fn escape(value: &str) -> String {
    let clean = tidy(value);
    // Blanks round a value would keep `**{{ value }}**` from being bold.
    let clean = clean.trim();
    let dot = list_dot(clean);
    let closing = closing_hashes(clean);
    let mut text = String::with_capacity(clean.len() + 8);
    for (at, sign) in clean.char_indices() {
        let needs = ANYWHERE.contains(&sign)
            || (at == 0 && AT_START.contains(&sign))
            || (sign == '!' && (at == 0 || at + 1 == clean.len()))
            || Some(at) == dot
            || Some(at) == closing;
        if needs {
            text.push('\\');
        }
        text.push(sign);
    }
    text
}

/// Without unseen signs, and with every run of blanks made one space.
fn tidy(value: &str) -> String {
    let mut clean = String::with_capacity(value.len());
    for sign in value.chars() {
        let blank = matches!(
            sign,
            ' ' | '\t' | '\n' | '\r' | '\u{0b}' | '\u{0c}' | '\u{85}' | '\u{2028}' | '\u{2029}'
        );
        if blank {
            if !clean.ends_with(' ') {
                clean.push(' ');
            }
        } else if !is_unseen(sign) {
            clean.push(sign);
        }
    }
    clean
}

/// Whether a sign shows nothing but changes what others do.
pub(super) fn is_unseen(sign: char) -> bool {
    sign.is_control()
        || matches!(
            sign,
            '\u{202a}'..='\u{202e}'
                | '\u{2066}'..='\u{2069}'
                | '\u{feff}'
                | '\u{fff9}'..='\u{fffb}'
                // The marks of the lines of a working; those of values are read.
                | '\u{e010}'..='\u{e01f}'
                | '\u{e0000}'..='\u{e007f}'
        )
}

/// Where the run of `#` begins that would be taken for the end of a heading.
fn closing_hashes(clean: &str) -> Option<usize> {
    let run = clean.trim_end_matches('#').len();
    (run < clean.len()).then_some(run)
}

/// Where the dot or bracket of `1.` or `1)` stands, if the value starts so.
fn list_dot(value: &str) -> Option<usize> {
    let digits = value.bytes().take_while(u8::is_ascii_digit).count();
    let rest = &value.as_bytes()[digits..];
    let mark = matches!(rest.first(), Some(b'.' | b')'));
    let ends = rest.get(1).is_none_or(|byte| *byte == b' ');
    (digits > 0 && mark && ends).then_some(digits)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes_least() {
        for (value, text) in [
            ("Tarn bench, 10,100 ft", "Tarn bench, 10,100 ft"),
            ("a #2 can - full", "a #2 can - full"),
            ("12.5 km", "12.5 km"),
            ("# 1", "\\# 1"),
            (" - x ", "\\- x"),
            ("1. x", "1\\. x"),
            ("7)", "7\\)"),
            ("no. #", "no. \\#"),
            ("a\r\n\n b", "a b"),
            ("\"All off!\" once", "\"All off!\" once"),
            ("![x](y)", "\\!\\[x\\](y)"),
            ("off!", "off\\!"),
            ("{fuel}", "\\{fuel}"),
            ("x\u{0}y\u{202e}z", "xyz"),
        ] {
            assert_eq!(escape(value), text, "{value:?}");
        }
    }
}
