//! The timetable of a course: what is taught, in which order, at which minute and at which
//! station.
//!
//! 1. [`pieces`] gathers the segments that hold here, with their rounds and what they need;
//! 2. [`session`] fills the sessions: [`must`] says what safety and the file require, [`pick`] takes
//!    the worthiest of the rest by [`choose`];
//! 3. [`lay`] puts them on the clock, with breaks, the 'all off' call and cooling;
//! 4. [`kit`] and [`cover`] sum what is brought and what is covered.

mod ask;
mod beside;
mod carousel;
pub mod choose;
mod cover;
mod drops;
mod ground;
mod kit;
mod lay;
mod line;
mod menu;
mod must;
mod pick;
mod piece;
mod pieces;
mod promise;
mod rotation;
mod session;
mod types;

use crate::diag::{Outcome, Problem, told};
use crate::nouns::{Date, Id, Kind, Library, Module, SessionKind, Trip};
use crate::physics::sun;
use crate::plan::{self, Plan};
use ask::{Ask, Fill, Short};
use ground::Ground;
use pieces::Aim;
use std::collections::BTreeSet;
use types::whole;

pub use ask::MOST_WAITING;
pub use kit::{OWN_STOVE, thing};
pub use types::{
    Beside, CarouselStop, Course, Covered, Covering, Does, Entry, Group, KitItem, LeftOut, Made,
    MenuBoil, NotMade, Place, Row, SafetyKit, Spot, StationFuel, Timetable, What, Why,
};

/// Hours by the clock between which the sun is highest: a clock may run half an hour before the sun
/// and an hour and three quarters behind it, with its zone and summer time. Common practice, no
/// source.
const NOON: (f64, f64) = (11.5, 13.75);
/// Daylight, minutes after midnight, where date or latitude is not stated: it holds at any date
/// between 55 degrees north and south.
const DAYLIGHT: (u32, u32) = (10 * 60 + 20, 14 * 60 + 50);
/// Minutes after sunset in which it is dusk.
const DUSK: u32 = 40;

/// The course of a trip or lesson: one timetable a session, the shorter one for bad weather, and
/// what is covered and brought. `modules` are those that apply, in order.
///
/// # Errors
/// More stations than stoves, no adult for a lit stove, subjects that nothing here teaches, and
/// segments that safety requires or that were asked for and that the minutes do not hold, when the
/// file asked for a course.
pub fn timetable<'a>(
    trip: &'a Trip,
    library: &Library,
    plan: &Plan,
    modules: &[&'a Module],
) -> Outcome<Course<'a>> {
    let request = &trip.course;
    let ground = Ground::new(trip);
    let asks = asks(trip, modules);
    let focus = whole_focus(trip);
    let all = pieces::gather(trip, &ground, modules, &focus, false);
    let fill = Fill {
        trip,
        ground: &ground,
        all: &all,
        spares: false,
    };
    let mut problems = asked_wrongly(trip, &ground, modules, &fill, &asks);
    let spared = pieces::gather(trip, &ground, modules, &focus, true);
    let with_spares = Fill {
        all: &spared,
        spares: true,
        ..fill
    };
    let fallback_ask = fallback(trip, modules, asks.first());
    if let Some(ask) = fallback_ask.as_ref().filter(|ask| ask.own) {
        let key = "course.fallback.focus".to_owned();
        problems.extend(nothing_of(&fill, modules, std::slice::from_ref(ask), key));
    }
    let held = |ask: &[Ask], stated: bool| {
        let filled = |fill: &Fill<'a, '_>| {
            if stated {
                fill.sessions(ask)
            } else {
                fill.as_long_as_needed(ask)
            }
        };
        second_burners(filled(&fill), || filled(&with_spares))
    };
    let mut sessions = Vec::new();
    match held(&asks, request.stated) {
        Ok(tables) => sessions = tables,
        Err(short) => problems.push(*short.problem),
    }
    let mut fallback = None;
    if let Some(ask) = fallback_ask {
        match held(std::slice::from_ref(&ask), true) {
            Ok(tables) => fallback = tables.into_iter().next(),
            Err(short) => problems.push(*short.problem),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let aims: Vec<&Aim> = asks.iter().map(|ask| &ask.aim).collect();
    let menu = menu::menu(trip, plan, &sessions);
    Ok(Course {
        subjects: pieces::subjects(trip, modules, &focus),
        not_placed: promise::not_held(&fill, modules, &asks, &sessions),
        coverage: cover::coverage(trip, &aims, &all, &sessions),
        kit: kit::sums(trip, &ground, sessions.iter().chain(&fallback), &menu),
        safety: kit::safety(&ground, &sessions),
        practice_fuel: kit::fuel(trip, library, plan, &sessions, &menu),
        part_used: kit::part_used(trip, library),
        sessions,
        fallback,
        menu,
    })
}

/// The first plan, unless second burners light something for all where one burner each does not:
/// they are more to bring.
fn second_burners<'a>(
    first: Result<Vec<Timetable<'a>>, Short>,
    second: impl FnOnce() -> Result<Vec<Timetable<'a>>, Short>,
) -> Result<Vec<Timetable<'a>>, Short> {
    let turns = |tables: &[Timetable<'_>]| {
        let mut entries = tables.iter().flat_map(|table| &table.entries);
        entries.any(|entry| entry.lights_each)
    };
    match first {
        Ok(tables) if turns(&tables) => Ok(tables),
        Ok(tables) => match second() {
            Ok(other) if turns(&other) => Ok(other),
            _ => Ok(tables),
        },
        Err(short) => second().or(Err(short)),
    }
}

