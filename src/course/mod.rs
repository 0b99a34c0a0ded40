//! The course: what is taught, practised and asked. Pure, and seeded where it draws.

mod dice;
pub mod practice;
pub mod skills;
pub mod stated;
pub mod syllabus;
pub mod timetable;

use crate::diag::Outcome;
use crate::nouns::{Library, Module, Question, Trip};
use crate::plan;
use crate::units::Units;

/// What the skills check of a course is about: what its sessions teach, and nothing else. Of a
/// course that cannot be held, what its subjects would teach.
#[must_use]
pub fn checked<'a>(
    trip: &Trip,
    library: &'a Library,
    course: Option<&timetable::Course<'a>>,
) -> Vec<skills::Target<'a>> {
    if let Some(course) = course {
        return syllabus::to_check(course, &trip.course);
    }
    let mut about = timetable::applying(trip, library);
    about.retain(|module| trip.course.focus.is_empty() || trip.course.focus.contains(&module.id));
    skills::targets(&about, &trip.course)
}

/// The forms for these objectives: of subjects that `told` says learners can read in full.
///
/// # Errors
/// When the library lacks what a sum speaks of.
pub fn drawn<'a>(
    targets: Vec<skills::Target<'a>>,
    told: impl Fn(&Module) -> bool,
    trip: &Trip,
    library: &Library,
    units: Units,
) -> Outcome<skills::Check<'a>> {
    let holds = |module: &Module, question: &Question| {
        told(module) && plan::applies(&question.applies, trip)
    };
    skills::check(targets, holds, library, units, trip.course.seed)
}
