//! What a session must hold, what it may hold beside a flame, and what found no place.

use super::ask::{Ask, Fill, MORE, Pace, Short};
use super::lay::{self, ALL_OFF, RECALL};
use super::line::{BREAK, breaks};
use super::piece::Piece;
use super::promise;
use super::types::{LeftOut, Why};
use crate::nouns::{Id, Module};
use std::collections::BTreeSet;

/// What a session starts from.
pub(super) struct Before<'a> {
    pub refused: Vec<Option<Why>>,
    pub done: BTreeSet<usize>,
    pub recall: Vec<(&'a Module, Id)>,
    pub pace: Pace,
    pub last: bool,
}

impl<'a> Fill<'a, '_> {
    /// Minutes of a session that no segment has.
    pub(super) fn fixed(&self, ask: &Ask, before: &Before<'a>) -> u32 {
        let (hand_out, clear_up) = lay::first_and_last(ask.minutes);
        let recall = if before.recall.is_empty() { 0 } else { RECALL };
        breaks(ask.minutes) * BREAK + recall + hand_out + clear_up
    }

    /// Minutes that the first flame of a session adds: the last call, cooling, and the drill where
    /// no segment brings it.
    pub(super) fn flame_extra(&self, done: &BTreeSet<usize>) -> u32 {
        let cooling = self
            .all
            .iter()
            .find(|piece| piece.cools())
            .map_or(lay::COOLING, Piece::least_total);
        let drill_to_come =
            (0..self.all.len()).any(|index| self.all[index].drills() && !done.contains(&index));
        ALL_OFF + cooling + if drill_to_come { 0 } else { lay::DRILL }
    }

    /// The segments that this session must hold, as far as they can be held: of those that safety
    /// requires of its subjects, and what its subjects are promised, with all that they need, as
    /// many as fit in order; in the last session that is not a shorter plan, and where it has
    /// subjects of its own, all.
    pub(super) fn must(
        &self,
        ask: &Ask,
        refused: &[Option<Why>],
        done: &BTreeSet<usize>,
        room: u32,
        before: &Before<'a>,
    ) -> BTreeSet<usize> {
        let mut wanted = promise::practised(self, ask, refused, &before.done);
        for index in (0..self.all.len()).rev() {
            let piece = &self.all[index];
            let required = piece.segment.required && ask.aim.names(piece);
            if (required || wanted.contains(&index)) && !piece.cools() && refused[index].is_none() {
                wanted.insert(index);
                wanted.extend(piece.needs.iter().copied());
            }
        }
        wanted.retain(|index| !done.contains(index));
        // A shorter plan holds what it can, unless the file says what it is to hold.
        if (before.last && !ask.shorter) || ask.own {
            return wanted;
        }
        let extra = self.flame_extra(done);
        let mut held = BTreeSet::new();
        let (mut minutes, mut lit) = (0, false);
        for index in wanted {
            let piece = &self.all[index];
            let ready = piece
                .needs
                .iter()
                .all(|need| held.contains(need) || done.contains(need));
            let first_flame = if piece.segment.flame && !lit {
                extra
            } else {
                0
            };
            let then = minutes + before.pace.of(piece) + first_flame;
            if ready && then <= room {
                minutes = then;
                lit |= piece.segment.flame;
                held.insert(index);
            }
        }
        held
    }

    /// What nobody asked for or needs on the clock and may be done beside a flame, the worthiest
    /// first.
    pub(super) fn open(
        &self,
        ask: &Ask,
        refused: &[Option<Why>],
        done: &BTreeSet<usize>,
        kept: &BTreeSet<usize>,
    ) -> Vec<usize> {
        let mut open: Vec<usize> = (0..self.all.len())
            .filter(|index| {
                let piece = &self.all[*index];
                refused[*index].is_none()
                    && !done.contains(index)
                    && !kept.contains(index)
                    && piece
                        .needs
                        .iter()
                        .all(|need| done.contains(need) || kept.contains(need))
            })
            .collect();
        open.sort_by_key(|index| std::cmp::Reverse(ask.aim.weight(&self.all[*index])));
        open
    }

    /// What the minutes do not hold, and how many would.
    pub(super) fn too_short(
        &self,
        ask: &Ask,
        before: &Before<'a>,
        must: &BTreeSet<usize>,
    ) -> Short {
        let pieces: Vec<&Piece<'_>> = must.iter().map(|index| &self.all[*index]).collect();
        let lit = pieces.iter().any(|piece| piece.segment.flame);
        let wanted: u32 = pieces.iter().map(|piece| piece.least_total()).sum::<u32>()
            + if lit {
                self.flame_extra(&before.done)
            } else {
                0
            };
        // Longer lessons have more breaks, and more words at both ends.
        let holds = |more: &u32| {
            let longer = Ask {
                minutes: ask.minutes + more,
                ..ask.clone()
            };
            longer.minutes >= wanted + self.fixed(&longer, before)
        };
        let missing = (1..=MORE)
            .find(holds)
            .unwrap_or_else(|| wanted.saturating_sub(ask.minutes).max(1));
        let enough = ask.minutes + missing;
        Short {
            problem: Box::new(promise::too_short(self, ask, &pieces, missing, enough)),
            missing,
        }
    }

    /// What no session holds and what it would cost, subjects first.
    pub(super) fn left_out(
        &self,
        ask: &Ask,
        all: bool,
        refused: &[Option<Why>],
        done: &BTreeSet<usize>,
    ) -> Vec<LeftOut<'a>> {
        let lit = done.iter().any(|index| self.all[*index].segment.flame);
        let rank = |index: &usize| ask.aim.rank(&self.all[*index]);
        let mut left: Vec<usize> = (0..self.all.len())
            .filter(|index| !done.contains(index) && !self.all[*index].cools())
            .filter(|index| all || rank(index).is_some())
            .collect();
        left.sort_by_key(|index| (rank(index).is_none(), rank(index), *index));
        left.iter()
            .map(|index| {
                let mut with = BTreeSet::from([*index]);
                for at in (0..=*index).rev() {
                    if with.contains(&at) {
                        with.extend(self.all[at].needs.iter().copied());
                    }
                }
                with.retain(|other| !done.contains(other));
                let first_flame = !lit && with.iter().any(|at| self.all[*at].segment.flame);
                let minutes: u32 = with
                    .iter()
                    .filter_map(|at| self.all[*at].least_in_all)
                    .sum();
                let piece = &self.all[*index];
                LeftOut {
                    module: piece.module,
                    segment: piece.segment,
                    minutes: minutes
                        + if first_flame {
                            self.flame_extra(done)
                        } else {
                            0
                        },
                    why: refused[*index].unwrap_or(Why::NoRoom),
                }
            })
            .collect()
    }
}
