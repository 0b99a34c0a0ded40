//! Tables: measured columns, wrapped cells, decimal points in line, the head
//! again after a page break.

use super::blocks::{Builder, baseline, rule};
use super::sizes::{
    CELL_OPEN as OPEN, CELL_PAD as PAD, COLUMN_RULE, EDGE_RULE, HEAD_RULE, ROW_RULE,
};
use super::tip::shorten;
use super::tree::{ElementId, Role};
use super::{Area, Keep, Strip};
use crate::doc::{Align, Inline, Table, plain};
use crate::render::pdf::text::{BOLD, Line, REGULAR, Run};

/// A table that wants up to so many times the measure is wrapped to it.
const WRAPPED: f32 = 1.4;

/// A blank alone in its cell may shrink to so many times the text size.
const LEAST_BLANK: f32 = 2.6;

/// A column of numbers to write in grows to so many times the text size.
const MOST_NUMBER: f32 = 7.0;

/// A table with at most so many rows stands on one page if it can.
const SMALL: usize = 6;

/// Words leave a part of their lines empty.
const RAGGED: f32 = 1.1;

/// What a line of a cell costs beside a line of a row.
const CELL_LINE: f32 = 0.05;

/// So many times at most is width moved between columns.
const MOST_MOVES: usize = 12;

/// A column is broken into so many lines more at a time.
const MORE_LINES: usize = 3;

