//! The formats of a sheet.

use crate::doc::Words;

/// A format of the sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Format {
    /// To print.
    Pdf,
    /// To read on a screen.
    Html,
    /// The composed text itself.
    Md,
    /// For a word processor.
    Docx,
}

impl Format {
    /// Every format, in order.
    pub const EVERY: [Self; 4] = [Self::Pdf, Self::Html, Self::Md, Self::Docx];

    /// The ending of its files.
    #[must_use]
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Html => "html",
            Self::Md => "md",
            Self::Docx => "docx",
        }
    }

    /// What a link to it says.
    pub(super) fn link(self, words: &Words) -> &str {
        match self {
            Self::Pdf => words.say("link-pdf"),
            Self::Html => words.say("link-html"),
            Self::Md => words.say("link-md"),
            Self::Docx => words.say("link-docx"),
        }
    }
}
