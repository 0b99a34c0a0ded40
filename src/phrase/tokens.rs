//! The text of a line as pieces: words and signs, numbers, and results of other lines.

use serde::{Serialize, Serializer};
use std::fmt;
use std::ops::Deref;
use std::sync::Arc;

/// The identity of a line: where it stands, `kitchen.blue.tarn-bench.supper.line.3`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StepId(Arc<str>);

impl StepId {
    /// An identity by its text.
    #[must_use]
    pub fn new(text: &str) -> Self {
        Self(text.into())
    }

    /// As text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for StepId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// Opens a number that knows where it is from, parts and closes it. Private-use signs: no text of
/// a trip or of the content holds them (`load` refuses them).
const OPEN: char = '\u{e010}';
const PART: char = '\u{e011}';
const CLOSE: char = '\u{e012}';

/// A piece of a line.
#[derive(Clone, Debug, PartialEq)]
pub enum Token {
    /// Words, signs, and numbers of no further interest.
    Words(String),
    /// A number that is given.
    Number {
        /// Before rounding.
        exact: f64,
        /// As printed.
        text: String,
    },
    /// The result of another line.
    Of {
        /// Which.
        step: StepId,
        /// Its result before rounding.
        exact: f64,
        /// Its result as printed.
        text: String,
    },
}

impl Token {
    /// As printed.
    #[must_use]
    pub fn text(&self) -> &str {
        match self {
            Self::Words(text) | Self::Number { text, .. } | Self::Of { text, .. } => text,
        }
    }

    /// As text that carries its origin, for [`Tokens::read`].
    pub(crate) fn marked(&self) -> String {
        match self {
            Self::Words(text) => text.clone(),
            Self::Number { exact, text } => marked(None, *exact, text),
            Self::Of { step, exact, text } => marked(Some(step), *exact, text),
        }
    }
}

/// The pieces of a line's formula or words; as text, what is printed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tokens {
    text: String,
    pieces: Vec<Token>,
}

impl Tokens {
    /// Takes a text apart in which numbers carry their origin.
    pub(crate) fn read(text: &str) -> Self {
        let mut pieces = Vec::new();
        let mut rest = text;
        while let Some((before, after)) = rest.split_once(OPEN) {
            let Some((inside, after)) = after.split_once(CLOSE) else {
                break;
            };
            if !before.is_empty() {
                pieces.push(Token::Words(before.to_owned()));
            }
            pieces.extend(number(inside));
            rest = after;
        }
        if !rest.is_empty() {
            pieces.push(Token::Words(rest.to_owned()));
        }
        Self {
            text: pieces.iter().map(Token::text).collect(),
            pieces,
        }
    }

    /// A text as printed, without where its numbers are from.
    pub(crate) fn plain(text: String) -> String {
        if text.contains(OPEN) {
            Self::read(&text).text
        } else {
            text
        }
    }

    /// As printed.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// Its pieces.
    pub fn iter(&self) -> impl Iterator<Item = &Token> {
        self.pieces.iter()
    }

    /// The lines whose results it holds.
    pub fn inputs(&self) -> impl Iterator<Item = &StepId> {
        self.pieces.iter().filter_map(|token| match token {
            Token::Of { step, .. } => Some(step),
            _ => None,
        })
    }

    /// As text in which results of other lines are named where a name is known.
    #[must_use]
    pub fn naming(&self, name: impl Fn(&StepId) -> Option<String>) -> String {
        let piece = |token: &Token| match token {
            Token::Of { step, text, .. } => name(step).unwrap_or_else(|| text.clone()),
            other => other.text().to_owned(),
        };
        self.pieces.iter().map(piece).collect()
    }
}

impl Deref for Tokens {
    type Target = str;

    fn deref(&self) -> &str {
        &self.text
    }
}

impl PartialEq<str> for Tokens {
    fn eq(&self, other: &str) -> bool {
        self.text == other
    }
}

impl PartialEq<&str> for Tokens {
    fn eq(&self, other: &&str) -> bool {
        self.text == *other
    }
}

impl fmt::Display for Tokens {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl Serialize for Tokens {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

/// A number as text that carries its origin, for [`Tokens::read`].
pub(crate) fn marked(of: Option<&StepId>, exact: f64, text: &str) -> String {
    let of = of.map_or("", |step| step.as_str());
    format!("{OPEN}{of}{PART}{exact}{PART}{text}{CLOSE}")
}

/// What stands between the signs.
fn number(inside: &str) -> Option<Token> {
    let mut parts = inside.splitn(3, PART);
    let (of, exact, text) = (parts.next()?, parts.next()?, parts.next()?.to_owned());
    let exact = exact.parse().unwrap_or(f64::NAN);
    Some(match of {
        "" => Token::Number { exact, text },
        step => Token::Of {
            step: StepId::new(step),
            exact,
            text,
        },
    })
}
