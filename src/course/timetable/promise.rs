//! A subject asked for is a promise: something of it is practised, or the file is refused with what
//! would make it fit.

use super::pieces::Piece;
use super::session::{Ask, Fill, MOST_WAITING};
use super::types::{Timetable, What, Why};
use crate::diag::Problem;
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

/// Subjects asked for of which nothing can be practised in any of these sessions, with why.
pub(super) fn not_placed<'a>(
    fill: &Fill<'a, '_>,
    asks: &[Ask],
) -> Vec<(&'a crate::nouns::Module, Why)> {
    let mut found: Vec<(&crate::nouns::Module, Why)> = Vec::new();
    for ask in asks.iter().filter(|ask| ask.aim.asked) {
        for subject in &ask.aim.subjects {
            let own = || {
                fill.all
                    .iter()
                    .enumerate()
                    .filter(|(_, piece)| piece.module.id == *subject && !piece.cools())
            };
            let refused = fill.refused(ask);
            let held = own().any(|(index, _)| refused[index].is_none());
            if let Some((index, piece)) = own().next()
                && !held
                && !found.iter().any(|(known, _)| known.id == *subject)
            {
                found.push((piece.module, refused[index].unwrap_or(Why::NoRoom)));
            }
        }
    }
    found
}

/// Subjects asked for of which the sessions as laid hold nothing, with why: what could not be held
/// at all, and what the clock refused.
pub(super) fn not_held<'a>(
    fill: &Fill<'a, '_>,
    asks: &[Ask],
    sessions: &[Timetable<'a>],
) -> Vec<(&'a crate::nouns::Module, Why)> {
    let mut found = not_placed(fill, asks);
    let known = |found: &[(&crate::nouns::Module, Why)], id: &str| {
        let held = sessions.iter().any(|table| {
            let on_the_clock = table.entries.iter().filter_map(|entry| match entry.what {
                What::Segment(module, _) => Some(module),
                _ => None,
            });
            let beside = table.beside.iter().map(|one| one.module);
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

/// The problem of a session of which no subject can be held.
pub(super) fn nothing_placed(
    fill: &Fill<'_, '_>,
    key: &str,
    lost: &[(&crate::nouns::Module, Why)],
) -> Problem {
    let names: Vec<String> = lost
        .iter()
        .map(|(module, why)| format!("{} ({})", module.title, why.word()))
        .collect();
    let adults = fill.ground.per_stove + 1;
    let help = if lost.iter().any(|(_, why)| *why == Why::NoAdult) {
        format!(
            "write `instructors: {adults}` or more under `people`: one beside the stove and one \
             free for those who wait; or name a subject that needs no flame"
        )
    } else {
        "write `place: outdoors`, or name a subject under `focus` that needs no flame, no fuel and \
         no open ground"
            .to_owned()
    };
    Problem::error(
        "course.focus",
        format!(
            "nothing of what is asked for can be held: {}",
            names.join(", ")
        ),
        help,
    )
    .at(fill.trip.file.clone(), key.to_owned())
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
    let mut help = format!("write `minutes: {enough}` or more");
    if !could_go.is_empty() {
        help.push_str(&format!(
            ", or leave out of `focus` one of {}",
            could_go.join(", ")
        ));
    }
    if in_rounds {
        let most = pieces.iter().map(|piece| piece.watched).min().unwrap_or(1);
        help.push_str(&format!(
            "; with `instructors: {}` all learners have their turn at once where nothing is lit",
            fill.ground.learners.div_ceil(most.max(1))
        ));
    }
    Problem::error(
        "course.minutes",
        format!(
            "{missing} minutes are missing: what is asked for and what safety requires for it are {}",
            names.join(", ")
        ),
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
        format!(
            "in `{}` one learner would wait {} min without anything to do, and {MOST_WAITING} is the \
             limit: there are too few adults for {} learners",
            ask.name, table.waits, fill.ground.learners
        ),
        format!(
            "write `instructors: {}` under `people`, or teach in two courses",
            fill.ground.learners.div_ceil(least.max(4)).max(fill.ground.adults + 1)
        ),
    )
    .at(fill.trip.file.clone(), "people.instructors".to_owned())
}
