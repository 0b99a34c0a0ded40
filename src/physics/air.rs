//! The air: its pressure by height.

use crate::units::{Length, Pressure};

/// Lowest and highest geometric elevation of the troposphere formula as used here, metres.
const ELEVATION_M: std::ops::RangeInclusive<f64> = -400.0..=11_000.0;

/// Air pressure of the standard atmosphere at a geometric elevation above sea level.
///
/// Formula: H = r0 z / (r0 + z) with r0 = 6 356 766 m;
/// p = 101 325 Pa (1 - 0.0065 H / 288.15)^5.25588 (z, H in metres).
///
/// Valid: -400 to 11 000 m (geometric); `None` outside it.
///
/// Source: U.S. Standard Atmosphere, 1976 (NOAA, NASA, USAF; NOAA-S/T 76-1562); the same
/// as ISO 2533:1975 at these heights.
///
/// Example: 2500 m has 74 691.8 Pa.
/// ```
/// use leeside::physics::air::pressure_us_standard_atmosphere_1976;
/// use leeside::units::Length;
/// let p = pressure_us_standard_atmosphere_1976(Length::metres(2500.0)).unwrap();
/// assert!((p.in_pascals() - 74_691.8).abs() < 0.2);
/// assert!(pressure_us_standard_atmosphere_1976(Length::metres(12_000.0)).is_none());
/// ```
#[must_use]
pub fn pressure_us_standard_atmosphere_1976(elevation: Length) -> Option<Pressure> {
    const EARTH_RADIUS_M: f64 = 6_356_766.0;
    const SEA_LEVEL_PA: f64 = 101_325.0;
    const SEA_LEVEL_K: f64 = 288.15;
    const LAPSE_K_PER_M: f64 = 0.0065;
    const EXPONENT: f64 = 5.255_88;

    let z = elevation.in_metres();
    if !ELEVATION_M.contains(&z) {
        return None;
    }
    let geopotential = EARTH_RADIUS_M * z / (EARTH_RADIUS_M + z);
    let ratio = 1.0 - LAPSE_K_PER_M * geopotential / SEA_LEVEL_K;
    Some(Pressure::pascals(SEA_LEVEL_PA * libm::pow(ratio, EXPONENT)))
}
