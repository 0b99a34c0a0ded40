//! The plan: rows, batches, fuel, spread and printed steps, from trips built by hand.

#[path = "plan/advice.rs"]
mod advice;
#[path = "plan/cold.rs"]
mod cold;
#[path = "plan/comparison.rs"]
mod comparison;
#[path = "plan/containers.rs"]
mod containers;
#[path = "plan/fuel.rs"]
mod fuel;
#[path = "plan/grid.rs"]
mod grid;
#[path = "plan/kinder.rs"]
mod kinder;
#[path = "plan/output.rs"]
mod output;
#[path = "plan/rows.rs"]
mod rows;
#[path = "plan/small_shelf.rs"]
mod small_shelf;
#[path = "plan/steps.rs"]
mod steps;
#[path = "plan/stops.rs"]
mod stops;
#[path = "plan/what_if.rs"]
mod what_if;

pub(crate) use steps::{agrees, pencil};
