//! `leeside list places`: whose rules each holds, from which day, and what of them is stale.

use crate::check::{self, Due};
use crate::nouns::{Date, Library, Place, Trip};
use crate::units::Units;
use std::collections::BTreeMap;

/// A row for each place, for a trip only those of its camps; with a day, what is stale on it stands
/// in a column and is listed below.
pub(super) fn rows(library: &Library, trip: Option<&Trip>, on: Option<Date>) -> Vec<Vec<String>> {
    let due = on.map(|on| due(library, on));
    let mut heads = vec!["place", "country", "language", "units", "rules", "read"];
    heads.extend(due.is_some().then_some("stale"));
    heads.push(if trip.is_some() { "camps" } else { "about" });
    let mut rows = vec![heads.into_iter().map(str::to_owned).collect::<Vec<_>>()];
    let mut listed = Vec::new();
    for place in library.places.values() {
        let Some(last) = last(place, trip) else {
            continue;
        };
        let mut row = vec![
            place.id.clone(),
            place.country.clone().unwrap_or_default(),
            place.languages.join(" "),
            place.units.map_or("", units).to_owned(),
            place.rules.len().to_string(),
            read(place),
        ];
        if let Some(due) = &due {
            let stale = due.get(&place.id).map_or(&[][..], Vec::as_slice);
            row.push(match stale.len() {
                0 => "no".to_owned(),
                count => count.to_string(),
            });
            listed.extend(stale.iter().cloned());
        }
        row.push(last);
        rows.push(row);
    }
    if !listed.is_empty() {
        rows.push(Vec::new());
        listed.sort();
        rows.extend(listed.into_iter().map(|one| {
            let since = one.by.map_or_else(String::new, |by| by.to_string());
            vec![format!(
                "{since}  {}: {}  {}",
                one.id,
                one.why,
                one.at.join(" ")
            )]
        }));
    }
    rows
}

/// What is stale on a day, by place.
fn due(library: &Library, on: Date) -> BTreeMap<String, Vec<Due>> {
    let mut all: BTreeMap<String, Vec<Due>> = BTreeMap::new();
    let of_places = check::stale(library, on).into_iter();
    for one in of_places.filter(|one| one.what == "place") {
        let place = one.id.split(' ').next().unwrap_or_default().to_owned();
        all.entry(place).or_default().push(one);
    }
    all
}

/// The last column: its title, or the camps in it; none if the trip has no camp there.
fn last(place: &Place, trip: Option<&Trip>) -> Option<String> {
    let Some(trip) = trip else {
        return Some(place.title.clone());
    };
    let camps: Vec<&str> = trip
        .camps
        .iter()
        .filter(|camp| camp.place == place.id)
        .map(|camp| camp.name.as_str())
        .collect();
    (!camps.is_empty()).then(|| camps.join(", "))
}

/// The first and the last day on which its rules were read.
fn read(place: &Place) -> String {
    let days = || place.rules.values().filter_map(|rule| rule.as_of);
    match (days().min(), days().max()) {
        (Some(first), Some(last)) if first == last => first.to_string(),
        (Some(first), Some(last)) => format!("{first} to {last}"),
        _ => "no".to_owned(),
    }
}

fn units(units: Units) -> &'static str {
    match units {
        Units::Us => "us",
        Units::Metric => "metric",
        Units::Both => "both",
    }
}
