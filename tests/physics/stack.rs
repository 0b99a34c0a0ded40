//! Tipping over, potfuls and steps.

use super::{Row, near, table};
use leeside::physics::pots::{batches, batches_capped};
use leeside::physics::stability::{
    Base, Burner, Canister, Pot, Stack, Stand, base_radius, centre_of_mass, depth, rim_push, shim,
    tip_angle, total_mass,
};
use leeside::physics::walking::steps;
use leeside::units::{Angle, Fraction, Length, Mass, Volume};

fn mm(row: &Row, column: &str) -> Length {
    Length::millimetres(row.number(column))
}

fn grams(row: &Row, column: &str) -> Mass {
    Mass::grams(row.number(column))
}

fn stack_of(row: &Row) -> Stack {
    let kind = row.text("base");
    let base = if kind == "round" {
        Base::Round {
            diameter: mm(row, "canister_D_mm"),
        }
    } else {
        Base::Legs {
            count: row.text("n_legs").parse().expect("a number of legs"),
            radius: mm(row, "leg_R_mm"),
        }
    };
    // Under the canister of rows C1 and C2 a stand of 30 g lifts the base 8 mm.
    let stand = Stand {
        mass: Mass::grams(30.0),
        lift: Length::millimetres(8.0),
    };
    let canister = Canister {
        diameter: mm(row, "canister_D_mm"),
        height: mm(row, "canister_H_mm"),
        shell: grams(row, "shell_g"),
        fuel: grams(row, "fuel_g"),
        fuel_volume: Volume::millilitres(row.number("fuel_g") / row.number("fuel_rho_kg_L")),
    };
    Stack {
        base,
        stand: (kind == "n-leg").then_some(stand),
        canister: (kind != "remote n-leg").then_some(canister),
        burner: Burner {
            mass: grams(row, "burner_g"),
            height: mm(row, "burner_h_mm"),
        },
        pot: Pot {
            mass: grams(row, "pot_g"),
            diameter: mm(row, "pot_D_mm"),
            height: mm(row, "pot_H_mm"),
            water: grams(row, "water_g"),
        },
    }
}

/// Plain statics worked apart (see the table's first line): 0.1 degree, 0.1 mm.
#[test]
fn tip_over() {
    for row in table(include_str!("../reference/tip_over.csv"), 8) {
        let (stack, case) = (stack_of(&row), row.text("case"));
        near(
            case,
            total_mass(&stack).in_grams(),
            row.number("total_g"),
            1e-6,
        );
        near(
            case,
            base_radius(&stack.base).in_millimetres(),
            row.number("r_base_mm"),
            0.001,
        );
        near(
            case,
            centre_of_mass(&stack).in_millimetres(),
            row.number("h_cg_mm"),
            0.1,
        );
        near(
            case,
            tip_angle(&stack).in_degrees(),
            row.number("critical_tilt_deg"),
            0.1,
        );
        let water = depth(
            Volume::litres(row.number("water_g") / 1000.0),
            mm(&row, "pot_D_mm"),
        );
        near(
            case,
            water.in_millimetres(),
            row.number("water_depth_mm"),
            0.001,
        );
        if let Some(canister) = stack.canister {
            let fuel = depth(canister.fuel_volume, canister.diameter).in_millimetres();
            near(case, fuel, row.number("fuel_depth_mm"), 0.001);
        }
    }
}

/// The push by moments worked by hand: the small stack (905 g, 45 mm, rim at 260 mm) tips at about
/// 1.5 N, the weight of 160 g; nearly empty it tips at less.
#[test]
fn push_at_the_rim() {
    let rows = table(include_str!("../reference/tip_over.csv"), 8);
    let push = |row: usize| rim_push(&stack_of(&rows[row])).in_newtons();
    near("full", push(0), 0.905 * 9.806_65 * 45.0 / 260.0, 1e-9);
    near("full", push(0), 1.5, 0.05);
    near("grams", push(0) / 9.806_65 * 1000.0, 160.0, 5.0);
    assert!(push(1) < push(0));
    let two_legs = Base::Legs {
        count: 2,
        radius: Length::millimetres(80.0),
    };
    assert_eq!(
        base_radius(&two_legs),
        Length::ZERO,
        "two legs hold nothing"
    );
    near(
        "shim",
        shim(Angle::degrees(45.0), Length::millimetres(90.0)).in_millimetres(),
        90.0,
        1e-9,
    );
}

fn litres(plan: &[(usize, Volume)]) -> Vec<(usize, f64)> {
    plan.iter()
        .map(|(pot, water)| (*pot, water.in_litres()))
        .collect()
}

