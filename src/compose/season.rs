//! The papers of a season as a whole: the list of days, a cover for each day's packets, the slip
//! that tells what changed in one.

use super::catalogue::text;
use super::{front, words};
use crate::markdown::escape;
use crate::nouns::{Date, STALE_DAYS, StoveRule, Trip};
use crate::phrase::{Phrase, phrase};
use crate::plan::Plan;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What a season's papers say of one departure.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// Its first day, as `2027-06-01`.
    pub day: Option<String>,
    /// The title of its trip.
    pub title: String,
    /// Where it goes: its camps or its place.
    pub places: String,
    /// When, who, fuel, whom to call: each with its name.
    pub facts: Vec<(String, String)>,
    /// What someone must see to before it leaves.
    pub red: Vec<String>,
    /// New containers to have ready, by name.
    pub containers: BTreeMap<String, u32>,
    /// Part-used ones that it takes, by tag.
    pub tags: Vec<String>,
    /// Which state of trip, content and program its papers were made from.
    pub revision: String,
    /// Sides of its bound packet.
    pub sides: usize,
    /// The day on which it is back, as `2027-06-04`.
    pub back: Option<String>,
    /// The sheets of its bound packet, in order.
    pub sheets: Vec<Bound>,
}

/// A sheet of a bound packet.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Bound {
    /// Its title, with its kitchen.
    pub title: String,
    /// Its file, seen from the packet's folder.
    pub file: String,
    /// Its pages.
    pub pages: usize,
    /// How many copies are printed.
    pub copies: u32,
    /// Leaves of paper for all of them.
    pub leaves: usize,
    /// Its pages, counted from 1, whose back stays empty.
    pub empty_backs: Vec<usize>,
    /// Whether it is what the store room gets back.
    pub returns: bool,
}

/// What the papers of a season say of a trip.
#[must_use]
pub fn row(name: &str, trip: &Trip, plan: &Plan, facts: &[(String, String)]) -> Row {
    let mut containers: BTreeMap<String, u32> = BTreeMap::new();
    let mut tags = Vec::new();
    for one in plan.kitchens.iter().flat_map(|kitchen| &kitchen.containers) {
        match &one.tag {
            Some(tag) => tags.push(tag.clone()),
            None => *containers.entry(one.name.clone()).or_default() += one.count,
        }
    }
    let places: Vec<String> = trip.camps.iter().map(|camp| camp.name.clone()).collect();
    Row {
        name: name.to_owned(),
        day: trip.starts.map(|date| date.to_string()),
        title: trip.title.clone(),
        places: words::list(&places),
        facts: facts.to_vec(),
        red: red(trip),
        containers,
        tags,
        revision: String::new(),
        sides: 0,
        back: trip.ends().map(|date| date.to_string()),
        sheets: Vec::new(),
    }
}

/// What someone must see to before a trip leaves.
fn red(trip: &Trip) -> Vec<String> {
    let mut red = Vec::new();
    let rule = &trip.restrictions;
    match rule.stoves {
        None => red.push(phrase!("red-no-fire-rule")),
        Some(StoveRule::No) => red.push(phrase!("red-no-stove")),
        Some(_) => {}
    }
    if let (Some(until), Some(starts)) = (rule.until, trip.starts)
        && until < starts
    {
        red.push(phrase!("red-known-until", until = until.to_string()));
    }
    if let (Some(asked), Some(starts)) = (rule.asked(), trip.starts) {
        let asked_on = asked.to_string();
        if asked > starts {
            red.push(phrase!("red-asked-after", asked = asked_on));
        } else if asked.plus_days(STALE_DAYS) < starts {
            red.push(phrase!("red-asked-long-before", asked = asked_on));
        }
    }
    if rule.stoves.is_some() && rule.checked.is_none() {
        red.push(phrase!("red-nobody-asked"));
    }
    if trip.starts.is_none() {
        red.push(phrase!("red-no-first-day"));
    }
    if trip.emergency.call.is_none() {
        red.push(phrase!("red-no-number"));
    }
    for canister in &trip.canisters_on_hand {
        if canister.tare.is_none() {
            red.push(phrase!("red-no-tare", tag = canister.tag));
        }
    }
    red.iter().map(text).collect()
}

