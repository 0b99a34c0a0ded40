//! A content module: what is taught, asked, ticked and warned about one subject.

use super::words::words;
use super::{
    Arrival, Basis, Date, Family, FuelKind, Id, Kind, Level, Moment, Screen, Signal, Sure,
    Treatment, Washing, WaterFrom,
};
use crate::units::{Angle, Fraction, Length, Mass, Pressure, Temperature, Time, Volume, Warming};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// A module (`content/modules/ID.yaml`).
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Module {
    /// Its id.
    pub id: Id,
    /// The file it came from.
    pub file: Arc<str>,
    /// Its title.
    pub title: String,
    /// One sentence on what it is for.
    pub summary: String,
    /// Where it stands among the modules, low first.
    pub order: u32,
    /// Whether it deals with a hazard: then it has cautions and cannot lose them.
    pub hazard: bool,
    /// When it was last reviewed.
    pub reviewed: Date,
    /// When it must be reviewed again.
    pub review_by: Date,
    /// When it applies; all conditions must hold.
    pub applies: AppliesWhen,
    /// Its facts by id.
    pub facts: BTreeMap<Id, Fact>,
    /// What learners read (Markdown with `{fact}` in it).
    pub text: String,
    /// More of what learners read, after the text and in this order, each part where it applies.
    pub sections: Vec<Section>,
    /// An invented story that opens a lesson on it (Markdown); empty if none.
    pub story: String,
    /// What is done first when it has gone wrong: told once on each sheet for learners, so that
    /// the cautions need not repeat it (Markdown with `{fact}`); empty if none.
    pub first_response: String,
    /// What instructors read beside it: disagreements, how it goes wrong (Markdown).
    pub instructor: String,
    /// Its cautions, gravest first.
    pub cautions: Vec<Caution>,
    /// Its checklist items by moment, most important first.
    pub items: Vec<Item>,
    /// What it brings to the packing list.
    pub pack: Vec<PackItem>,
    /// Steps for the home test of the gear (Markdown, one line each).
    pub shake_down: Vec<Item>,
    /// What a learner can do afterwards.
    pub objectives: BTreeMap<Id, Objective>,
    /// Questions.
    pub questions: Vec<Question>,
    /// Pieces of a lesson.
    pub segments: Vec<Segment>,
    /// Drawings.
    pub drawings: Vec<Drawing>,
}

impl Module {
    /// All that learners may read, whatever the trip: the text and every section.
    #[must_use]
    pub fn whole_text(&self) -> String {
        self.text_where(|_| true)
    }

    /// The text and those sections whose conditions hold.
    #[must_use]
    pub fn text_where(&self, holds: impl Fn(&AppliesWhen) -> bool) -> String {
        let mut all = self.text.clone();
        for section in self.sections.iter().filter(|one| holds(&one.applies)) {
            all.push_str(section.gap());
            all.push_str(&section.text);
        }
        all
    }
}

/// A part of what learners read that not every trip needs.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Section {
    /// Its id.
    pub id: Id,
    /// What learners read (Markdown with `{fact}` in it).
    pub text: String,
    /// When it holds.
    pub applies: AppliesWhen,
}

impl Section {
    /// What stands before it: nothing where it goes on with a list, else an empty line.
    #[must_use]
    pub fn gap(&self) -> &'static str {
        if self.text.starts_with("- ") {
            ""
        } else {
            "\n"
        }
    }
}

