//! A default that was used where a trip's file is silent: what it is about, the value, and why that
//! one, as meant. The words stand in the catalogue.

use super::{Blend, Id, Pot};
use crate::units::{Volume, Warming};

/// A default that was used.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumed {
    /// What it is about, a key path: `camps[0].wind`.
    pub what: String,
    /// The value used.
    pub value: Presumed,
    /// Why that one.
    pub why: Because,
}

/// A value that was used though nobody stated it.
#[derive(Clone, Debug, PartialEq)]
pub enum Presumed {
    /// A word of a file's own lists: `breezy`.
    Word(&'static str),
    /// How many.
    Count(u32),
    /// In percent.
    Percent(f64),
    /// A quantity as `units` says it, or a time of day.
    Quantity(String),
    /// The name of something in the library.
    Name(String),
    /// Modules.
    Modules(Vec<Id>),
    /// What is in a canister.
    Blend(Blend),
    /// A pot.
    Pot(Pot),
}

/// Why a default was used.
#[derive(Clone, Debug, PartialEq)]
pub enum Because {
    /// The file does not say.
    NotStated,
    /// The file names none.
    NoneStated,
    /// The file names no menu.
    NoMenuStated,
    /// No stove may be lit: every meal is cold.
    NothingLit,
    /// A lesson drinks what it brings.
    LessonBringsWater,
    /// The units of the first elevation.
    FirstElevation,
    /// Steps differ: count your own.
    CountYourSteps,
    /// A camp lives on melted snow.
    LivesOnSnow,
    /// The youngest's age is not known: someone may be under 16.
    AgeNotStated,
    /// Someone is under 16.
    SomeoneUnder16,
    /// Nobody is under 16.
    NobodyUnder16,
    /// What a person drinks in a day.
    APersonAndDay,
    /// The same where water comes from snow.
    APersonAndDayFromSnow,
    /// Summer air at this height.
    SummerAir,
    /// So much below the day.
    BelowTheDay(Warming),
    /// Snow as cold as the night.
    SnowAsNight,
    /// Midway between day and night.
    Midway,
    /// The land manager knows which rules hold.
    AskLandManager,
    /// A lid saves fuel, and a file may say that there is none.
    LidSavesFuel,
    /// At most so many people eat from one kitchen.
    MostAKitchen(f64),
    /// The party, shared out evenly.
    SharedOut,
    /// The make-up of new canisters is not known; this is the cautious side in the cold.
    NewCanisters,
    /// The make-up of a canister is not known; this is the cautious side in the cold.
    CautiousInTheCold,
    /// The wind of a trial is not known; calm is the cautious side.
    CalmTrial,
    /// What comes with a stove, by its name.
    ComesWith(String),
    /// A small pot boils within a turn at the stove.
    SmallPot,
    /// No more than a stove carries safely, by its name.
    CarriesSafely(String),
    /// So much of pot a person.
    PotAPerson(Volume),
    /// One for each kitchen.
    OneAKitchen,
    /// The plainest words.
    PlainestWords,
    /// Bad weather: nothing is lit.
    BadWeather,
    /// What a part of a name stands for.
    StandsFor(String),
}
