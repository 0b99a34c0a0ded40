//! `leeside boil` and `leeside trial` through the real program, against worked examples.

use serde_json::Value;
use std::process::{Command, Output};

fn leeside(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(arguments)
        .output()
        .expect("the program runs")
}

fn json(arguments: &[&str]) -> Value {
    let output = leeside(arguments);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{arguments:?}: {errors}");
    serde_json::from_slice(&output.stdout).expect("JSON alone on standard output")
}

fn boil(line: &str) -> Value {
    let mut arguments = vec!["boil", "--json"];
    let quoted: Vec<&str> = line.split('\'').collect();
    for (index, part) in quoted.iter().enumerate() {
        if index % 2 == 1 {
            arguments.push(part);
        } else {
            arguments.extend(part.split_whitespace());
        }
    }
    json(&arguments)
}

fn number(value: &Value, path: &str) -> f64 {
    value
        .pointer(path)
        .and_then(Value::as_f64)
        .unwrap_or_else(|| panic!("{path} in {value:#}"))
}

/// `worked_examples.csv`: enthalpies of IAPWS-IF97, heating values of open libraries. Forward
/// within 0.8 % of the fuel; the useful heat and the boiling point beside it.
#[test]
fn the_worked_examples_forward() {
    let examples = [
        (
            "--water 1L --from 15C --elevation 0m --fuel canister --blend 'propane 30, isobutane 70' --efficiency 60% --pot 150g",
            13.3596,
            367.024,
            99.9743,
        ),
        (
            "--water 0.5L --from 5C --elevation 2500m --fuel isobutane --efficiency 50% --pot 100g --pot-material titanium",
            8.1630,
            185.923,
            91.6482,
        ),
        (
            "--water 2L --snow -5C --elevation 4000m --fuel white-gas --efficiency 45% --pot 250g",
            71.5006,
            1433.703,
            86.6277,
        ),
        (
            "--water 750mL --from 10C --elevation 1500m --fuel ethanol --efficiency 40% --pot 115g --pot-material titanium",
            25.3498,
            271.910,
            94.9842,
        ),
        (
            "--water 1.5L --from 40C --elevation 3000m --fuel canister --blend 'propane 30, n-butane 70' --efficiency 55% --pot 400g --pot-material stainless",
            12.7330,
            321.463,
            89.9770,
        ),
        (
            "--water 500mL --from 8C --elevation 500m --fuel methanol --efficiency 35% --pot 90g --evaporated 15g",
            33.0110,
            230.306,
            98.3126,
        ),
    ];
    for (line, fuel, useful, boiling) in examples {
        let found = boil(line);
        let grams = number(&found, "/fuel_g");
        assert!(
            (grams / fuel - 1.0).abs() < 0.008,
            "{line}: {grams} g, expected {fuel}"
        );
        assert!(
            (number(&found, "/heat_kj/useful") / useful - 1.0).abs() < 0.008,
            "{line}"
        );
        assert!(
            (number(&found, "/boiling_c") - boiling).abs() < 0.02,
            "{line}"
        );
        let parts: f64 = ["water", "pot", "melt", "evaporation"]
            .iter()
            .map(|part| number(&found, &format!("/heat_kj/{part}")))
            .sum();
        assert!((parts - number(&found, "/heat_kj/useful")).abs() < 1e-6);
    }
}

/// D-F3 with n-heptane's own heating value, as the example has it: within 0.1 %.
#[test]
fn a_stated_heating_value_takes_the_place_of_the_fuels() {
    let found = boil(
        "--water 2L --snow -5C --elevation 4000m --fuel white-gas --heating-value '44.5592 MJ/kg' --efficiency 45% --pot 250g",
    );
    assert!((number(&found, "/fuel_g") / 71.51 - 1.0).abs() < 0.001);
    let millilitres = number(&found, "/fuel_ml");
    assert!((millilitres / (number(&found, "/fuel_g") / 0.70) - 1.0).abs() < 0.001);
    let gas = boil("--water 1L --from 5C --elevation 0m --fuel propane --efficiency 50%");
    assert!(gas["fuel_ml"].is_null());
}

