//! Bringing a pot to the boil while it loses heat to the air, with a lid and without one.
//!
//! A flow of heat goes into the pot, a loss that grows with its temperature goes out of it. Where
//! the two meet before the boil the pot never boils: it stops at that temperature.

use super::water::saturation_pressure_if97;
use crate::units::{
    Energy, Fraction, HeatingValue, Mass, Power, SpecificHeat, Temperature, Time, Volume, Warming,
};
use std::f64::consts::PI;

/// Where on the way from -1 to 1 an open pot's loss is looked at, on both sides of the middle, and
/// what each counts: Gauss and Legendre's sixteen points (Abramowitz and Stegun, Handbook of
/// Mathematical Functions, table 25.4, from memory; a test holds them against a fine sum).
const POINTS: [(f64, f64); 8] = [
    (0.095_012_509_837_637_4, 0.189_450_610_455_068_5),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_6),
    (0.458_016_777_657_227_4, 0.169_156_519_395_002_5),
    (0.617_876_244_402_643_8, 0.149_595_988_816_576_7),
    (0.755_404_408_355_003, 0.124_628_971_255_533_9),
    (0.865_631_202_387_831_8, 0.095_158_511_682_492_8),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_9),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_1),
];

/// Halvings of a bracket: more than the digits of a number.
const HALVINGS: u32 = 64;

/// Gas constant of water vapour, J/(kg K): 8.314 J/(mol K) over 0.018015 kg/mol.
const VAPOUR: f64 = 8.314 / 0.018_015;

/// Diameter of a pot that is a cylinder as tall as wide.
fn diameter_m(capacity: Volume) -> f64 {
    libm::cbrt(4.0 * capacity.in_litres() * 1e-3 / PI)
}

/// Surface of a pot with its lid: wall, lid and bottom.
///
/// Formula: A = 1.5 pi D^2, D = (4 V / pi)^(1/3): a cylinder as tall as wide (V its capacity in
/// m3; m2).
///
/// Valid: pots of about 0.3-12 L; a wide pan has more.
///
/// Source: geometry; the shape is an assumption.
///
/// Example: a 1.5 L pot: D = 124.1 mm, A = 0.07254 m2.
/// ```
/// use leeside::physics::heating::surface_m2;
/// use leeside::units::Volume;
/// assert!((surface_m2(Volume::litres(1.5)) - 0.072_54).abs() < 1e-5);
/// ```
#[must_use]
pub fn surface_m2(capacity: Volume) -> f64 {
    let diameter = diameter_m(capacity);
    1.5 * PI * diameter * diameter
}

/// The open top of a pot without its lid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenTop {
    /// Heat carried away with vapour for each kg/m3 by which the air at the surface holds more
    /// than the air around, W m3/kg.
    watts_per_density: f64,
    /// Vapour in the air around, kg/m3.
    around: f64,
}

impl OpenTop {
    /// The open top of a pot.
    ///
    /// Formula: q = h_m (pi D^2 / 4) (rho_v(T) - humidity x rho_v(T_air)) L, never negative, with
    /// h_m = (h - radiation) / (1.1 x 1006 x 0.86^(2/3)): convection alone carries vapour (air of
    /// 1.1 kg/m3 and 1006 J/(kg K), Lewis number 0.86). rho_v is that of an ideal gas at the
    /// saturation pressure, below 0 C as at 0 C.
    ///
    /// Valid: still air to a wind of a few metres a second; air of -40 to 50 C.
    ///
    /// Source: analogy of heat and mass transfer (Chilton and Colburn, 1934); saturation pressure
    /// IAPWS-IF97; the coefficients h and humidity are assumptions.
    ///
    /// Example: a 1.5 L pot near the boil, air at 15 C, h = 16 of which 6 is radiation, half
    /// humid, 2.30 MJ/kg: 164 W, more than the whole pot loses with its lid on (99 W).
    /// ```
    /// use leeside::physics::heating::OpenTop;
    /// use leeside::units::{Fraction, HeatingValue, Temperature, Volume};
    /// let open = OpenTop::new(
    ///     16.0,
    ///     6.0,
    ///     Volume::litres(1.5),
    ///     Temperature::celsius(15.0),
    ///     Fraction::percent(50.0),
    ///     HeatingValue::megajoules_per_kilogram(2.30),
    /// );
    /// let lost = open.evaporation(Temperature::celsius(99.97));
    /// assert!((lost.in_watts() - 164.0).abs() < 8.0, "{lost:?}");
    /// ```
    #[must_use]
    pub fn new(
        coefficient_w_per_m2_k: f64,
        radiation_w_per_m2_k: f64,
        capacity: Volume,
        air: Temperature,
        humidity: Fraction,
        latent: HeatingValue,
    ) -> Self {
        let convection = (coefficient_w_per_m2_k - radiation_w_per_m2_k).max(0.0);
        let metres_per_second = convection / (1.1 * 1006.0 * libm::pow(0.86, 2.0 / 3.0));
        let diameter = diameter_m(capacity);
        let area = PI * diameter * diameter / 4.0;
        Self {
            watts_per_density: metres_per_second * area * latent.in_joules_per_kilogram(),
            around: humidity.in_one() * vapour_density(air),
        }
    }

