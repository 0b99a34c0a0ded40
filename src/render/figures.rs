//! A figure as SVG inside a page.

use std::fmt::Write as _;

use crate::doc::{Anchor, Figure, Fill, Pen, Shape};

use super::markup::{escaped, push_escaped, push_number};

/// The drawing as an `<svg>` element at its natural size.
///
/// It is drawn in the colour of the text round it (and `paper`, a class, fills
/// what hides what is behind it), so that a dark page turns it over whole.
/// Every id starts with `prefix`, which must be unique in the page.
#[must_use]
pub(super) fn svg(figure: &Figure, prefix: &str) -> String {
    let mut out = String::new();
    out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 ");
    push_number(&mut out, figure.width);
    out.push(' ');
    push_number(&mut out, figure.height);
    out.push_str("\" width=\"");
    push_number(&mut out, figure.width);
    out.push_str("pt\" height=\"");
    push_number(&mut out, figure.height);
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        out,
        "pt\" aria-labelledby=\"{prefix}t {prefix}d\"><title id=\"{prefix}t\">{}</title><desc id=\"{prefix}d\">{}</desc>",
        escaped(&figure.caption),
        escaped(&figure.alt),
    );
    if figure.shapes.iter().any(is_hatched) {
        let _ = write!(
            out,
            "<defs><pattern id=\"{prefix}h\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0V5\" stroke=\"currentColor\" stroke-width=\"1.2\"/></pattern></defs>",
        );
    }
    for shape in &figure.shapes {
        draw(&mut out, shape, prefix);
    }
    out.push_str("</svg>");
    out
}

fn is_hatched(shape: &Shape) -> bool {
    match shape {
        Shape::Line { fill, .. } | Shape::Curve { fill, .. } | Shape::Ellipse { fill, .. } => {
            *fill == Fill::Hatched
        }
        Shape::Label { .. } => false,
    }
}

fn draw(out: &mut String, shape: &Shape, prefix: &str) {
    match shape {
        Shape::Line {
            points,
            closed,
            pen,
            fill,
        } => {
            let Some((start, rest)) = points.split_first() else {
                return;
            };
            out.push_str("<path d=\"M");
            push_point(out, *start);
            for point in rest {
                out.push('L');
                push_point(out, *point);
            }
            finish_path(out, *closed, pen, *fill, prefix);
        }
        Shape::Curve {
            points,
            closed,
            pen,
            fill,
        } => {
            let Some((start, rest)) = points.split_first() else {
                return;
            };
            out.push_str("<path d=\"M");
            push_point(out, *start);
            for piece in rest.chunks_exact(3) {
                out.push('C');
                for (index, point) in piece.iter().enumerate() {
                    if index > 0 {
                        out.push(' ');
                    }
                    push_point(out, *point);
                }
            }
            finish_path(out, *closed, pen, *fill, prefix);
        }
        Shape::Ellipse {
            centre,
            radii,
            pen,
            fill,
        } => {
            out.push_str("<ellipse");
            for (name, value) in [
                ("cx", centre.0),
                ("cy", centre.1),
                ("rx", radii.0),
                ("ry", radii.1),
            ] {
                let _ = write!(out, " {name}=\"");
                push_number(out, value);
                out.push('"');
            }
            push_looks(out, pen, *fill, prefix);
            out.push_str("/>");
        }
        Shape::Label {
            at,
            anchor,
            size,
            bold,
            text,
        } => {
            out.push_str("<text x=\"");
            push_number(out, at.0);
            out.push_str("\" y=\"");
            push_number(out, at.1);
            out.push_str("\" font-size=\"");
            push_number(out, *size);
            out.push_str("\" fill=\"currentColor\"");
            match anchor {
                Anchor::Start => {}
                Anchor::Middle => out.push_str(" text-anchor=\"middle\""),
                Anchor::End => out.push_str(" text-anchor=\"end\""),
            }
            if *bold {
                out.push_str(" font-weight=\"700\"");
            }
            out.push('>');
            push_escaped(out, text);
            out.push_str("</text>");
        }
    }
}

fn push_point(out: &mut String, (x, y): (f32, f32)) {
    push_number(out, x);
    out.push(' ');
    push_number(out, y);
}

fn finish_path(out: &mut String, closed: bool, pen: &Pen, fill: Fill, prefix: &str) {
    if closed {
        out.push('Z');
    }
    out.push('"');
    push_looks(out, pen, fill, prefix);
    out.push_str("/>");
}

fn push_looks(out: &mut String, pen: &Pen, fill: Fill, prefix: &str) {
    match fill {
        Fill::None => out.push_str(" fill=\"none\""),
        Fill::White => out.push_str(" class=\"paper\""),
        Fill::Black => out.push_str(" fill=\"currentColor\""),
        Fill::Hatched => {
            let _ = write!(out, " fill=\"url(#{prefix}h)\"");
        }
    }
    if pen.width > 0.0 {
        out.push_str(" stroke=\"currentColor\" stroke-width=\"");
        push_number(out, pen.width);
        out.push('"');
        if !pen.dash.is_empty() {
            out.push_str(" stroke-dasharray=\"");
            for (index, length) in pen.dash.iter().enumerate() {
                if index > 0 {
                    out.push(' ');
                }
                push_number(out, *length);
            }
            out.push('"');
        }
    }
}
