//! `leeside boil --stove` and a trial with its stove, through the real program, against the same heat
//! balance integrated by a reference library (each table's first line names it).

use crate::physics::{Row, table};
use serde_json::Value;
use std::process::Command;

fn json(arguments: &[String]) -> Value {
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(arguments)
        .output()
        .expect("the program runs");
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{arguments:?}: {errors}");
    serde_json::from_slice(&output.stdout).expect("JSON alone on standard output")
}

fn number(value: &Value, path: &str) -> f64 {
    value
        .pointer(path)
        .and_then(Value::as_f64)
        .unwrap_or_else(|| panic!("{path} in {value:#}"))
}

fn fuel_of(stove: &str) -> &str {
    match stove {
        "canister-on-top" | "canister-beside" | "heat-exchanger" => "canister",
        "white-gas" => "white gas",
        "alcohol" => "ethanol",
        "tablet" => "hexamine",
        other => other,
    }
}

/// The flags of a row of the table.
fn flags(row: &Row) -> Vec<String> {
    let start = if row.text("snow") == "yes" {
        "--snow"
    } else {
        "--from"
    };
    let with = |column: &str, unit: &str| format!("{}{unit}", row.text(column));
    let percent = format!("{}%", row.number("efficiency") * 100.0);
    [
        ("--water", with("water_l", "L")),
        (start, with("start_c", "C")),
        ("--to", with("end_c", "C")),
        ("--elevation", with("elevation_m", "m")),
        ("--fuel", fuel_of(row.text("stove")).to_owned()),
        ("--heating-value", with("lhv", " MJ/kg")),
        ("--stove", with("stove", "")),
        ("--efficiency", percent),
        ("--wind", with("wind", "")),
        ("--windscreen", with("screen", "")),
        ("--lid", with("lid", "")),
        ("--air", with("air_c", "C")),
        ("--pot-size", with("pot_l", "L")),
        ("--pot", with("pot_g", "g")),
        ("--pot-material", with("material", "")),
        ("--power", with("p_set_kw", "kW")),
    ]
    .into_iter()
    .fold(
        vec!["boil".to_owned(), "--json".to_owned()],
        |mut all, (flag, value)| {
            all.extend([flag.to_owned(), value]);
            all
        },
    )
}

/// 1 % of the minutes, 0.5 % of the fuel, the lost heat within 2 % or 1 kJ; whether it boils exactly.
#[test]
fn a_pot_on_a_stove_is_that_of_the_table() {
    let rows = table(include_str!("reference/heating.csv"), 100);
    let mut seen = 0;
    for row in rows
        .iter()
        .filter(|row| row.text("p_set_kw") == row.text("power_kw"))
    {
        seen += 1;
        let id = row.text("id");
        let found = json(&flags(row));
        if !row.has("minutes") {
            assert!(
                found["fuel_g"].is_null() && found["minutes"].is_null(),
                "row {id}"
            );
            let off = number(&found, "/stops_at_c") - row.number("stops_at_c");
            assert!(off.abs() < 1.0, "row {id} stops {off} away");
            continue;
        }
        assert!(found["stops_at_c"].is_null(), "row {id}");
        let minutes = number(&found, "/minutes") / row.number("minutes");
        assert!((minutes - 1.0).abs() < 0.01, "row {id}: minutes {minutes}");
        let fuel = number(&found, "/fuel_g") / row.number("fuel_g");
        assert!((fuel - 1.0).abs() < 0.005, "row {id}: fuel {fuel}");
        let lost = row.number("heat_lost_kj");
        let off = (number(&found, "/lost") - lost).abs();
        assert!(off < (lost.abs() * 0.02).max(1.0), "row {id}: lost {off}");
    }
    assert!(seen > 95, "{seen}");
}

/// A trial in any wind, behind any screen, with its lid or without: to still air and back within 1 %.
#[test]
fn a_trial_with_its_stove_is_that_of_the_table() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("trial.yaml");
    for row in table(include_str!("reference/trial.csv"), 60) {
        let text = format!(
            "fuel: {}\nheating_value: {} MJ/kg\nelevation: {} m\nstove: {}\nscreen: {}\nair: {} C\n\
             pot:\n  mass: {} g\n  material: {}\n  capacity: {} L\n\
             runs:\n  - water: {} g\n    start: {} C\n    end: boiling\n    evaporated: {} g\n    \
             fuel_before: {:.4} g\n    fuel_after: 500 g\n    minutes: {}\n    wind: {}\n    lid: {}\n",
            fuel_of(row.text("stove")),
            row.text("lhv"),
            row.text("elevation_m"),
            row.text("stove"),
            row.text("screen"),
            row.text("air_c"),
            row.text("pot_g"),
            row.text("material"),
            row.text("pot_l"),
            row.text("water_g"),
            row.text("start_c"),
            row.text("evaporated_g"),
            500.0 + row.number("fuel_g"),
            row.text("minutes"),
            row.text("wind"),
            row.text("lid"),
        );
        std::fs::write(&path, text).expect("a trial");
        let path = path.to_str().expect("a path").to_owned();
        let found = json(&["trial".to_owned(), path, "--json".to_owned()]);
        for (key, share) in [
            ("efficiency", 0.008),
            ("efficiency_with_pot", 0.008),
            ("efficiency_to_plan", 0.01),
        ] {
            let ratio = number(&found, &format!("/{key}")) / row.number(key);
            let id = row.text("id");
            assert!((ratio - 1.0).abs() < share, "row {id}: {key} {ratio}");
        }
    }
}
