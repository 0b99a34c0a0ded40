//! Study cards: a grid of cells with lines to cut along, numbered; fronts and
//! backs on two sides of the paper, or side by side to fold.

use super::blocks::{Builder, rule};
use super::list::joined;
use super::sizes::{LEAST_HEAD, MEASURE, TITLE, beside_title};
use super::{Area, Layout, Mark, Page, Placed, Sizes, Strip, fit, paper};
use crate::diag::{Outcome, Problem, told};
use crate::doc::{Block, CardFold, Document, Inline, Words, plain};
use crate::render::pdf::text::{Faces, REGULAR, Run};
use std::sync::Arc;

/// Rows of cards on a page, tried in this order, with a factor on the text.
const TRIES: [(usize, f32); 6] = [(4, 1.0), (3, 1.0), (4, 0.9), (3, 0.9), (2, 1.0), (1, 0.9)];

/// Cards side by side.
const COLUMNS: usize = 2;

/// Room between a card's edge and its text, in points.
const PAD: f32 = 13.0;

/// Dashes of the lines to cut along and of those to fold at.
const CUT: &[f32] = &[4.0, 3.0];
const FOLD: &[f32] = &[1.0, 3.0];

/// How far lines stay away from where they would cross, in points.
const GAP: f32 = 6.0;

/// One card: the blocks of its front and of its back.
struct Card<'d> {
    front: &'d [Block],
    back: &'d [Block],
}

/// Lays a card sheet out.
///
/// # Errors
/// When a card holds more than a whole page.
pub(super) fn layout(document: &Document, faces: &Faces, fold: CardFold) -> Outcome<Layout> {
    let (before, cards) = sort(&document.blocks);
    // a title alone needs no page of its own: it goes into the first margin
    let (title, before) = match before {
        [title @ Block::Heading { level: 1, .. }] if !cards.is_empty() => (Some(title), &[][..]),
        _ => (None, before),
    };
    let style = &document.style;
    for (rows, factor) in TRIES {
        let sizes = Sizes {
            body: style.body_pt * factor,
            caution: style.caution_pt.min(style.body_pt) * factor,
            tick: style.tick_pt,
            margin: style.margin_pt,
            leading: 1.25,
            space: 0.8,
            measure: MEASURE,
        };
        let grid = Grid::new(document, faces, sizes, (rows, fold), title);
        if !cards.iter().all(|card| grid.holds(faces, sizes, card)) {
            continue;
        }
        return Ok(fit::flow(
            document,
            faces,
            sizes,
            before,
            |builder, used| {
                let mut pages = Vec::new();
                // fronts fall on the first side of a leaf
                if fold != CardFold::SingleSided && used % 2 == 1 {
                    pages.push(grid.empty_side(builder));
                }
                let title = title.map(|title| grid.title(builder, title));
                let mut sides = grid.pages(builder, &cards);
                if let (Some(title), Some(first)) = (title, sides.first_mut()) {
                    first.items.splice(0..0, title);
                }
                pages.extend(sides);
                pages
            },
        ));
    }
    let last = Sizes {
        body: style.body_pt * 0.9,
        caution: style.body_pt * 0.9,
        tick: style.tick_pt,
        margin: style.margin_pt,
        leading: 1.25,
        space: 0.8,
        measure: MEASURE,
    };
    let grid = Grid::new(document, faces, last, (1, fold), title);
    let problems = cards
        .iter()
        .filter(|card| !grid.holds(faces, last, card))
        .map(|card| {
            let name = match card.front.first() {
                Some(Block::Heading { text, .. }) => plain(text),
                _ => String::new(),
            };
            Problem::error(
                "render.card_full",
                told!(
                    "the card `{name}` of `{title}` holds more than a page",
                    name,
                    title = document.title
                ),
                "keep a card to one idea of about 25 words, or make two cards of it",
            )
        })
        .collect();
    Err(problems)
}

