//! Lists: bullets, numbers, boxes to tick, in one column or two.

use super::blocks::{Builder, baseline, middle, raise, rule, tick};
use super::sizes::{BEFORE_BOX, BLANK_RULE, GUTTER, LEADER};
use super::tip::shorten;
use super::tree::{ElementId, Numbering, Role};
use super::{Area, Keep, Mark, Placed, Strip};
use crate::doc::{Block, Inline, Item, plain};
use crate::render::pdf::text::{REGULAR, Run};

/// Fewer items than this stay in one column.
const LEAST_FOR_COLUMNS: usize = 3;

/// A column's text is never narrower than so many times the text size.
const NARROWEST_COLUMN: f32 = 11.0;

/// Words leave a part of their lines empty.
const RAGGED: f32 = 1.03;

/// Lines of a list inside an item that stay with it.
const MOST_TOGETHER: usize = 9;

impl Builder<'_> {
    /// The strips of a list.
    pub fn list(
        &mut self,
        start: Option<u64>,
        items: &[Item],
        area: Area,
        parent: ElementId,
    ) -> Vec<Strip> {
        let inside = self.inside_list(parent);
        let numbering = match start {
            Some(_) => Numbering::Decimal,
            None if items.iter().any(|item| item.tick) => Numbering::None,
            None if inside => Numbering::Circle,
            None => Numbering::Disc,
        };
        let list = self.tree.add(Role::List(numbering), parent);
        let mut strips = match self.columns(items, area) {
            Some(column) => self.two_columns(items, area, column, list),
            None => {
                let indent = self.indent(start, items, area.size);
                let mut strips = Vec::new();
                for (i, item) in items.iter().enumerate() {
                    let label = self.label(start, i, inside);
                    let mut one = self.item(item, &label, indent, area, list);
                    if i > 0 {
                        raise(&mut one, self.item_space(item, area.size));
                    }
                    // the first and the last item have company on their page
                    let alone = i == 0 || i + 2 == items.len();
                    if alone
                        && i + 1 < items.len()
                        && let Some(end) = one.last_mut()
                    {
                        end.keep = Keep::Soft;
                    }
                    strips.extend(one);
                }
                strips
            }
        };
        let above = if inside { 0.25 } else { 0.5 };
        raise(&mut strips, above * area.size * self.sizes.space);
        strips
    }

    fn inside_list(&self, parent: ElementId) -> bool {
        self.tree.elements[parent].role == Role::Body
    }

    fn item_space(&self, item: &Item, size: f32) -> f32 {
        let share = if item.tick { 0.35 } else { 0.25 };
        share * size * self.sizes.space
    }

    fn label(&self, start: Option<u64>, index: usize, inside: bool) -> String {
        match start {
            Some(first) => format!("{}.", first.saturating_add(index as u64)),
            None if inside => "\u{2013}".to_string(),
            None => "\u{2022}".to_string(),
        }
    }

    /// How far the text of items stands in.
    fn indent(&self, start: Option<u64>, items: &[Item], size: f32) -> f32 {
        let mut indent = match start {
            Some(_) => {
                let last = self.label(start, items.len().saturating_sub(1), false);
                self.faces.text_width(REGULAR, &last, size) + 0.5 * size
            }
            None => 1.1 * size,
        };
        if items.iter().any(|item| item.tick) {
            indent = indent.max(self.sizes.tick + 0.6 * size);
        }
        indent
    }

    /// One item: its label or box, its blocks, held together.
    fn item(
        &mut self,
        item: &Item,
        label: &str,
        indent: f32,
        area: Area,
        list: ElementId,
    ) -> Vec<Strip> {
        let size = area.size;
        let element = self.tree.add(Role::Item, list);
        let before = self.tree.add(Role::Label, element);
        let tip = match item.blocks.first() {
            Some(Block::Paragraph(words)) => {
                shorten(&plain(words).replace(['_', '\n'], " "), &self.words)
            }
            _ => self.words.tick_when_done.clone(),
        };
        let (form, tag) = if item.tick {
            let form = self.tree.add(Role::Form, before);
            (Some(form), None)
        } else {
            (None, Some(self.tree.tag(before)))
        };
        let body = self.tree.add(Role::Body, element);
        let inner = area.indented(indent);
        let mut strips = Vec::new();
        for (i, block) in item.blocks.iter().enumerate() {
            let mut more = match block {
                Block::Paragraph(words) if i == 0 => match words.split_last() {
                    Some((Inline::Tick, words)) if item.tick => {
                        self.between_boxes(words, inner, body, &tip)
                    }
                    _ => self.paragraph(words, REGULAR, inner, body),
                },
                other => self.block(other, inner, body),
            };
            // A short list inside stays with its item, such as the choices of a question.
            if !matches!(block, Block::List { .. }) || more.len() <= MOST_TOGETHER {
                for strip in &mut more {
                    strip.keep = strip.keep.max(Keep::Weak);
                }
            }
            if i > 0
                && let Some(last) = strips.last_mut()
            {
                let last: &mut Strip = last;
                last.keep = last.keep.max(Keep::Weak);
            }
            strips.extend(more);
        }
        if strips.is_empty() {
            let mut strip = Strip::new(size * self.sizes.leading);
            strip.baseline = baseline(strip.height, size);
            strips.push(strip);
        }
        let single = strips.len() == 1;
        if let Some(first) = strips.first_mut() {
            first.space = 0.0;
        }
        if let Some(last) = strips.last_mut() {
            last.keep = Keep::None;
        }
        let first = &mut strips[0];
        if let Some(form) = form {
            let side = self.sizes.tick;
            let above = 0.5 * side + middle(size) - first.baseline + 1.0;
            if above > 0.0 {
                first.height += above;
                first.baseline += above;
                for placed in &mut first.items {
                    placed.y += above;
                }
            }
            let top = first.baseline - middle(size) - 0.5 * side;
            if single {
                first.height = first.height.max(top + side + 1.0);
            }
            let order = self.tree.elements[form].order;
            let here = |element, mark| Placed {
                element,
                order,
                x: area.x + 1.0,
                y: top,
                mark,
            };
            let field = Mark::Field {
                tick: true,
                width: side,
                height: side,
                tip: tip.into(),
            };
            first.items.push(here(None, tick(side)));
            first.items.push(here(Some(form), field));
        } else if let Some(tag) = tag {
            let runs = [Run::words(REGULAR, label, tag)];
            let lines = self.faces.lines(&runs, size, indent);
            let at = (area.x, first.baseline);
            let mut items = std::mem::take(&mut first.items);
            let height = first.height;
            for line in &lines {
                // numbers end where their dots line up
                let shift = if label.ends_with('.') {
                    (indent - 0.5 * size - line.width).max(0.0)
                } else {
                    0.15 * size
                };
                self.place(line, size, (at.0 + shift, at.1), height, &mut items);
            }
            strips[0].items = items;
        }
        strips
    }

    /// Words with a second box at the right edge, where all second boxes of a list line up; dots lead
    /// the eye there.
    fn between_boxes(
        &mut self,
        words: &[Inline],
        area: Area,
        body: ElementId,
        tip: &str,
    ) -> Vec<Strip> {
        let side = self.sizes.tick;
        let narrow = Area {
            width: area.width - side - BEFORE_BOX,
            ..area
        };
        let mut strips = self.paragraph(words, REGULAR, narrow, body);
        let form = self.tree.add(Role::Form, body);
        let order = self.tree.elements[form].order;
        let single = strips.len() == 1;
        let Some(first) = strips.first_mut() else {
            return strips;
        };
        let x = area.x + area.width - side - 1.0;
        let end = first.items.iter().map(right_edge).fold(area.x, f32::max) + BEFORE_BOX;
        if single && x - BEFORE_BOX > end {
            let mut dots = rule(end, first.baseline, x - BEFORE_BOX - end, 0.0, BLANK_RULE);
            if let Mark::Rule { dash, .. } = &mut dots.mark {
                *dash = LEADER;
            }
            first.items.push(dots);
        }
        let y = first.baseline - middle(area.size) - 0.5 * side;
        let here = |element, mark| Placed {
            element,
            order,
            x,
            y,
            mark,
        };
        let field = Mark::Field {
            tick: true,
            width: side,
            height: side,
            tip: self.words.second_box.replace("{name}", tip).into(),
        };
        first.items.push(here(None, tick(side)));
        first.items.push(here(Some(form), field));
        strips
    }

    /// The width of a column, if these items go in two.
    fn columns(&self, items: &[Item], area: Area) -> Option<f32> {
        let plain_ticks = items
            .iter()
            .all(|item| item.tick && matches!(item.blocks[..], [Block::Paragraph(_)]));
        let column = (area.wide - GUTTER) / 2.0;
        let text = column - self.indent(None, items, area.size);
        let fits = self.two_columns
            && plain_ticks
            && items.len() >= LEAST_FOR_COLUMNS
            && text >= NARROWEST_COLUMN * area.size;
        if !fits {
            return None;
        }
        let widths: Vec<f32> = items
            .iter()
            .map(|item| match &item.blocks[..] {
                [Block::Paragraph(words)] => {
                    self.faces.text_width(REGULAR, &plain(words), area.size)
                }
                _ => f32::MAX,
            })
            .collect();
        // a column of words that each take many lines is worse than one
        if widths.iter().any(|width| *width > 3.2 * text) {
            return None;
        }
        // two columns must spare an item's height: short items may each need a
        // line more, and a list in two columns is never cut by a page's end
        let whole = area.width - self.indent(None, items, area.size);
        let tall = |width: f32, text: f32| {
            let lines = (RAGGED * width / text).max(1.0);
            let words = lines.ceil() * area.size * self.sizes.leading;
            words.max(self.sizes.tick + 2.0) + self.item_space(&items[0], area.size)
        };
        let single: f32 = widths.iter().map(|width| tall(*width, whole)).sum();
        let rows = widths.len().div_ceil(2);
        let double: f32 = (0..rows)
            .map(|row| {
                let right = widths
                    .get(row + rows)
                    .map_or(0.0, |width| tall(*width, text));
                tall(widths[row], text).max(right)
            })
            .sum();
        (double + 0.8 * self.sizes.tick < single).then_some(column)
    }

    /// Two columns, read down the first and then down the second; a list
    /// higher than a page is cut into parts that each fit on one.
    fn two_columns(
        &mut self,
        items: &[Item],
        area: Area,
        column: f32,
        list: ElementId,
    ) -> Vec<Strip> {
        let narrow = Area {
            width: column,
            wide: column,
            ..area
        };
        let indent = self.indent(None, items, area.size);
        let space = self.item_space(&items[0], area.size);
        let mut built: Vec<Strip> = Vec::new();
        for item in items {
            let strips = self.item(item, "", indent, narrow, list);
            built.push(joined(strips));
        }
        let mut strips = Vec::new();
        let mut rest = &built[..];
        while !rest.is_empty() {
            let mut take = rest.len();
            while take > 2 && column_height(rest, take, space) > self.page {
                take -= 1;
            }
            let rows = take.div_ceil(2);
            for row in 0..rows {
                let mut strip = rest[row].clone();
                strip.space = space;
                if let Some(right) = rest.get(row + rows).filter(|_| row + rows < take) {
                    let down = strip.baseline - right.baseline;
                    let drop = down.max(0.0);
                    strip.height = strip.height.max(right.height + drop);
                    for placed in &right.items {
                        let mut placed = placed.clone();
                        placed.x += column + GUTTER;
                        placed.y += drop;
                        strip.items.push(placed);
                    }
                }
                strip.keep = if row + 1 < rows {
                    Keep::Weak
                } else {
                    Keep::None
                };
                strips.push(strip);
            }
            rest = &rest[take..];
        }
        strips
    }
}

