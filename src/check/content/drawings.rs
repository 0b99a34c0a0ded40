//! Drawings of a module, as they are written.

use super::super::desk::{Desk, Keys};
use super::applies::applies;
use super::prose::phrase;
use super::sketch;
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{AppliesWhen, Drawing, DrawnShape, Id};

/// More shapes than a reader can make out in one drawing.
const MOST_SHAPES: usize = 400;

/// A described drawing.
pub(super) fn drawing(desk: &Desk, name: &Id, node: &Node) -> Option<Drawing> {
    let keys = desk.keys(node, "a drawing")?;
    let drawing = drawn(desk, name, &keys);
    let applies = applies(&keys);
    keys.done();
    Some(Drawing {
        applies: applies?,
        ..drawing?
    })
}

/// A drawing with the block of its marked places.
pub(super) fn with_places<'n>(
    desk: &Desk,
    name: &Id,
    node: &'n Node,
) -> (Option<Drawing>, Option<&'n Node>) {
    let Some(keys) = desk.keys(node, "a scene") else {
        return (None, None);
    };
    let drawing = drawn(desk, name, &keys);
    let places = keys.need(
        "places",
        "mark each place that may be wrong: `at`, `say` and, where it is, `fault: yes`",
    );
    keys.done();
    (drawing, places)
}

fn drawn(desk: &Desk, name: &Id, keys: &Keys<'_, '_>) -> Option<Drawing> {
    let caption = keys
        .need("caption", "say what the drawing shows, in a line")
        .and_then(|node| phrase(desk, node, "the caption", 200));
    let alt = keys
        .need("alt", "describe it for those who cannot see it")
        .and_then(|node| phrase(desk, node, "the description", 800));
    let size = |key| {
        keys.need(key, "write points, such as `360`")
            .and_then(|node| desk.number(node, "a size in points", 20.0..=540.0))
    };
    let (width, height) = (size("width"), size("height"));
    let shapes = keys
        .need("shapes", "list lines, curves, ellipses and labels")
        .map(|node| shapes(desk, node))
        .unwrap_or_default();
    let (width, height) = (width?, height?);
    sketch::check(desk, width, height, &shapes);
    Some(Drawing {
        id: name.clone(),
        caption: caption?,
        alt: alt?,
        width,
        height,
        shapes: shapes.into_iter().map(|(_, shape)| shape).collect(),
        applies: AppliesWhen::default(),
    })
}

/// The shapes that can be read, each with the place where it is written.
fn shapes<'n>(desk: &Desk, node: &'n Node) -> Vec<(&'n Node, DrawnShape)> {
    let items = desk.list(node, "shapes");
    if items.len() > MOST_SHAPES {
        desk.error::<()>(
            node,
            "content.drawing",
            told!("the drawing has {count} shapes", count = items.len()),
            told!(
                "draw it with {MOST_SHAPES} shapes at most, or make two drawings of it",
                MOST_SHAPES
            ),
        );
        return Vec::new();
    }
    items
        .into_iter()
        .filter_map(|item| shape(desk, item).map(|shape| (item, shape)))
        .collect()
}

/// How a shape is drawn.
struct Stroke {
    closed: bool,
    width: f64,
    dashed: bool,
    fill: String,
}

fn stroke(keys: &Keys<'_, '_>, can_close: bool) -> Option<Stroke> {
    let desk = keys.desk;
    let closed = if can_close {
        keys.get("closed")
            .map_or(Some(false), |node| desk.yes_no(node))
    } else {
        Some(true)
    };
    let width = keys.get("width").map_or(Some(1.0), |node| {
        desk.number(node, "a line width in points", 0.1..=20.0)
    });
    let dashed = keys
        .get("dashed")
        .map_or(Some(false), |node| desk.yes_no(node));
    let fill = keys.get("fill").map_or(Some("none"), |node| {
        desk.word(
            node,
            "a fill",
            &["none", "white", "black", "hatched"],
            |word| word,
        )
    });
    Some(Stroke {
        closed: closed?,
        width: width?,
        dashed: dashed?,
        fill: fill?.to_owned(),
    })
}

