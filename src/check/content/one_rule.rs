//! What a rule is where no place sets it: said once, or alike wherever it is said.

use super::super::desk::Desk;
use crate::diag::told;
use crate::load;
use crate::nouns::{Fact, Id, Library};
use std::collections::BTreeMap;

/// Two facts that stand for one rule have one value: on one sheet they would contradict each other.
pub(super) fn check(desk: &Desk, files: &load::Library, library: &Library) {
    let mut said: BTreeMap<&str, (&Id, &Id, &Fact)> = BTreeMap::new();
    for module in library.modules.values() {
        let written = files
            .files
            .get(&format!("modules/{}.yaml", module.id))
            .and_then(|root| root.get("facts"));
        for (id, fact) in &module.facts {
            let Some(rule) = fact.rule.as_deref() else {
                continue;
            };
            let (owner, first, sound) = *said.entry(rule).or_insert((&module.id, id, fact));
            let Some(node) = written.and_then(|facts| facts.get(id)) else {
                continue;
            };
            if sound.value != fact.value {
                desk.error::<()>(
                    node,
                    "content.rule",
                    told!("the fact `{id}` and the fact `{owner}.{first}` have different values for the rule `{rule}`", id, owner, first, rule),
                    "give both the same value, or leave `rule` out of the one that is no rule",
                );
            }
        }
    }
}
