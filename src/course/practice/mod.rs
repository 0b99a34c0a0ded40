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
mod types;
mod what_if;

use crate::course::dice::Dice;
use crate::diag::Outcome;
use crate::nouns::Library;
use crate::phrase::{Phrase, phrase};
use crate::plan::Lines;
use crate::units::say;
use desk::{Desk, Kit};
use types::{Above, Draft};

pub use types::{Accept, Group, Level, Practice, Problem, Request, Table, Topic};

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
                answer: say::plain_significant(draft.answer.value(), 4),
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
        Topic::WhatIf => what_if::what_if(desk, level),
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
        Topic::WhatIf => what_if::above(kit, level),
    }
}
