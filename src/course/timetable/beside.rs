//! What those do who wait for a flame: a segment at a place without a stove, their next turn once
//! more with nothing lit, the worksheet; and who still waits.

use super::ground::{Ground, evenly};
use super::piece::Piece;
use super::rotation::Round;
use super::types::{Beside, Does, Place, Row, Spot};
use crate::nouns::Segment;
use std::collections::{BTreeMap, BTreeSet};

/// Minutes that the worksheet takes a learner.
pub(super) const WORKSHEET: u32 = 12;
/// Minutes that a written form takes a learner.
pub(super) const FORM: u32 = 15;
/// Minutes for which two learners ask each other from the study cards.
const CARDS: u32 = 20;
/// Times that a learner goes through a turn unlit before it.
const REHEARSALS: u32 = 2;
/// Learners at one place without a stove who rehearse.
const REHEARSE_TOGETHER: usize = 6;
/// Benches that one adult keeps in sight, the one at which they stand among them; common practice, no
/// source.
const BENCHES_AN_ADULT: u32 = 2;

/// A round of a line at its minute.
pub(super) struct Draft {
    pub entry: usize,
    pub starts: u32,
    pub round: Round,
    /// Where its learners do it when nothing is lit, a part of them each; none is all together.
    pub unlit_at: Vec<usize>,
    /// Whether a bench will do where there are more parts than stations.
    pub benches: bool,
    pub fuel_open: bool,
    /// Whether those who have no part in it are kept busy.
    pub fills: bool,
    /// Whether they write the form of the check and not the worksheet.
    pub checks: bool,
}

impl Draft {
    /// Parts side by side with nothing lit: two groups cannot stand at one stove.
    fn parts(&self) -> usize {
        let room = match self.unlit_at.len() {
            0 => 1,
            count if self.benches => count.max(self.round.leaders as usize),
            count => count,
        };
        (self.round.leaders as usize).min(room).max(1)
    }

    /// Benches at which its own parts are.
    fn benches_taken(&self) -> u32 {
        match self.unlit_at.len() {
            0 => 0,
            stations => self.parts().saturating_sub(stations) as u32,
        }
    }
}

/// What everybody does, row by row.
pub(super) struct Filled<'a> {
    pub rows: Vec<Row<'a>>,
    pub beside: Vec<Beside<'a>>,
    /// Indices of the pieces that everyone does beside the flame.
    pub placed: BTreeSet<usize>,
    pub waits: u32,
    /// Minutes that whoever had least time for the worksheet, or for the form of the check, while
    /// waiting still needs for it.
    pub unwritten: u32,
}

/// One learner's place in a row, while the rows are filled.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Busy {
    Taken,
    Beside(usize, u32),
    Rehearse(u32),
    Paper,
    Cards,
    Waits,
}

struct Fill<'a, 'f> {
    ground: &'f Ground,
    all: &'f [Piece<'a>],
    drafts: &'f [Draft],
    /// By row: what each learner does.
    busy: Vec<Vec<Busy>>,
    /// By row: benches in use, and adults who lead one.
    benches: Vec<u32>,
    leading: Vec<u32>,
}

/// Fills the rows. `may` are the pieces that may be done beside the flame, the worthiest first, each
/// with the first entry after which it may begin.
pub(super) fn fill<'a>(
    ground: &Ground,
    all: &[Piece<'a>],
    drafts: &[Draft],
    may: &[(usize, usize)],
    papers: bool,
) -> Filled<'a> {
    let mut fill = Fill::new(ground, all, drafts);
    let mut placed = BTreeSet::new();
    for (piece, after) in may {
        if fill.beside(*piece, *after) {
            placed.insert(*piece);
        }
    }
    fill.rehearse();
    let unwritten = fill.papers(papers);
    fill.finish(placed, unwritten)
}

