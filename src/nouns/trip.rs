//! A trip or lesson, every default filled in.

use super::words::words;
use super::{
    Assumed, Blend, BoilRules, Connection, CourseRequest, Date, Eating, Feed, Fuel, Id, Menu, Pot,
    Profile, RuleValue, Screen, Stove, Treatment, Washing, WaterFrom, Wind,
};
use crate::units::{Fraction, HeatingValue, Length, Mass, Pressure, Temperature, Units, Volume};
use std::collections::BTreeMap;
use std::sync::Arc;

words! {
    /// What the file plans.
    Kind {
        /// A trip with camps.
        Trip = "trip",
        /// A lesson at stations, without camps.
        Lesson = "lesson",
    }
}
words! {
    /// The meals of a day, and the other uses of fuel that the plan lists beside them.
    Meal {
        /// Supper.
        Supper = "supper",
        /// Breakfast.
        Breakfast = "breakfast",
        /// Lunch.
        Lunch = "lunch",
        /// Hot drinks.
        Drinks = "drinks",
        /// Drinking water melted from snow.
        Snow = "snow",
        /// Drinking water made safe by boiling.
        Treatment = "treatment",
        /// Hot or melted water to wash with.
        Washing = "washing",
    }
}
words! {
    /// How the group gets there.
    Arrival {
        /// On the road.
        Road = "road",
        /// By air: nobody brings fuel.
        Air = "air",
        /// By boat.
        Boat = "boat",
        /// On foot.
        Foot = "foot",
    }
}
words! {
    /// Sheets of paper.
    Paper {
        /// 8.5 x 11 in.
        Letter = "letter",
        /// 210 x 297 mm.
        A4 = "a4",
    }
}
words! {
    /// What is carried beyond the likely fuel.
    Spare {
        /// Nothing beyond the percentile.
        None = "none",
        /// The likely fuel of the costliest camp's full day.
        OneExtraDay = "one extra day",
        /// Two such days.
        TwoExtraDays = "two extra days",
    }
}
words! {
    /// Which stoves the land manager allows.
    StoveRule {
        /// Every kind.
        Yes = "yes",
        /// Only those that a valve shuts off at once.
        WithShutOff = "with a shut-off valve",
        /// None: nothing is lit at all.
        No = "no",
    }
}

/// A trip or lesson as meant.
#[derive(Clone, Debug, PartialEq)]
pub struct Trip {
    /// The name of its folder in `out/`: from the file's name, never the title.
    pub slug: String,
    /// The file it came from.
    pub file: Arc<str>,
    /// Its title, plain text.
    pub title: String,
    /// Trip or lesson.
    pub kind: Kind,
    /// First day.
    pub starts: Option<Date>,
    /// Who runs it.
    pub organisation: Option<Profile>,
    /// What its leaders want said on briefing and lesson plan, in their own words.
    pub notes: Vec<String>,
    /// First meal cooked (supper, breakfast or lunch).
    pub first_meal: Meal,
    /// Last meal cooked.
    pub last_meal: Meal,
    /// How they get there, when stated.
    pub arrival: Option<Arrival>,
    /// The reader's units.
    pub units: Units,
    /// The paper.
    pub paper: Paper,
    /// The languages of its sheets, a packet each; never empty.
    pub languages: Vec<String>,
    /// Who goes.
    pub people: People,
    /// The kitchens (stations in a lesson); their people sum to the party.
    pub kitchens: Vec<Kitchen>,
    /// The camps in order; a lesson has one with 0 nights.
    pub camps: Vec<Camp>,
    /// Spare fuel.
    pub spare: Spare,
    /// The percentile of need that is carried.
    pub confidence: Fraction,
    /// Whether a second stove goes along, when stated.
    pub second_stove: Option<bool>,
    /// Index of the camp where new fuel is handed out.
    pub resupply: Option<usize>,
    /// The user's prices, in any currency.
    pub prices: Vec<Price>,
    /// Part-used and full canisters in the store room.
    pub canisters_on_hand: Vec<CanisterOnHand>,
    /// How many part-used ones a kitchen is given at most, from one handing out to the next.
    pub part_used_at_most: Option<u32>,
    /// How drinking water is made safe.
    pub treatment: Treatment,
    /// Washing method.
    pub washing: Washing,
    /// What people eat from.
    pub eating: Eating,
    /// The user's own counted step.
    pub step: Length,
    /// Whose boil rule holds.
    pub boil_rules: BoilRules,
    /// Fire restrictions as known.
    pub restrictions: Restrictions,
    /// Whom to call.
    pub emergency: Emergency,
    /// The lesson that is asked for.
    pub course: CourseRequest,
    /// Every default that was used.
    pub assumed: Vec<Assumed>,
}

