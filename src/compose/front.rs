//! What stands on the front page of a packet: when, who, fuel, whom to call.

use super::catalogue::text;
use super::view::containers::Handed;
use super::words;
use crate::nouns::{Kind, Trip};
use crate::phrase::phrase;
use crate::plan::{self, Plan};
use crate::units::Units;

/// The facts that someone who opens the packet looks for first, each with its name.
#[must_use]
pub fn facts(trip: &Trip, plan: &Plan, units: Units) -> Vec<(String, String)> {
    let mut facts = vec![
        (text(&phrase!("front-when")), when(trip)),
        (who_is_named(), who(trip)),
    ];
    for (kitchen, planned) in trip.kitchens.iter().zip(&plan.kitchens) {
        for (place, fuel) in Handed::plain(plan, planned, units).in_words() {
            let (kitchen, of) = (&kitchen.name, &kitchen.fuel.name);
            let name = if place.is_empty() {
                phrase!("front-fuel", kitchen = kitchen, fuel = of)
            } else {
                phrase!("front-fuel-at", kitchen = kitchen, fuel = of, place = place)
            };
            facts.push((text(&name), fuel));
        }
    }
    let unknown = || text(&phrase!("front-unknown"));
    facts.push((
        text(&phrase!("front-fire-rule")),
        fire_rule(trip).unwrap_or_else(unknown),
    ));
    facts.push((
        text(&phrase!("front-emergency")),
        trip.emergency.call.as_ref().map_or_else(unknown, |number| {
            text(&phrase!("front-call", number = number))
        }),
    ));
    if let Some(help) = &trip.emergency.nearest_help {
        facts.push((text(&phrase!("front-nearest-help")), help.clone()));
    }
    facts
}

/// The name of the fact that says who goes.
pub(super) fn who_is_named() -> String {
    text(&phrase!("front-who"))
}

/// The fire rule as known: the manager's words, which stoves may be lit, and where or when not.
fn fire_rule(trip: &Trip) -> Option<String> {
    let known = &trip.restrictions;
    if known.stoves.is_none() {
        return known
            .stage
            .as_ref()
            .map(|stage| text(&phrase!("fire-stage-only", stage = stage)));
    }
    let mut said = vec![allowed(trip)];
    said.extend(plan::fire_rule_lacks(trip).iter().map(|(_, one)| text(one)));
    Some(said.join("; "))
}

/// The manager's words and which stoves may be lit.
pub(super) fn allowed(trip: &Trip) -> String {
    let known = &trip.restrictions;
    let stoves = known.stoves.map(words::stove_rule);
    let said: Vec<String> = known.stage.clone().into_iter().chain(stoves).collect();
    said.join("; ")
}

fn when(trip: &Trip) -> String {
    let nights: u32 = trip.camps.iter().map(|camp| camp.nights).sum();
    let starts = trip
        .starts
        .map_or_else(|| text(&phrase!("front-no-day")), |date| date.to_string());
    match trip.kind {
        Kind::Lesson => starts,
        Kind::Trip => text(&phrase!("front-nights", starts = starts, nights = nights)),
    }
}

fn who(trip: &Trip) -> String {
    let people = &trip.people;
    let who = phrase!(
        "front-people",
        learners = people.learners,
        instructors = people.instructors
    );
    if people.diet.is_empty() {
        text(&who)
    } else {
        let diet = people.diet.join("; ");
        text(&phrase!("front-people-diet", people = who, diet = diet))
    }
}
