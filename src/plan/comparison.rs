//! Every stove family of the catalogue on the same trip, side by side.
//!
//! Same meals, pots, camps and weather; each stove with its usual windscreen, its usual fuel and
//! new containers. A family that a kitchen already has keeps that kitchen's own values.

use super::burning::Burns;
use super::fuel::{self, Base};
use super::needs::{End, Hold, Lit, Need, Part};
use super::new_ones;
use super::rows;
use super::serve;
use super::setup::{Handed, Setup};
use super::stability;
use super::types::{
    Allowed, CampPlan, Carried, ComparisonRow, ContainerPlan, Crossing, KitchenPlan,
};
use super::{cold, types::FuelPlan};
use crate::diag::Outcome;
use crate::nouns::{
    ContainerKind, Feed, Fuel, FuelKind, Kind, Kitchen, Library, Meal, Stove, StoveRule, Trip,
    Verdict,
};
use crate::phrase::{Phrase, phrase};
use crate::units::{Angle, Energy, Force, Mass, Time, Volume};
use rayon::prelude::*;
use std::sync::Arc;

/// The most nights on the chart.
pub(crate) const MOST_NIGHTS: u32 = 14;

/// The comparison of a trip.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Compared {
    /// A row for each stove, in the order of families.
    pub(crate) rows: Vec<ComparisonRow>,
    /// Where two of them weigh the same.
    pub(crate) crossings: Vec<Crossing>,
}

/// Compares the stoves of the catalogue on this trip.
///
/// # Errors
/// When a stove of the catalogue cannot be worked out.
pub(crate) fn compare(base: &Base<'_>) -> Outcome<Compared> {
    let mut stoves: Vec<&Stove> = base.library.stoves.values().collect();
    stoves.sort_by(|a, b| a.family.cmp(&b.family).then_with(|| a.id.cmp(&b.id)));
    let rows: Vec<Outcome<ComparisonRow>> = stoves
        .par_iter()
        .filter_map(|stove| {
            let fuel = base.library.fuels.get(&stove.fuel)?;
            Some(one(base, stove, fuel))
        })
        .collect();
    // what goes wrong is told of the first stove, whichever was worked first
    let rows: Vec<ComparisonRow> = rows.into_iter().collect::<Outcome<_>>()?;
    let crossings = crossings(&rows);
    Ok(Compared { rows, crossings })
}

/// Whether each stove of the catalogue can be set up in each kitchen: what [`compare`] can fail of
/// beside the trip's own plan.
///
/// # Errors
/// When nothing is known of a stove behind its windscreen, or its efficiency cannot be.
pub(crate) fn can_be_set_up(trip: &Trip, library: &Library) -> Outcome<()> {
    let mut stoves: Vec<&Stove> = library.stoves.values().collect();
    stoves.sort_by(|a, b| a.family.cmp(&b.family).then_with(|| a.id.cmp(&b.id)));
    for stove in stoves {
        let Some(fuel) = library.fuels.get(&stove.fuel) else {
            continue;
        };
        for (index, kitchen) in trip.kitchens.iter().enumerate() {
            let kitchen = with_stove(kitchen, stove, fuel);
            let (heating, _) = fuel::heating(&kitchen, library, None, "");
            let (file, at) = (&trip.file, String::new());
            Setup::new(library, &kitchen, index, file, trip.units, heating, at)?;
        }
    }
    Ok(())
}

/// A kitchen with another stove; its own if it is of that family.
pub(crate) fn with_stove(kitchen: &Kitchen, stove: &Stove, fuel: &Fuel) -> Kitchen {
    if kitchen.stove.family == stove.family {
        return kitchen.clone();
    }
    Kitchen {
        stove: stove.clone(),
        fuel: fuel.clone(),
        heating_value: None,
        blend: None,
        feed: Feed::Vapour,
        screen: stove.screen,
        measured: None,
        ..kitchen.clone()
    }
}

