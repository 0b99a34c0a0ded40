//! A canister while it burns: it cools, loses its light part, and the flame sinks with it.

use super::vapour::{Component, Liquid, bubble_pressure_raoult, saturation_pressure_wagner};
use crate::units::{
    Fraction, HeatingValue, Length, Mass, Power, Pressure, SpecificHeat, Temperature, Time,
};
use std::f64::consts::PI;
use std::sync::LazyLock;

/// A canister as one lump: its fuel and its shell have one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lump {
    /// What is in it.
    pub liquid: Liquid,
    /// Its temperature.
    pub temperature: Temperature,
    /// Mass of the empty shell.
    pub tare: Mass,
    /// Outer diameter of the shell.
    pub diameter: Length,
    /// Height of the shell.
    pub height: Length,
}

impl Lump {
    /// The whole outside of the shell, m2.
    fn area(&self) -> f64 {
        let (d, h) = (self.diameter.in_metres(), self.height.in_metres());
        PI * d * h + PI / 2.0 * d * d
    }
}

/// What is round a canister.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Around {
    /// The air.
    pub air: Temperature,
    /// Pressure of the air.
    pub pressure: Pressure,
    /// Heat from the air through each square metre of shell for each kelvin, W/(m2 K).
    pub film: f64,
    /// Heat that the burner gives back to the canister at the family's power.
    pub warmth: Power,
}

/// The valve and burner that draw on a canister.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burner {
    /// What it is set to.
    pub set: Power,
    /// The usual full power of its family.
    pub family: Power,
    /// With the valve fully open, a full canister gives this many times the family's power.
    pub open: f64,
    /// A regulator keeps the set power down to this gauge pressure; none without a regulator.
    pub regulated: Option<Pressure>,
}

/// What canister gas and steel are like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// Heat that the liquid takes up to become vapour.
    pub latent: HeatingValue,
    /// Specific heat of the liquid.
    pub liquid_heat: SpecificHeat,
    /// Specific heat of the shell.
    pub steel_heat: SpecificHeat,
    /// Lower heating value of what is burnt.
    pub heating_value: HeatingValue,
    /// A canister with no more than this in it is empty.
    pub residue: Mass,
}

/// One moment of a burn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Since it was lit.
    pub time: Time,
    /// Fuel and shell.
    pub temperature: Temperature,
    /// Gauge pressure.
    pub gauge: Pressure,
    /// Power of the flame.
    pub power: Power,
}

/// What a burn came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burnt {
    /// The canister afterwards.
    pub after: Lump,
    /// Gauge pressure when it was lit.
    pub gauge_start: Pressure,
    /// The lowest gauge pressure on the way.
    pub gauge_low: Pressure,
    /// Gauge pressure at the end.
    pub gauge_end: Pressure,
    /// How long it burnt.
    pub time: Time,
    /// The mean power.
    pub mean: Power,
    /// Whether the work was done when it ended.
    pub done: bool,
    /// Whether it ended because the canister was empty.
    pub emptied: bool,
}

/// What part of the choked flow passes a jet at a ratio of the pressure behind it to that before it.
///
/// Formula: 1 for r <= (2/(k+1))^(k/(k-1)), else
/// sqrt[(2/(k-1)) (r^(2/k) - r^((k+1)/k)) / (2/(k+1))^((k+1)/(k-1))]; k = 1.12.
///
/// Valid: ratios of 0 to 1; 0 from 1 on. k is that of propane and butane vapour near freezing.
///
/// Source: isentropic flow of an ideal gas through a nozzle (de Saint-Venant and Wantzel 1839;
/// any text on gas dynamics).
///
/// Example: half the pressure behind the jet chokes it, nine tenths let a little over half through.
/// ```
/// use leeside::physics::burn::flow_share_nozzle;
/// assert_eq!(flow_share_nozzle(0.5), 1.0);
/// assert!((flow_share_nozzle(0.9) - 0.6585).abs() < 0.001);
/// assert_eq!(flow_share_nozzle(1.0), 0.0);
/// ```
#[must_use]
pub fn flow_share_nozzle(ratio: f64) -> f64 {
    NOZZLE.share(ratio)
}

/// Heat capacities' ratio of propane and butane vapour near freezing.
const K: f64 = 1.12;

/// The nozzle of every burn, worked out once.
static NOZZLE: LazyLock<Nozzle> = LazyLock::new(Nozzle::new);

/// A nozzle with what does not change worked out once.
struct Nozzle {
    critical: f64,
    choked: f64,
}

