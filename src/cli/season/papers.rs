//! The papers of a season as a whole, put together from the packets that lie there.

use super::{DAYS, Ready, Run};
use crate::compose;
use crate::compose::season::{self as papers, Listed, Row};
use crate::diag::Outcome;
use crate::load;
use crate::nouns::ContainerKind;
use crate::render::html::{SeasonPage, SeasonRow};
use crate::render::pdf::{self, Part};
use crate::render::xlsx::{self, Sheet};
use crate::season::{self, Departure};
use crate::write;
use serde_json::Value;
use std::collections::BTreeMap;

impl Run<'_> {
    /// Puts the papers of the season together from the packets that lie there.
    pub(super) fn join(&self, rows: &[Ready<'_>]) -> Outcome<()> {
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
                    if current.get(departure.slug.as_str()) != Some(&kept.made_from.as_str()) {
                        row.red
                            .insert(0, "papers are older than the table".to_owned());
                    }
                    row.red.extend(self.short(&row));
                    row
                });
                (departure, row)
            })
            .collect();
        let day = |row: &Option<Row>| row.as_ref().and_then(|row| row.day.clone());
        all.sort_by_key(|(departure, row)| (day(row).is_none(), day(row), departure.row));
        let listed: Vec<Listed<'_>> = all
            .iter()
            .filter_map(|(departure, row)| {
                row.as_ref().map(|row| Listed {
                    row,
                    notes: &departure.notes,
                })
            })
            .collect();
        let days = self.bind_days(&listed)?;
        let (list, page) = self
            .press
            .paper("day-list", &papers::day_list(&self.rows.stem, &listed))?;
        let index = self
            .press
            .season_page(&self.page(&all, &listed, days.keys()))?;
        let table = table(&all);
        let packet = write::Packet {
            slug: "season".to_owned(),
            about: vec![("title".to_owned(), self.rows.stem.clone())],
            files: vec![
                ("index.html".to_owned(), index),
                ("day-list.html".to_owned(), page),
                ("day-list.pdf".to_owned(), list.bytes),
                ("season.csv".to_owned(), csv(&table).into_bytes()),
                (
                    "season.xlsx".to_owned(),
                    xlsx::workbook(&[table, ordered(&listed)])?,
                ),
            ],
            sections: BTreeMap::from([(DAYS.to_owned(), days)]),
            ..write::Packet::default()
        };
        self.place.put(&[packet], self.force).map(|_| ())
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
        said.then(|| format!("not on the shelf, to order: {}", short.join(", ")))
    }

    /// One file a day for the print shop: a cover, and each departure's packet behind a leaf
    /// with its name. A day whose file was made from the same is left as it is. Gives back the
    /// days, each with the mark of what its file was made from.
    fn bind_days(&self, listed: &[Listed<'_>]) -> Outcome<BTreeMap<String, Value>> {
        let before = self
            .place
            .sections("season")?
            .remove(DAYS)
            .unwrap_or_default();
        let mut days = BTreeMap::new();
        for (day, here) in papers::by_day(listed) {
            let path = self
                .out
                .join("days")
                .join(format!("{}.pdf", compose::slug(&day)));
            let said: Vec<String> = here
                .iter()
                .map(|one| format!("{:?} {:?}", one.row, one.notes))
                .collect();
            let mark = Value::from(self.press.mark(&said.join("\n")));
            let same = before.get(&day) == Some(&mark) && path.exists();
            days.insert(day.clone(), mark);
            if same {
                continue;
            }
            let (cover, _) = self.press.paper("cover", &papers::cover(&day, &here))?;
            let mut files = vec![(format!("Packets of {day}"), cover.bytes)];
            for one in &here {
                let (leaf, _) = self.press.paper("leaf", &papers::separator(one))?;
                let packet = self
                    .out
                    .join(season::slug(&one.row.name))
                    .join("packet.pdf");
                files.push((one.row.name.clone(), leaf.bytes));
                files.push((one.row.title.clone(), load::bytes(&packet)?));
            }
            let parts: Vec<Part<'_>> = files
                .iter()
                .map(|(title, bytes)| Part {
                    title: title.clone(),
                    bytes,
                    empty_backs: Vec::new(),
                })
                .collect();
            let bound = pdf::bind(&format!("{}: {day}", self.rows.stem), &parts)?;
            write::single(&path, &bound.bytes, true)?;
        }
        Ok(days)
    }

    /// What the season's page shows.
    fn page<'a>(
        &self,
        all: &[(&Departure, Option<Row>)],
        listed: &[Listed<'_>],
        days: impl Iterator<Item = &'a String>,
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
        let mut ways = vec![
            (
                "Day list, and what to have ready".to_owned(),
                "day-list.html".to_owned(),
            ),
            ("Day list, to print".to_owned(), "day-list.pdf".to_owned()),
            (
                "This table as a workbook".to_owned(),
                "season.xlsx".to_owned(),
            ),
            (
                "This table as CSV, for any spreadsheet".to_owned(),
                "season.csv".to_owned(),
            ),
        ];
        ways.extend(days.map(|day| {
            let file = format!("../days/{}.pdf", compose::slug(day));
            (format!("All packets of {day} in one file"), file)
        }));
        SeasonPage {
            title: format!("Season: {}", self.rows.stem),
            facts: vec![
                ("Departures".to_owned(), all.len().to_string()),
                ("To see to".to_owned(), red.count().to_string()),
            ],
            ways,
            rows: all
                .iter()
                .map(|(departure, row)| page_row(departure, row.as_ref(), &heads))
                .collect(),
            orders: papers::orders(listed),
            heads: heads
                .iter()
                .cloned()
                .chain(["Where".to_owned(), "Revision".to_owned()])
                .collect(),
            foot: "Made from the table and from the packets that lie beside this folder."
                .to_owned(),
        }
    }
}

fn page_row(departure: &Departure, row: Option<&Row>, heads: &[String]) -> SeasonRow {
    let note = |head: &String| {
        let found = departure.notes.iter().find(|(one, _)| one == head);
        found.map_or_else(String::new, |(_, note)| note.clone())
    };
    let mut cells: Vec<String> = heads.iter().map(note).collect();
    let Some(row) = row else {
        cells.extend([String::new(), String::new()]);
        return SeasonRow {
            name: departure.name.clone(),
            cells,
            red: vec!["no papers: its row has a problem, or it is not made yet".to_owned()],
            ..SeasonRow::default()
        };
    };
    cells.extend([row.places.clone(), row.revision.clone()]);
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
    let none = Row {
        red: vec!["no papers".to_owned()],
        ..Row::default()
    };
    let row = row.unwrap_or(&none);
    vec![
        row.day.clone().unwrap_or_default(),
        departure.name.clone(),
        row.title.clone(),
        row.places.clone(),
        papers::take(row),
        row.red.join("; "),
        row.revision.clone(),
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
