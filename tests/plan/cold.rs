//! Canisters in the cold, camp by camp.

use crate::support::trips::*;
use leeside::nouns::*;
use leeside::physics::burn::{Around, Burner, Gas, Lump, burn_lump};
use leeside::physics::vapour::{Liquid, bubble_pressure_raoult};
use leeside::plan::{ColdRow, Plan, plan};
use leeside::units::*;

const SEA_LEVEL: Pressure = Pressure::pascals(101_325.0);

fn cold_trip(day: f64, night: f64) -> Trip {
    let mut camp = camp("Col", 1, 0.0);
    (camp.day, camp.night) = (Temperature::celsius(day), Temperature::celsius(night));
    camp.water = Temperature::celsius(2.0);
    trip(
        vec![camp],
        vec![kitchen(2, Family::CanisterOnTop, vec![pot(2.0, None)])],
    )
}

fn worked(trip: &Trip) -> Plan {
    plan(trip, &library()).expect("a plan")
}

fn of(plan: &Plan, meal: Meal) -> &ColdRow {
    let row = plan.kitchens[0].cold.iter().find(|row| row.meal == meal);
    row.expect("the meal burns")
}

fn canister(tag: &str, net: f64) -> CanisterOnHand {
    CanisterOnHand {
        tag: tag.to_owned(),
        container: "canister-230".to_owned(),
        gross: Mass::grams(150.0 + net),
        tare: Some(Mass::grams(150.0)),
        blend: blend(0.3, 0.0, 0.7),
        blend_stated: true,
        present: None,
        connection: Connection::Thread,
    }
}

/// The first meal of the trip on a full 230 g of 30/70 propane and n-butane: what a burn of the
/// same minutes at the same demand comes to (`canister_burn.csv` holds that burn).
#[test]
fn the_first_meal_is_its_own_burn() {
    let mut trip = cold_trip(-4.0, -8.0);
    trip.canisters_on_hand = vec![canister("F-014", 230.0)];
    let plan = worked(&trip);
    let (kitchen, row) = (&plan.kitchens[0], of(&plan, Meal::Supper));
    assert_eq!((row.tag.as_deref(), row.leg), (Some("F-014"), 0));
    let supper = kitchen.rows.iter().find(|one| one.meal == Meal::Supper);
    let flame = supper.expect("a supper").flame;
    let full = Power::kilowatts(2.5);
    let [liquid_heat, steel_heat] = [2.4, 0.46].map(SpecificHeat::kilojoules_per_kilogram_kelvin);
    let lump = Lump {
        liquid: Liquid::of(
            Mass::grams(230.0),
            Fraction::percent(30.0),
            Fraction::ZERO,
            Fraction::percent(70.0),
        ),
        temperature: Temperature::celsius(-4.0),
        tare: Mass::grams(150.0),
        diameter: Length::millimetres(110.0),
        height: Length::millimetres(95.0),
    };
    let burnt = burn_lump(
        &lump,
        &Around {
            air: lump.temperature,
            pressure: SEA_LEVEL,
            // breezy, no screen
            film: 27.0,
            warmth: Power::watts(5.0),
        },
        &Burner {
            set: full,
            family: full,
            open: 2.0,
            regulated: None,
        },
        &Gas {
            latent: HeatingValue::joules_per_kilogram(370_000.0),
            liquid_heat,
            steel_heat,
            heating_value: kitchen.fuel.heating_value,
            residue: Mass::grams(4.0),
        },
        flame,
        |_| Some(flame),
        |_| (),
    );
    assert!(row.power < full, "{row:?}");
    assert!(
        (row.power / burnt.mean - 1.0).abs() < 0.005,
        "{row:?}, {burnt:?}"
    );
    let off = row.fuel_temperature - burnt.after.temperature;
    assert!(off.kelvins().abs() < 0.2, "{row:?}, {burnt:?}");
    assert!((row.gauge_low - burnt.gauge_low).in_kilopascals().abs() < 2.0);
}

/// At a fuel temperature of -5 C, sea level, 70/30 n-butane and propane: 20 kPa gauge with about
/// 52 % left; isobutane in its place never falls so low. Computed with the reference equations of
/// state behind `depletion_crossing.csv`.
#[test]
fn kept_at_minus_five_half_of_a_butane_canister_stays_in() {
    let mut trip = cold_trip(-5.0, -5.0);
    trip.camps[0].fuel_temperature = Some(Temperature::celsius(-5.0));
    let butane = worked(&trip);
    let row = of(&butane, Meal::Supper);
    assert_eq!(row.start, Temperature::celsius(-5.0));
    assert!((row.usable.in_percent() - 48.0).abs() < 1.0, "{row:?}");
    trip.kitchens[0].blend = Some(blend(0.3, 0.7, 0.0));
    let isobutane = worked(&trip);
    assert_eq!(of(&isobutane, Meal::Supper).usable, Fraction::of_one(1.0));
}

