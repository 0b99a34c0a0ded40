//! New containers without a store room: bottles below their fill line, packs, and what the
//! lightest mix weighs for many needs at once.

use super::choose::{self, Item};
use super::cold;
use super::given_out::{TENTH, sizes_for, tenths_down, tenths_up};
use super::types::{CampPlan, ContainerPlan, KitchenPlan};
use crate::nouns::{Container, Fuel, FuelKind, Kitchen, Library, Trip};
use crate::units::{Fraction, Mass, Units, Volume};

/// A tenth of a millilitre, for bottles.
const TENTH_ML: Volume = Volume::millilitres(0.1);

/// What of a full container can be burnt.
fn usable(size: &Container) -> Mass {
    size.net * (1.0 - size.residue_share.in_one()) - size.residue
}

/// A full container of which a part can be burnt.
fn full(size: &Container, usable: Mass) -> Item {
    Item {
        usable: tenths_down(usable),
        waste: 0,
        gross: tenths_up(size.net + size.tare),
        part_used: false,
    }
}

/// A bottle as a mix sees it: room below the fill line in tenths of a millilitre, and its tare.
fn bottle(size: &Container, step: Volume) -> Item {
    Item {
        usable: (room(size, step) / TENTH_ML + 1e-6).floor() as i64,
        waste: 0,
        gross: tenths_up(size.tare),
        part_used: false,
    }
}

/// What may be filled into a bottle: up to its fill line, down to what a reader can measure.
fn room(size: &Container, step: Volume) -> Volume {
    step * (size.capacity * size.fill.in_one() / step + 1e-6).floor()
}

/// The step in which fuel is measured into a bottle: whole fluid ounces or 10 mL.
fn measure(units: Units) -> Volume {
    match units {
        Units::Us => Volume::fluid_ounces(1.0),
        Units::Metric | Units::Both => Volume::millilitres(10.0),
    }
}

/// What stays in a fuel's bottles or burner, of what was filled in.
fn lost(sizes: &[&Container]) -> Fraction {
    sizes
        .iter()
        .map(|size| size.residue_share)
        .fold(Fraction::ZERO, Fraction::max)
}

/// Tenths of a millilitre that a mass of a fuel takes.
fn poured_tenths(mass: Mass, fuel: &Fuel) -> i64 {
    (poured(mass, fuel) / TENTH_ML - 1e-6).ceil().max(1.0) as i64
}

/// The room that a mass of a fuel takes.
fn poured(mass: Mass, fuel: &Fuel) -> Volume {
    Volume::litres(mass.in_kilograms() / fuel.density)
}

/// What new containers weigh with their fuel for several needs of one kitchen, each alone: the
/// lightest mix, canisters counted as at the coldest meal.
pub(crate) fn masses_for(
    trip: &Trip,
    library: &Library,
    kitchen: &Kitchen,
    plan: &KitchenPlan,
    camps: &[CampPlan],
    needs: &[Mass],
) -> Vec<Mass> {
    let sizes = sizes_for(library, kitchen.fuel.kind);
    let grams = |tenths: i64| TENTH * tenths as f64;
    let packed = |items: &[Item]| -> Vec<Mass> {
        let tenths: Vec<i64> = needs.iter().map(|need| tenths_up(*need).max(1)).collect();
        choose::lightest_masses(items, &tenths)
            .into_iter()
            .map(|mass| grams(mass.unwrap_or(0)))
            .collect()
    };
    match kitchen.fuel.kind {
        FuelKind::Canister => {
            let blend = cold::new_blend(kitchen, library);
            let draws = cold::draws(
                trip,
                kitchen,
                &plan.rows,
                camps,
                0..camps.len(),
                plan.fuel.carry,
            );
            let coldest = |size: &&Container| {
                let liquid = cold::of_blend(size.net, &blend);
                full(
                    size,
                    cold::gives_anywhere(&liquid, kitchen.feed, &draws, size.residue),
                )
            };
            let mut items: Vec<Item> = sizes.iter().map(coldest).collect();
            if items.iter().all(|item| item.usable == 0) {
                items = sizes.iter().map(|size| full(size, usable(size))).collect();
            }
            packed(&items)
        }
        FuelKind::Tablet => {
            let items: Vec<Item> = sizes.iter().map(|size| full(size, usable(size))).collect();
            packed(&items)
        }
        FuelKind::WhiteGas | FuelKind::Kerosene | FuelKind::Alcohol => {
            let step = measure(trip.units);
            let items: Vec<Item> = sizes.iter().map(|size| bottle(size, step)).collect();
            let left = 1.0 - lost(&sizes).in_one();
            let contents: Vec<Mass> = needs.iter().map(|need| *need / left).collect();
            let tenths: Vec<i64> = contents
                .iter()
                .map(|mass| poured_tenths(*mass, &kitchen.fuel))
                .collect();
            choose::lightest_masses(&items, &tenths)
                .into_iter()
                .zip(contents)
                .map(|(tare, mass)| grams(tare.unwrap_or(0)) + mass)
                .collect()
        }
    }
}

