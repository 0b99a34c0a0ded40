//! Tags of canisters: what stands on the sticker, and when two spellings mean one tag.

use std::cmp::Ordering;

/// The characters that a check character is reckoned from, with their values.
const SIGNS: &[u8; 36] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/// A tag as it is compared: letters and digits only, capitals, no zeros in front of a number,
/// and without its check character. `F-014`, `f014` and `F 14` are one tag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tag(String);

/// As people count: `F-002` before `F-010`.
impl Ord for Tag {
    fn cmp(&self, other: &Self) -> Ordering {
        fn key(tag: &Tag) -> (&str, Option<u32>) {
            match tag.parts() {
                Some((prefix, number)) => (prefix, Some(number)),
                None => (&tag.0, None),
            }
        }
        key(self)
            .cmp(&key(other))
            .then_with(|| self.0.cmp(&other.0))
    }
}

impl PartialOrd for Tag {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// Why a text is no tag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoTag {
    /// It holds no letter or digit of a tag, or more than twenty.
    Empty,
    /// Its check character is another: two characters were swapped or one was misread.
    Check {
        /// What would stand there if the rest were right.
        expected: char,
    },
}

impl Tag {
    /// Reads a tag as somebody types it. A point and one character at its end (`F-014.9`) is
    /// its check character; a tag without one is taken as it is.
    ///
    /// # Errors
    /// [`NoTag`].
    pub fn read(text: &str) -> Result<Self, NoTag> {
        let text = text.trim();
        let (name, check) = match text.rsplit_once('.') {
            Some((name, check)) if check.chars().count() == 1 => (name, check.chars().next()),
            _ => (text, None),
        };
        let tag = Self(folded(name));
        if tag.0.is_empty() || tag.0.len() > 20 {
            return Err(NoTag::Empty);
        }
        let expected = check_character(&tag.0);
        match check.map(|sign| sign.to_ascii_uppercase()) {
            Some(sign) if sign != expected => Err(NoTag::Check { expected }),
            _ => Ok(tag),
        }
    }

    /// The tag that a prefix and a number make: `F` and 14 make `F14`.
    #[must_use]
    pub fn numbered(prefix: &str, number: u32) -> Self {
        Self(folded(&format!("{prefix}-{number}")))
    }

    /// Its letters and its number: `F14` is `F` and 14. None where it ends in no number.
    #[must_use]
    pub fn parts(&self) -> Option<(&str, u32)> {
        let digits = self.0.bytes().rev().take_while(u8::is_ascii_digit).count();
        let (prefix, number) = self.0.split_at(self.0.len() - digits);
        Some((prefix, number.parse().ok()?))
    }

    /// As it is compared.
    #[must_use]
    pub fn key(&self) -> &str {
        &self.0
    }

    /// As a sticker shows it, with three digits and its check character: `F-014.9`.
    #[must_use]
    pub fn sticker(&self) -> String {
        let name = match self.parts() {
            Some(("", number)) => format!("{number:03}"),
            Some((prefix, number)) => format!("{prefix}-{number:03}"),
            None => self.0.clone(),
        };
        format!("{name}.{}", check_character(&self.0))
    }
}

/// Letters and digits in capitals, without zeros in front of the last number.
fn folded(name: &str) -> String {
    let signs: String = name
        .chars()
        .filter(char::is_ascii_alphanumeric)
        .map(|sign| sign.to_ascii_uppercase())
        .collect();
    let digits = signs.bytes().rev().take_while(u8::is_ascii_digit).count();
    let (prefix, number) = signs.split_at(signs.len() - digits);
    let short = number.trim_start_matches('0');
    let number = if short.is_empty() && !number.is_empty() {
        "0"
    } else {
        short
    };
    format!("{prefix}{number}")
}

/// The check character of letters and digits by ISO/IEC 7064, the hybrid system MOD 37,36: it
/// finds every single wrong character and nearly every swap of two neighbours.
///
/// From `p = 36`, for each character of value `a`: `s = (p + a) mod 36` (0 counts as 36), then
/// `p = 2 s mod 37`. The check character is the one of value `(37 - p) mod 36`.
/// Worked example (the standard identifier GRid, ISO/IEC 7064 named as its method; from memory):
/// `A12425GABC1234002` has the check character `M`. Characters that are no letter or digit are
/// passed over.
#[must_use]
pub fn check_character(text: &str) -> char {
    let p = text
        .bytes()
        .filter_map(|sign| {
            let sign = sign.to_ascii_uppercase();
            SIGNS.iter().position(|known| *known == sign)
        })
        .fold(36, |p, value| {
            let sum = (p + value) % 36;
            (if sum == 0 { 36 } else { sum }) * 2 % 37
        });
    char::from(SIGNS[(37 - p) % 36])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_stand_as_people_count() {
        let tag = |text: &str| Tag::read(text).unwrap();
        let mut tags = ["G-1", "F-10", "F1A", "F-2", "F-019"].map(tag);
        tags.sort();
        assert_eq!(tags, ["F-2", "F-10", "F-019", "F1A", "G-1"].map(tag));
    }

    #[test]
    fn the_check_character_is_that_of_iso_7064() {
        // ISO/IEC 7064 MOD 37,36; worked example of the GRid standard, from memory
        assert_eq!(check_character("A12425GABC1234002"), 'M');
    }

    #[test]
    fn spellings_of_one_tag_are_one() {
        let tag = Tag::read("F-014").unwrap();
        for other in ["f014", "F 14", "f-14", " F.-0014", &tag.sticker()] {
            assert_eq!(Tag::read(other).as_ref(), Ok(&tag), "{other}");
        }
        assert_eq!(tag.parts(), Some(("F", 14)));
        assert_ne!(Tag::read("F-140"), Ok(tag));
    }

    #[test]
    fn one_wrong_character_is_found() {
        let sticker = Tag::numbered("F", 14).sticker();
        let check = sticker.chars().last().unwrap();
        for wrong in ["F-015", "F-041", "E-014", "F-114"] {
            let read = Tag::read(&format!("{wrong}.{check}"));
            assert!(matches!(read, Err(NoTag::Check { .. })), "{wrong}");
        }
        assert_eq!(Tag::read("--"), Err(NoTag::Empty));
    }
}
