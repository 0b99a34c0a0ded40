//! Which segments go into which session.

use super::choose::{Candidate, Chosen, best};
use super::ground::Ground;
use super::lay::{self, ALL_OFF, Checked, Held, Laid, RECALL, breaks};
use super::pieces::{Aim, Piece};
use super::promise;
use super::types::{LeftOut, Timetable, Why};
use crate::diag::Problem;
use crate::nouns::{Date, Id, Light, SessionKind, Trip};
use std::collections::BTreeSet;

/// Minutes beyond which a lesson that nobody timed is not made longer: a week.
const LONGEST: u32 = 7 * 24 * 60;
/// Most minutes that a learner may wait in a session without anything to do; common practice, no
/// source.
pub const MOST_WAITING: u32 = 20;
/// Times that a session is laid again because it did not come out as wanted.
const TRIES: u32 = 12;
/// Minutes longer that are tried to tell how many would do.
const MORE: u32 = 240;

/// A session as asked for.
#[derive(Clone)]
pub(super) struct Ask {
    pub name: String,
    pub minutes: u32,
    pub starts: u32,
    pub date: Option<Date>,
    pub indoors: bool,
    pub kind: SessionKind,
    /// The subjects that the file names for it.
    pub focus: Vec<Id>,
    pub aim: Aim,
    /// Whether it has subjects of its own, all of which it must hold.
    pub own: bool,
    /// Minutes after midnight between which it is daylight for certain, and between which it may be
    /// dusk.
    pub daylight: (u32, u32),
    pub dusk: Option<(u32, u32)>,
    /// The key path of its minutes.
    pub key: String,
}

impl Ask {
    /// Whether these minutes have the light that is needed for certain.
    pub(super) fn has(&self, light: Light, starts: u32, ends: u32) -> bool {
        let within = |(from, to): (u32, u32)| starts >= from && ends <= to;
        match light {
            Light::Daylight => within(self.daylight),
            Light::Dusk => self.dusk.is_some_and(within),
        }
    }
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
    /// Whether a second burner may stand where one needs its rest.
    pub spares: bool,
}

/// The minutes to count for a segment while choosing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Pace {
    Least,
    Usual,
}

impl Pace {
    fn of(self, piece: &Piece<'_>) -> u32 {
        match self {
            Self::Least => piece.least_total(),
            Self::Usual => piece.usual_total(),
        }
    }
}

/// What a session starts from.
struct Before<'a> {
    refused: Vec<Option<Why>>,
    done: BTreeSet<usize>,
    recall: Vec<(&'a crate::nouns::Module, Id)>,
    pace: Pace,
    last: bool,
}