/// The lightest packs that hold enough.
pub(super) fn packs(
    library: &Library,
    kitchen: &Kitchen,
    carry: Mass,
    leg: usize,
) -> Vec<ContainerPlan> {
    let sizes = sizes_for(library, kitchen.fuel.kind);
    let items: Vec<Item> = sizes.iter().map(|size| full(size, usable(size))).collect();
    let counts = choose::lightest_mix(&items, tenths_up(carry).max(1)).unwrap_or_default();
    sizes
        .iter()
        .zip(counts)
        .filter(|(_, count)| *count > 0)
        .map(|(size, count)| ContainerPlan {
            tag: None,
            container: size.id.clone(),
            name: size.name.clone(),
            kind: size.kind,
            size: size.net,
            net: size.net,
            usable: usable(size),
            gross: size.net + size.tare,
            tare: Some(size.tare),
            fill: None,
            blend: None,
            on_hand: false,
            count,
            leg,
        })
        .collect()
}

/// The smallest bottle that holds enough below its fill line; past the largest, the lightest mix.
/// What is taken is shared out by their size, each up to the next full measure.
pub(super) fn bottles(
    trip: &Trip,
    library: &Library,
    kitchen: &Kitchen,
    carry: Mass,
    leg: usize,
) -> Vec<ContainerPlan> {
    let sizes = sizes_for(library, kitchen.fuel.kind);
    let lost = lost(&sizes);
    let step = measure(trip.units);
    // What stays behind goes along too.
    let contents = carry / (1.0 - lost.in_one());
    let items: Vec<Item> = sizes.iter().map(|size| bottle(size, step)).collect();
    let need = poured_tenths(contents, &kitchen.fuel);
    let counts = choose::lightest_mix(&items, need).unwrap_or_default();
    let all: Volume = sizes
        .iter()
        .zip(&counts)
        .map(|(size, count)| room(size, step) * f64::from(*count))
        .sum();
    sizes
        .iter()
        .zip(counts)
        .filter(|(_, count)| *count > 0)
        .map(|(size, count)| {
            let room = room(size, step);
            let exact = poured(contents * (room / all), &kitchen.fuel);
            let fill = (step * (exact / step - 1e-6).ceil()).min(room);
            let net = Mass::kilograms(fill.in_litres() * kitchen.fuel.density);
            ContainerPlan {
                tag: None,
                container: size.id.clone(),
                name: size.name.clone(),
                kind: size.kind,
                size: Mass::kilograms(room.in_litres() * kitchen.fuel.density),
                net,
                usable: net * (1.0 - lost.in_one()),
                gross: net + size.tare,
                tare: Some(size.tare),
                fill: Some(fill),
                blend: None,
                on_hand: false,
                count,
                leg,
            }
        })
        .collect()
}
