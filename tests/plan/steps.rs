//! The paper's arithmetic: every printed line re-worked from its printed numbers by a second,
//! independent reader.

use crate::support::trips::*;
use leeside::nouns::*;
use leeside::phrase::{StepId, Token};
use leeside::plan::{Plan, Role, Step, plan};
use leeside::units::*;
use std::collections::BTreeMap;

/// Tokens to a value by precedence climbing on a list (the plan itself reads by descent on text).
pub(crate) fn pencil(formula: &str) -> f64 {
    let spaced = formula
        .replace('(', " ( ")
        .replace(')', " ) ")
        .replace('^', " ^ ");
    let tokens: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let value = climb(&tokens, &mut at, 0);
    assert_eq!(at, tokens.len(), "left over in `{formula}`");
    value
}

fn climb(tokens: &[&str], at: &mut usize, least: u8) -> f64 {
    let token = tokens[*at];
    *at += 1;
    let mut left = if token == "(" {
        let inner = climb(tokens, at, 0);
        assert_eq!(tokens[*at], ")");
        *at += 1;
        inner
    } else {
        token
            .parse()
            .unwrap_or_else(|_| panic!("`{token}` is no number"))
    };
    while let Some(sign) = tokens.get(*at) {
        let strength = match *sign {
            "+" | "-" => 1,
            "x" | "/" => 2,
            "^" => 3,
            _ => break,
        };
        if strength < least.max(1) {
            break;
        }
        *at += 1;
        let right = climb(tokens, at, strength + 1);
        left = match *sign {
            "+" => left + right,
            "-" => left - right,
            "x" => left * right,
            "/" => left / right,
            _ => left.powf(right),
        };
    }
    left
}

/// Rounds by text, as a reader would: 0.01 for degrees, else four significant digits.
pub(crate) fn agrees(step: &Step, worked: f64) -> bool {
    let printed = step.number();
    if step.unit == "°C" {
        return (printed - worked).abs() <= 0.005 + 1e-9;
    }
    if worked == 0.0 {
        return printed == 0.0;
    }
    let digit = 10f64.powi(worked.abs().log10().floor() as i32 - 3);
    (printed - worked).abs() <= 0.5 * digit * (1.0 + 1e-6)
}

fn all_steps(plan: &Plan) -> Vec<&Step> {
    let camps = plan.camps.iter().flat_map(|camp| &camp.steps);
    let kitchens = plan.kitchens.iter().flat_map(|kitchen| {
        kitchen
            .steps
            .iter()
            .chain(kitchen.rows.iter().flat_map(|row| &row.steps))
            .chain(kitchen.rows.iter().flat_map(|row| &row.loss_steps))
            .chain(&kitchen.fuel.steps)
            .chain(
                kitchen
                    .stability
                    .iter()
                    .flat_map(|stability| &stability.steps),
            )
    });
    let water = plan.greywater.iter().flat_map(|camp| &camp.working);
    camps.chain(kitchens).chain(water).collect()
}

/// A trip with everything that prints a line: snow, simmer, no lid, hot wash, alcohol, legs.
fn rich() -> Trip {
    let mut high = camp("Tarn bench", 2, 3078.0);
    high.water_from = WaterFrom::Snow;
    high.water = Temperature::celsius(-2.2);
    high.wind = Wind::Windy;
    high.drinking = Volume::litres(4.0);
    high.menu.supper.simmer = Time::minutes(8.0);
    let mut low = camp("Lower meadow", 1, 2499.4);
    low.menu.lunch = boil(Volume::fluid_ounces(10.0).in_litres());
    let mut gas = kitchen(
        5,
        Family::CanisterOnTop,
        vec![pot(2.0, None), pot(1.0, Some(133.0))],
    );
    gas.lid = false;
    gas.blend = Some(blend(0.25, 0.75, 0.0));
    let mut trip = trip(
        vec![low, high],
        vec![
            kitchen(4, Family::WhiteGas, vec![pot(3.0, None)]),
            gas,
            kitchen(2, Family::Alcohol, vec![pot(1.5, None)]),
        ],
    );
    trip.washing = Washing::ThreeBowlsHotDip;
    trip.resupply = Some(1);
    trip.spare = Spare::TwoExtraDays;
    trip
}

