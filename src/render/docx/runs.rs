//! Runs of text.

use std::collections::BTreeMap;

use docx_rs::{BreakType, Hyperlink, HyperlinkData, HyperlinkType, Paragraph, Run};

use crate::doc::Inline;

/// A box to tick.
pub(super) const BOX: &str = "\u{2610}";

/// How a run of text looks.
#[derive(Clone, Copy, Default)]
pub(super) struct Looks {
    pub(super) bold: bool,
    pub(super) italic: bool,
}

/// The style of words in the second of two languages.
pub(super) const OTHER: &str = "OtherLanguage";

/// Writes runs, and keeps count of links so that equal documents have equal ids.
#[derive(Default)]
pub(super) struct Runs {
    links: usize,
    /// Whether words are of the second language.
    pub(super) other: bool,
    /// The bookmark of each anchor.
    pub(super) bookmarks: BTreeMap<String, String>,
}

impl Runs {
    /// Adds a run of inlines to a paragraph.
    pub(super) fn add(
        &mut self,
        mut paragraph: Paragraph,
        inlines: &[Inline],
        looks: Looks,
    ) -> Paragraph {
        for inline in inlines {
            paragraph = match inline {
                Inline::Text(words) | Inline::Said { words, .. } => {
                    paragraph.add_run(self.run(words, looks))
                }
                Inline::Strong(inner) => self.add(
                    paragraph,
                    inner,
                    Looks {
                        bold: true,
                        ..looks
                    },
                ),
                Inline::Emphasis(inner) => {
                    let looks = Looks {
                        italic: true,
                        ..looks
                    };
                    self.add(paragraph, inner, looks)
                }
                Inline::Link { target, text } => {
                    let link = self.link(target, text, looks);
                    paragraph.add_hyperlink(link)
                }
                Inline::Blank(width) => paragraph.add_run(self.run(&"_".repeat(*width), looks)),
                Inline::Tick => paragraph.add_run(self.run(BOX, looks)),
                Inline::Break => paragraph.add_run(Run::new().add_break(BreakType::TextWrapping)),
            };
        }
        paragraph
    }

    /// Words in one look and the language that is on.
    pub(super) fn run(&self, words: &str, looks: Looks) -> Run {
        let run = run(words, looks);
        if self.other { run.style(OTHER) } else { run }
    }

    fn link(&mut self, target: &str, text: &[Inline], looks: Looks) -> Hyperlink {
        let words = self
            .run(&crate::doc::plain(text), looks)
            .underline("single");
        if let Some(anchor) = target.strip_prefix('#') {
            let mark = self.bookmarks.get(anchor).cloned().unwrap_or_default();
            return Hyperlink::new(mark, HyperlinkType::Anchor).add_run(words);
        }
        let mut link = Hyperlink::new(clean(target), HyperlinkType::External);
        // The library counts links over the whole process.
        self.links += 1;
        if let HyperlinkData::External { rid, .. } = &mut link.link {
            *rid = format!("rIdLink{}", self.links);
        }
        link.add_run(words)
    }
}

/// Words in one look.
pub(super) fn run(words: &str, looks: Looks) -> Run {
    let mut run = Run::new().add_text(clean(words));
    if looks.bold {
        run = run.bold();
    }
    if looks.italic {
        run = run.italic();
    }
    run
}

/// Words without the signs that XML 1.0 forbids.
pub(super) fn clean(words: &str) -> String {
    words
        .chars()
        .map(|sign| if sign == '\n' { ' ' } else { sign })
        .filter(|sign| !sign.is_control() && !matches!(sign, '\u{fffe}' | '\u{ffff}'))
        .collect()
}
