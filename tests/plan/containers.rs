//! What is handed out: canisters on hand first, bottles below their fill line, each leg its own.

use crate::support::content;
use crate::support::trips::*;
use leeside::compose::catalogue::text;
use leeside::course::timetable;
use leeside::nouns::*;
use leeside::plan::{ContainerPlan, Plan, fuel_so_far, issued_in_all, issues, plan};
use leeside::units::*;

fn on_hand(tag: &str, container: &str, net: f64) -> CanisterOnHand {
    let tare = match container {
        "canister-100" => 100.0,
        "canister-450" => 205.0,
        _ => 150.0,
    };
    CanisterOnHand {
        tag: tag.to_owned(),
        container: container.to_owned(),
        gross: Mass::grams(net + tare),
        tare: Some(Mass::grams(tare)),
        blend: blend(0.3, 0.7, 0.0),
        blend_stated: true,
        present: None,
        connection: Connection::Thread,
    }
}

fn gas_trip(people: u32, nights: u32) -> Trip {
    trip(
        vec![camp("Reed bank", nights, 500.0)],
        vec![kitchen(people, Family::CanisterOnTop, vec![pot(2.0, None)])],
    )
}

fn grams(containers: &[ContainerPlan], of: fn(&ContainerPlan) -> Mass) -> f64 {
    containers
        .iter()
        .map(|one| of(one).in_grams() * f64::from(one.count))
        .sum()
}

fn worked(trip: &Trip) -> Plan {
    plan(trip, &library()).expect("a plan")
}

#[test]
fn canisters_on_hand_come_first_and_what_is_handed_out_can_be_burnt() {
    let mut trip = gas_trip(2, 1);
    let alone = worked(&trip).kitchens[0].fuel.carry.in_grams();
    trip.canisters_on_hand = vec![
        on_hand("A", "canister-230", alone + 3.0),
        // near its end a canister's flame sinks, and the pot loses a little more
        on_hand("B", "canister-230", alone + 60.0),
        on_hand("C", "canister-450", 400.0),
    ];
    let plan = worked(&trip);
    let kitchen = &plan.kitchens[0];
    // A holds enough on paper, but 4 g stay in it.
    let tags: Vec<_> = kitchen
        .containers
        .iter()
        .map(|one| one.tag.as_deref())
        .collect();
    assert_eq!(tags, [Some("B")]);
    assert!(grams(&kitchen.containers, |one| one.usable) >= kitchen.fuel.carry.in_grams());
    assert!(plan.assignment.expect("a choice").exact);
    // What is left over is what can be burnt beyond the need.
    let left = plan.assignment.unwrap().left_over.in_grams();
    assert!((left - (alone + 60.0 - 4.0 - kitchen.fuel.carry.in_grams())).abs() < 0.11);
}

#[test]
fn too_little_on_hand_is_topped_up_by_the_lightest_mix() {
    let mut trip = gas_trip(5, 6);
    trip.canisters_on_hand = vec![
        on_hand("A", "canister-100", 60.0),
        on_hand("B", "canister-230", 180.0),
    ];
    let plan = worked(&trip);
    let kitchen = &plan.kitchens[0];
    let carry = kitchen.fuel.carry.in_grams();
    assert!(carry > 240.0, "{carry}");
    assert!(grams(&kitchen.containers, |one| one.usable) >= carry - 1e-6);
    let new: Vec<_> = kitchen
        .containers
        .iter()
        .filter(|one| !one.on_hand)
        .collect();
    assert!(!new.is_empty());
    // One smaller new canister in place of the smallest would not do.
    let mut without: f64 = grams(&kitchen.containers, |one| one.usable);
    without -= new
        .iter()
        .map(|one| one.usable.in_grams())
        .fold(f64::INFINITY, f64::min);
    assert!(without < carry);
}

#[test]
fn unknown_and_foreign_canisters_stay_and_the_plan_says_so() {
    let mut trip = gas_trip(2, 1);
    let mut unknown = on_hand("U", "canister-230", 200.0);
    unknown.tare = None;
    let mut clip = on_hand("K", "canister-230", 200.0);
    clip.connection = Connection::Clip;
    trip.canisters_on_hand = vec![unknown, clip];
    let plan = worked(&trip);
    assert!(plan.kitchens[0].containers.iter().all(|one| !one.on_hand));
    let said: Vec<String> = plan
        .cautions
        .iter()
        .filter_map(|one| one.says.as_ref().map(text))
        .collect();
    assert!(
        said.iter()
            .any(|text| text.contains("U (") && text.contains("unknown")),
        "{said:?}"
    );
    assert!(
        said.iter()
            .any(|text| text.contains("K.") && text.contains("join")),
        "{said:?}"
    );
}

#[test]
fn a_kitchen_that_cooks_nothing_gets_none() {
    let mut trip = gas_trip(2, 1);
    trip.camps[0].menu = Menu {
        supper: MealNeed::COLD,
        breakfast: MealNeed::COLD,
        drinks: MealNeed::COLD,
        ..menu()
    };
    let plan = worked(&trip);
    assert_eq!(plan.kitchens[0].fuel.carry, Mass::ZERO);
    assert!(plan.kitchens[0].containers.is_empty());
    assert!(plan.kitchens[0].stability.is_none());
}

