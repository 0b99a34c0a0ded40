//! One thing changed at a time: what stands side by side is what a changed trip file would give,
//! and what the kitchen card says.

use crate::support::trips::*;
use leeside::nouns::*;
use leeside::plan::{
    ChangeKind, Plan, changes, changes_on_the_way, changes_side_by_side, lightest_other, plan,
};
use leeside::units::*;

fn worked(trip: &Trip) -> Plan {
    plan(trip, &library()).expect("a plan")
}

#[test]
fn a_row_is_the_trip_with_that_change_written_into_it() {
    let trip = one_night();
    let planned = worked(&trip);
    let kinds = [
        ChangeKind::AsPlanned,
        ChangeKind::Wind(Wind::Windy),
        ChangeKind::Lid(false),
        ChangeKind::PersonMore,
        ChangeKind::NightMore(0),
        ChangeKind::Colder,
    ];
    let rows = changes(&trip, &library(), &planned, &kinds);
    let write: [fn(&mut Trip); 6] = [
        |_| {},
        |trip| trip.camps[0].wind = Wind::Windy,
        |trip| trip.kitchens[0].lid = false,
        |trip| {
            trip.kitchens[0].people += 1;
            trip.people.learners += 1;
        },
        |trip| trip.camps[0].nights += 1,
        |trip| {
            let camp = &mut trip.camps[0];
            for at in [&mut camp.day, &mut camp.night, &mut camp.water] {
                *at = *at - Warming::of_kelvins(5.0);
            }
            camp.water = camp.water.max(Temperature::celsius(0.0));
        },
    ];
    for (row, write) in rows.iter().zip(write) {
        let mut other = trip.clone();
        write(&mut other);
        let kitchen = &worked(&other).kitchens[0];
        let told = &row.kitchens[0];
        assert_eq!(told.fuel, Some(kitchen.fuel.likely), "{:?}", row.kind);
        assert_eq!(told.carry, Some(kitchen.fuel.carry), "{:?}", row.kind);
        assert!(told.troubles.is_empty(), "{told:?}");
    }
}

/// What both papers speak of is the same change, with the same grams.
#[test]
fn the_card_and_the_table_speak_of_the_same_changes() {
    let trip = one_night();
    let planned = worked(&trip);
    let card = changes_on_the_way(&trip, &planned);
    let table = changes_side_by_side(&trip, &planned);
    let both: Vec<&ChangeKind> = card.iter().filter(|kind| table.contains(kind)).collect();
    assert_eq!(both.len(), 3, "a person, a night, the cold: {both:?}");
    let rows = changes(&trip, &library(), &planned, &table);
    let old = planned.kitchens[0].fuel.carry;
    for row in &rows {
        let more = row.more(&planned, 0);
        assert_eq!(more, row.kitchens[0].carry.map(|carry| carry - old));
    }
}

#[test]
fn of_other_stoves_the_lightest_that_may_be_lit_is_told() {
    let mut trip = one_night();
    trip.restrictions.stoves = Some(StoveRule::WithShutOff);
    let planned = worked(&trip);
    let other = lightest_other(&trip, &planned).expect("another stove");
    assert_ne!(other, trip.kitchens[0].stove.id);
    let of = |id: &str| planned.comparison.iter().find(|row| row.stove == id);
    let start = |id: &str| of(id).and_then(|row| row.carried).map(|one| one.start);
    for row in &planned.comparison {
        let own = row.stove == trip.kitchens[0].stove.id;
        if !own && row.allowed == leeside::plan::Allowed::Yes && row.carried.is_some() {
            assert!(start(&row.stove) >= start(&other), "{}", row.stove);
        }
    }
    let kinds = changes_side_by_side(&trip, &planned);
    let stoves = kinds
        .iter()
        .filter(|kind| matches!(kind, ChangeKind::Stove(_)));
    assert_eq!(stoves.count(), 1);
}

/// A lesson has no nights to add.
#[test]
fn a_lesson_is_asked_about_no_night() {
    let mut lesson = one_night();
    lesson.kind = Kind::Lesson;
    lesson.camps[0].nights = 0;
    let kinds = changes_side_by_side(&lesson, &worked(&lesson));
    assert!(
        !kinds
            .iter()
            .any(|kind| matches!(kind, ChangeKind::NightMore(_)))
    );
    assert!(kinds.contains(&ChangeKind::PersonMore));
}
