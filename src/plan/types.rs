//! What the plan of a trip holds: every number that a sheet prints.
//!
//! Quantities are unrounded unless a field says `printed`: those come from the
//! [`Step`]s, which are worked from rounded values as a reader does it.

pub use super::compared::{Allowed, Carried, ComparisonRow, Crossing};
pub use super::step::{Role, Step};

use super::steps::Worked;
use super::terms::{Stops, Terms};
use crate::nouns::{
    Assumed, Blend, CampRule, ContainerKind, Family, FuelKind, Id, Kind, Meal, Signal, Verdict,
    WaterFrom, Wind,
};
use crate::phrase::Phrase;
use crate::units::{
    Angle, Energy, Force, Fraction, HeatingValue, Length, Mass, Power, Pressure, Temperature, Time,
    Units, Volume,
};

/// Every number of a trip or lesson, decided once.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The trip's title.
    pub title: String,
    /// Trip or lesson.
    pub kind: Kind,
    /// Everyone.
    pub people: u32,
    /// The reader's units.
    pub units: Units,
    /// Nights in all.
    pub nights: u32,
    /// The percentile that `at_confidence` stands for.
    pub confidence: Fraction,
    /// The camps, in order; a lesson has one with 0 nights.
    pub camps: Vec<CampPlan>,
    /// The meals, day by day; empty for a lesson.
    pub days: Vec<super::days::DayPlan>,
    /// The kitchens or stations.
    pub kitchens: Vec<KitchenPlan>,
    /// Every stove family on this same trip; empty until it is worked out.
    pub comparison: Vec<ComparisonRow>,
    /// Night counts where two stove families cross in mass; empty until it is worked out.
    pub crossings: Vec<Crossing>,
    /// How far the canisters handed out may be from the best choice; none where nothing was chosen.
    pub assignment: Option<Assignment>,
    /// Water to get rid of, by camp; empty for a lesson.
    pub greywater: Vec<GreywaterPlan>,
    /// The rules in force, by camp.
    pub rules: Vec<RulePlan>,
    /// Each module of the library, in order, and whether it applies here.
    pub modules: Vec<ModulePlan>,
    /// Every default that was used.
    pub assumed: Vec<Assumed>,
    /// Cautions, gravest first.
    pub cautions: Vec<CautionPlan>,
}

/// A camp, with its air worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct CampPlan {
    /// Its name.
    pub name: String,
    /// Its name in ids.
    pub slug: String,
    /// Nights there.
    pub nights: u32,
    /// Height above the sea.
    pub elevation: Length,
    /// Air pressure, absolute.
    pub pressure: Pressure,
    /// Where water boils.
    pub boiling: Temperature,
    /// The wind at the stove.
    pub wind: Wind,
    /// Air when supper is cooked.
    pub day: Temperature,
    /// The night's low.
    pub night: Temperature,
    /// Where water comes from.
    pub water_from: WaterFrom,
    /// Temperature of the water or snow.
    pub water: Temperature,
    /// Minutes at a rolling boil that make water safe here, and the least that a batch is held.
    pub hold: Time,
    /// Pressure and boiling point, line by line.
    pub steps: Vec<Step>,
}

/// One kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct KitchenPlan {
    /// Its name.
    pub name: String,
    /// Its name in ids and file names.
    pub slug: String,
    /// Who eats from it.
    pub people: u32,
    /// Id of its stove.
    pub stove: Id,
    /// Name of its stove.
    pub stove_name: String,
    /// Family of its stove.
    pub family: Family,
    /// Id of its fuel.
    pub fuel_id: Id,
    /// Name of its fuel.
    pub fuel_name: String,
    /// What its rows share (the heating value), line by line.
    pub steps: Vec<Step>,
    /// Its rows: one a camp and meal, in order of camps.
    pub rows: Vec<Row>,
    /// Its fuel in all.
    pub fuel: FuelPlan,
    /// What is handed out to it; empty until it is worked out.
    pub containers: Vec<ContainerPlan>,
    /// Its canister in the cold; empty for other fuels and until it is worked out.
    pub cold: Vec<ColdRow>,
    /// How easily it tips; none until it is worked out.
    pub stability: Option<StabilityPlan>,
    /// Whether a lesson never lights it: its fuel is a sum to learn by, and none is handed out.
    pub stays_cold: bool,
}

