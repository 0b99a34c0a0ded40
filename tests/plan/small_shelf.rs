//! A small store room over a few kitchens: nothing beats what is handed out.

use crate::support::trips::*;
use leeside::nouns::*;
use leeside::plan::plan;
use leeside::units::*;

/// New canisters: burnable tenths of a gram and mass full.
const NEW: [(i64, i64); 3] = [(960, 2000), (2260, 3800), (4460, 6550)];
const RESIDUE: i64 = 40;

fn tenths(mass: Mass) -> i64 {
    (mass.in_grams() * 10.0).round() as i64
}

/// The least mass of new ones for a need, and of those the least fuel left over: tried one by one.
fn topped_up(need: i64) -> (i64, i64) {
    let mut best = (i64::MAX, 0);
    for small in 0..6 {
        for middle in 0..6 {
            for large in 0..6 {
                let counts = [small, middle, large];
                let sum = |of: fn(&(i64, i64)) -> i64| -> i64 {
                    NEW.iter()
                        .zip(counts)
                        .map(|(one, count)| of(one) * count)
                        .sum()
                };
                let held = sum(|one| one.0);
                if held >= need {
                    best = best.min((sum(|one| one.1), held - need));
                }
            }
        }
    }
    best
}

/// Every owner of every canister, by counting in the base of kitchens and 'stays at home'.
fn best(needs: &[i64], stock: &[i64]) -> (i64, i64) {
    let owners = needs.len() + 1;
    let mut best = (i64::MAX, 0);
    for way in 0..owners.pow(stock.len() as u32) {
        let mut held = vec![0; owners];
        let mut rest = way;
        for net in stock {
            held[rest % owners] += net - RESIDUE;
            rest /= owners;
        }
        let mut cost = (0, 0);
        for (need, held) in needs.iter().zip(&held) {
            let (bought, over) = if held >= need {
                (0, held - need)
            } else {
                topped_up(need - held)
            };
            cost = (cost.0 + bought, cost.1 + over);
        }
        best = best.min(cost);
    }
    best
}

#[test]
fn a_small_shelf_is_shared_out_exactly() {
    for (stock, people) in [
        (vec![83.0, 121.0, 140.0, 61.0], [2, 3, 1]),
        (vec![225.0, 40.0, 97.5, 158.0, 180.0], [4, 2, 3]),
        (vec![30.0, 52.0, 64.0, 71.0, 98.0, 210.0], [1, 1, 2]),
    ] {
        let mut warm = camp("Warm bank", 2, 100.0);
        (warm.day, warm.night) = (Temperature::celsius(20.0), Temperature::celsius(16.0));
        let kitchens = people
            .iter()
            .enumerate()
            .map(|(index, people)| Kitchen {
                name: format!("K{index}"),
                ..kitchen(*people, Family::CanisterOnTop, vec![pot(2.0, None)])
            })
            .collect();
        let mut trip = trip(vec![warm], kitchens);
        trip.people.learners = people.iter().sum();
        trip.canisters_on_hand = stock
            .iter()
            .enumerate()
            .map(|(index, net)| CanisterOnHand {
                tag: format!("S{index}"),
                container: "canister-230".to_owned(),
                gross: Mass::grams(150.0 + net),
                tare: Some(Mass::grams(150.0)),
                blend: blend(0.3, 0.7, 0.0),
                blend_stated: true,
                present: None,
                connection: Connection::Thread,
            })
            .collect();
        let plan = plan(&trip, &library()).expect("a plan");
        let carried = plan.kitchens.iter().map(|one| tenths(one.fuel.carry));
        let needs: Vec<i64> = carried.collect();
        let tenths_of: Vec<i64> = stock.iter().map(|net| (net * 10.0) as i64).collect();
        let containers = || plan.kitchens.iter().flat_map(|one| &one.containers);
        let bought: i64 = containers()
            .filter(|one| !one.on_hand)
            .map(|one| tenths(one.gross) * i64::from(one.count))
            .sum();
        let choice = plan.assignment.expect("a choice");
        assert!(choice.exact);
        let found = (bought, tenths(choice.left_over));
        assert_eq!(found, best(&needs, &tenths_of), "{needs:?} from {stock:?}");
    }
}
