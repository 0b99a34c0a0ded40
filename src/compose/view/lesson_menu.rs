//! The menu of a lesson on its clock: on which flames its water is boiled, who drinks it when, or
//! why it is not made.

use super::hours::{hour, in_minutes};
use super::{Inputs, OneKitchen};
use crate::compose::catalogue::{self, text};
use crate::compose::words;
use crate::course::stated::menu_id;
use crate::course::timetable::{MenuBoil, NotMade, Timetable, What};
use crate::nouns::Meal;
use crate::phrase::{Phrase, phrase};
use crate::units::say;

/// The boils that were looked for on this clock.
fn of<'c>(inputs: &'c Inputs<'_>, table: &Timetable<'_>) -> Vec<&'c MenuBoil> {
    let Ok(course) = &inputs.course else {
        return Vec::new();
    };
    let mut sessions = course.sessions.iter();
    let at = sessions.position(|one| std::ptr::eq(one, table));
    let all = course.menu.iter();
    all.filter(|one| Some(one.session) == at).collect()
}

/// The meals of some boils, each once, as a list.
fn meals<'c>(boils: impl Iterator<Item = &'c MenuBoil>) -> Option<String> {
    let mut named: Vec<Meal> = Vec::new();
    for one in boils {
        if !named.contains(&one.meal) {
            named.push(one.meal);
        }
    }
    let named: Vec<String> = named
        .iter()
        .map(|meal| catalogue::word(meal.word(), &[]))
        .collect();
    (!named.is_empty()).then(|| words::list(&named))
}

/// The title of an entry, with what of the menu is boiled or handed round in it.
#[must_use]
pub fn title(inputs: &Inputs<'_>, table: &Timetable<'_>, entry: usize, title: String) -> String {
    let all = of(inputs, table);
    let boiled = all.iter().copied().filter(|one| {
        let made = one.made.as_ref();
        made.is_ok_and(|made| made.rows.iter().any(|row| table.rows[*row].entry == entry))
    });
    if let Some(meals) = meals(boiled) {
        return text(&phrase!("clock-menu-boiled", title = title, meals = meals));
    }
    let drunk = all.iter().copied().filter(|one| {
        let made = one.made.as_ref();
        made.is_ok_and(|made| made.drunk == entry)
    });
    match meals(drunk) {
        Some(meals) => text(&phrase!("clock-menu-drunk", title = title, meals = meals)),
        None => title,
    }
}

/// What of the menu is boiled at a station in a row: ` (water for supper)`, or nothing.
#[must_use]
pub fn beside(inputs: &Inputs<'_>, table: &Timetable<'_>, row: usize, station: usize) -> String {
    let all = of(inputs, table);
    let here = all.iter().copied().filter(|one| {
        let made = one.made.as_ref();
        one.station == station && made.is_ok_and(|made| made.rows.contains(&row))
    });
    meals(here).map_or_else(String::new, |meals| {
        format!(" ({})", text(&phrase!("clock-menu-water", meals = meals)))
    })
}

/// The whole menu in a paragraph; empty where the lesson has none.
#[must_use]
pub fn paragraph(inputs: &Inputs<'_>, table: &Timetable<'_>) -> String {
    let all = of(inputs, table);
    let cold = |one: &&&MenuBoil| one.made == Err(NotMade::NothingLit);
    let kitchens = inputs.kitchens();
    let each = all
        .iter()
        .filter_map(|one| line(inputs, &kitchens, table, one));
    let mut parts: Vec<String> = each.map(|line| text(&line)).collect();
    if let Some(meals) = meals(all.iter().filter(cold).copied()) {
        parts.push(text(&phrase!("menu-nothing-lit", meals = meals)));
    }
    for why in [NotMade::NoPot, NotMade::NeverBoils] {
        let here: Vec<&MenuBoil> = all
            .iter()
            .copied()
            .filter(|one| one.made == Err(why))
            .collect();
        if let Some(meals) = meals(here.iter().copied()) {
            let stations: Vec<String> = here
                .iter()
                .filter_map(|one| inputs.trip.kitchens.get(one.station))
                .map(|kitchen| kitchen.name.clone())
                .collect();
            let stations = words::list(&stations);
            parts.push(text(&match why {
                NotMade::NoPot => phrase!("menu-no-pot", stations = stations, meals = meals),
                _ => phrase!("menu-never", stations = stations, meals = meals),
            }));
        }
    }
    let made = all.iter().find_map(|one| one.made.as_ref().ok());
    if let Some(made) = made {
        let from = hour(table.entries[made.drunk].starts);
        parts.push(text(&phrase!("menu-handed-round", from = from)));
    }
    parts.join(" ")
}

/// One meal at one station, where its own numbers are told of it.
fn line(
    inputs: &Inputs<'_>,
    kitchens: &[OneKitchen<'_>],
    table: &Timetable<'_>,
    one: &MenuBoil,
) -> Option<Phrase> {
    let kitchen = kitchens.get(one.station).copied()?;
    let tell = |what: &str, words: String| {
        inputs.of_kitchen(kitchen, &format!("{}.{what}", menu_id(one.meal)), words)
    };
    let (station, meal) = (&kitchen.kitchen.name, one.meal);
    match &one.made {
        Ok(made) => {
            let mut titles: Vec<String> = Vec::new();
            for row in &made.rows {
                if let What::Segment(_, segment) = table.entries[table.rows[*row].entry].what
                    && !titles.contains(&segment.title)
                {
                    titles.push(segment.title.clone());
                }
            }
            let rows = made.rows.iter();
            let times: Vec<String> = rows.map(|row| hour(table.rows[*row].starts)).collect();
            Some(phrase!(
                "menu-made",
                station = station,
                meal = meal,
                water = tell("water", say::volume(one.water, inputs.units)),
                people = one.people,
                segment = words::list(&titles),
                times = words::list(&times)
            ))
        }
        Err(NotMade::Short {
            boils,
            each,
            turns,
            burns,
        }) => Some(phrase!(
            "menu-short",
            station = station,
            meal = meal,
            boils = boils,
            each = tell("each", in_minutes(*each)),
            turns = turns,
            burns = tell("burns", in_minutes(*burns))
        )),
        Err(NotMade::NeverBoils | NotMade::NoPot | NotMade::NothingLit) => None,
    }
}
