//! The lesson plan: the clock on page 1, who is where, what is brought, then a card for each
//! segment.

use super::common::{CautionGroup, Extent, Head, Prose};
use super::hours::{hour, in_minutes};
use super::lesson_clock::{SessionView, session};
use super::lesson_cover::{CoverageRow, CoveredRow, again, coverage, covered};
use super::lesson_head::{
    Move, adults, fallback_start, go, height, high, high_untaught, lengths, moves,
};
use super::lesson_taught::{Taught, taught, taught_segments};
use super::{Filled, Inputs, lesson_kit};
use crate::compose::catalogue::{self, text};
use crate::compose::cautions::Needed;
use crate::compose::prose;
use crate::compose::said;
use crate::compose::{charts, words};
use crate::course::stated::segment_id;
use crate::course::timetable::{Course, Does};

use crate::phrase::{Phrase, phrase};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// The name of its row in the table of sheets.
pub const NAME: &str = "lesson-plan";

/// Words that four sides behind the clock hold.
const MOST_WORDS: usize = 2400;

/// Words whose room a row of a table or two ticks take.
const ROW_WORDS: usize = 14;
/// As many parts as four sides hold beside kit, cautions and what is covered.
const MANY_PARTS: usize = 14;

/// The lesson plan.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LessonPlan {
    /// The head.
    pub head: Head,
    /// `150 min from 9:00`.
    pub length: String,
    /// Adults a lit stove and most lit at once.
    pub adults: String,
    /// The emergency number.
    pub call: String,
    /// Whether it is known.
    pub has_call: bool,
    /// Nearest help.
    pub help: String,
    /// Whether it is known.
    pub has_help: bool,
    /// Whether anything is lit in any session.
    pub lit: bool,
    /// What must hold before the first flame.
    pub go: String,
    /// What the height does to the pot; empty where it does little.
    pub height: String,
    /// Whether it does anything.
    pub has_height: bool,
    /// A plan a session.
    pub sessions: Vec<SessionView>,
    /// Whether there is a shorter plan.
    pub has_fallback: bool,
    /// Its length and place.
    pub fallback_length: String,
    /// When it starts, and when it must start at the latest.
    pub fallback_start: String,
    /// The shorter plan; one or none.
    pub fallback: Vec<SessionView>,
    /// What is brought.
    pub kit: lesson_kit::Kit,
    /// The names of sessions, for the coverage table.
    pub coverage_heads: Vec<String>,
    /// Objective by session; none where there is one session.
    pub coverage: Vec<CoverageRow>,
    /// Whether there are several sessions to cover objectives in.
    pub has_coverage: bool,
    /// Objectives by what one session does for them; none where there are several.
    pub covered: Vec<CoveredRow>,
    /// Whether there are any.
    pub has_covered: bool,
    /// What to ask again a week later.
    pub again: Vec<Prose>,
    /// Whether there is anything.
    pub has_again: bool,
    /// Whether the choice is proven the best in every session.
    pub proven: bool,
    /// Subjects asked for of which nothing can be held, and why.
    pub not_placed: String,
    /// Whether there are any.
    pub has_not_placed: bool,
    /// Diets and allergies: what, not who.
    pub diet: String,
    /// Whether there are any.
    pub has_diet: bool,
    /// What is left of the fallback, by when it begins.
    pub moves: Vec<Move>,
    /// Whether there is such a table.
    pub has_moves: bool,
    /// A card a segment.
    pub cards: Vec<SegmentCard>,
    /// What instructors read on each subject, as far as there is room.
    pub notes: Vec<Note>,
    /// The sheet that holds them all.
    pub notes_sheet: String,
    /// The subjects whose notes had no room here.
    pub no_room: String,
    /// Whether there are any.
    pub has_no_room: bool,
    /// The cautions of the subjects taught.
    pub cautions: Vec<CautionGroup>,
    /// Calls for drawings of this trip: places, then how the stoves tip.
    pub drawings: Vec<Prose>,
    /// Whether there are any.
    pub has_drawings: bool,
}