#[test]
fn every_printed_line_gives_its_printed_result() {
    for units in [Units::Metric, Units::Us, Units::Both] {
        for treatment in [Treatment::Filter, Treatment::Boil] {
            let mut trip = rich();
            trip.units = units;
            trip.treatment = treatment;
            let plan = plan(&trip, &library()).expect("a plan");
            let mut worked = 0;
            for step in all_steps(&plan) {
                assert!(step.number().is_finite(), "{step:?}");
                if !step.formula.is_empty() {
                    worked += 1;
                    assert!(agrees(step, pencil(&step.formula)), "{step:?}");
                }
            }
            assert!(worked > 200, "{worked}");
        }
    }
}

#[test]
fn a_number_in_a_line_stands_in_an_earlier_line() {
    // A reader finds each result again where it is used: the useful heat in the fuel line, the
    // fuel of the rows in the sum.
    let plan = plan(&rich(), &library()).expect("a plan");
    for kitchen in plan.kitchens.iter().filter(|kitchen| kitchen.boils()) {
        for row in &kitchen.rows {
            let heat = row
                .steps
                .iter()
                .rfind(|step| step.say.id().starts_with("line-useful-heat"))
                .expect("a heat");
            let fuel = row
                .steps
                .iter()
                .find(|step| step.say.id() == "line-fuel-to-heat")
                .expect("a fuel");
            assert!(
                fuel.formula.starts_with(&format!("({} + ", heat.value)),
                "{fuel:?}"
            );
            let said = format!("{} x {}", row.times, grams(row.fuel));
            assert!(
                kitchen
                    .fuel
                    .steps
                    .iter()
                    .any(|step| step.formula.contains(&said)),
                "{said}"
            );
        }
    }
}

/// Every line that is put into another is there, once, with the digits that are printed for it.
#[test]
fn a_line_knows_its_inputs_by_identity() {
    for units in [Units::Metric, Units::Us] {
        let mut trip = rich();
        trip.units = units;
        // Two kitchens of one name, and equal numbers everywhere.
        trip.kitchens[1] = trip.kitchens[0].clone();
        let plan = plan(&trip, &library()).expect("a plan");
        let steps = all_steps(&plan);
        let by_id: BTreeMap<&StepId, &Step> = steps.iter().map(|step| (&step.id, *step)).collect();
        assert_eq!(by_id.len(), steps.len(), "each id once");
        let mut inputs = 0;
        for step in &steps {
            for token in step.formula.iter() {
                let Token::Of {
                    step: id,
                    text,
                    exact,
                } = token
                else {
                    continue;
                };
                // A spare day at a camp that the fuel list leaves out is worked for that day only.
                let Some(input) = by_id.get(id) else {
                    assert!(matches!(step.role, Role::SpareDay(_)), "{step:?}");
                    continue;
                };
                inputs += 1;
                assert_eq!(text.trim_matches(['(', ')']), input.value, "{step:?}");
                assert!(*exact == input.exact, "{step:?} {input:?}");
            }
            let far = (step.exact - step.number()).abs();
            // What is left of two numbers of four digits is as far off as the larger of them.
            let taken_off = step.formula.iter().filter_map(|token| match token {
                Token::Of { exact, .. } if step.formula.to_string().contains(" - ") => {
                    Some(exact.abs())
                }
                _ => None,
            });
            let larger = taken_off.fold(0.0, f64::max);
            let allowed = 0.02 * step.number().abs() + 0.02 + 5e-4 * larger;
            assert!(far <= allowed, "{step:?}");
        }
        assert!(inputs > 200, "{inputs}");
    }
}

fn grams(mass: Mass) -> String {
    say::significant(mass.in_grams(), 4)
}

#[test]
fn a_trip_in_feet_and_fahrenheit_is_converted_first() {
    let mut trip = rich();
    trip.units = Units::Us;
    let plan = plan(&trip, &library()).expect("a plan");
    let formulas: Vec<&str> = all_steps(&plan)
        .iter()
        .map(|step| step.formula.as_str())
        .collect();
    assert!(formulas.contains(&"8200 x 0.3048"), "{formulas:?}");
    assert!(formulas.contains(&"(46.4 - 32) x 5 / 9"));
    assert!(formulas.contains(&"10 x 0.0295735"));
}
