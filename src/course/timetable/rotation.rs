//! Who is where while something is lit: rounds without two groups at one station.

use super::pieces::{Ground, Party, Piece};
use super::types::{Place, Round};
use std::collections::BTreeSet;

/// Which parties are lit in each round, so that as few rounds as can be give every party its
/// turns: those that wait for most turns go first.
///
/// A party is lit once a round and `together` parties are lit side by side, so no order takes
/// fewer rounds than the larger of the most turns of one party and all turns / `together`; this
/// one takes just as many.
pub(super) fn order(parties: &[Party], together: usize) -> Vec<Vec<usize>> {
    let mut left: Vec<u32> = parties.iter().map(|party| party.turns).collect();
    let mut rounds = Vec::new();
    loop {
        let mut waiting: Vec<usize> = (0..left.len()).filter(|index| left[*index] > 0).collect();
        if waiting.is_empty() {
            return rounds;
        }
        waiting.sort_by_key(|index| std::cmp::Reverse(left[*index]));
        waiting.truncate(together.max(1));
        waiting.sort_unstable();
        for index in &waiting {
            left[*index] -= 1;
        }
        rounds.push(waiting);
    }
}

/// The rounds of a segment with a flame that starts at `starts` and takes `minutes` a round.
///
/// A party is lit at its own station where that will do; the other groups stay at stations that
/// are not lit, their own where it is free, or wait.
pub(super) fn rounds(ground: &Ground, piece: &Piece<'_>, starts: u32, minutes: u32) -> Vec<Round> {
    let mut taken_turns = vec![0; piece.parties.len()];
    order(&piece.parties, piece.together)
        .into_iter()
        .zip(0u32..)
        .map(|(lit, number)| {
            let mut places: Vec<Option<Place>> = vec![None; ground.groups.len()];
            let mut taken = vec![false; ground.kitchens];
            for index in lit {
                let party = &piece.parties[index];
                let home = party
                    .groups
                    .first()
                    .copied()
                    .filter(|home| piece.places.contains(home) && !taken[*home]);
                let free = || {
                    let mut free = piece.places.iter().copied();
                    free.find(|place| !taken[*place])
                };
                let Some(station) = home.or_else(free) else {
                    continue;
                };
                taken[station] = true;
                for group in &party.groups {
                    let learners = ground.groups[*group].learners;
                    places[*group] = Some(Place {
                        station,
                        at_flame: Some(share(learners, party.turns, taken_turns[index])),
                    });
                }
                taken_turns[index] += 1;
            }
            for group in 0..places.len() {
                if places[group].is_some() {
                    continue;
                }
                let home = (group < taken.len() && !taken[group]).then_some(group);
                let free = || taken.iter().position(|taken| !taken);
                if let Some(station) = home.or_else(free) {
                    taken[station] = true;
                    places[group] = Some(Place {
                        station,
                        at_flame: None,
                    });
                }
            }
            Round {
                starts: starts + number * minutes,
                minutes,
                places,
            }
        })
        .collect()
}

/// The stations that are lit in any of the rounds.
pub(super) fn lit_stations(rounds: &[Round]) -> BTreeSet<usize> {
    rounds
        .iter()
        .flat_map(|round| round.places.iter().flatten())
        .filter(|place| place.at_flame.is_some())
        .map(|place| place.station)
        .collect()
}

/// The first and the last learner, counted from 1, of a turn (counted from 0) when so many learners
/// share so many turns as evenly as can be.
fn share(learners: u32, turns: u32, turn: u32) -> (u32, u32) {
    let turns = turns.clamp(1, learners.max(1));
    let (each, more) = (learners / turns, learners % turns);
    let first = turn * each + turn.min(more) + 1;
    (first, first + each + u32::from(turn < more) - 1)
}
