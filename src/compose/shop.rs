//! A season's packets for the print shop: which departures are bound in one file, and what its
//! cover, the leaf before each departure and the list of what comes back say.

use super::season::{Listed, Row, by_day, take};
use super::words;
use crate::markdown::escape;
use crate::nouns::Date;

/// The most sides of packets in one file. It is the project's own limit: more are a stack that
/// nobody sorts well, and a file of more needs more memory the more departures leave on a day.
const MOST_SIDES: usize = 100;

/// What one file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// The departures of a day.
    Day,
    /// The departures of a week that starts on a Monday (ISO 8601).
    Week,
}

impl By {
    /// Both, in the order they are listed in.
    pub const BOTH: [Self; 2] = [Self::Day, Self::Week];

    /// The folder in which its files lie.
    #[must_use]
    pub const fn folder(self) -> &'static str {
        match self {
            Self::Day => "days",
            Self::Week => "weeks",
        }
    }
}

/// A file for the print shop.
pub struct Volume<'a, 'b> {
    /// The name of its file, without ending.
    pub stem: String,
    /// What is in it: `2027-06-04`, `the week of 2027-05-31, part 2 of 2`.
    pub title: String,
    /// Its departures.
    pub here: Vec<&'b Listed<'a>>,
}

/// The files of a season; a day or week of more sides than a file should have is parted.
#[must_use]
pub fn volumes<'a, 'b>(listed: &'b [Listed<'a>], by: By) -> Vec<Volume<'a, 'b>> {
    let mut groups: Vec<(String, String, Vec<&Listed<'_>>)> = Vec::new();
    for (day, here) in by_day(listed) {
        let date = Date::read(&day);
        let (stem, title) = match (by, date) {
            (By::Week, Some(date)) => {
                let monday = date.monday().to_string();
                (monday.clone(), format!("the week of {monday}"))
            }
            (_, Some(_)) => (day.clone(), day),
            (_, None) => (super::slug(&day), day.to_lowercase()),
        };
        match groups.last_mut().filter(|last| last.0 == stem) {
            Some(last) => last.2.extend(here),
            None => groups.push((stem, title, here)),
        }
    }
    groups
        .into_iter()
        .flat_map(|(stem, title, here)| parted(&stem, &title, here))
        .collect()
}

fn parted<'a, 'b>(stem: &str, title: &str, here: Vec<&'b Listed<'a>>) -> Vec<Volume<'a, 'b>> {
    let mut parts: Vec<(usize, Vec<&Listed<'_>>)> = Vec::new();
    for one in here {
        match parts.last_mut() {
            Some((sides, part)) if *sides + one.row.sides <= MOST_SIDES => {
                *sides += one.row.sides;
                part.push(one);
            }
            _ => parts.push((one.row.sides, vec![one])),
        }
    }
    let of = parts.len();
    let volume = |(number, (_, here)): (usize, (usize, Vec<&'b Listed<'a>>))| {
        let (mut stem, mut title) = (stem.to_owned(), title.to_owned());
        if of > 1 {
            stem.push_str(&format!("-part-{number}"));
            title.push_str(&format!(", part {number} of {of}"));
        }
        Volume { stem, title, here }
    };
    (1..).zip(parts).map(volume).collect()
}

impl<'b> Volume<'_, 'b> {
    /// The departures whose return sheets lie at the end, in the order in which they are back.
    #[must_use]
    pub fn returning(&self) -> Vec<&'b Listed<'b>> {
        let mut back: Vec<&Listed<'_>> = self
            .here
            .iter()
            .copied()
            .filter(|one| one.row.sheets.iter().any(|sheet| sheet.returns))
            .collect();
        back.sort_by_key(|one| (one.row.back.is_none(), &one.row.back));
        back
    }
}

fn count(number: usize, one: &str, many: &str) -> String {
    words::count(u32::try_from(number).unwrap_or(u32::MAX), one, many)
}

fn sides(row: &Row) -> usize {
    row.sheets.iter().map(|sheet| sheet.pages).sum()
}

fn leaves(row: &Row) -> usize {
    row.sheets.iter().map(|sheet| sheet.leaves).sum()
}

/// The cover: how much there is, and what lies behind it.
#[must_use]
pub fn cover(volume: &Volume<'_, '_>) -> String {
    let sum = |of: fn(&Row) -> usize| volume.here.iter().map(|one| of(one.row)).sum::<usize>();
    let back = volume.returning().len();
    let mut text = format!(
        "# Packets of {}\n\n{}: {} printed, each sheet once; {} of paper with all copies. Print on \
         both sides: each departure starts on a leaf of its own, with its name and how many copies \
         of each sheet it takes.",
        escape(&volume.title),
        count(volume.here.len(), "departure", "departures"),
        count(sum(sides), "side", "sides"),
        count(sum(leaves), "leaf", "leaves"),
    );
    if back > 0 {
        text.push_str(&format!(
            " {} at the end, behind a list of them: they stay in the store room.",
            match back {
                1 => "The return sheet lies".to_owned(),
                more => format!("The {more} return sheets lie"),
            }
        ));
    }
    text.push_str(
        "\n\n| Departure | Leaves on | Trip | Revision | Sides | Leaves with copies | See to |\n\
         |---|---|---|---|---:|---:|---|\n",
    );
    for one in &volume.here {
        text.push_str(&format!(
            "| {} | {} | {} | {} | {} | {} | {} |\n",
            escape(&one.row.name),
            escape(one.row.day.as_deref().unwrap_or("not known")),
            escape(&one.row.title),
            one.row.revision,
            sides(one.row),
            leaves(one.row),
            escape(&one.row.red.join("; ")),
        ));
    }
    text
}

/// The leaf before a departure's sheets.
#[must_use]
pub fn leaf(one: &Listed<'_>) -> String {
    let mut text = format!(
        "# {}\n\n{}\n\nRevision {}\n\n",
        escape(&one.row.name),
        escape(&one.row.title),
        one.row.revision
    );
    let facts = one.row.facts.iter().chain(one.notes);
    for (name, fact) in facts {
        text.push_str(&format!("- {}: {}\n", escape(name), escape(fact)));
    }
    for red in &one.row.red {
        text.push_str(&format!(
            "- **See to it before leaving:** {}\n",
            escape(red)
        ));
    }
    text.push_str("\n| Sheet | Sides | Copies |\n|---|---:|---:|\n");
    for sheet in &one.row.sheets {
        let place = if sheet.returns { ", at the end" } else { "" };
        text.push_str(&format!(
            "| {}{place} | {} | {} |\n",
            escape(&sheet.title),
            sheet.pages,
            sheet.copies
        ));
    }
    text
}

/// The list before the return sheets: what is to come back, and when.
#[must_use]
pub fn returns(volume: &Volume<'_, '_>) -> String {
    let mut text = format!(
        "# Return sheets: {}\n\nThey lie behind this list in its order. Tick a departure when \
         everything on its sheet is back and weighed.\n\n\
         | Back on | Departure | Revision | To come back | Here |\n|---|---|---|---|---|\n",
        escape(&volume.title),
    );
    for one in volume.returning() {
        text.push_str(&format!(
            "| {} | {} | {} | {} | [ ] |\n",
            escape(one.row.back.as_deref().unwrap_or("not known")),
            escape(&one.row.name),
            one.row.revision,
            escape(&take(one.row)),
        ));
    }
    text
}
