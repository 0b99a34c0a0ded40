//! The slides of a lesson: one idea a page, from the segments that its clock holds.

use super::common::{Head, Prose};
use super::hours::hour;
use super::office::held;
use super::{Filled, Inputs};
use crate::compose::catalogue::text;
use crate::compose::said;
use crate::course::timetable::{Does, Row, Timetable, What};
use crate::doc;
use crate::markdown;
use crate::nouns::{Kind, Module, Segment};
use crate::phrase::{Phrase, phrase};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

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
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
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
            deck.words(
                &said::session(&table.name),
                &begins(inputs, table).join("\n\n"),
            );
        }
        deck.session(table);
    }
    let first = match course.sessions.first() {
        Some(table) if !several => begins(inputs, table),
        _ => course
            .sessions
            .iter()
            .map(|one| said::session(&one.name))
            .collect(),
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
