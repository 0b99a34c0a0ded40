//! What is brought: kit summed over stations and learners, the safety kit, fuel to practise with.

use super::ground::Ground;
use super::menu;
use super::types::{Does, Entry, KitItem, MenuBoil, SafetyKit, Spot, StationFuel, Timetable, What};
use crate::nouns::{Id, Library, Meal, Segment, Trip};
use crate::phrase::{Phrase, phrase};
use crate::physics::fuel::fuel_burnt;
use crate::plan::Plan;
use crate::units::{Mass, Time, Volume};
use std::collections::{BTreeMap, BTreeSet};

/// Water at each live place; common practice, no source.
const WATER_A_PLACE: Volume = Volume::litres(10.0);
/// Things that the safety kit counts for the whole lesson.
const IN_THE_SAFETY_KIT: [&str; 2] = ["lighter", "hair tie"];

/// What content calls a station's own stove.
pub const OWN_STOVE: [&str; 3] = ["stove", "alcohol burner", "liquid-fuel stove"];

/// How many of each thing the lesson wants, each once: what one segment calls a stove without fuel
/// and the next a stove and fuel is one stove, and what is used in one is there for the next. What
/// the shorter plan wants stands there too: nobody fetches it when the weather turns.
pub(super) fn sums<'s, 'a: 's>(
    trip: &Trip,
    ground: &Ground,
    sessions: impl Iterator<Item = &'s Timetable<'a>>,
    menu: &[MenuBoil],
) -> Vec<KitItem> {
    let mut items: Vec<KitItem> = Vec::new();
    for meal in Meal::ALL {
        let made = menu
            .iter()
            .filter(|one| one.meal == *meal && one.made.is_ok());
        let people: u32 = made.map(|one| one.people).sum();
        if people > 0 {
            add(
                &mut items,
                phrase!("kit-menu", meal = meal),
                people,
                Vec::new(),
            );
        }
    }
    for session in sessions {
        for (index, entry) in session.entries.iter().enumerate() {
            if let What::Carousel(stops) = &entry.what {
                for stop in stops {
                    let at = match stop.at {
                        Spot::Station(station) => BTreeSet::from([station]),
                        _ => BTreeSet::new(),
                    };
                    need(&mut items, trip, ground, stop.segment, &at, 0);
                }
                continue;
            }
            for (_, segment) in entry.segments() {
                let (stations, benches) = stations(session, index, entry);
                need(&mut items, trip, ground, segment, &stations, benches);
            }
        }
        for one in &session.beside {
            need(&mut items, trip, ground, one.segment, &BTreeSet::new(), 0);
        }
        for station in &session.spares {
            if let Some(kitchen) = trip.kitchens.get(*station) {
                let second = phrase!("kit-second-burner", stove = kitchen.stove.name);
                add(&mut items, second, 1, vec![kitchen.name.clone()]);
            }
        }
    }
    items
}

/// The stations at which an entry stands side by side, and how many benches more.
fn stations(session: &Timetable<'_>, index: usize, entry: &Entry<'_>) -> (BTreeSet<usize>, u32) {
    let (mut stations, mut benches) = (BTreeSet::new(), 0);
    let rows = session.rows.iter().filter(|row| row.entry == index);
    for place in rows.flat_map(|row| &row.places) {
        match place.at {
            Spot::Station(at) | Spot::Spare(at) if !entry.flame || place.lit => {
                stations.insert(at);
            }
            Spot::Bench(number) if place.does == Does::Entry => benches = benches.max(number),
            _ => {}
        }
    }
    (stations, benches)
}

