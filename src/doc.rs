//! A document without a format: blocks, inlines, figures.
//!
//! `markdown` reads composed text into a [`Document`]; every file of `render`
//! turns the same document into one format. How a sheet is laid out (paper,
//! sizes, folds) is in its [`Style`], never in the text.

mod beside;
pub mod learn;
mod words;

pub use beside::{Beside, alike};
use std::sync::Arc;
pub use words::Words;

/// One sheet, ready to be drawn in any format.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The sheet's title, as its level-1 heading shows it.
    pub title: String,
    /// A line for the page foot: edition date and source note.
    pub foot: String,
    /// How it is laid out.
    pub style: Style,
    /// What it holds, in reading order. The first block is the level-1 heading.
    pub blocks: Vec<Block>,
    /// Whose paper it is; none where nobody is named.
    pub group: Option<Group>,
    /// What the page says by itself, in its language.
    pub words: Arc<Words>,
}

/// Whose paper a sheet is, for its head and foot.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// Its name, and a phone where one is known: `Heron Club, office 555-0123`.
    pub line: String,
    /// Its mark, at the size in which it is printed.
    pub mark: Option<Figure>,
}

/// How a sheet is laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Style {
    /// The paper.
    pub paper: Paper,
    /// Body size in points; cautions on the kitchen card are larger.
    pub body_pt: f32,
    /// Size of the words in cautions, in points.
    pub caution_pt: f32,
    /// Side of a tick box in points (6-8 mm is 17-23 pt).
    pub tick_pt: f32,
    /// Whether tick lists go in two columns where they fit.
    pub two_column_ticks: bool,
    /// The margin to hold the sheet by, in points, on every side.
    pub margin_pt: f32,
    /// At most this many pages: sizes tighten by defined steps until it fits,
    /// and a problem says so when it cannot.
    pub most_pages: Option<usize>,
    /// Where that many cannot hold it, up to this many are no fault.
    pub still_good_pages: Option<usize>,
    /// A punch mark in the corner of the first page.
    pub corner_hole: bool,
    /// Drawings stand on paper only where the words leave them room: no letter gets smaller and no
    /// side is added for one.
    pub drawings_if_room: bool,
    /// How the sections become cards, if they do.
    pub cards: Option<CardFold>,
    /// Whether the page lies on its side.
    pub landscape: bool,
}

/// Sheets of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 8.5 x 11 in.
    Letter,
    /// 210 x 297 mm.
    A4,
}

/// How study cards are printed. In a card sheet each level-3 heading opens a
/// card: the heading is the front, what follows up to the next is the back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardFold {
    /// Front and back side by side on one side of paper, to fold and glue.
    SingleSided,
    /// Fronts and backs on two sides, turned on the long edge.
    DuplexLongEdge,
    /// Fronts and backs on two sides, turned on the short edge.
    DuplexShortEdge,
}

/// A piece of a document.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading of level 1 to 4 with the anchor that links use.
    Heading {
        /// 1 to 4.
        level: u8,
        /// A name for links inside the document, unique in it.
        anchor: String,
        /// The words.
        text: Vec<Inline>,
    },
    /// A paragraph.
    Paragraph(Vec<Inline>),
    /// A list; with `Some(n)` it is numbered from n.
    List {
        /// The first number, or none for bullets and ticks.
        start: Option<u64>,
        /// The items.
        items: Vec<Item>,
    },
    /// A table with one header row.
    Table(Table),
    /// A boxed caution, never split or dropped.
    Caution {
        /// The signal word.
        signal: Signal,
        /// What it says.
        blocks: Vec<Block>,
    },
    /// A box round something to set it off (givens, instructor's notes).
    Boxed(Vec<Block>),
    /// A drawing or chart.
    Figure(Figure),
    /// The same in two languages beside each other.
    Beside(Beside),
    /// A thin rule.
    Rule,
    /// A new page starts here.
    PageBreak,
}

/// An item of a list.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// A box to tick stands before it.
    pub tick: bool,
    /// What it holds; the first block is a paragraph.
    pub blocks: Vec<Block>,
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// One alignment a column.
    pub columns: Vec<Align>,
    /// The header cells.
    pub head: Vec<Vec<Inline>>,
    /// The rows; each has as many cells as there are columns.
    pub rows: Vec<Vec<Vec<Inline>>>,
}

