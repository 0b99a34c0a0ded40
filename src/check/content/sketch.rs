//! Whether a drawing can be read: everything in its frame, words clear of
//! lines and of each other, leaders that end at something.

use super::super::desk::{Desk, shown};
use super::letters;
use crate::diag::told;
use crate::load::Node;
use crate::nouns::{DrawnShape, LABEL_POINTS, leader_start};

/// How far from a line a leader may end, in points.
const REACH: f64 = 4.0;
/// Height of a capital, as a share of the size of the letters.
const CAPITAL: f64 = 0.66;
/// How far a `g` reaches below its line, as a share of the size.
const TAIL: f64 = 0.21;
/// What two things may share before they are said to touch, in points.
const TOUCH: f64 = 0.3;
/// Straight pieces that stand for a piece of a curve, and for an ellipse.
const CURVE_PIECES: u32 = 12;
const ELLIPSE_PIECES: u32 = 48;

type Point = (f64, f64);

/// A rectangle: left, top, right, foot.
#[derive(Clone, Copy)]
struct Area {
    left: f64,
    top: f64,
    right: f64,
    foot: f64,
}

impl Area {
    fn corners(self) -> [Point; 4] {
        [
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.foot),
            (self.left, self.foot),
        ]
    }

    fn meets(self, other: Area) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.foot
            && other.top < self.foot
    }

    fn within(self, frame: Area) -> bool {
        self.left >= frame.left
            && self.top >= frame.top
            && self.right <= frame.right
            && self.foot <= frame.foot
    }

    /// Whether any of a straight piece lies inside (Liang and Barsky 1984, "A new concept and
    /// method for line clipping", ACM Transactions on Graphics 3(1)).
    fn crossed_by(self, a: Point, b: Point) -> bool {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (step, room) in [
            (-dx, a.0 - self.left),
            (dx, self.right - a.0),
            (-dy, a.1 - self.top),
            (dy, self.foot - a.1),
        ] {
            if step == 0.0 {
                if room < 0.0 {
                    return false;
                }
            } else if step < 0.0 {
                enters = enters.max(room / step);
            } else {
                leaves = leaves.min(room / step);
            }
        }
        enters <= leaves
    }
}

/// A label and where its words stand.
struct Words<'n> {
    node: &'n Node,
    order: usize,
    text: String,
    at: Point,
    to: Option<Point>,
    /// From the capitals' top to the line that the words stand on.
    area: Area,
}

/// A shape as straight pieces.
struct Outline<'n> {
    node: &'n Node,
    order: usize,
    fill: &'n str,
    points: Vec<Point>,
}

/// Names what a reader of the drawing could not make out.
pub(super) fn check(desk: &Desk, width: f64, height: f64, shapes: &[(&Node, DrawnShape)]) {
    let frame = Area {
        left: 0.0,
        top: 0.0,
        right: width,
        foot: height,
    };
    let mut labels = Vec::new();
    let mut outlines = Vec::new();
    for (order, (node, shape)) in shapes.iter().enumerate() {
        match outline(shape) {
            Some((points, fill)) => outlines.push(Outline {
                node,
                order,
                fill,
                points,
            }),
            None => labels.extend(words(node, order, shape)),
        }
    }
    for one in &outlines {
        in_frame(desk, one, frame);
    }
    for (index, label) in labels.iter().enumerate() {
        words_in_frame(desk, label, frame);
        clear_of_words(desk, label, &labels[..index]);
        clear_of_lines(desk, label, &outlines, &labels);
        ends_at_something(desk, label, &outlines, frame);
    }
}

fn words<'n>(node: &'n Node, order: usize, shape: &DrawnShape) -> Option<Words<'n>> {
    let DrawnShape::Label {
        at,
        anchor,
        bold,
        text,
        to,
    } = shape
    else {
        return None;
    };
    let wide = LABEL_POINTS * letters::width(text, *bold);
    let left = match anchor.as_str() {
        "middle" => at.0 - wide / 2.0,
        "end" => at.0 - wide,
        _ => at.0,
    };
    Some(Words {
        node,
        order,
        text: text.clone(),
        at: *at,
        to: *to,
        area: Area {
            left,
            top: at.1 - CAPITAL * LABEL_POINTS,
            right: left + wide,
            foot: at.1,
        },
    })
}

