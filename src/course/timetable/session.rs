//! Which segments go into which session.

use super::ask::{Ask, Fill, MORE, MOST_WAITING, Pace, Short};
use super::lay::{self, Checked, Held, LATE, Laid};
use super::must::Before;
use super::pick::{Wish, picked};
use super::promise;
use super::types::{Timetable, Why};
use crate::diag::{Problem, told};
use crate::nouns::{Id, SegmentKind, SessionKind};
use std::collections::BTreeSet;

/// Minutes beyond which a lesson that nobody timed is not made longer: a week.
const LONGEST: u32 = 7 * 24 * 60;
/// Times that a session is laid again because it did not come out as wanted.
const TRIES: u32 = 12;

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
        let mut had: BTreeSet<(usize, u32)> = BTreeSet::new();
        for (index, ask) in asks.iter().enumerate() {
            let ask = &Ask {
                had: had.clone(),
                ..ask.clone()
            };
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
            if ask.kind == SessionKind::Teach && held.kept.is_empty() && index > 0 {
                return Err(Short {
                    missing: MORE,
                    problem: Box::new(promise::nothing_left(self, ask)),
                });
            }
            if ask.shorter && held.kept.is_empty() {
                let promised = Ask {
                    own: true,
                    ..ask.clone()
                };
                let must = self.must(&promised, &before.refused, &done, 0, &before);
                if !must.is_empty() {
                    return Err(self.too_short(ask, &before, &must));
                }
            }
            done.extend(held.kept.iter().copied());
            had.extend(held.laid.table.at_flames());
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
                // What of a shorter plan is left is told by the line.
                carousels: !ask.shorter,
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
            let wish = Wish {
                from: &from,
                done: &before.done,
                kept: &none,
                must: &none,
                room,
                flame_extra: extra,
                pace: Pace::Least,
            };
            let Some(chosen) = self.best_of(ask, &wish) else {
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
                    told!(
                        "`{name}` holds nothing that was taught before it",
                        name = ask.name
                    ),
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
                self.all[*index].segment.kind == SegmentKind::Check
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
                    laid: self.watched_too(ask, before, held, laid),
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
                    told!(
                        "{missing} minutes are missing for the check in `{name}`",
                        missing,
                        name = ask.name
                    ),
                    told!(
                        "write `minutes: {missing}` or more",
                        missing = ask.minutes + missing
                    ),
                )
                .at(self.trip.file.clone(), ask.key.clone()),
            ),
        })
    }

    /// A check with what it has minutes for beside: what learners did with nothing lit and what keeps
    /// people alive is watched, as much of it as the minutes hold, the most critical first.
    fn watched_too(
        &self,
        ask: &Ask,
        before: &Before<'a>,
        mut held: Held<'a>,
        mut laid: Laid<'a>,
    ) -> Laid<'a> {
        let criticals = |index: usize| -> BTreeSet<(&Id, &Id)> {
            let (module, segment) = (self.all[index].module, self.all[index].segment);
            let critical = |id: &&Id| module.objectives.get(*id).is_some_and(|one| one.critical);
            let own = segment.objectives.iter().filter(critical);
            own.map(|id| (&module.id, id)).collect()
        };
        let lit = match held.check {
            Some(Checked::Lit(index)) => Some(index),
            _ => None,
        };
        let assessed = lit.into_iter().chain(held.kept.iter().copied());
        let mut assessed: BTreeSet<(&Id, &Id)> = assessed.flat_map(criticals).collect();
        let mut open: Vec<usize> = before
            .done
            .iter()
            .copied()
            .filter(|index| {
                let piece = &self.all[*index];
                let taught = piece.practises() && piece.segment.kind != SegmentKind::Check;
                let here = before.refused[*index].is_none() && piece.segment.light.is_none();
                taught && here && !piece.segment.flame && !piece.cools() && !piece.drills()
            })
            .collect();
        let new = |index: usize, assessed: &BTreeSet<(&Id, &Id)>| {
            criticals(index).difference(assessed).count()
        };
        let latest = ask.starts + ask.minutes.saturating_sub(LATE);
        while let Some(next) = open
            .iter()
            .copied()
            .filter(|index| new(*index, &assessed) > 0)
            .max_by_key(|index| {
                let least = std::cmp::Reverse(self.all[*index].least);
                (new(*index, &assessed), least, std::cmp::Reverse(*index))
            })
        {
            open.retain(|index| *index != next);
            held.watch.push(next);
            held.watch.sort_unstable();
            let with = lay::lay(self, ask, &held);
            if with.table.ends <= latest && with.table.waits <= MOST_WAITING {
                assessed.extend(criticals(next));
                laid = with;
            } else {
                held.watch.retain(|index| *index != next);
            }
        }
        laid
    }
}
