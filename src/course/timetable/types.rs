//! What a timetable holds. Minutes are whole; clock times are minutes after midnight and may go
//! beyond 24 h.

use crate::nouns::{Id, Module, Segment};
use crate::units::{Mass, Volume};

/// The course: a timetable a session and all that is summed over them.
#[derive(Clone, Debug, PartialEq)]
pub struct Course<'a> {
    /// One a session, in order.
    pub sessions: Vec<Timetable<'a>>,
    /// The shorter plan for bad weather.
    pub fallback: Option<Timetable<'a>>,
    /// The subjects that the course is about, in the order asked for.
    pub subjects: Vec<&'a Module>,
    /// Modules asked for that nothing here calls for.
    pub not_here: Vec<Id>,
    /// Objective by session.
    pub coverage: Vec<Covered<'a>>,
    /// Things to bring and how many, for the session that needs most of each.
    pub kit: Vec<(String, u32)>,
    /// What safety asks for beside it.
    pub safety: SafetyKit,
    /// Fuel that the practice burns, a station each; none that burns nothing.
    pub practice_fuel: Vec<StationFuel>,
    /// Part-used canisters on hand, the emptiest first: (tag, fuel in it).
    pub part_used: Vec<(String, Mass)>,
}

/// One session on the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Timetable<'a> {
    /// Its name.
    pub name: String,
    /// Start.
    pub starts: u32,
    /// Minutes that it may take.
    pub length: u32,
    /// Whether it is indoors: then nothing is lit.
    pub indoors: bool,
    /// What is done, one after the other without a gap.
    pub entries: Vec<Entry<'a>>,
    /// End.
    pub ends: u32,
    /// End when every segment takes its least.
    pub least_ends: u32,
    /// Most stations lit at a time.
    pub lit: u32,
    /// The learners' groups.
    pub groups: Vec<Group>,
    /// Who is where while something is lit; one a segment with a flame.
    pub rotations: Vec<Rotation>,
    /// What found no place, those of the subjects first.
    pub left_out: Vec<LeftOut<'a>>,
    /// Whether no better choice exists for certain.
    pub exact: bool,
}

/// A line of the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry<'a> {
    /// What is done.
    pub what: What<'a>,
    /// Start.
    pub starts: u32,
    /// Minutes, all rounds together.
    pub minutes: u32,
    /// Fewest minutes, all rounds together.
    pub least: u32,
    /// Rounds until everyone had a turn.
    pub rounds: u32,
    /// Stations (kitchens) with the stove and fuel that it is about; empty where it is about none.
    pub stations: Vec<usize>,
    /// Whether something is lit.
    pub flame: bool,
    /// Which goes when time runs short: 1 first; none is kept.
    pub drop: Option<u32>,
}

impl Entry<'_> {
    /// End.
    #[must_use]
    pub const fn ends(&self) -> u32 {
        self.starts + self.minutes
    }
}

/// What is done in an entry.
#[derive(Clone, Debug, PartialEq)]
pub enum What<'a> {
    /// A segment of a module.
    Segment(&'a Module, &'a Segment),
    /// Last session's objectives from memory: what learners can do, with its module.
    Recall(Vec<(&'a Module, Id)>),
    /// The 'all off' drill with nothing lit, where no segment brings it to this session.
    Drill,
    /// 'All off' called while the last stoves are lit.
    AllOff,
    /// Cooling before packing, where no module has a segment for it.
    Cooling,
    /// A break.
    Break,
}

/// Learners who stay together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// `A`.
    pub name: String,
    /// How many.
    pub learners: u32,
}

/// Who is where in a segment with a flame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rotation {
    /// Index of the entry.
    pub entry: usize,
    /// The rounds in order.
    pub rounds: Vec<Round>,
}

/// One round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Round {
    /// Start.
    pub starts: u32,
    /// Minutes.
    pub minutes: u32,
    /// Where each group is; none where it waits behind the line.
    pub places: Vec<Option<Place>>,
}

/// Where a group is in a round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Index of the station (the kitchen).
    pub station: usize,
    /// The first and the last of its learners at the flame, counted from 1; none where the
    /// station is cold.
    pub at_flame: Option<(u32, u32)>,
}

/// A segment that found no place.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftOut<'a> {
    /// Its module.
    pub module: &'a Module,
    /// The segment.
    pub segment: &'a Segment,
    /// Fewest minutes to put it in, with all that it needs.
    pub minutes: u32,
    /// Why.
    pub why: Why,
}

/// Why a segment is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The minutes are taken by what is worth more.
    NoRoom,
    /// Something is lit in it or before it, and this is indoors.
    Indoors,
    /// Something is lit in it or before it, and no adult is free for a stove.
    NoAdult,
}

/// An objective and what is done for it in each session.
#[derive(Clone, Debug, PartialEq)]
pub struct Covered<'a> {
    /// Its module.
    pub module: &'a Module,
    /// Its id.
    pub objective: Id,
    /// Whether learners bring it.
    pub known: bool,
    /// The most that is done for it, session by session.
    pub sessions: Vec<Option<Covering>>,
}

/// What is done for an objective.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Covering {
    /// Told or shown.
    Shown,
    /// Said or done by the learners with nothing lit.
    Practised,
    /// Done by the learners at a flame.
    PractisedLit,
    /// Watched by an assessor.
    Assessed,
}

impl Covering {
    /// As printed.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Shown => "shown",
            Self::Practised => "practised",
            Self::PractisedLit => "practised lit",
            Self::Assessed => "assessed",
        }
    }
}

/// What safety asks to bring.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SafetyKit {
    /// Stations lit side by side at most; 0 when nothing is lit.
    pub live: u32,
    /// Water to stand there, all together.
    pub water: Volume,
    /// Burn kits.
    pub burn_kits: u32,
    /// Marked places for hot things.
    pub cold_down: u32,
    /// Hair ties.
    pub hair_ties: u32,
    /// Lighters.
    pub lighters: u32,
}

/// Fuel for the practice burns of a station.
#[derive(Clone, Debug, PartialEq)]
pub struct StationFuel {
    /// Index of the station (the kitchen).
    pub station: usize,
    /// Minutes of full flame.
    pub minutes: u32,
    /// Times that it is lit.
    pub lightings: u32,
    /// Fuel burnt and lit with.
    pub burnt: Mass,
    /// The same rounded up to what is set out.
    pub set_out: Mass,
}
