//! What is asked for and what comes of it: topics, levels, problems, what counts as right.

use crate::diag::{Outcome, Problem as Wrong, nearest, told};
use crate::nouns::Signal;
use crate::phrase::{Arg, Phrase, phrase};
use crate::plan::{Step, Worked};
use crate::units::{Units, say};
use std::collections::BTreeSet;

/// What a problem is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Topic {
    /// Fuel for a meal.
    Fuel,
    /// Boils for a pot.
    Boils,
    /// Fuel left in a canister, by weight.
    Canister,
    /// Height and boiling point.
    Height,
    /// Fuel to melt snow.
    Snow,
    /// Spare fuel.
    Spare,
    /// A distance in one's own steps.
    Steps,
    /// Bleach for a sanitising bowl.
    Bleach,
    /// Minutes at the stove.
    Minutes,
    /// The push at the rim that tips a pot.
    Push,
    /// Sums over a shelf of part-used canisters.
    Shelf,
    /// A plan that one thing changes.
    WhatIf,
}

impl Topic {
    /// Every topic, in the order of a sheet.
    pub const ALL: [Self; 12] = [
        Self::Fuel,
        Self::Boils,
        Self::Canister,
        Self::Height,
        Self::Snow,
        Self::Spare,
        Self::Steps,
        Self::Bleach,
        Self::Minutes,
        Self::Push,
        Self::Shelf,
        Self::WhatIf,
    ];

    /// Its word on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fuel => "fuel",
            Self::Boils => "boils",
            Self::Canister => "canister",
            Self::Height => "height",
            Self::Snow => "snow",
            Self::Spare => "spare",
            Self::Steps => "steps",
            Self::Bleach => "bleach",
            Self::Minutes => "minutes",
            Self::Push => "push",
            Self::Shelf => "shelf",
            Self::WhatIf => "what-if",
        }
    }

    /// Its heading.
    #[must_use]
    pub fn title(self) -> Phrase {
        match self {
            Self::Fuel => phrase!("practice-fuel-meal"),
            Self::Boils => phrase!("practice-boils-pot"),
            Self::Canister => phrase!("practice-fuel-left-canister"),
            Self::Height => phrase!("practice-height-boiling-point"),
            Self::Snow => phrase!("practice-water-from-snow"),
            Self::Spare => phrase!("practice-spare-fuel"),
            Self::Steps => phrase!("practice-steps-water"),
            Self::Bleach => phrase!("practice-bleach-last-bowl"),
            Self::Minutes => phrase!("practice-minutes-stove"),
            Self::Push => phrase!("practice-push-tips-pot"),
            Self::Shelf => phrase!("practice-shelf-canisters"),
            Self::WhatIf => phrase!("practice-what-if"),
        }
    }

    /// Topics by their words, `all` for each of them.
    ///
    /// # Errors
    /// Words that name no topic, each with the nearest one.
    pub fn read(words: &[String]) -> Outcome<Vec<Self>> {
        let mut topics = BTreeSet::new();
        let mut wrong = Vec::new();
        for word in words {
            let plain = word.trim().to_lowercase();
            if plain == "all" {
                topics.extend(Self::ALL);
            } else if let Some(topic) = Self::ALL.into_iter().find(|one| one.word() == plain) {
                topics.insert(topic);
            } else {
                let known: Vec<&str> = Self::ALL
                    .into_iter()
                    .map(Self::word)
                    .chain(["all"])
                    .collect();
                let help = nearest(&plain, known.iter().copied()).map_or_else(
                    || told!("write one of: {known}", known = known.join(", ")),
                    |near| told!("did you mean `{near}`?", near),
                );
                wrong.push(Wrong::error(
                    "flag.topic",
                    told!("there are no problems about `{word}`", word),
                    help,
                ));
            }
        }
        if wrong.is_empty() {
            Ok(topics.into_iter().collect())
        } else {
            Err(wrong)
        }
    }
}

