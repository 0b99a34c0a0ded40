//! Places with nothing lit side by side: each part of the learners at its own, and then on to the
//! next, until all were at all of them.
//!
//! So many parts as adults and places allow walk round so many places; whoever is at a place finds
//! its things there once. It is chosen where fewer stand round a place than when all do one thing
//! after the other, and where it takes no more than the usual minutes.

use super::ground::Ground;
use super::piece::Piece;
use super::rotation::{self, Round, Stop};
use super::types::Spot;
use crate::nouns::SegmentKind;
use std::collections::BTreeSet;

/// Most places that one carousel has: more rounds than these nobody keeps in mind. Common practice,
/// no source.
const MOST_STOPS: usize = 4;

/// Places side by side and who walks round them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Carousel {
    /// Where, and the index of the piece that is done there.
    pub stops: Vec<(Spot, usize)>,
    /// The learners who stay together.
    pub parts: Vec<Vec<u32>>,
    /// Fewest and usual minutes of a round.
    pub least: u32,
    pub usual: u32,
}

/// A line of a session before it has minutes: a piece alone, or a carousel by its index.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unit {
    One(usize),
    Carousel(usize),
}

impl Carousel {
    /// A round a place: each part begins at its own and goes on to the next.
    pub(super) fn rounds(&self, all: &[Piece<'_>], minutes: u32) -> Vec<Round> {
        let count = self.stops.len();
        (0..count)
            .map(|round| {
                let stops: Vec<Stop> = self
                    .parts
                    .iter()
                    .enumerate()
                    .map(|(part, learners)| {
                        let (at, piece) = self.stops[(part + round) % count];
                        (at, piece, learners.clone())
                    })
                    .collect();
                Round {
                    minutes,
                    active: stops.iter().flat_map(|(.., who)| who.clone()).collect(),
                    leaders: led(all, stops.iter().map(|(_, piece, _)| *piece)),
                    lit: Vec::new(),
                    stops,
                }
            })
            .collect()
    }

    /// The indices of its pieces.
    pub(super) fn pieces(&self) -> impl Iterator<Item = usize> + '_ {
        self.stops.iter().map(|(_, piece)| *piece)
    }
}

