//! Cautions cannot be lost: what a template leaves out is found again here.

use super::view::common::{Extent, doc_signal};
use super::view::{Inputs, OneKitchen};
use crate::diag::{Problem, told};
use crate::doc::{self, Block, Document};
use crate::markdown;
use crate::nouns::{Caution, Module};
use std::collections::BTreeMap;

/// A caution that a sheet must show.
pub struct Needed {
    /// Its module.
    pub module: String,
    /// Its id.
    pub id: String,
    /// The signal word it must stand under.
    pub signal: doc::Signal,
    /// What must stand together in one paragraph, as Markdown.
    pub parts: Vec<String>,
}

impl Inputs<'_> {
    /// The cautions of a module that hold here, as a sheet must show them.
    #[must_use]
    pub fn needed(&self, module: &Module, extent: Extent) -> Vec<Needed> {
        self.chosen(module, extent)
            .into_iter()
            .map(|caution| self.must_show(module, caution, extent))
            .collect()
    }

    /// A caution as a sheet must show it.
    #[must_use]
    pub fn must_show(&self, module: &Module, caution: &Caution, extent: Extent) -> Needed {
        Needed {
            module: module.id.clone(),
            id: caution.id.clone(),
            signal: doc_signal(caution.signal),
            parts: self.caution_parts(module, caution, extent),
        }
    }

    /// The kitchen that a sheet is for, else the first.
    #[must_use]
    pub fn of_sheet(&self, kitchen: Option<&str>) -> Option<OneKitchen<'_>> {
        self.kitchens()
            .into_iter()
            .find(|one| kitchen.is_none_or(|name| one.kitchen.name == name))
    }
}

/// The needed cautions that a document does not show under their signal word.
#[must_use]
pub fn lost(document: &Document, needed: &[Needed], template: &str) -> Vec<Problem> {
    let mut shown: BTreeMap<doc::Signal, Vec<String>> = BTreeMap::new();
    gather(&document.blocks, None, &mut shown);
    needed
        .iter()
        .filter(|one| {
            let parts: Vec<String> = one.parts.iter().map(|part| words_of(part)).collect();
            !shown.get(&one.signal).is_some_and(|paragraphs| {
                paragraphs
                    .iter()
                    .any(|text| parts.iter().all(|part| text.contains(part)))
            })
        })
        .map(|one| {
            Problem::error(
                "compose.caution_lost",
                told!(
                    "the sheet uses the module `{module}` but leaves out its {signal} `{id}`",
                    module = one.module,
                    signal = one.signal.word(),
                    id = one.id
                ),
                "print every caution that the view holds, as the built-in template does; \
                 a sheet that uses a module with a hazard cannot drop its cautions",
            )
            .in_file(template)
        })
        .collect()
}

/// The words under each signal word, wherever cautions stand.
fn gather(
    blocks: &[Block],
    under: Option<doc::Signal>,
    shown: &mut BTreeMap<doc::Signal, Vec<String>>,
) {
    for block in blocks {
        match block {
            Block::Caution { signal, blocks } => gather(blocks, Some(*signal), shown),
            Block::Boxed(blocks) => gather(blocks, under, shown),
            Block::List { items, .. } => {
                for item in items {
                    gather(&item.blocks, under, shown);
                }
            }
            Block::Paragraph(words) => {
                if let Some(signal) = under {
                    let text = flat(&doc::plain(words));
                    shown.entry(signal).or_default().push(text);
                }
            }
            _ => {}
        }
    }
}

/// A caution's Markdown as the words that a reader sees.
fn words_of(markdown_text: &str) -> String {
    let document = markdown::read(
        "a caution",
        &format!("# x\n\n{markdown_text}\n"),
        &BTreeMap::new(),
        super::sheets::plain_style(),
        "",
    );
    document.map_or_else(
        |_| flat(markdown_text),
        |document| match document.blocks.get(1) {
            Some(Block::Paragraph(words)) => flat(&doc::plain(words)),
            _ => flat(markdown_text),
        },
    )
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
