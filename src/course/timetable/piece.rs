//! A segment with what a timetable needs of it.

use crate::nouns::{Id, Module, Segment, SegmentKind};

/// The module of lighting: its first flame comes before every other flame.
pub(super) const LIGHTING: &str = "lighting-and-flames";
/// Its segment in which stoves cool.
pub(super) const COOLING: &str = "lighting-and-flames.cool-down";
/// Its 'all off' drill.
pub(super) const DRILL: &str = "lighting-and-flames.all-off-drill";
/// More minutes than any lesson has.
const NEVER: u32 = 1_000_000;

/// A segment with what a timetable needs of it.
pub(super) struct Piece<'a> {
    pub module: &'a Module,
    pub segment: &'a Segment,
    /// `module.segment`.
    pub name: Id,
    /// Worth of each step with an objective that it takes first.
    pub covers: Vec<(Id, u32)>,
    /// Fewest minutes of a round.
    pub least: u32,
    /// Usual minutes of a round.
    pub usual: u32,
    /// Fewest minutes, all rounds together; none where the adults allow no flame.
    pub least_in_all: Option<u32>,
    /// Usual minutes, all rounds together.
    pub usual_in_all: Option<u32>,
    /// Learners that one adult can watch.
    pub watched: u32,
    /// Stations that it can be lit at.
    pub places: Vec<usize>,
    /// Indices of what must come before, each less than its own.
    pub needs: Vec<usize>,
}

impl Piece<'_> {
    /// Whether learners do something at a flame in it.
    pub(super) fn does_lit(&self) -> bool {
        self.segment.flame && !looked_at(self.segment.kind)
    }

    /// Whether stoves cool in it.
    pub(super) fn cools(&self) -> bool {
        self.name == COOLING
    }

    /// Whether it is the 'all off' drill.
    pub(super) fn drills(&self) -> bool {
        self.name == DRILL
    }

    /// Whether it can be done only where a stove of these many stations stands: it is about a kind of
    /// stove, has fuel, or brings a stove.
    pub(super) fn wants_a_stove(&self, stations: usize) -> bool {
        let mut kit = self.segment.kit.iter();
        self.places.len() < stations
            || self.segment.opens_fuel
            || kit.any(|(what, ..)| what.contains("stove"))
    }

    /// Whether an adult must lead it, and no card at the place can.
    pub(super) fn is_led(&self) -> bool {
        self.segment.alone.is_empty()
    }

    /// Whether learners only look on or talk.
    pub(super) const fn looks_on(&self) -> bool {
        looked_at(self.segment.kind)
    }

    /// Whether each learner lights the stove.
    pub(super) fn lights_each(&self) -> bool {
        self.segment.flame && self.segment.kind == SegmentKind::YouDoIt
    }

    /// Whether learners do or say something themselves in it.
    pub(super) fn practises(&self) -> bool {
        !matches!(self.segment.kind, SegmentKind::Talk | SegmentKind::Show)
    }

    /// Whether it is of the module of lighting.
    pub(super) fn lights(&self) -> bool {
        self.segment.flame && self.module.id == LIGHTING
    }

    /// Fewest minutes, all rounds; very many where it cannot be held.
    pub(super) fn least_total(&self) -> u32 {
        self.least_in_all.unwrap_or(NEVER)
    }

    /// Usual minutes, all rounds; very many where it cannot be held.
    pub(super) fn usual_total(&self) -> u32 {
        self.usual_in_all.unwrap_or(NEVER)
    }
}

/// Whether learners only look on or talk.
const fn looked_at(kind: SegmentKind) -> bool {
    matches!(
        kind,
        SegmentKind::Show | SegmentKind::Talk | SegmentKind::SayIt
    )
}