/// A shape as straight pieces with its fill; none for words.
fn outline(shape: &DrawnShape) -> Option<(Vec<Point>, &str)> {
    let (mut points, closed, fill) = match shape {
        DrawnShape::Line {
            points,
            closed,
            fill,
            ..
        } => (points.clone(), *closed, fill),
        DrawnShape::Curve {
            points,
            closed,
            fill,
            ..
        } => (straightened(points), *closed, fill),
        DrawnShape::Ellipse {
            centre,
            radii,
            fill,
            ..
        } => (round(*centre, *radii), true, fill),
        DrawnShape::Label { .. } => return None,
    };
    if closed && let Some(first) = points.first().copied() {
        points.push(first);
    }
    Some((points, fill))
}

/// A row of cubic Bezier pieces by points on it.
fn straightened(points: &[Point]) -> Vec<Point> {
    let mut out: Vec<Point> = points.first().copied().into_iter().collect();
    for piece in points.get(1..).unwrap_or_default().chunks_exact(3) {
        let (Some(&a), [b, c, d]) = (out.last(), piece) else {
            continue;
        };
        for step in 1..=CURVE_PIECES {
            let t = f64::from(step) / f64::from(CURVE_PIECES);
            let u = 1.0 - t;
            let at = |a: f64, b: f64, c: f64, d: f64| {
                u * u * u * a + 3.0 * u * u * t * b + 3.0 * u * t * t * c + t * t * t * d
            };
            out.push((at(a.0, b.0, c.0, d.0), at(a.1, b.1, c.1, d.1)));
        }
    }
    out
}

fn round((x, y): Point, (across, down): Point) -> Vec<Point> {
    (0..ELLIPSE_PIECES)
        .map(|step| {
            let turn = f64::from(step) / f64::from(ELLIPSE_PIECES) * std::f64::consts::TAU;
            (x + across * libm::cos(turn), y + down * libm::sin(turn))
        })
        .collect()
}

fn in_frame(desk: &Desk, one: &Outline<'_>, frame: Area) {
    let outside = one.points.iter().find(|(x, y)| {
        *x < frame.left - TOUCH
            || *y < frame.top - TOUCH
            || *x > frame.right + TOUCH
            || *y > frame.foot + TOUCH
    });
    if let Some((x, y)) = outside {
        desk.error::<()>(
            one.node,
            "content.drawing",
            told!("the shape leaves the drawing's frame at [{x}, {y}]", x = format!("{x:.0}"), y = format!("{y:.0}")),
            told!("keep every point from 0 to {right} across and from 0 to {foot} down, or make the drawing larger", right = format!("{:.0}", frame.right), foot = format!("{:.0}", frame.foot)),
        );
    }
}

fn words_in_frame(desk: &Desk, label: &Words<'_>, frame: Area) {
    let whole = Area {
        foot: label.area.foot + TAIL * LABEL_POINTS,
        ..label.area
    };
    if whole.within(frame) {
        return;
    }
    desk.error::<()>(
        label.node,
        "content.drawing",
        told!("the label `{label}` leaves the drawing's frame", label = shown(&label.text)),
        told!("it reaches from {left} to {right} across and from {top} to {foot} down; the frame ends at {right_2} and {foot_2}: move `at`, shorten the words or make the drawing larger", left = format!("{:.0}", whole.left), right = format!("{:.0}", whole.right), top = format!("{:.0}", whole.top), foot = format!("{:.0}", whole.foot), right_2 = format!("{:.0}", frame.right), foot_2 = format!("{:.0}", frame.foot)),
    );
}

fn clear_of_words(desk: &Desk, label: &Words<'_>, others: &[Words<'_>]) {
    let below = Area {
        foot: label.area.foot + TAIL * LABEL_POINTS,
        ..label.area
    };
    for other in others {
        let theirs = Area {
            foot: other.area.foot + TAIL * LABEL_POINTS,
            ..other.area
        };
        if below.meets(theirs) {
            desk.error::<()>(
                label.node,
                "content.drawing",
                told!(
                    "the label `{label}` covers the label `{other}`",
                    label = shown(&label.text),
                    other = shown(&other.text)
                ),
                "move one of the two: a line of words takes 12 down",
            );
        }
    }
}

