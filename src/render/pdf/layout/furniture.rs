//! What stands on a page beside its text: the foot, the mark for a punch.

use std::rc::Rc;

use super::blocks::{Builder, rule};
use super::figure::ellipse;
use super::{Ink, Mark, Page, Path, Placed, Role};
use crate::doc::Document;
use crate::render::pdf::text::{BOLD, REGULAR, Run};

/// Where a hole is punched: its middle from the edges, its radius (a hole of
/// 6 mm, 10 mm from both edges), in points.
const HOLE: (f32, f32) = (28.3, 8.5);

/// The foot's size and place.
pub(super) struct Foot {
    size: f32,
    x: f32,
    width: f32,
    /// How much of the page it takes above the margin.
    pub height: f32,
}

impl Foot {
    /// Measures the foot of a document.
    pub fn new(builder: &Builder<'_>, document: &Document, x: f32, width: f32) -> Self {
        let size = builder.sizes.foot();
        let runs = [Run::words(REGULAR, document.foot.as_str(), 0)];
        let lines = if document.foot.is_empty() {
            0
        } else {
            builder.faces.lines(&runs, size, width).len()
        };
        Self {
            size,
            x,
            width,
            height: size * (0.9 + 1.25 * (1 + lines) as f32),
        }
    }

    /// Places the foot of every page: the title, which page of how many, the
    /// document's own line.
    pub fn place(
        &self,
        builder: &mut Builder<'_>,
        document: &Document,
        pages: &mut [Page],
        bottom: f32,
    ) {
        let count = pages.len();
        for (i, page) in pages.iter_mut().enumerate() {
            let mut items = Vec::new();
            let mut y = bottom + 0.7 * self.size;
            items.push(rule(self.x, y, self.width, 0.0, 0.5));
            y += 1.15 * self.size;
            let number = builder.words.page(i + 1, count);
            let width = builder.faces.text_width(REGULAR, &number, self.size);
            let right = self.x + self.width - width;
            self.line(
                builder,
                &number,
                REGULAR,
                (right, y),
                f32::MAX,
                1,
                &mut items,
            );
            // the only page of a sheet has its title at the top already
            let mut room = self.width - width - 2.0 * self.size;
            let mut x = self.x;
            if count > 1 {
                let title = &document.title;
                self.line(builder, title, BOLD, (x, y), room, 1, &mut items);
                let taken = builder.faces.text_width(BOLD, title, self.size) + 1.5 * self.size;
                x += taken;
                room -= taken;
            }
            // whose paper it is, where it fits whole
            if let Some(group) = &document.group
                && builder.faces.text_width(REGULAR, &group.line, self.size) < room
            {
                self.line(builder, &group.line, REGULAR, (x, y), room, 1, &mut items);
            }
            if !document.foot.is_empty() {
                let at = (self.x, y + 1.25 * self.size);
                let text = &document.foot;
                let from = items.len();
                self.line(
                    builder,
                    text,
                    REGULAR,
                    at,
                    self.width,
                    usize::MAX,
                    &mut items,
                );
                // read once, at the very end
                if i + 1 == count {
                    let element = builder.tree.add(Role::Paragraph, 0);
                    let order = builder.tree.order();
                    for placed in &mut items[from..] {
                        placed.element = Some(element);
                        placed.order = order;
                    }
                }
            }
            page.items.extend(items);
        }
    }

    #[allow(clippy::too_many_arguments)]
    fn line(
        &self,
        builder: &mut Builder<'_>,
        text: &str,
        face: usize,
        (x, y): (f32, f32),
        width: f32,
        most: usize,
        items: &mut Vec<Placed>,
    ) {
        let tag = builder.tree.tag(0);
        let runs = [Run::words(face, text, tag)];
        let lines = builder.faces.lines(&runs, self.size, width);
        for (i, line) in lines.iter().take(most).enumerate() {
            let at = (x, y + i as f32 * 1.25 * self.size);
            let from = items.len();
            builder.place(line, self.size, at, self.size, items);
            for placed in &mut items[from..] {
                placed.element = None;
            }
        }
    }
}

/// The mark for a punch in the right top corner of a page.
pub(super) fn hole(page: &mut Page, width: f32) {
    let (inset, radius) = HOLE;
    page.items.push(Placed {
        element: None,
        order: 0,
        x: width - inset,
        y: inset,
        mark: Mark::Path(Rc::new(Path {
            points: ellipse((0.0, 0.0), (radius, radius)),
            closed: true,
            weight: 0.5,
            dash: vec![2.0, 2.0],
            ..Path::default()
        })),
    });
    page.items
        .push(rule(width - inset - 2.0, inset, 4.0, 0.0, 0.5));
    page.items
        .push(rule(width - inset, inset - 2.0, 0.0, 4.0, 0.5));
}

/// A triangle with an exclamation mark, as lines, for the signal words that
/// stand for harm to people.
pub(super) fn triangle_marks(x: f32, y: f32, side: f32, tall: f32) -> Vec<Placed> {
    let at = |px: f32, py: f32| (px * side, py * tall, false);
    let shape = |points: Vec<(f32, f32, bool)>, weight, fill| Placed {
        element: None,
        order: 0,
        x,
        y,
        mark: Mark::Path(Rc::new(Path {
            points,
            closed: true,
            weight,
            dash: Vec::new(),
            fill,
        })),
    };
    let weight = 0.06 * side;
    vec![
        shape(
            vec![at(0.5, 0.06), at(0.97, 0.97), at(0.03, 0.97)],
            weight,
            Ink::None,
        ),
        shape(
            vec![
                at(0.44, 0.36),
                at(0.56, 0.36),
                at(0.535, 0.70),
                at(0.465, 0.70),
            ],
            0.0,
            Ink::Black,
        ),
        shape(
            vec![
                at(0.45, 0.76),
                at(0.55, 0.76),
                at(0.55, 0.87),
                at(0.45, 0.87),
            ],
            0.0,
            Ink::Black,
        ),
    ]
}