/// A departure on the list: its row, and words for people.
#[derive(Clone, Copy)]
pub struct Listed<'a> {
    /// The row, where its packet is made.
    pub row: &'a Row,
    /// Words of the table that are no keys: guide, van.
    pub notes: &'a [(String, String)],
    /// Whether it has left or is over: nothing is to be had ready for it any more.
    pub gone: bool,
}

/// A row for a departure that has no papers: what is known of it all the same.
#[must_use]
pub fn without_papers(name: &str, starts: Option<Date>) -> Row {
    Row {
        name: name.to_owned(),
        day: starts.map(|day| day.to_string()),
        red: vec![text(&phrase!("red-no-papers"))],
        ..Row::default()
    }
}

/// The list of days: who leaves, with whom and what, and what to see to; then what to order.
#[must_use]
pub fn day_list(title: &str, listed: &[Listed<'_>]) -> String {
    let mut list = format!("# {}\n\n", of(&phrase!("season-days", title = title)));
    let head = table(&[
        (phrase!("season-departure"), ""),
        (phrase!("season-trip"), ""),
        (phrase!("season-take"), ""),
        (phrase!("season-see-to"), ""),
    ]);
    let mut back: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for one in listed {
        if let Some(day) = one.row.back.as_deref() {
            back.entry(day).or_default().push(&one.row.name);
        }
    }
    let mut days: BTreeMap<(bool, Option<String>), Vec<&Listed<'_>>> = by_day(listed)
        .into_iter()
        .map(|(day, here)| ((day.is_none(), day), here))
        .collect();
    for day in back.keys() {
        days.entry((false, Some((*day).to_owned()))).or_default();
    }
    for ((_, day), here) in days {
        let heading = day
            .clone()
            .unwrap_or_else(|| text(&phrase!("season-no-day")));
        list.push_str(&format!("## {}\n\n", escape(&heading)));
        if let Some(names) = day.as_deref().and_then(|day| back.get(day)) {
            let said = phrase!("season-come-back", departures = names.join(", "));
            list.push_str(&format!("{}\n\n", of(&said)));
        }
        if here.is_empty() {
            continue;
        }
        list.push_str(&head);
        for one in here {
            let mut name = escape(&one.row.name);
            for (head, note) in one.notes {
                name.push_str(&format!("; {}: {}", escape(head), escape(note)));
            }
            let who = fact(one.row, &front::who_is_named())
                .map_or_else(String::new, |who| format!("; {}", escape(who)));
            list.push_str(&format!(
                "| {name} | {}{who} | {} | {} |\n",
                escape(&one.row.title),
                escape(&take(one.row)),
                escape(&one.row.red.join("; ")),
            ));
        }
        list.push('\n');
    }
    list.push_str(&to_order(listed));
    list
}

/// Words of the catalogue as plain text in Markdown.
pub(super) fn of(phrase: &Phrase) -> String {
    escape(&text(phrase))
}

/// The head of a table; a column of numbers has `:` for its side.
pub(super) fn table(heads: &[(Phrase, &str)]) -> String {
    let words = heads.iter().map(|(head, _)| format!(" {} |", of(head)));
    let rule = heads.iter().map(|(_, side)| format!("---{side}|"));
    format!(
        "|{}\n|{}\n",
        words.collect::<String>(),
        rule.collect::<String>()
    )
}

/// Departures by their first day; those without one last.
#[must_use]
pub fn by_day<'a, 'b>(listed: &'b [Listed<'a>]) -> Vec<(Option<String>, Vec<&'b Listed<'a>>)> {
    let mut days: BTreeMap<(bool, Option<String>), Vec<&Listed<'_>>> = BTreeMap::new();
    for one in listed {
        let day = one.row.day.clone();
        days.entry((day.is_none(), day)).or_default().push(one);
    }
    days.into_iter()
        .map(|((_, day), here)| (day, here))
        .collect()
}

