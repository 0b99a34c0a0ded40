//! A need held against what is usual in the field.

use super::types::{CampPlan, Usual};
use crate::nouns::{Kind, Kitchen, Treatment, Trip, Washing, WaterFrom};

/// Below this mean of the days' air it is no longer summer, °C.
const SHOULDER_BELOW_C: f64 = 8.0;

/// Someone alone needs more for each head: low and high end of the range times this (common
/// practice, no source: 20 to 40 % more).
const SOLO: (f64, f64) = (1.2, 1.4);

/// Holds grams a person and day against the stove's usual range for this season and kitchen.
pub(crate) fn held(trip: &Trip, kitchen: &Kitchen, camps: &[&CampPlan], grams: f64) -> Usual {
    if trip.kind == Kind::Lesson {
        return Usual::NotHeld {
            why: "a lesson is no day on the trail".to_owned(),
        };
    }
    if trip.treatment == Treatment::Boil {
        return Usual::NotHeld {
            why: "the usual ranges do not count drinking water that is boiled".to_owned(),
        };
    }
    let nights: u32 = camps.iter().map(|camp| camp.nights).sum();
    let mean_day = camps
        .iter()
        .map(|camp| f64::from(camp.nights) * camp.day.in_celsius())
        .sum::<f64>()
        / f64::from(nights.max(1));
    let all_snow = camps.iter().all(|camp| camp.water_from == WaterFrom::Snow);
    let usual = &kitchen.stove.usual;
    let (season, range) = if all_snow {
        ("winter, all from snow", usual.winter)
    } else if mean_day < SHOULDER_BELOW_C {
        ("shoulder season", usual.shoulder)
    } else if matches!(
        trip.washing,
        Washing::TwoPots | Washing::ThreeBowls | Washing::ThreeBowlsHotDip
    ) {
        ("summer, washes hot", usual.hot_wash)
    } else {
        ("summer, boil only", usual.boil_only)
    };
    let Some((low, high)) = range else {
        return Usual::NotAPlan { season };
    };
    let (low, high) = if kitchen.people == 1 {
        (low * SOLO.0, high * SOLO.1)
    } else {
        (low, high)
    };
    Usual::Held {
        season,
        low,
        high,
        inside: (low..=high).contains(&grams),
    }
}
