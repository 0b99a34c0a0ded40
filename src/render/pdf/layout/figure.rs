//! Figures: shapes to paths and words, no wider than the page has room for.

use std::rc::Rc;

use super::blocks::{Builder, raise};
use super::sizes::FAR;
use super::tree::{ElementId, Role};
use super::{Area, Ink, Keep, Layout, Mark, Page, Path, Placed, Sizes, Strip, upright};
use crate::doc::{Anchor, Figure, Fill, Inline, Paper, Shape};
use crate::render::pdf::text::{BOLD, Faces, ITALIC, REGULAR, Run};

/// How far the handles of a Bezier piece stand out for a quarter of a circle:
/// 4/3 (sqrt 2 - 1).
const QUARTER: f32 = 0.552_284_8;

/// A drawing takes at most this share of a page's height.
pub(super) const MOST_OF_A_PAGE: f32 = 0.8;

/// The text size that figures are drawn for, in points.
const ORDINARY: f32 = 14.0;

/// Pages that hold figures alone, each drawn as large as it is and counted from the corner of the
/// paper: labels, which must meet their cuts.
pub(in crate::render::pdf) fn whole_pages(
    title: &str,
    paper: Paper,
    pages: &[Vec<Figure>],
    faces: &Faces,
) -> Layout {
    let (width, height) = upright(paper);
    let sizes = Sizes {
        body: ORDINARY,
        caution: ORDINARY,
        tick: ORDINARY,
        margin: 0.0,
        leading: 1.0,
        space: 1.0,
        measure: width,
    };
    let mut builder = Builder::new(faces, sizes, false, height);
    let mut laid = Vec::with_capacity(pages.len());
    for figures in pages {
        let mut page = Page::default();
        for figure in figures {
            let element = builder.tree.add_alt(Role::Figure, 0, &figure.alt);
            for shape in &figure.shapes {
                builder.shape(shape, 1.0, 0.0, element, &mut page.items);
            }
        }
        laid.push(page);
    }
    Layout {
        title: title.to_owned(),
        width,
        height,
        pages: laid,
        filled: 1.0,
        tree: builder.tree,
        missing: builder.missing,
        words: builder.words,
    }
}

impl Builder<'_> {
    /// The strips of a figure: the drawing, then its caption.
    pub fn figure(&mut self, figure: &Figure, area: Area, parent: ElementId) -> Vec<Strip> {
        let element = self.tree.add_alt(Role::Figure, parent, &figure.alt);
        let across = area.wide / figure.width.max(1.0);
        // a page on its side is low: what is left goes to the heading and the caption
        let share = if area.wide > self.page {
            0.45
        } else if area.size >= FAR {
            // words that are read from far leave it so much
            0.2
        } else {
            MOST_OF_A_PAGE
        };
        let down = share * self.page / figure.height.max(1.0);
        // a large print enlarges its figures' words too
        let wished = (area.size / ORDINARY).max(1.0);
        let scale = across.min(down).min(wished);
        let mut strip = Strip::new(figure.height * scale);
        for shape in &figure.shapes {
            self.shape(shape, scale, area.x, element, &mut strip.items);
        }
        let mut strips = vec![strip];
        if !figure.caption.is_empty() {
            strips[0].keep = Keep::Strong;
            let caption = self.tree.add(Role::Paragraph, parent);
            let words = [Inline::Text(figure.caption.clone())];
            let mut lines = self.paragraph(&words, ITALIC, area, caption);
            raise(&mut lines, 0.3 * area.size);
            let last = lines.len().saturating_sub(1);
            for line in &mut lines[..last] {
                line.keep = Keep::Strong;
            }
            strips.extend(lines);
        }
        raise(&mut strips, 0.8 * area.size * self.sizes.space);
        strips
    }

    /// Draws a figure that is no part of the text on a page.
    pub fn adorning(&mut self, figure: &Figure, (x, y): (f32, f32), page: &mut Page) {
        let mut items = Vec::new();
        for shape in &figure.shapes {
            self.shape(shape, 1.0, x, 0, &mut items);
        }
        for mut placed in items {
            placed.element = None;
            placed.y += y;
            page.items.push(placed);
        }
    }

    fn shape(
        &mut self,
        shape: &Shape,
        scale: f32,
        x: f32,
        element: ElementId,
        items: &mut Vec<Placed>,
    ) {
        let (mut path, pen, fill) = match shape {
            Shape::Line {
                points,
                closed,
                pen,
                fill,
            } => {
                let points = points.iter().map(|&(x, y)| (x, y, false)).collect();
                (drawn(points, *closed), pen, *fill)
            }
            Shape::Curve {
                points,
                closed,
                pen,
                fill,
            } => {
                let points = points
                    .iter()
                    .enumerate()
                    .map(|(i, &(x, y))| (x, y, i > 0 && i % 3 != 0))
                    .collect();
                (drawn(points, *closed), pen, *fill)
            }
            Shape::Ellipse {
                centre,
                radii,
                pen,
                fill,
            } => (drawn(ellipse(*centre, *radii), true), pen, *fill),
            Shape::Label {
                at,
                anchor,
                size,
                bold,
                text,
            } => {
                let size = size * scale;
                let face = if *bold { BOLD } else { REGULAR };
                let tag = self.tree.tag(element);
                let runs = [Run::words(face, text.as_str(), tag)];
                let lines = self.faces.lines(&runs, size, f32::MAX);
                for line in &lines {
                    let shift = match anchor {
                        Anchor::Start => 0.0,
                        Anchor::Middle => 0.5 * line.width,
                        Anchor::End => line.width,
                    };
                    let place = (x + at.0 * scale - shift, at.1 * scale);
                    self.place(line, size, place, size, items);
                }
                return;
            }
        };
        for point in &mut path.points {
            point.0 *= scale;
            point.1 *= scale;
        }
        path.weight = pen.width * scale;
        path.dash = pen.dash.iter().map(|length| length * scale).collect();
        path.fill = match fill {
            Fill::None => Ink::None,
            Fill::White => Ink::White,
            Fill::Black => Ink::Black,
            Fill::Hatched => Ink::Hatched,
        };
        items.push(Placed {
            element: Some(element),
            order: self.tree.order(),
            x,
            y: 0.0,
            mark: Mark::Path(Rc::new(path)),
        });
    }
}

fn drawn(points: Vec<(f32, f32, bool)>, closed: bool) -> Path {
    Path {
        points,
        closed,
        ..Path::default()
    }
}

/// An ellipse as four Bezier pieces.
pub(super) fn ellipse((x, y): (f32, f32), (a, b): (f32, f32)) -> Vec<(f32, f32, bool)> {
    let (ka, kb) = (a * QUARTER, b * QUARTER);
    vec![
        (x + a, y, false),
        (x + a, y + kb, true),
        (x + ka, y + b, true),
        (x, y + b, false),
        (x - ka, y + b, true),
        (x - a, y + kb, true),
        (x - a, y, false),
        (x - a, y - kb, true),
        (x - ka, y - b, true),
        (x, y - b, false),
        (x + ka, y - b, true),
        (x + a, y - kb, true),
        (x + a, y, false),
    ]
}