impl Nozzle {
    fn new() -> Self {
        Self {
            critical: libm::pow(2.0 / (K + 1.0), K / (K - 1.0)),
            choked: libm::pow(2.0 / (K + 1.0), (K + 1.0) / (K - 1.0)),
        }
    }

    fn share(&self, ratio: f64) -> f64 {
        if ratio >= 1.0 {
            return 0.0;
        }
        if ratio <= self.critical {
            return 1.0;
        }
        let logarithm = libm::log(ratio);
        let first = libm::exp(logarithm * 2.0 / K);
        // r^((k+1)/k) = r^(2/k) r^((k-1)/k)
        let second = first * libm::exp(logarithm * (K - 1.0) / K);
        (2.0 / (K - 1.0) * (first - second) / self.choked).sqrt()
    }
}

/// The power that a valve and burner give at a vapour pressure.
///
/// Formula: P = min(P_set, open x P_family x (p/p_ref) psi(p_amb/p) / psi(p_sea/p_ref)), p_ref the
/// pressure over a full canister of 30 % propane and 70 % n-butane (by mass) at 20 C, p_sea
/// 101.325 kPa, psi of [`flow_share_nozzle`]; with a regulator P_set while the gauge pressure is
/// its own or more, below it P_set x gauge / its own.
///
/// Valid: absolute pressures above 0; nothing at or below the air's pressure.
///
/// Source: flow through a fixed jet; the valve's size is an assumption of this project.
///
/// Example: a 2.5 kW burner on a canister whose gauge has fallen to 21 kPa at 2500 m.
/// ```
/// use leeside::physics::burn::{Burner, burner_power};
/// use leeside::units::{Power, Pressure};
/// let full = Power::kilowatts(2.5);
/// let burner = Burner { set: full, family: full, open: 2.0, regulated: None };
/// let [air, vapour] = [74.69, 96.02].map(Pressure::kilopascals);
/// let power = burner_power(&burner, vapour, air);
/// assert!((power.in_kilowatts() - 0.982).abs() < 0.005, "{power:?}");
/// ```
#[must_use]
pub fn burner_power(burner: &Burner, vapour: Pressure, air: Pressure) -> Power {
    Jet::of(burner).power(vapour.in_pascals(), air.in_pascals())
}

/// The reference pressure of [`burner_power`] and the share of the flow there, their product in Pa.
static REFERENCE: LazyLock<f64> = LazyLock::new(|| {
    const SEA: f64 = 101_325.0;
    let full = Liquid::of(
        Mass::grams(230.0),
        Fraction::percent(30.0),
        Fraction::ZERO,
        Fraction::percent(70.0),
    );
    let reference =
        bubble_pressure_raoult(&full, Temperature::celsius(20.0)).map_or(SEA, Pressure::in_pascals);
    reference * NOZZLE.share(SEA / reference)
});

/// A burner with what its jet needs worked out once.
struct Jet {
    set: f64,
    /// Open power over the reference pressure and the flow share there, W/Pa.
    open: f64,
    regulated: Option<f64>,
    nozzle: &'static Nozzle,
}

impl Jet {
    fn of(burner: &Burner) -> Self {
        Self {
            set: burner.set.in_watts(),
            open: burner.open * burner.family.in_watts() / *REFERENCE,
            regulated: burner.regulated.map(Pressure::in_pascals),
            nozzle: &NOZZLE,
        }
    }

    fn power(&self, vapour: f64, air: f64) -> Power {
        let watts = if vapour <= air {
            0.0
        } else if let Some(full) = self.regulated {
            self.set * ((vapour - air) / full).min(1.0)
        } else {
            (self.open * vapour * self.nozzle.share(air / vapour)).min(self.set)
        };
        Power::watts(watts)
    }
}

/// Masses of the components in kg, temperature in K, heat given so far in J.
type State = [f64; 5];

fn along(state: &State, step: f64, slopes: &[(f64, &State)]) -> State {
    let mut next = *state;
    for (weight, slope) in slopes {
        for (value, slope) in next.iter_mut().zip(slope.iter()) {
            *value += step * weight * slope;
        }
    }
    next
}

/// How a state goes on in a second, and the gauge pressure that makes it.
struct Slope {
    of: State,
    gauge: Pressure,
}

/// A burn being worked out.
struct Burning<'a> {
    around: &'a Around,
    gas: &'a Gas,
    jet: Jet,
    /// Heat through the whole shell for each kelvin, W/K.
    film: f64,
    /// Heat given back by the burner for each watt that it burns.
    warmth: f64,
    /// Heat that the shell takes for each kelvin, J/K.
    shell: f64,
}

