//! Canisters in the cold: what is in one, how cold it gets, what can still be drawn.

use super::drawn::{CanisterCurve, CanisterCurves};
use super::types::{CampPlan, ColdRow, ContainerPlan, KitchenPlan, Row};
use crate::nouns::{
    Blend, Camp, CanisterOnHand, Container, ContainerKind, Feed, Figures, FuelKind, Kitchen,
    Library, Meal, Stove, Trip,
};
use crate::physics::canister::{drawn_rayleigh, left_when_pressure_falls_to, self_cooling};
use crate::physics::fuel::fuel_burnt;
use crate::physics::vapour::{Liquid, bubble_pressure_raoult};
use crate::units::{Fraction, HeatingValue, Mass, Pressure, Temperature, Time, Warming};
use std::cmp::Ordering;

/// A burn that would cool the fuel below this will not work, if the fuel is at freezing already.
pub(super) const TOO_COLD: Temperature = Temperature::celsius(-40.0);

/// Above it, air and burner do warm a canister that cools: the bound alone says weak, not no.
const FREEZING: Temperature = Temperature::celsius(0.0);

/// Nothing is colder.
const ABSOLUTE_ZERO: Temperature = Temperature::kelvin(0.0);

/// A canister with what is in it now.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Gas {
    /// Its tag; none for a new one.
    pub(crate) tag: Option<String>,
    /// What is in it.
    pub(crate) liquid: Liquid,
    /// Empty mass.
    pub(crate) tare: Mass,
}

/// A net mass of a blend.
pub(crate) fn of_blend(net: Mass, blend: &Blend) -> Liquid {
    Liquid::of(net, blend.propane, blend.isobutane, blend.butane)
}

/// The composition of a liquid.
pub(crate) fn blend_of(liquid: &Liquid) -> Blend {
    use crate::physics::vapour::Component;
    Blend {
        propane: liquid.mass_fraction(Component::Propane),
        isobutane: liquid.mass_fraction(Component::Isobutane),
        butane: liquid.mass_fraction(Component::Butane),
    }
}

/// What is in a canister of the store room now: as stated, or what is left after drawing it down
/// from full as vapour at a mild temperature. None where its tare is not known.
pub(crate) fn present(
    canister: &CanisterOnHand,
    container: &Container,
    figures: &Figures,
) -> Option<Liquid> {
    let net = canister.net()?.max(Mass::ZERO);
    if let Some(blend) = &canister.present {
        return Some(of_blend(net, blend));
    }
    let full = of_blend(container.net.max(net), &canister.blend);
    Some(drawn_rayleigh(&full, net, figures.drawn_at.value))
}

/// The blend of a kitchen's new canisters: stated, its fuel when that is one gas, or unknown.
pub(crate) fn new_blend(kitchen: &Kitchen, library: &Library) -> Blend {
    let pure = |gas: &str| {
        let share = Fraction::of_one(f64::from(u8::from(kitchen.fuel.id == gas)));
        (share > Fraction::ZERO).then_some(share)
    };
    let none = Fraction::ZERO;
    let (propane, isobutane, butane) = (pure("propane"), pure("isobutane"), pure("n-butane"));
    if let Some(stated) = kitchen.blend {
        stated
    } else if propane.or(isobutane).or(butane).is_some() {
        Blend {
            propane: propane.unwrap_or(none),
            isobutane: isobutane.unwrap_or(none),
            butane: butane.unwrap_or(none),
        }
    } else {
        library.figures.unknown_blend.value
    }
}

/// Where and how a meal draws on a canister.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Burn {
    /// The fuel when the stove is lit.
    start: Temperature,
    /// Whether the fuel is kept at that temperature.
    kept: bool,
    ambient: Pressure,
    flame: Time,
}

impl Burn {
    fn of(camp: &Camp, air: &CampPlan, row: &Row) -> Self {
        Self {
            start: camp
                .fuel_temperature
                .unwrap_or_else(|| air_at(camp, row.meal)),
            kept: camp.fuel_temperature.is_some(),
            ambient: air.pressure,
            flame: row.flame,
        }
    }
}

/// The air when a meal is cooked.
fn air_at(camp: &Camp, meal: Meal) -> Temperature {
    if meal == Meal::Breakfast {
        camp.night
    } else {
        camp.day
    }
}

