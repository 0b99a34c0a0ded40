//! The rules that every timetable keeps.

use super::{LIBRARY, lines};
use leeside::course::timetable::{self, Course, Does, Entry, MOST_WAITING, Spot, Timetable, What};
use leeside::nouns::{FuelKind, Module, Segment, Trip};
use leeside::plan;
use std::collections::{BTreeMap, BTreeSet};

/// What every timetable must keep, whatever was asked for.
pub fn keeps_the_rules(trip: &Trip, table: &Timetable<'_>) {
    let mut now = table.starts;
    for entry in &table.entries {
        assert_eq!(entry.starts, now, "a gap or an overlap");
        assert!(
            entry.minutes >= entry.least || entry.flame,
            "{:?}",
            entry.what
        );
        now = entry.ends();
    }
    assert_eq!(table.ends, now);
    if trip.course.stated {
        assert!(
            table.ends <= table.starts + table.length,
            "{:#?}",
            lines(table)
        );
    }
    let at = |module: &str, segment: &str| {
        table.entries.iter().position(|entry| {
            let mut taught = entry.taught().into_iter();
            taught.any(|(one, other)| one.id == module && other.id == segment)
        })
    };
    for (index, entry) in table.entries.iter().enumerate() {
        for (module, segment) in entry.taught() {
            assert!(!(segment.flame && table.indoors), "a flame indoors");
            for before in &segment.after {
                let (other, id) = before.split_once('.').unwrap_or((&module.id, before));
                let cooling = id == "cool-down" || segment.id == "cool-down";
                if let Some(place) = at(other, id).filter(|_| !cooling) {
                    assert!(place < index, "{before} must be before {}", segment.id);
                }
            }
        }
    }
    drops_leave_what_is_kept_whole(table);
    // Nothing is lit in a break or just before it; and what is longer than an hour and a half has
    // one, where a segment with nothing lit ends well away from start and end.
    let mut rests = 0;
    let mut could_rest = false;
    for (index, entry) in table.entries.iter().enumerate() {
        if entry.what == What::Break {
            rests += 1;
            assert!(!entry.flame && entry.drop.is_some());
            assert!(index > 0 && !table.entries[index - 1].flame);
        }
        let (before, after) = (entry.ends() - table.starts, table.ends - entry.ends());
        could_rest |= !entry.flame && before >= 20 && after >= 20;
    }
    assert!(table.ends - table.starts <= 100 || !could_rest || rests > 0);
    let lit: Vec<usize> = (0..table.entries.len())
        .filter(|index| table.entries[*index].flame)
        .collect();
    if let (Some(first), Some(last)) = (lit.first(), lit.last()) {
        let what = |index: usize| &table.entries[index].what;
        assert_eq!(*what(*last), What::AllOff);
        let cools = |what: &What<'_>| match what {
            What::Cooling => true,
            What::Segment(_, segment) => segment.id == "cool-down",
            _ => false,
        };
        assert!(cools(what(last + 1)), "cooling follows the last flame");
        assert_eq!(table.entries[last + 1].drop, None);
        assert!((0..*first).any(|index| match what(index) {
            What::Drill => true,
            What::Segment(_, segment) => segment.id == "all-off-drill",
            _ => false,
        }));
    }
    who_is_where(trip, table);
}

/// Row by row: everyone in one place, an adult at each flame and one free for the others, no burner
/// lit hot, each learner lights once, nobody waits beyond the limit.
fn who_is_where(trip: &Trip, table: &Timetable<'_>) {
    let learners = table.learners();
    let mut now = table.starts;
    let mut out_at: BTreeMap<Spot, u32> = BTreeMap::new();
    let mut waited = vec![0; learners as usize];
    for row in &table.rows {
        assert_eq!(row.starts, now, "a gap or an overlap");
        now = row.ends();
        let entry = &table.entries[row.entry];
        assert!(row.starts >= entry.starts && row.ends() <= entry.ends());
        let mut all: Vec<u32> = row
            .places
            .iter()
            .flat_map(|one| one.learners.clone())
            .collect();
        all.sort_unstable();
        assert_eq!(
            all,
            (0..learners).collect::<Vec<u32>>(),
            "each in one place"
        );
        let mut spots: Vec<Spot> = row.places.iter().map(|place| place.at).collect();
        spots.retain(|spot| *spot != Spot::Line);
        let count = spots.len();
        spots.sort_unstable();
        spots.dedup();
        assert_eq!(spots.len(), count, "two groups at one place: {row:?}");
        let lit: Vec<_> = row.places.iter().filter(|place| place.lit).collect();
        assert!(lit.is_empty() || entry.flame);
        let adults: u32 = row.places.iter().map(|place| place.adults).sum();
        assert_eq!(adults + row.free_adults, trip.people.instructors);
        assert!(lit.len() as u32 <= trip.course.stations);
        for place in &lit {
            assert!(f64::from(place.adults) >= trip.people.adults_per_lit_stove.max(1.0));
        }
        if !lit.is_empty() && row.places.iter().any(|place| !place.lit) {
            assert!(row.free_adults >= 1, "someone waits and nobody is free");
        }
        if !lit.is_empty() {
            let fuel = row.places.iter().any(|place| !place.lit && place.fuel_open);
            assert!(!fuel, "fuel open beside a flame");
        }
        for place in lit {
            let (Spot::Station(station) | Spot::Spare(station)) = place.at else {
                panic!("a flame without a station");
            };
            let gas = trip.kitchens[station].fuel.kind == FuelKind::Canister;
            // 'All off' is called while they burn, a row of the same flame.
            let relit = entry.what != What::AllOff;
            if let Some(out) = out_at.get(&place.at).filter(|_| !gas && relit) {
                assert!(row.starts >= out + 11, "lit hot");
            }
            out_at.insert(place.at, row.ends());
        }
        for place in row.places.iter().filter(|place| place.does == Does::Wait) {
            for one in &place.learners {
                waited[*one as usize] += row.minutes;
            }
        }
    }
    assert_eq!(now, table.ends);
    assert_eq!(waited.iter().max(), Some(&table.waits));
    assert!(table.waits <= MOST_WAITING || !table.entries.iter().any(|entry| entry.flame));
    for (index, entry) in table.entries.iter().enumerate() {
        if !matches!(entry.what, What::Segment(..)) {
            continue;
        }
        let mut turns: Vec<u32> = table
            .rows
            .iter()
            .filter(|row| row.entry == index)
            .flat_map(|row| &row.places)
            .filter(|place| place.does == Does::Entry)
            .flat_map(|place| place.learners.clone())
            .collect();
        turns.sort_unstable();
        assert_eq!(
            turns,
            (0..learners).collect::<Vec<u32>>(),
            "everyone has one turn"
        );
    }
    everyone_is_at_every_stop(table);
    for one in &table.beside {
        let mut had: Vec<u32> = table
            .rows
            .iter()
            .flat_map(|row| &row.places)
            .filter(|place| {
                matches!(place.does, Does::Beside(module, segment)
                if module.id == one.module.id && segment.id == one.segment.id)
            })
            .flat_map(|place| place.learners.clone())
            .collect();
        had.sort_unstable();
        assert_eq!(had, (0..learners).collect::<Vec<u32>>(), "everyone once");
    }
}

