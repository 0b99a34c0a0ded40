//! What a page says by itself: its number, its signal words, names for the fields and tables that
//! have none, and what stands round a sheet on a screen.

use std::collections::BTreeMap;

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
    /// All of them by their keys in the file of words; none of the built-in ones has a file.
    said: BTreeMap<String, String>,
}

impl Default for Words {
    /// The English ones that any sheet needs, without those of pages on a screen.
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
            said: BTreeMap::new(),
        }
    }
}

impl Words {
    /// The words of a language by their keys, as `page/words.json` has them.
    #[must_use]
    pub fn of(language: &str, said: BTreeMap<String, String>) -> Self {
        let own = |key: &str| said.get(key).cloned().unwrap_or_default();
        Self {
            language: language.to_owned(),
            page: own("page-of"),
            signals: ["danger", "warning", "caution", "notice"].map(own),
            table: own("table-name"),
            drawing: own("drawing-name"),
            write_here: own("write-here"),
            tick_when_done: own("tick-when-done"),
            second_box: own("second-box"),
            line_to_write_on: own("line-to-write-on"),
            box_to_tick: own("box-to-tick"),
            empty_side: own("empty-side"),
            said,
        }
    }

    /// All of them by their keys.
    #[must_use]
    pub const fn all(&self) -> &BTreeMap<String, String> {
        &self.said
    }

    /// The words under a key of the file of words; empty where there are none, which the reading
    /// of that file does not let by.
    #[must_use]
    pub fn say(&self, key: &str) -> &str {
        self.said.get(key).map_or("", String::as_str)
    }

    /// The words under a key with values put in: `("n", "3")` for `{n}`.
    #[must_use]
    pub fn put(&self, key: &str, values: &[(&str, &str)]) -> String {
        let mut rest = self.say(key);
        let mut out = String::with_capacity(rest.len());
        while let Some((before, after)) = rest.split_once('{') {
            out.push_str(before);
            let (name, more) = after.split_once('}').unwrap_or((after, ""));
            let value = values.iter().find(|(one, _)| *one == name);
            out.push_str(value.map_or("", |(_, value)| value));
            rest = more;
        }
        out.push_str(rest);
        out
    }

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_put_in_once_whatever_is_in_them() {
        let said = [("so", "{n} of {of}: {name}")];
        let said = said.map(|(key, words)| (key.to_owned(), words.to_owned()));
        let words = Words::of("en", BTreeMap::from(said));
        let put = words.put("so", &[("n", "{of}"), ("of", "3"), ("name", "a {n}")]);
        assert_eq!(put, "{of} of 3: a {n}");
    }
}
