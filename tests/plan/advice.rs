//! Advice from the plan's own sums: pots, snow, flame to teach with, the lightest kit, wind.

use crate::support::content;
use crate::support::trips::*;
use leeside::nouns::*;
use leeside::plan::{Advice, Allowed, PotLimit, advice, plan, plan_of_own_stoves};
use leeside::units::*;

fn advised(trip: &Trip) -> Advice {
    let library = library();
    advice(
        trip,
        &library,
        &plan_of_own_stoves(trip, &library).expect("a plan"),
    )
}

/// Ten people's supper of 6 L: in a 3 L pot, three quarters full, three batches (2.25 L each).
#[test]
fn the_pot_takes_the_fewest_batches_and_is_no_larger_than_it_must_be() {
    let mut trip = one_night();
    trip.kitchens[0].people = 10;
    trip.camps[0].menu.supper = boil(0.6);
    trip.camps[0].menu.breakfast = MealNeed::COLD;
    trip.camps[0].menu.drinks = MealNeed::COLD;
    let found = advised(&trip);
    let pot = found.kitchens[0].pot.as_ref().expect("a pot");
    assert_eq!((pot.now, pot.meal), (3, Meal::Supper));
    let better = pot.better.expect("fewer batches");
    // 6 L / 0.75 is 8 L
    assert_eq!(better.batches, 1);
    assert_eq!(better.capacity, Volume::litres(8.0));
    assert_eq!(pot.limit, PotLimit::OneBatch);
    let tilt = better.tilt.expect("a tilt").in_degrees();
    assert!((5.0..45.0).contains(&tilt), "{tilt}");
}

/// On a canister nothing above the stove's own limit is advised.
#[test]
fn no_pot_is_advised_that_its_stove_is_warned_of() {
    let mut trip = one_night();
    trip.kitchens[0] = kitchen(5, Family::CanisterOnTop, vec![pot(1.0, None)]);
    let most = trip.kitchens[0].stove.warn_pot_above.expect("a limit");
    let found = advised(&trip);
    let pot = found.kitchens[0].pot.as_ref().expect("a pot");
    let better = pot.better.expect("fewer batches");
    assert!(better.capacity <= most && better.batches < pot.now);
    assert!(
        matches!(pot.limit, PotLimit::Bears(limit) if limit == most),
        "{pot:?}"
    );
}

/// A weak flame in the cold wind: what would never boil is not advised, and the reason says so.
#[test]
fn no_pot_is_advised_that_never_boils() {
    let mut trip = one_night();
    trip.kitchens[0] = kitchen(4, Family::Tablet, vec![pot(0.9, None)]);
    let camp = &mut trip.camps[0];
    (camp.wind, camp.elevation) = (Wind::Breezy, Length::metres(500.0));
    camp.day = Temperature::celsius(-2.0);
    camp.night = Temperature::celsius(-3.0);
    camp.water = Temperature::celsius(1.0);
    let found = advised(&trip);
    let Some(pot) = &found.kitchens[0].pot else {
        panic!("it boils in the small pot")
    };
    let PotLimit::NeverBoils(never) = pot.limit else {
        panic!("{pot:?}")
    };
    // the plan itself, with that pot, says the same
    trip.kitchens[0].pots = vec![leeside::nouns::Pot {
        capacity: never,
        ..trip.kitchens[0].pots[0].clone()
    }];
    let plan = plan_of_own_stoves(&trip, &library()).expect("a plan");
    assert!(!plan.kitchens[0].boils(), "a pot of {never:?} boils");
}