/// All subjects that the file names, in order.
fn whole_focus(trip: &Trip) -> Vec<Id> {
    let request = &trip.course;
    let mut all: Vec<Id> = Vec::new();
    let of_sessions = request.sessions.iter().flat_map(|session| &session.focus);
    for id in request.focus.iter().chain(of_sessions) {
        if !all.contains(id) {
            all.push(id.clone());
        }
    }
    all
}

/// The sessions as asked for.
fn asks(trip: &Trip, modules: &[&Module]) -> Vec<Ask> {
    let request = &trip.course;
    let several = request.sessions.len() > 1;
    request
        .sessions
        .iter()
        .enumerate()
        .map(|(index, session)| {
            let date = session.date.or(trip.starts);
            let (daylight, dusk) = light(date, request.latitude);
            let focus = if session.focus.is_empty() {
                &request.focus
            } else {
                &session.focus
            };
            Ask {
                name: session.name.clone(),
                minutes: whole(session.length),
                starts: session.starts,
                date: session.date,
                indoors: session.indoors || request.indoors,
                kind: session.kind,
                aim: Aim::new(trip, modules, focus),
                focus: focus.clone(),
                own: !session.focus.is_empty(),
                daylight,
                dusk,
                shorter: false,
                had: BTreeSet::new(),
                key: if several {
                    format!("course.sessions[{index}].minutes")
                } else {
                    "course.minutes".to_owned()
                },
            }
        })
        .collect()
}

/// The plan for bad weather as asked for: without subjects of its own, as much of the course's as
/// can be held there.
fn fallback(trip: &Trip, modules: &[&Module], first: Option<&Ask>) -> Option<Ask> {
    let request = &trip.course;
    let fallback = request.fallback.as_ref()?;
    let first = first?;
    let own = !fallback.focus.is_empty();
    let mut aim = if own {
        Aim::new(trip, modules, &fallback.focus)
    } else {
        Aim::new(trip, modules, &whole_focus(trip))
    };
    // What the weather leaves of the course's subjects is no promise.
    aim.promised = own;
    Some(Ask {
        name: fallback.name.clone(),
        minutes: whole(fallback.length),
        indoors: fallback.indoors,
        kind: SessionKind::Teach,
        focus: fallback.focus.clone(),
        aim,
        own,
        shorter: true,
        key: "course.fallback.minutes".to_owned(),
        ..first.clone()
    })
}

/// When it is daylight for certain, and when it may be dusk, by the clock.
fn light(date: Option<Date>, latitude: Option<f64>) -> ((u32, u32), Option<(u32, u32)>) {
    let (Some(date), Some(latitude)) = (date, latitude) else {
        return (DAYLIGHT, None);
    };
    let half = sun::day_length(latitude, date.day_of_year()).in_minutes() / 2.0;
    let minute = |hours: f64, minutes: f64| libm::round(hours * 60.0 + minutes).max(0.0) as u32;
    let sunset = (minute(NOON.0, half), minute(NOON.1, half));
    (
        (minute(NOON.1, -half), sunset.0),
        Some((sunset.0, sunset.1 + DUSK)),
    )
}