/// Whatever is dropped, first marks first, nothing that stays needs it.
fn drops_leave_what_is_kept_whole(table: &Timetable<'_>) {
    let marks: BTreeSet<u32> = table
        .entries
        .iter()
        .filter_map(|entry| entry.drop)
        .collect();
    assert_eq!(marks, (1..=marks.len() as u32).collect(), "each mark once");
    let named = |module: &str, id: &str| {
        table.entries.iter().find(|entry| {
            let mut taught = entry.taught().into_iter();
            taught.any(|(one, other)| one.id == module && other.id == id)
        })
    };
    for entry in &table.entries {
        let may_go = !entry.taught().is_empty() || entry.what == What::Break;
        assert!(may_go || entry.drop.is_none());
        for (module, segment) in entry.taught() {
            dropped_before_what_it_needs(module, segment, entry.drop, &named);
        }
    }
}

fn dropped_before_what_it_needs<'t>(
    module: &Module,
    segment: &Segment,
    drop: Option<u32>,
    named: &dyn Fn(&str, &str) -> Option<&'t Entry<'t>>,
) {
    for before in &segment.after {
        let (other, id) = before.split_once('.').unwrap_or((&module.id, before));
        if id == "cool-down" || segment.id == "cool-down" {
            continue;
        }
        let Some(mark) = named(other, id).and_then(|needed| needed.drop) else {
            continue;
        };
        assert!(
            drop.is_some_and(|own| own < mark),
            "{} needs {before}, which goes first",
            segment.id
        );
    }
}

/// What safety requires with nothing lit comes before the first flame of a course, whatever the
/// subjects: on the clock, or beside something unlit.
pub fn required_before_any_flame(trip: &Trip, course: &Course<'_>) {
    let lit = |table: &&Timetable<'_>| table.entries.iter().any(|entry| entry.flame);
    let Some(session) = course.sessions.iter().position(|table| lit(&table)) else {
        return;
    };
    let mut flames = course.sessions[session].entries.iter();
    let first = flames.find(|entry| entry.flame).unwrap().starts;
    let before: BTreeSet<(&str, &str)> = course.sessions[..=session]
        .iter()
        .enumerate()
        .flat_map(|(at, table)| {
            let early = move |starts: u32| at < session || starts < first;
            let held = table.entries.iter().filter(move |one| early(one.starts));
            let beside = table.rows.iter().filter(move |row| early(row.starts));
            let held = held.flat_map(|entry| entry.taught());
            let beside = beside.flat_map(|row| &row.places);
            held.chain(beside.filter_map(|place| match place.does {
                Does::Beside(module, segment) => Some((module, segment)),
                _ => None,
            }))
        })
        .map(|(module, segment)| (module.id.as_str(), segment.id.as_str()))
        .collect();
    for module in timetable::applying(trip, &LIBRARY) {
        let mut segments = module.segments.iter();
        let required = segments
            .by_ref()
            .filter(|one| one.required && !one.flame && plan::applies(&one.applies, trip));
        for segment in required {
            let held = before.contains(&(module.id.as_str(), segment.id.as_str()));
            assert!(held, "{}.{} comes before any flame", module.id, segment.id);
        }
    }
}

/// Everyone is at every place of a carousel once, in a row of its own minutes.
fn everyone_is_at_every_stop(table: &Timetable<'_>) {
    for (index, entry) in table.entries.iter().enumerate() {
        let What::Carousel(stops) = &entry.what else {
            continue;
        };
        for stop in stops {
            let rows = table.rows.iter().filter(|row| row.entry == index);
            let mut had: Vec<u32> = rows
                .flat_map(|row| &row.places)
                .filter(|place| place.at == stop.at)
                .inspect(|place| assert_eq!(place.does, Does::Beside(stop.module, stop.segment)))
                .flat_map(|place| place.learners.clone())
                .collect();
            had.sort_unstable();
            assert_eq!(
                had,
                (0..table.learners()).collect::<Vec<u32>>(),
                "once each"
            );
        }
    }
}
