//! A session on the clock: order, breaks, minutes, what goes first when time runs short.

use super::pieces::Piece;
use super::rotation;
use super::session::{Ask, Fill};
use super::types::{Entry, Rotation, Timetable, What};
use crate::nouns::{Id, Module};
use crate::units::Time;
use std::collections::BTreeSet;

// Minutes of what no module brings; common practice, no source.
/// A break.
pub(super) const BREAK: u32 = 10;
/// Fewest minutes of lesson before and after a break.
const AWAY_FROM_BREAK: u32 = 20;
/// Minutes of lesson that a break divides.
const BREAK_EVERY: u32 = 90;
/// Recall of the last session, one objective a minute.
pub(super) const RECALL: u32 = 5;
/// The drill with nothing lit.
pub(super) const DRILL: u32 = 3;
/// 'All off' called while stoves are lit.
pub(super) const ALL_OFF: u32 = 1;
/// Cooling before packing.
pub(super) const COOLING: u32 = 10;

/// Whole minutes, rounded up.
pub(super) fn whole(time: Time) -> u32 {
    libm::ceil(time.in_minutes() - 1e-9).max(0.0) as u32
}

/// Breaks of so many minutes.
pub(super) const fn breaks(minutes: u32) -> u32 {
    minutes.div_ceil(BREAK_EVERY).saturating_sub(1)
}

/// What a session holds.
pub(super) struct Held<'a> {
    /// Indices of its segments, in order.
    pub kept: Vec<usize>,
    /// Objectives to recall first.
    pub recall: Vec<(&'a Module, Id)>,
    /// Indices of those that may not be dropped: safety requires them, or a later session needs
    /// them.
    pub fast: BTreeSet<usize>,
    /// Whether the drill must be added when something is lit.
    pub drill: bool,
    /// Whether no better choice exists for certain.
    pub exact: bool,
}

/// A line without its clock time.
struct Line<'a> {
    what: What<'a>,
    piece: Option<usize>,
    minutes: u32,
    least: u32,
    usual: u32,
    rounds: u32,
    flame: bool,
}

impl<'a> Line<'a> {
    fn fixed(what: What<'a>, minutes: u32, flame: bool) -> Self {
        Self {
            what,
            piece: None,
            minutes,
            least: minutes,
            usual: minutes,
            rounds: 1,
            flame,
        }
    }

    fn of(piece: &Piece<'a>, index: usize) -> Self {
        Self {
            what: What::Segment(piece.module, piece.segment),
            piece: Some(index),
            minutes: piece.least,
            least: piece.least,
            usual: piece.usual,
            rounds: piece.rounds,
            flame: piece.segment.flame,
        }
    }

    const fn in_all(&self) -> u32 {
        self.minutes * self.rounds
    }
}

/// What learners should still know of a session that held these segments: as much as fits into
/// the minutes of recall, what is critical first.
pub(super) fn recalled<'a>(all: &[Piece<'a>], kept: &[usize]) -> Vec<(&'a Module, Id)> {
    let mut recalled: Vec<(&Module, Id)> = Vec::new();
    for index in kept {
        let (module, segment) = (all[*index].module, all[*index].segment);
        for id in &segment.objectives {
            if !recalled
                .iter()
                .any(|(known, other)| known.id == module.id && other == id)
            {
                recalled.push((module, id.clone()));
            }
        }
    }
    recalled.sort_by_key(|(module, id)| {
        let objective = module.objectives.get(id);
        !objective.is_some_and(|objective| objective.critical)
    });
    recalled.truncate(RECALL as usize);
    recalled
}

/// Puts a session on the clock.
pub(super) fn lay<'a>(fill: &Fill<'a, '_>, ask: &Ask, held: &Held<'a>) -> Timetable<'a> {
    let mut lines = lines(fill, held);
    stretch(&mut lines, ask.minutes);
    pause(&mut lines, ask.minutes);
    let drops = drops(fill.all, &held.kept, &held.fast);
    let mut now = ask.starts;
    let mut entries = Vec::new();
    let mut rotations = Vec::new();
    for line in &lines {
        let drop = line
            .piece
            .and_then(|index| drops.iter().position(|other| *other == index))
            .map(|place| place as u32 + 1);
        if let Some(index) = line.piece.filter(|_| line.flame) {
            rotations.push(Rotation {
                entry: entries.len(),
                rounds: rotation::rounds(fill.ground, &fill.all[index], now, line.minutes),
            });
        }
        entries.push(Entry {
            what: line.what.clone(),
            starts: now,
            minutes: line.in_all(),
            least: line.least * line.rounds,
            rounds: line.rounds,
            stations: line
                .piece
                .map_or_else(Vec::new, |index| fill.all[index].places.clone()),
            flame: line.flame,
            drop,
        });
        now += line.in_all();
    }
    let least: u32 = entries.iter().map(|entry| entry.least).sum();
    Timetable {
        name: ask.name.clone(),
        starts: ask.starts,
        length: ask.minutes,
        indoors: fill.indoors,
        ends: now,
        least_ends: ask.starts + least,
        lit: rotations
            .iter()
            .flat_map(|rotation| &rotation.rounds)
            .map(|round| rotation::lit_stations(std::slice::from_ref(round)).len() as u32)
            .max()
            .unwrap_or(0),
        entries,
        groups: fill.ground.groups.clone(),
        rotations,
        left_out: Vec::new(),
        exact: held.exact,
    }
}

