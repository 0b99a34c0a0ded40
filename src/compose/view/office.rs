//! The papers around a lesson: what an office, parents, learners and a store room are given. Each is
//! a template of its own, filled from one view, so that what two of them say is the same.

use super::beforehand::{Known, known};
use super::cards::without_words;
use super::common::{Extent, Head, Prose};
use super::hours::hour;
use super::lesson_taught::taught;
use super::office_kit::{Brought, kit, lit};
use super::{Filled, Inputs};
use super::{lesson_clock, lesson_rotation};
use crate::compose::catalogue::{self, text};
use crate::compose::said;
use crate::course::timetable::{Course, Does, Spot, Timetable, What};
use crate::doc;
use crate::nouns::{Kind, Module, Segment, Signal};
use crate::phrase::phrase;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// Rows of a register for one group, where it has fewer learners.
const LEAST_ROWS: u32 = 1;
/// Sentences on a poster.
const POSTER_LINES: usize = 1;
/// Age from which nobody signs for a learner: most countries' law.
const OF_AGE: u32 = 18;

/// What the papers around a lesson say.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Papers {
    /// The head.
    pub head: Head,
    /// Each session: name, day, from, to, what it lights.
    pub sessions: Vec<Held>,
    /// Whether anything is lit.
    pub lit: bool,
    /// Whether learners light, and not only watch.
    pub learners_light: bool,
    /// Whether an adult without a stove is there whenever learners are away from the flames.
    pub free_adult: bool,
    /// Whether a stove with a valve is lit.
    pub valve: bool,
    /// Whether a burner without one is lit.
    pub snuffed: bool,
    /// Whether any session is outdoors.
    pub outdoors: bool,
    /// Whether a shorter plan indoors stands ready.
    pub indoors_ready: bool,
    /// Whether the plan cooks something to eat or drink.
    pub has_menu: bool,
    /// Whether someone may be under age.
    pub child: bool,
    /// Diets and allergies: what, not who.
    pub diet: String,
    /// Whether there are any.
    pub has_diet: bool,
    /// What can happen, and what this plan does about it.
    pub hazards: Vec<Hazard>,
    /// What the plan itself does about it, a line each.
    pub controls: Vec<String>,
    /// What is brought, each thing once.
    pub kit: Vec<Brought>,
    /// What keeps people alive, in the words of the check.
    pub musts: Vec<Prose>,
    /// Whether there is any.
    pub has_musts: bool,
    /// Everything that is checked.
    pub shown: Vec<Shown>,
    /// What to ask a week later.
    pub again: Vec<Prose>,
    /// A poster a station.
    pub posters: Vec<Poster>,
    /// What of it may be known beforehand.
    pub known: Vec<Known>,
    /// Whether anything is checked.
    pub has_known: bool,
    /// The learners, by group and number; never by name.
    pub learners: Vec<String>,
    /// The number to call.
    pub call: String,
    /// Whether it is known.
    pub has_call: bool,
    /// Nearest help.
    pub help: String,
    /// Whether it is known.
    pub has_help: bool,
}

/// A session in one line.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Held {
    /// Its name.
    pub name: String,
    /// Its day; empty where it is not stated.
    pub day: String,
    /// Its hours.
    pub hours: String,
    /// What it lights, or that it lights nothing.
    pub flames: String,
}

/// A hazard.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Hazard {
    /// The signal word.
    #[schemars(example = &"WARNING")]
    pub signal: String,
    /// What it is and what it does.
    pub what: Prose,
}

/// An objective that is checked.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Shown {
    /// What the learner does.
    pub say: Prose,
    /// Whether it keeps people alive.
    pub critical: bool,
}

/// A station's poster.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Poster {
    /// The station.
    pub station: String,
    /// Its stove; empty where nothing is lit.
    pub stove: String,
    /// What is said there, a few lines.
    pub lines: Vec<Prose>,
    /// Whether a page ends before it.
    pub on_new_page: bool,
    /// Its drawing's call; empty where there is none.
    pub drawing: Prose,
    /// Whether there is one.
    pub has_drawing: bool,
}

