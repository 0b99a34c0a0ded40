//! What is handed out to each kitchen: canisters, bottles, packs.

use super::choose::{self, Item, Want};
use super::cold::{self, Draw};
use super::new_ones::{bottles, packs};
use super::types::{Assignment, CampPlan, ContainerPlan, KitchenPlan};
use crate::nouns::{
    Blend, CanisterOnHand, Container, ContainerKind, Feed, FuelKind, Kitchen, Library, Signal, Trip,
};
use crate::physics::vapour::Liquid;
use crate::units::{Fraction, Mass, say};

/// A tenth of a gram: what choices count in.
pub(super) const TENTH: Mass = Mass::grams(0.1);

/// What the kitchens were handed, in their order.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct HandedOut {
    /// For each kitchen.
    pub(crate) containers: Vec<Vec<ContainerPlan>>,
    /// How good the choice of canisters is; none without canisters on hand or kitchens for them.
    pub(crate) assignment: Option<Assignment>,
    /// What a person should know about it.
    pub(crate) notes: Vec<Note>,
}

/// A caution that the numbers raise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Note {
    /// How grave.
    pub(crate) signal: Signal,
    /// A short id.
    pub(crate) id: String,
    /// The words.
    pub(crate) text: String,
}

/// What is taken from one handing out of fuel to the next, by one kitchen.
struct Demand<'a> {
    kitchen: usize,
    leg: usize,
    of: &'a Kitchen,
    carry: Mass,
    draws: Vec<Draw>,
    blend: Blend,
    /// How it counts what a canister gives.
    counting: Counting,
    /// Added to the need when what was chosen could not be drawn.
    more: Mass,
}

/// How a demand counts what a canister gives in the cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Counting {
    /// What it gives when it is used alone, each camp taking what it needs.
    Alone,
    /// What it gives at the coldest meal.
    Coldest,
    /// All but what stays in it, whatever the cold.
    Warm,
}

pub(super) fn tenths_down(mass: Mass) -> i64 {
    (mass / TENTH + 1e-6).floor().max(0.0) as i64
}

pub(super) fn tenths_up(mass: Mass) -> i64 {
    (mass / TENTH - 1e-6).ceil().max(0.0) as i64
}

/// The containers of the catalogue that hold a kind of fuel, lightest first.
pub(super) fn sizes_for(library: &Library, fuel: FuelKind) -> Vec<&Container> {
    let mut sizes: Vec<&Container> = library
        .containers
        .values()
        .filter(|container| container.fuels.contains(&fuel))
        .collect();
    sizes.sort_by(|a, b| {
        let of = |one: &Container| one.net.in_grams() + one.capacity.in_millilitres();
        of(a).total_cmp(&of(b)).then_with(|| a.id.cmp(&b.id))
    });
    sizes
}

/// Hands out containers to every kitchen.
pub(crate) fn hand_out(
    trip: &Trip,
    library: &Library,
    kitchens: &[KitchenPlan],
    camps: &[CampPlan],
) -> HandedOut {
    let mut out = HandedOut {
        containers: vec![Vec::new(); kitchens.len()],
        ..HandedOut::default()
    };
    let mut demands = Vec::new();
    for (index, (plan, kitchen)) in kitchens.iter().zip(&trip.kitchens).enumerate() {
        for (leg, range, carry) in legs(plan, camps.len()) {
            if carry <= Mass::ZERO {
                continue;
            }
            match kitchen.fuel.kind {
                FuelKind::Canister => demands.push(Demand {
                    kitchen: index,
                    leg,
                    of: kitchen,
                    carry,
                    draws: cold::draws(trip, kitchen, &plan.rows, camps, range, carry),
                    blend: cold::new_blend(kitchen, library),
                    counting: Counting::Alone,
                    more: Mass::ZERO,
                }),
                FuelKind::Tablet => {
                    out.containers[index].extend(packs(library, kitchen, carry, leg));
                }
                FuelKind::WhiteGas | FuelKind::Kerosene | FuelKind::Alcohol => {
                    out.containers[index].extend(bottles(library, kitchen, carry, leg));
                }
            }
        }
    }
    if !demands.is_empty() {
        canisters(trip, library, demands, &mut out);
    }
    out
}

/// The legs of a kitchen: number, camps, what to take.
fn legs(plan: &KitchenPlan, camps: usize) -> Vec<(usize, std::ops::Range<usize>, Mass)> {
    if plan.fuel.legs.is_empty() {
        return vec![(0, 0..camps, plan.fuel.carry)];
    }
    plan.fuel
        .legs
        .iter()
        .enumerate()
        .map(|(number, leg)| (number, leg.from..leg.until, leg.carry))
        .collect()
}