/// Each printed line is worked from the printed numbers before it; feet come first.
#[test]
fn every_step_is_what_its_formula_gives() {
    let found = boil(
        "--water 2qt --from 41F --elevation 8200ft --fuel white-gas --efficiency 45% --pot 180g",
    );
    let steps = found["steps"].as_array().expect("steps");
    assert_eq!(steps[0]["say"], "height in metres");
    assert!(steps.len() >= 10);
    let last = steps
        .iter()
        .find(|step| step["say"] == "fuel")
        .expect("the fuel");
    assert_eq!(last["value"].as_f64(), found["fuel_g"].as_f64());
    let heat = steps
        .iter()
        .find(|step| step["say"] == "heat into the water")
        .expect("heat");
    // 2 quarts, 5.00 C, the boil at 8200 ft.
    let formula = heat["formula"].as_str().expect("a formula");
    let numbers: Vec<f64> = formula
        .replace(['x', '(', ')', '-'], " ")
        .split_whitespace()
        .map(|one| one.parse().expect("a number"))
        .collect();
    let [mass, c, end, start] = numbers[..] else {
        panic!("{formula}")
    };
    let worked = mass * c * (end - start);
    assert!((heat["value"].as_f64().unwrap() / worked - 1.0).abs() < 5e-4);
    assert!((mass - 1.893).abs() < 1e-9 && start == 5.0);
}

#[test]
fn to_a_temperature_below_the_boil_takes_less() {
    let boiled = boil("--water 1L --from 5C --elevation 0m --fuel propane --efficiency 50%");
    let warm = boil("--water 1L --from 5C --to 45C --elevation 0m --fuel propane --efficiency 50%");
    let share = number(&warm, "/fuel_g") / number(&boiled, "/fuel_g");
    assert!((share - 40.0 / 94.9743).abs() < 0.001);
}

/// What cannot be: exit 1. What cannot be read: exit 2. Nothing on standard output.
#[test]
fn impossible_is_one_and_unreadable_is_two() {
    let good = "--water 1L --from 5C --elevation 1000m --fuel white-gas --efficiency 45%";
    let cases = [
        ("--efficiency 45%", "--efficiency 145%", 1),
        ("--efficiency 45%", "--efficiency 0%", 1),
        ("--from 5C", "--from 105C", 1),
        ("--from 5C", "--from -5C", 1),
        ("--from 5C", "--snow 5C", 1),
        ("--from 5C", "--from 5C --to 99C", 1),
        ("--water 1L", "--water 0L", 1),
        ("--water 1L", "--water -1L", 1),
        ("--elevation 1000m", "--elevation 20km", 1),
        ("white-gas", "moonshine", 1),
        ("white-gas", "canister --blend propane_30,isobutane_50", 1),
        ("white-gas", "white-gas --blend propane_100", 1),
        ("--water 1L", "--water 1", 2),
        ("--water 1L", "--water lots", 2),
        ("--from 5C", "--from 5m", 2),
        ("--from 5C", "", 2),
        ("--from 5C", "--from 5C --snow -5C", 2),
        ("white-gas", "canister --blend helium_100", 2),
    ];
    for (old, new, status) in cases {
        let line = good.replace(old, new);
        let words: Vec<String> = line
            .split_whitespace()
            .map(|word| word.replace('_', " "))
            .collect();
        let mut arguments = vec!["boil", "--json"];
        arguments.extend(words.iter().map(String::as_str));
        let output = leeside(&arguments);
        let errors = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(status), "{line}: {errors}");
        assert!(output.stdout.is_empty() && !errors.is_empty(), "{line}");
    }
}

struct Burn<'a> {
    fuel: &'a str,
    elevation: &'a str,
    pot: &'a str,
    runs: &'a str,
}

fn trial(burn: &Burn<'_>) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let text = format!(
        "fuel: {}\nelevation: {}\npot:\n{}runs:\n{}",
        burn.fuel, burn.elevation, burn.pot, burn.runs
    );
    let path = folder.path().join("trial.yaml");
    std::fs::write(&path, text).expect("a trial");
    let path = path.to_str().expect("a path").to_owned();
    (folder, path)
}

const GAS: &str = "  - water: 1000 g\n    start: 20 C\n    end: boiling\n    evaporated: 28 g\n    fuel_before: 514.5 g\n    fuel_after: 500.0 g\n    minutes: 6.5\n    wind: calm\n    lid: yes\n";
const ALUMINIUM: &str = "  mass: 150 g\n  material: aluminium\n";

