//! The tags of a drawing in SVG, and the outlines of its paths: no more of either than black and
//! white line work needs.

use crate::diag::{Told, told};

/// What is wrong, and the byte that it stands at.
pub(super) struct Fault {
    /// Where.
    pub at: usize,
    /// What.
    pub message: Told,
    /// What to do.
    pub help: &'static str,
}

impl Fault {
    pub(super) fn new(at: usize, message: impl Into<Told>, help: &'static str) -> Self {
        let message = message.into();
        Self { at, message, help }
    }
}

/// A tag: `<name key="value">`, `<name/>` or `</name>`.
pub(super) struct Tag<'t> {
    pub at: usize,
    pub name: &'t str,
    pub keys: Vec<(&'t str, &'t str)>,
    pub opens: bool,
    pub closes: bool,
}

impl<'t> Tag<'t> {
    pub(super) fn get(&self, key: &str) -> Option<&'t str> {
        let found = self.keys.iter().find(|(name, _)| *name == key);
        found.map(|(_, value)| value.trim())
    }
}

const CUT: &str = "save the drawing again as plain SVG";

/// The tags of a text in their order.
pub(super) fn tags(text: &str) -> Result<Vec<Tag<'_>>, Fault> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(next) = text[at..].find('<') {
        let from = at + next;
        let rest = &text[from..];
        let skipped = [("<!--", "-->"), ("<?", "?>")]
            .into_iter()
            .find(|(start, _)| rest.starts_with(start));
        if let Some((_, end)) = skipped {
            let Some(length) = rest.find(end) else {
                return Err(Fault::new(from, "this is never closed", CUT));
            };
            at = from + length + end.len();
            continue;
        }
        if rest.starts_with("<!") {
            let message = "a drawing with declarations of its own is not read";
            return Err(Fault::new(from, message, CUT));
        }
        let (tag, end) = tag(text, from)?;
        found.push(tag);
        at = end;
    }
    Ok(found)
}

/// One tag that starts at a byte, and the byte behind it.
fn tag(text: &str, from: usize) -> Result<(Tag<'_>, usize), Fault> {
    let cut = || Fault::new(from, "this tag is cut off", CUT);
    let closing = text[from + 1..].starts_with('/');
    let start = from + 1 + usize::from(closing);
    let ends = |c: char| c.is_whitespace() || matches!(c, '>' | '/' | '=');
    let length = text[start..].find(ends).ok_or_else(cut)?;
    let name = &text[start..start + length];
    let mut at = start + length;
    let mut keys = Vec::new();
    loop {
        at += text[at..].len() - text[at..].trim_start().len();
        let rest = &text[at..];
        if rest.starts_with("/>") || rest.starts_with('>') {
            let empty = rest.starts_with('/');
            let tag = Tag {
                at: from,
                name,
                keys,
                opens: !closing,
                closes: closing || empty,
            };
            return Ok((tag, at + 1 + usize::from(empty)));
        }
        let length = rest
            .find(ends)
            .filter(|length| *length > 0)
            .ok_or_else(cut)?;
        let key = &rest[..length];
        let value = rest[length..]
            .trim_start()
            .strip_prefix('=')
            .ok_or_else(cut)?;
        let value = value.trim_start();
        let quote = value
            .chars()
            .next()
            .filter(|c| matches!(c, '"' | '\''))
            .ok_or_else(cut)?;
        let inside = &value[1..];
        let length = inside.find(quote).ok_or_else(cut)?;
        keys.push((key, &inside[..length]));
        at = text.len() - inside.len() + length + 1;
    }
}

/// Numbers parted by spaces or commas, or by their signs.
pub(super) fn numbers(text: &str) -> Option<Vec<f64>> {
    let mut found = Vec::new();
    let mut rest = text.trim_start_matches(apart);
    while !rest.is_empty() {
        let (number, length) = number(rest)?;
        found.push(number);
        rest = rest[length..].trim_start_matches(apart);
    }
    Some(found)
}

fn apart(c: char) -> bool {
    c.is_whitespace() || c == ','
}

/// The number that a text starts with, and its length.
fn number(text: &str) -> Option<(f64, usize)> {
    let bytes = text.as_bytes();
    let (mut at, mut point) = (0, false);
    while let Some(byte) = bytes.get(at) {
        let sign_may = at == 0 || matches!(bytes[at - 1], b'e' | b'E');
        match byte {
            b'0'..=b'9' => {}
            b'+' | b'-' if sign_may => {}
            b'.' if !point => point = true,
            b'e' | b'E' if at > 0 => point = true,
            _ => break,
        }
        at += 1;
    }
    let number: f64 = text[..at].parse().ok()?;
    number.is_finite().then_some((number, at))
}

/// One outline of a path: its start and then (control, control, end) for each piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Outline {
    pub points: Vec<(f64, f64)>,
    pub closed: bool,
}