impl Trip {
    /// Whether no stove may be lit, so that no sheet speaks of one.
    #[must_use]
    pub fn without_flame(&self) -> bool {
        self.restrictions.stoves == Some(StoveRule::No)
    }

    /// Whether nothing is lit: the land manager allows no stove, or a lesson is indoors.
    #[must_use]
    pub fn lights_nothing(&self) -> bool {
        self.without_flame() || (self.kind == Kind::Lesson && self.course.indoors)
    }

    /// The first of its days for which the fire rule is no longer known, where it allows some stove
    /// and ends before the trip does.
    #[must_use]
    pub fn fire_rule_lacks(&self) -> Option<Date> {
        let (until, ends) = (self.restrictions.until?, self.ends()?);
        let allows = self.restrictions.stoves.is_some() && !self.lights_nothing();
        (allows && until < ends).then(|| until.plus_days(1))
    }

    /// The day that it ends, where its start is stated.
    #[must_use]
    pub fn ends(&self) -> Option<Date> {
        let nights: u32 = self.camps.iter().map(|camp| camp.nights).sum();
        self.starts.map(|date| date.plus_days(nights))
    }
}

/// Diets that people choose; anything else may be an allergy, and is taken for one.
const CHOSEN: [&str; 12] = [
    "vegetarian",
    "vegetarians",
    "vegan",
    "vegans",
    "pescatarian",
    "no-meat",
    "no-pork",
    "no-beef",
    "no-alcohol",
    "halal",
    "kosher",
    "jain",
];

/// Who goes.
#[derive(Clone, Debug, PartialEq)]
pub struct People {
    /// Learners or clients.
    pub learners: u32,
    /// Instructors or guides, all adults.
    pub instructors: u32,
    /// Age of the youngest, when stated.
    pub youngest: Option<u32>,
    /// Adults beside each lit stove.
    pub adults_per_lit_stove: f64,
    /// Diets and allergies: what, not who.
    pub diet: Vec<String>,
}

impl People {
    /// Whether anything that is stated may be an allergy: all but what is chosen for other reasons.
    #[must_use]
    pub fn may_react(&self) -> bool {
        self.diet
            .iter()
            .any(|diet| !CHOSEN.contains(&super::id(diet).as_str()))
    }

    /// All of them.
    #[must_use]
    pub fn all(&self) -> u32 {
        self.learners + self.instructors
    }
}

/// One cook group with its stove and pots; a station in a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct Kitchen {
    /// Its name.
    pub name: String,
    /// How many eat from it.
    pub people: u32,
    /// Its stove, with the trip's own values laid over the catalogue's.
    pub stove: Stove,
    /// The fuel it burns (for canisters: the gas of an unknown or stated blend).
    pub fuel: Fuel,
    /// The trip's own heating value, when stated.
    pub heating_value: Option<HeatingValue>,
    /// Composition of its new canisters.
    pub blend: Option<Blend>,
    /// What a canister stove draws.
    pub feed: Feed,
    /// What keeps the wind off.
    pub screen: Screen,
    /// Whether lids are used.
    pub lid: bool,
    /// Its pots, at least one.
    pub pots: Vec<Pot>,
    /// Its own measured efficiency.
    pub measured: Option<Measured>,
}

