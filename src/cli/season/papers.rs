//! The papers of a season as a whole, put together from the packets that lie there.

use super::shop::Shop;
use super::{Ready, Run};
use crate::compose::catalogue::text;
use crate::compose::season::{self as papers, Listed, Row};
use crate::compose::shop::By;
use crate::diag::Outcome;
use crate::nouns::{ContainerKind, Date};
use crate::phrase::phrase;
use crate::render::html::{SeasonPage, SeasonRow};
use crate::render::xlsx::{self, Sheet};
use crate::season::Departure;
use crate::write;
use std::collections::BTreeMap;

/// The stem of the list of days, and how it starts where there are several.
const DAY_LIST: &str = "day-list";

/// Departures that one list of days holds at most before there is one a month.
const MOST_LISTED: usize = 300;

/// A list of days: the stem of its files, the page, the PDF.
struct DayList {
    stem: String,
    page: Vec<u8>,
    file: Vec<u8>,
}

impl Run<'_> {
    /// Puts the papers of the season together from the packets that lie there.
    pub(super) fn join(&self, rows: &[Ready<'_>]) -> Outcome<()> {
        self.press.speaking(|| self.join_spoken(rows))
    }

    fn join_spoken(&self, rows: &[Ready<'_>]) -> Outcome<()> {
        let twice = if self.rows.in_hand.is_given() {
            BTreeMap::new()
        } else {
            in_two_places(rows)
        };
        let current: BTreeMap<&str, &str> = rows
            .iter()
            .map(|row| (row.departure.slug.as_str(), row.made_from.as_str()))
            .collect();
        let mut all: Vec<(&Departure, Option<Row>)> = self
            .rows
            .going()
            .map(|departure| {
                let row = self.kept(&departure.slug).map(|kept| {
                    let mut row = kept.row;
                    if self.rows.in_hand.is_gone(departure) {
                        return row;
                    }
                    if current.get(departure.slug.as_str()) != Some(&kept.made_from.as_str()) {
                        row.red.insert(0, text(&phrase!("red-older")));
                    }
                    let here = twice.get(departure.slug.as_str());
                    row.red.extend(here.into_iter().flatten().cloned());
                    row.red.extend(self.short(&row));
                    row
                });
                (departure, row)
            })
            .collect();
        let day = |departure: &Departure, row: &Option<Row>| match row {
            Some(row) => row.day.clone(),
            None => departure.starts().map(|day| day.to_string()),
        };
        all.sort_by_cached_key(|(departure, row)| {
            let day = day(departure, row);
            (day.is_none(), day, departure.row)
        });
        let unmade: Vec<Row> = all
            .iter()
            .map(|(departure, _)| papers::without_papers(&departure.name, departure.starts()))
            .collect();
        let every: Vec<(bool, Listed<'_>)> = all
            .iter()
            .zip(&unmade)
            .map(|((departure, row), unmade)| {
                let listed = Listed {
                    row: row.as_ref().unwrap_or(unmade),
                    notes: &departure.notes,
                    gone: self.rows.in_hand.is_gone(departure),
                };
                (row.is_some(), listed)
            })
            .collect();
        let listed: Vec<Listed<'_>> = every
            .iter()
            .filter_map(|(made, listed)| made.then_some(*listed))
            .collect();
        let every: Vec<Listed<'_>> = every.into_iter().map(|(_, listed)| listed).collect();
        let bound = self.bind(&listed)?;
        let lists = self.day_lists(&every)?;
        let index = self
            .press
            .season_page(&self.page(&all, &listed, &lists, &bound))?;
        let table = table(&all);
        let mut files = vec![
            ("index.html".to_owned(), index),
            ("season.csv".to_owned(), csv(&table).into_bytes()),
            (
                "season.xlsx".to_owned(),
                xlsx::workbook(&[table, ordered(&listed)])?,
            ),
        ];
        for list in lists {
            files.push((format!("{}.html", list.stem), list.page));
            files.push((format!("{}.pdf", list.stem), list.file));
        }
        let of_before = self.place.lying("season")?.files;
        let gone = of_before
            .iter()
            .filter(|path| path.starts_with(DAY_LIST) && !files.iter().any(|(new, _)| new == *path))
            .filter_map(|path| path.split_once('.'));
        let packet = write::Packet {
            slug: "season".to_owned(),
            about: vec![("title".to_owned(), self.rows.stem.clone())],
            gone: gone.map(|(stem, _)| stem.to_owned()).collect(),
            files,
            sections: bound,
        };
        self.place.put(&[packet], self.force).map(|_| ())
    }

    /// The list of days, to read and to print: one for a short season, one a month for a long one,
    /// which nobody prints whole and which would need the more memory the longer it is.
    fn day_lists(&self, listed: &[Listed<'_>]) -> Outcome<Vec<DayList>> {
        let month = |one: &Listed<'_>| -> Option<String> {
            let day = one.row.day.as_ref()?;
            Some(day.chars().take(7).collect())
        };
        let same =
            |a: &Listed<'_>, b: &Listed<'_>| listed.len() <= MOST_LISTED || month(a) == month(b);
        let parts: Vec<&[Listed<'_>]> = if listed.is_empty() {
            vec![listed]
        } else {
            listed.chunk_by(same).collect()
        };
        let alone = parts.len() == 1;
        let list = |part: &[Listed<'_>]| {
            let month: Option<String> = part.first().and_then(month);
            let when = match (alone, month) {
                (true, _) => String::new(),
                (false, Some(month)) => format!("-{month}"),
                (false, None) => "-no-day-yet".to_owned(),
            };
            let title = format!("{}{}", self.rows.stem, when.replacen('-', " ", 1));
            let (list, page) = self
                .press
                .paper("day-list", &papers::day_list(&title, part))?;
            Ok(DayList {
                stem: format!("{DAY_LIST}{when}"),
                page,
                file: list.bytes,
            })
        };
        parts.into_iter().map(list).collect()
    }

    /// What the shelf does not have for a departure, where canisters were shared out.
    fn short(&self, row: &Row) -> Option<String> {
        let containers = &self.press.library().containers;
        let is_canister = |name: &str| {
            containers
                .values()
                .any(|one| one.kind == ContainerKind::Canister && one.name == name)
        };
        let short: Vec<String> = row
            .containers
            .iter()
            .filter(|(name, _)| is_canister(name))
            .map(|(name, count)| format!("{count} x {name}"))
            .collect();
        let said = self.rows.in_hand.is_given() && !short.is_empty();
        said.then(|| text(&phrase!("red-to-order", containers = short.join(", "))))
    }

    /// What the season's page shows.
    fn page(
        &self,
        all: &[(&Departure, Option<Row>)],
        listed: &[Listed<'_>],
        lists: &[DayList],
        bound: &Shop,
    ) -> SeasonPage {
        let mut heads: Vec<String> = Vec::new();
        for (head, _) in all.iter().flat_map(|(departure, _)| &departure.notes) {
            if !heads.contains(head) {
                heads.push(head.clone());
            }
        }
        let red = all
            .iter()
            .filter(|(_, row)| row.as_ref().is_none_or(|row| !row.red.is_empty()));
        let mut ways = Vec::new();
        for list in lists {
            let when = list.stem.replace(DAY_LIST, "").replacen('-', ", ", 1);
            let stem = &list.stem;
            let said = text(&phrase!("season-way-list"));
            ways.push((format!("{said}{when}"), format!("{stem}.html")));
            let said = text(&phrase!("season-way-list-to-print"));
            ways.push((format!("{said}{when}"), format!("{stem}.pdf")));
        }
        ways.extend([
            (
                text(&phrase!("season-way-workbook")),
                "season.xlsx".to_owned(),
            ),
            (text(&phrase!("season-way-csv")), "season.csv".to_owned()),
        ]);
        for by in [By::Week, By::Day] {
            let files = bound.get(by.folder());
            for stem in files.into_iter().flat_map(|files| files.keys()) {
                let way = format!("../{}/{stem}.pdf", by.folder());
                ways.push((for_the_shop(by, stem), way));
            }
        }
        let mut facts = vec![
            (text(&phrase!("season-departures")), all.len().to_string()),
            (text(&phrase!("season-to-see-to")), red.count().to_string()),
        ];
        if !self.rows.left_out.is_empty() {
            let rows = self.rows.left_out.iter().map(ToString::to_string);
            let rows: Vec<String> = rows.collect();
            facts.push((text(&phrase!("season-rows-left-out")), rows.join(", ")));
        }
        SeasonPage {
            title: text(&phrase!("season-title", season = self.rows.stem)),
            facts,
            ways,
            rows: all
                .iter()
                .map(|(departure, row)| page_row(departure, row.as_ref(), &heads))
                .collect(),
            orders: papers::orders(listed),
            heads: heads
                .iter()
                .cloned()
                .chain([
                    text(&phrase!("season-where")),
                    text(&phrase!("season-back")),
                    text(&phrase!("shop-revision")),
                ])
                .collect(),
            foot: text(&phrase!("season-foot")),
        }
    }
}

/// What is to be seen to where a canister of one trip file would be with two departures at once, by
/// the departure's folder: each is told of one other.
fn in_two_places<'a>(rows: &'a [Ready<'_>]) -> BTreeMap<&'a str, Vec<String>> {
    let mut with: BTreeMap<String, Vec<(Date, Date, &Departure)>> = BTreeMap::new();
    for row in rows {
        if let (Some(from), Some(until)) = (row.starts, row.ends) {
            for tag in &row.tags {
                let here = with.entry(tag.clone()).or_default();
                here.push((from, until, row.departure));
            }
        }
    }
    let mut told: BTreeMap<&str, BTreeMap<String, &str>> = BTreeMap::new();
    for (tag, mut with) in with {
        with.sort_by_key(|(from, _, departure)| (*from, departure.row));
        let mut longest: Option<(Date, &Departure)> = None;
        for (from, until, departure) in with {
            if let Some((last, other)) = longest.filter(|(last, _)| from <= *last) {
                for (one, another) in [(departure, other), (other, departure)] {
                    let here = told.entry(&one.slug).or_default();
                    here.entry(tag.clone()).or_insert(&another.name);
                }
                longest = Some((
                    last.max(until),
                    if until > last { departure } else { other },
                ));
            } else {
                longest = Some((until, departure));
            }
        }
    }
    let say = |(tag, other): (String, &str)| {
        text(&phrase!("red-tag-twice", tag = tag, departure = other))
    };
    told.into_iter()
        .map(|(slug, tags)| (slug, tags.into_iter().map(say).collect()))
        .collect()
}

/// What the link to a file for the print shop says.
fn for_the_shop(by: By, stem: &str) -> String {
    let (stem, part) = match stem.split_once("-part-") {
        Some((stem, part)) => (stem, Some(part)),
        None => (stem, None),
    };
    text(&match (by, part) {
        (By::Day, None) => phrase!("season-way-day", day = stem),
        (By::Day, Some(part)) => phrase!("season-way-day-part", day = stem, part = part),
        (By::Week, None) => phrase!("season-way-week", monday = stem),
        (By::Week, Some(part)) => phrase!("season-way-week-part", monday = stem, part = part),
    })
}

fn page_row(departure: &Departure, row: Option<&Row>, heads: &[String]) -> SeasonRow {
    let note = |head: &String| {
        let found = departure.notes.iter().find(|(one, _)| one == head);
        found.map_or_else(String::new, |(_, note)| note.clone())
    };
    let mut cells: Vec<String> = heads.iter().map(note).collect();
    let Some(row) = row else {
        cells.extend([String::new(), String::new(), String::new()]);
        return SeasonRow {
            day: departure
                .starts()
                .map_or_else(String::new, |day| day.to_string()),
            name: departure.name.clone(),
            cells,
            red: vec![text(&phrase!("red-no-papers-why"))],
            ..SeasonRow::default()
        };
    };
    let back = row.back.clone().unwrap_or_default();
    cells.extend([row.places.clone(), back, row.revision.clone()]);
    SeasonRow {
        day: row.day.clone().unwrap_or_default(),
        name: departure.name.clone(),
        link: format!("../{}/index.html", departure.slug),
        trip: row.title.clone(),
        cells,
        red: row.red.clone(),
    }
}

/// The season's page as a table for a spreadsheet: headings with the width of their columns, and
/// the cells below them.
fn table(all: &[(&Departure, Option<Row>)]) -> Sheet {
    let heads = [
        ("day", 12),
        ("departure", 16),
        ("trip", 32),
        ("where", 32),
        ("take", 32),
        ("see to", 32),
        ("revision", 12),
        ("back", 12),
        ("notes", 32),
    ];
    Sheet {
        name: "Departures".to_owned(),
        heads: heads.map(|(head, width)| (head.to_owned(), width)).to_vec(),
        rows: all
            .iter()
            .map(|(departure, row)| cells(departure, row.as_ref()))
            .collect(),
        red: Some(5),
    }
}

/// What is to have ready, by week and kind, as a table for a spreadsheet.
fn ordered(listed: &[Listed<'_>]) -> Sheet {
    let heads = [("week", 24), ("container", 24), ("count", 10)];
    let orders = papers::orders(listed).into_iter();
    Sheet {
        name: "To have ready".to_owned(),
        heads: heads.map(|(head, width)| (head.to_owned(), width)).to_vec(),
        rows: orders.map(Vec::from).collect(),
        red: None,
    }
}

fn cells(departure: &Departure, row: Option<&Row>) -> Vec<String> {
    let notes: Vec<String> = departure
        .notes
        .iter()
        .map(|(head, note)| format!("{head}: {note}"))
        .collect();
    let none = papers::without_papers(&departure.name, departure.starts());
    let row = row.unwrap_or(&none);
    vec![
        row.day.clone().unwrap_or_default(),
        departure.name.clone(),
        row.title.clone(),
        row.places.clone(),
        papers::take(row),
        row.red.join("; "),
        row.revision.clone(),
        row.back.clone().unwrap_or_default(),
        notes.join("; "),
    ]
}

/// A sheet as text. A cell that a spreadsheet would take for a formula starts with an
/// apostrophe, which makes it text there.
fn csv(sheet: &Sheet) -> String {
    let cell = |text: &str| {
        let text = text.replace(['\r', '\n'], " ");
        let formula = text.starts_with(['=', '+', '-', '@', '\t', '|', '%']);
        let text = if formula { format!("'{text}") } else { text };
        format!("\"{}\"", text.replace('"', "\"\""))
    };
    let heads: Vec<&str> = sheet.heads.iter().map(|(head, _)| head.as_str()).collect();
    let mut text = format!("\u{feff}{}\r\n", heads.join(","));
    for row in &sheet.rows {
        let line: Vec<String> = row.iter().map(|text| cell(text)).collect();
        text.push_str(&line.join(","));
        text.push_str("\r\n");
    }
    text
}