#[test]
fn part_used_canisters_go_to_the_warm_leg_and_full_ones_to_the_cold() {
    let mut cold = camp("Ice shelf", 2, 2500.0);
    cold.day = Temperature::celsius(-8.0);
    cold.night = Temperature::celsius(-16.0);
    let mut trip = trip(
        vec![camp("Reed bank", 2, 300.0), cold],
        vec![kitchen(1, Family::CanisterOnTop, vec![pot(2.0, None)])],
    );
    trip.resupply = Some(1);
    let butane = |tag: &str, net: f64| CanisterOnHand {
        blend: blend(0.3, 0.0, 0.7),
        ..on_hand(tag, "canister-230", net)
    };
    // The part-used ones have no propane to speak of: useless at -16 C and 2500 m.
    trip.canisters_on_hand = vec![
        butane("part 1", 130.0),
        butane("part 2", 125.0),
        butane("full", 230.0),
    ];
    let plan = worked(&trip);
    let kitchen = &plan.kitchens[0];
    assert_eq!(kitchen.fuel.legs.len(), 2);
    let leg_of = |tag: &str| {
        kitchen
            .containers
            .iter()
            .find(|one| one.tag.as_deref() == Some(tag))
            .map(|one| one.leg)
    };
    assert_eq!(leg_of("full"), Some(1), "{:#?}", kitchen.containers);
    assert!(leg_of("part 1") != Some(1) && leg_of("part 2") != Some(1));
    for leg in 0..2 {
        let mine: Vec<_> = kitchen
            .containers
            .iter()
            .filter(|one| one.leg == leg)
            .cloned()
            .collect();
        assert!(grams(&mine, |one| one.net) >= kitchen.fuel.legs[leg].carry.in_grams());
    }
}

#[test]
fn bottles_stay_below_their_fill_line_and_carry_what_stays_behind() {
    let library = library();
    for (family, nights, lost) in [
        (Family::WhiteGas, 2, 0.03),
        (Family::WhiteGas, 9, 0.03),
        (Family::Alcohol, 3, 0.15),
    ] {
        let trip = trip(
            vec![camp("Reed bank", nights, 500.0)],
            // a spirit burner brings no large pot to the boil
            vec![kitchen(4, family, vec![pot(1.0, None)])],
        );
        let plan = plan(&trip, &library).expect("a plan");
        let kitchen = &plan.kitchens[0];
        assert!(kitchen.boils() && !kitchen.containers.is_empty());
        let net = grams(&kitchen.containers, |one| one.net);
        // up to the next 10 mL of each bottle, never less than is needed
        let count: u32 = kitchen.containers.iter().map(|one| one.count).sum();
        let over = net * (1.0 - lost) - kitchen.fuel.carry.in_grams();
        assert!(
            (-0.01..8.5 * f64::from(count)).contains(&over),
            "{over} g over"
        );
        for one in &kitchen.containers {
            let bottle = &library.containers[&one.container];
            let full = one.fill.expect("a fill") / bottle.capacity;
            assert!(full <= 0.75 + 1e-9, "{full}");
            let tens = one.fill.expect("a fill").in_millilitres() / 10.0;
            assert!((tens - tens.round()).abs() < 1e-6, "{tens}");
            // The smallest that fits: a smaller one would not hold it.
            if kitchen.containers.len() == 1 && one.count == 1 {
                let smaller = library.containers.values().filter(|other| {
                    other.fuels.contains(&kitchen.fuel.kind) && other.capacity < bottle.capacity
                });
                for other in smaller {
                    assert!(other.capacity * other.fill.in_one() < one.fill.unwrap());
                }
            }
        }
    }
}

#[test]
fn tablets_go_in_packs() {
    let trip = trip(
        vec![camp("Reed bank", 1, 500.0)],
        vec![kitchen(2, Family::Tablet, vec![pot(1.0, None)])],
    );
    let plan = worked(&trip);
    let kitchen = &plan.kitchens[0];
    let packs: u32 = kitchen.containers.iter().map(|one| one.count).sum();
    assert_eq!(
        f64::from(packs),
        (kitchen.fuel.carry.in_grams() / 100.0).ceil()
    );
}

#[test]
fn the_heating_value_is_the_mean_of_what_is_handed_out() {
    let mut trip = gas_trip(3, 2);
    trip.canisters_on_hand = vec![on_hand("A", "canister-450", 440.0)];
    let plan = worked(&trip);
    // 440 g left of 450 g of 30/70 propane and isobutane: a little less than 30 % propane.
    let value = plan.kitchens[0]
        .fuel
        .heating_value
        .in_megajoules_per_kilogram();
    let full = 0.3 * 46.34 + 0.7 * 45.55;
    assert!(value < full && value > full - 0.02, "{value}");
}

