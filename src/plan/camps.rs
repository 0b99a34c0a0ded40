//! A camp's air: its pressure, where water boils, and how long a boil makes water safe.

use super::places;
use super::steps::{Lines, Worked};
use super::types::{CampPlan, Role};
use crate::diag::{Outcome, Problem, told};
use crate::nouns::{Basis, BoilMinutes, Camp, Constant, Id, Library, Trip};
use crate::phrase::{Phrase, phrase};
use crate::physics::{air, water};
use crate::units::{Length, Temperature, Time, Units};

/// A camp with the rounded numbers that its rows are worked from.
#[derive(Clone, Debug)]
pub(crate) struct CampWork {
    /// As the plan holds it.
    pub(crate) plan: CampPlan,
    /// Where water boils, as printed.
    pub(crate) boiling: Worked,
    /// Temperature of the water or snow, as printed, after conversion.
    pub(crate) water: Worked,
}

/// What stands behind a figure, for the end of a line: its kind and source codes.
pub(crate) fn behind<T>(figure: &Constant<T>) -> Phrase {
    known(figure.basis, &figure.sources)
}

/// How something is known, and the codes of its sources.
pub(crate) fn known(basis: Basis, sources: &[Id]) -> Phrase {
    if sources.is_empty() {
        phrase!("why-basis", basis = basis)
    } else {
        phrase!("why-basis-and-sources", basis = basis, sources = sources)
    }
}

/// The codes of sources, where there are any.
pub(crate) fn sources(codes: &[Id]) -> Phrase {
    if codes.is_empty() {
        Phrase::none()
    } else {
        phrase!("why-sources", sources = codes)
    }
}

/// The height as printed in metres, with a line for feet where the reader thinks in feet.
fn height(lines: &mut Lines, elevation: Length, units: Units) -> Worked {
    if units == Units::Us {
        let feet = Worked::given(elevation.in_feet().round());
        lines.work(
            phrase!("line-height-metres"),
            format!("{feet} x 0.3048"),
            "m",
            Phrase::none(),
        )
    } else {
        lines.given(
            phrase!("line-height"),
            Worked::four(elevation.in_metres()),
            "m",
            phrase!("why-trip"),
        )
    }
}

/// A temperature as printed in degrees Celsius, with a line for Fahrenheit where the reader
/// thinks in Fahrenheit.
pub(crate) fn temperature(
    lines: &mut Lines,
    say: Phrase,
    at: Temperature,
    units: Units,
    why: Phrase,
) -> Worked {
    if units == Units::Us {
        let fahrenheit = Worked::printed_fahrenheit(at);
        lines.work_temperature(
            phrase!("line-in-celsius", what = say),
            format!("({fahrenheit} - 32) x 5 / 9"),
            why,
        )
    } else {
        lines.given(say, Worked::hundredths(at.in_celsius()), "°C", why)
    }
}

impl Worked {
    /// Degrees Fahrenheit as a person would have written them: to 0.01, zeros cut.
    fn printed_fahrenheit(at: Temperature) -> Self {
        Self::given((at.in_fahrenheit() * 100.0).round() / 100.0)
    }
}

/// Minutes at a rolling boil at a height.
fn boil_minutes(rule: &BoilMinutes, elevation: Length) -> Time {
    // A height written in feet and a limit written in metres must not miss each other by a hair.
    const SAME_M: f64 = 1e-6;
    let Some(limit) = rule.above else {
        return rule.low;
    };
    let over = (elevation - limit).in_metres();
    let high = if rule.from_that_height {
        over >= -SAME_M
    } else {
        over > SAME_M
    };
    if high { rule.high } else { rule.low }
}