impl Burning<'_> {
    fn total(state: &State) -> f64 {
        state[..3].iter().sum()
    }

    /// Vapour pressure, and what share of the vapour's mass each component has.
    fn vapour(&self, state: &State) -> (f64, [f64; 3]) {
        // a canister burns where the correlations hold; the bounds keep a wild step inside them
        let t = Temperature::kelvin(state[3].clamp(170.0, 365.0));
        let (mut moles, mut pressure, mut mass) = (0.0, 0.0, 0.0);
        let mut shares = [0.0; 3];
        for (index, component) in Component::ALL.into_iter().enumerate() {
            let kilograms = state[index].max(0.0);
            if kilograms == 0.0 {
                continue;
            }
            let own = saturation_pressure_wagner(component, t).map_or(0.0, Pressure::in_pascals);
            let mine = kilograms / component.grams_a_mole();
            moles += mine;
            pressure += mine * own;
            shares[index] = kilograms * own;
            mass += shares[index];
        }
        if moles == 0.0 {
            return (0.0, shares);
        }
        (pressure / moles, shares.map(|share| share / mass))
    }

    /// How the state goes on.
    fn slope(&self, state: &State) -> Slope {
        let (pressure, shares) = self.vapour(state);
        let air = self.around.pressure.in_pascals();
        let power = self.jet.power(pressure, air).in_watts();
        let drawn = power / self.gas.heating_value.in_joules_per_kilogram();
        let heat = self.film * (self.around.air.in_kelvin() - state[3]) + self.warmth * power
            - drawn * self.gas.latent.in_joules_per_kilogram();
        let liquid = self.gas.liquid_heat.in_joules_per_kilogram_kelvin();
        let capacity = Self::total(state).max(0.0) * liquid + self.shell;
        let [propane, isobutane, butane] = shares.map(|share| -drawn * share);
        Slope {
            of: [propane, isobutane, butane, heat / capacity, power],
            gauge: Pressure::pascals(pressure) - self.around.pressure,
        }
    }

    /// The state a step on, after the pair of Bogacki and Shampine, and the slopes on the way.
    fn after(&self, state: &State, slope: &State, step: f64) -> (State, State, State) {
        let second = self.slope(&along(state, step, &[(0.5, slope)])).of;
        let third = self.slope(&along(state, step, &[(0.75, &second)])).of;
        let next = along(
            state,
            step,
            &[
                (2.0 / 9.0, slope),
                (1.0 / 3.0, &second),
                (4.0 / 9.0, &third),
            ],
        );
        (next, second, third)
    }

    /// One step: the state, its slope, and how far it is off what is allowed.
    fn step(&self, state: &State, slope: &State, step: f64) -> (State, Slope, f64) {
        let (next, second, third) = self.after(state, slope, step);
        let last = self.slope(&next);
        let error = |index: usize| {
            step * (-5.0 / 72.0 * slope[index] + second[index] / 12.0 + third[index] / 9.0
                - last.of[index] / 8.0)
        };
        let allowed_heat = 1e-3 * self.jet.set * step;
        let off = (error(3) / ALLOWED_KELVINS)
            .abs()
            .max((error(4) / allowed_heat).abs());
        (next, last, off)
    }
}

/// How far a step's temperature may be off.
const ALLOWED_KELVINS: f64 = 0.01;
/// The first step, s.
const FIRST_STEP: f64 = 10.0;
/// No step is shorter, s: where the flame just goes out, the slope has no end.
const LEAST_STEP: f64 = 0.25;
/// No step is longer, s.
const LONGEST_STEP: f64 = 120.0;

