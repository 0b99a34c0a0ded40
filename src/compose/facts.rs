//! Facts in force, put where content names them: the one place that decides what `{name}` says.

use super::catalogue::text;
use super::{said, words};
use crate::nouns::{self, AppliesWhen, Camp, CampRule, Fact, Library, Module, Trip};
use crate::phrase::phrase;
use crate::plan::{Value, places};
use crate::units::Units;
use std::collections::BTreeSet;

/// What fills in content: the facts of the library, the rules of the trip's camps.
#[derive(Clone, Copy)]
pub struct Filler<'a> {
    /// Where the facts are.
    pub library: &'a Library,
    /// Whose camps' rules override them.
    pub trip: &'a Trip,
    /// The reader's units.
    pub units: Units,
}

/// A piece of a filled text.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// As the content has it.
    Text(String),
    /// A value that a statement says.
    Said {
        /// The statement's id.
        of: String,
        /// Its value in SI units; none for words.
        si: Option<f64>,
        /// The words.
        words: String,
    },
    /// Words that join values: names of camps.
    Names(String),
    /// A name that nothing is known by, as written.
    Unknown(String),
}

impl Piece {
    /// Its words.
    #[must_use]
    pub fn words(&self) -> &str {
        match self {
            Self::Text(words)
            | Self::Said { words, .. }
            | Self::Names(words)
            | Self::Unknown(words) => words,
        }
    }
}

impl<'a> Filler<'a> {
    /// A text of a module with `{fact}` and `{module.fact}` told, for camps where the conditions
    /// hold: their rules override the facts.
    #[must_use]
    pub fn pieces(&self, module: &Module, text: &str, applies: &AppliesWhen) -> Vec<Piece> {
        let mut pieces = Vec::new();
        each_name(text, |part| match part {
            Part::Text(text) => pieces.push(Piece::Text(text.to_owned())),
            Part::Name(name) => match look_up(self.library, module, name) {
                Some((id, fact)) => pieces.extend(self.fact(&id, fact, applies)),
                None => pieces.push(Piece::Unknown(format!("{{{name}}}"))),
            },
        });
        pieces
    }

    /// A fact in force, under its id.
    #[must_use]
    pub fn fact(&self, id: &str, fact: &Fact, applies: &AppliesWhen) -> Vec<Piece> {
        if let Some(rule) = &fact.rule {
            let said = self.rule(rule, applies);
            if !said.is_empty() {
                return said;
            }
        }
        vec![Piece::Said {
            of: format!("fact.{id}"),
            si: Value::from(&fact.value).si(),
            words: fact_told(fact, self.units),
        }]
    }

    /// A rule in force at the camps where the conditions hold: told once where all agree, else
    /// camp by camp.
    #[must_use]
    pub fn rule(&self, key: &str, applies: &AppliesWhen) -> Vec<Piece> {
        let mut told: Vec<(Piece, Vec<&str>)> = Vec::new();
        for (index, camp) in self.trip.camps.iter().enumerate() {
            let Some(rule) = camp.rules.get(key).filter(|_| self.is_there(applies, camp)) else {
                continue;
            };
            let words = self.rule_words(rule);
            match told.iter_mut().find(|(known, _)| known.words() == words) {
                Some((_, camps)) => camps.push(&camp.name),
                None => {
                    let said = Piece::Said {
                        of: format!("rule.{}.{key}", places::camp(self.trip, index)),
                        si: Value::from(&rule.value).si(),
                        words,
                    };
                    told.push((said, vec![&camp.name]));
                }
            }
        }
        let several = told.len() > 1;
        let mut pieces = Vec::new();
        for (said, camps) in told {
            if !pieces.is_empty() {
                pieces.push(Piece::Names(words::or_before(said.words())));
            }
            pieces.push(said);
            if several {
                pieces.push(Piece::Names(format!(" ({})", camps.join(", "))));
            }
        }
        pieces
    }

