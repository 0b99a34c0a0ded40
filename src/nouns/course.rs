//! The lesson that a trip or lesson file asks for.

use super::Id;
use super::words::words;
use crate::units::Time;

words! {
    /// Whom the handout and the check are for.
    Level {
        /// A scout of about eleven and up.
        Scout = "scout",
        /// An adult who begins.
        AdultBeginner = "adult beginner",
        /// Someone who will teach it.
        InstructorCandidate = "instructor candidate",
    }
}

/// What the `course` block asks for, defaults filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct CourseRequest {
    /// The sessions, one at least.
    pub sessions: Vec<Session>,
    /// Lit places that can be supervised side by side; default one a kitchen.
    pub stations: u32,
    /// Modules asked for, in order; empty is all that apply.
    pub focus: Vec<Id>,
    /// Objectives that learners bring (`module.objective`).
    pub known: Vec<Id>,
    /// Whom it is for.
    pub level: Level,
    /// What the forms of the skills check are drawn from.
    pub seed: u32,
    /// Whether it is held indoors: then nothing is lit.
    pub indoors: bool,
    /// A shorter second plan.
    pub fallback: Option<Fallback>,
    /// Whether the file asked for a course at all.
    pub stated: bool,
}

/// One meeting.
#[derive(Clone, Debug, PartialEq)]
pub struct Session {
    /// Its name, `Session 1`.
    pub name: String,
    /// How long.
    pub length: Time,
    /// Start, minutes after midnight.
    pub starts: u32,
}

/// The plan for bad weather.
#[derive(Clone, Debug, PartialEq)]
pub struct Fallback {
    /// How long.
    pub length: Time,
    /// Whether it is indoors: then nothing is lit.
    pub indoors: bool,
}
