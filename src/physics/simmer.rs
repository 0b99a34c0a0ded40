//! Holding a boil: the heat a pot loses, the flame it takes, and for how long.

use crate::units::{Fraction, Power, Temperature, Time};

/// The boiling point that a recipe's simmer minutes mean: water at sea level, in round numbers.
pub const SEA_LEVEL_BOIL: Temperature = Temperature::celsius(100.0);

/// Power of the flame, in fuel burnt, that gives a hold power.
///
/// Formula: P_fuel = max(P_hold / share, least flame). The share of the fuel's heat that reaches
/// the pot is that in still air, because the wind is in the hold power already.
///
/// Valid: a share above 0, at most 1.
///
/// Source: definition of the share; the least flame is the burner's (catalogue).
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
pub fn fuel_power(hold: Power, share_in_still_air: Fraction, least: Power) -> Power {
    (hold / share_in_still_air).max(least)
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