/// The blocks before the first card, and the cards. A heading above level 3
/// between cards stands at the front of the card that follows it.
fn sort(blocks: &[Block]) -> (&[Block], Vec<Card<'_>>) {
    let level = |block: &Block| match block {
        Block::Heading { level, .. } => Some(*level),
        _ => None,
    };
    let opens = |i: usize| level(&blocks[i]) == Some(3);
    let Some(first) = (0..blocks.len()).find(|&i| opens(i)) else {
        return (blocks, Vec::new());
    };
    let leads = |i: usize| level(&blocks[i]).is_some_and(|level| level < 3);
    // group headings right before the first card belong to it
    let mut start = first;
    while start > 1 && leads(start - 1) {
        start -= 1;
    }
    let before = &blocks[..start];
    let mut cards = Vec::new();
    while start < blocks.len() {
        let mut front = start;
        while front < blocks.len() && !opens(front) {
            front += 1;
        }
        if front == blocks.len() {
            break;
        }
        // a drawing right after the heading belongs to the question
        let asked =
            front + 1 + usize::from(matches!(blocks.get(front + 1), Some(Block::Figure(_))));
        let mut end = asked;
        while end < blocks.len() && !opens(end) && !leads(end) {
            end += 1;
        }
        cards.push(Card {
            front: &blocks[start..asked],
            back: &blocks[asked..end],
        });
        start = end;
    }
    (before, cards)
}

/// The cells of a page.
struct Grid {
    fold: CardFold,
    landscape: bool,
    rows: usize,
    x: f32,
    y: f32,
    /// Width and height of one side of a card.
    side: (f32, f32),
    /// What the page says by itself.
    words: Arc<Words>,
}

impl Grid {
    /// The grid below the sheet's title, which stands in the margin as long as it fits there.
    fn new(
        document: &Document,
        faces: &Faces,
        sizes: Sizes,
        (rows, fold): (usize, CardFold),
        title: Option<&Block>,
    ) -> Self {
        let (width, height) = paper(&document.style);
        let margin = sizes.margin;
        // the feet of card pages are one or two small lines
        let foot = 4.0 * sizes.foot();
        let head = title.map_or(0.0, |title| {
            let mut builder = Builder::new(faces, sizes, false, f32::MAX);
            builder.beside_title = beside_title(document);
            let wide = width - 2.0 * margin;
            let strip = joined(builder.block(title, title_area(margin, wide, sizes), 0));
            (strip.height + 0.5 * GAP - (margin - LEAST_HEAD)).max(0.0)
        });
        let room = (width - 2.0 * margin, height - 2.0 * margin - foot - head);
        let rows = if document.style.landscape {
            rows.min(3)
        } else {
            rows
        };
        Self {
            fold,
            landscape: document.style.landscape,
            rows,
            x: margin,
            y: margin + head,
            side: (room.0 / COLUMNS as f32, room.1 / rows as f32),
            words: Arc::clone(&document.words),
        }
    }

    /// Cards on a sheet of paper.
    fn count(&self) -> usize {
        match self.fold {
            CardFold::SingleSided => self.rows,
            _ => self.rows * COLUMNS,
        }
    }

    fn area(&self, column: usize, size: f32) -> Area {
        let width = self.side.0 - 2.0 * PAD;
        Area {
            x: self.x + column as f32 * self.side.0 + PAD,
            width,
            wide: width,
            size,
        }
    }

    /// The room for words and drawings on one side of a card.
    fn room(&self, sizes: Sizes) -> f32 {
        self.side.1 - 2.0 * PAD - sizes.body
    }

    /// The height of a page on which a drawing gets what the words of its side leave; none where
    /// there is no drawing.
    fn drawing_page(&self, faces: &Faces, sizes: Sizes, blocks: &[Block]) -> Option<f32> {
        let drawing = |block: &Block| matches!(block, Block::Figure(_));
        if !blocks.iter().any(drawing) {
            return None;
        }
        let words: Vec<Block> = blocks
            .iter()
            .filter(|block| !drawing(block))
            .cloned()
            .collect();
        let mut builder = Builder::new(faces, sizes, false, f32::MAX);
        builder.words = Arc::clone(&self.words);
        let area = self.area(0, sizes.body);
        let taken = joined(builder.blocks(&words, area, 0)).height;
        let left = self.room(sizes) - taken - 1.5 * sizes.body * sizes.space;
        Some(left.max(0.0) / super::figure::MOST_OF_A_PAGE)
    }