/// One stove on the trip.
fn one(base: &Base<'_>, stove: &Stove, fuel: &Fuel) -> Outcome<ComparisonRow> {
    let trip = Trip {
        kitchens: base
            .trip
            .kitchens
            .iter()
            .map(|kitchen| with_stove(kitchen, stove, fuel))
            .collect(),
        canisters_on_hand: Vec::new(),
        ..base.trip.clone()
    };
    let library = base.library;
    let here = Base {
        trip: &trip,
        library,
        camps: base.camps.clone(),
        draws: Arc::clone(&base.draws),
        with_shares: false,
        practice: &[],
    };
    let camps: Vec<CampPlan> = base.camps.iter().map(|work| work.plan.clone()).collect();
    let mut kitchens = Vec::new();
    for (index, kitchen) in trip.kitchens.iter().enumerate() {
        kitchens.push(fuel::kitchen(&here, kitchen, index, &Handed::default())?);
    }
    let burns = Burns::default();
    let handed = serve::hand_out(&here, &camps, &mut kitchens, &burns)?;
    let too_cold = !handed.notes.is_empty();
    for ((plan, mine), kitchen) in kitchens
        .iter_mut()
        .zip(handed.containers)
        .zip(&trip.kitchens)
    {
        plan.containers = mine;
        plan.cold = cold::rows(&trip, library, kitchen, plan, &camps, &burns);
        plan.stability = stability::work(kitchen, library, plan);
    }
    // a kitchen that has this stove is judged with its own pots, not with those of the others
    let own = |index: usize| base.trip.kitchens[index].stove.family == stove.family;
    let ours = (0..kitchens.len()).any(own);
    let judged: Vec<&KitchenPlan> = kitchens
        .iter()
        .enumerate()
        .filter(|(index, _)| !ours || own(*index))
        .map(|(_, plan)| plan)
        .collect();
    let may_not_boil = judged
        .iter()
        .any(|plan| plan.rows.iter().any(|row| row.may_not_boil));
    let (allowed, why) = allowed(
        &trip,
        stove,
        &judged,
        too_cold,
        may_not_boil.then_some(ours),
    );
    let never_boils = kitchens.iter().any(|plan| plan.failing().next().is_some());
    let stoves: Mass = trip.kitchens.iter().map(|kitchen| kitchen.stove.mass).sum();
    let at_start = stoves + gross(kitchens.iter().flat_map(|plan| &plan.containers), 0);
    let likely: Mass = kitchens.iter().map(|plan| plan.fuel.likely).sum();
    let first_leg: Mass = kitchens.iter().map(|plan| first_leg(&plan.fuel)).sum();
    // The kitchen's own values where a trip has this stove, the catalogue's otherwise.
    let of = trip.kitchens.first().map_or(fuel, |kitchen| &kitchen.fuel);
    let value = kitchens
        .first()
        .map_or(of.heating_value, |plan| plan.fuel.heating_value);
    let all: Vec<&ContainerPlan> = kitchens.iter().flat_map(|plan| &plan.containers).collect();
    let net: Mass = all.iter().map(|one| one.net * f64::from(one.count)).sum();
    let with_containers: Mass = all.iter().map(|one| one.gross * f64::from(one.count)).sum();
    let share = |part: Mass, whole: Mass| {
        if whole > Mass::ZERO {
            part / whole
        } else {
            0.0
        }
    };
    let minutes_per_litre = minutes_per_litre(&here)?;
    Ok(ComparisonRow {
        stove: stove.id.clone(),
        stove_name: stove.name.clone(),
        fuel: of.id.clone(),
        fuel_name: of.name.clone(),
        allowed,
        why,
        may_not_boil,
        carried: (!never_boils).then_some(Carried {
            fuel: kitchens.iter().map(|plan| plan.fuel.carry).sum(),
            start: at_start,
            average: at_start - first_leg / 2.0,
            minutes_per_litre,
            containers: all.iter().map(|one| one.count).sum(),
            fossil_co2: likely * of.fossil_co2,
            energy_per_kilogram_with_container: value
                * Mass::kilograms(share(net, with_containers)),
            container_share: share(with_containers - net, net),
            price: price(&trip, library, &kitchens),
        }),
        rim_push: least(&kitchens, |plan| plan.rim_push.in_newtons()).map(Force::newtons),
        tip_angle: least(&kitchens, |plan| plan.tip_angle_worst.in_degrees()).map(Angle::degrees),
        energy_per_litre: Energy::megajoules(value.in_megajoules_per_kilogram() * of.density),
        by_nights: if never_boils {
            Vec::new()
        } else {
            by_nights(&trip, library, &kitchens, &camps)
        },
    })
}

