//! What the papers of a course say, as statements: its minutes, its water, its fuel to practise
//! with.

use super::timetable::{Course, Entry, MOST_WAITING, NotMade, Timetable, What};
use crate::nouns::{Id, Meal, Module, Segment, Trip};
use crate::plan::statements::part;
use crate::plan::{Plan, Statements, Value};
use crate::units::Time;

/// The id of a session: `session.1`, or `fallback`.
#[must_use]
pub fn session_id(course: &Course<'_>, table: &Timetable<'_>) -> String {
    let mut sessions = course.sessions.iter();
    let at = sessions.position(|one| std::ptr::eq(one, table));
    at.map_or_else(|| "fallback".to_owned(), |at| format!("session.{}", at + 1))
}

/// The id of a segment in a session: `session.1.canister-stoves.light`.
#[must_use]
pub fn segment_id(session: &str, module: &Id, segment: &Id) -> String {
    format!("{session}.{module}.{segment}")
}

fn minutes(minutes: u32) -> Value {
    Value::Time(Time::minutes(f64::from(minutes)))
}

/// Adds what a course's papers say to what its trip's say.
pub fn state(all: &mut Statements<'_>, course: &Course<'_>, trip: &Trip, plan: &Plan) {
    let length = course.sessions.iter().map(|table| table.length).sum();
    all.add("course.minutes", minutes(length));
    all.add("course.most-waiting", minutes(MOST_WAITING));
    all.add("course.water", Value::Volume(course.safety.water));
    for table in course.sessions.iter().chain(&course.fallback) {
        session(all, table, &session_id(course, table));
    }
    if let ([first], Some(_)) = (&course.sessions[..], &course.fallback) {
        for entry in &first.entries {
            let left = left_of_fallback(course, entry.ends());
            let left = left.iter().map(|one| one.minutes).sum();
            all.add(left_id(entry.ends()), minutes(left));
        }
    }
    for one in &course.practice_fuel {
        let Some(kitchen) = plan.kitchens.get(one.station) else {
            continue;
        };
        let at = format!("kitchen.{}.practice", kitchen.slug);
        all.add(format!("{at}.minutes"), minutes(one.minutes));
        all.add(
            format!("{at}.lightings"),
            Value::Number(f64::from(one.lightings)),
        );
        all.add(format!("{at}.burnt"), Value::Mass(one.burnt));
        all.add(format!("{at}.of-menu"), Value::Mass(one.of_menu));
        all.add(format!("{at}.set-out"), Value::Mass(one.set_out));
        if let Some(kitchen) = trip.kitchens.get(one.station) {
            all.add(format!("{at}.power"), Value::Power(kitchen.stove.power));
            all.add(
                format!("{at}.to-light"),
                Value::Mass(kitchen.stove.to_light),
            );
        }
    }
    for one in &course.menu {
        let Some(kitchen) = plan.kitchens.get(one.station) else {
            continue;
        };
        let at = format!("kitchen.{}.{}", kitchen.slug, menu_id(one.meal));
        all.add(format!("{at}.water"), Value::Volume(one.water));
        if let Err(NotMade::Short { each, burns, .. }) = one.made {
            all.add(format!("{at}.each"), minutes(each));
            all.add(format!("{at}.burns"), minutes(burns));
        }
    }
    for (tag, net) in &course.part_used {
        all.add(part_used_id(tag), Value::Mass(*net));
    }
}

/// The id of a meal of a station's menu on the clock, behind that of its kitchen.
#[must_use]
pub fn menu_id(meal: Meal) -> String {
    format!("menu.{}", part(meal.word()))
}

/// The id of what is left in a part-used canister on hand.
#[must_use]
pub fn part_used_id(tag: &str) -> String {
    format!("on-hand.{}.left", part(tag))
}

/// What of the shorter plan is left when a lesson moves in at a minute: what was done is not done
/// again.
#[must_use]
pub fn left_of_fallback<'c, 'a>(course: &'c Course<'a>, at: u32) -> Vec<&'c Entry<'a>> {
    let (Some(fallback), [first]) = (&course.fallback, &course.sessions[..]) else {
        return Vec::new();
    };
    let is_done = |module: &Module, segment: &Segment| {
        let held = first.entries.iter().filter(|other| other.ends() <= at);
        held.flat_map(Entry::taught)
            .any(|(from, one)| from.id == module.id && one.id == segment.id)
    };
    let left = fallback.entries.iter().filter(|other| match other.what {
        What::Segment(module, segment) => !is_done(module, segment),
        What::Break | What::HandOut => false,
        _ => true,
    });
    left.collect()
}

/// The id of the minutes that are left of the shorter plan at a minute of the day.
#[must_use]
pub fn left_id(at: u32) -> String {
    format!("fallback.left-at.{}-{:02}", at / 60 % 24, at % 60)
}

/// A session's minutes: its own, those of what is taught in it, and of what found no room.
fn session(all: &mut Statements<'_>, table: &Timetable<'_>, at: &str) {
    all.add(format!("{at}.minutes"), minutes(table.length));
    all.add(format!("{at}.waits"), minutes(table.waits));
    let in_hand = (table.starts + table.length).saturating_sub(table.ends);
    all.add(format!("{at}.in-hand"), minutes(in_hand));
    for one in &table.left_out {
        let id = segment_id(at, &one.module.id, &one.segment.id);
        all.add(format!("{id}.takes"), minutes(one.minutes));
    }
    if let Some(more) = table.more_for_a_flame() {
        all.add(format!("{at}.more-for-a-flame"), minutes(more));
    }
    for entry in &table.entries {
        for (module, segment) in entry.segments() {
            let id = segment_id(at, &module.id, &segment.id);
            // of a segment that comes twice the first is told
            if all.get(&format!("{id}.a-round")).is_some() {
                continue;
            }
            all.add(
                format!("{id}.a-round"),
                minutes(entry.minutes / entry.rounds.max(1)),
            );
        }
    }
}
