//! Who is where on a lesson's clock, row by row: at which flame, at which bench, with an adult or
//! from a card.

use super::hours::hour;
use super::{Inputs, lesson_menu};
use crate::compose::catalogue::text;
use crate::compose::words;
use crate::course::timetable::{Does, Place, Row, Spot, Timetable, What};
use crate::phrase::phrase;
use schemars::JsonSchema;
use serde::Serialize;

/// Who is where for some minutes.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct RoundRow {
    /// Start.
    pub starts: String,
    /// The segment.
    pub title: String,
    /// The lit stations and who is there; a dash where nothing is lit.
    pub lit: String,
    /// What the others do and where.
    pub others: String,
    /// Adults without a stove.
    pub free: String,
}

/// Who is where in the rows in which not all do the same.
pub(super) fn rotation(inputs: &Inputs<'_>, table: &Timetable<'_>) -> Vec<RoundRow> {
    let mut found = Vec::new();
    for (at, row) in table.rows.iter().enumerate() {
        let lit = row.places.iter().any(|place| place.lit);
        let all_its_part = row.places.iter().all(|place| place.does == Does::Entry);
        if row.places.len() < 2 && !lit && all_its_part {
            continue;
        }
        let entry = table.entries.get(row.entry);
        let rests = !lit && entry.is_some_and(|entry| entry.flame);
        let title = match entry.map(|entry| &entry.what) {
            _ if rests => text(&phrase!("clock-burners-rest")),
            Some(What::Segment(_, segment)) => segment.title.clone(),
            Some(What::Carousel(_)) => words::capital(&text(&phrase!("clock-side-by-side"))),
            Some(What::Check(Some((_, segment)))) => {
                text(&phrase!("clock-check-of", title = segment.title))
            }
            Some(What::Check(None)) => text(&phrase!("clock-check")),
            Some(What::AllOff) => text(&phrase!("clock-all-off-call")),
            _ => String::new(),
        };
        let lit: Vec<String> = row
            .places
            .iter()
            .filter(|place| place.lit)
            .map(|place| {
                let menu = match place.at {
                    Spot::Station(station) | Spot::Spare(station) => {
                        lesson_menu::beside(inputs, table, at, station)
                    }
                    Spot::Bench(_) | Spot::Line => String::new(),
                };
                format!(
                    "{}: {}{menu}",
                    spot(inputs, place.at),
                    table.label(&place.learners)
                )
            })
            .collect();
        let others: Vec<String> = row
            .places
            .iter()
            .filter(|place| !place.lit)
            .map(|place| other(inputs, table, row, place))
            .collect();
        found.push(RoundRow {
            starts: hour(row.starts),
            title,
            lit: if lit.is_empty() {
                "-".to_owned()
            } else {
                lit.join("; ")
            },
            others: others.join("; "),
            free: row.free_adults.to_string(),
        });
    }
    found
}

fn other(inputs: &Inputs<'_>, table: &Timetable<'_>, row: &Row<'_>, place: &Place<'_>) -> String {
    let who = table.label(&place.learners);
    let all_off = table
        .entries
        .get(row.entry)
        .is_some_and(|one| one.what == What::AllOff);
    let does = match &place.does {
        Does::Entry if all_off => text(&phrase!("clock-does-listen")),
        Does::Entry => text(&phrase!("clock-does-part")),
        Does::Beside(_, segment) => segment.title.clone(),
        Does::Rehearse => text(&phrase!("clock-does-rehearse")),
        Does::Worksheet => text(&phrase!("clock-does-worksheet")),
        Does::Cards if place.learners.len() == 1 => text(&phrase!("clock-does-cards-alone")),
        Does::Cards => text(&phrase!("clock-does-cards")),
        Does::Form => text(&phrase!("clock-does-form")),
        Does::Wait => text(&phrase!("clock-behind-line")),
    };
    // Where an adult is with each, the row says so.
    let lit = row.places.iter().any(|other| other.lit);
    let some = lit || row.places.iter().any(|other| !other.led);
    let does = match place.led && some && !all_off {
        true => text(&phrase!("clock-adult-here", does = does)),
        false => does,
    };
    match place.at {
        Spot::Line => format!("{who}: {does}"),
        at => format!("{}, {who}: {does}", spot(inputs, at)),
    }
}

/// Fewest adults without a stove while someone is away from the flame; none where nobody is.
pub(super) fn free_while_away<'r>(rows: impl IntoIterator<Item = &'r Row<'r>>) -> Option<u32> {
    rows.into_iter()
        .filter(|row| {
            let lit = row.places.iter().filter(|place| place.lit).count();
            lit > 0 && lit < row.places.len()
        })
        .map(|row| row.free_adults)
        .min()
}

/// Stations by name, as a list.
pub(super) fn names(inputs: &Inputs<'_>, stations: &[usize]) -> String {
    let names: Vec<String> = stations
        .iter()
        .filter_map(|index| inputs.trip.kitchens.get(*index))
        .map(|kitchen| kitchen.name.clone())
        .collect();
    words::list(&names)
}

/// A place by name.
#[must_use]
pub fn spot(inputs: &Inputs<'_>, at: Spot) -> String {
    match at {
        Spot::Station(station) => names(inputs, &[station]),
        Spot::Spare(station) => {
            let station = names(inputs, &[station]);
            text(&phrase!("clock-second-burner", station = station))
        }
        Spot::Bench(number) => text(&phrase!("clock-bench", number = number)),
        Spot::Line => text(&phrase!("clock-behind-line")),
    }
}