/// Conditions. An empty list or none is no condition.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, Serialize)]
pub struct AppliesWhen {
    /// Trip or lesson.
    pub kind: Option<Kind>,
    /// Any kitchen burns one of these.
    pub fuel: Vec<FuelKind>,
    /// Any kitchen has one of these stoves.
    pub stove: Vec<Family>,
    /// Any kitchen has one of these windscreens.
    pub windscreen: Vec<Screen>,
    /// The coldest night is below this.
    pub colder_than: Option<Temperature>,
    /// The highest camp is above this.
    pub higher_than: Option<Length>,
    /// At least so many people.
    pub people_from: Option<u32>,
    /// The youngest is under this age (an unknown age counts as yes).
    pub youngest_under: Option<u32>,
    /// Any camp is in one of these places.
    pub place: Vec<Id>,
    /// Any camp is in a place other than these, one of your own too.
    pub place_other_than: Vec<Id>,
    /// Any camp's water comes from one of these.
    pub water_from: Vec<WaterFrom>,
    /// They arrive so.
    pub arrival: Vec<Arrival>,
    /// Drinking water is treated so.
    pub treatment: Vec<Treatment>,
    /// Someone has a diet or allergy.
    pub diet: bool,
    /// They wash up so (a lesson, which may teach any way, counts for each).
    pub washing: Vec<Washing>,
    /// Whether the land manager allows a stove at all (not known counts as yes).
    pub flame: Option<bool>,
    /// At least one of these holds, beside all of the above; none is no
    /// condition. They hold no further ones.
    pub any: Vec<AppliesWhen>,
}

/// A fact with its source.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Fact {
    /// Its value.
    pub value: FactValue,
    /// What it says, a phrase: `distance from water for used wash water`.
    pub say: String,
    /// How it is known.
    pub basis: Basis,
    /// How sure.
    pub sure: Sure,
    /// Where from.
    pub sources: Vec<Id>,
    /// When it was read.
    pub as_of: Option<Date>,
    /// The rule key that overrides it at a camp.
    pub rule: Option<String>,
    /// Where authorities differ, for the instructor (Markdown).
    pub disagreement: String,
}

/// The value of a fact.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub enum FactValue {
    /// A length or distance.
    Length(Length),
    /// A temperature.
    Temperature(Temperature),
    /// A difference of temperatures.
    Warming(Warming),
    /// A mass.
    Mass(Mass),
    /// A volume.
    Volume(Volume),
    /// A stretch of time.
    Time(Time),
    /// A pressure.
    Pressure(Pressure),
    /// A share.
    Fraction(Fraction),
    /// An angle.
    Angle(Angle),
    /// A count or ratio without a unit.
    Number(f64),
    /// Low and high of the same kind.
    Between(Box<FactValue>, Box<FactValue>),
    /// Words (a name, a law's number, several figures with their conditions).
    Text(String),
}

/// A caution.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Caution {
    /// Its id.
    pub id: Id,
    /// How grave.
    pub signal: Signal,
    /// What the hazard is, a few words in bold (Markdown with `{fact}`).
    pub hazard: String,
    /// What happens.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
    /// What to do first when it happens; empty if nothing beyond avoiding.
    pub respond: String,
    /// When it holds.
    pub applies: AppliesWhen,
}

/// A checklist item.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Item {
    /// Its id.
    pub id: Id,
    /// When it is looked at.
    pub moment: Moment,
    /// The words, verb first (Markdown with `{fact}`).
    pub say: String,
    /// 1 keeps people alive, 2 keeps the meal or the place, 3 is good to do.
    pub rank: u32,
    /// When it holds.
    pub applies: AppliesWhen,
}

/// A thing on the packing list.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct PackItem {
    /// Its id; equal ids of two modules are one thing.
    pub id: Id,
    /// Its name.
    pub say: String,
    /// How many a kitchen.
    pub a_kitchen: u32,
    /// How many a person.
    pub a_person: u32,
    /// Mass of one.
    pub mass: Mass,
    /// Which bag part it belongs to: `fire`, `cook`, `wash`, `safety`, `repair`.
    pub bag: String,
    /// Whether it comes back to the store room.
    pub returns: bool,
    /// Whether it may not fly.
    pub not_by_air: bool,
    /// When it holds.
    pub applies: AppliesWhen,
}

