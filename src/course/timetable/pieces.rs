//! The segments that hold here, each after what it needs, with rounds and minutes for these
//! people and stoves.

use super::ground::Ground;
use super::piece::{COOLING, DRILL, LIGHTING, Piece};
use super::rotation::{self, Burners};
use super::types::whole;
use crate::nouns::{AppliesWhen, Id, Kitchen, Module, Segment, SegmentKind, StoveRule, Trip};
use crate::plan;
use std::collections::{BTreeMap, BTreeSet};

/// What a session is about.
#[derive(Clone, Debug, Default)]
pub(super) struct Aim {
    /// Modules, the weightiest first.
    pub subjects: Vec<Id>,
    /// Whether the file asked for them.
    pub asked: bool,
    /// Whether something of each is promised.
    pub promised: bool,
    /// Whether one of them is about a kind of stove: then a flame belongs to it.
    pub stoves: bool,
}

impl Aim {
    /// What these modules are about: those asked for, or every hazard of which safety requires a
    /// part here.
    pub(super) fn new(trip: &Trip, modules: &[&Module], focus: &[Id]) -> Self {
        let found = subjects(trip, modules, focus);
        Self {
            subjects: found.iter().map(|module| module.id.clone()).collect(),
            asked: !focus.is_empty(),
            promised: !focus.is_empty(),
            stoves: found
                .iter()
                .any(|module| module.hazard && !module.applies.fuel.is_empty()),
        }
    }

    /// Place of a piece among the subjects; none outside them. The flame of the module of lighting
    /// belongs to any subject that is a stove.
    pub(super) fn rank(&self, piece: &Piece<'_>) -> Option<usize> {
        let mut subjects = self.subjects.iter();
        subjects.position(|id| *id == piece.module.id).or_else(|| {
            (self.asked && self.stoves && piece.lights()).then_some(self.subjects.len())
        })
    }

    /// Whether a piece is of one of the subjects themselves.
    pub(super) fn names(&self, piece: &Piece<'_>) -> bool {
        self.subjects.contains(&piece.module.id)
    }

    /// The first subject weighs most, the last many times what lies outside them; hazards alike.
    pub(super) fn weight(&self, piece: &Piece<'_>) -> u32 {
        match self.rank(piece) {
            Some(rank) if self.asked => (self.subjects.len().saturating_sub(rank) + 5) as u32,
            Some(_) => 2,
            None => 1,
        }
    }
}

/// What a lesson is about: the focus, or every hazard of which safety requires a part here.
pub(super) fn subjects<'a>(trip: &Trip, modules: &[&'a Module], focus: &[Id]) -> Vec<&'a Module> {
    if focus.is_empty() {
        let requires = |module: &Module| {
            let mut segments = module.segments.iter();
            segments.any(|one| one.required && plan::applies(&one.applies, trip))
        };
        let hazards = modules.iter().copied().filter(|one| one.hazard);
        return hazards.filter(|one| requires(one)).collect();
    }
    focus
        .iter()
        .filter_map(|id| modules.iter().copied().find(|module| module.id == *id))
        .collect()
}

/// Every segment that holds here, each after what it needs: unlit ones, those with a flame, then
/// what follows a flame.
pub(super) fn gather<'a>(
    trip: &Trip,
    ground: &Ground,
    modules: &[&'a Module],
    focus: &[Id],
    spares: bool,
) -> Vec<Piece<'a>> {
    let subjects = subjects(trip, modules, focus);
    let mut sorted = modules.to_vec();
    sorted.sort_by_key(|module| (module.order, &module.id));
    let written: Vec<(&Module, &Segment)> = sorted
        .iter()
        .flat_map(|module| {
            module
                .segments
                .iter()
                .map(move |segment| (*module, segment))
        })
        .filter(|(_, segment)| plan::applies(&segment.applies, trip))
        .filter(|(_, segment)| !(segment.flame && trip.without_flame()))
        .collect();
    let names: Vec<Id> = written
        .iter()
        .map(|(module, segment)| format!("{}.{}", module.id, segment.id))
        .collect();
    let (order, needs) = order(&written, &names, &subjects);
    order
        .iter()
        .enumerate()
        .map(|(at, index)| {
            let (module, segment) = written[*index];
            let needs = needs[*index]
                .iter()
                .filter_map(|need| order.iter().position(|other| other == need))
                // In a ring of segments one must go first.
                .filter(|position| *position < at)
                .collect();
            piece(
                trip,
                ground,
                (module, segment),
                names[*index].clone(),
                needs,
                spares,
            )
        })
        .collect()
}

