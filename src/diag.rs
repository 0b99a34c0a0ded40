//! What is wrong, where, and what to write instead.
//!
//! Every stage that can fail returns [`Problem`]s, as many as it can find at
//! once. A problem names a key path (`camps[1].elevation`); `load` turns the
//! path into a [`Place`] with file, line and column.

pub(crate) use crate::told::told;
pub use crate::told::{Messages, Put, Shown, Told};

use std::fmt::{self, Write as _};
use std::sync::Arc;

/// A text that came from a file, with the name that a person knows it by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// The path as the person gave it, or `built-in:content/modules/..`.
    pub name: Arc<str>,
    /// The whole text.
    pub text: Arc<str>,
}

/// A spot in a source. Lines and columns count from 1; columns count characters.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The file's name.
    pub file: Arc<str>,
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
    /// How many characters to underline (at least 1).
    pub width: usize,
    /// The line's text, shortened if it is very long.
    pub text: String,
}

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Nothing is written.
    Error,
    /// Worth a look; the work goes on.
    Warning,
}

/// Something that a person should change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Whether work can go on.
    pub severity: Severity,
    /// A short stable name: `trip.temperature`, `yaml.syntax`.
    pub code: &'static str,
    /// What is wrong and what was expected, in a cook's words, one sentence.
    pub message: Told,
    /// The file that the path belongs to.
    pub file: Option<Arc<str>>,
    /// The key path: `camps[1].elevation`.
    pub path: Option<String>,
    /// Where it is, once `load` has looked.
    pub place: Option<Place>,
    /// What to write instead.
    pub help: Told,
}

/// Every problem found, or the value.
pub type Outcome<T> = Result<T, Vec<Problem>>;

impl Problem {
    /// An error without a place yet.
    #[must_use]
    pub fn error(code: &'static str, message: impl Into<Told>, help: impl Into<Told>) -> Self {
        Self {
            severity: Severity::Error,
            code,
            message: message.into(),
            file: None,
            path: None,
            place: None,
            help: help.into(),
        }
    }

    /// A warning without a place yet.
    #[must_use]
    pub fn warning(code: &'static str, message: impl Into<Told>, help: impl Into<Told>) -> Self {
        Self {
            severity: Severity::Warning,
            ..Self::error(code, message, help)
        }
    }

    /// The same problem at a key path of a file.
    #[must_use]
    pub fn at(mut self, file: impl Into<Arc<str>>, path: impl Into<String>) -> Self {
        self.file = Some(file.into());
        self.path = Some(path.into());
        self
    }

    /// The same problem in a file as a whole.
    #[must_use]
    pub fn in_file(mut self, file: impl Into<Arc<str>>) -> Self {
        self.file = Some(file.into());
        self
    }

    /// The same problem with its place found.
    #[must_use]
    pub fn placed(mut self, place: Place) -> Self {
        self.file = Some(place.file.clone());
        self.place = Some(place);
        self
    }
}

/// As a person sees it on a terminal, in English: code and message, place, the line with carets,
/// help.
impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said_in(&Messages::english()))
    }
}

impl Problem {
    /// As [`fmt::Display`] shows it, in a language.
    #[must_use]
    pub fn said_in(&self, messages: &Messages) -> String {
        let word = match self.severity {
            Severity::Error => messages.of("error"),
            Severity::Warning => messages.of("warning"),
        };
        let mut said = format!("{word}[{}]: {}", self.code, self.message.said_in(messages));
        // writing to a string cannot fail
        let _ = self.shown_place(&mut said);
        let help = self.help.said_in(messages);
        if !help.is_empty() {
            let _ = write!(said, "\n  = {}: {help}", messages.of("help"));
        }
        said
    }

    /// Where it is: the file, the line and the carets below it.
    fn shown_place(&self, f: &mut String) -> fmt::Result {
        if let Some(place) = &self.place {
            let gutter = place.line.to_string().len();
            write!(
                f,
                "\n{:gutter$}--> {}:{}:{}",
                "", place.file, place.line, place.column
            )?;
            write!(f, "\n{:gutter$} |\n{} | {}", "", place.line, place.text)?;
            write!(
                f,
                "\n{:gutter$} | {:indent$}{}",
                "",
                "",
                "^".repeat(place.width.max(1)),
                // a very long line is shown in part: the carets stay at its end
                indent = (place.column - 1).min(place.text.chars().count()),
            )?;
            if let Some(path) = &self.path {
                write!(f, " {path}")?;
            }
        } else if let Some(file) = &self.file {
            write!(f, "\n --> {file}")?;
            if let Some(path) = &self.path {
                write!(f, ": {path}")?;
            }
        }
        Ok(())
    }
}

/// All problems, one after the other, as a person sees them.
#[must_use]
pub fn report(problems: &[Problem]) -> String {
    report_in(problems, &Messages::english())
}

/// All problems, one after the other, in a language.
#[must_use]
pub fn report_in(problems: &[Problem], messages: &Messages) -> String {
    let said = problems.iter().map(|one| one.said_in(messages) + "\n\n");
    said.collect()
}

/// The known names that may be meant: all that share a whole word with what was typed, else the
/// one that differs by few letters.
#[must_use]
pub fn near<'a>(word: &str, known: impl IntoIterator<Item = &'a str> + Clone) -> Vec<&'a str> {
    const SHORTEST: usize = 3;
    let parts = |name: &str| -> Vec<String> {
        name.to_lowercase()
            .split(|c: char| !c.is_alphanumeric())
            .filter(|part| part.chars().count() >= SHORTEST)
            .map(str::to_owned)
            .collect()
    };
    let typed = parts(word);
    let mut shared: Vec<(usize, &str)> = known
        .clone()
        .into_iter()
        .map(|name| {
            let both = parts(name)
                .iter()
                .filter(|part| typed.contains(part))
                .count();
            (both, name)
        })
        .filter(|(both, _)| *both > 0)
        .collect();
    let most = shared.iter().map(|(both, _)| *both).max();
    shared.retain(|(both, _)| Some(*both) == most);
    if shared.is_empty() {
        return nearest(word, known).into_iter().collect();
    }
    shared.into_iter().map(|(_, name)| name).collect()
}

/// The known name nearest to a misspelt one, if any is near.
#[must_use]
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    known
        .into_iter()
        .map(|name| (strsim::damerau_levenshtein(word, name), name))
        .filter(|(distance, name)| {
            // a third of the letters: `car` is no slip for `air`
            let shorter = word.chars().count().min(name.chars().count());
            *distance <= (shorter / 3).max(1) && *distance < shorter
        })
        .min()
        .map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_words_come_before_letters() {
        let places = [
            "inland-forest",
            "nsw-forest",
            "alpine-snow",
            "uk-hills",
            "lake",
        ];
        assert_eq!(near("forest", places), ["inland-forest", "nsw-forest"]);
        assert_eq!(near("Inland woods", places), ["inland-forest"]);
        assert_eq!(near("alpine snow", places), ["alpine-snow"]);
        assert_eq!(near("lakes", places), ["lake"]);
        assert!(near("moon", places).is_empty());
    }
}
