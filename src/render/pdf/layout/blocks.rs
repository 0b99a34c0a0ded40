//! Blocks to strips: headings, paragraphs, cautions, boxes; inlines to runs.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use std::sync::Arc;

use super::furniture::triangle_marks;
use super::sizes::{
    BLANK_HEIGHT, BLANK_RULE, CELL_BLANK_HEIGHT, FAR, FRAME_PAD, MOST_FOOT, PART, SECTION, TEXT,
    TICK_EDGE, TITLE, WORDS_BLANK,
};
use super::tip::{own_tip, tip};
use super::tree::{ElementId, Role, Tree};
use super::{Area, Frame, Keep, Mark, Placed, Sizes, Strip};
use crate::doc::{Block, Inline, Signal, Words, plain};
use crate::render::pdf::text::{BOLD, Faces, ITALIC, Line, Object, REGULAR, Run, What};

/// The height of capitals over the text size, as in most text faces.
const CAPITALS: f32 = 0.66;

/// Builds strips and, beside them, the structure tree.
pub(super) struct Builder<'a> {
    pub faces: &'a Faces,
    pub sizes: Sizes,
    pub tree: Tree,
    pub frames: Vec<Frame>,
    /// Heads of tables, for pages that start inside one.
    pub heads: Vec<Vec<Strip>>,
    pub missing: BTreeSet<char>,
    /// What the page says by itself.
    pub words: Arc<Words>,
    /// Whether tick lists go in two columns.
    pub two_columns: bool,
    /// Room on the right of a title that a mark takes.
    pub beside_title: f32,
    /// The height that a page has for strips.
    pub page: f32,
    /// Where the links' elements lead.
    links: BTreeMap<ElementId, (Rc<str>, Rc<str>)>,
}

impl<'a> Builder<'a> {
    pub fn new(faces: &'a Faces, sizes: Sizes, two_columns: bool, page: f32) -> Self {
        Self {
            faces,
            sizes,
            tree: Tree::new(),
            frames: Vec::new(),
            heads: Vec::new(),
            missing: BTreeSet::new(),
            words: Arc::default(),
            two_columns,
            beside_title: 0.0,
            page,
            links: BTreeMap::new(),
        }
    }

    /// The strips of some blocks.
    pub fn blocks(&mut self, blocks: &[Block], area: Area, parent: ElementId) -> Vec<Strip> {
        let mut strips: Vec<Strip> = Vec::new();
        let mut boxed = false;
        for (at, block) in blocks.iter().enumerate() {
            let mut more = self.block(block, area, parent);
            let before = at.checked_sub(1).and_then(|at| blocks.get(at));
            let more_than_two = more.len() > 2;
            if let Some(last) = more.last_mut()
                && !more_than_two
                && holds_on(before, block, blocks.get(at + 1))
            {
                last.keep = Keep::Soft;
            }
            // a drawn edge needs more room below it than a line of text
            if boxed && let Some(first) = more.first_mut() {
                first.space = first.space.max(0.8 * area.size * self.sizes.space);
            }
            boxed = matches!(
                block,
                Block::Caution { .. } | Block::Boxed(_) | Block::Table(_) | Block::Figure(_)
            );
            strips.extend(more);
        }
        strips
    }

    /// The strips of one block.
    pub fn block(&mut self, block: &Block, area: Area, parent: ElementId) -> Vec<Strip> {
        let space = self.sizes.space;
        match block {
            Block::Heading {
                level,
                anchor,
                text,
            } => self.heading(*level, anchor, text, area, parent),
            Block::Paragraph(text) => {
                let element = self.tree.add(Role::Paragraph, parent);
                let mut strips = self.paragraph(text, REGULAR, area, element);
                raise(&mut strips, 0.55 * area.size * space);
                strips
            }
            Block::List { start, items } => self.list(*start, items, area, parent),
            Block::Table(table) => self.table(table, area, parent),
            Block::Caution { signal, blocks } => self.caution(*signal, blocks, area, parent),
            Block::Boxed(blocks) => {
                let group = self.tree.add(Role::Group, parent);
                self.framed(area, 0.75, |builder, inner| {
                    builder.blocks(blocks, inner, group)
                })
            }
            Block::Figure(figure) => self.figure(figure, area, parent),
            Block::Beside(beside) => self.beside(beside, area, parent),
            Block::Rule => {
                let mut strip = Strip::new(0.6 * area.size * space);
                strip.space = 0.9 * area.size * space;
                strip.items.push(rule(area.x, 0.0, area.width, 0.0, 0.5));
                vec![strip]
            }
            Block::PageBreak => {
                let mut strip = Strip::new(0.0);
                strip.fresh = true;
                vec![strip]
            }
        }
    }

