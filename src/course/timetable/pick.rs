//! The worthiest segments of a session that fit into its minutes.

use super::ask::{Ask, Fill, Pace};
use super::choose::{Candidate, Chosen, best};
use super::lay::LATE;
use super::must::Before;
use super::types::Why;
use std::collections::BTreeSet;

/// What a set is chosen from and must keep to.
#[derive(Clone, Copy)]
pub(super) struct Wish<'w> {
    /// Indices that may be taken, what each needs before it.
    pub from: &'w [usize],
    /// Held in earlier sessions.
    pub done: &'w BTreeSet<usize>,
    /// In this session already.
    pub kept: &'w BTreeSet<usize>,
    /// Taken whatever it is worth.
    pub must: &'w BTreeSet<usize>,
    /// Minutes that may be filled.
    pub room: u32,
    /// Minutes that the first flame adds.
    pub flame_extra: u32,
    /// The minutes to count.
    pub pace: Pace,
}

impl<'a> Fill<'a, '_> {
    /// The worthiest set, with minutes to spare where a turn at the flame does not suffer for it:
    /// a lesson without any can only run late.
    pub(super) fn with_slack(
        &self,
        ask: &Ask,
        refused: &[Option<Why>],
        done: &BTreeSet<usize>,
        must: &BTreeSet<usize>,
        room: u32,
        before: &Before<'a>,
    ) -> Option<(BTreeSet<usize>, bool)> {
        let full = self.chosen(ask, refused, done, must, room, before.pace)?;
        let does_lit = |kept: &BTreeSet<usize>| {
            let mut kept = kept.iter();
            kept.any(|index| self.all[*index].does_lit())
        };
        let mut slack = [ask.minutes / 10, (ask.minutes / 20).max(LATE), LATE];
        slack.sort_unstable_by(|a, b| b.cmp(a));
        let slack = slack
            .iter()
            .map(|kept| room.saturating_sub(*kept))
            .filter_map(|room| self.chosen(ask, refused, done, must, room, before.pace))
            .find(|(kept, _)| does_lit(kept) || !does_lit(&full.0));
        Some(slack.unwrap_or(full))
    }

    /// The segments of one session: the worthiest set of the subjects with what it needs; then, of
    /// the other subjects, what fits when everything takes its usual time.
    pub(super) fn chosen(
        &self,
        ask: &Ask,
        refused: &[Option<Why>],
        done: &BTreeSet<usize>,
        must: &BTreeSet<usize>,
        room: u32,
        pace: Pace,
    ) -> Option<(BTreeSet<usize>, bool)> {
        let flame_extra = self.flame_extra(done);
        let mut about = BTreeSet::new();
        for index in (0..self.all.len()).rev() {
            let ranked = ask.aim.rank(&self.all[index]).is_some();
            if ranked || about.contains(&index) || must.contains(&index) {
                about.insert(index);
                about.extend(self.all[index].needs.iter().copied());
            }
        }
        let open = |index: &usize| {
            refused[*index].is_none() && !done.contains(index) && !self.all[*index].cools()
        };
        let first: Vec<usize> = about.iter().copied().filter(open).collect();
        let none = BTreeSet::new();
        let wish = Wish {
            from: &first,
            done,
            kept: &none,
            must,
            room,
            flame_extra,
            pace,
        };
        let one = self.best_of(ask, &wish)?;
        let mut kept = picked(&first, &one);
        let usual: u32 = kept
            .iter()
            .map(|index| self.all[*index].usual_total())
            .sum();
        let lit = kept.iter().any(|index| self.all[*index].segment.flame);
        let extra = if lit { 0 } else { flame_extra };
        let left = room.saturating_sub(usual + flame_extra - extra);
        let others: Vec<usize> = (0..self.all.len())
            .filter(|index| !about.contains(index))
            .filter(open)
            .collect();
        let wish = Wish {
            from: &others,
            kept: &kept,
            must: &none,
            room: left,
            flame_extra: extra,
            pace: Pace::Usual,
            ..wish
        };
        let two = self.best_of(ask, &wish)?;
        kept.extend(picked(&others, &two));
        Some((kept, one.exact && two.exact))
    }

    /// The worthiest set of a wish; none where what it must hold does not fit.
    pub(super) fn best_of(&self, ask: &Ask, wish: &Wish<'_>) -> Option<Chosen> {
        let Wish {
            from,
            done,
            kept,
            must,
            room,
            flame_extra,
            pace,
        } = *wish;
        let objectives: Vec<&String> = self
            .all
            .iter()
            .flat_map(|piece| piece.covers.iter().map(|(id, _)| id))
            .collect::<BTreeSet<_>>()
            .into_iter()
            .collect();
        let covered: BTreeSet<&String> = done
            .union(kept)
            .flat_map(|index| self.all[*index].covers.iter().map(|(id, _)| id))
            .collect();
        let mut places: Vec<Option<usize>> = vec![None; self.all.len()];
        let mut possible = Vec::new();
        for index in from {
            let piece = &self.all[*index];
            let reachable = piece
                .needs
                .iter()
                .all(|need| done.contains(need) || kept.contains(need) || places[*need].is_some());
            if reachable {
                places[*index] = Some(possible.len());
                possible.push(*index);
            }
        }
        let candidates: Vec<Candidate> = possible
            .iter()
            .map(|index| {
                let piece = &self.all[*index];
                let weight = ask.aim.weight(piece);
                Candidate {
                    minutes: pace.of(piece),
                    worth: weight,
                    covers: piece
                        .covers
                        .iter()
                        .filter(|(id, _)| !covered.contains(id))
                        .filter_map(|(id, worth)| {
                            objectives
                                .binary_search(&id)
                                .ok()
                                .map(|at| (at, *worth * weight))
                        })
                        .collect(),
                    needs: piece
                        .needs
                        .iter()
                        .filter_map(|need| places[*need])
                        .collect(),
                    flame: piece.segment.flame,
                    required: must.contains(index),
                }
            })
            .collect();
        let mut chosen = best(&candidates, room, flame_extra)?;
        // Back to the places of `from`.
        let mut taken = chosen.taken.iter();
        chosen.taken = from
            .iter()
            .map(|index| places[*index].is_some() && taken.next().copied().unwrap_or(false))
            .collect();
        Some(chosen)
    }
}

/// The indices that were taken.
pub(super) fn picked(from: &[usize], chosen: &Chosen) -> BTreeSet<usize> {
    from.iter()
        .zip(&chosen.taken)
        .filter(|(_, taken)| **taken)
        .map(|(index, _)| *index)
        .collect()
}