/// Burns a canister until the work is done or cannot be done any more, it is empty, or the time is
/// up.
///
/// Formula: dT/dt = [h A (T_air - T) + b P/P_family - (P/LHV) L] / (m c + m_shell c_steel);
/// component i leaves as (P/LHV) m_i p_i / sum(m_j p_j), p_i the pressure over it alone (Raoult,
/// Rayleigh); P of [`burner_power`]. `need` says how long the work takes at a mean power, none
/// where that power cannot do it; the work is done at the first t with t >= need(mean power until
/// then). Given up as soon as even the power of that moment, kept up, could not do it by the
/// longest time: a canister no colder than the air cools and loses its light part, and its power
/// never rises again. Solved with the embedded pair of Bogacki and Shampine, steps held to 0.01 K.
///
/// Valid: upright canister, vapour drawn; -100 C to 90 C. Fuel and shell are one lump, which a
/// strong flame on a nearly empty canister is not.
///
/// Source: heat balance of a lump; Raoult's law; Rayleigh, Phil. Mag. 4 (1902) 521-537; Bogacki
/// and Shampine, Appl. Math. Lett. 2 (1989) 321-325.
///
/// Example: six minutes at 2.5 kW from a full 230 g canister of 30/70 propane and n-butane at
/// 10 C in calm air: it cools to 2.2 C and keeps its power.
/// ```
/// use leeside::physics::burn::{Around, Burner, Gas, Lump, burn_lump};
/// use leeside::physics::vapour::Liquid;
/// use leeside::units::{
///     Fraction, HeatingValue, Length, Mass, Power, Pressure, SpecificHeat, Temperature, Time,
/// };
/// let [propane, isobutane, butane] = [30.0, 0.0, 70.0].map(Fraction::percent);
/// let lump = Lump {
///     liquid: Liquid::of(Mass::grams(230.0), propane, isobutane, butane),
///     temperature: Temperature::celsius(10.0),
///     tare: Mass::grams(150.0),
///     diameter: Length::millimetres(110.0),
///     height: Length::millimetres(95.0),
/// };
/// let around = Around {
///     air: Temperature::celsius(10.0),
///     pressure: Pressure::kilopascals(101.325),
///     film: 10.0,
///     warmth: Power::watts(5.0),
/// };
/// let full = Power::kilowatts(2.5);
/// let burner = Burner { set: full, family: full, open: 2.0, regulated: None };
/// let [liquid_heat, steel_heat] =
///     [2.4, 0.46].map(SpecificHeat::kilojoules_per_kilogram_kelvin);
/// let gas = Gas {
///     latent: HeatingValue::joules_per_kilogram(370e3),
///     liquid_heat,
///     steel_heat,
///     heating_value: HeatingValue::megajoules_per_kilogram(45.906),
///     residue: Mass::grams(4.0),
/// };
/// let minutes = Time::minutes(6.0);
/// let burnt = burn_lump(&lump, &around, &burner, &gas, minutes, |_| Some(minutes), |_| ());
/// assert!(burnt.done && burnt.mean == full);
/// assert!((burnt.after.temperature.in_celsius() - 2.16).abs() < 0.2);
/// assert!((burnt.gauge_end.in_kilopascals() - 139.3).abs() < 2.0);
/// ```
pub fn burn_lump(
    lump: &Lump,
    around: &Around,
    burner: &Burner,
    gas: &Gas,
    longest: Time,
    need: impl Fn(Power) -> Option<Time>,
    mut watch: impl FnMut(Moment),
) -> Burnt {
    let burning = Burning {
        around,
        gas,
        jet: Jet::of(burner),
        film: around.film * lump.area(),
        warmth: around.warmth / burner.family,
        shell: lump.tare.in_kilograms() * gas.steel_heat.in_joules_per_kilogram_kelvin(),
    };
    let [propane, isobutane, butane] = Component::ALL.map(|one| lump.liquid.mass_of(one));
    let mut state: State = [
        propane.in_kilograms(),
        isobutane.in_kilograms(),
        butane.in_kilograms(),
        lump.temperature.in_kelvin(),
        0.0,
    ];
    let longest = longest.in_seconds();
    let empty = gas.residue.in_kilograms();
    let at = |state: &State, slope: &Slope, time: f64| Moment {
        time: Time::seconds(time),
        temperature: Temperature::kelvin(state[3]),
        gauge: slope.gauge,
        power: Power::watts(slope.of[4]),
    };
    let mut slope = burning.slope(&state);
    let gauge_start = slope.gauge;
    let mut gauge_low = gauge_start;
    let mut time = 0.0;
    let mut done = false;
    let mut emptied = Burning::total(&state) <= empty;
    watch(at(&state, &slope, 0.0));
    // The mean power is never above what the burner is set to, so that the work is not done before
    // full power would have it done: until then it need not be asked.
    let soonest = need(burner.set).map_or(f64::INFINITY, Time::in_seconds) * (1.0 - 1e-9);
    // How far the work is from done, s, and how far the canister from empty, g: at or above
    // nothing it is over.
    let ahead = |state: &State, time: f64| {
        need(Power::watts(state[4] / time))
            .map_or(f64::NEG_INFINITY, |need| time - need.in_seconds())
    };
    let over = |state: &State, time: f64| {
        let spent = (empty - Burning::total(state)) * 1000.0;
        ahead(state, time).max(spent).max(time - longest)
    };
    let mut step = FIRST_STEP;
    let sinks = lump.temperature >= around.air;
    let mut asked = slope.of[4];
    while gauge_start > Pressure::ZERO && !emptied && time < longest {
        let (next, last, off) = burning.step(&state, &slope.of, step);
        if off > 1.0 && step > LEAST_STEP {
            step = (step * (0.9 / libm::cbrt(off)).max(0.2)).max(LEAST_STEP);
            continue;
        }
        let may_end = time + step >= soonest.min(longest) || Burning::total(&next) <= empty;
        if may_end && over(&next, time + step) >= 0.0 {
            let whole = (step, next);
            let (end, took) = cut(&burning, &state, &slope.of, time, whole, over);
            slope = burning.slope(&end);
            state = end;
            time += took;
            emptied = Burning::total(&state) <= empty + 1e-6;
            done = !emptied && ahead(&state, time) >= -OVER_SECONDS;
            // the canister that is empty the moment the work is done has done it
            done |= emptied && ahead(&state, time) >= -OVER_SECONDS;
            gauge_low = gauge_low.min(slope.gauge);
            watch(at(&state, &slope, time));
            break;
        }
        state = next;
        slope = last;
        time += step;
        gauge_low = gauge_low.min(slope.gauge);
        watch(at(&state, &slope, time));
        if sinks && slope.of[4] < asked * ASKED_AGAIN {
            asked = slope.of[4];
            if hopeless(&need, (state[4], asked), (time, longest)) {
                break;
            }
        }
        step = (step * (0.9 / libm::cbrt(off.max(1e-3))).min(3.0)).clamp(LEAST_STEP, LONGEST_STEP);
    }
    let [propane, isobutane, butane] = [state[0], state[1], state[2]].map(Mass::kilograms);
    Burnt {
        after: Lump {
            liquid: Liquid {
                propane,
                isobutane,
                butane,
            },
            temperature: Temperature::kelvin(state[3]),
            ..*lump
        },
        gauge_start,
        gauge_low,
        gauge_end: slope.gauge,
        time: Time::seconds(time),
        mean: if time > 0.0 {
            Power::watts(state[4] / time)
        } else {
            Power::ZERO
        },
        done,
        emptied,
    }
}

