//! The head of a lesson plan: how long it takes, what must hold before the first flame, what the
//! height does, and when the shorter plan takes over.

use super::common::most_wind;
use super::hours::{hour, in_minutes};
use super::lesson_rotation::free_while_away;
use super::lesson_taught::taught;
use super::{Inputs, fuel};
use crate::compose::catalogue::text;
use crate::course::stated::{left_id, left_of_fallback};
use crate::course::timetable::{Course, Timetable, What};
use crate::nouns::{FuelKind, Module};
use crate::phrase::{Phrase, phrase};
use crate::units::say;
use schemars::JsonSchema;
use serde::Serialize;

/// What is left to do when the lesson moves in.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Move {
    /// `from 9:40`.
    pub at: String,
    /// What is left of the fallback.
    pub left: String,
    /// Its minutes.
    pub minutes: String,
}

/// The module of cooking where it is cold and high.
const HEIGHT: &str = "cold-and-altitude";

/// The module of cold and height, where it holds and something is lit.
pub(super) fn high<'a>(inputs: &Inputs<'a>, course: &Course<'_>) -> Option<&'a Module> {
    let lit = course.sessions.iter().any(|table| table.lit > 0);
    inputs.module(HEIGHT).filter(|_| lit)
}

/// The same where the plan does not teach it.
pub(super) fn high_untaught<'a>(inputs: &Inputs<'a>, course: &Course<'_>) -> Option<&'a Module> {
    let (asked, beside) = taught(course);
    let teaches = |id: &str| asked.iter().chain(&beside).any(|one| one.id == id);
    high(inputs, course).filter(|module| !teaches(&module.id))
}

/// At which height, and where water boils there.
pub(super) fn height(inputs: &Inputs<'_>) -> String {
    let Some(camp) = inputs.plan.camps.first() else {
        return String::new();
    };
    let height = say::elevation(camp.elevation, inputs.units);
    let boils = say::temperature(camp.boiling, inputs.units);
    text(&phrase!(
        "lesson-height",
        height = inputs.of_camp(0, "elevation", height),
        boils = inputs.of_camp(0, "boils", boils)
    ))
}

/// What must hold before the first flame; where nothing is lit, before the lesson.
pub(super) fn go(inputs: &Inputs<'_>, course: &Course<'_>) -> String {
    if course.sessions.iter().all(|table| table.lit == 0) {
        return text(&phrase!("lesson-go-cold"));
    }
    let rows = course.sessions.iter().flat_map(|table| &table.rows);
    let adults = match free_while_away(rows) {
        Some(_) => phrase!("lesson-go-one-free"),
        None => phrase!("lesson-go-adults"),
    };
    let wind = inputs.say("figure.most-wind", most_wind(inputs.units));
    text(&phrase!("lesson-go", wind = wind, adults = adults))
}

/// `150 min from 18:00`, or how many sessions.
pub(super) fn lengths(inputs: &Inputs<'_>, sessions: &[Timetable<'_>]) -> String {
    let minutes: u32 = sessions.iter().map(|table| table.length).sum();
    let minutes = inputs.say("course.minutes", in_minutes(minutes));
    text(&match sessions {
        [one] => phrase!("lesson-length", minutes = minutes, hour = hour(one.starts)),
        many => phrase!("lesson-sessions", sessions = many.len(), minutes = minutes),
    })
}

/// What is left of the fallback, by when the lesson moves in: what was done outdoors is not done
/// again.
pub(super) fn moves(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<Move> {
    let (Some(_), [first]) = (&course.fallback, &course.sessions[..]) else {
        return Vec::new();
    };
    let mut rows: Vec<Move> = Vec::new();
    for entry in &first.entries {
        let left = left_of_fallback(course, entry.ends());
        let titles: Vec<&str> = left
            .iter()
            .filter_map(|other| match other.what {
                What::Segment(_, segment) => Some(segment.title.as_str()),
                _ => None,
            })
            .collect();
        let minutes: u32 = left.iter().map(|other| other.minutes).sum();
        let row = Move {
            at: hour(entry.ends()),
            left: if titles.is_empty() {
                text(&match fuel::works(inputs) {
                    true => phrase!("lesson-nothing-new"),
                    false => phrase!("lesson-nothing-new-cards"),
                })
            } else {
                titles.join(", ")
            },
            minutes: inputs.say(&left_id(entry.ends()), format!("{minutes} min")),
        };
        match rows.last_mut() {
            Some(known) if known.left == row.left => {}
            _ => rows.push(row),
        }
    }
    rows
}

/// When the shorter plan starts, and when at the latest.
pub(super) fn fallback_start(course: &Course<'_>) -> String {
    let (Some(fallback), Some(first)) = (&course.fallback, course.sessions.first()) else {
        return String::new();
    };
    let takes = fallback.ends - fallback.starts;
    let (from, to) = (hour(fallback.starts), hour(fallback.ends));
    let end = first.starts + first.length;
    let lit = first.entries.iter().find(|entry| entry.flame);
    // Whoever stops at the flame is too late for the whole of it; what is left of it stands below.
    let too_late = lit.is_some_and(|entry| end < takes + entry.starts);
    if course.sessions.len() > 1 || takes >= first.length || too_late {
        return text(&phrase!("lesson-fallback-runs", from = from, to = to));
    }
    text(&phrase!(
        "lesson-fallback-latest",
        from = from,
        to = to,
        latest = hour(end - takes),
        end = hour(end)
    ))
}

/// How many adults stand beside a lit stove, and how many stoves are lit at once.
pub(super) fn adults(inputs: &Inputs<'_>, course: &Course<'_>) -> String {
    let per_stove = inputs.trip.people.adults_per_lit_stove;
    let lit = course.sessions.iter().map(|table| table.lit).max();
    let most = match lit.unwrap_or(0) {
        0 => return text(&phrase!("lesson-nothing-lit")),
        lit => phrase!("lesson-most-lit", lit = lit),
    };
    if per_stove > 0.0 {
        let adults = libm::ceil(per_stove);
        text(&phrase!("lesson-adults", adults = adults, most = most))
    } else {
        text(&most)
    }
}

/// What holds of these flames and adults only: burners that must be cold before they are lit again,
/// and who acts where one adult is alone.
pub(super) fn flame_rules(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<Phrase> {
    let cools = course.practice_fuel.iter().any(|one| {
        let kitchen = inputs.trip.kitchens.get(one.station);
        kitchen.is_some_and(|kitchen| kitchen.fuel.kind != FuelKind::Canister)
    });
    let mut rules = Vec::new();
    if cools {
        rules.push(phrase!("papers-cold-again"));
    }
    if inputs.trip.people.instructors == 1 {
        rules.push(phrase!("papers-lone-adult"));
    }
    rules
}
