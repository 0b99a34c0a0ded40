//! Who is at which flame in each round, with the rest that burners need between two lightings.

use super::ground::Ground;
use super::piece::Piece;
use super::types::Spot;
use std::collections::{BTreeMap, BTreeSet};

/// Learners at a lit station in a round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Turn {
    /// The station (the kitchen).
    pub station: usize,
    /// Whether its spare burner is lit in place of its own.
    pub spare: bool,
    /// The learners, counted from 0.
    pub learners: Vec<u32>,
    /// Adults beside them.
    pub adults: u32,
}

/// Learners at a place of a carousel for a round: where, the index of its piece, who.
pub(super) type Stop = (Spot, usize, Vec<u32>);

/// One round of a line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Round {
    /// Minutes.
    pub minutes: u32,
    /// The lit stations; none while burners rest or where the line has no flame.
    pub lit: Vec<Turn>,
    /// Learners who take part with nothing lit.
    pub active: Vec<u32>,
    /// Adults with a part of them each.
    pub leaders: u32,
    /// Where each part of them is, in a carousel.
    pub stops: Vec<Stop>,
}

/// When each burner may be lit again, and how often it was.
#[derive(Clone, Debug, Default)]
pub(super) struct Burners {
    free_at: BTreeMap<(usize, bool), u32>,
    uses: BTreeMap<usize, u32>,
    /// Whether a second burner stands at each station that needs rests.
    spares: bool,
    /// Who did something at which station's flame.
    had: BTreeSet<(usize, u32)>,
}

impl Burners {
    /// All cold.
    pub(super) fn cold(spares: bool) -> Self {
        Self::after(spares, BTreeSet::new())
    }

    /// All cold, after sessions in which these learners were at the flames of these stations.
    pub(super) fn after(spares: bool, had: BTreeSet<(usize, u32)>) -> Self {
        Self {
            spares,
            had,
            ..Self::default()
        }
    }

    /// Who is called first to a station: whoever was not at its flame yet, and of those whoever
    /// lacks the fewest of the others that may be lit now.
    fn turn(&self, station: usize, ready: &[usize], learner: u32) -> (bool, usize) {
        let lacks = |other: &&usize| !self.had.contains(&(**other, learner));
        (
            self.had.contains(&(station, learner)),
            ready.iter().filter(lacks).count(),
        )
    }

    /// The burner of a station that may be lit now.
    fn ready(&self, ground: &Ground, station: usize, now: u32) -> Option<bool> {
        let free = |spare| {
            self.free_at
                .get(&(station, spare))
                .is_none_or(|at| *at <= now)
        };
        if free(false) {
            Some(false)
        } else if self.spares && ground.rests[station] > 0 && free(true) {
            Some(true)
        } else {
            None
        }
    }

    /// The first minute at which one of these stations may be lit.
    fn next(&self, stations: &[usize]) -> u32 {
        let of = |station: usize| {
            [false, true]
                .into_iter()
                .filter_map(move |spare| self.free_at.get(&(station, spare)).copied())
        };
        stations
            .iter()
            .flat_map(|station| of(*station))
            .min()
            .unwrap_or(0)
    }

    /// A burner is out at this minute.
    pub(super) fn out(&mut self, ground: &Ground, station: usize, spare: bool, at: u32) {
        let rest = ground.rests.get(station).copied().unwrap_or(0);
        self.free_at.insert((station, spare), at + rest);
    }
}

/// Learners at one flame in a round: as many as one adult may watch; where each of them lights and
/// the burner may not be lit again while hot, one.
fn room_at(ground: &Ground, piece: &Piece<'_>, station: usize) -> u32 {
    if piece.lights_each() && ground.rests[station] > 0 {
        1
    } else {
        piece.watched
    }
}