/// The outlines of a path's `d`.
pub(super) fn outlines(d: &str) -> Result<Vec<Outline>, Told> {
    let mut found: Vec<Outline> = Vec::new();
    let mut now = Outline::default();
    let (mut at, mut start) = ((0.0, 0.0), (0.0, 0.0));
    let mut handle: Option<(f64, f64)> = None;
    let mut rest = d.trim();
    while let Some(letter) = rest.chars().next() {
        if !letter.is_ascii_alphabetic() {
            return Err(told!("a path's `d` cannot hold `{letter}` here", letter));
        }
        let length = rest[1..]
            .find(|c: char| c.is_ascii_alphabetic() && !matches!(c, 'e' | 'E'))
            .map_or(rest.len(), |length| length + 1);
        let values =
            numbers(&rest[1..length]).ok_or("a path's `d` holds something that is no number")?;
        rest = rest[length..].trim_start();
        let many = match letter.to_ascii_lowercase() {
            'm' | 'l' => 2,
            'h' | 'v' => 1,
            'c' => 6,
            's' | 'q' => 4,
            'z' => 0,
            _ => {
                return Err(told!(
                    "a path's command `{letter}` is not read; lines and curves are (M L H V C S Q Z)",
                    letter
                ));
            }
        };
        if many == 0 {
            now.closed = true;
            found.push(std::mem::take(&mut now));
            at = start;
            continue;
        }
        if values.is_empty() || values.len() % many != 0 {
            return Err(told!(
                "a path's command `{letter}` takes {many} numbers at a time",
                letter,
                many
            ));
        }
        for (index, own) in values.chunks(many).enumerate() {
            let base = if letter.is_ascii_lowercase() {
                at
            } else {
                (0.0, 0.0)
            };
            let point = |i: usize| (base.0 + own[i], base.1 + own[i + 1]);
            let kind = letter.to_ascii_lowercase();
            if kind == 'm' && index == 0 {
                if now.points.len() > 1 {
                    found.push(std::mem::take(&mut now));
                }
                at = point(0);
                start = at;
                now = Outline {
                    points: vec![at],
                    closed: false,
                };
                handle = None;
                continue;
            }
            if now.points.is_empty() {
                now.points.push(at);
            }
            let (first, second, end) = match kind {
                'h' => straight(at, (base.0 + own[0], at.1)),
                'v' => straight(at, (at.0, base.1 + own[0])),
                'c' => (point(0), point(2), point(4)),
                's' => (mirrored(handle, at), point(0), point(2)),
                'q' => raised(at, point(0), point(2)),
                _ => straight(at, point(0)),
            };
            handle = matches!(kind, 'c' | 's').then_some(second);
            now.points.extend([first, second, end]);
            at = end;
        }
    }
    if now.points.len() > 1 {
        found.push(now);
    }
    Ok(found)
}

type Piece = ((f64, f64), (f64, f64), (f64, f64));

fn straight(from: (f64, f64), to: (f64, f64)) -> Piece {
    let third = |share: f64| {
        (
            from.0 + share * (to.0 - from.0),
            from.1 + share * (to.1 - from.1),
        )
    };
    (third(1.0 / 3.0), third(2.0 / 3.0), to)
}

fn mirrored(handle: Option<(f64, f64)>, at: (f64, f64)) -> (f64, f64) {
    handle.map_or(at, |(x, y)| (2.0 * at.0 - x, 2.0 * at.1 - y))
}

/// A curve with one control point as one with two.
fn raised(from: (f64, f64), control: (f64, f64), to: (f64, f64)) -> Piece {
    let towards = |end: (f64, f64)| {
        (
            end.0 + 2.0 / 3.0 * (control.0 - end.0),
            end.1 + 2.0 / 3.0 * (control.1 - end.1),
        )
    };
    (towards(from), towards(to), to)
}

/// Twice the area inside the corners of an outline; its sign tells which way round it goes.
pub(super) fn turn(outline: &Outline) -> f64 {
    let corners: Vec<(f64, f64)> = outline.points.iter().step_by(3).copied().collect();
    (0..corners.len())
        .map(|i| {
            let (a, b) = (corners[i], corners[(i + 1) % corners.len()]);
            a.0 * b.1 - b.0 * a.1
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_read_as_its_standard_says() {
        // SVG 1.1 (W3C, 2011), section 8.3: a second pair after a move is a line, small letters
        // count from where the pen is, commands may stand without spaces.
        let read = |d: &str| outlines(d).unwrap_or_default();
        let square = read("M10 10h20v20h-20z");
        assert_eq!(square, read("M 10,10 L 30 10 30,30 10,30 Z"));
        assert!(square[0].closed && square[0].points.len() == 10);
        assert_eq!(read("m1-2 3-4")[0].points[3], (4.0, -6.0));
        assert_eq!(read("M0 0C1 1 2 1 3 0S5-1 6 0")[0].points[4], (4.0, -1.0));
        assert_eq!(read("M0 0 1.5.5")[0].points[3], (1.5, 0.5));
        assert_eq!(read("M0 0h1v1z M5 5h1v1z").len(), 2);
        assert!(outlines("M0 0A1 1 0 0 0 2 2").is_err() && outlines("M0").is_err());
        let (there, back) = (&read("M0 0h2v2h-2z")[0], &read("M0 0v2h2v-2z")[0]);
        assert!(turn(there) * turn(back) < 0.0);
    }
}
