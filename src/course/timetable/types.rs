//! What a timetable holds. Minutes are whole; clock times are minutes after midnight and may go
//! beyond 24 h.

use crate::nouns::{Date, Id, Meal, Module, Segment, SegmentKind, SessionKind};
use crate::phrase::Phrase;
use crate::units::{Mass, Time, Volume};

/// Whole minutes, rounded up.
pub(super) fn whole(time: Time) -> u32 {
    libm::ceil(time.in_minutes() - 1e-9).max(0.0) as u32
}

/// The course: a timetable a session and all that is summed over them.
#[derive(Clone, Debug, PartialEq)]
pub struct Course<'a> {
    /// One a session, in order.
    pub sessions: Vec<Timetable<'a>>,
    /// The shorter plan for bad weather.
    pub fallback: Option<Timetable<'a>>,
    /// The subjects that the course is about, in the order asked for.
    pub subjects: Vec<&'a Module>,
    /// Subjects asked for of which nothing can be held, and why.
    pub not_placed: Vec<(&'a Module, Why)>,
    /// Objective by session.
    pub coverage: Vec<Covered<'a>>,
    /// Things to bring and how many, for the session that needs most of each.
    pub kit: Vec<KitItem>,
    /// What safety asks for beside it.
    pub safety: SafetyKit,
    /// Fuel that the practice burns, a station each; none that burns nothing.
    pub practice_fuel: Vec<StationFuel>,
    /// Part-used canisters on hand, the emptiest first: (tag, fuel in it).
    pub part_used: Vec<(String, Mass)>,
    /// What becomes of the menu, each meal at each station once.
    pub menu: Vec<MenuBoil>,
}

/// The water of a meal at a station, and whether it is boiled on the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct MenuBoil {
    /// For what.
    pub meal: Meal,
    /// Index of the session whose clock was looked at.
    pub session: usize,
    /// Index of the station (the kitchen).
    pub station: usize,
    /// Water, in all.
    pub water: Volume,
    /// For how many.
    pub people: u32,
    /// Where it is boiled, or why it is not.
    pub made: Result<Made, NotMade>,
}

/// Where the water of a meal is boiled: on practice flames that have a pot on them.
#[derive(Clone, Debug, PartialEq)]
pub struct Made {
    /// Indices of the session's rows, a boil each.
    pub rows: Vec<usize>,
    /// Index of the entry in which it is handed round: all is off.
    pub drunk: usize,
    /// Fuel that the menu counts for it, lighting aside; the practice burns it and is not asked for
    /// it again.
    pub fuel: Mass,
}

/// Why the water of a meal is not boiled on the clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotMade {
    /// Nothing is lit.
    NothingLit,
    /// No flame there has a pot on it.
    NoPot,
    /// It never boils.
    NeverBoils,
    /// Its flames are too short or too few for it.
    Short {
        /// Boils that it would take: as many as there are flames, or as its pots do.
        boils: u32,
        /// Minutes of flame of each.
        each: u32,
        /// Flames with a pot on them.
        turns: u32,
        /// Minutes of the longest.
        burns: u32,
    },
}

/// One session on the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Timetable<'a> {
    /// Its name.
    pub name: String,
    /// Its day, when stated.
    pub date: Option<Date>,
    /// What it is for.
    pub kind: SessionKind,
    /// The subjects that it was asked to be about.
    pub focus: Vec<Id>,
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
    /// Adults who are there.
    pub adults: u32,
    /// Who is where, minute by minute: rows without a gap, one or more an entry.
    pub rows: Vec<Row<'a>>,
    /// What is done beside the flame by those who wait for their turn.
    pub beside: Vec<Beside<'a>>,
    /// Most minutes that one learner waits without anything to do.
    pub waits: u32,
    /// Stations at which a second burner stands, because one needs its rest.
    pub spares: Vec<usize>,
    /// What found no place, those of the subjects first.
    pub left_out: Vec<LeftOut<'a>>,
    /// Whether no better choice exists for certain.
    pub exact: bool,
}

