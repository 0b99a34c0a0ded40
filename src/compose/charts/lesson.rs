//! What is drawn of a lesson: the sessions as lines of time, the places, how the stoves tip; as
//! much as the plan's sides have room for.

use super::{clock, places, stack};
use crate::compose::view::Inputs;
use crate::compose::view::common::Prose;
use crate::compose::view::lesson_clock::SessionView;
use crate::course::timetable::Course;
use crate::doc::Figure;
use std::collections::BTreeMap;

/// Words whose room a drawing takes.
const DRAWING_WORDS: usize = 220;

/// Words whose room a line of time takes.
const CLOCK_WORDS: usize = 110;

/// The line of time of each session, as many as there is room for.
pub fn of_sessions(
    inputs: &Inputs<'_>,
    course: &Course<'_>,
    sessions: &mut [SessionView],
    room: &mut usize,
    figures: &mut BTreeMap<String, Figure>,
) {
    for (index, (table, view)) in course.sessions.iter().zip(sessions).enumerate() {
        if *room < CLOCK_WORDS {
            return;
        }
        if let Some(chart) = clock(inputs, table, index + 1) {
            *room -= CLOCK_WORDS;
            view.picture = chart.call(figures);
            view.has_picture = true;
        }
    }
}

/// Calls for this trip's drawings, as many as there is room for: the places of its camps, and each
/// stove that tips otherwise than those before it.
pub fn of_lesson(
    inputs: &Inputs<'_>,
    room: &mut usize,
    figures: &mut BTreeMap<String, Figure>,
) -> Vec<Prose> {
    let mut all = places(inputs);
    let kitchens = inputs.kitchens();
    for (index, one) in kitchens.iter().enumerate() {
        let known = kitchens[..index].iter().any(|other| {
            other.kitchen.stove == one.kitchen.stove && other.plan.stability == one.plan.stability
        });
        if !known && let Some(chart) = stack(inputs, *one) {
            all.push(chart);
        }
    }
    let mut drawn = Vec::new();
    for chart in all {
        if *room < DRAWING_WORDS {
            break;
        }
        *room -= DRAWING_WORDS;
        drawn.push(chart.call(figures));
    }
    drawn
}