/// The order of segments (indices), and what each needs (indices).
fn order(
    written: &[(&Module, &Segment)],
    names: &[Id],
    subjects: &[&Module],
) -> (Vec<usize>, Vec<BTreeSet<usize>>) {
    let by_name: BTreeMap<&str, usize> = names
        .iter()
        .enumerate()
        .map(|(index, name)| (name.as_str(), index))
        .collect();
    let cooling = by_name.get(COOLING).copied();
    let mut needs: Vec<BTreeSet<usize>> = written
        .iter()
        .map(|(module, segment)| {
            segment
                .after
                .iter()
                .filter_map(|before| {
                    let own = format!("{}.{before}", module.id);
                    by_name
                        .get(before.as_str())
                        .or_else(|| by_name.get(own.as_str()))
                        .copied()
                })
                .collect()
        })
        .collect();
    // Cooling goes wherever the last flame is; what follows it follows every flame.
    let follows: Vec<bool> = needs
        .iter_mut()
        .map(|needs| cooling.is_some_and(|cooling| needs.remove(&cooling)))
        .collect();
    if let Some(cooling) = cooling {
        needs[cooling].clear();
    }
    if let Some(drill) = by_name.get(DRILL).copied() {
        let before_drill = closure(&needs, drill);
        for index in 0..written.len() {
            if written[index].1.flame && index != drill && !before_drill.contains(&index) {
                needs[index].insert(drill);
            }
        }
    }
    // What safety requires with nothing lit comes before anything is lit.
    let lit_before = |needs: &[BTreeSet<usize>], index: usize| {
        let mut before = closure(needs, index).into_iter();
        before.any(|other| written[other].1.flame)
    };
    let first: Vec<usize> = (0..written.len())
        .filter(|index| {
            let segment = written[*index].1;
            segment.required && !segment.flame && !follows[*index] && !lit_before(&needs, *index)
        })
        .collect();
    for index in 0..written.len() {
        if written[index].1.flame {
            needs[index].extend(first.iter().copied());
        }
    }
    let phase = |index: usize| {
        if written[index].1.flame {
            1
        } else if follows[index] || lit_before(&needs, index) {
            2
        } else {
            0
        }
    };
    let keys: Vec<(u32, bool, usize, usize)> = (0..written.len())
        .map(|index| {
            let module = written[index].0;
            let rank = subjects.iter().position(|one| one.id == module.id);
            let phase = phase(index);
            let rank = if phase == 1 {
                rank.unwrap_or(usize::MAX)
            } else {
                0
            };
            (phase, phase != 1 || module.id != LIGHTING, rank, index)
        })
        .collect();
    let mut waiting: BTreeSet<usize> = (0..written.len()).collect();
    let mut order = Vec::new();
    while !waiting.is_empty() {
        let ready = waiting
            .iter()
            .copied()
            .filter(|index| needs[*index].iter().all(|need| !waiting.contains(need)))
            .min_by_key(|index| keys[*index])
            .or_else(|| waiting.first().copied());
        let Some(next) = ready else { break };
        waiting.remove(&next);
        order.push(next);
    }
    (order, needs)
}

/// All that something needs, and what that needs.
fn closure(needs: &[BTreeSet<usize>], of: usize) -> BTreeSet<usize> {
    let mut found = BTreeSet::new();
    let mut open: Vec<usize> = needs[of].iter().copied().collect();
    while let Some(next) = open.pop() {
        if found.insert(next) {
            open.extend(needs[next].iter().copied());
        }
    }
    found
}

