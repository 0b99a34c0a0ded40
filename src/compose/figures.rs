//! Figures before they are drawn: their words are clean of the marks of values.

use crate::doc::{Figure, Shape};
use crate::markdown::without_marks;

/// Takes the marks of values out of a figure's words.
pub(super) fn clear(figure: &mut Figure) {
    figure.caption = without_marks(&figure.caption);
    figure.alt = without_marks(&figure.alt);
    for shape in &mut figure.shapes {
        if let Shape::Label { text, .. } = shape {
            *text = without_marks(text);
        }
    }
}
