//! A subject asked for is a promise: something of it is practised, or the file is refused with what
//! would make it fit.

use super::ask::{Ask, Fill, MOST_WAITING};
use super::piece::Piece;
use super::types::{Entry, Timetable, Why};
use crate::diag::{Problem, Told, told};
use crate::nouns::{Light, Module};
use std::collections::BTreeSet;

/// For each subject that is asked for, the segment in which it is practised that takes the fewest
/// minutes with all that it needs; none where one was held before or safety requires one.
pub(super) fn practised(
    fill: &Fill<'_, '_>,
    ask: &Ask,
    refused: &[Option<Why>],
    done: &BTreeSet<usize>,
) -> BTreeSet<usize> {
    if !ask.aim.promised {
        return BTreeSet::new();
    }
    let mut promised = BTreeSet::new();
    for subject in &ask.aim.subjects {
        let own: Vec<usize> = (0..fill.all.len())
            .filter(|index| {
                let piece = &fill.all[*index];
                piece.module.id == *subject && piece.practises() && !piece.cools()
            })
            .collect();
        let held = own.iter().any(|index| {
            let required = fill.all[*index].segment.required && refused[*index].is_none();
            required || done.contains(index)
        });
        if held {
            continue;
        }
        let cheapest = own
            .iter()
            .filter(|index| refused[**index].is_none())
            .min_by_key(|index| (minutes(fill.all, **index, done), **index));
        promised.extend(cheapest.copied());
    }
    promised
}

