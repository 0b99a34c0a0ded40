//! What each part of a text must be like: headings, boxes, items, rules,
//! fences, links, rows. Each says what is wrong with its part and what to write.

use std::ops::Range;

use pulldown_cmark::{CodeBlockKind, LinkType};

use crate::diag::{Told, nearest, told};
use crate::doc::{Block, Inline, Item, Signal};

use super::build::{Builder, Kind, Scope, is_empty};
use super::hold::units;

impl Builder<'_> {
    pub(super) fn paragraph(&mut self, range: Range<usize>) {
        if self.source.slice(range.clone()).starts_with('|') {
            self.refuse(
                "markdown.table",
                range,
                "this table row is cut off from its table, or its table has no row of `---`",
                "take out the empty line above it; a table is a header row, a row such as `|---|---:|`, then the rows",
            );
        }
    }

    pub(super) fn heading(&mut self, level: u8, range: Range<usize>) {
        let deep = self.stack.len() > 1;
        let (code, message, help) = if !self.source.slice(range.clone()).starts_with('#') {
            (
                "markdown.heading",
                "a line of `---` or `===` right under words makes them a heading",
                "leave an empty line above the `---`, or start headings with `## `",
            )
        } else if deep {
            (
                "markdown.heading",
                "a heading inside a list or a box would break the order of headings",
                "write it in **bold** there, or move it out",
            )
        } else if level > 4 {
            (
                "markdown.level",
                "headings go no deeper than `####`",
                "use a list, or words in **bold**",
            )
        } else if level == 1 && matches!(self.scope, Scope::Prose) {
            (
                "markdown.title",
                "prose of a module has no title of its own",
                "start the heading with `###`",
            )
        } else if level == 1 && self.level > 0 {
            (
                "markdown.title",
                "a sheet has one title only",
                "start the heading with `## `",
            )
        } else if level > self.level + 1 && self.level > 0 {
            (
                "markdown.level",
                "this heading jumps over a level",
                "go down one level at a time: `##`, then `###`, then `####`",
            )
        } else {
            self.level = level;
            return;
        };
        self.refuse(code, range, message, help);
    }

    /// What kind of box a quote is, by its first line.
    pub(super) fn quote(&mut self, range: Range<usize>) -> Option<Signal> {
        let mut signal = None;
        let lines: Vec<_> = self.source.lines(range.clone()).collect();
        for (index, (at, line)) in lines.into_iter().enumerate() {
            let here = at..at + line.len();
            let inner = line.trim_start().strip_prefix('>').map(str::trim);
            match inner {
                None if !line.trim().is_empty() => self.refuse(
                    "markdown.box",
                    here,
                    "this line slips into the box above it",
                    "start it with `> ` if it belongs there, else leave an empty line above it",
                ),
                Some(inner) if index == 0 => {
                    if let Some(rest) = inner.strip_prefix("[!") {
                        signal = self.signal(rest, here);
                    }
                }
                Some(inner) if inner.starts_with("[!") => self.refuse(
                    "markdown.signal",
                    here,
                    "a second signal word in one box",
                    "leave an empty line between two cautions",
                ),
                _ => {}
            }
        }
        signal
    }

    fn signal(&mut self, rest: &str, here: Range<usize>) -> Option<Signal> {
        const ALL: [Signal; 4] = [
            Signal::Danger,
            Signal::Warning,
            Signal::Caution,
            Signal::Notice,
        ];
        let word = rest.strip_suffix(']').unwrap_or(rest);
        let found = ALL.into_iter().find(|signal| signal.word() == word);
        if found.is_none() || !rest.ends_with(']') {
            let near = nearest(&word.to_uppercase(), ALL.map(Signal::word)).unwrap_or("WARNING");
            self.refuse(
                "markdown.signal",
                here,
                "a box of this kind needs one of the words DANGER, WARNING, CAUTION, NOTICE, alone on its line",
                told!("write `> [!{near}]`, and the words on the lines below", near),
            );
        }
        found
    }

    pub(super) fn end_quote(
        &mut self,
        signal: Option<Signal>,
        mut blocks: Vec<Block>,
        range: Range<usize>,
    ) {
        if let Some(signal) = signal {
            // The first paragraph opens with the signal word.
            if let Some(Block::Paragraph(words)) = blocks.first_mut() {
                if let Some(Inline::Text(text)) = words.first_mut() {
                    let mark = format!("[!{}]", signal.word());
                    let rest = text.strip_prefix(&mark).unwrap_or(text).trim_start();
                    *text = rest.to_owned();
                }
                words.retain(|inline| *inline != Inline::Text(String::new()));
                if words.is_empty() {
                    blocks.remove(0);
                }
            }
        }
        if blocks.is_empty() {
            self.empty(range, "this box is empty");
        }
        self.top().blocks.push(match signal {
            Some(signal) => Block::Caution { signal, blocks },
            None => Block::Boxed(blocks),
        });
    }

    pub(super) fn item(&mut self, mut blocks: Vec<Block>, range: Range<usize>) -> Item {
        let mut tick = false;
        match blocks.first_mut() {
            Some(Block::Paragraph(words)) => {
                if words.first() == Some(&Inline::Tick) {
                    tick = true;
                    words.remove(0);
                    if let Some(Inline::Text(text)) = words.first_mut() {
                        *text = text.trim_start().to_owned();
                    }
                    words.retain(|inline| *inline != Inline::Text(String::new()));
                } else if self.opens_ticked(range.clone()) {
                    self.refuse(
                        "markdown.tick",
                        range.clone(),
                        "a box on a sheet starts unticked",
                        "write `- [ ] ` with one space between the brackets",
                    );
                }
                if is_empty(words) {
                    self.empty(range, "this list item is empty");
                }
            }
            Some(_) => self.refuse(
                "markdown.item",
                range,
                "a list item starts with words",
                "put some words before the box, table or list inside it",
            ),
            None => self.empty(range, "this list item is empty"),
        }
        Item { tick, blocks }
    }

    /// Whether an item is written with a box that is ticked already.
    fn opens_ticked(&self, range: Range<usize>) -> bool {
        let written = self.source.slice(range);
        let mark = |sign: char| sign.is_ascii_digit() || "-+*.) ".contains(sign);
        let words = written.trim_start_matches(mark);
        words.starts_with("[x]") || words.starts_with("[X]")
    }

    pub(super) fn empty(&mut self, range: Range<usize>, message: &'static str) {
        self.refuse(
            "markdown.empty",
            range,
            message,
            "write the words, or take the whole of it out",
        );
    }

    pub(super) fn rule(&mut self, range: Range<usize>) {
        let written = self.source.slice(range.clone()).trim().to_owned();
        let top_level = self.stack.len() == 1;
        self.flush();
        match written.as_str() {
            "---" => self.top().blocks.push(Block::Rule),
            "***" if top_level => self.top().blocks.push(Block::PageBreak),
            "***" => self.refuse(
                "markdown.rule",
                range,
                "a new page cannot start inside a list or a box",
                "move the `***` out of it",
            ),
            _ => self.refuse(
                "markdown.rule",
                range,
                "a line of signs on its own means nothing here",
                "write `---` for a thin rule, `***` for a new page, and take out bold marks with nothing between them",
            ),
        }
    }

    pub(super) fn fence(&mut self, kind: &CodeBlockKind<'_>, range: Range<usize>) {
        let CodeBlockKind::Fenced(info) = kind else {
            return self.refuse(
                "markdown.code",
                range,
                "a line that starts with four or more blanks is taken for code",
                "start the line further left",
            );
        };
        let mut words = info.split_whitespace();
        let (Some("figure"), Some(id), None) = (words.next(), words.next(), words.next()) else {
            return self.refuse(
                "markdown.fence",
                range,
                "a fence may only call for a drawing",
                "write ```figure NAME, the drawing in words on the lines below, and ``` to close",
            );
        };
        let Scope::Sheet(figures) = self.scope else {
            return;
        };
        if let Some(figure) = figures.get(id) {
            let mut figure = figure.clone();
            figure.caption = units(&figure.caption);
            self.top().blocks.push(Block::Figure(figure));
            return;
        }
        let help = match nearest(id, figures.keys().map(String::as_str)) {
            Some(near) => told!("did you mean `{near}`?", near),
            None if figures.is_empty() => {
                Told::from("this sheet has no drawings; take the fence out")
            }
            None => {
                let known: Vec<_> = figures.keys().map(String::as_str).collect();
                told!("this sheet has: {known}", known = known.join(", "))
            }
        };
        let message = told!("there is no drawing named `{id}` for this sheet", id);
        self.refuse("markdown.figure", range, message, help);
    }

    pub(super) fn link(&mut self, kind: LinkType, target: &str, range: Range<usize>) -> String {
        let target = match kind {
            LinkType::Email => format!("mailto:{target}"),
            _ => target.to_owned(),
        };
        if let Some(anchor) = target.strip_prefix('#') {
            self.jumps.push((anchor.to_owned(), range));
        } else if !target.starts_with("https://") && !target.starts_with("mailto:") {
            self.refuse(
                "markdown.link",
                range,
                "a link may lead to `https://`, `mailto:` or `#a-heading-here` only",
                "write the whole address, `https://...`, or take the link out",
            );
        }
        target
    }

    /// A row of another number of cells than its table has columns would be
    /// cut or filled up without a word.
    pub(super) fn count_cells(&mut self, range: Range<usize>) {
        let Kind::Table(table) = &self.top().kind else {
            return;
        };
        let columns = table.columns.len();
        let row = self.source.slice(range.clone()).trim();
        let inner = row.strip_prefix('|').unwrap_or(row);
        let offset = range.start + self.source.slice(range.clone()).find(inner).unwrap_or(0);
        let mut bars = inner
            .match_indices('|')
            .filter(|(at, _)| !self.source.is_escaped(offset + at))
            .map(|(at, _)| at)
            .collect::<Vec<_>>();
        if bars.last().is_some_and(|at| at + 1 == inner.len()) {
            bars.pop();
        }
        let cells = bars.len() + 1;
        if cells != columns {
            let message = told!(
                "this row has {cells} cells, and its table has {columns} columns",
                cells,
                columns
            );
            self.refuse(
                "markdown.table",
                range,
                message,
                "give the row as many cells as the header has, with `|` between them, and leave an empty line after the table",
            );
        }
    }
}
