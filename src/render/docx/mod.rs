//! A document as a word-processor file, for those who want to change a sheet
//! before printing it.
//!
//! Everything of the text is there: headings, lists with their boxes, tables
//! whose header rows repeat, cautions in boxes that never split, drawings as
//! shapes that can be changed, each with its description. Study cards come as
//! headings with their answers below. How a sheet is folded is for the other
//! formats.

mod blocks;
mod drawing;
mod looks;
mod runs;

use std::io::Cursor;

use docx_rs::{
    Docx, Footer, NumPages, PageMargin, PageNum, PageOrientationType, Paragraph, Run, XMLDocx,
};

use crate::diag::{Outcome, Problem, told};
use crate::doc::{Block, Document, Paper};

use super::markup::escaped;

use blocks::{Piece, Writer};

/// A point in the format's twentieths.
const TWIPS: i32 = 20;

/// The date in every file: equal documents give equal bytes on any day.
const DATE: &str = "1980-01-01T00:00:00Z";

/// The document as a `.docx` file.
///
/// # Errors
/// When the file cannot be put together, which no known document makes happen.
pub fn docx(document: &Document) -> Outcome<Vec<u8>> {
    let (width, height) = page_size(document);
    let margin = points(document.style.margin_pt);
    let room = (width - 2 * margin).max(2000);
    // as on paper, a drawing takes at most this share of a page
    let high = 0.8 * twips(height - 2 * margin);
    let mut writer = Writer::new(document, (room, high));
    let pieces = writer.blocks(&document.in_plain_words().blocks);
    let mut file = looks::styled(Docx::new(), &document.style)
        .page_size(width.unsigned_abs(), height.unsigned_abs())
        .page_margin(
            PageMargin::new()
                .top(margin)
                .bottom(margin + 24 * TWIPS)
                .left(margin)
                .right(margin)
                .header(margin / 2)
                .footer(margin),
        )
        .page_orient(if document.style.landscape {
            PageOrientationType::Landscape
        } else {
            PageOrientationType::Portrait
        })
        .created_at(DATE)
        .updated_at(DATE)
        .footer(footer(document));
    if other_language(document).is_some() {
        file = looks::with_other_language(file);
    }
    for (list, numbering) in writer.lists() {
        file = file.add_abstract_numbering(list).add_numbering(numbering);
    }
    for piece in pieces {
        file = match piece {
            Piece::Paragraph(paragraph) => file.add_paragraph(*paragraph),
            Piece::Table(table) => file.add_table(*table),
        };
    }
    let mut parts = file.build();
    writer.drawings.put(&mut parts.document);
    sort_links(&mut parts.document_rels);
    add_what_is_missing(&mut parts, document);
    let mut bytes = Cursor::new(Vec::new());
    parts.pack(&mut bytes).map_err(|error| {
        vec![Problem::error(
            "docx.file",
            told!(
                "the word-processor file cannot be put together: {error}",
                error
            ),
            "leave `docx` out of the formats",
        )]
    })?;
    Ok(bytes.into_inner())
}

/// Width and height in twips, as the page lies.
fn page_size(document: &Document) -> (i32, i32) {
    let (short, long) = match document.style.paper {
        Paper::Letter => (12_240, 15_840),
        Paper::A4 => (11_906, 16_838),
    };
    if document.style.landscape {
        (long, short)
    } else {
        (short, long)
    }
}

/// A length in points as twips; a style's lengths are small.
#[allow(clippy::cast_possible_truncation)]
fn points(length: f32) -> i32 {
    (length * 20.0).round() as i32
}

/// Twips as points; no page has more than some ten thousand.
fn twips(length: i32) -> f32 {
    f32::from(i16::try_from(length).unwrap_or(i16::MAX)) / 20.0
}

/// Which page of how many: the word processor counts them.
fn footer(document: &Document) -> Footer {
    // `page {n} of {of}` in pieces; here it starts a phrase of its own
    let page = &document.words.page;
    let (before, rest) = page.split_once("{n}").unwrap_or((page, ""));
    let (between, after) = rest.split_once("{of}").unwrap_or((rest, ""));
    let mut letters = before.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    let before = format!("{}{}", first.unwrap_or_default(), letters.as_str());
    let line = Paragraph::new()
        .id("7f000001")
        .style(looks::FOOT)
        .add_run(Run::new().add_text(format!(
            "{}  {before}",
            runs::clean(&document.foot_with_group())
        )))
        .add_page_num(PageNum::new())
        .add_run(Run::new().add_text(between))
        .add_num_pages(NumPages::new());
    let line = if after.is_empty() {
        line
    } else {
        line.add_run(Run::new().add_text(after))
    };
    Footer::new().add_paragraph(line)
}

/// Puts in what the library has no words for: header rows that repeat on every
/// page, the title and language of the file.
fn add_what_is_missing(parts: &mut XMLDocx, document: &Document) {
    if let Some(other) = other_language(document) {
        let named = format!(
            "<w:style w:type=\"character\" w:styleId=\"{}\">",
            runs::OTHER
        );
        let spoken = format!("<w:rPr><w:lang w:val=\"{}\"/></w:rPr>", escaped(other));
        within(&mut parts.styles, &named, "<w:rPr />", &spoken);
    }
    replace(
        &mut parts.document,
        blocks::HEADER_MARK,
        "<w:cantSplit/><w:tblHeader/>",
    );
    let title = escaped(&document.title);
    let language = escaped(&document.words.language);
    replace(
        &mut parts.doc_props.core,
        "</cp:coreProperties>",
        &format!(
            "<dc:language>{language}</dc:language><dc:title>{title}</dc:title></cp:coreProperties>"
        ),
    );
    replace(
        &mut parts.doc_props.core,
        ">unknown</dc:creator>",
        ">leeside</dc:creator>",
    );
    replace(
        &mut parts.doc_props.core,
        ">unknown</cp:lastModifiedBy>",
        ">leeside</cp:lastModifiedBy>",
    );
    replace(
        &mut parts.styles,
        "</w:rPr></w:rPrDefault>",
        &format!("<w:lang w:val=\"{language}\"/></w:rPr></w:rPrDefault>"),
    );
}

/// The library lists links in the random order of a hash map; the format takes
/// them in any order, so they are put into one.
fn sort_links(part: &mut Vec<u8>) {
    const ENTRY: &str = "<Relationship ";
    const END: &str = "</Relationships>";
    let text = String::from_utf8_lossy(part).into_owned();
    let Some((head, entries)) = text.split_once(ENTRY) else {
        return;
    };
    let mut entries: Vec<&str> = entries.trim_end_matches(END).split(ENTRY).collect();
    entries.sort_unstable();
    let mut sorted = head.to_owned();
    for entry in entries {
        sorted.push_str(ENTRY);
        sorted.push_str(entry);
    }
    sorted.push_str(END);
    *part = sorted.into_bytes();
}

/// The second of two languages that stand beside each other.
fn other_language(document: &Document) -> Option<&str> {
    document.blocks.iter().find_map(|block| match block {
        Block::Beside(beside) => Some(beside.words[1].language.as_str()),
        _ => None,
    })
}

/// Replaces what stands first behind a mark.
fn within(part: &mut Vec<u8>, mark: &str, from: &str, to: &str) {
    let text = String::from_utf8_lossy(part).into_owned();
    if let Some((before, after)) = text.split_once(mark) {
        *part = format!("{before}{mark}{}", after.replacen(from, to, 1)).into_bytes();
    }
}

fn replace(part: &mut Vec<u8>, from: &str, to: &str) {
    let text = String::from_utf8_lossy(part).replace(from, to);
    *part = text.into_bytes();
}
