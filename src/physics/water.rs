//! Water: where it boils, and the heat to melt, warm and evaporate it.

use crate::units::{Energy, HeatingValue, Mass, Pressure, SpecificHeat, Temperature, Warming};

/// Coefficients n1 to n10 of region 4, IAPWS R7-97(2012), table 34.
const N: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];

/// Temperature at which water boils at an absolute pressure.
///
/// Formula: IAPWS-IF97 region 4, backward equation (30/31): with beta = p^(1/4) (p in MPa),
/// E = beta^2 + n3 beta + n6, F = n1 beta^2 + n4 beta + n7, G = n2 beta^2 + n5 beta + n8,
/// D = 2 G / (-F - (F^2 - 4 E G)^(1/2)),
/// T = (n10 + D - ((n10 + D)^2 - 4 (n9 + n10 D))^(1/2)) / 2, in kelvins.
///
/// Valid: 611.213 Pa to 22.064 MPa; `None` outside it.
///
/// Source: IAPWS R7-97(2012), Revised Release on the Industrial Formulation 1997, section 8.
///
/// Example: its table 36 gives 372.755 919 K at 0.1 MPa.
/// ```
/// use leeside::physics::water::saturation_temperature_if97;
/// use leeside::units::Pressure;
/// let t = saturation_temperature_if97(Pressure::kilopascals(100.0)).unwrap();
/// assert!((t.in_kelvin() - 372.755_919).abs() < 1e-6);
/// ```
#[must_use]
pub fn saturation_temperature_if97(p: Pressure) -> Option<Temperature> {
    if !(611.213..=22.064e6).contains(&p.in_pascals()) {
        return None;
    }
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N;
    let beta = p.in_megapascals().sqrt().sqrt();
    let e = beta * beta + n3 * beta + n6;
    let f = n1 * beta * beta + n4 * beta + n7;
    let g = n2 * beta * beta + n5 * beta + n8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = n10 + d;
    let kelvin = (sum - (sum * sum - 4.0 * (n9 + n10 * d)).sqrt()) / 2.0;
    Some(Temperature::kelvin(kelvin))
}

/// Absolute pressure at which water boils at a temperature.
///
/// Formula: IAPWS-IF97 region 4, basic equation (29/30): with theta = T + n9 / (T - n10) (T in K),
/// A = theta^2 + n1 theta + n2, B = n3 theta^2 + n4 theta + n5, C = n6 theta^2 + n7 theta + n8,
/// p = (2 C / (-B + (B^2 - 4 A C)^(1/2)))^4, in MPa.
///
/// Valid: 273.15 to 647.096 K; `None` outside it.
///
/// Source: IAPWS R7-97(2012), Revised Release on the Industrial Formulation 1997, section 8.
///
/// Example: its table 35 gives 2.638 897 76 MPa at 500 K.
/// ```
/// use leeside::physics::water::saturation_pressure_if97;
/// use leeside::units::Temperature;
/// let p = saturation_pressure_if97(Temperature::kelvin(500.0)).unwrap();
/// assert!((p.in_megapascals() - 2.638_897_76).abs() < 1e-8);
/// ```
#[must_use]
pub fn saturation_pressure_if97(t: Temperature) -> Option<Pressure> {
    let kelvin = t.in_kelvin();
    if !(273.15..=647.096).contains(&kelvin) {
        return None;
    }
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N;
    let theta = kelvin + n9 / (kelvin - n10);
    let a = theta * theta + n1 * theta + n2;
    let b = n3 * theta * theta + n4 * theta + n5;
    let c = n6 * theta * theta + n7 * theta + n8;
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    let squared = root * root;
    Some(Pressure::pascals(squared * squared * 1e6))
}

/// Heat to warm a mass of water, or of a pot, by a difference of temperatures.
///
/// Formula: Q = m c dT (kg, J/(kg K), K; J). A negative warming gives negative heat.
///
/// Valid: where one specific heat will do; for water 4.186 kJ/(kg K) and 1 kg a litre keep
/// within 0.5 % of IAPWS-IF97 from water of 0-30 C up to the boil, within 0.8 % from 40 C.
///
/// Source: definition of the specific heat; 4.186 kJ/(kg K) as in the Water Boiling Test 4.2.3.
///
/// Example: 1 kg of water from 15 C to 100 C takes 355.81 kJ.
/// ```
/// use leeside::physics::water::heat_to_warm;
/// use leeside::units::{Mass, SpecificHeat, Warming};
/// let c = SpecificHeat::kilojoules_per_kilogram_kelvin(4.186);
/// let heat = heat_to_warm(Mass::kilograms(1.0), c, Warming::of_kelvins(85.0));
/// assert!((heat.in_kilojoules() - 355.81).abs() < 1e-9);
/// ```
#[must_use]
pub fn heat_to_warm(mass: Mass, c: SpecificHeat, by: Warming) -> Energy {
    c * mass * by
}

/// Heat to turn snow or ice into water at 0 C.
///
/// Formula: Q = m (c_ice (0 - T_snow) + L_fusion) (kg, J/(kg K), C, J/kg; J).
///
/// Valid: snow at -30 to 0 C with c_ice 2.10 kJ/(kg K) (within 1 % of IAPWS R10-06); snow
/// stated warmer than 0 C counts as at 0 C. Dry snow: water already in it needs no melting.
///
/// Source: heat balance; values checked against IAPWS R10-06(2009), ice Ih.
///
/// Example: 2 kg of snow at -5 C, 2.10 kJ/(kg K), 333.55 kJ/kg: 688.1 kJ.
/// ```
/// use leeside::physics::water::heat_to_melt;
/// use leeside::units::{HeatingValue, Mass, SpecificHeat, Temperature};
/// let heat = heat_to_melt(
///     Mass::kilograms(2.0),
///     SpecificHeat::kilojoules_per_kilogram_kelvin(2.10),
///     Temperature::celsius(-5.0),
///     HeatingValue::joules_per_kilogram(333_550.0),
/// );
/// assert!((heat.in_kilojoules() - 688.1).abs() < 1e-9);
/// ```
#[must_use]
pub fn heat_to_melt(
    mass: Mass,
    ice_heat: SpecificHeat,
    snow: Temperature,
    fusion: HeatingValue,
) -> Energy {
    let warming = (Temperature::celsius(0.0) - snow).max(Warming::ZERO);
    ice_heat * mass * warming + fusion * mass
}

/// Heat that leaves with steam.
///
/// Formula: Q = m L (kg, J/kg; J).
///
/// Valid: 2260 kJ/kg is within 1 % of IAPWS-IF97 at the boil up to 3000 m, within 2.2 % up to 6000 m.
///
/// Source: definition of the latent heat; 2260 kJ/kg as in the Water Boiling Test 4.2.3.
///
/// Example: 15 g boiled away at 2260 kJ/kg took 33.9 kJ.
/// ```
/// use leeside::physics::water::heat_to_evaporate;
/// use leeside::units::{HeatingValue, Mass};
/// let latent = HeatingValue::joules_per_kilogram(2.26e6);
/// let heat = heat_to_evaporate(Mass::grams(15.0), latent);
/// assert!((heat.in_kilojoules() - 33.9).abs() < 1e-9);
/// ```
#[must_use]
pub fn heat_to_evaporate(mass: Mass, latent: HeatingValue) -> Energy {
    latent * mass
}
