//! A document as a tagged PDF: text is shaped and broken (`text`), blocks are
//! laid out on pages (`layout`), pages are painted (`paint`), and the file gets
//! its structure, fields and outline (`finish`).
//!
//! Equal documents give equal bytes, on any thread and however many came before.

mod bind;
mod breaks;
mod finish;
mod layout;
mod paint;
mod sfnt;
mod text;

pub use bind::{Part, bind};
pub use text::Faces;

use crate::diag::{Outcome, Problem, Told, told};
use crate::doc::{CardFold, Document, Figure, Paper, Words};
use std::sync::Arc;

/// A finished PDF file.
#[derive(Clone, Debug)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What a person should look at: characters that the faces do not hold,
    /// links that lead nowhere.
    pub warnings: Vec<Problem>,
}

/// Draws a document as a PDF file.
///
/// # Errors
/// `render.too_long` when it has more pages than its style allows even at its
/// tightest; `render.card_full` when a study card holds more than a page.
pub fn pdf(document: &Document, faces: &Faces) -> Outcome<Pdf> {
    let document = &document.in_plain_words();
    drawn(document, faces, &layout::layout(document, faces)?)
}

/// As [`pdf`], but a document that is too long gets more pages, as few as it can do with; where
/// that is more than `more` of them, it is not tightened at all. The problem stands beside the
/// file then.
///
/// # Errors
/// As [`pdf`], but for `render.too_long`.
pub fn pdf_or_longer(
    document: &Document,
    faces: &Faces,
    more: usize,
) -> Outcome<(Pdf, Option<Problem>)> {
    let document = &document.in_plain_words();
    let (layout, problem) = layout::layout_or_longer(document, faces, more)?;
    Ok((drawn(document, faces, &layout)?, problem))
}

/// Draws pages of figures alone, each as large as it is and counted from the corner of the paper.
///
/// # Errors
/// When a face cannot be cut down, or the file cannot be finished.
pub fn figures(
    title: &str,
    paper: Paper,
    pages: &[Vec<Figure>],
    faces: &Faces,
    words: &Arc<Words>,
) -> Outcome<Pdf> {
    let mut layout = layout::whole_pages(title, paper, pages, faces);
    layout.words = Arc::clone(words);
    finished(title, None, faces, &layout)
}

/// A layout painted and finished.
fn drawn(document: &Document, faces: &Faces, layout: &layout::Layout) -> Outcome<Pdf> {
    finished(&document.title, document.style.cards, faces, layout)
}

fn finished(
    title: &str,
    fold: Option<CardFold>,
    faces: &Faces,
    layout: &layout::Layout,
) -> Outcome<Pdf> {
    let mut warnings: Vec<Problem> = missing(layout.missing.iter().copied(), title)
        .into_iter()
        .collect();
    let painted = paint::paint(layout, faces)?;
    let bytes = finish::finish(painted, layout, fold, &mut warnings)?;
    Ok(Pdf {
        bytes,
        pages: layout.pages.len(),
        warnings,
    })
}

/// The placed lines of a document as text, for comparing layouts.
///
/// # Errors
/// As [`pdf`].
pub fn layout_text(document: &Document, faces: &Faces) -> Outcome<String> {
    Ok(layout::say(&layout::layout(document, faces)?))
}

/// What a person should know of characters that no face holds: one warning for all.
fn missing(characters: impl Iterator<Item = char>, title: &str) -> Option<Problem> {
    let named: Vec<String> = characters
        .map(|character| {
            let code = u32::from(character);
            if character.is_control() {
                format!("U+{code:04X} (a control character)")
            } else {
                format!("`{character}` (U+{code:04X})")
            }
        })
        .collect();
    let (named, drawn) = match named.as_slice() {
        [] => return None,
        [one] => (told!("character {one}", one), "a replacement is drawn"),
        many => (
            told!("characters {many}", many = many.join(", ")),
            "replacements are drawn",
        ),
    };
    let title = title.replace(char::is_control, " ");
    Some(Problem::warning(
        "render.character",
        told!(
            "the print has no {named}, used in `{title}`; {drawn}",
            named,
            title,
            drawn = Told::from(drawn)
        ),
        "write it in other words or letters",
    ))
}
