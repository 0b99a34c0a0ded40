//! What is handed out to each kitchen: canisters, bottles, packs.

use super::burning::{Burns, Leg};
use super::canisters::{self, Demand};
use super::cold;
use super::given_out::HandedOut;
use super::issue;
use super::new_ones::{bottles, packs};
use super::types::{CampPlan, ContainerPlan, KitchenPlan};
use crate::nouns::{Blend, Feed, FuelKind, Kitchen, Library, Trip};
use crate::physics::vapour::Liquid;
use crate::units::{Fraction, Mass};

/// Hands out containers to every kitchen.
pub(crate) fn hand_out(
    trip: &Trip,
    library: &Library,
    kitchens: &[KitchenPlan],
    camps: &[CampPlan],
    burns: &Burns,
) -> HandedOut {
    let mut out = HandedOut {
        containers: vec![Vec::new(); kitchens.len()],
        ..HandedOut::default()
    };
    let mut demands = Vec::new();
    for (index, (plan, kitchen)) in kitchens.iter().zip(&trip.kitchens).enumerate() {
        for (leg, (from, until, carry)) in issue::legs(plan, camps.len()).into_iter().enumerate() {
            let range = from..until;
            if carry <= Mass::ZERO {
                continue;
            }
            match kitchen.fuel.kind {
                FuelKind::Canister => demands.push(Demand {
                    kitchen: index,
                    leg,
                    of: kitchen,
                    carry,
                    part_used_at_most: trip
                        .part_used_at_most
                        .and_then(|most| usize::try_from(most).ok())
                        .unwrap_or(usize::MAX),
                    draws: cold::draws(trip, kitchen, &plan.rows, camps, range.clone(), carry),
                    burns: Leg::of(trip, library, kitchen, plan, camps, range, burns),
                    blend: cold::new_blend(kitchen, library),
                }),
                FuelKind::Tablet => {
                    out.containers[index].extend(packs(library, kitchen, carry, leg));
                }
                FuelKind::WhiteGas | FuelKind::Kerosene | FuelKind::Alcohol => {
                    out.containers[index].extend(bottles(trip, library, kitchen, carry, leg));
                }
            }
        }
    }
    if !demands.is_empty() {
        canisters::hand_out(trip, library, demands, &mut out);
    }
    out
}

/// The mean composition of the canisters handed out, by mass; none without canisters.
pub(crate) fn mean_blend(containers: &[ContainerPlan]) -> Option<Blend> {
    let mut all = Liquid::of(Mass::ZERO, Fraction::ZERO, Fraction::ZERO, Fraction::ZERO);
    for one in containers {
        let Some(blend) = &one.blend else { continue };
        let liquid = cold::of_blend(one.net * f64::from(one.count), blend);
        all.propane += liquid.propane;
        all.isobutane += liquid.isobutane;
        all.butane += liquid.butane;
    }
    (all.total() > Mass::ZERO).then(|| cold::blend_of(&all))
}

/// Whether a kitchen draws liquid: told apart wherever its canisters are spoken of.
pub(crate) fn liquid_feed(kitchen: &Kitchen) -> bool {
    kitchen.fuel.kind == FuelKind::Canister && kitchen.feed == Feed::Liquid
}
