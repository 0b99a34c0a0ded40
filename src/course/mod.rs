//! The course: what is taught, practised and asked. Pure, and seeded where it draws.

mod dice;
pub mod practice;
pub mod skills;
pub mod stated;
pub mod syllabus;
pub mod timetable;

use crate::diag::Outcome;
use crate::nouns::{Library, Question, Trip};
use crate::plan;
use crate::units::Units;

/// The skills check of a course: what its sessions teach, and nothing else. Of a course that cannot
/// be held, what its subjects would teach.
///
/// # Errors
/// When the library lacks what a sum speaks of.
pub fn drawn<'a>(
    trip: &Trip,
    library: &'a Library,
    course: Option<&timetable::Course<'a>>,
    units: Units,
) -> Outcome<skills::Check<'a>> {
    let targets = match course {
        Some(course) => syllabus::to_check(course, &trip.course),
        None => {
            let modules = timetable::applying(trip, library);
            let mut about = modules;
            about.retain(|module| {
                trip.course.focus.is_empty() || trip.course.focus.contains(&module.id)
            });
            skills::targets(&about, &trip.course)
        }
    };
    let holds = |question: &Question| plan::applies(&question.applies, trip);
    skills::check(targets, holds, library, units, trip.course.seed)
}
