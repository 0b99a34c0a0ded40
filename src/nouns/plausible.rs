//! What a trip is usually like, so that a slip of the hand is noticed before it is printed.

use super::words::words;
use super::{Basis, Id};
use serde::{Deserialize, Serialize};

words! {
    /// What is held against the table of usual values (`content/plausible.yaml`).
    Measure {
        /// Water to boil for a person and meal.
        MealWater = "meal water",
        /// How long a meal simmers at sea level.
        SimmerTime = "simmer time",
        /// Drinking water for a person and day.
        Drinking = "drinking",
        /// Height of a camp above the sea.
        Elevation = "elevation",
        /// Air when supper is cooked.
        DayAir = "day air",
        /// The night's low.
        NightAir = "night air",
        /// Water as it comes from stream or tap.
        Water = "water",
        /// How far from water wash water goes.
        GreywaterDistance = "greywater distance",
        /// Lower heating value of a fuel.
        HeatingValue = "heating value",
        /// Propane in a canister's gas, by mass.
        Propane = "propane",
        /// One counted step.
        StepLength = "step length",
        /// Age of the youngest.
        Youngest = "youngest",
        /// The year in which it starts.
        Year = "year",
        /// Pots of a kitchen for each person.
        PotsAPerson = "pots a person",
        /// Mass of a pot for each litre.
        PotMassALitre = "pot mass a litre",
        /// How much warmer than the night's air a canister is kept.
        FuelAboveNight = "fuel above night",
        /// Adults beside a lit stove where children cook.
        AdultsByChildren = "adults by children",
        /// Learners under 16 who go without an instructor.
        ChildrenAlone = "children alone",
        /// Length of one session of a lesson.
        SessionLength = "session length",
        /// Sessions of a course.
        Sessions = "sessions",
        /// The fallback's share of the session that it stands for.
        FallbackShare = "fallback share",
    }
}

/// How a measure is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Litres.
    Volume,
    /// Metres.
    Length,
    /// Degrees Celsius.
    Temperature,
    /// Kelvins of difference.
    Warming,
    /// Grams.
    Mass,
    /// Minutes.
    Time,
    /// Percent.
    Fraction,
    /// Megajoules a kilogram.
    HeatingValue,
    /// A plain number.
    Number,
}

impl Measure {
    /// How it is written.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::MealWater | Self::Drinking | Self::PotsAPerson => Dimension::Volume,
            Self::Elevation | Self::GreywaterDistance | Self::StepLength => Dimension::Length,
            Self::DayAir | Self::NightAir | Self::Water => Dimension::Temperature,
            Self::FuelAboveNight => Dimension::Warming,
            Self::PotMassALitre => Dimension::Mass,
            Self::SimmerTime | Self::SessionLength => Dimension::Time,
            Self::Propane | Self::FallbackShare => Dimension::Fraction,
            Self::HeatingValue => Dimension::HeatingValue,
            Self::Youngest
            | Self::Year
            | Self::AdultsByChildren
            | Self::ChildrenAlone
            | Self::Sessions => Dimension::Number,
        }
    }
}

/// An end of a range: its value in the unit of its [`Dimension`], and as it is written.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Bound {
    /// The value.
    pub value: f64,
    /// As the table has it.
    pub words: String,
}

/// What is usual of a measure, and what cannot be.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Plausible {
    /// What is measured, a phrase.
    pub say: String,
    /// Below this it is worth a look.
    pub low: Option<Bound>,
    /// Above this it is worth a look.
    pub high: Option<Bound>,
    /// Below this it cannot be.
    pub least: Option<Bound>,
    /// Above this it cannot be.
    pub most: Option<Bound>,
    /// Units that are taken for each other.
    pub perhaps: Vec<String>,
    /// Why this is the range, a sentence.
    pub because: String,
    /// How it is known.
    pub basis: Basis,
    /// Codes of sources.
    pub sources: Vec<Id>,
}

impl Plausible {
    /// Whether a value is in the usual range.
    #[must_use]
    pub fn usual(&self, value: f64) -> bool {
        self.low.as_ref().is_none_or(|low| value >= low.value)
            && self.high.as_ref().is_none_or(|high| value <= high.value)
    }

    /// Whether a value can be at all.
    #[must_use]
    pub fn possible(&self, value: f64) -> bool {
        self.least.as_ref().is_none_or(|least| value >= least.value)
            && self.most.as_ref().is_none_or(|most| value <= most.value)
    }
}