/// The rounds of a piece from a minute on, each taking so long; none where the adults do not allow
/// its flame.
pub(super) fn rounds(
    ground: &Ground,
    piece: &Piece<'_>,
    minutes: u32,
    now: u32,
    burners: &mut Burners,
) -> Option<Vec<Round>> {
    if piece.segment.flame {
        lit_rounds(ground, piece, minutes, now, burners)
    } else {
        Some(unlit_rounds(ground, piece.watched, minutes))
    }
}

/// The rounds of a piece with a flame that starts at `now`, a round taking `minutes`: everyone has
/// one turn, no burner is lit hot, and an adult has no stove while anyone is not at a flame. None
/// where the adults do not allow a flame.
fn lit_rounds(
    ground: &Ground,
    piece: &Piece<'_>,
    minutes: u32,
    mut now: u32,
    burners: &mut Burners,
) -> Option<Vec<Round>> {
    if piece.places.is_empty() {
        return None;
    }
    let mut left = if piece.looks_on() {
        vec![(0..ground.learners).collect()]
    } else {
        ground.by_group()
    };
    let mut rounds = Vec::new();
    while left.iter().any(|group: &Vec<u32>| !group.is_empty()) {
        // Where more can be at one flame comes first, then where it was lit least.
        let mut ready: Vec<(u32, u32, usize, bool)> = piece
            .places
            .iter()
            .filter_map(|station| {
                let spare = burners.ready(ground, *station, now)?;
                let uses = burners.uses.get(station).copied().unwrap_or(0);
                let room = u32::MAX - room_at(ground, piece, *station);
                Some((room, uses, *station, spare))
            })
            .collect();
        ready.sort_unstable();
        let remaining: u32 = left.iter().map(|group| group.len() as u32).sum();
        // The last ones fit at any: at the one that fewest had.
        if ready.iter().all(|(room, ..)| u32::MAX - room >= remaining) {
            ready.sort_unstable_by_key(|(room, uses, station, _)| (*uses, *room, *station));
        }
        if ready.is_empty() {
            let wait = burners.next(&piece.places).saturating_sub(now).max(1);
            rounds.push(Round {
                minutes: wait,
                ..Round::default()
            });
            now += wait;
            continue;
        }
        let turns = turns(ground, piece, &ready, &left, burners)?;
        for turn in &turns {
            if !piece.looks_on() {
                let had = turn.learners.iter().map(|one| (turn.station, *one));
                burners.had.extend(had);
            }
            for group in &mut left {
                group.retain(|one| !turn.learners.contains(one));
            }
            *burners.uses.entry(turn.station).or_insert(0) += 1;
            burners.out(ground, turn.station, turn.spare, now + minutes);
        }
        rounds.push(Round {
            minutes,
            lit: turns,
            ..Round::default()
        });
        now += minutes;
    }
    Some(rounds)
}

/// The turns of one round at the stations that may be lit.
fn turns(
    ground: &Ground,
    piece: &Piece<'_>,
    ready: &[(u32, u32, usize, bool)],
    left: &[Vec<u32>],
    burners: &Burners,
) -> Option<Vec<Turn>> {
    let remaining: u32 = left.iter().map(|group| group.len() as u32).sum();
    if remaining == ground.learners
        && let Some(turns) = all_at_once(ground, piece, ready, left, burners)
    {
        return Some(turns);
    }
    let lit = ground.lit_beside_others();
    (lit > 0).then(|| side_by_side(ground, piece, ready, &mut left.to_vec(), lit, burners))
}

/// Everyone at a flame at the same time, if the adults and stations hold them: on looking on, more
/// adults stand at one flame where one cannot watch all.
fn all_at_once(
    ground: &Ground,
    piece: &Piece<'_>,
    ready: &[(u32, u32, usize, bool)],
    left: &[Vec<u32>],
    burners: &Burners,
) -> Option<Vec<Turn>> {
    let mut left = left.to_vec();
    if piece.looks_on() {
        let adults = ground
            .learners
            .div_ceil(piece.watched)
            .max(ground.per_stove);
        let (.., station, spare) = *ready.first()?;
        return (adults <= ground.adults && ground.stations > 0).then(|| {
            vec![Turn {
                station,
                spare,
                learners: take(&mut left, ground.learners, &|_| (false, 0)),
                adults,
            }]
        });
    }
    let lit = ground.lit_for_all();
    let turns = side_by_side(ground, piece, ready, &mut left, lit, burners);
    left.iter().all(Vec::is_empty).then_some(turns)
}

