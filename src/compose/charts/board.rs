//! What charts are drawn on: a few shapes, and how much room words take.

use crate::doc::{Anchor, Fill, Pen, Shape};

/// Width of every chart in points.
pub(super) const WIDE: f32 = 480.0;

/// Size of the words in points.
pub(super) const WORDS: f32 = 10.0;

/// From one line of words to the next.
pub(super) const LEAD: f32 = 12.5;

/// An ample width of one letter, also in the wider faces that a screen may use: words measured so
/// never touch what stands beside them.
const LETTER: f32 = 6.0;

/// A solid pen.
pub(super) fn solid(width: f32) -> Pen {
    Pen {
        width,
        dash: Vec::new(),
    }
}

/// A dashed pen.
pub(super) fn dashed(width: f32) -> Pen {
    Pen {
        width,
        dash: vec![4.0, 3.0],
    }
}

/// The room that words take, on the ample side.
pub(super) fn room(words: &str) -> f32 {
    words.chars().count() as f32 * LETTER
}

/// Words that fit a room, shortened with an ellipsis where they must be.
pub(super) fn shortened(words: &str, points: f32) -> String {
    if room(words) <= points + 0.5 {
        return words.to_owned();
    }
    let keep = ((points / LETTER) as usize).saturating_sub(1).max(1);
    let kept: String = words.chars().take(keep).collect();
    format!("{}\u{2026}", kept.trim_end())
}

/// Places at least `gap` apart and between two bounds, each as near as may be to where it was
/// wished, in the order given; the wishes rise.
pub(super) fn spread_out(wishes: &[f32], gap: f32, top: f32, bottom: f32) -> Vec<f32> {
    let mut places: Vec<f32> = Vec::with_capacity(wishes.len());
    for wish in wishes {
        let least = places.last().map_or(top, |before| before + gap);
        places.push(wish.max(least));
    }
    let mut most = bottom;
    for place in places.iter_mut().rev() {
        *place = place.min(most);
        most = *place - gap;
    }
    places
}

/// A step of 1, 2 or 5 times a power of ten that divides a span into at most so many.
pub(super) fn nice_step(span: f64, most: f64) -> f64 {
    let mut power = 1e-6;
    while power < 1e9 {
        for times in [1.0, 2.0, 5.0] {
            if span / (power * times) <= most {
                return power * times;
            }
        }
        power *= 10.0;
    }
    span.max(1.0)
}

/// A drawing as it grows.
#[derive(Default)]
pub(super) struct Board {
    /// What is on it.
    pub(super) shapes: Vec<Shape>,
}

impl Board {
    /// A run of straight lines.
    pub(super) fn line(&mut self, points: &[(f32, f32)], pen: Pen) {
        self.shapes.push(Shape::Line {
            points: points.to_vec(),
            closed: false,
            pen,
            fill: Fill::None,
        });
    }

    /// A closed shape with an outline.
    pub(super) fn outline(&mut self, points: &[(f32, f32)], fill: Fill) {
        self.shapes.push(Shape::Line {
            points: points.to_vec(),
            closed: true,
            pen: solid(1.0),
            fill,
        });
    }

    /// An upright box.
    pub(super) fn block(&mut self, x: f32, y: f32, wide: f32, high: f32, fill: Fill) {
        self.outline(
            &[(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)],
            fill,
        );
    }

    /// A circle.
    pub(super) fn circle(&mut self, centre: (f32, f32), radius: f32, pen: Pen, fill: Fill) {
        self.shapes.push(Shape::Ellipse {
            centre,
            radii: (radius, radius),
            pen,
            fill,
        });
    }

    /// Words.
    pub(super) fn words(&mut self, at: (f32, f32), anchor: Anchor, bold: bool, text: &str) {
        self.shapes.push(Shape::Label {
            at,
            anchor,
            size: WORDS,
            bold,
            text: text.to_owned(),
        });
    }

    /// Several lines of words, the first with its baseline at `at`.
    pub(super) fn stacked(&mut self, at: (f32, f32), anchor: Anchor, texts: &[String]) {
        for (index, text) in texts.iter().enumerate() {
            self.words((at.0, at.1 + index as f32 * LEAD), anchor, false, text);
        }
    }

    /// An arrow from one place to another.
    pub(super) fn arrow(&mut self, from: (f32, f32), to: (f32, f32)) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let long = libm::sqrtf(dx * dx + dy * dy).max(0.1);
        let (ux, uy) = (dx / long, dy / long);
        let back = (to.0 - ux * 8.0, to.1 - uy * 8.0);
        self.line(&[from, back], solid(1.5));
        self.outline(
            &[
                to,
                (back.0 - uy * 3.5, back.1 + ux * 3.5),
                (back.0 + uy * 3.5, back.1 - ux * 3.5),
            ],
            Fill::Black,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_keep_apart_and_inside() {
        let places = spread_out(&[10.0, 11.0, 95.0, 99.0], 12.0, 0.0, 100.0);
        assert!(places.windows(2).all(|pair| pair[1] - pair[0] >= 12.0));
        assert!(places[0] >= 0.0 && places[3] <= 100.0);
        assert_eq!(spread_out(&[5.0, 50.0], 12.0, 0.0, 100.0), [5.0, 50.0]);
    }

    #[test]
    fn steps_are_round() {
        assert_eq!(nice_step(9.3, 6.0), 2.0);
        assert_eq!(nice_step(240.0, 6.0), 50.0);
        assert!((nice_step(0.7, 8.0) - 0.1).abs() < 1e-12);
    }

    #[test]
    fn long_words_are_shortened() {
        let short = shortened("breakfast at a camp with a very long name", 100.0);
        assert!(
            room(&short) <= 100.0 && short.ends_with('\u{2026}'),
            "{short}"
        );
        assert_eq!(shortened("supper", 100.0), "supper");
    }
}
