//! The practice sheet and its key, as rows of a table of their own.

use super::sample;
use super::sheets::look::{Copies, Folder, Look, READ};
use super::view::practice::{PracticeKey, PracticeSheet, key, sheet};
use crate::course::practice::Practice;
use crate::nouns::Library;
use crate::phrase::{Phrase, phrase};
use serde_json::Value;

/// One of the two sheets.
pub(super) struct Leaf {
    pub(super) name: &'static str,
    pub(super) title: fn() -> Phrase,
    pub(super) about: fn() -> Phrase,
    pub(super) folder: Folder,
    pub(super) copies: Copies,
    /// A sample of its view, full or empty.
    pub sample: fn(bool) -> Value,
    pub(super) fill: fn(&Practice, &Library, &str) -> Value,
}

impl Leaf {
    /// The name of its template.
    pub fn template(&self) -> String {
        format!("sheets/{}.md", self.name)
    }
}

/// How both look.
pub(super) const LOOK: Look = Look {
    body_pt: 11.0,
    caution_pt: 11.0,
    ..READ
};

/// The sheet, then its key.
pub(super) static LEAVES: &[Leaf] = &[
    Leaf {
        name: "practice",
        title: || phrase!("practice-title"),
        about: || phrase!("practice-about"),
        folder: Folder::Learners,
        copies: Copies::PerLearner,
        sample: sample::of::<PracticeSheet>,
        // A view holds texts, flags and lists, which always become JSON.
        fill: |practice, library, _| {
            serde_json::to_value(sheet(practice, library)).unwrap_or(Value::Null)
        },
    },
    Leaf {
        name: "practice-key",
        title: || phrase!("practice-key-title"),
        about: || phrase!("practice-key-about"),
        folder: Folder::Staff,
        copies: Copies::PerInstructor,
        sample: sample::of::<PracticeKey>,
        fill: |practice, library, command| {
            serde_json::to_value(key(practice, library, command)).unwrap_or(Value::Null)
        },
    },
];
