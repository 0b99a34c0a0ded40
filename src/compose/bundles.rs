//! The bundles: the sheets that one reader prints, in the order that they are read in.

use super::catalogue;
use super::sheets;
use crate::diag::{Outcome, Problem, nearest, told};
use crate::nouns;
use crate::phrase::phrase;

/// A bundle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bundle {
    /// The instructor, the evening before.
    Tonight,
    /// The learners, to read and to keep.
    Learners,
    /// The group on its way: what is signed, packed, cooked from and brought back.
    Field,
    /// Whoever plans, hands out and files.
    Office,
    /// Everything.
    All,
}

impl Bundle {
    /// Every bundle.
    pub const EVERY: [Self; 5] = [
        Self::Tonight,
        Self::Learners,
        Self::Field,
        Self::Office,
        Self::All,
    ];

    /// Its name on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tonight => "tonight",
            Self::Learners => "learners",
            Self::Field => "field",
            Self::Office => "office",
            Self::All => "all",
        }
    }

    /// Whom it is for, as a title.
    #[must_use]
    pub fn title(self) -> String {
        catalogue::text(&match self {
            Self::Tonight => phrase!("bundle-tonight"),
            Self::Learners => phrase!("bundle-learners"),
            Self::Field => phrase!("bundle-field"),
            Self::Office => phrase!("bundle-office"),
            Self::All => phrase!("bundle-all"),
        })
    }

    /// Its sheets, in print order.
    #[must_use]
    pub fn sheets(self) -> Vec<&'static str> {
        match self {
            Self::Tonight => vec![
                "lesson-plan",
                "briefing-sheet",
                "kitchen-checklist",
                "station-posters",
                "register",
            ],
            Self::Learners => vec![
                "learner-page",
                "lesson-handout",
                "fuel-worksheet",
                "stove-choice",
                "study-cards",
                "shake-down",
                "sources",
            ],
            Self::Field => vec![
                "briefing-sheet",
                "packing-list",
                "kitchen-checklist",
                "return-sheet",
            ],
            Self::Office => vec![
                "intake",
                "risk-assessment",
                "parent-letter",
                "equipment-request",
                "register",
                "briefing-sheet",
                "packing-list",
                "return-sheet",
                "fuel-worksheet-key",
                "skills-check",
                "skills-check-key",
                "learner-page",
                "certificate",
                "week-later",
                "slides",
                "instructor-notes",
                "sources",
            ],
            Self::All => sheets::ALL.iter().map(|row| row.name).collect(),
        }
    }

    /// The bundle of a name.
    ///
    /// # Errors
    /// A name that no bundle has, with the nearest right one.
    pub fn find(name: &str) -> Outcome<Self> {
        let id = nouns::id(name);
        let found = Self::EVERY.into_iter().find(|one| one.word() == id);
        found.ok_or_else(|| {
            let known = Self::EVERY.map(Self::word);
            let help = nearest(&id, known).map_or_else(
                || told!("write one of {known}", known = known.join(", ")),
                |near| told!("did you mean `{near}`?", near),
            );
            vec![Problem::error(
                "flag.bundle",
                told!("no bundle is called `{name}`", name),
                help,
            )]
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn a_bundle_holds_sheets_of_the_table_each_once() {
        for bundle in Bundle::EVERY {
            let names = bundle.sheets();
            let known: BTreeSet<_> = names.iter().collect();
            assert_eq!(known.len(), names.len(), "{}", bundle.word());
            for name in names {
                assert!(sheets::find(name).is_some(), "{name} is no sheet");
            }
            assert_eq!(Bundle::find(bundle.word()).unwrap(), bundle);
        }
    }

    #[test]
    fn no_key_is_in_the_learners_bundle() {
        for name in Bundle::Learners.sheets() {
            let row = sheets::find(name).unwrap();
            assert_eq!(row.folder, sheets::Folder::Learners, "{name}");
        }
    }
}