    /// Heat that leaves with vapour at a temperature of the water.
    ///
    /// Formula: as [`OpenTop::new`], at one temperature.
    ///
    /// Valid: water of 0 to 100 C.
    ///
    /// Source: as [`OpenTop::new`].
    ///
    /// Example: dry air as humid as the water's own gives nothing off.
    /// ```
    /// use leeside::physics::heating::OpenTop;
    /// use leeside::units::{Fraction, HeatingValue, Power, Temperature, Volume};
    /// let air = Temperature::celsius(15.0);
    /// let latent = HeatingValue::megajoules_per_kilogram(2.30);
    /// let wet = Fraction::percent(100.0);
    /// let open = OpenTop::new(16.0, 6.0, Volume::litres(1.5), air, wet, latent);
    /// assert_eq!(open.evaporation(air), Power::ZERO);
    /// ```
    #[must_use]
    pub fn evaporation(&self, water: Temperature) -> Power {
        Power::watts(self.watts_per_density * (vapour_density(water) - self.around).max(0.0))
    }
}

/// Vapour over water, kg/m3; below freezing as at 0 C.
fn vapour_density(at: Temperature) -> f64 {
    let at = at.max(Temperature::celsius(0.0));
    saturation_pressure_if97(at).map_or(0.0, |p| p.in_pascals() / (VAPOUR * at.in_kelvin()))
}

/// How a pot loses heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loss {
    /// By wall, bottom and lid (or open top) for each kelvin above the air, W/K.
    pub watts_per_kelvin: f64,
    /// The air around.
    pub air: Temperature,
    /// The open top, without a lid.
    pub open: Option<OpenTop>,
}

impl Loss {
    /// Loss without what evaporates.
    ///
    /// Formula: q = h A (T - T_air) (W/K, K; W); negative where the air is warmer.
    ///
    /// Valid: a steady wind.
    ///
    /// Source: Newton's law of cooling.
    ///
    /// Example: 1.16 W/K, 85 K above the air: 98.6 W.
    /// ```
    /// use leeside::physics::heating::Loss;
    /// use leeside::units::Temperature;
    /// let air = Temperature::celsius(15.0);
    /// let loss = Loss { watts_per_kelvin: 1.16, air, open: None };
    /// assert!((loss.dry(Temperature::celsius(100.0)).in_watts() - 98.6).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn dry(&self, pot: Temperature) -> Power {
        Power::watts(self.watts_per_kelvin * (pot - self.air).kelvins())
    }

    /// The whole loss: [`Loss::dry`] and, without a lid, [`OpenTop::evaporation`].
    ///
    /// Formula: q = h A (T - T_air) + evaporation.
    ///
    /// Valid: as its parts.
    ///
    /// Source: as its parts.
    ///
    /// Example: with a lid it is the dry loss.
    /// ```
    /// use leeside::physics::heating::Loss;
    /// use leeside::units::Temperature;
    /// let loss = Loss { watts_per_kelvin: 1.0, air: Temperature::celsius(0.0), open: None };
    /// let boil = Temperature::celsius(100.0);
    /// assert_eq!(loss.at(boil), loss.dry(boil));
    /// ```
    #[must_use]
    pub fn at(&self, pot: Temperature) -> Power {
        let open = self.open.map_or(Power::ZERO, |open| open.evaporation(pot));
        self.dry(pot) + open
    }
}

/// What melting takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Snow {
    /// Specific heat of ice.
    pub heat: SpecificHeat,
    /// Heat to melt it.
    pub fusion: HeatingValue,
}

/// A pot with what is in it, from its first temperature to its last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Potful {
    /// Water, or the water that its snow gives.
    pub water: Mass,
    /// Specific heat of water.
    pub water_heat: SpecificHeat,
    /// The pot itself, J/K.
    pub pot_joules_per_kelvin: f64,
    /// At the start; snow warmer than 0 C counts as at 0 C.
    pub start: Temperature,
    /// At the end.
    pub end: Temperature,
    /// Snow in place of water.
    pub snow: Option<Snow>,
}