/// A cell ready to be measured and set.
struct Cell {
    runs: Vec<Run>,
    /// Its width on one line, in points.
    whole: f32,
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
        let head = [Role::HeadCell, Role::HeadCell];
        rows.push(self.row(&table.head, count, head, "", &names, size, element));
        // checkers take a table with more heads than cells for a broken one
        let cells = table.rows.len() * (count - 1);
        let body = if table.names_rows() && cells >= count + table.rows.len() {
            [Role::RowHead, Role::Cell]
        } else {
            [Role::Cell, Role::Cell]
        };
        for row in &table.rows {
            let first = row.first().map_or(String::new(), |cell| plain(cell));
            rows.push(self.row(row, count, body, &first, &names, size, element));
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
            // no row stands alone under the head or at the top of a page
            let keep = match i {
                _ if i == last => Keep::None,
                _ if i == 1 || i + 1 == last || last <= SMALL => Keep::Soft,
                _ => Keep::None,
            };
            let row = self.row_strips(table, row, &columns, area, kind);
            let end = row.len().saturating_sub(1);
            for (line, mut strip) in row.into_iter().enumerate() {
                strip.repeat = Some(number);
                if line == end {
                    strip.keep = strip.keep.max(keep);
                }
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
        roles: [Role; 2],
        first: &str,
        names: &[String],
        size: f32,
        table: ElementId,
    ) -> Vec<Cell> {
        let row = self.tree.add(Role::Row, table);
        (0..count)
            .map(|i| {
                let role = roles[i.min(1)];
                let face = if role == Role::HeadCell {
                    BOLD
                } else {
                    REGULAR
                };
                let cell = self.tree.add(role, row);
                let empty = Vec::new();
                let inlines = cells.get(i).unwrap_or(&empty);
                let name = names.get(i).map_or("", String::as_str);
                let tip = if i == 0 || first.trim().is_empty() {
                    let own = format!("{name} {}", plain(inlines));
                    shorten(&own.replace(['_', '[', ']'], " "), &self.words)
                } else {
                    let own = format!("{name}: {first}");
                    shorten(&own.replace(['_', '[', ']'], " "), &self.words)
                };
                Cell {
                    runs: self.runs(inlines, face, cell, size, &tip),
                    whole: 0.0,
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
                let (mut narrow, wide) = self.faces.widths(&cell.runs, size);
                if lone_blank(&cell.runs) {
                    narrow = narrow.min(LEAST_BLANK * size);
                }
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
                cell.whole = wide;
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
        let target = if ruled {
            area.wide
        } else if wanted <= area.width {
            wanted
        } else if wanted <= WRAPPED * area.width && needed <= area.width {
            area.width
        } else {
            wanted.min(area.wide)
        };
        let room = (target - pads).max(count as f32);
        let limits: Vec<f32> = (0..count)
            .map(|c| match (blank[c], table.columns[c]) {
                (false, _) => 0.0,
                (true, Align::Right) => MOST_NUMBER * size,
                (true, _) => f32::MAX,
            })
            .collect();
        let wholes: Vec<Vec<f32>> = rows
            .iter()
            .map(|row| row.iter().map(|cell| cell.whole).collect())
            .collect();
        let widths = share(&least, &most, &wholes, room, &limits);
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
            strip.items.push(rule(area.x, 0.0, total, 0.0, EDGE_RULE));
        }
        if end {
            let weight = match kind {
                RowKind::Head => HEAD_RULE,
                RowKind::Body => ROW_RULE,
                RowKind::Last => EDGE_RULE,
            };
            strip.items.push(rule(area.x, height, total, 0.0, weight));
        }
        if columns.ruled {
            // short rules between columns: open corners keep the rows foremost
            let mut x = area.x;
            for width in &columns.widths[..columns.widths.len() - 1] {
                x += width + 2.0 * PAD;
                let tall = height - 2.0 * OPEN;
                strip.items.push(rule(x, OPEN, 0.0, tall, COLUMN_RULE));
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

/// Whether a cell holds nothing but a blank.
fn lone_blank(runs: &[Run]) -> bool {
    matches!(runs, [run] if run.object.as_ref().is_some_and(|object| !object.tick))
}

/// Shares a width among columns. `least` and `most` are what each needs and
/// could use, `wholes` the width of every cell on one line, row by row. Where
/// not all fit, those columns are broken into lines that add the fewest lines to
/// the rows for the width they give. What nobody wants goes to columns to write
/// in, up to their limits.
fn share(least: &[f32], most: &[f32], wholes: &[Vec<f32>], room: f32, limits: &[f32]) -> Vec<f32> {
    let needed: f32 = least.iter().sum();
    if needed >= room {
        // too narrow for the longest words: they are broken, all alike
        return least.iter().map(|width| width * room / needed).collect();
    }
    let mut widths = most.to_vec();
    let mut over = widths.iter().sum::<f32>() - room;
    let mut last = None;
    while over > 0.0 {
        let now = cost(wholes, &widths);
        let mut best: Option<(f32, usize, f32)> = None;
        for c in 0..widths.len() {
            for narrower in narrower(wholes, least[c], widths[c], c) {
                let saved = (widths[c] - narrower).min(over);
                let mut tried = widths.clone();
                tried[c] = narrower;
                let price = (cost(wholes, &tried) - now) / saved;
                if best.is_none_or(|(cheapest, ..)| price < cheapest) {
                    best = Some((price, c, narrower));
                }
            }
        }
        let Some((_, c, narrower)) = best else { break };
        over -= widths[c] - narrower;
        widths[c] = narrower;
        last = Some(c);
    }
    // the last one may have given more than was asked
    if let Some(c) = last {
        let back = (-over).min(most[c] - widths[c]).max(0.0);
        widths[c] += back;
        over += back;
    }
    settle(&mut widths, least, most, wholes);
    // a column that reaches its limit leaves its part to the others
    let mut left = -over;
    for _ in 0..widths.len() {
        let takers: Vec<usize> = (0..widths.len())
            .filter(|&c| widths[c] + 0.01 < limits[c])
            .collect();
        if takers.is_empty() || left < 0.01 {
            break;
        }
        let part = left / takers.len() as f32;
        for c in takers {
            let taken = part.min(limits[c] - widths[c]);
            widths[c] += taken;
            left -= taken;
        }
    }
    widths
}

/// Moves width from column to column as long as the rows take fewer lines for
/// it.
fn settle(widths: &mut Vec<f32>, least: &[f32], most: &[f32], wholes: &[Vec<f32>]) {
    for _ in 0..MOST_MOVES {
        let mut best = (cost(wholes, widths) - 0.01, None);
        for from in 0..widths.len() {
            for narrower in narrower(wholes, least[from], widths[from], from) {
                for to in (0..widths.len()).filter(|&to| to != from) {
                    let mut tried = widths.clone();
                    let given = (widths[from] - narrower).min(most[to] - widths[to]);
                    tried[from] -= given;
                    tried[to] += given;
                    let cost = cost(wholes, &tried);
                    if cost < best.0 {
                        best = (cost, Some(tried));
                    }
                }
            }
        }
        match best.1 {
            Some(better) => *widths = better,
            None => break,
        }
    }
}

/// About how many lines a cell takes: words do not fill their lines.
fn cell_lines(whole: f32, width: f32) -> usize {
    if whole <= width + 0.01 {
        1
    } else {
        libm::ceilf(RAGGED * whole / width.max(1.0)) as usize
    }
}

/// What the widths cost: about the lines that all rows take, and a little for
/// every line of a cell, so that short cells stay whole beside long ones.
fn cost(wholes: &[Vec<f32>], widths: &[f32]) -> f32 {
    let mut rows = 0;
    let mut cells = 0;
    for row in wholes {
        let mut deepest = 1;
        for (whole, width) in row.iter().zip(widths) {
            let lines = cell_lines(*whole, *width);
            deepest = deepest.max(lines);
            cells += lines;
        }
        rows += deepest;
    }
    rows as f32 + CELL_LINE * cells as f32
}

/// Widths that a column could shrink to: where its cells take one line more
/// at most, and two.
fn narrower(wholes: &[Vec<f32>], least: f32, width: f32, c: usize) -> Vec<f32> {
    let deepest = wholes
        .iter()
        .map(|row| cell_lines(row[c], width))
        .max()
        .unwrap_or(1);
    let mut found = Vec::with_capacity(MORE_LINES);
    for more in 1..=MORE_LINES {
        let most = (deepest + more) as f32;
        let fits = wholes
            .iter()
            .map(|row| RAGGED * row[c] / most)
            .fold(least, f32::max);
        if fits < width - 0.5 && found.last().is_none_or(|last| fits < *last) {
            found.push(fits);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::share;

    #[test]
    fn columns_are_broken_where_it_costs_the_fewest_lines() {
        let none = [0.0; 3];
        // one row in ten has a long third cell; the second is long in all
        let mut wholes = vec![vec![30.0, 400.0, 60.0]; 9];
        wholes.push(vec![30.0, 400.0, 90.0]);
        let widths = share(&[20.0; 3], &[30.0, 400.0, 90.0], &wholes, 300.0, &none);
        assert_eq!(widths[0], 30.0);
        assert!(widths[1] > 190.0, "{widths:?}");
        assert!((widths.iter().sum::<f32>() - 300.0).abs() < 0.1);
        // a head's long words give way before the many rows' words
        let mut wholes = vec![vec![20.0, 120.0]; 12];
        wholes.push(vec![110.0, 30.0]);
        let widths = share(&[20.0; 2], &[110.0, 120.0], &wholes, 190.0, &none[..2]);
        assert_eq!(widths[1], 120.0);
    }

    #[test]
    fn columns_to_write_in_take_what_is_left_up_to_their_limits() {
        let limits = [0.0, 60.0, f32::MAX];
        let wholes = [vec![50.0; 3]];
        let widths = share(&[20.0; 3], &[50.0; 3], &wholes, 300.0, &limits);
        assert_eq!(widths, [50.0, 60.0, 190.0]);
    }
}