    fn heading(
        &mut self,
        level: u8,
        anchor: &str,
        text: &[Inline],
        area: Area,
        parent: ElementId,
    ) -> Vec<Strip> {
        let (scale, above) = match level {
            1 => (TITLE, 0.0),
            2 => (SECTION, 1.3),
            3 => (PART, 1.0),
            _ => (TEXT, 0.8),
        };
        // what lies on its side is a slide, which has its title to itself
        let far = area.size >= FAR && area.wide <= self.page;
        let size = match level {
            1 if far => MOST_FOOT,
            // letters that are read from far are large enough for what heads them
            2 if far => area.size,
            _ => area.size * scale,
        };
        let element = self.tree.heading(level, parent);
        let words: Rc<str> = plain(text).replace('\n', " ").into();
        // a title has the page's width: it is no text to read line after line
        let width = if level == 1 {
            (area.wide - self.beside_title).max(0.5 * area.wide)
        } else {
            area.width
        };
        let area_of = Area {
            size,
            width,
            ..area
        };
        let mut strips = self.paragraph(text, BOLD, area_of, element);
        for strip in &mut strips {
            strip.keep = Keep::Strong;
        }
        if let Some(first) = strips.first_mut() {
            first.space = above * area.size * self.sizes.space;
            let spot = Mark::Spot {
                anchor: anchor.into(),
                level,
                words,
            };
            first.items.insert(
                0,
                Placed {
                    element: None,
                    order: self.tree.elements[element].order,
                    x: area.x,
                    y: 0.0,
                    mark: spot,
                },
            );
        }
        if let Some(last) = strips.last_mut()
            && level < 3
        {
            last.height += 0.1 * area.size * self.sizes.space;
        }
        strips
    }

    /// A paragraph's lines as strips, with its first and last two held together.
    pub fn paragraph(
        &mut self,
        text: &[Inline],
        face: usize,
        area: Area,
        element: ElementId,
    ) -> Vec<Strip> {
        let tip = tip(text, &self.words);
        let runs = self.runs(text, face, element, area.size, &tip);
        self.set(&runs, area)
    }

    /// The lines of some runs as strips.
    pub fn set(&mut self, runs: &[Run], area: Area) -> Vec<Strip> {
        let mut lines = self.faces.lines(runs, area.size, area.width);
        for line in &mut lines {
            to_the_edge(line, area);
        }
        let last = lines.len().saturating_sub(1);
        let mut strips = Vec::with_capacity(lines.len());
        for (i, line) in lines.iter().enumerate() {
            let height = self.line_height(line, area.size);
            let mut strip = Strip::new(height);
            strip.baseline = baseline(height, area.size);
            let place = (area.x, strip.baseline);
            self.place(line, area.size, place, height, &mut strip.items);
            if i < last && (i == 0 || i + 2 > last || last < 3) {
                strip.keep = Keep::Strong;
            }
            strips.push(strip);
        }
        strips
    }

    /// How high a line is.
    pub fn line_height(&self, line: &Line, size: f32) -> f32 {
        (size * self.sizes.leading).max(line.height)
    }

