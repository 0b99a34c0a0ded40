//! A module's described drawing as a figure of the document.

use crate::doc::{Anchor, Figure, Fill, Pen, Shape};
use crate::nouns::{Drawing, DrawnShape, LABEL_POINTS, Module, leader_start};

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
                    pen: pen(0.5, false),
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
