//! The pages that lead through a packet on a screen.

use super::{Format, how_to_print};
use crate::compose::{self, Sheet, sheets::Folder};
use crate::doc;
use crate::nouns::Library;
use crate::render::html;

/// The index page of a folder, with its print guide.
pub(super) fn page(
    title_of_all: &str,
    library: &Library,
    folder: Folder,
    sheets: &[(&Sheet, Option<usize>)],
    formats: &[Format],
) -> html::IndexPage {
    let paper = sheets
        .first()
        .map_or(doc::Paper::Letter, |(sheet, _)| sheet.style.paper);
    let paper_words = match paper {
        doc::Paper::Letter => "letter",
        doc::Paper::A4 => "A4",
    };
    let (title, note) = match folder {
        Folder::Learners => (
            "for learners",
            "Sheets to hand out. Keys lie with the staff.",
        ),
        Folder::Staff => (
            "for staff",
            "Keys, plans and records: keep this folder away from learners.",
        ),
    };
    let lines = sheets
        .iter()
        .map(|(sheet, pages)| {
            let sides = pages.map_or_else(
                || sheet.print.clone(),
                |pages| {
                    format!(
                        "{}; {}",
                        compose::words::count(
                            u32::try_from(pages).unwrap_or(u32::MAX),
                            "side",
                            "sides"
                        ),
                        how_to_print(&sheet.print, Some(pages))
                    )
                },
            );
            html::IndexSheet {
                title: sheet.kitchen.as_ref().map_or_else(
                    || sheet.title.clone(),
                    |kitchen| format!("{}: {kitchen}", sheet.title),
                ),
                about: sheet.about.clone(),
                links: formats
                    .iter()
                    .map(|format| {
                        (
                            format.link().to_owned(),
                            format!("{}.{}", sheet.file_stem(), format.ending()),
                        )
                    })
                    .collect(),
                copies: Some(sheet.copies),
                copies_for: sheet.copies_for.clone(),
                sides,
                paper: paper_words.to_owned(),
            }
        })
        .collect();
    html::IndexPage {
        title: format!("{title_of_all}: {title}"),
        notes: vec![note.to_owned(), library.standing_line.trim().to_owned()],
        groups: vec![html::IndexGroup {
            title: "Sheets and how to print them".to_owned(),
            sheets: lines,
        }],
        foot: format!("Content of {}.", library.edition),
        paper,
    }
}