/// How far a power must have sunk before it is asked again whether the work can still be done.
const ASKED_AGAIN: f64 = 0.9;

/// Whether work cannot be done any more with what was given so far (J) and a power (W) that never
/// rises again (a tenth is allowed for: steps are only so exact), between a time and the longest one
/// (s). The mean power only falls, so that within each stretch of time the need is never less than
/// at its start.
fn hopeless(
    need: impl Fn(Power) -> Option<Time>,
    (given, power): (f64, f64),
    (time, longest): (f64, f64),
) -> bool {
    const STRETCHES: u32 = 24;
    let ratio = libm::pow(longest / time, 1.0 / f64::from(STRETCHES));
    let power = (power / ASKED_AGAIN).min(given / time);
    let mut from = time;
    for stretch in 1..=STRETCHES {
        let last = stretch == STRETCHES;
        let until = if last { longest } else { from * ratio };
        let mean = Power::watts((given + power * (from - time)) / from);
        match need(mean) {
            // and so with every lower power
            None => return true,
            Some(need) if need.in_seconds() <= until => return false,
            Some(_) => from = until,
        }
    }
    true
}

/// How near to the end a burn is cut off, s (or g).
const OVER_SECONDS: f64 = 1e-3;

/// The part of a step after which it is over: found between none and all of it (the Illinois
/// form of the false position).
fn cut(
    burning: &Burning<'_>,
    state: &State,
    slope: &State,
    time: f64,
    (step, next): (f64, State),
    over: impl Fn(&State, f64) -> f64,
) -> (State, f64) {
    const ROUNDS: usize = 40;
    let finite = |over: f64| if over.is_finite() { over } else { -1e9 };
    let part = |part: f64| {
        let end = burning.after(state, slope, part).0;
        (end, finite(over(&end, time + part)))
    };
    let (mut low, mut below) = (0.0, -step);
    let (mut high, mut end, mut above) = (step, next, finite(over(&next, time + step)));
    let mut side = 0;
    for _ in 0..ROUNDS {
        if above <= OVER_SECONDS || high - low < OVER_SECONDS {
            break;
        }
        let middle = low + (high - low) * (-below / (above - below)).clamp(0.02, 0.98);
        let (here, over) = part(middle);
        if over >= 0.0 {
            (high, above, end) = (middle, over, here);
            if side == 1 {
                below /= 2.0;
            }
            side = 1;
        } else {
            (low, below) = (middle, over);
            if side == -1 {
                above /= 2.0;
            }
            side = -1;
        }
    }
    (end, high)
}
