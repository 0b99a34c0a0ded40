//! Which canisters each kitchen is handed: those of the store room first, topped up by the lightest
//! mix of new ones, so that every meal that can be cooked is cooked with what is left by then.

use super::burning::Leg;
use super::cans::{Can, Shell};
use super::choose::{self, Cost, Item, Mixes, Want};
use super::cold::{self, Draw};
use super::given_out::{HandedOut, Note, TENTH, sizes_for, tenths_down, tenths_up};
use super::types::{Assignment, ContainerPlan};
use crate::nouns::{
    Blend, CanisterOnHand, Container, ContainerKind, FuelKind, Kitchen, Library, Signal, Trip,
};
use crate::phrase::phrase;
use crate::physics::vapour::Liquid;
use crate::units::{Mass, say};
use std::collections::{BTreeMap, BTreeSet};

/// What is taken from one handing out of fuel to the next, by one kitchen.
pub(super) struct Demand<'a> {
    pub(super) kitchen: usize,
    pub(super) leg: usize,
    pub(super) of: &'a Kitchen,
    pub(super) carry: Mass,
    /// Part-used canisters that it is given at most.
    pub(super) part_used_at_most: usize,
    pub(super) draws: Vec<Draw>,
    /// The meals that it burns for.
    pub(super) burns: Leg<'a>,
    pub(super) blend: Blend,
}

/// A canister of the store room whose contents are known.
struct Known<'a> {
    canister: &'a CanisterOnHand,
    size: &'a Container,
    net: Mass,
    blend: Blend,
    /// The net mass of the blend, as whoever reads the plan makes it again: to the last bit.
    liquid: Liquid,
}

impl Known<'_> {
    fn tare(&self) -> Mass {
        let tare = self.canister.tare;
        tare.unwrap_or(self.canister.gross - self.net)
    }

    /// Whether some of it was burnt before.
    fn part_used(&self) -> bool {
        !self.size.is_full(self.liquid.total())
    }
}

/// A demand with what is counted for it.
struct Counted<'a> {
    demand: Demand<'a>,
    want: Want,
    mixes: Mixes,
    /// Rows that not even a full new canister does: more of them would not help.
    hopeless: BTreeSet<usize>,
    /// Whether no canister at all gives anything in this cold: it is counted as if it were warm.
    too_cold: bool,
}

/// What some canisters of the store room are topped up with.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Filled {
    /// Whether some meal cannot be cooked with them.
    short: bool,
    cost: Cost,
    new: Vec<u32>,
}

/// The most ways to share the store room out that are all tried: six canisters, three kitchens.
const MOST_WAYS: usize = 4096;

/// How often new canisters are added so that every meal can be cooked.
const TOP_UPS: usize = 6;

fn item(demand: &Demand<'_>, liquid: &Liquid, tare: Mass, residue: Mass, warm: bool) -> Item {
    let all = tenths_down((liquid.total() - residue).max(Mass::ZERO));
    let given = if warm || demand.draws.is_empty() {
        all
    } else {
        tenths_down(cold::gives_alone(
            liquid,
            demand.of.feed,
            &demand.draws,
            residue,
        ))
    };
    // Alone, a large canister gives no more than is asked of it: the rest is not lost to the cold.
    let usable = if given + 1 >= tenths_up(demand.carry).min(all) {
        all
    } else {
        given
    };
    Item {
        usable,
        waste: all - usable,
        gross: tenths_up(liquid.total() + tare),
        part_used: false,
    }
}

fn want(demand: &Demand<'_>, known: &[Known<'_>], sizes: &[&Container], warm: bool) -> Want {
    let stock = known
        .iter()
        .map(|one| {
            let joins = demand
                .of
                .stove
                .connection
                .is_none_or(|at| at == one.canister.connection);
            joins
                .then(|| Item {
                    part_used: one.part_used(),
                    ..item(demand, &one.liquid, one.tare(), one.size.residue, warm)
                })
                .filter(|item| item.usable > 0)
        })
        .collect();
    let sizes = sizes
        .iter()
        .map(|size| {
            let full = cold::of_blend(size.net, &demand.blend);
            item(demand, &full, size.tare, size.residue, warm)
        })
        .collect();
    Want {
        need: tenths_up(demand.carry).max(1),
        stock,
        sizes,
        most: demand.part_used_at_most,
    }
}

