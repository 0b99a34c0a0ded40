//! A place in a trip file, in words: `camps[0].water_from` is `Lower meadow: water from`.

use crate::compose::catalogue;
use crate::nouns::Assumed;
use crate::phrase::phrase;
use crate::plan::Plan;

/// A default that was used, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AssumedLine {
    /// What it is about.
    pub what: String,
    /// The value used.
    pub value: String,
    /// Why that one.
    pub why: String,
}

impl Plan {
    /// The defaults that were used, in words; what several camps or kitchens share is one line.
    #[must_use]
    pub fn assumed_in_words(&self) -> Vec<AssumedLine> {
        let lines = self.assumed_lines().into_iter();
        lines.map(|(_, line)| line).collect()
    }

    /// The same, each with the key path of the first that it is about.
    #[must_use]
    pub fn assumed_lines(&self) -> Vec<(String, AssumedLine)> {
        let mut lines: Vec<(String, Vec<String>, Assumed)> = Vec::new();
        for one in &self.assumed {
            let (owner, rest) = self.owner_and_rest(&one.what);
            let same = lines.iter_mut().find(|(_, owners, known)| {
                !owners.is_empty()
                    && owner.is_some()
                    && (&known.what, &known.value, &known.why) == (&rest, &one.value, &one.why)
            });
            match same {
                Some((_, owners, _)) => owners.extend(owner),
                None => lines.push((
                    one.what.clone(),
                    owner.into_iter().collect(),
                    Assumed {
                        what: rest,
                        ..one.clone()
                    },
                )),
            }
        }
        lines
            .into_iter()
            .map(|(path, owners, line)| {
                let said = AssumedLine {
                    what: self.joined(&owners, line.what),
                    value: catalogue::text(&(&line.value).into()),
                    why: catalogue::text(&(&line.why).into()),
                };
                (path, said)
            })
            .collect()
    }

    /// What a key path is about, for people who do not count lists from nought.
    #[must_use]
    pub fn about(&self, path: &str) -> String {
        let (owner, rest) = self.owner_and_rest(path);
        let owners: Vec<String> = owner.into_iter().collect();
        self.joined(&owners, rest)
    }

    fn joined(&self, owners: &[String], rest: String) -> String {
        let camps: Vec<&String> = self.camps.iter().map(|camp| &camp.name).collect();
        let every = camps.len() > 1 && owners.iter().collect::<Vec<_>>() == camps;
        match owners {
            [] => rest,
            _ if every => catalogue::text(&phrase!("assumed-of-every-camp", what = rest)),
            _ if rest.is_empty() => owners.join(", "),
            _ => format!("{}: {rest}", owners.join(", ")),
        }
    }

    /// The camp or kitchen that a path names, and the rest in words.
    fn owner_and_rest(&self, path: &str) -> (Option<String>, String) {
        let mut owner = None;
        let mut rest: Vec<String> = Vec::new();
        for part in path.split('.') {
            let (name, index) = match part.strip_suffix(']').and_then(|part| part.split_once('[')) {
                Some((name, index)) => (name, index.parse::<usize>().ok()),
                None => (part, None),
            };
            let named = index.and_then(|index| match name {
                "camps" => self.camps.get(index).map(|camp| camp.name.clone()),
                "kitchens" | "stations" => {
                    self.kitchens.get(index).map(|kitchen| kitchen.name.clone())
                }
                _ => None,
            });
            let words = catalogue::word(&name.replace(['_', '-'], " "), &["key"]);
            match (named, index) {
                (Some(named), _) => owner = Some(named),
                (None, Some(index)) => rest.push(format!("{words} {}", index + 1)),
                (None, None) => rest.push(words),
            }
        }
        (owner, rest.join(", "))
    }
}