fn piece<'a>(
    trip: &Trip,
    ground: &Ground,
    (module, segment): (&'a Module, &'a Segment),
    name: Id,
    needs: Vec<usize>,
    spares: bool,
) -> Piece<'a> {
    let covers = segment
        .objectives
        .iter()
        .map(|id| format!("{}.{id}", module.id))
        .filter(|id| !trip.course.known.contains(id))
        .flat_map(|id| {
            steps(segment.kind, segment.flame)
                .iter()
                .map(move |(step, worth)| (format!("{id} {step}"), *worth))
        })
        .collect();
    let mut places: Vec<usize> = (0..trip.kitchens.len())
        .filter(|index| {
            let kitchen = &trip.kitchens[*index];
            burns(&module.applies, kitchen) && burns(&segment.applies, kitchen)
        })
        .collect();
    if places.is_empty() {
        places = (0..trip.kitchens.len()).collect();
    }
    if segment.flame {
        places.retain(|index| may_be_lit(trip, &trip.kitchens[*index]));
    }
    let least = whole(segment.least).max(1);
    let usual = whole(segment.usual).max(least);
    let mut piece = Piece {
        module,
        segment,
        name,
        covers,
        least,
        usual,
        least_in_all: None,
        usual_in_all: None,
        watched: segment.learners_per_instructor.max(1),
        places,
        needs,
    };
    let in_all = |piece: &Piece<'_>, minutes| {
        let mut burners = Burners::cold(spares);
        let rounds = rotation::rounds(ground, piece, minutes, 0, &mut burners)?;
        Some(rounds.iter().map(|round| round.minutes).sum())
    };
    // A minute more a round can be quicker in all, where a burner is cold again a round sooner.
    if let Some(quickest) = (least..=usual)
        .filter(|_| segment.flame)
        .filter_map(|minutes| in_all(&piece, minutes).map(|all: u32| (all, minutes)))
        .min()
    {
        piece.least = quickest.1;
    }
    piece.least_in_all = in_all(&piece, piece.least);
    piece.usual_in_all = in_all(&piece, usual);
    piece
}

/// Whether the fire rule in force allows a kitchen's stove; one that nobody asked about is asked
/// about before the first flame.
fn may_be_lit(trip: &Trip, kitchen: &Kitchen) -> bool {
    match trip.restrictions.stoves {
        Some(StoveRule::No) => false,
        Some(StoveRule::WithShutOff) => kitchen.stove.shut_off,
        _ => true,
    }
}

/// Whether a kitchen has the fuel and stove that something is about.
fn burns(when: &AppliesWhen, kitchen: &Kitchen) -> bool {
    (when.fuel.is_empty() || when.fuel.contains(&kitchen.fuel.kind))
        && (when.stove.is_empty() || when.stove.contains(&kitchen.stove.family))
}

/// The steps that a segment takes with an objective and what each is worth, once: so that a
/// second telling adds little, and doing at the flame what was done dry still adds much.
const fn steps(kind: SegmentKind, flame: bool) -> &'static [(&'static str, u32)] {
    match (kind, flame) {
        (SegmentKind::Talk | SegmentKind::Show, false) => &[("shown", 1)],
        (SegmentKind::Talk | SegmentKind::Show, true) => &[("shown", 1), ("lit", 1)],
        (SegmentKind::SayIt, true) => &[("shown", 1), ("lit", 1), ("practised", 2)],
        (SegmentKind::SayIt | SegmentKind::DryRun, _)
        | (SegmentKind::DoTogether | SegmentKind::YouDoIt, false) => {
            &[("shown", 1), ("practised", 2)]
        }
        (SegmentKind::DoTogether | SegmentKind::YouDoIt, true) => &[
            ("shown", 1),
            ("lit", 1),
            ("practised", 2),
            ("practised-lit", 2),
        ],
        (SegmentKind::Check, _) => &[("shown", 1), ("practised", 2), ("assessed", 2)],
    }
}
