//! The allowed subset of Markdown: putting values into it, and reading it into
//! a [`Document`]. The only home of the Markdown parser.
//!
//! # What may be written
//! | in the text | what it becomes |
//! |---|---|
//! | `# Title` | the sheet's title: exactly one, and first |
//! | `##` to `####` | headings, no level jumped over, none inside a list or box |
//! | `- a`, `1. a` | lists; `- [ ] a` has a box to tick |
//! | `[ ]` anywhere else | [`Inline::Tick`] |
//! | `___` (three or more) | [`Inline::Blank`], a line to write on, that many signs wide |
//! | `> [!WARNING]` and the words on the lines below | [`Block::Caution`]; DANGER, WARNING, CAUTION or NOTICE |
//! | `> words` | [`Block::Boxed`] |
//! | `---` on its own | [`Block::Rule`] |
//! | `***` on its own | [`Block::PageBreak`], never inside a list or box |
//! | a table with its row of `---`, `:---:`, `---:` | [`Block::Table`] |
//! | a fence of three backticks with `figure ID` | [`Block::Figure`], from the figures given; the fence's lines are its text twin and not read |
//! | `**bold**`, `*italic*` | [`Inline::Strong`], [`Inline::Emphasis`] |
//! | `[words](https://..)`, `mailto:`, `#anchor` | [`Inline::Link`] |
//! | `\` at the end of a line | [`Inline::Break`] |
//!
//! Everything else that Markdown could mean is a [`Problem`] with its place, never
//! a silent surprise: code, other fences, raw HTML, images, footnotes, named
//! links, a table row cut off from its table, an empty list item. A heading's
//! anchor is its words in small letters with hyphens: `#wind-and-shelter`.
//!
//! A value that a person wrote goes through [`escape`] first and so is never
//! read as any of these.

mod build;
mod escape;
mod hold;
mod measure;
mod parts;
mod said;
mod source;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::diag::{Outcome, Problem};
use crate::doc::{self, Block, Document, Inline};

pub use escape::escape;
pub use measure::numbers_with_units;
pub use said::{said, said_again, without_marks, words_start};

/// Reads the composed text of a sheet.
///
/// `name` is what the text is called in problems, `figures` holds the drawings
/// that fences name, `style` and `foot` go into the document as they are.
///
/// # Errors
/// Every problem of the text at once, in the order of their places.
pub fn read(
    name: &str,
    text: &str,
    figures: &BTreeMap<String, doc::Figure>,
    style: doc::Style,
    foot: &str,
) -> Outcome<Document> {
    let source = source::Marked::new(name, text);
    let (blocks, mut problems) = build::blocks(&source, build::Scope::Sheet(figures));
    let title = match blocks.first() {
        Some(Block::Heading { level: 1, text, .. }) => title_words(text),
        _ => {
            problems.push(source.problem(
                "markdown.title",
                0..0,
                "a sheet opens with its title, one line that starts with `# `",
                "write `# Name of the sheet` as the first line",
            ));
            String::new()
        }
    };
    settle(problems)?;
    Ok(Document {
        title,
        foot: foot.to_owned(),
        style,
        blocks,
        group: None,
        words: Arc::default(),
    })
}

/// Reads the prose of a content module, to find what is wrong with it before
/// any sheet uses it. Prose has no title of its own, its links to anchors may
/// point into the sheet round it, and its figures are not looked up.
#[must_use]
pub fn check_prose(name: &str, text: &str) -> Vec<Problem> {
    let source = source::Marked::new(name, text);
    let (_, problems) = build::blocks(&source, build::Scope::Prose);
    settle(problems).err().unwrap_or_default()
}

/// A title in one line.
fn title_words(text: &[Inline]) -> String {
    doc::plain(text).replace(['\n', '\u{a0}'], " ")
}

/// Nothing, or the problems in order of place, each once.
fn settle(mut problems: Vec<Problem>) -> Outcome<()> {
    problems.sort_by(|a, b| (&a.place, a.code).cmp(&(&b.place, b.code)));
    problems.dedup();
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}
