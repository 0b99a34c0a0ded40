//! What if: the trip planned again with one thing changed at a time, side by side.
//!
//! What the kitchen card says in grams more and what stands side by side for the instructor are
//! the same plans, worked once.

use super::change::{Change, ChangeKind, Changed, DEGREES, HIGHER, Trouble};
use super::comparison::with_stove;
use super::types::{Allowed, KitchenPlan, Plan};
use super::{Depth, decide, draws};
use crate::nouns::{Camp, Id, Kind, Kitchen, Library, Stove, Trip, Verdict, WaterFrom, Wind};
use crate::units::{Temperature, Time, Volume, Warming};
use rayon::prelude::*;
use std::sync::Arc;

/// A night's low, in a valley nearby or a forecast that missed, at which streams may freeze.
const FREEZES: Temperature = Temperature::celsius(2.0);

/// The changes that a card in the hand speaks of.
#[must_use]
pub fn changes_on_the_way(trip: &Trip, plan: &Plan) -> Vec<ChangeKind> {
    let mut kinds = vec![ChangeKind::PersonMore];
    kinds.extend(night_more(trip, plan));
    kinds.push(ChangeKind::Colder);
    let lesson = trip.kind == Kind::Lesson;
    let may_freeze = |camp: &Camp| camp.water_from != WaterFrom::Snow && camp.night <= FREEZES;
    if !lesson && trip.camps.iter().any(may_freeze) {
        kinds.push(ChangeKind::FromSnow);
    }
    if trip.camps.iter().any(|camp| camp.wind != Wind::Windy) {
        kinds.push(ChangeKind::MoreWind);
    }
    kinds
}

/// The changes that are laid side by side, the trip as planned first. Of other stoves the one that
/// [`lightest_other`] names.
#[must_use]
pub fn changes_side_by_side(trip: &Trip, plan: &Plan) -> Vec<ChangeKind> {
    let mut kinds = vec![ChangeKind::AsPlanned];
    let winds = Wind::ALL.iter().copied();
    let unlike = |wind: &Wind| trip.camps.iter().any(|camp| camp.wind != *wind);
    kinds.extend(winds.filter(unlike).map(ChangeKind::Wind));
    let lids = trip.kitchens.iter().any(|kitchen| kitchen.lid);
    kinds.extend([
        ChangeKind::Lid(!lids),
        ChangeKind::Colder,
        ChangeKind::Warmer,
        ChangeKind::PersonMore,
    ]);
    kinds.extend(night_more(trip, plan));
    kinds.extend([ChangeKind::Higher, ChangeKind::LargerPot]);
    kinds.extend(lightest_other(trip, plan).map(ChangeKind::Stove));
    kinds
}

/// The stove of the comparison that makes the lightest kit of those that are not ruled out here,
/// no kitchen's own family among them.
#[must_use]
pub fn lightest_other(trip: &Trip, plan: &Plan) -> Option<Id> {
    let own = |id: &Id| trip.kitchens.iter().any(|kitchen| kitchen.stove.id == *id);
    plan.comparison
        .iter()
        .filter(|row| row.allowed != Allowed::No && !own(&row.stove))
        .filter_map(|row| Some((row.carried?.start, row)))
        .min_by(|(a, _), (b, _)| a.in_grams().total_cmp(&b.in_grams()))
        .map(|(_, row)| row.stove.clone())
}

/// As [`changes_side_by_side`] with every stove of the catalogue that is not each kitchen's own.
#[must_use]
pub fn changes_of_all_stoves(trip: &Trip, library: &Library, plan: &Plan) -> Vec<ChangeKind> {
    let mut kinds = changes_side_by_side(trip, plan);
    kinds.retain(|kind| !matches!(kind, ChangeKind::Stove(_)));
    let mut stoves: Vec<&Stove> = library.stoves.values().collect();
    stoves.sort_by_key(|stove| stove.family);
    let another = |stove: &&Stove| {
        let unlike = |kitchen: &Kitchen| kitchen.stove.family != stove.family;
        library.fuels.contains_key(&stove.fuel) && trip.kitchens.iter().any(unlike)
    };
    let stoves = stoves.into_iter().filter(another);
    kinds.extend(stoves.map(|stove| ChangeKind::Stove(stove.id.clone())));
    kinds
}

