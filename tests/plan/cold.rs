//! Canisters in the cold, camp by camp.

use crate::support::trips::*;
use leeside::nouns::*;
use leeside::physics::canister::{left_when_pressure_falls_to, self_cooling};
use leeside::physics::fuel::fuel_burnt;
use leeside::physics::vapour::{Liquid, bubble_pressure_raoult};
use leeside::plan::plan;
use leeside::units::*;

fn cold_trip(day: f64, night: f64) -> Trip {
    let mut camp = camp("Col", 1, 0.0);
    (camp.day, camp.night) = (Temperature::celsius(day), Temperature::celsius(night));
    camp.water = Temperature::celsius(2.0);
    trip(
        vec![camp],
        vec![kitchen(2, Family::CanisterOnTop, vec![pot(2.0, None)])],
    )
}

/// None in hand: a full 230 g of 30/70 propane and n-butane, heat balance without warming.
#[test]
fn a_row_is_the_balance_of_its_burn() {
    let plan = plan(&cold_trip(2.0, -5.0), &library()).expect("a plan");
    let kitchen = &plan.kitchens[0];
    let liquid = Liquid::of(
        Mass::grams(230.0),
        Fraction::percent(30.0),
        Fraction::ZERO,
        Fraction::percent(70.0),
    );
    assert_eq!(kitchen.cold.len(), 2);
    for (row, start) in kitchen.cold.iter().zip([2.0, -5.0]) {
        let meal = kitchen
            .rows
            .iter()
            .find(|meal| meal.meal == row.meal)
            .expect("its meal");
        let start = Temperature::celsius(start);
        let ambient = Pressure::pascals(101_325.0);
        let gauge = |t| bubble_pressure_raoult(&liquid, t).unwrap() - ambient;
        let drawn = fuel_burnt(
            Power::kilowatts(2.5),
            meal.flame,
            kitchen.fuel.heating_value,
        );
        let cooling = self_cooling(
            Mass::grams(230.0),
            Mass::grams(150.0),
            drawn,
            HeatingValue::joules_per_kilogram(370_000.0),
            SpecificHeat::kilojoules_per_kilogram_kelvin(2.4),
            SpecificHeat::kilojoules_per_kilogram_kelvin(0.46),
        );
        let end = start - cooling;
        assert!((row.fuel_temperature - end).kelvins().abs() < 1e-9);
        assert!((row.gauge_start - gauge(start)).in_pascals().abs() < 1e-6);
        assert!((row.gauge_low - gauge(end)).in_pascals().abs() < 1e-6);
        let left = left_when_pressure_falls_to(&liquid, end, ambient + Pressure::kilopascals(20.0));
        assert!((row.usable.in_one() + left.in_one() - 1.0).abs() < 1e-9);
    }
}

/// At a fuel temperature of -5 C, sea level, 70/30 n-butane and propane: 20 kPa gauge with about
/// 52 % left; isobutane in its place never falls so low. Computed with the reference equations of
/// state behind `depletion_crossing.csv`.
#[test]
fn kept_at_minus_five_half_of_a_butane_canister_stays_in() {
    let mut trip = cold_trip(-5.0, -5.0);
    trip.camps[0].fuel_temperature = Some(Temperature::celsius(-5.0));
    let row = plan(&trip, &library()).expect("a plan").kitchens[0].cold[0].clone();
    assert_eq!(row.fuel_temperature, Temperature::celsius(-5.0));
    assert!((row.usable.in_percent() - 48.0).abs() < 1.0, "{row:?}");
    assert!(row.works && row.verdict() == "works");
    trip.kitchens[0].blend = Some(blend(0.3, 0.7, 0.0));
    let row = plan(&trip, &library()).expect("a plan").kitchens[0].cold[0].clone();
    assert_eq!(row.usable, Fraction::of_one(1.0));
}

/// Common practice, no source: a butane-rich canister is weak below freezing.
#[test]
fn a_butane_rich_canister_is_weak_below_freezing() {
    let mut trip = cold_trip(-3.0, -12.0);
    trip.kitchens[0].blend = Some(blend(0.1, 0.0, 0.9));
    let plan = plan(&trip, &library()).expect("a plan");
    let [supper, breakfast] = plan.kitchens[0].cold.as_slice() else {
        panic!("two meals")
    };
    assert_ne!(supper.verdict(), "works");
    assert_eq!(breakfast.verdict(), "will not work");
    assert!(breakfast.advice.contains("body-warm") && breakfast.advice.contains("never"));
    assert!(
        plan.cautions
            .iter()
            .any(|one| one.id.starts_with("cold-canister"))
    );
}

/// Half-drawn 30/70 propane and n-butane at -6 C and sea level: about 18 kPa gauge, too little.
#[test]
fn a_half_drawn_canister_starts_from_what_is_left_in_it() {
    let mut trip = cold_trip(12.0, 8.0);
    trip.kitchens[0].people = 1;
    trip.people.learners = 1;
    trip.canisters_on_hand = vec![CanisterOnHand {
        tag: "F-014".to_owned(),
        container: "canister-230".to_owned(),
        gross: Mass::grams(265.0),
        tare: Some(Mass::grams(150.0)),
        blend: blend(0.3, 0.0, 0.7),
        blend_stated: true,
        present: None,
        connection: Connection::Thread,
    }];
    let library = library();
    trip.spare = Spare::None;
    let with = |kept: f64| {
        let mut trip = trip.clone();
        trip.camps[0].fuel_temperature = Some(Temperature::celsius(kept));
        plan(&trip, &library).expect("a plan")
    };
    let mild = with(12.0);
    assert_eq!(mild.kitchens[0].containers[0].tag.as_deref(), Some("F-014"));
    let now = mild.kitchens[0].containers[0].blend.expect("a mixture");
    let liquid = Liquid::of(Mass::grams(115.0), now.propane, now.isobutane, now.butane);
    let gauge = bubble_pressure_raoult(&liquid, Temperature::celsius(-6.0)).unwrap()
        - Pressure::pascals(101_325.0);
    assert!((gauge.in_kilopascals() - 18.0).abs() < 1.5, "{gauge:?}");
    // In the cold it stays at home.
    let cold = with(-6.0);
    assert!(
        cold.kitchens[0]
            .containers
            .iter()
            .all(|one| one.tag.is_none())
    );
}

#[test]
fn liquid_feed_keeps_its_composition_and_is_told_apart() {
    let mut trip = cold_trip(-2.0, -6.0);
    trip.kitchens[0] = kitchen(2, Family::CanisterBeside, vec![pot(2.0, None)]);
    let vapour = plan(&trip, &library()).expect("a plan");
    trip.kitchens[0].feed = Feed::Liquid;
    let liquid = plan(&trip, &library()).expect("a plan");
    for (a, b) in vapour.kitchens[0].cold.iter().zip(&liquid.kitchens[0].cold) {
        assert!(a.usable < b.usable && b.usable == Fraction::of_one(1.0));
    }
    assert!(
        liquid
            .cautions
            .iter()
            .any(|one| one.id.starts_with("liquid-feed"))
    );
    assert!(
        vapour
            .cautions
            .iter()
            .all(|one| !one.id.starts_with("liquid-feed"))
    );
}
