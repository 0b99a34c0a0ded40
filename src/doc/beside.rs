//! A sheet in two languages beside each other.

use super::{Block, Document, Inline, Table, Words};
use std::sync::Arc;

/// The same blocks in two languages, a pair for each.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside {
    /// What the page says by itself in each, and so which languages they are.
    pub words: [Arc<Words>; 2],
    /// What stands beside each other.
    pub pairs: Vec<[Vec<Block>; 2]>,
}

impl Beside {
    /// What stands in one column, in reading order.
    pub fn column(&self, side: usize) -> impl Iterator<Item = &Block> {
        self.pairs.iter().flat_map(move |pair| &pair[side])
    }
}

impl Document {
    /// The sheet with the same sheet in another language beside it: under one title the page lies on
    /// its side and has two columns. Pages double where they are counted; drawings stand on the sheet
    /// in one language alone.
    #[must_use]
    pub fn beside(mut self, mut other: Self) -> Self {
        for document in [&mut self, &mut other] {
            document
                .blocks
                .retain(|block| !matches!(block, Block::Figure(_)));
        }
        let apart = format!("{}-", other.words.language);
        rename(&mut other.blocks, &apart);
        let mut blocks = self.blocks.into_iter();
        let title = blocks.next();
        let mut others = other.blocks.into_iter();
        let mut pairs = Vec::new();
        if let Some(Block::Heading { text, .. }) = others.next() {
            let own = Block::Paragraph(vec![Inline::Strong(text)]);
            pairs.push([Vec::new(), vec![own]]);
        }
        pair(blocks.collect(), others.collect(), &mut pairs);
        let words = [Arc::clone(&self.words), Arc::clone(&other.words)];
        self.blocks = title
            .into_iter()
            .chain([Block::Beside(Beside { words, pairs })])
            .collect();
        let style = &mut self.style;
        style.landscape = true;
        style.corner_hole = false;
        style.drawings_if_room = false;
        style.most_pages = style.most_pages.map(|most| 2 * most);
        style.still_good_pages = style.still_good_pages.map(|good| good.saturating_mul(2));
        self
    }
}

/// Puts block beside block, item beside item. Where the two are not built alike, what is left of
/// each stands beside the other as one.
fn pair(own: Vec<Block>, other: Vec<Block>, pairs: &mut Vec<[Vec<Block>; 2]>) {
    let mut own = own.into_iter().peekable();
    let mut other = other.into_iter().peekable();
    while let (Some(left), Some(right)) = (own.peek(), other.peek()) {
        if !alike(left, right) {
            break;
        }
        let (Some(left), Some(right)) = (own.next(), other.next()) else {
            break;
        };
        match (left, right) {
            (
                Block::List { start, items },
                Block::List {
                    items: other_items, ..
                },
            ) => {
                for (at, (left, right)) in items.into_iter().zip(other_items).enumerate() {
                    let start = start.map(|first| first + at as u64);
                    let list = |item| {
                        vec![Block::List {
                            start,
                            items: vec![item],
                        }]
                    };
                    pairs.push([list(left), list(right)]);
                }
            }
            (left, right) => pairs.push([vec![left], vec![right]]),
        }
    }
    let rest = [own.collect::<Vec<_>>(), other.collect::<Vec<_>>()];
    if rest.iter().any(|rest| !rest.is_empty()) {
        pairs.push(rest);
    }
}

/// Whether two blocks say the same in two languages.
#[must_use]
pub fn alike(left: &Block, right: &Block) -> bool {
    match (left, right) {
        (Block::Heading { level, .. }, Block::Heading { level: other, .. }) => level == other,
        (
            Block::List { start, items },
            Block::List {
                start: other,
                items: others,
            },
        ) => start == other && items.len() == others.len(),
        (Block::Table(table), Block::Table(other)) => size(table) == size(other),
        (
            Block::Caution { signal, .. },
            Block::Caution {
                signal: other_signal,
                ..
            },
        ) => signal == other_signal,
        (left, right) => std::mem::discriminant(left) == std::mem::discriminant(right),
    }
}

fn size(table: &Table) -> (usize, usize) {
    (table.columns.len(), table.rows.len())
}

/// Anchors are unique in a document: those of the second column get its language.
fn rename(blocks: &mut [Block], apart: &str) {
    for block in blocks {
        match block {
            Block::Heading { anchor, .. } => anchor.insert_str(0, apart),
            Block::Caution { blocks, .. } | Block::Boxed(blocks) => rename(blocks, apart),
            _ => {}
        }
    }
}
