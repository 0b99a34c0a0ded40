//! Pots that never boil, and the trip with one thing changed.

use crate::support::trips::*;
use leeside::nouns::*;
use leeside::plan::{ChangeKind, Remedy, changes, changes_of_all_stoves, plan};
use leeside::units::*;

/// A tablet under a large pot in a breeze at -5 °C: the pot loses more than it gets. It used to be
/// said to take 146 minutes.
fn tablet() -> Trip {
    let mut at = camp("Camp", 1, 500.0);
    at.wind = Wind::Breezy;
    at.day = Temperature::celsius(-5.0);
    at.night = Temperature::celsius(-5.0);
    trip(
        vec![at],
        vec![kitchen(4, Family::Tablet, vec![pot(4.0, None)])],
    )
}

#[test]
fn a_pot_that_never_boils_has_no_fuel_and_says_what_would_make_it() {
    let found = plan(&tablet(), &library()).expect("a plan");
    let kitchen = &found.kitchens[0];
    let supper = &kitchen.rows[0];
    let stops = supper.stops.as_ref().expect("it never boils");
    assert!(stops.at < Temperature::celsius(90.0), "{stops:?}");
    assert!(
        stops
            .remedies
            .iter()
            .any(|one| matches!(one, Remedy::Stove(_)))
    );
    let json = leeside::compose::numbers::json(&found, &tablet(), &library());
    let meal = &json["kitchens"][0]["meals"][0];
    assert!(meal["fuel_g"].is_null() && meal["minutes"].is_null());
    assert!(meal["stops_at_c"].as_f64().is_some());
    assert!(json["kitchens"][0]["fuel"]["carry_g"].is_null());
    let said = |id: &str| found.cautions.iter().any(|one| one.id.starts_with(id));
    assert!(said("never-boils"));
}

#[test]
fn what_would_make_it_boil_does() {
    let start = tablet();
    let found = plan(&start, &library()).expect("a plan");
    let stops = found.kitchens[0].rows[0].stops.clone().expect("it stops");
    let mut tried = 0;
    for remedy in &stops.remedies {
        let mut trip = start.clone();
        match remedy {
            Remedy::Lid => trip.kitchens[0].lid = true,
            Remedy::Screen(screen) => trip.kitchens[0].screen = *screen,
            Remedy::Pot(most) => trip.kitchens[0].pots = vec![pot(most.in_litres(), None)],
            Remedy::Stove(_) => continue,
        }
        tried += 1;
        let found = plan(&trip, &library()).expect("a plan");
        assert!(found.kitchens[0].rows[0].stops.is_none(), "{remedy:?}");
    }
    assert!(tried > 0, "{stops:?}");
}

#[test]
fn a_wind_never_makes_the_verdict_better() {
    let mut trip = one_night();
    trip.kitchens[0] = kitchen(3, Family::Alcohol, vec![pot(1.5, None)]);
    let library = library();
    let planned = plan(&trip, &library).expect("a plan");
    let kinds = changes_of_all_stoves(&trip, &library, &planned);
    let rows = changes(&trip, &library, &planned, &kinds);
    let find = |kind: ChangeKind| {
        let row = rows.iter().find(|row| row.kind == kind);
        row.and_then(|row| row.kitchens[0].fuel)
            .map_or(f64::INFINITY, Mass::in_grams)
    };
    let planned = find(ChangeKind::AsPlanned);
    assert!(find(ChangeKind::Wind(Wind::Windy)) >= planned);
    assert!(planned >= find(ChangeKind::Wind(Wind::Calm)));
    assert!(find(ChangeKind::Lid(false)) >= planned);
    assert!(find(ChangeKind::Colder) >= find(ChangeKind::Warmer));
    assert!(rows.len() > 12, "{}", rows.len());
}
