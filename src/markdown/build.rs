//! From the parser's events to blocks, refusing what is outside the subset.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use pulldown_cmark::{Alignment, Event, Options, Parser, Tag, TagEnd};

use crate::diag::{Problem, Told, nearest, told};
use crate::doc::{Align, Block, Figure, Inline, Item, Signal, Table, plain};

use super::hold::hold;
use super::said::{is_mark, split, take};
use super::source::{BLANK, Marked, TICK, TICK_OPEN};

/// Deeper nesting than any sheet needs; more is a slip or mischief.
const DEEPEST: usize = 24;

/// Where the text stands.
#[derive(Clone, Copy)]
pub(super) enum Scope<'a> {
    /// A whole sheet, with its figures.
    Sheet(&'a BTreeMap<String, Figure>),
    /// A piece of a module.
    Prose,
}

/// What is being read: a block or inline that is still open.
pub(super) enum Kind {
    Root,
    Paragraph,
    Heading(u8),
    Quote(Option<Signal>),
    List(Option<u64>),
    Item,
    Table(Table),
    Row,
    Cell,
    Strong,
    Emphasis,
    Link(String),
    /// Something refused; what it holds is not kept.
    Refused,
}

pub(super) struct Frame {
    pub(super) kind: Kind,
    range: Range<usize>,
    pub(super) blocks: Vec<Block>,
    inlines: Vec<Inline>,
    items: Vec<Item>,
    cells: Vec<Vec<Inline>>,
}

impl Frame {
    fn new(kind: Kind, range: Range<usize>) -> Self {
        Self {
            kind,
            range,
            blocks: Vec::new(),
            inlines: Vec::new(),
            items: Vec::new(),
            cells: Vec::new(),
        }
    }
}

pub(super) struct Builder<'a> {
    pub(super) source: &'a Marked<'a>,
    pub(super) scope: Scope<'a>,
    pub(super) stack: Vec<Frame>,
    problems: Vec<Problem>,
    /// The level of the last heading; 0 before the first.
    pub(super) level: u8,
    anchors: BTreeSet<String>,
    /// Links to anchors, to be looked up when all headings are known.
    pub(super) jumps: Vec<(String, Range<usize>)>,
}

/// The blocks of a text and every problem in it.
pub(super) fn blocks(source: &Marked<'_>, scope: Scope<'_>) -> (Vec<Block>, Vec<Problem>) {
    let mut builder = Builder {
        source,
        scope,
        stack: vec![Frame::new(Kind::Root, 0..source.text.len())],
        problems: Vec::new(),
        level: 0,
        anchors: BTreeSet::new(),
        jumps: Vec::new(),
    };
    for range in &source.unseen {
        builder.refuse(
            "markdown.character",
            range.clone(),
            "a sign stands here that cannot be seen",
            "delete it and type the words again by hand",
        );
    }
    let parser = Parser::new_ext(&source.text, Options::ENABLE_TABLES);
    for (_, definition) in parser.reference_definitions().iter() {
        builder.refuse(
            "markdown.reference",
            definition.span.clone(),
            "a line that starts with a name in brackets and a colon would vanish from the sheet",
            "write links as `[words](https://...)`, and notes as plain text",
        );
    }
    for (event, range) in parser.into_offset_iter() {
        if !builder.event(event, range) {
            break;
        }
    }
    builder.finish()
}

