//! Which segments go into which session.

use super::choose::{Candidate, Chosen, best};
use super::lay::{self, ALL_OFF, Held, RECALL, breaks};
use super::pieces::{Ground, Piece};
use super::types::{LeftOut, Timetable, Why};
use crate::diag::Problem;
use crate::nouns::Trip;
use std::collections::BTreeSet;

/// Minutes beyond which a lesson that nobody timed is not made longer: a week.
const LONGEST: u32 = 7 * 24 * 60;

/// A session as asked for.
#[derive(Clone)]
pub(super) struct Ask {
    pub name: String,
    pub minutes: u32,
    pub starts: u32,
}

/// A session that cannot hold what safety requires.
pub(super) struct Short {
    /// The problem to show.
    pub problem: Box<Problem>,
    /// Minutes that are missing.
    pub missing: u32,
}

/// What sessions are filled from.
#[derive(Clone, Copy)]
pub(super) struct Fill<'a, 'f> {
    pub trip: &'f Trip,
    pub ground: &'f Ground,
    pub all: &'f [Piece<'a>],
    /// Whether nothing may be lit.
    pub indoors: bool,
    /// The key path of its minutes.
    pub key: &'static str,
}

/// The minutes to count for a segment while choosing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Pace {
    Least,
    Usual,
}

impl Pace {
    const fn of(self, piece: &Piece<'_>) -> u32 {
        match self {
            Self::Least => piece.least_in_all(),
            Self::Usual => piece.usual_in_all(),
        }
    }
}