/// Common practice, no source: a butane-rich canister is weak below freezing.
#[test]
fn a_butane_rich_canister_is_weak_below_freezing() {
    let mut trip = cold_trip(-3.0, -12.0);
    trip.kitchens[0].blend = Some(blend(0.1, 0.0, 0.9));
    let plan = worked(&trip);
    assert!(of(&plan, Meal::Supper).verdict > Verdict::Fine);
    assert_eq!(of(&plan, Meal::Breakfast).verdict, Verdict::WillNotWork);
    let said: Vec<String> = plan
        .cautions
        .iter()
        .filter(|one| one.id.starts_with("cold-canister"))
        .filter_map(|one| one.says.as_ref().map(leeside::compose::catalogue::text))
        .collect();
    assert_eq!(said.len(), 1);
    assert!(said[0].contains("leader") && said[0].contains("warm to the hand, shut it off"));
}

/// Common practice, no source: at 10 C any canister is fine, and nobody is told to warm one.
#[test]
fn at_ten_degrees_a_canister_is_fine_and_nothing_is_said_of_warmth() {
    for screen in [Screen::None, Screen::Partial] {
        let mut trip = cold_trip(10.0, 10.0);
        trip.kitchens[0].screen = screen;
        let plan = worked(&trip);
        assert!(
            plan.kitchens[0]
                .cold
                .iter()
                .all(|row| row.verdict == Verdict::Fine)
        );
        assert!(
            plan.cautions
                .iter()
                .all(|one| !one.id.starts_with("cold-canister"))
        );
    }
}