/// The lines in order: recall, segments, and after the last flame the call and the cooling.
fn lines<'a>(fill: &Fill<'a, '_>, held: &Held<'a>) -> Vec<Line<'a>> {
    let mut lines = Vec::new();
    if !held.recall.is_empty() {
        lines.push(Line::fixed(
            What::Recall(held.recall.clone()),
            RECALL,
            false,
        ));
    }
    let lit = |index: &&usize| fill.all[**index].segment.flame;
    let first = held.kept.iter().find(lit).copied();
    let last = held.kept.iter().rev().find(lit).copied();
    for index in &held.kept {
        if Some(*index) == first && held.drill {
            lines.push(Line::fixed(What::Drill, DRILL, false));
        }
        lines.push(Line::of(&fill.all[*index], *index));
        if Some(*index) == last {
            lines.push(Line::fixed(What::AllOff, ALL_OFF, true));
            let cooling = fill.all.iter().position(Piece::cools);
            lines.push(cooling.map_or_else(
                || Line::fixed(What::Cooling, COOLING, false),
                |index| Line::of(&fill.all[index], index),
            ));
        }
    }
    lines
}

/// Gives spare minutes to the segments, a minute a round in turn, up to their usual time.
fn stretch(lines: &mut [Line<'_>], length: u32) {
    let taken: u32 = lines.iter().map(Line::in_all).sum();
    let mut spare = length.saturating_sub(taken + breaks(length) * BREAK);
    loop {
        let before = spare;
        for line in lines.iter_mut() {
            if line.minutes < line.usual && line.rounds <= spare {
                line.minutes += 1;
                spare -= line.rounds;
            }
        }
        if spare == before {
            break;
        }
    }
}

/// Puts breaks where they divide the time most evenly and nothing is lit; none soon after the
/// start or before the end.
fn pause(lines: &mut Vec<Line<'_>>, length: u32) {
    let total: u32 = lines.iter().map(Line::in_all).sum();
    let count = breaks(total).min(breaks(length));
    let mut after: BTreeSet<usize> = BTreeSet::new();
    for number in 1..=count {
        let ideal = total * number / (count + 1);
        let mut at = 0;
        let mut best: Option<(u32, usize)> = None;
        for (index, line) in lines.iter().enumerate() {
            at += line.in_all();
            let soon = at < AWAY_FROM_BREAK || total - at < AWAY_FROM_BREAK;
            if line.flame || soon || after.contains(&index) {
                continue;
            }
            let off = at.abs_diff(ideal);
            if best.is_none_or(|(least, _)| off < least) {
                best = Some((off, index));
            }
        }
        if let Some((_, index)) = best {
            after.insert(index);
        }
    }
    for index in after.iter().rev() {
        lines.insert(index + 1, Line::fixed(What::Break, BREAK, false));
    }
}

/// The segments that may go, the first to go first: least worth first, and nothing before what
/// still needs it.
fn drops(all: &[Piece<'_>], kept: &[usize], fast: &BTreeSet<usize>) -> Vec<usize> {
    let mut fast = fast.clone();
    for index in kept.iter().rev() {
        let piece = &all[*index];
        if piece.drills() || fast.contains(index) {
            fast.insert(*index);
            fast.extend(piece.needs.iter().copied());
        }
    }
    let mut remaining: Vec<usize> = kept.to_vec();
    let mut drops = Vec::new();
    loop {
        let worth = |index: usize| {
            let piece = &all[index];
            let new: u32 = piece
                .covers
                .iter()
                .filter(|(id, _)| {
                    !remaining.iter().any(|other| {
                        *other != index && all[*other].covers.iter().any(|(known, _)| known == id)
                    })
                })
                .map(|(_, worth)| worth)
                .sum();
            piece.worth + new
        };
        let next = remaining
            .iter()
            .copied()
            .filter(|index| !fast.contains(index))
            .filter(|index| {
                !remaining
                    .iter()
                    .any(|other| all[*other].needs.contains(index))
            })
            .min_by_key(|index| (worth(*index), usize::MAX - index));
        let Some(next) = next else { break };
        remaining.retain(|index| *index != next);
        drops.push(next);
    }
    drops
}