/// Where what is placed ends on its right.
fn right_edge(placed: &Placed) -> f32 {
    let width = match &placed.mark {
        Mark::Text { pieces, .. } => pieces.last().map_or(0.0, |piece| piece.x + piece.width),
        Mark::Rule { dx, .. } => *dx,
        Mark::Frame { width, .. } => *width,
        _ => 0.0,
    };
    placed.x + width
}

/// The height of two columns that hold the first so many items.
fn column_height(items: &[Strip], take: usize, space: f32) -> f32 {
    let rows = take.div_ceil(2);
    (0..rows)
        .map(|row| {
            let right = items
                .get(row + rows)
                .filter(|_| row + rows < take)
                .map_or(0.0, |strip| strip.height);
            items[row].height.max(right) + space
        })
        .sum()
}

/// Several strips as one that no page break cuts.
pub(super) fn joined(strips: Vec<Strip>) -> Strip {
    let mut whole = Strip::new(0.0);
    for (i, strip) in strips.into_iter().enumerate() {
        if i == 0 {
            whole.baseline = strip.baseline;
            whole.frames.clone_from(&strip.frames);
        } else {
            whole.height += strip.space;
        }
        for mut placed in strip.items {
            placed.y += whole.height;
            whole.items.push(placed);
        }
        whole.height += strip.height;
    }
    whole
}