    /// A camp's rule in words, with 'verify' if nobody read it at its source.
    #[must_use]
    pub fn rule_words(&self, rule: &CampRule) -> String {
        let value = said::rule(&rule.value, self.units);
        if rule.verify {
            text(&phrase!("to-verify", what = value))
        } else {
            value
        }
    }

    /// Whether what applies so is told of a camp.
    #[must_use]
    pub fn is_there(&self, applies: &AppliesWhen, camp: &Camp) -> bool {
        *applies == AppliesWhen::default() || applies.holds_at(self.trip, camp)
    }

    /// The sources of the facts that a text names.
    pub fn sources(&self, module: &Module, text: &str, into: &mut BTreeSet<String>) {
        each_name(text, |part| {
            if let Part::Name(name) = part
                && let Some((_, fact)) = look_up(self.library, module, name)
            {
                into.extend(fact.sources.iter().cloned());
                let key = fact.rule.as_deref().unwrap_or_default();
                let rules = self
                    .trip
                    .camps
                    .iter()
                    .filter_map(|camp| camp.rules.get(key));
                into.extend(rules.flat_map(|rule| rule.sources.iter().cloned()));
            }
        });
    }
}

/// A text of a module with its facts told as the library has them, where there is no trip.
#[must_use]
pub fn told(library: &Library, module: &Module, text: &str, units: Units) -> String {
    let mut told = String::new();
    each_name(text, |part| match part {
        Part::Text(text) => told.push_str(text),
        Part::Name(name) => match look_up(library, module, name) {
            Some((_, fact)) => told.push_str(&fact_told(fact, units)),
            None => told.push_str(&format!("{{{name}}}")),
        },
    });
    told
}

/// A fact in words, as the library has it.
#[must_use]
pub fn fact_told(fact: &Fact, units: Units) -> String {
    let words = said::fact(&fact.value, units);
    if fact.sure.unverified() {
        text(&phrase!("to-verify", what = words))
    } else {
        words
    }
}

/// A fact by the name that a module's text gives it, with its whole id.
fn look_up<'a>(library: &'a Library, module: &Module, name: &str) -> Option<(String, &'a Fact)> {
    let name = nouns::id(name);
    let of = |module: &str, name: &str| {
        let fact = library.modules.get(module)?.facts.get(name)?;
        Some((format!("{module}.{name}"), fact))
    };
    of(&module.id, &name).or_else(|| {
        let (other, fact) = name.split_once('.')?;
        of(other, fact)
    })
}

/// A part of a text with names in it.
enum Part<'t> {
    /// As written.
    Text(&'t str),
    /// What stands between `{` and `}`.
    Name(&'t str),
}

/// Goes through a text with `{name}` in it; other braces are text.
fn each_name<'t>(text: &'t str, mut look: impl FnMut(Part<'t>)) {
    let mut from = 0;
    let mut at = 0;
    while let Some(open) = text[at..].find('{').map(|offset| at + offset) {
        let inside = &text[open + 1..];
        let name = inside.find('}').map(|close| &inside[..close]);
        match name.filter(|name| is_name(name)) {
            Some(name) => {
                if from < open {
                    look(Part::Text(&text[from..open]));
                }
                look(Part::Name(name));
                at = open + name.len() + 2;
                from = at;
            }
            None => at = open + 1,
        }
    }
    if from < text.len() {
        look(Part::Text(&text[from..]));
    }
}

fn is_name(text: &str) -> bool {
    !text.is_empty()
        && text
            .chars()
            .all(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | ' '))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_names_and_leaves_other_braces() {
        let mut parts = Vec::new();
        each_name("at {distance}, {x y} { z", |part| {
            parts.push(match part {
                Part::Text(text) => text.to_owned(),
                Part::Name(name) => format!("<{name}>"),
            });
        });
        assert_eq!(parts, ["at ", "<distance>", ", ", "<x y>", " { z"]);
    }
}
