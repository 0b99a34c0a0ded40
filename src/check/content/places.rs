//! Places with their rules, and profiles of organisations.

use super::super::countries::{countries, languages};
use super::super::desk::{Desk, Keys};
use super::super::rules::{RuleKind, each, kind_of};
use super::mark::mark;
use super::prose::{phrase, phrase_with_numbers, prose};
use super::{optional, origin};
use crate::diag::{Told, told};
use crate::load::{self, Node};
use crate::nouns::{Id, Paper, Place, PlaceRule, Profile, RuleValue};
use crate::units::Units;
use std::collections::BTreeMap;

pub(super) fn place(desk: &Desk, name: &Id, node: &Node) -> Option<Place> {
    let keys = desk.keys(node, "a place")?;
    keys.get("extends");
    let title = keys
        .need("title", "name the kind of place")
        .and_then(|node| desk.line(node, "the title"));
    let summary = keys
        .need("summary", "say in a sentence or two what it covers")
        .and_then(|node| phrase(desk, node, "the summary", 400));
    let law = law(&keys);
    let stale_after = keys
        .get("stale_after")
        .map_or(Some(365), |node| desk.whole(node, "days", 1..=3650));
    let rules: BTreeMap<String, PlaceRule> = keys
        .need("rules", "write its rules")
        .map(|node| {
            each(desk, node)
                .into_iter()
                .filter_map(|(key, node)| Some((key.to_owned(), rule(desk, key, node)?)))
                .collect()
        })
        .unwrap_or_default();
    let disagreements = keys
        .get("disagreements")
        .map_or(Some(String::new()), |node| prose(desk, node));
    keys.done();
    let law = law?;
    Some(Place {
        id: name.clone(),
        title: title?,
        summary: summary?,
        country: law.country,
        languages: law.languages,
        units: law.units,
        rules,
        disagreements: disagreements?,
        stale_after: stale_after?,
    })
}

/// Whose rules they are, and how they are written.
struct Law {
    country: Option<String>,
    languages: Vec<String>,
    units: Option<Units>,
}

/// A country with its languages and units, or none of the three.
fn law(keys: &Keys<'_, '_>) -> Option<Law> {
    const CODE: &str = "write its two letters of ISO 3166-1, such as `NZ`";
    const SPOKEN: &str =
        "write the two letters of ISO 639-1 in which its land manager writes, such as `en`";
    let desk = keys.desk;
    let Some(node) = keys.get("country") else {
        for key in ["language", "units"] {
            if let Some(node) = keys.get(key) {
                desk.error::<()>(
                    node,
                    "content.place",
                    told!("`{key}` stands in a place without a country", key),
                    told!(
                        "add `country`, or leave `{key}` out: a kind of place has none of its own",
                        key
                    ),
                );
            }
        }
        return Some(Law {
            country: None,
            languages: Vec::new(),
            units: None,
        });
    };
    let country = code(desk, node, "a country", countries(), CODE);
    let languages: Option<Vec<String>> = keys.need("language", SPOKEN).and_then(|node| {
        desk.list(node, "languages")
            .into_iter()
            .map(|item| code(desk, item, "a language", languages(), SPOKEN))
            .collect()
    });
    let units = keys
        .need("units", "write us, metric or both")
        .and_then(|node| super::super::trip::read_units(desk, node));
    Some(Law {
        country: Some(country?),
        languages: languages?,
        units: Some(units?),
    })
}

/// A code of two letters, exactly as its standard writes it.
fn code(
    desk: &Desk,
    node: &Node,
    what: &'static str,
    mut known: impl Iterator<Item = &'static str>,
    help: &'static str,
) -> Option<String> {
    let text = desk.scalar(node, what)?.trim();
    match known.find(|code| *code == text) {
        Some(code) => Some(code.to_owned()),
        None => desk.error(
            node,
            "content.place",
            told!(
                "`{text}` is not the code of {what}",
                text = super::shown(text),
                what = Told::from(what)
            ),
            help,
        ),
    }
}

fn rule(desk: &Desk, key: &str, node: &Node) -> Option<PlaceRule> {
    let keys = desk.keys(node, "a rule")?;
    let value = match kind_of(key)? {
        RuleKind::Length => keys
            .need("value", "write the distance, such as `value: 200 ft`")
            .and_then(|node| super::super::rules::value(desk, key, node)),
        RuleKind::Text => keys
            .need(
                "text",
                "write the rule in words, such as `text: scatter on soil`",
            )
            .and_then(|node| phrase_with_numbers(desk, node, "the rule", 200))
            .map(RuleValue::Text),
    };
    let origin = origin(&keys, true);
    let note = keys
        .get("note")
        .map_or(Some(String::new()), |node| desk.line(node, "the note"));
    keys.done();
    let origin = origin?;
    if origin.as_of.is_none() {
        desk.error::<()>(
            node,
            "content.place",
            "the rule does not say when it was read",
            "write `as_of: 2027-05-12`, the day on which it was read or agreed: nobody knows otherwise when it is stale",
        );
    }
    Some(PlaceRule {
        value: value?,
        basis: origin.basis,
        sure: origin.sure,
        sources: origin.sources,
        as_of: origin.as_of,
        note: note?,
    })
}

pub(super) fn profile(
    desk: &Desk,
    files: &load::Library,
    name: &Id,
    node: &Node,
) -> Option<Profile> {
    let keys = desk.keys(node, "a profile")?;
    keys.get("extends");
    let shown_name = keys
        .need("name", "name the organisation")
        .and_then(|node| desk.line(node, "the name"));
    let phones = keys.lines("phones", "a phone line");
    let sign_off = keys.lines("sign_off", "a sign-off line");
    let mark = keys.get("mark").map(|node| mark(desk, files, node));
    let paper = keys
        .get("paper")
        .map(|node| desk.word(node, "a size of paper", Paper::ALL, Paper::word));
    let units = keys
        .get("units")
        .map(|node| super::super::trip::read_units(desk, node));
    let languages = keys.lines("language", "a language");
    keys.done();
    Some(Profile {
        id: name.clone(),
        name: shown_name?,
        phones,
        sign_off,
        mark: optional(mark)?,
        paper: optional(paper)?,
        units: optional(units)?,
        languages,
    })
}