/// A label stands on white: no line, no hatching and no other label's leader behind it, unless a
/// white shape that was drawn in between hides them.
fn clear_of_lines(desk: &Desk, label: &Words<'_>, outlines: &[Outline<'_>], all: &[Words<'_>]) {
    let area = Area {
        left: label.area.left + TOUCH,
        top: label.area.top + TOUCH,
        right: label.area.right - TOUCH,
        foot: label.area.foot - TOUCH,
    };
    let cleared = outlines
        .iter()
        .filter(|one| one.order < label.order && one.fill == "white")
        .filter(|one| area.corners().iter().all(|at| inside(*at, &one.points)))
        .map(|one| one.order)
        .max();
    let seen = |order: usize| cleared.is_none_or(|cleared| order > cleared);
    let covered = outlines.iter().filter(|one| seen(one.order)).any(|one| {
        let mut pieces = one.points.windows(2);
        pieces.any(|ends| area.crossed_by(ends[0], ends[1]))
            || (matches!(one.fill, "hatched" | "black")
                && inside((area.left, area.top), &one.points))
    });
    let led_through = all
        .iter()
        .filter(|other| seen(other.order) && other.order != label.order)
        .filter_map(|other| Some((leader_start(other.at, other.to?), other.to?)))
        .any(|(start, end)| area.crossed_by(start, end));
    if covered || led_through {
        desk.error::<()>(
            label.node,
            "content.drawing",
            told!("the label `{label}` covers a line", label = shown(&label.text)),
            "move `at` to a white spot and lead from there with `to`, or lay a shape with `fill: white` under it first",
        );
    }
}

/// A leader ends on a line, or in an outline smaller than half of the frame: a pot without its lid
/// is one too.
fn ends_at_something(desk: &Desk, label: &Words<'_>, outlines: &[Outline<'_>], frame: Area) {
    let Some(to) = label.to else {
        return;
    };
    let found = outlines.iter().any(|one| {
        let mut pieces = one.points.windows(2);
        pieces.any(|ends| distance(to, ends[0], ends[1]) <= REACH)
            || (size(&one.points) < frame.right * frame.foot / 2.0 && inside(to, &one.points))
    });
    if !found {
        desk.error::<()>(
            label.node,
            "content.drawing",
            told!("the leader of the label `{label}` points to nowhere", label = shown(&label.text)),
            told!("end `to` on the line of what is named or inside it; nothing is drawn within {REACH} of [{to}, {to_2}]", REACH = format!("{REACH:.0}"), to = format!("{:.0}", to.0), to_2 = format!("{:.0}", to.1)),
        );
    }
}

/// Whether a point lies inside an outline, by the crossings of a ray to the right.
fn inside((x, y): Point, points: &[Point]) -> bool {
    let Some(&last) = points.last() else {
        return false;
    };
    let mut before = last;
    let mut within = false;
    for &at in points {
        if (before.1 > y) != (at.1 > y)
            && x < (at.0 - before.0) * (y - before.1) / (at.1 - before.1) + before.0
        {
            within = !within;
        }
        before = at;
    }
    within
}

/// How far a point lies from a straight piece.
fn distance(point: Point, a: Point, b: Point) -> f64 {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let long = dx * dx + dy * dy;
    let share = if long == 0.0 {
        0.0
    } else {
        (((point.0 - a.0) * dx + (point.1 - a.1) * dy) / long).clamp(0.0, 1.0)
    };
    libm::hypot(point.0 - a.0 - share * dx, point.1 - a.1 - share * dy)
}

/// The area of an outline, its ends joined (half the sum of the cross products of its corners).
fn size(points: &[Point]) -> f64 {
    let next = points.iter().cycle().skip(1);
    let twice: f64 = points
        .iter()
        .zip(next)
        .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
        .sum();
    twice.abs() / 2.0
}
