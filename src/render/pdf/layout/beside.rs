//! Blocks in two languages beside each other: a column each, a band for each pair.

use super::blocks::Builder;
use super::sizes::GUTTER;
use super::tree::ElementId;
use super::{Area, Frame, Keep, Mark, Placed, Strip};
use crate::doc::Beside;
use std::sync::Arc;

impl Builder<'_> {
    /// The strips of what stands beside each other.
    pub fn beside(&mut self, beside: &Beside, area: Area, parent: ElementId) -> Vec<Strip> {
        let width = 0.5 * (area.wide - GUTTER);
        let column = |at: usize| Area {
            x: area.x + if at == 0 { 0.0 } else { width + GUTTER },
            width,
            wide: width,
            size: area.size,
        };
        let before = (Arc::clone(&self.words), self.two_columns);
        self.two_columns = false;
        let mut strips = Vec::new();
        for pair in &beside.pairs {
            let side = |builder: &mut Self, at: usize| {
                let words = &beside.words[at];
                let group = builder.tree.spoken(&words.language, parent);
                builder.words = Arc::clone(words);
                builder.blocks(&pair[at], column(at), group)
            };
            let left = side(self, 0);
            let right = side(self, 1);
            strips.extend(self.banded(left, right));
        }
        (self.words, self.two_columns) = before;
        strips
    }

    /// Two columns as one band; what is higher than a page stands one below the other.
    fn banded(&self, left: Vec<Strip>, right: Vec<Strip>) -> Vec<Strip> {
        let sides = [&left, &right].map(|strips| stacked(strips, &self.frames));
        let height = sides[0].height.max(sides[1].height);
        if height > self.page {
            return left.into_iter().chain(right).collect();
        }
        let mut band = Strip::new(height);
        for side in sides {
            band.space = band.space.max(side.space);
            band.keep = band.keep.max(side.keep);
            band.baseline = side.baseline;
            band.items.extend(side.items);
        }
        vec![band]
    }
}

/// Strips on top of each other as one, with the frames that they lie in.
fn stacked(strips: &[Strip], frames: &[Frame]) -> Strip {
    let mut whole = Strip::new(0.0);
    whole.keep = strips.last().map_or(Keep::None, |last| last.keep);
    whole.space = strips.first().map_or(0.0, |first| first.space);
    whole.baseline = strips.first().map_or(0.0, |first| first.baseline);
    let mut open: Vec<(usize, f32, f32)> = Vec::new();
    for (at, strip) in strips.iter().enumerate() {
        if at > 0 {
            whole.height += strip.space;
        }
        let top = whole.height;
        whole.height += strip.height;
        for frame in &strip.frames {
            match open.iter_mut().find(|(known, ..)| known == frame) {
                Some((.., end)) => *end = whole.height,
                None => open.push((*frame, top, whole.height)),
            }
        }
        whole
            .items
            .extend(strip.items.iter().cloned().map(|mut placed| {
                placed.y += top;
                placed
            }));
    }
    whole
        .items
        .extend(open.into_iter().map(|(frame, top, end)| Placed {
            element: None,
            order: 0,
            x: frames[frame].x,
            y: top,
            mark: Mark::Frame {
                width: frames[frame].width,
                height: end - top,
                weight: frames[frame].weight,
            },
        }));
    whole
}
