//! The lesson plan: the clock on page 1, then a card for each segment.
//!
//! The segments of every subject that applies, in an order that keeps what must
//! come before, for one group. What does not fit goes: first optional segments of
//! subjects that the handout only names, then other optional ones.

use super::common::{CautionGroup, Extent, Head, Prose};
use super::{Filled, Inputs, handout};
use crate::compose::cautions::Needed;
use crate::compose::prose;
use crate::compose::{charts, words};
use crate::doc::Figure;
use crate::nouns::{Module, Segment};
use crate::units::{Time, say};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Minutes of a lesson whose length nobody gave.
const WHOLE_DAY: f64 = 24.0 * 60.0;

/// The lesson plan.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LessonPlan {
    /// The head.
    pub head: Head,
    /// `150 min from 9:00`.
    pub length: String,
    /// The clock.
    pub clock: Vec<ClockRow>,
    /// When it ends if each segment takes its least.
    pub least_end: String,
    /// What found no room.
    pub dropped: String,
    /// Whether something did not.
    pub has_dropped: bool,
    /// Whether nothing is lit.
    pub indoors: bool,
    /// Adults a lit stove.
    pub adults: String,
    /// Whether there is a shorter plan.
    pub has_fallback: bool,
    /// Its length and place.
    pub fallback_length: String,
    /// Its clock.
    pub fallback: Vec<ClockRow>,
    /// A card a segment.
    pub cards: Vec<SegmentCard>,
    /// What instructors read on each subject.
    pub notes: Vec<Note>,
    /// The cautions of the subjects taught.
    pub cautions: Vec<CautionGroup>,
    /// Calls for drawings of this trip: places, then how the stoves tip.
    pub drawings: Vec<Prose>,
    /// Whether there are any.
    pub has_drawings: bool,
}

/// A line of the clock.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ClockRow {
    /// When it starts.
    pub starts: String,
    /// When it ends.
    pub ends: String,
    /// Its title.
    pub title: String,
    /// Its kind.
    pub kind: String,
    /// Whether something is lit.
    pub flame: bool,
    /// Learners one instructor can watch.
    pub ratio: String,
    /// Whether it goes first when time runs short.
    pub drop_first: bool,
}

/// A segment's card.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SegmentCard {
    /// Its title.
    pub title: String,
    /// Kind and minutes.
    pub about: String,
    /// Set out before.
    pub set_out: Prose,
    /// What is shown.
    pub show: Prose,
    /// The one sentence.
    pub sentence: Prose,
    /// What is asked.
    pub ask: Prose,
    /// What to watch for.
    pub watch_for: Prose,
    /// When to stop.
    pub stop_if: Prose,
    /// What to bring to each station.
    pub kit: String,
    /// Whether anything is brought.
    pub has_kit: bool,
}

/// The instructor's box of a subject.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Note {
    /// The subject.
    pub title: String,
    /// The box.
    pub boxed: Prose,
}

/// A segment with its module.
type Piece<'a> = (&'a Module, &'a Segment);

/// The lesson plan of a trip or lesson.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let course = &inputs.trip.course;
    let (told, _) = handout::choose(inputs);
    let Lesson {
        all,
        kept,
        dropped,
        length,
        starts,
    } = lesson(inputs);
    let roomy = sum(&kept, |segment| segment.usual) <= length;
    let minutes = |segment: &Segment| if roomy { segment.usual } else { segment.least };
    let least_end = f64::from(starts) + sum(&kept, |segment| segment.least);
    let fallback = course.fallback.as_ref().map(|fallback| {
        let dry: Vec<Piece<'_>> = all
            .iter()
            .copied()
            .filter(|piece| !fallback.indoors || !piece.1.flame)
            .collect();
        let (kept, _) = fitted(&dry, &told, fallback.length.in_minutes());
        (fallback, clock(&kept, starts, |segment| segment.least))
    });
    let names: Vec<String> = dropped.iter().map(|(_, one)| one.title.clone()).collect();
    let mut sources = BTreeSet::new();
    let cards = kept
        .iter()
        .map(|(module, segment)| card(inputs, module, segment, minutes(segment), &mut sources))
        .collect();
    let notes = told
        .iter()
        .filter(|module| !module.instructor.trim().is_empty())
        .map(|module| {
            inputs.cite(module, &[&module.instructor], &mut sources);
            Note {
                title: module.title.clone(),
                boxed: Prose::new(boxed(&inputs.filler.prose(module, &module.instructor))),
            }
        })
        .collect();
    let mut figures = BTreeMap::new();
    let drawings = drawings(inputs, &mut figures);
    let view = LessonPlan {
        head: inputs.head(title, None, &sources),
        length: format!(
            "{} from {}",
            say::time(Time::minutes(length)),
            hour(starts.into())
        ),
        clock: clock(&kept, starts, minutes),
        least_end: hour(least_end),
        has_dropped: !names.is_empty(),
        dropped: names.join(", "),
        indoors: course.indoors,
        adults: words::count(
            libm::ceil(inputs.trip.people.adults_per_lit_stove) as u32,
            "adult",
            "adults",
        ),
        has_fallback: fallback.is_some(),
        fallback_length: fallback.as_ref().map_or_else(String::new, |(fallback, _)| {
            format!(
                "{}{}",
                say::time(fallback.length),
                if fallback.indoors {
                    ", indoors, nothing lit"
                } else {
                    ""
                }
            )
        }),
        fallback: fallback.map(|(_, rows)| rows).unwrap_or_default(),
        cards,
        notes,
        cautions: inputs.caution_groups(&taught(&kept, &told), Extent::Short),
        has_drawings: !drawings.is_empty(),
        drawings,
    };
    vec![Filled::of(None, &view, figures)]
}