/// Sixty part-used canisters for eight kitchens.
#[test]
fn a_whole_store_room_is_handed_out_at_once() {
    let kitchens = (0..8)
        .map(|index| Kitchen {
            name: format!("Kitchen {}", index + 1),
            ..kitchen(3 + index % 3, Family::CanisterOnTop, vec![pot(2.0, None)])
        })
        .collect();
    let mut trip = trip(
        vec![camp("Reed bank", 2, 300.0), camp("High camp", 3, 2100.0)],
        kitchens,
    );
    trip.canisters_on_hand = (0..60)
        .map(|index| {
            let net = 25.0 + f64::from(index * 37 % 190);
            on_hand(&format!("F-{index:03}"), "canister-230", net)
        })
        .collect();
    let plan = worked(&trip);
    let assignment = plan.assignment.expect("a choice");
    assert!(assignment.left_over >= assignment.bound);
    // Good: at most a gram or two a kitchen above what no choice can better.
    assert!(
        (assignment.left_over - assignment.bound).in_grams() < 16.0,
        "{assignment:?}"
    );
    let mut tags = std::collections::BTreeSet::new();
    for kitchen in &plan.kitchens {
        assert!(
            grams(&kitchen.containers, |one| one.usable) >= kitchen.fuel.carry.in_grams() - 1e-6
        );
        for tag in kitchen.containers.iter().filter_map(|one| one.tag.as_ref()) {
            assert!(tags.insert(tag.clone()), "{tag} handed out twice");
        }
    }
}

#[test]
fn every_leg_is_issued_what_lies_in_its_containers_a_line_each() {
    let mut trip = gas_trip(7, 5);
    trip.camps.push(camp("Otter weir", 3, 1400.0));
    trip.resupply = Some(1);
    trip.canisters_on_hand = vec![on_hand("F-014", "canister-230", 141.0)];
    let plan = worked(&trip);
    let kitchen = &plan.kitchens[0];
    let issues = issues(&plan, kitchen);
    assert_eq!(issues.len(), 2);
    assert!(issues[0].in_bag && !issues[1].in_bag);
    assert_eq!((issues[1].from, issues[1].until), (1, 2));
    for one in &issues {
        assert_eq!(one.needed, kitchen.fuel.legs[one.leg].carry);
        let net: f64 = one.containers.iter().map(|one| one.net.in_grams()).sum();
        assert!((net - one.issued.in_grams()).abs() < 1e-6);
        assert!(one.issued >= one.needed, "{:?}", one.issued);
        let gross: f64 = one.containers.iter().map(|one| one.gross.in_grams()).sum();
        assert!((gross - one.gross.in_grams()).abs() < 1e-6);
    }
    let (needed, issued) = issued_in_all(&plan, kitchen);
    assert_eq!(needed, kitchen.fuel.carry);
    assert!((grams(&kitchen.containers, |one| one.net) - issued.in_grams()).abs() < 1e-6);
    // new ones of a size are numbered across the legs, tagged ones are not
    for size in ["canister-100", "canister-230", "canister-450"] {
        let new: Vec<(u32, u32)> = issues
            .iter()
            .flat_map(|one| &one.containers)
            .filter(|one| one.container == size)
            .filter_map(|one| one.new)
            .collect();
        let all = new.len() as u32;
        let numbers: Vec<(u32, u32)> = (1..=all).map(|one| (one, all)).collect();
        assert_eq!(new, numbers, "{size}");
    }
    // what is left after each night is of the containers of that leg
    for night in fuel_so_far(&plan, 0) {
        let issue = &issues[night.camp];
        assert!(night.left < issue.issued);
        let burnt = issue.issued - night.left;
        let scale = night.scale.expect("containers stand on the scale");
        assert!(((issue.gross - scale) - burnt).in_grams().abs() < 1e-6);
    }
}

#[test]
fn a_lesson_is_issued_practice_menu_and_reserve_as_one() {
    let library = content::library();
    let text = include_str!("../../content/trips/boathouse-evening.yaml");
    let trip = content::trip("boathouse-evening.yaml", text, &library);
    let menu = plan(&trip, &library).expect("a plan");
    let whole = timetable::with_practice(&trip, &library, menu.clone()).expect("a plan");
    let modules = timetable::applying(&trip, &library);
    let course = timetable::timetable(&trip, &library, &menu, &modules).expect("a course");
    assert!(!course.practice_fuel.is_empty());
    for (index, kitchen) in whole.kitchens.iter().enumerate() {
        let practice: f64 = course
            .practice_fuel
            .iter()
            .filter(|one| one.station == index)
            .map(|one| one.set_out.in_grams())
            .sum();
        let issue = &issues(&whole, kitchen)[0];
        assert!((issue.practice.in_grams() - practice).abs() < 1e-9);
        // A station that is never lit gets none.
        let lit = course.practice_fuel.iter().any(|one| one.station == index);
        assert_eq!(kitchen.stays_cold, !lit);
        let needed = if lit {
            kitchen.fuel.carry.in_grams() + practice
        } else {
            0.0
        };
        assert!((issue.needed.in_grams() - needed).abs() < 1e-9);
        assert!(issue.issued >= issue.needed);
        assert_eq!(kitchen.fuel.carry, menu.kitchens[index].fuel.carry);
    }
}
