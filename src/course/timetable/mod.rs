//! The timetable of a course: what is taught, in which order, at which minute and at which
//! station.
//!
//! 1. [`pieces`] gathers the segments that hold here, with their rounds and what they need;
//! 2. [`choose`] takes what safety requires and the worthiest of the rest;
//! 3. [`lay`] puts them on the clock, with breaks, the 'all off' call and cooling;
//! 4. [`kit`] and [`cover`] sum what is brought and what is covered.

pub mod choose;
mod cover;
mod kit;
mod lay;
mod pieces;
mod rotation;
mod session;
mod types;

use crate::diag::{Outcome, Problem};
use crate::nouns::{Library, Module, Trip};
use crate::plan::{self, Plan};
use session::{Ask, Fill};

pub use types::{
    Course, Covered, Covering, Entry, Group, LeftOut, Place, Rotation, Round, SafetyKit,
    StationFuel, Timetable, What, Why,
};

/// The course of a trip or lesson: one timetable a session, the shorter one for bad weather, and
/// what is covered and brought. `modules` are those that apply, in order.
///
/// # Errors
/// More stations than stoves, no adult for a lit stove, and required segments that the minutes
/// do not hold, when the file asked for a course.
pub fn timetable<'a>(
    trip: &'a Trip,
    library: &Library,
    plan: &Plan,
    modules: &[&'a Module],
) -> Outcome<Course<'a>> {
    let request = &trip.course;
    let ground = pieces::Ground::new(trip);
    let all = pieces::gather(trip, &ground, modules);
    let mut problems = asked_wrongly(trip, &ground, &all);
    let sessions: Vec<Ask> = request
        .sessions
        .iter()
        .map(|session| Ask {
            name: session.name.clone(),
            minutes: lay::whole(session.length),
            starts: session.starts,
        })
        .collect();
    let fill = Fill {
        trip,
        ground: &ground,
        all: &all,
        indoors: request.indoors,
        key: "course.minutes",
    };
    let filled = if request.stated {
        fill.sessions(&sessions)
    } else {
        fill.as_long_as_needed(&sessions)
    };
    let shorter = request.fallback.as_ref().map(|fallback| {
        let ask = Ask {
            name: "Fallback".to_owned(),
            minutes: lay::whole(fallback.length),
            starts: sessions.first().map_or(540, |first| first.starts),
        };
        Fill {
            indoors: fallback.indoors,
            key: "course.fallback.minutes",
            ..fill
        }
        .sessions(&[ask])
    });
    let (mut sessions, mut fallback) = (Vec::new(), None);
    match filled {
        Ok(tables) => sessions = tables,
        Err(short) => problems.push(*short.problem),
    }
    match shorter.transpose() {
        Ok(tables) => fallback = tables.and_then(|tables| tables.into_iter().next()),
        Err(short) => problems.push(*short.problem),
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(Course {
        subjects: pieces::subjects(trip, modules),
        not_here: request
            .focus
            .iter()
            .filter(|id| !modules.iter().any(|module| module.id == **id))
            .cloned()
            .collect(),
        coverage: cover::coverage(trip, &all, &sessions),
        kit: kit::sums(&ground, &all, &sessions),
        safety: kit::safety(&ground, &sessions),
        practice_fuel: kit::fuel(trip, library, plan, &sessions),
        part_used: kit::part_used(trip, library),
        sessions,
        fallback,
    })
}

/// The modules that apply to a trip, in the order of the library.
#[must_use]
pub fn applying<'a>(trip: &Trip, library: &'a Library) -> Vec<&'a Module> {
    let mut modules: Vec<&Module> = library
        .modules
        .values()
        .filter(|module| plan::applies(&module.applies, trip))
        .collect();
    modules.sort_by_key(|module| (module.order, &module.id));
    modules
}

/// What the file asks for that people and stoves cannot give.
fn asked_wrongly(trip: &Trip, ground: &pieces::Ground, all: &[pieces::Piece<'_>]) -> Vec<Problem> {
    let request = &trip.course;
    let mut problems = Vec::new();
    if !request.stated {
        return problems;
    }
    if request.stations as usize > trip.kitchens.len() {
        problems.push(
            Problem::error(
                "course.stations",
                format!(
                    "{} lit stations are asked for, and there are stoves for {}",
                    request.stations,
                    trip.kitchens.len()
                ),
                format!(
                    "write `stations: {}` or fewer, or add kitchens with their stoves",
                    trip.kitchens.len()
                ),
            )
            .at(trip.file.clone(), "course.stations"),
        );
    }
    let asked_flame = all
        .iter()
        .any(|piece| piece.segment.flame && piece.rank.is_some());
    if !request.indoors && ground.lit == 0 && asked_flame {
        problems.push(
            Problem::error(
                "course.adults",
                format!(
                    "no stove can be lit: {} for {} beside each lit stove",
                    match trip.people.instructors {
                        0 => "there is no instructor".to_owned(),
                        1 => "there is 1 instructor".to_owned(),
                        many => format!("there are {many} instructors"),
                    },
                    crate::units::say::significant(trip.people.adults_per_lit_stove, 2),
                ),
                "add `instructors` under `people`, or write `place: indoors` under `course` for a \
                 lesson with nothing lit",
            )
            .at(trip.file.clone(), "people.instructors"),
        );
    }
    problems
}