/// A segment's card.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SegmentCard {
    /// When it starts; in the fallback only: `fallback`.
    pub starts: String,
    /// Its title.
    pub title: String,
    /// Minutes and kind.
    pub about: String,
    /// What to bring to each station.
    pub kit: String,
    /// Whether anything is brought.
    pub has_kit: bool,
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
}

/// The instructor's box of a subject.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Note {
    /// The subject.
    pub title: String,
    /// The box.
    pub boxed: Prose,
}

/// The lesson plan of a trip or lesson; none where its course cannot be held.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let Ok(course) = &inputs.course else {
        return Vec::new();
    };
    let several = course.sessions.len() > 1;
    let mut sources = BTreeSet::new();
    let cards: Vec<SegmentCard> = taught_segments(course)
        .into_iter()
        .map(|one| card(inputs, course, &one, &mut sources))
        .collect();
    let fallback: Vec<SessionView> = course
        .fallback
        .iter()
        .map(|table| session(inputs, table, false))
        .collect();
    let mut sessions: Vec<SessionView> = course
        .sessions
        .iter()
        .map(|table| session(inputs, table, several))
        .collect();
    let kit = lesson_kit::kit(inputs, course);
    let coverage = coverage(inputs, course, &mut sources);
    let covered = if several {
        Vec::new()
    } else {
        covered(&coverage)
    };
    let coverage = if several { coverage } else { Vec::new() };
    let cautions = cautions(inputs, course);
    let mut room = MOST_WORDS
        .saturating_sub(taken(&cards, &cautions, &sessions, &fallback, &kit))
        .saturating_sub(coverage.len() * ROW_WORDS);
    let mut figures = BTreeMap::new();
    charts::of_sessions(inputs, course, &mut sessions, &mut room, &mut figures);
    let with_notes: Vec<&str> = course
        .subjects
        .iter()
        .filter(|module| !module.instructor.trim().is_empty())
        .map(|module| module.title.as_str())
        .collect();
    let notes = boxes(inputs, course, &mut room, &mut sources);
    let drawings = charts::of_lesson(inputs, &mut room, &mut figures);
    let again = again(inputs, course);
    let emergency = &inputs.trip.emergency;
    let view = LessonPlan {
        head: inputs.head(title, None, &sources),
        length: lengths(inputs, &course.sessions),
        adults: adults(inputs, course),
        has_call: emergency.call.is_some(),
        call: emergency.call.clone().unwrap_or_default(),
        has_help: emergency.nearest_help.is_some(),
        help: emergency.nearest_help.clone().unwrap_or_default(),
        lit: course.sessions.iter().any(|table| table.lit > 0),
        go: go(inputs, course),
        has_height: high(inputs, course).is_some(),
        height: high(inputs, course).map_or_else(String::new, |_| height(inputs)),
        sessions,
        has_fallback: !fallback.is_empty(),
        fallback_length: course.fallback.as_ref().map_or_else(String::new, |table| {
            let minutes = inputs.of_session(table, "minutes", in_minutes(table.length));
            match table.indoors {
                true => text(&phrase!("lesson-indoors", minutes = minutes)),
                false => minutes,
            }
        }),
        fallback_start: fallback_start(course),
        fallback,
        kit,
        coverage_heads: course
            .sessions
            .iter()
            .map(|table| said::session(&table.name))
            .collect(),
        has_coverage: !coverage.is_empty(),
        coverage,
        has_covered: !covered.is_empty(),
        covered,
        has_again: !again.is_empty(),
        again,
        proven: course.sessions.iter().all(|table| table.exact),
        has_not_placed: !course.not_placed.is_empty(),
        not_placed: course
            .not_placed
            .iter()
            .map(|(module, why)| format!("{} ({})", module.title, said::left_out(*why)))
            .collect::<Vec<_>>()
            .join("; "),
        has_diet: !inputs.trip.people.diet.is_empty(),
        diet: inputs.trip.people.diet.join("; "),
        moves: moves(inputs, course),
        has_moves: course.fallback.is_some() && course.sessions.len() == 1,
        cards,
        has_no_room: notes.len() < with_notes.len(),
        no_room: with_notes
            .into_iter()
            .filter(|title| !notes.iter().any(|note| note.title == *title))
            .collect::<Vec<_>>()
            .join("; "),
        notes,
        notes_sheet: catalogue::by_id("sheet-instructor-notes"),
        cautions,
        has_drawings: !drawings.is_empty(),
        drawings,
    };
    // The clock and four sides; a session more has its own clock and rounds, and a long one
    // more parts than four sides hold; words a third longer may take one side more.
    let many = view.cards.len() > MANY_PARTS;
    let sides = 4
        + course.sessions.len()
        + usize::from(many && course.sessions.len() == 1)
        + usize::from(catalogue::language() != "en");
    vec![Filled {
        most_pages: Some(sides),
        ..Filled::of(None, &view, figures)
    }]
}

