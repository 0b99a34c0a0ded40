//! Blocks as paragraphs and tables.

use docx_rs::{
    AbstractNumbering, AlignmentType, BorderType, HeightRule, LineSpacing, Numbering, NumberingId,
    Paragraph, ParagraphBorder, ParagraphBorderPosition, ParagraphBorders, Table as Grid,
    TableBorder, TableBorderPosition, TableBorders, TableCell, TableCellMargins, TableLayoutType,
    TableRow, WidthType,
};

use crate::doc::{
    self, Align, Beside, Block, Document, Figure, Inline, Item, Signal, Table, plain,
};

use super::drawing::Drawings;
use super::looks::{self, Marks};
use super::runs::{BOX, Looks, Runs, run};
use std::sync::Arc;

/// What the library writes for the row height by which header rows are known;
/// no other row has one.
pub(super) const HEADER_MARK: &str = "<w:trHeight w:val=\"1\" w:hRule=\"atLeast\" />";

/// What the edges of two columns beside each other take of each, in twips.
const BETWEEN: i32 = 220;

/// The width of a usual sign in twips.
const SIGN: usize = 115;
/// The text size that figures are drawn for, in points.
const ORDINARY: f32 = 14.0;
/// Parts of a sign that column widths are counted in.
const SCALE: usize = 100;

/// A part of the file's body or of a table's cell.
pub(super) enum Piece {
    Paragraph(Box<Paragraph>),
    Table(Box<Grid>),
}

/// Writes blocks, with ids that depend on the document alone.
pub(super) struct Writer {
    runs: Runs,
    /// What the page says by itself.
    words: Arc<doc::Words>,
    /// The figures that were met.
    pub(super) drawings: Drawings,
    /// The group's mark, until the first heading has it.
    mark: Option<Figure>,
    /// The width between the margins, in twips.
    room: i32,
    /// The most height of a drawing in points.
    high: f32,
    /// How many times as large as drawn a figure is wished: a large print enlarges its words.
    enlarged: f32,
    paragraphs: usize,
    bookmarks: usize,
    lists: Vec<Marks>,
    /// How deep in lists the next block stands.
    depth: usize,
    /// The style of paragraphs here.
    style: Option<&'static str>,
    /// Whether the next paragraph opens a new page.
    turn: bool,
}

impl Writer {
    pub(super) fn new(document: &Document, (room, high): (i32, f32)) -> Self {
        let group = document.group.as_ref();
        Self {
            words: Arc::clone(&document.words),
            runs: Runs::default(),
            drawings: Drawings::default(),
            mark: group.and_then(|group| group.mark.clone()),
            room,
            high,
            enlarged: (document.style.body_pt / ORDINARY).max(1.0),
            paragraphs: 0,
            bookmarks: 0,
            lists: Vec::new(),
            depth: 0,
            style: None,
            turn: false,
        }
    }

    /// The definitions of the lists that were written.
    pub(super) fn lists(&self) -> impl Iterator<Item = (AbstractNumbering, Numbering)> {
        self.lists.iter().enumerate().map(|(at, marks)| {
            // The library keeps the first ids for itself.
            let id = at + 10;
            (looks::list(id, *marks), Numbering::new(id, id))
        })
    }

    pub(super) fn blocks(&mut self, blocks: &[Block]) -> Vec<Piece> {
        self.name_anchors(blocks);
        let mut pieces = Vec::new();
        for block in blocks {
            self.block(block, &mut pieces);
        }
        pieces
    }

    /// Bookmarks take letters and digits only, so anchors get short names.
    fn name_anchors(&mut self, blocks: &[Block]) {
        for block in blocks {
            if let Block::Heading { anchor, .. } = block {
                let next = self.runs.bookmarks.len() + 1;
                let name = format!("section{next}");
                self.runs.bookmarks.entry(anchor.clone()).or_insert(name);
            }
        }
    }

    fn paragraph(&mut self) -> Paragraph {
        self.paragraphs += 1;
        let mut paragraph = Paragraph::new().id(format!("{:08x}", self.paragraphs));
        if std::mem::take(&mut self.turn) {
            paragraph = paragraph.page_break_before(true);
        }
        match self.style {
            Some(style) => paragraph.style(style),
            None => paragraph,
        }
    }

