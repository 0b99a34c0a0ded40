//! Holding a boil: the heat a pot loses, the flame it takes, and for how long.

use crate::units::{Fraction, Power, Temperature, Time, Volume, Warming};
use std::f64::consts::PI;

/// The boiling point that a recipe's simmer minutes mean: water at sea level, in round numbers.
pub const SEA_LEVEL_BOIL: Temperature = Temperature::celsius(100.0);

/// Useful power that holds a pot at the boil: what its surface loses to the air.
///
/// Formula: P = h A (T_boil - T_air) x lid factor, with A = 1.5 pi D^2 and D = (4 V / pi)^(1/3)
/// (a cylinder as tall as wide, lid and bottom counted; h in W/(m2 K), A in m2, V the pot's
/// capacity in m3; W).
///
/// Valid: pots of about 0.5-10 L; h by wind is an assumption (16 calm, 30 breezy, 45 windy).
/// Air warmer than the boil loses nothing. The lid factor is 1 with a lid, about 1.6 without.
///
/// Source: Newton's law of cooling; coefficients are assumptions; the lid factor from one
/// author's measurement (N. Terry, Energy Surprises, 2011: 60 % more gas without a lid).
///
/// Example: a 2 L pot (D = 136.6 mm, A = 0.0879 m2) at 100 C in 10 C air, h = 30: 237 W.
/// ```
/// use leeside::physics::simmer::hold_power;
/// use leeside::units::{Temperature, Volume};
/// let boil = Temperature::celsius(100.0);
/// let power = hold_power(30.0, Volume::litres(2.0), boil, Temperature::celsius(10.0), 1.0);
/// assert!((power.in_watts() - 237.3).abs() < 1.0);
/// ```
#[must_use]
pub fn hold_power(
    coefficient_w_per_m2_k: f64,
    capacity: Volume,
    boiling: Temperature,
    air: Temperature,
    lid_factor: f64,
) -> Power {
    let diameter_m = libm::cbrt(4.0 * capacity.in_litres() * 1e-3 / PI);
    let area_m2 = 1.5 * PI * diameter_m * diameter_m;
    let warmer = (boiling - air).max(Warming::ZERO);
    Power::watts(coefficient_w_per_m2_k * area_m2 * warmer.kelvins() * lid_factor)
}

/// Power of the flame, in fuel burnt, that gives a hold power.
///
/// Formula: P_fuel = max(P_hold / efficiency, least flame). The efficiency is that in still
/// air, because the wind is in the hold power already.
///
/// Valid: efficiency above 0, at most 1.
///
/// Source: definition of the efficiency; the least flame is the burner's (catalogue).
///
/// Example: 240 W at 48 % is a flame of 500 W; a burner that cannot go below 600 W burns 600 W.
/// ```
/// use leeside::physics::simmer::fuel_power;
/// use leeside::units::{Fraction, Power};
/// let hold = Power::watts(240.0);
/// let fine = fuel_power(hold, Fraction::percent(48.0), Power::watts(350.0));
/// assert!((fine.in_watts() - 500.0).abs() < 1e-9);
/// let coarse = fuel_power(hold, Fraction::percent(48.0), Power::watts(600.0));
/// assert_eq!(coarse.in_watts(), 600.0);
/// ```
#[must_use]
pub fn fuel_power(hold: Power, efficiency_in_still_air: Fraction, least: Power) -> Power {
    (hold / efficiency_in_still_air).max(least)
}

/// Minutes to simmer where water boils cooler than in the recipe.
///
/// Formula: t = t_sea x factor^((T_reference - T_boil) / 10 K).
///
/// Valid: boiling points of about 80-101 C and food that cooks by temperature; the factor is
/// 1.6 for ten kelvins (between 1.5 and 2), the reference [`SEA_LEVEL_BOIL`].
///
/// Source: common practice, no source (1.5 to 2 times the minutes at 90 C).
///
/// Example: at 1524 m (5000 ft) water boils at 94.90 C: 1.27 times the minutes.
/// ```
/// use leeside::physics::simmer::{SEA_LEVEL_BOIL, minutes_at_height};
/// use leeside::units::{Temperature, Time};
/// let boil = Temperature::celsius(94.90);
/// let time = minutes_at_height(Time::minutes(10.0), boil, 1.6, SEA_LEVEL_BOIL);
/// assert!((time.in_minutes() - 12.7).abs() < 0.01);
/// ```
#[must_use]
pub fn minutes_at_height(
    sea_level: Time,
    boiling: Temperature,
    factor_per_ten_kelvin: f64,
    reference: Temperature,
) -> Time {
    let cooler = (reference - boiling).kelvins();
    sea_level * libm::pow(factor_per_ten_kelvin, cooler / 10.0)
}
