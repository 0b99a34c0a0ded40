//! Distances counted in a walker's own steps.

use crate::units::Length;

/// Steps that cover a distance, to the nearest whole one.
///
/// Formula: n = distance / step, rounded to the nearest (a half up).
///
/// Valid: a step above 0 (else 0 steps); about 0.4-1 m for people, measured by the walker.
///
/// Source: arithmetic; the step is the user's own.
///
/// Example: 200 ft (60.96 m) are 80 steps of 0.76 m, 102 of 0.60 m.
/// ```
/// use leeside::physics::walking::steps;
/// use leeside::units::Length;
/// let distance = Length::feet(200.0);
/// assert_eq!(steps(distance, Length::metres(0.76)), 80);
/// assert_eq!(steps(distance, Length::metres(0.60)), 102);
/// ```
#[must_use]
pub fn steps(distance: Length, step: Length) -> u32 {
    if distance <= Length::ZERO || step <= Length::ZERO {
        return 0;
    }
    // `as` keeps to the range of u32 at both ends and makes NaN 0.
    (distance / step).round() as u32
}