/// What a burn does to a canister.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Burnt {
    end: Temperature,
    gauge_start: Pressure,
    gauge_low: Pressure,
    usable: Fraction,
}

/// Gauge pressure over a liquid; below the correlations' range it has none of its own.
fn gauge(liquid: &Liquid, t: Temperature, ambient: Pressure) -> Pressure {
    bubble_pressure_raoult(liquid, t).unwrap_or(Pressure::ZERO) - ambient
}

/// Share of what is there that can be drawn at a temperature.
fn usable_at(liquid: &Liquid, feed: Feed, t: Temperature, floor: Pressure) -> Fraction {
    let one = Fraction::of_one(1.0);
    match feed {
        Feed::Vapour => one - left_when_pressure_falls_to(liquid, t, floor),
        // The composition stays, and so does the pressure, to the last of it.
        Feed::Liquid => match bubble_pressure_raoult(liquid, t) {
            Some(pressure) if pressure > floor => one,
            _ => Fraction::ZERO,
        },
    }
}

fn burn(
    gas: &Gas,
    burn: &Burn,
    stove: &Stove,
    feed: Feed,
    value: HeatingValue,
    figures: &Figures,
) -> Burnt {
    let cooling = if burn.kept || feed == Feed::Liquid {
        // Liquid feed evaporates in the burner's loop, not in the canister.
        Warming::ZERO
    } else {
        self_cooling(
            gas.liquid.total(),
            gas.tare,
            fuel_burnt(stove.power, burn.flame, value),
            figures.gas_latent.value,
            figures.gas_heat.value,
            figures.steel_heat.value,
        )
    };
    let end = (burn.start - cooling).max(ABSOLUTE_ZERO);
    Burnt {
        end,
        gauge_start: gauge(&gas.liquid, burn.start, burn.ambient),
        gauge_low: gauge(&gas.liquid, end, burn.ambient),
        usable: usable_at(&gas.liquid, feed, end, burn.ambient + stove.least_gauge),
    }
}

/// Whether it works, and what follows if not: words that begin with the verdict.
fn verdict(burnt: &Burnt, burn: &Burn, stove: &Stove, feed: Feed) -> (bool, String) {
    let least = stove.least_gauge;
    if burnt.gauge_start >= least && burnt.gauge_low >= least && burnt.end >= TOO_COLD {
        return (true, String::new());
    }
    let warm = "keep the canister warm before the meal (inside a jacket or sleeping bag, off the \
                stove, valve closed, cap on) and stand it in a pan of body-warm water 1 to 2 cm \
                deep while it burns, never hotter and never near a flame";
    let liquid = if stove.liquid_feed && feed == Feed::Vapour {
        "; this stove is made for liquid feed: with the maker's instructions, light it upright and \
         turn the canister over once the loop is hot"
    } else {
        ""
    };
    let richer =
        "; or take a fuller canister with more propane or isobutane, or a liquid-fuel stove";
    let words = if burnt.gauge_start < least {
        let now = if burn.kept {
            "even at the stated fuel temperature the canister has too little pressure"
        } else {
            "the canister has too little pressure from the start"
        };
        format!("will not work: {now}; {warm}{liquid}{richer}")
    } else if burnt.end < TOO_COLD && burn.start <= FREEZING {
        format!(
            "will not work: drawing this much at once cools so little fuel too far; take a fuller \
             canister or cook in smaller batches; {warm}{liquid}{richer}"
        )
    } else {
        format!(
            "weak: it starts, but if nothing warms it, it cools as it burns until the pressure is \
             too low; cook in smaller batches or change to a second canister when the flame sinks; \
             {warm}{liquid}"
        )
    };
    (false, words)
}

impl ColdRow {
    /// `works`, `weak` or `will not work`.
    #[must_use]
    pub fn verdict(&self) -> &str {
        if self.works {
            "works"
        } else {
            self.advice.split(':').next().unwrap_or("weak")
        }
    }
}

/// The canisters that a kitchen was handed; none in hand: a full 230 g of its blend.
fn in_hand(kitchen: &Kitchen, library: &Library, containers: &[ContainerPlan]) -> Vec<Gas> {
    let blend = new_blend(kitchen, library);
    let of_handed = |one: &ContainerPlan| Gas {
        tag: one.tag.clone(),
        liquid: of_blend(one.net, one.blend.as_ref().unwrap_or(&blend)),
        tare: one.tare.unwrap_or(one.gross - one.net),
    };
    let canisters = containers
        .iter()
        .filter(|one| one.kind == ContainerKind::Canister);
    if canisters.clone().any(|one| one.on_hand) {
        return canisters.map(of_handed).collect();
    }
    usual_size(library)
        .map(|size| Gas {
            tag: None,
            liquid: of_blend(size.net, &blend),
            tare: size.tare,
        })
        .into_iter()
        .collect()
}

