//! Charts: figures drawn from this trip's numbers, each with the same numbers in words.
//!
//! Black, white and hatched line work; every line and bar is named where it stands, so that
//! nothing rests on colour, grey or dashes alone.

mod bars;
mod board;
mod clock;
mod curves;
mod gauge;
mod lesson;
mod lines;
mod place;
mod stack;
mod stoves;
mod through;
mod uses;

pub use clock::clock;
pub use curves::{masses, pressure};
pub use gauge::gauge;
pub use lesson::{of_lesson, of_sessions};
pub use place::places;
pub use stack::stack;
pub use stoves::stoves;
pub use through::through;
pub use uses::{spread, uses};

use super::catalogue::text;
use super::prose::one_line;
use super::view::common::Prose;
use crate::doc::Figure;
use crate::phrase::Phrase;
use std::collections::BTreeMap;

/// A figure and what it shows, line by line.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// The figure.
    pub figure: Figure,
    /// The same numbers in words, one entry a line.
    pub lines: Vec<String>,
}

impl Chart {
    /// A chart of what is on a board; `about` begins the words for those who cannot see it.
    fn new(
        id: impl Into<String>,
        caption: impl Into<String>,
        about: Phrase,
        lines: Vec<String>,
        board: board::Board,
        height: f32,
    ) -> Self {
        Self {
            figure: Figure {
                id: id.into(),
                caption: caption.into(),
                alt: format!("{} {}.", text(&about), lines.join("; ")),
                width: board::WIDE,
                height,
                shapes: board.shapes,
            },
            lines,
        }
    }

    /// The fence that calls for it, its lines as a list; the figure goes among the sheet's.
    #[must_use]
    pub fn call(self, figures: &mut BTreeMap<String, Figure>) -> Prose {
        let mut fence = format!("```figure {}\n", self.figure.id);
        for line in &self.lines {
            fence.push_str("- ");
            fence.push_str(&one_line(line).replace('`', "'"));
            fence.push('\n');
        }
        fence.push_str("```");
        figures.insert(self.figure.id.clone(), self.figure);
        Prose::new(fence)
    }
}