/// Words that the sides behind the clock hold already.
fn taken(
    cards: &[SegmentCard],
    cautions: &[CautionGroup],
    sessions: &[SessionView],
    fallback: &[SessionView],
    kit: &lesson_kit::Kit,
) -> usize {
    let of_cards: usize = cards
        .iter()
        .map(|card| {
            let prose = [
                &card.set_out,
                &card.show,
                &card.sentence,
                &card.ask,
                &card.watch_for,
                &card.stop_if,
            ];
            let words: usize = prose.iter().map(|one| words::in_text(&one.md)).sum();
            words + words::in_text(&card.kit) + words::in_text(&card.title) + ROW_WORDS
        })
        .sum();
    let of_cautions: usize = cautions
        .iter()
        .flat_map(|group| &group.lines)
        .map(|line| words::in_text(&line.md))
        .sum();
    let rows = sessions.iter().map(|one| one.rotation.len()).sum::<usize>()
        + fallback.iter().map(|one| one.clock.len()).sum::<usize>()
        + kit.fuel.len()
        + (kit.things.len() + kit.safety.len()) / 2;
    let left_out: usize = sessions
        .iter()
        .map(|one| words::in_text(&one.dropped) + words::in_text(&one.others))
        .sum();
    of_cards + of_cautions + rows * ROW_WORDS + left_out
}

/// The instructor's boxes of the subjects, in their order, as many as there is room for.
fn boxes(
    inputs: &Inputs<'_>,
    course: &Course<'_>,
    room: &mut usize,
    sources: &mut BTreeSet<String>,
) -> Vec<Note> {
    let mut notes = Vec::new();
    for module in &course.subjects {
        let words = words::in_text(&module.instructor) + ROW_WORDS;
        if module.instructor.trim().is_empty() || words > *room {
            continue;
        }
        *room -= words;
        inputs.cite(module, &[&module.instructor], sources);
        let text = inputs.filler.prose(module, &module.instructor);
        notes.push(Note {
            title: module.title.clone(),
            boxed: Prose::new(prose::lines_behind(&text, ">")),
        });
    }
    notes
}

/// The cautions of what is taught.
#[must_use]
pub fn needs(inputs: &Inputs<'_>, _: Option<&str>) -> Vec<Needed> {
    let Ok(course) = &inputs.course else {
        return Vec::new();
    };
    let (asked, beside) = taught(course);
    let asked = asked
        .into_iter()
        .chain(high_untaught(inputs, course))
        .flat_map(|module| inputs.needed(module, Extent::Short));
    let beside = beside
        .into_iter()
        .flat_map(|module| inputs.needed(module, Extent::Gravest));
    asked.chain(beside).collect()
}

