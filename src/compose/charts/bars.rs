//! Horizontal bars, each named on its left and told in words on its right.

use super::board::{Board, LEAD, WIDE, room, shortened};
use crate::doc::{Anchor, Fill};

/// One bar.
pub(super) struct Bar {
    /// Its name.
    pub(super) name: String,
    /// Its parts from left to right.
    pub(super) parts: Vec<(f64, Fill)>,
    /// What is said of it.
    pub(super) words: String,
}

/// The most room that names get.
const NAMES: f32 = 200.0;

/// Height of a bar.
const BAR: f32 = 12.0;

/// From one bar to the next.
const PITCH: f32 = 18.0;

/// The bars on a board with its height; `key` tells the fills apart where there is more than one.
pub(super) fn drawn(bars: &[Bar], key: &[(Fill, String)]) -> (Board, f32) {
    let mut board = Board::default();
    let widest = |words: &dyn Fn(&Bar) -> &str| {
        bars.iter()
            .map(|bar| room(words(bar)))
            .fold(0.0_f32, f32::max)
    };
    let left = widest(&|bar| &bar.name).min(NAMES) + 8.0;
    let right = widest(&|bar| &bar.words) + 14.0;
    let wide = (WIDE - left - right).max(60.0);
    let sum = |bar: &Bar| bar.parts.iter().map(|(value, _)| value).sum::<f64>();
    let most = bars.iter().map(sum).fold(0.0, f64::max).max(1e-9);
    let mut y = 4.0;
    for bar in bars {
        let name = shortened(&bar.name, left - 8.0);
        board.words((left - 6.0, y + BAR - 2.5), Anchor::End, false, &name);
        let mut x = left;
        for (value, fill) in &bar.parts {
            let part = (value / most) as f32 * wide;
            if part > 0.0 {
                board.block(x, y, part, BAR, *fill);
                x += part;
            }
        }
        board.words((x + 6.0, y + BAR - 2.5), Anchor::Start, false, &bar.words);
        y += PITCH;
    }
    if key.len() > 1 {
        y += 4.0;
        let long: f32 = key.iter().map(|(_, words)| 35.0 + room(words)).sum();
        let mut x = left.min(WIDE - long).max(2.0);
        for (fill, words) in key {
            board.block(x, y, 16.0, BAR, *fill);
            board.words((x + 21.0, y + BAR - 2.5), Anchor::Start, false, words);
            x += 21.0 + room(words) + 14.0;
        }
        y += LEAD + 2.0;
    }
    (board, y + 2.0)
}