impl Timetable<'_> {
    /// Learners in words: `A` for a whole group, `A2` for one of it, `A2-4` for several.
    #[must_use]
    pub fn label(&self, learners: &[u32]) -> String {
        let mut first = 0;
        let mut parts = Vec::new();
        for group in &self.groups {
            let own: Vec<u32> = learners
                .iter()
                .filter(|one| (first..first + group.learners).contains(*one))
                .map(|one| one - first + 1)
                .collect();
            parts.extend(runs(&own, group));
            first += group.learners;
        }
        parts.join(", ")
    }

    /// The fewest minutes more that would hold a flame with all that it needs; none where it is not
    /// for want of minutes that nothing is lit.
    #[must_use]
    pub fn more_for_a_flame(&self) -> Option<u32> {
        let lit = self.left_out.iter().filter(|one| one.segment.flame);
        let short = lit.filter(|one| one.why == Why::NoRoom);
        short.map(|one| one.minutes).min()
    }

    /// Who did something at which station's flame: station, learner.
    pub(super) fn at_flames(&self) -> Vec<(usize, u32)> {
        let turns = self.rows.iter().filter(|row| {
            let what = &self.entries[row.entry].what;
            let looks_on = |kind| matches!(kind, SegmentKind::Show | SegmentKind::Talk);
            matches!(what, What::Segment(_, one) | What::Check(Some((_, one))) if !looks_on(one.kind))
        });
        turns
            .flat_map(|row| &row.places)
            .filter(|place| place.lit)
            .flat_map(|place| {
                let station = match place.at {
                    Spot::Station(at) | Spot::Spare(at) => Some(at),
                    Spot::Bench(_) | Spot::Line => None,
                };
                let who = place.learners.iter();
                who.filter_map(move |one| station.map(|at| (at, *one)))
            })
            .collect()
    }

    /// All learners.
    #[must_use]
    pub fn learners(&self) -> u32 {
        self.groups.iter().map(|group| group.learners).sum()
    }
}

/// Numbers of one group as runs without a gap.
fn runs(own: &[u32], group: &Group) -> Vec<String> {
    if own.len() as u32 == group.learners {
        return vec![group.name.clone()];
    }
    let mut parts: Vec<(u32, u32)> = Vec::new();
    for one in own {
        match parts.last_mut() {
            Some((_, last)) if *last + 1 == *one => *last = *one,
            _ => parts.push((*one, *one)),
        }
    }
    let name = &group.name;
    parts
        .into_iter()
        .map(|(first, last)| {
            if first == last {
                format!("{name}{first}")
            } else {
                format!("{name}{first}-{last}")
            }
        })
        .collect()
}

/// A thing to bring.
#[derive(Clone, Debug, PartialEq)]
pub struct KitItem {
    /// What.
    pub item: Phrase,
    /// How many.
    pub count: u32,
    /// The stations that it is for; none for the whole lesson.
    pub stations: Vec<String>,
}

/// A segment that learners do in turns beside the flame.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside<'a> {
    /// Its module.
    pub module: &'a Module,
    /// The segment.
    pub segment: &'a Segment,
    /// When the first of them begin.
    pub starts: u32,
}

/// Who is where for some minutes.
#[derive(Clone, Debug, PartialEq)]
pub struct Row<'a> {
    /// Index of the entry that it is a part of.
    pub entry: usize,
    /// Start.
    pub starts: u32,
    /// Minutes.
    pub minutes: u32,
    /// Every learner is in exactly one place.
    pub places: Vec<Place<'a>>,
    /// Adults who have no stove: they lead what is unlit and are free for first aid.
    pub free_adults: u32,
}

impl Row<'_> {
    /// End.
    #[must_use]
    pub const fn ends(&self) -> u32 {
        self.starts + self.minutes
    }
}