/// Calls for this trip's drawings: the places of its camps, and each stove that tips otherwise
/// than those before it.
fn drawings(inputs: &Inputs<'_>, figures: &mut BTreeMap<String, Figure>) -> Vec<Prose> {
    let mut drawn: Vec<Prose> = charts::places(inputs)
        .into_iter()
        .map(|chart| chart.call(figures))
        .collect();
    let kitchens = inputs.kitchens();
    for (index, one) in kitchens.iter().enumerate() {
        let known = kitchens[..index].iter().any(|other| {
            other.kitchen.stove == one.kitchen.stove && other.plan.stability == one.plan.stability
        });
        if !known && let Some(chart) = charts::stack(inputs, *one) {
            drawn.push(chart.call(figures));
        }
    }
    drawn
}

/// The segments of a lesson.
struct Lesson<'a> {
    all: Vec<Piece<'a>>,
    kept: Vec<Piece<'a>>,
    dropped: Vec<Piece<'a>>,
    /// Minutes of all sessions.
    length: f64,
    /// Minutes after midnight.
    starts: u32,
}

fn lesson<'a>(inputs: &Inputs<'a>) -> Lesson<'a> {
    let course = &inputs.trip.course;
    let (told, _) = handout::choose(inputs);
    let all = ordered(inputs, &inputs.modules);
    let length = if course.sessions.is_empty() {
        WHOLE_DAY
    } else {
        course
            .sessions
            .iter()
            .map(|session| session.length.in_minutes())
            .sum()
    };
    let possible: Vec<Piece<'_>> = all
        .iter()
        .copied()
        .filter(|piece| !course.indoors || !piece.1.flame)
        .collect();
    let (kept, dropped) = fitted(&possible, &told, length);
    Lesson {
        all,
        kept,
        dropped,
        length,
        starts: course
            .sessions
            .first()
            .map_or(540, |session| session.starts),
    }
}

