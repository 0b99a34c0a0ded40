//! What a lesson asks a store room for: each thing once, and how many.

use super::Inputs;
use crate::compose::catalogue::text;
use crate::course::timetable::{Course, Does, Place, Spot, What};
use crate::nouns::Screen;
use crate::phrase::{Phrase, phrase};
use crate::units::say;
use schemars::JsonSchema;
use serde::Serialize;

/// A thing to bring.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Brought {
    /// What.
    pub item: String,
    /// How many.
    pub count: String,
    /// For which stations.
    pub stations: String,
}

/// What the lesson brings, the fallback's things too, each once.
#[must_use]
pub fn kit(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<Brought> {
    let mut all: Vec<Brought> = course
        .kit
        .iter()
        .map(|one| Brought {
            item: inputs.kit_item(one),
            count: one.count.to_string(),
            stations: one.stations.join(", "),
        })
        .collect();
    let safety = &course.safety;
    for (item, count) in [
        (phrase!("papers-bucket"), safety.live),
        (phrase!("papers-burn-kit"), safety.burn_kits),
        (phrase!("papers-hot-place"), safety.cold_down),
        (phrase!("papers-hair-tie"), safety.hair_ties),
        (phrase!("papers-lighter"), safety.lighters),
    ] {
        add(&mut all, &item, count, String::new());
    }
    if safety.live > 0 {
        all.push(Brought {
            item: text(&phrase!("papers-water")),
            count: inputs.say("course.water", say::volume(safety.water, inputs.units)),
            stations: String::new(),
        });
    }
    let lit = lit(course);
    if !lit.is_empty() && inputs.cooks() {
        let eat = inputs.trip.people.all();
        add(&mut all, &phrase!("papers-food"), eat, String::new());
    }
    let screened = inputs.kitchens().into_iter().filter(|one| {
        lit.contains(&one.index) && matches!(one.kitchen.screen, Screen::Partial | Screen::Full)
    });
    let screened: Vec<&str> = screened.map(|one| one.kitchen.name.as_str()).collect();
    let count = u32::try_from(screened.len()).unwrap_or(0);
    add(
        &mut all,
        &phrase!("papers-screen"),
        count,
        screened.join(", "),
    );
    let learners = course.sessions.iter().map(|table| table.learners()).max();
    let learners = learners.unwrap_or(0);
    let entries = || course.sessions.iter().flat_map(|table| &table.entries);
    let rows = course.sessions.iter().flat_map(|table| &table.rows);
    let places: Vec<&Place<'_>> = rows.flat_map(|row| &row.places).collect();
    let works = entries().any(|entry| entry.what == What::Worksheet)
        || places.iter().any(|place| place.does == Does::Worksheet);
    let fills = entries().any(|entry| entry.what == What::Form)
        || places.iter().any(|place| place.does == Does::Form);
    if works || fills {
        add(&mut all, &phrase!("papers-board"), learners, String::new());
    }
    if works {
        // neighbours share one
        let count = learners.div_ceil(2);
        add(
            &mut all,
            &phrase!("papers-calculator"),
            count,
            String::new(),
        );
    }
    all
}

fn add(all: &mut Vec<Brought>, item: &Phrase, count: u32, stations: String) {
    let item = text(item);
    if count > 0 && !all.iter().any(|one| one.item == item) {
        all.push(Brought {
            item,
            count: count.to_string(),
            stations,
        });
    }
}

/// The stations at which something burns in some row.
#[must_use]
pub fn lit(course: &Course<'_>) -> Vec<usize> {
    let rows = course.sessions.iter().flat_map(|table| &table.rows);
    let mut found: Vec<usize> = rows
        .flat_map(|row| &row.places)
        .filter(|place| place.lit)
        .filter_map(|place| match place.at {
            Spot::Station(station) | Spot::Spare(station) => Some(station),
            _ => None,
        })
        .collect();
    found.sort_unstable();
    found.dedup();
    found
}