/// The line of a role among some, the last of these.
#[must_use]
pub fn step_of(steps: &[Step], role: Role) -> Option<&Step> {
    steps.iter().rfind(|step| step.role == role)
}

impl Row {
    /// The line that its fuel stands on.
    #[must_use]
    pub fn fuel_step(&self) -> Option<&Step> {
        step_of(&self.steps, Role::Fuel)
    }

    /// Its fuel, once, as the sums take it.
    pub(crate) fn grams(&self) -> Worked {
        let step = self.fuel_step().map(Step::worked);
        step.unwrap_or_else(|| Worked::four(self.fuel.in_grams()))
    }
}

impl KitchenPlan {
    /// The rows that never boil: with one of them nothing is summed and nothing handed out.
    pub fn failing(&self) -> impl Iterator<Item = &Row> {
        self.rows.iter().filter(|row| row.stops.is_some())
    }

    /// Whether everything on its menu boils.
    #[must_use]
    pub fn boils(&self) -> bool {
        self.failing().next().is_none()
    }

    /// The rows at one camp.
    pub fn at_camp(&self, camp: usize) -> impl Iterator<Item = &Row> {
        self.rows.iter().filter(move |row| row.camp == camp)
    }
}

/// One use of the stove at one camp; the numbers are for one time.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Index of the camp.
    pub camp: usize,
    /// What for.
    pub meal: Meal,
    /// How often.
    pub times: u32,
    /// Water, once for the kitchen.
    pub water: Volume,
    /// The pots it is heated in, in order.
    pub batches: Vec<Batch>,
    /// Where its heat goes.
    pub heat: Heat,
    /// Heat lost to the air on the way.
    pub lost: Energy,
    /// Useful heat over the heat of the fuel burnt for it, wind and loss in it.
    pub efficiency: Fraction,
    /// Share of the fuel's heat that reaches the pot in still air, before the pot's loss.
    pub still_share: Fraction,
    /// What wind and screen leave of it.
    pub flame_factor: f64,
    /// Where it stops and what would make it boil, when it does not: there are no fuel and no
    /// minutes then.
    pub stops: Option<Stops>,
    /// Whether the flame makes up for what a held pot loses.
    pub can_hold: bool,
    /// Fuel for one time, printed: the last step of the row but its minutes.
    pub fuel: Mass,
    /// Of which to light.
    pub to_light: Mass,
    /// Minutes that each batch is held at the boil (simmer at this height, or the rule's).
    pub hold: Time,
    /// Minutes with the flame on.
    pub flame: Time,
    /// Fillings of an alcohol burner, each after the first waiting until it is cold; 0 for others.
    pub fills: u32,
    /// Minutes for one time, set-up and waits included.
    pub minutes: Time,
    /// Whether in this wind it may not boil at all.
    pub may_not_boil: bool,
    /// What the spread is worked from.
    pub terms: Terms,
    /// The arithmetic, line by line.
    pub steps: Vec<Step>,
    /// How the heat lost on the way comes about, line by line.
    pub loss_steps: Vec<Step>,
}

impl Row {
    /// Fuel of all its times, what of it melts snow, and what of it lights.
    #[must_use]
    pub fn fuel_by_use(&self) -> [Mass; 3] {
        let times = f64::from(self.times);
        let useful = self.heat.useful.in_kilojoules();
        let melting = if useful > 0.0 {
            (self.heat.melt.in_kilojoules() / useful).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let light = self.to_light.min(self.fuel);
        [
            self.fuel * times,
            (self.fuel - light) * melting * times,
            light * times,
        ]
    }
}

/// One potful.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Batch {
    /// Index of the pot in the kitchen.
    pub pot: usize,
    /// The water in it.
    pub water: Volume,
    /// How hot it gets.
    pub end: Temperature,
}

/// Where the useful heat of a row goes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Heat {
    /// Into water.
    pub water: Energy,
    /// Into pots.
    pub pot: Energy,
    /// Into snow, until it is water at 0 °C.
    pub melt: Energy,
    /// Held at the boil: fuel burnt in the hold x heating value x efficiency.
    pub simmer: Energy,
    /// All of it.
    pub useful: Energy,
}

