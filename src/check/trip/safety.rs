//! Restrictions, help, and what one part of a trip says about another.

use super::super::desk::{Desk, Keys};
use crate::load::Node;
use crate::nouns::{Date, Emergency, Kitchen, Library, Restrictions};

/// Fire restrictions as known; a stage that is not stated is not known.
pub(super) fn restrictions(keys: &Keys<'_, '_>) -> Restrictions {
    let Some(node) = keys.get("restrictions") else {
        return Restrictions::default();
    };
    let desk = keys.desk;
    let Some(keys) = desk.keys(node, "`restrictions`") else {
        return Restrictions::default();
    };
    let line = |key, what| {
        keys.get(key)
            .filter(|node| node.text().is_none_or(|text| !text.trim().is_empty()))
            .and_then(|node| desk.line(node, what))
    };
    let stage = line("stage", "the stage of the restrictions");
    let checked = line("checked", "who told it, and when");
    let shut_off = keys
        .get("needs_shut_off")
        .and_then(|node| desk.yes_no(node));
    let no_flame = keys.get("no_flame").and_then(|node| desk.yes_no(node));
    keys.done();
    let (told_shut_off, told_no_flame) = stage.as_deref().map_or((None, None), told);
    if stage.is_some() && checked.is_none() {
        desk.warn(
            node,
            "trip.restrictions",
            "the stage of the fire restrictions is stated, but not who told it and when",
            "ask the land manager and write `checked: ` with the day and the desk",
        );
    }
    Restrictions {
        stage,
        needs_shut_off: shut_off.or(told_shut_off),
        no_flame: no_flame.or(told_no_flame),
        checked,
    }
}

/// What the words of a stage say for sure: (a shut-off valve is needed, no
/// stove may be lit). Words that could mean either say nothing.
fn told(stage: &str) -> (Option<bool>, Option<bool>) {
    let words = stage.to_lowercase().replace('-', " ");
    let has = |part: &str| words.contains(part);
    if ["no stove", "stoves banned", "no flame", "no naked flame"]
        .iter()
        .any(|part| has(part))
    {
        (None, Some(true))
    } else if has("shut off") || has("shutoff") {
        (Some(true), Some(false))
    } else if [
        "none",
        "no restrictions",
        "no restriction",
        "no fire restrictions",
    ]
    .contains(&words.trim())
    {
        (Some(false), Some(false))
    } else {
        (None, None)
    }
}

/// Whom to call.
pub(super) fn emergency(keys: &Keys<'_, '_>) -> Emergency {
    let Some(node) = keys.get("emergency") else {
        return Emergency::default();
    };
    let desk = keys.desk;
    let Some(keys) = desk.keys(node, "`emergency`") else {
        return Emergency::default();
    };
    let call = keys
        .get("call")
        .and_then(|node| desk.line(node, "whom to call"));
    let nearest_help = keys
        .get("nearest_help")
        .and_then(|node| desk.line(node, "the nearest help"));
    keys.done();
    Emergency { call, nearest_help }
}

/// Days after which what a land manager said about fire is old.
const STALE_DAYS: u32 = 31;

/// What one part of a trip says about another.
pub(super) fn cross_checks(
    desk: &Desk,
    root: &Node,
    kitchens: Option<&[Kitchen]>,
    restrictions: &Restrictions,
    starts: Option<Date>,
    library: &Library,
) {
    let kitchens = kitchens.unwrap_or_default();
    let at = root.get("restrictions").unwrap_or(root);
    if restrictions.no_flame == Some(true) {
        desk.warn(
            at,
            "trip.restrictions",
            "the restrictions say that no stove may be lit",
            "plan cold meals (`menu`: `cold`), or ask the land manager again",
        );
    } else if restrictions.needs_shut_off == Some(true) {
        for kitchen in kitchens.iter().filter(|kitchen| !kitchen.stove.shut_off) {
            desk.warn(
                at,
                "trip.restrictions",
                format!(
                    "only stoves with a shut-off valve are allowed, and `{}` of {} has none",
                    kitchen.stove.name, kitchen.name
                ),
                "take another stove for that kitchen",
            );
        }
    }
    if let Some(starts) = starts {
        // who asked long before does not know today's stage
        let asked = restrictions
            .checked
            .as_deref()
            .and_then(|text| Date::read(text.split([',', ' ']).next().unwrap_or(text)));
        if asked.is_some_and(|day| day.plus_days(STALE_DAYS) < starts) {
            desk.warn(
                at.get("checked").unwrap_or(at),
                "trip.restrictions",
                "the fire restrictions were asked for more than a month before the start",
                "ask again shortly before leaving: stages change with the weather",
            );
        }
        let stale: Vec<&str> = library
            .modules
            .values()
            .filter(|module| module.review_by < starts)
            .map(|module| module.id.as_str())
            .collect();
        if let (Some(first), Some(node)) = (stale.first(), root.get("starts")) {
            desk.warn(
                node,
                "trip.review",
                format!(
                    "{} modules are due for review before this trip, `{first}` among them",
                    stale.len()
                ),
                "let the content keeper read them again and move `review_by`",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::told;

    #[test]
    fn only_sure_words_are_taken_for_a_rule() {
        assert_eq!(told("shut-off valve only"), (Some(true), Some(false)));
        assert_eq!(told("none"), (Some(false), Some(false)));
        assert_eq!(told("stage 2"), (None, None));
        assert_eq!(told("No stoves"), (None, Some(true)));
    }
}