impl<'a> Fill<'a, '_> {
    /// A timetable a session.
    ///
    /// The sessions are filled one after the other, each with the worthiest set that it holds; all
    /// but the last count usual minutes, so that what is left is not crowded out by haste.
    ///
    /// # Errors
    /// Required segments that do not fit even at their least minutes.
    pub(super) fn sessions(&self, asks: &[Ask]) -> Result<Vec<Timetable<'a>>, Short> {
        self.at(asks, Pace::Usual)
            .or_else(|_| self.at(asks, Pace::Least))
    }

    /// As [`Fill::sessions`], the last session made longer until it holds what safety requires:
    /// for minutes that nobody stated.
    ///
    /// # Errors
    /// As [`Fill::sessions`]; in practice none.
    pub(super) fn as_long_as_needed(&self, asks: &[Ask]) -> Result<Vec<Timetable<'a>>, Short> {
        let mut asks = asks.to_vec();
        loop {
            match (self.sessions(&asks), asks.last_mut()) {
                (Err(short), Some(last)) if last.minutes < LONGEST => {
                    last.minutes += short.missing;
                }
                (outcome, _) => return outcome,
            }
        }
    }

    fn at(&self, asks: &[Ask], pace: Pace) -> Result<Vec<Timetable<'a>>, Short> {
        let refused = self.refused();
        let mut done: BTreeSet<usize> = BTreeSet::new();
        let mut sessions: Vec<Held<'a>> = Vec::new();
        for (index, ask) in asks.iter().enumerate() {
            let last = index + 1 == asks.len();
            let recall = sessions
                .last()
                .map_or_else(Vec::new, |held| lay::recalled(self.all, &held.kept));
            let mut room = ask.minutes.saturating_sub(breaks(ask.minutes) * lay::BREAK);
            if !recall.is_empty() {
                room = room.saturating_sub(RECALL);
            }
            let flame_extra = self.flame_extra(&done);
            let must = self.must(&refused, &done, room, flame_extra, pace, last);
            let pace = if last { Pace::Least } else { pace };
            let Some(full) = self.chosen(&refused, &done, &must, room, flame_extra, pace) else {
                let recalls = !recall.is_empty();
                return Err(self.too_short(ask, &must, recalls, flame_extra));
            };
            // Minutes that nothing optional is put into make a lesson that can run late; a turn
            // at the flame is worth more than they are.
            let does_lit = |kept: &BTreeSet<usize>| {
                let mut kept = kept.iter();
                kept.any(|index| self.all[*index].does_lit())
            };
            let (kept, exact) = [10, 20]
                .iter()
                .map(|part| room.saturating_sub(ask.minutes / part))
                .filter_map(|room| self.chosen(&refused, &done, &must, room, flame_extra, pace))
                .find(|(kept, _)| does_lit(kept) || !does_lit(&full.0))
                .unwrap_or(full);
            let drill_done = kept.iter().any(|index| self.all[*index].drills());
            sessions.push(Held {
                kept: kept.iter().copied().collect(),
                recall,
                fast: must,
                drill: !drill_done,
                exact,
            });
            done.extend(kept);
        }
        // What a later session needs stays in the earlier one.
        let mut later: BTreeSet<usize> = BTreeSet::new();
        for held in sessions.iter_mut().rev() {
            let kept: BTreeSet<usize> = held.kept.iter().copied().collect();
            held.fast.extend(later.intersection(&kept).copied());
            later.extend(
                kept.iter()
                    .flat_map(|index| self.all[*index].needs.iter().copied()),
            );
        }
        let mut tables: Vec<Timetable<'a>> = asks
            .iter()
            .zip(&sessions)
            .map(|(ask, held)| lay::lay(self, ask, held))
            .collect();
        if let Some(last) = tables.last_mut() {
            last.left_out = self.left_out(&refused, &done);
        }
        Ok(tables)
    }

    /// Minutes that the first flame of a session adds: the last call, cooling, and the drill where
    /// no segment brings it.
    fn flame_extra(&self, done: &BTreeSet<usize>) -> u32 {
        let cooling = self
            .all
            .iter()
            .find(|piece| piece.cools())
            .map_or(lay::COOLING, Piece::least_in_all);
        let drill_to_come =
            (0..self.all.len()).any(|index| self.all[index].drills() && !done.contains(&index));
        ALL_OFF + cooling + if drill_to_come { 0 } else { lay::DRILL }
    }

    /// Why segments cannot be held at all, by index.
    fn refused(&self) -> Vec<Option<Why>> {
        let mut refused: Vec<Option<Why>> = Vec::new();
        for piece in self.all {
            let own = if !piece.segment.flame {
                None
            } else if self.indoors {
                Some(Why::Indoors)
            } else if self.ground.lit == 0 {
                Some(Why::NoAdult)
            } else {
                None
            };
            let needed = piece.needs.iter().find_map(|need| refused[*need]);
            refused.push(own.or(needed));
        }
        refused
    }

    /// The segments that this session must hold: of those that safety requires of the subjects,
    /// and of everything here when a subject may be lit, with all that they need, as many as fit
    /// in order; in the last session all that are left.
    fn must(
        &self,
        refused: &[Option<Why>],
        done: &BTreeSet<usize>,
        room: u32,
        flame_extra: u32,
        pace: Pace,
        last: bool,
    ) -> BTreeSet<usize> {
        let mut wanted = BTreeSet::new();
        let may_be_lit = (0..self.all.len()).any(|index| {
            let piece = &self.all[index];
            piece.rank.is_some() && piece.segment.flame && refused[index].is_none()
        });
        for index in (0..self.all.len()).rev() {
            let piece = &self.all[index];
            let required = piece.segment.required && (piece.rank.is_some() || may_be_lit);
            if (required || wanted.contains(&index))
                && !done.contains(&index)
                && !piece.cools()
                && refused[index].is_none()
            {
                wanted.insert(index);
                wanted.extend(piece.needs.iter().copied());
            }
        }
        wanted.retain(|index| !done.contains(index));
        if last {
            return wanted;
        }
        let mut held = BTreeSet::new();
        let (mut minutes, mut lit) = (0, false);
        for index in wanted {
            let piece = &self.all[index];
            let ready = piece
                .needs
                .iter()
                .all(|need| held.contains(need) || done.contains(need));
            let first_flame = if piece.segment.flame && !lit {
                flame_extra
            } else {
                0
            };
            let then = minutes + pace.of(piece) + first_flame;
            if ready && then <= room {
                minutes = then;
                lit |= piece.segment.flame;
                held.insert(index);
            }
        }
        held
    }

    /// The segments of one session: the worthiest set of the subjects with what it needs; then, of
    /// the other subjects, what fits when everything takes its usual time.
    fn chosen(
        &self,
        refused: &[Option<Why>],
        done: &BTreeSet<usize>,
        must: &BTreeSet<usize>,
        room: u32,
        flame_extra: u32,
        pace: Pace,
    ) -> Option<(BTreeSet<usize>, bool)> {
        let mut about = BTreeSet::new();
        for index in (0..self.all.len()).rev() {
            if self.all[index].rank.is_some() || about.contains(&index) || must.contains(&index) {
                about.insert(index);
                about.extend(self.all[index].needs.iter().copied());
            }
        }
        let open = |index: &usize| {
            refused[*index].is_none() && !done.contains(index) && !self.all[*index].cools()
        };
        let first: Vec<usize> = about.iter().copied().filter(open).collect();
        let none = BTreeSet::new();
        let one = self.best_of(&first, done, &none, must, room, flame_extra, pace)?;
        let mut kept = picked(&first, &one);
        let usual: u32 = kept
            .iter()
            .map(|index| self.all[*index].usual_in_all())
            .sum();
        let lit = kept.iter().any(|index| self.all[*index].segment.flame);
        let extra = if lit { 0 } else { flame_extra };
        let left = room.saturating_sub(usual + flame_extra - extra);
        let others: Vec<usize> = (0..self.all.len())
            .filter(|index| !about.contains(index))
            .filter(open)
            .collect();
        let nothing = BTreeSet::new();
        let two = self.best_of(&others, done, &kept, &nothing, left, extra, Pace::Usual)?;
        kept.extend(picked(&others, &two));
        Some((kept, one.exact && two.exact))
    }

    #[allow(
        clippy::too_many_arguments,
        reason = "one call, each value another thing"
    )]
    fn best_of(
        &self,
        from: &[usize],
        done: &BTreeSet<usize>,
        kept: &BTreeSet<usize>,
        must: &BTreeSet<usize>,
        room: u32,
        flame_extra: u32,
        pace: Pace,
    ) -> Option<Chosen> {
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
                Candidate {
                    minutes: pace.of(piece),
                    worth: piece.worth,
                    covers: piece
                        .covers
                        .iter()
                        .filter(|(id, _)| !covered.contains(id))
                        .filter_map(|(id, worth)| {
                            objectives.binary_search(&id).ok().map(|at| (at, *worth))
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

    /// What the minutes do not hold.
    fn too_short(
        &self,
        ask: &Ask,
        must: &BTreeSet<usize>,
        recalls: bool,
        flame_extra: u32,
    ) -> Short {
        let pieces: Vec<&Piece<'_>> = must.iter().map(|index| &self.all[*index]).collect();
        let lit = pieces.iter().any(|piece| piece.segment.flame);
        let wanted: u32 = pieces.iter().map(|piece| piece.least_in_all()).sum::<u32>()
            + if lit { flame_extra } else { 0 }
            + if recalls { RECALL } else { 0 };
        // Longer lessons have more breaks.
        let mut enough = ask.minutes + 1;
        while enough.saturating_sub(breaks(enough) * lay::BREAK) < wanted {
            enough += 1;
        }
        let missing = enough - ask.minutes;
        let names: Vec<String> = pieces
            .iter()
            .map(|piece| format!("{} ({} min)", piece.segment.title, piece.least_in_all()))
            .collect();
        let rounds = pieces.iter().any(|piece| piece.rounds > 1);
        let problem = Problem::error(
            "course.minutes",
            format!(
                "{missing} minutes are missing: safety requires {}",
                names.join(", ")
            ),
            format!(
                "write `minutes: {enough}` or more, or name fewer subjects under `focus`{}",
                if rounds {
                    "; with more instructors fewer rounds are needed"
                } else {
                    ""
                }
            ),
        )
        .at(self.trip.file.clone(), self.key);
        Short {
            problem: Box::new(problem),
            missing,
        }
    }

    /// What no session holds and what it would cost, subjects first.
    fn left_out(&self, refused: &[Option<Why>], done: &BTreeSet<usize>) -> Vec<LeftOut<'a>> {
        let lit = done.iter().any(|index| self.all[*index].segment.flame);
        let mut left: Vec<usize> = (0..self.all.len())
            .filter(|index| !done.contains(index) && !self.all[*index].cools())
            .collect();
        left.sort_by_key(|index| {
            (
                self.all[*index].rank.is_none(),
                self.all[*index].rank,
                *index,
            )
        });
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
                let minutes: u32 = with.iter().map(|at| self.all[*at].least_in_all()).sum();
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

/// The indices that were taken.
fn picked(from: &[usize], chosen: &Chosen) -> BTreeSet<usize> {
    from.iter()
        .zip(&chosen.taken)
        .filter(|(_, taken)| **taken)
        .map(|(index, _)| *index)
        .collect()
}
