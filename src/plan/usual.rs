//! A need held against what is usual in the field.

use super::types::{CampPlan, Usual};
use crate::nouns::{Kind, Kitchen, Treatment, Trip, Washing, WaterFrom};
use crate::phrase::{Phrase, phrase};

/// Below this mean of the days' air it is no longer summer, °C.
const SHOULDER_BELOW_C: f64 = 8.0;

/// Someone alone needs more for each head: low and high end of the range times this (common
/// practice, no source: 20 to 40 % more).
const SOLO: (f64, f64) = (1.2, 1.4);

/// Holds grams a person and day against the stove's usual range for this season and kitchen.
pub(crate) fn held(trip: &Trip, kitchen: &Kitchen, camps: &[&CampPlan], grams: f64) -> Usual {
    if trip.kind == Kind::Lesson {
        return Usual::NotHeld {
            why: phrase!("usual-no-day"),
        };
    }
    if trip.treatment == Treatment::Boil {
        return Usual::NotHeld {
            why: phrase!("usual-boiled-water"),
        };
    }
    let nights: u32 = camps.iter().map(|camp| camp.nights).sum();
    let from_snow: u32 = camps
        .iter()
        .filter(|camp| camp.water_from == WaterFrom::Snow)
        .map(|camp| camp.nights)
        .sum();
    let usual = &kitchen.stove.usual;
    let mean_day = camps
        .iter()
        .map(|camp| f64::from(camp.nights) * camp.day.in_celsius())
        .sum::<f64>()
        / f64::from(nights.max(1));
    let winter = (phrase!("season-winter"), usual.winter);
    let washes_hot = matches!(
        trip.washing,
        Washing::TwoPots | Washing::ThreeBowls | Washing::ThreeBowlsHotDip
    );
    let without_snow = if mean_day < SHOULDER_BELOW_C {
        (phrase!("season-shoulder"), usual.shoulder)
    } else if washes_hot {
        (phrase!("season-summer-hot-wash"), usual.hot_wash)
    } else {
        (phrase!("season-summer-boil-only"), usual.boil_only)
    };
    let all_snow = camps.iter().all(|camp| camp.water_from == WaterFrom::Snow);
    let (season, range) = match (all_snow, from_snow) {
        (true, _) => winter,
        (_, 0) => without_snow,
        _ => mixed(
            winter,
            without_snow,
            f64::from(from_snow) / f64::from(nights.max(1)),
        ),
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
        // held as they are printed: 35 g is not outside 20 to 35 g
        inside: (low.round()..=high.round()).contains(&grams.round()),
    }
}

/// A season and its range in grams, none where the stove is no plan for it.
type Season = (Phrase, Option<(f64, f64)>);

/// The range of a trip with some nights from snow: each night counts with its own season, since
/// melting alone takes more than a whole day without snow.
fn mixed(winter: Season, other: Season, share: f64) -> Season {
    let (Some(cold), Some(mild)) = (winter.1, other.1) else {
        return if winter.1.is_none() { winter } else { other };
    };
    let at = |cold: f64, mild: f64| (share * cold + (1.0 - share) * mild).round();
    (
        phrase!("season-some-snow"),
        Some((at(cold.0, mild.0), at(cold.1, mild.1))),
    )
}
