//! The words of the trade as this program means them: trip, library, module,
//! fact, gear, place, rule.
//!
//! `check` makes these from files; every later stage reads them and none
//! changes them. An id is lower case with hyphens (`white-gas`); what people
//! read is in `name` and `title` fields. Every default that was filled in is
//! in [`Trip::assumed`].

mod assumed;
mod course;
mod files;
mod gear;
mod library;
mod module;
mod plausible;
mod trial;
mod trip;
pub(crate) mod words;

pub use assumed::{Assumed, Because, Presumed};
pub use course::{CourseRequest, Fallback, Level, Session, SessionKind};
pub use files::file_name;
pub use gear::{
    Blend, Canister, Connection, Container, ContainerKind, Family, Feed, Fuel, FuelKind, Geometry,
    HeatExtent, Material, Pot, Range, Stove, UsualRange, Verdict, WindFactors,
};
pub use library::{
    Basis, BoilMinutes, Constant, Figures, Library, Mark, MealNeed, Menu, OpenPot, Place,
    PlaceRule, Profile, ReferencePot, RuleValue, Source, Sure, WashMethod,
};
pub use module::{
    AppliesWhen, Caution, Drawing, DrawnShape, Fact, FactValue, Item, LABEL_POINTS, Light,
    MARK_RADIUS, Module, Objective, PackItem, Question, QuestionKind, Scene, ScenePlace, Section,
    Segment, SegmentKind, Sum, leader_start, place_letter,
};
pub use plausible::{Bound, Dimension, Measure, Plausible};
pub use trial::{BurnRun, Trial, TrialPot};
pub use trip::{
    Arrival, Camp, CampRule, CanisterOnHand, Emergency, Kind, Kitchen, Meal, Measured, Paper,
    People, Price, Restrictions, STALE_DAYS, Spare, StoveRule, Trip,
};
pub use words::{
    BoilRules, Date, Eating, Moment, Screen, Signal, Treatment, Washing, WaterFrom, Wind,
};

/// A name used inside files: lower case, hyphens between words.
pub type Id = String;

/// The id that a person's spelling means: lower case, a space is a hyphen.
#[must_use]
pub fn id(text: &str) -> Id {
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join("-")
        .to_lowercase()
}