/// One of these papers; none for a trip, or for a course that cannot be held.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let Ok(course) = &inputs.course else {
        return Vec::new();
    };
    if inputs.trip.kind != Kind::Lesson {
        return Vec::new();
    }
    let mut sources = BTreeSet::new();
    let mut figures = BTreeMap::new();
    let posters = posters(inputs, course, &mut figures);
    let shown = shown(inputs, &mut sources);
    let known = known(inputs);
    let emergency = &inputs.trip.emergency;
    let stoves: Vec<bool> = lit(course)
        .into_iter()
        .filter_map(|station| inputs.trip.kitchens.get(station))
        .map(|kitchen| kitchen.stove.shut_off)
        .collect();
    let mut entries = course.sessions.iter().flat_map(|one| &one.entries);
    let musts: Vec<Prose> = shown
        .iter()
        .filter(|one| one.critical)
        .map(|one| one.say.clone())
        .collect();
    let view = Papers {
        head: inputs.head(title, None, &sources),
        sessions: course
            .sessions
            .iter()
            .map(|one| held(inputs, one))
            .collect(),
        lit: !stoves.is_empty(),
        learners_light: entries.any(|entry| entry.lights_each),
        free_adult: free_adults(course).is_some_and(|free| free > 0),
        valve: stoves.contains(&true),
        snuffed: stoves.contains(&false),
        outdoors: course.sessions.iter().any(|one| !one.indoors),
        indoors_ready: course.fallback.as_ref().is_some_and(|one| one.indoors),
        has_menu: !stoves.is_empty() && inputs.cooks(),
        child: inputs.trip.people.youngest.is_none_or(|age| age < OF_AGE),
        has_diet: !inputs.trip.people.diet.is_empty(),
        diet: inputs.trip.people.diet.join("; "),
        hazards: hazards(inputs, course),
        controls: controls(inputs, course),
        kit: kit(inputs, course),
        again: super::lesson_cover::again(inputs, course),
        has_musts: !musts.is_empty(),
        musts,
        has_known: !known.is_empty(),
        known,
        shown,
        posters,
        learners: learners(course),
        has_call: emergency.call.is_some(),
        call: emergency.call.clone().unwrap_or_default(),
        has_help: emergency.nearest_help.is_some(),
        help: emergency.nearest_help.clone().unwrap_or_default(),
    };
    vec![Filled::of(None, &view, figures)]
}

/// The posters: one side each.
#[must_use]
pub fn station_posters(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let mut filled = sheets(inputs, title);
    for one in &mut filled {
        let posters = one.view.get("posters").and_then(Value::as_array);
        one.most_pages = posters.map(|posters| posters.len().max(1));
    }
    filled
}

pub(super) fn held(inputs: &Inputs<'_>, table: &Timetable<'_>) -> Held {
    let day = table.date.or(inputs.trip.starts);
    Held {
        name: said::session(&table.name),
        day: day.map_or_else(String::new, |day| day.to_string()),
        hours: text(&phrase!(
            "papers-hours",
            from = hour(table.starts),
            to = hour(table.starts + table.length)
        )),
        flames: lesson_clock::flames(inputs, table),
    }
}