/// What a burn trial found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// `efficiency_to_plan` of the trial.
    pub efficiency: Fraction,
    /// The wind it was measured in.
    pub wind: Wind,
    /// How far it may be off, of itself, when the trial says so.
    pub spread: Option<Fraction>,
}

/// A camp, with weather, water, place and menu resolved.
#[derive(Clone, Debug, PartialEq)]
pub struct Camp {
    /// Its name.
    pub name: String,
    /// Nights there.
    pub nights: u32,
    /// Height above the sea.
    pub elevation: Length,
    /// A barometer's station pressure, in place of the standard atmosphere's.
    pub pressure: Option<Pressure>,
    /// Air when supper is cooked.
    pub day: Temperature,
    /// The night's low, when breakfast is cooked.
    pub night: Temperature,
    /// Where water comes from.
    pub water_from: WaterFrom,
    /// Temperature of the water, or of the snow.
    pub water: Temperature,
    /// Wind at the stove.
    pub wind: Wind,
    /// The rule set of the place.
    pub place: Id,
    /// Rules in force here, by rule key (`greywater.distance`).
    pub rules: BTreeMap<String, CampRule>,
    /// What is cooked.
    pub menu: Menu,
    /// A canister kept at this temperature, in place of the air's and of self-cooling.
    pub fuel_temperature: Option<Temperature>,
    /// Drinking water a person and day, beside the menu's.
    pub drinking: Volume,
    /// Whether the camp's own fire rule lets no stove be lit here; then nothing is cooked.
    pub no_stove: bool,
}

/// A rule in force at a camp, and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct CampRule {
    /// What it says.
    pub value: RuleValue,
    /// `trip`, the place's id, or `default`.
    pub from: String,
    /// Sources of a place's rule.
    pub sources: Vec<Id>,
    /// As of when the place's rule was read.
    pub as_of: Option<Date>,
    /// Who checked it and when, as written in the trip.
    pub checked: Option<String>,
    /// Whether its own source was not read: printed with 'verify'.
    pub verify: bool,
}

/// A price by the user.
#[derive(Clone, Debug, PartialEq)]
pub struct Price {
    /// What for: `canister 230 g`, `white gas 1 L`.
    pub item: String,
    /// The container it means.
    pub container: Id,
    /// How much, in the user's currency.
    pub amount: f64,
}

/// A canister in the store room.
#[derive(Clone, Debug, PartialEq)]
pub struct CanisterOnHand {
    /// Its tag.
    pub tag: String,
    /// Its size: the container's id.
    pub container: Id,
    /// Mass on the scale now.
    pub gross: Mass,
    /// Mass empty; none when neither label nor scale told: then it is unknown.
    pub tare: Option<Mass>,
    /// Composition when full, by mass.
    pub blend: Blend,
    /// Whether the blend was stated.
    pub blend_stated: bool,
    /// Present composition, when the trip states it.
    pub present: Option<Blend>,
    /// How it joins a stove.
    pub connection: Connection,
}

impl CanisterOnHand {
    /// Fuel in it, if it can be known.
    #[must_use]
    pub fn net(&self) -> Option<Mass> {
        self.tare.map(|tare| self.gross - tare)
    }
}

/// Fire restrictions as far as they are known; not known is never allowed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Restrictions {
    /// Which stoves may be lit; none where nobody has told.
    pub stoves: Option<StoveRule>,
    /// The stage, in the land manager's words.
    pub stage: Option<String>,
    /// Who told it and when.
    pub checked: Option<String>,
    /// The last day that it holds.
    pub until: Option<Date>,
}

/// Days after which what a land manager said about fire is old, where the place says no fewer.
pub const STALE_DAYS: u32 = 31;

impl Restrictions {
    /// The day on which somebody asked, where the words begin with one.
    #[must_use]
    pub fn asked(&self) -> Option<Date> {
        let text = self.checked.as_deref()?;
        Date::read(text.split([',', ' ']).next().unwrap_or(text))
    }
}

/// Whom to call, and how far help is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Emergency {
    /// A number to call.
    pub call: Option<String>,
    /// Nearest help.
    pub nearest_help: Option<String>,
}
