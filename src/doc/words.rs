//! The few words that a page has by itself: its number, its signal words, names for the fields and
//! tables that have none.

use super::Signal;

/// What a page says by itself, in the language of its sheet.
///
/// Where a number or a name stands in it, it is written in braces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Words {
    /// The language, as the web and PDF name it: `en`, `es`.
    pub language: String,
    /// `page {n} of {of}`.
    pub page: String,
    /// The signal words, the gravest first.
    pub signals: [String; 4],
    /// A table without a name: `Table {n}: {name}`.
    pub table: String,
    /// A drawing: `Drawing {n}: {name}`.
    pub drawing: String,
    /// A field that no words stand beside.
    pub write_here: String,
    /// A box of a list that no words stand beside.
    pub tick_when_done: String,
    /// The second box of a line: `{name} (second box)`.
    pub second_box: String,
    /// A blank that no words stand beside.
    pub line_to_write_on: String,
    /// A box that no words stand beside.
    pub box_to_tick: String,
    /// On the back of a leaf that holds no cards.
    pub empty_side: String,
}

impl Default for Words {
    /// The English ones.
    fn default() -> Self {
        let own = str::to_owned;
        Self {
            language: own("en"),
            page: own("page {n} of {of}"),
            signals: Signal::ALL.map(|signal| own(signal.word())),
            table: own("Table {n}: {name}"),
            drawing: own("Drawing {n}: {name}"),
            write_here: own("Write here"),
            tick_when_done: own("Tick when done"),
            second_box: own("{name} (second box)"),
            line_to_write_on: own("Line to write on"),
            box_to_tick: own("Box to tick"),
            empty_side: own("This side stays empty, so that each card has its answer on its back."),
        }
    }
}

impl Words {
    /// A signal word.
    #[must_use]
    pub fn signal(&self, signal: Signal) -> &str {
        let at = Signal::ALL.iter().position(|one| *one == signal);
        &self.signals[at.unwrap_or(0)]
    }

    /// `page 1 of 2`.
    #[must_use]
    pub fn page(&self, number: usize, of: usize) -> String {
        let number = self.page.replace("{n}", &number.to_string());
        number.replace("{of}", &of.to_string())
    }

    /// `Table 1: Fuel`.
    #[must_use]
    pub fn numbered(words: &str, number: usize, name: &str) -> String {
        words
            .replace("{n}", &number.to_string())
            .replace("{name}", name)
    }
}
