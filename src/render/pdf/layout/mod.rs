//! Layout: a document to pages of placed things. Pure; nothing here knows how
//! a PDF is written.
//!
//! Blocks become strips (`blocks`, `list`, `table`, `figure`), strips are
//! stacked on pages (`pager`), sheets with few pages are tightened (`fit`),
//! card sheets are cut into cells (`cards`). Lengths are in points, y runs
//! downwards from the top of the page.

mod beside;
mod blocks;
mod cards;
mod figure;
mod fit;
mod furniture;
mod list;
mod pager;
mod say;
mod sizes;
mod table;
mod tip;
mod tree;

use std::collections::BTreeSet;
use std::rc::Rc;
use std::sync::Arc;

use super::text::Piece;
use crate::doc::{Paper, Style, Words};

pub(super) use figure::whole_pages;
pub(super) use fit::{layout, layout_or_longer};
pub(super) use say::say;
pub(super) use tree::{Element, ElementId, Numbering, Role, Tree};

/// A laid-out document.
pub(super) struct Layout {
    pub title: String,
    pub width: f32,
    pub height: f32,
    pub pages: Vec<Page>,
    /// The share of the last page that its words fill.
    pub filled: f32,
    pub tree: Tree,
    /// Characters that the faces do not hold.
    pub missing: BTreeSet<char>,
    /// What the page says by itself, and in which language.
    pub words: Arc<Words>,
}

/// A page of placed things.
#[derive(Default)]
pub(super) struct Page {
    pub items: Vec<Placed>,
}

/// A thing at its place.
#[derive(Clone)]
pub(super) struct Placed {
    /// Whose it is; nothing for what only adorns the page.
    pub element: Option<ElementId>,
    /// Where it stands in the reading order.
    pub order: u32,
    pub x: f32,
    pub y: f32,
    pub mark: Mark,
}

/// What is drawn, or what happens, at a place.
#[derive(Clone)]
pub(super) enum Mark {
    /// Words of one element on one line; the place is the start of the
    /// baseline, and the pieces' x count from it.
    Text { size: f32, pieces: Vec<Piece> },
    /// A line from the place.
    Rule {
        dx: f32,
        dy: f32,
        weight: f32,
        dash: &'static [f32],
    },
    /// A rectangle whose top left corner is the place.
    Frame {
        width: f32,
        height: f32,
        weight: f32,
    },
    /// Lines and curves, counted from the place.
    Path(Rc<Path>),
    /// A form field whose top left corner is the place. It draws nothing.
    Field {
        tick: bool,
        width: f32,
        height: f32,
        tip: Rc<str>,
    },
    /// A link's area whose top left corner is the place.
    Link {
        target: Rc<str>,
        words: Rc<str>,
        width: f32,
        height: f32,
    },
    /// A spot that links and the outline lead to.
    Spot {
        anchor: Rc<str>,
        level: u8,
        words: Rc<str>,
    },
}

/// A run of lines or curves.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Path {
    /// Corners; `true` marks a control point of a cubic Bezier piece.
    pub points: Vec<(f32, f32, bool)>,
    pub closed: bool,
    /// Width of the pen; 0 draws no line.
    pub weight: f32,
    pub dash: Vec<f32>,
    pub fill: Ink,
}

/// What fills a path.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Ink {
    #[default]
    None,
    White,
    Black,
    Hatched,
}

/// How strongly a strip holds to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Keep {
    /// A page may end here.
    None,
    /// A page may end here where sides are counted: the look alone suffers.
    Soft,
    /// A page may end here only if the whole does not fit on one.
    Weak,
    /// A page ends here only in need: headings, first and last lines.
    Strong,
}

/// A band of placed things that no page break cuts.
#[derive(Clone)]
struct Strip {
    /// Space above, dropped at the top of a page.
    space: f32,
    height: f32,
    /// y counts from the strip's top.
    items: Vec<Placed>,
    keep: Keep,
    /// The frames that it lies in, outermost first.
    frames: Vec<usize>,
    /// The table head that a page starts with when it starts here.
    repeat: Option<usize>,
    /// A new page starts with it.
    fresh: bool,
    /// The first line's baseline, from the top.
    baseline: f32,
}

impl Strip {
    fn new(height: f32) -> Self {
        Self {
            space: 0.0,
            height,
            items: Vec::new(),
            keep: Keep::None,
            frames: Vec::new(),
            repeat: None,
            fresh: false,
            baseline: 0.0,
        }
    }

    /// An empty band that holds to the next.
    fn pad(height: f32) -> Self {
        Self {
            keep: Keep::Strong,
            ..Self::new(height)
        }
    }
}

/// A frame round strips.
#[derive(Clone, Copy)]
struct Frame {
    x: f32,
    width: f32,
    weight: f32,
}

/// Where blocks go and how large their text is.
#[derive(Clone, Copy)]
struct Area {
    x: f32,
    /// The measure of text.
    width: f32,
    /// What tables, figures and columns may use.
    wide: f32,
    size: f32,
}

impl Area {
    /// The area without a margin on its left; however deep lists stand in
    /// lists, room for some letters is left.
    fn indented(self, by: f32) -> Self {
        let least = 4.0 * self.size;
        Self {
            x: self.x + by,
            width: (self.width - by).max(least),
            wide: (self.wide - by).max(least),
            ..self
        }
    }
}

/// The sizes in force, in points, after tightening.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Sizes {
    body: f32,
    caution: f32,
    tick: f32,
    margin: f32,
    /// Line height over text size.
    leading: f32,
    /// Factor on the space between blocks.
    space: f32,
    /// Length of a line of text over its size.
    measure: f32,
}

/// Width and height of a sheet of paper held upright, in points.
fn upright(paper: Paper) -> (f32, f32) {
    match paper {
        Paper::Letter => (612.0, 792.0),
        // 210 x 297 mm at 72 points an inch of 25.4 mm
        Paper::A4 => (595.276, 841.89),
    }
}

/// Width and height of a page, in points.
fn paper(style: &Style) -> (f32, f32) {
    let (width, height) = upright(style.paper);
    if style.landscape {
        (height, width)
    } else {
        (width, height)
    }
}