/// D-I1 and D-I2 of the worked examples: IF97 enthalpies; efficiency within 0.006.
#[test]
fn the_worked_examples_inverse() {
    let alcohol = "  - water: 500 g\n    start: 12 C\n    end: boiling\n    evaporated: 9 g\n    fuel_before: 118 g\n    fuel_after: 100 g\n";
    let examples = [
        (
            Burn {
                fuel: "canister\nblend: isobutane 100",
                elevation: "1800 m",
                pot: ALUMINIUM,
                runs: GAS,
            },
            0.5653,
            0.5803,
        ),
        (
            Burn {
                fuel: "ethanol",
                elevation: "200 m",
                pot: "  mass: 110 g\n  material: titanium\n",
                runs: alcohol,
            },
            0.4209,
            0.4313,
        ),
    ];
    for (burn, efficiency, with_pot) in examples {
        let (_folder, path) = trial(&burn);
        let found = json(&["trial", "--json", &path]);
        assert!(
            (number(&found, "/efficiency") - efficiency).abs() < 0.006,
            "{found:#}"
        );
        assert!(
            (number(&found, "/efficiency_with_pot") - with_pot).abs() < 0.006,
            "{found:#}"
        );
        let ratio = number(&found, "/useful_kj") / number(&found, "/fuel_kj");
        assert!((ratio - number(&found, "/efficiency")).abs() < 1e-9);
    }
}

/// Planning the very boil that was measured gives back the grams measured within 1 %.
#[test]
fn planning_the_measured_boil_gives_back_its_fuel() {
    let (_folder, path) = trial(&Burn {
        fuel: "canister\nblend: isobutane 100",
        elevation: "1800 m",
        pot: ALUMINIUM,
        runs: GAS,
    });
    let found = json(&["trial", "--json", &path]);
    let percent = format!("{:.1}%", number(&found, "/efficiency_to_plan") * 100.0);
    let again = boil(&format!(
        "--water 1L --from 20C --elevation 1800m --fuel canister --blend 'isobutane 100' --pot 150g --efficiency {percent}"
    ));
    assert!((number(&again, "/fuel_g") / 14.5 - 1.0).abs() < 0.01);
    let paste = found["paste"][0].as_str().expect("lines to paste");
    assert!(
        paste.contains(&percent) && paste.contains("wind: calm"),
        "{paste}"
    );
    assert!(
        (number(&found, "/power_w") - number(&found, "/useful_kj") * 1000.0 / 390.0).abs() < 1e-6
    );
    assert!((number(&found, "/fuel_g_per_litre") - 14.5).abs() < 1e-6);
}

#[test]
fn several_runs_give_mean_spread_and_range() {
    let second = GAS
        .replace("500.0 g", "499.0 g")
        .replace("start: 20 C", "start: 18 C");
    let both = format!("{GAS}{second}");
    let (_folder, path) = trial(&Burn {
        fuel: "white gas",
        elevation: "1800 m",
        pot: ALUMINIUM,
        runs: &both,
    });
    let found = json(&["trial", "--json", &path]);
    let each: Vec<f64> = (0..2)
        .map(|run| number(&found, &format!("/runs/{run}/efficiency_to_plan")))
        .collect();
    let mean = (each[0] + each[1]) / 2.0;
    assert!((number(&found, "/efficiency_to_plan") - mean).abs() < 1e-12);
    // Standard deviation of two: their distance over the square root of two.
    assert!((number(&found, "/spread") - (each[0] - each[1]).abs() / 2.0_f64.sqrt()).abs() < 1e-12);
    assert!((number(&found, "/range/high") - each[0].max(each[1])).abs() < 1e-12);
}

/// What cannot have been is refused, with its place in the file.
#[test]
fn impossible_trials_are_refused_with_reason_and_place() {
    let cases = [
        ("fuel_after: 500.0 g", "fuel_after: 520.0 g", "fuel_after"),
        ("fuel_after: 500.0 g", "fuel_after: 510.0 g", "runs[0]"),
        ("end: boiling", "end: 99 C", "end"),
        ("start: 20 C", "start: 95 C", "start"),
        ("evaporated: 28 g", "evaporated: 1200 g", "evaporated"),
        ("water: 1000 g", "water: 0 g", "water"),
    ];
    for (old, new, named) in cases {
        let runs = GAS.replace(old, new);
        assert_ne!(runs, GAS);
        let (_folder, path) = trial(&Burn {
            fuel: "white gas",
            elevation: "1800 m",
            pot: ALUMINIUM,
            runs: &runs,
        });
        let output = leeside(&["trial", "--json", &path]);
        let errors = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(1), "{new}: {errors}");
        assert!(
            errors.contains(named) && errors.contains("trial.yaml:"),
            "{new}: {errors}"
        );
        assert!(output.stdout.is_empty());
    }
}
