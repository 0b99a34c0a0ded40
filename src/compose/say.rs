//! Values on their way to a sheet: words under the id of the statement that they say.

use super::catalogue;
use super::view::{Inputs, OneKitchen};
use super::words::capital;
use crate::course::stated::session_id;
use crate::course::timetable::{KitItem, Timetable};
use crate::markdown;
use crate::nouns::id;
use crate::phrase::Arg;
use crate::plan::{Row, Step, Value, statements::container_id};
use crate::units::say::{in_mark, number, significant};
use crate::units::{Temperature, Units};

impl Inputs<'_> {
    /// Words that say a statement.
    ///
    /// The value is the statement's; the words are how this sheet says it. A statement that is
    /// not there is a slip of the program, which the tests find.
    #[must_use]
    pub fn say(&self, of: &str, words: impl AsRef<str>) -> String {
        let statement = self.statements.get(of);
        debug_assert!(statement.is_some(), "bug: nothing is stated under `{of}`");
        let si = statement.and_then(|one| one.value.si());
        markdown::said(of, si, words.as_ref())
    }

    /// Something of a camp: `night`, `boils`, `elevation`.
    #[must_use]
    pub fn of_camp(&self, camp: usize, what: &str, words: impl AsRef<str>) -> String {
        self.say(&format!("camp.{}.{what}", self.camp_slug(camp)), words)
    }

    /// A rule in force at a camp: `soap.use`.
    #[must_use]
    pub fn of_rule(&self, camp: usize, rule: &str, words: impl AsRef<str>) -> String {
        self.say(&format!("rule.{}.{rule}", self.camp_slug(camp)), words)
    }

    /// Something of a kitchen: `likely`, `needed`, `push`, `leg-1.issued`.
    #[must_use]
    pub fn of_kitchen(&self, one: OneKitchen<'_>, what: &str, words: impl AsRef<str>) -> String {
        self.say(&format!("kitchen.{}.{what}", one.plan.slug), words)
    }

    /// Something of one use of the stove: `fuel`, `minutes`, `water`.
    #[must_use]
    pub fn of_row(
        &self,
        one: OneKitchen<'_>,
        row: &Row,
        what: &str,
        words: impl AsRef<str>,
    ) -> String {
        let (camp, meal) = (self.camp_slug(row.camp), id(row.meal.word()));
        self.of_kitchen(one, &format!("{camp}.{meal}.{what}"), words)
    }

    /// Something of a container that a kitchen is handed: `gross`, `net`, `fill`.
    #[must_use]
    pub fn of_container(
        &self,
        one: OneKitchen<'_>,
        number: usize,
        what: &str,
        words: impl AsRef<str>,
    ) -> String {
        self.say(&format!("{}.{what}", container_id(one.plan, number)), words)
    }

    /// Something of a session: `minutes`, `waits`.
    #[must_use]
    pub fn of_session(&self, table: &Timetable<'_>, what: &str, words: impl AsRef<str>) -> String {
        let Ok(course) = &self.course else {
            return words.as_ref().to_owned();
        };
        self.say(&format!("{}.{what}", session_id(course, table)), words)
    }

    /// The result of a printed line.
    #[must_use]
    pub fn of_step(&self, step: &Step, words: impl AsRef<str>) -> String {
        self.say(step.id.as_str(), words)
    }

    /// A name of kit in the language of the sheets.
    #[must_use]
    pub fn kit_name(&self, name: &str) -> String {
        let own = self.library.kit.get(name);
        own.map_or(name, String::as_str).to_owned()
    }

    /// A thing that a lesson brings.
    #[must_use]
    pub fn kit_item(&self, one: &KitItem) -> String {
        match one.item.args().next() {
            Some((_, Arg::Text(name))) if one.item.id() == "as-written" => self.kit_name(name),
            _ => catalogue::text(&one.item),
        }
    }

    fn camp_slug(&self, camp: usize) -> &str {
        let camp = self.plan.camps.get(camp);
        camp.map_or("", |camp| camp.slug.as_str())
    }
}

/// The result of a printed line with its unit, under the line's id.
#[must_use]
pub fn result(step: &Step) -> String {
    let words = format!("{} {}", in_mark(&step.value), catalogue::unit(&step.unit));
    let value = Value::Line(step.number(), step.unit.clone());
    markdown::said(step.id.as_str(), value.si(), words.trim())
}

/// What a printed line works out, in words: what is given stands in them.
#[must_use]
pub fn what(step: &Step) -> String {
    let what = catalogue::text(&step.say);
    markdown::said(&format!("{}.what", step.id), None, &capital(&what))
}

/// A temperature as the fuel worksheet's lines work with it: in °C, with °F where the trip uses it.
#[must_use]
pub fn exact(celsius: Option<String>, point: Temperature, units: Units) -> String {
    let celsius = celsius.map_or_else(|| number(point.in_celsius(), 2), |text| in_mark(&text));
    let celsius = format!("{celsius} °C").replace('-', "\u{2212}");
    match units {
        Units::Metric => celsius,
        Units::Us | Units::Both => format!(
            "{celsius} ({} °F)",
            significant(point.in_fahrenheit(), 4).replace('-', "\u{2212}")
        ),
    }
}
