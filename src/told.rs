//! A message before it has a language: its English sentence with names in braces, and what
//! stands in them.
//!
//! A message is written beside the check that says it. [`Told`] keeps the sentence and the
//! values apart until it is printed, so that [`Messages`] can put another sentence in its place;
//! a value may be such a piece itself (`a mass from 0.1 g to 100 kg`). What a person typed, and
//! what another library says, stays as it is: [`Told::as_written`].

use std::collections::BTreeMap;
use std::fmt;

/// Words of a message, not yet in a language.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Told {
    /// A sentence or a piece of one, in which nothing changes.
    Plain(&'static str),
    /// A sentence with names in braces (`{{` is a brace), and what stands for each.
    Filled {
        /// The English sentence.
        template: &'static str,
        /// The values by name.
        values: Vec<(&'static str, Told)>,
    },
    /// A person's own text, or a number: the same in each language.
    Written(String),
    /// A text of the library that messages carry, such as why a value is usual.
    Kept(String),
    /// Pieces one after the other.
    Joined(Vec<Told>),
}

/// The sentences of one language by the English ones.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Messages(BTreeMap<String, String>);

/// A value on its way into a message: [`Told`] stays what it is, all else is shown.
#[derive(Clone, Copy, Debug)]
pub struct Put<'v, V: ?Sized>(pub &'v V);

impl Put<'_, Told> {
    /// The piece itself.
    #[must_use]
    pub fn told(&self) -> Told {
        self.0.clone()
    }
}

impl Put<'_, &Told> {
    /// The piece itself.
    #[must_use]
    pub fn told(&self) -> Told {
        (*self.0).clone()
    }
}

/// What [`Put`] does with a value that only shows itself.
pub trait Shown {
    /// Its text.
    fn told(&self) -> Told;
}

impl<V: fmt::Display + ?Sized> Shown for Put<'_, V> {
    fn told(&self) -> Told {
        Told::Written(self.0.to_string())
    }
}

/// A message with values by name: `told!("`{name}` is no stove of {list}", name, list = all())`.
///
/// The names are those in braces, each once; a [`Told`] among the values is put into the
/// reader's language on its own.
macro_rules! told {
    ($template:literal $(, $name:ident $(= $value:expr)?)+ $(,)?) => {{
        #[allow(unused_imports, reason = "needed where a value is no piece of a message")]
        use $crate::told::Shown as _;
        $crate::told::Told::Filled {
            template: $template,
            values: vec![$((
                stringify!($name),
                $crate::told::Put(&$crate::told::value_of!($name $(, $value)?)).told(),
            )),+],
        }
    }};
}
macro_rules! value_of {
    ($name:ident) => {
        $name
    };
    ($name:ident, $value:expr) => {
        $value
    };
}
pub(crate) use {told, value_of};

impl Told {
    /// No words at all.
    pub const NOTHING: Self = Self::Plain("");

    /// A text that is nobody's to translate.
    #[must_use]
    pub fn as_written(text: impl Into<String>) -> Self {
        Self::Written(text.into())
    }

    /// A text of the library that messages carry.
    #[must_use]
    pub fn of_library(text: impl Into<String>) -> Self {
        Self::Kept(text.into())
    }

    /// Pieces with the same sign between each two.
    #[must_use]
    pub fn list(pieces: impl IntoIterator<Item = impl Into<Self>>, between: &'static str) -> Self {
        let mut all = Vec::new();
        for piece in pieces {
            if !all.is_empty() {
                all.push(Self::Plain(between));
            }
            all.push(piece.into());
        }
        Self::Joined(all)
    }

    /// This and another piece behind it.
    #[must_use]
    pub fn and(self, more: impl Into<Self>) -> Self {
        let mut pieces = match self {
            Self::Joined(pieces) => pieces,
            Self::Plain("") => Vec::new(),
            other => vec![other],
        };
        pieces.push(more.into());
        Self::Joined(pieces)
    }

    /// Puts another piece behind it.
    pub fn push(&mut self, more: impl Into<Self>) {
        let before = std::mem::take(self);
        *self = before.and(more);
    }

    /// Puts a line of its own behind it.
    pub fn line(&mut self, line: impl Into<Self>) {
        self.push(line);
        self.push("\n");
    }

