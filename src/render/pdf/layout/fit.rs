//! A document to pages, tightened by defined steps when it may have only so
//! many.

use super::blocks::Builder;
use super::furniture::{Foot, hole};
use super::pager::paginate;
use super::sizes::{
    COLUMNS_MEASURE, HOLE_SIDE, MARK_RISE, SAME_WORDS, STEPS, Step, WORTH_A_SIDE, beside_title,
};
use super::{Area, Keep, Layout, Mark, Page, Sizes, Strip, cards, paper};
use crate::diag::{Outcome, Problem, Told, told};
use crate::doc::{Block, Document, plain};
use crate::render::pdf::text::Faces;
use std::sync::Arc;

/// Lays a document out.
///
/// # Errors
/// When it has more pages than it may have at its tightest, or a card holds
/// more than its size allows.
pub(in crate::render::pdf) fn layout(document: &Document, faces: &Faces) -> Outcome<Layout> {
    if let Some(fold) = document.style.cards {
        return cards::layout(document, faces, fold);
    }
    fitted(document, faces).map_err(|long| vec![too_long(document, &long)])
}

/// Lays a document out; one that is too long gets up to so many pages more, and beyond that as
/// many as it likes, with the problem beside it.
///
/// # Errors
/// When a card holds more than its size allows.
pub(in crate::render::pdf) fn layout_or_longer(
    document: &Document,
    faces: &Faces,
    more: usize,
) -> Outcome<(Layout, Option<Problem>)> {
    if document.style.cards.is_some() {
        return Ok((layout(document, faces)?, None));
    }
    let long = match fitted(document, faces) {
        Ok(layout) => return Ok((layout, None)),
        Err(long) => long,
    };
    let problem = too_long(document, &long);
    // as few pages as any step comes to, and then the loosest step that has no more
    let fewest = long.pages.iter().copied().min().unwrap_or(usize::MAX);
    let (most, step) = if fewest <= long.most + more {
        let first = long.pages.iter().position(|pages| *pages <= fewest);
        (fewest, STEPS[first.unwrap_or(0)])
    } else {
        (usize::MAX, STEPS[0])
    };
    let mut longer = document.clone();
    longer.style.most_pages = Some(most);
    if document.style.drawings_if_room {
        // there is no room for any, and the pages were counted without them
        longer
            .blocks
            .retain(|block| !matches!(block, Block::Figure(_)));
    }
    Ok((attempt(&longer, faces, step), Some(problem)))
}

/// A document that has too many pages at every step.
struct TooLong {
    /// How many it may have.
    most: usize,
    /// How many it has at each step.
    pages: Vec<usize>,
    /// The last step's layout.
    tightest: Layout,
}

/// The layout of the first step with few enough pages.
fn fitted(document: &Document, faces: &Faces) -> Result<Layout, Box<TooLong>> {
    let drawn = |block: &Block| matches!(block, Block::Figure(_));
    if document.style.drawings_if_room && document.blocks.iter().any(drawn) {
        return drawn_if_room(document, faces);
    }
    let first = attempt(document, faces, STEPS[0]);
    let Some(most) = document.style.most_pages.map(|most| most.max(1)) else {
        return Ok(spared(document, faces, first));
    };
    if first.pages.len() <= most {
        return Ok(spared(document, faces, first));
    }
    let mut long = TooLong {
        most,
        pages: vec![first.pages.len()],
        tightest: first,
    };
    for step in &STEPS[1..] {
        if long.tightest.pages.len() <= most {
            break;
        }
        long.tightest = attempt(document, faces, *step);
        long.pages.push(long.tightest.pages.len());
    }
    if long.tightest.pages.len() <= most {
        Ok(long.tightest)
    } else {
        Err(Box::new(long))
    }
}

