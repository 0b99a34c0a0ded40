//! The sizes of a page, all in one place: a change here changes every sheet alike.
//!
//! Five sizes of words, each a factor on a sheet's own text size; two weights; one style of
//! table; fixed places for boxes to tick. DEVELOPERS.md says what each is for.

use super::Sizes;
use crate::doc::{Document, Style};

/// The title of a sheet, over its text size.
pub(super) const TITLE: f32 = 1.75;
/// A section's heading.
pub(super) const SECTION: f32 = 1.35;
/// A part's heading.
pub(super) const PART: f32 = 1.15;
/// Text, and the smallest heading, which is told by its weight.
pub(super) const TEXT: f32 = 1.0;
/// The foot of a page, and what adorns it.
pub(super) const FOOT: f32 = 0.75;

/// The foot is never smaller, in points.
pub(super) const LEAST_FOOT: f32 = 8.5;
/// Nor larger: on a poster it is still read in the hand, and the paper is for the poster's words.
/// In large print text of 18 pt has a foot of this size.
pub(super) const MOST_FOOT: f32 = 13.5;

/// Text of this size is read from far: the title of its sheet is for whoever hangs it up, no larger
/// than a foot.
pub(super) const FAR: f32 = 40.0;

/// About 75 characters of a text face at its size.
pub(super) const MEASURE: f32 = 34.5;
/// About 90: where paper is short, longer lines before smaller words.
const TIGHT_MEASURE: f32 = 42.0;
/// The widest block of a sheet with two columns, over its text size.
pub(super) const COLUMNS_MEASURE: f32 = 50.0;

/// Text is never tightened below this, in points (unless the style itself asks
/// for smaller).
const LEAST_BODY: f32 = 10.0;
/// Nor the words of cautions.
const LEAST_CAUTION: f32 = 12.0;
/// Nor tick boxes: 6 mm.
const LEAST_TICK: f32 = 17.0;
/// Nor the margin: 12 mm, what a thumb needs to hold a sheet.
const LEAST_MARGIN: f32 = 34.0;

/// Factors on text size, on margins and on the space between blocks, and the leading.
pub(super) type Step = (f32, f32, f32, f32);

/// The steps of tightening.
pub(super) const STEPS: [Step; 7] = [
    (1.0, 1.0, 1.0, 1.3),
    (1.0, 1.0, 0.75, 1.27),
    (1.0, 0.85, 0.6, 1.23),
    (0.95, 0.75, 0.55, 1.22),
    (0.9, 0.7, 0.5, 1.2),
    (0.84, 0.65, 0.45, 1.18),
    (0.82, 0.65, 0.35, 1.13),
];

/// So many steps leave the words their size.
pub(super) const SAME_WORDS: usize = 3;

/// A last side that is filled less than this is not begun where closer lines spare it.
pub(super) const WORTH_A_SIDE: f32 = 0.2;

/// Room left and right of a table cell's text, in points.
pub(super) const CELL_PAD: f32 = 5.0;
/// How far the rules between a table's columns stay away from those between its rows, in points:
/// open corners keep the rows foremost.
pub(super) const CELL_OPEN: f32 = 3.0;
/// Rules of a table, in points: above its head and at its end, under its head, between rows, and
/// between columns that are written in.
pub(super) const EDGE_RULE: f32 = 1.0;
/// Under a table's head.
pub(super) const HEAD_RULE: f32 = 0.8;
/// Between a table's rows.
pub(super) const ROW_RULE: f32 = 0.4;
/// Between a table's columns.
pub(super) const COLUMN_RULE: f32 = 0.5;

/// Room between two columns of a list, in points.
pub(super) const GUTTER: f32 = 20.0;
/// The edge of a box to tick, in points.
pub(super) const TICK_EDGE: f32 = 1.1;
/// Room between words and a second box at the edge, in points.
pub(super) const BEFORE_BOX: f32 = 7.0;
/// Dots and gaps of the line that leads to it.
pub(super) const LEADER: &[f32] = &[0.8, 3.2];
/// A line to write on, in points.
pub(super) const BLANK_RULE: f32 = 0.6;
/// Room for a hand above a line to write on: over the text size, and at least in points.
pub(super) const BLANK_HEIGHT: (f32, f32) = (1.75, 20.0);
/// The same in a table, whose rules help.
pub(super) const CELL_BLANK_HEIGHT: (f32, f32) = (1.45, 15.0);
/// A blank of so many characters is for words, not for a number: the last one of a line is drawn
/// on to the edge of the text.
pub(super) const WORDS_BLANK: usize = 12;

/// Room between a title and the group's mark on its right, in points.
const BEFORE_MARK: f32 = 12.0;
/// Room above a title that stands in the margin, in points: what printers leave white.
pub(super) const LEAST_HEAD: f32 = 20.0;
/// How far the mark stands above the title's top, in points: it ends where the title does.
pub(super) const MARK_RISE: f32 = 6.0;
/// How far it keeps away from a punched hole, in points.
pub(super) const HOLE_SIDE: f32 = 8.0;

/// Room between a frame and what it holds, in points.
pub(super) const FRAME_PAD: f32 = 9.0;

/// The room on the right of a title that the group's mark takes.
pub(super) fn beside_title(document: &Document) -> f32 {
    let mark = document
        .group
        .as_ref()
        .and_then(|group| group.mark.as_ref());
    mark.map_or(0.0, |mark| mark.width + BEFORE_MARK)
}

impl Sizes {
    /// The sizes of a style after a step of tightening.
    pub(super) fn new(style: &Style, step: Step) -> Self {
        let (text, margin, space, leading) = step;
        let shrink = |size: f32, factor: f32, least: f32| (size * factor).max(least.min(size));
        Self {
            body: shrink(style.body_pt, text, LEAST_BODY),
            caution: shrink(style.caution_pt, text, LEAST_CAUTION),
            tick: shrink(style.tick_pt, text, LEAST_TICK),
            margin: shrink(style.margin_pt, margin, LEAST_MARGIN),
            leading,
            space,
            measure: if space < 0.7 { TIGHT_MEASURE } else { MEASURE },
        }
    }

    /// The size of a page's foot, in points.
    pub(super) fn foot(&self) -> f32 {
        (FOOT * self.body).clamp(LEAST_FOOT, MOST_FOOT)
    }
}