    fn block(&mut self, block: &Block, pieces: &mut Vec<Piece>) {
        let in_table = matches!(
            block,
            Block::Table(_) | Block::Caution { .. } | Block::Boxed(_)
        );
        if self.turn && in_table {
            // Inside a table the wish for a new page would not be heard.
            let gap = self.gap();
            push(pieces, gap);
        }
        match block {
            Block::Heading {
                level,
                anchor,
                text,
            } => {
                let level = usize::from(*level).clamp(1, 4);
                let mark = self.runs.bookmarks.get(anchor).cloned().unwrap_or_default();
                self.bookmarks += 1;
                let id = self.bookmarks;
                let start = self.paragraph().style(&looks::heading(level));
                let mut open = start.keep_next(true).add_bookmark_start(id, mark);
                if let Some(mark) = self.mark.take() {
                    open = open.add_run(self.drawings.aside(&mark));
                }
                let heading = self.runs.add(open, text, Looks::default());
                push(pieces, heading.add_bookmark_end(id));
            }
            Block::Paragraph(text) => {
                let start = looks::under(self.paragraph(), self.depth);
                push(pieces, self.runs.add(start, text, Looks::default()));
            }
            Block::List { start, items } => self.list(*start, items, pieces),
            Block::Table(table) => self.table(table, pieces),
            Block::Caution { signal, blocks } => self.caution(*signal, blocks, pieces),
            Block::Boxed(blocks) => {
                let mut inner = Vec::new();
                for block in blocks {
                    self.block(block, &mut inner);
                }
                self.boxed(inner, BorderType::Dashed, 6, false, pieces);
            }
            Block::Figure(figure) => self.figure(figure, pieces),
            Block::Beside(beside) => self.beside(beside, pieces),
            Block::Rule => {
                let line = ParagraphBorder::new(ParagraphBorderPosition::Bottom)
                    .val(BorderType::Single)
                    .size(6)
                    .color("000000");
                let mut rule = self.paragraph();
                let borders = ParagraphBorders::with_empty().set(line);
                rule.property = rule.property.set_borders(borders);
                push(pieces, rule);
            }
            Block::PageBreak => self.turn = true,
        }
    }

    fn list(&mut self, start: Option<u64>, items: &[Item], pieces: &mut Vec<Piece>) {
        let mut numbered = None;
        for item in items {
            let marks = match (start, item.tick) {
                (Some(first), _) => Marks::Numbers(first),
                (None, true) => Marks::Boxes,
                (None, false) => Marks::Points,
            };
            let id = match (start, numbered) {
                (Some(_), Some(id)) => id,
                _ => self.list_id(marks),
            };
            numbered = Some(id);
            let (first, rest) = match item.blocks.split_first() {
                Some((Block::Paragraph(text), rest)) => (text.as_slice(), rest),
                _ => (&[][..], item.blocks.as_slice()),
            };
            let mut line = self
                .paragraph()
                .numbering(NumberingId::new(id), looks::level(self.depth));
            if start.is_some() && item.tick {
                line = line.add_run(run(&format!("{BOX} "), Looks::default()));
            }
            push(pieces, self.runs.add(line, first, Looks::default()));
            self.depth += 1;
            for block in rest {
                self.block(block, pieces);
            }
            self.depth -= 1;
        }
    }

    /// The id of a list with these marks: points and boxes share one each, every
    /// numbered list counts for itself.
    fn list_id(&mut self, marks: Marks) -> usize {
        let same = |known: &Marks| {
            matches!(
                (known, &marks),
                (Marks::Points, Marks::Points) | (Marks::Boxes, Marks::Boxes)
            )
        };
        let at = self.lists.iter().position(same).unwrap_or_else(|| {
            self.lists.push(marks);
            self.lists.len() - 1
        });
        at + 10
    }

