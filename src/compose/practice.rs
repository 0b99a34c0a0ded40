//! The practice sheet and its key: sheets that belong to no trip.

use super::catalogue;
use super::engine::Engine;
use super::sample;
use super::sheets::{Copies, Folder, Look, READ};
use super::view::practice::{PracticeKey, PracticeSheet, key, sheet};
use super::{Options, Sheet};
use crate::course::practice::Practice;
use crate::diag::Outcome;
use crate::nouns::{self, Library};
use crate::phrase::{Phrase, phrase};
use crate::{doc, markdown};
use serde_json::Value;
use std::collections::BTreeMap;

/// One of the two sheets.
pub(super) struct Leaf {
    name: &'static str,
    title: fn() -> Phrase,
    about: fn() -> Phrase,
    folder: Folder,
    copies: Copies,
    /// A sample of its view, full or empty.
    pub sample: fn(bool) -> Value,
    fill: fn(&Practice, &Library, &str) -> Value,
}

impl Leaf {
    /// The name of its template.
    pub fn template(&self) -> String {
        format!("sheets/{}.md", self.name)
    }
}

/// How both look.
const LOOK: Look = Look {
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

/// Writes the problem sheet and its key; `command` makes both again and stands on the key.
///
/// # Errors
/// Templates that are broken, text that is not in the allowed Markdown.
pub fn practice(
    practice: &Practice,
    library: &Library,
    engine: &Engine,
    options: &Options,
    command: &str,
) -> Outcome<Vec<Sheet>> {
    let paper = match options.paper.unwrap_or(nouns::Paper::Letter) {
        nouns::Paper::Letter => doc::Paper::Letter,
        nouns::Paper::A4 => doc::Paper::A4,
    };
    let style = LOOK.style(paper, options.large_print);
    let foot = format!(
        "{} {}",
        catalogue::text(&phrase!(
            "foot-content",
            edition = library.edition.to_string()
        )),
        library.standing_line.trim()
    );
    let mut sheets = Vec::new();
    let mut problems = Vec::new();
    for leaf in LEAVES {
        let figures = BTreeMap::new();
        let view = (leaf.fill)(practice, library, command);
        let read = engine.fill(&leaf.template(), &view).and_then(|text| {
            markdown::read(leaf.name, &text, &figures, style.clone(), &foot)
                .map(|document| (text, document))
        });
        match read {
            Ok((markdown, document)) => sheets.push(Sheet {
                name: leaf.name.to_owned(),
                title: catalogue::text(&(leaf.title)()),
                folder: leaf.folder,
                kitchen: None,
                ending: String::new(),
                markdown,
                figures,
                style: style.clone(),
                foot: foot.clone(),
                document,
                workings: Vec::new(),
                about: catalogue::text(&(leaf.about)()),
                copies: 1,
                copies_for: catalogue::text(&leaf.copies.words()),
                print: catalogue::text(&phrase!("print-both-sides")),
                sides: super::sheets::Sides::Both,
            }),
            Err(more) => problems.extend(more),
        }
    }
    if problems.is_empty() {
        Ok(sheets)
    } else {
        Err(problems)
    }
}