/// A canister of the store room whose contents are known.
struct Known<'a> {
    canister: &'a CanisterOnHand,
    size: &'a Container,
    liquid: Liquid,
}

/// What a canister gives to a demand.
fn gives(demand: &Demand<'_>, liquid: &Liquid, residue: Mass) -> Mass {
    let feed = demand.of.feed;
    let all = (liquid.total() - residue).max(Mass::ZERO);
    if demand.draws.is_empty() {
        return all;
    }
    match demand.counting {
        Counting::Alone => cold::gives_alone(liquid, feed, &demand.draws, residue),
        Counting::Coldest => cold::gives_anywhere(liquid, feed, &demand.draws, residue),
        Counting::Warm => all,
    }
}

fn item(demand: &Demand<'_>, liquid: &Liquid, tare: Mass, residue: Mass) -> Item {
    let usable = tenths_down(gives(demand, liquid, residue));
    // Alone, a large canister gives no more than is asked of it: the rest is not lost to the cold.
    let all = tenths_down(liquid.total() - residue);
    let asked = tenths_up(demand.carry);
    let usable = if demand.counting == Counting::Alone && usable + 1 >= asked.min(all) {
        all
    } else {
        usable
    };
    Item {
        usable,
        waste: all - usable,
        gross: tenths_up(liquid.total() + tare),
    }
}

fn want(demand: &Demand<'_>, known: &[Known<'_>], sizes: &[&Container]) -> Want {
    let stock = known
        .iter()
        .map(|one| {
            let joins = demand
                .of
                .stove
                .connection
                .is_none_or(|at| at == one.canister.connection);
            let tare = one.canister.gross - one.liquid.total();
            joins
                .then(|| item(demand, &one.liquid, tare, one.size.residue))
                .filter(|item| item.usable > 0)
        })
        .collect();
    let sizes = sizes
        .iter()
        .map(|size| {
            let full = cold::of_blend(size.net, &demand.blend);
            item(demand, &full, size.tare, size.residue)
        })
        .collect();
    Want {
        need: tenths_up(demand.carry + demand.more).max(1),
        stock,
        sizes,
    }
}