/// The least of something about how the kitchens stand.
fn least(
    kitchens: &[KitchenPlan],
    of: impl Fn(&super::types::StabilityPlan) -> f64,
) -> Option<f64> {
    kitchens
        .iter()
        .filter_map(|plan| plan.stability.as_ref().map(&of))
        .reduce(f64::min)
}

/// All containers of one leg on the scale.
fn gross<'a>(containers: impl Iterator<Item = &'a ContainerPlan>, leg: usize) -> Mass {
    containers
        .filter(|one| one.leg == leg)
        .map(|one| one.gross * f64::from(one.count))
        .sum()
}

/// Burnt before new fuel is handed out.
fn first_leg(fuel: &FuelPlan) -> Mass {
    fuel.legs.first().map_or(fuel.likely, |leg| leg.likely)
}

/// Stoves, containers and fuel for the same trip with 1 to 14 nights, all in one carry. The
/// spread in percent does not fall with nights, so need and percentile grow alike; the spare day
/// stays.
fn by_nights(
    trip: &Trip,
    library: &Library,
    kitchens: &[KitchenPlan],
    camps: &[CampPlan],
) -> Vec<Mass> {
    let nights: u32 = trip.camps.iter().map(|camp| camp.nights).sum();
    if trip.kind == Kind::Lesson || nights == 0 {
        return Vec::new();
    }
    let step = library.figures.round_up.value;
    let mut sums = vec![Mass::ZERO; MOST_NIGHTS as usize];
    for (plan, kitchen) in kitchens.iter().zip(&trip.kitchens) {
        let spare = spare_day(trip, &plan.fuel);
        let needs: Vec<Mass> = (1..=MOST_NIGHTS)
            .map(|count| {
                let share = f64::from(count) / f64::from(nights);
                let (likely, at) = (plan.fuel.likely, plan.fuel.at_confidence);
                let need = (at * share).max(likely * share + spare);
                step * (need / step - 1e-9).ceil().max(0.0)
            })
            .collect();
        let masses = new_ones::masses_for(trip, library, kitchen, plan, camps, &needs);
        for (sum, mass) in sums.iter_mut().zip(masses) {
            *sum += kitchen.stove.mass + mass;
        }
    }
    sums
}

/// The spare that the trip asks for: full days at the costliest camp.
fn spare_day(trip: &Trip, fuel: &FuelPlan) -> Mass {
    let days = match trip.spare {
        crate::nouns::Spare::None => 0.0,
        crate::nouns::Spare::OneExtraDay => 1.0,
        crate::nouns::Spare::TwoExtraDays => 2.0,
    };
    fuel.days.iter().copied().fold(Mass::ZERO, Mass::max) * days
}

/// Minutes of flame and one set-up to boil a litre at the first camp in the first kitchen; the waits
/// until an alcohol burner is cold come on top, and stand in the rows of a plan.
fn minutes_per_litre(base: &Base<'_>) -> Outcome<Time> {
    let trip = base.trip;
    let (Some(kitchen), Some(camp)) = (trip.kitchens.first(), base.camps.first()) else {
        return Ok(Time::ZERO);
    };
    let (heating, _) = fuel::heating(kitchen, base.library, None, "");
    let setup = Setup::new(
        base.library,
        kitchen,
        0,
        &trip.file,
        trip.units,
        heating,
        String::new(),
    )?;
    let need = Need {
        meal: Meal::Supper,
        times: 1,
        a_day: 1,
        parts: vec![Part {
            water: Volume::litres(1.0),
            a_person: None,
            end: End::Boil,
        }],
        hold: Hold::None,
        air: trip.camps[0].day,
        wind: trip.camps[0].wind,
        lights: Lit::EACH_TIME,
    };
    let row = rows::work(&setup, 0, camp, &need)?;
    Ok(row.flame + base.library.figures.set_up.value)
}

/// The pot that is farthest from a boil: where it stops, and what would make it boil.
fn never_boils(trip: &Trip, kitchens: &[&KitchenPlan]) -> Option<Phrase> {
    let failing = kitchens.iter().flat_map(|plan| plan.failing());
    let stopping = failing.filter_map(|row| row.stops.as_ref().map(|stops| (row.meal, stops)));
    let (meal, stops) = stopping.min_by(|(_, a), (_, b)| {
        let (a, b) = (a.at.in_kelvin(), b.at.in_kelvin());
        a.total_cmp(&b)
    })?;
    let at = crate::units::say::temperature(stops.at, trip.units);
    Some(match stops.remedy_but_stove() {
        Some(remedy) => phrase!("stove-never-boils", meal = meal, at = at, remedy = remedy),
        None => phrase!("stove-never-boils-at-all", meal = meal, at = at),
    })
}

