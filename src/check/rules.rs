//! Rules of places and trips: which there are, and what kind of value each has.

use super::desk::{Desk, shown, suggestion};
use crate::diag::{Told, told};
use crate::load::{Node, Value, folded_key};
use crate::nouns::RuleValue;
use crate::units::Length;

/// What the value of a rule is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum RuleKind {
    Length,
    Text,
}

/// Every rule that a place or a trip may set.
pub(super) const RULES: &[(&str, RuleKind)] = &[
    ("greywater.distance", RuleKind::Length),
    ("greywater.from", RuleKind::Text),
    ("greywater.method", RuleKind::Text),
    ("soap.use", RuleKind::Text),
    ("soap.distance", RuleKind::Length),
    ("food.storage", RuleKind::Text),
    ("fire.stoves", RuleKind::Text),
    ("fire.clear", RuleKind::Length),
    ("burying", RuleKind::Text),
    ("camp.distance", RuleKind::Length),
    ("fuel.storage", RuleKind::Text),
];

/// The kind of a rule, if there is such a rule.
pub(super) fn kind_of(key: &str) -> Option<RuleKind> {
    RULES
        .iter()
        .find(|(name, _)| *name == key)
        .map(|(_, kind)| *kind)
}

/// The rules of a block, each with its key and node. Groups are blocks
/// (`greywater:` with `distance:` below it) or dotted keys.
pub(super) fn each<'n>(desk: &Desk, node: &'n Node) -> Vec<(&'static str, &'n Node)> {
    let mut found = Vec::new();
    let Some(_) = desk.keys(node, "`rules`") else {
        return found;
    };
    for entry in node.entries() {
        let group = folded_key(&entry.key);
        if group == "checked" {
            continue;
        }
        if let Some((name, _)) = RULES.iter().find(|(name, _)| *name == group) {
            found.push((*name, &entry.node));
            continue;
        }
        let prefix = format!("{group}.");
        let of_group: Vec<&str> = RULES
            .iter()
            .filter_map(|(name, _)| name.strip_prefix(&prefix))
            .collect();
        if of_group.is_empty() {
            let mut groups: Vec<&str> = RULES
                .iter()
                .map(|(name, _)| name.split('.').next().unwrap_or(name))
                .collect();
            groups.dedup();
            unknown(desk, &entry.node, &entry.key, &group, &groups);
            continue;
        }
        if !matches!(entry.node.value, Value::Map(_)) {
            desk.error::<()>(
                &entry.node,
                "value.shape",
                told!(
                    "expected the rules on {group} (a block), found {kind}",
                    group,
                    kind = Told::from(entry.node.kind())
                ),
                told!(
                    "write `{of_group}: ..` on the next line, two spaces further in",
                    of_group = of_group[0]
                ),
            );
            continue;
        }
        for rule in entry.node.entries() {
            let wanted = format!("{prefix}{}", folded_key(&rule.key));
            match RULES.iter().find(|(name, _)| *name == wanted) {
                Some((name, _)) => found.push((*name, &rule.node)),
                None => unknown(
                    desk,
                    &rule.node,
                    &rule.key,
                    &folded_key(&rule.key),
                    &of_group,
                ),
            }
        }
    }
    found
}

fn unknown(desk: &Desk, node: &Node, key: &str, folded: &str, known: &[&str]) {
    desk.error::<()>(
        node,
        "key.unknown",
        told!("`{key}` is not known here as a rule", key = shown(key)),
        suggestion(folded, known.iter().copied()),
    );
}

/// The value of a rule.
pub(super) fn value(desk: &Desk, key: &str, node: &Node) -> Option<RuleValue> {
    match kind_of(key)? {
        RuleKind::Length => desk
            .within(
                node,
                Length::ZERO..=Length::kilometres(5.0),
                "a distance on foot, such as `200 ft` or `60 m`",
            )
            .map(RuleValue::Length),
        RuleKind::Text => desk.line(node, "the rule").map(RuleValue::Text),
    }
}
