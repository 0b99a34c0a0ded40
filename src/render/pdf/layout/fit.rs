//! A document to pages, tightened by defined steps when it may have only so
//! many.

use super::blocks::Builder;
use super::furniture::{Foot, hole};
use super::pager::paginate;
use super::{Area, Keep, Layout, Mark, Page, Sizes, Strip, cards, paper};
use crate::diag::{Outcome, Problem};
use crate::doc::{Block, Document, Style, plain};
use crate::render::pdf::text::Faces;

/// About 75 characters of a text face at its size.
const MEASURE: f32 = 34.5;

/// About 90: where paper is short, longer lines before smaller words.
const TIGHT_MEASURE: f32 = 42.0;

/// The widest block of a sheet with two columns, over its text size.
const COLUMNS_MEASURE: f32 = 50.0;

/// Text is never tightened below this, in points (unless the style itself asks
/// for smaller).
const LEAST_BODY: f32 = 10.0;
/// Nor the words of cautions.
const LEAST_CAUTION: f32 = 12.0;
/// Nor tick boxes: 6 mm.
const LEAST_TICK: f32 = 17.0;
/// Nor the margin: 12 mm, what a thumb needs to hold a sheet.
const LEAST_MARGIN: f32 = 34.0;

/// The steps of tightening: factors on text size, on margins and on the space
/// between blocks, and the leading.
const STEPS: [(f32, f32, f32, f32); 6] = [
    (1.0, 1.0, 1.0, 1.3),
    (1.0, 1.0, 0.75, 1.27),
    (1.0, 0.85, 0.6, 1.23),
    (0.95, 0.75, 0.55, 1.22),
    (0.9, 0.7, 0.5, 1.2),
    (0.84, 0.65, 0.45, 1.18),
];

impl Sizes {
    fn new(style: &Style, step: (f32, f32, f32, f32)) -> Self {
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
}

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
    let first = attempt(document, faces, STEPS[0]);
    let Some(most) = document.style.most_pages.map(|most| most.max(1)) else {
        return Ok(first);
    };
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

/// One try with the sizes of one step.
fn attempt(document: &Document, faces: &Faces, step: (f32, f32, f32, f32)) -> Layout {
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
    // where sides are counted, a form's tables take the width and spare the height
    builder.wide_tables = document.style.landscape || document.style.most_pages.is_some();
    let full = width - 2.0 * sizes.margin;
    // two columns need the width, and what stands above them lines up with them
    let measure = if document.style.two_column_ticks {
        full.min(COLUMNS_MEASURE * sizes.body)
    } else {
        full.min(sizes.measure * sizes.body)
    };
    // a little of what the measure leaves goes to the left
    let left = (0.4 * (full - measure)).min(40.0);
    let area = Area {
        x: sizes.margin + left,
        width: measure,
        wide: full - left,
        size: sizes.body,
    };
    let across = if document.style.landscape {
        area.wide
    } else {
        area.width
    };
    let mut foot = Foot::new(&builder, document, area.x, across);
    let top = sizes.margin;
    let bottom = height - sizes.margin - foot.height;
    builder.page = bottom - top;
    let strips: Vec<Strip> = builder.blocks(blocks, area, 0);
    // the foot is as wide as the widest thing above it
    foot.widen(extent(&strips).min(area.x + area.wide));
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
    pages.extend(more(&mut builder, used));
    foot.place(&mut builder, document, &mut pages, bottom);
    if document.style.corner_hole
        && let Some(first) = pages.first_mut()
    {
        hole(first, width);
    }
    Layout {
        title: document.title.clone(),
        width,
        height,
        pages,
        tree: builder.tree,
        missing: builder.missing,
    }
}

/// How far to the right words, rules and boxes reach, in points.
fn extent(strips: &[Strip]) -> f32 {
    let items = strips.iter().flat_map(|strip| &strip.items);
    items.fold(0.0, |extent, placed| {
        let width = match &placed.mark {
            Mark::Rule { dx, .. } => *dx,
            Mark::Frame { width, .. } => *width,
            _ => 0.0,
        };
        f32::max(extent, placed.x + width)
    })
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
        Some(heading) => format!("everything from `{heading}` on runs over; cut there"),
        None => "the end of the last section runs over; cut there".to_string(),
    };
    let lines = lines_over(layout, most);
    if lines > 0 {
        help.push_str(&format!(" (about {lines} lines)"));
    }
    if let Some(section) = longest {
        help.push_str(&format!(", or in the longest section, `{section}`"));
    }
    Problem::error(
        "render.too_long",
        format!(
            "`{}` needs {pages} pages at its tightest and may have {most}",
            document.title
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
        Block::Figure(figure) => figure.height as usize,
        Block::Rule | Block::PageBreak => 0,
    }
}
