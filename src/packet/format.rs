//! The formats of a sheet.

use crate::phrase::{Phrase, phrase};

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
    pub(super) fn link(self) -> Phrase {
        match self {
            Self::Pdf => phrase!("index-link-pdf"),
            Self::Html => phrase!("index-link-html"),
            Self::Md => phrase!("index-link-md"),
            Self::Docx => phrase!("index-link-docx"),
        }
    }
}
