//! The lesson that a trip or lesson file asks for.

use super::words::words;
use super::{Date, Id};
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

words! {
    /// What a session is for.
    SessionKind {
        /// Something new is taught.
        Teach = "teach",
        /// Learners teach each other what was taught before.
        TeachBack = "teach-back",
        /// What was taught is checked.
        Check = "check",
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
    /// Degrees of latitude, north positive: with a session's date it tells when it is light.
    pub latitude: Option<f64>,
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
    /// The day, when stated.
    pub date: Option<Date>,
    /// Whether it is indoors: then nothing is lit and no fuel is opened.
    pub indoors: bool,
    /// What it is for.
    pub kind: SessionKind,
    /// What it is about; empty is what the course is about.
    pub focus: Vec<Id>,
}

impl Session {
    /// The name of one that nobody named, by its place in the list.
    #[must_use]
    pub fn unnamed(index: usize) -> String {
        format!("{UNNAMED}{}", index + 1)
    }

    /// The number in the name of one that nobody named.
    #[must_use]
    pub fn number(name: &str) -> Option<usize> {
        name.strip_prefix(UNNAMED)?.parse().ok()
    }
}

/// What the name of a session starts with that nobody named.
const UNNAMED: &str = "Session ";

/// The plan for bad weather.
#[derive(Clone, Debug, PartialEq)]
pub struct Fallback {
    /// What it is called.
    pub name: String,
    /// How long.
    pub length: Time,
    /// Whether it is indoors: then nothing is lit.
    pub indoors: bool,
    /// What it is about; empty is what the course is about, as far as that can be held there.
    pub focus: Vec<Id>,
}