/// Adults that these pieces want side by side.
fn led(all: &[Piece<'_>], pieces: impl Iterator<Item = usize>) -> u32 {
    pieces.filter(|piece| all[*piece].is_led()).count() as u32
}

/// The carousels of the pieces of a session, `kept` in order; what may not be dropped and what may
/// go in separate ones. No piece is in two.
pub(super) fn carousels(
    ground: &Ground,
    all: &[Piece<'_>],
    kept: &[usize],
    fast: &BTreeSet<usize>,
) -> Vec<Carousel> {
    let before_flame = kept
        .iter()
        .copied()
        .take_while(|index| !all[*index].segment.flame);
    let hands_on = before_flame.filter(|index| turns_at_a_place(&all[*index]));
    let (stay, may_go): (Vec<usize>, Vec<usize>) = hands_on.partition(|one| fast.contains(one));
    let mut found: Vec<Carousel> = Vec::new();
    for mut left in [stay, may_go] {
        while let Some(carousel) = best(ground, all, &left) {
            left.retain(|index| !carousel.pieces().any(|piece| piece == *index));
            let mut with = found.clone();
            with.push(carousel);
            if units(all, kept, &with).is_none() {
                break;
            }
            found = with;
        }
    }
    found
}

/// Whether learners do something with their hands in it, with nothing lit, at a place of its own.
fn turns_at_a_place(piece: &Piece<'_>) -> bool {
    let segment = piece.segment;
    let does = matches!(
        segment.kind,
        SegmentKind::DryRun | SegmentKind::DoTogether | SegmentKind::YouDoIt
    );
    does && !segment.flame && segment.light.is_none() && !piece.cools() && !piece.drills()
}

/// Of these pieces, the carousel at whose places fewest stand; none where nothing is better than one
/// after the other.
fn best(ground: &Ground, all: &[Piece<'_>], from: &[usize]) -> Option<Carousel> {
    let mut best: Option<((usize, usize, u32), Carousel)> = None;
    for at in 0..from.len() {
        let mut set = vec![from[at]];
        for next in &from[at + 1..] {
            let apart = |one: &usize| !needs(all, *next, *one);
            if set.len() == MOST_STOPS || !set.iter().all(apart) {
                continue;
            }
            set.push(*next);
            if spots(ground, all, &set).is_none() {
                set.pop();
                continue;
            }
            let Some(carousel) = made(ground, all, &set) else {
                continue;
            };
            // Fewest at a place, then fewest places without anybody, then no minute too many.
            let own: u32 = set.iter().map(|one| all[*one].least).sum();
            let rank = (
                crowd(&carousel.parts),
                set.len() - carousel.parts.len(),
                (carousel.least * set.len() as u32).saturating_sub(own),
            );
            if best.as_ref().is_none_or(|(known, _)| rank < *known) {
                best = Some((rank, carousel));
            }
        }
    }
    best.map(|(_, carousel)| carousel)
}

/// The carousel of these pieces; none where the places or the adults do not allow it, or where it
/// is no better than one after the other.
fn made(ground: &Ground, all: &[Piece<'_>], set: &[usize]) -> Option<Carousel> {
    let stops = spots(ground, all, set)?;
    let minutes = |of: fn(&Piece<'_>) -> u32| set.iter().map(|one| of(&all[*one])).max();
    let (least, usual) = (minutes(|one| one.least)?, minutes(|one| one.usual)?);
    let watched = set.iter().map(|one| all[*one].watched).min()? as usize;
    // Two and two where there are enough.
    let most = set.len().min((ground.learners as usize / 2).max(1));
    let carousel = (2..=most)
        .rev()
        .map(|count| Carousel {
            stops: stops.clone(),
            parts: ground.parts(count),
            least,
            usual,
        })
        .find(|one| {
            let rounds = one.rounds(all, least);
            crowd(&one.parts) <= watched
                && rounds.iter().all(|round| round.leaders <= ground.leaders())
        })?;
    let (mut together, mut takes) = (0, 0);
    for piece in set.iter().map(|one| &all[*one]) {
        let rounds = rotation::unlit_rounds(ground, piece.watched, piece.usual);
        takes += piece.usual * rounds.len() as u32;
        for round in &rounds {
            let parts = if piece.wants_a_stove(ground.rests.len()) {
                (round.leaders as usize).min(piece.places.len())
            } else {
                round.leaders as usize
            };
            let parts = parts.max(1);
            together = together.max(round.active.len().div_ceil(parts));
        }
    }
    let better = crowd(&carousel.parts) < together;
    (better && least * set.len() as u32 <= takes).then_some(carousel)
}

/// Most learners at a place.
fn crowd(parts: &[Vec<u32>]) -> usize {
    parts.iter().map(Vec::len).max().unwrap_or(0)
}

/// A place of its own for each piece: what is about a kind of stove at a station that has it, what
/// is not at a station that is left, or at a bench.
fn spots(ground: &Ground, all: &[Piece<'_>], set: &[usize]) -> Option<Vec<(Spot, usize)>> {
    let mut taken: Vec<usize> = Vec::new();
    let mut spots: Vec<(Spot, usize)> = Vec::new();
    let at_a_stove = |piece: &Piece<'_>| piece.wants_a_stove(ground.rests.len());
    let mut order: Vec<usize> = set.to_vec();
    order.sort_by_key(|one| (!at_a_stove(&all[*one]), all[*one].places.len()));
    let mut bench = 0;
    for one in order {
        let piece = &all[one];
        let free = piece.places.iter().find(|at| !taken.contains(at)).copied();
        let at = match free {
            Some(station) => {
                taken.push(station);
                Spot::Station(station)
            }
            None if at_a_stove(piece) => return None,
            None => {
                bench += 1;
                Spot::Bench(bench)
            }
        };
        spots.push((at, one));
    }
    spots.sort_unstable();
    Some(spots)
}

/// Whether a piece needs another, or what needs it.
fn needs(all: &[Piece<'_>], piece: usize, other: usize) -> bool {
    let own = &all[piece].needs;
    own.contains(&other) || own.iter().any(|need| needs(all, *need, other))
}

/// The lines of a session in order, a carousel in the place of its last piece and whatever needs it
/// after it; none where that goes round in a ring.
pub(super) fn units(
    all: &[Piece<'_>],
    kept: &[usize],
    carousels: &[Carousel],
) -> Option<Vec<Unit>> {
    let of = |index: usize| {
        let mut found = carousels.iter();
        let at = found.position(|one| one.pieces().any(|piece| piece == index));
        at.map_or(Unit::One(index), Unit::Carousel)
    };
    let members = |unit: Unit| match unit {
        Unit::One(index) => vec![index],
        Unit::Carousel(at) => carousels[at].pieces().collect(),
    };
    let last = |unit: Unit| members(unit).into_iter().max();
    let mut waiting: Vec<Unit> = kept
        .iter()
        .filter(|index| last(of(**index)) == Some(**index))
        .map(|index| of(*index))
        .collect();
    let mut done: BTreeSet<usize> = BTreeSet::new();
    let mut order = Vec::new();
    while !waiting.is_empty() {
        let ready = waiting.iter().position(|unit| {
            let needed = members(*unit)
                .into_iter()
                .flat_map(|one| all[one].needs.iter().copied());
            needed
                .filter(|need| kept.contains(need))
                .all(|need| done.contains(&need))
        })?;
        let unit = waiting.remove(ready);
        done.extend(members(unit));
        order.push(unit);
    }
    Some(order)
}
