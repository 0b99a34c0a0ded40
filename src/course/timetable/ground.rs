//! The people and stoves that a lesson has: who can stand where, and for how long a burner rests.

use super::types::{Group, whole};
use crate::nouns::{FuelKind, Kitchen, Trip};

/// Most learners in a group where the adults suffice; common practice, no source.
const MOST_IN_A_GROUP: u32 = 6;
/// Minutes that a burner of liquid fuel, alcohol or tablets cools before it is lit again, where
/// the catalogue asks for no more; common practice, no source.
const BURNER_COOLS: u32 = 10;
/// Minute in which a cold burner is looked at, filled and cleared for lighting.
const BURNER_CHECK: u32 = 1;

/// The people and stoves that a lesson has.
pub(super) struct Ground {
    /// Learners; everyone where none are learners.
    pub learners: u32,
    /// Adults who teach.
    pub adults: u32,
    /// Adults beside each lit stove, one at the least.
    pub per_stove: u32,
    /// Stations that may be lit side by side as the file asks.
    pub stations: u32,
    /// The groups.
    pub groups: Vec<Group>,
    /// Minutes by station from the flame's end until its burner may be lit again; 0 for gas.
    pub rests: Vec<u32>,
}

impl Ground {
    pub(super) fn new(trip: &Trip) -> Self {
        let people = &trip.people;
        let learners = if people.learners == 0 {
            people.all().max(1)
        } else {
            people.learners
        };
        let kitchens = trip.kitchens.len().max(1);
        let wanted = u32::try_from(kitchens).unwrap_or(u32::MAX);
        // Where adults lead parts side by side, a part is a group.
        let led = if people.instructors > 1 {
            people.instructors
        } else {
            u32::MAX
        };
        let count = wanted
            .max(learners.div_ceil(MOST_IN_A_GROUP))
            .min(led)
            .clamp(1, learners);
        let groups = (0..count)
            .map(|index| Group {
                name: group_name(index),
                learners: learners / count + u32::from(index < learners % count),
            })
            .collect();
        Self {
            learners,
            adults: people.instructors,
            per_stove: libm::ceil(people.adults_per_lit_stove).max(1.0) as u32,
            stations: trip.course.stations.min(wanted),
            groups,
            rests: trip.kitchens.iter().map(rest).collect(),
        }
    }

    /// Who can lead an unlit part.
    pub(super) fn leaders(&self) -> u32 {
        self.adults.max(1)
    }

    /// Stations lit side by side while everyone stands at one of them.
    pub(super) fn lit_for_all(&self) -> u32 {
        (self.adults / self.per_stove).min(self.stations)
    }

    /// Stations lit side by side while someone is elsewhere: one adult has no stove.
    pub(super) fn lit_beside_others(&self) -> u32 {
        (self.adults.saturating_sub(1) / self.per_stove).min(self.stations)
    }

    /// The learners of each group, counted from 0.
    pub(super) fn by_group(&self) -> Vec<Vec<u32>> {
        self.parts(self.groups.len())
    }

    /// All learners in so many parts.
    pub(super) fn parts(&self, count: usize) -> Vec<Vec<u32>> {
        let everyone: Vec<u32> = (0..self.learners).collect();
        evenly(&everyone, count)
    }
}

/// Minutes until a station's burner may be lit again.
fn rest(kitchen: &Kitchen) -> u32 {
    if kitchen.fuel.kind == FuelKind::Canister {
        return 0;
    }
    let stated = whole(kitchen.stove.refill_wait);
    stated.max(BURNER_COOLS) + BURNER_CHECK
}

/// Learners in so many parts, none larger than another by more than one, the larger ones first: the
/// groups when there are as many parts as groups.
pub(super) fn evenly(learners: &[u32], count: usize) -> Vec<Vec<u32>> {
    let count = count.clamp(1, learners.len().max(1));
    let (size, more) = (learners.len() / count, learners.len() % count);
    let mut rest = learners;
    (0..count)
        .map(|part| {
            let (own, others) = rest.split_at(size + usize::from(part < more));
            rest = others;
            own.to_vec()
        })
        .collect()
}

fn group_name(index: u32) -> String {
    match u8::try_from(index) {
        Ok(small) if small < 26 => char::from(b'A' + small).to_string(),
        _ => format!("G{}", index + 1),
    }
}
