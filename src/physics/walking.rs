//! Distances counted in a walker's own steps.

use crate::units::Length;

/// Whole steps that cover a distance: rounded up, so that nobody stops short of it.
///
/// Formula: n = distance / step, up to the next whole step (a thousandth of one over is none).
///
/// Valid: a step above 0 (else 0 steps); about 0.4-1 m for people, measured by the walker.
///
/// Source: arithmetic; the step is the user's own.
///
/// Example: 200 ft (60.96 m) are 81 steps of 0.76 m, 102 of 0.60 m.
/// ```
/// use leeside::physics::walking::steps;
/// use leeside::units::Length;
/// let distance = Length::feet(200.0);
/// assert_eq!(steps(distance, Length::metres(0.76)), 81);
/// assert_eq!(steps(distance, Length::metres(0.60)), 102);
/// ```
#[must_use]
pub fn steps(distance: Length, step: Length) -> u32 {
    if distance <= Length::ZERO || step <= Length::ZERO {
        return 0;
    }
    // `as` keeps to the range of u32 at both ends and makes NaN 0.
    (distance / step - 1e-3).ceil() as u32
}