impl Table {
    /// Whether the first column names the rows: it has words in every row and
    /// nothing to write in or tick.
    #[must_use]
    pub fn names_rows(&self) -> bool {
        let names = |row: &Vec<Vec<Inline>>| {
            row.first()
                .is_some_and(|cell| !has_field(cell) && plain(cell).contains(char::is_alphanumeric))
        };
        self.columns.len() > 1 && !self.rows.is_empty() && self.rows.iter().all(names)
    }
}

/// How a column's cells stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Left.
    Left,
    /// Centred.
    Centre,
    /// Right; numbers line up at their decimal point.
    Right,
}

/// A run of text.
#[derive(Clone, Debug, PartialEq)]
pub enum Inline {
    /// Plain words.
    Text(String),
    /// Words that say a statement of the plan, the content or the course.
    Said {
        /// The statement's id.
        of: String,
        /// Its value in SI units; none for words.
        si: Option<f64>,
        /// The words.
        words: String,
    },
    /// Bold words.
    Strong(Vec<Inline>),
    /// Italic words.
    Emphasis(Vec<Inline>),
    /// A link to `https:`, `mailto:` or `#anchor`.
    Link {
        /// Where to.
        target: String,
        /// The words.
        text: Vec<Inline>,
    },
    /// A blank to write on, so many characters wide (from `____`).
    Blank(usize),
    /// A box to tick inside a line or a table cell (from `[ ]`).
    Tick,
    /// A line break.
    Break,
}

/// The four signal words, with the meanings of ANSI Z535 and ISO 3864.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Signal {
    /// Will kill or seriously injure if not avoided.
    Danger,
    /// Could kill or seriously injure.
    Warning,
    /// Could injure a little or moderately.
    Caution,
    /// No injury; damage or a rule.
    Notice,
}

impl Signal {
    /// All of them, the gravest first.
    pub const ALL: [Self; 4] = [Self::Danger, Self::Warning, Self::Caution, Self::Notice];

    /// The word as printed.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Danger => "DANGER",
            Self::Warning => "WARNING",
            Self::Caution => "CAUTION",
            Self::Notice => "NOTICE",
        }
    }
}

/// A drawing: shapes on a canvas with its origin at the top left, y downwards,
/// in points at natural size. Black, white and line work only: a meaning never
/// rests on colour or grey alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Its name in the text.
    pub id: String,
    /// The caption below it.
    pub caption: String,
    /// What it shows, for those who cannot see it.
    pub alt: String,
    /// Width of the canvas in points (at most 480).
    pub width: f32,
    /// Height of the canvas in points.
    pub height: f32,
    /// What is drawn, in order.
    pub shapes: Vec<Shape>,
}

/// A part of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// An open or closed run of straight lines.
    Line {
        /// The corners.
        points: Vec<(f32, f32)>,
        /// Whether the last joins the first.
        closed: bool,
        /// How it is drawn.
        pen: Pen,
        /// How it is filled.
        fill: Fill,
    },
    /// A smooth curve through cubic Bezier pieces: a start, then triples.
    Curve {
        /// Start point, then (control, control, end) for each piece.
        points: Vec<(f32, f32)>,
        /// Whether it closes.
        closed: bool,
        /// How it is drawn.
        pen: Pen,
        /// How it is filled.
        fill: Fill,
    },
    /// An ellipse (a circle when both radii are equal).
    Ellipse {
        /// Centre.
        centre: (f32, f32),
        /// Radii.
        radii: (f32, f32),
        /// How it is drawn.
        pen: Pen,
        /// How it is filled.
        fill: Fill,
    },
    /// Words.
    Label {
        /// Where: the baseline's start, middle or end, by `anchor`.
        at: (f32, f32),
        /// Which part of the words stands at `at`.
        anchor: Anchor,
        /// Size in points.
        size: f32,
        /// Bold or regular.
        bold: bool,
        /// The words.
        text: String,
    },
}

/// A line's weight and dashes.
#[derive(Clone, Debug, PartialEq)]
pub struct Pen {
    /// Width in points; 0 draws nothing.
    pub width: f32,
    /// Dash and gap lengths; empty is solid.
    pub dash: Vec<f32>,
}

/// What fills a shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Nothing.
    None,
    /// White, to hide what is behind.
    White,
    /// Black.
    Black,
    /// Thin slanting lines.
    Hatched,
}

/// Which part of a label stands at its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The start.
    Start,
    /// The middle.
    Middle,
    /// The end.
    End,
}

