//! `leeside canister` through the real program, against an integration by reference libraries.

use crate::physics::{near, near_share, table};
use serde_json::Value;
use std::process::{Command, Output};

fn canister(arguments: &[String]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_leeside"))
        .arg("canister")
        .args(arguments)
        .output()
        .expect("the program runs")
}

/// `canister_burn.csv` (its first line names the libraries): the rows that one command can say,
/// every fifth of them; 0.2 K, 2 kPa, 1 % of the mean power, the verdict exactly.
#[test]
fn the_command_burns_as_the_table_does() {
    let mut compared = 0;
    let rows = table(include_str!("reference/canister_burn.csv"), 104);
    let sayable = |row: &&crate::physics::Row| row.text("stove") != "heat-exchanger";
    for row in rows.iter().filter(sayable).step_by(5) {
        let parts: Vec<String> = [
            ("propane", "propane_start"),
            ("isobutane", "isobutane_start"),
            ("n-butane", "n_butane_start"),
        ]
        .iter()
        .map(|(gas, column)| format!("{gas} {}", row.number(column) * 100.0))
        .collect();
        let mut arguments: Vec<String> = [
            ("--size", format!("{}g", row.text("size_g"))),
            ("--left", format!("{}g", row.text("net_start_g"))),
            ("--present", parts.join(", ")),
            ("--air", format!("{}C", row.text("air_c"))),
            ("--fuel-temperature", format!("{}C", row.text("start_c"))),
            ("--minutes", row.text("minutes").to_owned()),
            ("--power", format!("{}kW", row.text("p_set_kw"))),
            ("--wind", row.text("wind").to_owned()),
            ("--windscreen", row.text("screen").to_owned()),
            ("--elevation", format!("{}m", row.text("elevation_m"))),
        ]
        .into_iter()
        .flat_map(|(flag, value)| [flag.to_owned(), value])
        .collect();
        arguments.push("--json".to_owned());
        if row.text("stands") == "beside" {
            arguments.push("--beside".to_owned());
        }
        if row.text("regulated") == "yes" {
            arguments.push("--regulated".to_owned());
        }
        let output = canister(&arguments);
        let errors = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{arguments:?}: {errors}");
        let said: Value = serde_json::from_slice(&output.stdout).expect("JSON alone");
        let number = |key: &str| said[key].as_f64().unwrap_or(f64::NAN);
        let what = |key: &str| format!("row {}: {key}", row.text("id"));
        near(&what("end_c"), number("end_c"), row.number("T_end_c"), 0.2);
        for (key, column) in [
            ("gauge_start_kpa", "gauge_start_kpa"),
            ("gauge_end_kpa", "gauge_end_kpa"),
        ] {
            near(&what(key), number(key), row.number(column), 2.0);
        }
        let power = row.number("mean_power_kw");
        near_share(&what("mean_power_kw"), number("mean_power_kw"), power, 0.01);
        near(&what("left_g"), number("left_g"), row.number("left_g"), 0.3);
        near(
            &what("burnt_g"),
            number("burnt_g"),
            row.number("burnt_g"),
            0.3,
        );
        let share = row.number("share");
        if [0.75, 0.40].iter().all(|edge| (share - edge).abs() > 0.005) {
            assert_eq!(said["verdict"], row.text("verdict"), "{}", what("verdict"));
        }
        assert!(
            said["steps"]
                .as_array()
                .is_some_and(|steps| steps.len() > 10)
        );
        compared += 1;
    }
    assert!(compared >= 18, "{compared}");
}

#[test]
fn what_cannot_be_is_refused_with_its_flag() {
    let usual = "--size 230g --air -5C --minutes 12";
    for (more, status, flag) in [
        ("--fuel-temperature 40C", 1, "--fuel-temperature"),
        ("--power 60kW", 1, "--power"),
        ("--power 5W", 1, "--power"),
        ("--left 240g", 1, "--left"),
        ("--left -1g", 1, "--left"),
        ("--elevation 20000m", 1, "--elevation"),
        ("--windscreen full", 1, "--windscreen"),
        ("--wind stormy", 2, "--wind"),
        ("--power 5", 2, "--power"),
    ] {
        let line = format!("{usual} {more}");
        let arguments: Vec<String> = line.split_whitespace().map(str::to_owned).collect();
        let output = canister(&arguments);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(status), "{more}: {said}");
        assert!(
            said.contains(flag) && output.stdout.is_empty(),
            "{more}: {said}"
        );
    }
    for (line, flag) in [
        ("--size 300g --air -5C --minutes 12", "--size"),
        ("--size 230g --air -5C --minutes 0", "--minutes"),
        ("--size 230g --air -99C --minutes 5", "--air"),
    ] {
        let arguments: Vec<String> = line.split_whitespace().map(str::to_owned).collect();
        let output = canister(&arguments);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(1), "{line}: {said}");
        assert!(
            said.contains(flag) && said.contains("help: "),
            "{line}: {said}"
        );
    }
}

/// The question of a morning: will this half-empty canister still boil breakfast at -5 C?
#[test]
fn a_learner_reads_the_answer_first() {
    let line = "--size 230g --left 120g --air -5C --minutes 12";
    let arguments: Vec<String> = line.split_whitespace().map(str::to_owned).collect();
    let output = canister(&arguments);
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(
        said.lines()
            .next()
            .is_some_and(|line| line.ends_with("weak")),
        "{said}"
    );
    assert!(said.contains("Warm to the hand: shut it off."), "{said}");
    assert!(
        said.contains("gauge pressure") && said.contains("fuel left"),
        "{said}"
    );
}
