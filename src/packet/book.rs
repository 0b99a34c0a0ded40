//! The sheets of one reader in one file, in print order.

use super::format::Format;
use super::lines::{Line, Lines, path};
use crate::compose::{Sheet, bundles::Bundle, catalogue::text, season};
use crate::diag::Outcome;
use crate::phrase::phrase;
use crate::render::pdf::{self, Part};
use std::collections::BTreeMap;

/// The stem of its file's name.
pub(super) const STEM: &str = "packet";

/// A bound packet: its line, its file, and the sheets in it.
pub(super) type Book = (Line, Vec<u8>, Vec<season::Bound>);

/// The sheet that the store room gets back.
const RETURNS: &str = "return-sheet";

/// Binds the PDFs of a packet in a bundle's order; none where no PDF was made.
///
/// # Errors
/// When the files cannot be bound.
pub(super) fn bound(
    title: &str,
    bundle: Bundle,
    sheets: &[Sheet],
    files: &[(String, Vec<u8>)],
    lines: &Lines,
) -> Outcome<Option<Book>> {
    let by_path: BTreeMap<&str, &[u8]> = files
        .iter()
        .map(|(path, bytes)| (path.as_str(), bytes.as_slice()))
        .collect();
    let order = bundle.sheets();
    let place = |sheet: &&Sheet| order.iter().position(|name| *name == sheet.name);
    let mut chosen: Vec<&Sheet> = sheets
        .iter()
        .filter(|sheet| place(sheet).is_some() && sheet.copies > 0)
        .collect();
    chosen.sort_by_key(place);
    let mut parts = Vec::new();
    let mut kept = Vec::new();
    for sheet in chosen {
        let line = lines.get(&sheet.file_stem());
        let pages = line.and_then(|line| line.pages);
        let file = path(sheet, Format::Pdf);
        if let (Some(bytes), Some(pages), Some(line)) = (by_path.get(file.as_str()), pages, line) {
            let empty_backs = (1..=pages).filter(|page| sheet.sides.empty_back(*page));
            let empty_backs: Vec<usize> = empty_backs.collect();
            kept.push(season::Bound {
                title: line.title.clone(),
                pages,
                leaves: line.leaves_of_all(),
                copies: line.copies,
                returns: sheet.name == RETURNS,
                file,
                empty_backs: empty_backs.clone(),
            });
            parts.push(Part {
                title: line.title.clone(),
                bytes,
                empty_backs,
                under: false,
            });
        }
    }
    let Some(like) = lines.values().next().filter(|_| !parts.is_empty()) else {
        return Ok(None);
    };
    let title = format!("{title}: {}", bundle.title().to_lowercase());
    let file = pdf::bind(&title, &parts)?;
    let line = Line {
        sheet: STEM.to_owned(),
        title: bundle.title(),
        folder: String::new(),
        about: text(&phrase!("bundle-about")),
        copies: 1,
        copies_for: String::new(),
        pages: Some(file.pages),
        leaves: Some(file.pages.div_ceil(2)),
        print: text(&phrase!("print-both-sides")),
        paper: like.paper.clone(),
        formats: like
            .formats
            .get(Format::Pdf.ending())
            .map(|revision| (Format::Pdf.ending().to_owned(), revision.clone()))
            .into_iter()
            .collect(),
    };
    Ok(Some((line, file.bytes, kept)))
}