/// The layout of the first step that holds the words, with the drawings where they fit in beside.
fn drawn_if_room(document: &Document, faces: &Faces) -> Result<Layout, Box<TooLong>> {
    let mut bare = document.clone();
    bare.blocks
        .retain(|block| !matches!(block, Block::Figure(_)));
    // a paper that may be longer, a side each for several things, is as long as its words make it
    let style = &document.style;
    let most = match (style.most_pages, style.still_good_pages) {
        (Some(most), Some(good)) if good > most => {
            let words = attempt(&bare, faces, STEPS[0]);
            words.pages.len().clamp(most, good)
        }
        (most, _) => most.unwrap_or(usize::MAX),
    };
    for step in STEPS {
        let words = attempt(&bare, faces, step);
        if words.pages.len() <= most {
            let drawn = attempt(document, faces, step);
            let room = drawn.pages.len() <= words.pages.len();
            return Ok(if room { drawn } else { words });
        }
    }
    fitted(&bare, faces)
}

/// The same with closer lines and narrower margins where that spares a last side of few lines.
fn spared(document: &Document, faces: &Faces, first: Layout) -> Layout {
    let pages = first.pages.len();
    if pages < 2 || first.filled >= WORTH_A_SIDE {
        return first;
    }
    let mut closer = STEPS[1..SAME_WORDS]
        .iter()
        .map(|step| attempt(document, faces, *step));
    closer
        .find(|layout| layout.pages.len() < pages)
        .unwrap_or(first)
}

/// One try with the sizes of one step.
fn attempt(document: &Document, faces: &Faces, step: Step) -> Layout {
    let sizes = Sizes::new(&document.style, step);
    flow(document, faces, sizes, &document.blocks, |_, _| Vec::new())
}

