//! A canister being emptied: the light part goes first, and the liquid cools.

use super::vapour::{Component, Liquid, saturation_pressure_wagner};
use crate::units::{Fraction, HeatingValue, Mass, Pressure, SpecificHeat, Temperature, Warming};

/// What [`self_cooling`] answers when the canister's own heat would not do: colder than anything.
pub const COLDER_THAN_ANYTHING: Warming = Warming::of_kelvins(1000.0);

/// What drawing vapour needs to know of a gas that is there.
struct Part {
    component: Component,
    /// Mass at the start, kg.
    mass: f64,
    /// Share of the molecules at the start.
    moles: f64,
    /// Vapour pressure over it alone, Pa.
    pressure: f64,
    /// That pressure over that of the lightest gas present.
    ratio: f64,
}

/// The parts that are there, or `None` outside the correlations' range or when there are none.
fn parts(liquid: &Liquid, t: Temperature) -> Option<Vec<Part>> {
    let mut parts = Vec::new();
    for component in Component::ALL {
        let mass = liquid.mass_of(component).in_kilograms();
        let moles = liquid.mole_fraction(component).in_one();
        let pressure = saturation_pressure_wagner(component, t)?.in_pascals();
        if mass > 0.0 {
            parts.push(Part {
                component,
                mass,
                moles,
                pressure,
                ratio: 1.0,
            });
        }
    }
    let reference = parts.iter().map(|part| part.pressure).reduce(f64::max)?;
    for part in &mut parts {
        part.ratio = part.pressure / reference;
    }
    Some(parts)
}

/// The least of the ratios: that of the heaviest gas present.
fn least_ratio(parts: &[Part]) -> f64 {
    parts.iter().map(|part| part.ratio).fold(1.0, f64::min)
}

/// Mass left, kg, at x = -ln s.
fn mass_left(parts: &[Part], x: f64) -> f64 {
    parts
        .iter()
        .map(|part| part.mass * libm::exp(-x * part.ratio))
        .sum()
}

/// Pressure by Raoult's law, Pa, at x = -ln s. Only the composition matters to it, so each part is
/// taken over the heaviest one: nothing vanishes from the quotient, however far x goes.
fn pressure_left(parts: &[Part], x: f64) -> f64 {
    let least = least_ratio(parts);
    let (mut over, mut under) = (0.0, 0.0);
    for part in parts {
        let moles = part.moles * libm::exp(-x * (part.ratio - least));
        over += moles * part.pressure;
        under += moles;
    }
    over / under
}