/// The canister of 230 g, or the one nearest to it.
pub(crate) fn usual_size(library: &Library) -> Option<&Container> {
    let off = |container: &Container| (container.net.in_grams() - 230.0).abs();
    library
        .containers
        .values()
        .filter(|container| container.kind == ContainerKind::Canister)
        .min_by(|a, b| off(a).total_cmp(&off(b)))
}

/// The suppers and breakfasts that burn.
fn burns<'a>(trip: &Trip, plan: &'a KitchenPlan, camps: &[CampPlan]) -> Vec<(&'a Row, Burn)> {
    plan.rows
        .iter()
        .filter(|row| matches!(row.meal, Meal::Supper | Meal::Breakfast) && row.times > 0)
        .map(|row| {
            let (camp, air) = (&trip.camps[row.camp], &camps[row.camp]);
            (row, Burn::of(camp, air, row))
        })
        .collect()
}

/// The canister that has the least pressure at the start of any of these.
fn weakest<'a>(canisters: &'a [Gas], burns: &[(&Row, Burn)]) -> Option<&'a Gas> {
    let weakest_start = |gas: &Gas| {
        burns
            .iter()
            .map(|(_, burn)| gauge(&gas.liquid, burn.start, burn.ambient).in_pascals())
            .fold(f64::INFINITY, f64::min)
    };
    canisters
        .iter()
        .min_by(|a, b| weakest_start(a).total_cmp(&weakest_start(b)))
}

/// Steps from what is in a canister now down to nearly nothing.
const CURVE_STEPS: u32 = 20;

/// Pressure against fuel left at each camp's coldest meal, for the chart: of the same canister
/// as [`rows`], drawn down at that meal's temperature and not cooled by the burn itself.
pub(crate) fn curves(
    trip: &Trip,
    library: &Library,
    kitchen: &Kitchen,
    plan: &KitchenPlan,
    camps: &[CampPlan],
) -> Option<CanisterCurves> {
    if kitchen.fuel.kind != FuelKind::Canister {
        return None;
    }
    let burns = burns(trip, plan, camps);
    let canisters = in_hand(kitchen, library, &plan.containers);
    let gas = weakest(&canisters, &burns)?;
    let net = gas.liquid.total();
    let mut curves: Vec<CanisterCurve> = Vec::new();
    for (row, burn) in &burns {
        let points = (1..=CURVE_STEPS)
            .rev()
            .map(|step| {
                let left = net * (f64::from(step) / f64::from(CURVE_STEPS));
                let liquid = match kitchen.feed {
                    Feed::Vapour => drawn_rayleigh(&gas.liquid, left, burn.start),
                    Feed::Liquid => of_blend(left, &blend_of(&gas.liquid)),
                };
                (left, gauge(&liquid, burn.start, burn.ambient))
            })
            .collect();
        let curve = CanisterCurve {
            camp: row.camp,
            meal: row.meal,
            fuel_temperature: burn.start,
            points,
        };
        match curves.iter_mut().find(|one| one.camp == row.camp) {
            Some(one) if burn.start < one.fuel_temperature => *one = curve,
            Some(_) => {}
            None => curves.push(curve),
        }
    }
    Some(CanisterCurves {
        tag: gas.tag.clone(),
        least: kitchen.stove.least_gauge,
        curves,
    })
}