/// Flows blocks over pages, adds pages made otherwise (knowing how many there
/// are), then feet and marks.
pub(super) fn flow(
    document: &Document,
    faces: &Faces,
    sizes: Sizes,
    blocks: &[Block],
    more: impl FnOnce(&mut Builder<'_>, usize) -> Vec<Page>,
) -> Layout {
    let (width, height) = paper(&document.style);
    let mut builder = Builder::new(faces, sizes, document.style.two_column_ticks, 0.0);
    builder.words = Arc::clone(&document.words);
    let full = width - 2.0 * sizes.margin;
    // two columns need the width, and what stands above them lines up with them
    let mark = document
        .group
        .as_ref()
        .and_then(|group| group.mark.as_ref());
    builder.beside_title = beside_title(document);
    let measure = if document.style.two_column_ticks {
        full.min(COLUMNS_MEASURE * sizes.body)
    } else {
        full.min(sizes.measure * sizes.body)
    };
    let area = Area {
        x: sizes.margin,
        width: measure,
        wide: full,
        size: sizes.body,
    };
    let foot = Foot::new(&builder, document, area.x, area.wide);
    let top = sizes.margin;
    let bottom = height - sizes.margin - foot.height;
    builder.page = bottom - top;
    let strips: Vec<Strip> = builder.blocks(blocks, area, 0);
    let cards = document.style.cards.is_some();
    let mut pages = if strips.is_empty() && (!blocks.is_empty() || cards) {
        Vec::new()
    } else {
        let stack =
            |strips, level| paginate(strips, &builder.frames, &builder.heads, top, bottom, level);
        match document.style.most_pages {
            None => stack(strips, Keep::None),
            Some(most) => {
                let tidy = stack(strips.clone(), Keep::None);
                if tidy.len() <= most.max(1) {
                    tidy
                } else {
                    stack(strips, Keep::Soft)
                }
            }
        }
    };
    let used = pages.len();
    let filled = pages.last().map_or(1.0, |page| filled(page, top, bottom));
    pages.extend(more(&mut builder, used));
    foot.place(&mut builder, document, &mut pages, bottom);
    if document.style.corner_hole
        && let Some(first) = pages.first_mut()
    {
        hole(first, width);
    }
    if let (Some(mark), Some(first)) = (mark, pages.first_mut()) {
        let hole = if document.style.corner_hole {
            HOLE_SIDE
        } else {
            0.0
        };
        let x = width - sizes.margin - mark.width - hole;
        // cards begin where other sheets have their title
        let y = if cards { top - mark.height } else { top } - MARK_RISE;
        builder.adorning(mark, (x, y), first);
    }
    Layout {
        title: document.title.clone(),
        width,
        height,
        pages,
        filled,
        tree: builder.tree,
        missing: builder.missing,
        words: builder.words,
    }
}

/// The share of a page down to its last line of words.
fn filled(page: &Page, top: f32, bottom: f32) -> f32 {
    let words = |placed: &&super::Placed| matches!(placed.mark, Mark::Text { .. });
    let last = page.items.iter().filter(words).map(|placed| placed.y);
    (last.fold(top, f32::max) - top) / (bottom - top).max(1.0)
}

/// What to say when a sheet does not fit, with what runs over.
fn too_long(document: &Document, long: &TooLong) -> Problem {
    let (most, layout) = (long.most, &long.tightest);
    let pages = layout.pages.len();
    let over = layout.pages[most..]
        .iter()
        .flat_map(|page| &page.items)
        .find_map(|placed| match &placed.mark {
            Mark::Spot { words, .. } => Some(words.to_string()),
            _ => None,
        });
    let longest = longest_section(document);
    let mut help = match over {
        Some(heading) => told!(
            "everything from `{heading}` on runs over; cut there",
            heading
        ),
        None => Told::from("the end of the last section runs over; cut there"),
    };
    let lines = lines_over(layout, most);
    if lines > 0 {
        help.push(told!(" (about {lines} lines)", lines));
    }
    if let Some(section) = longest {
        help.push(told!(", or in the longest section, `{section}`", section));
    }
    Problem::error(
        "render.too_long",
        told!(
            "`{title}` needs {pages} pages at its tightest and may have {most}",
            title = document.title,
            pages,
            most
        ),
        help,
    )
}

/// How many lines stand on the pages that are too many.
fn lines_over(layout: &Layout, most: usize) -> usize {
    layout.pages[most.min(layout.pages.len())..]
        .iter()
        .map(|page| {
            let mut lines: Vec<i64> = page
                .items
                .iter()
                .filter(|placed| placed.element.is_some())
                .filter(|placed| matches!(placed.mark, Mark::Text { .. }))
                .map(|placed| placed.y.round() as i64)
                .collect();
            lines.sort_unstable();
            lines.dedup();
            lines.len()
        })
        .sum()
}

/// The heading over the most text.
fn longest_section(document: &Document) -> Option<String> {
    let mut longest: Option<(usize, String)> = None;
    let mut current: Option<(usize, String)> = None;
    for block in &document.blocks {
        if let Block::Heading { text, level, .. } = block
            && *level > 1
        {
            longest = longest.max(current.take());
            current = Some((0, plain(text)));
        } else if let Some((length, _)) = &mut current {
            *length += block_length(block);
        }
    }
    longest.max(current).map(|(_, heading)| heading)
}

/// How many characters a block holds.
fn block_length(block: &Block) -> usize {
    match block {
        Block::Heading { text, .. } | Block::Paragraph(text) => plain(text).chars().count(),
        Block::List { items, .. } => items
            .iter()
            .flat_map(|item| &item.blocks)
            .map(block_length)
            .sum(),
        Block::Table(table) => table
            .rows
            .iter()
            .flatten()
            .map(|cell| plain(cell).chars().count())
            .sum(),
        Block::Caution { blocks, .. } | Block::Boxed(blocks) => {
            blocks.iter().map(block_length).sum()
        }
        Block::Beside(beside) => beside
            .pairs
            .iter()
            .flatten()
            .flatten()
            .map(block_length)
            .sum(),
        Block::Figure(figure) => figure.height as usize,
        Block::Rule | Block::PageBreak => 0,
    }
}