/// Fewest minutes of a segment with all that it needs and was not held.
fn minutes(all: &[Piece<'_>], index: usize, done: &BTreeSet<usize>) -> u32 {
    let mut with = BTreeSet::from([index]);
    for at in (0..=index).rev() {
        if with.contains(&at) {
            with.extend(all[at].needs.iter().copied());
        }
    }
    with.iter()
        .filter(|at| !done.contains(at))
        .map(|at| all[*at].least_total())
        .sum()
}

/// Subjects asked for of which nothing can be held in any of these sessions, with why. `modules`
/// are those that apply.
pub(super) fn not_placed<'a>(
    fill: &Fill<'a, '_>,
    modules: &[&'a Module],
    asks: &[Ask],
) -> Vec<(&'a Module, Why)> {
    let mut found: Vec<(&Module, Why)> = Vec::new();
    let asked = asks.iter().filter(|ask| ask.aim.asked);
    for subject in asked.flat_map(|ask| &ask.aim.subjects) {
        let module = modules.iter().find(|module| module.id == *subject);
        let Some(module) =
            module.filter(|module| !found.iter().any(|(one, _)| one.id == module.id))
        else {
            continue;
        };
        let own: Vec<usize> = (0..fill.all.len())
            .filter(|index| fill.all[*index].module.id == *subject && !fill.all[*index].cools())
            .collect();
        let whys: Vec<Option<Why>> = asks
            .iter()
            .filter(|ask| ask.aim.subjects.contains(subject))
            .flat_map(|ask| {
                let refused = fill.refused(ask);
                own.iter().map(move |index| refused[*index])
            })
            .collect();
        if whys.iter().all(Option::is_some) {
            let why = whys.first().copied().flatten();
            found.push((module, why.unwrap_or(Why::NotHere)));
        }
    }
    found
}

/// Subjects asked for of which the sessions as laid hold nothing, with why: what could not be held
/// at all, and what the clock refused.
pub(super) fn not_held<'a>(
    fill: &Fill<'a, '_>,
    modules: &[&'a Module],
    asks: &[Ask],
    sessions: &[Timetable<'a>],
) -> Vec<(&'a Module, Why)> {
    let mut found = not_placed(fill, modules, asks);
    let known = |found: &[(&Module, Why)], id: &str| {
        let held = sessions.iter().any(|table| {
            let on_the_clock = table.entries.iter().flat_map(Entry::taught);
            let beside = table.beside.iter().map(|one| one.module);
            let on_the_clock = on_the_clock.map(|(module, _)| module);
            on_the_clock.chain(beside).any(|module| module.id == id)
        });
        held || found.iter().any(|(module, _)| module.id == id)
    };
    for subject in asks
        .iter()
        .filter(|ask| ask.aim.asked)
        .flat_map(|ask| &ask.aim.subjects)
    {
        let mut left = sessions.iter().rev().flat_map(|table| &table.left_out);
        if !known(&found, subject)
            && let Some(one) = left.find(|one| one.module.id == *subject)
        {
            found.push((one.module, one.why));
        }
    }
    found
}

/// A reason as a problem tells it.
const fn reason(why: Why) -> &'static str {
    match why {
        Why::NoRoom => "no room in the minutes",
        Why::Indoors => "it needs a flame, and indoors nothing is lit",
        Why::NoAdult => "it needs a flame, and no adult would be free for those who wait",
        Why::Ban => "the fire rule in force allows no stove for it",
        Why::OutdoorsOnly => "it needs open ground",
        Why::OpensFuel => "fuel is handled in it, and indoors there is none",
        Why::Light => "the hour does not have the light for certain",
        Why::NotHere => "no part of it belongs to these rules, stoves and place",
        Why::Waits => "some would wait too long for their turn",
    }
}

/// The problem of sessions of which no subject can be held; `ask` is the one that it is told of.
pub(super) fn nothing_placed(
    fill: &Fill<'_, '_>,
    ask: &Ask,
    key: String,
    lost: &[(&Module, Why)],
) -> Problem {
    let names = lost.iter().map(|(module, why)| {
        told!(
            "{title} ({why})",
            title = module.title,
            why = Told::from(reason(*why))
        )
    });
    let names = Told::list(names, ", ");
    let has = |wanted: Why| lost.iter().any(|(_, why)| *why == wanted);
    let adults = fill.ground.per_stove + 1;
    let help = if has(Why::NoAdult) {
        told!(
            "write `instructors: {adults}` or more under `people`: one beside the stove and one \
             free for those who wait; or name a subject that needs no flame",
            adults
        )
    } else if has(Why::Light) {
        let light = lost.iter().find_map(|(module, _)| {
            let mut own = fill.all.iter().filter(|piece| piece.module.id == module.id);
            own.find_map(|piece| piece.segment.light)
        });
        hours(ask, light.unwrap_or(Light::Daylight))
    } else if has(Why::Ban) || has(Why::NotHere) {
        Told::from(
            "name a subject under `focus` that lights nothing, or ask the land manager again which \
         stoves are allowed",
        )
    } else if key.contains("fallback") {
        Told::from(
            "name a subject under the fallback's `focus` that needs no flame, no fuel and no open ground",
        )
    } else {
        Told::from(
            "write `place: outdoors`, or name a subject under `focus` that needs no flame, no fuel and \
         no open ground",
        )
    };
    Problem::error(
        "course.focus",
        told!(
            "nothing of what is asked for can be held in `{name}`: {names}",
            name = ask.name,
            names
        ),
        help,
    )
    .at(fill.trip.file.clone(), key)
}

/// When a session would have the light that its subject needs.
fn hours(ask: &Ask, light: Light) -> Told {
    let clock = |minutes: u32| format!("{}:{:02}", minutes / 60 % 24, minutes % 60);
    match (light, ask.dusk) {
        (Light::Daylight, _) => told!(
            "let it start and end between {daylight} and {daylight_2}, when it is light for certain",
            daylight = clock(ask.daylight.0),
            daylight_2 = clock(ask.daylight.1)
        ),
        (Light::Dusk, Some((from, to))) => told!(
            "let it run between {clock} and {to}, when it may be dusk that day, such as with `starts: {clock_2}`",
            clock = clock(from),
            to = clock(to),
            clock_2 = clock(from)
        ),
        (Light::Dusk, None) => Told::from(
            "write the session's `date` and `latitude` under `course`: they tell \
                                when it is dusk there",
        ),
    }
}

/// The problem of a session for which those before it left nothing.
pub(super) fn nothing_left(fill: &Fill<'_, '_>, ask: &Ask) -> Problem {
    Problem::error(
        "course.sessions",
        told!("nothing is left to teach in `{name}`: the sessions before it hold all that can be held", name = ask.name),
        "leave it out, write `kind: teach-back` or `kind: check` for it, or make those before it \
         shorter",
    )
    .at(fill.trip.file.clone(), ask.key.clone())
}

/// The problem of a session that is too short.
pub(super) fn too_short(
    fill: &Fill<'_, '_>,
    ask: &Ask,
    pieces: &[&Piece<'_>],
    missing: u32,
    enough: u32,
) -> Problem {
    let names: Vec<String> = pieces
        .iter()
        .map(|piece| format!("{} ({} min)", piece.segment.title, piece.least_total()))
        .collect();
    // A subject goes with all of its own segments: what its leaving would free.
    let could_go: Vec<String> = ask
        .aim
        .subjects
        .iter()
        .filter(|_| ask.aim.asked && ask.aim.subjects.len() > 1)
        .map(|subject| {
            let own = pieces.iter().filter(|piece| piece.module.id == *subject);
            let minutes: u32 = own.map(|piece| piece.least_total()).sum();
            format!("`{subject}` ({minutes} min)")
        })
        .collect();
    let leaders = fill.ground.leaders();
    let in_rounds = pieces
        .iter()
        .any(|piece| fill.ground.learners > piece.watched.saturating_mul(leaders));
    let mut help = told!("write `minutes: {enough}` or more", enough);
    if !could_go.is_empty() {
        help.push(told!(
            ", or leave out of `focus` one of {could_go}",
            could_go = could_go.join(", ")
        ));
    }
    if in_rounds {
        let most = pieces.iter().map(|piece| piece.watched).min().unwrap_or(1);
        help.push(told!(
            "; with `instructors: {adults}` all learners have their turn at once where nothing is lit",
            adults = fill.ground.learners.div_ceil(most.max(1))
        ));
    }
    Problem::error(
        "course.minutes",
        told!("{missing} minutes are missing: what is asked for and what safety requires for it are {names}", missing, names = names.join(", ")),
        help,
    )
    .at(fill.trip.file.clone(), ask.key.clone())
}

/// The problem of a session in which someone waits too long with nothing lit.
pub(super) fn waits(fill: &Fill<'_, '_>, ask: &Ask, table: &Timetable<'_>) -> Problem {
    let least = fill
        .all
        .iter()
        .map(|piece| piece.watched)
        .min()
        .unwrap_or(1);
    Problem::error(
        "course.adults",
        told!("in `{name}` one learner would wait {waits} min without anything to do, and {MOST_WAITING} is the \
             limit: there are too few adults for {learners} learners", name = ask.name, waits = table.waits, MOST_WAITING, learners = fill.ground.learners),
        told!("write `instructors: {adults}` under `people`, or teach in two courses", adults = fill.ground.learners.div_ceil(least.max(4)).max(fill.ground.adults + 1)),
    )
    .at(fill.trip.file.clone(), "people.instructors".to_owned())
}
