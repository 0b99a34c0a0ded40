//! The plan and the course as `leeside plan` prints them: as JSON, as aligned tables.

mod about;
mod cautions;
mod course;
mod json;
mod table;

use super::view::Inputs;
use crate::diag::Outcome;
use crate::nouns::{Library, Trip};
use crate::plan::Plan;
use serde_json::Value;

pub use about::AssumedLine;
pub use cautions::caution;
pub use json::json;
pub use table::table;
pub(crate) use table::wrapped;

/// The course of a trip as JSON.
///
/// # Errors
/// A course that cannot be held.
pub fn course(trip: &Trip, library: &Library, plan: &Plan) -> Outcome<Value> {
    let inputs = Inputs::new(trip, plan, library, trip.units, &[])?;
    let (laid, check) = (inputs.course?, inputs.check);
    Ok(course::json(trip, &laid, &check))
}