/// The trip planned again with one thing changed at a time, in the order asked for.
#[must_use]
pub fn changes(trip: &Trip, library: &Library, plan: &Plan, kinds: &[ChangeKind]) -> Vec<Change> {
    let mut camps = trip.camps.clone();
    if let Some(ChangeKind::NightMore(camp)) = night_more(trip, plan) {
        camps[camp].nights += 1;
    }
    // A draw belongs to its camp and day: those of the longer trip serve the others too.
    let draws = draws(&camps, library);
    // Where the same wind blows everywhere, one step more of it is that wind everywhere.
    let wind = trip.camps.first().map(|camp| camp.wind);
    let everywhere = wind.filter(|wind| trip.camps.iter().all(|camp| camp.wind == *wind));
    let same = |kind: &ChangeKind| match (kind, everywhere) {
        (ChangeKind::MoreWind, Some(wind)) => ChangeKind::Wind(wind.windier()),
        _ => kind.clone(),
    };
    let mut unlike: Vec<ChangeKind> = Vec::new();
    for kind in kinds.iter().map(same) {
        if !unlike.contains(&kind) {
            unlike.push(kind);
        }
    }
    let worked: Vec<Vec<Changed>> = unlike
        .par_iter()
        .map(|kind| {
            let of = |plan: &Plan| plan.kitchens.iter().map(|one| kitchen(plan, one)).collect();
            if *kind == ChangeKind::AsPlanned {
                return of(plan);
            }
            let changed = changed(trip, library, kind);
            let draws = Arc::clone(&draws);
            let planned = decide(&changed, library, Depth::Carry, draws, &[]);
            planned.map_or_else(|_| Vec::new(), |plan| of(&plan))
        })
        .collect();
    let found = |kind: &ChangeKind| unlike.iter().position(|one| *one == same(kind));
    kinds
        .iter()
        .map(|kind| Change {
            kind: kind.clone(),
            kitchens: found(kind).map_or_else(Vec::new, |at| worked[at].clone()),
        })
        .collect()
}

/// One night more, where the trip has nights: at the camp whose night costs most fuel.
fn night_more(trip: &Trip, plan: &Plan) -> Option<ChangeKind> {
    if trip.kind == Kind::Lesson {
        return None;
    }
    let cost = |index: usize| -> f64 {
        let grams: f64 = plan
            .kitchens
            .iter()
            .flat_map(|kitchen| kitchen.at_camp(index))
            .map(|row| row.fuel.in_grams() * f64::from(row.times))
            .sum();
        grams / f64::from(plan.camps[index].nights.max(1))
    };
    let costliest = (0..plan.camps.len()).max_by(|a, b| cost(*a).total_cmp(&cost(*b)));
    costliest.map(ChangeKind::NightMore)
}