/// The cautions of the subjects, and the gravest of what is taught beside them.
fn cautions(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<CautionGroup> {
    let (asked, beside) = taught(course);
    inputs.caution_groups_of(
        asked
            .into_iter()
            .chain(high_untaught(inputs, course))
            .map(|module| (module, Extent::Short))
            .chain(beside.into_iter().map(|module| (module, Extent::Gravest))),
    )
}

fn card(
    inputs: &Inputs<'_>,
    course: &Course<'_>,
    one: &Taught<'_, '_>,
    sources: &mut BTreeSet<String>,
) -> SegmentCard {
    let (module, segment) = (one.module, one.segment);
    let mut line = |text: &str| {
        inputs.cite(module, &[text], sources);
        Prose::new(inputs.filler.line(module, text))
    };
    let wanted = segment.kit.iter();
    let kit: Vec<String> = wanted
        .map(|(what, count, each)| wanted_kit(inputs.kit_name(what), *count, *each))
        .collect();
    let at = one.session.map_or_else(
        || "fallback".to_owned(),
        |session| format!("session.{}", session + 1),
    );
    let mut about = match one.entry {
        None => {
            let lit = one
                .session
                .is_some_and(|session| course.sessions[session].lit > 0);
            let burns = one
                .session
                .is_some_and(|at| beside_a_flame(course, at, one));
            let mut about = vec![text(&match (burns, lit) {
                (true, _) => phrase!("lesson-beside-flame"),
                (false, true) => phrase!("lesson-while-resting"),
                (false, false) => phrase!("lesson-while-others"),
            })];
            if !segment.alone.is_empty() {
                about.push(text(&phrase!("lesson-from-card")));
            }
            about
        }
        Some(entry) => {
            let a_round = inputs.say(
                &format!("{}.a-round", segment_id(&at, &module.id, &segment.id)),
                in_minutes(entry.minutes / entry.rounds.max(1)),
            );
            vec![match entry.rounds {
                0 | 1 => a_round,
                rounds => text(&phrase!(
                    "lesson-a-round",
                    minutes = a_round,
                    rounds = rounds
                )),
            }]
        }
    };
    about.push(catalogue::word(segment.kind.word(), &[]));
    if segment.flame {
        about.push(text(&phrase!("lesson-flame-on")));
    }
    SegmentCard {
        starts: match one.session {
            None => text(&phrase!("lesson-fallback")),
            Some(index) if course.sessions.len() > 1 => {
                let name = said::session(&course.sessions[index].name);
                format!("{name}, {}", hour(one.starts))
            }
            Some(_) => hour(one.starts),
        },
        title: segment.title.clone(),
        about: about.join(", "),
        has_kit: !kit.is_empty(),
        kit: kit.join("; "),
        set_out: line(&segment.set_out),
        show: line(&segment.show),
        sentence: line(&segment.sentence),
        ask: line(&segment.ask),
        watch_for: line(&segment.watch_for),
        stop_if: line(&segment.stop_if),
    }
}

/// Whether a stove burns in any row in which a segment is done beside the others' turns.
fn beside_a_flame(course: &Course<'_>, session: usize, one: &Taught<'_, '_>) -> bool {
    let here = |does: &Does<'_>| {
        matches!(does, Does::Beside(module, segment)
            if module.id == one.module.id && segment.id == one.segment.id)
    };
    course.sessions[session].rows.iter().any(|row| {
        row.places.iter().any(|place| place.lit) && row.places.iter().any(|place| here(&place.does))
    })
}

/// A thing to bring: so many a station, so many a learner.
fn wanted_kit(what: String, stations: u32, each: u32) -> String {
    let said: Phrase = match (stations, each) {
        (1, 0) => return what,
        (count, 0) => return format!("{count} × {what}"),
        (0, each) => phrase!("lesson-kit-each", what = what, count = each),
        (stations, each) => phrase!(
            "lesson-kit-both",
            stations = stations,
            what = what,
            count = each
        ),
    };
    text(&said)
}
