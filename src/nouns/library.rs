//! The library: modules, places, gear, figures, sources.

use super::trip::Paper;
use super::{
    Blend, BoilRules, Container, Date, DrawnShape, Fuel, Id, Material, Module, Stove, Washing, Wind,
};
use crate::units::{
    Fraction, HeatingValue, Length, Mass, Power, Pressure, SpecificHeat, Temperature, Time, Units,
    Volume, Warming,
};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Everything that content brings.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Library {
    /// The edition date that every sheet prints.
    pub edition: Date,
    /// The language of its texts: `en`, `es`.
    pub language: String,
    /// Names of kit in that language, by the English ones; none in English.
    pub kit: BTreeMap<String, String>,
    /// The words of sheets in that language, by file; none in English, whose words the program has.
    pub words: BTreeMap<String, String>,
    /// Its name.
    pub title: String,
    /// The standing line of every sheet: whose word comes first.
    pub standing_line: String,
    /// Modules by id.
    pub modules: BTreeMap<Id, Module>,
    /// Places by id.
    pub places: BTreeMap<Id, Place>,
    /// Stoves by id.
    pub stoves: BTreeMap<Id, Stove>,
    /// Fuels by id.
    pub fuels: BTreeMap<Id, Fuel>,
    /// Pot materials by id.
    pub materials: BTreeMap<Id, Material>,
    /// Containers by id.
    pub containers: BTreeMap<Id, Container>,
    /// Named menus by id.
    pub menus: BTreeMap<Id, Menu>,
    /// Organisation profiles by id.
    pub profiles: BTreeMap<Id, Profile>,
    /// What trips are usually like.
    pub plausible: BTreeMap<super::Measure, super::Plausible>,
    /// Published and assumed figures that the calculation uses.
    pub figures: Figures,
    /// Sources by code.
    pub sources: BTreeMap<Id, Source>,
}

/// How a figure is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
pub enum Basis {
    /// Printed in a source.
    Published,
    /// Trade knowledge without a source.
    CommonPractice,
    /// Ours, to be changed by whoever knows better.
    Assumption,
}

impl Basis {
    /// As printed beside a figure.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::CommonPractice => "common practice",
            Self::Assumption => "assumption",
        }
    }
}

/// How sure a published fact is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
pub enum Sure {
    /// The body's own text was read.
    Seen,
    /// Its text was read on another site.
    SeenMirror,
    /// A second-hand report was read.
    SecondHand,
    /// Worked out from seen facts.
    Derived,
    /// Recalled only.
    Memory,
}

impl Sure {
    /// Whether nobody has read it at its own source, nor a copy of that: then
    /// it is printed with 'verify', and no caution rests on it.
    #[must_use]
    pub fn unverified(self) -> bool {
        matches!(self, Self::SecondHand | Self::Memory)
    }
}

/// A value of the calculation with where it comes from.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Constant<T> {
    /// The value.
    pub value: T,
    /// What it is, for the sheet: `heat to warm water`.
    pub what: String,
    /// How it is known.
    pub basis: Basis,
    /// Where from.
    pub sources: Vec<Id>,
}

