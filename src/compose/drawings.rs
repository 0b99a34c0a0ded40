//! A module's described drawing as a figure of the document.

use super::catalogue::text;
use crate::doc::{Anchor, Figure, Fill, Pen, Shape};
use crate::nouns::{
    Drawing, DrawnShape, LABEL_POINTS, MARK_RADIUS, Mark, Module, Scene, leader_start, place_letter,
};
use crate::phrase::phrase;

/// Width of the line that leads from words to what they name, in points.
pub const LEADER: f32 = 0.5;

/// The name of a module's drawing in the text and among the figures.
#[must_use]
pub fn name(module: &Module, drawing: &Drawing) -> String {
    format!("{}-{}", module.id, drawing.id)
}

/// The drawing as shapes; `caption` and `alt` are plain words, facts filled in.
#[must_use]
pub fn figure(id: String, drawing: &Drawing, caption: String, alt: String) -> Figure {
    let mut shapes = Vec::with_capacity(drawing.shapes.len());
    for shape in &drawing.shapes {
        add(shape, &mut shapes);
    }
    Figure {
        id,
        caption,
        alt,
        width: drawing.width as f32,
        height: drawing.height as f32,
        shapes,
    }
}

/// A ring with its letter on each place of a scene, on white so that no line runs through it.
#[must_use]
pub fn marks(scene: &Scene) -> Vec<Shape> {
    let ring = |at: (f64, f64)| DrawnShape::Ellipse {
        centre: at,
        radii: (MARK_RADIUS, MARK_RADIUS),
        width: 1.0,
        dashed: false,
        fill: "white".to_owned(),
    };
    let letter = |index: usize, at: (f64, f64)| DrawnShape::Label {
        // half of a capital's height below the middle
        at: (at.0, at.1 + LABEL_POINTS * 0.33),
        anchor: "middle".to_owned(),
        bold: true,
        text: place_letter(index).to_string(),
        to: None,
    };
    let mut shapes = Vec::with_capacity(scene.places.len() * 2);
    for (index, place) in scene.places.iter().enumerate() {
        add(&ring(place.at), &mut shapes);
        add(&letter(index, place.at), &mut shapes);
    }
    shapes
}

/// The most room of a group's mark, in points: two fingers wide, and no higher than a title, so
/// that no sheet gets longer by it.
const MARK: (f32, f32) = (72.0, 26.0);

/// A group's mark at the size in which it is printed.
#[must_use]
pub fn mark(mark: &Mark, name: &str) -> Figure {
    let (width, height) = (mark.width as f32, mark.height as f32);
    let scale = (MARK.0 / width).min(MARK.1 / height);
    let mut shapes = Vec::with_capacity(mark.shapes.len());
    for shape in &mark.shapes {
        add(shape, &mut shapes);
    }
    shapes.iter_mut().for_each(|shape| scaled(shape, scale));
    Figure {
        id: "mark".to_owned(),
        caption: text(&phrase!("mark-caption", name = name)),
        alt: text(&phrase!("mark-alt", name = name)),
        width: width * scale,
        height: height * scale,
        shapes,
    }
}

fn scaled(shape: &mut Shape, by: f32) {
    match shape {
        Shape::Line { points, pen, .. } | Shape::Curve { points, pen, .. } => {
            for point in points {
                *point = (point.0 * by, point.1 * by);
            }
            pen.width *= by;
        }
        Shape::Ellipse {
            centre, radii, pen, ..
        } => {
            *centre = (centre.0 * by, centre.1 * by);
            *radii = (radii.0 * by, radii.1 * by);
            pen.width *= by;
        }
        Shape::Label { at, size, .. } => {
            *at = (at.0 * by, at.1 * by);
            *size *= by;
        }
    }
}

fn point((x, y): (f64, f64)) -> (f32, f32) {
    (x as f32, y as f32)
}

fn points(points: &[(f64, f64)]) -> Vec<(f32, f32)> {
    points.iter().copied().map(point).collect()
}

fn pen(width: f64, dashed: bool) -> Pen {
    Pen {
        width: width as f32,
        dash: if dashed { vec![4.0, 3.0] } else { Vec::new() },
    }
}

fn fill(word: &str) -> Fill {
    match word {
        "white" => Fill::White,
        "black" => Fill::Black,
        "hatched" => Fill::Hatched,
        _ => Fill::None,
    }
}

fn add(shape: &DrawnShape, shapes: &mut Vec<Shape>) {
    match shape {
        DrawnShape::Line {
            points: corners,
            closed,
            width,
            dashed,
            fill: inside,
        } => shapes.push(Shape::Line {
            points: points(corners),
            closed: *closed,
            pen: pen(*width, *dashed),
            fill: fill(inside),
        }),
        DrawnShape::Curve {
            points: pieces,
            closed,
            width,
            dashed,
            fill: inside,
        } => shapes.push(Shape::Curve {
            points: points(pieces),
            closed: *closed,
            pen: pen(*width, *dashed),
            fill: fill(inside),
        }),
        DrawnShape::Ellipse {
            centre,
            radii,
            width,
            dashed,
            fill: inside,
        } => shapes.push(Shape::Ellipse {
            centre: point(*centre),
            radii: point(*radii),
            pen: pen(*width, *dashed),
            fill: fill(inside),
        }),
        DrawnShape::Label {
            at,
            anchor,
            bold,
            text,
            to,
        } => {
            if let Some(end) = to {
                shapes.push(Shape::Line {
                    points: vec![point(leader_start(*at, *end)), point(*end)],
                    closed: false,
                    pen: pen(f64::from(LEADER), false),
                    fill: Fill::None,
                });
            }
            shapes.push(Shape::Label {
                at: point(*at),
                anchor: match anchor.as_str() {
                    "middle" => Anchor::Middle,
                    "end" => Anchor::End,
                    _ => Anchor::Start,
                },
                size: LABEL_POINTS as f32,
                bold: *bold,
                text: text.clone(),
            });
        }
    }
}