impl<'a, 'f> Fill<'a, 'f> {
    fn new(ground: &'f Ground, all: &'f [Piece<'a>], drafts: &'f [Draft]) -> Self {
        let busy = drafts
            .iter()
            .map(|draft| {
                let mut row = vec![Busy::Waits; ground.learners as usize];
                let lit = draft.round.lit.iter().flat_map(|turn| &turn.learners);
                for learner in lit.chain(&draft.round.active) {
                    row[*learner as usize] = Busy::Taken;
                }
                row
            })
            .collect();
        Self {
            ground,
            all,
            drafts,
            busy,
            benches: drafts.iter().map(Draft::benches_taken).collect(),
            leading: vec![0; drafts.len()],
        }
    }

    /// Adults in a row who could lead a bench.
    fn free(&self, row: usize) -> u32 {
        let round = &self.drafts[row].round;
        let lit: u32 = round.lit.iter().map(|turn| turn.adults).sum();
        self.ground
            .leaders()
            .saturating_sub(lit)
            .saturating_sub(round.leaders)
    }

    fn open(&self, row: usize) -> bool {
        self.drafts[row].fills && self.leading[row] < self.free(row)
    }

    fn waiting(&self, row: usize) -> Vec<usize> {
        let busy = &self.busy[row];
        (0..busy.len())
            .filter(|one| busy[*one] == Busy::Waits)
            .collect()
    }

    /// Puts a segment into the rows so that everyone does it once; or leaves all as it was.
    fn beside(&mut self, index: usize, after: usize) -> bool {
        let piece = &self.all[index];
        let mut missing: BTreeSet<usize> = (0..self.ground.learners as usize).collect();
        let mut found: Vec<(usize, usize)> = Vec::new();
        let mut used = Vec::new();
        for row in 0..self.drafts.len() {
            let draft = &self.drafts[row];
            let led = !is_led(piece.segment) || self.open(row);
            let led = led && self.benches[row] < BENCHES_AN_ADULT * self.free(row);
            if draft.entry <= after || draft.round.minutes < piece.least || !draft.fills || !led {
                continue;
            }
            let here: Vec<usize> = self
                .waiting(row)
                .into_iter()
                .filter(|one| missing.contains(one))
                .take(piece.watched as usize)
                .collect();
            if here.is_empty() {
                continue;
            }
            used.push(row);
            for learner in here {
                missing.remove(&learner);
                found.push((row, learner));
            }
        }
        if !missing.is_empty() {
            return false;
        }
        for row in used {
            self.benches[row] += 1;
            self.leading[row] += u32::from(is_led(piece.segment));
        }
        for (row, learner) in found {
            self.busy[row][learner] = Busy::Beside(index, self.benches[row]);
        }
        true
    }

    /// Lets those who wait for their turn say and do it once more with nothing lit.
    fn rehearse(&mut self) {
        let mut times: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        for row in 0..self.drafts.len() {
            let draft = &self.drafts[row];
            if draft.checks || !self.drafts[row].round.active.is_empty() || !self.open(row) {
                continue;
            }
            let to_come: BTreeSet<u32> = self.drafts[row + 1..]
                .iter()
                .filter(|later| later.entry == draft.entry)
                .flat_map(|later| &later.round.lit)
                .flat_map(|turn| turn.learners.iter().copied())
                .collect();
            let here: Vec<usize> = self
                .waiting(row)
                .into_iter()
                .filter(|one| to_come.contains(&(*one as u32)))
                .filter(|one| {
                    times
                        .get(&(draft.entry, *one))
                        .is_none_or(|had| *had < REHEARSALS)
                })
                .take(REHEARSE_TOGETHER)
                .collect();
            if here.is_empty() {
                continue;
            }
            self.benches[row] += 1;
            self.leading[row] += 1;
            for learner in here {
                *times.entry((draft.entry, learner)).or_insert(0) += 1;
                self.busy[row][learner] = Busy::Rehearse(self.benches[row]);
            }
        }
    }

    /// Gives the papers to those who still wait; how many minutes are missing at most.
    fn papers(&mut self, worksheet: bool) -> u32 {
        let before = if worksheet { 0 } else { WORKSHEET };
        let mut had = vec![before; self.ground.learners as usize];
        let mut form = vec![0; self.ground.learners as usize];
        let mut asked = vec![0; self.ground.learners as usize];
        for row in 0..self.drafts.len() {
            let draft = &self.drafts[row];
            if !draft.fills {
                continue;
            }
            let (had, whole) = if draft.checks {
                (&mut form, FORM)
            } else {
                (&mut had, WORKSHEET)
            };
            for learner in self.waiting(row) {
                if had[learner] < whole {
                    had[learner] += draft.round.minutes;
                    self.busy[row][learner] = Busy::Paper;
                } else if self.may_see_cards(row, learner) && asked[learner] < CARDS {
                    asked[learner] += draft.round.minutes;
                    self.busy[row][learner] = Busy::Cards;
                }
            }
        }
        let checks = self.drafts.iter().any(|draft| draft.checks);
        let (had, whole) = if checks {
            (form, FORM)
        } else {
            (had, WORKSHEET)
        };
        let missing = had.iter().map(|minutes| whole.saturating_sub(*minutes));
        missing.max().unwrap_or(0)
    }

    /// Whether the study cards give nothing away: outside a check, and to who was watched already.
    fn may_see_cards(&self, row: usize, learner: usize) -> bool {
        let entry = self.drafts[row].entry;
        let watched = |before: usize| {
            self.drafts[before].entry == entry && self.busy[before][learner] == Busy::Taken
        };
        !self.drafts[row].checks || (0..row).any(watched)
    }

    fn finish(self, placed: BTreeSet<usize>, unwritten: u32) -> Filled<'a> {
        let mut waits = vec![0; self.ground.learners as usize];
        let mut beside: Vec<Beside<'a>> = Vec::new();
        let mut rows = Vec::new();
        for (draft, busy) in self.drafts.iter().zip(&self.busy) {
            let mut places = taken(draft, self.all);
            let mut others: Vec<(Spot, Busy, Vec<u32>)> = Vec::new();
            for (learner, what) in (0u32..).zip(busy) {
                let at = match what {
                    Busy::Taken => continue,
                    Busy::Beside(_, bench) | Busy::Rehearse(bench) => Spot::Bench(*bench),
                    Busy::Paper | Busy::Cards | Busy::Waits => Spot::Line,
                };
                if *what == Busy::Waits && draft.fills {
                    waits[learner as usize] += draft.round.minutes;
                }
                match others.iter_mut().find(|(_, other, _)| other == what) {
                    Some((_, _, learners)) => learners.push(learner),
                    None => others.push((at, *what, vec![learner])),
                }
            }
            for (at, what, learners) in others {
                let does = match what {
                    Busy::Beside(index, _) => {
                        let (module, segment) = (self.all[index].module, self.all[index].segment);
                        if !beside.iter().any(|one| std::ptr::eq(one.segment, segment)) {
                            beside.push(Beside {
                                module,
                                segment,
                                starts: draft.starts,
                            });
                        }
                        Does::Beside(module, segment)
                    }
                    Busy::Rehearse(_) => Does::Rehearse,
                    Busy::Paper if draft.checks => Does::Form,
                    Busy::Paper => Does::Worksheet,
                    Busy::Cards => Does::Cards,
                    Busy::Taken | Busy::Waits if draft.fills => Does::Wait,
                    Busy::Taken | Busy::Waits => Does::Entry,
                };
                places.push(Place {
                    at,
                    lit: false,
                    fuel_open: false,
                    learners,
                    adults: 0,
                    led: false,
                    does,
                });
            }
            let lit: u32 = places.iter().map(|place| place.adults).sum();
            let free_adults = self.ground.adults.saturating_sub(lit);
            stand(&mut places, free_adults);
            rows.push(Row {
                entry: draft.entry,
                starts: draft.starts,
                minutes: draft.round.minutes,
                places,
                free_adults,
            });
        }
        Filled {
            rows,
            beside,
            placed,
            waits: waits.into_iter().max().unwrap_or(0),
            unwritten,
        }
    }
}