/// What a learner can do afterwards.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Objective {
    /// Its id.
    pub id: Id,
    /// Verb first: `strain wash water and pour it at the distance in force`.
    pub say: String,
    /// What an assessor sees, one behaviour a line.
    pub behaviours: Vec<String>,
    /// Whether failing it stops the check.
    pub critical: bool,
    /// The levels it is for; empty is all.
    pub levels: Vec<Level>,
}

words! {
    /// Kinds of question.
    QuestionKind {
        /// One right choice among several.
        Choice = "choice",
        /// A number with its unit.
        Number = "number",
        /// Steps to put in order.
        Order = "order",
        /// A few words.
        Short = "short",
        /// What is wrong in this scene.
        SpotTheFault = "spot the fault",
        /// What do you do now.
        WhatNow = "what now",
    }
}

/// A question.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Question {
    /// Its id.
    pub id: Id,
    /// Its kind.
    pub kind: QuestionKind,
    /// The objective it assesses.
    pub objective: Id,
    /// What is asked (Markdown with `{fact}`).
    pub ask: String,
    /// Choices; the first is right (shown in another order). Order: the right order.
    pub choices: Vec<String>,
    /// The answer, for kinds without choices (Markdown with `{fact}`); of a scene its faults.
    pub answer: String,
    /// A drawing with faults in it whose marked places are judged, instead of words.
    pub scene: Option<Scene>,
    /// Why it is right.
    pub because: String,
    /// The sum whose numbers are drawn for each form; then `ask` leads up to it and there is
    /// no answer.
    pub sum: Option<Sum>,
    /// When it holds.
    pub applies: AppliesWhen,
}

/// A drawing with marked places, some of which are wrong.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Scene {
    /// The drawing; its id is that of the question.
    pub drawing: Drawing,
    /// The places, each with a letter in this order.
    pub places: Vec<ScenePlace>,
}

/// A marked place of a scene.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct ScenePlace {
    /// The middle of its mark, in points.
    pub at: (f64, f64),
    /// What is there, without saying whether it is right.
    pub say: String,
    /// Whether it is wrong.
    pub is_fault: bool,
}

/// Radius of the ring round a letter in a scene, in points.
pub const MARK_RADIUS: f64 = 8.0;

/// The letter of a place by its number from 0: `A`, `B` and so on.
#[must_use]
pub fn place_letter(index: usize) -> char {
    u8::try_from(index)
        .ok()
        .and_then(|index| b'A'.checked_add(index))
        .map_or('?', char::from)
}

words! {
    /// Sums of the practice that need no table beside them.
    Sum {
        /// Boils for a pot.
        Boils = "boils",
        /// Fuel left in a canister, by weight.
        Canister = "canister",
        /// Fuel to melt snow.
        Snow = "snow",
        /// Spare fuel.
        Spare = "spare",
        /// A distance in one's own steps.
        Steps = "steps",
        /// Bleach for a sanitising bowl.
        Bleach = "bleach",
        /// The push at the rim that tips a pot.
        Push = "push",
    }
}

words! {
    /// Kinds of segment.
    SegmentKind {
        /// The instructor talks.
        Talk = "talk",
        /// The instructor shows.
        Show = "show",
        /// Learners say the steps.
        SayIt = "say it",
        /// Learners do the steps with nothing lit.
        DryRun = "dry run unlit",
        /// Together.
        DoTogether = "do together",
        /// You do it, I stand beside.
        YouDoIt = "you do it, I stand beside",
        /// The assessor watches.
        Check = "check",
    }
}

words! {
    /// The light that a segment needs.
    Light {
        /// The sun is up.
        Daylight = "daylight",
        /// It is getting dark.
        Dusk = "dusk",
    }
}

