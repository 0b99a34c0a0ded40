//! Every number of the trip, decided once.
//!
//! Pure: the same trip and library give the same plan, to the last digit.
//! What a reader sees is worked from printed, rounded values, line by line
//! ([`Step`]); the spread is worked unrounded.

mod types;

pub use types::{
    Allowed, Assignment, Batch, CampPlan, CautionPlan, ColdRow, ComparisonRow, ContainerPlan,
    Crossing, FuelPlan, GreywaterPlan, Heat, KitchenPlan, Leg, ModulePlan, Plan, Row, RulePlan,
    SpreadShare, StabilityPlan, Step, Terms, Usual,
};
