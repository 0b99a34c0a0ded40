//! Whole trips held against a second computation, in Python with reference libraries
//! (`tests/reference/second.py`, which wrote `trips/second.csv`).

use crate::physics::{Row as Line, table};
use crate::support::content;
use leeside::plan::{KitchenPlan, Plan, plan};

const TRIPS: [(&str, &str); 3] = [
    (
        "alcohol-summer",
        include_str!("../reference/trips/alcohol-summer.yaml"),
    ),
    (
        "canister-cold",
        include_str!("../reference/trips/canister-cold.yaml"),
    ),
    (
        "white-gas-snow",
        include_str!("../reference/trips/white-gas-snow.yaml"),
    ),
];

fn near(what: &str, ours: f64, theirs: f64, share: f64) {
    assert!(
        (ours - theirs).abs() <= share * theirs.abs() + 1e-9,
        "{what}: {ours} against {theirs}"
    );
}

fn row(plan: &Plan, kitchen: &KitchenPlan, name: &str, line: &Line) {
    let (camp, meal) = (line.text("camp"), line.text("meal"));
    let what = format!("{name}, {meal} at {camp}");
    let row = kitchen
        .rows
        .iter()
        .find(|row| plan.camps[row.camp].name == camp && row.meal.word() == meal)
        .unwrap_or_else(|| panic!("no {what}"));
    assert_eq!(f64::from(row.times), line.number("times"), "{what}");
    assert_eq!(row.batches.len() as f64, line.number("batches"), "{what}");
    near(&what, row.water.in_litres(), line.number("water_l"), 1e-9);
    for (heat, column) in [
        (row.heat.water, "water_kj"),
        (row.heat.pot, "pot_kj"),
        (row.heat.melt, "melt_kj"),
    ] {
        near(&what, heat.in_kilojoules(), line.number(column), 0.001);
    }
    near(&what, row.fuel.in_grams(), line.number("fuel_g"), 0.01);
}

#[test]
fn three_whole_trips_agree_with_a_second_computation() {
    let library = content::library();
    let lines = table(include_str!("../reference/trips/second.csv"), 35);
    for (name, text) in TRIPS {
        let trip = content::trip(name, text, &library);
        let plan = plan(&trip, &library).expect("a plan");
        let kitchen = &plan.kitchens[0];
        let mut rows = 0;
        for line in lines.iter().filter(|line| line.text("trip") == name) {
            let fuel = &kitchen.fuel;
            let what = format!("{name}, {}", line.text("what"));
            match line.text("what") {
                "row" => {
                    rows += 1;
                    row(&plan, kitchen, name, line);
                }
                "likely" => near(&what, fuel.likely.in_grams(), line.number("fuel_g"), 0.01),
                "at confidence" => near(
                    &what,
                    fuel.at_confidence.in_grams(),
                    line.number("fuel_g"),
                    0.02,
                ),
                "carry" => near(&what, fuel.carry.in_grams(), line.number("fuel_g"), 0.01),
                "gauge kPa" => {
                    let cold = kitchen
                        .cold
                        .iter()
                        .find(|cold| {
                            plan.camps[cold.camp].name == line.text("camp")
                                && cold.meal.word() == line.text("meal")
                        })
                        .unwrap_or_else(|| panic!("no cold row for {what}"));
                    near(
                        &what,
                        cold.gauge_start.in_kilopascals(),
                        line.number("fuel_g"),
                        0.045,
                    );
                }
                _ => {}
            }
        }
        assert_eq!(rows, kitchen.rows.len(), "{name}: every row is compared");
    }
}