/// One stretch of a heating: ice, melting, or water.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Phase {
    /// Heat that stays in pot and water.
    pub heat: Energy,
    /// How long it takes.
    pub time: Time,
}

/// What becomes of a pot on a flame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heating {
    /// It gets there.
    Done {
        /// Ice up to 0 °C, melting, water: those that do not happen take no time.
        phases: [Phase; 3],
    },
    /// It never does.
    Stops {
        /// Where it stops.
        at: Temperature,
    },
}

impl Heating {
    /// Time to the end; none where it stops before.
    ///
    /// Formula: the sum of the phases' times.
    ///
    /// Valid: as [`heat`].
    ///
    /// Source: as [`heat`].
    ///
    /// Example: what never gets there takes no time.
    /// ```
    /// use leeside::physics::heating::Heating;
    /// use leeside::units::Temperature;
    /// let stuck = Heating::Stops { at: Temperature::celsius(62.0) };
    /// assert_eq!(stuck.time(), None);
    /// ```
    #[must_use]
    pub fn time(&self) -> Option<Time> {
        match self {
            Self::Done { phases } => Some(phases.iter().map(|phase| phase.time).sum()),
            Self::Stops { .. } => None,
        }
    }

    /// Heat lost to the air on the way: what flowed in less what stayed. Negative where the air is
    /// warmer than the pot. None where it stops before.
    ///
    /// Formula: the sum over the phases of flow x time - heat.
    ///
    /// Valid: as [`heat`].
    ///
    /// Source: conservation of energy.
    ///
    /// Example: a phase of 60 s at 100 W that kept 5 kJ lost 1 kJ.
    /// ```
    /// use leeside::physics::heating::{Heating, Phase};
    /// use leeside::units::{Energy, Power, Time};
    /// let one = Phase { heat: Energy::kilojoules(5.0), time: Time::seconds(60.0) };
    /// let done = Heating::Done { phases: [one, Phase::default(), Phase::default()] };
    /// let lost = done.lost(Power::watts(100.0)).unwrap();
    /// assert!((lost.in_kilojoules() - 1.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn lost(&self, flow: Power) -> Option<Energy> {
        match self {
            Self::Done { phases } => Some(
                phases
                    .iter()
                    .map(|phase| flow * phase.time - phase.heat)
                    .sum(),
            ),
            Self::Stops { .. } => None,
        }
    }
}

/// Heats a pot that loses heat on the way.
///
/// Formula: c dT/dt = Q - loss(T). With a lid t = (C / G) ln[(Q - G (T0 - Ta)) / (Q - G (T1 - Ta))],
/// C the heat capacity of water and pot, G = h A; without one the integral of C dT / (Q - loss)
/// by sixteen points of Gauss and Legendre. Snow: ice up to 0 C (dry loss), melting at
/// 0 C, water on. Where Q is under `margin` times the loss at the end it will not boil: it stops
/// at Ta + Q / (margin G), without a lid where Q is `margin` times the loss.
///
/// Valid: one lump, as warm inside as at its wall; margin 1 or more.
///
/// Source: Newton's law of cooling, integrated; the margin (1.15) is an assumption: a pot that
/// creeps to the boil in still air stops at the next gust.
///
/// Example: the reference boil (1 L from 15 C to 99.97 C in 165 g of aluminium, air 15 C) at
/// 1300 W and 1.1606 W/K: 5.78 minutes, 17.4 kJ lost.
/// ```
/// use leeside::physics::heating::{Loss, Potful, heat};
/// use leeside::units::{Mass, Power, SpecificHeat, Temperature};
/// let air = Temperature::celsius(15.0);
/// let pot = Potful {
///     water: Mass::kilograms(1.0),
///     water_heat: SpecificHeat::kilojoules_per_kilogram_kelvin(4.186),
///     pot_joules_per_kelvin: 165.0 * 0.897,
///     start: air,
///     end: Temperature::celsius(99.97),
///     snow: None,
/// };
/// let loss = Loss { watts_per_kelvin: 1.160_64, air, open: None };
/// let flow = Power::watts(0.519_983 * 0.855_853 * 2500.0);
/// let heated = heat(flow, &loss, &pot, 1.15);
/// assert!((heated.time().unwrap().in_minutes() - 5.7766).abs() < 0.001);
/// assert!((heated.lost(flow).unwrap().in_kilojoules() - 17.355).abs() < 0.01);
/// ```
#[must_use]
pub fn heat(flow: Power, loss: &Loss, pot: &Potful, margin: f64) -> Heating {
    let freezing = Temperature::celsius(0.0);
    let mut phases = [Phase::default(); 3];
    let start = if pot.snow.is_some() {
        pot.start.min(freezing)
    } else {
        pot.start
    };
    if pot.snow.is_none() && pot.end <= start {
        return Heating::Done { phases };
    }
    let stops = || Heating::Stops {
        at: stops_at(flow, loss, start, margin),
    };
    let at_end = loss.at(pot.end);
    if at_end > Power::ZERO && flow < at_end * margin {
        return stops();
    }
    let mut from = start;
    if let Some(snow) = pot.snow {
        if start < freezing {
            let capacity = joules_per_kelvin(snow.heat, pot.water) + pot.pot_joules_per_kelvin;
            let dry = Loss {
                open: None,
                ..*loss
            };
            let Some(phase) = warm(flow, &dry, capacity, start, freezing) else {
                return stops();
            };
            phases[0] = phase;
        }
        let net = flow - loss.at(freezing);
        if net <= Power::ZERO {
            return Heating::Stops { at: freezing };
        }
        let melt = snow.fusion * pot.water;
        phases[1] = Phase {
            heat: melt,
            time: melt / net,
        };
        from = freezing;
    }
    let capacity = joules_per_kelvin(pot.water_heat, pot.water) + pot.pot_joules_per_kelvin;
    match warm(flow, loss, capacity, from, pot.end) {
        Some(phase) => phases[2] = phase,
        None => return stops(),
    }
    Heating::Done { phases }
}