fn fact<'a>(row: &'a Row, name: &str) -> Option<&'a str> {
    row.facts
        .iter()
        .find(|(one, _)| one == name)
        .map(|(_, fact)| fact.as_str())
}

/// Containers as a list of words.
#[must_use]
pub fn take(row: &Row) -> String {
    let new = row
        .containers
        .iter()
        .map(|(name, count)| format!("{count} x {name}"));
    let used = row.tags.iter().cloned();
    new.chain(used).collect::<Vec<_>>().join("; ")
}

/// New containers to have ready, by week (ISO 8601) and kind: week, container, count.
#[must_use]
pub fn orders(listed: &[Listed<'_>]) -> Vec<[String; 3]> {
    let mut weeks: BTreeMap<(bool, String), BTreeMap<String, u32>> = BTreeMap::new();
    for one in listed.iter().filter(|one| !one.gone) {
        let day = one.row.day.as_deref().and_then(Date::read);
        let week = day.map_or_else(
            || (true, text(&phrase!("season-order-no-day"))),
            |date| {
                let monday = date.monday().to_string();
                (false, text(&phrase!("season-week-of", monday = monday)))
            },
        );
        let here = weeks.entry(week).or_default();
        for (name, count) in &one.row.containers {
            *here.entry(name.clone()).or_default() += count;
        }
    }
    let mut orders = Vec::new();
    for ((_, week), containers) in weeks {
        for (name, count) in containers {
            orders.push([week.clone(), name, count.to_string()]);
        }
    }
    orders
}

/// What has to be in the store room.
fn to_order(listed: &[Listed<'_>]) -> String {
    let mut list = format!(
        "## {}\n\n{}\n\n{}",
        of(&phrase!("season-to-have-ready")),
        of(&phrase!("season-new-containers")),
        table(&[
            (phrase!("season-week"), ""),
            (phrase!("season-container"), ""),
            (phrase!("season-count"), ""),
        ])
    );
    for [week, name, count] in orders(listed) {
        list.push_str(&format!("| {week} | {} | {count} |\n", escape(&name)));
    }
    list
}

/// What changed in a departure's papers since they were made before.
#[must_use]
pub fn slip(old: &Row, new: &Row) -> String {
    let mut slip = format!(
        "# {}\n\n{}\n\n",
        of(&phrase!("slip-title", departure = new.name)),
        of(&phrase!(
            "slip-take-out",
            new = new.revision,
            old = old.revision
        )),
    );
    let mut changes = Vec::new();
    let mut add = |name: &str, was: &str, is: &str| {
        if was != is {
            let said = |text: &str| {
                if text.is_empty() {
                    of(&phrase!("slip-nothing"))
                } else {
                    escape(text)
                }
            };
            changes.push(format!(
                "| {} | {} | {} |\n",
                escape(name),
                said(was),
                said(is)
            ));
        }
    };
    add(&text(&phrase!("season-trip")), &old.title, &new.title);
    add(&text(&phrase!("slip-places")), &old.places, &new.places);
    for (name, is) in &new.facts {
        add(name, fact(old, name).unwrap_or_default(), is);
    }
    for (name, was) in &old.facts {
        if fact(new, name).is_none() {
            add(name, was, "");
        }
    }
    add(&text(&phrase!("season-take")), &take(old), &take(new));
    if changes.is_empty() {
        slip.push_str(&format!("{}\n", of(&phrase!("slip-inside"))));
    } else {
        slip.push_str(&table(&[
            (phrase!("slip-what"), ""),
            (phrase!("slip-was"), ""),
            (phrase!("slip-is"), ""),
        ]));
        slip.extend(changes);
    }
    slip
}
