//! What is taught, and so what can be checked: read from the timetable and from nowhere else.

use super::skills::{Check, Target};
use super::timetable::{Course, Timetable};
use crate::nouns::{CourseRequest, Module, Segment, SegmentKind};

/// An objective that a session teaches.
#[derive(Clone, Debug, PartialEq)]
pub struct Taught<'a> {
    /// The objective.
    pub target: Target<'a>,
    /// Where: the session's index and the minute after midnight at which it begins.
    pub at: Vec<(usize, u32)>,
}

/// Every objective of the segments of these sessions, for the learners' level, the criticals first.
/// What learners bring is among them only if it keeps people alive.
#[must_use]
pub fn taught<'a>(course: &Course<'a>, request: &CourseRequest) -> Vec<Taught<'a>> {
    let mut found: Vec<Taught<'a>> = Vec::new();
    for (index, session) in course.sessions.iter().enumerate() {
        for (module, segment, starts) in segments(session) {
            for (id, objective) in &module.objectives {
                let name = format!("{}.{id}", module.id);
                let for_them =
                    objective.levels.is_empty() || objective.levels.contains(&request.level);
                let wanted = objective.critical || !request.known.contains(&name);
                if !segment.objectives.contains(id) || !for_them || !wanted {
                    continue;
                }
                let known = found
                    .iter_mut()
                    .find(|one| one.target.module.id == module.id && one.target.id == id);
                match known {
                    Some(known) => known.at.push((index, starts)),
                    None => found.push(Taught {
                        target: Target {
                            module,
                            id,
                            objective,
                        },
                        at: vec![(index, starts)],
                    }),
                }
            }
        }
    }
    found.sort_by_key(|one| !one.target.objective.critical);
    found
}

/// What is checked: of what is taught, whatever keeps people alive and what the course is about.
#[must_use]
pub fn to_check<'a>(course: &Course<'a>, request: &CourseRequest) -> Vec<Target<'a>> {
    let asked = |module: &Module| {
        course
            .subjects
            .iter()
            .any(|subject| subject.id == module.id)
    };
    taught(course, request)
        .into_iter()
        .map(|one| one.target)
        .filter(|target| target.objective.critical || asked(target.module))
        .collect()
}

/// The segments in which a session teaches, on the clock and beside a flame, with their minute.
fn segments<'a>(session: &Timetable<'a>) -> Vec<(&'a Module, &'a Segment, u32)> {
    let on_the_clock = session.entries.iter().flat_map(|entry| {
        let taught = entry.taught().into_iter();
        taught
            .filter(|(_, segment)| segment.kind != SegmentKind::Check)
            .map(|(module, segment)| (module, segment, entry.starts))
    });
    let beside = session
        .beside
        .iter()
        .map(|one| (one.module, one.segment, one.starts));
    let mut all: Vec<_> = on_the_clock.chain(beside).collect();
    all.sort_by_key(|(.., starts)| *starts);
    all
}

/// Where an objective is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Checked {
    /// A form's letter and the number of the question.
    Form(char, usize),
    /// A station, where an adult watches its behaviours.
    Station,
}

/// Where an objective is checked.
#[must_use]
pub fn checked(check: &Check<'_>, target: &Target<'_>) -> Vec<Checked> {
    let same = |other: &Target<'_>| other.module.id == target.module.id && other.id == target.id;
    let mut found: Vec<Checked> = check
        .forms
        .iter()
        .flat_map(|form| {
            let numbered = form.items.iter().enumerate();
            numbered
                .filter(|(_, item)| same(&item.target))
                .map(|(index, _)| Checked::Form(form.letter, index + 1))
        })
        .collect();
    if !target.objective.behaviours.is_empty() && check.targets.iter().any(same) {
        found.push(Checked::Station);
    }
    found
}