    /// Places a line: one mark for the words of each element, a rule under
    /// links, ticks and blanks with their fields.
    pub fn place(
        &mut self,
        line: &Line,
        size: f32,
        (x, y): (f32, f32),
        height: f32,
        items: &mut Vec<Placed>,
    ) {
        let mut from = 0;
        while from < line.pieces.len() {
            let first = &line.pieces[from];
            let tag = self.tree.tags[first.tag];
            let here = |dx: f32, dy: f32, element, mark| Placed {
                element,
                order: tag.order,
                x: x + dx,
                y: y + dy,
                mark,
            };
            if let What::Object(object) = &first.what {
                let field = |width, height| Mark::Field {
                    tick: object.tick,
                    width,
                    height,
                    tip: object.tip.clone(),
                };
                if object.tick {
                    let side = object.width - 4.0;
                    let (dx, dy) = (first.x + 2.0, -middle(size) - 0.5 * side);
                    items.push(here(dx, dy, None, tick(side)));
                    items.push(here(dx, dy, Some(tag.element), field(side, side)));
                } else {
                    let foot = 0.18 * size;
                    let tall = (0.85 * height).min(baseline(height, size) + foot - 1.0);
                    let line = Mark::Rule {
                        dx: object.width,
                        dy: 0.0,
                        weight: BLANK_RULE,
                        dash: &[],
                    };
                    items.push(here(first.x, foot, None, line));
                    let field = field(object.width, tall);
                    items.push(here(first.x, foot - tall, Some(tag.element), field));
                }
                from += 1;
                continue;
            }
            let same = line.pieces[from..]
                .iter()
                .take_while(|piece| piece.tag == first.tag && matches!(piece.what, What::Word(..)))
                .count();
            let mut pieces = line.pieces[from..from + same].to_vec();
            let start = first.x;
            for piece in &mut pieces {
                piece.x -= start;
                if let What::Word(_, word) = &piece.what {
                    self.missing.extend(word.missing.chars());
                }
            }
            let end = pieces.last().map_or(0.0, |piece| match &piece.what {
                What::Word(_, word) => piece.x + word.ink * size / 1000.0,
                What::Object(object) => piece.x + object.width,
            });
            if let Some((target, words)) = self.links.get(&tag.element) {
                let under = Mark::Rule {
                    dx: end,
                    dy: 0.0,
                    weight: 0.5,
                    dash: &[],
                };
                items.push(here(start, 0.14 * size, None, under));
                let link = Mark::Link {
                    target: target.clone(),
                    words: words.clone(),
                    width: end,
                    height: 1.2 * size,
                };
                items.push(here(start, -0.9 * size, Some(tag.element), link));
            }
            items.push(here(
                start,
                0.0,
                Some(tag.element),
                Mark::Text { size, pieces },
            ));
            from += same;
        }
    }

    /// The runs of some inlines, each tagged in reading order.
    pub fn runs(
        &mut self,
        text: &[Inline],
        face: usize,
        element: ElementId,
        size: f32,
        tip: &str,
    ) -> Vec<Run> {
        let mut runs = Vec::new();
        let many = text
            .iter()
            .filter(|inline| matches!(inline, Inline::Blank(_) | Inline::Tick))
            .count()
            > 1;
        let cell = self.tree.elements[element].role == Role::Cell;
        for (i, inline) in text.iter().enumerate() {
            let own = many
                .then(|| own_tip(text, i, &self.words))
                .flatten()
                .map(|own| if cell { format!("{tip}: {own}") } else { own });
            let own = own.as_deref().unwrap_or(tip);
            match inline {
                Inline::Text(words) | Inline::Said { words, .. } => {
                    let tag = self.tree.tag(element);
                    runs.push(Run::words(face, words.replace(['\n', '\r'], " "), tag));
                }
                Inline::Strong(inner) => {
                    runs.extend(self.runs(inner, face | BOLD, element, size, tip));
                }
                Inline::Emphasis(inner) => {
                    runs.extend(self.runs(inner, face | ITALIC, element, size, tip));
                }
                Inline::Link { target, text } => {
                    let link = self.tree.add(Role::Link, element);
                    let words = plain(text).replace('\n', " ");
                    self.links
                        .insert(link, (target.as_str().into(), words.into()));
                    runs.extend(self.runs(text, face, link, size, tip));
                }
                Inline::Blank(characters) => {
                    let form = self.tree.add(Role::Form, element);
                    let (factor, least) = if cell {
                        CELL_BLANK_HEIGHT
                    } else {
                        BLANK_HEIGHT
                    };
                    let object = Object {
                        tick: false,
                        width: blank(*characters, size),
                        // a line to write on by hand; a cell has its own rules round it
                        height: (factor * size).max(least),
                        tip: own.into(),
                    };
                    let tag = self.tree.tag(form);
                    runs.push(Run::object(object, tag));
                }
                Inline::Tick => {
                    let form = self.tree.add(Role::Form, element);
                    let object = Object {
                        tick: true,
                        width: self.sizes.tick + 4.0,
                        height: self.sizes.tick + 4.0,
                        tip: own.into(),
                    };
                    let tag = self.tree.tag(form);
                    runs.push(Run::object(object, tag));
                }
                Inline::Break => {
                    // the space keeps the words apart for those who listen or copy
                    let tag = self.tree.tag(element);
                    runs.push(Run::words(face, " \n", tag));
                }
            }
        }
        runs
    }