/// How much a problem asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Read it off a table.
    Table,
    /// One thing worked out.
    Step,
    /// A trip planned.
    Trip,
}

impl Level {
    /// Every level, easiest first.
    pub const ALL: [Self; 3] = [Self::Table, Self::Step, Self::Trip];

    /// Its number on the command line.
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::Table => 1,
            Self::Step => 2,
            Self::Trip => 3,
        }
    }

    /// Its words.
    #[must_use]
    pub fn title(self) -> Phrase {
        match self {
            Self::Table => phrase!("practice-read-off-table"),
            Self::Step => phrase!("practice-work-out"),
            Self::Trip => phrase!("practice-plan-trip"),
        }
    }
}

/// What is wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// The topics.
    pub topics: Vec<Topic>,
    /// How many problems.
    pub count: usize,
    /// All of one level; none goes from the easiest to the hardest.
    pub level: Option<Level>,
    /// What the numbers are drawn from.
    pub seed: u64,
    /// The learners' units.
    pub units: Units,
}

/// A table on the sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What it shows.
    pub caption: Phrase,
    /// The head of each column.
    pub head: Vec<Phrase>,
    /// The rows, as many cells each.
    pub rows: Vec<Vec<Phrase>>,
}

/// What stands above the problems of a group.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Above {
    pub(super) numbers: Vec<Phrase>,
    pub(super) table: Option<Table>,
    pub(super) careful: Vec<(Signal, Phrase)>,
}

/// What counts as right.
#[derive(Clone, Debug, PartialEq)]
pub struct Accept {
    /// The least number.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// What is said of it: within 3 %.
    pub says: Phrase,
}

impl Accept {
    pub(super) fn exact(value: &Worked) -> Self {
        Self {
            least: value.value(),
            most: value.value(),
            says: phrase!("practice-exactly"),
        }
    }

    pub(super) fn percent(value: &Worked, percent: f64) -> Self {
        Self {
            least: value.value() * (1.0 - percent / 100.0),
            most: value.value() * (1.0 + percent / 100.0),
            says: phrase!("practice-within", percent = percent),
        }
    }

    pub(super) fn within(value: &Worked, by: f64, unit: &str) -> Self {
        Self {
            least: value.value() - by,
            most: value.value() + by,
            says: phrase!(
                "practice-within-some",
                by = by,
                unit = Arg::Word(unit.to_owned())
            ),
        }
    }

    /// The range as printed on the key.
    #[must_use]
    pub fn range(&self) -> Phrase {
        let [least, most] = [self.least, self.most].map(|value| say::plain_significant(value, 4));
        if least == most {
            phrase!("as-written", words = least)
        } else {
            phrase!("practice-from-to", least = least, most = most)
        }
    }
}

/// A problem without its number.
pub(super) struct Draft {
    pub(super) ask: Phrase,
    pub(super) answer: Worked,
    pub(super) unit: String,
    pub(super) accept: Accept,
}

/// A problem with its key.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Its number on the sheet, from 1.
    pub number: usize,
    /// What is asked.
    pub ask: Phrase,
    /// The answer as printed, to four digits at most.
    pub answer: String,
    /// Its unit; empty for a plain number.
    pub unit: String,
    /// What counts as right.
    pub accept: Accept,
    /// The sums, line by line.
    pub steps: Vec<Step>,
}

/// Problems of a topic and level, with what they are worked from.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// The topic.
    pub topic: Topic,
    /// The level.
    pub level: Level,
    /// Figures to work with, a line each.
    pub numbers: Vec<Phrase>,
    /// The table to read from.
    pub table: Option<Table>,
    /// What can hurt, with its signal word.
    pub careful: Vec<(Signal, Phrase)>,
    /// The problems.
    pub problems: Vec<Problem>,
}

/// A problem sheet and its key, as numbers and words.
#[derive(Clone, Debug, PartialEq)]
pub struct Practice {
    /// What was wanted.
    pub request: Request,
    /// The groups, by topic and level.
    pub groups: Vec<Group>,
}