/// A kitchen's fuel in all.
#[derive(Clone, Debug, PartialEq)]
pub struct FuelPlan {
    /// Its kind.
    pub kind: FuelKind,
    /// Lower heating value that the rows were worked with.
    pub heating_value: HeatingValue,
    /// Likely need with spill, printed.
    pub likely: Mass,
    /// The need at the trip's confidence.
    pub at_confidence: Mass,
    /// Carried beyond the likely need: `carry` less `likely`.
    pub spare: Mass,
    /// What to take, rounded up: fuel that can be burnt.
    pub carry: Mass,
    /// What the practice burns of a lesson take beside it.
    pub practice: Mass,
    /// What made `carry` as large as it is; with several legs, that of the largest.
    pub decides: Decides,
    /// Likely need a person and day.
    pub grams_per_person_day: f64,
    /// Held against what is usual.
    pub usual: Usual,
    /// Share of the spread that each input causes, largest first; sums to one.
    pub spread: Vec<SpreadShare>,
    /// Share of the draws in which some pot does not boil.
    pub may_fail: Fraction,
    /// One a leg when fuel is handed out on the way; else empty.
    pub legs: Vec<Leg>,
    /// Likely fuel of a full day at each camp with spill, printed; what a spare day costs.
    pub days: Vec<Mass>,
    /// Sum, spill, spare and what to carry, line by line.
    pub steps: Vec<Step>,
}

/// From one handing out of fuel to the next.
#[derive(Clone, Debug, PartialEq)]
pub struct Leg {
    /// Index of its first camp.
    pub from: usize,
    /// Index of the camp after its last.
    pub until: usize,
    /// Likely need with spill, printed.
    pub likely: Mass,
    /// The need at the trip's confidence.
    pub at_confidence: Mass,
    /// Carried beyond the likely need.
    pub spare: Mass,
    /// What to take.
    pub carry: Mass,
    /// What made it as large as it is.
    pub decides: Decides,
}

/// Which of the two made the fuel to take as large as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decides {
    /// The need that so many of a hundred trips stay under.
    Confidence,
    /// The likely need and the spare day.
    Spare,
}

impl Decides {
    /// `confidence`, `spare`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Confidence => "confidence",
            Self::Spare => "spare",
        }
    }
}

/// An uncertain input and its share of the spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpreadShare {
    /// `efficiency`, `wind`, `water`, `amount`, `spill` or `loss` (of the pot, and the least flame).
    pub input: &'static str,
    /// Its share of the variance, 0 to 1.
    pub share: f64,
}

/// A need held against what is usual in the field.
#[derive(Clone, Debug, PartialEq)]
pub enum Usual {
    /// No range fits (a lesson, or water made safe by boiling).
    NotHeld {
        /// Why not.
        why: Phrase,
    },
    /// The trade does not plan this stove for this.
    NotAPlan {
        /// For what: `winter, all from snow`.
        season: Phrase,
    },
    /// Held against a range.
    Held {
        /// For what: `summer, boil only`.
        season: Phrase,
        /// Grams a person and day, low end.
        low: f64,
        /// High end.
        high: f64,
        /// Whether the need lies inside.
        inside: bool,
    },
}

/// Containers of one kind handed out to a kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct ContainerPlan {
    /// Its tag; none for new ones.
    pub tag: Option<String>,
    /// Id in the catalogue.
    pub container: Id,
    /// Name in the catalogue.
    pub name: String,
    /// Its kind.
    pub kind: ContainerKind,
    /// Net mass when full (canister, pack), or of the most that may be filled in (bottle).
    pub size: Mass,
    /// Fuel in it now.
    pub net: Mass,
    /// Fuel in it that can be burnt.
    pub usable: Mass,
    /// With its fuel, on the scale.
    pub gross: Mass,
    /// Empty, if known.
    pub tare: Option<Mass>,
    /// Fuel to fill in (bottle).
    pub fill: Option<Volume>,
    /// Composition now (canister).
    pub blend: Option<Blend>,
    /// Whether it stands in the store room already.
    pub on_hand: bool,
    /// How many alike.
    pub count: u32,
    /// Index of the leg it is for (0 without resupply).
    pub leg: usize,
}

/// How good the choice of canisters across kitchens is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assignment {
    /// Fuel left over in all.
    pub left_over: Mass,
    /// No choice can leave less than this.
    pub bound: Mass,
    /// Whether the choice is known to be the best.
    pub exact: bool,
}

