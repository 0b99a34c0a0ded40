//! Canisters in the cold: what is in one, how it does at each meal, what can still be drawn.

use super::burning::{Burns, Judged, Leg, start_at};
use super::cans::{Can, Shell};
use super::outline::{CanisterCurve, CanisterCurves, Through};
use super::types::{CampPlan, ColdRow, ContainerPlan, KitchenPlan, Row};
use crate::nouns::{
    Blend, CanisterOnHand, Container, ContainerKind, Feed, Figures, FuelKind, Kitchen, Library,
    Meal, Trip, Verdict,
};
use crate::physics::canister::{drawn_rayleigh, left_when_pressure_falls_to};
use crate::physics::vapour::{Liquid, bubble_pressure_raoult};
use crate::units::{Fraction, Mass, Power, Pressure, Temperature};
use std::collections::BTreeMap;
use std::ops::Range;

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

/// The canister of 230 g, or the one nearest to it.
pub(crate) fn usual_size(library: &Library) -> Option<&Container> {
    let off = |container: &Container| (container.net.in_grams() - 230.0).abs();
    library
        .containers
        .values()
        .filter(|container| container.kind == ContainerKind::Canister)
        .min_by(|a, b| off(a).total_cmp(&off(b)))
}

/// The canisters that a kitchen was handed for a leg, in order; none in hand: a full one of the
/// usual size and the kitchen's blend.
fn in_hand(
    kitchen: &Kitchen,
    library: &Library,
    containers: &[ContainerPlan],
    leg: usize,
) -> Vec<Can> {
    let blend = new_blend(kitchen, library);
    let mut cans = Vec::new();
    for (index, one) in containers.iter().enumerate() {
        let Some(size) = library.containers.get(&one.container) else {
            continue;
        };
        if one.kind != ContainerKind::Canister || one.leg != leg {
            continue;
        }
        cans.push(Can {
            liquid: of_blend(one.net, one.blend.as_ref().unwrap_or(&blend)),
            tare: one.tare.unwrap_or(one.gross - one.net),
            container: index,
            number: 1,
            alike: one.count.saturating_sub(1),
            fresh: true,
            shell: Shell::of(size),
        });
    }
    if cans.is_empty() {
        cans.extend(usual_size(library).map(|size| Can {
            liquid: of_blend(size.net, &blend),
            tare: size.tare,
            container: usize::MAX,
            number: 1,
            alike: 0,
            fresh: true,
            shell: Shell::of(size),
        }));
    }
    cans
}

/// The camps of each leg.
fn legs(plan: &KitchenPlan, camps: usize) -> Vec<Range<usize>> {
    if plan.fuel.legs.is_empty() {
        return std::iter::once(0..camps).collect();
    }
    plan.fuel
        .legs
        .iter()
        .map(|leg| leg.from..leg.until)
        .collect()
}

/// A kitchen's canister at each row that burns one: as it is on the worst night, burnt in order of
/// time with the canisters of its leg.
pub(crate) fn rows(
    trip: &Trip,
    library: &Library,
    kitchen: &Kitchen,
    plan: &KitchenPlan,
    camps: &[CampPlan],
    burns: &Burns,
) -> Vec<ColdRow> {
    if kitchen.fuel.kind != FuelKind::Canister {
        return Vec::new();
    }
    let mut judged: BTreeMap<usize, (usize, Vec<Judged>)> = BTreeMap::new();
    for (number, range) in legs(plan, camps.len()).into_iter().enumerate() {
        let leg = Leg::of(trip, library, kitchen, plan, camps, range, burns);
        let mut cans = in_hand(kitchen, library, &plan.containers, number);
        for one in leg.judge(&mut cans) {
            let of_row = judged.entry(one.at).or_insert((number, Vec::new()));
            of_row.1.push(one);
        }
    }
    judged
        .into_values()
        .filter_map(|(leg, nights)| row(kitchen, plan, camps, leg, &nights))
        .collect()
}

/// A row of all its nights.
fn row(
    kitchen: &Kitchen,
    plan: &KitchenPlan,
    camps: &[CampPlan],
    leg: usize,
    nights: &[Judged],
) -> Option<ColdRow> {
    // the first of equally bad nights
    let worst = nights.iter().min_by(|a, b| {
        b.verdict
            .cmp(&a.verdict)
            .then_with(|| a.mean.in_watts().total_cmp(&b.mean.in_watts()))
            .then_with(|| {
                a.gauge_low
                    .in_pascals()
                    .total_cmp(&b.gauge_low.in_pascals())
            })
    })?;
    let working: Vec<Power> = nights
        .iter()
        .filter(|one| one.verdict != Verdict::WillNotWork)
        .map(|one| one.mean)
        .collect();
    let of = &plan.rows[worst.at];
    let floor = camps[of.camp].pressure + kitchen.stove.least_gauge;
    let container = plan.containers.get(worst.container);
    Some(ColdRow {
        camp: of.camp,
        meal: of.meal,
        leg,
        container: container.map(|_| worst.container),
        number: worst.number,
        tag: container.and_then(|one| one.tag.clone()),
        net: worst.liquid.total(),
        blend: blend_of(&worst.liquid),
        start: worst.start,
        fuel_temperature: worst.end,
        gauge_start: worst.gauge_start,
        gauge_low: worst.gauge_low,
        power: worst.mean,
        set: kitchen.stove.power,
        mean: (!working.is_empty())
            .then(|| working.iter().copied().sum::<Power>() / working.len() as f64),
        usable: usable_at(&worst.liquid, kitchen.feed, worst.start, floor),
        verdict: worst.verdict,
    })
}