/// A kitchen's canister at each supper and breakfast that burns: the one among its canisters
/// that has the least pressure at the start.
pub(crate) fn rows(
    trip: &Trip,
    library: &Library,
    kitchen: &Kitchen,
    plan: &KitchenPlan,
    camps: &[CampPlan],
) -> Vec<ColdRow> {
    if kitchen.fuel.kind != FuelKind::Canister {
        return Vec::new();
    }
    let burns = burns(trip, plan, camps);
    let canisters = in_hand(kitchen, library, &plan.containers);
    let Some(gas) = weakest(&canisters, &burns) else {
        return Vec::new();
    };
    burns
        .iter()
        .map(|(row, one)| {
            let (stove, feed) = (&kitchen.stove, kitchen.feed);
            let burnt = burn(
                gas,
                one,
                stove,
                feed,
                plan.fuel.heating_value,
                &library.figures,
            );
            let (works, advice) = verdict(&burnt, one, stove, feed);
            ColdRow {
                camp: row.camp,
                meal: row.meal,
                tag: gas.tag.clone(),
                fuel_temperature: burnt.end,
                gauge_start: burnt.gauge_start,
                gauge_low: burnt.gauge_low,
                usable: burnt.usable,
                works,
                advice,
            }
        })
        .collect()
}

/// What is drawn at one temperature of one camp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Draw {
    /// The fuel, not cooled by drawing: that bound would leave a third of every canister unused.
    at: Temperature,
    /// Ambient and least working pressure.
    floor: Pressure,
    /// How much.
    need: Mass,
}

/// What a kitchen draws from one camp to another, in order, so that it adds up to what it takes.
pub(crate) fn draws(
    trip: &Trip,
    kitchen: &Kitchen,
    rows: &[Row],
    camps: &[CampPlan],
    leg: std::ops::Range<usize>,
    carry: Mass,
) -> Vec<Draw> {
    let mut draws: Vec<Draw> = Vec::new();
    for index in leg {
        let (camp, air) = (&trip.camps[index], &camps[index]);
        for night in [false, true] {
            let need: Mass = rows
                .iter()
                .filter(|row| row.camp == index && (row.meal == Meal::Breakfast) == night)
                .map(|row| row.fuel * f64::from(row.times))
                .sum();
            if need > Mass::ZERO {
                let meal = if night { Meal::Breakfast } else { Meal::Supper };
                draws.push(Draw {
                    at: camp.fuel_temperature.unwrap_or_else(|| air_at(camp, meal)),
                    floor: air.pressure + kitchen.stove.least_gauge,
                    need,
                });
            }
        }
    }
    let sum: Mass = draws.iter().map(|draw| draw.need).sum();
    if sum > Mass::ZERO {
        for draw in &mut draws {
            draw.need = draw.need * (carry / sum);
        }
    }
    draws
}

/// How much of a liquid can be drawn here, with what stays in any canister left alone.
fn drawable(liquid: &Liquid, feed: Feed, draw: &Draw, residue: Mass) -> Mass {
    let total = liquid.total();
    let by_pressure = total * usable_at(liquid, feed, draw.at, draw.floor).in_one();
    by_pressure.min(total - residue).max(Mass::ZERO)
}

/// What is left after drawing.
fn drawn(liquid: &Liquid, feed: Feed, draw: &Draw, mass: Mass) -> Liquid {
    let left = (liquid.total() - mass).max(Mass::ZERO);
    match feed {
        Feed::Vapour => drawn_rayleigh(liquid, left, draw.at),
        Feed::Liquid => of_blend(left, &blend_of(liquid)),
    }
}

/// What one canister alone gives to a chain of draws, each camp taking what it needs.
pub(crate) fn gives_alone(liquid: &Liquid, feed: Feed, draws: &[Draw], residue: Mass) -> Mass {
    let mut liquid = *liquid;
    let mut given = Mass::ZERO;
    for draw in draws {
        let mass = draw.need.min(drawable(&liquid, feed, draw, residue));
        if mass > Mass::ZERO {
            liquid = drawn(&liquid, feed, draw, mass);
            given += mass;
        }
    }
    given
}

/// What one canister gives wherever it is used: the least of all draws.
pub(crate) fn gives_anywhere(liquid: &Liquid, feed: Feed, draws: &[Draw], residue: Mass) -> Mass {
    draws
        .iter()
        .map(|draw| drawable(liquid, feed, draw, residue))
        .reduce(Mass::min)
        .unwrap_or_else(|| (liquid.total() - residue).max(Mass::ZERO))
}