/// A session that was filled.
struct Session<'a> {
    laid: Laid<'a>,
    kept: Vec<usize>,
    refused: Vec<Option<Why>>,
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
        let mut done: BTreeSet<usize> = BTreeSet::new();
        let mut sessions: Vec<Session<'a>> = Vec::new();
        let to_teach = asks.iter().rposition(|ask| ask.kind == SessionKind::Teach);
        // What a later session needs stays in the earlier one: nothing of it may be dropped.
        let later = asks.len() > 1;
        for (index, ask) in asks.iter().enumerate() {
            let last = Some(index) == to_teach;
            let before = Before {
                refused: self.refused(ask),
                done: done.clone(),
                recall: sessions
                    .last()
                    .map_or_else(Vec::new, |held| lay::recalled(self.all, &held.kept)),
                pace: if last { Pace::Least } else { pace },
                last,
            };
            let held = match ask.kind {
                SessionKind::Teach => self.teach(ask, &before, later && !last)?,
                SessionKind::TeachBack => self.teach_back(ask, &before)?,
                SessionKind::Check => self.check(ask, &before)?,
            };
            done.extend(held.kept.iter().copied());
            sessions.push(held);
        }
        let count = sessions.len();
        let tables = sessions.into_iter().zip(asks).enumerate();
        Ok(tables
            .map(|(index, (held, ask))| {
                let mut table = held.laid.table;
                if index + 1 == count || ask.own {
                    table.left_out = self.left_out(ask, index + 1 == count, &held.refused, &done);
                }
                table
            })
            .collect())
    }

    /// A session that teaches: chosen, laid, and laid again until nothing runs over, nobody waits
    /// long, what needs daylight has it, and what can be done beside a flame is done there.
    fn teach(&self, ask: &Ask, before: &Before<'a>, later: bool) -> Result<Session<'a>, Short> {
        let mut refused = before.refused.clone();
        let fixed = self.fixed(ask, before);
        let mut room = ask.minutes.saturating_sub(fixed);
        let mut wanted: Vec<usize> = Vec::new();
        let mut moves = true;
        let mut best: Option<Session<'a>> = None;
        for attempt in 0..TRIES {
            let mut done = before.done.clone();
            done.extend(&wanted);
            let must = self.must(ask, &refused, &done, room, before);
            let Some((kept, exact)) = self.with_slack(ask, &refused, &done, &must, room, before)
            else {
                if let Some(best) = best {
                    return Ok(best);
                }
                return Err(self.too_short(ask, before, &must));
            };
            // What a flame needs is not done beside it.
            let too_late = |index: &usize| {
                let mut kept = kept.iter();
                kept.any(|other| self.all[*other].needs.contains(index))
            };
            if wanted.iter().any(too_late) {
                wanted.retain(|index| !too_late(index));
                moves = false;
                continue;
            }
            let drill_done = kept.iter().any(|index| self.all[*index].drills());
            // What safety requires before a flame stays even when the flame goes.
            let required = |index: &&usize| self.all[**index].segment.required;
            let mut fast = must.clone();
            fast.extend(kept.iter().filter(required));
            let held = Held {
                kept: kept.iter().copied().collect(),
                recall: before.recall.clone(),
                fast: if later { kept.clone() } else { fast },
                drill: !drill_done,
                exact: exact && attempt == 0,
                open: if moves {
                    self.open(ask, &refused, &done, &kept)
                } else {
                    Vec::new()
                },
                wanted: wanted.clone(),
                ..Held::default()
            };
            let laid = lay::lay(self, ask, &held);
            if laid.over > 0 {
                room = room.saturating_sub(laid.over);
                continue;
            }
            if let Some(index) = laid.dark.first() {
                refused[*index] = Some(Why::Light);
                self.spread(&mut refused);
                continue;
            }
            if laid.table.waits > MOST_WAITING
                && let Some(longest) = laid.longest
            {
                refused[longest] = Some(Why::Waits);
                self.spread(&mut refused);
                room = ask.minutes.saturating_sub(fixed);
                continue;
            }
            let lost = wanted.iter().any(|index| !laid.placed.contains(index));
            let moved: Vec<usize> = kept.intersection(&laid.placed).copied().collect();
            if lost || !moved.is_empty() {
                // What was on the clock and beside it: beside it is enough, and leaves room. What
                // found no place there any more goes back.
                if lost || !moves || attempt + 3 > TRIES {
                    wanted.retain(|index| laid.placed.contains(index) && !lost);
                    moves = false;
                } else {
                    wanted.extend(moved);
                }
                if !lost && !moves && attempt + 1 == TRIES {
                    break;
                }
                continue;
            }
            let mut all = kept;
            all.extend(&laid.placed);
            best = Some(Session {
                laid,
                kept: all.into_iter().collect(),
                refused: refused.clone(),
            });
            break;
        }
        match best {
            Some(best) if self.trip.course.stated && best.laid.table.waits > MOST_WAITING => {
                Err(Short {
                    missing: MORE,
                    problem: Box::new(promise::waits(self, ask, &best.laid.table)),
                })
            }
            Some(best) => Ok(best),
            None => {
                let must = self.must(ask, &refused, &before.done, room, before);
                Err(self.too_short(ask, before, &must))
            }
        }
    }

    /// The worthiest set, with minutes to spare where a turn at the flame does not suffer for it:
    /// a lesson without any can only run late.
    fn with_slack(
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
        let slack = [10, 20]
            .iter()
            .map(|part| room.saturating_sub(ask.minutes / part))
            .filter_map(|room| self.chosen(ask, refused, done, must, room, before.pace))
            .find(|(kept, _)| does_lit(kept) || !does_lit(&full.0));
        Some(slack.unwrap_or(full))
    }

    /// Minutes of a session that no segment has.
    fn fixed(&self, ask: &Ask, before: &Before<'a>) -> u32 {
        let (hand_out, clear_up) = lay::first_and_last(ask.minutes);
        let recall = if before.recall.is_empty() { 0 } else { RECALL };
        breaks(ask.minutes) * lay::BREAK + recall + hand_out + clear_up
    }

    /// A session in which learners teach what was taught before.
    fn teach_back(&self, ask: &Ask, before: &Before<'a>) -> Result<Session<'a>, Short> {
        let mut room = ask.minutes.saturating_sub(self.fixed(ask, before));
        let from: Vec<usize> = before
            .done
            .iter()
            .copied()
            .filter(|index| {
                let piece = &self.all[*index];
                before.refused[*index].is_none()
                    && !piece.cools()
                    && !piece.drills()
                    && (!ask.aim.asked || ask.aim.rank(piece).is_some())
            })
            .collect();
        let none = BTreeSet::new();
        for _ in 0..TRIES {
            let extra = self.flame_extra(&before.done);
            let Some(chosen) = self.best_of(
                ask,
                &from,
                &before.done,
                &none,
                &none,
                room,
                extra,
                Pace::Least,
            ) else {
                break;
            };
            let kept = picked(&from, &chosen);
            let held = Held {
                kept: kept.iter().copied().collect(),
                recall: before.recall.clone(),
                drill: true,
                exact: chosen.exact,
                teach_back: true,
                ..Held::default()
            };
            let laid = lay::lay(self, ask, &held);
            if kept.is_empty() {
                break;
            }
            if laid.over == 0 && laid.table.waits <= MOST_WAITING && laid.dark.is_empty() {
                return Ok(Session {
                    laid,
                    kept: held.kept,
                    refused: before.refused.clone(),
                });
            }
            room = room.saturating_sub(laid.over.max(5));
        }
        Err(Short {
            missing: MORE,
            problem: Box::new(
                Problem::error(
                    "course.focus",
                    format!("`{}` holds nothing that was taught before it", ask.name),
                    "give it more `minutes`, or a `focus` that an earlier session teaches",
                )
                .at(self.trip.file.clone(), ask.key.clone()),
            ),
        })
    }

    /// A session that checks what was taught: at the flame where everyone gets a turn without long
    /// waiting, else with nothing lit.
    fn check(&self, ask: &Ask, before: &Before<'a>) -> Result<Session<'a>, Short> {
        let lit = before
            .done
            .iter()
            .copied()
            .filter(|index| self.all[*index].lights_each() && before.refused[*index].is_none())
            .map(Checked::Lit);
        let watched: Vec<usize> = before
            .done
            .iter()
            .copied()
            .filter(|index| {
                self.all[*index].segment.kind == crate::nouns::SegmentKind::Check
                    && before.refused[*index].is_none()
            })
            .collect();
        for (kept, how) in lit
            .chain([Checked::Unlit])
            .flat_map(|how| [(watched.clone(), how), (Vec::new(), how)])
        {
            let held = Held {
                kept,
                recall: Vec::new(),
                drill: true,
                exact: true,
                check: Some(how),
                ..Held::default()
            };
            let laid = lay::lay(self, ask, &held);
            if laid.over == 0 && laid.table.waits <= MOST_WAITING && laid.table.entries.len() > 2 {
                return Ok(Session {
                    laid,
                    kept: Vec::new(),
                    refused: before.refused.clone(),
                });
            }
        }
        let held = Held {
            check: Some(Checked::Unlit),
            ..Held::default()
        };
        let missing = lay::lay(self, ask, &held).over.max(1);
        Err(Short {
            missing,
            problem: Box::new(
                Problem::error(
                    "course.minutes",
                    format!(
                        "{missing} minutes are missing for the check in `{}`",
                        ask.name
                    ),
                    format!("write `minutes: {}` or more", ask.minutes + missing),
                )
                .at(self.trip.file.clone(), ask.key.clone()),
            ),
        })
    }

    /// Minutes that the first flame of a session adds: the last call, cooling, and the drill where
    /// no segment brings it.
    fn flame_extra(&self, done: &BTreeSet<usize>) -> u32 {
        let cooling = self
            .all
            .iter()
            .find(|piece| piece.cools())
            .map_or(lay::COOLING, Piece::least_total);
        let drill_to_come =
            (0..self.all.len()).any(|index| self.all[index].drills() && !done.contains(&index));
        ALL_OFF + cooling + if drill_to_come { 0 } else { lay::DRILL }
    }

    /// Why segments cannot be held at all, by index.
    pub(super) fn refused(&self, ask: &Ask) -> Vec<Option<Why>> {
        let mut refused: Vec<Option<Why>> = self
            .all
            .iter()
            .map(|piece| match (ask.indoors, piece.segment) {
                (true, one) if one.flame => Some(Why::Indoors),
                (true, one) if one.opens_fuel => Some(Why::OpensFuel),
                (true, one) if one.outdoors_only => Some(Why::OutdoorsOnly),
                (_, one) if one.flame && piece.places.is_empty() => Some(Why::Ban),
                _ if piece.least_in_all.is_none() => Some(Why::NoAdult),
                _ => None,
            })
            .collect();
        self.spread(&mut refused);
        refused
    }

    /// What needs something that cannot be held cannot be held.
    fn spread(&self, refused: &mut [Option<Why>]) {
        for (index, piece) in self.all.iter().enumerate() {
            let needed = piece.needs.iter().find_map(|need| refused[*need]);
            refused[index] = refused[index].or(needed);
        }
    }

    /// The segments that this session must hold, as far as they can be held: of those that safety
    /// requires of its subjects, and what its subjects are promised, with all that they need, as
    /// many as fit in order; in the last session, and where it has subjects of its own, all.
    fn must(
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
        if before.last || ask.own {
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
    fn open(
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

    /// What each piece is worth in a session.
    pub(super) fn worths(&self, ask: &Ask) -> Vec<u32> {
        self.all.iter().map(|piece| ask.aim.weight(piece)).collect()
    }

    /// The segments of one session: the worthiest set of the subjects with what it needs; then, of
    /// the other subjects, what fits when everything takes its usual time.
    fn chosen(
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
        let one = self.best_of(ask, &first, done, &none, must, room, flame_extra, pace)?;
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
        let nothing = BTreeSet::new();
        let two = self.best_of(
            ask,
            &others,
            done,
            &kept,
            &nothing,
            left,
            extra,
            Pace::Usual,
        )?;
        kept.extend(picked(&others, &two));
        Some((kept, one.exact && two.exact))
    }

    #[allow(
        clippy::too_many_arguments,
        reason = "one call, each value another thing"
    )]
    fn best_of(
        &self,
        ask: &Ask,
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

    /// What the minutes do not hold, and how many would.
    fn too_short(&self, ask: &Ask, before: &Before<'a>, must: &BTreeSet<usize>) -> Short {
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
    fn left_out(
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

/// The indices that were taken.
fn picked(from: &[usize], chosen: &Chosen) -> BTreeSet<usize> {
    from.iter()
        .zip(&chosen.taken)
        .filter(|(_, taken)| **taken)
        .map(|(index, _)| *index)
        .collect()
}
