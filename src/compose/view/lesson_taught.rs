//! What a lesson teaches: its segments, each once, and the modules that they are from.

use crate::course::timetable::{Course, Entry};
use crate::nouns::{Module, Segment};

/// A segment that is taught, and where on the clock.
pub(super) struct Taught<'a, 'i> {
    /// Its module.
    pub(super) module: &'a Module,
    /// The segment.
    pub(super) segment: &'a Segment,
    /// The entry that holds it; none where it is done beside a flame.
    pub(super) entry: Option<&'i Entry<'a>>,
    /// Index of its session; none in the fallback.
    pub(super) session: Option<usize>,
    /// When it starts.
    pub(super) starts: u32,
}

/// The segments of all sessions and of the fallback, each once, with where it is held.
pub(super) fn taught_segments<'a, 'i>(course: &'i Course<'a>) -> Vec<Taught<'a, 'i>> {
    let mut found: Vec<Taught<'a, 'i>> = Vec::new();
    let tables = course
        .sessions
        .iter()
        .enumerate()
        .map(|(index, table)| (Some(index), table));
    for (session, table) in tables.chain(course.fallback.iter().map(|table| (None, table))) {
        let on_the_clock = table.entries.iter().flat_map(|entry| {
            let segments = entry.segments().into_iter();
            segments.map(move |(module, segment)| Taught {
                module,
                segment,
                entry: Some(entry),
                session,
                starts: entry.starts,
            })
        });
        let beside = table.beside.iter().map(|one| Taught {
            module: one.module,
            segment: one.segment,
            entry: None,
            session,
            starts: one.starts,
        });
        for one in on_the_clock.chain(beside) {
            if !found
                .iter()
                .any(|known| known.module.id == one.module.id && known.segment.id == one.segment.id)
            {
                found.push(one);
            }
        }
    }
    found
}

/// The subjects of the plan, and what it teaches beside them.
pub(super) fn taught<'a>(course: &Course<'a>) -> (Vec<&'a Module>, Vec<&'a Module>) {
    let mut asked: Vec<&Module> = course.subjects.clone();
    let mut beside: Vec<&Module> = Vec::new();
    for module in taught_segments(course).into_iter().map(|one| one.module) {
        if !asked
            .iter()
            .chain(&beside)
            .any(|known| known.id == module.id)
        {
            beside.push(module);
        }
    }
    asked.sort_by_key(|module| (module.order, &module.id));
    beside.sort_by_key(|module| (module.order, &module.id));
    (asked, beside)
}
