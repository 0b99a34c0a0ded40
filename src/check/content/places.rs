//! Places with their rules, and profiles of organisations.

use super::super::desk::{Desk, Keys};
use super::super::rules::{RuleKind, each, kind_of};
use super::prose::{phrase, phrase_with_numbers, prose};
use super::{optional, origin};
use crate::load::Node;
use crate::nouns::{Id, Paper, Place, PlaceRule, Profile, RuleValue};
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
    Some(Place {
        id: name.clone(),
        title: title?,
        summary: summary?,
        rules,
        disagreements: disagreements?,
        stale_after: stale_after?,
    })
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
    Some(PlaceRule {
        value: value?,
        basis: origin.basis,
        sure: origin.sure,
        sources: origin.sources,
        as_of: origin.as_of,
        note: note?,
    })
}

pub(super) fn profile(desk: &Desk, name: &Id, node: &Node) -> Option<Profile> {
    let keys = desk.keys(node, "a profile")?;
    keys.get("extends");
    let shown_name = keys
        .need("name", "name the organisation")
        .and_then(|node| desk.line(node, "the name"));
    let phones = lines(&keys, "phones", "a phone line");
    let sign_off = lines(&keys, "sign_off", "a sign-off line");
    let paper = keys
        .get("paper")
        .map(|node| desk.word(node, "a size of paper", Paper::ALL, Paper::word));
    let units = keys
        .get("units")
        .map(|node| super::super::trip::read_units(desk, node));
    keys.done();
    Some(Profile {
        id: name.clone(),
        name: shown_name?,
        phones,
        sign_off,
        paper: optional(paper)?,
        units: optional(units)?,
    })
}

fn lines(keys: &Keys<'_, '_>, key: &'static str, what: &str) -> Vec<String> {
    keys.get(key)
        .map(|node| {
            keys.desk
                .list(node, what)
                .into_iter()
                .filter_map(|item| keys.desk.line(item, what))
                .collect()
        })
        .unwrap_or_default()
}
