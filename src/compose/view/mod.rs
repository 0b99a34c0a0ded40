//! What each sheet's template sees: texts, flags and lists, never numbers.
//!
//! Every figure here comes from the plan or from a fact and is already in words
//! in the sheet's units, so that a template can neither round nor reckon.

pub mod assess;
pub mod beforehand;
pub mod briefing;
pub mod cards;
pub mod common;
pub mod containers;
pub mod fuel;
pub mod fuel_form;
pub mod fuel_lines;
pub mod handout;
pub mod hours;
pub mod key_charts;
pub mod key_more;
pub mod kitchen;
pub mod lesson;
pub mod lesson_clock;
pub mod lesson_cover;
mod lesson_head;
pub mod lesson_kit;
mod lesson_menu;
pub mod lesson_rotation;
mod lesson_taught;
pub mod notes;
pub mod office;
pub mod office_kit;
pub mod packing;
pub mod practice;
pub mod slides;
pub mod store;
pub mod stoves;
pub mod wash;
mod watched;

use super::catalogue;
use super::prose::Filler;
use crate::course::skills::Check;
use crate::course::timetable::Course;
use crate::diag::Outcome;
use crate::doc;
use crate::nouns::{AppliesWhen, Kind, Kitchen, Level, Library, Module, Question, Trip};
use crate::phrase::phrase;
use crate::plan::{CampPlan, KitchenPlan, Plan, Statements};
use crate::units::Units;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// All that views are made of.
pub struct Inputs<'a> {
    /// The trip.
    pub trip: &'a Trip,
    /// Its numbers.
    pub plan: &'a Plan,
    /// What its sheets may say, by id.
    pub statements: Statements<'a>,
    /// The library.
    pub library: &'a Library,
    /// Fills facts into prose.
    pub filler: Filler<'a>,
    /// The sheet's units.
    pub units: Units,
    /// Whom the fuel worksheet is for, where it was asked for.
    pub level: Option<Level>,
    /// The modules that apply, in order.
    pub modules: Vec<&'a Module>,
    /// The course on the clock, or why the minutes, people and stoves do not hold it: only a
    /// lesson plan is refused for that.
    pub course: Outcome<Course<'a>>,
    /// The skills check: its forms and what is watched.
    pub check: Check<'a>,
    /// How the trip changes its numbers, for the card.
    pub changes: Vec<crate::plan::Change>,
}

/// A filled sheet before its template: what it shows and the figures it may call for.
pub struct Filled {
    /// The kitchen it is for, when there is one sheet a kitchen.
    pub kitchen: Option<String>,
    /// The view.
    pub view: Value,
    /// Figures by id.
    pub figures: BTreeMap<String, doc::Figure>,
    /// Which of several papers of one sheet it is.
    pub part: Option<Part>,
    /// At most so many sides, where that is not what the table of sheets says.
    pub most_pages: Option<usize>,
}

/// One of several papers of a sheet, such as a form of the skills check.
pub struct Part {
    /// What is added to the file's name; nothing for the first.
    pub ending: String,
    /// Its title.
    pub title: String,
    /// What it is for, one line.
    pub about: String,
    /// How many to print.
    pub copies: usize,
    /// For whom.
    pub copies_for: String,
    /// How to print it.
    pub print: String,
    /// At most so many sides.
    pub most_pages: usize,
}

impl Filled {
    /// One sheet without figures.
    ///
    /// A view holds texts, flags and lists, which always become JSON.
    pub fn one(view: &impl Serialize) -> Vec<Self> {
        vec![Self::of(None, view, BTreeMap::new())]
    }

    /// One sheet.
    pub fn of(
        kitchen: Option<String>,
        view: &impl Serialize,
        figures: BTreeMap<String, doc::Figure>,
    ) -> Self {
        Self {
            kitchen,
            view: serde_json::to_value(view).unwrap_or(Value::Null),
            figures,
            part: None,
            most_pages: None,
        }
    }
}