fn joules_per_kelvin(heat: SpecificHeat, mass: Mass) -> f64 {
    heat.in_joules_per_kilogram_kelvin() * mass.in_kilograms()
}

/// Warms a lump from one temperature to another; none where it stops before.
fn warm(
    flow: Power,
    loss: &Loss,
    capacity: f64,
    from: Temperature,
    to: Temperature,
) -> Option<Phase> {
    let rise = (to - from).kelvins();
    if rise <= 0.0 {
        return Some(Phase::default());
    }
    let heat = Energy::joules(capacity * rise);
    let seconds = if loss.open.is_none() {
        let first = (flow - loss.dry(from)).in_watts();
        let last = (flow - loss.dry(to)).in_watts();
        if first <= 0.0 || last <= 0.0 {
            return None;
        }
        heat.in_joules() / log_mean(first, last)
    } else {
        let half = rise / 2.0;
        let mut seconds = 0.0;
        for (point, weight) in POINTS {
            for side in [-point, point] {
                let at = from + Warming::of_kelvins(half * (1.0 + side));
                let net = (flow - loss.at(at)).in_watts();
                if net <= 0.0 {
                    return None;
                }
                seconds += capacity * half * weight / net;
            }
        }
        seconds
    };
    Some(Phase {
        heat,
        time: Time::seconds(seconds),
    })
}

/// The logarithmic mean of two numbers above zero.
fn log_mean(a: f64, b: f64) -> f64 {
    let (low, high) = (a.min(b), a.max(b));
    let over = (high - low) / low;
    if over < 1e-9 {
        return low;
    }
    (high - low) / libm::log1p(over)
}

/// The mean flow of heat that stays in a pot with a lid while it warms, by hand.
///
/// Formula: ((a^(1/3) + b^(1/3)) / 2)^3, a and b the flow less the loss at the start and at the
/// end: near the logarithmic mean that the integral gives, and worked with a pocket calculator.
///
/// Valid: a and b above 0; 0.01 % off where one is twice the other, 0.3 % where it is eight times.
///
/// Source: A. J. V. Underwood's rule for the mean temperature difference of heat exchangers,
/// 1933, from memory; held against the logarithm by a test.
///
/// Example: 1000 W and 700 W: 841.1 W (by the logarithm 841.1 W).
/// ```
/// use leeside::physics::heating::mean_flow;
/// use leeside::units::Power;
/// let mean = mean_flow(Power::watts(1000.0), Power::watts(700.0));
/// assert!((mean.in_watts() - 300.0 / (10.0_f64 / 7.0).ln()).abs() < 0.05);
/// ```
#[must_use]
pub fn mean_flow(start: Power, end: Power) -> Power {
    let root = (libm::cbrt(start.in_watts()) + libm::cbrt(end.in_watts())) / 2.0;
    Power::watts(root * root * root)
}

/// Where a pot stops that never boils.
fn stops_at(flow: Power, loss: &Loss, start: Temperature, margin: f64) -> Temperature {
    if loss.open.is_none() {
        let above = flow.in_watts() / (margin * loss.watts_per_kelvin);
        return loss.air + Warming::of_kelvins(above);
    }
    let mut low = start.min(loss.air) - Warming::of_kelvins(60.0);
    let mut high = Temperature::celsius(150.0);
    for _ in 0..HALVINGS {
        let middle = low.midway(high);
        if flow > loss.at(middle) * margin {
            low = middle;
        } else {
            high = middle;
        }
    }
    low.midway(high)
}