/// A lesson's plan with the fuel of its practice burns handed out beside that of its menu, and none
/// to stations that it never lights; where no session lights anything nothing of the menu is cooked,
/// and no fuel is counted for it. A trip's
/// plan, and a lesson's whose course cannot be held, stays as it is.
///
/// # Errors
/// As [`plan::plan`].
pub fn with_practice(trip: &Trip, library: &Library, planned: Plan) -> Outcome<Plan> {
    if trip.kind != Kind::Lesson || trip.lights_nothing() {
        return Ok(planned);
    }
    let modules = applying(trip, library);
    let mut practice = vec![None; trip.kitchens.len()];
    match timetable(trip, library, &planned, &modules) {
        Ok(course) if course.sessions.iter().all(|table| table.lit == 0) => {
            return plan::with_nothing_lit(planned, trip, library);
        }
        Ok(course) => {
            for one in &course.practice_fuel {
                practice[one.station] = Some(one.set_out);
            }
        }
        Err(_) => return Ok(planned),
    }
    plan::with_practice(planned, trip, library, &practice)
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

/// What the file asks for that people, stoves and content cannot give.
fn asked_wrongly<'a>(
    trip: &Trip,
    ground: &Ground,
    modules: &[&'a Module],
    fill: &Fill<'a, '_>,
    asks: &[Ask],
) -> Vec<Problem> {
    let request = &trip.course;
    let mut problems = Vec::new();
    if !request.stated {
        return problems;
    }
    if request.stations as usize > trip.kitchens.len() {
        problems.push(
            Problem::error(
                "course.stations",
                told!(
                    "{stations} lit stations are asked for, and there are stoves for {count}",
                    stations = request.stations,
                    count = trip.kitchens.len()
                ),
                told!(
                    "write `stations: {count}` or fewer, or add kitchens with their stoves",
                    count = trip.kitchens.len()
                ),
            )
            .at(trip.file.clone(), "course.stations"),
        );
    }
    problems.extend(no_adult(trip, ground, fill, asks));
    let of_fallback = request.fallback.iter().flat_map(|one| &one.focus);
    for id in whole_focus(trip).iter().chain(of_fallback) {
        if !modules.iter().any(|module| module.id == *id) {
            problems.push(
                Problem::error(
                    "course.focus",
                    told!("nothing here teaches `{id}`: no stove, fuel, water or place of this file calls for it", id),
                    if trip.without_flame() {
                        "leave it out of `focus`; if it is about a flame, `stoves: no` under \
                         `restrictions` leaves nothing of it"
                    } else {
                        "leave it out of `focus`, or give a station the stove that it is about"
                    },
                )
                .at(trip.file.clone(), "course.focus"),
            );
        }
    }
    problems.extend(nothing_of(fill, modules, asks, "course.focus".to_owned()));
    for (index, ask) in asks.iter().enumerate() {
        if ask.own && asks.len() > 1 && ask.kind == SessionKind::Teach && problems.is_empty() {
            let key = format!("course.sessions[{index}].focus");
            problems.extend(nothing_of(fill, modules, std::slice::from_ref(ask), key));
        }
    }
    problems
}

/// The problem of sessions of whose subjects nothing can be held at all.
fn nothing_of<'a>(
    fill: &Fill<'a, '_>,
    modules: &[&'a Module],
    asks: &[Ask],
    key: String,
) -> Option<Problem> {
    let lost = promise::not_placed(fill, modules, asks);
    let mut named: Vec<&Id> = asks.iter().flat_map(|ask| &ask.focus).collect();
    named.sort_unstable();
    named.dedup();
    let ask = asks.first()?;
    (!lost.is_empty() && lost.len() == named.len())
        .then(|| promise::nothing_placed(fill, ask, key, &lost))
}

/// No instructor at all where a flame is asked for.
fn no_adult(trip: &Trip, ground: &Ground, fill: &Fill<'_, '_>, asks: &[Ask]) -> Option<Problem> {
    let outdoors = asks.iter().any(|ask| !ask.indoors);
    let asked_flame = asks.iter().any(|ask| {
        let mut all = fill.all.iter();
        all.any(|piece| piece.segment.flame && ask.aim.rank(piece).is_some())
    });
    (ground.adults == 0 && outdoors && asked_flame).then(|| {
        Problem::error(
            "course.adults",
            "no stove can be lit: there is no instructor, and each lit stove has an adult beside it",
            told!("write `instructors: {per_stove}` under `people`: one beside the stove and one free for those \
                 who wait; or write `place: indoors` under `course` for a lesson with nothing lit", per_stove = ground.per_stove + 1),
        )
        .at(trip.file.clone(), "people.instructors")
    })
}
