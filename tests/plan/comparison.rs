//! Stoves side by side, how they stand, and what the trade knows about them.

use crate::support::content;
use crate::support::trips::*;
use leeside::compose::catalogue::text;
use leeside::nouns::*;
use leeside::physics::stability as statics;
use leeside::plan::{Allowed, Carried, ComparisonRow, Plan, plan};
use leeside::units::*;

fn worked(trip: &Trip) -> Plan {
    plan(trip, &content::library()).expect("a plan")
}

fn row<'a>(plan: &'a Plan, stove: &str) -> &'a ComparisonRow {
    plan.comparison
        .iter()
        .find(|row| row.stove == stove)
        .expect("a stove")
}

fn carried<'a>(plan: &'a Plan, stove: &str) -> &'a Carried {
    let carried = row(plan, stove).carried.as_ref();
    carried.unwrap_or_else(|| panic!("every pot boils on {stove}"))
}

fn summer(nights: u32, people: u32) -> Trip {
    let mut camp = camp("Reed bank", nights, 500.0);
    camp.wind = Wind::Calm;
    trip(
        vec![camp],
        vec![kitchen(people, Family::CanisterOnTop, vec![pot(1.5, None)])],
    )
}

/// Common practice, no source: alcohol takes two to four times a canister stove's minutes.
#[test]
fn alcohol_takes_two_to_four_times_a_canister_stoves_minutes() {
    for wind in [Wind::Calm, Wind::Breezy] {
        let mut trip = summer(2, 2);
        trip.camps[0].wind = wind;
        let plan = worked(&trip);
        let minutes = |stove: &str| carried(&plan, stove).minutes_per_litre;
        let times = minutes("alcohol") / minutes("canister-on-top");
        assert!((2.0..=4.0).contains(&times), "{wind}: {times}");
    }
}

/// Common practice, no source: a solo pot needs two boils for two rehydrated meals.
#[test]
fn a_solo_pot_needs_two_boils_for_two_meals() {
    let mut trip = summer(1, 2);
    trip.kitchens[0].pots = vec![pot(0.9, None)];
    trip.camps[0].menu.supper = boil(0.45);
    let plan = worked(&trip);
    let supper = plan.kitchens[0]
        .rows
        .iter()
        .find(|row| row.meal == Meal::Supper)
        .expect("supper");
    assert_eq!(supper.batches.len(), 2);
}

/// Common practice, no source: white gas is heavier for a night or two and lighter on long windy
/// or snow trips.
#[test]
fn white_gas_is_lighter_on_long_windy_trips_and_heavier_for_a_night() {
    let mut trip = summer(3, 4);
    trip.camps[0].wind = Wind::Windy;
    trip.camps[0].water_from = WaterFrom::Snow;
    trip.camps[0].water = Temperature::celsius(-2.0);
    trip.camps[0].drinking = Volume::litres(4.0);
    let plan = worked(&trip);
    let (gas, white) = (row(&plan, "canister-on-top"), row(&plan, "white-gas"));
    assert_eq!(gas.by_nights.len(), 14);
    assert!(white.by_nights[13] < gas.by_nights[13]);
    let crossing = plan
        .crossings
        .iter()
        .find(|one| one.before == "canister-on-top" && one.after == "white-gas");
    let calm = worked(&summer(2, 2));
    for night in 0..2 {
        assert!(
            row(&calm, "white-gas").by_nights[night]
                > row(&calm, "canister-on-top").by_nights[night]
        );
    }
    if let Some(crossing) = crossing {
        let at = crossing.nights as usize - 1;
        assert!(
            white.by_nights[at] < gas.by_nights[at]
                && white.by_nights[at - 1] >= gas.by_nights[at - 1]
        );
    }
}

/// Not stated is not known, never allowed.
#[test]
fn restrictions_decide_what_is_allowed() {
    let mut trip = summer(2, 2);
    let plan = worked(&trip);
    assert_eq!(plan.comparison.len(), 7);
    assert!(
        plan.comparison
            .iter()
            .all(|row| row.allowed != Allowed::Yes && row.why.is_some())
    );
    trip.restrictions = Restrictions {
        stage: Some("shut-off valve only".to_owned()),
        stoves: Some(StoveRule::WithShutOff),
        checked: Some("2027-05-12, ranger desk".to_owned()),
        until: None,
    };
    let plan = worked(&trip);
    assert_eq!(row(&plan, "canister-on-top").allowed, Allowed::Yes);
    assert_eq!(row(&plan, "alcohol").allowed, Allowed::No);
    assert!(
        row(&plan, "alcohol")
            .why
            .as_ref()
            .is_some_and(|why| why.id() == "stove-without-valve")
    );
    trip.restrictions.stoves = Some(StoveRule::No);
    assert!(
        worked(&trip)
            .comparison
            .iter()
            .all(|row| row.allowed == Allowed::No)
    );
    trip.restrictions.stoves = Some(StoveRule::WithShutOff);
    trip.camps[0].night = Temperature::celsius(-30.0);
    let plan = worked(&trip);
    assert_eq!(row(&plan, "canister-on-top").allowed, Allowed::No);
    assert_eq!(row(&plan, "white-gas").allowed, Allowed::Yes);
    trip.camps[0].wind = Wind::Windy;
    assert!(row(&worked(&trip), "alcohol").may_not_boil);
}

