//! A module's prose with its facts filled in.

use super::words;
use crate::markdown;
use crate::nouns::{self, AppliesWhen, Camp, CampRule, Fact, Library, Module, Trip};
use crate::units::Units;
use std::collections::BTreeSet;

/// What fills in prose: the facts of the library, the rules of the trip's camps.
#[derive(Clone, Copy)]
pub struct Filler<'a> {
    /// Where the facts are.
    pub library: &'a Library,
    /// Whose camps' rules override them.
    pub trip: &'a Trip,
    /// The sheet's units.
    pub units: Units,
}

impl Filler<'_> {
    /// Markdown of a module with `{fact}` and `{module.fact}` printed.
    #[must_use]
    pub fn prose(&self, module: &Module, text: &str) -> String {
        fill(text, |name| {
            self.look_up(module, name)
                .map(|fact| markdown::escape(&self.say(fact)))
        })
    }

    /// The same on one line, for table cells, list items and cautions.
    #[must_use]
    pub fn line(&self, module: &Module, text: &str) -> String {
        one_line(&self.prose(module, text))
    }

    /// The same for what holds in some places only: its rules are those of the camps there.
    #[must_use]
    pub fn line_for(&self, module: &Module, text: &str, applies: &AppliesWhen) -> String {
        one_line(&fill(text, |name| {
            self.look_up(module, name)
                .map(|fact| markdown::escape(&self.say_at(fact, |camp| is_for(applies, camp))))
        }))
    }

    /// As [`Filler::line_for`]; where other camps are elsewhere it names its own.
    #[must_use]
    pub fn item_for(&self, module: &Module, text: &str, applies: &AppliesWhen) -> String {
        let text = self.line_for(module, text, applies);
        let camps: Vec<&str> = self
            .trip
            .camps
            .iter()
            .filter(|camp| is_for(applies, camp))
            .map(|camp| camp.name.as_str())
            .collect();
        match camps.as_slice() {
            [] => text,
            all if all.len() == self.trip.camps.len() => text,
            // Two names fit on a line.
            few if few.len() <= 2 => format!("{text} ({})", markdown::escape(&few.join(", "))),
            many => format!("{text} ({} of the camps)", many.len()),
        }
    }

    /// A fact in force as people read it.
    #[must_use]
    pub fn say(&self, fact: &Fact) -> String {
        self.say_at(fact, |_| true)
    }

    fn say_at(&self, fact: &Fact, here: impl Fn(&Camp) -> bool) -> String {
        if let Some(rule) = &fact.rule {
            let said = self.rule_at(rule, here);
            if !said.is_empty() {
                return said;
            }
        }
        let said = words::fact(&fact.value, self.units);
        if fact.sure.unverified() {
            format!("{said} (verify)")
        } else {
            said
        }
    }

    /// A rule in force at the trip's camps: said once where all agree, else camp by camp.
    #[must_use]
    pub fn rule(&self, key: &str) -> String {
        self.rule_at(key, |_| true)
    }

    fn rule_at(&self, key: &str, here: impl Fn(&Camp) -> bool) -> String {
        let mut said: Vec<(String, Vec<&str>)> = Vec::new();
        for camp in self.trip.camps.iter().filter(|camp| here(camp)) {
            let Some(rule) = camp.rules.get(key) else {
                continue;
            };
            let value = self.rule_words(rule);
            match said.iter_mut().find(|(known, _)| *known == value) {
                Some((_, camps)) => camps.push(&camp.name),
                None => said.push((value, vec![&camp.name])),
            }
        }
        match said.as_slice() {
            [] => String::new(),
            [(value, _)] => value.clone(),
            several => several
                .iter()
                .map(|(value, camps)| format!("{value} ({})", camps.join(", ")))
                .collect::<Vec<_>>()
                .join(" or "),
        }
    }

    /// A camp's rule in words, with 'verify' if nobody read it at its source.
    #[must_use]
    pub fn rule_words(&self, rule: &CampRule) -> String {
        let value = words::rule(&rule.value, self.units);
        if rule.verify {
            format!("{value} (verify)")
        } else {
            value
        }
    }

    /// The sources of the facts that a text names.
    pub fn sources(&self, module: &Module, text: &str, into: &mut BTreeSet<String>) {
        fill(text, |name| {
            if let Some(fact) = self.look_up(module, name) {
                into.extend(fact.sources.iter().cloned());
                if let Some(rule) = &fact.rule {
                    for camp in &self.trip.camps {
                        if let Some(rule) = camp.rules.get(rule) {
                            into.extend(rule.sources.iter().cloned());
                        }
                    }
                }
            }
            None
        });
    }

    fn look_up<'m>(&'m self, module: &'m Module, name: &str) -> Option<&'m Fact> {
        let name = nouns::id(name);
        module.facts.get(&name).or_else(|| {
            let (other, fact) = name.split_once('.')?;
            self.library.modules.get(other)?.facts.get(fact)
        })
    }
}

/// Whether what applies so is meant for a camp.
fn is_for(applies: &AppliesWhen, camp: &Camp) -> bool {
    applies.place.is_empty() || applies.place.contains(&camp.place)
}

/// Text with every `{name}` replaced by what the lookup gives; names it does not
/// know stay as written, as plain text.
fn fill(text: &str, mut look_up: impl FnMut(&str) -> Option<String>) -> String {
    let mut filled = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(open) = rest.find('{') {
        filled.push_str(&rest[..open]);
        let inside = &rest[open + 1..];
        let close = inside.find('}');
        let name = close.map(|close| &inside[..close]);
        match name {
            Some(name) if is_name(name) => {
                match look_up(name) {
                    Some(value) => filled.push_str(&value),
                    None => filled.push_str(&markdown::escape(&format!("{{{name}}}"))),
                }
                rest = &inside[name.len() + 1..];
            }
            _ => {
                filled.push('{');
                rest = inside;
            }
        }
    }
    filled.push_str(rest);
    filled
}

fn is_name(text: &str) -> bool {
    !text.is_empty()
        && text
            .chars()
            .all(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | ' '))
}

/// Markdown on one line.
#[must_use]
pub fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A sentence: with a full stop at its end when it has none.
#[must_use]
pub fn sentence(text: &str) -> String {
    let text = text.trim();
    if text.is_empty() || text.ends_with(['.', '!', '?', ':']) {
        text.to_owned()
    } else {
        format!("{text}.")
    }
}

/// Every line of Markdown behind a mark: `>` makes a box of it.
#[must_use]
pub fn lines_behind(text: &str, mark: &str) -> String {
    text.trim()
        .lines()
        .map(|line| format!("{mark} {line}").trim_end().to_owned())
        .collect::<Vec<_>>()
        .join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fills_names_and_leaves_other_braces() {
        let filled = fill("at {distance}, {x y} { z", |name| {
            (name == "distance").then(|| "200 ft".to_owned())
        });
        assert_eq!(filled, "at 200 ft, \\{x y} { z");
    }
}
