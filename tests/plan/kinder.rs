//! What makes cooking harder never needs less: more wind, no lid, a wider pot, over a grid of
//! stoves, pots, heights and winds. And litres from a canister in calm summer, as the trade has it.

use crate::support::trips::*;
use leeside::nouns::*;
use leeside::plan::{Row, plan_of_own_stoves};
use leeside::units::*;

/// One supper of 0.4 L a person on 2.2 L pots or wider, in warm air.
#[derive(Clone, Copy, Debug)]
struct Case {
    family: Family,
    people: u32,
    metres: f64,
    wind: Wind,
    lid: bool,
    litres: f64,
}

/// What a case comes to: none where the pot never boils, else grams and minutes, and whether the
/// wind may keep it from the boil.
type Came = Option<(f64, f64, bool)>;

fn came(case: Case) -> Came {
    let mut camp = camp("Reed bank", 1, case.metres);
    camp.day = Temperature::celsius(18.0);
    camp.wind = case.wind;
    camp.menu = Menu {
        breakfast: MealNeed::COLD,
        drinks: MealNeed::COLD,
        supper: boil(0.4),
        ..menu()
    };
    // the same mass however wide it is: only its surface differs
    let mut kitchen = kitchen(
        case.people,
        case.family,
        vec![pot(case.litres, Some(220.0))],
    );
    kitchen.lid = case.lid;
    let trip = trip(vec![camp], vec![kitchen]);
    let plan = plan_of_own_stoves(&trip, &library()).expect("a plan");
    let supper = |row: &&Row| row.meal == Meal::Supper;
    let row = plan.kitchens[0].rows.iter().find(supper).expect("a supper");
    assert_eq!(row.batches.len(), 1, "{case:?}");
    row.stops.is_none().then(|| {
        (
            row.fuel.in_grams(),
            row.minutes.in_minutes(),
            row.may_not_boil,
        )
    })
}

/// Of a pair of cases the second is the harder one.
fn never_less(kind: Case, hard: Case) {
    never_less_of(kind, hard, true);
}

/// As [`never_less`], its minutes held or not.
fn never_less_of(kind: Case, hard: Case, with_minutes: bool) {
    match (came(kind), came(hard)) {
        // what never boils is never better
        (_, None) => {}
        (None, Some(_)) => panic!("{kind:?} never boils, and {hard:?} does"),
        (Some((grams, minutes, may_fail)), Some((more, longer, fails))) => {
            let words =
                format!("{kind:?}: {grams} g, {minutes} min; {hard:?}: {more} g, {longer} min");
            assert!(more >= grams, "{words}");
            assert!(!with_minutes || longer >= minutes, "{words}");
            assert!(fails >= may_fail, "{words}");
        }
    }
}

/// Every stove that a canister's own cold does not slow in this air, at two heights, for two and
/// five people.
fn each(mut of: impl FnMut(Case)) {
    let mut count = 0;
    for family in Family::ALL {
        for (people, metres) in [(2, 0.0), (5, 0.0), (2, 2500.0), (5, 2500.0)] {
            for lid in [true, false] {
                for litres in [2.8, 4.0] {
                    count += 1;
                    of(Case {
                        family: *family,
                        people,
                        metres,
                        wind: Wind::Calm,
                        lid,
                        litres,
                    });
                }
            }
        }
    }
    assert_eq!(count, Family::ALL.len() * 16);
}

/// A breeze may warm a canister that has cooled below the air, and give it back some power: of
/// canisters only the grams and the boil are held, of the others the minutes too.
#[test]
fn more_wind_never_needs_less() {
    each(|case| {
        let canister = matches!(
            case.family,
            Family::CanisterOnTop | Family::CanisterBeside | Family::HeatExchanger
        );
        let in_wind = |wind| Case { wind, ..case };
        never_less_of(case, in_wind(Wind::Breezy), !canister);
        never_less_of(in_wind(Wind::Breezy), in_wind(Wind::Windy), !canister);
    });
}

#[test]
fn no_lid_never_needs_less() {
    each(|case| {
        if case.lid {
            never_less(case, Case { lid: false, ..case });
        }
    });
}

#[test]
fn a_wider_pot_never_needs_less() {
    each(|case| {
        let litres = case.litres * 1.5;
        never_less(case, Case { litres, ..case });
    });
}

/// Common practice, no source: a full 230 g canister boils 11 to 14 L in calm summer, a litre or
/// less at a time in a small pot with its lid.
#[test]
fn a_full_canister_boils_eleven_to_fourteen_litres_in_calm_summer() {
    let mut camp = camp("Reed bank", 1, 0.0);
    camp.day = Temperature::celsius(20.0);
    camp.night = Temperature::celsius(12.0);
    camp.water = Temperature::celsius(15.0);
    camp.wind = Wind::Calm;
    camp.menu = Menu {
        breakfast: MealNeed::COLD,
        drinks: MealNeed::COLD,
        supper: boil(0.5),
        ..menu()
    };
    let kitchen = kitchen(2, Family::CanisterOnTop, vec![pot(1.5, None)]);
    let trip = trip(vec![camp], vec![kitchen]);
    let plan = plan_of_own_stoves(&trip, &library()).expect("a plan");
    let supper = &plan.kitchens[0].rows[0];
    assert_eq!(supper.water, Volume::litres(1.0));
    let full = 230.0 - 4.0; // what always stays in is not burnt
    let litres = full / supper.fuel.in_grams();
    assert!((11.0..=14.5).contains(&litres), "{litres}");
}
