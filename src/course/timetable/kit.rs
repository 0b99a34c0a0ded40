//! What is brought: kit summed over stations and learners, the safety kit, fuel to practise with.

use super::pieces::{Ground, Piece};
use super::rotation::lit_stations;
use super::types::{SafetyKit, StationFuel, Timetable, What};
use crate::nouns::{Id, Library, SegmentKind, Trip};
use crate::physics::fuel::fuel_burnt;
use crate::plan::Plan;
use crate::units::{Mass, Time, Volume};
use std::collections::{BTreeMap, BTreeSet};

/// Water at each live place; common practice, no source.
const WATER_A_PLACE: Volume = Volume::litres(10.0);
/// Things that the safety kit counts for the whole lesson.
const IN_THE_SAFETY_KIT: [&str; 2] = ["lighter", "hair tie"];

/// How many of each thing the segments want, for the one that wants most: what is used in one
/// segment is there for the next.
pub(super) fn sums(
    ground: &Ground,
    all: &[Piece<'_>],
    sessions: &[Timetable<'_>],
) -> Vec<(String, u32)> {
    let mut order: Vec<&str> = Vec::new();
    let mut most: BTreeMap<&str, u32> = BTreeMap::new();
    let entries = sessions.iter().flat_map(|session| {
        session
            .entries
            .iter()
            .enumerate()
            .map(move |one| (session, one))
    });
    for (session, (index, entry)) in entries {
        let What::Segment(module, segment) = entry.what else {
            continue;
        };
        let piece = all
            .iter()
            .find(|piece| piece.module.id == module.id && piece.segment.id == segment.id);
        let rotation = session.rotations.iter().find(|one| one.entry == index);
        let stations = match (rotation, segment.kind) {
            (Some(rotation), _) => lit_stations(&rotation.rounds).len() as u32,
            // What is looked at or talked about is there once for each adult with a part of them.
            (None, SegmentKind::Talk | SegmentKind::Show | SegmentKind::SayIt) => ground
                .learners
                .div_ceil(segment.learners_per_instructor.max(1))
                .min(ground.leaders),
            (None, _) => piece.map_or(1, |piece| piece.places.len() as u32),
        };
        for (what, a_station, a_learner) in &segment.kit {
            if IN_THE_SAFETY_KIT.contains(&what.as_str()) {
                continue;
            }
            if !most.contains_key(what.as_str()) {
                order.push(what);
            }
            let count = a_station * stations + a_learner * ground.learners;
            let known = most.entry(what).or_insert(0);
            *known = (*known).max(count);
        }
    }
    order
        .into_iter()
        .map(|what| (what.to_owned(), most.get(what).copied().unwrap_or(0)))
        .collect()
}

/// What safety asks to stand there; nothing when nothing is lit.
pub(super) fn safety(ground: &Ground, sessions: &[Timetable<'_>]) -> SafetyKit {
    let live = sessions
        .iter()
        .map(|session| session.lit)
        .max()
        .unwrap_or(0);
    if live == 0 {
        return SafetyKit::default();
    }
    SafetyKit {
        live,
        water: WATER_A_PLACE * f64::from(live),
        burn_kits: live,
        cold_down: 1,
        hair_ties: ground.learners,
        lighters: 1,
    }
}

/// Fuel of the practice burns: minutes of full flame x power / heating value, and what lighting
/// takes, for every learner who lights.
pub(super) fn fuel(
    trip: &Trip,
    library: &Library,
    plan: &Plan,
    sessions: &[Timetable<'_>],
) -> Vec<StationFuel> {
    let mut burns: BTreeMap<usize, (Time, u32)> = BTreeMap::new();
    for session in sessions {
        for rotation in &session.rotations {
            let What::Segment(_, segment) = session.entries[rotation.entry].what else {
                continue;
            };
            for round in &rotation.rounds {
                let mut lit: BTreeMap<usize, u32> = BTreeMap::new();
                for place in &round.places {
                    if let Some(place) = place
                        && let Some((first, last)) = place.at_flame
                    {
                        *lit.entry(place.station).or_insert(0) += last + 1 - first;
                    }
                }
                for (station, learners) in lit {
                    let burn = burns.entry(station).or_insert((Time::ZERO, 0));
                    burn.0 += segment.flame_minutes;
                    burn.1 += if segment.kind == SegmentKind::YouDoIt {
                        learners
                    } else {
                        1
                    };
                }
            }
        }
    }
    let step = library.figures.round_up.value.in_grams().max(1.0);
    burns
        .into_iter()
        .filter_map(|(station, (minutes, lightings))| {
            let stove = &trip.kitchens.get(station)?.stove;
            let value = plan.kitchens.get(station)?.fuel.heating_value;
            let burnt =
                fuel_burnt(stove.power, minutes, value) + stove.to_light * f64::from(lightings);
            let set_out = libm::ceil(burnt.in_grams() / step - 1e-9) * step;
            Some(StationFuel {
                station,
                minutes: super::lay::whole(minutes),
                lightings,
                burnt,
                set_out: Mass::grams(set_out),
            })
        })
        .collect()
}

/// Part-used canisters that a station's stove takes, the emptiest first.
pub(super) fn part_used(trip: &Trip, library: &Library) -> Vec<(Id, Mass)> {
    let joins: BTreeSet<_> = trip
        .kitchens
        .iter()
        .filter_map(|kitchen| kitchen.stove.connection)
        .collect();
    let mut found: Vec<(Id, Mass)> = trip
        .canisters_on_hand
        .iter()
        .filter(|one| joins.contains(&one.connection))
        .filter_map(|one| {
            let net = one.net()?;
            let full = library.containers.get(&one.container)?.net;
            // A full one weighs its net mass within what labels round.
            (net > Mass::ZERO && net < full * 0.95).then(|| (one.tag.clone(), net))
        })
        .collect();
    found.sort_by(|a, b| a.1.in_grams().total_cmp(&b.1.in_grams()));
    found
}
