//! What becomes of a lesson's menu on its clock: its water is boiled on flames that are lit anyway
//! and have a pot on them, or the plan says why it is not.

use super::types::{Made, MenuBoil, NotMade, Spot, Timetable, What, whole};
use crate::nouns::{Kind, Meal, Trip};
use crate::plan::{self, Plan};
use crate::units::{Mass, Time};

/// Times as long as one boil without a pause: of a pair one lights first, and then the other. A pot
/// of half a litre under its lid loses some 60 W for two minutes between them, 7 kJ of its 190.
const PAUSED: f64 = 1.05;

/// A flame with a pot on it: its row of the session, minutes of full flame.
#[derive(Clone, Copy)]
struct Turn {
    row: usize,
    burns: u32,
}

/// Every meal of a lesson at every station, each made once or not at all. A trip's clock is its
/// kitchens' own.
pub(super) fn menu(trip: &Trip, plan: &Plan, sessions: &[Timetable<'_>]) -> Vec<MenuBoil> {
    if trip.kind != Kind::Lesson {
        return Vec::new();
    }
    if plan.kitchens.iter().all(|kitchen| kitchen.rows.is_empty()) {
        return cold(trip);
    }
    let of = |session: usize| -> Vec<MenuBoil> {
        let kitchens = plan.kitchens.iter().enumerate();
        kitchens
            .flat_map(|(station, kitchen)| {
                // a turn that boils one meal boils no other
                let mut turns = turns(&sessions[session], station);
                let mut made = Vec::new();
                for row in &kitchen.rows {
                    let boil = one(
                        trip,
                        (session, station),
                        row,
                        &sessions[session],
                        &mut turns,
                    );
                    made.push(boil);
                }
                made
            })
            .collect()
    };
    let made = |all: &[MenuBoil]| all.iter().filter(|one| one.made.is_ok()).count();
    (0..sessions.len())
        .map(of)
        .reduce(|best, next| {
            if made(&next) > made(&best) {
                next
            } else {
                best
            }
        })
        .unwrap_or_default()
}

/// The supper of a lesson that lights nothing, for which the plan has no rows.
fn cold(trip: &Trip) -> Vec<MenuBoil> {
    let Some(camp) = trip
        .camps
        .first()
        .filter(|camp| !camp.menu.supper.is_cold())
    else {
        return Vec::new();
    };
    let kitchens = trip.kitchens.iter().enumerate();
    kitchens
        .map(|(station, kitchen)| MenuBoil {
            meal: Meal::Supper,
            session: 0,
            station,
            water: camp.menu.supper.boil * f64::from(kitchen.people),
            people: kitchen.people,
            made: Err(NotMade::NothingLit),
        })
        .collect()
}

/// The flames of a session at a station on which a pot of water stands, in order.
fn turns(table: &Timetable<'_>, station: usize) -> Vec<Turn> {
    let mut turns = Vec::new();
    for (at, row) in table.rows.iter().enumerate() {
        let entry = &table.entries[row.entry];
        let What::Segment(_, segment) = entry.what else {
            continue;
        };
        let here =
            |spot: Spot| matches!(spot, Spot::Station(one) | Spot::Spare(one) if one == station);
        if segment.pot && row.places.iter().any(|one| one.lit && here(one.at)) {
            turns.push(Turn {
                row: at,
                burns: entry.burns,
            });
        }
    }
    turns
}

/// Minutes of flame of one boil where a meal's water is boiled in so many, pots warmed each time.
/// Minutes go with the heat that goes into water and pot, as the same temperatures are gone through.
fn one_boil(row: &plan::Row, boils: u32) -> f64 {
    let batches = row.batches.len().max(1) as f64;
    let pot = row.heat.pot.in_joules() / batches;
    let water = (row.heat.water + row.heat.melt).in_joules();
    let share = (water / f64::from(boils) + pot) / (water + pot * batches);
    let heating = row.flame.in_minutes() - row.hold.in_minutes() * batches;
    heating * share + row.hold.in_minutes()
}

fn one(
    trip: &Trip,
    (session, station): (usize, usize),
    row: &plan::Row,
    table: &Timetable<'_>,
    turns: &mut Vec<Turn>,
) -> MenuBoil {
    let boil = |made| MenuBoil {
        meal: row.meal,
        session,
        station,
        water: row.water * f64::from(row.times),
        people: trip.kitchens.get(station).map_or(0, |one| one.people),
        made,
    };
    if table.lit == 0 {
        return boil(Err(NotMade::NothingLit));
    }
    if turns.is_empty() {
        return boil(Err(NotMade::NoPot));
    }
    if row.stops.is_some() {
        return boil(Err(NotMade::NeverBoils));
    }
    let all = turns.len() as u32 / row.times.max(1);
    let first = row.batches.len().max(1) as u32;
    let fits = |boils: u32| {
        let takes = one_boil(row, boils) * PAUSED;
        let long = turns.iter().filter(|one| f64::from(one.burns) >= takes);
        long.count() as u32 >= boils * row.times
    };
    let Some(boils) = (first..=all.max(first)).find(|boils| fits(*boils)) else {
        let boils = all.max(first);
        return boil(Err(NotMade::Short {
            boils: boils * row.times,
            each: whole(Time::minutes(one_boil(row, boils) * PAUSED)),
            turns: turns.len() as u32,
            burns: turns.iter().map(|one| one.burns).max().unwrap_or(0),
        }));
    };
    // the last ones: it is drunk hot
    let takes = one_boil(row, boils) * PAUSED;
    let mut rows = Vec::new();
    let mut left = Vec::new();
    for turn in turns.drain(..).rev() {
        if (rows.len() as u32) < boils * row.times && f64::from(turn.burns) >= takes {
            rows.push(turn.row);
        } else {
            left.push(turn);
        }
    }
    left.reverse();
    rows.reverse();
    *turns = left;
    let last_flame = table.entries.iter().rposition(|one| one.flame);
    boil(Ok(Made {
        rows,
        drunk: last_flame.map_or(0, |at| (at + 1).min(table.entries.len() - 1)),
        fuel: (row.fuel - row.to_light.min(row.fuel)) * f64::from(row.times),
    }))
}

/// Fuel of the menu that a station's practice burns anyway.
pub(super) fn burnt_anyway(menu: &[MenuBoil], station: usize) -> Mass {
    menu.iter()
        .filter(|one| one.station == station)
        .filter_map(|one| one.made.as_ref().ok())
        .map(|made| made.fuel)
        .sum()
}