/// Whether a box or blank stands anywhere in a run of inlines.
#[must_use]
pub fn has_field(inlines: &[Inline]) -> bool {
    inlines.iter().any(|inline| match inline {
        Inline::Blank(_) | Inline::Tick => true,
        Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
            has_field(inner)
        }
        Inline::Text(_) | Inline::Said { .. } | Inline::Break => false,
    })
}

/// The words of a run of inlines, without their looks.
#[must_use]
pub fn plain(inlines: &[Inline]) -> String {
    let mut text = String::new();
    for inline in inlines {
        match inline {
            Inline::Text(words) | Inline::Said { words, .. } => text.push_str(words),
            Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
                text.push_str(&plain(inner));
            }
            Inline::Blank(width) => text.push_str(&"_".repeat(*width)),
            Inline::Tick => text.push_str("[ ]"),
            Inline::Break => text.push('\n'),
        }
    }
    text
}

/// A value that a document says.
#[derive(Clone, Debug, PartialEq)]
pub struct Saying {
    /// The statement's id.
    pub of: String,
    /// How it is said.
    pub words: String,
    /// Its value in SI units; none for words.
    pub si: Option<f64>,
}

/// How a value that a document says came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// The statement's id.
    pub of: String,
    /// How the document says it.
    pub words: String,
    /// Where it comes from: its lines, what was assumed, its sources.
    pub lines: Vec<String>,
}

impl Document {
    /// The line for the foot where no other place says whose paper it is.
    #[must_use]
    pub fn foot_with_group(&self) -> String {
        match &self.group {
            Some(group) => format!("{}. {}", group.line, self.foot),
            None => self.foot.clone(),
        }
    }

    /// What it says, in reading order.
    #[must_use]
    pub fn sayings(&self) -> Vec<Saying> {
        let mut found = Vec::new();
        each_run(&self.blocks, &mut |run| gather(run, &mut found));
        found
    }

    /// The same document with its values as plain words, for formats that keep nothing else.
    #[must_use]
    pub fn in_plain_words(&self) -> Self {
        let mut plain = self.clone();
        plain_blocks(&mut plain.blocks);
        plain
    }
}

/// Every run of inlines of some blocks, in reading order.
pub fn each_run<'a>(blocks: &'a [Block], look: &mut impl FnMut(&'a [Inline])) {
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => look(text),
            Block::List { items, .. } => {
                for item in items {
                    each_run(&item.blocks, look);
                }
            }
            Block::Table(table) => {
                let cells = table.head.iter().chain(table.rows.iter().flatten());
                cells.for_each(|cell| look(cell));
            }
            Block::Caution { blocks, .. } | Block::Boxed(blocks) => each_run(blocks, look),
            Block::Beside(beside) => {
                for blocks in beside.pairs.iter().flatten() {
                    each_run(blocks, look);
                }
            }
            Block::Figure(_) | Block::Rule | Block::PageBreak => {}
        }
    }
}

fn gather(run: &[Inline], found: &mut Vec<Saying>) {
    for inline in run {
        match inline {
            Inline::Said { of, si, words } => found.push(Saying {
                of: of.clone(),
                words: words.replace('\u{a0}', " "),
                si: *si,
            }),
            Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
                gather(inner, found);
            }
            Inline::Text(_) | Inline::Blank(_) | Inline::Tick | Inline::Break => {}
        }
    }
}

fn plain_blocks(blocks: &mut [Block]) {
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => plain_run(text),
            Block::List { items, .. } => {
                for item in items {
                    plain_blocks(&mut item.blocks);
                }
            }
            Block::Table(table) => {
                let cells = table.head.iter_mut().chain(table.rows.iter_mut().flatten());
                cells.for_each(plain_run);
            }
            Block::Caution { blocks, .. } | Block::Boxed(blocks) => plain_blocks(blocks),
            Block::Beside(beside) => {
                for blocks in beside.pairs.iter_mut().flatten() {
                    plain_blocks(blocks);
                }
            }
            Block::Figure(_) | Block::Rule | Block::PageBreak => {}
        }
    }
}

fn plain_run(run: &mut Vec<Inline>) {
    let mut done: Vec<Inline> = Vec::with_capacity(run.len());
    for mut inline in run.drain(..) {
        if let Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } =
            &mut inline
        {
            plain_run(inner);
        }
        match (done.last_mut(), inline) {
            (Some(Inline::Text(before)), Inline::Text(words) | Inline::Said { words, .. }) => {
                before.push_str(&words)
            }
            (_, Inline::Said { words, .. }) => done.push(Inline::Text(words)),
            (_, inline) => done.push(inline),
        }
    }
    *run = done;
}
