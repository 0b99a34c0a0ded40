//! Runs of text, with names for the boxes and blanks in them.

use crate::doc::{self, Inline, plain};
use std::sync::Arc;

use super::super::markup::{escaped, push_escaped};

/// A longer name than this is read out to the end each time: too long.
const LONGEST_NAME: usize = 90;

/// Writes runs of text and counts the fields in them.
#[derive(Default)]
pub(super) struct Words {
    /// What the page says by itself.
    pub(super) page: Arc<doc::Words>,
    pub(super) out: String,
    pub(super) ticks: usize,
    pub(super) blanks: usize,
}

impl Words {
    /// Adds a run. `near` names a field whose own run says nothing about it:
    /// the row and column of a table, or the heading above.
    pub(super) fn run(&mut self, inlines: &[Inline], near: &str) {
        for (at, inline) in inlines.iter().enumerate() {
            match inline {
                Inline::Text(words) => push_escaped(&mut self.out, words),
                Inline::Said { of, si, words } => self.said(of, *si, words),
                Inline::Strong(inner) => {
                    self.out.push_str("<strong>");
                    self.run(inner, near);
                    self.out.push_str("</strong>");
                }
                Inline::Emphasis(inner) => {
                    self.out.push_str("<em>");
                    self.run(inner, near);
                    self.out.push_str("</em>");
                }
                Inline::Link { target, text } => {
                    self.out.push_str("<a href=\"");
                    push_escaped(&mut self.out, target);
                    self.out.push_str(if target.starts_with('#') {
                        "\">"
                    } else {
                        "\" rel=\"noreferrer\">"
                    });
                    self.run(text, near);
                    self.out.push_str("</a>");
                }
                Inline::Blank(width) => {
                    let name = name(&[before(inlines, at), after(inlines, at), near.to_owned()]);
                    let name = name.unwrap_or_else(|| self.page.line_to_write_on.clone());
                    self.blank(*width, &name);
                }
                Inline::Tick => {
                    let name = name(&[after(inlines, at), before(inlines, at), near.to_owned()]);
                    let name = name.unwrap_or_else(|| self.page.box_to_tick.clone());
                    self.tick(&name);
                }
                Inline::Break => self.out.push_str("<br>"),
            }
        }
    }

    /// Adds a value that knows what it says.
    fn said(&mut self, of: &str, si: Option<f64>, words: &str) {
        let value = si.map_or_else(|| words.replace('\u{a0}', " "), |si| si.to_string());
        self.out.push_str(&format!(
            "<data value=\"{}\" data-of=\"{}\">{}</data>",
            escaped(&value),
            escaped(of),
            escaped(words)
        ));
    }

    /// Adds a box to tick that carries its own name.
    pub(super) fn tick(&mut self, name: &str) {
        self.ticks += 1;
        self.out.push_str(&format!(
            "<label class=\"tick-in\"><input type=\"checkbox\" id=\"_t{}\" aria-label=\"{}\"></label>",
            self.ticks,
            escaped(name)
        ));
    }

    fn blank(&mut self, width: usize, name: &str) {
        self.blanks += 1;
        self.out.push_str(&format!(
            "<input type=\"text\" class=\"blank\" id=\"_b{}\" size=\"{}\" autocomplete=\"off\" aria-label=\"{}\">",
            self.blanks,
            width.clamp(2, 80),
            escaped(name)
        ));
    }
}

/// The first of some texts that has words in it, short enough for a name.
pub(super) fn name(candidates: &[String]) -> Option<String> {
    candidates.iter().find_map(|text| {
        let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let words = words.trim_matches(|sign: char| {
            sign.is_whitespace() || matches!(sign, ':' | ',' | ';' | '.' | '(' | '=')
        });
        if !words.contains(char::is_alphanumeric) {
            return None;
        }
        if words.chars().count() <= LONGEST_NAME {
            return Some(words.to_owned());
        }
        let mut short: String = words.chars().take(LONGEST_NAME).collect();
        short.push('…');
        Some(short)
    })
}

/// The words between the field before this one and this one.
fn before(inlines: &[Inline], at: usize) -> String {
    let start = inlines[..at]
        .iter()
        .rposition(is_field)
        .map_or(0, |field| field + 1);
    plain(&inlines[start..at])
}

/// The words between this field and the next.
fn after(inlines: &[Inline], at: usize) -> String {
    let rest = &inlines[at + 1..];
    let end = rest.iter().position(is_field).unwrap_or(rest.len());
    plain(&rest[..end])
}

fn is_field(inline: &Inline) -> bool {
    matches!(inline, Inline::Blank(_) | Inline::Tick | Inline::Break)
}