fn shape(desk: &Desk, node: &Node) -> Option<DrawnShape> {
    let keys = desk.keys(node, "a shape")?;
    let (line, curve) = (keys.get("line"), keys.get("curve"));
    let (ellipse, label) = (keys.get("ellipse"), keys.get("label"));
    let read = if let Some(line) = line {
        let points = points(desk, line, 2);
        let stroke = stroke(&keys, true);
        points.zip(stroke).map(|(points, stroke)| DrawnShape::Line {
            points,
            closed: stroke.closed,
            width: stroke.width,
            dashed: stroke.dashed,
            fill: stroke.fill,
        })
    } else if let Some(curve) = curve {
        let points = points(desk, curve, 4).filter(|points| {
            points.len() % 3 == 1
                || desk
                    .error::<()>(
                        curve,
                        "content.drawing",
                        "a curve is a start and then threes: control, control, end",
                        "write 4, 7, 10 .. points",
                    )
                    .is_some()
        });
        let stroke = stroke(&keys, true);
        points
            .zip(stroke)
            .map(|(points, stroke)| DrawnShape::Curve {
                points,
                closed: stroke.closed,
                width: stroke.width,
                dashed: stroke.dashed,
                fill: stroke.fill,
            })
    } else if let Some(ellipse) = ellipse {
        let numbers = numbers(desk, ellipse, 4, "centre and radii: x, y, rx, ry");
        let stroke = stroke(&keys, false);
        numbers
            .zip(stroke)
            .map(|(numbers, stroke)| DrawnShape::Ellipse {
                centre: (numbers[0], numbers[1]),
                radii: (numbers[2], numbers[3]),
                width: stroke.width,
                dashed: stroke.dashed,
                fill: stroke.fill,
            })
    } else if let Some(label) = label {
        let text = desk.line(label, "the words");
        let at = keys
            .need("at", "write where, such as `at: [20, 30]`")
            .and_then(|node| numbers(desk, node, 2, "a point: x, y"));
        let anchor = keys.get("anchor").map_or(Some("start"), |node| {
            desk.word(node, "an anchor", &["start", "middle", "end"], |word| word)
        });
        let bold = keys
            .get("bold")
            .map_or(Some(false), |node| desk.yes_no(node));
        let to = keys
            .get("to")
            .map(|node| numbers(desk, node, 2, "a point: x, y"));
        match (text, at, anchor, bold, super::optional(to)) {
            (Some(text), Some(at), Some(anchor), Some(bold), Some(to)) => Some(DrawnShape::Label {
                at: (at[0], at[1]),
                anchor: anchor.to_owned(),
                bold,
                text,
                to: to.map(|to| (to[0], to[1])),
            }),
            _ => None,
        }
    } else {
        desk.error(
            node,
            "content.drawing",
            "a shape is a line, a curve, an ellipse or a label",
            "write `- line: [[10, 120], [350, 120]]`",
        )
    };
    keys.done();
    read
}

fn numbers(desk: &Desk, node: &Node, count: usize, what: &'static str) -> Option<Vec<f64>> {
    let Value::List(items) = &node.value else {
        return desk.error(
            node,
            "content.drawing",
            told!(
                "expected {what}, found {kind}",
                what = Told::from(what),
                kind = Told::from(node.kind())
            ),
            "write numbers in brackets, such as `[20, 30]`",
        );
    };
    if items.len() != count {
        return desk.error(
            node,
            "content.drawing",
            told!(
                "expected {what}, found {count} numbers",
                what = Told::from(what),
                count = items.len()
            ),
            told!("write {count} numbers in brackets", count),
        );
    }
    let read: Vec<Option<f64>> = items
        .iter()
        .map(|item| desk.number(item, "a coordinate in points", -1000.0..=2000.0))
        .collect();
    read.into_iter().collect()
}

/// A point: x right, y down.
pub(super) fn point(desk: &Desk, node: &Node) -> Option<(f64, f64)> {
    numbers(desk, node, 2, "a point: x, y").map(|point| (point[0], point[1]))
}

fn points(desk: &Desk, node: &Node, least: usize) -> Option<Vec<(f64, f64)>> {
    let items = desk.list(node, "points");
    if items.len() < least {
        return desk.error(
            node,
            "content.drawing",
            told!(
                "expected at least {least} points, found {count}",
                least,
                count = items.len()
            ),
            "write points such as `[[10, 120], [350, 120]]`",
        );
    }
    let read: Vec<Option<(f64, f64)>> = items.into_iter().map(|item| point(desk, item)).collect();
    read.into_iter().collect()
}
