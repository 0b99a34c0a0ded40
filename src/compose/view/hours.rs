//! Minutes as a clock shows them and as they are said.

use crate::units::{Time, say};

/// Whole minutes as they are said.
pub(super) fn in_minutes(minutes: u32) -> String {
    say::time(Time::minutes(f64::from(minutes)))
}

/// Minutes after midnight as a clock shows them.
#[must_use]
pub fn hour(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60 % 24, minutes % 60)
}
