//! Who is where while something is lit: rounds without two groups at one station.

use super::pieces::{Ground, Piece};
use super::types::Round;

/// The rounds of a segment with a flame that starts at `starts` and takes `minutes` a round.
///
/// Each party is lit once, at its own station where that will do; the other groups stay at
/// stations that are not lit, their own where it is free, or wait.
pub(super) fn rounds(ground: &Ground, piece: &Piece<'_>, starts: u32, minutes: u32) -> Vec<Round> {
    let together = (ground.lit.max(1) as usize).min(piece.places.len().max(1));
    piece
        .parties
        .chunks(together)
        .zip(0u32..)
        .map(|(parties, number)| {
            let mut places = vec![None; ground.groups.len()];
            let mut taken = vec![false; ground.kitchens];
            for party in parties {
                let home = party
                    .first()
                    .copied()
                    .filter(|home| piece.places.contains(home) && !taken[*home]);
                let free = || {
                    let mut free = piece.places.iter().copied();
                    free.find(|place| !taken[*place])
                };
                let Some(place) = home.or_else(free) else {
                    continue;
                };
                taken[place] = true;
                for group in party {
                    places[*group] = Some((place, true));
                }
            }
            for group in 0..places.len() {
                if places[group].is_some() {
                    continue;
                }
                let home = (group < taken.len() && !taken[group]).then_some(group);
                let free = || taken.iter().position(|taken| !taken);
                if let Some(place) = home.or_else(free) {
                    taken[place] = true;
                    places[group] = Some((place, false));
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
