//! What stands on the front page of a packet: when, who, fuel, whom to call.

use super::view::containers::Handed;
use super::words;
use crate::nouns::{Kind, Trip};
use crate::plan::Plan;
use crate::units::Units;

/// The facts that someone who opens the packet looks for first, each with its name.
#[must_use]
pub fn facts(trip: &Trip, plan: &Plan, units: Units) -> Vec<(String, String)> {
    let mut facts = vec![
        ("When".to_owned(), when(trip)),
        ("Who".to_owned(), who(trip)),
    ];
    for (kitchen, planned) in trip.kitchens.iter().zip(&plan.kitchens) {
        for (place, fuel) in Handed::plain(plan, planned, units).in_words() {
            let at = if place.is_empty() { "" } else { ", " };
            facts.push((
                format!("Fuel, {} ({}){at}{place}", kitchen.name, kitchen.fuel.name),
                fuel,
            ));
        }
    }
    let unknown = || "not stated: ask before leaving".to_owned();
    facts.push((
        "Fire rule".to_owned(),
        fire_rule(trip).unwrap_or_else(unknown),
    ));
    facts.push((
        "Emergency".to_owned(),
        trip.emergency
            .call
            .as_ref()
            .map_or_else(unknown, |number| format!("call {number}")),
    ));
    if let Some(help) = &trip.emergency.nearest_help {
        facts.push(("Nearest help".to_owned(), help.clone()));
    }
    facts
}

/// The fire rule as known: the manager's words, and which stoves may be lit.
fn fire_rule(trip: &Trip) -> Option<String> {
    let known = &trip.restrictions;
    let stoves = known.stoves.map(words::stove_rule);
    let said: Vec<String> = known.stage.clone().into_iter().chain(stoves).collect();
    (!said.is_empty()).then(|| said.join("; "))
}

fn when(trip: &Trip) -> String {
    let nights: u32 = trip.camps.iter().map(|camp| camp.nights).sum();
    let starts = trip
        .starts
        .map_or_else(|| "day not stated".to_owned(), |date| date.to_string());
    match trip.kind {
        Kind::Lesson => starts,
        Kind::Trip => format!("{starts}, {}", words::count(nights, "night", "nights")),
    }
}

fn who(trip: &Trip) -> String {
    let people = &trip.people;
    let mut who = format!(
        "{} and {}",
        words::count(people.learners, "learner", "learners"),
        words::count(people.instructors, "instructor", "instructors")
    );
    if !people.diet.is_empty() {
        who.push_str("; diet: ");
        who.push_str(&people.diet.join("; "));
    }
    who
}