    /// Strips in a frame, with room between them and it.
    pub fn framed(
        &mut self,
        area: Area,
        weight: f32,
        fill: impl FnOnce(&mut Self, Area) -> Vec<Strip>,
    ) -> Vec<Strip> {
        let pad = FRAME_PAD;
        let frame = self.frames.len();
        self.frames.push(Frame {
            x: area.x,
            width: area.width,
            weight,
        });
        let inner = Area {
            x: area.x + pad,
            width: area.width - 2.0 * pad,
            wide: area.width - 2.0 * pad,
            size: area.size,
        };
        let mut inside = fill(self, inner);
        raise(&mut inside, 0.0);
        let room = 0.45 * area.size;
        let mut strips = vec![Strip::pad(room)];
        strips.extend(inside);
        strips.push(Strip::new(room));
        let last = strips.len() - 1;
        for (i, strip) in strips.iter_mut().enumerate() {
            strip.frames.insert(0, frame);
            if i < last {
                strip.keep = strip.keep.max(Keep::Weak);
            }
        }
        strips[last - 1].keep = Keep::Strong;
        raise(&mut strips, 0.75 * area.size * self.sizes.space);
        strips
    }

    fn caution(
        &mut self,
        signal: Signal,
        blocks: &[Block],
        area: Area,
        parent: ElementId,
    ) -> Vec<Strip> {
        let group = self.tree.add(Role::Group, parent);
        let size = self.sizes.caution;
        let (weight, triangle) = match signal {
            Signal::Danger => (2.5, true),
            Signal::Warning => (1.75, true),
            Signal::Caution => (1.25, true),
            Signal::Notice => (0.75, false),
        };
        let area = Area { size, ..area };
        self.framed(area, weight, |builder, inner| {
            let side = 2.1 * size;
            let text = if triangle {
                inner.indented(side + 8.0)
            } else {
                inner
            };
            let word = Inline::Strong(vec![Inline::Text(format!(
                "{}: ",
                builder.words.signal(signal)
            ))]);
            let (mut lead, rest) = match blocks.split_first() {
                Some((Block::Paragraph(words), rest)) => (words.clone(), rest),
                _ => (Vec::new(), blocks),
            };
            lead.insert(0, word);
            let element = builder.tree.add(Role::Paragraph, group);
            let mut strips = builder.paragraph(&lead, REGULAR, text, element);
            strips.extend(builder.blocks(rest, text, group));
            if triangle {
                let tall = 0.88 * side;
                let height: f32 = strips.iter().map(|s| s.space + s.height).sum();
                if let Some(first) = strips.first_mut() {
                    let top = 0.1 * size;
                    first.items.extend(triangle_marks(inner.x, top, side, tall));
                }
                if let Some(last) = strips.last_mut() {
                    last.height += (tall + 0.15 * size - height).max(0.0);
                }
            }
            strips
        })
    }
}

/// Whether a short paragraph stays with the block after it: a line of words
/// that opens a list or a table, or stands right under a heading.
fn holds_on(before: Option<&Block>, block: &Block, after: Option<&Block>) -> bool {
    let opens = matches!(after, Some(Block::List { .. } | Block::Table(_)));
    let headed = matches!(before, Some(Block::Heading { .. }));
    let ends = matches!(after, None | Some(Block::PageBreak | Block::Heading { .. }));
    matches!(block, Block::Paragraph(_)) && (opens || headed && !ends)
}

/// A blank for words that ends its line reaches to the edge: room for a hand, and ends that line up.
fn to_the_edge(line: &mut Line, area: Area) {
    if let Some(piece) = line.pieces.last_mut()
        && let What::Object(object) = &mut piece.what
        && !object.tick
        && object.width >= blank(WORDS_BLANK, area.size) - 0.01
    {
        object.width = object.width.max(area.width - piece.x);
        line.width = piece.x + object.width;
    }
}

/// The width of a blank for so many characters written by hand.
fn blank(characters: usize, size: f32) -> f32 {
    (characters as f32 * 0.6 * size).max(3.0 * size)
}

/// Sets the space above the first of some strips.
pub(super) fn raise(strips: &mut [Strip], space: f32) {
    if let Some(first) = strips.first_mut() {
        first.space = space;
    }
}

/// Where the baseline stands so that capitals are in the middle of a line.
pub(super) fn baseline(height: f32, size: f32) -> f32 {
    0.5 * (height + CAPITALS * size)
}

/// How far the middle of the capitals stands above the baseline.
pub(super) fn middle(size: f32) -> f32 {
    0.5 * CAPITALS * size
}

/// A line that only adorns.
pub(super) fn rule(x: f32, y: f32, dx: f32, dy: f32, weight: f32) -> Placed {
    Placed {
        element: None,
        order: 0,
        x,
        y,
        mark: Mark::Rule {
            dx,
            dy,
            weight,
            dash: &[],
        },
    }
}

/// A box to tick.
pub(super) fn tick(side: f32) -> Mark {
    Mark::Frame {
        width: side,
        height: side,
        weight: TICK_EDGE,
    }
}
