//! The plan: rows, batches, fuel, spread and printed steps, from trips built by hand.

#[path = "plan/cold.rs"]
mod cold;
#[path = "plan/containers.rs"]
mod containers;
#[path = "plan/fuel.rs"]
mod fuel;
#[path = "plan/rows.rs"]
mod rows;
#[path = "plan/steps.rs"]
mod steps;
