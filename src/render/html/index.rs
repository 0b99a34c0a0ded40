//! The page that opens a folder: its sheets, and how to print them.

use crate::diag::Outcome;
use crate::doc::{Paper, Style, Words};

use super::super::markup::{escaped, push_escaped};
use super::{Page, Shell, fill};

/// What the index page of a folder shows.
#[derive(Clone, Debug, PartialEq)]
pub struct IndexPage {
    /// The page's title, as `Quillback Ridge: for learners`.
    pub title: String,
    /// Lines of plain words under the title.
    pub notes: Vec<String>,
    /// What is looked for first, each with its name: `When`, `2027-05-14`.
    pub facts: Vec<(String, String)>,
    /// Where else to go: what a link says, and the address that it leads to.
    pub ways: Vec<(String, String)>,
    /// The sheets, by use.
    pub groups: Vec<IndexGroup>,
    /// The line at the foot of the page.
    pub foot: String,
    /// The paper that the print guide is for.
    pub paper: Paper,
}

/// Sheets that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct IndexGroup {
    /// What they are for, as `Before you leave`.
    pub title: String,
    /// The sheets.
    pub sheets: Vec<IndexSheet>,
}

/// A sheet on the index.
#[derive(Clone, Debug, PartialEq)]
pub struct IndexSheet {
    /// Its name, as a reader says it.
    pub title: String,
    /// One plain line on what it is for; may be empty.
    pub about: String,
    /// What each link says (`PDF`, `on screen`, `text`) and the file it leads
    /// to, beside the index.
    pub links: Vec<(String, String)>,
    /// How many to print; none for a sheet that is not printed.
    pub copies: Option<u32>,
    /// Who they are for, as `one a learner`; may be empty.
    pub copies_for: String,
    /// How it is printed, as `one side`, `both sides, turned on the long edge`.
    pub sides: String,
    /// The paper in words, as `A4` or `letter, card`.
    pub paper: String,
}

/// The index page of a folder.
///
/// # Errors
/// When the shell's template fails on it.
pub fn index(page: &IndexPage, shell: &Shell) -> Outcome<Vec<u8>> {
    let mut out = format!("<h1 id=\"_top\">{}</h1>\n", escaped(&page.title));
    for note in &page.notes {
        out.push_str(&format!("<p>{}</p>\n", escaped(note)));
    }
    push_facts(&mut out, &page.facts);
    push_ways(&mut out, &page.ways);
    for group in &page.groups {
        out.push_str(&format!(
            "<h2>{}</h2>\n<ul class=\"sheets\">\n",
            escaped(&group.title)
        ));
        for sheet in &group.sheets {
            push_sheet(&mut out, sheet);
        }
        out.push_str("</ul>\n");
    }
    let printed: Vec<_> = page
        .groups
        .iter()
        .flat_map(|group| &group.sheets)
        .filter_map(|sheet| sheet.copies.map(|copies| (sheet, copies)))
        .collect();
    if !printed.is_empty() {
        push_guide(&mut out, &printed, &shell.words);
    }
    fill(
        shell,
        &Page {
            title: &page.title,
            foot: &page.foot,
            style: &plain_style(page.paper),
            contents: &[],
            fields: false,
            deck: false,
            kind: "index",
            main: &out,
            why: "",
            scripts: &[],
        },
    )
}

pub(super) fn push_facts(out: &mut String, facts: &[(String, String)]) {
    if facts.is_empty() {
        return;
    }
    out.push_str("<dl class=\"facts\">\n");
    for (name, fact) in facts {
        let (name, fact) = (escaped(name), escaped(fact));
        out.push_str(&format!("<div><dt>{name}</dt><dd>{fact}</dd></div>\n"));
    }
    out.push_str("</dl>\n");
}

pub(super) fn push_ways(out: &mut String, ways: &[(String, String)]) {
    if ways.is_empty() {
        return;
    }
    out.push_str("<ul class=\"ways\">\n");
    for (say, address) in ways {
        let (say, address) = (escaped(say), escaped(&percent(address)));
        out.push_str(&format!("<li><a href=\"{address}\">{say}</a></li>\n"));
    }
    out.push_str("</ul>\n");
}

fn push_sheet(out: &mut String, sheet: &IndexSheet) {
    let title = escaped(&sheet.title);
    out.push_str(&format!("<li><strong>{title}</strong>"));
    if !sheet.about.is_empty() {
        out.push_str(": ");
        push_escaped(out, &sheet.about);
    }
    out.push_str("<span class=\"links\">");
    for (say, file) in &sheet.links {
        let (say, file) = (escaped(say), escaped(&percent(file)));
        // Whoever jumps from link to link hears which sheet each belongs to.
        out.push_str(&format!(
            " <a href=\"{file}\">{say}<span class=\"unseen\">: {title}</span></a>"
        ));
    }
    out.push_str("</span></li>\n");
}

fn push_guide(out: &mut String, printed: &[(&IndexSheet, u32)], words: &Words) {
    let title = escaped(words.say("what-to-print"));
    out.push_str(&format!("<h2>{title}</h2>\n<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{title}\"><table>\n<thead><tr>"));
    for (head, class) in [
        (words.say("sheet"), ""),
        (words.say("copies"), " class=\"right\""),
        (words.say("copies-for"), ""),
        (words.say("sides"), ""),
        (words.say("paper"), ""),
    ] {
        out.push_str(&format!("<th scope=\"col\"{class}>{}</th>", escaped(head)));
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for (sheet, copies) in printed {
        out.push_str(&format!(
            "<tr><th scope=\"row\">{}</th><td class=\"right\">{copies}</td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
            escaped(&sheet.title),
            escaped(&sheet.copies_for),
            escaped(&sheet.sides),
            escaped(&sheet.paper),
        ));
    }
    out.push_str("</tbody>\n</table></div>\n");
}

/// A file's name as a relative address (RFC 3986: what is not unreserved, a
/// slash apart, is written in percent signs).
pub(super) fn percent(file: &str) -> String {
    let mut address = String::with_capacity(file.len());
    for byte in file.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) {
            address.push(char::from(byte));
        } else {
            address.push_str(&format!("%{byte:02X}"));
        }
    }
    address
}

pub(super) fn plain_style(paper: Paper) -> Style {
    Style {
        paper,
        body_pt: 11.0,
        caution_pt: 11.0,
        tick_pt: 18.0,
        two_column_ticks: false,
        margin_pt: 42.0,
        most_pages: None,
        still_good_pages: None,
        corner_hole: false,
        drawings_if_room: false,
        cards: None,
        landscape: false,
    }
}