    /// Whether both sides of a card fit their cells.
    fn holds(&self, faces: &Faces, sizes: Sizes, card: &Card<'_>) -> bool {
        let room = self.room(sizes);
        [card.front, card.back].iter().all(|blocks| {
            let mut builder = Builder::new(faces, sizes, false, f32::MAX);
            builder.words = Arc::clone(&self.words);
            if let Some(page) = self.drawing_page(faces, sizes, blocks) {
                builder.page = page;
            }
            let area = self.area(0, sizes.body);
            joined(builder.blocks(blocks, area, 0)).height <= room
        })
    }

    /// The sheet's title, small, above the cards of the first page.
    fn title(&self, builder: &mut Builder<'_>, title: &Block) -> Vec<Placed> {
        let area = title_area(self.x, 2.0 * self.side.0, builder.sizes);
        let strip = joined(builder.block(title, area, 0));
        let up = self.y - strip.height - 0.5 * GAP;
        let mut items = strip.items;
        for placed in &mut items {
            placed.y += up;
        }
        items
    }

    /// The back of a leaf that holds no cards.
    fn empty_side(&self, builder: &mut Builder<'_>) -> Page {
        let mut page = Page::default();
        let words = builder.words.empty_side.clone();
        let area = self.area(0, builder.sizes.body);
        let text = Block::Paragraph(vec![Inline::Text(words)]);
        let mut y = self.y + PAD;
        for strip in builder.block(&text, area, 0) {
            page.items.extend(strip.items.into_iter().map(|mut placed| {
                placed.y += y;
                placed
            }));
            y += strip.height;
        }
        page
    }