/// The liquids that a choice hands to one demand.
fn liquids(
    demand: &Demand<'_>,
    at: usize,
    choice: &choose::Choice,
    known: &[Known<'_>],
    sizes: &[&Container],
) -> Vec<Liquid> {
    let mine = known
        .iter()
        .zip(&choice.owner)
        .filter(|(_, owner)| **owner == Some(at))
        .map(|(one, _)| one.liquid);
    let new = sizes.iter().zip(&choice.new[at]).flat_map(|(size, count)| {
        let full = cold::of_blend(size.net, &demand.blend);
        std::iter::repeat_n(full, *count as usize)
    });
    mine.chain(new).collect()
}

/// Hands out canisters, camp by camp in the cold: first as each would give alone; where that
/// cannot be drawn together, as at the coldest meal; then with what was missing on top.
fn canisters(trip: &Trip, library: &Library, mut demands: Vec<Demand<'_>>, out: &mut HandedOut) {
    const ROUNDS: usize = 8;
    let sizes = sizes_for(library, FuelKind::Canister);
    let known = known(trip, library, &demands, out);
    let residue = sizes
        .iter()
        .map(|size| size.residue)
        .fold(Mass::ZERO, Mass::max);
    let mut choice = None;
    for round in 0..ROUNDS {
        let wants: Vec<Want> = demands
            .iter()
            .map(|demand| want(demand, &known, &sizes))
            .collect();
        let Some(found) = choose::choose(&wants) else {
            // No canister gives anything to some kitchen: count without the cold, and say so.
            for (demand, want) in demands.iter_mut().zip(&wants) {
                let none = want.sizes.iter().all(|size| size.usable == 0);
                if none {
                    demand.counting = Counting::Warm;
                    demand.more = Mass::ZERO;
                }
            }
            if wants.iter().all(|want| want.sizes.is_empty()) {
                break;
            }
            continue;
        };
        let mut settled = true;
        for (at, demand) in demands.iter_mut().enumerate() {
            if demand.counting == Counting::Warm {
                continue;
            }
            let handed = liquids(demand, at, &found, &known, &sizes);
            let missing = cold::missing(&handed, demand.of.feed, &demand.draws, residue);
            if missing <= TENTH {
                continue;
            }
            settled = false;
            match demand.counting {
                Counting::Alone => demand.counting = Counting::Coldest,
                _ => demand.more += missing,
            }
            if round + 2 == ROUNDS {
                demand.counting = Counting::Warm;
                demand.more = Mass::ZERO;
            }
        }
        choice = Some((found, wants));
        if settled {
            break;
        }
    }
    let Some((choice, wants)) = choice else {
        return;
    };
    for (at, demand) in demands.iter().enumerate() {
        if demand.counting == Counting::Warm {
            out.notes.push(Note {
                signal: Signal::Warning,
                id: format!("too-cold-{}", crate::nouns::id(&demand.of.name)),
                text: format!(
                    "{}: in this cold the canisters cannot give what the trip needs, however many \
                     are taken. Keep them warm, use a richer mixture or another stove.",
                    demand.of.name
                ),
            });
        }
        let plans = plans(demand, at, &choice, &wants[at], &known, &sizes);
        out.containers[demand.kitchen].extend(plans);
    }
    if !known.is_empty() {
        let grams = |tenths: i64| TENTH * tenths as f64;
        let same_new = choice.cost.bought == choice.bound.bought;
        out.assignment = Some(Assignment {
            left_over: grams(choice.cost.left_over),
            bound: if same_new {
                grams(choice.bound.left_over)
            } else {
                Mass::ZERO
            },
            exact: same_new && choice.cost.left_over == choice.bound.left_over,
        });
    }
}

/// The canisters whose contents are known, and words on the others.
fn known<'a>(
    trip: &'a Trip,
    library: &'a Library,
    demands: &[Demand<'_>],
    out: &mut HandedOut,
) -> Vec<Known<'a>> {
    let mut known = Vec::new();
    let mut unknown = Vec::new();
    let mut strangers = Vec::new();
    for canister in &trip.canisters_on_hand {
        let Some(size) = library.containers.get(&canister.container) else {
            continue;
        };
        let joins = demands.iter().any(|demand| {
            let at = demand.of.stove.connection;
            at.is_none_or(|at| at == canister.connection)
        });
        if !joins {
            strangers.push(canister.tag.as_str());
        } else if let Some(liquid) = cold::present(canister, size, &library.figures) {
            known.push(Known {
                canister,
                size,
                liquid,
            });
        } else {
            unknown.push((canister.tag.as_str(), size));
        }
    }
    if !unknown.is_empty() {
        let tags: Vec<String> = unknown
            .iter()
            .map(|(tag, size)| {
                format!(
                    "{tag} (an empty one of {} usually weighs {} to {} g)",
                    size.name,
                    say::number((size.tare - size.tare_spread).in_grams(), 0),
                    say::number((size.tare + size.tare_spread).in_grams(), 0)
                )
            })
            .collect();
        out.notes.push(Note {
            signal: Signal::Notice,
            id: "unknown-canisters".to_owned(),
            text: format!(
                "Not handed out, because what is in them is unknown: {}. Read the empty mass off \
                 the label or weigh an empty one of the same make, and write it as `tare`.",
                tags.join("; ")
            ),
        });
    }
    if !strangers.is_empty() {
        out.notes.push(Note {
            signal: Signal::Notice,
            id: "canisters-that-do-not-join".to_owned(),
            text: format!(
                "Not handed out, because they join no stove of this trip: {}.",
                strangers.join(", ")
            ),
        });
    }
    known
}

/// One demand's canisters as the plan holds them.
fn plans(
    demand: &Demand<'_>,
    at: usize,
    choice: &choose::Choice,
    want: &Want,
    known: &[Known<'_>],
    sizes: &[&Container],
) -> Vec<ContainerPlan> {
    let mine = known
        .iter()
        .enumerate()
        .filter(|(index, _)| choice.owner[*index] == Some(at))
        .map(|(index, one)| {
            let usable = want.stock[index].map_or(0, |item| item.usable);
            ContainerPlan {
                tag: Some(one.canister.tag.clone()),
                container: one.size.id.clone(),
                name: one.size.name.clone(),
                kind: ContainerKind::Canister,
                size: one.size.net,
                net: one.liquid.total(),
                usable: TENTH * usable as f64,
                gross: one.canister.gross,
                tare: one.canister.tare,
                fill: None,
                blend: Some(cold::blend_of(&one.liquid)),
                on_hand: true,
                count: 1,
                leg: demand.leg,
            }
        });
    let new = sizes
        .iter()
        .zip(&choice.new[at])
        .zip(&want.sizes)
        .filter(|((_, count), _)| **count > 0)
        .map(|((size, count), item)| ContainerPlan {
            tag: None,
            container: size.id.clone(),
            name: size.name.clone(),
            kind: ContainerKind::Canister,
            size: size.net,
            net: size.net,
            usable: TENTH * item.usable as f64,
            gross: size.net + size.tare,
            tare: Some(size.tare),
            fill: None,
            blend: Some(demand.blend),
            on_hand: false,
            count: *count,
            leg: demand.leg,
        });
    mine.chain(new).collect()
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
