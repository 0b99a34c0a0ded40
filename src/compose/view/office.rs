//! The papers around a lesson: what an office, parents, learners and a store room are given. Each is
//! a template of its own, filled from one view, so that what two of them say is the same.

use super::beforehand::{Known, known};
use super::cards::without_words;
use super::common::{Extent, Head, Prose};
use super::hours::hour;
use super::lesson::taught;
use super::lesson_clock;
use super::{Filled, Inputs};
use crate::compose::catalogue::{self, text};
use crate::course::timetable::{Course, Does, Row, Spot, Timetable, What};
use crate::doc;
use crate::markdown;
use crate::nouns::{Kind, Module, Segment};
use crate::phrase::{Phrase, phrase};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// Rows of a register for one group, where it has fewer learners.
const LEAST_ROWS: u32 = 1;
/// Sentences on a poster.
const POSTER_LINES: usize = 1;
/// Questions asked again a week later.
const AGAIN: usize = 6;

/// What the papers around a lesson say.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Papers {
    /// The head.
    pub head: Head,
    /// Each session: name, day, from, to, what it lights.
    pub sessions: Vec<Held>,
    /// Whether anything is lit.
    pub lit: bool,
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

/// A thing to bring.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Brought {
    /// What.
    pub item: String,
    /// How many.
    pub count: String,
    /// For which stations.
    pub stations: String,
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
    /// Its stove; empty where learners are by themselves, with nothing lit.
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
    let (asked, _) = taught(course);
    let posters = posters(inputs, course, &mut figures);
    let shown = shown(inputs, &mut sources);
    let known = known(inputs);
    let emergency = &inputs.trip.emergency;
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
        lit: course.sessions.iter().any(|one| one.lit > 0),
        has_diet: !inputs.trip.people.diet.is_empty(),
        diet: inputs.trip.people.diet.join("; "),
        hazards: hazards(inputs, &asked),
        controls: controls(inputs, course),
        kit: kit(inputs, course),
        again: shown
            .iter()
            .take(AGAIN)
            .map(|one| one.say.clone())
            .collect(),
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

fn held(inputs: &Inputs<'_>, table: &Timetable<'_>) -> Held {
    let day = table.date.or(inputs.trip.starts);
    Held {
        name: table.name.clone(),
        day: day.map_or_else(String::new, |day| day.to_string()),
        hours: text(&phrase!(
            "papers-hours",
            from = hour(table.starts),
            to = hour(table.starts + table.length)
        )),
        flames: lesson_clock::flames(inputs, table),
    }
}

