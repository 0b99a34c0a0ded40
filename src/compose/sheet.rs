//! A sheet as it leaves this room, and what may be asked of the sheets.

use super::sheets::look::{Folder, Sides};
use crate::doc;
use crate::nouns;
use crate::plan::places::slug;
use crate::units::Units;
use std::collections::BTreeMap;

/// What the command line may ask of the sheets.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// Only these sheets; empty is all.
    pub only: Vec<String>,
    /// Other units than the trip's.
    pub units: Option<Units>,
    /// Other paper than the trip's.
    pub paper: Option<nouns::Paper>,
    /// Larger print for those who need it.
    pub large_print: bool,
    /// Whom the fuel worksheet is for; none leaves it to the trip.
    pub level: Option<nouns::Level>,
    /// Which state of trip, content and program this is, for the foot of each page.
    pub revision: Option<String>,
}

/// A sheet of the packet, as text with its figures beside it.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Its name: `fuel-worksheet`.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Where it lies.
    pub folder: Folder,
    /// The kitchen it is for, when there is one a kitchen.
    pub kitchen: Option<String>,
    /// What its file's name adds to the sheet's, when the sheet has several papers: `form-b`.
    pub ending: String,
    /// The Markdown.
    pub markdown: String,
    /// The figures it calls for.
    pub figures: BTreeMap<String, doc::Figure>,
    /// How it is laid out.
    pub style: doc::Style,
    /// The line at the foot of each page.
    pub foot: String,
    /// The text read into blocks.
    pub document: doc::Document,
    /// How what it says came about.
    pub workings: Vec<doc::Working>,
    /// What it is for, one line.
    pub about: String,
    /// How many to print.
    pub copies: u32,
    /// For whom: `one a learner`.
    pub copies_for: String,
    /// How to print it.
    pub print: String,
    /// Which sides of its leaves are printed.
    pub sides: Sides,
}

impl Sheet {
    /// The file's name without its ending: `kitchen-checklist-blue`.
    #[must_use]
    pub fn file_stem(&self) -> String {
        self.kitchen.as_ref().map_or_else(
            || match self.ending.as_str() {
                "" => self.name.clone(),
                ending => format!("{}-{ending}", self.name),
            },
            |kitchen| format!("{}-{}", self.name, slug(kitchen)),
        )
    }
}