/// Where a falling function crosses zero, by halving the bracket until no number lies between.
fn crossing_by_bisection(mut low: f64, mut high: f64, falling: impl Fn(f64) -> f64) -> f64 {
    loop {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            return middle;
        }
        if falling(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
}

/// What is left, and of what composition, when vapour has been drawn down to a remaining mass.
///
/// Formula: m_i = m_i0 s^(p_i / p_ref), p_ref that of the lightest gas present; s between 0 and 1
/// such that the m_i add to the remaining mass (closed form of Rayleigh's differential
/// distillation with Raoult's law; found by bisection to the last bit).
///
/// Valid: drawing slow enough to stay at one temperature; vapour above the liquid left out (under
/// 1 % of a canister); -108.1 C to 96.7 C, outside which the composition is kept. Nothing is
/// added: a remaining mass above the present one returns the present liquid.
///
/// Source: Rayleigh, On the distillation of binary mixtures, Phil. Mag. 4 (1902) 521-537.
///
/// Example: 30/70 propane and n-butane, half drawn off at 10 C: 9.3 % propane are left.
/// ```
/// use leeside::physics::canister::drawn_rayleigh;
/// use leeside::physics::vapour::{Component, Liquid};
/// use leeside::units::{Mass, Temperature};
/// let [propane, isobutane, butane] = [69.0, 0.0, 161.0].map(Mass::grams);
/// let full = Liquid { propane, isobutane, butane };
/// let left = drawn_rayleigh(&full, Mass::grams(115.0), Temperature::celsius(10.0));
/// assert!((left.total().in_grams() - 115.0).abs() < 1e-9);
/// assert!((left.mass_fraction(Component::Propane).in_percent() - 9.32).abs() < 0.05);
/// ```
#[must_use]
pub fn drawn_rayleigh(liquid: &Liquid, remaining: Mass, t: Temperature) -> Liquid {
    let total = liquid.total();
    if total <= Mass::ZERO || remaining >= total {
        return *liquid;
    }
    let remaining = remaining.max(Mass::ZERO);
    let kept = remaining / total;
    let Some(parts) = parts(liquid, t).filter(|_| kept > 0.0) else {
        return Liquid {
            propane: liquid.propane * kept,
            isobutane: liquid.isobutane * kept,
            butane: liquid.butane * kept,
        };
    };
    // total e^-x <= mass left <= total e^(-x least ratio) brackets the answer.
    let lowest = -libm::log(kept);
    let highest = lowest / least_ratio(&parts);
    let goal = remaining.in_kilograms();
    let x = crossing_by_bisection(lowest, highest, |x| mass_left(&parts, x) - goal);
    // The last bits are put right, so that the parts add to the mass asked for.
    let scale = goal / mass_left(&parts, x);
    let left = |component| {
        parts
            .iter()
            .find(|part| part.component == component)
            .map_or(Mass::ZERO, |part| {
                Mass::kilograms(part.mass * libm::exp(-x * part.ratio) * scale)
            })
    };
    Liquid {
        propane: left(Component::Propane),
        isobutane: left(Component::Isobutane),
        butane: left(Component::Butane),
    }
}

/// How much of the liquid present is left when, drawn as vapour at one temperature, its pressure
/// has fallen to a floor (absolute: ambient plus the stove's least working gauge pressure).
///
/// Formula: along m_i = m_i0 s^(p_i / p_ref), the sum of the m_i over that of the m_i0 where the
/// pressure by Raoult's law equals the floor (found by bisection to the last bit).
///
/// Valid: as [`drawn_rayleigh`]. 1 if the pressure is at or below the floor already (nothing can
/// be used), also for an empty liquid and outside the correlations' range; 0 if it never falls
/// to the floor.
///
/// Source: Rayleigh, Phil. Mag. 4 (1902) 521-537; Raoult's law.
///
/// Example: 30/70 propane and n-butane at -5 C at sea level: no gauge pressure with 39 % left.
/// ```
/// use leeside::physics::canister::left_when_pressure_falls_to;
/// use leeside::physics::vapour::Liquid;
/// use leeside::units::{Mass, Pressure, Temperature};
/// let [propane, isobutane, butane] = [69.0, 0.0, 161.0].map(Mass::grams);
/// let full = Liquid { propane, isobutane, butane };
/// let cold = Temperature::celsius(-5.0);
/// let left = left_when_pressure_falls_to(&full, cold, Pressure::pascals(101_325.0));
/// assert!((left.in_percent() - 39.0).abs() < 0.5);
/// ```
#[must_use]
pub fn left_when_pressure_falls_to(liquid: &Liquid, t: Temperature, floor: Pressure) -> Fraction {
    let floor = floor.in_pascals();
    let Some(parts) = parts(liquid, t).filter(|parts| pressure_left(parts, 0.0) > floor) else {
        return Fraction::of_one(1.0);
    };
    if parts.iter().all(|part| part.pressure >= floor) {
        return Fraction::ZERO;
    }
    let above = |x: f64| pressure_left(&parts, x) - floor;
    let mut far = 1.0;
    while above(far) > 0.0 && far < 1e6 {
        far *= 2.0;
    }
    let x = crossing_by_bisection(0.0, far, above);
    Fraction::of_one(mass_left(&parts, x) / liquid.total().in_kilograms())
}

/// How much the liquid in a canister cools when vapour is drawn from it, if nothing warms it.
///
/// Formula: dT = (L / c) ln(H0 / (H0 - d c)), H0 = net c + tare c_steel (d drawn mass; J/kg,
/// J/(kg K), kg; K): each gram that evaporates takes its latent heat from what is still there.
///
/// Valid: an upper bound: air and burner warm a real canister. Where the drawn mass is more than
/// there is, or H0 is used up, the answer is [`COLDER_THAN_ANYTHING`] (1000 K).
///
/// Source: heat balance of the evaporating liquid and its shell.
///
/// Example: 26 g drawn in 8 minutes from a full 450 g canister (tare 200 g), L 370 kJ/kg,
/// c 2.4, c_steel 0.46 kJ/(kg K): 8.4 K colder.
/// ```
/// use leeside::physics::canister::self_cooling;
/// use leeside::units::{HeatingValue, Mass, SpecificHeat};
/// let [net, tare, drawn] = [450.0, 200.0, 26.0].map(Mass::grams);
/// let [liquid, steel] = [2.4, 0.46].map(SpecificHeat::kilojoules_per_kilogram_kelvin);
/// let latent = HeatingValue::joules_per_kilogram(370_000.0);
/// let cooling = self_cooling(net, tare, drawn, latent, liquid, steel);
/// assert!((cooling.kelvins() - 8.4).abs() < 0.1);
/// ```
#[must_use]
pub fn self_cooling(
    net: Mass,
    tare: Mass,
    drawn: Mass,
    latent: HeatingValue,
    liquid_heat: SpecificHeat,
    steel_heat: SpecificHeat,
) -> Warming {
    if drawn <= Mass::ZERO {
        return Warming::ZERO;
    }
    let c = liquid_heat.in_joules_per_kilogram_kelvin();
    let start =
        net.in_kilograms() * c + tare.in_kilograms() * steel_heat.in_joules_per_kilogram_kelvin();
    let end = start - drawn.in_kilograms() * c;
    if drawn > net || end <= 0.0 {
        return COLDER_THAN_ANYTHING;
    }
    let cooling = latent.in_joules_per_kilogram() / c * libm::log(start / end);
    Warming::of_kelvins(cooling).min(COLDER_THAN_ANYTHING)
}
