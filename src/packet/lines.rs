//! What is known of each sheet of a packet, those of earlier runs too: the manifest keeps a
//! line for each, so that the index pages tell the truth about all that lies there.

use super::format::Format;
use crate::compose::{
    Sheet,
    sheets::{self, Folder},
};
use crate::doc;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// The stem of the page to learn from by oneself.
pub(super) const LEARN: &str = "learn";

/// The name of this in a manifest.
pub(super) const SECTION: &str = "sheets";

/// One sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// Its name in the table of sheets: `kitchen-checklist`.
    pub sheet: String,
    /// Its title, with its kitchen.
    pub title: String,
    /// Whose folder it lies in; empty for what lies beside both.
    pub folder: String,
    /// What it is for.
    pub about: String,
    /// How many copies; none of a page that is only for a screen.
    pub copies: u32,
    /// For whom.
    pub copies_for: String,
    /// Pages of its PDF, when there is one.
    pub pages: Option<usize>,
    /// Leaves of paper for one copy, when there is a PDF.
    pub leaves: Option<usize>,
    /// How it is printed.
    pub print: String,
    /// The paper in words.
    pub paper: String,
    /// The formats that lie there, each with the revision that it was made from.
    pub formats: BTreeMap<String, String>,
}

/// Lines by the stem of their files' names.
pub type Lines = BTreeMap<String, Line>;

impl Line {
    /// The line of a sheet that was just drawn.
    pub(super) fn of(
        sheet: &Sheet,
        pages: Option<usize>,
        formats: &[Format],
        revision: &str,
    ) -> Self {
        Self {
            sheet: sheet.name.clone(),
            title: sheet.kitchen.as_ref().map_or_else(
                || sheet.title.clone(),
                |kitchen| format!("{}: {kitchen}", sheet.title),
            ),
            folder: sheet.folder.word().to_owned(),
            about: sheet.about.clone(),
            copies: sheet.copies,
            copies_for: sheet.copies_for.clone(),
            pages,
            leaves: pages.map(|pages| sheet.sides.leaves(pages)),
            print: how_to_print(&sheet.print, pages),
            paper: paper(sheet.style.paper).to_owned(),
            formats: formats
                .iter()
                .map(|format| (format.ending().to_owned(), revision.to_owned()))
                .collect(),
        }
    }

    /// The line of a page for learners that is never printed.
    pub(super) fn on_screen(title: &str, about: &str, of: doc::Paper, revision: &str) -> Self {
        Self {
            sheet: LEARN.to_owned(),
            title: title.to_owned(),
            folder: Folder::Learners.word().to_owned(),
            about: about.to_owned(),
            copies: 0,
            copies_for: String::new(),
            pages: None,
            leaves: None,
            print: String::new(),
            paper: paper(of).to_owned(),
            formats: BTreeMap::from([(Format::Html.ending().to_owned(), revision.to_owned())]),
        }
    }

    /// Its file in a format, seen from the packet's folder.
    #[must_use]
    pub fn file(&self, stem: &str, ending: &str) -> String {
        if self.folder.is_empty() {
            format!("{stem}.{ending}")
        } else {
            format!("{}/{stem}.{ending}", self.folder)
        }
    }

    /// Leaves of paper for all its copies.
    #[must_use]
    pub fn leaves_of_all(&self) -> usize {
        self.leaves.unwrap_or(0) * usize::try_from(self.copies).unwrap_or(usize::MAX)
    }

    /// Lines in the order that they are shown in, with the stems of their files.
    #[must_use]
    pub fn in_order(lines: &Lines) -> Vec<(&String, &Self)> {
        let mut all: Vec<(&String, &Self)> = lines.iter().collect();
        all.sort_by_key(|(stem, line)| (line.place(), (*stem).clone()));
        all
    }

    /// Where it stands among the others: the table's order.
    fn place(&self) -> usize {
        sheets::ALL
            .iter()
            .position(|row| row.name == self.sheet)
            .unwrap_or(usize::MAX)
    }
}

/// The paper in words.
pub(super) const fn paper(paper: doc::Paper) -> &'static str {
    match paper {
        doc::Paper::Letter => "letter",
        doc::Paper::A4 => "A4",
    }
}

/// New lines beside those of a manifest: what lies there still and was not made now stays. The
/// second value is the stems of sheets that the trip no longer has.
pub(super) fn beside(
    new: &Lines,
    old: Option<&BTreeMap<String, Value>>,
    files: &BTreeSet<String>,
) -> (Lines, BTreeSet<String>) {
    let made: BTreeSet<&str> = new.values().map(|line| line.sheet.as_str()).collect();
    let mut all = new.clone();
    let mut gone = BTreeSet::new();
    for (stem, value) in old.into_iter().flatten() {
        let Ok(line) = serde_json::from_value::<Line>(value.clone()) else {
            continue;
        };
        let there = |ending: &&String| files.contains(&line.file(stem, ending));
        let formats: BTreeMap<String, String> = line
            .formats
            .iter()
            .filter(|(ending, _)| there(ending))
            .map(|(ending, revision)| (ending.clone(), revision.clone()))
            .collect();
        match all.get_mut(stem) {
            Some(made) => {
                if made.pages.is_none() && formats.contains_key(Format::Pdf.ending()) {
                    (made.pages, made.leaves) = (line.pages, line.leaves);
                }
                for (ending, revision) in formats {
                    made.formats.entry(ending).or_insert(revision);
                }
            }
            None if made.contains(line.sheet.as_str()) => {
                gone.insert(stem.clone());
            }
            None if formats.is_empty() => {}
            None => {
                all.insert(stem.clone(), Line { formats, ..line });
            }
        }
    }
    (all, gone)
}

/// How a sheet is printed: what fits on a leaf in the usual print may take more in large print.
pub(super) fn how_to_print(print: &str, pages: Option<usize>) -> String {
    if pages > Some(2) && print.contains("one leaf") {
        "both sides".to_owned()
    } else {
        print.to_owned()
    }
}

pub(super) fn path(sheet: &Sheet, format: Format) -> String {
    format!(
        "{}/{}.{}",
        sheet.folder.word(),
        sheet.file_stem(),
        format.ending()
    )
}
