//! Air pressure, boiling point, and the properties of water, ice and steam.

use super::{FUSION, ICE, STEAM, WATER, near, near_share, table};
use leeside::physics::air::pressure_us_standard_atmosphere_1976;
use leeside::physics::water::{
    heat_to_evaporate, heat_to_melt, heat_to_warm, saturation_pressure_if97,
    saturation_temperature_if97,
};
use leeside::units::{Length, Mass, Pressure, Temperature};

/// U.S. Standard Atmosphere 1976 and IAPWS-IF97, by the libraries named in the table.
#[test]
fn boiling_point_by_elevation() {
    for row in table(
        include_str!("../reference/boiling_point_by_elevation.csv"),
        95,
    ) {
        let z = row.number("elevation_m");
        let p = pressure_us_standard_atmosphere_1976(Length::metres(z)).expect("within range");
        near_share(
            "pressure",
            p.in_pascals(),
            row.number("p_geom_fluids_Pa"),
            1e-5,
        );
        let t = saturation_temperature_if97(p)
            .expect("within range")
            .in_celsius();
        near(
            &format!("boil at {z} m"),
            t,
            row.number("Tsat_geom_IF97_C"),
            0.02,
        );
        near(
            &format!("boil at {z} m"),
            t,
            row.number("Tsat_geom_CoolProp_C"),
            0.02,
        );
    }
}

/// U.S. Standard Atmosphere 1976: beyond the table above, where this formula ends.
#[test]
fn pressure_has_an_end() {
    let at = |m| pressure_us_standard_atmosphere_1976(Length::metres(m));
    assert!(at(-400.0).is_some() && at(11_000.0).is_some());
    for outside in [-400.1, 11_000.1, f64::NAN, f64::INFINITY] {
        assert_eq!(at(outside), None, "{outside} m");
    }
    // 226.999 hPa at 11 km geometric (the standard's table I, value from memory).
    near_share(
        "11 km",
        at(11_000.0).expect("in range").in_hectopascals(),
        226.999,
        5e-5,
    );
}

/// IAPWS R7-97(2012), tables 35 and 36: the published verification values to all printed digits.
#[test]
fn region_4_to_all_printed_digits() {
    for row in table(
        include_str!("../reference/if97_region4_verification.csv"),
        6,
    ) {
        let (input, printed) = (row.number("input"), row.text("published"));
        let value = match row.text("quantity") {
            "Tsat_K_at_p_MPa" => saturation_temperature_if97(Pressure::pascals(input * 1e6))
                .expect("within range")
                .in_kelvin(),
            "psat_MPa_at_T_K" => saturation_pressure_if97(Temperature::kelvin(input))
                .expect("within range")
                .in_megapascals(),
            other => panic!("unknown quantity {other}"),
        };
        let decimals = printed
            .split_once('.')
            .map_or(0, |(_, digits)| digits.len());
        assert_eq!(format!("{value:.decimals$}"), printed);
    }
}

/// The range that IAPWS R7-97(2012) section 8 states.
#[test]
fn region_4_has_ends() {
    let t = |pa| saturation_temperature_if97(Pressure::pascals(pa));
    assert!(t(611.213).is_some() && t(22.064e6).is_some());
    assert!(t(611.0).is_none() && t(22.065e6).is_none() && t(f64::NAN).is_none());
    let p = |k| saturation_pressure_if97(Temperature::kelvin(k));
    assert!(p(273.2).is_some() && p(647.0).is_some());
    assert!(p(273.0).is_none() && p(647.1).is_none() && p(f64::NAN).is_none());
}

/// One specific heat and 1 kg a litre against IAPWS-IF97 enthalpy and density.
#[test]
fn heat_of_a_litre_from_cold_to_the_boil() {
    let rows = table(include_str!("../reference/water_properties.csv"), 20);
    // The enthalpies of the boiling water at 0, 1500 and 4000 m (worked_examples.csv).
    for (boil, boiling_enthalpy) in [(99.9743, 418.9907), (94.9842, 397.9519), (86.6277, 362.787)] {
        for row in rows.iter().filter(|row| row.number("T_C") <= 40.0) {
            let from = row.number("T_C");
            let warming = Temperature::celsius(boil) - Temperature::celsius(from);
            let heat = heat_to_warm(Mass::kilograms(1.0), WATER, warming).in_kilojoules();
            let expected =
                row.number("rho_IF97_kg_L") * (boiling_enthalpy - row.number("h_IF97_J_g"));
            let share = if from <= 30.0 { 0.005 } else { 0.008 };
            near_share(
                &format!("a litre from {from} to {boil} C"),
                heat,
                expected,
                share,
            );
        }
    }
}

/// Ice warmed and melted against IAPWS R10-06(2009) and IF97: 0.5 % down to -20 C, 1 % to -30 C.
#[test]
fn heat_to_melt_snow() {
    let rows = table(include_str!("../reference/ice_properties.csv"), 12);
    let fusion = rows
        .iter()
        .find(|row| row.text("quantity") == "latent heat of fusion")
        .expect("the library's latent heat comes first")
        .number("value");
    near_share(
        "latent heat",
        FUSION.in_joules_per_kilogram() / 1000.0,
        fusion,
        0.001,
    );
    let mut checked = 0;
    for row in rows
        .iter()
        .filter(|row| row.text("quantity").starts_with("enthalpy of ice"))
    {
        let t = row.number("T_C");
        let heat = heat_to_melt(Mass::kilograms(1.0), ICE, Temperature::celsius(t), FUSION);
        let share = if t >= -20.0 { 0.005 } else { 0.01 };
        near_share(
            &format!("a kilogram at {t} C"),
            heat.in_kilojoules(),
            row.number("value") + fusion,
            share,
        );
        checked += 1;
    }
    assert_eq!(checked, 6);
    let warm = heat_to_melt(Mass::kilograms(1.0), ICE, Temperature::celsius(3.0), FUSION);
    assert_eq!(
        warm.in_joules(),
        333_550.0,
        "snow stated above 0 C gives nothing back"
    );
}

/// The Water Boiling Test's one latent heat against IAPWS-IF97 by elevation.
#[test]
fn latent_heat_by_elevation() {
    for row in table(
        include_str!("../reference/water_latent_heat_by_elevation.csv"),
        13,
    ) {
        let z = row.number("elevation_m");
        let heat = heat_to_evaporate(Mass::grams(1.0), STEAM).in_joules();
        let share = if z <= 3000.0 { 0.01 } else { 0.022 };
        near_share(
            &format!("steam at {z} m"),
            heat,
            row.number("hfg_IF97_J_g"),
            share,
        );
    }
}