/// So many stations lit side by side, as many learners at each as its flame takes; those who found
/// no place stay in `left`.
fn side_by_side(
    ground: &Ground,
    piece: &Piece<'_>,
    ready: &[(u32, u32, usize, bool)],
    left: &mut [Vec<u32>],
    lit: u32,
    burners: &Burners,
) -> Vec<Turn> {
    let mut turns = Vec::new();
    let stations: Vec<usize> = ready.iter().map(|(.., station, _)| *station).collect();
    for (.., station, spare) in ready.iter().take(lit as usize) {
        let first = |learner| burners.turn(*station, &stations, learner);
        let learners = take(left, room_at(ground, piece, *station), &first);
        if learners.is_empty() {
            break;
        }
        turns.push(Turn {
            station: *station,
            spare: *spare,
            adults: ground.per_stove,
            learners,
        });
    }
    turns
}

/// So many learners, those first whose key is least: of the group of which most are left, and when
/// it has fewer, of the next.
fn take(left: &mut [Vec<u32>], count: u32, key: &dyn Fn(u32) -> (bool, usize)) -> Vec<u32> {
    let mut taken = Vec::new();
    while taken.len() < count as usize {
        let Some(least) = left.iter().flatten().map(|one| key(*one)).min() else {
            break;
        };
        let most = left
            .iter_mut()
            .rev()
            .filter(|group| group.iter().any(|one| key(*one) == least))
            .max_by_key(|group| group.len());
        let Some(group) = most else { break };
        let more = count as usize - taken.len();
        let called: Vec<u32> = group
            .iter()
            .copied()
            .filter(|one| key(*one) == least)
            .take(more)
            .collect();
        group.retain(|one| !called.contains(one));
        taken.extend(called);
    }
    taken.sort_unstable();
    taken
}

/// The rounds of a piece with nothing lit: the parts that one adult each can lead, side by side.
pub(super) fn unlit_rounds(ground: &Ground, watched: u32, minutes: u32) -> Vec<Round> {
    parted(ground, watched, ground.leaders(), minutes)
}

/// The rounds in which an adult watches so many at once, at no more places than there are.
pub(super) fn watched_rounds(
    ground: &Ground,
    piece: &Piece<'_>,
    at_once: u32,
    minutes: u32,
) -> Vec<Round> {
    let places = if piece.wants_a_stove(ground.rests.len()) {
        piece.places.len().max(1) as u32
    } else {
        ground.leaders()
    };
    let at_once = at_once.min(piece.watched);
    parted(ground, at_once, places.min(ground.leaders()), minutes)
}

/// Rounds of at most so many parts side by side, so many learners in each.
fn parted(ground: &Ground, watched: u32, leaders: u32, minutes: u32) -> Vec<Round> {
    let each = watched.max(1).saturating_mul(leaders);
    let rounds = ground.learners.div_ceil(each).max(1);
    // As even as can be, so that nobody is the one who is left over.
    let (size, more) = (ground.learners / rounds, ground.learners % rounds);
    let mut first = 0;
    (0..rounds)
        .map(|index| {
            let count = size + u32::from(index < more);
            let active: Vec<u32> = (first..first + count).collect();
            first += count;
            let least = count.div_ceil(watched.max(1));
            // Where all have their turn at once, each group is led on its own while there are pairs.
            let groups = ground.groups.len() as u32;
            let wanted = if rounds == 1 {
                least.max((count / 2).min(groups))
            } else {
                least
            };
            Round {
                minutes,
                leaders: wanted.clamp(1, leaders),
                active,
                ..Round::default()
            }
        })
        .collect()
}
