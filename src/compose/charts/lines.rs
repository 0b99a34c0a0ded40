//! Lines over two axes, each named at its right end.

use super::board::{Board, LEAD, WIDE, dashed, room, shortened, solid, spread_out};
use crate::doc::{Anchor, Fill, Pen};

/// One line.
pub(super) struct Series {
    /// Its name.
    pub(super) name: String,
    /// Its points, from left to right.
    pub(super) points: Vec<(f64, f64)>,
    /// How it is drawn.
    pub(super) pen: Pen,
}

/// An axis: its ends, its ticks and what it measures.
pub(super) struct Axis {
    /// The value at the left or the foot.
    pub(super) from: f64,
    /// The value at the right or the top; less than `from` for an axis that falls.
    pub(super) until: f64,
    /// Values with a mark, and its words.
    pub(super) ticks: Vec<(f64, String)>,
    /// What it measures.
    pub(super) name: String,
}

impl Axis {
    fn share(&self, value: f64) -> f32 {
        let span = self.until - self.from;
        if span == 0.0 {
            0.0
        } else {
            ((value - self.from) / span) as f32
        }
    }
}

/// The most room for names at the right.
const NAMES: f32 = 170.0;

/// Least height of the field.
const HIGH: f32 = 200.0;

/// A place where two lines cross, with its number.
pub(super) struct Ring {
    /// Where, in the axes' values.
    pub(super) at: (f64, f64),
    /// Its number.
    pub(super) number: String,
}

/// The lines on a board with its height; `notes` stand below.
pub(super) fn drawn(
    series: &[Series],
    across: &Axis,
    up: &Axis,
    rings: &[Ring],
    notes: &[String],
) -> (Board, f32) {
    let mut board = Board::default();
    let widest =
        |words: &mut dyn Iterator<Item = &String>| words.map(|one| room(one)).fold(0.0, f32::max);
    let left = widest(&mut up.ticks.iter().map(|(_, words)| words)) + 8.0;
    let names = widest(&mut series.iter().map(|one| &one.name)).min(NAMES);
    let right = WIDE - names - 30.0;
    let top = LEAD + 8.0;
    let high = HIGH.max(series.len() as f32 * LEAD);
    let foot = top + high;
    let x = |value: f64| left + across.share(value) * (right - left);
    let y = |value: f64| foot - up.share(value) * high;
    board.words((2.0, WORDS_TOP), Anchor::Start, false, &up.name);
    for (value, words) in &up.ticks {
        board.line(&[(left, y(*value)), (right, y(*value))], solid(0.25));
        board.words((left - 5.0, y(*value) + 3.5), Anchor::End, false, words);
    }
    for (value, words) in &across.ticks {
        board.line(&[(x(*value), foot), (x(*value), foot + 4.0)], solid(0.75));
        board.words((x(*value), foot + 15.0), Anchor::Middle, false, words);
    }
    board.line(&[(left, top), (left, foot), (right, foot)], solid(1.0));
    board.words(
        (0.5 * (left + right), foot + 15.0 + LEAD),
        Anchor::Middle,
        false,
        &across.name,
    );
    for one in series {
        let points: Vec<(f32, f32)> = one.points.iter().map(|(a, b)| (x(*a), y(*b))).collect();
        board.line(&points, one.pen.clone());
    }
    name_ends(&mut board, series, &x, &y, (top + 4.0, foot), names);
    let mut taken: Vec<(f32, f32)> = Vec::new();
    for ring in rings {
        let centre = (x(ring.at.0), y(ring.at.1));
        board.circle(centre, 6.5, solid(1.0), Fill::White);
        let wide = room(&ring.number) + 2.0;
        let free = |place: &(f32, f32)| {
            taken
                .iter()
                .all(|other| (other.0 - place.0).abs() > wide || (other.1 - place.1).abs() > 10.0)
        };
        let around = [(0.0, 3.5), (0.0, -9.0), (0.0, 17.0), (13.0, -6.0)];
        let place = around
            .iter()
            .chain(&[(-13.0, 12.0), (13.0, 12.0), (-13.0, -6.0), (0.0, 29.0)])
            .map(|shift| (centre.0 + shift.0, centre.1 + shift.1))
            .find(free)
            .unwrap_or((centre.0, centre.1 - 28.0));
        taken.push(place);
        board.words(place, Anchor::Middle, true, &ring.number);
    }
    let mut below = foot + 15.0 + LEAD;
    for note in notes {
        below += LEAD;
        board.words((2.0, below + 3.0), Anchor::Start, false, note);
    }
    (board, below + 8.0)
}

/// Baseline of the upright axis' name.
const WORDS_TOP: f32 = 10.0;

/// The names at the right, each with a thin line to the end of its own.
fn name_ends(
    board: &mut Board,
    series: &[Series],
    x: &dyn Fn(f64) -> f32,
    y: &dyn Fn(f64) -> f32,
    (top, foot): (f32, f32),
    names: f32,
) {
    let mut ends: Vec<((f32, f32), &str)> = series
        .iter()
        .filter_map(|one| {
            let (a, b) = one.points.last()?;
            Some(((x(*a), y(*b)), one.name.as_str()))
        })
        .collect();
    ends.sort_by(|a, b| a.0.1.total_cmp(&b.0.1));
    let wishes: Vec<f32> = ends.iter().map(|(end, _)| end.1).collect();
    let places = spread_out(&wishes, LEAD, top, foot);
    let at = WIDE - names - 2.0;
    for ((end, name), place) in ends.iter().zip(places) {
        board.line(&[*end, (at - 4.0, place)], solid(0.4));
        let name = shortened(name, names);
        board.words((at, place + 3.5), Anchor::Start, false, &name);
    }
}

/// Pens that tell neighbours apart; the names at their ends say which is which.
pub(super) fn pen(index: usize) -> Pen {
    match index % 4 {
        0 => solid(1.5),
        1 => dashed(1.5),
        2 => Pen {
            width: 1.5,
            dash: vec![1.5, 2.5],
        },
        _ => Pen {
            width: 1.5,
            dash: vec![9.0, 3.0, 1.5, 3.0],
        },
    }
}
