//! Tables: measured columns, wrapped cells, decimal points in line, the head
//! again after a page break.

use super::blocks::{Builder, baseline, rule, shorten};
use super::tree::{ElementId, Role};
use super::{Area, Keep, Strip};
use crate::doc::{Align, Inline, Table, plain};
use crate::render::pdf::text::{BOLD, Line, REGULAR, Run};

/// Room left and right of a cell's text, in points.
const PAD: f32 = 5.0;

/// How far the rules between columns stay away from those between rows.
const OPEN: f32 = 3.0;

/// A table that wants up to so many times the measure is wrapped to it.
const WRAPPED: f32 = 1.4;

/// A cell ready to be measured and set.
struct Cell {
    runs: Vec<Run>,
    /// The widths of its text before and after the decimal point.
    point: Option<(f32, f32)>,
}

/// How the columns share the width, in points.
struct Columns {
    /// The width of each, without the room beside its text.
    widths: Vec<f32>,
    /// The widest text before and after the point, in each.
    points: Vec<(f32, f32)>,
    /// Whether lines stand between columns: where something is written in.
    ruled: bool,
}

impl Columns {
    fn total(&self) -> f32 {
        self.widths.iter().map(|width| width + 2.0 * PAD).sum()
    }
}

impl Builder<'_> {
    /// The strips of a table: its head, then a strip a row.
    pub fn table(&mut self, table: &Table, area: Area, parent: ElementId) -> Vec<Strip> {
        let element = self.tree.add(Role::Table, parent);
        let count = table.columns.len();
        if count == 0 {
            return Vec::new();
        }
        let size = area.size;
        let mut rows = Vec::with_capacity(table.rows.len() + 1);
        let names: Vec<String> = table.head.iter().map(|cell| plain(cell)).collect();
        rows.push(self.row(&table.head, count, true, "", &names, size, element));
        for row in &table.rows {
            let first = row.first().map_or(String::new(), |cell| plain(cell));
            rows.push(self.row(row, count, false, &first, &names, size, element));
        }
        let columns = self.measure(table, &mut rows, area);
        let mut strips = Vec::with_capacity(rows.len());
        let head = self.row_strips(table, &rows[0], &columns, area, RowKind::Head);
        let number = self.heads.len();
        let last = rows.len() - 1;
        for (i, row) in rows.iter().enumerate().skip(1) {
            let kind = if i == last {
                RowKind::Last
            } else {
                RowKind::Body
            };
            for mut strip in self.row_strips(table, row, &columns, area, kind) {
                strip.repeat = Some(number);
                strips.push(strip);
            }
        }
        self.heads.push(head.clone());
        strips.splice(0..0, head);
        super::blocks::raise(&mut strips, 0.7 * size * self.sizes.space);
        if let Some(end) = strips.last_mut() {
            end.height += 0.3 * size * self.sizes.space;
        }
        strips
    }

    #[allow(clippy::too_many_arguments)]
    fn row(
        &mut self,
        cells: &[Vec<Inline>],
        count: usize,
        head: bool,
        first: &str,
        names: &[String],
        size: f32,
        table: ElementId,
    ) -> Vec<Cell> {
        let row = self.tree.add(Role::Row, table);
        let (role, face) = if head {
            (Role::HeadCell, BOLD)
        } else {
            (Role::Cell, REGULAR)
        };
        (0..count)
            .map(|i| {
                let cell = self.tree.add(role, row);
                let empty = Vec::new();
                let inlines = cells.get(i).unwrap_or(&empty);
                let name = names.get(i).map_or("", String::as_str);
                let tip = if i == 0 || first.trim().is_empty() {
                    shorten(&format!("{name} {}", plain(inlines)).replace(['_', '[', ']'], " "))
                } else {
                    shorten(&format!("{name}: {first}").replace(['_', '[', ']'], " "))
                };
                Cell {
                    runs: self.runs(inlines, face, cell, size, &tip),
                    point: None,
                }
            })
            .collect()
    }

    /// Widths of the columns: none narrower than its longest word, the rest
    /// shared by how much each could use.
    fn measure(&self, table: &Table, rows: &mut [Vec<Cell>], area: Area) -> Columns {
        let count = table.columns.len();
        let size = area.size;
        let (mut least, mut most) = (vec![0f32; count], vec![0f32; count]);
        let mut points = vec![(0f32, 0f32); count];
        let mut blank = vec![false; count];
        for (r, row) in rows.iter_mut().enumerate() {
            for (c, cell) in row.iter_mut().enumerate() {
                let (narrow, wide) = self.faces.widths(&cell.runs, size);
                if table.columns[c] == Align::Right
                    && r > 0
                    && let Some(bytes) = point(&cell.runs)
                {
                    let before = self.faces.width_before(&cell.runs, bytes, size);
                    let after = (wide - before).max(0.0);
                    cell.point = Some((before, after));
                    points[c].0 = points[c].0.max(before);
                    points[c].1 = points[c].1.max(after);
                }
                blank[c] |= cell.runs.iter().any(|run| run.object.is_some());
                least[c] = least[c].max(narrow);
                most[c] = most[c].max(wide);
            }
        }
        for c in 0..count {
            let aligned = points[c].0 + points[c].1;
            least[c] = least[c].max(aligned);
            most[c] = most[c].max(aligned).max(least[c]);
        }
        let pads = 2.0 * PAD * count as f32;
        let ruled = blank.iter().any(|&b| b);
        let wanted: f32 = most.iter().sum::<f32>() + pads;
        let needed: f32 = least.iter().sum::<f32>() + pads;
        // written-in tables fill the measure; others are as wide as they need,
        // and go beyond the measure only when wrapping would crowd them
        let target = if ruled && self.wide_tables {
            area.wide
        } else if wanted <= area.width {
            if ruled { area.width } else { wanted }
        } else if wanted <= WRAPPED * area.width && needed <= area.width {
            area.width
        } else {
            wanted.min(area.wide)
        };
        let room = (target - pads).max(count as f32);
        let widths = share(&least, &most, room, &blank);
        // a cell that is one blank takes it all
        for row in rows.iter_mut() {
            for (c, cell) in row.iter_mut().enumerate() {
                if let [run] = &mut cell.runs[..]
                    && let Some(object) = &mut run.object
                    && !object.tick
                {
                    object.width = widths[c];
                }
            }
        }
        Columns {
            widths,
            points,
            ruled,
        }
    }

    /// A row as one strip, or, if it is higher than a page, a strip a line.
    fn row_strips(
        &mut self,
        table: &Table,
        row: &[Cell],
        columns: &Columns,
        area: Area,
        kind: RowKind,
    ) -> Vec<Strip> {
        let size = area.size;
        let pad = 0.22 * size * self.sizes.space.max(0.6);
        let lines: Vec<Vec<Line>> = row
            .iter()
            .zip(&columns.widths)
            .map(|(cell, width)| self.faces.lines(&cell.runs, size, *width))
            .collect();
        let deepest = lines.iter().map(Vec::len).max().unwrap_or(1);
        // lines of one level share a baseline, so cells read across
        let heights: Vec<f32> = (0..deepest)
            .map(|level| {
                lines
                    .iter()
                    .filter_map(|cell| cell.get(level))
                    .map(|line| self.line_height(line, size))
                    .fold(0.0, f32::max)
            })
            .collect();
        let whole: f32 = heights.iter().sum::<f32>() + 2.0 * pad;
        let slices: Vec<std::ops::Range<usize>> = if whole > self.page {
            (0..deepest).map(|level| level..level + 1).collect()
        } else {
            std::iter::once(0..deepest).collect()
        };
        let mut strips = Vec::with_capacity(slices.len());
        for slice in slices {
            let top = if slice.start == 0 { pad } else { 0.0 };
            let end = slice.end == deepest;
            let mut strip = Strip::new(
                top + heights[slice.clone()].iter().sum::<f32>() + if end { pad } else { 0.0 },
            );
            let mut x = area.x;
            for (c, cell) in lines.iter().enumerate() {
                let mut y = top;
                for level in slice.clone() {
                    if let Some(line) = cell.get(level) {
                        let height = heights[level];
                        let shift = shift(table.columns[c], &row[c], line, columns, c, cell.len());
                        let at = (x + PAD + shift, y + baseline(height, size));
                        self.place(line, size, at, height, &mut strip.items);
                    }
                    y += heights[level];
                }
                x += columns.widths[c] + 2.0 * PAD;
            }
            self.row_rules(columns, area, kind, &slice, end, &mut strip);
            strip.keep = match kind {
                RowKind::Head => Keep::Strong,
                _ if !end => Keep::Weak,
                _ => Keep::None,
            };
            strips.push(strip);
        }
        strips
    }

    fn row_rules(
        &self,
        columns: &Columns,
        area: Area,
        kind: RowKind,
        slice: &std::ops::Range<usize>,
        end: bool,
        strip: &mut Strip,
    ) {
        let total = columns.total();
        let height = strip.height;
        if kind == RowKind::Head && slice.start == 0 {
            strip.items.push(rule(area.x, 0.0, total, 0.0, 1.0));
        }
        if end {
            let weight = match kind {
                RowKind::Head => 0.8,
                RowKind::Body => 0.4,
                RowKind::Last => 1.0,
            };
            strip.items.push(rule(area.x, height, total, 0.0, weight));
        }
        if columns.ruled {
            // short rules between columns: open corners keep the rows foremost
            let mut x = area.x;
            for width in &columns.widths[..columns.widths.len() - 1] {
                x += width + 2.0 * PAD;
                let tall = height - 2.0 * OPEN;
                strip.items.push(rule(x, OPEN, 0.0, tall, 0.5));
            }
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum RowKind {
    Head,
    Body,
    Last,
}

/// How far a line stands from the left of its column's text.
fn shift(align: Align, cell: &Cell, line: &Line, columns: &Columns, c: usize, lines: usize) -> f32 {
    let spare = (columns.widths[c] - line.width).max(0.0);
    match (align, cell.point) {
        (Align::Left, _) => 0.0,
        (Align::Centre, _) => 0.5 * spare,
        (Align::Right, Some((before, _))) if lines == 1 => {
            (columns.widths[c] - columns.points[c].1 - before).max(0.0)
        }
        (Align::Right, _) => spare,
    }
}

/// Where the decimal point of the first number in a cell stands, in bytes.
fn point(runs: &[Run]) -> Option<usize> {
    if runs.iter().any(|run| run.object.is_some()) {
        return None;
    }
    let text: String = runs.iter().map(|run| run.text.as_str()).collect();
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let mut end = start;
    let mut rest = text[start..].chars().peekable();
    while let Some(c) = rest.next() {
        let next_digit = rest.peek().is_some_and(char::is_ascii_digit);
        // spaces and commas group thousands
        let grouped = matches!(c, ',' | '\u{a0}' | '\u{202f}') && next_digit;
        if !c.is_ascii_digit() && !grouped {
            break;
        }
        end += c.len_utf8();
    }
    Some(end)
}

/// Shares a width among columns: each gets its least, and the rest goes by
/// what each could still use; what is left over goes to columns to write in.
fn share(least: &[f32], most: &[f32], room: f32, blank: &[bool]) -> Vec<f32> {
    let needed: f32 = least.iter().sum();
    if needed >= room {
        // too narrow for the longest words: they are broken, all alike
        return least.iter().map(|width| width * room / needed).collect();
    }
    let spare = room - needed;
    let stretch: Vec<f32> = least.iter().zip(most).map(|(a, b)| b - a).collect();
    let wanted: f32 = stretch.iter().sum();
    let part = if wanted > 0.0 {
        (spare / wanted).min(1.0)
    } else {
        0.0
    };
    let left = (spare - wanted * part).max(0.0);
    let takers = blank.iter().filter(|&&b| b).count();
    least
        .iter()
        .zip(&stretch)
        .zip(blank)
        .map(|((width, stretch), blank)| {
            let extra = match takers {
                0 => 0.0,
                n if *blank => left / n as f32,
                _ => 0.0,
            };
            width + stretch * part + extra
        })
        .collect()
}