/// Whether a stove may be used here, and why not: by the kitchens that it is judged with; where
/// it may not boil, whether it is ours.
fn allowed(
    trip: &Trip,
    stove: &Stove,
    kitchens: &[&KitchenPlan],
    too_cold: bool,
    may_not_boil: Option<bool>,
) -> (Allowed, Option<Phrase>) {
    let no = |why: Phrase| (Allowed::No, Some(why));
    let unknown = |why: Phrase| (Allowed::Unknown, Some(why));
    let rule = &trip.restrictions;
    if rule.stoves == Some(StoveRule::No) {
        return no(phrase!("stove-no-flame"));
    }
    if trip.lights_nothing() {
        return no(phrase!("stove-indoors"));
    }
    if rule.stoves == Some(StoveRule::WithShutOff) && !stove.shut_off {
        return no(phrase!("stove-without-valve"));
    }
    let fails = kitchens
        .iter()
        .flat_map(|plan| &plan.cold)
        .any(|row| row.verdict == Verdict::WillNotWork);
    if fails || too_cold {
        return no(phrase!("stove-too-cold"));
    }
    if let Some(why) = never_boils(trip, kitchens) {
        return no(why);
    }
    match may_not_boil {
        Some(true) => return no(phrase!("stove-may-not-boil-own")),
        Some(false) => return no(phrase!("stove-may-not-boil")),
        None => {}
    }
    if rule.stoves.is_some() {
        return (Allowed::Yes, None);
    }
    if rule.stage.is_none() {
        return unknown(phrase!("stove-ask-restrictions"));
    }
    if !stove.shut_off {
        return unknown(phrase!("stove-ask-valve"));
    }
    unknown(phrase!("stove-ask-stage"))
}

/// What the containers cost by the user's prices; none unless every one of them has a price.
fn price(trip: &Trip, library: &Library, kitchens: &[KitchenPlan]) -> Option<f64> {
    let mut sum = 0.0;
    for (plan, kitchen) in kitchens.iter().zip(&trip.kitchens) {
        for one in &plan.containers {
            let each = match one.fill {
                None => {
                    trip.prices
                        .iter()
                        .find(|price| price.container == one.container)?
                        .amount
                }
                Some(fill) => fill.in_litres() * price_of_litre(trip, library, &kitchen.fuel)?,
            };
            sum += each * f64::from(one.count);
        }
    }
    (!trip.prices.is_empty()).then_some(sum)
}

/// The price of a litre of a liquid fuel, by a price that names it.
fn price_of_litre(trip: &Trip, library: &Library, fuel: &Fuel) -> Option<f64> {
    trip.prices.iter().find_map(|price| {
        let container = library.containers.get(&price.container)?;
        let item = crate::nouns::id(&price.item);
        let named = item.starts_with(&fuel.id)
            || item.starts_with(&crate::nouns::id(&fuel.name))
            || (fuel.kind == FuelKind::Alcohol && item.starts_with(fuel.kind.word()));
        let litres = container.capacity.in_litres();
        (named && container.kind == ContainerKind::Bottle && litres > 0.0)
            .then(|| price.amount / litres)
    })
}

/// The first night count at which a heavier stove has become the lighter one, pair by pair.
fn crossings(rows: &[ComparisonRow]) -> Vec<Crossing> {
    let mut crossings = Vec::new();
    for (index, a) in rows.iter().enumerate() {
        for b in &rows[index + 1..] {
            let lighter = |night: usize| {
                let (a, b) = (a.by_nights[night], b.by_nights[night]);
                a.in_kilograms().total_cmp(&b.in_kilograms())
            };
            let count = a.by_nights.len().min(b.by_nights.len());
            let Some(first) = (0..count).find(|night| lighter(*night).is_ne()) else {
                continue;
            };
            let was = lighter(first);
            let crossing = (first..count).find(|night| lighter(*night) == was.reverse());
            if let Some(night) = crossing {
                let (before, after) = if was.is_lt() { (a, b) } else { (b, a) };
                crossings.push(Crossing {
                    before: before.stove.clone(),
                    after: after.stove.clone(),
                    nights: night as u32 + 1,
                });
            }
        }
    }
    crossings
}