impl Builder<'_> {
    pub(super) fn refuse(
        &mut self,
        code: &'static str,
        range: Range<usize>,
        message: impl Into<Told>,
        help: impl Into<Told>,
    ) {
        let problem = self.source.problem(code, range, message, help);
        self.problems.push(problem);
    }

    pub(super) fn top(&mut self) -> &mut Frame {
        // The root frame is pushed first and taken off last, by `finish`.
        self.stack.last_mut().expect("bug: no open block")
    }

    /// Takes one event; false when there is no sense in going on.
    fn event(&mut self, event: Event<'_>, range: Range<usize>) -> bool {
        match event {
            Event::Start(tag) => return self.start(tag, range),
            Event::End(end) => self.end(end),
            Event::Text(words) => self.text(&words, range),
            Event::SoftBreak => self.push_text(" "),
            Event::HardBreak => {
                if self.source.slice(range).starts_with('\\') {
                    self.top().inlines.push(Inline::Break);
                } else {
                    // Two blanks at a line's end: nobody sees them.
                    self.push_text(" ");
                }
            }
            Event::Rule => self.rule(range),
            Event::Code(_) => self.refuse(
                "markdown.code",
                range,
                "code in backticks has no place on a sheet",
                "write the words without backticks, or in **bold**",
            ),
            Event::Html(_) | Event::InlineHtml(_) => self.refuse(
                "markdown.html",
                range,
                "raw HTML is not taken",
                "write it in Markdown, or put `\\` before the `<`",
            ),
            // Their options are off; should one come, it is refused, not lost.
            Event::InlineMath(_)
            | Event::DisplayMath(_)
            | Event::FootnoteReference(_)
            | Event::TaskListMarker(_) => self.refuse(
                "markdown.syntax",
                range,
                "this piece of Markdown is not taken",
                "write it in plain words",
            ),
        }
        true
    }

    fn start(&mut self, tag: Tag<'_>, range: Range<usize>) -> bool {
        if self.stack.len() > DEEPEST {
            self.refuse(
                "markdown.deep",
                range,
                "boxes, lists and bold words are nested too deep here",
                "use fewer levels",
            );
            return false;
        }
        let kind = match tag {
            Tag::Paragraph => {
                self.paragraph(range.clone());
                Kind::Paragraph
            }
            Tag::Heading { level, .. } => {
                self.heading(level as u8, range.clone());
                Kind::Heading(level as u8)
            }
            Tag::BlockQuote(_) => Kind::Quote(self.quote(range.clone())),
            Tag::CodeBlock(kind) => {
                self.flush();
                self.fence(&kind, range.clone());
                Kind::Refused
            }
            // Each line of an HTML block is an event of its own and refused there.
            Tag::HtmlBlock => Kind::Refused,
            Tag::List(first) => Kind::List(first),
            Tag::Item => Kind::Item,
            Tag::Table(alignments) => Kind::Table(Table {
                columns: alignments.iter().map(|side| align(*side)).collect(),
                head: Vec::new(),
                rows: Vec::new(),
            }),
            Tag::TableHead | Tag::TableRow => {
                self.count_cells(range.clone());
                Kind::Row
            }
            Tag::TableCell => Kind::Cell,
            Tag::Emphasis => Kind::Emphasis,
            Tag::Strong => Kind::Strong,
            Tag::Link {
                link_type,
                dest_url,
                ..
            } => Kind::Link(self.link(link_type, &dest_url, range.clone())),
            Tag::Image { .. } => {
                self.refuse(
                    "markdown.image",
                    range.clone(),
                    "pictures from files or the web are not taken",
                    "call for one of the sheet's drawings with a fence: ```figure NAME",
                );
                Kind::Refused
            }
            Tag::FootnoteDefinition(_)
            | Tag::DefinitionList
            | Tag::DefinitionListTitle
            | Tag::DefinitionListDefinition
            | Tag::Strikethrough
            | Tag::Superscript
            | Tag::Subscript
            | Tag::MetadataBlock(_) => {
                self.refuse(
                    "markdown.syntax",
                    range.clone(),
                    "this piece of Markdown is not taken",
                    "write it in plain words",
                );
                Kind::Refused
            }
        };
        if !matches!(
            kind,
            Kind::Strong | Kind::Emphasis | Kind::Link(_) | Kind::Refused
        ) {
            self.flush();
        }
        self.stack.push(Frame::new(kind, range));
        true
    }

    /// Words straight in a list item (a tight list) become a paragraph when a
    /// block follows them.
    pub(super) fn flush(&mut self) {
        let top = self.top();
        if matches!(top.kind, Kind::Item) && !top.inlines.is_empty() {
            let words = finished(std::mem::take(&mut top.inlines));
            top.blocks.push(Block::Paragraph(words));
        }
    }

    fn end(&mut self, end: TagEnd) {
        self.flush();
        let Some(frame) = self.stack.pop() else {
            return;
        };
        let range = frame.range.clone();
        match frame.kind {
            Kind::Root | Kind::Refused => {}
            Kind::Paragraph => {
                let words = finished(frame.inlines);
                self.top().blocks.push(Block::Paragraph(words));
            }
            Kind::Heading(level) => {
                let text = finished(frame.inlines);
                if is_empty(&text) {
                    self.empty(range, "this heading has no words");
                }
                let anchor = self.anchor(&plain(&text));
                let heading = Block::Heading {
                    level,
                    anchor,
                    text,
                };
                self.top().blocks.push(heading);
            }
            Kind::Quote(signal) => self.end_quote(signal, frame.blocks, range),
            Kind::List(start) => {
                let items = frame.items;
                self.top().blocks.push(Block::List { start, items });
            }
            Kind::Item => {
                let item = self.item(frame.blocks, range);
                self.top().items.push(item);
            }
            Kind::Table(table) => self.top().blocks.push(Block::Table(table)),
            Kind::Row => {
                if let Kind::Table(table) = &mut self.top().kind {
                    if end == TagEnd::TableHead {
                        table.head = frame.cells;
                    } else {
                        table.rows.push(frame.cells);
                    }
                }
            }
            Kind::Cell => {
                let words = finished(frame.inlines);
                self.top().cells.push(words);
            }
            Kind::Strong => self.inline(Inline::Strong(finished(frame.inlines))),
            Kind::Emphasis => self.inline(Inline::Emphasis(finished(frame.inlines))),
            Kind::Link(target) => {
                let text = finished(frame.inlines);
                if is_empty(&text) {
                    self.empty(range, "this link has no words to press");
                }
                self.inline(Inline::Link { target, text });
            }
        }
    }

    fn inline(&mut self, inline: Inline) {
        self.top().inlines.push(inline);
    }

    fn push_text(&mut self, words: &str) {
        let inlines = &mut self.top().inlines;
        if let Some(Inline::Text(last)) = inlines.last_mut() {
            last.push_str(words);
        } else {
            inlines.push(Inline::Text(words.to_owned()));
        }
    }

    /// Plain words, unless they hold signs that were meant to do something.
    fn text(&mut self, words: &str, range: Range<usize>) {
        if matches!(self.top().kind, Kind::Refused) {
            return;
        }
        let text = self.source.text.as_bytes();
        for at in range.clone() {
            let pair = &text[at..text.len().min(at + 2)];
            if !matches!(pair, b"**" | b"__" | b"~~" | b"[^") || self.source.is_escaped(at) {
                continue;
            }
            if at > range.start && text[at - 1] == pair[0] {
                continue;
            }
            let (code, message, help) = match pair {
                b"[^" => (
                    "markdown.footnote",
                    "footnotes are not taken",
                    "write the note where it belongs, in plain words",
                ),
                b"~~" => (
                    "markdown.emphasis",
                    "struck-out words are not taken",
                    "leave the words out",
                ),
                _ => (
                    "markdown.emphasis",
                    "bold or italic words are empty here, or their marks have no partner",
                    "put marks straight round the words, `**like this**`, or a `\\` before each that should show",
                ),
            };
            self.refuse(code, at..at + 2, message, help);
        }
        self.push_text(words);
    }

    /// A name for a heading that no other heading has.
    fn anchor(&mut self, words: &str) -> String {
        let mut slug = String::new();
        for sign in words.chars() {
            if sign.is_alphanumeric() {
                slug.extend(sign.to_lowercase());
            } else if !slug.is_empty() && !slug.ends_with('-') && sign != '\'' && sign != '\u{2019}'
            {
                slug.push('-');
            }
        }
        let slug = slug.trim_end_matches('-');
        let slug = if slug.is_empty() { "section" } else { slug };
        let mut name = slug.to_owned();
        let mut next = 2;
        while !self.anchors.insert(name.clone()) {
            name = format!("{slug}-{next}");
            next += 1;
        }
        name
    }

    fn finish(mut self) -> (Vec<Block>, Vec<Problem>) {
        if matches!(self.scope, Scope::Sheet(_)) {
            for (anchor, range) in std::mem::take(&mut self.jumps) {
                if self.anchors.contains(&anchor) {
                    continue;
                }
                let help = match nearest(&anchor, self.anchors.iter().map(String::as_str)) {
                    Some(near) => told!("did you mean `#{near}`?", near),
                    None => {
                        Told::from("an anchor is a heading's words in small letters, with hyphens")
                    }
                };
                let message = told!(
                    "no heading on this sheet has the anchor `#{anchor}`",
                    anchor
                );
                self.refuse("markdown.anchor", range, message, help);
            }
        }
        self.stack.truncate(1);
        let blocks = std::mem::take(&mut self.top().blocks);
        (blocks, self.problems)
    }
}

