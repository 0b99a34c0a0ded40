//! Cautions cannot be lost: what a template leaves out is found again here.

use super::view::common::{Extent, doc_signal};
use super::view::{Inputs, OneKitchen};
use crate::diag::Problem;
use crate::doc::{self, Block, Document};
use crate::markdown;
use crate::nouns::Module;
use std::collections::BTreeMap;

/// A caution that a sheet must show.
pub struct Needed {
    /// Its module.
    pub module: String,
    /// Its id.
    pub id: String,
    /// The signal word it must stand under.
    pub signal: doc::Signal,
    /// Its words, as Markdown.
    pub words: String,
}

impl Inputs<'_> {
    /// The cautions of modules, as a sheet must show them.
    #[must_use]
    pub fn needed(&self, modules: &[&Module], extent: Extent) -> Vec<Needed> {
        modules
            .iter()
            .flat_map(|module| {
                self.held(module).map(|caution| Needed {
                    module: module.id.clone(),
                    id: caution.id.clone(),
                    signal: doc_signal(caution.signal),
                    words: self.caution_words(module, caution, extent),
                })
            })
            .collect()
    }

    /// The kitchens that a sheet is for.
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
    let mut shown: BTreeMap<doc::Signal, String> = BTreeMap::new();
    gather(&document.blocks, None, &mut shown);
    needed
        .iter()
        .filter(|one| {
            !shown
                .get(&one.signal)
                .is_some_and(|text| text.contains(&words_of(&one.words)))
        })
        .map(|one| {
            Problem::error(
                "compose.caution_lost",
                format!(
                    "the sheet uses the module `{}` but leaves out its {} `{}`",
                    one.module,
                    one.signal.word(),
                    one.id
                ),
                "print every caution that the view holds, as the built-in template does; \
                 a sheet that uses a module with a hazard cannot drop its cautions",
            )
            .in_file(template)
        })
        .collect()
}

/// The words under each signal word, wherever cautions stand.
fn gather(blocks: &[Block], under: Option<doc::Signal>, shown: &mut BTreeMap<doc::Signal, String>) {
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
                    let text = shown.entry(signal).or_default();
                    text.push_str(&flat(&doc::plain(words)));
                    text.push('\n');
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
