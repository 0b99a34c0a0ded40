//! The lesson plan: the clock on page 1, who is where, what is brought, then a card for each
//! segment.

use super::common::{CautionGroup, Extent, Head, Prose};
use super::{Filled, Inputs, handout, lesson_kit};
use crate::compose::cautions::Needed;
use crate::compose::prose;
use crate::compose::{charts, words};
use crate::course::timetable::{Covering, Entry, Rotation, Timetable, What, Why};
use crate::doc::Figure;
use crate::nouns::{Module, Segment};
use crate::units::{Time, say};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// The lesson plan.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LessonPlan {
    /// The head.
    pub head: Head,
    /// `150 min from 9:00`.
    pub length: String,
    /// Adults a lit stove and most lit at once.
    pub adults: String,
    /// A plan a session.
    pub sessions: Vec<SessionView>,
    /// Whether there is a shorter plan.
    pub has_fallback: bool,
    /// Its length and place.
    pub fallback_length: String,
    /// The shorter plan; one or none.
    pub fallback: Vec<SessionView>,
    /// What is brought.
    pub kit: lesson_kit::Kit,
    /// The names of sessions, for the coverage table.
    pub coverage_heads: Vec<String>,
    /// Objective by session.
    pub coverage: Vec<CoverageRow>,
    /// Whether any objective is covered.
    pub has_coverage: bool,
    /// Subjects asked for that nothing here calls for.
    pub not_here: String,
    /// Whether there are any.
    pub has_not_here: bool,
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

/// A session on the clock.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SessionView {
    /// Its name.
    pub name: String,
    /// Whether the name is printed: there are several.
    pub named: bool,
    /// Whether nothing is lit because it is indoors.
    pub indoors: bool,
    /// Whether something is lit.
    pub lit: bool,
    /// The clock.
    pub clock: Vec<ClockRow>,
    /// When it ends.
    pub ends: String,
    /// When it ends if each segment takes its least.
    pub least_end: String,
    /// What found no room and what it costs.
    pub dropped: String,
    /// Whether something did not.
    pub has_dropped: bool,
    /// What is refused here.
    pub refused: String,
    /// Whether something is.
    pub has_refused: bool,
    /// What is recalled first.
    pub recall: Vec<Prose>,
    /// Whether something is.
    pub has_recall: bool,
    /// The groups: `A 4, B 3, C 3`.
    pub groups: String,
    /// Who is where while something is lit.
    pub rotation: Vec<RoundRow>,
    /// The names of the groups, for the head of that table.
    pub group_names: Vec<String>,
    /// Whether the choice is proven the best.
    pub proven: bool,
}

/// A line of the clock.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ClockRow {
    /// When it starts.
    pub starts: String,
    /// Minutes.
    pub minutes: String,
    /// Its title.
    pub title: String,
    /// Its kind, and rounds where there are several.
    pub kind: String,
    /// Whether something is lit.
    pub flame: bool,
    /// Learners one instructor can watch.
    pub ratio: String,
    /// `drop 1`, or `keep`.
    pub drop: String,
}

/// A round of a segment with a flame.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct RoundRow {
    /// Start.
    pub starts: String,
    /// The segment.
    pub title: String,
    /// For each group, where it is.
    pub places: Vec<Place>,
}

/// Where a group is in a round.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Place {
    /// The station's name, or where it waits.
    pub at: String,
    /// Whether it is lit.
    pub lit: bool,
}

/// An objective by session.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CoverageRow {
    /// What learners can do.
    pub say: Prose,
    /// Whether they bring it.
    pub known: bool,
    /// What each session does for it.
    pub sessions: Vec<String>,
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

