//! A printed line of the arithmetic: which it is, what it works out, its formula and its result.

use crate::phrase::{Phrase, StepId, Tokens};

/// What a line is to those who look for it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Role {
    /// A line on the way.
    #[default]
    Plain,
    /// The air pressure of a camp.
    Pressure,
    /// Where water boils at a camp.
    Boils,
    /// The water or snow of a camp, in °C.
    Water,
    /// The heating value of a kitchen's fuel.
    HeatingValue,
    /// The fuel of a row, once.
    Fuel,
    /// The minutes of a row, once.
    Minutes,
    /// The fuel of all rows of a camp (its index).
    AtCamp(usize),
    /// The fuel of the camps of a leg, or of the whole trip.
    Sum,
    /// The sum with what is spilt.
    Likely,
    /// The need at the trip's confidence.
    AtConfidence,
    /// A full day at a camp (its index), to spare.
    SpareDay(usize),
    /// The days to spare.
    Spare,
    /// Likely need and spare.
    WithSpare,
    /// What to take.
    Carry,
    /// The likely need each person and day.
    PersonDay,
    /// Wash water a day.
    WashWater,
    /// The distance of wash water from water.
    WashDistance,
    /// The same in steps.
    WashSteps,
    /// The push at the rim.
    Push,
    /// The tilt that tips.
    Tilt,
}

/// One printed line of the arithmetic.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Which line it is.
    pub id: StepId,
    /// What it is to those who look for it.
    pub role: Role,
    /// The leg that it is a sum of (from nought), where fuel is handed out on the way.
    pub leg: Option<usize>,
    /// What is worked out.
    pub say: Phrase,
    /// The formula with the printed numbers in it: `4.8 x 4.186 x (89.98 - 4.00)`. Only
    /// numbers, `+ - x / ^` and brackets. Empty where the value is given or read from a table.
    pub formula: Tokens,
    /// The result from unrounded inputs, in its unit.
    pub exact: f64,
    /// The result as printed, without its unit; worked from the printed numbers.
    pub value: String,
    /// The unit of the result; empty for a plain number.
    pub unit: String,
    /// What stands behind it: a source, an assumption; nothing for plain arithmetic.
    pub why: Phrase,
}

impl Step {
    /// The printed result as a number.
    #[must_use]
    pub fn number(&self) -> f64 {
        self.value.parse().unwrap_or(f64::NAN)
    }
}
