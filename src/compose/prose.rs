//! A module's prose with its facts filled in, as Markdown.

use super::catalogue;
use super::facts::{Filler as Facts, Piece};
use crate::markdown;
use crate::nouns::{AppliesWhen, CampRule, Fact, Library, Module, Trip};
use crate::phrase::phrase;
use crate::units::Units;
use std::collections::BTreeSet;

/// Fills facts into prose.
#[derive(Clone, Copy)]
pub struct Filler<'a>(Facts<'a>);

impl<'a> Filler<'a> {
    /// A filler of a trip's sheets.
    #[must_use]
    pub const fn new(library: &'a Library, trip: &'a Trip, units: Units) -> Self {
        Self(Facts {
            library,
            trip,
            units,
        })
    }

    /// Markdown of a module with `{fact}` and `{module.fact}` printed.
    #[must_use]
    pub fn prose(&self, module: &Module, text: &str) -> String {
        marked(&self.0.pieces(module, text, &AppliesWhen::default()))
    }

    /// The same on one line, for table cells, list items and cautions.
    #[must_use]
    pub fn line(&self, module: &Module, text: &str) -> String {
        one_line(&self.prose(module, text))
    }

    /// The same for what holds at some camps only: its rules are those of the camps there.
    #[must_use]
    pub fn line_for(&self, module: &Module, text: &str, applies: &AppliesWhen) -> String {
        one_line(&marked(&self.0.pieces(module, text, applies)))
    }

    /// As [`Filler::line_for`]; where other camps are elsewhere it names its own.
    #[must_use]
    pub fn item_for(&self, module: &Module, text: &str, applies: &AppliesWhen) -> String {
        let text = self.line_for(module, text, applies);
        let all = &self.0.trip.camps;
        let camps: Vec<&str> = all
            .iter()
            .filter(|camp| self.0.is_there(applies, camp))
            .map(|camp| camp.name.as_str())
            .collect();
        match camps.as_slice() {
            [] => text,
            these if these.len() == all.len() => text,
            // Two names fit on a line.
            few if few.len() <= 2 => format!("{text} ({})", markdown::escape(&few.join(", "))),
            many => catalogue::text(&phrase!(
                "item-at-some-camps",
                item = text,
                count = many.len()
            )),
        }
    }

    /// A fact in force as people read it, by its id (`MODULE.NAME`).
    #[must_use]
    pub fn say(&self, id: &str, fact: &Fact) -> String {
        plain(&self.0.fact(id, fact, &AppliesWhen::default()))
    }

    /// A rule in force at the trip's camps: said once where all agree, else camp by camp.
    #[must_use]
    pub fn rule(&self, key: &str) -> String {
        plain(&self.0.rule(key, &AppliesWhen::default()))
    }

    /// A camp's rule in words, with 'verify' if nobody read it at its source.
    #[must_use]
    pub fn rule_words(&self, rule: &CampRule) -> String {
        self.0.rule_words(rule)
    }

    /// The sources of the facts that a text names.
    pub fn sources(&self, module: &Module, text: &str, into: &mut BTreeSet<String>) {
        self.0.sources(module, text, into);
    }
}

/// Filled text as Markdown: values and names are plain text in it.
fn marked(pieces: &[Piece]) -> String {
    let piece = |piece: &Piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Said { of, si, words } => markdown::said(of, *si, &markdown::escape(words)),
        Piece::Names(words) => {
            let blank = |end: bool| if end { " " } else { "" };
            let (start, end) = (words.starts_with(' '), words.ends_with(' '));
            format!("{}{}{}", blank(start), markdown::escape(words), blank(end))
        }
        Piece::Unknown(words) => markdown::escape(words),
    };
    pieces.iter().map(piece).collect()
}

/// Filled text for a template, which does the escaping.
fn plain(pieces: &[Piece]) -> String {
    let piece = |piece: &Piece| match piece {
        Piece::Said { of, si, words } => markdown::said(of, *si, words),
        other => other.words().to_owned(),
    };
    pieces.iter().map(piece).collect()
}

/// Markdown on one line.
#[must_use]
pub fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A sentence: with a full stop at its end when it has none.
#[must_use]
pub fn sentence(text: &str) -> String {
    let text = text.trim();
    if text.is_empty() || text.ends_with(['.', '!', '?', ':']) {
        text.to_owned()
    } else {
        format!("{text}.")
    }
}

/// Every line of Markdown behind a mark: `>` makes a box of it.
#[must_use]
pub fn lines_behind(text: &str, mark: &str) -> String {
    text.trim()
        .lines()
        .map(|line| format!("{mark} {line}").trim_end().to_owned())
        .collect::<Vec<_>>()
        .join("\n")
}