/// The lesson plan of a trip or lesson.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let course = &inputs.course;
    let (told, _) = handout::choose(inputs);
    let several = course.sessions.len() > 1;
    let mut sources = BTreeSet::new();
    let cards = taught_segments(inputs)
        .into_iter()
        .map(|(module, segment, entry)| card(inputs, module, segment, entry, &mut sources))
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
    let fallback: Vec<SessionView> = course
        .fallback
        .iter()
        .map(|table| session(inputs, table, false))
        .collect();
    let view = LessonPlan {
        head: inputs.head(title, None, &sources),
        length: lengths(&course.sessions),
        adults: adults(inputs),
        sessions: course
            .sessions
            .iter()
            .map(|table| session(inputs, table, several))
            .collect(),
        has_fallback: !fallback.is_empty(),
        fallback_length: course.fallback.as_ref().map_or_else(String::new, |table| {
            format!(
                "{}{}",
                say::time(Time::minutes(f64::from(table.length))),
                if table.indoors {
                    ", indoors, nothing lit"
                } else {
                    ""
                }
            )
        }),
        fallback,
        kit: lesson_kit::kit(inputs),
        coverage_heads: course
            .sessions
            .iter()
            .map(|table| table.name.clone())
            .collect(),
        coverage: coverage(inputs, &mut sources),
        has_coverage: !course.coverage.is_empty(),
        has_not_here: !course.not_here.is_empty(),
        not_here: course.not_here.join(", "),
        cards,
        notes,
        cautions: inputs.caution_groups(&taught(inputs, &told), Extent::Short),
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

/// The segments of all sessions and of the fallback, each once, with the entry that holds it.
fn taught_segments<'a, 'i>(
    inputs: &'i Inputs<'a>,
) -> Vec<(&'a Module, &'a Segment, &'i Entry<'a>)> {
    let mut found: Vec<(&Module, &Segment, &Entry<'_>)> = Vec::new();
    let tables = inputs.course.sessions.iter().chain(&inputs.course.fallback);
    for entry in tables.flat_map(|table| &table.entries) {
        if let What::Segment(module, segment) = entry.what
            && !found
                .iter()
                .any(|(known, other, _)| known.id == module.id && other.id == segment.id)
        {
            found.push((module, segment, entry));
        }
    }
    found
}

/// The subjects that the plan teaches or notes.
fn taught<'a>(inputs: &Inputs<'a>, told: &[&'a Module]) -> Vec<&'a Module> {
    let mut modules: Vec<&Module> = told.to_vec();
    for (module, _, _) in taught_segments(inputs) {
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
    taught(inputs, &told)
        .into_iter()
        .flat_map(|module| inputs.needed(module, Extent::Short))
        .collect()
}

/// `150 min from 18:00`, or how many sessions.
fn lengths(sessions: &[Timetable<'_>]) -> String {
    let minutes: u32 = sessions.iter().map(|table| table.length).sum();
    let minutes = say::time(Time::minutes(f64::from(minutes)));
    match sessions {
        [one] => format!("{minutes} from {}", hour(one.starts)),
        many => format!(
            "{} of {minutes} in all",
            words::count(many.len() as u32, "session", "sessions")
        ),
    }
}

/// How many adults stand beside a lit stove, and how many stoves are lit at once.
fn adults(inputs: &Inputs<'_>) -> String {
    let per_stove = inputs.trip.people.adults_per_lit_stove;
    let lit = inputs
        .course
        .sessions
        .iter()
        .map(|table| table.lit)
        .max()
        .unwrap_or(0);
    let most = match lit {
        0 => "nothing is lit".to_owned(),
        _ => format!(
            "at most {} lit at once, the rest cold",
            words::in_words(lit)
        ),
    };
    if per_stove > 0.0 {
        let adults = words::count(libm::ceil(per_stove) as u32, "adult", "adults");
        format!("{adults} beside each lit stove; {most}")
    } else {
        most
    }
}

fn session(inputs: &Inputs<'_>, table: &Timetable<'_>, named: bool) -> SessionView {
    let left = |wanted: fn(Why) -> bool| table.left_out.iter().filter(move |one| wanted(one.why));
    let dropped: Vec<String> = left(|why| why == Why::NoRoom)
        .map(|one| format!("{} ({} min)", one.segment.title, one.minutes))
        .collect();
    let refused: Vec<String> = left(|why| why != Why::NoRoom)
        .map(|one| one.segment.title.clone())
        .collect();
    let recall: Vec<Prose> = table
        .entries
        .iter()
        .filter_map(|entry| match &entry.what {
            What::Recall(objectives) => Some(objectives),
            _ => None,
        })
        .flatten()
        .filter_map(|(module, id)| {
            let objective = module.objectives.get(id)?;
            Some(Prose::new(inputs.filler.line(module, &objective.say)))
        })
        .collect();
    let groups: Vec<String> = table
        .groups
        .iter()
        .map(|group| format!("{} {}", group.name, group.learners))
        .collect();
    SessionView {
        name: table.name.clone(),
        named,
        indoors: table.indoors,
        lit: table.lit > 0,
        clock: table.entries.iter().map(row).collect(),
        ends: hour(table.ends),
        least_end: hour(table.least_ends),
        has_dropped: !dropped.is_empty(),
        dropped: dropped.join(", "),
        has_refused: !refused.is_empty(),
        refused: refused.join(", "),
        has_recall: !recall.is_empty(),
        recall,
        groups: groups.join(", "),
        rotation: table
            .rotations
            .iter()
            .flat_map(|rotation| rounds(inputs, table, rotation))
            .collect(),
        group_names: table.groups.iter().map(|one| one.name.clone()).collect(),
        proven: table.exact,
    }
}

fn row(entry: &Entry<'_>) -> ClockRow {
    let (title, kind, ratio) = match &entry.what {
        What::Segment(_, segment) => (
            segment.title.as_str(),
            segment.kind.word(),
            format!("1 : {}", segment.learners_per_instructor),
        ),
        What::Recall(_) => ("What do we still know?", "say it", "all".to_owned()),
        What::Drill => ("\"All off\" drill", "do together, unlit", "all".to_owned()),
        What::AllOff => (
            "\"All off!\" called while stoves are lit",
            "do together",
            "all".to_owned(),
        ),
        What::Cooling => ("Cold before it is packed", "do together", "all".to_owned()),
        What::Break => ("Break", "nothing lit", "all".to_owned()),
    };
    ClockRow {
        starts: hour(entry.starts),
        minutes: entry.minutes.to_string(),
        title: title.to_owned(),
        kind: if entry.rounds > 1 {
            format!("{kind}, {} rounds", entry.rounds)
        } else {
            kind.to_owned()
        },
        flame: entry.flame,
        ratio,
        drop: entry
            .drop
            .map_or_else(|| "keep".to_owned(), |place| format!("drop {place}")),
    }
}

/// The rounds of a rotation as rows.
fn rounds(inputs: &Inputs<'_>, table: &Timetable<'_>, rotation: &Rotation) -> Vec<RoundRow> {
    let title = match table.entries.get(rotation.entry).map(|entry| &entry.what) {
        Some(What::Segment(_, segment)) => segment.title.clone(),
        _ => String::new(),
    };
    rotation
        .rounds
        .iter()
        .map(|round| RoundRow {
            starts: hour(round.starts),
            title: title.clone(),
            places: round
                .places
                .iter()
                .map(|place| match place {
                    Some((station, lit)) => Place {
                        at: inputs
                            .trip
                            .kitchens
                            .get(*station)
                            .map_or_else(String::new, |kitchen| kitchen.name.clone()),
                        lit: *lit,
                    },
                    None => Place {
                        at: "behind the line".to_owned(),
                        lit: false,
                    },
                })
                .collect(),
        })
        .collect()
}

fn coverage(inputs: &Inputs<'_>, sources: &mut BTreeSet<String>) -> Vec<CoverageRow> {
    inputs
        .course
        .coverage
        .iter()
        .filter_map(|one| {
            let objective = one.module.objectives.get(&one.objective)?;
            inputs.cite(one.module, &[&objective.say], sources);
            Some(CoverageRow {
                say: Prose::new(inputs.filler.line(one.module, &objective.say)),
                known: one.known,
                sessions: one
                    .sessions
                    .iter()
                    .map(|covering| covering.map_or("no", Covering::word).to_owned())
                    .collect(),
            })
        })
        .collect()
}

/// Minutes after midnight as a clock shows them.
fn hour(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60 % 24, minutes % 60)
}

fn card(
    inputs: &Inputs<'_>,
    module: &Module,
    segment: &Segment,
    entry: &Entry<'_>,
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
    let each = say::time(Time::minutes(f64::from(
        entry.minutes / entry.rounds.max(1),
    )));
    SegmentCard {
        title: segment.title.clone(),
        about: format!(
            "{}, {each}{}{}",
            segment.kind,
            if entry.rounds > 1 {
                format!(" a round, {} rounds", entry.rounds)
            } else {
                String::new()
            },
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