/// Works out the air of one camp.
///
/// # Errors
/// When the height or the pressure lies outside the range of the formulas, or the library has
/// no minutes for the rule set.
pub(crate) fn work(trip: &Trip, library: &Library, index: usize) -> Outcome<CampWork> {
    let camp = &trip.camps[index];
    let path = |key: &str| format!("camps[{index}].{key}");
    let mut lines = Lines::at(format!("camp.{}", places::camp(trip, index)));
    let units = trip.units;
    let outside = |key: &str, message: &'static str, help: &'static str| {
        vec![Problem::error("plan.range", message, help).at(trip.file.clone(), path(key))]
    };

    let (pressure, printed) = match camp.pressure {
        Some(read) => {
            let printed = lines.role(Role::Pressure).given(
                phrase!("line-air-pressure-read-from"),
                Worked::four(read.in_kilopascals()),
                "kPa",
                phrase!("why-trip"),
            );
            (read, printed)
        }
        None => {
            let z = height(&mut lines, camp.elevation, units);
            let pressure =
                air::pressure_us_standard_atmosphere_1976(camp.elevation).ok_or_else(|| {
                    outside(
                        "elevation",
                        "this height lies outside the standard atmosphere used here",
                        "write a height from -400 m to 11000 m",
                    )
                })?;
            let h = lines.work(
                phrase!("line-height-corrected-gravity"),
                format!("6356766 x {z} / (6356766 + {z})"),
                "m",
                phrase!("why-standard-atmosphere"),
            );
            let printed = lines.role(Role::Pressure).work(
                phrase!("line-air-pressure"),
                format!("101.325 x (1 - 0.0065 x {h} / 288.15)^5.25588"),
                "kPa",
                phrase!("why-standard-atmosphere"),
            );
            (pressure, printed)
        }
    };
    let too_thin = || {
        outside(
            "pressure",
            "water has no boiling point at this pressure in the steam tables",
            "write the air's pressure, for example `70.5 kPa`",
        )
    };
    let boiling = water::saturation_temperature_if97(pressure).ok_or_else(too_thin)?;
    let at_printed = crate::units::Pressure::kilopascals(printed.value());
    let read_off = water::saturation_temperature_if97(at_printed).ok_or_else(too_thin)?;
    let boiling_printed = lines.role(Role::Boils).given(
        phrase!("line-boils-at-pressure", pressure = printed),
        Worked::hundredths(read_off.in_celsius()),
        "°C",
        phrase!("why-steam-tables"),
    );
    let water_printed = temperature(
        lines.role(Role::Water),
        match camp.water_from {
            crate::nouns::WaterFrom::Snow => phrase!("line-snow"),
            _ => phrase!("line-water"),
        },
        camp.water,
        units,
        phrase!("why-trip"),
    );
    let rule = library
        .figures
        .boil_minutes
        .get(&trip.boil_rules)
        .ok_or_else(|| {
            vec![
                Problem::error(
                    "plan.boil-rules",
                    told!(
                        "the library has no boil minutes of {boil_rules}",
                        boil_rules = trip.boil_rules
                    ),
                    "add them to figures.yaml under `boil_minutes`",
                )
                .at(trip.file.clone(), "boil_rules"),
            ]
        })?;

    Ok(CampWork {
        plan: CampPlan {
            name: camp.name.clone(),
            slug: places::camp(trip, index),
            nights: camp.nights,
            elevation: camp.elevation,
            pressure,
            boiling,
            wind: camp.wind,
            day: camp.day,
            night: camp.night,
            water_from: camp.water_from,
            water: camp.water,
            hold: boil_minutes(&rule.value, camp.elevation),
            steps: lines.steps(),
        },
        boiling: boiling_printed,
        water: water_printed,
    })
}

/// Nights of the whole trip.
pub(crate) fn nights(camps: &[Camp]) -> u32 {
    camps.iter().map(|camp| camp.nights).sum()
}

/// The word for how a figure without a source is known.
pub(crate) fn assumption() -> Phrase {
    phrase!("why-basis", basis = Basis::Assumption)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rule_sets_change_at_their_own_height() {
        // CDC and EPA, "Making water safe in an emergency": 3 minutes above 6500 ft; EPA 5000 ft.
        let cdc = BoilMinutes {
            low: Time::minutes(1.0),
            above: Some(Length::feet(6500.0)),
            from_that_height: false,
            high: Time::minutes(3.0),
        };
        let epa = BoilMinutes {
            above: Some(Length::metres(1524.0)),
            from_that_height: true,
            ..cdc
        };
        assert_eq!(boil_minutes(&cdc, Length::feet(6500.0)).in_minutes(), 1.0);
        assert_eq!(boil_minutes(&cdc, Length::feet(6501.0)).in_minutes(), 3.0);
        assert_eq!(boil_minutes(&epa, Length::feet(5000.0)).in_minutes(), 3.0);
        assert_eq!(boil_minutes(&epa, Length::feet(4999.0)).in_minutes(), 1.0);
    }
}
