//! A season's packets for the print shop: which departures are bound in one file, and what its
//! cover, the leaf before each departure and the list of what comes back say.

use super::catalogue::text;
use super::season::{Listed, Row, by_day, of, table, take};
use crate::markdown::escape;
use crate::nouns::Date;
use crate::phrase::phrase;

/// The most sides of packets in one file. It is the project's own limit: more are a stack that
/// nobody sorts well, and a file of more needs more memory the more departures leave on a day.
const MOST_SIDES: usize = 100;

/// The stem of the file of departures without a day.
const NO_DAY: &str = "no-day-yet";

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
        let date = day.as_deref().and_then(Date::read);
        let (stem, title) = match (by, day, date) {
            (By::Week, _, Some(date)) => {
                let monday = date.monday().to_string();
                let title = text(&phrase!("shop-the-week-of", monday = monday));
                (monday, title)
            }
            (_, Some(day), Some(_)) => (day.clone(), day),
            (_, Some(day), None) => (super::slug(&day), day.to_lowercase()),
            (_, None, _) => (NO_DAY.to_owned(), text(&phrase!("season-order-no-day"))),
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
            title = text(&phrase!(
                "shop-part",
                title = title,
                number = number,
                of = of
            ));
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
    let mut cover = format!(
        "# {}\n\n{} {}",
        of(&phrase!("shop-packets-of", what = volume.title)),
        of(&phrase!(
            "shop-how-much",
            departures = volume.here.len(),
            sides = sum(sides),
            leaves = sum(leaves)
        )),
        of(&phrase!("shop-how-to-print")),
    );
    if back > 0 {
        cover.push(' ');
        cover.push_str(&of(&phrase!("shop-at-the-end", sheets = back)));
    }
    cover.push_str("\n\n");
    cover.push_str(&table(&[
        (phrase!("season-departure"), ""),
        (phrase!("shop-leaves-on"), ""),
        (phrase!("season-trip"), ""),
        (phrase!("shop-revision"), ""),
        (phrase!("shop-sides"), ":"),
        (phrase!("shop-leaves"), ":"),
        (phrase!("season-see-to"), ""),
    ]));
    for one in &volume.here {
        let day = one.row.day.clone().unwrap_or_else(not_known);
        cover.push_str(&format!(
            "| {} | {} | {} | {} | {} | {} | {} |\n",
            escape(&one.row.name),
            escape(&day),
            escape(&one.row.title),
            one.row.revision,
            sides(one.row),
            leaves(one.row),
            escape(&one.row.red.join("; ")),
        ));
    }
    cover
}

fn not_known() -> String {
    text(&phrase!("shop-not-known"))
}

/// The leaf before a departure's sheets.
#[must_use]
pub fn leaf(one: &Listed<'_>) -> String {
    let mut leaf = format!(
        "# {}\n\n{}\n\n{}\n\n",
        escape(&one.row.name),
        escape(&one.row.title),
        of(&phrase!("shop-of-revision", revision = one.row.revision))
    );
    let facts = one.row.facts.iter().chain(one.notes);
    for (name, fact) in facts {
        leaf.push_str(&format!("- {}: {}\n", escape(name), escape(fact)));
    }
    for red in &one.row.red {
        let before = of(&phrase!("shop-before-leaving"));
        leaf.push_str(&format!("- **{before}** {}\n", escape(red)));
    }
    leaf.push('\n');
    leaf.push_str(&table(&[
        (phrase!("shop-sheet"), ""),
        (phrase!("shop-sides"), ":"),
        (phrase!("shop-copies"), ":"),
    ]));
    for sheet in &one.row.sheets {
        let title = if sheet.returns {
            text(&phrase!("shop-sheet-at-the-end", sheet = sheet.title))
        } else {
            sheet.title.clone()
        };
        leaf.push_str(&format!(
            "| {} | {} | {} |\n",
            escape(&title),
            sheet.pages,
            sheet.copies
        ));
    }
    leaf
}

/// The list before the return sheets: what is to come back, and when.
#[must_use]
pub fn returns(volume: &Volume<'_, '_>) -> String {
    let mut list = format!(
        "# {}\n\n{}\n\n{}",
        of(&phrase!("shop-return-sheets", what = volume.title)),
        of(&phrase!("shop-tick")),
        table(&[
            (phrase!("shop-back-on"), ""),
            (phrase!("season-departure"), ""),
            (phrase!("shop-revision"), ""),
            (phrase!("shop-to-come-back"), ""),
            (phrase!("shop-here"), ""),
        ])
    );
    for one in volume.returning() {
        let back = one.row.back.clone().unwrap_or_else(not_known);
        list.push_str(&format!(
            "| {} | {} | {} | {} | [ ] |\n",
            escape(&back),
            escape(&one.row.name),
            one.row.revision,
            escape(&take(one.row)),
        ));
    }
    list
}
