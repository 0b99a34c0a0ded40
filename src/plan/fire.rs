//! What the fire rule of a trip leaves closed or open beside what it allows: camps where nothing is
//! lit, days that nobody has asked for. One wording for briefing, card, stove choice and front page.

use crate::nouns::{RuleValue, Trip};
use crate::phrase::{Phrase, phrase};

/// What must be said beside the stage and the stoves that are allowed: the id of a caution each, and
/// its words.
#[must_use]
pub fn fire_rule_lacks(trip: &Trip) -> Vec<(&'static str, Phrase)> {
    let mut said = Vec::new();
    if trip.lights_nothing() {
        return said;
    }
    let dark = || trip.camps.iter().filter(|camp| camp.no_stove);
    if dark().next().is_some() {
        let names: Vec<&str> = dark().map(|camp| camp.name.as_str()).collect();
        let mut rules: Vec<&str> = Vec::new();
        for camp in dark() {
            if let Some(RuleValue::Text(rule)) = camp.rules.get("fire.stoves").map(|one| &one.value)
                && !rules.contains(&rule.as_str())
            {
                rules.push(rule);
            }
        }
        said.push((
            "no-flame-there",
            phrase!(
                "fire-none-at",
                camps = names.join(", "),
                rule = rules.join("; ")
            ),
        ));
    }
    if let Some(day) = trip.fire_rule_lacks() {
        said.push((
            "fire-rule-ends",
            phrase!("fire-not-known-from", day = day.to_string()),
        ));
    }
    said
}