/// Puts the adults who have no stove where they stand: first where no card can lead or learners walk
/// about, then where most are.
fn stand(places: &mut [Place<'_>], adults: u32) {
    let mut order: Vec<usize> = (0..places.len()).filter(|at| !places[*at].lit).collect();
    order.sort_by_key(|at| {
        let place = &places[*at];
        let from_a_card = match place.does {
            Does::Beside(_, segment) => !is_led(segment),
            Does::Entry | Does::Rehearse => false,
            _ => true,
        };
        let on_the_line = place.at == Spot::Line;
        let most = std::cmp::Reverse(place.learners.len());
        (from_a_card, on_the_line, most, place.at)
    });
    for at in order.into_iter().take(adults as usize) {
        places[at].led = true;
    }
}

/// Whether an adult stands with those who do a segment beside a flame: no card leads it, or they walk
/// about.
const fn is_led(segment: &Segment) -> bool {
    segment.alone.is_empty() || segment.outdoors_only
}

/// The places of those who do what the entry says.
fn taken<'a>(draft: &Draft, all: &[Piece<'a>]) -> Vec<Place<'a>> {
    if !draft.round.stops.is_empty() {
        let stops = draft.round.stops.iter();
        return stops
            .map(|(at, piece, learners)| Place {
                at: *at,
                lit: false,
                fuel_open: all[*piece].segment.opens_fuel,
                learners: learners.clone(),
                adults: 0,
                led: false,
                does: Does::Beside(all[*piece].module, all[*piece].segment),
            })
            .collect();
    }
    let mut places: Vec<Place<'_>> = draft
        .round
        .lit
        .iter()
        .map(|turn| Place {
            at: if turn.spare {
                Spot::Spare(turn.station)
            } else {
                Spot::Station(turn.station)
            },
            lit: true,
            fuel_open: true,
            learners: turn.learners.clone(),
            adults: turn.adults,
            led: false,
            does: Does::Entry,
        })
        .collect();
    let active = &draft.round.active;
    if active.is_empty() {
        return places;
    }
    for (part, learners) in evenly(active, draft.parts()).into_iter().enumerate() {
        places.push(Place {
            at: match draft.unlit_at.len() {
                0 => Spot::Line,
                count if part >= count => Spot::Bench((part - count) as u32 + 1),
                _ => Spot::Station(draft.unlit_at[part]),
            },
            lit: false,
            fuel_open: draft.fuel_open,
            learners,
            adults: 0,
            led: false,
            does: Does::Entry,
        });
    }
    places
}