#[test]
fn a_burners_filling_is_the_limit_whatever_the_pot() {
    let mut trip = one_night();
    trip.kitchens[0] = kitchen(3, Family::Alcohol, vec![pot(1.5, None)]);
    trip.kitchens[0].screen = Screen::Full;
    trip.camps[0].wind = Wind::Calm;
    let found = advised(&trip);
    let mine = &found.kitchens[0];
    assert_eq!(
        mine.pot.as_ref().map(|pot| pot.limit),
        Some(PotLimit::Filling)
    );
    // 50 mL x 0.789 g/mL x 26.8 kJ/g / 1 kW = 1057 s (density and heating value: CRC handbook, as
    // the library has them)
    let burn = mine.burn.as_ref().expect("a burn");
    assert!((burn.full.in_seconds() - 1057.3).abs() < 1.0, "{burn:?}");
    assert!(burn.container.is_none() && burn.least.is_none());
}

/// 226 g that can be burnt x 45.91 kJ/g / 2.5 kW: about 69 min, by hand.
#[test]
fn a_canister_burns_as_long_as_its_heat_lasts() {
    let mut trip = one_night();
    trip.kitchens[0] = kitchen(4, Family::CanisterOnTop, vec![pot(1.5, None)]);
    trip.camps[0].nights = 3;
    let found = advised(&trip);
    let burn = found.kitchens[0].burn.as_ref().expect("a burn");
    let by_hand = burn.fuel.in_grams() * 45.9 / 2.5 / 60.0;
    assert!((burn.full.in_minutes() / by_hand - 1.0).abs() < 0.01);
    let least = burn.least.expect("it can be turned down");
    assert!((least / burn.full - 2500.0 / 350.0).abs() < 1e-9);
}

#[test]
fn snow_is_melted_at_the_rate_of_its_row() {
    let mut trip = one_night();
    assert!(advised(&trip).kitchens[0].melting.is_empty());
    trip.camps[0].nights = 2;
    trip.camps[0].water_from = WaterFrom::Snow;
    trip.camps[0].water = Temperature::celsius(-8.0);
    trip.camps[0].drinking = Volume::litres(4.0);
    let found = advised(&trip);
    let melt = found.kitchens[0].melting[0];
    // five people, 4 L each
    assert!((melt.a_day.in_litres() - 20.0).abs() < 1e-9);
    let rate = melt.a_day.in_litres() / melt.time.in_hours();
    assert!((rate - melt.in_an_hour.in_litres()).abs() < 1e-9);
    // Less than the burner's whole heat would melt at 2.7 kW x 42 %: 0.38 MJ a litre
    // (334 kJ/kg to melt, CRC handbook, and the warming) is 10.8 L an hour, without set-up.
    assert!((3.0..10.8).contains(&rate), "{rate}");
}

#[test]
fn the_lightest_kit_is_the_least_of_those_that_may_be_lit() {
    let library = content::library();
    let mut trip = one_night();
    assert_eq!(
        advised(&trip).lightest,
        None,
        "nothing is compared, nothing said"
    );
    for stoves in [StoveRule::Yes, StoveRule::WithShutOff] {
        trip.restrictions.stoves = Some(stoves);
        let plan = plan(&trip, &library).expect("a plan");
        let kit = advice(&trip, &library, &plan).lightest.expect("a kit");
        assert_eq!(kit.allowed, Allowed::Yes);
        for row in &plan.comparison {
            if row.allowed == Allowed::Yes
                && let Some(carried) = &row.carried
            {
                assert!(carried.start >= kit.start, "{}", row.stove);
            }
        }
    }
}

/// Over open grass (roughness 0.03 m, WMO-No. 8, second-hand) the logarithmic law leaves
/// ln(10) / ln(333.3) = 0.396 of the wind 10 m up at 0.3 m: 2.2 and 4.5 m/s, the ends of calm and
/// breezy, are forecasts of 5.5 and 11.4 m/s.
#[test]
fn a_forecast_is_brought_down_to_the_stove() {
    let wind = advised(&one_night()).wind;
    assert!((wind.share.in_one() - 10f64.ln() / (1000f64 / 3.0).ln()).abs() < 1e-9);
    assert!((wind.calm_below - 5.55).abs() < 0.01, "{wind:?}");
    assert!((wind.breezy_below - 11.35).abs() < 0.01, "{wind:?}");
}