fn potfuls(amount: f64, pots: &[f64], fill: f64) -> Vec<(usize, f64)> {
    let pots: Vec<Volume> = pots.iter().map(|pot| Volume::litres(*pot)).collect();
    litres(&batches(
        Volume::litres(amount),
        &pots,
        Fraction::of_one(fill),
    ))
}

#[track_caller]
fn same(plan: &[(usize, f64)], expected: &[(usize, f64)]) {
    assert_eq!(
        plan.len(),
        expected.len(),
        "{plan:?}, expected {expected:?}"
    );
    for (batch, wanted) in plan.iter().zip(expected) {
        assert_eq!(batch.0, wanted.0, "{plan:?}, expected {expected:?}");
        near("litres", batch.1, wanted.1, 1e-9);
    }
}

/// The counting rule, case by case (a rule of this tool, no outside source).
#[test]
fn potfuls_by_the_rule() {
    // Just full is one batch, however the decimals fall.
    same(&potfuls(1.5, &[2.0], 0.75), &[(0, 1.5)]);
    same(&potfuls(0.1 + 0.2, &[0.4], 0.75), &[(0, 0.3)]);
    same(
        &potfuls(0.6 * 3.0, &[1.2], 0.5),
        &[(0, 0.6), (0, 0.6), (0, 0.6)],
    );
    // What is left takes the smallest pot that holds it.
    same(&potfuls(3.0, &[3.0, 1.5], 0.75), &[(0, 2.25), (1, 0.75)]);
    same(&potfuls(3.5, &[1.5, 3.0], 0.75), &[(1, 2.25), (1, 1.25)]);
    same(&potfuls(0.4, &[3.0, 1.5, 0.6], 0.75), &[(2, 0.4)]);
    // Under a tenth of a potful is shared; a tenth is not; alone it is a batch.
    same(&potfuls(3.1, &[2.0], 0.75), &[(0, 1.55), (0, 1.55)]);
    same(
        &potfuls(3.15, &[2.0], 0.75),
        &[(0, 1.5), (0, 1.5), (0, 0.15)],
    );
    same(&potfuls(0.1, &[2.0], 0.75), &[(0, 0.1)]);
    // Equal pots: the first. No pot, no water, nonsense: nothing.
    same(&potfuls(2.0, &[2.0, 2.0], 0.75), &[(0, 1.5), (0, 0.5)]);
    same(&potfuls(2.0, &[], 0.75), &[]);
    same(&potfuls(0.0, &[2.0], 0.75), &[]);
    same(&potfuls(2.0, &[2.0], 0.0), &[]);
    same(&potfuls(f64::NAN, &[2.0], 0.75), &[]);
    same(&potfuls(2.0, &[f64::NAN], 0.75), &[]);
}

/// Common practice, no source: a solo pot needs two boils to rehydrate two people's meals.
#[test]
fn two_boils_in_a_solo_pot() {
    assert_eq!(potfuls(2.0 * 0.5, &[0.75], 0.75).len(), 2);
}

/// A burner's filling caps the batch; then batches are equal.
#[test]
fn potfuls_under_a_cap() {
    let capped = |amount, cap| {
        let pots = [Volume::litres(2.0)];
        let fill = Fraction::of_one(0.75);
        litres(&batches_capped(
            Volume::litres(amount),
            &pots,
            fill,
            Volume::litres(cap),
        ))
    };
    let third = 2.0 / 3.0;
    same(&capped(2.0, 0.8), &[(0, third), (0, third), (0, third)]);
    same(&capped(1.65, 0.8), &[(0, 0.55), (0, 0.55), (0, 0.55)]);
    // a splash over one filling: two equal batches, not one and a splash
    same(&capped(0.9053, 0.9), &[(0, 0.45265), (0, 0.45265)]);
    same(&capped(3.1, 1.6), &[(0, 1.55), (0, 1.55)]);
    same(&capped(1.0, 0.0), &[]);
}

/// 61 m are 81 steps of 0.76 m (80.26) or 102 of 0.60 m (101.67), worked by hand: up, so that
/// nobody stops short.
#[test]
fn steps_are_rounded_up() {
    let count = |metres, step| steps(Length::metres(metres), Length::metres(step));
    assert_eq!((count(61.0, 0.76), count(61.0, 0.60)), (81, 102));
    assert_eq!((count(1.0, 0.5), count(1.01, 0.5)), (2, 3));
    assert_eq!(
        (count(61.0, 0.0), count(-1.0, 0.5), count(f64::NAN, 0.5)),
        (0, 0, 0)
    );
}
