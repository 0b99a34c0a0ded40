//! How long a day is.

use crate::units::Time;

/// The sun's height at sunrise and sunset, degrees: its upper edge, seen through the air.
const AT_THE_HORIZON: f64 = -0.833;
/// The tilt of the earth's axis, degrees.
const TILT: f64 = 23.45;

/// Time from sunrise to sunset at a latitude (degrees, north positive) on a day of the year (from 1).
///
/// Formula: declination d = 23.45 degrees x sin(360 degrees x (284 + n) / 365); half a day is the
/// angle H with cos H = (sin h - sin f sin d) / (cos f cos d), 15 degrees an hour, h = -0.833
/// degrees for the sun's upper edge through the air.
///
/// Valid: 66 degrees south to 66 north, within some 10 min; beyond, where the sun does not rise or
/// set, 0 or 24 h.
///
/// Source: the declination is P. I. Cooper, Solar Energy 12 (1969); the hour angle is spherical
/// trigonometry; -0.833 degrees is the almanacs' usual sunrise. Quoted from memory.
///
/// Example: at the equator in March 12 h 7 min; at 52 degrees north in midsummer about 16.8 h.
/// ```
/// use leeside::physics::sun::day_length;
/// assert!((day_length(0.0, 80).in_minutes() - 727.0).abs() < 2.0);
/// assert!((day_length(52.0, 172).in_minutes() / 60.0 - 16.8).abs() < 0.1);
/// ```
#[must_use]
pub fn day_length(latitude: f64, day_of_year: u32) -> Time {
    let radians = |degrees: f64| degrees.to_radians();
    let year = radians(360.0 * (284.0 + f64::from(day_of_year)) / 365.0);
    let declination = radians(TILT * libm::sin(year));
    let latitude = radians(latitude);
    let cosine = (libm::sin(radians(AT_THE_HORIZON))
        - libm::sin(latitude) * libm::sin(declination))
        / (libm::cos(latitude) * libm::cos(declination));
    let half = libm::acos(cosine.clamp(-1.0, 1.0)).to_degrees();
    Time::hours(2.0 * half / 15.0)
}