/// The flow of heat into a pot that brings it to its end in a given time.
///
/// Formula: [`heat`] without a margin, turned round by halving.
///
/// Valid: a time above 0; a pot whose end lies above its start.
///
/// Source: [`heat`].
///
/// Example: the reference boil in 5.7766 minutes takes the flow of the example there.
/// ```
/// use leeside::physics::heating::{Loss, Potful, flow_for};
/// use leeside::units::{Mass, SpecificHeat, Temperature, Time};
/// let air = Temperature::celsius(15.0);
/// let pot = Potful {
///     water: Mass::kilograms(1.0),
///     water_heat: SpecificHeat::kilojoules_per_kilogram_kelvin(4.186),
///     pot_joules_per_kelvin: 165.0 * 0.897,
///     start: air,
///     end: Temperature::celsius(99.97),
///     snow: None,
/// };
/// let loss = Loss { watts_per_kelvin: 1.160_64, air, open: None };
/// let flow = flow_for(Time::minutes(5.7766), &loss, &pot);
/// assert!((flow.in_watts() - 1112.57).abs() < 0.05);
/// ```
#[must_use]
pub fn flow_for(time: Time, loss: &Loss, pot: &Potful) -> Power {
    let capacity = joules_per_kelvin(pot.water_heat, pot.water) + pot.pot_joules_per_kelvin;
    let useful = Energy::joules(capacity * (pot.end - pot.start).kelvins());
    let worst = loss.at(pot.end).max(loss.at(pot.start)).max(Power::ZERO);
    // Between what only ever makes up for the loss and what does so all the way.
    let mut low = loss.at(pot.end).max(Power::ZERO);
    let mut high = Power::watts(useful.in_joules() / time.in_seconds()) + worst + Power::watts(1.0);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        let slow = heat(middle, loss, pot, 1.0)
            .time()
            .is_none_or(|taken| taken > time);
        if slow {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

/// The boil at which the efficiencies of a catalogue or a trial hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReferenceBoil {
    /// What is heated.
    pub pot: Potful,
    /// The pot's capacity, for its surface.
    pub capacity: Volume,
    /// The air.
    pub air: Temperature,
}

impl ReferenceBoil {
    /// The flow of heat into the pot when the reference boil, lid on, takes an efficiency of a
    /// flame's power.
    ///
    /// Formula: the boil takes t = useful / (efficiency x P); [`flow_for`] that time.
    ///
    /// Valid: efficiency and power above 0, h 0 or more.
    ///
    /// Source: definition of the reference boil (an assumption).
    ///
    /// Example: 50 % of 2.5 kW at h = 16: 1300 W, so that 52 % of the fuel's heat reaches the pot
    /// and two of them are lost again on the way.
    /// ```
    /// use leeside::physics::heating::{Potful, ReferenceBoil};
    /// use leeside::units::{Fraction, Mass, Power, SpecificHeat, Temperature, Volume};
    /// let boil = ReferenceBoil {
    ///     pot: Potful {
    ///         water: Mass::kilograms(1.0),
    ///         water_heat: SpecificHeat::kilojoules_per_kilogram_kelvin(4.186),
    ///         pot_joules_per_kelvin: 165.0 * 0.897,
    ///         start: Temperature::celsius(15.0),
    ///         end: Temperature::celsius(99.97),
    ///         snow: None,
    ///     },
    ///     capacity: Volume::litres(1.5),
    ///     air: Temperature::celsius(15.0),
    /// };
    /// let flow = boil.flow(Fraction::percent(50.0), Power::kilowatts(2.5), 16.0);
    /// assert!((flow.in_watts() / 2500.0 - 0.519_983).abs() < 1e-5);
    /// ```
    #[must_use]
    pub fn flow(&self, efficiency: Fraction, power: Power, coefficient_w_per_m2_k: f64) -> Power {
        let capacity =
            joules_per_kelvin(self.pot.water_heat, self.pot.water) + self.pot.pot_joules_per_kelvin;
        let useful = Energy::joules(capacity * (self.pot.end - self.pot.start).kelvins());
        let loss = Loss {
            watts_per_kelvin: coefficient_w_per_m2_k * surface_m2(self.capacity),
            air: self.air,
            open: None,
        };
        flow_for(useful / (power * efficiency), &loss, &self.pot)
    }
}
