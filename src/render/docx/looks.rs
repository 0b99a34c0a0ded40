//! Styles of the word-processor file: what each kind of paragraph looks like.

use docx_rs::{
    AbstractNumbering, Docx, IndentLevel, Level, LevelJc, LevelText, LineSpacing, NumberFormat,
    Paragraph, RunFonts, SpecialIndentType, Start, Style as Look, StyleType,
};

use super::runs::OTHER;
use crate::doc::Style;

/// The style of the line at the foot.
pub(super) const FOOT: &str = "SheetFoot";
/// The style of a signal word.
pub(super) const SIGNAL: &str = "SignalWord";
/// The style of words in a caution.
pub(super) const CAUTION: &str = "CautionText";

/// One step of a list to the right, in twips.
pub(super) const STEP: i32 = 400;

/// How deep lists go.
pub(super) const LEVELS: usize = 8;

/// The file with fonts, sizes and styles.
pub(super) fn styled(file: Docx, style: &Style) -> Docx {
    let font = "Arial";
    let fonts = RunFonts::new()
        .ascii(font)
        .hi_ansi(font)
        .cs(font)
        .east_asia(font);
    let body = half_points(style.body_pt);
    let mut file = file
        .default_fonts(fonts)
        .default_size(body)
        .default_line_spacing(LineSpacing::new().before(0).after(100));
    for level in 1..=4_usize {
        let size = half_points(style.body_pt * [1.6, 1.3, 1.12, 1.0][level - 1]);
        let mut look = Look::new(heading(level), StyleType::Paragraph)
            .name(format!("heading {level}"))
            .based_on("Normal")
            .next("Normal")
            .q_format(true)
            .size(size)
            .bold()
            .outline_lvl(level - 1)
            .line_spacing(LineSpacing::new().before(240).after(80));
        look.paragraph_property = look.paragraph_property.keep_next(true);
        file = file.add_style(look);
    }
    let signal = Look::new(SIGNAL, StyleType::Paragraph)
        .name("Signal word")
        .based_on("Normal")
        .size(half_points(style.caution_pt))
        .bold();
    let caution = Look::new(CAUTION, StyleType::Paragraph)
        .name("Caution text")
        .based_on("Normal")
        .size(half_points(style.caution_pt));
    let foot = Look::new(FOOT, StyleType::Paragraph)
        .name("Sheet foot")
        .based_on("Normal")
        .size(half_points((style.body_pt * 0.8).max(8.0)));
    file.add_style(signal).add_style(caution).add_style(foot)
}

/// The file with a style for words in the second of two languages.
pub(super) fn with_other_language(file: Docx) -> Docx {
    file.add_style(Look::new(OTHER, StyleType::Character).name("Other language"))
}

/// The id of a heading's style.
pub(super) fn heading(level: usize) -> String {
    format!("Heading{level}")
}

/// A size in points as the half points of the format; sizes are small and
/// never below zero.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn half_points(size: f32) -> usize {
    (size * 2.0).round().max(2.0) as usize
}

/// The marks of a list: numbers from a first one, points, or boxes.
#[derive(Clone, Copy)]
pub(super) enum Marks {
    Numbers(u64),
    Points,
    Boxes,
}

/// A list's definition, the same marks at every depth.
pub(super) fn list(id: usize, marks: Marks) -> AbstractNumbering {
    let mut list = AbstractNumbering::new(id);
    for depth in 0..LEVELS {
        let (start, format, text) = match marks {
            Marks::Numbers(first) => {
                let first = usize::try_from(first).unwrap_or(1);
                (first, "decimal", format!("%{}.", depth + 1))
            }
            Marks::Points => (1, "bullet", "\u{2022}".to_owned()),
            Marks::Boxes => (1, "bullet", "\u{2610}".to_owned()),
        };
        let level = Level::new(
            depth,
            Start::new(start),
            NumberFormat::new(format),
            LevelText::new(text),
            LevelJc::new("left"),
        );
        list = list.add_level(level.indent(
            Some(indent(depth + 1)),
            Some(SpecialIndentType::Hanging(STEP)),
            None,
            None,
        ));
    }
    list
}

/// The left edge of words at a depth.
pub(super) fn indent(depth: usize) -> i32 {
    STEP * i32::try_from(depth).unwrap_or(1)
}

/// A paragraph moved right to stand under the words of its list item.
pub(super) fn under(paragraph: Paragraph, depth: usize) -> Paragraph {
    if depth == 0 {
        paragraph
    } else {
        paragraph.indent(Some(indent(depth)), None, None, None)
    }
}

/// A list's level for the library.
pub(super) fn level(depth: usize) -> IndentLevel {
    IndentLevel::new(depth.min(LEVELS - 1))
}
