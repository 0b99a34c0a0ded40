//! Labels on a sheet of them: a code to scan beside the words, each at its place on the paper.
//!
//! The code is a QR code (ISO/IEC 18004) with a quiet zone of four modules, as it asks for, at
//! level M: it is still read when a seventh of it is scratched away.

use super::catalogue;
use crate::diag::{Outcome, Problem, told};
use crate::doc::{Anchor, Figure, Fill, Paper, Pen, Shape};
use crate::phrase::phrase;
use crate::units::Length;
use qrcode::{Color, EcLevel, QrCode};

/// How labels lie on their sheet, as it stands on the packet they come in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelSheet {
    /// The paper.
    pub paper: Paper,
    /// Labels side by side.
    pub columns: usize,
    /// Labels one below the other.
    pub rows: usize,
    /// Width and height of a label.
    pub size: (Length, Length),
    /// From the paper's left and upper edge to the first label.
    pub corner: (Length, Length),
    /// From the start of a label to the start of the next, across and down.
    pub step: (Length, Length),
}

/// A label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// What is scanned and read largest.
    pub name: String,
    /// Smaller lines below it.
    pub lines: Vec<String>,
}

/// Modules that stay white round a code.
const QUIET: usize = 4;

/// Room between a label's edge and what is on it, in points.
const PAD: f32 = 5.0;

/// The mean width of a letter over its size, a little more than that of the print.
const LETTER: f32 = 0.6;

/// A point is an inch by 72.
fn points(length: Length) -> f32 {
    (length.in_metres() / 0.0254 * 72.0) as f32
}

impl LabelSheet {
    /// Labels on a sheet.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.columns * self.rows
    }

    /// Whether its labels lie on its paper, and not on each other.
    #[must_use]
    pub fn is_possible(&self) -> bool {
        let (wide, high) = match self.paper {
            Paper::Letter => (612.0, 792.0),
            Paper::A4 => (595.276, 841.89),
        };
        let along = |corner: Length, step: Length, count: usize, size: Length, most: f32| {
            let end = points(corner) + points(step) * (count.max(1) - 1) as f32 + points(size);
            let apart = count < 2 || step >= size;
            // a hundredth of an inch off is how sheets are cut
            count > 0 && apart && end <= most + 0.72 && points(size) > 4.0 * PAD
        };
        along(self.corner.0, self.step.0, self.columns, self.size.0, wide)
            && along(self.corner.1, self.step.1, self.rows, self.size.1, high)
    }

    /// The upper left corner of a place, counted from 0 along the rows, in points.
    fn place(&self, at: usize) -> (f32, f32) {
        let (row, column) = (at / self.columns, at % self.columns);
        (
            points(self.corner.0) + points(self.step.0) * column as f32,
            points(self.corner.1) + points(self.step.1) * row as f32,
        )
    }
}

/// Labels on pages; the first one lies at the place `start`, counted from 1 along the rows, so that
/// a sheet that was begun is used up.
///
/// # Errors
/// A name too long for a code.
pub fn labels(sheet: &LabelSheet, start: usize, labels: &[Label]) -> Outcome<Vec<Vec<Figure>>> {
    let mut pages: Vec<Vec<Figure>> = Vec::new();
    for (index, label) in labels.iter().enumerate() {
        let at = start.saturating_sub(1) + index;
        let page = at / sheet.count() - start.saturating_sub(1) / sheet.count();
        if pages.len() <= page {
            pages.push(Vec::new());
        }
        pages[page].push(drawn(sheet, at % sheet.count(), label)?);
    }
    Ok(pages)
}

fn drawn(sheet: &LabelSheet, at: usize, label: &Label) -> Outcome<Figure> {
    let (x, y) = sheet.place(at);
    let (width, height) = (points(sheet.size.0), points(sheet.size.1));
    let side = (height - 2.0 * PAD).min(0.45 * width);
    let mut shapes = code(&label.name, (x + PAD, y + 0.5 * (height - side)), side)?;
    let left = x + PAD + side;
    let room = (width - side - 2.0 * PAD, height - 2.0 * PAD);
    shapes.extend(words(label, (left, y + PAD), room));
    Ok(Figure {
        id: label.name.clone(),
        caption: String::new(),
        alt: catalogue::text(&phrase!("label-alt", name = label.name)),
        width,
        height,
        shapes,
    })
}

/// The modules of a code, those that touch in a row as one.
fn code(text: &str, (x, y): (f32, f32), side: f32) -> Outcome<Vec<Shape>> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).map_err(|error| {
        vec![Problem::error(
            "labels.code",
            told!("no code can be made of `{text}`: {error}", text, error),
            "give it a shorter tag",
        )]
    })?;
    let (wide, modules) = (code.width(), code.to_colors());
    let unit = side / (wide + 2 * QUIET) as f32;
    let mut shapes = Vec::new();
    for (row, line) in modules.chunks(wide).enumerate() {
        let mut from = 0;
        for run in line.chunk_by(|a, b| a == b) {
            let until = from + run.len();
            if run[0] == Color::Dark {
                let [left, right] = [from, until].map(|at| x + (at + QUIET) as f32 * unit);
                let top = y + (row + QUIET) as f32 * unit;
                shapes.push(Shape::Line {
                    points: vec![
                        (left, top),
                        (right, top),
                        (right, top + unit),
                        (left, top + unit),
                    ],
                    closed: true,
                    pen: Pen {
                        width: 0.0,
                        dash: Vec::new(),
                    },
                    fill: Fill::Black,
                });
            }
            from = until;
        }
    }
    Ok(shapes)
}

/// The name large and the lines below it, as large as there is room for.
fn words(label: &Label, (x, y): (f32, f32), (width, height): (f32, f32)) -> Vec<Shape> {
    let fits = |text: &str, size: f32| {
        let letters = text.chars().count().max(1) as f32;
        size.min(width / (letters * LETTER))
    };
    let line = height / (label.lines.len() as f32 * 0.6 + 1.2);
    let large = fits(&label.name, 0.9 * line);
    let mut shapes = vec![text(&label.name, (x, y + 0.85 * line), large, true)];
    for (index, words) in label.lines.iter().enumerate() {
        let down = y + line * (1.2 + 0.6 * index as f32 + 0.3);
        shapes.push(text(words, (x, down), fits(words, 0.45 * line), false));
    }
    shapes
}

fn text(words: &str, at: (f32, f32), size: f32, bold: bool) -> Shape {
    Shape::Label {
        at,
        anchor: Anchor::Start,
        size,
        bold,
        text: words.to_owned(),
    }
}
