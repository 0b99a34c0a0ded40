//! The most valuable set of segments that fits into the minutes, exactly.
//!
//! Branch and bound: candidates are taken in an order that has every prerequisite before what
//! needs it, and a branch is left when even filling its free minutes with the worthiest parts of
//! what is still to come (whole or not) cannot beat the best set so far.

use std::collections::BTreeMap;

/// Branches that are looked at before the best set so far is taken as it is.
const MOST_BRANCHES: u32 = 1_000_000;

/// A segment that may be taken. What it needs stands before it in the list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Candidate {
    /// Minutes that it takes, all rounds together.
    pub minutes: u32,
    /// What it is worth whatever else is taken.
    pub worth: u32,
    /// What it covers and what covering that is worth, once: (objective, worth).
    pub covers: Vec<(usize, u32)>,
    /// Indices of those that must be taken too, each less than its own.
    pub needs: Vec<usize>,
    /// Whether something is lit.
    pub flame: bool,
    /// Whether it must be taken.
    pub required: bool,
}

/// A chosen set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chosen {
    /// Whether each candidate is taken.
    pub taken: Vec<bool>,
    /// What the set is worth.
    pub worth: u32,
    /// Minutes of the set, those that any flame adds included.
    pub minutes: u32,
    /// Whether no better set exists for certain.
    pub exact: bool,
}

/// The worthiest set of candidates in `room` minutes that holds all that are required and all
/// that each needs; the first flame taken adds `flame_minutes` once. None when those that are
/// required do not fit.
#[must_use]
pub fn best(candidates: &[Candidate], room: u32, flame_minutes: u32) -> Option<Chosen> {
    let count = candidates.len();
    let mut required: Vec<bool> = candidates.iter().map(|one| one.required).collect();
    for index in (0..count).rev() {
        if required[index] {
            for need in &candidates[index].needs {
                required[*need] = true;
            }
        }
    }
    let mut still_required = vec![0; count + 1];
    for index in (0..count).rev() {
        let own = if required[index] {
            candidates[index].minutes
        } else {
            0
        };
        still_required[index] = still_required[index + 1] + own;
    }
    let most = |one: &Candidate| one.worth + one.covers.iter().map(|(_, worth)| worth).sum::<u32>();
    let mut by_density: Vec<usize> = (0..count).collect();
    by_density.sort_by(|a, b| {
        let (a, b) = (&candidates[*a], &candidates[*b]);
        let left = u64::from(most(a)) * u64::from(b.minutes.max(1));
        let right = u64::from(most(b)) * u64::from(a.minutes.max(1));
        right.cmp(&left)
    });
    let mut search = Search {
        candidates,
        most: candidates.iter().map(most).collect(),
        by_density,
        required,
        still_required,
        room,
        flame_minutes,
        taken: vec![false; count],
        covered: BTreeMap::new(),
        best: None,
        branches: 0,
    };
    search.branch(0, 0, 0, false);
    let exact = search.branches < MOST_BRANCHES;
    search.best.map(|(taken, worth, minutes)| Chosen {
        taken,
        worth,
        minutes,
        exact,
    })
}

struct Search<'a> {
    candidates: &'a [Candidate],
    most: Vec<u32>,
    by_density: Vec<usize>,
    required: Vec<bool>,
    still_required: Vec<u32>,
    room: u32,
    flame_minutes: u32,
    taken: Vec<bool>,
    covered: BTreeMap<usize, u32>,
    best: Option<(Vec<bool>, u32, u32)>,
    branches: u32,
}

impl Search<'_> {
    fn branch(&mut self, index: usize, worth: u32, minutes: u32, lit: bool) {
        self.branches = self.branches.saturating_add(1);
        if index == self.candidates.len() {
            if self.best.as_ref().is_none_or(|(_, most, _)| worth > *most) {
                self.best = Some((self.taken.clone(), worth, minutes));
            }
            return;
        }
        if let Some((_, most, _)) = &self.best
            && (self.branches >= MOST_BRANCHES || self.bound(index, worth, minutes) <= *most)
        {
            return;
        }
        let one = &self.candidates[index];
        let possible = one.needs.iter().all(|need| self.taken[*need]);
        let first_flame = if one.flame && !lit {
            self.flame_minutes
        } else {
            0
        };
        let then = minutes + one.minutes + first_flame;
        if possible && then + self.still_required[index + 1] <= self.room {
            let mut gained = one.worth;
            for (objective, gain) in &one.covers {
                let times = self.covered.entry(*objective).or_insert(0);
                gained += if *times == 0 { *gain } else { 0 };
                *times += 1;
            }
            self.taken[index] = true;
            self.branch(index + 1, worth + gained, then, lit || one.flame);
            self.taken[index] = false;
            for (objective, _) in &one.covers {
                if let Some(times) = self.covered.get_mut(objective) {
                    *times -= 1;
                }
            }
        }
        if !self.required[index] {
            self.branch(index + 1, worth, minutes, lit);
        }
    }

    /// More than any set below this branch can be worth: free minutes filled with the worthiest
    /// parts of what is still to come.
    fn bound(&self, index: usize, worth: u32, minutes: u32) -> u32 {
        let mut room = self.room.saturating_sub(minutes);
        let mut bound = worth;
        for other in &self.by_density {
            if *other < index {
                continue;
            }
            let (most, takes) = (self.most[*other], self.candidates[*other].minutes);
            if takes <= room {
                room -= takes;
                bound += most;
            } else {
                let part = u64::from(most) * u64::from(room) / u64::from(takes);
                return bound + u32::try_from(part).unwrap_or(most);
            }
        }
        bound
    }
}