    /// Whether there is nothing to say.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.to_string().is_empty()
    }

    /// Whether the English words hold a text.
    #[must_use]
    pub fn contains(&self, text: &str) -> bool {
        self.to_string().contains(text)
    }

    /// Whether the English words start with a text.
    #[must_use]
    pub fn starts_with(&self, text: &str) -> bool {
        self.to_string().starts_with(text)
    }

    /// In a language; a sentence that it does not have stays English.
    #[must_use]
    pub fn said_in(&self, messages: &Messages) -> String {
        match self {
            Self::Plain(text) => messages.of(text).to_owned(),
            Self::Filled { template, values } => filled(messages.of(template), |name| {
                let found = values.iter().find(|(known, _)| *known == name);
                found.map(|(_, value)| value.said_in(messages))
            }),
            Self::Written(text) => text.clone(),
            Self::Kept(text) => messages.of(text).to_owned(),
            Self::Joined(pieces) => pieces.iter().map(|one| one.said_in(messages)).collect(),
        }
    }
}

impl Messages {
    /// Sentences by the English ones.
    #[must_use]
    pub fn new(sentences: BTreeMap<String, String>) -> Self {
        Self(sentences)
    }

    /// English: each sentence as it stands beside its check.
    #[must_use]
    pub fn english() -> Self {
        Self::default()
    }

    /// A sentence of the program, such as the word `error`.
    #[must_use]
    pub fn of<'m>(&'m self, english: &'m str) -> &'m str {
        self.0.get(english).map_or(english, String::as_str)
    }

    /// The English sentences that have one of their own here.
    pub fn sentences(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0.iter().map(|(en, own)| (en.as_str(), own.as_str()))
    }
}

/// A template with its names filled in; `{{` and `}}` are braces.
fn filled(template: &str, value: impl Fn(&str) -> Option<String>) -> String {
    let mut said = String::with_capacity(template.len());
    let mut rest = template;
    while let Some(at) = rest.find(['{', '}']) {
        said.push_str(&rest[..at]);
        let brace = &rest[at..=at];
        rest = &rest[at + 1..];
        if let Some(after) = rest.strip_prefix(brace) {
            said.push_str(brace);
            rest = after;
        } else if let Some((name, after)) = rest.split_once('}') {
            said.push_str(&value(name).unwrap_or_else(|| format!("{{{name}}}")));
            rest = after;
        }
    }
    said + rest
}

/// The English words.
impl fmt::Display for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said_in(&Messages::english()))
    }
}

impl fmt::Debug for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.to_string())
    }
}

impl Default for Told {
    fn default() -> Self {
        Self::NOTHING
    }
}

impl From<&'static str> for Told {
    fn from(text: &'static str) -> Self {
        Self::Plain(text)
    }
}

impl From<&Told> for Told {
    fn from(told: &Told) -> Self {
        told.clone()
    }
}

impl PartialEq<str> for Told {
    fn eq(&self, other: &str) -> bool {
        self.said_in(&Messages::english()) == other
    }
}

impl PartialEq<&str> for Told {
    fn eq(&self, other: &&str) -> bool {
        self.said_in(&Messages::english()) == *other
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_is_said_in_another_order_with_its_pieces_in_that_language() {
        let what = Told::from("a camp");
        let text = "a camp";
        let told = told!("expected {what}, found `{text}` {{as written}}", what, text);
        assert_eq!(told, "expected a camp, found `a camp` {as written}");
        let spanish = Messages::new(BTreeMap::from([
            (
                "expected {what}, found `{text}` {{as written}}".to_owned(),
                "dice `{text}`; se esperaba {what} {{tal cual}}".to_owned(),
            ),
            ("a camp".to_owned(), "un campamento".to_owned()),
        ]));
        assert_eq!(
            told.said_in(&spanish),
            "dice `a camp`; se esperaba un campamento {tal cual}"
        );
        assert_eq!(Told::from("other").said_in(&spanish), "other");
    }

    #[test]
    fn pieces_are_said_one_by_one() {
        let spanish = Messages::new(BTreeMap::from([(" or ".to_owned(), " o ".to_owned())]));
        let names = ["`a`", "`b`"].map(Told::as_written);
        let list = Told::list(names, " or ");
        assert_eq!(list.to_string(), "`a` or `b`");
        assert_eq!(list.said_in(&spanish), "`a` o `b`");
    }
}