fn align(side: Alignment) -> Align {
    match side {
        Alignment::None | Alignment::Left => Align::Left,
        Alignment::Center => Align::Centre,
        Alignment::Right => Align::Right,
    }
}

/// Whether nothing of a run of inlines would be seen.
pub(super) fn is_empty(inlines: &[Inline]) -> bool {
    plain(inlines).trim().is_empty()
}

/// Inlines with marked blanks and tick boxes taken out of their texts.
fn finished(inlines: Vec<Inline>) -> Vec<Inline> {
    let mut done = Vec::with_capacity(inlines.len());
    for inline in inlines {
        match inline {
            Inline::Text(text) => split_marks(&text, &mut done),
            other => done.push(other),
        }
    }
    if !done.iter().any(has_marks) {
        hold(&mut done);
        return done;
    }
    // Words are held together as they will be read: values are told apart after that.
    let mut values = Vec::with_capacity(done.len());
    for inline in &mut done {
        values.push(match inline {
            Inline::Text(text) => {
                let (clean, spans) = take(text);
                *text = clean;
                spans
            }
            _ => Vec::new(),
        });
    }
    hold(&mut done);
    let mut told = Vec::with_capacity(done.len());
    for (inline, spans) in done.into_iter().zip(values) {
        match inline {
            Inline::Text(text) => split(&text, &spans, &mut told),
            other => told.push(other),
        }
    }
    told
}

fn has_marks(inline: &Inline) -> bool {
    matches!(inline, Inline::Text(text) if text.contains(is_mark))
}

fn split_marks(text: &str, done: &mut Vec<Inline>) {
    let mut rest = text;
    while !rest.is_empty() {
        let length = if rest.starts_with(TICK) {
            done.push(Inline::Tick);
            TICK.len()
        } else if rest.starts_with(BLANK) {
            let width = rest.len() - rest.trim_start_matches(BLANK).len();
            done.push(Inline::Blank(width));
            width
        } else {
            // From the second sign on: the first is not the start of a mark.
            let mark = rest.char_indices().skip(1);
            let mut mark = mark.filter(|(_, sign)| matches!(*sign, BLANK | TICK_OPEN));
            let plain = mark.next().map_or(rest.len(), |(at, _)| at);
            done.push(Inline::Text(rest[..plain].to_owned()));
            plain
        };
        rest = &rest[length..];
    }
}