    fn caution(&mut self, signal: Signal, blocks: &[Block], pieces: &mut Vec<Piece>) {
        let outside = self.style.replace(looks::CAUTION);
        let word = self.paragraph().style(looks::SIGNAL).keep_next(true);
        let mut inner = Vec::new();
        push(
            &mut inner,
            word.add_run(self.runs.run(self.words.signal(signal), Looks::default())),
        );
        for block in blocks {
            self.block(block, &mut inner);
        }
        self.style = outside;
        let width = match signal {
            Signal::Danger => 36,
            Signal::Warning | Signal::Caution => 18,
            Signal::Notice => 8,
        };
        self.boxed(inner, BorderType::Single, width, true, pieces);
    }

    /// A cell of a width that holds pieces, and at least an empty line.
    fn cell(&mut self, inner: Vec<Piece>, width: usize) -> TableCell {
        let mut cell = TableCell::new().width(width, WidthType::Dxa);
        let ends_in_table = matches!(inner.last(), Some(Piece::Table(_)) | None);
        for piece in inner {
            cell = match piece {
                Piece::Paragraph(paragraph) => cell.add_paragraph(*paragraph),
                Piece::Table(table) => cell.add_table(*table),
            };
        }
        if ends_in_table {
            cell = cell.add_paragraph(self.gap());
        }
        cell
    }

    /// Two languages beside each other: a table with a column each, a row for each pair.
    fn beside(&mut self, beside: &Beside, pieces: &mut Vec<Piece>) {
        let half = self.wide() / 2;
        let before = (self.room, Arc::clone(&self.words));
        self.room = self.room / 2 - BETWEEN;
        let mut rows = Vec::with_capacity(beside.pairs.len());
        for pair in &beside.pairs {
            let mut cells = Vec::with_capacity(pair.len());
            for (side, blocks) in pair.iter().enumerate() {
                self.words = Arc::clone(&beside.words[side]);
                self.runs.other = side == 1;
                let inner = self.blocks(blocks);
                cells.push(self.cell(inner, half));
            }
            rows.push(TableRow::new(cells).cant_split());
        }
        self.runs.other = false;
        (self.room, self.words) = before;
        let grid = self.grid(rows, &[half, half], BorderType::Nil, 0);
        self.push_table(grid, pieces);
    }

    /// A table of one cell. `whole` keeps it on one page.
    fn boxed(
        &mut self,
        inner: Vec<Piece>,
        kind: BorderType,
        width: usize,
        whole: bool,
        pieces: &mut Vec<Piece>,
    ) {
        let cell = self.cell(inner, self.wide());
        let mut row = TableRow::new(vec![cell]);
        if whole {
            row = row.cant_split();
        }
        let grid = self.grid(vec![row], &[self.wide()], kind, width);
        self.push_table(grid, pieces);
    }

    fn grid(&self, rows: Vec<TableRow>, widths: &[usize], kind: BorderType, width: usize) -> Grid {
        let mut borders = TableBorders::with_empty();
        for position in [
            TableBorderPosition::Top,
            TableBorderPosition::Bottom,
            TableBorderPosition::Left,
            TableBorderPosition::Right,
            TableBorderPosition::InsideH,
            TableBorderPosition::InsideV,
        ] {
            let border = TableBorder::new(position).border_type(kind);
            borders = borders.set(border.size(width).color("000000"));
        }
        let indent = looks::indent(self.depth);
        Grid::new(rows)
            .set_grid(widths.to_vec())
            .width(widths.iter().sum(), WidthType::Dxa)
            .layout(TableLayoutType::Fixed)
            .indent(if self.depth == 0 { 0 } else { indent })
            .margins(TableCellMargins::new().margin(60, 100, 60, 100))
            .set_borders(borders)
    }

    /// Two tables in a row would grow together, and a cell may not end in one.
    fn push_table(&mut self, grid: Grid, pieces: &mut Vec<Piece>) {
        pieces.push(Piece::Table(Box::new(grid)));
        let gap = self.gap();
        push(pieces, gap);
    }

    fn gap(&mut self) -> Paragraph {
        let spacing = LineSpacing::new().before(0).after(0);
        self.paragraph().size(8).line_spacing(spacing)
    }

    /// The width of a table here, in twips.
    fn wide(&self) -> usize {
        let inside = if self.style.is_some() { 240 } else { 0 };
        let room = self.room - inside - looks::indent(self.depth);
        usize::try_from(room).unwrap_or(0).max(1000)
    }

