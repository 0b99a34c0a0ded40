//! The trip with one thing changed at a time, in words: on sheets, on a terminal, as JSON.

use super::catalogue;
use super::view::Inputs;
use super::words;
use crate::nouns::Library;
use crate::phrase::phrase;
use crate::plan::{Change, ChangeKind, Changed, DEGREES, HIGHER, Plan, Trouble};
use crate::units::{Mass, Time, Units, Warming, say};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// What changes, in words. `tell` puts a value, by its id, as the reader's page puts it.
#[must_use]
pub fn change(
    kind: &ChangeKind,
    plan: &Plan,
    library: &Library,
    units: Units,
    tell: &dyn Fn(&str, String) -> String,
) -> String {
    let degrees = || {
        let by = words::warming(Warming::of_kelvins(DEGREES), units);
        tell("change.colder-by", by)
    };
    catalogue::text(&match kind {
        ChangeKind::AsPlanned => phrase!("change-as-planned"),
        ChangeKind::Wind(wind) => phrase!("change-wind", wind = wind),
        ChangeKind::MoreWind => phrase!("change-more-wind"),
        ChangeKind::Lid(true) => phrase!("change-lids-on"),
        ChangeKind::Lid(false) => phrase!("change-no-lid"),
        ChangeKind::Colder => phrase!("change-colder", by = degrees()),
        ChangeKind::Warmer => phrase!("change-warmer", by = degrees()),
        ChangeKind::PersonMore => phrase!("change-person-more"),
        ChangeKind::NightMore(camp) => {
            let camp = plan.camps.get(*camp).map_or("", |camp| camp.name.as_str());
            phrase!("change-night-more", camp = camp)
        }
        ChangeKind::Higher => {
            let by = tell("change.higher-by", say::elevation(HIGHER, units));
            phrase!("change-higher", by = by)
        }
        ChangeKind::FromSnow => phrase!("change-from-snow"),
        ChangeKind::LargerPot => phrase!("change-larger-pot"),
        ChangeKind::Stove(id) => {
            let stove = library.stoves.get(id).map_or(id, |stove| &stove.name);
            phrase!("change-stove", stove = stove)
        }
    })
}

/// What does not work, in words; empty where all is well. `at` says where a pot stops.
fn troubles(one: &Changed, at: impl Fn(crate::units::Temperature) -> String) -> String {
    let words: Vec<String> = one
        .troubles
        .iter()
        .map(|trouble| {
            catalogue::text(&match trouble {
                Trouble::Stops { meal, at: stops } => {
                    phrase!("trouble-stops", meal = meal, at = at(*stops))
                }
                Trouble::CannotHold => phrase!("trouble-cannot-hold"),
                Trouble::Canister { meal, verdict } => {
                    phrase!("trouble-canister", meal = meal, verdict = verdict)
                }
                Trouble::MayNotBoil => phrase!("trouble-may-not-boil"),
            })
        })
        .collect();
    words.join("; ")
}

fn minutes(time: Time) -> String {
    say::number(time.in_minutes(), 0)
}

impl Inputs<'_> {
    /// What changes, in words, its values under their ids.
    #[must_use]
    pub fn change(&self, kind: &ChangeKind) -> String {
        let tell = |id: &str, words: String| self.say(id, words);
        change(kind, self.plan, self.library, self.units, &tell)
    }
}

/// A line of the table of changes, for one kitchen.
pub(super) struct Told {
    pub(super) fuel: String,
    pub(super) take: String,
    pub(super) minutes: String,
    pub(super) works: String,
}

/// What becomes of a kitchen under a change; `tell` as in [`change`], by the last part of the id.
pub(super) fn told(one: &Changed, units: Units, tell: &dyn Fn(&str, String) -> String) -> Told {
    let mass = |what: &str, mass: Option<Mass>| {
        mass.map_or_else(|| "–".to_owned(), |mass| tell(what, say::fuel(mass, units)))
    };
    let why = troubles(one, |at| tell("stops-at", say::temperature(at, units)));
    Told {
        fuel: mass("likely", one.fuel),
        take: mass("needed", one.carry),
        minutes: one
            .minutes
            .map_or_else(|| "–".to_owned(), |time| tell("minutes", minutes(time))),
        works: catalogue::text(&if why.is_empty() {
            phrase!("change-works")
        } else {
            phrase!("change-look", why = why)
        }),
    }
}

fn plainly(_: &str, words: String) -> String {
    words
}

/// The changes as tables for a terminal, one a kitchen.
#[must_use]
pub fn text(rows: &[Change], plan: &Plan, library: &Library, units: Units) -> String {
    let mut text = String::new();
    let named: Vec<String> = rows
        .iter()
        .map(|row| change(&row.kind, plan, library, units, &plainly))
        .collect();
    let width = named.iter().map(|name| name.chars().count()).max();
    let width = width.unwrap_or(0);
    for (index, kitchen) in plan.kitchens.iter().enumerate() {
        let name = kitchen.name.replace(char::is_control, " ");
        let _ = writeln!(text, "\nWhat if: {name}");
        let _ = writeln!(
            text,
            "  {:width$}  {:>16}  {:>16}  {:>9}  will it work",
            "change", "likely fuel", "take", "min a day"
        );
        for (row, name) in rows.iter().zip(&named) {
            let Some(one) = row.kitchens.get(index) else {
                let _ = writeln!(text, "  {name:width$}  cannot be planned");
                continue;
            };
            let told = told(one, units, &plainly);
            let _ = writeln!(
                text,
                "  {name:width$}  {:>16}  {:>16}  {:>9}  {}",
                told.fuel, told.take, told.minutes, told.works
            );
        }
    }
    text
}

/// What becomes of the trip when one thing changes, as `leeside plan --what-if --json` adds it.
#[must_use]
pub fn json(rows: &[Change], plan: &Plan, library: &Library, units: Units) -> Value {
    rows.iter()
        .map(|row| {
            json!({
                "change": change(&row.kind, plan, library, units, &plainly),
                "kitchens": row.kitchens.iter().map(|one| json!({
                    "name": one.name,
                    "fuel_g": one.fuel.map(Mass::in_grams),
                    "carry_g": one.carry.map(Mass::in_grams),
                    "minutes": one.minutes.map(Time::in_minutes),
                    "works": one.troubles.is_empty(),
                    "why": troubles(one, |at| say::temperature(at, units)),
                })).collect::<Vec<_>>(),
            })
        })
        .collect()
}