/// The trip with one thing changed.
fn changed(trip: &Trip, library: &Library, kind: &ChangeKind) -> Trip {
    let mut trip = trip.clone();
    let camps = &mut trip.camps;
    match kind {
        ChangeKind::AsPlanned => {}
        ChangeKind::Wind(wind) => camps.iter_mut().for_each(|camp| camp.wind = *wind),
        ChangeKind::MoreWind => camps
            .iter_mut()
            .for_each(|camp| camp.wind = camp.wind.windier()),
        ChangeKind::Lid(on) => trip.kitchens.iter_mut().for_each(|one| one.lid = *on),
        ChangeKind::Colder => camps.iter_mut().for_each(|camp| warmer(camp, -DEGREES)),
        ChangeKind::Warmer => camps.iter_mut().for_each(|camp| warmer(camp, DEGREES)),
        ChangeKind::PersonMore => {
            for kitchen in &mut trip.kitchens {
                kitchen.people += 1;
                trip.people.learners += 1;
            }
        }
        ChangeKind::NightMore(camp) => camps[*camp].nights += 1,
        ChangeKind::Higher => {
            let lapse = library.figures.lapse_per_km.value.kelvins();
            for camp in camps {
                camp.elevation += HIGHER;
                camp.pressure = None;
                warmer(camp, -lapse * HIGHER.in_metres() / 1000.0);
            }
        }
        ChangeKind::FromSnow => {
            let drinking = library.figures.drinking_snow.value;
            for camp in camps {
                if camp.water_from != WaterFrom::Snow {
                    camp.water_from = WaterFrom::Snow;
                    camp.water = camp.night.min(Temperature::celsius(0.0));
                    camp.drinking = camp.drinking.max(drinking);
                }
            }
        }
        ChangeKind::LargerPot => trip.kitchens.iter_mut().for_each(larger_pot),
        ChangeKind::Stove(id) => {
            let stove = library.stoves.get(id);
            let fuel = stove.and_then(|stove| library.fuels.get(&stove.fuel));
            if let (Some(stove), Some(fuel)) = (stove, fuel) {
                trip.canisters_on_hand.clear();
                for kitchen in &mut trip.kitchens {
                    *kitchen = with_stove(kitchen, stove, fuel);
                }
            }
        }
    }
    trip
}

/// Air and water warmer by some kelvins; water stays water and snow stays snow.
fn warmer(camp: &mut Camp, by: f64) {
    let zero = Temperature::celsius(0.0);
    let by = Warming::of_kelvins(by);
    camp.day = camp.day + by;
    camp.night = camp.night + by;
    let water = camp.water + by;
    camp.water = if camp.water_from == WaterFrom::Snow {
        water.min(zero)
    } else {
        water.max(zero)
    };
}

/// The largest pot half as large again, and as much heavier.
fn larger_pot(kitchen: &mut Kitchen) {
    const BY: f64 = 1.5;
    let largest = kitchen
        .pots
        .iter_mut()
        .max_by(|a, b| a.capacity.in_litres().total_cmp(&b.capacity.in_litres()));
    if let Some(pot) = largest {
        pot.capacity = Volume::litres(pot.capacity.in_litres() * BY);
        pot.mass = pot.mass * BY;
    }
}

/// One kitchen of a changed plan.
fn kitchen(plan: &Plan, one: &KitchenPlan) -> Changed {
    let boils = one.boils();
    let days = f64::from(plan.nights.max(1));
    let minutes: Time = one
        .rows
        .iter()
        .map(|row| row.minutes * f64::from(row.times))
        .sum();
    let may_not_boil = one.rows.iter().any(|row| row.may_not_boil);
    let mut troubles = Vec::new();
    if let Some(row) = one.failing().next()
        && let Some(stops) = &row.stops
    {
        let (meal, at) = (row.meal, stops.at);
        troubles.push(Trouble::Stops { meal, at });
    }
    if boils && one.rows.iter().any(|row| !row.can_hold) {
        troubles.push(Trouble::CannotHold);
    }
    let worst = one.cold.iter().max_by_key(|row| row.verdict);
    if let Some(row) = worst.filter(|row| row.verdict >= Verdict::Weak) {
        let (meal, verdict) = (row.meal, row.verdict);
        troubles.push(Trouble::Canister { meal, verdict });
    }
    if boils && may_not_boil {
        troubles.push(Trouble::MayNotBoil);
    }
    Changed {
        name: one.name.clone(),
        fuel: boils.then_some(one.fuel.likely),
        carry: boils.then_some(one.fuel.carry),
        minutes: boils.then(|| minutes / days),
        may_not_boil,
        troubles,
    }
}