    /// The pages of all cards.
    fn pages(&self, builder: &mut Builder<'_>, cards: &[Card<'_>]) -> Vec<Page> {
        let mut pages = Vec::new();
        for (sheet, group) in cards.chunks(self.count()).enumerate() {
            let mut front = Page::default();
            let mut back = Page::default();
            for (i, card) in group.iter().enumerate() {
                let number = sheet * self.count() + i + 1;
                let (row, column) = match self.fold {
                    CardFold::SingleSided => (i, 0),
                    _ => (i / COLUMNS, i % COLUMNS),
                };
                self.side(builder, &mut front, card.front, (row, column), number, true);
                if self.fold == CardFold::SingleSided {
                    self.side(builder, &mut front, card.back, (row, 1), number, false);
                } else {
                    let cell = self.behind(row, column);
                    self.side(builder, &mut back, card.back, cell, number, false);
                }
            }
            self.lines(&mut front);
            pages.push(front);
            if self.fold != CardFold::SingleSided {
                pages.push(back);
            }
        }
        pages
    }

    /// The cell behind a cell, once the paper is turned. Upright paper turned
    /// on its long edge swaps left and right, on its short edge top and bottom;
    /// paper that lies on its side the other way round.
    fn behind(&self, row: usize, column: usize) -> (usize, usize) {
        let sideways = (self.fold == CardFold::DuplexLongEdge) != self.landscape;
        if sideways {
            (row, COLUMNS - 1 - column)
        } else {
            (self.rows - 1 - row, column)
        }
    }

    /// One side of a card: its blocks, in the middle of the cell if it is a
    /// front, and the card's number in the corner.
    fn side(
        &self,
        builder: &mut Builder<'_>,
        page: &mut Page,
        blocks: &[Block],
        (row, column): (usize, usize),
        number: usize,
        front: bool,
    ) {
        let size = builder.sizes.body;
        let area = self.area(column, size);
        let frames = builder.frames.len();
        let page_height = builder.page;
        if let Some(page) = self.drawing_page(builder.faces, builder.sizes, blocks) {
            builder.page = page;
        }
        let strips = builder.blocks(blocks, area, 0);
        builder.page = page_height;
        let top = self.y + row as f32 * self.side.1;
        let whole = height(&strips);
        let room = self.room(builder.sizes);
        let mut y = top
            + PAD
            + if front {
                0.5 * (room - whole).max(0.0)
            } else {
                0.0
            };
        let mut open: Vec<(usize, f32, f32)> = Vec::new();
        for (i, strip) in strips.into_iter().enumerate() {
            if i > 0 {
                y += strip.space;
            }
            for frame in &strip.frames {
                match open.iter_mut().find(|(f, ..)| f == frame) {
                    Some((_, _, to)) => *to = y + strip.height,
                    None => open.push((*frame, y, y + strip.height)),
                }
            }
            for mut placed in strip.items {
                placed.y += y;
                page.items.push(placed);
            }
            y += strip.height;
        }
        for (frame, from, to) in open {
            debug_assert!(frame >= frames);
            let frame = builder.frames[frame];
            page.items.push(Placed {
                element: None,
                order: 0,
                x: frame.x,
                y: from,
                mark: Mark::Frame {
                    width: frame.width,
                    height: to - from,
                    weight: frame.weight,
                },
            });
        }
        self.number(builder, page, (row, column), number, front);
    }

    fn number(
        &self,
        builder: &mut Builder<'_>,
        page: &mut Page,
        (row, column): (usize, usize),
        number: usize,
        front: bool,
    ) {
        let size = builder.sizes.foot();
        let text = if front {
            number.to_string()
        } else {
            format!("{number} \u{2013} answer")
        };
        let width = builder.faces.text_width(REGULAR, &text, size);
        let x = self.x + (column + 1) as f32 * self.side.0 - PAD - width;
        let y = self.y + (row + 1) as f32 * self.side.1 - PAD;
        adorn(builder, page, &text, size, (x, y), self.side.0);
    }

    /// Lines to cut along, and to fold at where front and back lie side by side.
    fn lines(&self, page: &mut Page) {
        let mut line = |x, y, dx, dy, dash| {
            let mut line = rule(x, y, dx, dy, 0.5);
            if let Mark::Rule { dash: dashes, .. } = &mut line.mark {
                *dashes = dash;
            }
            page.items.push(line);
        };
        // a gap at every crossing: the corners stay clean when cut
        let (wide, tall) = self.side;
        for row in 0..=self.rows {
            let y = self.y + row as f32 * tall;
            for column in 0..COLUMNS {
                let x = self.x + column as f32 * wide;
                line(x + GAP, y, wide - 2.0 * GAP, 0.0, CUT);
            }
        }
        for column in 0..=COLUMNS {
            let folds = self.fold == CardFold::SingleSided && column == 1;
            let dash = if folds { FOLD } else { CUT };
            let x = self.x + column as f32 * wide;
            for row in 0..self.rows {
                let y = self.y + row as f32 * tall;
                line(x, y + GAP, 0.0, tall - 2.0 * GAP, dash);
            }
        }
    }
}

/// Where the sheet's title stands, a little larger than the text.
fn title_area(x: f32, width: f32, sizes: Sizes) -> Area {
    Area {
        x,
        width,
        wide: width,
        // the factor on a title's size, undone
        size: sizes.body * 1.1 / TITLE,
    }
}

/// Words that are no part of the text.
fn adorn(
    builder: &mut Builder<'_>,
    page: &mut Page,
    text: &str,
    size: f32,
    (x, y): (f32, f32),
    width: f32,
) {
    let tag = builder.tree.tag(0);
    let runs = [Run::words(REGULAR, text, tag)];
    let lines = builder.faces.lines(&runs, size, width);
    for (i, line) in lines.iter().enumerate() {
        let from = page.items.len();
        let at = (x, y + i as f32 * size * builder.sizes.leading);
        builder.place(line, size, at, size, &mut page.items);
        for placed in &mut page.items[from..] {
            placed.element = None;
        }
    }
}

fn height(strips: &[Strip]) -> f32 {
    strips
        .iter()
        .enumerate()
        .map(|(i, strip)| strip.height + if i > 0 { strip.space } else { 0.0 })
        .sum()
}
