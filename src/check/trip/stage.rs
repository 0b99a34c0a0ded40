//! What the words of a fire stage, or of a camp's own fire rule, say for sure about stoves.

use crate::nouns::{CampRule, RuleValue, StoveRule};

/// Words that say nothing is in force.
const FREE: [&str; 8] = [
    "none",
    "none in force",
    "no restrictions",
    "no restriction",
    "no fire restrictions",
    "no ban",
    "no fire ban",
    "no closure",
];

/// Words that let something be lit, if nothing before them in their clause says 'not'.
const ALLOWS: [&str; 10] = [
    "allowed",
    "permitted",
    "except",
    "excepted",
    "exempt",
    "exempted",
    "excluding",
    "lifted",
    "ended",
    "allow",
];

/// Words that forbid, likewise.
const FORBIDS: [&str; 10] = [
    "ban",
    "bans",
    "banned",
    "barred",
    "prohibited",
    "prohibits",
    "forbidden",
    "closure",
    "closed",
    "disallowed",
];

const NOT: [&str; 9] = [
    "no", "not", "none", "nothing", "never", "neither", "nor", "cannot", "without",
];

/// What may stand between 'no' and 'stoves'.
const BETWEEN: [&str; 13] = [
    "naked",
    "open",
    "campfires",
    "campfire",
    "fires",
    "fire",
    "or",
    "and",
    "gas",
    "liquid",
    "alcohol",
    "camp",
    "cooking",
];

/// How many words before one are looked at for a 'not'.
const NEAR: usize = 4;

/// What the words of a stage say for sure about stoves. Words that could mean either say nothing.
pub(super) fn told(stage: &str) -> Option<StoveRule> {
    let text = stage
        .to_lowercase()
        .replace("n't", " not")
        .replace(['-', '\u{2010}', '\u{2011}'], " ");
    if FREE.contains(&text.trim()) {
        return Some(StoveRule::Yes);
    }
    let clauses: Vec<Clause<'_>> = text
        .split([',', ';', '.', '(', ')'])
        .map(|part| {
            let words = part.split(|sign: char| !sign.is_alphanumeric());
            Clause(words.filter(|word| !word.is_empty()).collect())
        })
        .collect();
    if let Some(clause) = clauses.iter().find(|clause| clause.shut_off()) {
        return Some(if clause.bars_even_shut_off() {
            StoveRule::No
        } else {
            StoveRule::WithShutOff
        });
    }
    // 'campfires banned, stoves allowed' is no ban on stoves
    let forbids = clauses.iter().any(Clause::forbids) && !clauses.iter().any(Clause::allows);
    forbids.then_some(StoveRule::No)
}

/// What a camp's own fire rule says for sure, as the trip file states it; `no` and `none` are
/// answers there. What a place says of all its ground is no order of the day.
pub(super) fn at_camp(rule: Option<&CampRule>) -> Option<StoveRule> {
    let rule = rule.filter(|rule| rule.from == "trip")?;
    let RuleValue::Text(text) = &rule.value else {
        return None;
    };
    match text.trim().to_lowercase().as_str() {
        "no" | "none" | "n" | "off" | "false" => Some(StoveRule::No),
        other => told(other),
    }
}

/// The words between two stops.
struct Clause<'a>(Vec<&'a str>);