/// Half-drawn 30/70 propane and n-butane at -6 C and sea level: about 18 kPa gauge, too little.
#[test]
fn a_half_drawn_canister_starts_from_what_is_left_in_it() {
    let mut trip = cold_trip(12.0, 8.0);
    trip.kitchens[0].people = 1;
    trip.people.learners = 1;
    trip.canisters_on_hand = vec![canister("F-014", 115.0)];
    trip.spare = Spare::None;
    let with = |kept: f64| {
        let mut trip = trip.clone();
        trip.camps[0].fuel_temperature = Some(Temperature::celsius(kept));
        worked(&trip)
    };
    let mild = with(12.0);
    assert_eq!(mild.kitchens[0].containers[0].tag.as_deref(), Some("F-014"));
    let now = mild.kitchens[0].containers[0].blend.expect("a mixture");
    let liquid = Liquid::of(Mass::grams(115.0), now.propane, now.isobutane, now.butane);
    let gauge = bubble_pressure_raoult(&liquid, Temperature::celsius(-6.0)).unwrap() - SEA_LEVEL;
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

/// The part-used one cooks the warm suppers, the full one the frosty breakfasts; what a row tells
/// of is the one that it burns.
#[test]
fn a_weak_canister_is_left_for_the_warm_and_the_next_one_taken() {
    let mut trip = cold_trip(12.0, -9.0);
    trip.camps[0].nights = 4;
    trip.canisters_on_hand = vec![canister("part", 100.0), canister("full", 230.0)];
    let plan = worked(&trip);
    assert_eq!(of(&plan, Meal::Supper).tag.as_deref(), Some("part"));
    let breakfast = of(&plan, Meal::Breakfast);
    assert_ne!(breakfast.tag.as_deref(), Some("part"), "{breakfast:?}");
    assert!(breakfast.verdict.does(), "{breakfast:?}");
}

/// What is handed out at a camp cooks from there on, and nothing before.
#[test]
fn each_leg_burns_its_own_canisters() {
    let mut far = camp("Far col", 2, 1500.0);
    far.day = Temperature::celsius(4.0);
    far.night = Temperature::celsius(-6.0);
    let mut trip = cold_trip(10.0, 6.0);
    trip.camps.push(far);
    trip.resupply = Some(1);
    trip.canisters_on_hand = vec![canister("a", 228.0), canister("b", 230.0)];
    let plan = worked(&trip);
    let kitchen = &plan.kitchens[0];
    assert!(kitchen.cold.len() >= 4);
    for row in &kitchen.cold {
        let container = &kitchen.containers[row.container.expect("one was handed out")];
        assert_eq!((container.leg, row.leg), (row.camp, row.camp));
        assert_eq!(container.tag, row.tag);
    }
}

/// A row may be more than one canister holds: it is burnt from one after the other, and only an
/// empty hand at the end makes it fail.
#[test]
fn a_meal_that_empties_a_canister_goes_on_with_the_next() {
    let mut trip = cold_trip(15.0, 12.0);
    trip.kitchens[0] = kitchen(12, Family::CanisterBeside, vec![pot(8.0, None)]);
    trip.people.learners = 12;
    trip.camps[0].water_from = WaterFrom::Snow;
    trip.camps[0].water = Temperature::celsius(-2.0);
    trip.camps[0].drinking = Volume::litres(6.0);
    let plan = worked(&trip);
    let snow = of(&plan, Meal::Snow);
    let row = plan.kitchens[0]
        .rows
        .iter()
        .find(|row| row.meal == Meal::Snow);
    assert!(row.expect("a row").fuel.in_grams() > 446.0);
    assert!(snow.verdict.does(), "{snow:?}");
}

/// Where the cold leaves less of the flame, the meal takes longer.
#[test]
fn minutes_grow_where_the_flame_sinks() {
    let minutes = |celsius: f64| -> f64 {
        let plan = worked(&cold_trip(celsius, celsius));
        let rows = plan.kitchens[0].rows.iter();
        rows.map(|row| row.minutes.in_minutes()).sum()
    };
    assert!(minutes(-10.0) > 1.1 * minutes(-10.0 + 25.0));
}

#[test]
fn liquid_feed_keeps_its_composition_and_is_told_apart() {
    let mut trip = cold_trip(-2.0, -6.0);
    trip.kitchens[0] = kitchen(2, Family::CanisterBeside, vec![pot(2.0, None)]);
    let vapour = worked(&trip);
    trip.kitchens[0].feed = Feed::Liquid;
    let liquid = worked(&trip);
    for (a, b) in vapour.kitchens[0].cold.iter().zip(&liquid.kitchens[0].cold) {
        assert!(a.usable < b.usable && b.usable == Fraction::of_one(1.0));
        assert_eq!((b.verdict, b.power), (Verdict::Fine, b.set));
        assert_eq!(b.fuel_temperature, b.start);
    }
    let told = |plan: &Plan| {
        plan.cautions
            .iter()
            .any(|one| one.id.starts_with("liquid-feed"))
    };
    assert!(told(&liquid) && !told(&vapour));
}

/// A regulated burner keeps its power at a gauge pressure at which a plain one sinks.
#[test]
fn a_regulator_holds_the_flame() {
    let mut trip = cold_trip(-3.0, -8.0);
    let plain = worked(&trip);
    trip.kitchens[0].stove.regulated = true;
    let regulated = worked(&trip);
    assert!(of(&regulated, Meal::Supper).power > of(&plain, Meal::Supper).power);
}

/// Colder air never does a canister or a cook good.
#[test]
fn colder_is_never_better() {
    let mut compared = 0;
    for (family, mix) in [
        (Family::CanisterOnTop, blend(0.3, 0.0, 0.7)),
        (Family::CanisterBeside, blend(0.2, 0.8, 0.0)),
        (Family::HeatExchanger, blend(0.1, 0.5, 0.4)),
    ] {
        for people in [1, 4] {
            let mut before: Option<(Verdict, f64)> = None;
            for degrees in (0..12).map(|step| 18.0 - 3.0 * f64::from(step)) {
                let mut trip = cold_trip(degrees, degrees);
                trip.kitchens[0] = kitchen(people, family, vec![pot(3.0, None)]);
                trip.kitchens[0].blend = Some(mix);
                trip.people.learners = people;
                trip.canisters_on_hand = vec![CanisterOnHand {
                    blend: mix,
                    ..canister("full", 230.0)
                }];
                let plan = worked(&trip);
                let row = of(&plan, Meal::Supper);
                if row.tag.is_none() {
                    // so cold that it stays at home: another size would be compared
                    break;
                }
                compared += 1;
                let supper = plan.kitchens[0]
                    .rows
                    .iter()
                    .find(|one| one.meal == Meal::Supper);
                let minutes = supper.expect("a supper").minutes.in_minutes();
                if let Some((verdict, least)) = before {
                    let what = format!("{family}, {people} people, {degrees} C: {row:?}");
                    assert!(row.verdict >= verdict, "{what}");
                    // one that will not work keeps its row as it was
                    if row.verdict != Verdict::WillNotWork {
                        assert!(minutes >= least - 1e-6, "{what}");
                    }
                }
                before = Some((row.verdict, minutes));
            }
        }
    }
    assert!(compared > 30, "{compared}");
}