/// A kitchen with its numbers.
#[derive(Clone, Copy)]
pub struct OneKitchen<'a> {
    /// As the trip has it.
    pub kitchen: &'a Kitchen,
    /// As planned.
    pub plan: &'a KitchenPlan,
    /// Its index in the trip and the plan.
    pub index: usize,
}

impl<'a> Inputs<'a> {
    /// Whether conditions hold on this trip.
    #[must_use]
    pub fn holds(&self, applies: &AppliesWhen) -> bool {
        crate::plan::applies(applies, self.trip)
    }

    /// The questions of an objective, those that no form of the check asks and those that one does:
    /// cards and page ask of the others only where the first are none. Sums are drawn elsewhere.
    pub(in crate::compose) fn to_learn_with(
        &self,
        module: &'a Module,
        objective: &str,
    ) -> [Vec<&'a Question>; 2] {
        let on_form = |question: &Question| {
            let mut items = self.check.forms.iter().flat_map(|form| &form.items);
            items.any(|item| item.target.module.id == module.id && item.question.id == question.id)
        };
        let fit = module.questions.iter().filter(|question| {
            question.objective == objective
                && question.sum.is_none()
                && self.holds(&question.applies)
        });
        let (asked, free) = fit.partition(|question| on_form(question));
        [free, asked]
    }

    /// Whether a stove may be lit here, so that sheets speak of stoves and fuel.
    #[must_use]
    pub fn flame(&self) -> bool {
        !self.trip.without_flame()
    }

    /// Whether something is lit: on a trip wherever a stove may be, in a lesson where its clock lights
    /// one or its menu boils. Of a course that cannot be held it is not known, and counts as yes.
    #[must_use]
    pub fn lights(&self) -> bool {
        let clock = match &self.course {
            Ok(course) => course.sessions.iter().any(|table| table.lit > 0),
            Err(_) => true,
        };
        self.flame() && (self.trip.kind != Kind::Lesson || clock || self.cooks())
    }

    /// Whether some meal or drink is brought to the boil.
    #[must_use]
    pub fn cooks(&self) -> bool {
        self.plan.kitchens.iter().any(|one| !one.rows.is_empty())
    }

    /// A camp by its name; the one place of a lesson has none.
    #[must_use]
    pub fn camp_name(&self, camp: &CampPlan) -> String {
        if self.trip.kind == Kind::Lesson {
            catalogue::text(&phrase!("this-place"))
        } else {
            camp.name.clone()
        }
    }

    /// The kitchens with their numbers.
    #[must_use]
    pub fn kitchens(&self) -> Vec<OneKitchen<'a>> {
        self.trip
            .kitchens
            .iter()
            .zip(&self.plan.kitchens)
            .enumerate()
            .map(|(index, (kitchen, plan))| OneKitchen {
                kitchen,
                plan,
                index,
            })
            .collect()
    }

    /// The kitchens that share a sheet: all of them when they cook alike, else each alone.
    #[must_use]
    pub fn groups(&self) -> Vec<(Option<String>, Vec<OneKitchen<'a>>)> {
        let kitchens = self.kitchens();
        let alike = kitchens.windows(2).all(|pair| {
            let (a, b) = (pair[0].kitchen, pair[1].kitchen);
            a.stove == b.stove
                && a.fuel == b.fuel
                && a.feed == b.feed
                && a.screen == b.screen
                && a.measured == b.measured
        });
        if alike {
            vec![(None, kitchens)]
        } else {
            kitchens
                .into_iter()
                .map(|one| (Some(one.kitchen.name.clone()), vec![one]))
                .collect()
        }
    }

    /// A module by its id, if it applies.
    #[must_use]
    pub fn module(&self, id: &str) -> Option<&'a Module> {
        self.modules.iter().copied().find(|module| module.id == id)
    }
}