/// The subjects that the plan teaches or notes.
fn taught<'a>(kept: &[Piece<'a>], told: &[&'a Module]) -> Vec<&'a Module> {
    let mut modules: Vec<&Module> = told.to_vec();
    for (module, _) in kept {
        if !modules.iter().any(|known| known.id == module.id) {
            modules.push(module);
        }
    }
    modules.sort_by_key(|module| (module.order, &module.id));
    modules
}

/// The cautions of what is taught.
#[must_use]
pub fn needs(inputs: &Inputs<'_>, _: Option<&str>) -> Vec<Needed> {
    let (told, _) = handout::choose(inputs);
    taught(&lesson(inputs).kept, &told)
        .into_iter()
        .flat_map(|module| inputs.needed(module, Extent::Short))
        .collect()
}

/// The segments that hold here, each after those it must follow.
fn ordered<'a>(inputs: &Inputs<'_>, modules: &[&'a Module]) -> Vec<Piece<'a>> {
    let mut waiting: Vec<Piece<'a>> = modules
        .iter()
        .flat_map(|module| {
            module
                .segments
                .iter()
                .map(move |segment| (*module, segment))
        })
        .filter(|(_, segment)| inputs.holds(&segment.applies))
        .collect();
    let name = |module: &Module, segment: &Segment| format!("{}.{}", module.id, segment.id);
    let known: BTreeSet<String> = waiting.iter().map(|(m, s)| name(m, s)).collect();
    let mut placed: BTreeSet<String> = BTreeSet::new();
    let mut order = Vec::new();
    while !waiting.is_empty() {
        let ready = waiting.iter().position(|(module, segment)| {
            segment.after.iter().all(|before| {
                let before = if before.contains('.') {
                    before.clone()
                } else {
                    format!("{}.{before}", module.id)
                };
                placed.contains(&before) || !known.contains(&before)
            })
        });
        // A ring of segments cannot be ordered; it is taken as written.
        let (module, segment) = waiting.remove(ready.unwrap_or(0));
        placed.insert(name(module, segment));
        order.push((module, segment));
    }
    order
}

/// What fits into so many minutes, and what does not: optional segments of what
/// is only named go first, from the end, then other optional ones, then the rest
/// where even the least minutes are too many.
fn fitted<'a>(
    pieces: &[Piece<'a>],
    told: &[&Module],
    minutes: f64,
) -> (Vec<Piece<'a>>, Vec<Piece<'a>>) {
    let mut kept = pieces.to_vec();
    let mut dropped = Vec::new();
    let named = |piece: &Piece<'a>| !told.iter().any(|module| module.id == piece.0.id);
    loop {
        let over_usual = sum(&kept, |segment| segment.usual) > minutes;
        let over_least = sum(&kept, |segment| segment.least) > minutes;
        let optional = |only_named: bool| {
            kept.iter()
                .rposition(|piece| !piece.1.required && (!only_named || named(piece)))
        };
        let index = match (over_usual, over_least) {
            (_, true) => optional(true)
                .or_else(|| optional(false))
                .or_else(|| kept.len().checked_sub(1)),
            (true, false) => optional(true),
            (false, false) => None,
        };
        let Some(index) = index else { break };
        dropped.insert(0, kept.remove(index));
    }
    (kept, dropped)
}

fn sum(pieces: &[Piece<'_>], minutes: impl Fn(&Segment) -> Time) -> f64 {
    pieces
        .iter()
        .map(|(_, segment)| minutes(segment).in_minutes())
        .sum()
}

fn clock(pieces: &[Piece<'_>], starts: u32, minutes: impl Fn(&Segment) -> Time) -> Vec<ClockRow> {
    let mut now = f64::from(starts);
    pieces
        .iter()
        .map(|(_, segment)| {
            let from = now;
            now += minutes(segment).in_minutes();
            ClockRow {
                starts: hour(from),
                ends: hour(now),
                title: segment.title.clone(),
                kind: segment.kind.word().to_owned(),
                flame: segment.flame,
                ratio: format!("1 : {}", segment.learners_per_instructor),
                drop_first: !segment.required,
            }
        })
        .collect()
}

/// Minutes after midnight as a clock shows them.
fn hour(minutes: f64) -> String {
    let whole = minutes.round().max(0.0) as u32;
    format!("{}:{:02}", whole / 60 % 24, whole % 60)
}

fn card(
    inputs: &Inputs<'_>,
    module: &Module,
    segment: &Segment,
    minutes: Time,
    sources: &mut BTreeSet<String>,
) -> SegmentCard {
    let mut line = |text: &str| {
        inputs.cite(module, &[text], sources);
        Prose::new(inputs.filler.line(module, text))
    };
    let kit: Vec<String> = segment
        .kit
        .iter()
        .map(
            |(what, a_station, a_learner)| match (a_station, a_learner) {
                (0, each) => format!("{what}, {each} a learner"),
                (1, 0) => what.clone(),
                (count, 0) => format!("{count} × {what}"),
                (count, each) => format!("{count} × {what} and {each} a learner"),
            },
        )
        .collect();
    SegmentCard {
        title: segment.title.clone(),
        about: format!(
            "{}, {}{}",
            segment.kind,
            say::time(minutes),
            if segment.flame { ", flame on" } else { "" }
        ),
        set_out: line(&segment.set_out),
        show: line(&segment.show),
        sentence: line(&segment.sentence),
        ask: line(&segment.ask),
        watch_for: line(&segment.watch_for),
        stop_if: line(&segment.stop_if),
        has_kit: !kit.is_empty(),
        kit: kit.join("; "),
    }
}

/// Prose in a box: every line behind a `>`.
fn boxed(text: &str) -> String {
    prose::lines_behind(text, ">")
}