/// A piece of a lesson.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Segment {
    /// Its id: unique in its module; `module.segment` in the library.
    pub id: Id,
    /// Its title.
    pub title: String,
    /// Its kind.
    pub kind: SegmentKind,
    /// Fewest minutes that do it justice.
    pub least: Time,
    /// Usual minutes.
    pub usual: Time,
    /// Segments that must come before (`module.segment`).
    pub after: Vec<Id>,
    /// Whether something is lit.
    pub flame: bool,
    /// Whether a pot of water stands on the flame with its lid on: then it may be the menu's water.
    pub pot: bool,
    /// Whether fuel is there in it, joined, opened or handled; a flame always has fuel.
    pub opens_fuel: bool,
    /// Whether it can be held only under the open sky: it walks the ground or needs the wind.
    pub outdoors_only: bool,
    /// The light that it needs; none is any.
    pub light: Option<Light>,
    /// Learners one instructor can watch.
    pub learners_per_instructor: u32,
    /// Whether safety requires it whenever its module is taught.
    pub required: bool,
    /// Objectives it teaches.
    pub objectives: Vec<Id>,
    /// Things to bring, summed over stations: (name, a station, a learner).
    pub kit: Vec<(String, u32, u32)>,
    /// Grams of fuel burnt at each station, by minutes of full flame.
    pub flame_minutes: Time,
    /// Set out before.
    pub set_out: String,
    /// What the instructor shows or does.
    pub show: String,
    /// The one sentence to say.
    pub sentence: String,
    /// What to ask.
    pub ask: String,
    /// What to watch for.
    pub watch_for: String,
    /// When to stop.
    pub stop_if: String,
    /// What a card at its place tells learners, who then do it without an adult beside them; empty
    /// where an adult leads it.
    pub alone: String,
    /// When it holds.
    pub applies: AppliesWhen,
}

/// A described drawing, in points on its canvas.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Drawing {
    /// Its id.
    pub id: Id,
    /// Caption.
    pub caption: String,
    /// What it shows, for those who cannot see it.
    pub alt: String,
    /// Canvas width, points.
    pub width: f64,
    /// Canvas height, points.
    pub height: f64,
    /// Shapes, in order.
    pub shapes: Vec<DrawnShape>,
    /// When it holds.
    pub applies: AppliesWhen,
}

/// A part of a drawing. Coordinates from the top left, y down.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub enum DrawnShape {
    /// Straight lines through points; `closed` joins the ends.
    Line {
        /// Corners.
        points: Vec<(f64, f64)>,
        /// Joined ends.
        closed: bool,
        /// Line width.
        width: f64,
        /// Dashed.
        dashed: bool,
        /// `none`, `white`, `black`, `hatched`.
        fill: String,
    },
    /// A smooth cubic curve: start, then (control, control, end) triples.
    Curve {
        /// Points.
        points: Vec<(f64, f64)>,
        /// Joined ends.
        closed: bool,
        /// Line width.
        width: f64,
        /// Dashed.
        dashed: bool,
        /// As for lines.
        fill: String,
    },
    /// An ellipse.
    Ellipse {
        /// Centre.
        centre: (f64, f64),
        /// Radii.
        radii: (f64, f64),
        /// Line width.
        width: f64,
        /// Dashed.
        dashed: bool,
        /// As for lines.
        fill: String,
    },
    /// Words, with a thin leader line to what they name when `to` is given.
    Label {
        /// Where.
        at: (f64, f64),
        /// `start`, `middle` or `end`.
        anchor: String,
        /// Bold.
        bold: bool,
        /// The words.
        text: String,
        /// The end of the leader line.
        to: Option<(f64, f64)>,
    },
}

/// Size of a label's letters, in points.
pub const LABEL_POINTS: f64 = 10.0;

/// Where a label's leader line begins, clear of the words: below their line when it goes down,
/// above the letters when it goes up, at mid-height when it goes sideways.
#[must_use]
pub fn leader_start(at: (f64, f64), end: (f64, f64)) -> (f64, f64) {
    let rise = end.1 - at.1;
    let shift = if rise > 4.0 {
        2.5
    } else if rise < -10.0 {
        -LABEL_POINTS * 0.85
    } else {
        -LABEL_POINTS * 0.35
    };
    (at.0, at.1 + shift)
}