/// The figures of the calculation (`content/figures.yaml`).
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Figures {
    /// Specific heat of water (4.186 kJ/(kg K)).
    pub water_heat: Constant<SpecificHeat>,
    /// Specific heat of ice (2.10 kJ/(kg K)).
    pub ice_heat: Constant<SpecificHeat>,
    /// Heat to melt ice (333.55 kJ/kg).
    pub fusion: Constant<HeatingValue>,
    /// Heat to evaporate water, the Water Boiling Test's value (2260 kJ/kg).
    pub evaporation: Constant<HeatingValue>,
    /// Latent heat of canister gas (370 kJ/kg).
    pub gas_latent: Constant<HeatingValue>,
    /// Specific heat of liquid canister gas (2.4 kJ/(kg K)).
    pub gas_heat: Constant<SpecificHeat>,
    /// Specific heat of canister steel (0.46 kJ/(kg K)).
    pub steel_heat: Constant<SpecificHeat>,
    /// Heat from the air into a canister's shell, W/(m2 K), by wind (10, 27, 38).
    pub canister_film: Constant<BTreeMap<Wind, f64>>,
    /// Heat that a burner on top gives back to its canister at the family's power (5 W).
    pub burner_warmth: Constant<Power>,
    /// Power with the valve fully open on a full canister, in powers of the family (2).
    pub open_valve: Constant<f64>,
    /// Down to this gauge pressure a regulator keeps its power (60 kPa).
    pub regulator_gauge: Constant<Pressure>,
    /// The warmest a canister may be made: body-warm water (37 °C).
    pub body_warm: Constant<Temperature>,
    /// Share of a pot that is filled with water (0.75).
    pub fill: Constant<Fraction>,
    /// Share of a pot that is filled with snow slush (0.6).
    pub fill_snow: Constant<Fraction>,
    /// Set-up minutes a batch (2 min).
    pub set_up: Constant<Time>,
    /// Water melted for drinking is warmed to this (5 °C).
    pub melt_to: Constant<Temperature>,
    /// Factor on simmer minutes per 10 K cooler boil (1.6).
    pub simmer_factor: Constant<f64>,
    /// Heat loss of a pot, W/(m2 K), by wind.
    pub pot_loss: Constant<BTreeMap<Wind, f64>>,
    /// The boil at which an efficiency holds.
    pub reference_boil: Constant<ReferencePot>,
    /// How many times its loss at the end a pot must be given to count as boiling (1.15).
    pub boil_margin: Constant<f64>,
    /// A pot without its lid.
    pub open_top: Constant<OpenPot>,
    /// Spill factor on the sum (1.02), with low and high shares 0 and 4 %.
    pub spill_likely: Constant<Fraction>,
    /// Most spill (4 %).
    pub spill_most: Constant<Fraction>,
    /// Relative spread of a measured efficiency (8 %).
    pub measured_spread: Constant<Fraction>,
    /// Relative spread of what a day's wind does to a flame (15 %).
    pub wind_spread: Constant<Fraction>,
    /// The same for the whole trip (20 %).
    pub trip_wind_spread: Constant<Fraction>,
    /// Share of the camp-days that are a class windier than said, and of those a class calmer (10 %).
    pub other_wind: Constant<Fraction>,
    /// Relative spread of a pot's loss and of a burner's least flame (25 %).
    pub loss_spread: Constant<Fraction>,
    /// How many times its likely fuel a batch counts that does not boil (4).
    pub unboiled: Constant<f64>,
    /// Spread of the water temperature (3 K).
    pub water_spread: Constant<Warming>,
    /// Relative spread of the amount of water (10 %).
    pub amount_spread: Constant<Fraction>,
    /// Drinking water a person and day (3 L).
    pub drinking: Constant<Volume>,
    /// Drinking water a person and day where it comes from snow (4 L).
    pub drinking_snow: Constant<Volume>,
    /// Fuel is rounded up to this (5 g).
    pub round_up: Constant<Mass>,
    /// The composition of an unknown canister (propane 30, n-butane 70).
    pub unknown_blend: Constant<Blend>,
    /// Fuel temperature at which a part-used canister was drawn down (10 °C).
    pub drawn_at: Constant<Temperature>,
    /// Fuel left that counts as nearly empty for tip-over (5 g).
    pub nearly_empty: Constant<Mass>,
    /// Default distance for greywater (200 ft).
    pub greywater_distance: Constant<Length>,
    /// Default step (0.76 m).
    pub step: Constant<Length>,
    /// Density of water taken for pots and batches, kg/L (1).
    pub water_density: Constant<f64>,
    /// Washing methods.
    pub washing: BTreeMap<Washing, WashMethod>,
    /// Minutes at a rolling boil, by rule set.
    pub boil_minutes: BTreeMap<BoilRules, Constant<BoilMinutes>>,
    /// Most people for one kitchen when kitchens are not stated (5).
    pub people_a_kitchen: Constant<f64>,
    /// Litres of pot a person when pots are not stated (0.75 L).
    pub pot_a_person: Constant<Volume>,
    /// Air at sea level by day (20 °C).
    pub day_sea_level: Constant<Temperature>,
    /// Cooling with height, per km (6.5 K).
    pub lapse_per_km: Constant<Warming>,
    /// How much colder the night is (10 K).
    pub night_below_day: Constant<Warming>,
    /// Least and most default water temperature (2 to 15 °C).
    pub water_bounds: Constant<(Temperature, Temperature)>,
}

/// The boil at which an efficiency holds: lid on, full flame.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct ReferencePot {
    /// Water in the pot.
    pub water: Volume,
    /// Its temperature at the start.
    pub start: Temperature,
    /// Its temperature at the end.
    pub end: Temperature,
    /// The air around.
    pub air: Temperature,
    /// The pot's capacity.
    pub capacity: Volume,
    /// The pot's mass.
    pub mass: Mass,
    /// Specific heat of the pot.
    pub heat: SpecificHeat,
}

/// How a pot without its lid loses heat by vapour.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct OpenPot {
    /// The part of a pot's loss that is radiation and carries no vapour, W/(m2 K).
    pub radiation: f64,
    /// How much of the vapour that it could hold the air has.
    pub humidity: Fraction,
    /// Heat that evaporating takes.
    pub latent: HeatingValue,
    /// How far below the boil an open pot is held.
    pub held_below: Warming,
}

/// Minutes at a rolling boil under one rule set.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct BoilMinutes {
    /// At low heights.
    pub low: Time,
    /// The height above which `high` holds.
    pub above: Option<Length>,
    /// Whether `high` holds at that very height too (EPA: from 5000 ft).
    pub from_that_height: bool,
    /// At great heights.
    pub high: Time,
}