fn need(
    items: &mut Vec<KitItem>,
    trip: &Trip,
    ground: &Ground,
    segment: &Segment,
    stations: &BTreeSet<usize>,
    benches: u32,
) {
    let names: Vec<String> = stations
        .iter()
        .filter_map(|station| trip.kitchens.get(*station))
        .map(|kitchen| kitchen.name.clone())
        .collect();
    for (what, a_station, a_learner) in &segment.kit {
        if !IN_THE_SAFETY_KIT.contains(&what.as_str()) {
            let count =
                a_station * (stations.len() as u32 + benches).max(1) + a_learner * ground.learners;
            let at = if *a_station > 0 && benches == 0 {
                names.clone()
            } else {
                Vec::new()
            };
            if OWN_STOVE.contains(&thing(what)) {
                own_stoves(items, trip, stations, benches, *a_station);
                continue;
            }
            add(items, phrase!("as-written", words = thing(what)), count, at);
        }
    }
}

/// The stoves of these stations by their own names: the same ones in every segment. Where no station
/// is named those of the first serve, and a place without a stove borrows one.
fn own_stoves(
    items: &mut Vec<KitItem>,
    trip: &Trip,
    stations: &BTreeSet<usize>,
    benches: u32,
    wanted: u32,
) {
    let first = trip.kitchens.iter().take(wanted as usize);
    let here: Vec<_> = if stations.is_empty() {
        first.collect()
    } else {
        let named = stations.iter();
        named
            .filter_map(|station| trip.kitchens.get(*station))
            .collect()
    };
    let lacking = match stations.is_empty() {
        true => wanted.saturating_sub(here.len() as u32),
        false => 0,
    };
    for kitchen in here {
        let name = phrase!("as-written", words = kitchen.stove.name);
        add(items, name, 1, vec![kitchen.name.clone()]);
    }
    if lacking + benches > 0 {
        add(
            items,
            phrase!("kit-bench-stove"),
            lacking + benches,
            Vec::new(),
        );
    }
}

/// How the content's words say in which state a segment wants a thing.
const STATES: [&str; 4] = [",", " and fuel", " without ", " with lid"];

/// A thing itself, by the name that a segment calls it, without the state in which it is wanted.
#[must_use]
pub fn thing(what: &str) -> &str {
    let what = what.strip_prefix("unlit ").unwrap_or(what);
    let end = STATES.iter().filter_map(|end| what.find(end)).min();
    what[..end.unwrap_or(what.len())].trim()
}

fn add(items: &mut Vec<KitItem>, item: Phrase, count: u32, stations: Vec<String>) {
    match items.iter_mut().find(|known| known.item == item) {
        Some(known) => {
            known.count = known.count.max(count);
            for station in stations {
                if !known.stations.contains(&station) {
                    known.stations.push(station);
                }
            }
            known.count = known.count.max(known.stations.len() as u32);
        }
        None => items.push(KitItem {
            item,
            count,
            stations,
        }),
    }
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
        lighters: live,
    }
}

/// Fuel of the practice burns: minutes of full flame x power / heating value, and what lighting
/// takes, for every learner who lights. What of it boils the menu's water is counted once, with the
/// menu.
pub(super) fn fuel(
    trip: &Trip,
    library: &Library,
    plan: &Plan,
    sessions: &[Timetable<'_>],
    menu: &[MenuBoil],
) -> Vec<StationFuel> {
    let mut burns: BTreeMap<usize, (u32, u32)> = BTreeMap::new();
    for session in sessions {
        for row in &session.rows {
            let entry = &session.entries[row.entry];
            for place in row.places.iter().filter(|place| place.lit) {
                let (Spot::Station(station) | Spot::Spare(station)) = place.at else {
                    continue;
                };
                let burn = burns.entry(station).or_insert((0, 0));
                // The call lets them burn for another minute and lights nothing.
                if entry.what == What::AllOff {
                    burn.0 += row.minutes;
                } else {
                    burn.0 += entry.burns;
                    burn.1 += if entry.lights_each {
                        place.learners.len() as u32
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
            let burnt = fuel_burnt(stove.power, Time::minutes(f64::from(minutes)), value)
                + stove.to_light * f64::from(lightings);
            let of_menu = menu::burnt_anyway(menu, station).min(burnt);
            let set_out = libm::ceil((burnt - of_menu).in_grams() / step - 1e-9) * step;
            Some(StationFuel {
                station,
                minutes,
                lightings,
                burnt,
                of_menu,
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
