//! The blocks of a document as the main part of a page.

use std::fmt::Write as _;
use std::sync::Arc;

use crate::doc::{
    Beside, Block, Document, Inline, Item, Signal, Words as PageWords, has_field, plain,
};

use super::super::figures;
use super::super::markup::{escaped, push_escaped};
use super::table;
use super::words::{Words, name};

/// The sign that draws attention, beside the three words that warn of harm to
/// people: a triangle with an exclamation mark, as ISO 3864 has it.
const ALERT: &str = "<svg class=\"alert\" viewBox=\"0 0 24 22\" aria-hidden=\"true\"><path d=\"M12 1.5 23 20.5H1Z\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\" stroke-linejoin=\"round\"/><path d=\"M12 7.5V14M12 16.4V18.4\" stroke=\"currentColor\" stroke-width=\"2.4\"/></svg>";

/// A contents list stands above a sheet with at least so many sections.
const CONTENTS_FROM: usize = 4;

/// The main part of a page, and what is in it.
#[derive(Default)]
pub(super) struct Body {
    pub(super) html: String,
    pub(super) ticks: usize,
    pub(super) blanks: usize,
    pub(super) cards: usize,
    pub(super) tables: usize,
    pub(super) figures: usize,
    /// Anchors and words of the sections, when there are many.
    pub(super) contents: Vec<(String, String)>,
}

/// Writes the main part of a page.
pub(super) fn body(document: &Document) -> Body {
    let mut writer = Writer::default();
    writer.words.page = Arc::clone(&document.words);
    if document.style.cards.is_some() {
        writer.cards(&document.blocks);
    } else {
        writer.blocks(&document.blocks);
    }
    let mut contents = Vec::new();
    for block in &document.blocks {
        if let Block::Heading {
            level: 2,
            anchor,
            text,
        } = block
        {
            contents.push((anchor.clone(), plain(text)));
        }
    }
    if contents.len() < CONTENTS_FROM || document.style.cards.is_some() {
        contents.clear();
    }
    Body {
        html: writer.words.out,
        ticks: writer.words.ticks,
        blanks: writer.words.blanks,
        cards: writer.cards,
        tables: writer.tables,
        figures: writer.figures,
        contents,
    }
}

#[derive(Default)]
struct Writer {
    words: Words,
    cards: usize,
    tables: usize,
    figures: usize,
    cautions: usize,
    /// The words of the heading above.
    heading: String,
}

impl Writer {
    fn push(&mut self, markup: &str) {
        self.words.out.push_str(markup);
    }

    fn run(&mut self, inlines: &[Inline]) {
        let near = std::mem::take(&mut self.heading);
        self.words.run(inlines, &near);
        self.heading = near;
    }