/// A washing method: amounts and temperatures of its water.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct WashMethod {
    /// Litres a person (wipe and rinse).
    pub a_person: Volume,
    /// Litres a kitchen, with the temperature each part is heated to; none is cold.
    pub a_kitchen: Vec<(Volume, Option<Temperature>)>,
    /// How it is known.
    pub basis: Basis,
    /// Where from.
    pub sources: Vec<Id>,
}

/// What one meal needs for each person.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct MealNeed {
    /// Water brought to the boil; zero is a cold meal.
    pub boil: Volume,
    /// Simmer at sea level.
    pub simmer: Time,
    /// How often a day (drinks).
    pub times_a_day: u32,
}

impl MealNeed {
    /// Nothing is cooked.
    pub const COLD: Self = Self {
        boil: Volume::ZERO,
        simmer: Time::ZERO,
        times_a_day: 1,
    };

    /// Whether nothing is cooked.
    #[must_use]
    pub fn is_cold(&self) -> bool {
        self.boil == Volume::ZERO
    }
}

/// What a day's meals need.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Menu {
    /// Its name.
    pub name: String,
    /// Supper.
    pub supper: MealNeed,
    /// Breakfast.
    pub breakfast: MealNeed,
    /// Lunch.
    pub lunch: MealNeed,
    /// Hot drinks.
    pub drinks: MealNeed,
}

/// The value of a rule.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub enum RuleValue {
    /// A distance.
    Length(Length),
    /// Words.
    Text(String),
}

/// A kind of place with its rules.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Place {
    /// Its id.
    pub id: Id,
    /// Its title.
    pub title: String,
    /// What it covers, one sentence.
    pub summary: String,
    /// The country whose law it prints (ISO 3166-1, two letters); none for a kind of place that
    /// many countries have.
    pub country: Option<String>,
    /// The languages that its land manager publishes in (ISO 639-1, two letters).
    pub languages: Vec<String>,
    /// The units of its land manager's rules.
    pub units: Option<Units>,
    /// Rules by key: `greywater.distance`, `greywater.method`, `greywater.from`,
    /// `soap.use`, `food.storage`, `fire.stoves`, `fire.clear`, `burying.food`.
    pub rules: BTreeMap<String, PlaceRule>,
    /// What authorities disagree on, for the instructor's box (Markdown).
    pub disagreements: String,
    /// Days after which its rules are stale.
    pub stale_after: u32,
}

/// A rule of a place.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct PlaceRule {
    /// What it says.
    pub value: RuleValue,
    /// How it is known.
    pub basis: Basis,
    /// How sure.
    pub sure: Sure,
    /// Where from.
    pub sources: Vec<Id>,
    /// When it was read.
    pub as_of: Option<Date>,
    /// A word on it.
    pub note: String,
}

/// An organisation's profile.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Profile {
    /// Its id.
    pub id: Id,
    /// Its name.
    pub name: String,
    /// Whom to call, a line each.
    pub phones: Vec<String>,
    /// Sign-off lines.
    pub sign_off: Vec<String>,
    /// Its mark, for the head of every sheet.
    pub mark: Option<Mark>,
    /// Its paper.
    pub paper: Option<Paper>,
    /// Its units.
    pub units: Option<Units>,
    /// The languages of its sheets, the first before the others; none is English.
    pub languages: Vec<String>,
}

/// A group's own small drawing, in black and white.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Mark {
    /// Width of its canvas, in units of its own.
    pub width: f64,
    /// Height of its canvas.
    pub height: f64,
    /// Shapes, in order.
    pub shapes: Vec<DrawnShape>,
}

/// A source.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Source {
    /// Its code on sheets: `S01`.
    pub id: Id,
    /// Title.
    pub title: String,
    /// Who published it.
    pub publisher: String,
    /// Year, or empty where it bears no date.
    pub year: String,
    /// Where it is read.
    pub url: Option<String>,
    /// The day on which its own text was last looked up; none if never.
    pub seen: Option<Date>,
    /// A word on it.
    pub note: String,
}

impl Library {
    /// The fuel that a word names: an id or name of the catalogue, a kind of fuel (then what its
    /// first stove burns), or another of its names. The one table of fuel words: trips, `boil`
    /// and `new` read it.
    #[must_use]
    pub fn fuel_called(&self, word: &str) -> Option<&Fuel> {
        let wanted = super::id(word);
        let fuels = || self.fuels.values();
        let kind = match wanted.as_str() {
            "gas" => "canister",
            "tablets" => "tablet",
            other => other,
        };
        let of_stove = || {
            self.stoves
                .values()
                .filter_map(|stove| self.fuels.get(&stove.fuel))
                .find(|fuel| super::id(fuel.kind.word()) == kind)
        };
        self.fuels
            .get(&wanted)
            .or_else(|| fuels().find(|fuel| super::id(&fuel.name) == wanted))
            .or_else(of_stove)
            .or_else(|| {
                fuels().find(|fuel| {
                    fuel.also_called
                        .iter()
                        .any(|name| super::id(name) == wanted)
                })
            })
    }
}
