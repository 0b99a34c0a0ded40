//! The page of a season: every departure in one table, to look through without a network.

use crate::diag::Outcome;
use crate::doc::{Paper, Words};

use super::super::markup::escaped;
use super::index::{percent, plain_style, push_facts, push_ways};
use super::{Page, Shell, fill};

/// What the page of a season shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SeasonPage {
    /// The page's title.
    pub title: String,
    /// Counts, each with its name.
    pub facts: Vec<(String, String)>,
    /// Papers of the season as a whole: what a link says, and where it leads.
    pub ways: Vec<(String, String)>,
    /// Headings of the columns behind day, departure and trip.
    pub heads: Vec<String>,
    /// The departures, in order.
    pub rows: Vec<SeasonRow>,
    /// What is to have ready: week, container, count.
    pub orders: Vec<[String; 3]>,
    /// The line at the foot of the page.
    pub foot: String,
}

/// A departure on the page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SeasonRow {
    /// Its first day.
    pub day: String,
    /// Its name.
    pub name: String,
    /// Where its packet is, seen from the page; empty where there is none.
    pub link: String,
    /// Its trip.
    pub trip: String,
    /// A cell for each of the page's own headings.
    pub cells: Vec<String>,
    /// What someone must see to.
    pub red: Vec<String>,
}

/// The page of a season.
///
/// # Errors
/// When the shell's template fails on it.
pub fn season(page: &SeasonPage, shell: &Shell) -> Outcome<Vec<u8>> {
    let mut out = format!("<h1 id=\"_top\">{}</h1>\n", escaped(&page.title));
    push_facts(&mut out, &page.facts);
    push_ways(&mut out, &page.ways);
    let words = &shell.words;
    out.push_str(&format!(
        "<div id=\"_find\" hidden><p><label for=\"_words\">{}</label>\n\
         <input type=\"search\" id=\"_words\" autocomplete=\"off\"></p>\n\
         <p><output id=\"_found\"></output></p></div>\n\
         <div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{}\"><table id=\"_rows\">\n<thead><tr>",
        escaped(words.say("find-departures")),
        escaped(words.say("departures"))
    ));
    let own = page.heads.iter().map(String::as_str);
    let first = [words.say("day"), words.say("departure"), words.say("trip")];
    for head in first.into_iter().chain(own).chain([words.say("see-to")]) {
        out.push_str(&format!("<th scope=\"col\">{}</th>", escaped(head)));
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in &page.rows {
        push_row(&mut out, row);
    }
    out.push_str("</tbody>\n</table></div>\n");
    push_orders(&mut out, &page.orders, words);
    fill(
        shell,
        &Page {
            title: &page.title,
            foot: &page.foot,
            style: &plain_style(Paper::Letter),
            contents: &[],
            fields: false,
            deck: false,
            kind: "index",
            main: &out,
            scripts: &[shell.season.as_str()],
            why: "",
        },
    )
}

/// New containers by week and kind.
fn push_orders(out: &mut String, orders: &[[String; 3]], words: &Words) {
    if orders.is_empty() {
        return;
    }
    out.push_str(&format!(
        "<h2 id=\"to-have-ready\">{}</h2>\n\
         <p>{}</p>\n<table>\n<thead><tr>\
         <th scope=\"col\">{}</th><th scope=\"col\">{}</th><th scope=\"col\">{}</th></tr></thead>\n<tbody>\n",
        escaped(words.say("to-have-ready")),
        escaped(words.say("new-containers")),
        escaped(words.say("week")),
        escaped(words.say("container")),
        escaped(words.say("count"))
    ));
    for [week, name, count] in orders {
        let (week, name) = (escaped(week), escaped(name));
        out.push_str(&format!(
            "<tr><th scope=\"row\">{week}</th><td>{name}</td><td>{count}</td></tr>\n"
        ));
    }
    out.push_str("</tbody>\n</table>\n");
}

fn push_row(out: &mut String, row: &SeasonRow) {
    let name = escaped(&row.name);
    let name = if row.link.is_empty() {
        name.clone()
    } else {
        format!("<a href=\"{}\">{name}</a>", escaped(&percent(&row.link)))
    };
    out.push_str(&format!(
        "<tr><td>{}</td><th scope=\"row\">{name}</th><td>{}</td>",
        escaped(&row.day),
        escaped(&row.trip)
    ));
    for cell in &row.cells {
        out.push_str(&format!("<td>{}</td>", escaped(cell)));
    }
    let red: Vec<String> = row.red.iter().map(|red| escaped(red)).collect();
    if red.is_empty() {
        out.push_str("<td></td></tr>\n");
    } else {
        out.push_str(&format!(
            "<td class=\"red\"><strong>{}</strong></td></tr>\n",
            red.join("; ")
        ));
    }
}