    fn blocks(&mut self, blocks: &[Block]) {
        for block in blocks {
            self.block(block);
        }
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading {
                level,
                anchor,
                text,
            } => {
                self.heading = plain(text).replace('\n', " ");
                self.push(&format!("<h{level} id=\"{}\">", escaped(anchor)));
                self.run(text);
                self.push(&format!("</h{level}>\n"));
            }
            Block::Paragraph(text) => {
                self.push("<p>");
                self.run(text);
                self.push("</p>\n");
            }
            Block::List { start, items } => self.list(*start, items),
            Block::Table(content) => {
                self.tables += 1;
                let label = PageWords::numbered(&self.words.page.table, self.tables, &self.heading);
                table::push(&mut self.words, content, &label);
            }
            Block::Caution { signal, blocks } => self.caution(*signal, blocks),
            Block::Boxed(blocks) => {
                self.push("<div class=\"boxed\">\n");
                self.blocks(blocks);
                self.push("</div>\n");
            }
            Block::Figure(figure) => {
                self.figures += 1;
                let svg = figures::svg(figure, &format!("_f{}", self.figures));
                let words = &self.words.page.drawing;
                let label = PageWords::numbered(words, self.figures, &figure.caption);
                self.push(&format!(
                    "<figure><div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{}\">{svg}</div>\n<figcaption>",
                    escaped(&label)
                ));
                push_escaped(&mut self.words.out, &figure.caption);
                self.push("</figcaption></figure>\n");
            }
            Block::Beside(beside) => self.beside(beside),
            Block::Rule => self.push("<hr>\n"),
            Block::PageBreak => self.push("<hr class=\"new-page\">\n"),
        }
    }

    /// Two languages beside each other, each with its own words for fields and tables.
    fn beside(&mut self, beside: &Beside) {
        let before = Arc::clone(&self.words.page);
        for pair in &beside.pairs {
            self.push("<div class=\"beside\">\n");
            for (blocks, words) in pair.iter().zip(&beside.words) {
                self.words.page = Arc::clone(words);
                self.push(&format!("<div lang=\"{}\">\n", escaped(&words.language)));
                self.blocks(blocks);
                self.push("</div>\n");
            }
            self.push("</div>\n");
        }
        self.words.page = before;
    }

    fn list(&mut self, start: Option<u64>, items: &[Item]) {
        let ticks = items.iter().any(|item| item.tick);
        let class = if ticks { " class=\"ticks\"" } else { "" };
        let element = match start {
            Some(1) => format!("ol{class}"),
            Some(first) => format!("ol start=\"{first}\"{class}"),
            None => format!("ul{class}"),
        };
        self.push(&format!("<{element}>\n"));
        for item in items {
            if item.tick {
                self.tick_item(item);
                continue;
            }
            self.push("<li>");
            match item.blocks.split_first() {
                // The usual item of one line needs no paragraph inside.
                Some((Block::Paragraph(text), rest)) if rest.iter().all(is_list) => {
                    self.run(text);
                    self.blocks(rest);
                }
                _ => self.blocks(&item.blocks),
            }
            self.push("</li>\n");
        }
        self.push(if start.is_some() {
            "</ol>\n"
        } else {
            "</ul>\n"
        });
    }

    fn tick_item(&mut self, item: &Item) {
        let (text, rest) = match item.blocks.split_first() {
            Some((Block::Paragraph(text), rest)) => (text.as_slice(), rest),
            _ => (&[][..], item.blocks.as_slice()),
        };
        self.push("<li class=\"tick\">");
        if has_field(text) {
            // A label names one box only.
            let all = plain(text).replace("[ ]", " ").replace('_', " ");
            let named = name(&[all, self.heading.clone()]);
            // a second box at the end stands at the right edge, in line with the others
            let back = matches!(text.last(), Some(Inline::Tick));
            let class = if back { "row back" } else { "row" };
            self.push(&format!("<div class=\"{class}\">"));
            let named = named.unwrap_or_else(|| self.words.page.box_to_tick.clone());
            self.words.tick(&named);
            self.push("<span>");
            self.run(text);
            self.push("</span></div>");
        } else {
            self.words.ticks += 1;
            let id = self.words.ticks;
            self.push(&format!(
                "<label class=\"row\"><input type=\"checkbox\" id=\"_t{id}\"><span>"
            ));
            self.run(text);
            self.push("</span></label>");
        }
        self.blocks(rest);
        self.push("</li>\n");
    }

    fn caution(&mut self, signal: Signal, blocks: &[Block]) {
        self.cautions += 1;
        let id = self.cautions;
        let (class, sign) = match signal {
            Signal::Danger => ("danger", ALERT),
            Signal::Warning => ("warning", ALERT),
            Signal::Caution => ("caution-word", ALERT),
            Signal::Notice => ("notice", ""),
        };
        let word = self.words.page.signal(signal).to_owned();
        self.push(&format!(
            "<div class=\"caution {class}\" role=\"note\" aria-labelledby=\"_c{id}\">\n<p class=\"signal\" id=\"_c{id}\">{sign}{word}</p>\n"
        ));
        self.blocks(blocks);
        self.push("</div>\n");
    }

    /// Cards: each level-3 heading is a front, what follows it the back, and
    /// a level-2 heading opens a topic.
    fn cards(&mut self, blocks: &[Block]) {
        let mut in_topic = false;
        let mut in_card = false;
        let mut asked = None;
        for (at, block) in blocks.iter().enumerate() {
            match block {
                // it stands with its question already
                Block::Figure(_) if asked == Some(at) => {}
                Block::Heading { level: 3, .. } => {
                    self.close_card(&mut in_card);
                    if !in_topic {
                        self.push("<section class=\"topic\">\n");
                        in_topic = true;
                    }
                    self.cards += 1;
                    let id = self.cards;
                    let _ = writeln!(self.words.out, "<article class=\"card\" id=\"_k{id}\">");
                    self.block(block);
                    // a drawing right after the heading belongs to the question
                    if let Some(drawing @ Block::Figure(_)) = blocks.get(at + 1) {
                        self.block(drawing);
                        asked = Some(at + 1);
                    }
                    self.push("<div class=\"back\">\n");
                    in_card = true;
                }
                Block::Heading { level: 1 | 2, .. } => {
                    self.close_card(&mut in_card);
                    if in_topic {
                        self.push("</section>\n");
                    }
                    in_topic = matches!(block, Block::Heading { level: 2, .. });
                    if in_topic {
                        self.push("<section class=\"topic\">\n");
                    }
                    self.block(block);
                }
                // A sheet's page breaks mean nothing among cards on a screen.
                Block::PageBreak => self.close_card(&mut in_card),
                _ => self.block(block),
            }
        }
        self.close_card(&mut in_card);
        if in_topic {
            self.push("</section>\n");
        }
    }

    fn close_card(&mut self, in_card: &mut bool) {
        if std::mem::take(in_card) {
            self.push("</div>\n</article>\n");
        }
    }
}

fn is_list(block: &Block) -> bool {
    matches!(block, Block::List { .. })
}