/// How near a power must be to the full one to count as it.
const FULL: f64 = 1e-3;

/// What the cold leaves of the burner's power, where it is not all.
pub(crate) fn powers(rows: &[ColdRow]) -> BTreeMap<(usize, Meal), Power> {
    rows.iter()
        .filter_map(|row| {
            let mean = row.mean.filter(|mean| *mean < row.set * (1.0 - FULL))?;
            Some(((row.camp, row.meal), mean))
        })
        .collect()
}

/// The row that does worst: the verdict first, then the least of its power.
pub(crate) fn worst(rows: &[ColdRow]) -> Option<&ColdRow> {
    rows.iter().min_by(|a, b| {
        b.verdict
            .cmp(&a.verdict)
            .then_with(|| (a.power / a.set).total_cmp(&(b.power / b.set)))
            .then_with(|| {
                a.gauge_low
                    .in_pascals()
                    .total_cmp(&b.gauge_low.in_pascals())
            })
    })
}

/// A kitchen's canister through its worst meal, minute by minute.
pub(crate) fn through(
    trip: &Trip,
    library: &Library,
    kitchen: &Kitchen,
    plan: &KitchenPlan,
    camps: &[CampPlan],
) -> Option<Through> {
    if kitchen.fuel.kind != FuelKind::Canister {
        return None;
    }
    let cold = worst(&plan.cold)?;
    let of_camp = cold.camp..cold.camp + 1;
    let burns = Burns::default();
    let leg = Leg::of(trip, library, kitchen, plan, camps, of_camp, &burns);
    let turn = leg
        .turns()
        .iter()
        .find(|turn| plan.rows[turn.at].meal == cold.meal)?;
    let mut can = in_hand(kitchen, library, &plan.containers, cold.leg)
        .into_iter()
        .find(|can| cold.container.is_none_or(|index| can.container == index))?;
    can.liquid = of_blend(cold.net, &cold.blend);
    let mut moments = Vec::new();
    leg.went(turn, &can, 1.0, &mut |moment| moments.push(moment));
    Some(Through {
        camp: cold.camp,
        meal: cold.meal,
        tag: cold.tag.clone(),
        verdict: cold.verdict,
        set: cold.set,
        points: moments
            .into_iter()
            .map(|moment| (moment.time, moment.gauge, moment.power))
            .collect(),
    })
}

/// Steps from what is in a canister now down to nearly nothing.
const CURVE_STEPS: u32 = 20;

/// Pressure against fuel left at each camp's coldest meal, for the chart: of the canister in use
/// then, drawn down at that meal's temperature and not cooled by the burn itself.
pub(crate) fn curves(
    trip: &Trip,
    kitchen: &Kitchen,
    plan: &KitchenPlan,
    camps: &[CampPlan],
) -> Option<CanisterCurves> {
    let mut curves: Vec<CanisterCurve> = Vec::new();
    for row in plan
        .cold
        .iter()
        .filter(|row| matches!(row.meal, Meal::Supper | Meal::Breakfast))
    {
        let at = start_at(&trip.camps[row.camp], row.meal);
        let points = (1..=CURVE_STEPS)
            .rev()
            .map(|step| {
                let left = row.net * (f64::from(step) / f64::from(CURVE_STEPS));
                let liquid = match kitchen.feed {
                    Feed::Vapour => drawn_rayleigh(&of_blend(row.net, &row.blend), left, at),
                    Feed::Liquid => of_blend(left, &row.blend),
                };
                let pressure = bubble_pressure_raoult(&liquid, at).unwrap_or(Pressure::ZERO);
                (left, pressure - camps[row.camp].pressure)
            })
            .collect();
        let curve = CanisterCurve {
            tag: row.tag.clone(),
            camp: row.camp,
            meal: row.meal,
            fuel_temperature: at,
            points,
        };
        match curves.iter_mut().find(|one| one.camp == row.camp) {
            Some(one) if at < one.fuel_temperature => *one = curve,
            Some(_) => {}
            None => curves.push(curve),
        }
    }
    (!curves.is_empty()).then_some(CanisterCurves {
        least: kitchen.stove.least_gauge,
        curves,
    })
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
    leg: Range<usize>,
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
                    at: start_at(camp, meal),
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

    /// Turned over, a canister keeps its composition; at -6 C a half-drawn one is too weak still.
    #[test]
    fn liquid_feed_keeps_the_pressure_to_the_last() {
        let full = of_blend(Mass::grams(230.0), &blend(30.0, 0.0, 70.0));
        let half = drawn_rayleigh(&full, Mass::grams(115.0), Temperature::celsius(10.0));
        let (cold, residue) = (draw(-6.0, 70.0), Mass::grams(4.0));
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