    fn table(&mut self, table: &Table, pieces: &mut Vec<Piece>) {
        let widths = self.widths(table);
        let mut rows = Vec::with_capacity(table.rows.len() + 1);
        let bold = Looks {
            bold: true,
            ..Looks::default()
        };
        let head = self.row(table, &table.head, &widths, bold);
        rows.push(head.row_height(1.0).height_rule(HeightRule::AtLeast));
        for row in &table.rows {
            let row = self.row(table, row, &widths, Looks::default());
            rows.push(row.cant_split());
        }
        let grid = self.grid(rows, &widths, BorderType::Single, 4);
        self.push_table(grid, pieces);
    }

    fn row(
        &mut self,
        table: &Table,
        cells: &[Vec<Inline>],
        widths: &[usize],
        looks: Looks,
    ) -> TableRow {
        let mut row = Vec::with_capacity(cells.len());
        for (column, cell) in cells.iter().enumerate() {
            let align = match table.columns.get(column) {
                Some(Align::Right) => AlignmentType::Right,
                Some(Align::Centre) => AlignmentType::Center,
                Some(Align::Left) | None => AlignmentType::Left,
            };
            let start = self.paragraph().align(align);
            let words = self.runs.add(start, cell, looks);
            let width = widths.get(column).copied().unwrap_or(1000);
            let cell = TableCell::new().width(width, WidthType::Dxa);
            row.push(cell.add_paragraph(words));
        }
        TableRow::new(row)
    }

    /// Columns wide enough for their longest word; what is left over goes to
    /// those whose longest cell asks for more.
    fn widths(&self, table: &Table) -> Vec<usize> {
        let columns: Vec<(usize, usize)> = (0..table.columns.len())
            .map(|column| {
                let cells = table.rows.iter().chain([&table.head]);
                let texts: Vec<_> = cells
                    .filter_map(|row| row.get(column))
                    .map(|cell| plain(cell))
                    .collect();
                let words = texts.iter().flat_map(|text| text.split([' ', '\n', '-']));
                // capitals are half as wide again: a signal word stays in one piece
                let wide = |word: &str| {
                    word.chars().count() + word.chars().filter(|one| one.is_uppercase()).count() / 2
                };
                let word = words.map(wide).max().unwrap_or(0);
                let whole = texts
                    .iter()
                    .map(|text| text.chars().count())
                    .max()
                    .unwrap_or(0);
                let least = word.clamp(2, 30) + 4;
                (least, whole.clamp(least, 45) - least)
            })
            .collect();
        let least: usize = columns.iter().map(|column| column.0).sum();
        let more: usize = columns.iter().map(|column| column.1).sum();
        // A sign is about this wide in a table's text.
        let signs = (self.wide() / SIGN).max(least);
        let share = |(least_here, more_here): &(usize, usize)| {
            let extra = (signs - least) * if more == 0 { *least_here } else { *more_here };
            let signs_here =
                least_here * SCALE + extra * SCALE / if more == 0 { least.max(1) } else { more };
            signs_here * self.wide() / (signs * SCALE)
        };
        columns.iter().map(share).collect()
    }

    /// The drawing no wider than there is room, its caption under it.
    fn figure(&mut self, figure: &Figure, pieces: &mut Vec<Piece>) {
        let wide = i32::try_from(self.wide()).unwrap_or(i32::MAX);
        let across = super::twips(wide) / figure.width.max(1.0);
        let down = self.high / figure.height.max(1.0);
        let scale = across.min(down).min(self.enlarged);
        let shown = self.drawings.inline(figure, scale);
        let told = !figure.caption.is_empty();
        let start = looks::under(self.paragraph(), self.depth).keep_next(told);
        push(pieces, start.add_run(shown));
        if told {
            let start = looks::under(self.paragraph(), self.depth);
            let italic = Looks {
                italic: true,
                ..Looks::default()
            };
            push(pieces, start.add_run(run(&figure.caption, italic)));
        }
    }
}

fn push(pieces: &mut Vec<Piece>, paragraph: Paragraph) {
    pieces.push(Piece::Paragraph(Box::new(paragraph)));
}