impl Clause<'_> {
    fn has(&self, any: &[&str]) -> bool {
        self.0.iter().any(|word| any.contains(word))
    }

    /// Whether a 'not' stands near before a word, or 'none' right after it.
    fn negated(&self, at: usize) -> bool {
        let before = &self.0[at.saturating_sub(NEAR)..at];
        let after = self.0.get(at + 1);
        before.iter().any(|word| NOT.contains(word))
            || after.is_some_and(|word| ["none", "nothing"].contains(word))
    }

    /// Whether one of these words stands in it, with a 'not' or without.
    fn says(&self, any: &[&str], negated: bool) -> bool {
        let mut words = self.0.iter().enumerate();
        words.any(|(at, word)| any.contains(word) && self.negated(at) == negated)
    }

    fn allows(&self) -> bool {
        self.says(&ALLOWS, false)
    }

    /// Whether it forbids stoves: what is said of wood fires alone says nothing of them.
    fn forbids(&self) -> bool {
        let stoves = self.has(&["stove", "stoves", "flame", "flames"]);
        let wood = self.has(&["campfire", "campfires", "bonfire", "bonfires", "wood"])
            || self
                .0
                .windows(2)
                .any(|two| two[0] == "camp" && two[1].starts_with("fire"));
        let bars = self.says(&FORBIDS, false) || self.says(&ALLOWS, true) || self.no_stove();
        bars && (stoves || !wood)
    }

    /// `no stoves`, `no naked flame`, `no campfires or stoves`.
    fn no_stove(&self) -> bool {
        self.0.iter().enumerate().any(|(at, word)| {
            let mut after = self.0[at + 1..].iter();
            let named = after.find(|word| !BETWEEN.contains(word));
            *word == "no"
                && named.is_some_and(|word| ["stove", "stoves", "flame", "flames"].contains(word))
        })
    }

    fn shut_off(&self) -> bool {
        self.has(&["shutoff"]) || self.0.windows(2).any(|two| two == ["shut", "off"])
    }

    /// `not even with a shut-off valve`; not `no stoves without one`.
    fn bars_even_shut_off(&self) -> bool {
        let bars = self.forbids() || self.0.windows(2).any(|two| two == ["not", "even"]);
        bars && !self.has(&["without", "only", "unless", "except"])
    }
}

#[cfg(test)]
mod tests {
    use super::{at_camp, told};
    use crate::nouns::{CampRule, RuleValue};

    #[test]
    fn only_sure_words_are_taken_for_a_rule() {
        use crate::nouns::StoveRule::{No, WithShutOff, Yes};
        for (stage, rule) in [
            ("shut-off valve only", Some(WithShutOff)),
            ("no stoves without a shut-off valve", Some(WithShutOff)),
            ("stoves with a shut-off valve not allowed", Some(No)),
            (
                "nothing is lit, not even stoves with a shut-off valve",
                Some(No),
            ),
            ("none", Some(Yes)),
            ("none in force", Some(Yes)),
            ("stage 2", None),
            ("No stoves", Some(No)),
            ("no stoves allowed", Some(No)),
            ("stoves not allowed", Some(No)),
            ("stoves aren't permitted", Some(No)),
            ("stoves allowed: none", Some(No)),
            ("no campfires or stoves", Some(No)),
            ("ban", Some(No)),
            ("burn ban", Some(No)),
            ("none, total ban", Some(No)),
            ("total fire ban", Some(No)),
            ("all stoves prohibited", Some(No)),
            ("campfires and stoves banned", Some(No)),
            ("stage 3, full closure", Some(No)),
            ("campfires prohibited, stoves allowed", None),
            ("campfires not allowed, stoves allowed", None),
            ("burn ban, stoves exempt", None),
            ("campfire ban", None),
            ("no campfires", None),
            ("ban lifted", None),
            ("no ban on stoves", None),
            ("no restrictions on stoves", None),
        ] {
            assert_eq!(told(stage), rule, "{stage}");
        }
    }

    #[test]
    fn only_what_the_trip_says_of_a_camp_is_an_order_there() {
        use crate::nouns::StoveRule::No;
        let rule = |text: &str, from: &str| CampRule {
            value: RuleValue::Text(text.to_owned()),
            from: from.to_owned(),
            sources: Vec::new(),
            as_of: None,
            checked: None,
            verify: false,
        };
        assert_eq!(at_camp(Some(&rule("none, total ban", "trip"))), Some(No));
        assert_eq!(at_camp(Some(&rule("none", "trip"))), Some(No));
        assert_eq!(at_camp(Some(&rule("total ban", "desert-river"))), None);
        assert_eq!(at_camp(Some(&rule("ask at the hut", "trip"))), None);
        assert_eq!(at_camp(None), None);
    }
}
