//! Practice problems from the calculation, with every step of their key.
//!
//! A problem's numbers come from a seed, in ranges that camps have and round enough for a
//! pencil; its table is made by [`crate::physics`], its sums are printed lines that are worked
//! from the printed numbers before them. What counts as right is stated with each.

mod carry;
mod desk;
mod flame;
mod ground;
mod heat;
mod stores;

use crate::course::dice::Dice;
use crate::diag::{Outcome, Problem as Wrong, nearest};
use crate::nouns::{Library, Signal};
use crate::phrase::{Arg, Phrase, phrase};
use crate::plan::{Lines, Step, Worked};
use crate::units::{Units, say};
use desk::{Desk, Kit};
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
}

impl Topic {
    /// Every topic, in the order of a sheet.
    pub const ALL: [Self; 11] = [
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
                    || format!("write one of: {}", known.join(", ")),
                    |near| format!("did you mean `{near}`?"),
                );
                wrong.push(Wrong::error(
                    "flag.topic",
                    format!("there are no problems about `{word}`"),
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
struct Above {
    numbers: Vec<Phrase>,
    table: Option<Table>,
    careful: Vec<(Signal, Phrase)>,
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
    fn exact(value: &Worked) -> Self {
        Self {
            least: value.value(),
            most: value.value(),
            says: phrase!("practice-exactly"),
        }
    }

    fn percent(value: &Worked, percent: f64) -> Self {
        Self {
            least: value.value() * (1.0 - percent / 100.0),
            most: value.value() * (1.0 + percent / 100.0),
            says: phrase!("practice-within", percent = percent),
        }
    }

    fn within(value: &Worked, by: f64, unit: &str) -> Self {
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
        let [least, most] = [self.least, self.most].map(|value| say::significant(value, 4));
        if least == most {
            phrase!("as-written", words = least)
        } else {
            phrase!("practice-from-to", least = least, most = most)
        }
    }
}

/// A problem without its number.
struct Draft {
    ask: Phrase,
    answer: Worked,
    unit: String,
    accept: Accept,
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

/// Draws of one problem before a repetition is let stand: a topic with few cases may run out.
const TRIES: u64 = 60;

/// Makes a sheet of problems.
///
/// # Errors
/// When the library lacks what the problems speak of.
pub fn practice(library: &Library, request: &Request) -> Outcome<Practice> {
    let kit = Kit::new(library, request.units)?;
    let topics = request.topics.len().max(1);
    let mut groups: Vec<Group> = Vec::new();
    let mut number = 0;
    for (place, topic) in request.topics.iter().copied().enumerate() {
        // The first topics take what does not divide evenly.
        let here = request.count / topics + usize::from(place < request.count % topics);
        let mut asked = Vec::new();
        for (level, count) in shares(here, request.level, place) {
            if count == 0 {
                continue;
            }
            let above = only_new(above(&kit, topic, level, request.seed), &groups);
            let mut problems = Vec::new();
            for index in 0..count {
                number += 1;
                problems.push(draw(
                    &kit,
                    request.seed,
                    (topic, level),
                    index,
                    &mut asked,
                    number,
                ));
            }
            groups.push(Group {
                topic,
                level,
                numbers: above.numbers,
                table: above.table,
                careful: above.careful,
                problems,
            });
        }
    }
    Ok(Practice {
        request: request.clone(),
        groups,
    })
}

/// Leaves out what stands further up on the sheet: cautions and figures that are the same, and
/// a table, for which a line says where it is.
fn only_new(mut above: Above, groups: &[Group]) -> Above {
    above
        .careful
        .retain(|one| groups.iter().all(|group| !group.careful.contains(one)));
    let seen = groups
        .iter()
        .find(|group| above.table.is_some() && group.table == above.table);
    if let Some(group) = seen {
        above.table = None;
        let (topic, level) = (group.topic.title(), group.level.title());
        above.numbers.push(phrase!(
            "practice-table-above",
            topic = topic,
            level = level
        ));
    }
    above
}

/// How many problems each level gets: a third each, what is left to the easy ones; a topic
/// with one problem only gets a level by its place, so that a sheet of all topics has each.
fn shares(count: usize, level: Option<Level>, place: usize) -> Vec<(Level, usize)> {
    match level {
        Some(level) => vec![(level, count)],
        None if count == 1 => vec![(Level::ALL[place % 3], 1)],
        None => Level::ALL
            .into_iter()
            .enumerate()
            .map(|(index, level)| (level, count / 3 + usize::from(index < count % 3)))
            .collect(),
    }
}

/// One problem that has not been asked on this sheet.
fn draw(
    kit: &Kit<'_>,
    seed: u64,
    (topic, level): (Topic, Level),
    index: usize,
    asked: &mut Vec<Phrase>,
    number: usize,
) -> Problem {
    let mut attempt = 0;
    loop {
        let purpose = [
            topic as u64,
            u64::from(level.number()),
            u64::try_from(index).unwrap_or(u64::MAX),
            attempt,
        ];
        let mut desk = Desk {
            kit,
            dice: Dice::new(seed, &purpose),
            lines: Lines::default(),
        };
        let draft = made(&mut desk, topic, level, seed);
        attempt += 1;
        let new = !asked.contains(&draft.ask);
        if new || attempt >= TRIES {
            asked.push(draft.ask.clone());
            return Problem {
                number,
                ask: draft.ask,
                answer: say::significant(draft.answer.value(), 4),
                unit: draft.unit,
                accept: draft.accept,
                steps: desk.lines.steps(),
            };
        }
    }
}

fn made(desk: &mut Desk<'_, '_>, topic: Topic, level: Level, seed: u64) -> Draft {
    match topic {
        Topic::Fuel => heat::fuel(desk, level),
        Topic::Snow => heat::snow(desk, level),
        Topic::Minutes => flame::minutes(desk, level),
        Topic::Height => flame::height(desk, level),
        Topic::Boils => stores::boils(desk, level),
        Topic::Canister => stores::canister(desk, level),
        Topic::Spare => carry::spare(desk, level),
        Topic::Shelf => carry::shelf(desk, level, seed),
        Topic::Steps => ground::steps(desk, level),
        Topic::Bleach => ground::bleach(desk, level),
        Topic::Push => ground::push(desk, level),
    }
}

fn above(kit: &Kit<'_>, topic: Topic, level: Level, seed: u64) -> Above {
    match topic {
        Topic::Fuel => heat::above_fuel(kit, level),
        Topic::Snow => heat::above_snow(kit, level),
        Topic::Minutes => flame::above_minutes(kit, level),
        Topic::Height => flame::above_height(kit, level),
        Topic::Boils => stores::above_boils(kit, level),
        Topic::Canister => stores::above_canister(kit, level),
        Topic::Spare => carry::above_spare(kit, level),
        Topic::Shelf => carry::above_shelf(kit, level, seed),
        Topic::Steps => ground::above_steps(kit, level),
        Topic::Bleach => ground::above_bleach(kit, level),
        Topic::Push => ground::above_push(kit, level),
    }
}