#[test]
fn a_row_of_the_own_stove_is_the_plans_own_fuel() {
    let mut trip = summer(2, 3);
    trip.prices = vec![Price {
        item: "canister 230 g".to_owned(),
        container: "canister-230".to_owned(),
        amount: 7.5,
    }];
    let plan = worked(&trip);
    let own = carried(&plan, "canister-on-top");
    assert_eq!(own.fuel, plan.kitchens[0].fuel.carry);
    assert!(own.average < own.start);
    // Carbon by formula: propane 2.994, n-butane 3.029 g/g.
    let per_gram = own.fossil_co2 / plan.kitchens[0].fuel.likely;
    assert!((2.99..3.03).contains(&per_gram), "{per_gram}");
    assert!(carried(&plan, "alcohol").fossil_co2 == Mass::ZERO);
    if plan.kitchens[0]
        .containers
        .iter()
        .all(|one| one.container == "canister-230")
    {
        assert_eq!(own.price, Some(7.5 * f64::from(own.containers)));
    }
    assert_eq!(carried(&plan, "white-gas").price, None);
}

/// The stack worked apart, by the statics that `tip_over.csv` checks.
#[test]
fn the_stand_is_the_statics_of_its_parts() {
    let library = content::library();
    let mut trip = summer(1, 2);
    trip.kitchens[0].stove = library.stoves["canister-on-top"].clone();
    let plan = plan(&trip, &library).expect("a plan");
    let kitchen = &plan.kitchens[0];
    let found = kitchen.stability.as_ref().expect("it stands");
    let water = kitchen
        .rows
        .iter()
        .flat_map(|row| &row.batches)
        .map(|batch| batch.water.in_litres())
        .fold(0.0, f64::max);
    let size = &library.containers[&kitchen.containers[0].container];
    let side = Length::metres((4.0 * 1.5e-3 / std::f64::consts::PI).cbrt());
    let stack = |fuel: f64| statics::Stack {
        base: statics::Base::Round {
            diameter: size.diameter,
        },
        stand: None,
        canister: Some(statics::Canister {
            diameter: size.diameter,
            height: size.height,
            shell: size.tare,
            fuel: Mass::grams(fuel),
            // 30 % propane of 0.5075 and 70 % n-butane of 0.5843 kg/L.
            fuel_volume: Volume::millilitres(fuel * (0.3 / 0.5075 + 0.7 / 0.5843)),
        }),
        burner: statics::Burner {
            mass: Mass::grams(85.0),
            height: Length::millimetres(75.0),
        },
        pot: statics::Pot {
            mass: Mass::grams(165.0),
            diameter: side,
            height: side,
            water: Mass::kilograms(water),
        },
    };
    let (full, empty) = (stack(size.net.in_grams()), stack(5.0));
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-6, "{a} {b}");
    near(
        found.tip_angle_full.in_degrees(),
        statics::tip_angle(&full).in_degrees(),
    );
    near(
        found.tip_angle_worst.in_degrees(),
        statics::tip_angle(&empty).in_degrees(),
    );
    near(
        found.rim_push.in_newtons(),
        statics::rim_push(&empty).in_newtons(),
    );
    // Printed from rounded numbers, the push is the same.
    let printed = found
        .steps
        .iter()
        .find(|step| step.unit == "N")
        .expect("the push")
        .number();
    assert!((printed / found.rim_push.in_newtons() - 1.0).abs() < 2e-3);
    assert!(
        found
            .notes
            .iter()
            .any(|note| note.id().starts_with("stand-legs"))
    );
}

#[test]
fn large_pots_on_canisters_are_warned_of() {
    let mut trip = summer(1, 4);
    trip.kitchens[0].pots = vec![pot(3.0, None)];
    let plan = worked(&trip);
    let notes = &plan.kitchens[0]
        .stability
        .as_ref()
        .expect("it stands")
        .notes;
    assert!(notes.iter().any(|note| note.id() == "stand-large-pot"));
    assert!(notes.iter().any(|note| note.id() == "stand-wide-pot"));
    assert!(plan.cautions.iter().any(|one| {
        one.module == "plan"
            && one
                .says
                .as_ref()
                .is_some_and(|says| text(says).contains("Large pot"))
    }));
    trip.kitchens[0] = kitchen(4, Family::WhiteGas, vec![pot(3.0, None)]);
    let plan = worked(&trip);
    let stability = plan.kitchens[0].stability.as_ref().expect("it stands");
    assert!(
        stability
            .notes
            .iter()
            .all(|note| note.id() != "stand-large-pot")
    );
    assert_eq!(stability.tip_angle_full, stability.tip_angle_worst);
}
