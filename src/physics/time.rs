//! Minutes at the stove.

use crate::units::{Energy, Fraction, Power, Time};

/// Time that the flame needs to bring one batch its heat.
///
/// Formula: t = Q / (P x efficiency) (J, W; s), P being the heat of the fuel burnt.
///
/// Valid: power and efficiency above 0; full flame from the start, no lighting or set-up.
///
/// Source: definition of the thermal efficiency.
///
/// Example: 198.06 kJ (half a litre and its pot from 10 C) with 2.5 kW at 50 %: 2.64 minutes.
/// ```
/// use leeside::physics::time::minutes_per_batch;
/// use leeside::units::{Energy, Fraction, Power};
/// let heat = Energy::kilojoules(198.06);
/// let time = minutes_per_batch(heat, Power::kilowatts(2.5), Fraction::percent(50.0));
/// assert!((time.in_minutes() - 2.641).abs() < 0.001);
/// ```
#[must_use]
pub fn minutes_per_batch(useful: Energy, power: Power, efficiency: Fraction) -> Time {
    useful / (power * efficiency)
}

/// Time for several batches one after the other on one stove.
///
/// Formula: t = flame + n set-up + (n - 1) wait, n the batches.
///
/// Valid: at least one batch; none takes no time. The wait is an alcohol burner's, cold before
/// each further filling (10 minutes, assumption); other stoves wait 0.
///
/// Source: sum of the parts.
///
/// Example: two alcohol batches of 7 minutes, 2 minutes of set-up each, 10 to cool between: 28.
/// ```
/// use leeside::physics::time::minutes_for_batches;
/// use leeside::units::Time;
/// let [flame, set_up, wait] = [14.0, 2.0, 10.0].map(Time::minutes);
/// let time = minutes_for_batches(2, flame, set_up, wait);
/// assert!((time.in_minutes() - 28.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn minutes_for_batches(batches: u32, flame: Time, set_up: Time, wait: Time) -> Time {
    if batches == 0 {
        return Time::ZERO;
    }
    flame + set_up * f64::from(batches) + wait * f64::from(batches - 1)
}