/// What can hurt, gravest first, each with what avoids it: all cautions of what is taught and of the
/// group's diets; where something is lit, what can kill of every other subject, and the gravest of
/// those about the stoves that are lit.
fn hazards(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<Hazard> {
    let (asked, beside) = taught(course);
    let taught: Vec<&Module> = asked.into_iter().chain(beside).collect();
    let lit = lit(course);
    let own = |module: &Module| {
        let when = &module.applies;
        let of_stove = !(when.fuel.is_empty() && when.stove.is_empty());
        let mut kitchens = inputs.kitchens().into_iter();
        of_stove && kitchens.any(|one| lit.contains(&one.index) && inputs.holds_for(when, one))
    };
    let kills = |module: &Module| {
        let gravest = inputs.chosen(module, Extent::Gravest);
        gravest
            .first()
            .is_some_and(|one| one.signal == Signal::Danger)
    };
    let others = inputs.modules.iter().copied();
    let others = others
        .filter(|module| !taught.iter().any(|one| one.id == module.id))
        .filter_map(|module| {
            if module.applies.diet {
                return Some((module, Extent::Short));
            }
            let there = !lit.is_empty() && (kills(module) || own(module));
            there.then_some((module, Extent::Gravest))
        });
    let first = taught.iter().map(|module| (*module, Extent::Short));
    let groups = inputs.caution_groups_of(first.chain(others));
    groups
        .into_iter()
        .flat_map(|group| {
            // the box is found by its English word; a cell of a table says it
            let signal = catalogue::word(&group.signal.to_lowercase(), &[]).to_uppercase();
            group.lines.into_iter().map(move |what| Hazard {
                signal: signal.clone(),
                what,
            })
        })
        .collect()
}

/// What the timetable itself does about the hazards.
fn controls(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<String> {
    let safety = &course.safety;
    let mut lines = Vec::new();
    if safety.live > 0 {
        lines.push(phrase!("papers-adult-beside", lit = safety.live));
        match free_adults(course) {
            Some(0) => {}
            Some(_) => lines.push(phrase!("papers-adult-more")),
            None => lines.push(phrase!("papers-nobody-waits")),
        }
        lines.extend([
            phrase!("papers-unlit-first"),
            phrase!("papers-water-at-hand"),
            phrase!("papers-go-or-not"),
        ]);
        lines.extend(super::lesson_head::flame_rules(inputs, course));
    } else {
        lines.push(phrase!("papers-nothing-lit"));
    }
    if course.fallback.as_ref().is_some_and(|one| one.indoors) {
        lines.push(phrase!("papers-bad-weather"));
    }
    if !inputs.trip.people.diet.is_empty() {
        lines.push(phrase!("papers-diet"));
    }
    lines.iter().map(text).collect()
}

/// The fewest adults without a stove while something burns and learners are away from it; none
/// where nobody ever is.
fn free_adults(course: &Course<'_>) -> Option<u32> {
    lesson_rotation::free_while_away(course.sessions.iter().flat_map(|table| &table.rows))
}

/// What is checked, the criticals first, each once.
fn shown(inputs: &Inputs<'_>, sources: &mut BTreeSet<String>) -> Vec<Shown> {
    inputs
        .check
        .targets
        .iter()
        .map(|target| {
            inputs.cite(target.module, &[&target.objective.say], sources);
            Shown {
                say: Prose::new(inputs.filler.line(target.module, &target.objective.say)),
                critical: target.objective.critical,
            }
        })
        .collect()
}

/// A poster for each station at which something is done: its first sentence, and the first drawing
/// of a subject about its stove, as a picture.
fn posters(
    inputs: &Inputs<'_>,
    course: &Course<'_>,
    figures: &mut BTreeMap<String, doc::Figure>,
) -> Vec<Poster> {
    let mut posters = Vec::new();
    let lit = lit(course);
    for one in inputs.kitchens() {
        let (index, kitchen) = (one.index, one.kitchen);
        let here = said_at(course, index);
        if here.is_empty() {
            continue;
        }
        let mut drawing = None;
        for (module, _) in &here {
            if drawing.is_none() {
                drawing = inputs.drawing_for(module, one);
            }
        }
        let lines = here
            .iter()
            .take(POSTER_LINES)
            .map(|(module, segment)| Prose::new(inputs.filler.line(module, &segment.sentence)))
            .collect();
        let has_drawing = drawing.is_some();
        let call = drawing.map_or_else(
            || Prose::new(String::new()),
            |(call, mut figure)| {
                // words as small as a drawing's are not read from where a poster is
                figure.shapes = without_words(figure.shapes);
                figure.caption = String::new();
                figures.insert(figure.id.clone(), figure);
                call
            },
        );
        posters.push(Poster {
            station: kitchen.name.clone(),
            stove: match lit.contains(&index) {
                true => kitchen.stove.name.clone(),
                false => String::new(),
            },
            lines,
            on_new_page: !posters.is_empty(),
            drawing: call,
            has_drawing,
        });
    }
    for (module, segment) in done_alone(course) {
        posters.push(Poster {
            station: segment.title.clone(),
            stove: String::new(),
            lines: vec![Prose::new(inputs.filler.line(module, &segment.alone))],
            on_new_page: !posters.is_empty(),
            drawing: Prose::new(String::new()),
            has_drawing: false,
        });
    }
    posters
}

/// The segments that learners do from a card, without an adult beside them.
fn done_alone<'a>(course: &Course<'a>) -> Vec<(&'a Module, &'a Segment)> {
    let mut found: Vec<(&Module, &Segment)> = Vec::new();
    let rows = course.sessions.iter().flat_map(|table| &table.rows);
    for place in rows.flat_map(|row| &row.places) {
        if let Does::Beside(module, segment) = place.does
            && !segment.alone.is_empty()
            && !found.iter().any(|(_, one)| std::ptr::eq(*one, segment))
        {
            found.push((module, segment));
        }
    }
    found
}

/// The segments that are done at a station, those with a flame first.
fn said_at<'a>(course: &Course<'a>, station: usize) -> Vec<(&'a Module, &'a Segment)> {
    let mut found: Vec<(&Module, &Segment)> = Vec::new();
    for table in &course.sessions {
        for row in &table.rows {
            let here = row
                .places
                .iter()
                .any(|place| place.at == Spot::Station(station));
            let taught = match &table.entries[row.entry].what {
                What::Segment(module, segment) => Some((*module, *segment)),
                What::Carousel(stops) => stops
                    .iter()
                    .find(|one| one.at == Spot::Station(station))
                    .map(|one| (one.module, one.segment)),
                _ => None,
            };
            if let Some((module, segment)) = taught
                && here
                && !segment.sentence.trim().is_empty()
                && !found.iter().any(|(_, one)| std::ptr::eq(*one, segment))
            {
                found.push((module, segment));
            }
        }
    }
    found.sort_by_key(|(module, segment)| (!segment.flame, module.order));
    found
}

/// `A1`, `A2`, ...: names are written by hand.
fn learners(course: &Course<'_>) -> Vec<String> {
    let Some(first) = course.sessions.first() else {
        return Vec::new();
    };
    first
        .groups
        .iter()
        .flat_map(|group| {
            (LEAST_ROWS..=group.learners).map(|number| format!("{}{number}", group.name))
        })
        .collect()
}