/// A canister at one meal of one camp.
#[derive(Clone, Debug, PartialEq)]
pub struct ColdRow {
    /// Index of the camp.
    pub camp: usize,
    /// The row that burns it.
    pub meal: Meal,
    /// Index of the leg that it was handed out for.
    pub leg: usize,
    /// Index among the kitchen's containers; none where none was handed out and a full one of the
    /// usual size stands for it.
    pub container: Option<usize>,
    /// Which of those alike, from 1.
    pub number: u32,
    /// Its tag; none for a new one.
    pub tag: Option<String>,
    /// Fuel in it when it is lit, on the worst night.
    pub net: Mass,
    /// What that fuel is made of.
    pub blend: Blend,
    /// Fuel temperature when it is lit.
    pub start: Temperature,
    /// Fuel temperature at the end of the burn.
    pub fuel_temperature: Temperature,
    /// Gauge pressure when it is lit.
    pub gauge_start: Pressure,
    /// The lowest gauge pressure of the burn.
    pub gauge_low: Pressure,
    /// Mean power of the heating on the worst night.
    pub power: Power,
    /// The burner's full power.
    pub set: Power,
    /// Mean power over all nights on which it works; none where it works on none.
    pub mean: Option<Power>,
    /// Share of what is in it that can be drawn at the temperature at which it is lit.
    pub usable: Fraction,
    /// How it does on the worst night.
    pub verdict: Verdict,
}

/// How easily a stove with its pot tips.
#[derive(Clone, Debug, PartialEq)]
pub struct StabilityPlan {
    /// Tilt at which it tips with a full pot and full canister.
    pub tip_angle_full: Angle,
    /// The least such tilt of full and nearly empty.
    pub tip_angle_worst: Angle,
    /// Sideways push at the pot's rim that tips it, the lower of full and nearly empty.
    pub rim_push: Force,
    /// Index of the pot it was worked for.
    pub pot: usize,
    /// Height of shim under one side that makes level what tips just so.
    pub shim: Length,
    /// What to say on stands, pot size and overhang.
    pub notes: Vec<Phrase>,
    /// The arithmetic, line by line.
    pub steps: Vec<Step>,
}

/// Water to get rid of at one camp.
#[derive(Clone, Debug, PartialEq)]
pub struct GreywaterPlan {
    /// Index of the camp.
    pub camp: usize,
    /// Litres a day, all kitchens.
    pub per_day: Volume,
    /// How far from water and camp.
    pub distance: Length,
    /// In the user's own steps, rounded up.
    pub steps: u32,
    /// How: as the rule has it.
    pub method: Phrase,
    /// Where the distance comes from: `trip`, a place, `default`.
    pub from: String,
    /// Litres and steps, line by line.
    pub working: Vec<Step>,
}

/// A rule in force at a camp.
#[derive(Clone, Debug, PartialEq)]
pub struct RulePlan {
    /// Index of the camp.
    pub camp: usize,
    /// Its key: `greywater.distance`.
    pub rule: String,
    /// What it says and where it comes from.
    pub said: CampRule,
    /// Days since it was read, at the start of the trip, when that is more than its place allows.
    pub stale: Option<u32>,
}

/// Whether a module applies to the trip.
#[derive(Clone, Debug, PartialEq)]
pub struct ModulePlan {
    /// Its id.
    pub id: Id,
    /// Its title.
    pub title: String,
    /// Why it applies, or why not.
    pub verdict: super::applies::Verdict,
}

/// A caution for this trip.
#[derive(Clone, Debug, PartialEq)]
pub struct CautionPlan {
    /// How grave.
    pub signal: Signal,
    /// The module it comes from; `plan` when the numbers themselves raise it.
    pub module: Id,
    /// Its id in the module.
    pub id: Id,
    /// What it says; none where its module has the words.
    pub says: Option<Phrase>,
}

impl CautionPlan {
    /// Whether it asks the office to look at its numbers again, and tells those who go nothing.
    #[must_use]
    pub fn for_the_office(&self) -> bool {
        self.id.starts_with(UNUSUAL)
    }
}

/// What the id of a caution on an unusual amount of fuel begins with.
pub(crate) const UNUSUAL: &str = "unusual-";

/// How many batches each pot boils, in order of first use.
pub(crate) fn counted(batches: &[Batch]) -> Vec<(usize, usize)> {
    let mut counts: Vec<(usize, usize)> = Vec::new();
    for batch in batches {
        match counts.iter_mut().find(|(pot, _)| *pot == batch.pot) {
            Some((_, count)) => *count += 1,
            None => counts.push((batch.pot, 1)),
        }
    }
    counts
}