fn can(liquid: Liquid, tare: Mass, size: &Container, count: u32) -> Can {
    Can {
        liquid,
        tare,
        container: 0,
        number: 1,
        alike: count.saturating_sub(1),
        fresh: true,
        shell: Shell::of(size),
    }
}

impl<'a> Counted<'a> {
    fn new(demand: Demand<'a>, known: &[Known<'_>], sizes: &[&Container]) -> Self {
        let mut want_of = want(&demand, known, sizes, false);
        let too_cold = want_of.sizes.iter().all(|size| size.usable == 0);
        if too_cold {
            want_of = want(&demand, known, sizes, true);
        }
        let hopeless = match sizes.last() {
            Some(size) => demand.burns.not_done_by(&can(
                cold::of_blend(size.net, &demand.blend),
                size.tare,
                size,
                1,
            )),
            None => BTreeSet::new(),
        };
        let largest = want_of.sizes.iter().map(|size| size.usable).max();
        let most = want_of.need + largest.unwrap_or(0) * TOP_UPS as i64;
        Self {
            mixes: Mixes::new(&want_of.sizes, most),
            want: want_of,
            demand,
            hopeless,
            too_cold,
        }
    }

    /// Whether so many part-used ones may go to it.
    fn may_have(&self, mine: &[usize]) -> bool {
        let items = mine.iter().filter_map(|index| self.want.stock[*index]);
        items.filter(|item| item.part_used).count() <= self.want.most
    }

    fn usable(&self, mine: &[usize]) -> i64 {
        let items = mine.iter().filter_map(|index| self.want.stock[*index]);
        items.map(|item| item.usable).sum()
    }

    /// What some canisters cost at least: topped up so far as the sums ask.
    fn least(&self, mine: &[usize]) -> Option<Cost> {
        self.cost(mine, self.want.need - self.usable(mine))
    }

    /// The cost of some canisters and of new ones for what is missing.
    fn cost(&self, mine: &[usize], missing: i64) -> Option<Cost> {
        let new = if missing > 0 {
            self.mixes.cost(missing)?
        } else {
            Cost::default()
        };
        let items = || mine.iter().filter_map(|index| self.want.stock[*index]);
        let held: i64 = items().map(|item| item.usable + item.waste).sum();
        // what is left of the new ones is counted from what is missing in the sums
        let asked = (self.want.need - self.usable(mine)).max(0);
        let extra = (missing - asked).max(0);
        let over = held - (self.want.need - asked);
        Some(Cost {
            bought: new.bought,
            left_over: over + new.left_over + extra,
            gross: items().map(|item| item.gross).sum::<i64>() + new.gross,
        })
    }

    /// Some canisters of the store room, topped up until every meal can be cooked that any canister
    /// could do.
    fn filled(&self, mine: &[usize], known: &[Known<'_>], sizes: &[&Container]) -> Option<Filled> {
        let mut missing = self.want.need - self.usable(mine);
        let mut first: Option<Filled> = None;
        for _ in 0..TOP_UPS {
            let Some(cost) = self.cost(mine, missing) else {
                break;
            };
            let new = self.mixes.counts(missing);
            let filled = Filled {
                short: !self.does(mine, &new, known, sizes),
                cost,
                new,
            };
            if !filled.short {
                return Some(filled);
            }
            let held = self.want.sizes.iter().zip(&filled.new);
            let held: i64 = held
                .map(|(size, count)| size.usable * i64::from(*count))
                .sum();
            missing = held.max(missing.max(0)) + 1;
            first.get_or_insert(filled);
        }
        first
    }

    /// Whether every meal that is not hopeless is cooked with these.
    fn does(&self, mine: &[usize], new: &[u32], known: &[Known<'_>], sizes: &[&Container]) -> bool {
        if self.too_cold {
            return true;
        }
        let on_hand = mine
            .iter()
            .map(|index| &known[*index])
            .map(|one| can(one.liquid, one.tare(), one.size, 1));
        let counts = sizes.iter().zip(new).filter(|(_, count)| **count > 0);
        let bought = counts.map(|(size, count)| {
            let full = cold::of_blend(size.net, &self.demand.blend);
            can(full, size.tare, size, *count)
        });
        let mut cans: Vec<Can> = on_hand.chain(bought).collect();
        self.demand.burns.does(&mut cans, &self.hopeless)
    }
}

/// Who gets which canister of the store room, and what each is topped up with.
struct Shared {
    owner: Vec<Option<usize>>,
    filled: Vec<Filled>,
    /// No way of sharing out leaves less, where that is known.
    bound: Option<Cost>,
}

fn of_owner(owner: &[Option<usize>], at: usize) -> Vec<usize> {
    (0..owner.len())
        .filter(|index| owner[*index] == Some(at))
        .collect()
}

/// Tries every way of sharing out a small store room, the least costly first.
fn every_way(counted: &[Counted<'_>], known: &[Known<'_>], sizes: &[&Container]) -> Option<Shared> {
    let (wants, canisters) = (counted.len(), known.len());
    let exponent = u32::try_from(canisters).ok()?;
    let ways = (wants + 1)
        .checked_pow(exponent)
        .filter(|ways| *ways <= MOST_WAYS)?;
    let owners = |way: usize| -> Vec<Option<usize>> {
        let mut rest = way;
        (0..canisters)
            .map(|_| {
                let owner = rest % (wants + 1);
                rest /= wants + 1;
                (owner < wants).then_some(owner)
            })
            .collect()
    };
    let mut found: Vec<(Cost, usize)> = (0..ways)
        .filter_map(|way| {
            let owner = owners(way);
            let fits = owner.iter().enumerate().all(|(index, owner)| {
                owner.is_none_or(|at| counted[at].want.stock[index].is_some())
            });
            let mut sum = Cost::default();
            for (at, one) in counted.iter().enumerate().filter(|_| fits) {
                let mine = of_owner(&owner, at);
                sum = sum + one.may_have(&mine).then(|| one.least(&mine))??;
            }
            fits.then_some((sum, way))
        })
        .collect();
    found.sort_unstable();
    let mut known_fillings: BTreeMap<(usize, Vec<usize>), Option<Filled>> = BTreeMap::new();
    let mut best: Option<(bool, Cost, Shared)> = None;
    for (least, way) in found {
        if best
            .as_ref()
            .is_some_and(|(short, cost, _)| !short && *cost <= least)
        {
            break;
        }
        let owner = owners(way);
        let mut filled = Vec::with_capacity(wants);
        for (at, one) in counted.iter().enumerate() {
            let mine = of_owner(&owner, at);
            let filling = known_fillings
                .entry((at, mine))
                .or_insert_with_key(|(_, mine)| one.filled(mine, known, sizes));
            filled.extend(filling.clone());
        }
        if filled.len() < wants {
            continue;
        }
        let short = filled.iter().any(|one| one.short);
        let cost = sum(&filled);
        if best
            .as_ref()
            .is_none_or(|(was, least, _)| (short, cost) < (*was, *least))
        {
            let bound = Some(cost);
            best = Some((
                short,
                cost,
                Shared {
                    owner,
                    filled,
                    bound,
                },
            ));
        }
    }
    best.map(|(_, _, shared)| shared)
}

fn sum(filled: &[Filled]) -> Cost {
    filled
        .iter()
        .fold(Cost::default(), |sum, one| sum + one.cost)
}

/// Shares out a large store room: by what each canister gives, then topped up.
fn good_way(counted: &[Counted<'_>], known: &[Known<'_>], sizes: &[&Container]) -> Option<Shared> {
    let wants: Vec<Want> = counted.iter().map(|one| one.want.clone()).collect();
    let choice = choose::choose(&wants)?;
    let filled: Option<Vec<Filled>> = counted
        .iter()
        .enumerate()
        .map(|(at, one)| one.filled(&of_owner(&choice.owner, at), known, sizes))
        .collect();
    Some(Shared {
        owner: choice.owner,
        filled: filled?,
        bound: Some(choice.bound),
    })
}

/// Hands out canisters.
pub(super) fn hand_out(
    trip: &Trip,
    library: &Library,
    demands: Vec<Demand<'_>>,
    out: &mut HandedOut,
) {
    let sizes = sizes_for(library, FuelKind::Canister);
    let known = known(trip, library, &demands, out);
    let counted: Vec<Counted<'_>> = demands
        .into_iter()
        .map(|demand| Counted::new(demand, &known, &sizes))
        .collect();
    let Some(shared) =
        every_way(&counted, &known, &sizes).or_else(|| good_way(&counted, &known, &sizes))
    else {
        return;
    };
    for (at, one) in counted.iter().enumerate() {
        if one.too_cold {
            out.notes.push(Note {
                signal: Signal::Warning,
                id: format!("too-cold-{}", crate::nouns::id(&one.demand.of.name)),
                says: phrase!("caution-too-cold", kitchen = one.demand.of.name),
            });
        }
        let plans = plans(one, at, &shared, &known, &sizes);
        out.containers[one.demand.kitchen].extend(plans);
    }
    if !known.is_empty() {
        let grams = |tenths: i64| TENTH * tenths as f64;
        let cost = sum(&shared.filled);
        let bound = shared
            .bound
            .filter(|bound| bound.bought == cost.bought)
            .map(|bound| bound.left_over);
        out.assignment = Some(Assignment {
            left_over: grams(cost.left_over),
            bound: grams(bound.unwrap_or(0)),
            exact: bound == Some(cost.left_over),
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
            let (net, blend) = (liquid.total(), cold::blend_of(&liquid));
            known.push(Known {
                canister,
                size,
                net,
                blend,
                liquid: cold::of_blend(net, &blend),
            });
        } else {
            unknown.push((canister.tag.as_str(), size));
        }
    }
    if !unknown.is_empty() {
        let tags = unknown.iter().map(|(tag, size)| {
            phrase!(
                "unknown-canister",
                tag = tag,
                size = size.name,
                low = say::plain((size.tare - size.tare_spread).in_grams(), 0),
                high = say::plain((size.tare + size.tare_spread).in_grams(), 0)
            )
        });
        let tags = tags.reduce(|some, more| phrase!("unknown-and", some = some, more = more));
        out.notes.push(Note {
            signal: Signal::Notice,
            id: "unknown-canisters".to_owned(),
            says: phrase!("caution-unknown-canisters", tags = tags.unwrap_or_default()),
        });
    }
    if !strangers.is_empty() {
        out.notes.push(Note {
            signal: Signal::Notice,
            id: "canisters-that-do-not-join".to_owned(),
            says: phrase!("caution-strange-canisters", tags = strangers.join(", ")),
        });
    }
    known
}

/// One demand's canisters as the plan holds them.
fn plans(
    one: &Counted<'_>,
    at: usize,
    shared: &Shared,
    known: &[Known<'_>],
    sizes: &[&Container],
) -> Vec<ContainerPlan> {
    let (demand, want) = (&one.demand, &one.want);
    let mine = of_owner(&shared.owner, at).into_iter().map(|index| {
        let usable = want.stock[index].map_or(0, |item| item.usable);
        let one = &known[index];
        ContainerPlan {
            tag: Some(one.canister.tag.clone()),
            container: one.size.id.clone(),
            name: one.size.name.clone(),
            kind: ContainerKind::Canister,
            size: one.size.net,
            net: one.net,
            usable: TENTH * usable as f64,
            gross: one.canister.gross,
            tare: one.canister.tare,
            fill: None,
            blend: Some(one.blend),
            on_hand: true,
            count: 1,
            leg: demand.leg,
        }
    });
    let new = sizes
        .iter()
        .zip(&shared.filled[at].new)
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