/// Where learners are.
#[derive(Clone, Debug, PartialEq)]
pub struct Place<'a> {
    /// Where.
    pub at: Spot,
    /// Whether a stove burns there.
    pub lit: bool,
    /// Whether fuel is open or handled there.
    pub fuel_open: bool,
    /// The learners, counted from 0 through the groups.
    pub learners: Vec<u32>,
    /// Adults who stay beside them at a flame.
    pub adults: u32,
    /// Whether one of the adults who have no stove stands here.
    pub led: bool,
    /// What they do.
    pub does: Does<'a>,
}

/// A place of a lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Spot {
    /// A station (a kitchen).
    Station(usize),
    /// The second burner of a station, while its own rests.
    Spare(usize),
    /// A place without a stove, away from the flames, counted from 1.
    Bench(u32),
    /// Behind the line, or all together.
    Line,
}

/// What learners do in a place.
#[derive(Clone, Debug, PartialEq)]
pub enum Does<'a> {
    /// What the entry says.
    Entry,
    /// A segment beside the flame, or at a place of a carousel.
    Beside(&'a Module, &'a Segment),
    /// The steps of the next turn once more, with nothing lit.
    Rehearse,
    /// The worksheet, each on their own.
    Worksheet,
    /// Two and two with the study cards.
    Cards,
    /// A written form of the check.
    Form,
    /// They wait.
    Wait,
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
    /// Minutes of full flame at each station in a round.
    pub burns: u32,
    /// Whether each learner lights there.
    pub lights_each: bool,
    /// The learner who teaches it, in a session of teaching back.
    pub teacher: Option<u32>,
    /// Which goes when time runs short: 1 first; none is kept.
    pub drop: Option<u32>,
}

impl<'a> Entry<'a> {
    /// The segments that it teaches: one, those of a carousel, or none.
    #[must_use]
    pub fn taught(&self) -> Vec<(&'a Module, &'a Segment)> {
        match &self.what {
            What::Segment(module, segment) => vec![(*module, *segment)],
            What::Carousel(stops) => stops.iter().map(|one| (one.module, one.segment)).collect(),
            _ => Vec::new(),
        }
    }

    /// The segments that it teaches or checks.
    #[must_use]
    pub fn segments(&self) -> Vec<(&'a Module, &'a Segment)> {
        match &self.what {
            What::Check(Some((module, segment))) => vec![(*module, *segment)],
            _ => self.taught(),
        }
    }

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
    /// Segments with nothing lit at places side by side: parts of the learners go from one to the
    /// next.
    Carousel(Vec<CarouselStop<'a>>),
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
    /// Papers, groups, go or no go.
    HandOut,
    /// The worksheet, each on their own.
    Worksheet,
    /// The written part of the check.
    Form,
    /// The part of the check that is watched: at the flame of a segment, or unlit.
    Check(Option<(&'a Module, &'a Segment)>),
    /// Counted, packed, clean.
    ClearUp,
}

/// A place of a carousel.
#[derive(Clone, Debug, PartialEq)]
pub struct CarouselStop<'a> {
    /// Where.
    pub at: Spot,
    /// The module of what is done there.
    pub module: &'a Module,
    /// What is done there.
    pub segment: &'a Segment,
}

/// Learners who stay together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// `A`.
    pub name: String,
    /// How many.
    pub learners: u32,
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
    /// Something is lit in it or before it, and no adult would be free for those who wait.
    NoAdult,
    /// The fire rule in force allows no stove that it needs.
    Ban,
    /// It walks the ground or needs the wind, and this is indoors.
    OutdoorsOnly,
    /// Fuel is open or handled in it, and this is indoors.
    OpensFuel,
    /// It needs daylight or dusk, and the hour does not have it for certain.
    Light,
    /// No part of it belongs to these rules, stoves and place.
    NotHere,
    /// Some would wait longer for their turn than is fair.
    Waits,
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
    /// Of which the menu's boils burn, that are counted with the menu.
    pub of_menu: Mass,
    /// The rest, rounded up to what is set out.
    pub set_out: Mass,
}
