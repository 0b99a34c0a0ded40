//! One kitchen and two, against every choice tried by force.

use super::*;
use proptest::prelude::*;

const SIZES: [Item; 3] = [
    Item {
        usable: 960,
        waste: 0,
        gross: 2000,
        part_used: false,
    },
    Item {
        usable: 2260,
        waste: 0,
        gross: 3800,
        part_used: false,
    },
    Item {
        usable: 4460,
        waste: 0,
        gross: 6550,
        part_used: false,
    },
];

/// Every number of each size that could matter, tried one by one.
fn mix_by_force(need: i64) -> (i64, i64) {
    let mut best = (i64::MAX, 0);
    let most = |usable: i64| (need + usable - 1) / usable;
    for a in 0..=most(960) {
        for b in 0..=most(2260) {
            for c in 0..=most(4460) {
                let usable = a * 960 + b * 2260 + c * 4460;
                if usable >= need {
                    best = best.min((a * 2000 + b * 3800 + c * 6550, usable - need));
                }
            }
        }
    }
    best
}

fn by_force(want: &Want) -> Cost {
    let count = want.stock.len();
    (0..1_u32 << count)
        .filter_map(|mask| {
            let mut sum = Sum::default();
            for (index, item) in want.stock.iter().enumerate() {
                if mask & (1 << index) != 0 {
                    sum = sum.with(item.as_ref()?, 1);
                }
            }
            if !sum.fits(want) {
                return None;
            }
            let (mass, left) = match want.need - sum.usable {
                missing if missing > 0 => mix_by_force(missing),
                over => (0, -over),
            };
            Some(Cost {
                bought: mass,
                left_over: left + sum.waste,
                gross: sum.gross + mass,
            })
        })
        .min()
        .unwrap()
}

/// All ways to give each of a few containers to one of two wants or to nobody.
fn two_by_force(wants: &[Want]) -> Cost {
    let count = wants[0].stock.len();
    let mixes: Vec<Mixes> = wants
        .iter()
        .map(|want| Mixes::new(&want.sizes, want.need))
        .collect();
    (0..3_u32.pow(count as u32))
        .filter_map(|mut code| {
            let mut sums = [Sum::default(); 2];
            for index in 0..count {
                let who = (code % 3) as usize;
                code /= 3;
                if who < 2 {
                    sums[who] = sums[who].with(wants[who].stock[index].as_ref()?, 1);
                }
            }
            if !sums[0].fits(&wants[0]) || !sums[1].fits(&wants[1]) {
                return None;
            }
            Some(cost_of(&wants[0], &mixes[0], sums[0])? + cost_of(&wants[1], &mixes[1], sums[1])?)
        })
        .min()
        .unwrap()
}

fn stock() -> impl Strategy<Value = Vec<Option<Item>>> {
    let item = (1_i64..230, 0_i64..40, 90_i64..210, any::<bool>()).prop_map(
        |(usable, waste, tare, part_used)| {
            let (usable, waste) = (usable * 10, waste * 10);
            Some(Item {
                usable,
                waste,
                gross: usable + waste + tare * 10,
                part_used,
            })
        },
    );
    proptest::collection::vec(prop_oneof![9 => item, 1 => Just(None)], 0..9)
}

proptest! {
    #[test]
    fn one_kitchen_is_served_as_well_as_can_be(need in 1_i64..900, stock in stock(), most in 0_usize..5) {
        let want = Want { need: need * 10, stock, sizes: SIZES.to_vec(), most };
        let best = by_force(&want);
        let choice = choose(std::slice::from_ref(&want)).unwrap();
        prop_assert_eq!(choice.cost, best);
        let from_stock: i64 = choice.owner.iter().zip(&want.stock)
            .filter_map(|(owner, item)| owner.and(item.as_ref()).map(|item| item.usable)).sum();
        let new: i64 = choice.new[0].iter().zip(&SIZES).map(|(n, size)| i64::from(*n) * size.usable).sum();
        prop_assert!(from_stock + new >= want.need);
        let part_used = choice.owner.iter().zip(&want.stock)
            .filter(|(owner, item)| owner.is_some() && item.is_some_and(|item| item.part_used)).count();
        prop_assert!(part_used <= most);
    }

    #[test]
    fn two_kitchens_are_never_below_the_bound(a in 1_i64..500, b in 1_i64..500, stock in stock(), most in 0_usize..5) {
        let stock: Vec<_> = stock.into_iter().take(6).collect();
        let want = |need: i64| Want { need: need * 10, stock: stock.clone(), sizes: SIZES.to_vec(), most };
        let wants = [want(a), want(b)];
        let choice = choose(&wants).unwrap();
        let best = two_by_force(&wants);
        prop_assert!(choice.bound <= best && best <= choice.cost);
        for want in 0..2 {
            let part_used = choice.owner.iter().zip(&stock)
                .filter(|(owner, item)| **owner == Some(want) && item.is_some_and(|item| item.part_used)).count();
            prop_assert!(part_used <= most);
        }
    }
}

#[test]
fn a_need_beyond_all_measure_is_met_without_a_table_of_its_size() {
    let want = Want {
        need: 1_000_000_007,
        stock: vec![Some(SIZES[1]); 2000],
        sizes: SIZES.to_vec(),
        most: usize::MAX,
    };
    let choice = choose(std::slice::from_ref(&want)).unwrap();
    let mut usable: i64 = 2000 * SIZES[1].usable;
    for (count, size) in choice.new[0].iter().zip(&SIZES) {
        usable += i64::from(*count) * size.usable;
    }
    assert!(usable >= want.need && usable - want.need < 4460);
    assert_eq!(choice.bound, Cost::default());
}

#[test]
fn a_want_that_nothing_meets_is_no_choice() {
    let want = Want {
        need: 10,
        stock: vec![None],
        sizes: Vec::new(),
        most: usize::MAX,
    };
    assert_eq!(choose(&[want]), None);
}
