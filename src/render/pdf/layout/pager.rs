//! Strips to pages: what holds together stays together, frames are drawn
//! round what each page has of them, table heads come again.

use super::{Frame, Keep, Mark, Page, Placed, Strip};

/// Room between a frame and text where a page break cuts it, in points.
const CUT: f32 = 6.0;

/// Stacks strips on pages whose text runs from `top` to `bottom`; only what
/// holds more strongly than `level` is held together.
pub(super) fn paginate(
    strips: Vec<Strip>,
    frames: &[Frame],
    heads: &[Vec<Strip>],
    top: f32,
    bottom: f32,
    level: Keep,
) -> Vec<Page> {
    let mut pager = Pager {
        frames,
        heads,
        top,
        bottom,
        y: top,
        empty: true,
        page: Page::default(),
        open: Vec::new(),
        pages: Vec::new(),
    };
    for clump in clumps(strips, level) {
        pager.put(clump, level);
    }
    pager.turn();
    pager.pages
}

/// A frame's share of the page being filled.
struct Open {
    frame: usize,
    from: f32,
    to: f32,
}

struct Pager<'a> {
    frames: &'a [Frame],
    heads: &'a [Vec<Strip>],
    top: f32,
    bottom: f32,
    y: f32,
    empty: bool,
    page: Page,
    open: Vec<Open>,
    pages: Vec<Page>,
}

/// Runs of strips that hold together more strongly than `level`.
fn clumps(strips: Vec<Strip>, level: Keep) -> Vec<Vec<Strip>> {
    let mut found = Vec::new();
    let mut clump = Vec::new();
    for strip in strips {
        let ends = strip.keep <= level;
        clump.push(strip);
        if ends {
            found.push(std::mem::take(&mut clump));
        }
    }
    if !clump.is_empty() {
        found.push(clump);
    }
    found
}

impl Pager<'_> {
    /// Places strips that hold together more strongly than `level`.
    fn put(&mut self, clump: Vec<Strip>, level: Keep) {
        if clump.first().is_some_and(|strip| strip.fresh) && !self.empty {
            self.turn();
        }
        let height = height(&clump);
        let space = clump.first().map_or(0.0, |strip| strip.space);
        let needed = if self.empty { height } else { height + space };
        if self.y + needed <= self.bottom + 0.01 {
            self.place(clump);
            return;
        }
        let repeated: f32 = clump
            .first()
            .and_then(|strip| strip.repeat)
            .map_or(0.0, |head| self::height(&self.heads[head]));
        if height + repeated <= self.bottom - self.top {
            if !self.empty {
                self.turn();
            }
            self.place(clump);
            return;
        }
        // higher than a page: let it break where it holds least
        match level {
            Keep::None => {
                for part in clumps(clump, Keep::Soft) {
                    self.put(part, Keep::Soft);
                }
            }
            Keep::Soft => {
                for part in clumps(clump, Keep::Weak) {
                    self.put(part, Keep::Weak);
                }
            }
            Keep::Weak => {
                for strip in clump {
                    self.put(vec![strip], Keep::Strong);
                }
            }
            Keep::Strong => {
                if !self.empty {
                    self.turn();
                }
                self.place(clump);
            }
        }
    }

    fn place(&mut self, clump: Vec<Strip>) {
        for strip in clump {
            if self.empty {
                if let Some(head) = strip.repeat {
                    self.repeat(head, &strip.frames);
                } else if !strip.frames.is_empty() && !strip.items.is_empty() {
                    // inside a frame that a page break cut
                    self.y += CUT;
                }
            }
            self.strip(strip);
        }
    }

    fn strip(&mut self, strip: Strip) {
        // a page of nothing but an empty band is no page yet
        let drawn = !strip.items.is_empty() || !strip.frames.is_empty();
        if !self.empty {
            self.y += strip.space;
        }
        let top = self.y;
        self.y += strip.height;
        for frame in &strip.frames {
            match self.open.iter_mut().find(|open| open.frame == *frame) {
                Some(open) => open.to = self.y,
                None => self.open.push(Open {
                    frame: *frame,
                    from: if strip.items.is_empty() {
                        top
                    } else {
                        top - CUT
                    },
                    to: self.y,
                }),
            }
        }
        for mut placed in strip.items {
            placed.y += top;
            self.page.items.push(placed);
        }
        if drawn {
            self.empty = false;
        } else if self.empty {
            self.y = self.top;
        }
    }

    /// Places a table's head again; it is not read twice.
    fn repeat(&mut self, head: usize, frames: &[usize]) {
        if !frames.is_empty() {
            self.y += CUT;
        }
        for strip in self.heads[head].clone() {
            let mut strip = strip;
            strip.frames = frames.to_vec();
            strip.space = 0.0;
            strip
                .items
                .retain(|placed| !matches!(placed.mark, Mark::Field { .. } | Mark::Link { .. }));
            for placed in &mut strip.items {
                placed.element = None;
            }
            self.strip(strip);
        }
    }

    /// Ends the page.
    fn turn(&mut self) {
        let mut page = std::mem::take(&mut self.page);
        for open in self.open.drain(..) {
            let frame = self.frames[open.frame];
            page.items.push(Placed {
                element: None,
                order: 0,
                x: frame.x,
                y: open.from,
                mark: Mark::Frame {
                    width: frame.width,
                    height: open.to - open.from,
                    weight: frame.weight,
                },
            });
        }
        if !page.items.is_empty() || self.pages.is_empty() {
            self.pages.push(page);
        }
        self.y = self.top;
        self.empty = true;
    }
}

/// The height of strips on one page, without the space above the first.
fn height(strips: &[Strip]) -> f32 {
    strips
        .iter()
        .enumerate()
        .map(|(i, strip)| strip.height + if i > 0 { strip.space } else { 0.0 })
        .sum()
}