/// The cautions of the subjects, gravest first, each with what avoids it.
fn hazards(inputs: &Inputs<'_>, asked: &[&Module]) -> Vec<Hazard> {
    let groups = inputs.caution_groups_of(asked.iter().map(|module| (*module, Extent::Short)));
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
        lines.extend([
            phrase!("papers-adult-beside", lit = safety.live),
            phrase!("papers-adult-more"),
            phrase!("papers-unlit-first"),
            phrase!("papers-cold-again"),
            phrase!("papers-water-at-hand"),
            phrase!("papers-go-or-not"),
        ]);
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

fn kit(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<Brought> {
    let mut all: Vec<Brought> = course
        .kit
        .iter()
        .map(|one| Brought {
            item: inputs.kit_item(one),
            count: one.count.to_string(),
            stations: one.stations.join(", "),
        })
        .collect();
    let safety = &course.safety;
    for (item, count) in [
        (phrase!("papers-bucket"), safety.live),
        (phrase!("papers-burn-kit"), safety.burn_kits),
        (phrase!("papers-hot-place"), safety.cold_down),
        (phrase!("papers-hair-tie"), safety.hair_ties),
        (phrase!("papers-lighter"), safety.lighters),
    ] {
        let item = text(&item);
        let known = all.iter().any(|one| one.item == item);
        if count > 0 && !known {
            all.push(Brought {
                item,
                count: count.to_string(),
                stations: String::new(),
            });
        }
    }
    all
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
    for (index, kitchen) in inputs.trip.kitchens.iter().enumerate() {
        let here = said_at(course, index);
        if here.is_empty() {
            continue;
        }
        let mut drawing = None;
        for (module, _) in &here {
            if drawing.is_none() {
                drawing = inputs.drawings_of(module).into_iter().next();
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
            stove: kitchen.stove.name.clone(),
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

/// The slides of a lesson.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Slides {
    /// The head.
    pub head: Head,
    /// The first page's words.
    pub first: Vec<String>,
    /// The other pages.
    pub slides: Vec<Slide>,
}

/// A page.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Slide {
    /// What it is about.
    pub title: String,
    /// The idea.
    pub idea: Prose,
    /// Its drawing's call; empty where there is none.
    pub drawing: Prose,
    /// Whether there is one.
    pub has_drawing: bool,
}

/// The slides; none for a trip, or for a course that cannot be held.
#[must_use]
pub fn slides(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let Some(course) = inputs
        .course
        .as_ref()
        .ok()
        .filter(|_| inputs.trip.kind == Kind::Lesson)
    else {
        return Vec::new();
    };
    let mut deck = Deck {
        inputs,
        slides: Vec::new(),
        figures: BTreeMap::new(),
        shown: BTreeSet::new(),
        told: BTreeSet::new(),
    };
    let several = course.sessions.len() > 1;
    for table in &course.sessions {
        if several {
            deck.words(&table.name, &begins(inputs, table).join("\n\n"));
        }
        deck.session(table);
    }
    let first = match course.sessions.first() {
        Some(table) if !several => begins(inputs, table),
        _ => course.sessions.iter().map(|one| one.name.clone()).collect(),
    };
    let view = Slides {
        head: inputs.head(title, None, &BTreeSet::new()),
        first,
        slides: deck.slides,
    };
    vec![Filled::of(None, &view, deck.figures)]
}

/// Day and hours of a session, and whether it lights anything.
fn begins(inputs: &Inputs<'_>, table: &Timetable<'_>) -> Vec<String> {
    let held = held(inputs, table);
    let flames = text(&match table.lit {
        0 => phrase!("slide-nothing-lit"),
        _ => phrase!("slide-stoves-lit"),
    });
    let when = [held.day, held.hours]
        .into_iter()
        .filter(|one| !one.is_empty());
    vec![when.collect::<Vec<_>>().join(", "), flames]
}

/// Pages as they grow.
struct Deck<'i, 'a> {
    inputs: &'i Inputs<'a>,
    slides: Vec<Slide>,
    figures: BTreeMap<String, doc::Figure>,
    /// Modules whose drawing has stood on a page.
    shown: BTreeSet<String>,
    /// Segments that have had their page.
    told: BTreeSet<(String, String)>,
}

impl Deck<'_, '_> {
    /// A page of words that are no module's.
    fn words(&mut self, title: &str, words: &str) {
        let lines: Vec<String> = words.split("\n\n").map(markdown::escape).collect();
        self.slides.push(Slide {
            title: title.to_owned(),
            idea: Prose::new(lines.join("\n\n")),
            drawing: Prose::default(),
            has_drawing: false,
        });
    }

    /// A page of the sheets' own words.
    fn says(&mut self, title: &Phrase, words: &Phrase) {
        self.words(&text(title), &text(words));
    }

    /// The pages of a session, entry by entry: what is done beside a flame stands where it begins.
    fn session(&mut self, table: &Timetable<'_>) {
        for (index, entry) in table.entries.iter().enumerate() {
            match &entry.what {
                What::Segment(module, segment) => self.segment(module, segment),
                What::Carousel(stops) => {
                    for one in stops {
                        self.segment(one.module, one.segment);
                    }
                }
                What::Recall(_) => {
                    self.says(&phrase!("clock-recall"), &phrase!("slide-recall"));
                }
                What::AllOff => {
                    self.says(&phrase!("slide-all-off"), &phrase!("slide-all-off-do"));
                }
                What::Break => {
                    let on = phrase!("slide-go-on", hour = hour(entry.ends()));
                    self.says(&phrase!("clock-break"), &on);
                }
                What::Worksheet => {
                    let until = phrase!("slide-worksheet-until", hour = hour(entry.ends()));
                    self.says(&phrase!("slide-worksheet"), &until);
                }
                What::Form => self.says(&phrase!("slide-form"), &phrase!("slide-form-alone")),
                What::Check(_) => self.says(&phrase!("slide-show"), &phrase!("slide-show-tick")),
                What::Drill | What::Cooling | What::HandOut | What::ClearUp => {}
            }
            let rows: Vec<&Row<'_>> = table.rows.iter().filter(|row| row.entry == index).collect();
            for place in rows.iter().flat_map(|row| &row.places) {
                if let Does::Beside(module, segment) = place.does {
                    self.segment(module, segment);
                }
            }
        }
    }

    /// A segment's pages: its sentence; its module's drawing, the first time; its question.
    fn segment(&mut self, module: &Module, segment: &Segment) {
        let new = self.told.insert((module.id.clone(), segment.id.clone()));
        if !new || segment.sentence.trim().is_empty() {
            return;
        }
        let drawing = Some(module)
            .filter(|module| self.shown.insert(module.id.clone()))
            .and_then(|module| self.inputs.drawings_of(module).into_iter().next());
        let line = |text: &str| Prose::new(self.inputs.filler.line(module, text));
        self.slides.push(Slide {
            title: segment.title.clone(),
            idea: line(&segment.sentence),
            drawing: Prose::default(),
            has_drawing: false,
        });
        if let Some((call, figure)) = drawing {
            self.figures.insert(figure.id.clone(), figure);
            self.slides.push(Slide {
                title: text(&phrase!("slide-look")),
                idea: Prose::default(),
                drawing: call,
                has_drawing: true,
            });
        }
        if !segment.ask.trim().is_empty() {
            self.slides.push(Slide {
                title: text(&phrase!("slide-your-turn", title = segment.title)),
                idea: line(&segment.ask),
                drawing: Prose::default(),
                has_drawing: false,
            });
        }
    }
}