/// What is missing when canisters serve a chain of draws, the weakest that still works first:
/// the part-used one in the warm, the full one in the cold.
pub(crate) fn missing(liquids: &[Liquid], feed: Feed, draws: &[Draw], residue: Mass) -> Mass {
    let mut liquids = liquids.to_vec();
    let mut missing = Mass::ZERO;
    for draw in draws {
        let mut need = draw.need;
        let pressure = |liquid: &Liquid| {
            bubble_pressure_raoult(liquid, draw.at).map_or(0.0, Pressure::in_pascals)
        };
        liquids.sort_by(|a, b| {
            pressure(a)
                .partial_cmp(&pressure(b))
                .unwrap_or(Ordering::Equal)
        });
        for liquid in &mut liquids {
            let mass = need.min(drawable(liquid, feed, draw, residue));
            if mass > Mass::ZERO {
                *liquid = drawn(liquid, feed, draw, mass);
                need = need - mass;
            }
        }
        missing += need.max(Mass::ZERO);
    }
    missing
}

#[cfg(test)]
mod tests {
    use super::*;

    fn blend(propane: f64, isobutane: f64, butane: f64) -> Blend {
        Blend {
            propane: Fraction::percent(propane),
            isobutane: Fraction::percent(isobutane),
            butane: Fraction::percent(butane),
        }
    }

    fn draw(celsius: f64, grams: f64) -> Draw {
        Draw {
            at: Temperature::celsius(celsius),
            floor: Pressure::kilopascals(121.325),
            need: Mass::grams(grams),
        }
    }

    /// `depletion_crossing.csv`: isothermal Rayleigh draw-off with pure pressures of reference
    /// equations of state (CoolProp: Lemmon 2009, Buecker and Wagner 2006), US Standard
    /// Atmosphere 1976. Within 0.01 of the fraction left.
    #[test]
    fn what_can_be_drawn_is_what_the_reference_draws() {
        let table = include_str!("../../tests/reference/depletion_crossing.csv");
        let mut checked = 0;
        for line in table.lines().filter(|line| line.starts_with("propane")) {
            let cells: Vec<&str> = line.split(',').collect();
            let (gases, shares) = cells[0].rsplit_once(' ').unwrap();
            let shares: Vec<f64> = shares.split('/').map(|one| one.parse().unwrap()).collect();
            let share = |gas: &str| {
                let at = gases.split('/').position(|one| one == gas);
                at.map_or(0.0, |at| shares[at])
            };
            let blend = blend(share("propane"), share("isobutane"), share("n-butane"));
            let number = |at: usize| cells[at].parse::<f64>();
            let t = Temperature::celsius(number(1).unwrap());
            let floor = Pressure::pascals(number(3).unwrap());
            let usable = usable_at(
                &of_blend(Mass::grams(230.0), &blend),
                Feed::Vapour,
                t,
                floor,
            );
            let left = if cells[6] == "crosses" {
                number(7).unwrap()
            } else {
                0.0
            };
            assert!(
                (1.0 - usable.in_one() - left).abs() < 0.01,
                "{line}: {usable:?}"
            );
            checked += 1;
        }
        assert!(checked >= 48);
    }

    #[test]
    fn the_weak_canister_goes_to_the_warm_and_the_full_one_to_the_cold() {
        let full = of_blend(Mass::grams(230.0), &blend(30.0, 0.0, 70.0));
        let half = drawn_rayleigh(&full, Mass::grams(115.0), Temperature::celsius(10.0));
        let (warm, cold) = (draw(12.0, 105.0), draw(-6.0, 70.0));
        let residue = Mass::grams(4.0);
        let both = [full, half];
        assert_eq!(
            missing(&both, Feed::Vapour, &[warm, cold], residue),
            Mass::ZERO
        );
        // Two half-drawn ones have nothing for the cold camp.
        let short = missing(&[half, half], Feed::Vapour, &[warm, cold], residue);
        assert!(short.in_grams() > 60.0, "{short:?}");
        // Turned over they keep their composition, but at -6 C that is too weak all the same.
        let none = gives_anywhere(&half, Feed::Liquid, &[cold], residue);
        assert_eq!(none, Mass::ZERO);
        let all = gives_anywhere(&full, Feed::Liquid, &[cold], residue);
        assert!((all.in_grams() - 226.0).abs() < 1e-6);
    }

    #[test]
    fn alone_a_canister_gives_no_more_than_it_has() {
        let full = of_blend(Mass::grams(100.0), &blend(30.0, 70.0, 0.0));
        let chain = [draw(10.0, 60.0), draw(5.0, 60.0)];
        let given = gives_alone(&full, Feed::Vapour, &chain, Mass::grams(4.0));
        assert!((given.in_grams() - 96.0).abs() < 1e-6, "{given:?}");
    }
}
