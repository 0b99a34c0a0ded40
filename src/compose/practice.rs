//! The practice sheet and its key: sheets that belong to no trip.

use super::catalogue;
use super::engine::Engine;
use super::leaves::{LEAVES, LOOK};
use super::sheet::{Options, Sheet};
use super::sheets::look::Sides;
use crate::course::practice::Practice;
use crate::diag::Outcome;
use crate::nouns::{self, Library};
use crate::phrase::phrase;
use crate::{doc, markdown};
use std::collections::BTreeMap;

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
                sides: Sides::Both,
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
